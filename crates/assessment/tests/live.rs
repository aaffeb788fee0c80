//! A house kept assessed while answers come in, against assessments from scratch.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use assessment::decision::LossRules;
use assessment::{Bearing, ClueTables, Live, Request, assess};
use survey::catalog::{Catalog, builtin};
use survey::guide::{Status, walk};
use survey::log::{Answer, Body, Entry, Value};
use survey::model::{Picture, fold};
use survey::units::Quantity;
use survey::{DeviceId, EntryId, Stamp, SurveyId};

fn moment() -> Stamp {
    "2026-04-12T09:30:00.000-05:00".parse().unwrap()
}

fn choice(option: &str) -> Value {
    Value::Choice(option.into())
}

fn choices(options: &[&str]) -> Value {
    Value::Choices(options.iter().map(|o| (*o).into()).collect())
}

fn number(whole: i64) -> Value {
    Value::Number(Quantity { milli: whole * 1000, unit: String::new() })
}

/// A few answers of an invented house, in walking order.
fn answers() -> Vec<(&'static str, Value)> {
    vec![
        ("planned-work", choices(&["remove-bulkhead", "deep-sink", "add-circuits"])),
        ("year-built", number(1958)),
        ("bulkhead-form", choice("stepped-or-one-side")),
        ("bulkhead-fitted", choices(&["register"])),
        ("bulkhead-scan", choices(&["live-signal"])),
        ("bulkhead-sound", choice("quiet")),
    ]
}

fn picture(catalog: &Catalog, answers: &[(&str, Value)]) -> Picture {
    let survey = SurveyId::new(1_776_000_000_000, &[2; 10]);
    let device = DeviceId::new(1_776_000_000_000, &[3; 10]);
    let entries: Vec<Entry> = answers
        .iter()
        .enumerate()
        .map(|(i, (item, value))| Entry {
            v: 1,
            id: EntryId::new(1_776_000_000_000, &[i as u8; 10]),
            survey,
            device,
            seq: i as u64 + 1,
            lamport: i as u64 + 1,
            at: moment(),
            by: "R. Ames".into(),
            prev: None,
            body: Body::Answer(Answer {
                place: catalog.item(item).unwrap().station.clone(),
                item: (*item).into(),
                value: value.clone(),
                tolerance: None,
                entered: None,
                photos: vec![],
                corrects: vec![],
                reason: None,
            }),
        })
        .collect();
    fold(&entries)
}

struct Office {
    catalog: Catalog,
    tables: ClueTables,
}

impl Office {
    fn new() -> Self {
        let catalog = builtin().unwrap();
        Self { tables: ClueTables::fit(&catalog), catalog }
    }
    fn request<'a>(&'a self, picture: &'a Picture) -> Request<'a> {
        Request {
            survey: picture.survey.unwrap(),
            picture,
            catalog: &self.catalog,
            tables: &self.tables,
            rules: LossRules::default(),
        }
    }
    fn bearings(&self, answers: &[(&str, Value)]) -> Vec<Bearing> {
        let picture = picture(&self.catalog, answers);
        let mut live = Live::default();
        let mut odds = live.odds(&self.request(&picture)).unwrap();
        let open = walk(&self.catalog, &picture);
        let open: Vec<_> =
            open.into_iter().filter(|s| matches!(s.status, Status::Open | Status::SecondLook)).collect();
        odds.bearings(&open, &mut || true).unwrap().unwrap()
    }
}

#[test]
fn kept_from_answer_to_answer_it_says_what_an_assessment_from_scratch_says() {
    let office = Office::new();
    let all = answers();
    let mut live = Live::default();
    // Forward, back, and with another answer in place of one: whatever came before leaves no trace.
    let mut steps: Vec<Vec<(&str, Value)>> = (1..=all.len()).map(|n| all[..n].to_vec()).collect();
    steps.push(all[..3].to_vec());
    steps.push([&all[..1], &[("year-built", number(1925))], &all[2..]].concat());
    for step in steps {
        let picture = picture(&office.catalog, &step);
        let request = office.request(&picture);
        let kept = live.odds(&request).unwrap().freeze(moment()).unwrap();
        assert_eq!(kept, assess(&request, moment()).unwrap().0, "{step:?}");
    }
}

#[test]
fn the_order_of_the_answers_is_of_no_account() {
    let office = Office::new();
    let (one, mut turned) = (answers(), answers());
    turned.reverse();
    let [one, other] = [one, turned].map(|answers| {
        let picture = picture(&office.catalog, &answers);
        let mut forecast = assess(&office.request(&picture), moment()).unwrap().0;
        forecast.log.heads.clear();
        forecast
    });
    assert_eq!(one, other);
}

#[test]
fn what_is_broken_off_says_nothing_and_leaves_no_trace() {
    let office = Office::new();
    let picture = picture(&office.catalog, &answers());
    let mut live = Live::default();
    let mut odds = live.odds(&office.request(&picture)).unwrap();
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
    let office = Office::new();
    let answers = answers();
    let picture = picture(&office.catalog, &answers);
    let mut live = Live::default();
    let mut odds = live.odds(&office.request(&picture)).unwrap();
    let open = walk(&office.catalog, &picture);
    let open: Vec<_> =
        open.into_iter().filter(|s| matches!(s.status, Status::Open | Status::SecondLook)).collect();
    let bearings = odds.bearings(&open, &mut || true).unwrap().unwrap();
    let house = odds.network();
    let evidence = assessment::house_evidence(&office.catalog, house, &picture).all();
    let observed: Vec<bool> = (0..house.net.len()).map(|n| evidence.state(n).is_some()).collect();
    let (mut apart, mut moved) = (0, 0);
    for bearing in &bearings {
        let item = office.catalog.item(&bearing.item).unwrap();
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
    let office = Office::new();
    let bearings = office.bearings(&answers()[..2]);
    assert!(bearings.iter().all(|b| b.value > -1e-6), "{bearings:?}");
    assert!(bearings.iter().filter(|b| b.value > 1.0).count() > 10);
    let best = bearings.iter().max_by(|a, b| a.value.total_cmp(&b.value)).unwrap();
    assert!(!best.moves.is_empty());
}

#[test]
fn coverage_is_nothing_before_the_walk_and_whole_when_nothing_is_left_to_ask() {
    let office = Office::new();
    let cover = |answers: &[(&str, Value)]| {
        let picture = picture(&office.catalog, answers);
        let mut live = Live::default();
        let mut odds = live.odds(&office.request(&picture)).unwrap();
        odds.coverage(&mut || true).unwrap().unwrap()
    };
    let mut answers = answers()[..2].to_vec();
    let start = cover(&answers);
    assert!(start.left > 50.0 && start.share < 0.5 && start.error > 0.0, "{start:?}");
    let rest =
        office.catalog.items.iter().filter(|i| !["planned-work", "year-built"].contains(&i.id.as_str()));
    answers.extend(rest.map(|i| (i.id.as_str(), Value::CantTell)));
    let end = cover(&answers);
    assert_eq!((end.share, end.left), (1.0, 0.0), "{end:?}");
}
