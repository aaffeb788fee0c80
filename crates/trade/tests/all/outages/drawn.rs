//! Against 200 000 random calendars of each of four plans, placed one quarter hour at a time by
//! `tests/vectors/trade/make_outages_mc.py` with numpy.

use serde_json::Value;
use trade::outages::calendar::Calendar;
use trade::outages::days::{Clock, WorkingDays};
use trade::outages::household::{Household, Medical};
use trade::outages::plan::{Plan, Ways};
use trade::outages::service::Off;
use trade::outages::tasks::Task;

use super::service;

const DRAWN: &str = include_str!("../../../../../tests/vectors/trade/outages_mc.json");

/// Standard errors of the draws that a chance may differ by: with some 700 chances compared, 4.8 happens once in a
/// thousand such files.
const Z: f64 = 4.8;
/// What the evenly spread courses may differ by beyond that: a fifth of one in a hundred.
const SPREAD: f64 = 0.002;

fn texts(value: &Value) -> impl Iterator<Item = &str> {
    value.as_array().unwrap().iter().map(|v| v.as_str().unwrap())
}

fn plan(case: &Value) -> Plan {
    let clock = |key: &str| Clock::parse(&case[key].to_string()).unwrap();
    let days = WorkingDays::new(clock("start"), clock("end"), 0).unwrap();
    let next_morning = case["next_morning"].as_bool().unwrap();
    let task = |row: &Value| {
        let hours = [0, 1, 2].map(|n| row["hours"][n].as_f64().unwrap());
        let off = texts(&row["off"]).map(|o| Off::parse(o).unwrap()).collect();
        let task = Task::new(row["name"].as_str().unwrap(), hours).unwrap();
        let task = task.by(row["who"].as_str().unwrap()).taking(off);
        let task = texts(&row["after"]).fold(task, |t, a| t.after(a));
        task.not_before(row["from_day"].as_u64().unwrap() as u32).unwrap()
    };
    let tasks = case["tasks"].as_array().unwrap().iter().map(task).collect();
    Plan::new(tasks, days, Ways { one_at_a_time: true, next_morning, usual_order: true }).unwrap()
}

fn household() -> Household {
    Household {
        home_days: None,
        home_hours: ["9", "17"].map(|h| Clock::parse(h).unwrap()),
        medical: Medical::None,
        quiet: None,
        toilets: None,
        toilets_apart: 0,
        internet_circuit: None,
        office_circuit: None,
        well_pump: false,
    }
}

/// Whether a count of draws agrees with a chance.
fn agrees(count: &Value, draws: f64, p: f64) -> bool {
    (count.as_f64().unwrap() / draws - p).abs() <= Z * (p * (1.0 - p) / draws).sqrt() + SPREAD
}

#[test]
fn every_chance_agrees_with_the_draws() {
    let file: Value = serde_json::from_str(DRAWN).unwrap();
    let draws = file["draws"].as_f64().unwrap();
    let mut compared = 0;
    for case in file["cases"].as_array().unwrap() {
        let plan = plan(case);
        let calendar = Calendar::of(&plan, &household()).unwrap();
        let done = calendar.schedule.done(plan.all());
        let id = &case["id"];
        for (day, count) in case["done_by_day"].as_array().unwrap().iter().enumerate() {
            let p = done.by((day + 1) * plan.days().quarters());
            assert!(agrees(count, draws, p), "{id}, done by day {}: {count} {p}", day + 1);
        }
        for (word, drawn) in case["services"].as_object().unwrap() {
            let row = calendar.row(&service(word)).unwrap();
            for (quarter, count) in drawn["quarters"].as_array().unwrap().iter().enumerate() {
                let p = row.chance.get(quarter).copied().unwrap_or(0.0);
                assert!(agrees(count, draws, p), "{id}, {word}, quarter {quarter}: {count} {p}");
                compared += usize::from(p > 0.0 && p < 1.0);
            }
            for (day, count) in drawn["nights"].as_array().unwrap().iter().enumerate() {
                let p = row.nights[day];
                assert!(row.overnight.is_empty() || agrees(count, draws, p), "{id}, {word}, night {day}");
            }
            let sd = drawn["sd_hours"].as_f64().unwrap();
            let off = (drawn["mean_hours"].as_f64().unwrap() - row.mean).abs();
            assert!(off <= Z * sd / draws.sqrt() + SPREAD * sd, "{id}, {word}: {off}");
            // Quantiles sit on the grid: one quarter hour.
            for q in 0..2 {
                let hours = drawn["hours_p50_p90"][q].as_f64().unwrap();
                assert!(
                    (hours - row.hours[q].unwrap()).abs() <= 0.25,
                    "{id}, {word}: {hours} {:?}",
                    row.hours
                );
                let over = drawn["over_p50_p90"][q].as_f64().unwrap();
                assert!(
                    (over - row.ends[q].unwrap() as f64).abs() <= 1.0,
                    "{id}, {word}: {over} {:?}",
                    row.ends
                );
            }
        }
    }
    assert!(compared > 700, "{compared}");
}

#[test]
fn rounding_to_quarter_hours_moves_no_end_by_more_than_one_and_a_half() {
    let file: Value = serde_json::from_str(DRAWN).unwrap();
    for case in file["cases"].as_array().unwrap() {
        let calendar = Calendar::of(&plan(case), &household()).unwrap();
        for q in 0..2 {
            let free = case["unrounded_p50_p90"][q].as_f64().unwrap();
            let late = calendar.ends[q].unwrap() as f64 - free;
            assert!((-1.5..=1.5).contains(&late), "{}: {late}", case["id"]);
        }
    }
}
