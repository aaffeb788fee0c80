// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.
import type { DrawingView } from './house';

export type FitsView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * By trade, in the order of the walk.
 */
trades: Array<TradeView>, };

export type TradeView = { 
/**
 * Its name.
 */
name: string, 
/**
 * Its calculations.
 */
fits: Array<FitRowView>, };

export type FitRowView = { 
/**
 * Its word, with "@" and the place where the house has several.
 */
key: string, 
/**
 * Its title, with the place where the house has several.
 */
title: string, 
/**
 * within, near, beyond, ask-locally, cannot-say, quantity; none where nothing was worked out from the walk.
 */
standing: string | null, 
/**
 * The result in a sentence; what it answers, where there is no result.
 */
sentence: string, 
/**
 * True where the walk asks what it needs.
 */
fromWalk: boolean, };

export type FitView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label of the house.
 */
label: string, 
/**
 * Its key, as in the list.
 */
key: string, 
/**
 * What it answers, in one sentence.
 */
about: string, 
/**
 * The result; none before anything was given to a calculation the walk does not ask for.
 */
result: CalculationView | null, 
/**
 * True where the result is of figures typed here; nothing of them is recorded.
 */
byHand: boolean, 
/**
 * What the walk says to it, in the order it is read; empty where the walk does not ask for it.
 */
inputs: Array<InputView>, 
/**
 * What may be typed.
 */
fields: Array<FieldView>, };

export type InputView = { 
/**
 * Key of its card.
 */
key: string, 
/**
 * The question.
 */
question: string, 
/**
 * What stands; none where nothing does.
 */
answer: string | null, 
/**
 * Tolerance in words.
 */
tolerance: string | null, 
/**
 * Who said it.
 */
by: string | null, 
/**
 * When.
 */
at: string | null, 
/**
 * Photographs that show it.
 */
photos: number, };

export type FieldKind = "line" | "word" | "rows";

export type FieldView = { 
/**
 * Its name.
 */
name: string, 
/**
 * The question.
 */
ask: string, 
/**
 * What may be written, in words.
 */
takes: string, 
/**
 * What kind of answer.
 */
kind: FieldKind, 
/**
 * The words to choose from.
 */
words: Array<string>, 
/**
 * True when nothing can be said without it.
 */
must: boolean, 
/**
 * What is taken when it is left out.
 */
otherwise: string | null, 
/**
 * What was given: by the walk, or typed here.
 */
given: string, 
/**
 * Of rows, what stands in a row, in order: a name and what it takes each.
 */
columns: Array<string>, };

export type CalculationView = { 
/**
 * Its word.
 */
word: string, 
/**
 * Its title.
 */
title: string, 
/**
 * within, near, beyond, ask-locally, cannot-say, quantity.
 */
standing: string, 
/**
 * The result in a sentence.
 */
sentence: string, 
/**
 * What would have to be known.
 */
missing: Array<string>, 
/**
 * Single changes that would help.
 */
changes: Array<string>, 
/**
 * The arithmetic: a name and a reading each.
 */
arithmetic: Array<LineView>, 
/**
 * Values used.
 */
limits: Array<LimitView>, 
/**
 * What was taken because nobody said.
 */
assumed: Array<string>, 
/**
 * What else to know.
 */
notes: Array<string>, 
/**
 * Who decides.
 */
caution: string, 
/**
 * The drawing.
 */
drawing: DrawingView | null, };

export type LineView = { 
/**
 * What comes out.
 */
label: string, 
/**
 * The sum with its result.
 */
text: string, };

export type LimitView = { 
/**
 * The rule.
 */
rule: string, 
/**
 * The value with its unit.
 */
value: string, 
/**
 * Document, edition, clause, and whether it was published.
 */
place: string, };
