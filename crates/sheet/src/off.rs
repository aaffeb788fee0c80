//! What may be off and when, as far as the plan tells before the visit.

use std::collections::BTreeSet;

use survey::catalog::{Catalog, Outage, PLANNED_WORK, Three};
use survey::log::Value;
use survey::model::Picture;
use trade::picture::Picture as Drawn;
use words::Words;

use crate::catalog_text::{catalog_text, slug};
use crate::phrases::{self as say, Language, Phrase};

/// From this chance on a half hour counts as likely off; below it, as possible. The line is ours.
const LIKELY: f64 = 0.5;

/// What the plan takes away.
#[derive(Clone, Debug, Default)]
pub(crate) struct Off<'c> {
    /// False while nobody recorded what is planned.
    pub(crate) plan_known: bool,
    /// Tasks of the catalog that the plan brings, in catalog order.
    pub(crate) tasks: Vec<&'c Outage>,
    /// By service, working days on which it is likely off, and those on which that is possible.
    pub(crate) days: Vec<(String, [Vec<u32>; 2])>,
}

impl<'c> Off<'c> {
    /// From the plan, and from the outage calculation on it where one was made.
    pub(crate) fn of(catalog: &'c Catalog, picture: &Picture, calculated: Option<&trade::Sheet>) -> Self {
        // The page has phrases of its own for the services, by their English names.
        let english = Words::of(words::Language::En);
        Self {
            plan_known: picture.value(PLANNED_WORK).is_some_and(Value::is_statement),
            tasks: catalog.planned_outages(picture).collect(),
            days: match calculated.and_then(|sheet| sheet.picture.as_ref()) {
                Some(Drawn::Calendar(strip)) => {
                    strip.rows.iter().map(|(name, blocks)| by_day(&english.text(name), blocks)).collect()
                }
                _ => Vec::new(),
            },
        }
    }
}

/// Days on which some block is likely, and the other days that have any.
fn by_day(name: &str, blocks: &[trade::picture::OffBlock]) -> (String, [Vec<u32>; 2]) {
    let likely: BTreeSet<u32> = blocks.iter().filter(|b| b.3 >= LIKELY).map(|b| b.0).collect();
    let any: BTreeSet<u32> = blocks.iter().map(|b| b.0).collect();
    let possible = any.difference(&likely).copied().collect();
    (name.to_owned(), [likely.into_iter().collect(), possible])
}

/// "day 1, days 3 to 4".
pub(crate) fn days_said(language: Language, days: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for day in days {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == *day => *last = *day,
            _ => runs.push((*day, *day)),
        }
    }
    let one = |(first, last): &(u32, u32)| {
        let (a, b) = (first.to_string(), last.to_string());
        if first == last {
            say::ON_DAY.with(language, &[("day", &a)])
        } else {
            say::ON_DAYS.with(language, &[("first", &a), ("last", &b)])
        }
    };
    runs.iter().map(one).collect::<Vec<_>>().join(", ")
}

/// "0.5 to 2.5 hours, most likely 1"; long ones in days.
pub(crate) fn hours_said(language: Language, hours: &Three) -> String {
    let long = hours.high > Outage::IN_DAYS;
    let number = |h: f64| {
        let value = if long { (h / 24.0).round() } else { h };
        let text = format!("{value:.1}");
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    };
    let (low, likely, high) = (number(hours.low), number(hours.likely), number(hours.high));
    let phrase = if long { say::DAYS } else { say::HOURS };
    phrase.with(language, &[("low", &low), ("likely", &likely), ("high", &high)])
}

/// Words of the services, by their name in catalog and calculation.
const SERVICES: [(&str, Phrase); 16] = [
    ("water", say::WATER),
    ("power", say::POWER),
    ("power, whole house", say::WHOLE_POWER),
    ("internet", say::INTERNET),
    ("gas", say::GAS),
    ("heat", say::HEAT),
    ("cooling", say::COOLING),
    ("kitchen drain", say::KITCHEN_DRAIN),
    ("all drains above", say::DRAINS),
    ("bath", say::BATH),
    ("kitchen", say::KITCHEN),
    ("access", say::ACCESS),
    ("quiet", say::QUIET),
    ("loud work", say::LOUD),
    ("water (well pump)", say::WELL),
    ("sump or sewage pump", say::PUMPS),
];

/// A service in words; a circuit or place keeps its name.
pub(crate) fn service_said(language: Language, name: &str) -> String {
    let known = |name: &str| SERVICES.iter().find(|(n, _)| *n == name).map(|(_, p)| p.said(language));
    match (known(name), name.split_once(": ")) {
        (Some(said), _) => said.to_owned(),
        (None, Some((service, place))) => {
            let place = catalog_text(language, &format!("scope-{}", slug(place)), place);
            format!("{}: {}", known(service).unwrap_or(service), place.text)
        }
        (None, None) => name.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_side_by_side_are_one_run() {
        assert_eq!(days_said(Language::En, &[1, 3, 4, 5]), "day 1, days 3 to 5");
        assert_eq!(days_said(Language::Es, &[2]), "día 2");
        assert_eq!(days_said(Language::En, &[]), "");
    }

    #[test]
    fn a_day_is_likely_when_half_an_hour_of_it_is() {
        let blocks = [(1, 8.0, 9.0, 0.98), (1, 9.0, 9.5, 0.3), (2, 8.0, 9.0, 0.2), (4, 8.0, 9.0, 0.5)];
        assert_eq!(by_day("water", &blocks), ("water".to_owned(), [vec![1, 4], vec![2]]));
    }

    #[test]
    fn long_outages_are_told_in_days() {
        let three = |low, likely, high| Three { low, likely, high };
        assert_eq!(hours_said(Language::En, &three(0.5, 1.0, 2.5)), "0.5 to 2.5 hours, most likely 1");
        assert_eq!(
            hours_said(Language::Es, &three(240.0, 560.0, 1100.0)),
            "de 10 a 46 días, lo más probable 23"
        );
    }

    #[test]
    fn every_service_of_the_catalog_has_words() {
        let catalog = survey::catalog::builtin().unwrap();
        for name in catalog.outages.iter().flat_map(|o| &o.off) {
            assert!(SERVICES.iter().any(|(n, _)| n == name), "{name}");
        }
        assert_eq!(service_said(Language::Es, "power: kitchen circuits"), "luz: circuitos de la cocina");
        assert_eq!(service_said(Language::En, "a firm's own"), "a firm's own");
    }
}
