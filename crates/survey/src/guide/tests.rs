use super::*;
use crate::catalog::builtin;
use crate::log::{Answer, Body, Entry, PhotoTaken, PlaceNamed, Value, WalkOrder};
use crate::model::fold;
use crate::units::{Length, Money, Quantity};
use crate::{DeviceId, Digest, EntryId, SurveyId};

/// A log written by one device, or by two when `device` changes.
#[derive(Default)]
struct Log(Vec<Entry>);

impl Log {
    fn push(&mut self, device: u8, body: Body) -> &mut Self {
        let n = self.0.len() as u64 + 1;
        self.0.push(Entry {
            v: 1,
            id: EntryId::new(n, &[device; 10]),
            survey: SurveyId::new(1, &[9; 10]),
            device: DeviceId::new(1, &[device; 10]),
            seq: n,
            lamport: n,
            at: "2026-04-12T09:30:00.000-05:00".parse().unwrap(),
            by: "R. Ames".into(),
            prev: None,
            body,
        });
        self
    }
    fn say_on(&mut self, device: u8, item: &str, value: Value) -> &mut Self {
        self.say_at("kitchen", device, item, value)
    }
    fn say_at(&mut self, place: &str, device: u8, item: &str, value: Value) -> &mut Self {
        let answer = Answer {
            place: place.into(),
            item: item.into(),
            value,
            tolerance: None,
            entered: None,
            photos: vec![],
            corrects: vec![],
            reason: None,
        };
        self.push(device, Body::Answer(answer))
    }
    fn say(&mut self, item: &str, value: Value) -> &mut Self {
        self.say_on(1, item, value)
    }
    fn place(&mut self, station: &str, place: &str, label: &str, there: bool) -> &mut Self {
        let named = PlaceNamed {
            station: station.into(),
            place: place.into(),
            label: label.into(),
            there,
            reason: None,
        };
        self.push(1, Body::Place(named))
    }
    fn order(&mut self, places: &[&str]) -> &mut Self {
        let places: Vec<String> = places.iter().map(|p| (*p).to_owned()).collect();
        self.push(1, Body::Order(WalkOrder { moved: places.first().cloned(), places, reason: None }))
    }
    fn picture(&self) -> Picture {
        fold(&self.0)
    }
}

fn photo(place: &str, item: &str) -> Body {
    Body::Photo(PhotoTaken {
        place: Some(place.into()),
        item: Some(item.into()),
        digest: Digest::of(place.as_bytes()),
        name: "photo.jpg".into(),
        bytes: 5,
        width: 4,
        height: 3,
        orientation: 1,
        taken: None,
        taken_local: None,
        complaints: vec![],
        caption: None,
    })
}

fn one(option: &str) -> Value {
    Value::Choice(option.into())
}
fn several(options: &[&str]) -> Value {
    Value::choices(options.iter().map(|o| (*o).to_owned()).collect())
}
fn status_of(catalog: &Catalog, picture: &Picture, item: &str) -> Status {
    let item = catalog.item(item).unwrap();
    status(item, &item.station, picture)
}

#[test]
fn the_walk_begins_with_the_plan_and_follows_the_stations() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    let first = |log: &Log, scope| next(&catalog, &log.picture(), scope).unwrap().item.id.clone();
    assert_eq!(first(&log, Scope::default()), "planned-work");
    log.say("planned-work", several(&["deep-sink"]));
    assert_eq!(first(&log, Scope::default()), "sink-mount");
    let house = Scope { places: &[Place::House] };
    assert_eq!(first(&log, house), "over-kitchen");
}

#[test]
fn a_certain_skip_rule_skips_and_an_unknown_one_asks() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    assert_eq!(status_of(&catalog, &log.picture(), "bulkhead-form"), Status::Open, "no plan yet: unknown");
    log.say("planned-work", several(&["cant-tell"]));
    assert_eq!(status_of(&catalog, &log.picture(), "bulkhead-form"), Status::Open, "plan not known");
    log.say("planned-work", several(&["deep-sink"]));
    let mut fresh = Log::default();
    fresh.say("planned-work", several(&["deep-sink"]));
    assert_eq!(status_of(&catalog, &fresh.picture(), "bulkhead-form"), Status::Skipped);
}

