//! In which order the tasks come: what the survey said, what the trade usually does, and one task at a time per trade.
//!
//! The order is the first topological order by stage and then name (Kahn, Communications of the ACM 5(11), 1962), so
//! that it does not depend on how the rows were written. A circle is an error that names its tasks.

use alloc::{format, vec, vec::Vec};

use survey::{Phrase, Said, say};

use super::tasks::Task;
use crate::error::TradeError;

/// Most tasks in a calendar; a set of tasks fits one machine word.
pub const MOST_TASKS: usize = 60;

/// Stages of the work in their usual order: common practice, no source. Every task of a stage ends before any task of
/// a later stage starts.
pub const STAGES: [&str; 7] =
    ["preparation", "demolition", "rough-in", "inspection", "close-up", "finish", "appliances"];

/// What the order of the stages means, shown where two such stages meet: earlier, later, words.
const STAGE_RULES: [(usize, usize, Phrase); 7] = [
    (0, 1, Phrase("trade-dust-wall-shut-offs")),
    (1, 2, Phrase("trade-demolition-before-rough")),
    (2, 3, Phrase("trade-rough-before-inspection")),
    (2, 4, Phrase("trade-rough-before-close-up")),
    (3, 4, Phrase("trade-inspection-before-close-up")),
    (4, 5, Phrase("trade-close-up-before-finish")),
    (5, 6, Phrase("trade-electrical-plumbing-finish-before")),
];

/// Tasks of the catalog that usually come one before the other: common practice, no source.
const USUALLY_BEFORE: [(&str, &str, Phrase); 7] = [
    ("main-valve-swap", "cap-sink", Phrase("trade-main-valve-closes-before")),
    ("main-valve-swap", "replace-stops", Phrase("trade-main-valve-closes-before-shut")),
    ("cap-sink", "demo-dust", Phrase("trade-water-capped-before-demolition")),
    ("gas-cap", "demo-dust", Phrase("trade-gas-capped-before-demolition")),
    ("pull-circuit", "demo-dust", Phrase("trade-kitchen-circuits-off-boxed")),
    ("abatement", "demo-dust", Phrase("trade-old-materials-taken-out")),
    ("demo-dust", "beam-day", Phrase("trade-demolition-before-beam-set")),
];

/// Rank of a stage by its word.
pub fn stage_rank(stage: &str) -> Option<usize> {
    STAGES.iter().position(|s| s.eq_ignore_ascii_case(stage.trim()))
}

/// A set of tasks, by their place in the sorted list.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Set(u64);

impl Set {
    /// None.
    pub const NONE: Self = Self(0);
    /// One task.
    pub const fn only(task: usize) -> Self {
        Self(1 << task)
    }
    /// Adds a task.
    pub const fn insert(&mut self, task: usize) {
        self.0 |= 1 << task;
    }
    /// Whether it holds a task.
    pub const fn has(self, task: usize) -> bool {
        self.0 >> task & 1 == 1
    }
    /// Both together.
    #[must_use]
    pub const fn with(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }
    /// Without those of another.
    #[must_use]
    pub const fn without(self, other: Self) -> Self {
        Self(self.0 & !other.0)
    }
    /// Whether it is empty.
    pub const fn is_empty(self) -> bool {
        self.0 == 0
    }
    /// Its tasks in order.
    pub fn iter(self) -> impl Iterator<Item = usize> {
        (0..64).filter(move |task| self.has(*task))
    }
}

/// The order of the tasks of a plan.
#[derive(Clone, PartialEq, Debug)]
pub struct Order {
    /// Every task after all that come before it.
    pub sequence: Vec<usize>,
    /// For each task the tasks it waits for, without those that another of them waits for anyway.
    pub waits: Vec<Set>,
    /// For each task every task that ends before it starts.
    pub before: Vec<Set>,
    /// Usual orders that were used, in words.
    pub usual: Vec<Phrase>,
}

