//! Calendars worked by hand, calendars drawn at random elsewhere, and laws of every calendar.

use crate::english::English as _;
use std::sync::LazyLock;

use survey::catalog::{Catalog, builtin};
use trade::given::Given;
use trade::outages::calendar::Calendar;
use trade::outages::conflicts::{Conflict, Kind, conflicts};
use trade::outages::household::Household;
use trade::outages::plan::Plan;
use trade::outages::service::{Off, Service};
use trade::{Sheet, TradeError};

mod drawn;
mod exact;
mod laws;

/// The catalog that ships.
static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

fn given(answers: &[(&str, &str)]) -> Result<Given, TradeError> {
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    Given::read(trade::find("outages").unwrap().fields, &answers)
}

fn sheet(answers: &[(&str, &str)]) -> Sheet {
    (trade::find("outages").unwrap().run)(&given(answers).unwrap(), &CATALOG).unwrap()
}

fn service(text: &str) -> Service {
    Off::parse(text).unwrap().service
}

/// A worked calendar: plan, household, result.
struct Worked {
    plan: Plan,
    household: Household,
    calendar: Calendar,
}

/// Days of eight hours, 8:00 to 16:00, from a Monday; a trade follows another at once.
fn worked(answers: &[(&str, &str)]) -> Worked {
    let mut all = vec![("day-end", "16"), ("next-morning", "no")];
    all.retain(|(name, _)| !answers.iter().any(|(n, _)| n == name));
    all.extend_from_slice(answers);
    let (plan, household) = trade::outages::ask::read(&given(&all).unwrap(), &CATALOG).unwrap().unwrap();
    let calendar = Calendar::of(&plan, &household).unwrap();
    Worked { plan, household, calendar }
}

impl Worked {
    /// Chance that a service is off in the quarter hour that starts at an hour of a day.
    fn off(&self, text: &str, day: u32, hour: f64) -> f64 {
        let day_quarters = self.plan.days().quarters();
        let within = ((hour - self.plan.days().start().hours()) * 4.0).round() as usize;
        let row = self.calendar.row(&service(text)).unwrap_or_else(|| panic!("{text} is never off"));
        row.chance[(day as usize - 1) * day_quarters + within]
    }
    /// Chance that it is off in the night after a day.
    fn night(&self, text: &str, day: u32) -> f64 {
        self.calendar.row(&service(text)).unwrap().nights[day as usize - 1]
    }
    /// P50 and P90 of the hours it is off.
    fn hours(&self, text: &str) -> [f64; 2] {
        self.calendar.row(&service(text)).unwrap().hours.map(Option::unwrap)
    }
    /// Day and time of the end, P50 and P90.
    fn done(&self) -> [(u32, String); 2] {
        self.calendar.ends.map(|end| {
            let (day, clock) = self.plan.days().ends(end.unwrap());
            (day, clock.shown())
        })
    }
    fn meets(&self, kind: Kind) -> Vec<Conflict> {
        let all = conflicts(&self.plan, &self.household, &self.calendar).unwrap();
        all.into_iter().filter(|c| c.kind == kind).collect()
    }
}

/// To a part in two thousand: the courses are some 65 000, and one or two tasks are spread over them that evenly.
fn near(got: f64, expected: f64) {
    assert!((got - expected).abs() < 5e-4, "{got} is not {expected}");
}

fn at(day: u32, clock: &str) -> (u32, String) {
    (day, clock.to_owned())
}

#[test]
fn by_hand_1_an_hour_of_water() {
    // 8:00 + 1 h = 9:00.
    let w = worked(&[("task", "cap, plumber, 1, 1, 1, water")]);
    assert_eq!([8.0, 8.75, 9.0].map(|h| w.off("water", 1, h)), [1.0, 1.0, 0.0]);
    assert_eq!((w.hours("water"), w.done()), ([1.0, 1.0], [at(1, "9:00"), at(1, "9:00")]));
    assert!(w.meets(Kind::WaterEvening).is_empty());
}

