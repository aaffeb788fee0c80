//! Reading the parts of a catalog: items, clues, checks, conditions, wishes, drain defaults.

use std::collections::{BTreeMap, BTreeSet};

use super::clue::{Check, Clue, TrueWhen};
use super::condition::{Condition, CostWhen, Decision, PCost, Prior, needs_source};
use super::item::{AnswerKind, Item};
use super::load::Loader;
use super::predicate::Predicate;
use super::raw::{self, RawCondition, RawItem, RawKind, RawPredicate};
use super::reference::{DrainDefault, Outage, Wish};
use super::resolve::{bound, milli};
use super::source_file::At;
use crate::units::{Length, Money};

/// The codes a clue can name a threshold of: the stems of the plumbing books' ids.
const PLUMBING_CODES: [&str; 3] = ["ipc", "irc", "upc"];

impl Loader<'_> {
    pub(super) fn read_items(&mut self, at: At, file: raw::WalkFile) {
        let (station, at_each, basis) = (file.station.id.clone(), file.station.each.is_some(), file.basis);
        if self.stations.iter().any(|(s, _)| s.id == station) {
            self.faults.add(&at.to("station.id"), format!("the station “{station}” is there twice"), None);
        }
        if needs_source(basis) {
            let mend = Some("say judgment or common-practice".to_owned());
            self.faults.add(&at.to("basis"), "ranges of answers have no place for a source", mend);
        }
        self.stations.push((file.station, at.to("station")));
        for (n, item) in file.item.iter().enumerate() {
            let at = at.to("item").to(n);
            let order = u32::try_from(self.items.len()).unwrap_or(u32::MAX - 1) + 1;
            let Some(answer) = self.answer_kind(&at, item) else {
                self.broken.insert(item.id.clone());
                continue;
            };
            for (i, option) in item.alone.iter().enumerate() {
                let options = answer.options().iter().map(|o| o.id.as_str());
                self.faults.known(
                    &at.to("alone").to(i),
                    &format!("option of “{}”", item.id),
                    option,
                    options,
                );
            }
            let known = self.index.insert(item.id.clone(), self.items.len());
            if known.is_some() {
                self.faults.add(&at.to("id"), format!("the item “{}” is there twice", item.id), None);
            }
            let made = Item {
                id: item.id.clone(),
                station: station.clone(),
                at_each,
                order,
                question: item.question.clone(),
                why: item.why.clone(),
                answer,
                second_look: item.second_look,
                second_look_when: item.second_look_when.clone(),
                photo: item.photo,
                photo_note: item.photo_note.clone(),
                records_check: item.records_check.clone(),
                skip_if: None,
                skip_note: item.skip_note.clone(),
                promote_if: None,
                clues: Vec::new(),
                sets_context: Vec::new(),
                informs: BTreeSet::new(),
                basis: item.basis.unwrap_or(basis),
            };
            self.items.push(made);
            self.item_at.push(at);
            let (place, at) = (self.items.len() - 1, self.item_at[self.items.len() - 1].clone());
            // Only items already read are known here, so a rule cannot look ahead.
            let skip = item.skip_if.as_ref().map(|p| self.earlier(p, &at.to("skip-if"), place));
            let promote = item.promote_if.as_ref().map(|p| self.earlier(p, &at.to("promote-if"), place));
            self.items[place].skip_if = skip;
            self.items[place].promote_if = promote;
        }
    }

    /// A predicate that may read only items before `place`.
    fn earlier(&mut self, raw: &RawPredicate, at: &At, place: usize) -> Predicate {
        let own = self.items[place].id.clone();
        let kept = self.index.remove(&own);
        let made = self.predicate(raw, at, true);
        if let Some(index) = kept {
            self.index.insert(own, index);
        }
        made
    }

    fn answer_kind(&mut self, at: &At, item: &RawItem) -> Option<AnswerKind> {
        let mut fault = |step: &'static str, what: &str| {
            self.faults.add(&at.to(step), format!("item “{}”: {what}", item.id), None);
            None
        };
        match item.answer {
            RawKind::Choice | RawKind::Choices => {
                let options = match &item.options {
                    Some(options) if options.len() >= 2 => options.clone(),
                    _ => return fault("answer", "a choice needs at least two options"),
                };
                let ids: BTreeSet<&str> = options.iter().map(|o| o.id.as_str()).collect();
                if ids.len() != options.len() {
                    return fault("options", "an option is there twice");
                }
                if item.unit.is_some() || item.min.is_some() || item.max.is_some() {
                    return fault("answer", "a choice has no unit and no range");
                }
                if item.answer == RawKind::Choice {
                    return Some(AnswerKind::Choice { options });
                }
                Some(AnswerKind::Choices { options, alone: item.alone.clone() })
            }
            RawKind::Length | RawKind::Number => {
                let (Some(unit), Some(min), Some(max)) = (item.unit.clone(), item.min, item.max) else {
                    return fault("answer", "a length or number needs unit, min and max");
                };
                if !(min < max && max.abs() < 1e6 && min.abs() < 1e6) {
                    return fault("min", "min must be less than max");
                }
                if item.options.is_some() {
                    return fault("options", "a length or number has no options");
                }
                if item.answer == RawKind::Number {
                    return Some(AnswerKind::Number {
                        unit,
                        min_milli: milli(min),
                        max_milli: milli(max),
                        scale: item.scale.clone(),
                        zero_means: item.zero_means.clone(),
                    });
                }
                let Some(unit) = item.length_unit() else {
                    return fault("unit", "the unit of a length is “in” or “ft”");
                };
                let (Some(min), Some(max)) = (unit.length(min), unit.length(max)) else {
                    return fault("min", "the range of a length is too large");
                };
                Some(AnswerKind::Length { unit, min, max, over: item.over.clone() })
            }
            RawKind::Checks => Some(AnswerKind::Checks),
        }
    }

    pub(super) fn read_checks(&mut self, at: &At, file: raw::ChecksFile) {
        for (n, check) in file.check.into_iter().enumerate() {
            let at = at.to("check").to(n);
            let blocked_if = check.blocked_if.iter().enumerate();
            let blocked_if =
                blocked_if.map(|(i, p)| self.predicate(p, &at.to("blocked-if").to(i), false)).collect();
            if check.invasive > 5 {
                self.faults.add(&at.to("invasive"), "invasive is 0 to 5", None);
            }
            let made = Check {
                id: check.id,
                name: check.name,
                invasive: check.invasive,
                minutes: check.minutes,
                cost: check.cost,
                who: check.who,
                serves: check.serves,
                note: check.note,
                blocked_if,
                not_while: check.not_while,
                basis: check.basis.unwrap_or(file.basis),
                sources: check.sources,
            };
            self.sourced(&at, &made.id, made.basis, &made.sources);
            self.checks.push((made, at));
        }
    }

    pub(super) fn read_clues(&mut self, at: &At, file: raw::ClueFile) {
        for (n, clue) in file.clue.into_iter().enumerate() {
            let at = at.to("clue").to(n);
            if !self.known_item(&at.to("item"), &clue.item) {
                continue;
            }
            let Some(place) = self.index.get(&clue.item) else { continue };
            let kind = self.items[*place].answer.clone();
            let Some(true_when) = self.true_when(&clue.true_when, &kind, &clue.item, &at.to("true-when"))
            else {
                continue;
            };
            for (i, option) in clue.neutral_on.iter().enumerate() {
                let known = kind.options().iter().map(|o| o.id.as_str());
                self.faults.known(
                    &at.to("neutral-on").to(i),
                    &format!("option of “{}”", clue.item),
                    option,
                    known,
                );
            }
            if let TrueWhen::In(list) | TrueWhen::Has(list) = &true_when
                && let Some(both) = clue.neutral_on.iter().find(|n| list.contains(n))
            {
                let what = format!("“{both}” makes the clue true and hides it");
                self.faults.add(&at.to("neutral-on"), what, None);
            }
            let neutral_if = clue.neutral_if.as_ref().map(|p| self.predicate(p, &at.to("neutral-if"), false));
            for code in clue.by_code.keys() {
                self.faults.known(&at.to("by-code").to(code), "plumbing code", code, PLUMBING_CODES);
            }
            let by_code =
                clue.by_code.iter().filter_map(|(k, v)| Some((k.clone(), bound(&kind, *v)?))).collect();
            let made = Clue {
                id: clue.id,
                words: clue.words,
                item: clue.item,
                true_when,
                by_code,
                neutral_on: clue.neutral_on,
                neutral_if,
                cause: clue.cause,
                lowers: clue.lowers,
                basis: clue.basis.unwrap_or(file.basis),
                sources: clue.sources,
                note: clue.note,
            };
            self.clues.push((made, at));
        }
    }

    pub(super) fn read_conditions(&mut self, at: &At, file: raw::ConditionFile) {
        let groups: Vec<String> = self.groups.iter().map(|g| g.id.clone()).collect();
        self.faults.known(&at.to("group"), "group", &file.group, groups.iter().map(String::as_str));
        for (n, raw) in file.condition.into_iter().enumerate() {
            let at = at.to("condition").to(n);
            let made = self.condition(&file.group, raw, &at);
            self.conditions.push((made, at));
        }
    }

    fn condition(&mut self, group: &str, raw: RawCondition, at: &At) -> Condition {
        let mut rule = |p: &Option<RawPredicate>, step: &'static str| {
            p.as_ref().map(|p| self.predicate(p, &at.to(step), false))
        };
        let not_applicable_if = rule(&raw.not_applicable_if, "not-applicable-if");
        let applies_if = rule(&raw.applies_if, "applies-if");
        let decision = raw.decision.map(|d| Decision {
            kind: d.kind,
            until: d.until,
            allowed: d.allowed,
            never: d.never,
            when_if: rule(&d.when_if, "decision.when-if"),
            released_by: rule(&d.released_by, "decision.released-by"),
            released_note: d.released_note,
        });
        let mut cost_when = Vec::new();
        for (i, special) in raw.cost_when.iter().enumerate() {
            let when = self.predicate(&special.when, &at.to("cost-when").to(i).to("when"), false);
            cost_when.push(CostWhen { when, cost: special.cost });
        }
        let p_cost = match (raw.p_cost, raw.p_cost_by_trigger) {
            (Some(_), Some(_)) => {
                let what = "p-cost and p-cost-by-trigger exclude each other";
                self.faults.add(&at.to("p-cost"), what, Some("delete one".to_owned()));
                PCost::Same(1.0)
            }
            (Some(p), None) => PCost::Same(p),
            (None, Some(table)) => PCost::ByTrigger(table),
            (None, None) => PCost::Same(1.0),
        };
        let bands = self.factors.first().map(|f| f.levels.as_slice()).unwrap_or_default();
        let unknown = bands.iter().map(|b| b.prior * raw.prior.get(&b.id).copied().unwrap_or_default()).sum();
        let mut by_cause: BTreeMap<String, Vec<String>> = BTreeMap::new();
        for pair in &raw.clues {
            let clue = self.clues.iter().find(|(c, _)| c.id == pair.clue);
            if let Some(cause) = clue.and_then(|(c, _)| c.cause.clone()) {
                by_cause.entry(cause).or_default().push(pair.clue.clone());
            }
        }
        Condition {
            id: raw.id,
            group: group.to_owned(),
            core: raw.core,
            place: raw.place,
            name: raw.name,
            what: raw.what,
            triggers: raw.triggers,
            not_applicable_if,
            applies_if,
            prior: Prior { by_band: raw.prior, unknown, adjust: raw.adjust },
            never_in: raw.never_in,
            dated_by: raw.dated_by,
            clues: raw.clues,
            no_clue: raw.no_clue,
            checks: raw.checks,
            overlaps: by_cause.into_iter().filter(|(_, clues)| clues.len() > 1).collect(),
            cost: raw.cost,
            cost_when,
            days: raw.days,
            p_cost,
            usually_in_base_price: raw.usually_in_base_price,
            utility_wait: raw.utility_wait,
            covers_cost_of: raw.covers_cost_of,
            decision,
            measured_by: raw.measured_by,
            trades: raw.trades,
            decides: raw.decides,
            caution: raw.caution,
            stage: raw.stage,
            cut: raw.cut,
            basis: raw.basis,
            sources: raw.sources,
            basis_note: raw.basis_note,
        }
    }

    pub(super) fn read_outages(&mut self, at: &At, file: raw::OutagesFile) -> Vec<Outage> {
        let mut made = Vec::new();
        for (n, raw) in file.outage.into_iter().enumerate() {
            let at = at.to("outage").to(n);
            let when = raw.when.as_ref().map(|p| self.predicate(p, &at.to("when"), false));
            made.push(Outage {
                id: raw.id,
                task: raw.task,
                off: raw.off,
                scope: raw.scope,
                hours: raw.hours,
                help: raw.help,
                when,
                basis: raw.basis.unwrap_or(file.basis),
                sources: raw.sources,
            });
            if let Some(outage) = made.last() {
                self.sourced(&at, &outage.id, outage.basis, &outage.sources);
            }
        }
        made
    }

    pub(super) fn read_wishes(&mut self, at: &At, file: raw::WishesFile) -> Vec<Wish> {
        let wished = self.index.get("wishes").map(|i| self.items[*i].answer.options().to_vec());
        let wished = wished.unwrap_or_default();
        let mut made = Vec::new();
        for (n, wish) in file.wish.into_iter().enumerate() {
            let at = at.to("wish").to(n);
            self.faults.known(
                &at.to("id"),
                "option of “wishes”",
                &wish.id,
                wished.iter().map(|o| o.id.as_str()),
            );
            let sums = |[low, high]: [f64; 2]| {
                let (low, high) = (Money::from_f64(low)?, Money::from_f64(high)?);
                (Money::ZERO <= low && low <= high).then_some([low, high])
            };
            let later = wish.later.map(sums);
            let basis = wish.basis.unwrap_or(file.basis);
            self.sourced(&at, &wish.id, basis, &wish.sources);
            match (sums(wish.now), later) {
                (Some(now), None | Some(Some(_))) => made.push(Wish {
                    id: wish.id,
                    rough_in: wish.rough_in,
                    now,
                    later: later.flatten(),
                    later_note: wish.later_note,
                    basis,
                    sources: wish.sources,
                }),
                _ => self.faults.add(&at.to("now"), "sums are [low, high], not negative", None),
            }
        }
        made
    }

    pub(super) fn read_drain(&mut self, at: &At, file: raw::DrainFile) -> BTreeMap<String, DrainDefault> {
        let mut made = BTreeMap::new();
        for (n, raw) in file.length.into_iter().enumerate() {
            let at = at.to("length").to(n);
            let range = match (raw.low, raw.high) {
                (Some(low), Some(high)) => Some([low, high]),
                _ => None,
            };
            let ordered = range.is_none_or(|[low, high]| low <= raw.inches && raw.inches <= high);
            if !ordered || raw.low.is_some() != raw.high.is_some() {
                self.faults.add(&at.to("inches"), format!("“{}”: low, inches, high must rise", raw.id), None);
            }
            if raw.sigma_measured < 0.0 || raw.sigma_assumed < raw.sigma_measured {
                let what = format!("“{}”: a default cannot be surer than a measurement", raw.id);
                self.faults.add(&at.to("sigma-assumed"), what, None);
            }
            self.sourced(&at, &raw.id, raw.basis, &raw.sources);
            let inches = |x: f64| Length::from_inches(x).unwrap_or_default();
            let made_one = DrainDefault {
                id: raw.id.clone(),
                name: raw.name,
                length: inches(raw.inches),
                range: range.map(|r| r.map(inches)),
                sigma_measured: raw.sigma_measured,
                sigma_assumed: raw.sigma_assumed,
                basis: raw.basis,
                sources: raw.sources,
                note: raw.note,
            };
            if made.insert(raw.id.clone(), made_one).is_some() {
                self.faults.add(&at.to("id"), format!("“{}” is there twice", raw.id), None);
            }
        }
        for name in super::DRAIN_DEFAULTS.iter().filter(|n| !made.contains_key(**n)) {
            self.faults.add(at, format!("the default “{name}” is missing"), None);
        }
        for (id, _) in made.iter().filter(|(id, _)| !super::DRAIN_DEFAULTS.contains(&id.as_str())) {
            let mend = super::suggest::mend(id, super::DRAIN_DEFAULTS);
            self.faults.add(at, format!("no calculation reads a default “{id}”"), mend);
        }
        made
    }
}
