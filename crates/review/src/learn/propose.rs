//! Proposals: old number, new number, how sure, from how many houses, and what the learned catalog would have scored on
//! houses it had not learned from.

use std::collections::{BTreeMap, BTreeSet};

use assessment::decision::LossRules;
use assessment::{ClueTables, Live, Request};
use serde::Serialize;
use survey::catalog::Catalog;
use survey::{Digest, Key, SurveyId};

use super::Job;
use super::climb::{Learned, learn, stated};
use super::numbers::{Group, Id, Number, met, numbers, rounded, weight};
use super::shift::{chance, logit};
use super::tally::Counts;
use crate::finding::Outcome;
use crate::record::{SMALL_HOUSES, is_small};
use crate::scores::log_score;
use crate::scores::wilson::NINETY;

/// Parts into which houses are split for the held-out score; each is scored by what the others taught.
pub const FOLDS: usize = 5;
/// A line whose numbers move less than this in log odds is not worth a decision.
const WORTH: f64 = 0.02;

/// What houses propose.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Proposal {
    /// Version of this form; 1.
    pub v: u32,
    /// Digest of the catalog it starts from.
    pub catalog: Digest,
    /// Houses it was learned from.
    pub houses: Vec<SurveyId>,
    /// Houses that say nothing, with the reason.
    pub skipped: Vec<(SurveyId, String)>,
    /// Log posterior at the start and after each step, nats.
    pub log_posterior: Vec<f64>,
    /// Log score on held-out houses, all conditions; none below two houses a fold.
    pub held_out: Option<HeldOut>,
    /// What can be taken over, surest first.
    pub lines: Vec<Line>,
}

/// One thing to be taken over or left.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Line {
    /// `<condition>/prior`, `<condition>/clue/<clue>`, `<condition>/check/<check>`.
    pub id: String,
    /// Condition id.
    pub condition: String,
    /// Its numbers.
    pub numbers: Vec<Changed>,
    /// Houses that bear on it.
    pub houses: u32,
    /// Places in them that were opened.
    pub opened: u32,
    /// How many houses the old numbers count for.
    pub weight: f64,
    /// Log score of this condition on held-out houses.
    pub held_out: Option<HeldOut>,
    /// True where opened places or houses are few ([`is_small`]).
    pub small: bool,
}

/// One number.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Changed {
    /// Key within the condition.
    pub key: String,
    /// What the catalog says.
    pub old: f64,
    /// What is proposed.
    pub new: f64,
    /// 90 % interval around it.
    pub interval: [f64; 2],
    /// How many houses the new number would count for.
    pub jobs: u32,
}

/// A log score in nats before and after, over the same outcomes; less is better.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct HeldOut {
    /// Opened places.
    pub outcomes: u32,
    /// By the catalog as it is.
    pub before: f64,
    /// By catalogs that learned from the other folds.
    pub after: f64,
}

