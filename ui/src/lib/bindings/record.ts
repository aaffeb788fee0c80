// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.
import type { DrawingView } from './house';

export type TrackView = { 
/**
 * All houses received, in the order of their names.
 */
houses: Array<RecordHouseView>, 
/**
 * All of it.
 */
all: RecordView, 
/**
 * How often what was said came true, drawn; none while nothing was opened.
 */
drawing: DrawingView | null, 
/**
 * By what it is split: condition, era, scope, surveyor, month.
 */
by: string | null, 
/**
 * The parts, those with most outcomes first.
 */
groups: Array<RecordGroupView>, 
/**
 * True where a house can stand in several parts.
 */
overlap: boolean, 
/**
 * What is not in it, by reason.
 */
leftOut: Array<LeftOutView>, 
/**
 * True where houses are in it whose own findings had taught the numbers that forecast them.
 */
withSeen: boolean, 
/**
 * The last forecast of houses that were forecast again; no track record.
 */
again: RecordView | null, 
/**
 * Below so many outcomes, or so many houses, a record is small.
 */
few: [number, number], };

export type RecordHouseView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * When the forecast was frozen that judges it; none where none does.
 */
frozenAt: string | null, 
/**
 * Conditions that were opened.
 */
opened: number, 
/**
 * Of those, found.
 */
found: number, 
/**
 * Money, once every condition has a finding.
 */
money: RecordSumView | null, };

export type RecordSumView = { 
/**
 * P50, P80, P90, cents.
 */
cents: [number, number, number], 
/**
 * What it came to, cents.
 */
cameCents: number, 
/**
 * False where a place stayed closed, so that it is a lower limit.
 */
whole: boolean, };

export type RecordView = { 
/**
 * Houses with an outcome in the scores.
 */
houses: Array<number>, 
/**
 * Conditions that were opened.
 */
opened: number, 
/**
 * Of those, found.
 */
found: number, 
/**
 * How many would have been found had every figure been right.
 */
expected: number, 
/**
 * Band of 95 in 100 around the share found, by Wilson; none while nothing was opened.
 */
band: [number, number] | null, 
/**
 * Not opened: in no score.
 */
notOpened: number, 
/**
 * Without a finding yet: in no score.
 */
notEntered: number, 
/**
 * True where the numbers are small.
 */
small: boolean, 
/**
 * Scores; none while nothing was opened.
 */
scores: RecordScoresView | null, 
/**
 * Forecasts in tenths that hold an outcome, lowest first.
 */
bins: Array<BinView>, 
/**
 * Money.
 */
money: Array<RecordSumsView>, 
/**
 * Days.
 */
days: Array<RecordSumsView>, };

export type RecordScoresView = { 
/**
 * Brier score; 0 is perfect.
 */
brier: number, 
/**
 * How far figures lie off what happened.
 */
reliability: number, 
/**
 * How far they tell outcomes apart.
 */
resolution: number, 
/**
 * What the outcomes themselves leave open.
 */
uncertainty: number, 
/**
 * Brier score of the base rates of the other houses.
 */
baseBrier: number, 
/**
 * 1 − `brier` / `base_brier`; none where the base rates were perfect.
 */
brierSkill: number | null, 
/**
 * Log score, nats.
 */
logScore: number, 
/**
 * That of the base rates.
 */
baseLogScore: number, 
/**
 * 1 − log score / that of the base rates.
 */
logSkill: number | null, 
/**
 * Area under the ROC curve; none where all outcomes are the same.
 */
auc: number | null, };

export type BinView = { 
/**
 * "3 to 4 in 10".
 */
said: string, 
/**
 * Outcomes.
 */
n: number, 
/**
 * Of those, found.
 */
found: number, 
/**
 * Mean of what was said.
 */
mean: number, 
/**
 * Band of 95 in 100 around the share found.
 */
band: [number, number], 
/**
 * True where that band leaves out what was said.
 */
off: boolean, 
/**
 * Its houses.
 */
houses: Array<number>, };

export type RecordSumsView = { 
/**
 * False where a place stayed closed in each of them, so that what they came to are lower limits.
 */
whole: boolean, 
/**
 * The houses.
 */
houses: Array<number>, 
/**
 * What they came to on average, in words.
 */
came: string, 
/**
 * By how much the forecast lay off on average (CRPS), in words; none where one was frozen without its shape.
 */
offBy: string | null, 
/**
 * How many stayed at or below P50, P80, P90.
 */
within: [number, number, number], 
/**
 * Bands of 95 in 100 around those shares.
 */
bands: [[number, number], [number, number], [number, number]], };

export type RecordGroupView = { 
/**
 * Its name.
 */
name: string, 
/**
 * Its record.
 */
record: RecordView, };

export type LeftOutView = { 
/**
 * no-findings, no-forecast-in-time, nothing-opened, catalog-saw-it.
 */
why: string, 
/**
 * The houses.
 */
houses: Array<number>, };

export type LearningView = { 
/**
 * none, working, ready: whether there is something, and whether it is worked out.
 */
state: LearningState, 
/**
 * True while the score on houses apart is still being worked out.
 */
scoring: boolean, 
/**
 * First digits of the catalog's digest.
 */
catalog: string, 
/**
 * Houses it is learned from.
 */
houses: Array<RecordHouseView>, 
/**
 * Houses that stand in the catalog's numbers already.
 */
known: number, 
/**
 * Why some houses say nothing.
 */
skipped: Array<string>, 
/**
 * Score on houses that were not learned from, all conditions.
 */
heldOut: HeldOutView | null, 
/**
 * What can be taken over, surest first.
 */
lines: Array<LearnedLineView>, 
/**
 * What was decided, the last first.
 */
decided: Array<DecisionView>, };

export type LearningState = "none" | "working" | "ready";

export type HeldOutView = { 
/**
 * Opened places.
 */
outcomes: number, 
/**
 * By the catalog as it is.
 */
before: number, 
/**
 * By what the others teach.
 */
after: number, };

export type LearnedLineView = { 
/**
 * Its id, as the command line names it.
 */
id: string, 
/**
 * Name of the condition.
 */
condition: string, 
/**
 * What it is of it: its base share, a clue, a check.
 */
what: string, 
/**
 * Its numbers.
 */
numbers: Array<LearnedNumberView>, 
/**
 * Houses that bear on it.
 */
houses: number, 
/**
 * The houses in which the condition was opened, by their place in the list of houses.
 */
seen: Array<number>, 
/**
 * Places that were opened.
 */
opened: number, 
/**
 * Of those, found.
 */
found: number, 
/**
 * How many houses the old numbers count for.
 */
weight: number, 
/**
 * Score of this condition on houses apart.
 */
heldOut: HeldOutView | null, 
/**
 * True where the numbers are small.
 */
small: boolean, 
/**
 * What was decided of just these numbers.
 */
decided: DecisionView | null, };

export type LearnedNumberView = { 
/**
 * Which: an era, "if it is there".
 */
what: string, 
/**
 * What the catalog says.
 */
old: number, 
/**
 * What is proposed.
 */
new: number, 
/**
 * Interval of 90 in 100 around it.
 */
interval: [number, number], };

export type DecisionView = { 
/**
 * Id of the line.
 */
line: string, 
/**
 * Name of the condition and what of it.
 */
name: string, 
/**
 * True when it was taken over, false when it was refused.
 */
accepted: boolean, 
/**
 * Why it was refused.
 */
why: string, 
/**
 * Who.
 */
by: string, 
/**
 * When.
 */
at: string, };
