//! Answers an item can be given, and the parts of a range between the thresholds of its clues.

use survey::catalog::{AnswerKind, Bound, Catalog, Compare, Item, NO_STATEMENT, TrueWhen};
use survey::log::Value;
use survey::units::{Length, Quantity};

/// Options that say something about the house.
pub(crate) fn statements(item: &Item) -> impl Iterator<Item = &str> {
    let options = item.answer.options().iter().map(|o| o.id.as_str());
    options.filter(|o| !NO_STATEMENT.contains(o))
}

/// The option by which an item says that nothing was done or opened, if it has one.
pub(crate) fn not_done(item: &Item) -> Option<&str> {
    let options = item.answer.options().iter().map(|o| o.id.as_str());
    options.into_iter().find(|o| matches!(*o, "not-done" | "not-opened"))
}

/// One answer of each sort: every option by itself, a value in each part of the range.
pub(crate) fn sample_answers(catalog: &Catalog, item: &str) -> Vec<Value> {
    let Some(item) = catalog.item(item) else { return Vec::new() };
    match &item.answer {
        AnswerKind::Choice { .. } => statements(item).map(|o| Value::Choice(o.to_owned())).collect(),
        AnswerKind::Choices { .. } => statements(item).map(|o| Value::choices(vec![o.to_owned()])).collect(),
        AnswerKind::Checks => Vec::new(),
        AnswerKind::Length { .. } | AnswerKind::Number { .. } => {
            let range = Range::of(item);
            range
                .parts(catalog, item)
                .iter()
                .filter_map(|part| range.value(0.5 * (part[0] + part[1])))
                .collect()
        }
    }
}

/// A range of lengths or numbers in whole counts: eighths of a micrometer or thousandths.
#[derive(Clone, Debug)]
pub(crate) struct Range {
    low: i64,
    high: i64,
    /// Counts in one unit of the item.
    per_unit: f64,
    /// Unit of a number; `None` for a length.
    unit: Option<String>,
}

impl Range {
    /// The plausible range of an item.
    pub(crate) fn of(item: &Item) -> Self {
        match &item.answer {
            AnswerKind::Length { unit, min, max, .. } => {
                let one = unit.length(1.0).unwrap_or(Length::from_eighth_um(Length::PER_INCH));
                Self {
                    low: min.eighth_um(),
                    high: max.eighth_um(),
                    per_unit: one.eighth_um() as f64,
                    unit: None,
                }
            }
            AnswerKind::Number { unit, min_milli, max_milli, .. } => {
                Self { low: *min_milli, high: *max_milli, per_unit: 1000.0, unit: Some(unit.clone()) }
            }
            _ => Self { low: 0, high: 0, per_unit: 1.0, unit: None },
        }
    }
    /// Least and most, in the unit of the item.
    pub(crate) fn ends(&self) -> [f64; 2] {
        [self.low as f64 / self.per_unit, self.high as f64 / self.per_unit]
    }
    /// The nearest value within the range to a number in the unit of the item.
    pub(crate) fn value(&self, number: f64) -> Option<Value> {
        let count = libm::round(number * self.per_unit);
        if !count.is_finite() {
            return None;
        }
        let count = (count as i64).clamp(self.low, self.high);
        Some(match &self.unit {
            None => Value::Length(Length::from_eighth_um(count)),
            Some(unit) => Value::Number(Quantity { milli: count, unit: unit.clone() }),
        })
    }
    /// The parts between the thresholds of the item's clues, in the unit of the item.
    pub(crate) fn parts(&self, catalog: &Catalog, item: &Item) -> Vec<[f64; 2]> {
        let bound = |b: &Bound| match b {
            Bound::Length(l) => l.eighth_um(),
            Bound::Milli(m) => *m,
        };
        // Where a part begins: at a threshold, or one count beyond it.
        let mut begins: Vec<i64> = item
            .clues
            .iter()
            .filter_map(|c| match &catalog.clue(c)?.true_when {
                TrueWhen::Compare(Compare::Gte | Compare::Lt, b) => Some(bound(b)),
                TrueWhen::Compare(Compare::Gt | Compare::Lte, b) => Some(bound(b) + 1),
                _ => None,
            })
            .filter(|at| *at > self.low && *at <= self.high)
            .collect();
        begins.push(self.low);
        begins.sort_unstable();
        begins.dedup();
        let ends = begins.iter().skip(1).map(|b| b - 1).chain([self.high]);
        begins.iter().zip(ends).map(|(a, b)| [*a as f64 / self.per_unit, b as f64 / self.per_unit]).collect()
    }
}
