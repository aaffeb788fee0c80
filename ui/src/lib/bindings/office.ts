// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.
import type { HouseView, DrawingView, StepView } from './house';
import type { PhotosView, MarkView } from './photos';

export type InboxView = { 
/**
 * The packets.
 */
packets: Array<ArrivalView>, 
/**
 * How many houses they are of.
 */
houses: number, 
/**
 * Files laid into the watched folder that were refused and still lie there, the latest first; the last few.
 */
refused: Array<RefusedView>, 
/**
 * How many of them there are.
 */
refusedInAll: number, };

export type ArrivalView = { 
/**
 * SHA-256 of the file, in hexadecimal.
 */
packet: string, 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label of the house.
 */
label: string, 
/**
 * Its number among the house's packets.
 */
number: number, 
/**
 * When it was received.
 */
receivedAt: string, 
/**
 * When it was sealed, by the device's clock; none where the packet cannot be opened any more.
 */
sealedAt: string | null, 
/**
 * Name of the device, as its certificate has it; none where it has none.
 */
device: string | null, 
/**
 * Its length in bytes.
 */
bytes: number, 
/**
 * Photographs inside.
 */
photos: number, 
/**
 * Answers, notes and other entries inside.
 */
entries: number, 
/**
 * What its seal is worth, in words.
 */
seal: string, 
/**
 * True when the firm vouches for the key that sealed it.
 */
certified: boolean, 
/**
 * Why it cannot be opened here any more; none while it can.
 */
trouble: string | null, 
/**
 * Conditions with a finding, of those in its forecast.
 */
entered: number, 
/**
 * Conditions in its forecast.
 */
conditions: number, 
/**
 * True for the packet whose forecast its house is judged by.
 */
judged: boolean, 
/**
 * True when it was sealed after demolition was declared: its forecast counts as none in time.
 */
afterDemolition: boolean, 
/**
 * False when the same packet had come before; none in the list.
 */
firstTime: boolean | null, };

export type RefusedView = { 
/**
 * Its name as it lies set aside.
 */
name: string, 
/**
 * When.
 */
at: string, 
/**
 * Why, and what to do.
 */
why: string, };

export type OfficeHouseView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * True where owners see it and those they named, and nobody else.
 */
closed: boolean, 
/**
 * Its packets, the last one first.
 */
packets: Array<ArrivalView>, 
/**
 * The one that is shown; what follows is of that one.
 */
packet: string, 
/**
 * The household's signature in it, if it signed.
 */
signature: SignatureView | null, 
/**
 * What was answered, by place in walking order.
 */
record: HouseView, 
/**
 * When its demolition began as the office knows it, in a sentence; none while nothing says so.
 */
demolition: string | null, 
/**
 * Its photographs by place.
 */
photos: PhotosView, 
/**
 * What was calculated.
 */
calculations: Array<CalculationLineView>, 
/**
 * What can be printed.
 */
pages: Array<PageLineView>, 
/**
 * P50, P80, P90 of the unknown in money, cents.
 */
moneyCents: [number, number, number], 
/**
 * The same in days, as they are said.
 */
daysSaid: [string, string, string], 
/**
 * The caution that goes with every assessment.
 */
caution: string, };

export type SignatureView = { 
/**
 * The name as it was typed.
 */
name: string, 
/**
 * When, by the device's clock.
 */
at: string, 
/**
 * The sentence that stood above the line.
 */
said: string, 
/**
 * The lines as the data of an SVG path; none where it was signed by name alone.
 */
drawn: string | null, 
/**
 * Width of the field they were drawn in.
 */
wide: number, 
/**
 * Its height.
 */
high: number, };

export type CalculationLineView = { 
/**
 * Its title.
 */
title: string, 
/**
 * The place, where the house has several.
 */
place: string | null, 
/**
 * within, near, beyond, ask-locally, cannot-say, quantity.
 */
standing: string, 
/**
 * The result in a sentence.
 */
sentence: string, 
/**
 * Who decides.
 */
caution: string, };

export type PageLineView = { 
/**
 * Its name within the packet, as it is asked for.
 */
name: string, 
/**
 * Its length in bytes.
 */
bytes: number, };

export type FindingsView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * The packet whose forecast counts.
 */
packet: string, 
/**
 * When that was frozen.
 */
frozenAt: string, 
/**
 * The stages in which a house is opened, each with its conditions, the likeliest first.
 */
stages: Array<StageView>, 
/**
 * What was found although the forecast does not hold it, in the order it was first entered.
 */
others: Array<OtherRowView>, 
/**
 * What else can be found: conditions of the catalog that have no row yet, by name.
 */
choices: Array<OtherChoiceView>, 
/**
 * The caution that goes with every assessment.
 */
caution: string, };

export type StageView = { 
/**
 * Its id.
 */
id: string, 
/**
 * Its name.
 */
name: string, 
/**
 * What it lays bare.
 */
rows: Array<FindingRowView>, };

export type FindingRowView = { 
/**
 * Its key.
 */
key: string, 
/**
 * Its name.
 */
name: string, 
/**
 * The place, where the house has several.
 */
place: string | null, 
/**
 * Probability said.
 */
probability: number, 
/**
 * Probability with the plan of work alone.
 */
base: number, 
/**
 * Where the probability could fairly lie.
 */
band: [number, number] | null, 
/**
 * "about 7 in 10".
 */
aboutIn10: string, 
/**
 * "likely".
 */
words: string, 
/**
 * Cost if it is there: low, likely, high, cents.
 */
costCents: [number, number, number], 
/**
 * Days if it is there, as they are said: low, likely, high.
 */
daysSaid: [string, string, string], 
/**
 * What to do about it, as it was advised.
 */
advice: string, 
/**
 * True when the base price holds it, so that it is in no sum.
 */
inBasePrice: boolean, 
/**
 * Who decides.
 */
caution: string, 
/**
 * What moved the odds most, in words.
 */
because: Array<string>, 
/**
 * How the odds came about.
 */
path: Array<StepView>, 
/**
 * Photographs of the survey that show what speaks for or against it.
 */
pictures: Array<SurveyPictureView>, 
/**
 * The finding that stands.
 */
finding: FoundView | null, 
/**
 * Findings entered before that one; they stay in the record.
 */
earlier: number, };