impl Order {
    /// Whether one of two tasks ends before the other starts.
    pub fn apart(&self, a: usize, b: usize) -> bool {
        let before = |x: usize, y: usize| self.before.get(y).is_some_and(|set| set.has(x));
        before(a, b) || before(b, a)
    }
    /// Whether every two tasks of a set are one after the other.
    pub fn all_apart(&self, set: Set) -> bool {
        set.iter().all(|a| set.iter().all(|b| a == b || self.apart(a, b)))
    }
}

/// Orders the tasks, which must be sorted and at most [`MOST_TASKS`].
///
/// # Errors
/// An `after` that names no task, or tasks that wait for each other in a circle.
pub fn order(tasks: &[Task], usual_order: bool, one_at_a_time: bool) -> Result<Order, TradeError> {
    let mut waits = said(tasks)?;
    let mut usual = Vec::new();
    if usual_order {
        add_usual(tasks, &mut waits, &mut usual);
    }
    let sequence = sequence(tasks, &waits)?;
    if one_at_a_time {
        for (at, &task) in sequence.iter().enumerate() {
            let who = tasks[task].who();
            let earlier = sequence[..at].iter().rev().find(|t| !who.is_empty() && tasks[**t].who() == who);
            if let Some(&earlier) = earlier {
                waits[task].insert(earlier);
            }
        }
    }
    let mut before = vec![Set::NONE; tasks.len()];
    for &task in &sequence {
        let earlier = waits[task].iter().fold(waits[task], |all, t| all.with(before[t]));
        before[task] = earlier;
    }
    for set in &mut waits {
        let covered = set.iter().fold(Set::NONE, |all, t| all.with(before[t]));
        *set = set.without(covered);
    }
    Ok(Order { sequence, waits, before, usual })
}

fn said(tasks: &[Task]) -> Result<Vec<Set>, TradeError> {
    let mut waits = vec![Set::NONE; tasks.len()];
    for (at, task) in tasks.iter().enumerate() {
        for name in task.afters() {
            let found = tasks.iter().position(|t| t.name().eq_ignore_ascii_case(name));
            let Some(earlier) = found else {
                let known: Vec<&str> = tasks.iter().map(Task::name).collect();
                let value = name.chars().take(60).collect();
                return Err(TradeError::NoWord {
                    what: Phrase("trade-task-2"),
                    value,
                    known: known.join(", "),
                });
            };
            waits[at].insert(earlier);
        }
    }
    Ok(waits)
}

fn add_usual(tasks: &[Task], waits: &mut [Set], usual: &mut Vec<Phrase>) {
    let rank = |t: &Task| t.stage().and_then(stage_rank);
    let mut note = |words: Phrase| {
        if !usual.contains(&words) {
            usual.push(words);
        }
    };
    for (at, task) in tasks.iter().enumerate() {
        let Some(own) = rank(task) else { continue };
        for (other, earlier) in tasks.iter().enumerate() {
            if let Some(theirs) = rank(earlier).filter(|theirs| *theirs < own) {
                waits[at].insert(other);
                let rule = STAGE_RULES.iter().find(|(a, b, _)| (*a, *b) == (theirs, own));
                note(rule.map_or(Phrase("trade-stages-their-order"), |(_, _, words)| *words));
            }
        }
    }
    for (earlier, later, words) in USUALLY_BEFORE {
        for (at, task) in tasks.iter().enumerate().filter(|(_, t)| t.outage() == Some(later)) {
            for (other, _) in tasks.iter().enumerate().filter(|(_, t)| t.outage() == Some(earlier)) {
                // Stages that the survey gave outrank the habit.
                if !matches!((rank(task), rank(&tasks[other])), (Some(a), Some(b)) if a < b) {
                    waits[at].insert(other);
                    note(words);
                }
            }
        }
    }
}

fn sequence(tasks: &[Task], waits: &[Set]) -> Result<Vec<usize>, TradeError> {
    let mut out = Vec::with_capacity(tasks.len());
    let mut done = Set::NONE;
    while out.len() < tasks.len() {
        let next = (0..tasks.len()).find(|t| !done.has(*t) && waits[*t].without(done).is_empty());
        match next {
            Some(task) => {
                done.insert(task);
                out.push(task);
            }
            None => return Err(circle(tasks, waits, done)),
        }
    }
    Ok(out)
}

