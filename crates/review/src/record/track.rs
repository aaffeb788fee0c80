//! The whole record: all houses, split as wanted, what was left out and why, and what was forecast again.

use std::collections::BTreeMap;

use serde::Serialize;
use survey::SurveyId;

use super::amounts::Amounts;
use super::base::Base;
use super::group::By;
use super::house::{JudgedHouse, JudgedSum, NotJudged};
use super::summary::{Case, Record};
use super::trained::{Trained, saw};

/// A track record.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Track {
    /// Version of this form; 1.
    pub v: u32,
    /// All of it.
    pub all: Record,
    /// By what it is split, and the parts in order of their names.
    pub by: Option<By>,
    /// See `by`.
    pub groups: Vec<Group>,
    /// What is not in it, and why.
    pub left_out: Vec<LeftOut>,
    /// The last forecast of each house that was forecast again: apart from all above, and no track record, because it may
    /// know more than the price did.
    pub again: Option<Record>,
}

/// A part of the record.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Group {
    /// Name: an id, an era, a person, a month; empty where it is not known.
    pub name: String,
    /// Its record.
    pub record: Record,
}

/// A house that is not in the record.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LeftOut {
    /// The house.
    pub survey: SurveyId,
    /// Why.
    pub why: Why,
}

/// Why a house is not in the record.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// No finding was entered yet.
    NoFindings,
    /// Findings were entered before any forecast was here.
    NoForecastInTime,
    /// Nothing was opened.
    NothingOpened,
    /// The catalog that forecast it had learned from it.
    CatalogSawIt,
}

impl From<NotJudged> for Why {
    fn from(why: NotJudged) -> Self {
        match why {
            NotJudged::NoFindings => Self::NoFindings,
            NotJudged::NoForecastInTime => Self::NoForecastInTime,
        }
    }
}

/// The record of `houses`, each with the forecast that judges it. `not_judged` are houses without one; `again` are the
/// houses with the last forecast that was made after it; `trained` are catalogs that learned. With `seen_too`, what a
/// catalog forecast that had learned from the house is left in.
pub fn track(
    houses: &[JudgedHouse],
    not_judged: &[(SurveyId, NotJudged)],
    again: &[JudgedHouse],
    trained: &[Trained],
    by: Option<By>,
    seen_too: bool,
) -> Track {
    let mut left_out: Vec<LeftOut> =
        not_judged.iter().map(|(survey, why)| LeftOut { survey: *survey, why: (*why).into() }).collect();
    let mut counted: Vec<&JudgedHouse> = Vec::new();
    for house in houses {
        if !house.is_opened() {
            left_out.push(LeftOut { survey: house.survey, why: Why::NothingOpened });
        } else if !seen_too && saw(house.survey, house.catalog, house.made_at, trained) {
            left_out.push(LeftOut { survey: house.survey, why: Why::CatalogSawIt });
        } else {
            counted.push(house);
        }
    }
    left_out.sort_by_key(|l| l.survey);
    let base = Base::of(counted.iter().copied());
    let again: Vec<&JudgedHouse> = again.iter().filter(|h| h.is_opened()).collect();
    Track {
        v: 1,
        all: whole(&counted, &base),
        by,
        groups: by.map(|by| groups(&counted, &base, by)).unwrap_or_default(),
        left_out,
        again: (!again.is_empty()).then(|| whole(&again, &base)),
    }
}

fn cases<'a>(house: &'a JudgedHouse, base: &Base<'a>) -> Vec<Case> {
    let rates = base.without(house);
    let case = |(c, base): (&super::house::JudgedCondition, f64)| Case {
        house: house.survey,
        p: c.p,
        base,
        happened: c.happened(),
        open: c.outcome.is_none(),
    };
    house.conditions.iter().zip(rates).map(case).collect()
}

fn amounts(houses: &[&JudgedHouse], of: impl Fn(&JudgedHouse) -> Option<&JudgedSum>) -> Amounts {
    Amounts::of(houses.iter().filter_map(|h| Some((h.survey, of(h)?))))
}

fn whole<'a>(houses: &[&'a JudgedHouse], base: &Base<'a>) -> Record {
    let all: Vec<Case> = houses.iter().flat_map(|h| cases(h, base)).collect();
    Record::of(&all, amounts(houses, |h| h.money.as_ref()), amounts(houses, |h| h.days.as_ref()))
}

fn groups<'a>(houses: &[&'a JudgedHouse], base: &Base<'a>, by: By) -> Vec<Group> {
    if by.is_of_houses() {
        let mut parts: BTreeMap<String, Vec<&JudgedHouse>> = BTreeMap::new();
        for house in houses {
            by.groups(house, None).into_iter().for_each(|name| parts.entry(name).or_default().push(house));
        }
        return parts
            .into_iter()
            .map(|(name, houses)| Group { name, record: whole(&houses, base) })
            .collect();
    }
    let mut parts: BTreeMap<String, Vec<Case>> = BTreeMap::new();
    for house in houses {
        for (c, case) in house.conditions.iter().zip(cases(house, base)) {
            by.groups(house, Some(c)).into_iter().for_each(|name| parts.entry(name).or_default().push(case));
        }
    }
    let group = |(name, cases): (String, Vec<Case>)| Group {
        name,
        record: Record::of(&cases, Amounts::default(), Amounts::default()),
    };
    parts.into_iter().map(group).collect()
}

#[cfg(test)]
mod tests {
    use super::super::testing::{house, outcome, sum};
    use super::*;
    use crate::Outcome;
    use survey::{Digest, Stamp};

