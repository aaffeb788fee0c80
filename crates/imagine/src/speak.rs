//! From what is there to what is said: the inverse of the catalog's clues.

use std::collections::{BTreeMap, BTreeSet};

use survey::catalog::{AnswerKind, Answers, Catalog, Item, TrueWhen};
use survey::log::Value;
use survey::units::Length;

use crate::candidates::{Range, statements};
use crate::forward::States;
use crate::ground::{Sight, agrees};
use crate::habits::{Habits, Spread};
use crate::stream::Stream;

/// Facts about a house so far: item to answer.
pub(crate) type Facts = BTreeMap<String, Value>;

/// Most draws of a number until it fits what is to be seen.
const NUMBER_TRIES: u32 = 60;

/// Facts with one more.
struct With<'a> {
    facts: &'a Facts,
    item: &'a str,
    value: &'a Value,
}

impl Answers for With<'_> {
    fn value(&self, item: &str) -> Option<&Value> {
        if item == self.item { Some(self.value) } else { self.facts.get(item) }
    }
}

/// How an answer lies to what is to be seen.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Fit {
    /// It says something else.
    Clashes,
    /// It says nothing of it.
    Hides,
    /// It says some of it.
    Partly,
    /// It says all of it.
    Tells,
}

/// One item to be answered, and what is to be seen there.
pub(crate) struct Question<'a> {
    pub(crate) catalog: &'a Catalog,
    pub(crate) habits: &'a Habits,
    pub(crate) item: &'a Item,
    pub(crate) sights: Vec<&'a Sight>,
    pub(crate) facts: &'a Facts,
    /// Answers that would take a condition out of scope.
    pub(crate) forbidden: &'a dyn Fn(&Value) -> bool,
    /// Conditions in scope.
    pub(crate) scope: &'a BTreeSet<String>,
}

/// An answer and the tolerance noted with it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Spoken {
    pub(crate) value: Value,
    pub(crate) tolerance: Option<Length>,
}

