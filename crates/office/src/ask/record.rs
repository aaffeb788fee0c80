//! The track record, and what the houses teach.

use std::collections::BTreeMap;

use review::learn::Line;
use review::record::{By, track};
use serde::Deserialize;
use serde_json::Value;
use survey::SurveyId;
use views::office::{self, Houses, Progress};
use views::record_shape::{DecisionView, LearningState};

use super::{Arguments, Call, Nothing, write};
use crate::OfficeError;
use crate::learning::{self, Decided, Decision, Hand, Verdict};

/// Longest reason for a refusal, in letters.
const WHY: usize = 500;
/// So many decisions are told at most.
const DECIDED: usize = 60;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Asked {
    by: Option<Split>,
    #[serde(default)]
    include_seen: bool,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Split {
    All,
    Condition,
    Era,
    Scope,
    Surveyor,
    Month,
}

pub(super) fn record(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Asked { by, include_seen } = args.read()?;
    let by = by.and_then(|split| match split {
        Split::All => None,
        Split::Condition => Some(By::Condition),
        Split::Era => Some(By::Era),
        Split::Scope => Some(By::Scope),
        Split::Surveyor => Some(By::Surveyor),
        Split::Month => Some(By::Month),
    });
    let reviewed = call.desk.reviewed(call.catalog)?.seen_by(call.sight);
    let trained = call.desk.trained()?;
    let told = track(&reviewed.judged, &reviewed.not_judged, &reviewed.again, &trained, by, include_seen);
    let houses = Houses::new(&received(call)?, &reviewed.judged);
    write(&office::track(call.say(), &told, houses, include_seen))
}

/// Every house that whoever asks sees, by the label its last packet gave it.
fn received(call: &Call<'_>) -> Result<Vec<(SurveyId, String)>, OfficeError> {
    let packets = call.desk.packets()?;
    let seen = packets.into_iter().filter(|p| !call.sight.hides(p.survey));
    let labels: BTreeMap<SurveyId, String> = seen.map(|p| (p.survey, p.label)).collect();
    Ok(labels.into_iter().collect())
}

pub(super) fn learning(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Nothing {} = args.read()?;
    told(call)
}

/// Learning as far as it is.
fn told(call: &mut Call<'_>) -> Result<Value, OfficeError> {
    let reviewed = call.desk.reviewed(call.catalog)?;
    let known = learning::known(call.catalog, &call.desk.trained()?);
    let jobs = learning::left(&reviewed, &known);
    let received = received(call)?;
    let decided = call.desk.decided()?;
    let say = call.say();
    let found: Vec<office::Found<'_>> =
        jobs.iter().map(|(survey, _, found)| (*survey, found.as_slice())).collect();
    let taught = call.kept.work.on(call.catalog, &jobs);
    if taught.has_failed {
        return Err(OfficeError::Stopped);
    }
    let state = match (taught.is_here, taught.proposal) {
        (false, _) if !found.is_empty() => LearningState::Working,
        (true, Some(_)) => LearningState::Ready,
        _ => LearningState::None,
    };
    let progress = Progress {
        state,
        proposal: taught.proposal,
        scoring: !taught.is_whole && state != LearningState::None,
        known: known.len() as u32,
    };
    let view = |of: &Decided, one: &Decision| DecisionView {
        line: one.line.clone(),
        name: name(say, &one.line),
        accepted: one.verdict == Verdict::Accepted,
        why: one.why.clone(),
        by: of.by.clone(),
        at: of.at.to_string(),
    };
    let stands = |line: &Line| {
        decided.iter().find_map(|of| of.lines.iter().find(|d| d.is_about(line)).map(|d| view(of, d)))
    };
    let list = decided.iter().flat_map(|of| of.lines.iter().map(move |d| (of, d))).take(DECIDED);
    let list = list.map(|(of, d)| view(of, d)).collect();
    let houses = Houses::new(&received, &reviewed.judged);
    write(&office::learning(say, &progress, &found, houses, list, stands))
}

fn name(say: words::CatalogWords<'_>, line: &str) -> String {
    let condition = line.split('/').next().unwrap_or(line);
    let (condition, what) = (say.condition(condition).into_owned(), office::what(say, line));
    say.words.say(&words::msg!("learned-line", condition = condition, what = what))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Lines {
    lines: Vec<String>,
}

pub(super) fn accept(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Lines { lines } = args.read()?;
    let hand = Hand { by: call.by, now: call.now };
    // Only what was shown can be taken over: it was worked out from this catalog and these houses.
    let proposal = call.kept.work.last(call.catalog.digest).ok_or(OfficeError::NothingProposed)?;
    let accepted = call.desk.accept_learned(call.shelf, proposal, &lines, hand)?;
    write(&serde_json::json!({
        "lines": lines,
        "houses": accepted.trained.houses.len(),
        "catalog": accepted.catalog.digest.short(),
    }))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Refused {
    line: String,
    #[serde(default)]
    why: String,
}

pub(super) fn refuse(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Refused { line, why } = args.read()?;
    if why.chars().count() > WHY {
        return Err(OfficeError::LongNote { most: WHY });
    }
    let hand = Hand { by: call.by, now: call.now };
    let proposal = call.kept.work.last(call.catalog.digest).ok_or(OfficeError::NothingProposed)?;
    call.desk.refuse_learned(proposal, &line, &why, hand)?;
    told(call)
}
