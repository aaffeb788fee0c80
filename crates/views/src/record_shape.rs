//! The shapes of the office's record: how often forecasts came true over many houses, and what those houses teach.

use serde::Serialize;

use crate::shape::{DrawingView, view};

view! {
    /// The track record. Every number names the houses it rests on, by their place in `houses`.
    TrackView {
        /// All houses received, in the order of their names.
        houses: Vec<RecordHouseView>,
        /// All of it.
        all: RecordView,
        /// How often what was said came true, drawn; none while nothing was opened.
        drawing: Option<DrawingView>,
        /// By what it is split: condition, era, scope, surveyor, month.
        by: Option<String>,
        /// The parts, those with most outcomes first.
        groups: Vec<RecordGroupView>,
        /// True where a house can stand in several parts.
        overlap: bool,
        /// What is not in it, by reason.
        left_out: Vec<LeftOutView>,
        /// True where houses are in it whose own findings had taught the numbers that forecast them.
        with_seen: bool,
        /// The last forecast of houses that were forecast again; no track record.
        again: Option<RecordView>,
        /// Below so many outcomes, or so many houses, a record is small.
        #[cfg_attr(test, ts(type = "[number, number]"))]
        few: [u32; 2],
    }
}

view! {
    /// A house of the record.
    RecordHouseView {
        /// Survey id.
        survey: String,
        /// Label.
        label: String,
        /// When the forecast was frozen that judges it; none where none does.
        frozen_at: Option<String>,
        /// Conditions that were opened.
        opened: u32,
        /// Of those, found.
        found: u32,
        /// Money, once every condition has a finding.
        money: Option<RecordSumView>,
    }
}

view! {
    /// A sum that was forecast and what it came to.
    RecordSumView {
        /// P50, P80, P90, cents.
        #[cfg_attr(test, ts(type = "[number, number, number]"))]
        cents: [i64; 3],
        /// What it came to, cents.
        #[cfg_attr(test, ts(type = "number"))]
        came_cents: i64,
        /// False where a place stayed closed, so that it is a lower limit.
        whole: bool,
    }
}

view! {
    /// The record of some outcomes.
    RecordView {
        /// Houses with an outcome in the scores.
        houses: Vec<u32>,
        /// Conditions that were opened.
        opened: u32,
        /// Of those, found.
        found: u32,
        /// How many would have been found had every figure been right.
        expected: f64,
        /// Band of 95 in 100 around the share found, by Wilson; none while nothing was opened.
        band: Option<[f64; 2]>,
        /// Not opened: in no score.
        not_opened: u32,
        /// Without a finding yet: in no score.
        not_entered: u32,
        /// True where the numbers are small.
        small: bool,
        /// Scores; none while nothing was opened.
        scores: Option<RecordScoresView>,
        /// Forecasts in tenths that hold an outcome, lowest first.
        bins: Vec<BinView>,
        /// Money.
        money: Vec<RecordSumsView>,
        /// Days.
        days: Vec<RecordSumsView>,
    }
}

view! {
    /// Scores of odds. `brier` is `reliability` − `resolution` + `uncertainty`.
    RecordScoresView {
        /// Brier score; 0 is perfect.
        brier: f64,
        /// How far figures lie off what happened.
        reliability: f64,
        /// How far they tell outcomes apart.
        resolution: f64,
        /// What the outcomes themselves leave open.
        uncertainty: f64,
        /// Brier score of the base rates of the other houses.
        base_brier: f64,
        /// 1 − `brier` / `base_brier`; none where the base rates were perfect.
        brier_skill: Option<f64>,
        /// Log score, nats.
        log_score: f64,
        /// That of the base rates.
        base_log_score: f64,
        /// 1 − log score / that of the base rates.
        log_skill: Option<f64>,
        /// Area under the ROC curve; none where all outcomes are the same.
        auc: Option<f64>,
    }
}

view! {
    /// Forecasts between two tenths.
    BinView {
        /// "3 to 4 in 10".
        said: String,
        /// Outcomes.
        n: u32,
        /// Of those, found.
        found: u32,
        /// Mean of what was said.
        mean: f64,
        /// Band of 95 in 100 around the share found.
        band: [f64; 2],
        /// True where that band leaves out what was said.
        off: bool,
        /// Its houses.
        houses: Vec<u32>,
    }
}