export type OtherRowView = { 
/**
 * Its key.
 */
key: string, 
/**
 * Its name.
 */
name: string, 
/**
 * The place, where the house has several.
 */
place: string | null, 
/**
 * The finding that stands.
 */
finding: FoundView, 
/**
 * Findings entered before that one; they stay in the record.
 */
earlier: number, };

export type OtherChoiceView = { 
/**
 * Its key.
 */
key: string, 
/**
 * Its name.
 */
name: string, 
/**
 * The place, where the house has several.
 */
place: string | null, };

export type SurveyPictureView = { 
/**
 * Its digest.
 */
digest: string, 
/**
 * When it was taken in.
 */
at: string, 
/**
 * The place in words; none where it belongs to none.
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
marks: Array<MarkView>, };

export type HoldsView = "not-said" | "nothing" | "version" | "another";

export type OutcomeView = "found" | "not-there" | "not-opened";

export type BorneView = "in-price" | "allowance" | "change-order" | "absorbed" | "not-said";

export type FoundView = { 
/**
 * What was found.
 */
outcome: OutcomeView, 
/**
 * What it cost, cents.
 */
costCents: number, 
/**
 * Working days it added, in tenths.
 */
daysTenths: number, 
/**
 * Who bore the cost.
 */
borne: BorneView, 
/**
 * Words.
 */
note: string, 
/**
 * Its photograph, by digest.
 */
photo: string | null, 
/**
 * Who entered it.
 */
by: string, 
/**
 * When.
 */
at: string, };

export type ComparedView = { 
/**
 * Survey id.
 */
survey: string, 
/**
 * Label.
 */
label: string, 
/**
 * When the forecast was frozen.
 */
frozenAt: string, 
/**
 * Conditions of the forecast.
 */
conditions: number, 
/**
 * Of those, opened: only they are scored.
 */
opened: number, 
/**
 * Of those opened, found.
 */
found: number, 
/**
 * What it came to, cents.
 */
cameCents: number, 
/**
 * Of that, found after the price was fixed, cents.
 */
lateCents: number, 
/**
 * How many of the twenty dots lie below it; none where the forecast was frozen without them.
 */
below: number | null, 
/**
 * Where that lies, as "between P50 and P80".
 */
moneyLies: string, 
/**
 * What it came to, hung through the money that was forecast; none where that was frozen without its shape.
 */
money: DrawingView | null, 
/**
 * Days it took, as they are said.
 */
daysSaid: string, 
/**
 * Where that lies.
 */
daysLies: string, 
/**
 * The same for the days.
 */
days: DrawingView | null, 
/**
 * Where the money fell, in the order the bar is drawn.
 */
fell: Array<FellView>, 
/**
 * Conditions that were opened, the largest difference first.
 */
rows: Array<DifferenceView>, 
/**
 * Conditions that were not opened or have no finding yet: they count neither way.
 */
unopened: Array<UnopenedView>, 
/**
 * How the odds scored; none while nothing was opened.
 */
scores: ScoresView | null, 
/**
 * The caution that goes with every assessment.
 */
caution: string, };

export type FellView = { 
/**
 * Who bore it.
 */
borne: BorneView, 
/**
 * How much, cents.
 */
cents: number, 
/**
 * Its share of the whole, 0 to 1.
 */
share: number, };

export type DifferenceView = { 
/**
 * Its key.
 */
key: string, 
/**
 * Its name, with the place where the house has several.
 */
name: string, 
/**
 * "about 7 in 10"; none where the forecast held it out of scope.
 */
aboutIn10: string | null, 
/**
 * What was found.
 */
outcome: OutcomeView, 
/**
 * What was carried for it on average, cents.
 */
carriedCents: number, 
/**
 * What it came to, cents.
 */
cameCents: number, 
/**
 * `carried_cents` as a share of the longest bar, 0 to 1.
 */
carried: number, 
/**
 * `came_cents` as a share of the longest bar, 0 to 1.
 */
came: number, 
/**
 * Found although hardly expected.
 */
missed: boolean, 
/**
 * Not there although expected.
 */
falseAlarm: boolean, 
/**
 * How the odds came about, where one answer led the wrong way.
 */
misled: MisledView | null, };

export type MisledView = { 
/**
 * Probability with the plan of work alone.
 */
base: number, 
/**
 * The steps from there.
 */
path: Array<StepView>, 
/**
 * The one of them that led furthest the wrong way.
 */
wrong: number, };

export type UnopenedView = { 
/**
 * Its key.
 */
key: string, 
/**
 * Its name, with the place where the house has several.
 */
name: string, 
/**
 * "about 7 in 10".
 */
aboutIn10: string, 
/**
 * True when somebody entered that it was not opened; false while nothing was entered.
 */
entered: boolean, };

export type ScoresView = { 
/**
 * Brier score of the forecast.
 */
brier: number, 
/**
 * Brier score of the base rates of the era.
 */
brierBase: number, 
/**
 * True while so few were opened that luck weighs heavily.
 */
few: boolean, };