#[test]
fn the_toe_kick_is_asked_only_when_the_reading_starts_at_the_cabinet_floor() {
    let catalog = builtin().unwrap();
    for (datum, expected) in [
        (one("finished-floor"), Status::Skipped),
        (one("cabinet-floor"), Status::Open),
        (Value::CantTell, Status::Open),
    ] {
        let mut log = Log::default();
        log.say("planned-work", several(&["deep-sink"])).say("stub-datum", datum.clone());
        for item in ["cabinet-toe-kick", "cabinet-floor-thick"] {
            assert_eq!(status_of(&catalog, &log.picture(), item), expected, "{item} {datum:?}");
        }
    }
}

#[test]
fn a_second_look_item_waits_until_an_answer_promotes_it() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["deep-sink"]));
    assert_eq!(status_of(&catalog, &log.picture(), "first-water"), Status::SecondLook);
    log.say("year-built", Value::Number(Quantity::parse("1926", "").unwrap()));
    assert_eq!(status_of(&catalog, &log.picture(), "first-water"), Status::Open);
}

#[test]
fn not_knowing_and_not_reaching_are_answers_and_a_withdrawal_is_none() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["deep-sink"]));
    log.say("stub-height", Value::CouldNotReach("cabinet full".into())).say("stops", Value::CantTell);
    assert_eq!(status_of(&catalog, &log.picture(), "stub-height"), Status::Answered);
    assert_eq!(status_of(&catalog, &log.picture(), "stops"), Status::Answered);
    log.say("trap-shape", Value::Withdrawn);
    assert_eq!(status_of(&catalog, &log.picture(), "trap-shape"), Status::Open);
}

#[test]
fn rival_answers_are_asked_again() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["deep-sink"]));
    log.say_on(1, "stops", one("weep")).say_on(2, "stops", one("turn-freely"));
    let picture = log.picture();
    assert_eq!(status_of(&catalog, &picture, "stops"), Status::Disagreed);
    assert!(walk(&catalog, &picture).iter().any(|s| s.item.id == "stops" && s.status == Status::Disagreed));
}

#[test]
fn progress_counts_what_matters_now_and_answering_moves_one_item_over() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    let before = progress(&catalog, &log.picture(), Scope::default());
    assert_eq!((before.answered, before.asked), (0, before.remaining));
    log.say("planned-work", several(&["deep-sink"]));
    let scoped = progress(&catalog, &log.picture(), Scope::default());
    assert!(scoped.asked < before.asked / 2 + 30, "{scoped:?} {before:?}");
    assert_eq!(scoped.answered, 1);
    log.say("stops", one("weep"));
    let after = progress(&catalog, &log.picture(), Scope::default());
    assert_eq!((after.answered, after.remaining), (2, scoped.remaining - 1));
    assert_eq!(after.asked, after.answered + after.remaining);
    let house = progress(&catalog, &log.picture(), Scope { places: &[Place::House] });
    assert!(house.asked < after.asked);
}

#[test]
fn a_needed_photograph_is_missing_until_one_is_attached() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["deep-sink"]));
    log.say("stub-height", Value::Length(Length::from_inches(18.5).unwrap()));
    let missing = |log: &Log| {
        let picture = log.picture();
        photos(&catalog, &picture).into_iter().find(|p| p.item.id == "stub-height").map(|p| p.missing)
    };
    assert_eq!(missing(&log), Some(true));
    log.push(1, photo("sink", "stub-height"));
    assert_eq!(missing(&log), Some(false));
    let mut unreached = Log::default();
    unreached
        .say("planned-work", several(&["deep-sink"]))
        .say("stub-height", Value::CouldNotReach("full".into()));
    assert_eq!(missing(&unreached), None);
}

#[test]
fn an_answer_that_a_later_plan_rules_out_is_named() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("bulkhead-form", one("none")).say("planned-work", several(&["deep-sink"]));
    let picture = log.picture();
    let stale: Vec<&str> =
        answered_but_skipped(&catalog, &picture).iter().map(|s| s.item.id.as_str()).collect();
    assert_eq!(stale, ["bulkhead-form"]);
    assert_eq!(reads(catalog.item("bulkhead-scan").unwrap()), ["bulkhead-form", "planned-work"]);
}

