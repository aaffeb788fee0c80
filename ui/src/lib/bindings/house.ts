// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.

export type HouseCard = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * When it was last touched.
 */
lastTouched: string, 
/**
 * Items answered of those that matter now.
 */
answered: number, 
/**
 * Items that matter now.
 */
wanted: number, 
/**
 * Photographs.
 */
photos: number, 
/**
 * P80 of the latest assessment, cents.
 */
moneyP80Cents: number | null, 
/**
 * The last packet sealed on this device.
 */
packet: CardPacketView | null, 
/**
 * True where demolition was declared: its walk is over.
 */
demolition: boolean, };

export type CardPacketView = { 
/**
 * Its number.
 */
number: number, 
/**
 * Entries recorded since.
 */
since: number, };

export type HouseView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * Stations in walking order, those with anything to show.
 */
stations: Array<StationView>, 
/**
 * Places that were taken out; what was recorded there is kept.
 */
takenOut: Array<TakenOutView>, 
/**
 * Photographs.
 */
photos: number, 
/**
 * What was frozen last.
 */
frozen: FrozenView | null, 
/**
 * The declaration of demolition that ended the walk.
 */
demolition: DemolitionView | null, 
/**
 * Declarations that were withdrawn, in the order of the log.
 */
withdrawn: Array<WithdrawnView>, };

export type StationView = { 
/**
 * Station id.
 */
id: string, 
/**
 * Id of the place: the station's, or that of one of several.
 */
place: string, 
/**
 * Label of the station.
 */
label: string, 
/**
 * Name of the place, where the house has several.
 */
placeLabel: string | null, 
/**
 * Its items.
 */
rows: Array<RowView>, };

export type TakenOutView = { 
/**
 * Id of the place.
 */
place: string, 
/**
 * Station it is a place of.
 */
station: string, 
/**
 * Its name.
 */
label: string, 
/**
 * Why.
 */
reason: string | null, 
/**
 * Answers recorded there, kept.
 */
answers: number, };

export type RowKind = "answer" | "cant-tell" | "could-not-reach" | "disagreement" | "open";

export type RowView = { 
/**
 * Item id.
 */
item: string, 
/**
 * The question.
 */
question: string, 
/**
 * The answer in words.
 */
answer: string, 
/**
 * What stands.
 */
kind: RowKind, 
/**
 * The answer as it was entered, where that differs.
 */
entered: string | null, 
/**
 * Tolerance in words.
 */
tolerance: string | null, 
/**
 * Who.
 */
by: string | null, 
/**
 * When.
 */
at: string | null, 
/**
 * Claims that differ.
 */
rivals: Array<RivalView>, 
/**
 * Photographs that show it.
 */
photos: number, };

export type RivalView = { 
/**
 * The answer in words.
 */
answer: string, 
/**
 * Who.
 */
by: string, 
/**
 * When.
 */
at: string, };

export type AssessmentView = { 
/**
 * When it was worked out.
 */
madeAt: string, 
/**
 * Catalog version and the first digits of its digest.
 */
catalog: string, 
/**
 * Engine.
 */
engine: string, 
/**
 * The unknown in money.
 */
money: MoneyView, 
/**
 * The unknown in working days.
 */
days: DaysView, 
/**
 * Conditions that weigh most in the money, the heaviest first.
 */
weights: Array<WeightView>, 
/**
 * Conditions in scope, likeliest first.
 */
conditions: Array<ConditionView>, 
/**
 * The caution that goes with it.
 */
caution: string, };

export type FrozenView = { 
/**
 * When.
 */
madeAt: string, 
/**
 * Money to carry at P80, in cents.
 */
p80Cents: number, 
/**
 * Catalog version and the first digits of its digest.
 */
catalog: string, 
/**
 * Name and version of what computed.
 */
engine: string, };

export type DemolitionView = { 
/**
 * Who declared it.
 */
by: string, 
/**
 * When.
 */
at: string, 
/**
 * A remark.
 */
reason: string | null, 
/**
 * What a walk recorded after it: kept, and counted nowhere.
 */
setAside: Array<SetAsideView>, 
/**
 * False once the house was sealed after it: the office may have been told.
 */
canWithdraw: boolean, };

export type SetAsideView = { 
/**
 * What was asked, or the place, or the house.
 */
what: string, 
/**
 * What was said.
 */
said: string, 
/**
 * Who.
 */
by: string, 
/**
 * When.
 */
at: string, };

