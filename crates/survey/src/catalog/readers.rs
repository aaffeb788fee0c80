//! Who reads an item: what would not know it if it were not asked.

use super::condition::Condition;
use super::predicate::Predicate;
use super::{Catalog, LAST_GUT, PLANNED_WORK, YEAR_BUILT};

/// The item that says which usual conditions the base price holds; its options are condition ids.
pub(super) const IN_BASE_PRICE: &str = "in-base-price";
/// Items that the program itself reads, whatever the catalog says of them, and what for.
const BY_THE_PROGRAM: [(&str, &str); 6] = [
    (PLANNED_WORK, "the scope of the work"),
    (YEAR_BUILT, "the era"),
    (LAST_GUT, "the era of the room"),
    (IN_BASE_PRICE, "what the base price holds"),
    ("wishes", "the wishes for later"),
    ("check-result", "results of checks"),
];

fn reads<'a>(rules: impl IntoIterator<Item = &'a Predicate>, item: &str) -> bool {
    rules.into_iter().any(|p| p.items().contains(item))
}

fn condition_reads(c: &Condition, item: &str) -> bool {
    let gates = c.decision.iter().flat_map(|d| d.when_if.iter().chain(&d.released_by));
    let scopes = c.not_applicable_if.iter().chain(&c.applies_if).chain(c.cost_when.iter().map(|w| &w.when));
    reads(gates.chain(scopes), item)
        || c.measured_by.as_ref().is_some_and(|m| m.inputs.iter().any(|i| i == item))
}

impl Catalog {
    /// Everything that reads an item, such as "the clue “hot-line”", in a fixed order. Empty: nothing does.
    pub fn readers(&self, item: &str) -> Vec<String> {
        let mut readers = self.readers_of_answers(item);
        let records = self.items.iter().filter(|i| i.id == item).filter_map(|i| i.records_check.as_deref());
        readers.extend(records.map(|check| format!("the check “{check}”, whose result it is")));
        readers
    }

    /// The same without a check whose result the item records: that one can do without.
    pub(super) fn readers_of_answers(&self, item: &str) -> Vec<String> {
        let mut readers = Vec::new();
        let mut named = |kind: &str, id: &str| readers.push(format!("the {kind} “{id}”"));
        for clue in self.clues.values().filter(|c| c.item == item || reads(&c.neutral_if, item)) {
            named("clue", &clue.id);
        }
        for factor in self.factors.iter().filter(|f| f.item == item) {
            named("factor", &factor.id);
        }
        for condition in self.conditions.iter().filter(|c| condition_reads(c, item)) {
            named("condition", &condition.id);
        }
        for check in self.checks.values().filter(|c| reads(&c.blocked_if, item)) {
            named("check", &check.id);
        }
        for other in self.items.iter().filter(|i| reads(i.skip_if.iter().chain(&i.promote_if), item)) {
            named("question", &other.id);
        }
        for outage in self.outages.iter().filter(|o| reads(&o.when, item)) {
            named("outage", &outage.id);
        }
        let own = BY_THE_PROGRAM.iter().filter(|(id, _)| *id == item);
        readers.extend(own.map(|(_, what)| format!("the program, for {what}")));
        readers
    }
}