/// Two soffits: the first is there and even all round, the second was added.
fn two_soffits() -> Log {
    let mut log = Log::default();
    log.say("planned-work", several(&["remove-bulkhead"]))
        .place("bulkhead", "fridge-soffit", "Soffit over the fridge", true)
        .say_at("bulkhead", 1, "bulkhead-form", one("even-all-round"));
    log
}

#[test]
fn each_place_is_walked_from_end_to_end_before_the_next() {
    let catalog = builtin().unwrap();
    let picture = two_soffits().picture();
    let steps: Vec<(&str, &str, Status)> = walk(&catalog, &picture)
        .iter()
        .filter(|s| s.item.station == "bulkhead")
        .map(|s| (s.place, s.item.id.as_str(), s.status))
        .collect();
    let n = catalog.items.iter().filter(|i| i.station == "bulkhead").count();
    assert_eq!(steps.len(), 2 * n);
    assert_eq!(steps[0], ("bulkhead", "bulkhead-form", Status::Answered));
    assert_eq!(
        steps[n],
        ("fridge-soffit", "bulkhead-form", Status::Open),
        "the first soffit's answer is not its"
    );
    assert!(
        steps[..n].iter().all(|s| s.0 == "bulkhead") && steps[n..].iter().all(|s| s.0 == "fridge-soffit")
    );
}

#[test]
fn a_place_skips_by_its_own_answers_and_counts_by_itself() {
    let catalog = builtin().unwrap();
    let mut log = two_soffits();
    let at = |log: &Log, place: &str, item: &str| status(catalog.item(item).unwrap(), place, &log.picture());
    let before = progress(&catalog, &log.picture(), Scope::default());
    log.say_at("fridge-soffit", 1, "bulkhead-form", one("none"));
    assert_eq!(at(&log, "fridge-soffit", "bulkhead-scan"), Status::Skipped);
    assert_eq!(at(&log, "bulkhead", "bulkhead-scan"), Status::Open);
    let after = progress(&catalog, &log.picture(), Scope::default());
    assert_eq!(after.answered, before.answered + 1);
    assert!(after.asked < before.asked, "what is none has no questions");
    // Another station's question reads every soffit: a beam line at any of them asks for the posts below.
    let posts = |log: &Log| at(log, "below", "posts-line");
    assert_eq!(posts(&log), Status::SecondLook);
    let mut beam = two_soffits();
    beam.say_at("fridge-soffit", 1, "bulkhead-under", several(&["beam-line"]));
    assert_eq!(posts(&beam), Status::Open);
    assert_eq!(at(&beam, "fridge-soffit", "bulkhead-over"), Status::Open);
    assert_eq!(at(&beam, "bulkhead", "bulkhead-over"), Status::SecondLook);
}

#[test]
fn a_photograph_of_one_place_is_none_of_another() {
    let catalog = builtin().unwrap();
    let mut log = two_soffits();
    log.push(1, photo("bulkhead", "bulkhead-form"));
    let picture = log.picture();
    let missing: Vec<(&str, bool)> = photos(&catalog, &picture)
        .iter()
        .filter(|p| p.item.id == "bulkhead-form")
        .map(|p| (p.place, p.missing))
        .collect();
    assert_eq!(missing, [("bulkhead", false), ("fridge-soffit", true)]);
}

#[test]
fn places_are_named_where_there_are_several() {
    let catalog = builtin().unwrap();
    let name = |log: &Log, place: &str| place_name(&catalog, &log.picture(), place);
    let mut log = Log::default();
    assert_eq!(name(&log, "bulkhead"), None, "the only one needs no name");
    log.place("bulkhead", "fridge-soffit", "Soffit over the fridge", true);
    assert_eq!(name(&log, "bulkhead").as_deref(), Some("First soffit"));
    assert_eq!(name(&log, "fridge-soffit").as_deref(), Some("Soffit over the fridge"));
    assert_eq!(name(&log, "sink"), None);
    log.place("bulkhead", "bulkhead", "Soffit over the sink", true);
    assert_eq!(name(&log, "bulkhead").as_deref(), Some("Soffit over the sink"));
    log.place("bulkhead", "fridge-soffit", "Soffit over the fridge", false);
    assert_eq!(name(&log, "bulkhead"), None);
    assert_eq!(
        name(&log, "fridge-soffit").as_deref(),
        Some("Soffit over the fridge"),
        "taken out, still named"
    );
    let picture = log.picture();
    assert!(walk(&catalog, &picture).iter().all(|s| s.place != "fridge-soffit"));
}

