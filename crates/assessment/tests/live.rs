//! A house kept assessed while answers come in, against assessments from scratch.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use assessment::decision::LossRules;
use assessment::forecast::ForecastError;
use assessment::promise::{Promised, Terms, promise};
use assessment::{Forecast, Live, Request, assess};
use survey::Stamp;
use survey::guide::{Status, Step, walk};
use survey::log::Value;
use survey::model::Picture;
use survey::units::{Money, Quantity};

#[path = "several/support.rs"]
#[allow(dead_code, reason = "shared with the tests of several places")]
mod support;

use support::{CATALOG, House, TABLES, one, several};

fn moment() -> Stamp {
    "2026-04-12T09:30:00.000-05:00".parse().unwrap()
}

fn number(whole: i64) -> Value {
    Value::Number(Quantity { milli: whole * 1000, unit: String::new() })
}

/// A few answers of an invented house, in walking order.
fn answers() -> Vec<(&'static str, Value)> {
    vec![
        ("planned-work", several(&["remove-bulkhead", "deep-sink", "add-circuits"])),
        ("year-built", number(1958)),
        ("bulkhead-form", one("stepped-or-one-side")),
        ("bulkhead-fitted", several(&["register"])),
        ("bulkhead-scan", several(&["live-signal"])),
        ("bulkhead-sound", one("quiet")),
    ]
}

fn picture(answers: &[(&str, Value)]) -> Picture {
    answers.iter().fold(House::default(), |house, (item, value)| house.say(item, value.clone())).picture()
}

fn request(picture: &Picture) -> Request<'_> {
    let survey = picture.survey.unwrap();
    Request { survey, picture, catalog: &CATALOG, tables: &TABLES, rules: LossRules::default() }
}

fn open(picture: &Picture) -> Vec<Step<'_>> {
    let steps = walk(&CATALOG, picture).into_iter();
    steps.filter(|s| matches!(s.status, Status::Open | Status::SecondLook)).collect()
}

#[test]
fn kept_from_answer_to_answer_it_says_what_an_assessment_from_scratch_says() {
    let all = answers();
    let mut live = Live::default();
    // Forward, back, and with another answer in place of one: whatever came before leaves no trace.
    let mut steps: Vec<Vec<(&str, Value)>> = (1..=all.len()).map(|n| all[..n].to_vec()).collect();
    steps.push(all[..3].to_vec());
    steps.push([&all[..1], &[("year-built", number(1925))], &all[2..]].concat());
    for step in steps {
        let picture = picture(&step);
        let request = request(&picture);
        let kept = live.odds(&request).unwrap().freeze(moment()).unwrap();
        assert_eq!(kept, assess(&request, moment()).unwrap().0, "{step:?}");
    }
}

#[test]
fn the_order_of_the_answers_is_of_no_account() {
    let (one, mut turned) = (answers(), answers());
    turned.reverse();
    let [one, other] = [one, turned].map(|answers| {
        let picture = picture(&answers);
        let mut forecast = assess(&request(&picture), moment()).unwrap().0;
        forecast.log.heads.clear();
        forecast
    });
    assert_eq!(one, other);
}

#[test]
fn the_way_of_every_dot_ends_where_it_lies() {
    let picture = picture(&answers());
    let forecast = assess(&request(&picture), moment()).unwrap().0;
    let mut steps = 0;
    for condition in &forecast.conditions {
        match condition.band {
            Some([low, high]) => {
                let p = condition.probability;
                // A skew base rate may leave its mean outside eight in ten of it.
                assert!(
                    low < high && low <= p && (p <= high || p < 0.1),
                    "{}: {low} {p} {high}",
                    condition.id
                );
            }
            None => assert!(condition.measured_by.is_some(), "{}", condition.id),
        }
        let path = condition.path.as_ref().unwrap();
        let end = path.last().map_or(condition.base, |step| step.to);
        assert!((end - condition.probability).abs() < 0.02, "{}: {end}", condition.id);
        for step in path {
            assert!(step.answers >= 1 && (step.answer.is_none() || step.answers == 1), "{}", condition.id);
            steps += usize::from(step.answer.is_some());
        }
    }
    assert!(steps > 10, "{steps}");
    let soffit = forecast.conditions.iter().find(|c| c.id.starts_with("bulkhead")).unwrap();
    let told: Vec<&str> =
        soffit.path.iter().flatten().filter_map(|s| s.answer.as_ref()).map(|a| a.item.as_str()).collect();
    let walked: Vec<&str> = answers().iter().map(|(item, _)| *item).collect();
    let places: Vec<usize> = told.iter().filter_map(|item| walked.iter().position(|w| w == item)).collect();
    assert!(places.is_sorted(), "{told:?} are in the order of the walk");
}

