//! The shapes of photographs: those of a house by place, one with its marks, what was said when one was taken in, and
//! what was measured on one.

use serde::Serialize;

use crate::shape::view;

view! {
    /// The photographs of a house.
    PhotosView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// How many there are.
        photos: u32,
        /// The question they were asked for; none for the whole house.
        about: Option<PhotoAboutView>,
        /// By place in walking order, those of no place last. With a question, only those that show it.
        places: Vec<PhotoPlaceView>,
        /// Photographs that are wanted and missing; none with a question.
        wanted: Vec<PhotoAboutView>,
    }
}

view! {
    /// A question that a photograph belongs to.
    PhotoAboutView {
        /// Key of item and place.
        key: String,
        /// The question.
        question: String,
        /// The place in words.
        place: String,
        /// What the photograph must show.
        note: Option<String>,
    }
}

view! {
    /// The photographs of one place.
    PhotoPlaceView {
        /// The place in words; none for those of no place.
        place: Option<String>,
        /// Its photographs, in the order they were taken in.
        photos: Vec<PhotoCardView>,
    }
}

view! {
    /// One photograph in the list.
    PhotoCardView {
        /// Its digest.
        digest: String,
        /// Name of the file it came in.
        name: String,
        /// When it was taken in, by this device's clock.
        at: String,
        /// Who took it in.
        by: String,
        /// The questions it shows.
        shows: Vec<String>,
        /// Width of the upright picture, pixels.
        width: u32,
        /// Height of the upright picture, pixels.
        height: u32,
        /// The marks that stand, in the order they were made.
        marks: Vec<MarkView>,
    }
}

view! {
    /// A photograph just taken in.
    PhotoTakenView {
        /// Its digest.
        digest: String,
        /// True when this very picture was there already.
        known: bool,
        /// What its file said badly or not at all.
        complaints: Vec<String>,
        /// Reasons for taking it again while one still stands there, and clocks that differ.
        notes: Vec<String>,
    }
}

view! {
    /// A photograph with its marks.
    PhotoMarkedView {
        /// Its digest.
        digest: String,
        /// The place in words; none where it belongs to no place.
        place: Option<String>,
        /// The questions it shows.
        shows: Vec<String>,
        /// Width of the upright picture, pixels.
        width: u32,
        /// Height of the upright picture, pixels.
        height: u32,
        /// The marks that stand, in the order they were made.
        marks: Vec<MarkView>,
        /// Lengths a measurement on it can be the answer to: those it shows first, then the others of its places.
        lengths: Vec<PhotoAboutView>,
    }
}

/// What a mark is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum MarkKind {
    /// An arrow: tail, head.
    Arrow,
    /// A circle: middle, a point it runs through.
    Ring,
    /// Words: left end of their baseline.
    Words,
    /// A line with a length: its ends.
    Dimension,
    /// Something flat of known size: its corners.
    Paper,
}

view! {
    /// One mark.
    MarkView {
        /// The entry that made it.
        id: String,
        /// Who made it.
        by: String,
        /// What it is.
        kind: MarkKind,
        /// Its points, pixels of the upright picture: to the right, down.
        points: Vec<[f64; 2]>,
        /// What it says; empty where it has no words.
        text: String,
    }
}

view! {
    /// A length measured on a photograph.
    MeasuredOnPhotoView {
        /// The length in inches.
        inches: String,
        /// The length in millimeters.
        metric: String,
        /// ± two standard deviations.
        tolerance: String,
        /// Whole feet of the distance from which the picture must have been taken.
        distance_feet: u32,
        /// And the whole inches beyond.
        distance_inches: u32,
        /// True when the picture does not say its focal length and that of a phone was taken.
        focal_assumed: bool,
        /// The answer as recorded; none when nothing was.
        recorded: Option<String>,
        /// What to look at again although it was recorded.
        complaints: Vec<String>,
    }
}