#[test]
fn by_hand_2_water_comes_back_for_the_night() {
    // 10 h of work: 8 h on day 1 up to 16:00, 2 h on day 2 from 8:00 to 10:00. By the rule the water is back at 16:00,
    // though the work is not done: that is the conflict of day 1.
    let w = worked(&[("task", "risers, plumber, 10, 10, 10, water")]);
    assert_eq!([w.off("water", 1, 15.75), w.off("water", 2, 9.75), w.off("water", 2, 10.0)], [1.0, 1.0, 0.0]);
    assert_eq!((w.night("water", 1), w.done()[0].clone()), (0.0, at(2, "10:00")));
    let evening = w.meets(Kind::WaterEvening);
    assert_eq!((evening.len(), evening[0].day, evening[0].chance), (1, 1, 1.0));
    assert!(evening[0].words.contains("not done by evening"), "{}", evening[0].words);
    // Said to stay off, it stays off: one night.
    let stays = worked(&[("task", "risers, plumber, 10, 10, 10, water overnight")]);
    assert_eq!(stays.night("water", 1), 1.0);
    assert!(stays.meets(Kind::WaterEvening)[0].words.contains("overnight"));
}

#[test]
fn by_hand_3_gas_stays_off_until_it_is_relit_after_the_weekend() {
    // Begun on a Friday: 8 h on Friday, 2 h on Monday, which is the second working day.
    let w = worked(&[("task", "gas line, gas fitter, 10, 10, 10, gas"), ("first-day", "Friday")]);
    assert_eq!((w.night("gas", 1), w.night("gas", 2)), (1.0, 0.0));
    assert_eq!(w.plan.days().day_shown(2).read(), "day 2, Monday");
    assert_eq!((w.hours("gas")[1], w.done()[1].clone()), (10.0, at(2, "10:00")));
}

#[test]
fn by_hand_4_another_trade_comes_the_next_morning() {
    // Plumber 8–10 on day 1, electrician 3 h after that: at once 10–13, the next morning 8–11 on day 2.
    let tasks = [
        ("task", "pipes, plumber, 2, 2, 2, water"),
        ("task", "wires, electrician, 3, 3, 3, power:kitchen, pipes"),
    ];
    let w = worked(&tasks);
    assert_eq!([w.off("power:kitchen", 1, 9.75), w.off("power:kitchen", 1, 10.0)], [0.0, 1.0]);
    assert_eq!(w.done()[0], at(1, "13:00"));
    let w = worked(&[tasks[0], tasks[1], ("next-morning", "yes")]);
    assert_eq!([w.off("power:kitchen", 1, 10.0), w.off("power:kitchen", 2, 8.0)], [0.0, 1.0]);
    assert_eq!(w.done()[0], at(2, "11:00"));
}

#[test]
fn by_hand_5_the_last_of_two_lets_the_third_begin() {
    // a 8–10, b 8–13, c after both: 13–14. Nothing of c before.
    let w = worked(&[
        ("task", "a, plumber, 2, 2, 2, water"),
        ("task", "b, electrician, 5, 5, 5, power:kitchen"),
        ("task", "c, builder, 1, 1, 1, kitchen, a + b"),
    ]);
    assert_eq!([12.75, 13.0, 13.75, 14.0].map(|h| w.off("kitchen", 1, h)), [0.0, 1.0, 1.0, 0.0]);
}

#[test]
fn by_hand_6_a_plumber_does_one_thing_at_a_time() {
    // Nobody ordered them: by name, basement 8–10, then upstairs 10–13. With several crews both begin at 8:00 and
    // the water is off from 8:00 to 11:00.
    let tasks =
        [("task", "upstairs, plumber, 3, 3, 3, water"), ("task", "basement, plumber, 2, 2, 2, water")];
    let w = worked(&tasks);
    assert_eq!((w.hours("water"), w.done()[1].clone()), ([5.0, 5.0], at(1, "13:00")));
    let w = worked(&[tasks[0], tasks[1], ("one-at-a-time", "no")]);
    assert_eq!((w.hours("water"), w.done()[1].clone()), ([3.0, 3.0], at(1, "11:00")));
}

#[test]
fn by_hand_7_a_time_between_nothing_and_two_hours() {
    // PERT (0, 0, 2): alpha 1, beta 5, so P(T > t) = (1 − t/2)^5. A quarter hour is kept from its middle on, so that
    // the quarter hour k counts from 8:00 is still off with (1 − (k + 1/2)/8)^5.
    let w = worked(&[("task", "look, plumber, 0, 0, 2, water")]);
    for k in 0..8 {
        let expected = (1.0 - (f64::from(k) + 0.5) / 8.0).powi(5);
        near(w.off("water", 1, 8.0 + f64::from(k) / 4.0), expected);
    }
    // P50: 1 − (k + 1/2)/8 ≤ 0.5^(1/5) = 0.8706, k + 1/2 ≥ 1.036: k = 1, a quarter hour.
    // P90: 0.1^(1/5) = 0.6310, k + 1/2 ≥ 2.952: k = 3, three quarters.
    assert_eq!(w.hours("water"), [0.25, 0.75]);
}

