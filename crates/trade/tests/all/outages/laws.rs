//! What holds for every calendar.

use crate::english::English as _;
use proptest::prelude::*;
use trade::given::Given;
use trade::outages::calendar::Calendar;
use trade::outages::conflicts::conflicts;
use trade::outages::days::{Clock, WorkingDays};
use trade::outages::household::{Household, Medical};
use trade::outages::order::STAGES;
use trade::outages::plan::{Plan, Ways};
use trade::outages::service::Off;
use trade::outages::spread::Moment;
use trade::outages::tasks::Task;

use super::CATALOG;

/// A task as numbers: hours, trade, service, which earlier rows it waits for, stage, earliest day.
#[derive(Clone, Debug)]
struct Row {
    low: f64,
    more: [f64; 2],
    who: usize,
    off: usize,
    after: u8,
    stage: Option<usize>,
    from_day: u32,
}

const TRADES: [&str; 4] = ["", "plumber", "electrician", "builder"];
const OFF: [&str; 8] =
    ["water", "power", "power:office", "gas", "bath", "drains", "quiet+kitchen", "internet+toilet:up"];

fn rows() -> impl Strategy<Value = Vec<Row>> {
    let stage = proptest::option::weighted(0.2, 0..STAGES.len());
    let row = (0.0..12.0, 0.0..8.0, 0.0..16.0, 0..4usize, 0..8usize, any::<u8>(), stage, 1..4u32);
    let row = row.prop_map(|(low, a, b, who, off, after, stage, from_day)| Row {
        low,
        more: [a, b],
        who,
        off,
        after,
        stage,
        from_day,
    });
    proptest::collection::vec(row, 1..8)
}

fn tasks(rows: &[Row], stages: bool) -> Vec<Task> {
    let task = |(at, row): (usize, &Row)| {
        let hours = [row.low, row.low + row.more[0], row.low + row.more[0] + row.more[1]];
        let mut task = Task::new(&format!("t{at}"), hours).unwrap().by(TRADES[row.who]);
        task = task.taking(Off::parse_all(OFF[row.off]).unwrap()).not_before(row.from_day).unwrap();
        for earlier in (0..at).filter(|e| e % 8 < 8 && row.after >> (e % 8) & 1 == 1) {
            task = task.after(&format!("t{earlier}"));
        }
        match row.stage.filter(|_| stages) {
            Some(stage) => task.at_stage(STAGES[stage]).unwrap(),
            None => task,
        }
    };
    rows.iter().enumerate().map(task).collect()
}

fn days() -> WorkingDays {
    WorkingDays::new(Clock::parse("8").unwrap(), Clock::parse("16:30").unwrap(), 0).unwrap()
}

fn ways(one_at_a_time: bool, next_morning: bool) -> Ways {
    Ways { one_at_a_time, next_morning, usual_order: true }
}

fn household() -> Household {
    Household {
        home_days: Some([true, false, true, false, true]),
        home_hours: ["9", "17"].map(|h| Clock::parse(h).unwrap()),
        medical: Medical::On("bedroom".to_owned()),
        quiet: Some(vec![["13", "15"].map(|h| Clock::parse(h).unwrap())]),
        toilets: Some(2),
        toilets_apart: 1,
        internet_circuit: Some("office".to_owned()),
        office_circuit: Some("office".to_owned()),
        well_pump: true,
    }
}

fn done(plan: &Plan) -> Moment {
    plan.schedule().done(plan.all())
}