export type WithdrawnView = { 
/**
 * Who withdrew it.
 */
by: string, 
/**
 * When.
 */
at: string, 
/**
 * Why.
 */
reason: string, };

export type OddsNowView = { 
/**
 * What is exceeded in 2 of 10 houses like this one, in cents; none where the odds cannot be worked out.
 */
p80Cents: number | null, 
/**
 * All of it, if it was asked for.
 */
assessment: AssessmentView | null, 
/**
 * Whether the reasons are in it, and how each condition came to its odds.
 */
whole: boolean, 
/**
 * What to do first where the odds cannot be worked out.
 */
trouble: string | null, };

export type DrawingView = { 
/**
 * For a tablet held upright.
 */
wide: string, 
/**
 * For a tablet held on its side, with words beside it.
 */
beside: string, 
/**
 * For a phone.
 */
narrow: string, };

export type MoneyView = { 
/**
 * Mean.
 */
meanCents: number, 
/**
 * P50.
 */
p50Cents: number, 
/**
 * P80.
 */
p80Cents: number, 
/**
 * P90.
 */
p90Cents: number, 
/**
 * How far the simulation may be off at P80: one standard error, cents.
 */
p80ErrorCents: number, 
/**
 * Joint draws made.
 */
draws: number, 
/**
 * The twenty dots; none of an assessment that was frozen without its shape.
 */
drawing: DrawingView | null, };

export type DaysView = { 
/**
 * Mean.
 */
mean: number, 
/**
 * P50.
 */
p50: number, 
/**
 * P80.
 */
p80: number, 
/**
 * P90.
 */
p90: number, 
/**
 * P50, P80, P90 in words, to the half day.
 */
said: [string, string, string], 
/**
 * The draws in bars; none of an assessment that was frozen without their shape.
 */
drawing: DrawingView | null, };

export type WeightView = { 
/**
 * Key of the condition.
 */
id: string, 
/**
 * Its name, with the place where the house has several.
 */
name: string, 
/**
 * "about 7 in 10".
 */
aboutIn10: string, 
/**
 * What it costs on average over all houses like this one, cents.
 */
averageCents: number, 
/**
 * What it costs if it is there, low, cents.
 */
lowCents: number, 
/**
 * And high.
 */
highCents: number, 
/**
 * The average, 0 to 1.
 */
average: number, 
/**
 * The low end, 0 to 1.
 */
low: number, 
/**
 * The high end, 0 to 1.
 */
high: number, };

export type ConditionView = { 
/**
 * Key of the condition.
 */
id: string, 
/**
 * Name.
 */
name: string, 
/**
 * Name of its place, where the house has several.
 */
place: string | null, 
/**
 * P(present), 0 to 1.
 */
probability: number, 
/**
 * Before any answer, 0 to 1.
 */
base: number, 
/**
 * "likely", "expect it" and so on.
 */
words: string, 
/**
 * "about 7 in 10".
 */
aboutIn10: string, 
/**
 * Where it could fairly lie, 0 to 1: low and high.
 */
band: [number, number] | null, 
/**
 * The same in words: "between 5 and 8 in 10"; empty without a band.
 */
bandWords: string, 
/**
 * Kind of recommendation.
 */
recommendation: string, 
/**
 * The recommendation in a sentence.
 */
recommendationWords: string, 
/**
 * Cost if it becomes one, cents.
 */
costLowCents: number, 
/**
 * Likely cost, cents.
 */
costLikelyCents: number, 
/**
 * High cost, cents.
 */
costHighCents: number, 
/**
 * Who decides.
 */
caution: string, 
/**
 * Answers that moved it, in words.
 */
because: Array<string>, 
/**
 * How the estimate came about, from the base rate, answer by answer; empty where nothing moved it, and of an
 * assessment that was frozen without it.
 */
path: Array<StepView>, };

export type StepView = { 
/**
 * What was asked; how many answers, where several are one step.
 */
question: string, 
/**
 * What was answered; empty where several are one step.
 */
answer: string, 
/**
 * How far it moved the estimate, in words: "far up".
 */
how: string, 
/**
 * P(present) after it, 0 to 1.
 */
to: number, 
/**
 * The same in words: "about 7 in 10".
 */
aboutIn10: string, };