/// PERT (x − 1/4, x, x + 1/4) is a beta with both shapes 3; a quarter of its range lies under x − 1/8, and with it
/// 10·(1/4)³(3/4)² + 5·(1/4)⁴(3/4) + (1/4)⁵ = (90 + 15 + 1)/1024. The same above: 106, 812 and 106 of 1024 for a
/// quarter hour less, just x, a quarter hour more.
const LESS: f64 = 106.0 / 1024.0;
const JUST: f64 = 812.0 / 1024.0;

#[test]
fn by_hand_8_two_uncertain_tasks_one_after_the_other() {
    // Sums of two from 3, 4, 5 quarter hours: 6 with LESS², 7 with 2·LESS·JUST, 8 with JUST² + 2·LESS², and so on.
    let w = worked(&[
        ("task", "a, plumber, 0.75, 1, 1.25, water"),
        ("task", "b, plumber, 0.75, 1, 1.25, kitchen drain, a"),
    ]);
    let end = w.calendar.schedule.done(w.plan.all());
    let mass =
        [LESS * LESS, 2.0 * LESS * JUST, JUST * JUST + 2.0 * LESS * LESS, 2.0 * LESS * JUST, LESS * LESS];
    let mut sum = 0.0;
    for (k, m) in mass.iter().enumerate() {
        near(end.by(5 + k), sum);
        sum += m;
    }
    near(end.by(10), 1.0);
    // The drain is off at 9:00 when a is done (3 or 4 quarters) and b is not: a = 3 with b of at least 2, which is
    // certain, or a = 4: LESS + JUST. At 8:45 only a = 3.
    near(w.off("kitchen drain", 1, 9.0), LESS + JUST);
    near(w.off("kitchen drain", 1, 8.75), LESS);
    // P50: 6 and 7 have 0.175, with 8 it is 0.825: 10:00. P90: 9 quarters bring it to 0.989: 10:15.
    assert_eq!(w.done(), [at(1, "10:00"), at(1, "10:15")]);
}

#[test]
fn by_hand_9_two_uncertain_tasks_side_by_side() {
    // Both last 3, 4 or 5 quarter hours. Water is off in the fourth quarter hour unless both are done in three; in the
    // fifth unless both are done in four.
    let w = worked(&[
        ("task", "a, plumber, 0.75, 1, 1.25, water"),
        ("task", "b, electrician, 0.75, 1, 1.25, water"),
        ("task", "c, builder, 1, 1, 1, kitchen, a + b"),
    ]);
    near(w.off("water", 1, 8.5), 1.0);
    near(w.off("water", 1, 8.75), 1.0 - LESS * LESS);
    near(w.off("water", 1, 9.0), 1.0 - (LESS + JUST) * (LESS + JUST));
    near(w.off("water", 1, 9.25), 0.0);
    // c begins at 8:45 with LESS², by 9:00 with (LESS + JUST)², by 9:15 surely; it lasts an hour.
    near(w.off("kitchen", 1, 8.75), LESS * LESS);
    near(w.off("kitchen", 1, 9.0), (LESS + JUST) * (LESS + JUST));
    near(w.off("kitchen", 1, 9.75), 1.0 - LESS * LESS);
}

#[test]
fn by_hand_10_a_quarter_hour_late_is_a_day_late() {
    // 7.75, 8 or 8.25 h on a day of eight: done by 16:00 with LESS + JUST, else at 8:15 on day 2. The electrician comes
    // the morning after: day 2 with LESS + JUST, day 3 with LESS.
    let w = worked(&[
        ("task", "rough, plumber, 7.75, 8, 8.25, gas"),
        ("task", "wire, electrician, 2, 2, 2, power:kitchen, rough"),
        ("next-morning", "yes"),
    ]);
    near(w.night("gas", 1), LESS);
    near(w.off("power:kitchen", 2, 8.0), LESS + JUST);
    near(w.off("power:kitchen", 3, 9.75), LESS);
    assert_eq!(w.done(), [at(2, "10:00"), at(3, "10:00")]); // 0.896 by day 2, short of 0.9
}