/// Every task left waits for one that is left: following any of them ends in a circle.
fn circle(tasks: &[Task], waits: &[Set], done: Set) -> TradeError {
    let left = |task: usize| waits[task].without(done).iter().next();
    let mut path: Vec<usize> = Vec::new();
    let mut at = (0..tasks.len()).find(|t| !done.has(*t));
    while let Some(task) = at {
        if let Some(first) = path.iter().position(|t| *t == task) {
            path.drain(..first);
            break;
        }
        path.push(task);
        at = left(task);
    }
    let names: Option<Said> = path
        .iter()
        .chain(path.first())
        .map(|t| Said::from(format!("“{}”", tasks[*t].name())))
        .reduce(|before, next| say!("trade-after-4", before = before, next = next));
    TradeError::Clash {
        what: say!("trade-order-goes-round-circle", names = names.unwrap_or_default()),
        mend: Phrase("trade-take-one-after-out"),
    }
}

#[cfg(test)]
mod tests {

    use super::*;
    use crate::testing::English as _;

    fn task(name: &str, after: &[&str]) -> Task {
        after.iter().fold(Task::new(name, [1.0; 3]).unwrap(), |t, a| t.after(a))
    }

    fn names<'a>(tasks: &'a [Task], order: &Order) -> Vec<&'a str> {
        order.sequence.iter().map(|t| tasks[*t].name()).collect()
    }

    #[test]
    fn what_waits_comes_later_and_names_break_ties() {
        let tasks = [task("a", &["c"]), task("b", &[]), task("c", &[])];
        let order = order(&tasks, true, false).unwrap();
        assert_eq!(names(&tasks, &order), ["b", "c", "a"]);
        assert!(order.apart(0, 2) && !order.apart(0, 1));
    }

    #[test]
    fn a_circle_names_its_tasks_and_only_those() {
        let tasks = [task("a", &["b"]), task("b", &["c"]), task("c", &["b"]), task("d", &[])];
        let error = order(&tasks, true, false).unwrap_err().message().en();
        assert!(error.contains("“b” after “c” after “b”"), "{error}");
        assert!(!error.contains("“a”") && !error.contains("“d”"), "{error}");
        let own = order(&[task("a", &["a"])], true, false).unwrap_err().message().en();
        assert!(own.contains("“a” after “a”"), "{own}");
    }

    #[test]
    fn a_name_that_is_no_task_is_told_which_there_are() {
        let error = order(&[task("a", &["x"]), task("b", &[])], true, false).unwrap_err().message().en();
        assert!(error.contains("“x”") && error.contains("a, b"), "{error}");
    }

    #[test]
    fn stages_order_what_nobody_ordered() {
        let at = |name: &str, stage: &str| task(name, &[]).at_stage(stage).unwrap();
        let tasks = [at("a", "appliances"), at("b", "finish"), at("c", "close-up"), at("d", "rough-in")];
        let order_of = |usual| order(&tasks, usual, false).unwrap();
        assert_eq!(names(&tasks, &order_of(true)), ["d", "c", "b", "a"]);
        assert!(
            order_of(true)
                .usual
                .iter()
                .any(|u| u.read() == "electrical and plumbing finish before appliances")
        );
        assert_eq!(names(&tasks, &order_of(false)), ["a", "b", "c", "d"]);
        // Only the nearest are waited for.
        assert_eq!(order_of(true).waits[0], Set::only(1));
    }

    #[test]
    fn a_trade_does_one_task_at_a_time() {
        let tasks = [task("a", &[]).by("Plumber"), task("b", &[]).by("plumber"), task("c", &[])];
        assert!(order(&tasks, true, true).unwrap().apart(0, 1));
        assert!(!order(&tasks, true, false).unwrap().apart(0, 1));
        assert!(!order(&tasks, true, true).unwrap().apart(0, 2));
    }
}
