//! The catalog of a house that has several of a kind, written out place by place: for whoever wants to go through such
//! a house as through one that has everything once.

use std::collections::BTreeSet;

use super::{Catalog, Clue, Condition, Item, Predicate, Station, Test};
use crate::Key;

/// One more place of a station, beyond the first.
#[derive(Clone, PartialEq, Eq, Debug, serde::Serialize)]
pub struct MorePlace {
    /// The station.
    pub station: String,
    /// Id of the place ([`super::Several::place_id`]).
    pub place: String,
    /// Its name for people.
    pub label: String,
}

impl MorePlace {
    fn key(&self, id: &str) -> String {
        Key { id, place: Some(&self.place) }.to_string()
    }
}

impl Catalog {
    /// The same catalog for one house: each added place is a station of its own, its items, clues and conditions go by
    /// their keys ([`Key`]), and nothing is asked at each of several places any more. A rule that read an item from
    /// outside reads it at every place. A calculation that measures a condition does so at the first place only.
    #[must_use]
    pub fn place_by_place(&self, more: &[MorePlace]) -> Self {
        let mut out = self.clone();
        let writer = Writer::new(self, more);
        for station in &mut out.stations {
            station.each = None;
        }
        for item in &mut out.items {
            writer.item(item, None);
        }
        for clue in out.clues.values_mut() {
            let own = writer.station_of(&clue.item);
            writer.rules(clue.neutral_if.as_mut(), own.as_deref(), None);
        }
        for condition in &mut out.conditions {
            writer.condition(condition, None);
        }
        for check in out.checks.values_mut() {
            check.blocked_if.iter_mut().for_each(|rule| *rule = writer.rule(rule, None, None));
        }
        for place in more {
            writer.add(self, &mut out, place);
        }
        out.derive();
        out
    }
}

/// What is renamed where.
struct Writer<'a> {
    more: &'a [MorePlace],
    /// Items asked at each place, with their station.
    at_each: Vec<(&'a str, &'a str)>,
    /// Conditions with a place, with their station.
    placed: Vec<(&'a str, &'a str)>,
}