/// Form 2 had no shape of the chances and no way of the dots. Packets hold its bytes.
#[test]
fn an_assessment_of_form_2_is_read_and_gives_its_bytes_back() {
    let picture = picture(&answers());
    let mut early = assess(&request(&picture), moment()).unwrap().0;
    early.v = 2;
    early.money.shape = None;
    early.days.bars = None;
    early.conditions.iter_mut().for_each(|c| (c.path, c.band) = (None, None));
    let bytes = early.to_bytes();
    let text = String::from_utf8(bytes.clone()).unwrap();
    for key in ["\"shape\"", "\"bars\"", "\"path\"", "\"band\""] {
        assert!(!text.contains(key), "{key} was not in form 2");
    }
    let read = Forecast::from_bytes(&bytes).unwrap();
    assert_eq!(read.to_bytes(), bytes);
    let older = text.replacen("\"v\": 2", "\"v\": 1", 1);
    assert_eq!(Forecast::from_bytes(older.as_bytes()), Err(ForecastError::Older { found: 1 }));
}

#[test]
fn what_is_broken_off_says_nothing_and_leaves_no_trace() {
    let picture = picture(&answers());
    let mut live = Live::default();
    let mut odds = live.odds(&request(&picture)).unwrap();
    let whole = odds.looks(&mut || true).unwrap().unwrap();
    for allowed in [0, 1, 7, 40] {
        let mut left = allowed;
        let mut go_on = || {
            left -= 1;
            left >= 0
        };
        assert_eq!(odds.looks(&mut go_on).unwrap(), None, "after {allowed} steps");
    }
    assert!(odds.money(&mut || false).unwrap().is_none());
    assert!(odds.coverage(&mut || false).unwrap().is_none());
    assert_eq!(odds.looks(&mut || true).unwrap().unwrap(), whole);
}

/// Nodes that `from` still bears on given the observed ones: R. D. Shachter, "Bayes-Ball", Proc. 14th Conference on
/// Uncertainty in Artificial Intelligence (1998) 480-487.
fn bears_on(net: &inference::Network, observed: &[bool], from: usize) -> Vec<bool> {
    let nodes = net.nodes();
    let children = |n: usize| (0..nodes.len()).filter(move |c| nodes[*c].parents.contains(&n));
    let (mut up, mut down) = (vec![false; nodes.len()], vec![false; nodes.len()]);
    let mut balls = vec![(from, true)];
    while let Some((n, from_child)) = balls.pop() {
        let mark = if from_child { &mut up } else { &mut down };
        if core::mem::replace(&mut mark[n], true) {
            continue;
        }
        if from_child && !observed[n] {
            balls.extend(nodes[n].parents.iter().map(|p| (*p, true)));
            balls.extend(children(n).map(|c| (c, false)));
        } else if !from_child {
            if observed[n] {
                balls.extend(nodes[n].parents.iter().map(|p| (*p, true)));
            } else {
                balls.extend(children(n).map(|c| (c, false)));
            }
        }
    }
    up.iter().zip(down).map(|(u, d)| *u || d).collect()
}

