//! What holds where a house can have several of something: what is asked at each, what is there at each, and that
//! nothing has to guess which of them is meant.

use std::collections::{BTreeMap, BTreeSet};

use super::item::{AnswerKind, Place};
use super::load::Loader;
use super::raw::RelationsFile;
use super::source_file::At;
use super::suggest;

/// More places of one kind than this are no walk of an hour.
const MOST: u32 = 12;

impl Loader<'_> {
    pub(super) fn check_places(&mut self, context: &At, relations_at: &At, relations: &RelationsFile) {
        self.check_stations();
        self.check_asked_once(context);
        let several: Vec<String> =
            self.stations.iter().filter(|(s, _)| s.each.is_some()).map(|(s, _)| s.id.clone()).collect();
        let mut place_of: BTreeMap<String, Option<String>> = BTreeMap::new();
        for (c, at) in self.conditions.clone() {
            place_of.insert(c.id.clone(), c.place.clone());
            let Some(place) = &c.place else { continue };
            let at = at.to("place");
            if self.stations.iter().any(|(s, _)| s.id == *place) {
                if !several.contains(place) {
                    let what =
                        format!("a house has the station “{place}” once, so “{}” needs no place", c.id);
                    let mend = "delete it, or say in the station what there can be several of (each)";
                    self.faults.add(&at, what, Some(mend.to_owned()));
                }
            } else {
                let what = format!("there is no station “{place}”");
                let mend = suggest::mend(place, several.iter().map(String::as_str));
                self.faults.add(&at, what, mend);
            }
        }
        self.check_read_at(&place_of);
        self.check_related(relations_at, relations, &place_of);
    }

    fn check_stations(&mut self) {
        let stations = self.stations.clone();
        let mut nouns: BTreeSet<String> = BTreeSet::new();
        for (station, at) in &stations {
            let Some(each) = &station.each else { continue };
            let at = at.to("each");
            let words = |text: &str| {
                let word = |w: &str| !w.is_empty() && w.bytes().all(|b| b.is_ascii_lowercase());
                text.split(' ').all(word)
            };
            if !words(&each.one) || !words(&each.several) {
                let mend = "for example one = \"soffit\", several = \"soffits\"".to_owned();
                let what = format!("“{}”, “{}”: lower-case words are wanted", each.one, each.several);
                self.faults.add(&at, what, Some(mend));
            }
            if !(2..=MOST).contains(&each.most) {
                self.faults.add(&at.to("most"), format!("most lies between 2 and {MOST}"), None);
            }
            if station.place != Place::House {
                let what = format!("“{}” is not in the house, where alone there can be several", station.id);
                self.faults.add(&at, what, Some("where = \"house\", or no each".to_owned()));
            }
            // Ids of added places end in the noun: they must tell the station, and never be a station's own id.
            let last = each.one.replace(' ', "-");
            if nouns.iter().any(|n| ends_in(n, &last) || ends_in(&last, n)) {
                let what = format!("another station has places that end in “{}”", each.one);
                self.faults.add(&at.to("one"), what, Some("use another word".to_owned()));
            }
            if let Some((other, _)) =
                stations.iter().find(|(s, _)| s.id != station.id && ends_in(&s.id, &last))
            {
                let what = format!("the station “{}” could be taken for a {}", other.id, each.one);
                self.faults.add(&at.to("one"), what, Some("use another word or another id".to_owned()));
            }
            nouns.insert(last);
        }
    }

    /// Facts about the house and check results have no place of their own.
    fn check_asked_once(&mut self, context: &At) {
        let at_each: BTreeSet<String> =
            self.items.iter().filter(|i| i.at_each).map(|i| i.id.clone()).collect();
        for (n, item) in self.factors.iter().map(|f| f.item.clone()).enumerate().collect::<Vec<_>>() {
            if at_each.contains(&item) {
                let at = context.to("factor").to(n).to("item");
                let what = format!("“{item}” is asked at several places; a house has one answer to a factor");
                self.faults.add(&at, what, Some("read it from an item that is asked once".to_owned()));
            }
        }
        for i in 0..self.items.len() {
            if self.items[i].at_each && self.items[i].answer == AnswerKind::Checks {
                let what = "check results name their place themselves".to_owned();
                let mend = "ask for them at a station that the house has once".to_owned();
                self.faults.add(&self.item_at[i].to("answer").clone(), what, Some(mend));
            }
        }
    }

    /// What a condition reads must say which place it means.
    fn check_read_at(&mut self, place_of: &BTreeMap<String, Option<String>>) {
        let asked_at: BTreeMap<String, String> =
            self.items.iter().filter(|i| i.at_each).map(|i| (i.id.clone(), i.station.clone())).collect();
        let clue_at: BTreeMap<String, String> = self
            .clues
            .iter()
            .filter_map(|(clue, _)| Some((clue.id.clone(), asked_at.get(&clue.item)?.clone())))
            .collect();
        for (c, at) in self.conditions.clone() {
            for (i, pair) in c.clues.iter().enumerate() {
                let (Some(place), Some(read)) = (&c.place, clue_at.get(&pair.clue)) else { continue };
                if place != read {
                    let what = format!(
                        "“{}” is read at each place of “{read}”, “{}” is there at each place of “{place}”: which of them is meant?",
                        pair.clue, c.id
                    );
                    let mend = format!(
                        "ask for it in “{place}” with a clue of its own, or where the house has it once"
                    );
                    self.faults.add(&at.to("clues").to(i).to("clue"), what, Some(mend));
                }
            }
            if let Some(measured) = &c.measured_by {
                let here = |item: &String| asked_at.get(item).is_some_and(|s| Some(s) == c.place.as_ref());
                let elsewhere =
                    measured.inputs.iter().find(|item| asked_at.contains_key(*item) && !here(item));
                let at = at.to("measured-by.inputs");
                if let Some(item) = elsewhere {
                    let what = format!(
                        "“{item}” is measured at several places, none of which is that of “{}”",
                        c.id
                    );
                    self.faults.add(&at, what, Some("give the condition the same place".to_owned()));
                } else if c.place.is_some() && !measured.inputs.iter().any(here) {
                    let what = format!("nothing that measures “{}” is asked at its place", c.id);
                    self.faults.add(&at, what, Some("drop its place, or ask an input there".to_owned()));
                }
            }
            for (i, other) in c.covers_cost_of.iter().enumerate() {
                if let (Some(a), Some(Some(b))) = (&c.place, place_of.get(other))
                    && a != b
                {
                    let what = format!("“{}” is at each place of “{a}”, “{other}” of “{b}”", c.id);
                    self.faults.add(&at.to("covers-cost-of").to(i), what, None);
                }
            }
        }
    }

    /// Conditions that exclude, imply or follow from each other do so at one place.
    fn check_related(
        &mut self,
        at: &At,
        relations: &RelationsFile,
        place_of: &BTreeMap<String, Option<String>>,
    ) {
        let mut pairs: Vec<(At, &str, &str)> = Vec::new();
        for (i, e) in relations.excludes.iter().enumerate() {
            pairs.push((at.to("excludes").to(i).to("pair"), &e.pair[0], &e.pair[1]));
        }
        for (i, r) in relations.implies.iter().enumerate() {
            pairs.push((at.to("implies").to(i).to("then"), &r.premise, &r.conclusion));
        }
        for (i, d) in relations.derived.iter().enumerate() {
            let at = at.to("derived").to(i).to("none-of");
            let others = d.none_of.iter().enumerate();
            pairs.extend(others.map(|(j, o)| (at.to(j), d.condition.as_str(), o.as_str())));
        }
        for (at, a, b) in pairs {
            if let (Some(one), Some(other)) = (place_of.get(a), place_of.get(b))
                && one != other
            {
                let what = format!("“{a}” and “{b}” are not at the same place, so neither settles the other");
                self.faults.add(&at, what, Some("give both the same place, or none".to_owned()));
            }
        }
    }
}

/// True when a hyphenated word is or ends in another one.
fn ends_in(word: &str, last: &str) -> bool {
    word.strip_suffix(last).is_some_and(|head| head.is_empty() || head.ends_with('-'))
}
