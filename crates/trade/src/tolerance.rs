//! Spread of a result from the tolerances of what went in.
//!
//! "±x" is read as two standard deviations. Errors are taken as normal and independent by source; a source that
//! enters a result twice, such as the new floor under both counter and stub, is added up with its signs first and
//! squared once, so that what cancels on site cancels here.

use alloc::vec::Vec;

use survey::Said;
use survey::units::Length;

use crate::normal::chance_over;

/// Grid of a tape read to 1/16 in, as a standard deviation in inches (uniform over one step).
pub const GRID_SIGMA: f64 = 0.0625 / 3.464_101_615_137_754_6;

/// A measured length with its tolerance.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Reading {
    /// The length.
    pub value: Length,
    /// Plus or minus this: two standard deviations. None if nobody said.
    pub tolerance: Option<Length>,
}

impl Reading {
    /// Without a stated tolerance.
    pub const fn plain(value: Length) -> Self {
        Self { value, tolerance: None }
    }
    /// Inches.
    pub fn inches(&self) -> f64 {
        self.value.inches()
    }
    /// σ in inches: half the tolerance, never under the grid of a tape; or `unstated`, as it stands.
    pub fn sigma(&self, unstated: f64) -> f64 {
        self.tolerance.map_or(unstated, |t| libm::fmax(t.abs().inches() / 2.0, GRID_SIGMA))
    }
}

/// Errors of a result by source: first-order (delta method), exact where the result is linear.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Budget {
    terms: Vec<(Said, f64)>,
}

impl Budget {
    /// Empty.
    pub const fn new() -> Self {
        Self { terms: Vec::new() }
    }
    /// Adds a term: the source's name, by how much the result moves for one unit of it, and its σ in that unit.
    /// Terms of one source add up with their signs before they are squared.
    pub fn add(&mut self, source: impl Into<Said>, per_unit: f64, sigma: f64) {
        let (source, moved) = (source.into(), per_unit * sigma);
        match self.terms.iter_mut().find(|(name, _)| *name == source) {
            Some((_, sum)) => *sum += moved,
            None => self.terms.push((source, moved)),
        }
    }
    /// The same with a term more.
    #[must_use]
    pub fn with(mut self, source: impl Into<Said>, per_unit: f64, sigma: f64) -> Self {
        self.add(source, per_unit, sigma);
        self
    }
    /// σ of the result: the root of the sum of squares over sources.
    pub fn sigma(&self) -> f64 {
        libm::sqrt(self.terms.iter().map(|(_, t)| t * t).sum())
    }
    /// P(result over a limit), the result being normal about `value`.
    pub fn chance_over(&self, value: f64, limit: f64) -> f64 {
        chance_over(value, limit, self.sigma())
    }
    /// P(result under a limit).
    pub fn chance_under(&self, value: f64, limit: f64) -> f64 {
        chance_over(-value, -limit, self.sigma())
    }
    /// Sources with the σ each brings, in the unit of the result, widest first.
    pub fn sources(&self) -> Vec<(&Said, f64)> {
        let mut out: Vec<(&Said, f64)> = self.terms.iter().map(|(n, t)| (n, libm::fabs(*t))).collect();
        out.sort_by(|a, b| b.1.total_cmp(&a.1));
        out
    }
}

#[cfg(test)]
mod tests {
    use survey::Phrase;

    use super::*;

    #[test]
    fn a_shared_source_cancels_or_doubles_before_it_is_squared() {
        let opposed =
            Budget::new().with(Phrase("new-floor"), 1.0, 0.25).with(Phrase("new-floor"), -1.0, 0.25);
        assert_eq!(opposed.sigma(), 0.0);
        let same = Budget::new().with(Phrase("new-floor"), 1.0, 0.25).with(Phrase("new-floor"), 1.0, 0.25);
        assert_eq!(same.sigma(), 0.5);
        let apart = Budget::new().with(Phrase("counter"), 1.0, 0.3).with(Phrase("stub"), -1.0, 0.4);
        assert_eq!(apart.sigma(), 0.5); // 3, 4, 5
        assert_eq!(*apart.sources()[0].0, Said::from(Phrase("stub")));
    }

    #[test]
    fn plus_or_minus_is_two_sigma_and_a_tape_has_a_grid() {
        let reading = Reading { value: Length::ZERO, tolerance: Length::from_inches(0.5) };
        assert_eq!(reading.sigma(9.0), 0.25);
        assert_eq!(Reading::plain(Length::ZERO).sigma(0.125), 0.125);
        assert_eq!(Reading { tolerance: Some(Length::ZERO), ..reading }.sigma(9.0), GRID_SIGMA);
    }
}