#[test]
fn by_hand_11_the_trades_own_order_and_a_date_of_the_utility() {
    // finish before appliances, rough-in before inspection before close-up, whatever the rows say:
    // wires 8–12 on day 1; inspection not before day 3, 8–9; board 9–15; trim 15–16 and on day 4 8–9 (2 h); range 9–10.
    let w = worked(&[
        ("task", "range, electrician, 1, 1, 1, power:range, , appliances"),
        ("task", "trim, electrician, 2, 2, 2, power:kitchen, , finish"),
        ("task", "board, builder, 6, 6, 6, kitchen, , close-up"),
        ("task", "look, inspector, 1, 1, 1, none, , inspection, 3"),
        ("task", "wires, electrician, 4, 4, 4, power:kitchen, , rough-in"),
    ]);
    assert_eq!([w.off("power:kitchen", 1, 11.75), w.off("power:kitchen", 1, 12.0)], [1.0, 0.0]);
    assert_eq!(
        [w.off("kitchen", 3, 8.75), w.off("kitchen", 3, 9.0), w.off("kitchen", 3, 15.0)],
        [0.0, 1.0, 0.0]
    );
    assert_eq!([w.off("power:kitchen", 3, 15.75), w.off("power:kitchen", 4, 9.0)], [1.0, 0.0]);
    assert_eq!(w.off("power:range", 4, 9.0), 1.0);
    assert_eq!(w.done()[0], at(4, "10:00"));
}

#[test]
fn by_hand_12_a_household_and_a_dark_day() {
    // The panel takes 10 h: Monday 8–16, Tuesday 8–10. Whole house: the bedroom's circuit with the device, the router,
    // and the water of a well. At home on Tuesday from 9 to 12: the hour from 9 to 10 is off.
    let w = worked(&[
        ("task", "panel, electrician, 10, 10, 10, power"),
        ("task", "hammer, builder, 2, 2, 2, quiet"),
        ("task", "bath, plumber, 9, 9, 9, bath"),
        ("home-days", "Tue"),
        ("home-hours", "9-12"),
        ("medical-circuit", "bedroom"),
        ("internet-circuit", "office"),
        ("quiet-hours", "9:30-11"),
        ("toilets", "1"),
        ("well-pump", "yes"),
    ]);
    for text in ["power", "power:bedroom", "power:office", "internet", "water"] {
        assert_eq!(
            [w.off(text, 1, 15.75), w.off(text, 2, 9.75), w.off(text, 2, 10.0)],
            [1.0, 1.0, 0.0],
            "{text}"
        );
    }
    let days = |kind| w.meets(kind).iter().map(|c| c.day).collect::<Vec<_>>();
    assert_eq!(days(Kind::Medical), [1, 2]);
    assert_eq!(days(Kind::HomeWork), [2]);
    assert!(w.meets(Kind::HomeWork)[0].words.contains("internet off, 1 h of the working hours"));
    assert_eq!(days(Kind::QuietHours), [1]); // 8–10 meets 9:30–11
    assert_eq!(days(Kind::LastToilet), [1]); // 9 h: the bath is out in the night after Monday
    assert_eq!(days(Kind::WaterEvening), [1]); // the pump is dead and the panel not done
    assert_eq!(days(Kind::PowerEvening), [1]);
}

#[test]
fn a_second_toilet_is_enough_unless_the_stack_is_cut() {
    let tasks = ("task", "bath, plumber, 9, 9, 9, bath");
    assert!(worked(&[tasks, ("toilets", "2")]).meets(Kind::LastToilet).is_empty());
    let stack = ("task", "stack, drain crew, 9, 9, 9, drains");
    assert_eq!(worked(&[stack, ("toilets", "2")]).meets(Kind::LastToilet)[0].chance, 1.0);
    assert!(worked(&[stack, ("toilets", "2"), ("toilets-apart", "1")]).meets(Kind::LastToilet).is_empty());
    // The one that drains elsewhere is taken by the bath: none is left.
    let both = [tasks, stack, ("toilets", "2"), ("toilets-apart", "1")];
    assert_eq!(worked(&both).meets(Kind::LastToilet)[0].chance, 1.0);
}

#[test]
fn a_task_of_the_catalog_brings_its_hours_order_and_help() {
    let w = worked(&[
        ("task", "demo-dust, builder"),
        ("task", "pull-circuit, electrician"),
        ("task", "cap-sink, plumber"),
        ("medical-circuit", "bedroom"),
    ]);
    let names: Vec<&str> = w.plan.order().sequence.iter().map(|t| w.plan.task(*t).unwrap().name()).collect();
    assert_eq!(names, ["cap-sink", "pull-circuit", "demo-dust"]);
    // Which kitchen circuits are cut nobody said: the device may hang on one.
    let medical = w.meets(Kind::Medical);
    assert!(medical[0].words.contains("perhaps"), "{}", medical[0].words);
    // Named, they are held against the device's circuit alone.
    let named =
        worked(&[("task", "pull-circuit, electrician, , , , power:kitchen"), ("medical-circuit", "bedroom")]);
    assert!(named.meets(Kind::Medical).is_empty());
    // 240 h by the clock: ten days, 50/7 working days, 57.14 h at 8 h a day, 229 quarter hours: 7 days, 1.25 h.
    let bath = worked(&[("task", "shower-out, , 240, 240, 240")]);
    assert_eq!(bath.done()[0], at(8, "9:15"));
    assert_eq!([bath.night("bath", 7), bath.night("bath", 8)], [1.0, 0.0]);
}

