//! What stands behind a change: its basis and weight, why it was made, and since when.

use serde::Deserialize as _;
use time::{Date, Month};
use toml::de::{DeTable, DeValue, ValueDeserializer};

use super::super::condition::Basis;
use super::super::faults::unknown_word;
use super::super::source_file::Node;

/// What stands behind a change.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Backing {
    /// Basis; every change of a number has one.
    pub basis: Option<Basis>,
    /// How many of the firm's own jobs it was counted in; only with the basis `firm`.
    pub jobs: Option<u32>,
    /// Published sources by id.
    pub sources: Vec<String>,
    /// Why, in words. Never empty in a change.
    pub reason: String,
    /// Since when, as written: 2026-11-02.
    pub on: Option<String>,
}

/// The words that say what stands behind a change. No key of the catalog that can be changed is one of them.
pub(super) const WORDS: [&str; 5] = ["basis", "jobs", "on", "reason", "sources"];

/// The most jobs a firm can claim to have counted: more is a slip.
const MOST_JOBS: u32 = 100_000;

/// Backing, and where its parts were written.
#[derive(Clone, Debug, Default)]
pub(super) struct Backed {
    pub(super) backing: Backing,
    /// Where the basis was written.
    pub(super) basis_at: usize,
    /// Where each source was written.
    pub(super) sources_at: Vec<usize>,
}

/// A fault at an offset: what, and how to mend it.
pub(super) type Slip = (usize, String, Option<String>);

impl Backed {
    /// What stands behind a table: what it says itself, and what was said around it.
    pub(super) fn inner(&self, table: &DeTable<'_>, slips: &mut Vec<Slip>) -> Self {
        let mut inner = self.clone();
        if let Some(node) = table.get("basis") {
            match Basis::deserialize(ValueDeserializer::from(node.clone())) {
                Ok(basis) => {
                    // Jobs and sources belong to the basis they were given with.
                    (inner.backing.jobs, inner.backing.sources, inner.sources_at) = Default::default();
                    (inner.backing.basis, inner.basis_at) = (Some(basis), node.span().start);
                }
                Err(e) => slips.push((node.span().start, e.message().to_owned(), unknown_word(e.message()))),
            }
        }
        if let Some(node) = table.get("jobs") {
            match u32::deserialize(ValueDeserializer::from(node.clone())) {
                Ok(jobs) if (1..=MOST_JOBS).contains(&jobs) => inner.backing.jobs = Some(jobs),
                _ => slip(slips, node, "jobs is how many jobs it was counted in, a whole number from 1"),
            }
            if inner.backing.basis != Some(Basis::Firm) {
                slip(slips, node, "only a number of the firm's own is counted in jobs: basis = \"firm\"");
            }
        }
        if let Some(node) = table.get("reason") {
            match node.get_ref() {
                DeValue::String(words) if !words.trim().is_empty() => {
                    words.trim().clone_into(&mut inner.backing.reason)
                }
                _ => slip(slips, node, "a reason is said in words"),
            }
        }
        if let Some(node) = table.get("on") {
            inner.backing.on = day(node);
            if inner.backing.on.is_none() {
                slip(slips, node, "a day is written as 2026-11-02");
            }
        }
        if let Some(node) = table.get("sources") {
            match node.get_ref() {
                DeValue::Array(list) => {
                    let ids =
                        list.iter().filter_map(|v| Some((v.get_ref().as_str()?.to_owned(), v.span().start)));
                    (inner.backing.sources, inner.sources_at) = ids.unzip();
                    if inner.backing.sources.len() != list.len() {
                        slip(slips, node, "sources are ids of published figures");
                    }
                }
                _ => slip(slips, node, "sources are ids of published figures, in brackets"),
            }
        }
        inner
    }
}

fn slip(slips: &mut Vec<Slip>, node: &Node<'_>, what: &str) {
    slips.push((node.span().start, what.to_owned(), None));
}

/// A day, in quotes or not.
fn day(node: &Node<'_>) -> Option<String> {
    let text = match node.get_ref() {
        DeValue::String(text) => text.to_string(),
        DeValue::Datetime(moment) => moment.to_string(),
        _ => return None,
    };
    let [year, month, day] = text.split('-').collect::<Vec<_>>()[..] else { return None };
    let digits = |t: &str, n: usize| t.len() == n && t.bytes().all(|b| b.is_ascii_digit());
    if !(digits(year, 4) && digits(month, 2) && digits(day, 2)) {
        return None;
    }
    let month = Month::try_from(month.parse::<u8>().ok()?).ok()?;
    Date::from_calendar_date(year.parse().ok()?, month, day.parse().ok()?).ok()?;
    Some(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inner(outer: &Backed, text: &str) -> (Backed, Vec<String>) {
        let mut slips = Vec::new();
        let table = DeTable::parse(text).unwrap();
        let backed = outer.inner(table.get_ref(), &mut slips);
        (backed, slips.into_iter().map(|(_, what, _)| what).collect())
    }

    #[test]
    fn what_is_said_nearer_counts_and_a_new_basis_leaves_old_jobs_behind() {
        let (head, slips) =
            inner(&Backed::default(), "basis = \"firm\"\njobs = 34\nreason = \"counted\"\non = 2026-11-02\n");
        assert!(slips.is_empty(), "{slips:?}");
        assert_eq!((head.backing.basis, head.backing.jobs), (Some(Basis::Firm), Some(34)));
        let (near, _) = inner(&head, "reason = \"counted again\"\non = \"2027-01-31\"\n");
        assert_eq!((near.backing.reason.as_str(), near.backing.jobs), ("counted again", Some(34)));
        assert_eq!(near.backing.on.as_deref(), Some("2027-01-31"));
        let (judged, _) = inner(&head, "basis = \"judgment\"\n");
        assert_eq!((judged.backing.basis, judged.backing.jobs), (Some(Basis::Judgment), None));
    }

    #[test]
    fn slips_are_told() {
        for (text, told) in [
            ("basis = \"jugment\"", "unknown variant `jugment`"),
            ("basis = \"firm\"\njobs = 0", "whole number from 1"),
            ("basis = \"firm\"\njobs = 2.5", "whole number from 1"),
            ("basis = \"judgment\"\njobs = 3", "only a number of the firm's own"),
            ("reason = \" \"", "said in words"),
            ("on = \"2026-02-30\"", "written as 2026-11-02"),
            ("on = \"02.11.2026\"", "written as 2026-11-02"),
            ("on = 2026-11-02T10:00:00", "written as 2026-11-02"),
            ("sources = \"x\"", "in brackets"),
            ("sources = [1]", "ids of published figures"),
        ] {
            let (_, slips) = inner(&Backed::default(), text);
            assert!(slips.len() == 1 && slips[0].contains(told), "{text}: {slips:?}");
        }
    }
}