impl Question<'_> {
    /// An answer that agrees with what is to be seen; `None` where the item has none.
    pub(crate) fn answer(&self, states: &States, stream: &mut Stream) -> Option<Spoken> {
        let plain = |value| Spoken { value, tolerance: None };
        match &self.item.answer {
            AnswerKind::Choice { .. } => self.choice(states, stream).map(plain),
            AnswerKind::Choices { alone, .. } => self.ticks(alone, states, stream).map(plain),
            AnswerKind::Length { .. } | AnswerKind::Number { .. } => self.number(states, stream),
            AnswerKind::Checks => None,
        }
    }

    /// Clues of the item that another answer hides.
    fn hidden_elsewhere(&self, clue: &str) -> bool {
        let rule = self.catalog.clue(clue).and_then(|c| c.neutral_if.as_ref());
        rule.is_some_and(|r| r.holds(self.facts) == Some(true))
    }

    /// Which clues of a sight are to be seen, but for those another answer hides.
    fn target(&self, sight: &Sight, states: &States) -> Vec<bool> {
        let seen = sight.row(states).iter().zip(&sight.clues);
        seen.map(|(seen, clue)| *seen && !self.hidden_elsewhere(clue)).collect()
    }

    fn fit(&self, value: &Value, states: &States) -> Fit {
        if (self.forbidden)(value) {
            return Fit::Clashes;
        }
        let answers = With { facts: self.facts, item: &self.item.id, value };
        let (mut told, mut silent) = (0, 0);
        for sight in &self.sights {
            let said = sight.said(self.catalog, &answers);
            if !agrees(&self.target(sight, states), &said) {
                return Fit::Clashes;
            }
            let open = sight.clues.iter().zip(&said).filter(|(c, _)| !self.hidden_elsewhere(c));
            let nothing = open.clone().all(|(_, said)| said.is_none());
            if open.count() == 0 || sight.rows.iter().filter(|row| agrees(row, &said)).count() == 1 {
                told += 1;
            } else if nothing {
                silent += 1;
            }
        }
        match self.sights.len() {
            n if told == n => Fit::Tells,
            n if silent == n => Fit::Hides,
            _ => Fit::Partly,
        }
    }

    /// True when a clue is to be seen.
    fn shows_something(&self, states: &States) -> bool {
        self.sights.iter().any(|s| self.target(s, states).contains(&true))
    }

    fn choice(&self, states: &States, stream: &mut Stream) -> Option<Value> {
        let options: Vec<(&str, Fit)> = statements(self.item)
            .map(|o| (o, self.fit(&Value::Choice(o.to_owned()), states)))
            .filter(|(_, fit)| *fit != Fit::Clashes)
            .collect();
        let best = options.iter().map(|(_, fit)| *fit).max()?;
        let hidden = self.habits.hidden.of(&self.item.id);
        let hides = options.iter().any(|(_, fit)| *fit == Fit::Hides);
        let wanted: &dyn Fn(Fit) -> bool = if hidden > 0.0 && hides && stream.chance(hidden) {
            &|fit| fit == Fit::Hides
        } else if hidden == 0.0 && !self.shows_something(states) {
            &|_| true // nothing to be seen: what hides is as good an answer as any
        } else {
            &|fit| fit == best
        };
        let weight = |(option, fit): &(&str, Fit)| {
            if wanted(*fit) { self.habits.weight(&self.item.id, option) } else { 0.0 }
        };
        let picked = stream.pick(options.iter().map(weight))?;
        Some(Value::Choice(options[picked].0.to_owned()))
    }

    fn ticks(&self, alone: &[String], states: &States, stream: &mut Stream) -> Option<Value> {
        let id = &self.item.id;
        let one = |option: &str| Value::choices(vec![option.to_owned()]);
        let options: Vec<&str> = statements(self.item).collect();
        let is_alone = |o: &str| alone.iter().any(|a| a == o);
        let hiding: Vec<&str> = options
            .iter()
            .copied()
            .filter(|o| !self.sights.is_empty() && self.fit(&one(o), states) == Fit::Hides)
            .filter(|o| !is_alone(o) && self.habits.tick(id, o) > 0.0)
            .collect();
        if !hiding.is_empty() && stream.chance(self.habits.hidden.of(id)) {
            let picked = stream.pick(hiding.iter().map(|o| self.habits.weight(id, o)))?;
            return Some(one(hiding[picked]));
        }
        let mut wanted: Vec<&[String]> = Vec::new();
        let mut unwanted: BTreeSet<&str> = BTreeSet::new();
        let mut read: BTreeSet<&str> = BTreeSet::new();
        for sight in &self.sights {
            for (clue, seen) in sight.clues.iter().zip(self.target(sight, states)) {
                let Some(clue) = self.catalog.clue(clue) else { continue };
                let (TrueWhen::Has(list) | TrueWhen::In(list)) = &clue.true_when else { continue };
                read.extend(list.iter().map(String::as_str));
                read.extend(clue.neutral_on.iter().map(String::as_str));
                if seen {
                    wanted.push(list);
                } else {
                    unwanted.extend(list.iter().map(String::as_str));
                }
            }
        }
        let mut ticked: BTreeSet<&str> = BTreeSet::new();
        for list in wanted {
            if list.iter().any(|o| ticked.contains(o.as_str())) {
                continue;
            }
            let open: Vec<&str> = options
                .iter()
                .copied()
                .filter(|o| list.iter().any(|l| l == o) && !unwanted.contains(o))
                .collect();
            let company = open.iter().any(|o| !is_alone(o));
            let weight = |o: &&str| if company && is_alone(o) { 0.0 } else { self.habits.weight(id, o) };
            ticked.insert(open[stream.pick(open.iter().map(weight))?]);
        }
        if ticked.iter().any(|o| is_alone(o)) {
            let value = Value::choices(ticked.iter().map(|o| (*o).to_owned()).collect());
            return (ticked.len() == 1 && self.fit(&value, states) != Fit::Clashes).then_some(value);
        }
        for option in &options {
            let in_scope = self.catalog.condition(option).is_none() || self.scope.contains(*option);
            if !is_alone(option) && !read.contains(option) && in_scope {
                let tick = stream.chance(self.habits.tick(id, option));
                if tick {
                    ticked.insert(option);
                }
            }
        }
        if ticked.is_empty() {
            return self.nothing_ticked(&options, &unwanted, &is_alone, states, stream);
        }
        let value = Value::choices(ticked.iter().map(|o| (*o).to_owned()).collect());
        (self.fit(&value, states) != Fit::Clashes).then_some(value)
    }

    /// The answer of an item with several ticks where none is to be made: an option that stands alone, such as "none".
    fn nothing_ticked(
        &self,
        options: &[&str],
        unwanted: &BTreeSet<&str>,
        is_alone: &dyn Fn(&str) -> bool,
        states: &States,
        stream: &mut Stream,
    ) -> Option<Value> {
        let one = |option: &str| Value::choices(vec![option.to_owned()]);
        let fits: Vec<(&str, Fit)> = options
            .iter()
            .filter(|o| !unwanted.contains(*o))
            .map(|o| (*o, self.fit(&one(o), states)))
            .filter(|(_, fit)| *fit != Fit::Clashes)
            .collect();
        let lone = fits.iter().any(|(o, _)| is_alone(o));
        let best = fits.iter().filter(|(o, _)| !lone || is_alone(o)).map(|(_, fit)| *fit).max()?;
        let weight = |(o, fit): &(&str, Fit)| {
            let open = *fit == best && (!lone || is_alone(o)) && self.habits.tick(&self.item.id, o) > 0.0;
            if open { self.habits.weight(&self.item.id, o) } else { 0.0 }
        };
        Some(one(fits[stream.pick(fits.iter().map(weight))?].0))
    }

    fn number(&self, states: &States, stream: &mut Stream) -> Option<Spoken> {
        let range = Range::of(self.item);
        let length = matches!(self.item.answer, AnswerKind::Length { .. });
        let tolerances = &self.habits.tolerance;
        let tolerance = if length {
            let picked = stream.pick(tolerances.iter().map(|t| t.weight));
            Some(picked.map_or(0.125, |i| tolerances[i].inches))
        } else {
            None
        };
        let spoken = |value| Spoken { value, tolerance: tolerance.and_then(Length::from_inches) };
        let fits = |value: &Value| self.fit(value, states) != Fit::Clashes;
        let spread = self.spread(&range);
        let [low, high] = range.ends();
        for _ in 0..NUMBER_TRIES {
            let there = match spread {
                Some(s) => s.mean + s.sd * stream.normal(),
                None => stream.between(low, high),
            };
            if !(low..=high).contains(&there) {
                continue;
            }
            let read = there + tolerance.map_or(0.0, |t| 0.5 * t * stream.normal());
            let step = spread.map_or(1.0, |s| s.step);
            let value = range.value(libm::round(read / step) * step)?;
            if fits(&value) {
                return Some(spoken(value));
            }
        }
        // A part of the range that is hardly ever reached: near its threshold.
        let parts = range.parts(self.catalog, self.item);
        let open: Vec<[f64; 2]> = parts
            .into_iter()
            .filter(|p| range.value(0.5 * (p[0] + p[1])).is_some_and(|v| fits(&v)))
            .collect();
        let (middle, reach) =
            spread.map_or((0.5 * (low + high), high - low), |s| (s.mean, 2.0 * s.sd.max(s.step)));
        let distance = |p: &[f64; 2]| (p[0] - middle).max(middle - p[1]).max(0.0);
        let near = open.into_iter().min_by(|a, b| distance(a).total_cmp(&distance(b)))?;
        let at = if near[0] > middle {
            near[0] + stream.share() * reach.min(near[1] - near[0])
        } else if near[1] < middle {
            near[1] - stream.share() * reach.min(near[1] - near[0])
        } else {
            stream.between(near[0], near[1])
        };
        // Tapes are read to fractions; a number keeps three decimals anyway.
        let tape = if length { libm::round(at * 64.0) / 64.0 } else { at };
        range.value(tape).filter(|v| fits(v)).or_else(|| range.value(at).filter(|v| fits(v))).map(spoken)
    }

    /// How the number is spread: by habit, or about the drain default of the same name.
    fn spread(&self, range: &Range) -> Option<Spread> {
        if let Some(spread) = self.habits.number.get(&self.item.id) {
            return Some(*spread);
        }
        let default = self.catalog.drain_defaults.get(&self.item.id)?;
        let AnswerKind::Length { unit, .. } = &self.item.answer else { return None };
        let [low, high] = range.ends();
        let one = unit.number(Length::from_inches(1.0)?);
        let mean = unit.number(default.length).clamp(low, high);
        Some(Spread { mean, sd: default.sigma_assumed * one, step: one / 16.0 })
    }
}
