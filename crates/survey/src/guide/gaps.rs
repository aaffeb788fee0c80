//! What is still amiss before the house is left.

use super::{Status, Step, WantedPhoto, answered_but_skipped, photos, seen_by, walk};
use crate::catalog::{AnswerError, Catalog};
use crate::model::Picture;

/// Gaps and contradictions that the answers themselves show.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Gaps<'a> {
    /// People said different things.
    pub disagreements: Vec<Step<'a>>,
    /// Measured outside the plausible range, and meant.
    pub implausible: Vec<Step<'a>>,
    /// Answered, though other answers rule the question out.
    pub ruled_out: Vec<Step<'a>>,
    /// Photographs that are wanted and missing.
    pub photos: Vec<WantedPhoto<'a>>,
}

/// What the answers themselves show to be amiss, in walking order.
pub fn gaps<'a>(catalog: &'a Catalog, picture: &'a Picture) -> Gaps<'a> {
    let steps = walk(catalog, picture);
    let outside = |step: &Step<'_>| {
        let value = seen_by(step.item, step.place, picture).value(&step.item.id);
        let fits = value.map(|value| step.item.check(value));
        matches!(fits, Some(Err(AnswerError::OutOfRange { .. })))
    };
    Gaps {
        disagreements: steps.iter().filter(|s| s.status == Status::Disagreed).copied().collect(),
        implausible: steps.iter().filter(|s| s.status == Status::Answered && outside(s)).copied().collect(),
        ruled_out: answered_but_skipped(catalog, picture),
        photos: photos(catalog, picture).into_iter().filter(|p| p.missing).collect(),
    }
}
