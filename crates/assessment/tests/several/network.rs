use std::collections::BTreeSet;

use assessment::ClueTables;
use inference::{Evidence, joint, posterior};
use survey::log::Value;
use survey::units::Quantity;

use crate::support::{Answered, CATALOG, House, TABLES, network, one, several};

fn year(n: i64) -> Value {
    Value::Number(Quantity { milli: n * 1000, unit: String::new() })
}

fn soffits() -> House {
    House::planned(&["remove-bulkhead"]).place("bulkhead", "fridge-soffit")
}

fn answered(house: &House) -> Answered {
    Answered::of(&CATALOG, &TABLES, &house.picture())
}

#[test]
fn two_soffits_with_the_same_answers_have_the_same_odds() {
    let mut house = soffits().say("drops-seen", several(&["cables", "duct"])).say("heat-kind", one("ducts"));
    for place in ["bulkhead", "fridge-soffit"] {
        house = house
            .say_at(place, "bulkhead-form", one("stepped-or-one-side"))
            .say_at(place, "bulkhead-fitted", several(&["lights", "register"]))
            .say_at(place, "bulkhead-scan", several(&["live-signal"]));
    }
    let house = answered(&house);
    for c in CATALOG.conditions.iter().filter(|c| c.place.as_deref() == Some("bulkhead")) {
        let (first, second) = (house.p(&c.id), house.p(&format!("{}@fridge-soffit", c.id)));
        assert!((first - second).abs() < 1e-12, "{}: {first} {second}", c.id);
    }
}

#[test]
fn what_one_soffit_shows_speaks_of_that_one_and_what_the_house_shows_of_both() {
    let (duct, fridge) = ("bulkhead-duct", "bulkhead-duct@fridge-soffit");
    let before = answered(&soffits());
    assert!((before.p(duct) - before.p(fridge)).abs() < 1e-12);
    let register = |house: House| house.say_at("bulkhead", "bulkhead-fitted", several(&["register"]));
    let seen = answered(&register(soffits()));
    assert!(seen.p(duct) > before.p(duct) + 0.3, "{}", seen.p(duct));
    // The other one learns only what the house has in common, here that ducts heat it.
    let learned = seen.p(fridge) - before.p(fridge);
    assert!((0.01..0.1).contains(&learned), "{learned}");
    let known = || {
        soffits()
            .say("heat-kind", one("ducts"))
            .say("over-kitchen", one("bath"))
            .say("year-built", year(1962))
    };
    let (quiet, told) = (answered(&known()), answered(&register(known())));
    assert!((quiet.p(fridge) - told.p(fridge)).abs() < 1e-12, "once that is known it learns nothing");
    assert!(told.p(duct) > quiet.p(duct) + 0.3);
    let dropping = || known().say("drops-seen", several(&["duct"]));
    let drops = answered(&dropping());
    for key in [duct, fridge] {
        assert!(drops.p(key) > quiet.p(key) + 0.1, "{key}: {}", drops.p(key));
    }
    // Once the first soffit explains the duct that drops, it says less about the second.
    let explained = answered(&register(dropping()));
    assert!(explained.p(fridge) < drops.p(fridge), "{} {}", explained.p(fridge), drops.p(fridge));
}

