// Made from crates/views/src/*shape.rs by the test in shape.rs; run it with UPDATE_BINDINGS=1 to write.

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
