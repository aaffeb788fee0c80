//! A plan: its tasks in order, placed on working days.

use alloc::{vec, vec::Vec};

use survey::{Phrase, say};

use super::days::{MOST_DAYS, WorkingDays};
use super::lattice::{COURSES, place};
use super::order::{MOST_TASKS, Order, Set, order, stage_rank};
use super::schedule::Schedule;
use super::spread::Times;
use super::tasks::Task;
use crate::error::TradeError;

/// How the tasks are placed. Each way is common practice, no source.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Ways {
    /// A trade does one task at a time.
    pub one_at_a_time: bool,
    /// A trade that follows another starts the next morning; else in the same quarter hour.
    pub next_morning: bool,
    /// The trade's usual order holds between stages and catalog tasks.
    pub usual_order: bool,
}

/// Tasks that can be placed.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    tasks: Vec<Task>,
    days: WorkingDays,
    ways: Ways,
    order: Order,
}

impl Plan {
    /// A plan. The rows may come in any order.
    ///
    /// # Errors
    /// No task or over 60, two of one name, an `after` that names none, or a circle.
    pub fn new(mut tasks: Vec<Task>, days: WorkingDays, ways: Ways) -> Result<Self, TradeError> {
        if tasks.is_empty() || tasks.len() > MOST_TASKS {
            let (what, value, high) = (Phrase("trade-number-tasks"), tasks.len() as f64, MOST_TASKS as f64);
            return Err(TradeError::OutOfRange { what, value, low: 1.0, high, unit: "" });
        }
        let rank = |t: &Task| t.stage().and_then(stage_rank).unwrap_or(usize::MAX);
        tasks.sort_by_cached_key(|t| (rank(t), t.name().to_lowercase()));
        for (at, task) in tasks.iter().enumerate() {
            if tasks[..at].iter().any(|t| t.name().eq_ignore_ascii_case(task.name())) {
                let what = say!("trade-two-tasks-named", name = task.name());
                return Err(TradeError::Clash { what, mend: Phrase("trade-tell-them-apart-such") });
            }
        }
        let order = order(&tasks, ways.usual_order, ways.one_at_a_time)?;
        Ok(Self { tasks, days, ways, order })
    }
    /// The same with a task not before another working day.
    ///
    /// # Errors
    /// A day outside 1 to 120.
    pub fn moving(&self, task: usize, day: u32) -> Result<Self, TradeError> {
        let mut plan = self.clone();
        if let Some(moved) = plan.tasks.get_mut(task) {
            *moved = moved.clone().not_before(day)?;
        }
        Ok(plan)
    }
    /// Tasks, by stage and name.
    pub fn tasks(&self) -> &[Task] {
        &self.tasks
    }
    /// A task by its place in [`Plan::tasks`].
    pub fn task(&self, at: usize) -> Option<&Task> {
        self.tasks.get(at)
    }
    /// Working days.
    pub const fn days(&self) -> &WorkingDays {
        &self.days
    }
    /// Ways.
    pub const fn ways(&self) -> Ways {
        self.ways
    }
    /// Their order.
    pub const fn order(&self) -> &Order {
        &self.order
    }
    /// All tasks.
    pub fn all(&self) -> Set {
        self.named(|_| true)
    }
    /// The tasks of some kind.
    pub fn named(&self, is: impl Fn(&Task) -> bool) -> Set {
        let mut set = Set::NONE;
        for (at, _) in self.tasks.iter().enumerate().filter(|(_, t)| is(t)) {
            set.insert(at);
        }
        set
    }
    /// Days to look at: every task at its longest one after the other, at most [`MOST_DAYS`].
    fn horizon(&self) -> u32 {
        let day = self.days.hours();
        let hours: f64 = self.tasks.iter().map(|t| t.working_hours(day).high() + 0.25).sum();
        let waits = if self.ways.next_morning { self.tasks.len() } else { 0 };
        let latest = self.tasks.iter().map(Task::from_day).max().unwrap_or(1);
        let days = libm::ceil(hours / day) + waits as f64 + f64::from(latest);
        if days < f64::from(MOST_DAYS) { days as u32 } else { MOST_DAYS }
    }
    /// When each task starts and ends, in every course.
    pub fn schedule(&self) -> Schedule {
        let day = self.days.quarters();
        let horizon = self.horizon() as usize * day;
        let beyond = horizon + 1;
        let most = horizon as u16; // at most 120 days of 48 quarter hours
        let length = |t: &Task| Times::of(&t.working_hours(self.days.hours()), most);
        let times: Vec<Times> = self.tasks.iter().map(length).collect();
        let (mut starts, mut ends) = (vec![Vec::new(); times.len()], vec![Vec::new(); times.len()]);
        for &at in &self.order.sequence {
            let task = &self.tasks[at];
            let first = (task.from_day() as usize - 1) * day;
            let mut start = vec![first as u16; COURSES];
            for earlier in self.order.waits[at].iter() {
                let morning = self.ways.next_morning && self.tasks[earlier].who() != task.who();
                let step = if morning { day } else { 1 };
                let ends: &Vec<u16> = &ends[earlier];
                for (mine, theirs) in start.iter_mut().zip(ends) {
                    let ready = usize::from(*theirs).div_ceil(step) * step;
                    *mine = u16::max(*mine, ready.min(beyond) as u16);
                }
            }
            let end = |(course, start): (usize, &u16)| {
                let end = usize::from(*start) + usize::from(times[at].at(place(course, at)));
                end.min(beyond) as u16
            };
            ends[at] = start.iter().enumerate().map(end).collect();
            starts[at] = start;
        }
        Schedule { starts, ends, times, horizon, day }
    }
}

#[cfg(test)]
mod tests {
    use alloc::format;

    use super::super::days::Clock;
    use super::*;

    fn plan(tasks: Vec<Task>, next_morning: bool) -> Plan {
        let clock = |h: &str| Clock::parse(h).unwrap();
        let days = WorkingDays::new(clock("8"), clock("16"), 0).unwrap();
        Plan::new(tasks, days, Ways { one_at_a_time: true, next_morning, usual_order: true }).unwrap()
    }

    fn fixed(name: &str, hours: f64) -> Task {
        Task::new(name, [hours; 3]).unwrap()
    }

    #[test]
    fn a_trade_that_follows_another_comes_the_next_morning() {
        let tasks = || vec![fixed("a", 2.0).by("plumber"), fixed("b", 1.0).by("electrician").after("a")];
        let end = |next_morning| plan(tasks(), next_morning).schedule().ends[1][0];
        assert_eq!((end(true), end(false)), (32 + 4, 8 + 4));
    }

    #[test]
    fn a_trade_that_ends_with_the_day_is_followed_in_the_morning_anyway() {
        let tasks = vec![fixed("a", 8.0).by("plumber"), fixed("b", 1.0).by("electrician").after("a")];
        assert_eq!(plan(tasks, true).schedule().starts[1][0], 32);
    }

    #[test]
    fn names_are_told_apart() {
        let days = *plan(vec![fixed("a", 1.0)], false).days();
        let ways = Ways { one_at_a_time: true, next_morning: false, usual_order: true };
        assert!(Plan::new(vec![fixed("a", 1.0), fixed("A", 1.0)], days, ways).is_err());
        assert!(Plan::new(vec![], days, ways).is_err());
        let many = (0..61).map(|n| fixed(&format!("{n}"), 1.0)).collect();
        assert!(Plan::new(many, days, ways).is_err());
    }
}
