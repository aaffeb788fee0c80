//! The shapes of the walk: where it stands, one card, what to look at next, what is amiss before the house is left.

use serde::Serialize;

use crate::shape::{DemolitionView, RivalView, RowKind, TakenOutView, view};

view! {
    /// The walk of one house, at one card.
    WalkView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// Number of the card among the questions that matter now, from 1; 0 without a card.
        position: u32,
        /// Questions that matter now.
        wanted: u32,
        /// Of these, answered.
        answered: u32,
        /// The stops in walking order, those with a question that matters.
        stops: Vec<StopView>,
        /// Places that were taken out; what was recorded there is kept.
        taken_out: Vec<TakenOutView>,
        /// The card; none when every question is answered.
        card: Option<CardView>,
        /// The last act that can be undone.
        undo: Option<ActView>,
        /// P80 of the latest frozen assessment, cents.
        #[cfg_attr(test, ts(type = "number | null"))]
        money_p80_cents: Option<i64>,
        /// True once it is known which questions nothing depends on any more.
        weighed: bool,
        /// The declaration of demolition that ended the walk: its cards are to be read only.
        demolition: Option<DemolitionView>,
    }
}

view! {
    /// One stop of the walk.
    StopView {
        /// Id of the place.
        place: String,
        /// Id of its station.
        station: String,
        /// The place in words.
        label: String,
        /// Its questions that matter now, in order.
        cards: Vec<StopCardView>,
        /// Photographs that are wanted there and missing.
        photos_missing: u32,
        /// True where a house can have several of it, so that another can be added.
        several: bool,
        /// Its own name, where it has one.
        name: Option<String>,
        /// True when it was added, so that it can be taken out again.
        added: bool,
        /// Answers recorded there.
        answers: u32,
        /// True where it can be walked before the stop before it.
        earlier: bool,
        /// True where it can be walked after the stop after it.
        later: bool,
    }
}

view! {
    /// One question in the list of a stop.
    StopCardView {
        /// Key of item and place.
        key: String,
        /// The question.
        question: String,
        /// What stands.
        kind: RowKind,
    }
}

/// What an answer is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum CardKind {
    /// One option.
    Choice,
    /// One or more options.
    Choices,
    /// A length.
    Length,
    /// A number.
    Number,
    /// Results of checks; recorded where the look is offered.
    Checks,
}

/// Whether a photograph is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum PhotoView {
    /// None.
    None,
    /// It helps.
    Optional,
    /// It is needed.
    Needed,
}

view! {
    /// One card: a question at a place, and what it takes.
    CardView {
        /// Key of item and place.
        key: String,
        /// Item id.
        item: String,
        /// Id of the place.
        place: String,
        /// Id of its station.
        station: String,
        /// The place in words.
        place_label: String,
        /// The question.
        question: String,
        /// Why it is asked, in one line.
        why: String,
        /// What hangs on it in this house, where that has been worked out.
        bears_on: Option<String>,
        /// What an answer is made of.
        kind: CardKind,
        /// The options.
        options: Vec<OptionView>,
        /// Unit of a number or a length; empty for a count or a year.
        unit: String,
        /// True where it may lie below its plane.
        signed: bool,
        /// What is counted, the scale it is read on, or the base a slope is read over.
        scale: Option<String>,
        /// What zero means.
        zero_means: Option<String>,
        /// Whether a photograph is wanted.
        photo: PhotoView,
        /// What the photograph must show.
        photo_note: Option<String>,
        /// Photographs there are.
        photos: u32,
        /// What stands, if anything does.
        standing: Option<StandingView>,
        /// Remarks about it.
        notes: Vec<String>,
        /// Tolerance of the last length measured in this house, as it was said.
        tolerance: Option<String>,
        /// True when the last length measured in this house was said in metric units.
        metric: bool,
        /// Key of the card before.
        before: Option<String>,
        /// Key of the card after.
        after: Option<String>,
    }
}

view! {
    /// One option.
    OptionView {
        /// Option id.
        id: String,
        /// Words shown.
        label: String,
        /// True when it stands.
        chosen: bool,
        /// True when it excludes all others.
        alone: bool,
    }
}

view! {
    /// What stands for a question.
    StandingView {
        /// What kind.
        kind: RowKind,
        /// The answer in words.
        answer: String,
        /// As it was entered.
        entered: Option<String>,
        /// Tolerance in words.
        tolerance: Option<String>,
        /// Who.
        by: String,
        /// When.
        at: String,
        /// Claims that differ.
        rivals: Vec<RivalView>,
    }
}

view! {
    /// An act that can be undone.
    ActView {
        /// Key of the card it was done on, or of none.
        key: Option<String>,
        /// What was asked, or the place.
        what: String,
        /// What was said.
        said: String,
        /// Acts that can be undone, this one included.
        #[cfg_attr(test, ts(type = "number"))]
        left: u32,
    }
}