    const CLOSED: Option<Outcome> = Some(Outcome::NotOpened);

    fn three() -> Vec<JudgedHouse> {
        let mut houses = vec![
            house(
                1,
                "old",
                &[
                    ("duct", 0.8, 0.3, outcome(true)),
                    ("pipe", 0.1, 0.2, outcome(false)),
                    ("joist", 0.9, 0.5, CLOSED),
                ],
            ),
            house(
                2,
                "old",
                &[
                    ("duct", 0.6, 0.3, outcome(false)),
                    ("pipe", 0.3, 0.2, outcome(true)),
                    ("joist", 0.2, 0.5, None),
                ],
            ),
            house(3, "new", &[("duct", 0.1, 0.1, outcome(false)), ("pipe", 0.1, 0.2, CLOSED)]),
        ];
        houses[0].money = Some(sum(1000.0, false));
        houses[2].known.surveyors = vec!["Ben".into(), "Ana".into()];
        houses
    }

    #[test]
    fn what_was_not_opened_is_in_no_score_and_is_counted() {
        let houses = three();
        let all = track(&houses, &[], &[], &[], None, false).all;
        assert_eq!((all.opened, all.found, all.not_opened, all.not_entered), (5, 2, 2, 1));
        let scores = all.scores.unwrap();
        // By hand: .2², .1², .6², .7², .1² over five.
        assert!((scores.brier - (0.04 + 0.01 + 0.36 + 0.49 + 0.01) / 5.0).abs() < 1e-12);
        let parts = scores.reliability - scores.resolution + scores.uncertainty;
        assert!((parts - scores.brier).abs() < 1e-12);
        // Right pairs: .8 over .1 .6 .1; .3 over .1 .1 of the six.
        assert!((scores.auc.unwrap() - 5.0 / 6.0).abs() < 1e-12);
        assert!(all.small && all.money.whole.is_none() && all.money.in_part.is_some());
        // Closing what was found right, or opening it the other way, moves nothing but the count.
        let mut closed = three();
        closed[0].conditions[2].p = 0.0001;
        assert_eq!(track(&closed, &[], &[], &[], None, false).all.scores, Some(scores));
    }

    #[test]
    fn bins_carry_their_houses_and_bands() {
        let houses = three();
        let bins = track(&houses, &[], &[], &[], None, false).all.bins;
        assert_eq!(bins.iter().map(|b| (b.n, b.found)).collect::<Vec<_>>(), [(2, 0), (1, 1), (1, 0), (1, 1)]);
        assert_eq!(bins[0].houses, [houses[0].survey, houses[2].survey]);
        assert!((bins[0].from - 0.1).abs() < 1e-12 && bins[0].band[0] == 0.0 && bins[0].band[1] > 0.6);
    }

    #[test]
    fn parts_are_split_by_what_is_asked_and_add_up() {
        let houses = three();
        let names = |by: By| -> Vec<(String, u32)> {
            let groups = track(&houses, &[], &[], &[], Some(by), false).groups;
            groups.into_iter().map(|g| (g.name, g.record.opened)).collect()
        };
        let owned =
            |list: &[(&str, u32)]| list.iter().map(|(n, k)| ((*n).to_owned(), *k)).collect::<Vec<_>>();
        assert_eq!(names(By::Condition), owned(&[("duct", 3), ("joist", 0), ("pipe", 2)]));
        assert_eq!(names(By::Era), owned(&[("new", 1), ("old", 4)]));
        assert_eq!(names(By::Surveyor), owned(&[("Ana", 5), ("Ben", 1)]));
        assert_eq!(names(By::Scope), owned(&[("new-floor", 5)]));
        assert_eq!(names(By::Month), owned(&[("2026-01", 2), ("2026-02", 2), ("2026-03", 1)]));
    }

    #[test]
    fn what_a_catalog_forecast_that_had_seen_the_house_is_left_out_unless_asked_for() {
        let houses = three();
        let trained = [Trained {
            v: 1,
            catalog: Digest::of(b"catalog"),
            at: Stamp::EPOCH,
            houses: vec![houses[1].survey],
        }];
        let without = track(&houses, &[], &[], &trained, None, false);
        assert_eq!((without.all.opened, without.all.houses.len()), (3, 2));
        assert_eq!(without.left_out, [LeftOut { survey: houses[1].survey, why: Why::CatalogSawIt }]);
        // Its outcomes are not in the base rates of the others either.
        let alone = track(&[houses[0].clone(), houses[2].clone()], &[], &[], &[], None, false);
        assert_eq!(without.all, alone.all);
        assert_eq!(track(&houses, &[], &[], &trained, None, true).all.opened, 5);
    }

    #[test]
    fn houses_without_a_forecast_in_time_or_findings_are_named_and_again_stands_apart() {
        let houses = three();
        let late = house(9, "old", &[("duct", 0.99, 0.3, outcome(true))]);
        let none = [(SurveyId::from_bytes([8; 16]), NotJudged::NoForecastInTime)];
        let shut = house(7, "old", &[("duct", 0.99, 0.3, CLOSED)]);
        let mut with_shut = houses.clone();
        with_shut.push(shut);
        let told = track(&with_shut, &none, &[late], &[], None, false);
        assert_eq!(told.all, track(&houses, &[], &[], &[], None, false).all);
        assert_eq!(
            told.left_out.iter().map(|l| l.why).collect::<Vec<_>>(),
            [Why::NothingOpened, Why::NoForecastInTime]
        );
        assert_eq!(told.again.unwrap().opened, 1);
    }
}