/// Checked against the graph: what the graph says is apart must not move, and what moves must not be apart.
#[test]
fn an_item_moves_only_conditions_that_the_graph_connects_with_it() {
    let answers = answers();
    let picture = picture(&answers);
    let mut live = Live::default();
    let mut odds = live.odds(&request(&picture)).unwrap();
    let bearings = odds.bearings(&open(&picture), &mut || true).unwrap().unwrap();
    let house = odds.network();
    let evidence = assessment::house_evidence(&CATALOG, house, &picture).all();
    let observed: Vec<bool> = (0..house.net.len()).map(|n| evidence.state(n).is_some()).collect();
    let (mut apart, mut moved) = (0, 0);
    for bearing in &bearings {
        let item = CATALOG.item(&bearing.item).unwrap();
        let named = |name: &str| {
            *name == format!("item.{}", item.id) || item.clues.iter().any(|c| *name == format!("clue.{c}"))
        };
        let nodes = house.net.nodes();
        let starts: Vec<usize> = (0..nodes.len()).filter(|n| named(&nodes[*n].name)).collect();
        if starts.is_empty() || !item.sets_context.is_empty() {
            continue;
        }
        let reached: Vec<Vec<bool>> = starts.iter().map(|s| bears_on(&house.net, &observed, *s)).collect();
        for (key, node) in &house.conditions {
            let connected = reached.iter().any(|r| r[*node]);
            let moves = bearing.moves.contains(key);
            assert!(connected || !moves, "{} moves {key}", bearing.item);
            apart += usize::from(!connected);
            moved += usize::from(moves);
        }
    }
    assert!(apart > 50 && moved > 50, "{apart} {moved}");
}

#[test]
fn no_answer_and_no_look_is_worth_less_than_nothing_and_most_are_worth_something() {
    let picture = picture(&answers()[..2]);
    let mut live = Live::default();
    let mut odds = live.odds(&request(&picture)).unwrap();
    let bearings = odds.bearings(&open(&picture), &mut || true).unwrap().unwrap();
    assert!(bearings.iter().all(|b| b.value > -1e-6), "{bearings:?}");
    assert!(bearings.iter().filter(|b| b.value > 1.0).count() > 10);
    let best = bearings.iter().max_by(|a, b| a.value.total_cmp(&b.value)).unwrap();
    assert!(!best.moves.is_empty());
}

#[test]
fn coverage_is_nothing_before_the_walk_and_whole_when_nothing_is_left_to_ask() {
    let cover = |answers: &[(&str, Value)]| {
        let picture = picture(answers);
        let mut live = Live::default();
        let mut odds = live.odds(&request(&picture)).unwrap();
        odds.coverage(&mut || true).unwrap().unwrap()
    };
    let mut answers = answers()[..2].to_vec();
    let start = cover(&answers);
    assert!(start.left > 50.0 && start.share < 0.5 && start.error > 0.0, "{start:?}");
    let rest = CATALOG.items.iter().filter(|i| !["planned-work", "year-built"].contains(&i.id.as_str()));
    answers.extend(rest.map(|i| (i.id.as_str(), Value::CantTell)));
    let end = cover(&answers);
    assert_eq!((end.share, end.left), (1.0, 0.0), "{end:?}");
}

/// What forbids a check forbids it where it was seen: a promise about one soffit is not told of a hole in it because
/// the other is clear, nor denied one because the other is not.
#[test]
fn a_promise_is_offered_the_checks_of_its_own_place() {
    let checks = |live_at: &str, cover: &str| -> Vec<String> {
        let picture = House::planned(&["remove-bulkhead"])
            .place("bulkhead", "fridge-soffit")
            .say("year-built", number(1995))
            .say_at(live_at, "bulkhead-scan", several(&["live-signal"]))
            .picture();
        let cover = [cover.to_owned()];
        let promised = Promised {
            cover: &cover,
            cap: Money::from_dollars(2_000),
            under: Some(Money::from_dollars(1)),
            terms: Terms::default(),
        };
        let plan = promise(&request(&picture), &promised).unwrap().under.unwrap();
        plan.checks.into_iter().map(|part| part.check).collect()
    };
    let (first, second) = ("bulkhead-duct", "bulkhead-duct@fridge-soffit");
    assert_eq!(checks("bulkhead", first), checks("fridge-soffit", second));
    assert_eq!(checks("fridge-soffit", first), checks("bulkhead", second));
    assert_ne!(checks("bulkhead", first), checks("fridge-soffit", first));
}