#[test]
fn a_clue_asked_once_is_set_off_by_each_place_as_by_the_only_one_and_leaks_once() {
    let clue = "clue.roof-vent-over-sink";
    let plan = House::planned(&["remove-bulkhead"]);
    let (_, one) = network(&CATALOG, &TABLES, &plan.picture());
    let nodes = one.net.nodes();
    let vent = one.condition("bulkhead-vent-stack").unwrap();
    let roof = &nodes[one.net.find(clue).unwrap()];
    assert_eq!(roof.parents, [vent], "no hidden node between: the arithmetic below is all of it");
    let (absent, present) = (roof.cpt[1], roof.cpt[3]);
    // By hand: the soffits are independent given the context c, with the table of the only one; each that has the
    // stack leaves the clue unseen with this chance, and nothing there with 1 − absent.
    let unseen = (1.0 - present) / (1.0 - absent);
    let context = joint(&one.net, &Evidence::new(), &nodes[vent].parents).unwrap();
    for n in 1..=4i32 {
        let (mut with_first, mut all) = (0.0, 0.0);
        for (c, weight) in context.iter().enumerate() {
            let p = nodes[vent].cpt[2 * c + 1];
            let others = (1.0 - p * (1.0 - unseen)).powi(n - 1);
            with_first += weight * p * (1.0 - (1.0 - absent) * unseen * others);
            all += weight * (1.0 - (1.0 - absent) * (1.0 - p * (1.0 - unseen)) * others);
        }
        let mut house = plan.clone();
        for k in 2..=n {
            house = house.place("bulkhead", &format!("number-{k}-soffit"));
        }
        let (_, many) = network(&CATALOG, &TABLES, &house.picture());
        let mut evidence = Evidence::new();
        evidence.observe(many.net.find(clue).unwrap(), 1);
        let odds = posterior(&many.net, &evidence).unwrap();
        for (key, node) in many.conditions.iter().filter(|(k, _)| k.starts_with("bulkhead-vent-stack")) {
            let got = odds.of(*node)[1];
            assert!((got - with_first / all).abs() < 1e-12, "{n} soffits, {key}: {got} {}", with_first / all);
        }
    }
}

#[test]
fn a_place_where_a_condition_makes_a_clue_rarer_sets_nothing_off() {
    let (clue, condition) = ("roof-vent-over-sink", "bulkhead-vent-stack");
    let mut rarer = CATALOG.clone();
    let stack = rarer.conditions.iter_mut().find(|c| c.id == condition).unwrap();
    let pair = stack.clues.iter_mut().find(|pair| pair.clue == clue).unwrap();
    pair.if_present = pair.if_absent / 2.0;
    let tables = ClueTables::fit(&rarer);
    let seen = |house: House| Answered::of(&rarer, &tables, &house.picture());
    let plan = || House::planned(&["remove-bulkhead"]);
    let said = |house: House| house.say("roof-vents", one("over-sink-line"));
    let (before, after) = (seen(plan()), seen(said(plan())));
    assert!(after.p(condition) < before.p(condition), "one soffit: the clue speaks against it");
    let two = || plan().place("bulkhead", "fridge-soffit");
    let (before, after) = (seen(two()), seen(said(two())));
    let fridge = format!("{condition}@fridge-soffit");
    for key in [condition, fridge.as_str()] {
        assert!((after.p(key) - before.p(key)).abs() < 1e-9, "two: it says nothing of either: {key}");
    }
}

/// P(clue) of every clue asked once, in a house of the oldest era where exactly one condition is there, or none.
fn shows(house: &House, present: Option<&str>) -> Vec<(String, f64)> {
    let (_, built) = network(&CATALOG, &TABLES, &house.picture());
    let nodes = built.net.nodes();
    let mut evidence = Evidence::new();
    for name in ["house.year-band", "house.room-era"] {
        evidence.observe(built.net.find(name).unwrap(), 0);
    }
    let place = |key: &str| key.split_once('@').map_or("", |(_, place)| place).to_owned();
    for (key, node) in &built.conditions {
        // A soffit without anything in it is bare.
        let fills = |p: &str| p.starts_with("bulkhead-") && place(p) == place(key);
        let there = match key.starts_with("bulkhead-bare") {
            true => !present.is_some_and(fills),
            false => present == Some(key.as_str()),
        };
        evidence.observe(*node, usize::from(there));
    }
    let odds = posterior(&built.net, &evidence).unwrap();
    let once = |name: &str| (name.starts_with("clue.") || name.starts_with("item.")) && !name.contains('@');
    let asked = nodes.iter().enumerate().filter(|(_, n)| once(&n.name));
    asked
        .flat_map(|(i, n)| odds.of(i).iter().enumerate().map(move |(s, p)| (format!("{} {s}", n.name), *p)))
        .collect()
}

