//! When tasks start and end in every course of the work, and what follows for several of them together.

use alloc::{vec, vec::Vec};

use super::days::QUARTERS;
use super::lattice::COURSES;
use super::order::Set;
use super::spread::{Moment, Times};

/// An hour's part in a quarter hour.
pub const QUARTER: f64 = 1.0 / QUARTERS as f64;

/// Starts and ends in quarter hours of work since the first morning; one more than the horizon is beyond it.
#[derive(Clone, PartialEq, Debug)]
pub struct Schedule {
    /// Start of each task in each course.
    pub starts: Vec<Vec<u16>>,
    /// End of each task in each course.
    pub ends: Vec<Vec<u16>>,
    /// How long each takes.
    pub times: Vec<Times>,
    /// Quarter hours looked at.
    pub horizon: usize,
    /// Quarter hours in a working day.
    pub day: usize,
}

/// When at least one of some tasks is under way.
#[derive(Clone, PartialEq, Debug)]
pub struct UnderWay {
    /// Chance in each quarter hour.
    pub chance: Vec<f64>,
    /// How many quarter hours in all, those at the same time counted once.
    pub length: Moment,
    /// Mean hours, within the horizon.
    pub mean: f64,
}

impl Schedule {
    /// Days looked at.
    pub fn days(&self) -> u32 {
        (self.horizon / self.day.max(1)) as u32
    }
    fn span(&self, task: usize, course: usize) -> (usize, usize) {
        let at =
            |times: &[Vec<u16>]| times.get(task).and_then(|t| t.get(course)).map_or(0, |q| usize::from(*q));
        (at(&self.starts), at(&self.ends))
    }
    /// When a task starts.
    pub fn start(&self, task: usize) -> Moment {
        Moment::of((0..COURSES).map(|c| self.span(task, c).0), self.horizon)
    }
    /// When the last of some tasks is done.
    pub fn done(&self, tasks: Set) -> Moment {
        let tasks: Vec<usize> = tasks.iter().collect();
        let last = |c: usize| tasks.iter().map(|t| self.span(*t, c).1).max().unwrap_or(0);
        Moment::of((0..COURSES).map(last), self.horizon)
    }
    /// When at least one of some tasks is under way.
    pub fn under_way(&self, tasks: Set) -> UnderWay {
        let mut chance = Chances::new(self.horizon);
        let mut lengths = Vec::with_capacity(COURSES);
        let mut spans = Vec::new();
        let tasks: Vec<usize> = tasks.iter().collect();
        for course in 0..COURSES {
            spans.clear();
            spans.extend(tasks.iter().map(|t| self.span(*t, course)));
            let beyond = spans.iter().any(|(_, end)| *end > self.horizon);
            let length = chance.add(&mut spans);
            lengths.push(if beyond { self.horizon + 1 } else { length });
        }
        let chance = chance.shares();
        let mean = chance.iter().sum::<f64>() * QUARTER;
        UnderWay { chance, length: Moment::of(lengths.into_iter(), self.horizon), mean }
    }
    /// Nights in which a task is begun and not done, from 0, which follows the first day: first, one past the last.
    fn nights_of(&self, task: usize, course: usize) -> (usize, usize) {
        let (start, end) = self.span(task, course);
        let first = start / self.day;
        if end > start { (first, usize::max((end - 1) / self.day, first)) } else { (first, first) }
    }
    /// Chance, for the night after each day, that at least one of some tasks is begun and not done.
    pub fn nights(&self, tasks: Set) -> Vec<f64> {
        let takes: Vec<(usize, u32)> = tasks.iter().map(|t| (t, 1)).collect();
        if takes.is_empty() {
            return vec![0.0; self.days() as usize];
        }
        self.nights_where(&takes, |n| n > 0)
    }
    /// Chance, for the night after each day, that what the tasks under way take, each so much, meets some condition.
    pub fn nights_where(&self, takes: &[(usize, u32)], meets: impl Fn(u32) -> bool) -> Vec<f64> {
        let days = self.days() as usize;
        let mut counts = vec![0_u32; days];
        let mut taken = vec![0_u32; days];
        for course in 0..COURSES {
            taken.fill(0);
            for (task, takes) in takes {
                let (first, end) = self.nights_of(*task, course);
                for night in taken.iter_mut().take(end).skip(first) {
                    *night = night.saturating_add(*takes);
                }
            }
            for (count, taken) in counts.iter_mut().zip(&taken) {
                *count += u32::from(meets(*taken));
            }
        }
        counts.into_iter().map(|c| f64::from(c) / COURSES as f64).collect()
    }
}

