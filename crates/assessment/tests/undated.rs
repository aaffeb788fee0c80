//! A house whose year nobody knows is reasoned about era by era: the answers are those of one tree over all eras.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use assessment::decision::LossRules;
use assessment::{Live, Request, house_evidence};
use inference::{Calibrated, Split, posterior};
use survey::log::Value;
use survey::model::Picture;
use survey::units::Quantity;

#[path = "several/support.rs"]
#[allow(dead_code, reason = "shared with the tests of several places")]
mod support;

use support::{CATALOG, House, TABLES, one, several};

/// Required between the two ways.
const SAME: f64 = 1e-12;

fn request(picture: &Picture) -> Request<'_> {
    let survey = picture.survey.unwrap();
    Request { survey, picture, catalog: &CATALOG, tables: &TABLES, rules: LossRules::default() }
}

fn gutted(year: i64) -> Value {
    Value::Number(Quantity { milli: year * 1000, unit: String::new() })
}

/// Houses without a year: asked nothing, asked some, known to be gutted, said to be not known.
fn undated() -> Vec<Picture> {
    let planned = || {
        let jobs = ["remove-bulkhead", "deep-sink", "add-circuits", "new-floor", "remove-wall"];
        House::default().say("planned-work", several(&jobs))
    };
    vec![
        planned().picture(),
        planned()
            .say("year-built", Value::CantTell)
            .say("bulkhead-form", one("stepped-or-one-side"))
            .say("bulkhead-fitted", several(&["register"]))
            .say("bulkhead-sound", one("quiet"))
            .picture(),
        planned().say("last-gut", gutted(1998)).picture(),
    ]
}

#[test]
fn odds_and_what_ifs_are_those_of_one_tree_over_all_eras() {
    for picture in undated() {
        let mut live = Live::default();
        let odds = live.odds(&request(&picture)).unwrap();
        let house = odds.network();
        let evidence = house_evidence(&CATALOG, house, &picture).all();
        let whole = posterior(&house.net, &evidence).unwrap();
        for (key, p) in odds.conditions() {
            let there = whole.of(house.condition(key).unwrap())[1];
            assert!((p - there).abs() < SAME, "{key}: {p} {there}");
        }
        // The cases as an assessment makes them: each era, with the room as old as the house unless it was gutted.
        let node = |name: &str| house.net.find(name).unwrap();
        let (era, room) = (node("house.year-band"), node("house.room-era"));
        let copies = !house.net.nodes()[room].parents.is_empty();
        let cases: Vec<Vec<(usize, usize)>> = (0..house.net.nodes()[era].states.len())
            .map(|level| [era, room].into_iter().take(1 + usize::from(copies)).map(|n| (n, level)).collect())
            .collect();
        let mut split = Split::new(&house.net, &evidence, &cases).unwrap();
        let mut tree = Calibrated::new(&house.net, &evidence).unwrap();
        let nodes: Vec<usize> = house.conditions.iter().map(|(_, node)| *node).collect();
        for asked in (0..house.net.len()).step_by(5) {
            let (by_era, at_once) = (split.given(asked, &nodes).unwrap(), tree.given(asked, &nodes).unwrap());
            for (state, chance) in at_once.chances.iter().enumerate() {
                assert!((by_era.chances[state] - chance).abs() < SAME, "node {asked}");
                for i in 0..nodes.len() {
                    let (a, b) = (by_era.of(state, i), at_once.of(state, i));
                    assert!(
                        a.len() == b.len() && a.iter().zip(b).all(|(a, b)| (a - b).abs() < SAME),
                        "{asked}"
                    );
                }
            }
        }
    }
}

#[test]
fn knowing_the_year_moves_the_odds_and_is_among_what_is_worth_asking() {
    let house = || House::default().say("planned-work", several(&["open-wall", "new-floor", "remove-wall"]));
    let (open, dated) = (house().picture(), house().say("year-built", gutted(1935)).picture());
    let (mut live, mut other) = (Live::default(), Live::default());
    let (mut open, dated) = (live.odds(&request(&open)).unwrap(), other.odds(&request(&dated)).unwrap());
    let (before, after): (Vec<f64>, Vec<f64>) =
        (open.conditions().map(|(_, p)| p).collect(), dated.conditions().map(|(_, p)| p).collect());
    assert!(before.iter().zip(&after).any(|(a, b)| (a - b).abs() > 0.05));
    let questions = open.questions(None, &mut || true).unwrap().unwrap();
    assert!(questions.plan.ask.iter().any(|p| p.step.item.id == "year-built"));
}