#[test]
fn what_nothing_depends_on_is_not_asked_unless_the_pages_need_it() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["remove-bulkhead", "deep-sink"]));
    let picture = log.picture();
    let all = |matters| move |_: &Step<'_>| Use { matters, value: Money::ZERO };
    let (scope, least) = (Scope::default(), Money::from_dollars(1));
    let full = plan(&catalog, &picture, scope, None, least, all(true));
    let bare = plan(&catalog, &picture, scope, None, least, all(false));
    assert!(full.no_use.is_empty() && full.ask.iter().all(|p| p.because == Because::Matters));
    assert_eq!(full.ask.len(), bare.ask.len() + bare.no_use.len());
    assert!(bare.ask.iter().all(|p| p.because == Because::Packet), "{:?}", bare.ask);
    // A clue without a photograph is worth nothing to the pages; a wanted photograph is.
    assert!(bare.no_use.iter().any(|s| s.item.id == "bulkhead-sound"));
    assert!(bare.ask.iter().any(|p| p.step.item.id == "bulkhead-form"));
    // What is asked stays in walking order.
    let orders: Vec<u32> = full.ask.iter().map(|p| p.step.item.order).collect();
    assert!(orders.is_sorted(), "{orders:?}");
}

#[test]
fn second_looks_come_after_the_first_walk_of_their_place_best_first_and_only_if_worth_their_minute() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["remove-bulkhead", "deep-sink", "open-wall"]));
    let picture = log.picture();
    let worth =
        |step: &Step<'_>| Use { matters: true, value: Money::from_dollars(i64::from(step.item.order)) };
    let least = Money::from_dollars(60);
    let plan = plan(&catalog, &picture, Scope::default(), None, least, worth);
    let second: Vec<&Planned<'_>> = plan.ask.iter().filter(|p| p.because == Because::WorthIt).collect();
    assert!(second.len() > 3 && second.iter().all(|p| p.value >= least), "{second:?}");
    for pair in plan.ask.windows(2).filter(|pair| pair[0].step.place == pair[1].step.place) {
        let [a, b] = [pair[0], pair[1]];
        if a.because == Because::WorthIt {
            assert!(b.because == Because::WorthIt && a.value >= b.value, "{a:?} {b:?}");
        }
    }
}

#[test]
fn the_walk_goes_on_where_it_is_wanted_and_comes_back_to_the_rest() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["remove-bulkhead", "add-circuits"]));
    let picture = log.picture();
    let use_of = |_: &Step<'_>| Use { matters: true, value: Money::ZERO };
    let from = |station| plan(&catalog, &picture, Scope::default(), station, Money::ZERO, use_of);
    let (usual, panel) = (from(None), from(Some("panel")));
    assert_eq!(panel.ask[0].step.item.station, "panel");
    assert_ne!(usual.ask[0].step.item.station, "panel");
    let ids = |plan: &Plan<'_>| {
        let mut ids: Vec<String> = plan.ask.iter().map(|p| p.step.item.id.clone()).collect();
        ids.sort();
        ids
    };
    assert_eq!(ids(&usual), ids(&panel));
}

#[test]
fn gaps_name_what_the_answers_themselves_show_to_be_amiss() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["remove-bulkhead", "deep-sink"]));
    log.say("stub-height", Value::Length(Length::from_sixty_fourths(64 * 90)));
    log.say("bulkhead-form", one("none")).say("bulkhead-sound", one("quiet"));
    log.say_on(2, "year-built", Value::Number(Quantity { milli: 1_950_000, unit: String::new() }));
    log.say_on(1, "year-built", Value::Number(Quantity { milli: 1_960_000, unit: String::new() }));
    let picture = log.picture();
    let found = gaps(&catalog, &picture);
    let ids = |steps: &[Step<'_>]| steps.iter().map(|s| s.item.id.clone()).collect::<Vec<_>>();
    assert_eq!(ids(&found.disagreements), ["year-built"]);
    assert_eq!(ids(&found.implausible), ["stub-height"]);
    assert_eq!(ids(&found.ruled_out), ["bulkhead-sound"]);
    assert!(found.photos.iter().any(|p| p.item.id == "bulkhead-form"));
}

