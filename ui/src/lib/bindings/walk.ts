// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.
import type { TakenOutView, RowKind, RivalView, DemolitionView } from './house';

export type WalkView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * Number of the card among the questions that matter now, from 1; 0 without a card.
 */
position: number, 
/**
 * Questions that matter now.
 */
wanted: number, 
/**
 * Of these, answered.
 */
answered: number, 
/**
 * The stops in walking order, those with a question that matters.
 */
stops: Array<StopView>, 
/**
 * Places that were taken out; what was recorded there is kept.
 */
takenOut: Array<TakenOutView>, 
/**
 * The card; none when every question is answered.
 */
card: CardView | null, 
/**
 * The last act that can be undone.
 */
undo: ActView | null, 
/**
 * P80 of the latest frozen assessment, cents.
 */
moneyP80Cents: number | null, 
/**
 * True once it is known which questions nothing depends on any more.
 */
weighed: boolean, 
/**
 * The declaration of demolition that ended the walk: its cards are to be read only.
 */
demolition: DemolitionView | null, };

export type StopView = { 
/**
 * Id of the place.
 */
place: string, 
/**
 * Id of its station.
 */
station: string, 
/**
 * The place in words.
 */
label: string, 
/**
 * Its questions that matter now, in order.
 */
cards: Array<StopCardView>, 
/**
 * Photographs that are wanted there and missing.
 */
photosMissing: number, 
/**
 * True where a house can have several of it, so that another can be added.
 */
several: boolean, 
/**
 * Its own name, where it has one.
 */
name: string | null, 
/**
 * True when it was added, so that it can be taken out again.
 */
added: boolean, 
/**
 * Answers recorded there.
 */
answers: number, 
/**
 * True where it can be walked before the stop before it.
 */
earlier: boolean, 
/**
 * True where it can be walked after the stop after it.
 */
later: boolean, };

export type StopCardView = { 
/**
 * Key of item and place.
 */
key: string, 
/**
 * The question.
 */
question: string, 
/**
 * What stands.
 */
kind: RowKind, };

export type CardKind = "choice" | "choices" | "length" | "number" | "checks";

export type PhotoView = "none" | "optional" | "needed";

export type CardView = { 
/**
 * Key of item and place.
 */
key: string, 
/**
 * Item id.
 */
item: string, 
/**
 * Id of the place.
 */
place: string, 
/**
 * Id of its station.
 */
station: string, 
/**
 * The place in words.
 */
placeLabel: string, 
/**
 * The question.
 */
question: string, 
/**
 * Why it is asked, in one line.
 */
why: string, 
/**
 * What hangs on it in this house, where that has been worked out.
 */
bearsOn: string | null, 
/**
 * What an answer is made of.
 */
kind: CardKind, 
/**
 * The options.
 */
options: Array<OptionView>, 
/**
 * Unit of a number or a length; empty for a count or a year.
 */
unit: string, 
/**
 * True where it may lie below its plane.
 */
signed: boolean, 
/**
 * What is counted, the scale it is read on, or the base a slope is read over.
 */
scale: string | null, 
/**
 * What zero means.
 */
zeroMeans: string | null, 
/**
 * Whether a photograph is wanted.
 */
photo: PhotoView, 
/**
 * What the photograph must show.
 */
photoNote: string | null, 
/**
 * Photographs there are.
 */
photos: number, 
/**
 * What stands, if anything does.
 */
standing: StandingView | null, 
/**
 * Remarks about it.
 */
notes: Array<string>, 
/**
 * Tolerance of the last length measured in this house, as it was said.
 */
tolerance: string | null, 
/**
 * True when the last length measured in this house was said in metric units.
 */
metric: boolean, 
/**
 * Key of the card before.
 */
before: string | null, 
/**
 * Key of the card after.
 */
after: string | null, };

export type OptionView = { 
/**
 * Option id.
 */
id: string, 
/**
 * Words shown.
 */
label: string, 
/**
 * True when it stands.
 */
chosen: boolean, 
/**
 * True when it excludes all others.
 */
alone: boolean, };

export type StandingView = { 
/**
 * What kind.
 */
kind: RowKind, 
/**
 * The answer in words.
 */
answer: string, 
/**
 * As it was entered.
 */
entered: string | null, 
/**
 * Tolerance in words.
 */
tolerance: string | null, 
/**
 * Who.
 */
by: string, 
/**
 * When.
 */
at: string, 
/**
 * Claims that differ.
 */
rivals: Array<RivalView>, };

export type ActView = { 
/**
 * Key of the card it was done on, or of none.
 */
key: string | null, 
/**
 * What was asked, or the place.
 */
what: string, 
/**
 * What was said.
 */
said: string, 
/**
 * Acts that can be undone, this one included.
 */
left: number, };