#[test]
fn the_sheet_says_result_conflicts_help_and_who_decides() {
    let sheet = sheet(&[
        ("task", "panel-swap, electrician"),
        ("medical-circuit", "bedroom"),
        ("home-days", "Mon"),
        ("internet-circuit", "office"),
    ]);
    assert!(sheet.sentence.contains("P50") && sheet.sentence.contains("no cut without written confirmation"));
    assert!(sheet.changes.iter().any(|c| c.text.contains("not before day 2, Tuesday") && c.enough));
    assert!(sheet.changes.iter().any(|c| c.text.contains("extension cord is no help")));
    assert!(sheet.changes.iter().any(|c| c.text.contains("written confirmation")));
    assert!(sheet.notes.iter().any(|n| n.contains("Utility date")), "{:?}", sheet.notes);
    assert!(sheet.caution.contains("licensed") && sheet.caution.contains("utility"));
    assert!(sheet.lines.iter().any(|l| l.text.starts_with("(4 + 4 × 8 + 14) ÷ 6 = 8.33 h")));
    let Some(trade::picture::Picture::Calendar(strip)) = &sheet.picture else { panic!("no calendar") };
    assert!(strip.rows.iter().any(|(name, blocks)| name.read() == "internet" && !blocks.is_empty()));
    assert!(strip.conflicts.iter().any(|(day, words)| *day == 1 && words.starts_with("Medical device")));
    for text in strip.rows.iter().flat_map(|(_, blocks)| blocks) {
        assert!(text.1 < text.2 && (0.0..=1.0).contains(&text.3), "{text:?}");
    }
}

#[test]
fn what_is_missing_or_wrong_is_said() {
    let nothing = sheet(&[]);
    assert_eq!((nothing.standing.word(), nothing.missing.len()), ("cannot-say", 1));
    let hours = sheet(&[("task", "tile, tiler, 3, , 5")]);
    assert!(hours.missing[0].contains("hours of “tile”"), "{:?}", hours.missing);
    let unasked = sheet(&[("task", "panel-swap, electrician"), ("task", "shower-out")]);
    for part in ["medical device needs power", "how many toilets", "who works from home", "modem and router"]
    {
        assert!(unasked.notes.iter().any(|n| n.contains(part)), "{part}: {:?}", unasked.notes);
    }
    let run = trade::find("outages").unwrap().run;
    for (answers, part) in [
        (vec![("task", "a,,1,1,1,,b"), ("task", "b,,1,1,1,,a")], "“a” after “b” after “a”"),
        (vec![("task", "a,,1,1,1,steam")], "kitchen drain"),
        (vec![("task", "a,,1,1,1,,c")], "“c” is no task"),
        (vec![("task", "a,,1,1,1"), ("task", "A,,1,1,1")], "two tasks are named"),
        (vec![("task", "a,,3,1,2")], "low ≤ likely ≤ high"),
        (vec![("task", "a,,1,1,1"), ("day-end", "16:10")], "quarter hours"),
        (vec![("task", "a,,1,1,1"), ("day-end", "7")], "length of the working day"),
        (vec![("task", "a,,1,1,1"), ("home-days", "Sunday")], "Mon+Wed"),
        (vec![("task", "a,,1,1,1"), ("toilets", "1.5")], "whole number"),
    ] {
        let error = run(&given(&answers).unwrap(), &CATALOG).unwrap_err().message().en();
        assert!(error.contains(part), "{part}: {error}");
    }
    let stage = given(&[("task", "a,,1,1,1,,,party")]).unwrap_err().message().en();
    assert!(stage.contains("rough-in"), "{stage}");
    let circle = [("task", "a,,1,1,1,,b,rough-in"), ("task", "b,,1,1,1,,,finish")];
    let error = run(&given(&circle).unwrap(), &CATALOG).unwrap_err().message().en();
    assert!(error.contains("“a”") && error.contains("“b”") && error.contains("usual-order"), "{error}");
}
