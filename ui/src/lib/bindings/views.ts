// Made from crates/views/src/shape.rs by its test; run it with UPDATE_BINDINGS=1 to write.

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
moneyP80Cents: number | null, };

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
 * Latest frozen assessment.
 */
assessment: AssessmentView | null, };

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
 * When it was frozen.
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
 * Conditions in scope, likeliest first.
 */
conditions: Array<ConditionView>, 
/**
 * Trade calculations, in the order of the walk.
 */
calculations: Array<CalculationView>, 
/**
 * The caution that goes with it.
 */
caution: string, };

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
 * The drawing, as SVG for a wide and for a narrow screen.
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

export type DrawingView = { 
/**
 * For a tablet.
 */
wide: string, 
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
p90Cents: number, };

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
p90: number, };

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
because: Array<string>, };

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
weighed: boolean, };

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
several: boolean, };

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
 * Not while one of these.
 */
askFirst: Array<string>, 
/**
 * What it could change, most money first.
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

export type PhotosView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * How many there are.
 */
photos: number, 
/**
 * The question they were asked for; none for the whole house.
 */
about: PhotoAboutView | null, 
/**
 * By place in walking order, those of no place last. With a question, only those that show it.
 */
places: Array<PhotoPlaceView>, 
/**
 * Photographs that are wanted and missing; none with a question.
 */
wanted: Array<PhotoAboutView>, };

export type PhotoAboutView = { 
/**
 * Key of item and place.
 */
key: string, 
/**
 * The question.
 */
question: string, 
/**
 * The place in words.
 */
place: string, 
/**
 * What the photograph must show.
 */
note: string | null, };

export type PhotoPlaceView = { 
/**
 * The place in words; none for those of no place.
 */
place: string | null, 
/**
 * Its photographs, in the order they were taken in.
 */
photos: Array<PhotoCardView>, };

export type PhotoCardView = { 
/**
 * Its digest.
 */
digest: string, 
/**
 * Name of the file it came in.
 */
name: string, 
/**
 * When it was taken in, by this device's clock.
 */
at: string, 
/**
 * Who took it in.
 */
by: string, 
/**
 * The questions it shows.
 */
shows: Array<string>, 
/**
 * Marks that stand on it.
 */
marks: number, };

export type PhotoTakenView = { 
/**
 * Its digest.
 */
digest: string, 
/**
 * True when this very picture was there already.
 */
known: boolean, 
/**
 * What its file said badly or not at all.
 */
complaints: Array<string>, 
/**
 * Reasons for taking it again while one still stands there, and clocks that differ.
 */
notes: Array<string>, };

export type PhotoMarkedView = { 
/**
 * Its digest.
 */
digest: string, 
/**
 * The place in words; none where it belongs to no place.
 */
place: string | null, 
/**
 * The questions it shows.
 */
shows: Array<string>, 
/**
 * Width of the upright picture, pixels.
 */
width: number, 
/**
 * Height of the upright picture, pixels.
 */
height: number, 
/**
 * The marks that stand, in the order they were made.
 */
marks: Array<MarkView>, 
/**
 * Lengths a measurement on it can be the answer to: those it shows first, then the others of its places.
 */
lengths: Array<PhotoAboutView>, };

export type MarkKind = "arrow" | "ring" | "words" | "dimension" | "paper";

export type MarkView = { 
/**
 * The entry that made it.
 */
id: string, 
/**
 * Who made it.
 */
by: string, 
/**
 * What it is.
 */
kind: MarkKind, 
/**
 * Its points, pixels of the upright picture: to the right, down.
 */
points: Array<[number, number]>, 
/**
 * What it says; empty where it has no words.
 */
text: string, };

export type MeasuredOnPhotoView = { 
/**
 * The length in inches.
 */
inches: string, 
/**
 * The length in millimeters.
 */
metric: string, 
/**
 * ± two standard deviations.
 */
tolerance: string, 
/**
 * Whole feet of the distance from which the picture must have been taken.
 */
distanceFeet: number, 
/**
 * And the whole inches beyond.
 */
distanceInches: number, 
/**
 * True when the picture does not say its focal length and that of a phone was taken.
 */
focalAssumed: boolean, 
/**
 * The answer as recorded; none when nothing was.
 */
recorded: string | null, 
/**
 * What to look at again although it was recorded.
 */
complaints: Array<string>, };
