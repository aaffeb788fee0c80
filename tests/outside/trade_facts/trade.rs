//! Facts of the trade about outages, wishes, lights and order, asked of the catalog and of the calculations. Common
//! practice, no source: all of them.

use survey::catalog::Catalog;
use trade::given::Given;
use trade::outages::service::{POWER, Service, WATER};
use trade::{Sheet, Standing, find};

use crate::outside::assessed::{Houses, answers};
use crate::support::catalog;

fn english(said: &survey::Said) -> String {
    words::Words::of(words::Language::En).text(said)
}

fn run(word: &str, catalog: &Catalog, answers: &[(&str, &str)]) -> Sheet {
    let calculation = find(word).unwrap();
    let words: Vec<(String, String)> =
        answers.iter().map(|(name, text)| ((*name).to_owned(), (*text).to_owned())).collect();
    let given = Given::read(calculation.fields, &words).unwrap();
    (calculation.run)(&given, catalog).unwrap()
}

#[test]
fn water_is_off_from_about_two_hours_at_a_time_to_a_whole_day_and_back_in_the_evening() {
    let catalog = catalog();
    let single = |o: &&survey::catalog::Outage| o.off.iter().any(|s| s == WATER) && o.id != "full-repipe";
    let water: Vec<_> = catalog.outages.iter().filter(single).collect();
    assert!(water.len() >= 5);
    for outage in &water {
        assert!(outage.hours.low >= 0.5 && outage.hours.high <= 14.0, "{}: {:?}", outage.id, outage.hours);
        assert!((1.0..=8.0).contains(&outage.hours.likely), "{}", outage.id);
    }
    // Taken together on one day, the shut-offs of a new sink are about two hours.
    let sink: f64 = ["cap-sink", "replace-stops"]
        .iter()
        .map(|id| catalog.outages.iter().find(|o| o.id == *id).unwrap().hours.likely)
        .sum();
    assert!((1.5..=3.0).contains(&sink), "{sink}");
    assert!(!Service::new(WATER, None).unwrap().stays_off());
}

#[test]
fn power_is_hardly_ever_off_overnight() {
    assert!(!Service::new(POWER, None).unwrap().stays_off());
    let all = answers(&[
        ("planned-work", "remove-bulkhead open-wall add-circuits electric-range deep-sink"),
        ("router-place", "wire-crosses-work"),
    ]);
    let mut houses = Houses::new();
    let forecast = houses.forecast(&all);
    let outages = forecast.calculations.iter().find(|c| c.word == "outages").unwrap();
    let Some(trade::picture::Picture::Calendar(strip)) = &outages.picture else { panic!("no calendar") };
    let power: Vec<_> = strip.rows.iter().filter(|(name, _)| english(name).starts_with(POWER)).collect();
    assert!(!power.is_empty());
    for (name, blocks) in power {
        for (day, from, to, _) in blocks {
            assert!(*from >= strip.hours[0] && *to <= strip.hours[1], "{name}, day {day}: {from} to {to}");
        }
    }
}

#[test]
fn work_at_home_is_asked_and_the_remedy_is_a_short_outage_or_a_temporary_feed() {
    let all = answers(&[
        ("planned-work", "open-wall add-circuits"),
        ("router-place", "wire-crosses-work"),
        ("home-work", "mon tue wed thu fri"),
    ]);
    let mut houses = Houses::new();
    let asked = |item: &str| houses.catalog().item(item).map(|i| i.station.clone());
    assert_eq!(
        (asked("home-work"), asked("router-place")),
        (Some("beforehand".into()), Some("beforehand".into()))
    );
    let outages = houses.forecast(&all).calculations.iter().find(|c| c.word == "outages").unwrap().clone();
    let said = format!("{} {}", outages.changes.join(" "), outages.notes.join(" "));
    assert!(said.contains("modem and router"), "{said}");
    assert!(said.contains("not before") || said.contains("battery") || said.contains("cord"), "{said}");
}

