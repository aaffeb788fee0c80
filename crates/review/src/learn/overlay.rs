//! Accepted lines as a file of an overlay, and the houses that then stand behind the catalog.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use survey::SurveyId;
use survey::catalog::{Catalog, nearest};

use super::propose::{Line, Proposal};
use super::relations::broken;

/// Name of the file in a firm's overlay. It is written whole each time; what an earlier one said stays unless it is said
/// anew.
pub const FILE: &str = "learned.toml";

/// Lines that cannot be taken over.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum ApplyError {
    /// The proposal was made from another catalog.
    #[error("the proposal starts from another catalog than the one in use; learn again")]
    OtherCatalog,
    /// No such line.
    #[error("there is no proposed line “{given}”{}", .near.as_ref().map(|n| format!("; did you mean “{n}”?")).unwrap_or_default())]
    Unknown {
        /// What was given.
        given: String,
        /// The nearest known.
        near: Option<String>,
    },
    /// No line was accepted.
    #[error("no line was accepted; name at least one")]
    Nothing,
    /// Shares of two conditions that imply or exclude each other would not stand together.
    #[error(
        "“{condition}/prior” cannot stand beside what the catalog says of “{other}”, because one excludes or means the \
         other; accept “{other}/prior” too if it is proposed, or leave this line"
    )]
    Together {
        /// Whose share was accepted.
        condition: String,
        /// The other.
        other: String,
    },
    /// Another file of the overlay changes the same number.
    #[error(
        "{place} of the overlay says “{key}” of “{condition}” too; take it out there first, or leave this line"
    )]
    ChangedElsewhere {
        /// Condition.
        condition: String,
        /// Key.
        key: String,
        /// File and line.
        place: String,
    },
}

/// The file with the accepted lines, by id, and all houses that then stand behind the catalog: those of the proposal and
/// those `trained` already. `on` is the day, as 2026-11-02. The same lines in any order give the same bytes.
///
/// # Errors
/// [`ApplyError`].
pub fn apply(
    catalog: &Catalog,
    proposal: &Proposal,
    accepted: &[String],
    trained: &[SurveyId],
    on: &str,
) -> Result<(String, Vec<SurveyId>), ApplyError> {
    if proposal.catalog != catalog.digest {
        return Err(ApplyError::OtherCatalog);
    }
    let line = |id: &String| -> Result<&Line, ApplyError> {
        proposal.lines.iter().find(|l| l.id == *id).ok_or_else(|| ApplyError::Unknown {
            given: id.clone(),
            near: nearest(id, proposal.lines.iter().map(|l| l.id.as_str())).map(str::to_owned),
        })
    };
    let lines = accepted.iter().map(line).collect::<Result<Vec<_>, _>>()?;
    if lines.is_empty() {
        return Err(ApplyError::Nothing);
    }
    let mut tables = earlier(catalog);
    for line in &lines {
        for number in &line.numbers {
            elsewhere(catalog, &line.condition, &number.key)?;
            let (table, key) = heading(&line.condition, &number.key);
            let held = tables.entry(table).or_default();
            held.values.insert(key, format!("{:?}", number.new));
            // One count stands for a table: the smaller, so that nothing weighs more than was counted.
            held.anew = Some(held.anew.map_or(number.jobs, |jobs| jobs.min(number.jobs)));
        }
    }
    together(catalog, &lines)?;
    let houses: BTreeSet<SurveyId> = proposal.houses.iter().chain(trained).copied().collect();
    let mut text = format!(
        "# Written by `underlath learn`, whole each time. Every number was accepted by a person.\n\
         basis = \"firm\"\nreason = \"learned from {} reviewed houses\"\non = {on}\n",
        houses.len()
    );
    for (heading, table) in tables {
        let _ = writeln!(text, "\n[change.condition.{heading}]");
        if let Some(jobs) = table.anew.or(table.before) {
            let _ = writeln!(text, "jobs = {jobs}");
        }
        for (key, value) in table.values {
            let _ = writeln!(text, "{key} = {value}");
        }
    }
    Ok((text, houses.into_iter().collect()))
}

fn together(catalog: &Catalog, lines: &[&Line]) -> Result<(), ApplyError> {
    let (mut changed, mut moved) = (catalog.clone(), BTreeSet::new());
    for line in lines {
        let Some(c) = changed.conditions.iter_mut().find(|c| c.id == line.condition) else { continue };
        for number in &line.numbers {
            let band = number.key.strip_prefix("prior.").and_then(|band| c.prior.by_band.get_mut(band));
            if let Some(p) = band {
                *p = number.new;
                moved.insert(line.condition.as_str());
            }
        }
    }
    match broken(&changed, &moved) {
        None => Ok(()),
        Some((condition, other)) => Err(ApplyError::Together { condition, other }),
    }
}

#[derive(Default)]
struct Table {
    values: BTreeMap<String, String>,
    before: Option<u32>,
    anew: Option<u32>,
}

/// "bulkhead-duct.prior" and "to-1939".
fn heading(condition: &str, key: &str) -> (String, String) {
    match key.rsplit_once('.') {
        Some((table, key)) => (format!("{condition}.{table}"), key.to_owned()),
        None => (condition.to_owned(), key.to_owned()),
    }
}

fn is_ours(file: &str) -> bool {
    file.strip_prefix("overlay/") == Some(FILE)
}

/// What the file says already.
fn earlier(catalog: &Catalog) -> BTreeMap<String, Table> {
    let mut tables: BTreeMap<String, Table> = BTreeMap::new();
    let changes = catalog.overlay.iter().flat_map(|o| &o.changes);
    for change in changes.filter(|c| c.kind == "condition" && is_ours(&c.place.file)) {
        let (table, key) = heading(&change.id, &change.key);
        let held = tables.entry(table).or_default();
        held.values.insert(key, change.new.clone());
        held.before = held.before.max(change.backing.jobs);
    }
    tables
}

fn elsewhere(catalog: &Catalog, condition: &str, key: &str) -> Result<(), ApplyError> {
    let mut changes = catalog.overlay.iter().flat_map(|o| &o.changes);
    let same = changes
        .find(|c| c.kind == "condition" && c.id == condition && c.key == key && !is_ours(&c.place.file));
    match same {
        None => Ok(()),
        Some(change) => Err(ApplyError::ChangedElsewhere {
            condition: condition.to_owned(),
            key: key.to_owned(),
            place: change.place.to_string(),
        }),
    }
}
