//! Resolving rules: options must exist, tests must fit the kind of answer, thresholds get their unit.

use super::clue::TrueWhen;
use super::item::AnswerKind;
use super::load::Loader;
use super::predicate::{Bound, Compare, Predicate, Test};
use super::raw::{self, RawPredicate};
use super::source_file::At;

impl Loader<'_> {
    /// When a clue is true; a threshold must lie inside the item's range.
    pub(super) fn true_when(
        &mut self,
        raw: &raw::RawTrueWhen,
        kind: &AnswerKind,
        item: &str,
        at: &At,
    ) -> Option<TrueWhen> {
        let as_predicate = RawPredicate {
            any: None,
            all: None,
            not: None,
            item: Some(item.to_owned()),
            r#in: raw.r#in.clone(),
            not_in: None,
            has: raw.has.clone(),
            lacks: None,
            gte: raw.gte,
            lte: raw.lte,
            gt: raw.gt,
            lt: raw.lt,
            unknown: None,
        };
        match self.predicate(&as_predicate, at, false) {
            Predicate::Item { test: Test::In(list), .. } => Some(TrueWhen::In(list)),
            Predicate::Item { test: Test::Has(list), .. } => Some(TrueWhen::Has(list)),
            Predicate::Item { test: Test::Compare(how, limit), .. } => {
                let inside = match (kind, limit) {
                    (AnswerKind::Length { min, max, .. }, Bound::Length(l)) => *min <= l && l <= *max,
                    (AnswerKind::Number { min_milli, max_milli, .. }, Bound::Milli(m)) => {
                        *min_milli <= m && m <= *max_milli
                    }
                    _ => true,
                };
                if !inside {
                    self.faults.add(at, format!("the threshold lies outside the range of “{item}”"), None);
                }
                Some(TrueWhen::Compare(how, limit))
            }
            _ => None,
        }
    }

    /// Resolves a predicate; what it cannot resolve is a fault.
    pub(super) fn predicate(&mut self, raw: &RawPredicate, at: &At, earlier_only: bool) -> Predicate {
        let nothing = Predicate::Any(Vec::new());
        let joined = [raw.any.is_some(), raw.all.is_some(), raw.not.is_some(), raw.item.is_some()];
        if joined.iter().filter(|b| **b).count() != 1 {
            self.faults.add(at, "a rule is one of: any, all, not, or an item with one test", None);
            return nothing;
        }
        let mut each = |parts: &[RawPredicate], step: &'static str| -> Vec<Predicate> {
            let numbered = parts.iter().enumerate();
            numbered.map(|(i, p)| self.predicate(p, &at.to(step).to(i), earlier_only)).collect()
        };
        if let Some(parts) = &raw.any {
            return Predicate::Any(each(parts, "any"));
        }
        if let Some(parts) = &raw.all {
            return Predicate::All(each(parts, "all"));
        }
        if let Some(part) = &raw.not {
            return Predicate::Not(Box::new(self.predicate(part, &at.to("not"), earlier_only)));
        }
        let item = raw.item.clone().unwrap_or_default();
        if self.broken.contains(&item) {
            return nothing;
        }
        let Some(place) = self.index.get(&item).copied() else {
            let ids: Vec<String> = self.index.keys().cloned().collect();
            let kind = if earlier_only { "earlier item" } else { "item" };
            self.faults.known(&at.to("item"), kind, &item, ids.iter().map(String::as_str));
            return nothing;
        };
        let kind = self.items[place].answer.clone();
        match self.test(raw, &item, &kind, at) {
            Some(test) => Predicate::Item { item, test },
            None => nothing,
        }
    }

    fn test(&mut self, raw: &RawPredicate, item: &str, kind: &AnswerKind, at: &At) -> Option<Test> {
        let single = matches!(kind, AnswerKind::Choice { .. });
        let several = matches!(kind, AnswerKind::Choices { .. });
        let mut tests: Vec<(&'static str, Test, bool)> = Vec::new();
        let mut options: Vec<(&'static str, &Vec<String>)> = Vec::new();
        if let Some(list) = &raw.r#in {
            options.push(("in", list));
            tests.push(("in", Test::In(list.clone()), single));
        }
        if let Some(list) = &raw.not_in {
            options.push(("not-in", list));
            tests.push(("not-in", Test::NotIn(list.clone()), single));
        }
        if let Some(list) = &raw.has {
            options.push(("has", list));
            tests.push(("has", Test::Has(list.clone()), several));
        }
        if let Some(list) = &raw.lacks {
            options.push(("lacks", list));
            tests.push(("lacks", Test::Lacks(list.clone()), several));
        }
        let compared = [
            ("gte", Compare::Gte, raw.gte),
            ("lte", Compare::Lte, raw.lte),
            ("gt", Compare::Gt, raw.gt),
            ("lt", Compare::Lt, raw.lt),
        ];
        for (name, how, limit) in compared {
            if let Some(limit) = limit {
                let made = bound(kind, limit);
                tests.push((name, Test::Compare(how, made.unwrap_or(Bound::Milli(0))), made.is_some()));
            }
        }
        if let Some(wanted) = raw.unknown {
            tests.push(("unknown", Test::Unknown(wanted), true));
        }
        if tests.len() != 1 {
            self.faults.add(at, format!("an item takes exactly one test, here {}", tests.len()), None);
            return None;
        }
        let (name, test, fits) = tests.remove(0);
        if !fits {
            let mend = "in, not-in read one option; has, lacks read several; gte, lte, gt, lt read lengths and numbers";
            let what = format!("“{name}” does not fit “{item}”, which is answered with {}", kind.words());
            self.faults.add(&at.to(name), what, Some(mend.to_owned()));
            return None;
        }
        for (name, list) in options {
            for (i, option) in list.iter().enumerate() {
                let known = kind.options().iter().map(|o| o.id.as_str());
                self.faults.known(&at.to(name).to(i), &format!("option of “{item}”"), option, known);
            }
        }
        Some(test)
    }
}

/// A threshold in the unit of an item; `None` for items that are not numbers.
pub(super) fn bound(kind: &AnswerKind, limit: f64) -> Option<Bound> {
    match kind {
        AnswerKind::Length { unit, .. } => unit.length(limit).map(Bound::Length),
        AnswerKind::Number { .. } => Some(Bound::Milli(milli(limit))),
        _ => None,
    }
}

pub(super) fn milli(number: f64) -> i64 {
    libm::round(number * 1000.0) as i64
}