#[test]
fn with_nothing_there_a_clue_asked_once_shows_as_often_however_many_places_there_are() {
    let plan = ["remove-bulkhead", "remove-wall", "open-wall", "bath-remodel", "open-ceiling", "new-floor"];
    let mut house = House::planned(&plan);
    let (alone, duct_alone) = (shows(&house, None), shows(&house, Some("bulkhead-duct")));
    for k in 2..=6 {
        for (station, noun) in [("bulkhead", "soffit"), ("walls", "wall"), ("bath", "bath")] {
            house = house.place(station, &format!("number-{k}-{noun}"));
        }
        for ((name, p), (_, q)) in shows(&house, None).iter().zip(&alone) {
            assert!((p - q).abs() < 1e-9, "{k} of each, nothing there, {name}: {p} {q}");
        }
        // One duct in one soffit shows as in the only soffit, or a little more often: the others may show falsely.
        let mut moved = BTreeSet::new();
        for ((name, p), (_, q)) in shows(&house, Some("bulkhead-duct")).iter().zip(&duct_alone) {
            assert!((p - q).abs() < 0.03, "{k} of each, one duct, {name}: {p} {q}");
            if (p - q).abs() > 1e-9 {
                moved.insert(name.split(' ').next().unwrap().to_owned());
            }
        }
        assert_eq!(moved, BTreeSet::from(["clue.duct-drops".to_owned()]), "{k} of each");
    }
}

/// A house with `n` of everything, every scanner at work and everything in the attic and the basement seen.
fn full(n: usize) -> House {
    let plan = ["remove-bulkhead", "remove-wall", "open-wall", "bath-remodel", "open-ceiling", "new-floor"];
    let mut house = House::planned(&plan)
        .say("drops-seen", several(&["cables", "pipes", "duct"]))
        .say("under-wall-runs", several(&["cables", "water-pipes", "heating-pipes"]))
        .say("roof-vents", one("over-sink-line"))
        .say("posts-line", one("post-or-beam-under-wall"))
        .say("ceiling-mark", one("dry-ring"));
    for k in 1..=n {
        for (station, noun) in [("bulkhead", "soffit"), ("walls", "wall"), ("bath", "bath")] {
            let place = if k == 1 { station.to_owned() } else { format!("number-{k}-{noun}") };
            if k > 1 {
                house = house.place(station, &place);
            }
            house = match station {
                "bulkhead" => house.say_at(&place, "bulkhead-form", one("stepped-or-one-side")).say_at(
                    &place,
                    "bulkhead-scan",
                    several(&["live-signal", "metal-signal"]),
                ),
                "walls" => house.say_at(&place, "wall-scan", several(&["metal-signal"])),
                _ => house.say_at(&place, "toilet", one("rocks")),
            };
        }
    }
    house
}

#[test]
fn the_largest_house_a_walk_takes_in_is_computed_exactly_once_the_household_has_answered() {
    let house = full(6)
        .say("over-kitchen", one("bath"))
        .say("heat-kind", one("ducts"))
        .say("earlier-work", one("licensed"))
        .say("below-kind", one("open-basement"))
        .say("year-built", year(1962))
        .say("gas-meter", one("yes"));
    let all = answered(&house);
    // Six alike: the same odds, between never and always.
    for c in CATALOG.conditions.iter().filter(|c| c.place.is_some() && all.keys().contains(&c.id.as_str())) {
        let noun = CATALOG.station(c.place.as_deref().unwrap()).unwrap().each.as_ref().unwrap().one.clone();
        let last = all.p(&format!("{}@number-6-{noun}", c.id));
        assert!((all.p(&c.id) - last).abs() < 1e-9 && 0.0 < last && last < 1.0, "{}: {last}", c.id);
    }
    let widest = all.house.net.nodes().iter().map(|n| n.parents.len()).max();
    assert!(widest <= Some(13), "{widest:?}");
}
