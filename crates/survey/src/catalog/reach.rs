//! Whether a clue can be seen at all: its question must be asked under at least one job that brings its condition into
//! scope.

use std::collections::BTreeMap;

use super::PLANNED_WORK;
use super::condition::Condition;
use super::item::Item;
use super::load::Loader;
use super::source_file::At;
use crate::log::Value;

/// True when the plan alone certainly rules a question out under every one of these jobs.
fn never_asked(item: &Item, jobs: &[String]) -> bool {
    let Some(skip) = &item.skip_if else { return false };
    !jobs.is_empty()
        && jobs.iter().all(|job| {
            let plan = Value::choices(vec![job.clone()]);
            skip.holds(&BTreeMap::from([(PLANNED_WORK.to_owned(), plan)])) == Some(true)
        })
}

impl Loader<'_> {
    /// Every clue of a condition is read from a question that is asked when the condition is in scope.
    pub(super) fn check_reach(&mut self, c: &Condition, at: &At) {
        for (i, pair) in c.clues.iter().enumerate() {
            let clue = self.clues.iter().find(|(k, _)| k.id == pair.clue);
            let item = clue.and_then(|(k, _)| self.items.get(*self.index.get(&k.item)?));
            if let Some(item) = item.filter(|item| never_asked(item, &c.triggers)) {
                let what = format!(
                    "the clue “{}” can never be seen: the question “{}” is skipped under every trigger of “{}”",
                    pair.clue, item.id, c.id
                );
                let mend = "mend the question's skip-if, or drop the clue".to_owned();
                self.faults.add(&at.to("clues").to(i).to("clue"), what, Some(mend));
            }
        }
    }
}
