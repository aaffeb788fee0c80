//! Room left of something held, with its errors by source, and the chance that either of two rooms is short. Two rooms
//! may hang on one reading: a flat vent that lies higher gains over the rim what it loses under a sill.

use alloc::vec::Vec;

use survey::Phrase;

use crate::normal::{chance_over, phi};

/// Room left, inches, and by how much one σ of each source moves it.
#[derive(Clone, PartialEq, Debug)]
pub(crate) struct Margin {
    mean: f64,
    moved: Vec<(Phrase, f64)>,
}

impl Margin {
    /// Room without errors.
    pub(crate) const fn new(mean: f64) -> Self {
        Self { mean, moved: Vec::new() }
    }
    /// The same errors about another room.
    #[must_use]
    pub(crate) fn about(self, mean: f64) -> Self {
        Self { mean, ..self }
    }
    /// Adds a source: by how much the room moves for one inch of it, and its σ. The same source adds up with its signs.
    pub(crate) fn add(&mut self, source: Phrase, per_inch: f64, sigma: f64) {
        match self.moved.iter_mut().find(|(name, _)| *name == source) {
            Some((_, sum)) => *sum += per_inch * sigma,
            None => self.moved.push((source, per_inch * sigma)),
        }
    }
    /// The same with a source more.
    #[must_use]
    pub(crate) fn with(mut self, source: Phrase, per_inch: f64, sigma: f64) -> Self {
        self.add(source, per_inch, sigma);
        self
    }
    /// σ of the room.
    pub(crate) fn sigma(&self) -> f64 {
        libm::sqrt(self.moved.iter().map(|(_, m)| m * m).sum())
    }
    /// Chance that the room is short, were it larger by some inches.
    pub(crate) fn chance_short(&self, more: f64) -> f64 {
        chance_over(0.0, self.mean + more, self.sigma())
    }
    fn correlation(&self, other: &Self) -> f64 {
        let of =
            |source: Phrase| other.moved.iter().find(|(name, _)| *name == source).map_or(0.0, |(_, m)| *m);
        let shared: f64 = self.moved.iter().map(|(name, m)| m * of(*name)).sum();
        let both = self.sigma() * other.sigma();
        if both > 0.0 { (shared / both).clamp(-1.0, 1.0) } else { 0.0 }
    }
}

/// Steps of the integral, and standard deviations integrated to: beyond lies less than 1e-16.
const STEPS: u32 = 4000;
const REACH: f64 = 8.5;

/// Chance that either room is short: the first, or the second where the first is not. Trapezoids over the first one's
/// error, beyond which the second is normal again.
pub(crate) fn either_short(first: &Margin, second: &Margin) -> f64 {
    let (one, two) = (first.chance_short(0.0), second.chance_short(0.0));
    let (sigma, other) = (first.sigma(), second.sigma());
    let (least, most) = (libm::fmax(one, two), libm::fmin(one + two, 1.0));
    if sigma <= 0.0 || other <= 0.0 {
        return libm::fmin(libm::fmax(one + two - one * two, least), most);
    }
    let r = first.correlation(second);
    let left = libm::sqrt(1.0 - r * r);
    let (short, other_short) = (-first.mean / sigma, -second.mean / other);
    let from = libm::fmax(short, -REACH);
    let width = (REACH - from) / f64::from(STEPS);
    let mut sum = 0.0;
    if width > 0.0 {
        for step in 0..=STEPS {
            let x = from + width * f64::from(step);
            let end = if step == 0 || step == STEPS { 0.5 } else { 1.0 };
            sum += end * libm::exp(-0.5 * x * x) * chance_over(other_short, r * x, left);
        }
    }
    let rest = sum * width / libm::sqrt(2.0 * core::f64::consts::PI);
    libm::fmin(libm::fmax(phi(short) + rest, least), most)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rooms_read_apart_join_as_independent_ones() {
        let (a, b) =
            (Margin::new(0.3).with(Phrase("a"), 1.0, 0.4), Margin::new(-0.1).with(Phrase("b"), 1.0, 0.2));
        let (p, q) = (a.chance_short(0.0), b.chance_short(0.0));
        assert!((either_short(&a, &b) - (p + q - p * q)).abs() < 1e-6);
        assert_eq!(either_short(&Margin::new(1.0), &Margin::new(-1.0)), 1.0);
    }

    #[test]
    fn equal_halves_in_common_give_the_orthant_of_a_bivariate_normal() {
        // Sheppard 1899: P(both over 0) = 1/4 + asin(r)/(2π); with r = ±1/2 that is 1/3 and 1/6
        let room = |own, shared| Margin::new(0.0).with(own, 1.0, 1.0).with(Phrase("shared"), shared, 1.0);
        for (sign, expected) in [(1.0, 2.0 / 3.0), (-1.0, 5.0 / 6.0)] {
            let got = either_short(&room(Phrase("a"), 1.0), &room(Phrase("b"), sign));
            assert!((got - expected).abs() < 1e-6, "{sign}: {got}");
        }
    }

    #[test]
    fn one_reading_that_gives_here_what_it_takes_there_leaves_no_way_out() {
        let vent = |mean, sign| Margin::new(mean).with(Phrase("flat vent"), sign, 0.25);
        let (over_rim, under_sill) = (vent(0.1, 1.0), vent(0.1, -1.0));
        let sum = over_rim.chance_short(0.0) + under_sill.chance_short(0.0);
        assert!((either_short(&over_rim, &under_sill) - sum).abs() < 1e-3);
        let same = either_short(&vent(0.1, 1.0), &vent(0.2, 1.0));
        assert!((same - vent(0.1, 1.0).chance_short(0.0)).abs() < 1e-3);
    }
}
