//! How the odds of a condition came about, answer by answer: the few that moved them, and the rest in between.

use crate::forecast::{PathStep, round6};
use crate::reasons::{Told, decibans};

/// Answers told one by one.
const KEPT: usize = 6;
/// What moves the odds less is not told by itself, decibans.
const LEAST: f64 = 1.0;
/// What moves the chance less cannot be seen on a rule of ten.
const SEEN: f64 = 0.005;
/// From here on answers that are not told by themselves are told together.
const TOGETHER: f64 = 0.02;

/// The chances of a condition while answers were taken one after the other.
pub(crate) struct Walked<'a> {
    base: f64,
    taken: Vec<(Told<'a>, f64)>,
}

impl<'a> Walked<'a> {
    /// Before any answer.
    pub(crate) const fn from(base: f64) -> Self {
        Self { base, taken: Vec::new() }
    }

    /// The chance after one more answer.
    pub(crate) fn take(&mut self, answer: &Told<'a>, to: f64) {
        self.taken.push((answer.clone(), to));
    }

    /// The steps; the last one ends at `end`, as near as can be seen.
    pub(crate) fn steps(&self, end: f64) -> Vec<PathStep> {
        let before = |i: usize| if i == 0 { self.base } else { self.taken[i - 1].1 };
        let weight = |i: usize| {
            let (from, to) = (before(i), self.taken[i].1);
            let weight = decibans(from, to);
            (weight.is_finite() && weight.abs() >= LEAST && (to - from).abs() >= SEEN).then_some(weight)
        };
        let mut told: Vec<(usize, f64)> =
            (0..self.taken.len()).filter_map(|i| Some((i, weight(i)?))).collect();
        told.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()).then(a.0.cmp(&b.0)));
        told.truncate(KEPT);
        told.sort_by_key(|(i, _)| *i);

        let mut steps = Vec::new();
        let (mut at, mut next) = (self.base, 0);
        for (i, weight) in told {
            together(&mut steps, i - next, &mut at, before(i));
            at = self.taken[i].1;
            steps.push(PathStep { answer: Some(self.taken[i].0.reason(weight)), answers: 1, to: round6(at) });
            next = i + 1;
        }
        together(&mut steps, self.taken.len() - next, &mut at, end);
        steps
    }
}

/// Tells some answers as one step, where it can be seen.
fn together(steps: &mut Vec<PathStep>, answers: usize, at: &mut f64, to: f64) {
    if answers > 0 && (to - *at).abs() >= TOGETHER {
        steps.push(PathStep { answer: None, answers: answers as u32, to: round6(to) });
        *at = to;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use survey::log::Value;

    fn steps(base: f64, taken: &[f64]) -> Vec<(Option<f64>, u32, f64)> {
        let yes = Value::Choice("yes".into());
        let mut walked = Walked::from(base);
        for p in taken {
            walked.take(&Told { item: "over-kitchen", place: None, value: &yes }, *p);
        }
        let end = taken.last().copied().unwrap_or(base);
        walked.steps(end).into_iter().map(|s| (s.answer.map(|a| a.decibans), s.answers, s.to)).collect()
    }

    #[test]
    fn what_moved_is_told_in_order_and_what_did_not_is_not() {
        assert_eq!(steps(0.3, &[]), []);
        assert_eq!(steps(0.3, &[0.3, 0.3]), []);
        assert_eq!(steps(0.5, &[0.5, 0.75, 0.75]), [(Some(4.8), 1, 0.75)]);
        assert_eq!(steps(0.5, &[0.75, 0.5]), [(Some(4.8), 1, 0.75), (Some(-4.8), 1, 0.5)]);
    }

    #[test]
    fn many_small_ones_are_one_step() {
        let small: Vec<f64> = (1..=8).map(|i| 0.5 + f64::from(i) * 0.01).collect();
        assert_eq!(steps(0.5, &small), [(None, 8, 0.58)]);
        let mut then: Vec<f64> = small.clone();
        then.push(0.9);
        assert_eq!(steps(0.5, &then), [(None, 8, 0.58), (Some(8.1), 1, 0.9)]);
    }

    #[test]
    fn no_more_than_six_are_told_alone() {
        let swings: Vec<f64> = (0..20).map(|i| if i % 2 == 0 { 0.8 } else { 0.4 }).collect();
        let told = steps(0.4, &swings);
        assert_eq!(told.iter().filter(|(alone, ..)| alone.is_some()).count(), KEPT);
        assert!((told.last().map_or(0.4, |s| s.2) - 0.4).abs() < TOGETHER);
    }
}
