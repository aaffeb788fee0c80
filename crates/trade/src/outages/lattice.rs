//! Evenly spread courses of the work: in each, every task takes one time, and over all of them every task takes each
//! of its times as often as it should, together with every time of the others.
//!
//! The courses are the points of a rank-1 lattice (Sloan and Joe, Lattice Methods for Multiple Integration, 1994): in
//! course i task j stands at ((i·z_j mod n) + ½)/n of its distribution. The steps z_j are found component by
//! component (Sloan and Reztsov 2002; Nuyens and Cools 2006) by `tests/vectors/trade/make_outages_lattice.py`. Nothing
//! is random: the same plan has the same courses everywhere.

/// Courses looked at: a prime, so that every task takes each of its places once.
pub const COURSES: usize = 65_521;

/// Step of each task.
pub const STEPS: [usize; 60] = [
    1, 18303, 27193, 5117, 12496, 8271, 31553, 13132, 8540, 14637, 23941, 6990, 25108, 2646, 12031, 1921,
    7019, 2713, 11108, 6825, 4289, 3317, 14728, 7283, 28882, 17121, 20797, 25006, 4487, 21352, 27544, 23495,
    19348, 30729, 20200, 20356, 29831, 31033, 14554, 24693, 25708, 17412, 11958, 29507, 3696, 405, 27325,
    24974, 17014, 8379, 29279, 15080, 16523, 9564, 26432, 18880, 5938, 13166, 6676, 8970,
];

/// The place of a task's time among its [`COURSES`] equally likely ones, in one course.
pub fn place(course: usize, task: usize) -> usize {
    (course * STEPS.get(task).copied().unwrap_or(1)) % COURSES
}

#[cfg(test)]
mod tests {
    use alloc::vec;

    use super::*;

    #[test]
    fn every_task_takes_each_place_once() {
        for task in [0, 1, 59] {
            let mut seen = vec![false; COURSES];
            (0..COURSES).for_each(|course| seen[place(course, task)] = true);
            assert!(seen.iter().all(|s| *s));
        }
    }

    #[test]
    fn two_tasks_take_their_places_independently() {
        // A tenth and a quarter of the places of two tasks meet in a fortieth of the courses.
        let both = |a: usize, b: usize| {
            let meet = (0..COURSES).filter(|c| place(*c, a) < COURSES / 10 && place(*c, b) < COURSES / 4);
            meet.count() as f64 / COURSES as f64
        };
        for a in 0..60 {
            for b in (0..a).filter(|b| (a + b) % 7 == 0) {
                assert!((both(a, b) - 0.025).abs() < 1e-3, "{a}, {b}: {}", both(a, b));
            }
        }
    }
}