/// Counts, for each place, the courses in which it is covered, by where coverage begins and ends.
struct Chances {
    begins: Vec<u32>,
    ends: Vec<u32>,
}

impl Chances {
    fn new(places: usize) -> Self {
        Self { begins: vec![0; places + 1], ends: vec![0; places + 1] }
    }
    /// Adds the spans of one course (first place, one past the last), overlaps once; how many places they cover.
    fn add(&mut self, spans: &mut [(usize, usize)]) -> usize {
        spans.sort_unstable();
        let most = self.begins.len() - 1;
        let (mut covered, mut reached) = (0, 0);
        for (first, end) in spans.iter() {
            let (first, end) = (usize::max(*first, reached).min(most), usize::min(*end, most));
            if end > first {
                self.begins[first] += 1;
                self.ends[end] += 1;
                covered += end - first;
                reached = end;
            }
        }
        covered
    }
    fn shares(&self) -> Vec<f64> {
        let mut open = 0;
        let places = self.begins.len() - 1;
        let share = |(begins, ends): (&u32, &u32)| {
            open = open + begins - ends;
            f64::from(open) / COURSES as f64
        };
        self.begins.iter().zip(&self.ends).take(places).map(share).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A schedule of certain times: starts and ends in quarter hours, days of 32.
    fn certain(spans: &[(u16, u16)]) -> Schedule {
        let all = |q: u16| vec![q; COURSES];
        Schedule {
            starts: spans.iter().map(|s| all(s.0)).collect(),
            ends: spans.iter().map(|s| all(s.1)).collect(),
            times: Vec::new(),
            horizon: 96,
            day: 32,
        }
    }

    fn set(tasks: &[usize]) -> Set {
        let mut set = Set::NONE;
        tasks.iter().for_each(|t| set.insert(*t));
        set
    }

    #[test]
    fn two_at_one_time_are_counted_once() {
        let under_way = certain(&[(0, 8), (4, 12), (20, 22)]).under_way(set(&[0, 1, 2]));
        assert_eq!([0, 11, 12, 19, 20, 22].map(|q| under_way.chance[q]), [1.0, 1.0, 0.0, 0.0, 1.0, 0.0]);
        assert_eq!((under_way.length.quantile(0.5), under_way.mean), (Some(14), 3.5));
    }

    #[test]
    fn a_night_lies_between_begun_and_done() {
        let night = |span| certain(&[span]).nights(set(&[0]));
        assert_eq!(night((0, 32)), [0.0, 0.0, 0.0]); // done at the end of the day
        assert_eq!(night((31, 33)), [1.0, 0.0, 0.0]);
        assert_eq!(night((32, 33)), [0.0, 0.0, 0.0]); // begins in the morning
        assert_eq!(night((0, 97)), [1.0, 1.0, 1.0]); // goes on beyond the horizon
        assert_eq!(night((5, 5)), [0.0, 0.0, 0.0]);
        let two = certain(&[(0, 40), (20, 40)]);
        assert_eq!(two.nights_where(&[(0, 1), (1, 1)], |n| n >= 2), [1.0, 0.0, 0.0]);
        assert_eq!(two.nights_where(&[(0, 1), (1, 1)], |n| n == 0), [0.0, 1.0, 1.0]);
    }

    #[test]
    fn the_last_one_done_is_the_end() {
        let schedule = certain(&[(0, 8), (4, 12)]);
        assert_eq!(schedule.done(set(&[0, 1])).p50_p90(), [Some(12), Some(12)]);
        assert_eq!(schedule.done(Set::NONE).quantile(0.5), Some(0));
        assert_eq!(schedule.start(1).quantile(0.5), Some(4));
    }
}