view! {
    /// Sums of some houses: money or days.
    RecordSumsView {
        /// False where a place stayed closed in each of them, so that what they came to are lower limits.
        whole: bool,
        /// The houses.
        houses: Vec<u32>,
        /// What they came to on average, in words.
        came: String,
        /// By how much the forecast lay off on average (CRPS), in words; none where one was frozen without its shape.
        off_by: Option<String>,
        /// How many stayed at or below P50, P80, P90.
        #[cfg_attr(test, ts(type = "[number, number, number]"))]
        within: [u32; 3],
        /// Bands of 95 in 100 around those shares.
        bands: [[f64; 2]; 3],
    }
}

view! {
    /// A part of the record.
    RecordGroupView {
        /// Its name.
        name: String,
        /// Its record.
        record: RecordView,
    }
}

view! {
    /// Houses that are not in the record, for one reason.
    LeftOutView {
        /// no-findings, no-forecast-in-time, nothing-opened, catalog-saw-it.
        why: String,
        /// The houses.
        houses: Vec<u32>,
    }
}

view! {
    /// What opened houses teach about the catalog's numbers.
    LearningView {
        /// none, working, ready: whether there is something, and whether it is worked out.
        state: LearningState,
        /// True while the score on houses apart is still being worked out.
        scoring: bool,
        /// First digits of the catalog's digest.
        catalog: String,
        /// Houses it is learned from.
        houses: Vec<RecordHouseView>,
        /// Houses that stand in the catalog's numbers already.
        known: u32,
        /// Why some houses say nothing.
        skipped: Vec<String>,
        /// Score on houses that were not learned from, all conditions.
        held_out: Option<HeldOutView>,
        /// What can be taken over, surest first.
        lines: Vec<LearnedLineView>,
        /// What was decided, the last first.
        decided: Vec<DecisionView>,
    }
}

/// How far learning is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[cfg_attr(test, derive(ts_rs::TS))]
#[serde(rename_all = "kebab-case")]
pub enum LearningState {
    /// No house says anything.
    None,
    /// It is being worked out.
    Working,
    /// It is here.
    Ready,
}

view! {
    /// A log score on opened places of houses that were not learned from; less is better.
    HeldOutView {
        /// Opened places.
        outcomes: u32,
        /// By the catalog as it is.
        before: f64,
        /// By what the others teach.
        after: f64,
    }
}

view! {
    /// One thing to be taken over or left.
    LearnedLineView {
        /// Its id, as the command line names it.
        id: String,
        /// Name of the condition.
        condition: String,
        /// What it is of it: its base share, a clue, a check.
        what: String,
        /// Its numbers.
        numbers: Vec<LearnedNumberView>,
        /// Houses that bear on it.
        houses: u32,
        /// The houses in which the condition was opened, by their place in the list of houses.
        seen: Vec<u32>,
        /// Places that were opened.
        opened: u32,
        /// Of those, found.
        found: u32,
        /// How many houses the old numbers count for.
        weight: u32,
        /// Score of this condition on houses apart.
        held_out: Option<HeldOutView>,
        /// True where the numbers are small.
        small: bool,
        /// What was decided of just these numbers.
        decided: Option<DecisionView>,
    }
}

view! {
    /// One number, old and new, from 0 to 1.
    LearnedNumberView {
        /// Which: an era, "if it is there".
        what: String,
        /// What the catalog says.
        old: f64,
        /// What is proposed.
        new: f64,
        /// Interval of 90 in 100 around it.
        interval: [f64; 2],
    }
}

view! {
    /// What somebody decided of a proposed line.
    DecisionView {
        /// Id of the line.
        line: String,
        /// Name of the condition and what of it.
        name: String,
        /// True when it was taken over, false when it was refused.
        accepted: bool,
        /// Why it was refused.
        why: String,
        /// Who.
        by: String,
        /// When.
        at: String,
    }
}