/// Proposes from houses; with `folds` the held-out scores too, which takes [`FOLDS`] times as long. `None` where no house
/// says anything.
pub fn propose(catalog: &Catalog, jobs: &[Job<'_>], folds: bool) -> Option<Proposal> {
    let learned = learn(catalog, jobs)?;
    let out: BTreeSet<SurveyId> = learned.skipped.iter().map(|s| s.survey).collect();
    let mut houses: Vec<SurveyId> = jobs.iter().map(|j| j.survey).filter(|s| !out.contains(s)).collect();
    houses.sort();
    houses.dedup();
    let scores = if folds { held_out(catalog, jobs) } else { Scored::default() };
    let mut lines = lines(catalog, &learned, &scores);
    lines.sort_by(|(a, x), (b, y)| b.total_cmp(a).then_with(|| x.id.cmp(&y.id)));
    Some(Proposal {
        v: 1,
        catalog: catalog.digest,
        houses,
        skipped: learned.skipped.into_iter().map(|s| (s.survey, s.why)).collect(),
        log_posterior: learned.log_posterior,
        held_out: scores.of(|_| true),
        lines: lines.into_iter().map(|(_, line)| line).collect(),
    })
}

/// Name of the line a group belongs to.
fn line_of((condition, group): &Id) -> String {
    match group {
        Group::Prior => format!("{condition}/prior"),
        Group::Present(clue) | Group::Absent(clue) => format!("{condition}/clue/{clue}"),
        Group::Sensitivity(check) | Group::Specificity(check) => format!("{condition}/check/{check}"),
    }
}

/// Lines with how many standard errors their surest number moved.
fn lines(catalog: &Catalog, learned: &Learned, scores: &Scored) -> Vec<(f64, Line)> {
    let mut lines: BTreeMap<String, (f64, Line, BTreeSet<SurveyId>)> = BTreeMap::new();
    for (id, counts) in &learned.tally.groups {
        let (old, new) = (numbers(catalog, id), numbers(&learned.catalog, id));
        let weight = weight(catalog, id);
        let (line, sure, _) = {
            let entry = lines.entry(line_of(id)).or_insert_with(|| {
                let line = Line {
                    id: line_of(id),
                    condition: id.0.clone(),
                    numbers: Vec::new(),
                    houses: 0,
                    opened: 0,
                    weight,
                    held_out: scores.of(|c| c == id.0),
                    small: true,
                };
                (0.0, line, BTreeSet::new())
            });
            entry.2.extend(counts.houses.iter().copied());
            entry.1.houses = entry.2.len() as u32;
            entry.1.opened = entry.1.opened.max(counts.opened);
            entry.1.small = is_small(entry.1.opened as usize, entry.2.len());
            (&mut entry.1, &mut entry.0, ())
        };
        let common = information(&new, weight, counts);
        let all: f64 = counts.cells.values().map(|c| c.all).sum();
        for (old, new) in old.iter().zip(&new) {
            let (from, to) = (logit(old.value), logit(new.value));
            if rounded(old.value) == rounded(new.value) {
                continue;
            }
            let error = libm::sqrt(1.0 / common + own_variance(id, new, weight, counts));
            *sure = sure.max((to - from).abs() / error);
            line.numbers.push(Changed {
                key: new.key.clone(),
                old: old.value,
                new: rounded(new.value),
                interval: [-NINETY, NINETY].map(|z| rounded(chance(to + z * error))),
                jobs: libm::round(weight + all).clamp(1.0, 100_000.0) as u32,
            });
        }
    }
    let worth = |line: &Line| line.numbers.iter().any(|n| (logit(n.new) - logit(n.old)).abs() >= WORTH);
    lines.into_values().filter(|(_, line, _)| worth(line)).map(|(sure, line, _)| (sure, line)).collect()
}

/// Information on the common shift: that of complete counts and of the weight, less what closed places leave open
/// (T. A. Louis, Journal of the Royal Statistical Society B 44, 1982); never less than the weight's own.
fn information(list: &[Number], weight: f64, counts: &Counts) -> f64 {
    let bernoulli = |log_odds: f64| chance(log_odds) * (1.0 - chance(log_odds));
    let own: f64 = list.iter().map(|n| weight * n.part * bernoulli(met(n))).sum();
    let complete: f64 = counts.counted(|b| stated(list, b)).iter().map(|c| c.all * bernoulli(c.at)).sum();
    (own + (complete - counts.lost).max(0.0)).max(1e-9)
}

/// Variance that a share of one era has beyond the common shift. Taken as apart from it, which makes intervals wide rather
/// than narrow.
fn own_variance((_, group): &Id, number: &Number, weight: f64, counts: &Counts) -> f64 {
    if *group != Group::Prior {
        return 0.0;
    }
    let p = chance(met(number));
    let here = |((band, _), cell): (&(Option<String>, u64), &super::tally::Cell)| {
        if *band == number.band { cell.all } else { 0.0 }
    };
    let all: f64 = counts.cells.iter().map(here).sum();
    1.0 / ((weight + all) * p * (1.0 - p)).max(1e-9)
}

/// An opened place in a held-out house.
struct Opened {
    condition: String,
    before: f64,
    after: f64,
    there: bool,
}

#[derive(Default)]
struct Scored(Vec<Opened>);

impl Scored {
    fn of(&self, wanted: impl Fn(&str) -> bool) -> Option<HeldOut> {
        let here: Vec<&Opened> = self.0.iter().filter(|o| wanted(&o.condition)).collect();
        let y: Vec<bool> = here.iter().map(|o| o.there).collect();
        let score = |p: fn(&Opened) -> f64| log_score(&here.iter().map(|o| p(o)).collect::<Vec<_>>(), &y);
        Some(HeldOut { outcomes: y.len() as u32, before: score(|o| o.before)?, after: score(|o| o.after)? })
    }
}

fn held_out(catalog: &Catalog, jobs: &[Job<'_>]) -> Scored {
    let mut order: Vec<usize> = (0..jobs.len()).collect();
    order.sort_by_key(|k| jobs[*k].survey);
    let mut scored = Scored::default();
    if jobs.len() < 2 * FOLDS.max(SMALL_HOUSES) {
        return scored;
    }
    let tables = ClueTables::fit(catalog);
    for fold in 0..FOLDS {
        let (mut held, mut others) = (Vec::new(), Vec::new());
        for (rank, k) in order.iter().enumerate() {
            if rank % FOLDS == fold { held.push(jobs[*k]) } else { others.push(jobs[*k]) }
        }
        let Some(learned) = learn(catalog, &others) else { continue };
        let new_tables = ClueTables::fit(&learned.catalog);
        for job in held {
            let before = odds(catalog, &tables, &job);
            let after = odds(&learned.catalog, &new_tables, &job);
            for f in job.findings {
                // The latest finding of a condition counts.
                let last = job.findings.iter().rev().find(|x| x.condition == f.condition);
                let there = match f.outcome {
                    _ if !last.is_some_and(|l| std::ptr::eq(l, f)) => continue,
                    Outcome::Found => true,
                    Outcome::NotThere => false,
                    Outcome::NotOpened => continue,
                };
                if let (Some(p), Some(q)) = (before.get(&f.condition), after.get(&f.condition)) {
                    let condition = Key::parse(&f.condition).id.to_owned();
                    scored.0.push(Opened { condition, before: *p, after: *q, there });
                }
            }
        }
    }
    scored
}

/// Odds of a house by its answers alone; nothing where they cannot be.
fn odds(catalog: &Catalog, tables: &ClueTables, job: &Job<'_>) -> BTreeMap<String, f64> {
    let request =
        Request { survey: job.survey, picture: job.picture, catalog, tables, rules: LossRules::default() };
    match Live::default().odds(&request) {
        Ok(odds) => odds.conditions().map(|(key, p)| (key.to_owned(), p)).collect(),
        Err(_) => BTreeMap::new(),
    }
}
