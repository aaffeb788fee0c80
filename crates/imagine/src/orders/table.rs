//! Many houses together: means, shares and skills with their standard errors.

use std::fmt::Write as _;

use super::{AFTER, HouseRuns, Order};

/// A ratio of two sums over houses with its standard error (first order, houses independent).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Ratio {
    /// The ratio.
    pub value: f64,
    /// Its standard error.
    pub error: f64,
}

impl Ratio {
    /// Σ a / Σ b over pairs (a, b).
    pub fn of(pairs: &[(f64, f64)]) -> Self {
        let n = pairs.len() as f64;
        let (a, b) = pairs.iter().fold((0.0, 0.0), |(a, b), pair| (a + pair.0, b + pair.1));
        if b == 0.0 || n < 2.0 {
            return Self::default();
        }
        let value = a / b;
        let squares: f64 = pairs.iter().map(|(a, b)| (a - value * b) * (a - value * b)).sum();
        Self { value, error: libm::sqrt(squares * n / (n - 1.0)) / libm::fabs(b) }
    }
}

/// One line for each order.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Houses.
    pub houses: usize,
    /// By order: mean number of items asked in the house; by point of [`AFTER`] and at the end the share of the value of
    /// all answers and the Brier skill against plan and year alone.
    pub lines: Vec<(Order, Ratio, Vec<Ratio>, Vec<Ratio>)>,
}

impl Table {
    /// Sums up.
    pub fn of(all: &[HouseRuns]) -> Self {
        let line = |(k, order): (usize, &Order)| {
            let each =
                |of: &dyn Fn(&HouseRuns) -> (f64, f64)| Ratio::of(&all.iter().map(of).collect::<Vec<_>>());
            let asked = each(&|h| (h.runs[k].asked as f64, 1.0));
            let points = 0..=AFTER.len();
            let share = |i: usize| {
                each(&|h| {
                    let run = &h.runs[k].scores;
                    (run[0].lost - run[i].lost, run[0].lost - h.all.lost)
                })
            };
            let skill = |i: usize| {
                let miss = each(&|h| (h.runs[k].scores[i].brier, h.base.brier));
                Ratio { value: 1.0 - miss.value, error: miss.error }
            };
            (*order, asked, points.clone().map(share).collect(), points.map(skill).collect())
        };
        Self { houses: all.len(), lines: Order::ALL.iter().enumerate().map(line).collect() }
    }

    /// As a page in Markdown: one table for the share of the value, one for the skill.
    pub fn markdown(&self) -> String {
        let mut out = String::new();
        let mut head = String::from("| order | items asked |");
        AFTER.iter().skip(1).for_each(|n| {
            let _ = write!(head, " after {n} |");
        });
        head.push_str(" at the end |\n| --- |");
        (0..=AFTER.len()).for_each(|_| head.push_str(" ---: |"));
        for (title, percent) in
            [("Share of the value of all answers, in 100", true), ("Brier skill, in 100", false)]
        {
            let _ = writeln!(out, "{title}:\n\n{head}");
            for (order, asked, share, skill) in &self.lines {
                let _ = write!(out, "| {} | {:.1} ± {:.1} |", order.name(), asked.value, asked.error);
                for r in (if percent { share } else { skill }).iter().skip(1) {
                    let _ = write!(out, " {:.0} ± {:.1} |", 100.0 * r.value, 100.0 * r.error);
                }
                out.push('\n');
            }
            out.push('\n');
        }
        out
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_error_of_a_mean_is_the_usual_one() {
        // Worked by hand: mean 3, sample variance 5, n = 4.
        let got = Ratio::of(&[(1.0, 1.0), (2.0, 1.0), (3.0, 1.0), (6.0, 1.0)]);
        assert_eq!(got.value, 3.0);
        assert!((got.error - (14.0f64 / 3.0 / 4.0).sqrt()).abs() < 1e-12, "{got:?}");
        assert_eq!(Ratio::of(&[]), Ratio::default());
    }
}