/// Never earlier: at every quarter hour at most as likely over.
fn never_earlier(earlier: &Moment, later: &Moment) -> bool {
    (0..8000).all(|k| later.by(k) <= earlier.by(k))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn the_order_of_the_rows_does_not_matter(rows in rows(), turn in 0..8usize, next_morning: bool) {
        let tasks = tasks(&rows, false);
        let mut turned = tasks.clone();
        turned.rotate_left(turn % tasks.len());
        turned.reverse();
        let one = Plan::new(tasks, days(), ways(true, next_morning)).unwrap();
        let other = Plan::new(turned, days(), ways(true, next_morning)).unwrap();
        prop_assert_eq!(Calendar::of(&one, &household()).unwrap(), Calendar::of(&other, &household()).unwrap());
    }

    #[test]
    fn every_chance_is_a_probability(rows in rows(), one_at_a_time: bool, next_morning: bool) {
        let plan = Plan::new(tasks(&rows, false), days(), ways(one_at_a_time, next_morning)).unwrap();
        let calendar = Calendar::of(&plan, &household()).unwrap();
        let fine = |p: &f64| (0.0..=1.0).contains(p);
        for row in &calendar.rows {
            prop_assert!(row.chance.iter().all(fine) && row.nights.iter().all(fine));
            prop_assert!(row.mean >= 0.0 && row.hours[0] <= row.hours[1] && row.ends[0] <= row.ends[1]);
        }
        for conflict in conflicts(&plan, &household(), &calendar).unwrap() {
            prop_assert!((0.0..=1.0 + 1e-12).contains(&conflict.chance), "{:?}", conflict);
        }
        let end = done(&plan);
        prop_assert!((1..8000).all(|k| end.by(k - 1) <= end.by(k)) && end.by(8000) > 1.0 - 1e-9);
    }

    /// Longer: the whole estimate later or stretched, or the likely value raised. A higher high value alone is not
    /// longer, for it moves weight toward both ends.
    #[test]
    fn a_longer_task_never_ends_the_calendar_earlier(
        rows in rows(), which in 0..8usize, way in 0..3usize, by in 0.0..5.0, one_at_a_time: bool, next_morning: bool,
    ) {
        let plan = |rows: &[Row]| Plan::new(tasks(rows, false), days(), ways(one_at_a_time, next_morning)).unwrap();
        let mut longer = rows.clone();
        let row = &mut longer[which % rows.len()];
        match way {
            0 => row.low += by,
            1 => (row.low, row.more) = (row.low * (1.0 + by), row.more.map(|m| m * (1.0 + by))),
            _ => {
                let up = f64::min(by, row.more[1]);
                row.more = [row.more[0] + up, row.more[1] - up];
            }
        }
        prop_assert!(never_earlier(&done(&plan(&rows)), &done(&plan(&longer))));
    }

    #[test]
    fn one_more_constraint_never_ends_the_calendar_earlier(
        rows in rows(), pair in (0..8usize, 0..8usize), one_at_a_time: bool, next_morning: bool,
    ) {
        // Any that the order in use allows; with one task at a time another order would be another calendar.
        let tasks = tasks(&rows, false);
        let plan = Plan::new(tasks.clone(), days(), ways(one_at_a_time, next_morning)).unwrap();
        let at = |n: usize| plan.order().sequence[n % rows.len()];
        let (a, b) = (pair.0 % rows.len(), pair.1 % rows.len());
        prop_assume!(a != b);
        let (earlier, later) = (plan.task(at(a.min(b))).unwrap(), plan.task(at(a.max(b))).unwrap());
        let more = tasks.iter().map(|t| if t.name() == later.name() { t.clone().after(earlier.name()) } else { t.clone() });
        let bound = Plan::new(more.collect(), days(), ways(one_at_a_time, next_morning)).unwrap();
        prop_assert!(never_earlier(&done(&plan), &done(&bound)));
    }

    #[test]
    fn a_circle_is_an_error_that_names_its_tasks(rows in rows(), one_at_a_time: bool) {
        prop_assume!(rows.len() > 1);
        let last = rows.len() - 1;
        let mut tasks = tasks(&rows, false);
        tasks[last] = tasks[last].clone().after("t0");
        tasks[0] = tasks[0].clone().after(&format!("t{last}"));
        let error = Plan::new(tasks, days(), ways(one_at_a_time, false)).unwrap_err().message().en();
        prop_assert!(error.contains("circle") && error.contains("“t0”"), "{}", error);
    }

    #[test]
    fn stages_give_a_calendar_or_a_circle(rows in rows()) {
        match Plan::new(tasks(&rows, true), days(), ways(true, true)) {
            Ok(plan) => prop_assert!(done(&plan).by(8000) > 1.0 - 1e-9),
            Err(error) => prop_assert!(error.message().en().contains("circle"), "{}", error),
        }
    }

    #[test]
    fn no_numbers_and_no_words_make_it_panic(
        hours in [any::<f64>(), any::<f64>(), any::<f64>()], day: u32, text in "[ -~]{0,40}", field in 1..16usize,
    ) {
        if let Ok(task) = Task::new("a", hours) {
            let _ = task.not_before(day);
        }
        let calculation = trade::find("outages").unwrap();
        let name = calculation.fields[field % calculation.fields.len()].name;
        for answers in [
            vec![("task".to_owned(), text.clone())],
            vec![("task".to_owned(), "panel-swap, x".to_owned()), (name.to_owned(), text.clone())],
        ] {
            if let Ok(given) = Given::read(calculation.fields, &answers) {
                let _ = (calculation.run)(&given, &CATALOG);
            }
        }
    }
}

#[test]
fn the_largest_plan_is_answered_and_says_that_it_reaches_beyond_its_days() {
    let mut answers: Vec<(String, String)> = (0..60)
        .map(|n| ("task".to_owned(), format!("t{n}, trade {}, 0, 500, 2000, water+power:c{}", n % 7, n % 30)))
        .collect();
    answers.extend(
        [("home-days", "every"), ("internet-circuit", "c1"), ("day-end", "20"), ("toilets", "1")]
            .map(|(a, b)| (a.to_owned(), b.to_owned())),
    );
    let calculation = trade::find("outages").unwrap();
    let sheet = (calculation.run)(&Given::read(calculation.fields, &answers).unwrap(), &CATALOG).unwrap();
    assert!(sheet.sentence.contains("beyond the days looked at"), "{}", sheet.sentence);
}
