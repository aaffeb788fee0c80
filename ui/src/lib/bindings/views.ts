// Made from crates/views/src/shape.rs by its test; run it with UPDATE_BINDINGS=1 to write.

export type HouseCard = { survey: string, label: string, lastTouched: string, answered: number, wanted: number, photos: number, moneyP80Cents: number | null, };

export type HouseView = { survey: string, label: string, stations: Array<StationView>, photos: number, assessment: AssessmentView | null, };

export type StationView = { id: string, label: string, rows: Array<RowView>, };

export type RowKind = "answer" | "cant-tell" | "could-not-reach" | "disagreement" | "open";

export type RowView = { item: string, question: string, answer: string, kind: RowKind, entered: string | null, tolerance: string | null, by: string | null, at: string | null, rivals: Array<RivalView>, photos: number, };

export type RivalView = { answer: string, by: string, at: string, };

export type AssessmentView = { madeAt: string, catalog: string, engine: string, money: MoneyView, days: DaysView, conditions: Array<ConditionView>, caution: string, };

export type MoneyView = { meanCents: number, p50Cents: number, p80Cents: number, p90Cents: number, };

export type DaysView = { mean: number, p50: number, p80: number, p90: number, };

export type ConditionView = { id: string, name: string, probability: number, base: number, words: string, aboutIn10: string, recommendation: string, recommendationWords: string, costLowCents: number, costLikelyCents: number, costHighCents: number, caution: string, because: Array<string>, };