export type DoneView = { 
/**
 * What was recorded, in words.
 */
said: string, 
/**
 * What to look at again although it was taken.
 */
complaints: Array<string>, 
/**
 * The walk.
 */
walk: WalkView, };

export type LengthView = { 
/**
 * False when it has no one meaning.
 */
read: boolean, 
/**
 * In inches and sixteenths.
 */
inches: string, 
/**
 * In feet, inches and sixteenths.
 */
feet: string, 
/**
 * In millimeters.
 */
metric: string, 
/**
 * Whole inches and sixteenths of the magnitude, for the tape.
 */
whole: number, 
/**
 * Sixteenths of the magnitude beyond the whole inches, 0 to 15, ties away from zero.
 */
sixteenths: number, 
/**
 * Why it has no meaning or two, or what is unusual.
 */
note: string | null, 
/**
 * Why it lies outside what is plausible.
 */
outside: string | null, };

export type LookNextView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * At most three, best first.
 */
looks: Array<LookView>, 
/**
 * Minutes of all of them.
 */
minutes: number, 
/**
 * "8 in 10": how much of what answers can be worth is gathered.
 */
gathered: string, 
/**
 * The question whose answer is worth most, where no look is worth its minutes.
 */
ask: AskView | null, 
/**
 * What to do first where the odds cannot be worked out.
 */
trouble: string | null, };

export type LookView = { 
/**
 * Check id.
 */
check: string, 
/**
 * What, with its place where the house has several.
 */
label: string, 
/**
 * How far it reaches into the house, in words.
 */
how: string, 
/**
 * Who does it.
 */
who: string, 
/**
 * Minutes.
 */
minutes: number, 
/**
 * What it is worth on average, less its cost, cents.
 */
worthCents: number, 
/**
 * Which of several places one time of it serves, in words.
 */
serves: string | null, 
/**
 * Not while one of these.
 */
askFirst: Array<string>, 
/**
 * What it could change, most money first; at every place it serves.
 */
changes: Array<ChangeView>, };

export type ChangeView = { 
/**
 * Key of the condition.
 */
key: string, 
/**
 * Its name.
 */
name: string, 
/**
 * P(present) now, 0 to 1.
 */
now: number, 
/**
 * P(present) if the look shows it.
 */
ifYes: number, 
/**
 * P(present) if it does not.
 */
ifNo: number, 
/**
 * Who decides.
 */
caution: string, };

export type AskView = { 
/**
 * Key of item and place.
 */
key: string, 
/**
 * The question.
 */
question: string, 
/**
 * Why it is asked now.
 */
why: string, 
/**
 * What its answer is worth on average, cents.
 */
worthCents: number, };

export type LeavingView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * People said different things.
 */
disagreements: Array<AmissView>, 
/**
 * Answers that do not go together.
 */
clashes: Array<ClashView>, 
/**
 * Measured outside what is plausible.
 */
implausible: Array<AmissView>, 
/**
 * Answered, though other answers rule the question out.
 */
ruledOut: Array<AmissView>, 
/**
 * Photographs wanted and missing.
 */
photos: Array<AmissView>, 
/**
 * The unasked questions worth most, at most three.
 */
ask: Array<AskView>, 
/**
 * "8 in 10": how much of what answers can be worth is gathered.
 */
gathered: string | null, 
/**
 * What to do first where the odds cannot be worked out.
 */
trouble: string | null, 
/**
 * What was recorded, counted.
 */
counts: CountsView, };

export type AmissView = { 
/**
 * Key of item and place.
 */
key: string, 
/**
 * The place in words.
 */
place: string, 
/**
 * The question, or what a photograph must show.
 */
question: string, 
/**
 * What stands, in words.
 */
answer: string, 
/**
 * Claims that differ.
 */
rivals: Array<RivalView>, };

export type ClashView = { 
/**
 * The surprising one.
 */
one: AmissView, 
/**
 * The one it clashes with most.
 */
other: AmissView | null, 
/**
 * "2 in 100": its chance in view of all other answers.
 */
chance: string, };

export type CountsView = { 
/**
 * Answers that state something, lengths apart.
 */
answers: number, 
/**
 * Lengths.
 */
measurements: number, 
/**
 * Photographs.
 */
photos: number, 
/**
 * "Can't tell".
 */
cantTell: number, 
/**
 * "Could not reach".
 */
notReached: number, 
/**
 * Remarks.
 */
notes: number, };

export type StartFormView = { 
/**
 * The kinds of work that can be planned.
 */
works: Array<OptionView>, 
/**
 * Who walks, as last said on this device.
 */
by: string, };

export type LeftView = { 
/**
 * The house that was on the screen.
 */
survey: string | null, };
