//! The shapes of trade calculations: those of a house by trade, and one with what it was worked out from.

use serde::Serialize;

use crate::shape::{CalculationView, view};

view! {
    /// Every trade calculation by trade, with what this house says of each.
    FitsView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// By trade, in the order of the walk.
        trades: Vec<TradeView>,
    }
}

view! {
    /// The calculations of one trade.
    TradeView {
        /// Its name.
        name: String,
        /// Its calculations.
        fits: Vec<FitRowView>,
    }
}

view! {
    /// One calculation in the list.
    FitRowView {
        /// Its word, with "@" and the place where the house has several.
        key: String,
        /// Its title, with the place where the house has several.
        title: String,
        /// within, near, beyond, ask-locally, cannot-say, quantity; none where nothing was worked out from the walk.
        standing: Option<String>,
        /// The result in a sentence; what it answers, where there is no result.
        sentence: String,
        /// True where the walk asks what it needs.
        from_walk: bool,
    }
}

view! {
    /// One calculation.
    FitView {
        /// Survey id.
        survey: String,
        /// Label of the house.
        label: String,
        /// Its key, as in the list.
        key: String,
        /// What it answers, in one sentence.
        about: String,
        /// The result; none before anything was given to a calculation the walk does not ask for.
        result: Option<CalculationView>,
        /// True where the result is of figures typed here; nothing of them is recorded.
        by_hand: bool,
        /// What the walk says to it, in the order it is read; empty where the walk does not ask for it.
        inputs: Vec<InputView>,
        /// What may be typed.
        fields: Vec<FieldView>,
    }
}

view! {
    /// A question of the walk that bears on a calculation.
    InputView {
        /// Key of its card.
        key: String,
        /// The question.
        question: String,
        /// What stands; none where nothing does.
        answer: Option<String>,
        /// Tolerance in words.
        tolerance: Option<String>,
        /// Who said it.
        by: Option<String>,
        /// When.
        at: Option<String>,
        /// Photographs that show it.
        photos: u32,
    }
}

/// Kind of a field.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum FieldKind {
    /// A length, a number or words on one line.
    Line,
    /// One of some words.
    Word,
    /// Several rows, one on each line.
    Rows,
}

view! {
    /// Something a calculation asks.
    FieldView {
        /// Its name.
        name: String,
        /// The question.
        ask: String,
        /// What may be written, in words.
        takes: String,
        /// What kind of answer.
        kind: FieldKind,
        /// The words to choose from.
        words: Vec<String>,
        /// True when nothing can be said without it.
        must: bool,
        /// What is taken when it is left out.
        otherwise: Option<String>,
        /// What was given: by the walk, or typed here.
        given: String,
        /// Of rows, what stands in a row, in order: a name and what it takes each.
        columns: Vec<String>,
    }
}