#[test]
fn a_wish_roughed_in_while_walls_are_open_costs_a_fraction_of_what_it_costs_later() {
    let catalog = catalog();
    let later: Vec<_> = catalog.wishes.iter().filter_map(|w| Some((w, w.later?))).collect();
    assert!(later.len() >= 6);
    for (wish, later) in later {
        let middle = |[low, high]: [survey::units::Money; 2]| low.dollars() + high.dollars();
        let fraction = middle(wish.now) / middle(later);
        assert!(fraction <= 0.5, "{}: {fraction:.2}", wish.id);
        assert!(wish.now[1] <= later[1] && wish.now[0] < later[0], "{}", wish.id);
    }
    for wish in ["gas-range-later", "gas-grill"] {
        assert!(catalog.wishes.iter().any(|w| w.id == wish && w.later.is_some()), "{wish}");
    }
}

#[test]
fn a_canless_light_is_about_half_an_inch_thick_with_its_own_junction_box() {
    let catalog = catalog();
    let sheet = run("ceiling-light", &catalog, &[("kind", "canless"), ("offset", "8"), ("cut-out", "6")]);
    let assumed: Vec<String> =
        sheet.assumed.iter().map(|a| format!("{}: {}", english(&a.item), english(&a.value))).collect();
    assert!(assumed.iter().any(|a| a == "depth of the light: 0.5 in"), "{assumed:?}");
    assert!(assumed.iter().any(|a| a.starts_with("room for the driver box")), "{assumed:?}");
}

#[test]
fn framing_seldom_forbids_a_canless_light_and_often_a_housing() {
    let catalog = catalog();
    // Marked Type IC, clips that hold under a joist; every half inch from the middle of a joist to that of a bay.
    let place = |kind: &'static str, offset: &str| {
        let marked = [("type-ic", "yes"), ("clips-under-joist", "yes")];
        let all =
            [[("kind", kind), ("offset", offset)], [("cut-out", "4"), ("bay", "9.25")], marked].concat();
        run("ceiling-light", &catalog, &all).standing
    };
    let beyond = |kind: &'static str| {
        let offsets = (0..=16).map(|half| (f64::from(half) / 2.0).to_string());
        offsets.filter(|offset| place(kind, offset) == Standing::Beyond).count()
    };
    let (canless, housing) = (beyond("canless"), beyond("housing"));
    assert!(canless <= 2 && housing >= 5, "of 17 places canless {canless}, housing {housing}");
}

#[test]
fn several_ceiling_lights_replace_one_central_fixture() {
    let sheet = run(
        "light-grid",
        &catalog(),
        &[
            ("across", "12 ft"),
            ("along", "14 ft"),
            ("height", "8 ft"),
            ("first-joist", "16"),
            ("cut-out", "4"),
        ],
    );
    let Some(trade::picture::Picture::Ceiling(plan)) = &sheet.picture else { panic!("{}", sheet.sentence) };
    assert!(plan.lights.len() >= 4, "{}", plan.lights.len());
}

#[test]
fn electrical_and_plumbing_finish_come_before_appliances() {
    let task = |name: &str, stage: &str| format!("{name},,2,4,6,none,,{stage},");
    let (range, outlets, faucet) = (
        task("set the range", "appliances"),
        task("outlets and switches", "finish"),
        task("sink and faucet", "finish"),
    );
    let sheet = run("outages", &catalog(), &[("task", &range), ("task", &outlets), ("task", &faucet)]);
    let said = format!(
        "{:?}",
        sheet.lines.iter().map(|l| format!("{} {}", english(&l.label), english(&l.text))).collect::<Vec<_>>()
    );
    let at = |name: &str| said.find(name).unwrap_or_else(|| panic!("{name}: {said}"));
    assert!(at("outlets and switches") < at("set the range") && at("sink and faucet") < at("set the range"));
    let limits: Vec<String> = sheet.limits.iter().map(|l| english(&l.value)).collect();
    let limits = limits.join("\n");
    assert!(limits.contains("electrical and plumbing finish before appliances"), "{limits}");
}
