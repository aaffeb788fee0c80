//! Against exact arithmetic, where there is one: a chain of tasks adds up by convolution of its times on the quarter
//! hours, and the last of several that share nothing is the product of their distributions.

use proptest::prelude::*;
use serde_json::Value;
use trade::outages::days::{Clock, WorkingDays};
use trade::outages::lattice::{COURSES, STEPS};
use trade::outages::plan::{Plan, Ways};
use trade::outages::tasks::Task;
use trade::pert::Pert;

/// P(a PERT time rounds to at most k quarter hours).
fn exact(hours: [f64; 3]) -> Vec<f64> {
    let pert = Pert::new(hours[0], hours[1], hours[2]).unwrap();
    let most = (hours[2] * 4.0 + 1.0) as usize;
    (0..=most).map(|k| pert.cdf((k as f64 + 0.5) / 4.0)).collect()
}

fn at(by: &[f64], k: usize) -> f64 {
    by.get(k).copied().unwrap_or(1.0)
}

/// Of a sum of two independent times.
fn then(first: &[f64], second: &[f64]) -> Vec<f64> {
    let mass = |k: usize| at(second, k) - if k > 0 { at(second, k - 1) } else { 0.0 };
    let sum = |k: usize| (0..second.len().min(k + 1)).map(|u| mass(u) * at(first, k - u)).sum();
    (0..first.len() + second.len()).map(sum).collect()
}

/// Of the last of two independent times.
fn last(first: &[f64], second: &[f64]) -> Vec<f64> {
    (0..first.len().max(second.len())).map(|k| at(first, k) * at(second, k)).collect()
}

/// The start of the next day of so many quarter hours.
fn morning(by: &[f64], day: usize) -> Vec<f64> {
    (0..by.len() + day).map(|k| at(by, k - k % day)).collect()
}

fn hours() -> impl Strategy<Value = [f64; 3]> {
    (0.0..8.0, 0.0..6.0, 0.1..12.0).prop_map(|(a, b, c)| [a, a + b, a + b + c])
}

fn chains() -> impl Strategy<Value = Vec<Vec<[f64; 3]>>> {
    proptest::collection::vec(proptest::collection::vec(hours(), 1..5), 1..5)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Chains of several trades side by side, and one task after all of them.
    #[test]
    fn chains_and_what_follows_all_of_them_agree(chains in chains(), end in hours(), next_morning: bool) {
        let mut tasks = Vec::new();
        let mut all = vec![1.0];
        for (n, chain) in chains.iter().enumerate() {
            let mut by = vec![1.0];
            for (m, hours) in chain.iter().enumerate() {
                let task = Task::new(&format!("t{n} {m}"), *hours).unwrap().by(&format!("trade {n}"));
                tasks.push(if m > 0 { task.after(&format!("t{n} {}", m - 1)) } else { task });
                by = then(&by, &exact(*hours));
            }
            all = last(&all, &if next_morning { morning(&by, 34) } else { by });
        }
        let mut final_task = Task::new("end", end).unwrap().by("builder");
        for (n, chain) in chains.iter().enumerate() {
            final_task = final_task.after(&format!("t{n} {}", chain.len() - 1));
        }
        tasks.push(final_task);
        let days = WorkingDays::new(Clock::parse("8").unwrap(), Clock::parse("16:30").unwrap(), 0).unwrap();
        let plan = Plan::new(tasks, days, Ways { one_at_a_time: true, next_morning, usual_order: true }).unwrap();
        let expected = then(&all, &exact(end));
        let got = plan.schedule().done(plan.all());
        for (k, by) in expected.iter().enumerate() {
            // Seventeen tasks at most, each moved to a course of the lattice: under one chance in a hundred (6e-3 seen
            // where all of them are nearly nothing most of the time).
            prop_assert!((got.by(k) - by).abs() < 8e-3, "{k}: {} {by}", got.by(k));
        }
    }
}

#[test]
fn the_steps_are_those_the_script_finds() {
    let file: Value =
        serde_json::from_str(include_str!("../../../../../tests/vectors/trade/outages_lattice.json"))
            .unwrap();
    let steps: Vec<usize> =
        file["steps"].as_array().unwrap().iter().map(|s| s.as_u64().unwrap() as usize).collect();
    assert_eq!((steps, file["points"].as_u64()), (STEPS.to_vec(), Some(COURSES as u64)));
}
