//! Before the house is left: what disagrees, what is implausible, what is missing, and what is still worth asking.

use assessment::{Clashes, Live};
use survey::guide::Step;
use survey::{SurveyId, guide};

use crate::next::{Ask, Next, broken_off, next_of};
use crate::{Desk, Error};

/// Unasked items shown: those worth most.
const SHOWN: usize = 3;

/// What is still amiss in a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Leaving {
    /// Keys of items on which people said different things.
    pub disagreements: Vec<String>,
    /// Answers that disagree with each other under the model.
    pub clashes: Clashes,
    /// Keys of items measured outside the plausible range.
    pub implausible: Vec<String>,
    /// Keys of items answered though other answers rule the question out.
    pub ruled_out: Vec<String>,
    /// The unasked items worth most, best first.
    pub worth_most: Vec<Ask>,
    /// The rest of what [`crate::next()`] says.
    pub next: Next,
}

/// Says what is amiss before the house is left. Nothing is recorded.
///
/// # Errors
/// As [`crate::next()`].
pub fn before_leaving(desk: &Desk, survey: SurveyId) -> Result<Leaving, Error> {
    desk.still_walked(survey)?;
    let picture = desk.picture(survey)?;
    let gaps = guide::gaps(&desk.catalog, &picture);
    let keys = |steps: &[Step<'_>]| steps.iter().map(Step::key).collect();
    let mut live = Live::default();
    let request = desk.request(survey, &picture);
    let mut odds = live.odds(&request)?;
    let clashes = odds.clashes(&mut || true)?;
    let next = next_of(desk, &request, &mut odds, None, &mut || true)?.ok_or_else(broken_off)?;
    let mut worth_most = next.items.clone();
    worth_most.sort_by_key(|ask| std::cmp::Reverse(ask.value));
    worth_most.truncate(SHOWN);
    Ok(Leaving {
        disagreements: keys(&gaps.disagreements),
        clashes: clashes.unwrap_or(Clashes { measure: 0.0, list: Vec::new() }),
        implausible: keys(&gaps.implausible),
        ruled_out: keys(&gaps.ruled_out),
        worth_most,
        next,
    })
}
