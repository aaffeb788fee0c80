//! What houses teach, line by line, in the language of `say`.

use std::collections::BTreeMap;

use review::learn::{Changed, HeldOut, Line, Proposal};
use review::{Finding, Outcome};
use survey::{Key, SurveyId};
use words::{CatalogWords, msg};

use super::record::{Houses, era};
use crate::record_shape::{
    DecisionView, HeldOutView, LearnedLineView, LearnedNumberView, LearningState, LearningView,
};

/// How much of learning is done.
pub struct Progress<'a> {
    /// How far it is.
    pub state: LearningState,
    /// What is proposed so far.
    pub proposal: Option<&'a Proposal>,
    /// True while the score on houses apart is still being worked out.
    pub scoring: bool,
    /// Houses that stand in the catalog's numbers already.
    pub known: u32,
}

/// The findings of a house; the latest for each condition counts.
pub type Found<'a> = (SurveyId, &'a [Finding]);

/// What houses teach; `decided` are all decisions, the last first, and `stands` gives the one about just these numbers.
pub fn learning(
    say: CatalogWords<'_>,
    progress: &Progress<'_>,
    found: &[Found<'_>],
    houses: Houses,
    decided: Vec<DecisionView>,
    stands: impl Fn(&Line) -> Option<DecisionView>,
) -> LearningView {
    let seen = seen(found);
    let lines = progress.proposal.map(|p| p.lines.as_slice()).unwrap_or_default();
    let line = |l: &Line| {
        let outcomes = seen.get(l.condition.as_str()).map(Vec::as_slice).unwrap_or_default();
        let mut here: Vec<SurveyId> = outcomes.iter().map(|(survey, _)| *survey).collect();
        here.dedup();
        LearnedLineView {
            id: l.id.clone(),
            condition: say.condition(&l.condition).into_owned(),
            what: what(say, &l.id),
            numbers: l.numbers.iter().map(|n| number(say, n)).collect(),
            houses: l.houses,
            seen: houses.places(&here),
            opened: outcomes.len() as u32,
            found: outcomes.iter().filter(|(_, there)| *there).count() as u32,
            weight: libm::round(l.weight) as u32,
            held_out: l.held_out.map(held_out),
            small: l.small,
            decided: stands(l),
        }
    };
    LearningView {
        state: progress.state,
        scoring: progress.scoring,
        catalog: say.catalog.digest.short(),
        known: progress.known,
        skipped: progress
            .proposal
            .map(|p| p.skipped.iter().map(|(_, why)| why.clone()).collect())
            .unwrap_or_default(),
        held_out: progress.proposal.and_then(|p| p.held_out).map(held_out),
        lines: lines.iter().map(line).collect(),
        decided,
        houses: houses.into_list(),
    }
}

/// Opened places by condition, house by house.
fn seen<'a>(found: &[Found<'a>]) -> BTreeMap<&'a str, Vec<(SurveyId, bool)>> {
    let mut seen: BTreeMap<&str, Vec<(SurveyId, bool)>> = BTreeMap::new();
    for (survey, findings) in found {
        let latest: BTreeMap<&str, Outcome> =
            findings.iter().map(|f| (f.condition.as_str(), f.outcome)).collect();
        for (key, outcome) in latest {
            let there = match outcome {
                Outcome::Found => true,
                Outcome::NotThere => false,
                Outcome::NotOpened => continue,
            };
            seen.entry(Key::parse(key).id).or_default().push((*survey, there));
        }
    }
    seen
}

fn held_out(h: HeldOut) -> HeldOutView {
    HeldOutView { outcomes: h.outcomes, before: h.before, after: h.after }
}

/// What of a condition a line is about, by its id.
pub fn what(say: CatalogWords<'_>, line: &str) -> String {
    let words = say.words;
    let mut parts = line.splitn(3, '/').skip(1);
    match (parts.next(), parts.next()) {
        (Some("clue"), Some(id)) => match say.catalog.clues.get(id) {
            Some(clue) => words.catalog(&format!("clue-{id}"), &clue.words).into_owned(),
            None => id.to_owned(),
        },
        (Some("check"), Some(id)) => say.check(id).into_owned(),
        _ => words.say(&msg!("learned-share")),
    }
}

fn number(say: CatalogWords<'_>, n: &Changed) -> LearnedNumberView {
    let words = say.words;
    let parts: Vec<&str> = n.key.split('.').collect();
    let what = match parts.as_slice() {
        ["prior", band] => era(say, band),
        [.., "if-absent-by-band", band] => words.say(&msg!("learned-absent-era", era = era(say, band))),
        [.., "if-present"] => words.say(&msg!("learned-present")),
        [.., "if-absent"] => words.say(&msg!("learned-absent")),
        [.., "sensitivity"] => words.say(&msg!("learned-sensitivity")),
        [.., "specificity"] => words.say(&msg!("learned-specificity")),
        _ => n.key.clone(),
    };
    LearnedNumberView { what, old: n.old, new: n.new, interval: n.interval }
}