view! {
    /// What an act brought: the walk as it stands after it.
    DoneView {
        /// What was recorded, in words.
        said: String,
        /// What to look at again although it was taken.
        complaints: Vec<String>,
        /// The walk.
        walk: WalkView,
    }
}

view! {
    /// A length read from what was typed.
    LengthView {
        /// False when it has no one meaning.
        read: bool,
        /// In inches and sixteenths.
        inches: String,
        /// In feet, inches and sixteenths.
        feet: String,
        /// In millimeters.
        metric: String,
        /// Whole inches and sixteenths of the magnitude, for the tape.
        whole: u32,
        /// Sixteenths of the magnitude beyond the whole inches, 0 to 15, ties away from zero.
        sixteenths: u32,
        /// Why it has no meaning or two, or what is unusual.
        note: Option<String>,
        /// Why it lies outside what is plausible.
        outside: Option<String>,
    }
}

view! {
    /// What to look at next.
    LookNextView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// At most three, best first.
        looks: Vec<LookView>,
        /// Minutes of all of them.
        minutes: f64,
        /// "8 in 10": how much of what answers can be worth is gathered.
        gathered: String,
        /// The question whose answer is worth most, where no look is worth its minutes.
        ask: Option<AskView>,
        /// What to do first where the odds cannot be worked out.
        trouble: Option<String>,
    }
}

view! {
    /// One look.
    LookView {
        /// Check id.
        check: String,
        /// What, with its place where the house has several.
        label: String,
        /// How far it reaches into the house, in words.
        how: String,
        /// Who does it.
        who: String,
        /// Minutes.
        minutes: f64,
        /// What it is worth on average, less its cost, cents.
        #[cfg_attr(test, ts(type = "number"))]
        worth_cents: i64,
        /// Which of several places one time of it serves, in words.
        serves: Option<String>,
        /// Not while one of these.
        ask_first: Vec<String>,
        /// What it could change, most money first; at every place it serves.
        changes: Vec<ChangeView>,
    }
}

view! {
    /// How one look could move the odds of one condition.
    ChangeView {
        /// Key of the condition.
        key: String,
        /// Its name.
        name: String,
        /// P(present) now, 0 to 1.
        now: f64,
        /// P(present) if the look shows it.
        if_yes: f64,
        /// P(present) if it does not.
        if_no: f64,
        /// Who decides.
        caution: String,
    }
}

view! {
    /// One question worth asking.
    AskView {
        /// Key of item and place.
        key: String,
        /// The question.
        question: String,
        /// Why it is asked now.
        why: String,
        /// What its answer is worth on average, cents.
        #[cfg_attr(test, ts(type = "number"))]
        worth_cents: i64,
    }
}

view! {
    /// What is amiss before the house is left.
    LeavingView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// People said different things.
        disagreements: Vec<AmissView>,
        /// Answers that do not go together.
        clashes: Vec<ClashView>,
        /// Measured outside what is plausible.
        implausible: Vec<AmissView>,
        /// Answered, though other answers rule the question out.
        ruled_out: Vec<AmissView>,
        /// Photographs wanted and missing.
        photos: Vec<AmissView>,
        /// The unasked questions worth most, at most three.
        ask: Vec<AskView>,
        /// "8 in 10": how much of what answers can be worth is gathered.
        gathered: Option<String>,
        /// What to do first where the odds cannot be worked out.
        trouble: Option<String>,
        /// What was recorded, counted.
        counts: CountsView,
    }
}

view! {
    /// One thing amiss.
    AmissView {
        /// Key of item and place.
        key: String,
        /// The place in words.
        place: String,
        /// The question, or what a photograph must show.
        question: String,
        /// What stands, in words.
        answer: String,
        /// Claims that differ.
        rivals: Vec<RivalView>,
    }
}

view! {
    /// Two answers that do not go together, or one that goes with none.
    ClashView {
        /// The surprising one.
        one: AmissView,
        /// The one it clashes with most.
        other: Option<AmissView>,
        /// "2 in 100": its chance in view of all other answers.
        chance: String,
    }
}

view! {
    /// What was recorded, counted.
    CountsView {
        /// Answers that state something, lengths apart.
        answers: u32,
        /// Lengths.
        measurements: u32,
        /// Photographs.
        photos: u32,
        /// "Can't tell".
        cant_tell: u32,
        /// "Could not reach".
        not_reached: u32,
        /// Remarks.
        notes: u32,
    }
}

view! {
    /// What a house is started with.
    StartFormView {
        /// The kinds of work that can be planned.
        works: Vec<OptionView>,
        /// Who walks, as last said on this device.
        by: String,
    }
}

view! {
    /// Where the screens were left.
    LeftView {
        /// The house that was on the screen.
        survey: Option<String>,
    }
}
