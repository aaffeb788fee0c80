//! What is no fault, and still worth a look by whoever edits a catalog.

use core::fmt;

use super::Catalog;
use super::rates::spread;

/// Something worth a look.
#[derive(Clone, PartialEq, Debug)]
pub struct Note {
    /// Kind of the thing it is about.
    pub kind: &'static str,
    /// Its id.
    pub id: String,
    /// What it is.
    pub what: String,
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {}: {}", self.kind, self.id, self.what)
    }
}

/// Rates of one clue that its conditions imply lie no farther apart than this, as a ratio (judgment).
const APART: f64 = 1.5;
/// The same within one era, where the greater is at least [`SEEN`] (judgment).
const APART_IN_ERA: f64 = 2.5;
/// Below this rate a clue is so rare in an era that a ratio says little (judgment).
const SEEN: f64 = 0.05;
/// A clue that shows is no stronger than this ratio of its chances (judgment).
const STRONGEST: f64 = 120.0;
/// A clue that does not show speaks no stronger against its condition than this ratio (judgment).
const WEAKEST: f64 = 0.05;

impl Catalog {
    /// What is worth a look, in order of kinds and ids: questions that nothing reads, pairs that contradict each other or
    /// are very strong, conditions that cover dearer ones.
    pub fn notes(&self) -> Vec<Note> {
        let mut notes = Vec::new();
        self.note_items(&mut notes);
        self.note_rates(&mut notes);
        self.note_pairs(&mut notes);
        self.note_covers(&mut notes);
        notes
    }

    fn note_items(&self, notes: &mut Vec<Note>) {
        for item in self.items.iter().filter(|i| self.readers(&i.id).is_empty()) {
            let what = "nothing in the catalog reads its answer".to_owned();
            notes.push(Note { kind: "item", id: item.id.clone(), what });
        }
    }

    fn note_rates(&self, notes: &mut Vec<Note>) {
        let eras = self.era().map(|era| era.levels.as_slice()).unwrap_or_default();
        let bands = core::iter::once(None).chain(eras.iter().map(|l| Some(l.id.as_str())));
        for band in bands {
            for (clue, rates) in self.rates(band) {
                let Some([(a, least), (b, most)]) = spread(&rates) else { continue };
                let (bound, counts) =
                    if band.is_some() { (APART_IN_ERA, most > SEEN) } else { (APART, true) };
                if counts && most > bound * least {
                    let houses = band.map_or("all houses".to_owned(), |b| format!("houses of {b}"));
                    let what = format!(
                        "over {houses} it shows in {:.1} % by the pairs of {a} and in {:.1} % by those of {b}: no table can give both",
                        100.0 * least,
                        100.0 * most
                    );
                    notes.push(Note { kind: "clue", id: clue.to_owned(), what });
                }
            }
        }
    }

    fn note_pairs(&self, notes: &mut Vec<Note>) {
        for condition in &self.conditions {
            for pair in &condition.clues {
                let seen = pair.if_present / pair.if_absent;
                let unseen = (1.0 - pair.if_present) / (1.0 - pair.if_absent);
                if seen > STRONGEST || unseen < WEAKEST {
                    let what = format!("the clue {} alone all but decides it: is it that sure?", pair.clue);
                    notes.push(Note { kind: "condition", id: condition.id.clone(), what });
                }
            }
        }
    }

    fn note_covers(&self, notes: &mut Vec<Note>) {
        for condition in &self.conditions {
            for other in condition.covers_cost_of.iter().filter_map(|id| self.condition(id)) {
                if condition.cost.likely < other.cost.likely {
                    let what = format!("it covers the cost of {}, which is likely to cost more", other.id);
                    notes.push(Note { kind: "condition", id: condition.id.clone(), what });
                }
            }
        }
    }
}