impl<'a> Writer<'a> {
    fn new(catalog: &'a Catalog, more: &'a [MorePlace]) -> Self {
        let items = catalog.items.iter().filter(|i| i.at_each);
        let conditions = catalog.conditions.iter();
        Self {
            more,
            at_each: items.map(|i| (i.id.as_str(), i.station.as_str())).collect(),
            placed: conditions.filter_map(|c| Some((c.id.as_str(), c.place.as_deref()?))).collect(),
        }
    }
    fn station_of(&self, item: &str) -> Option<String> {
        self.at_each.iter().find(|(i, _)| *i == item).map(|(_, station)| (*station).to_owned())
    }
    fn places_of(&self, station: &str) -> impl Iterator<Item = &'a MorePlace> {
        let station = station.to_owned();
        self.more.iter().filter(move |p| p.station == station)
    }

    /// A rule as it reads at a place of `own`, or from the house: `here` is the added place, none for the first.
    fn rule(&self, rule: &Predicate, own: Option<&str>, here: Option<&MorePlace>) -> Predicate {
        let each = |list: &[Predicate]| list.iter().map(|p| self.rule(p, own, here)).collect();
        match rule {
            Predicate::Any(list) => Predicate::Any(each(list)),
            Predicate::All(list) => Predicate::All(each(list)),
            Predicate::Not(one) => Predicate::Not(Box::new(self.rule(one, own, here))),
            Predicate::Item { item, test } => {
                let at = |item: String| Predicate::Item { item, test: test.clone() };
                match (self.station_of(item), here) {
                    (Some(station), Some(here)) if Some(station.as_str()) == own => at(here.key(item)),
                    (Some(station), None) if Some(station.as_str()) == own => at(item.clone()),
                    (Some(station), _) => {
                        let mut all = vec![at(item.clone())];
                        all.extend(self.places_of(&station).map(|place| at(place.key(item))));
                        match (all.len(), test) {
                            (1, _) => at(item.clone()),
                            (_, Test::NotIn(_) | Test::Lacks(_) | Test::Unknown(true)) => Predicate::All(all),
                            _ => Predicate::Any(all),
                        }
                    }
                    (None, _) => at(item.clone()),
                }
            }
        }
    }

    fn rules<'r>(
        &self,
        rules: impl IntoIterator<Item = &'r mut Predicate>,
        own: Option<&str>,
        here: Option<&MorePlace>,
    ) {
        rules.into_iter().for_each(|rule| *rule = self.rule(rule, own, here));
    }

    fn item(&self, item: &mut Item, here: Option<&MorePlace>) {
        let own = self.station_of(&item.id);
        self.rules(item.skip_if.iter_mut().chain(&mut item.promote_if), own.as_deref(), here);
        item.at_each = false;
        if let Some(here) = here {
            (item.id, item.station) = (here.key(&item.id), here.place.clone());
        }
    }

    /// The key of a condition seen from a place; for one of the house, of every place it stands for.
    fn conditions(&self, id: &str, own: Option<&str>, here: Option<&MorePlace>) -> Vec<String> {
        let station = self.placed.iter().find(|(c, _)| *c == id).map(|(_, station)| *station);
        match (station, own, here) {
            (Some(station), Some(own), Some(here)) if station == own => vec![here.key(id)],
            (Some(station), None, _) => {
                let more = self.places_of(station).map(|place| place.key(id));
                core::iter::once(id.to_owned()).chain(more).collect()
            }
            _ => vec![id.to_owned()],
        }
    }

    fn condition(&self, c: &mut Condition, here: Option<&MorePlace>) {
        let own = c.place.clone();
        let own = own.as_deref();
        let scopes = c.not_applicable_if.iter_mut().chain(&mut c.applies_if);
        let gates = c.decision.iter_mut().flat_map(|d| d.when_if.iter_mut().chain(&mut d.released_by));
        let costs = c.cost_when.iter_mut().map(|when| &mut when.when);
        self.rules(scopes.chain(gates).chain(costs), own, here);
        c.covers_cost_of = c.covers_cost_of.iter().flat_map(|id| self.conditions(id, own, here)).collect();
        if let Some(here) = here {
            c.id = here.key(&c.id);
            c.place = None;
            c.measured_by = None;
        }
    }

    /// Station, items, clues, conditions and relations of one added place.
    fn add(&self, from: &Catalog, out: &mut Catalog, here: &MorePlace) {
        let of = |station: &str| station == here.station;
        // After the places of its station that are there already.
        let known: BTreeSet<&str> =
            self.places_of(&here.station).map(|p| p.place.as_str()).chain([here.station.as_str()]).collect();
        if let (Some(first), Some(at)) =
            (from.station(&here.station), out.stations.iter().rposition(|s| known.contains(s.id.as_str())))
        {
            let station =
                Station { id: here.place.clone(), label: here.label.clone(), each: None, ..first.clone() };
            out.stations.insert(at + 1, station);
        }
        let mut items: Vec<Item> =
            from.items.iter().filter(|i| i.at_each && of(&i.station)).cloned().collect();
        items.iter_mut().for_each(|item| self.item(item, Some(here)));
        let at = out.items.iter().rposition(|i| known.contains(i.station.as_str()));
        let at = at.map_or(out.items.len(), |at| at + 1);
        out.items.splice(at..at, items);

        let asked_here = |clue: &Clue| self.station_of(&clue.item).is_some_and(|station| of(&station));
        let here_too: BTreeSet<&str> =
            from.clues.values().filter(|c| asked_here(c)).map(|c| c.id.as_str()).collect();
        for clue in from.clues.values().filter(|c| asked_here(c)) {
            let mut clue = clue.clone();
            self.rules(clue.neutral_if.as_mut(), Some(&here.station), Some(here));
            (clue.id, clue.item) = (here.key(&clue.id), here.key(&clue.item));
            out.clues.insert(clue.id.clone(), clue);
        }
        let rename = |clue: &mut String| {
            if here_too.contains(clue.as_str()) {
                *clue = here.key(clue);
            }
        };
        for condition in from.conditions.iter().filter(|c| c.place.as_deref().is_some_and(of)) {
            let mut condition = condition.clone();
            let id = condition.id.clone();
            self.condition(&mut condition, Some(here));
            condition.clues.iter_mut().for_each(|pair| rename(&mut pair.clue));
            condition.overlaps.iter_mut().flat_map(|(_, clues)| clues).for_each(rename);
            if out.reference.base_odds.not_for.contains(&id) {
                out.reference.base_odds.not_for.push(condition.id.clone());
            }
            let at = out.conditions.iter().rposition(|c| Key::parse(&c.id).id == id);
            out.conditions.insert(at.map_or(out.conditions.len(), |at| at + 1), condition);
        }
        let placed = |id: &String| self.placed.iter().any(|(c, station)| c == id && of(station));
        for pair in from.excludes.iter().filter(|e| e.pair.iter().all(placed)) {
            let mut pair = pair.clone();
            pair.pair.iter_mut().for_each(|id| *id = here.key(id));
            out.excludes.push(pair);
        }
        for rule in from.implies.iter().filter(|i| placed(&i.premise) && placed(&i.conclusion)) {
            let mut rule = rule.clone();
            (rule.premise, rule.conclusion) = (here.key(&rule.premise), here.key(&rule.conclusion));
            out.implies.push(rule);
        }
        for rule in from.derived.iter().filter(|d| placed(&d.condition)) {
            let mut rule = rule.clone();
            rule.condition = here.key(&rule.condition);
            rule.none_of.iter_mut().for_each(|id| {
                if placed(id) {
                    *id = here.key(id);
                }
            });
            out.derived.push(rule);
        }
    }
}