/// Places of the stops, in the order walked.
fn places_in_order<'p>(catalog: &'p Catalog, picture: &'p Picture) -> Vec<&'p str> {
    stops(catalog, picture).map(|stop| stop.place).collect()
}

#[test]
fn the_last_order_stands_and_the_walk_asks_by_it() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    log.say("planned-work", several(&["remove-bulkhead", "deep-sink"]));
    let as_listed = places_in_order(&catalog, &log.picture()).join(" ");
    let mut moved: Vec<String> = as_listed.split(' ').map(str::to_owned).collect();
    let floor = moved.iter().position(|p| p == "floor").unwrap();
    let floor = moved.remove(floor);
    moved.insert(1, floor);
    let moved: Vec<&str> = moved.iter().map(String::as_str).collect();
    log.order(&["plan", "gas"]).order(&moved);
    let picture = log.picture();
    assert_eq!(places_in_order(&catalog, &picture), moved);
    let asked = next(&catalog, &picture, Scope { places: &[Place::House] }).unwrap();
    let planned = plan(&catalog, &picture, Scope { places: &[Place::House] }, None, Money::ZERO, |_| Use {
        matters: true,
        value: Money::ZERO,
    });
    for item in [asked.item, planned.ask[0].step.item] {
        assert_eq!(item.station, "floor", "{}", item.id);
    }
    let places: Vec<&str> = walk(&catalog, &picture).iter().map(|s| s.item.station.as_str()).collect();
    assert!(places.iter().position(|p| *p == "floor") < places.iter().position(|p| *p == "sink"));
    // Numbers go by the catalog's order whatever the walk's.
    let listed: Vec<&str> = stops_as_listed(&catalog, &picture).map(|s| s.place).collect();
    assert_eq!(listed.join(" "), as_listed);
    log.order(&[]);
    assert_eq!(places_in_order(&catalog, &log.picture()).join(" "), as_listed);
}

#[test]
fn a_place_added_later_is_walked_after_its_neighbor_of_the_catalog_wherever_that_went() {
    let catalog = builtin().unwrap();
    let mut log = Log::default();
    let (first, out) = (["plan", "bulkhead", "soffit-of-nobody", "bulkhead"], "hall-soffit");
    log.order(&first).place("bulkhead", "sink-soffit", "Soffit over the sink", true);
    log.place("bulkhead", out, "Soffit in the hall", true).place(
        "bulkhead",
        out,
        "Soffit in the hall",
        false,
    );
    let picture = log.picture();
    let order = places_in_order(&catalog, &picture);
    let listed: Vec<&str> = stops_as_listed(&catalog, &picture).map(|s| s.place).collect();
    let mut both = (order.clone(), listed);
    assert!(!order.contains(&out) && !order.contains(&"soffit-of-nobody"), "{order:?}");
    let at = |place: &str| order.iter().position(|p| *p == place).unwrap();
    assert_eq!(at("sink-soffit"), at("bulkhead") + 1);
    both.0.sort_unstable();
    both.1.sort_unstable();
    assert_eq!(both.0, both.1, "every stop once");
}

proptest::proptest! {
    #[test]
    fn any_order_walks_every_stop_once(seed in proptest::collection::vec(0usize..22, 0..40)) {
        let catalog = builtin().unwrap();
        let mut log = Log::default();
        let listed: Vec<String> = catalog.stations.iter().map(|s| s.id.clone()).collect();
        let order: Vec<&str> = seed.iter().filter_map(|n| listed.get(*n)).map(String::as_str).collect();
        log.order(&order);
        let picture = log.picture();
        let mut walked = places_in_order(&catalog, &picture);
        let named = walked.iter().filter(|p| order.contains(p)).copied();
        let mut wanted: Vec<&str> = Vec::new();
        order.iter().for_each(|p| if !wanted.contains(p) { wanted.push(p) });
        proptest::prop_assert_eq!(named.collect::<Vec<_>>(), wanted);
        let mut all: Vec<&str> = listed.iter().map(String::as_str).collect();
        walked.sort_unstable();
        all.sort_unstable();
        proptest::prop_assert_eq!(walked, all);
    }
}
