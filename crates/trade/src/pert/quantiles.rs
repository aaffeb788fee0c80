//! The quantiles of one PERT shape laid out for drawing: a table instead of a search.
//!
//! What a probability u maps to is a power of u near both ends and smooth between, so each half of (0, 1) is cut into
//! octaves of the distance v to its end, each octave into equal cells, and in each cell the quantile is the cubic that
//! has its value and its slope at both sides (the slope of a quantile is 1/density). For a power v^p the fourth
//! derivative bounds the error by p(1−p)(2−p)(3−p)/384·(1/4)⁴ of the value, below 1e-5; a test holds it to 1e-5 of the
//! range for every shape. A cell is found from the bits of v alone, without a search and without branches.
//!
//! The nodes are solved by Halley's method on the power series of the incomplete beta function (NIST Digital Library of
//! Mathematical Functions, 8.17.7).

use alloc::boxed::Box;

use super::Pert;

/// Octaves below one half that have cells; what lies further out, one draw in 4,096, is solved.
const OCTAVES: usize = 12;
/// Cells of an octave: two to this power.
const SPLIT: u32 = 2;
/// Cells of a half.
const CELLS: usize = OCTAVES << SPLIT;
/// Bits of a double below the ones that name the cell.
const INSIDE: u32 = 52 - SPLIT;
/// The smallest distance to an end that has a cell, 2^−(OCTAVES + 1).
const LEAST: f64 = 1.0 / (1u64 << (OCTAVES + 1)) as f64;
/// The largest double below one half.
const BELOW_HALF: f64 = 0.5 - f64::EPSILON / 4.0;
/// Terms of the power series: at most one half to this power is left.
const TERMS: usize = 32;

/// Places in the range, 0 at the low value and 1 at the high one, by probability. Two estimates with the same
/// (likely − low)/(high − low) have the same table.
#[derive(Clone, Debug)]
pub struct Quantiles {
    /// Polynomials of the lower half, then of the upper half mirrored, lowest power first, in the place within a cell.
    /// Single precision, a ten-millionth of the range, because the tables of a house should stay in a near cache.
    cells: Box<[[f32; 4]; 2 * CELLS]>,
    halves: Box<[Half; 2]>,
}

impl Quantiles {
    /// The table of an estimate's shape.
    pub fn of(pert: &Pert) -> Self {
        let (a, b) = (pert.alpha(), pert.beta());
        let halves = Box::new([Half::new(a, b), Half::new(b, a)]);
        let mut cells = Box::new([[0.0; 4]; 2 * CELLS]);
        for (which, half) in halves.iter().enumerate() {
            half.lay(|k, [value, slope, next, next_slope]| {
                // Hermite's cubic over one cell; the upper half counts from the high end.
                let rise = next - value;
                let mut cell =
                    [value, slope, 3.0 * rise - 2.0 * slope - next_slope, slope + next_slope - 2.0 * rise];
                if which == 1 {
                    cell = cell.map(|c| -c);
                    cell[0] += 1.0;
                }
                cells[which * CELLS + k] = cell.map(|c| c as f32);
            });
        }
        Self { cells, halves }
    }

    /// Where in the range the quantile of `u` lies, 0 to 1, for u in 0 to 1.
    #[inline]
    pub fn at(&self, u: f64) -> f64 {
        let upper = usize::from(u >= 0.5);
        let v = if upper == 1 { 1.0 - u } else { u };
        let v = if v > BELOW_HALF { BELOW_HALF } else { v };
        if v < LEAST {
            return self.beyond(upper, v);
        }
        let bits = v.to_bits();
        let cell = (bits >> INSIDE) as usize - (LEAST.to_bits() >> INSIDE) as usize;
        let t = (bits & ((1 << INSIDE) - 1)) as f32 * (1.0 / (1u64 << INSIDE) as f32);
        let [a, b, c, d] = self.cells[upper * CELLS + cell];
        f64::from(a + t * (b + t * (c + t * d)))
    }

    #[cold]
    fn beyond(&self, upper: usize, v: f64) -> f64 {
        let half = &self.halves[upper];
        let (place, _) = half.solve(v, half.power_law(v));
        if upper == 1 { 1.0 - place } else { place }
    }
}

/// A beta distribution seen from its lower end.
#[derive(Clone, Debug)]
struct Half {
    a: f64,
    b: f64,
    /// 1 / B(a, b).
    scale: f64,
    /// Coefficients of the power series from this end and from the other.
    series: [[f64; TERMS]; 2],
}

impl Half {
    fn new(a: f64, b: f64) -> Self {
        let scale = libm::exp(libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b));
        Self { a, b, scale, series: [series(a, b), series(b, a)] }
    }

    /// P(X ≤ x) by the series from the nearer end, and the density there.
    fn at(&self, x: f64) -> (f64, f64) {
        let y = 1.0 - x;
        let (ln_x, ln_y) = (libm::log(x), libm::log(y));
        let density = self.scale * libm::exp((self.a - 1.0) * ln_x + (self.b - 1.0) * ln_y);
        // xᵃ is what the density has of it, times x and without (1 − x)ᵇ⁻¹.
        let below = |x: f64, power: f64, series: &[f64; TERMS]| {
            // The next term left out is below 2⁻³² of the sum.
            let terms = if x < 0.0625 {
                8
            } else if x < 0.25 {
                16
            } else {
                TERMS
            };
            self.scale * libm::exp(power) * series[..terms].iter().rev().fold(0.0, |sum, c| sum * x + c)
        };
        let cdf = if x <= 0.5 {
            below(x, self.a * ln_x, &self.series[0])
        } else {
            1.0 - below(y, self.b * ln_y, &self.series[1])
        };
        (cdf, density)
    }

    /// The quantile of a small `v`: near the end the distribution is x^a / (a·B(a, b)).
    fn power_law(&self, v: f64) -> f64 {
        libm::fmin(libm::pow(v * self.a / self.scale, 1.0 / self.a), 0.999)
    }

    /// How the logarithm of the density bends at x: its derivative.
    fn bend(&self, x: f64) -> f64 {
        (self.a - 1.0) / x - (self.b - 1.0) / (1.0 - x)
    }

    /// The quantile of `v` from a guess, and the density there, by Halley's method, which cubes a small error.
    fn solve(&self, v: f64, guess: f64) -> (f64, f64) {
        if v <= 0.0 {
            return (0.0, 1.0);
        }
        let mut x = guess;
        for _ in 0..20 {
            let (cdf, density) = self.at(x);
            let newton = (cdf - v) / density;
            let bend = self.bend(x);
            let step = newton / libm::fmax(1.0 - 0.5 * newton * bend, 0.5);
            let next = x - step;
            if libm::fabs(step) <= 3e-3 * libm::fmin(next, 1.0 - next) {
                return (next, density * (1.0 - bend * step));
            }
            // A step past an end goes half way to it.
            x = if next <= 0.0 {
                0.5 * x
            } else if next >= 1.0 {
                0.5 * (x + 1.0)
            } else {
                next
            };
        }
        (x, self.at(x).1)
    }

    /// Hands out value and slope, in cells, at both sides of each cell.
    fn lay(&self, mut each: impl FnMut(usize, [f64; 4])) {
        let node = |k: usize| {
            let whole = (k >> SPLIT) as i32 - OCTAVES as i32 - 1;
            let part = (k & ((1 << SPLIT) - 1)) as f64 / f64::from(1 << SPLIT);
            libm::ldexp(1.0 + part, whole)
        };
        let mut v = node(0);
        let (mut x, mut density) = self.solve(v, self.power_law(v));
        for k in 0..CELLS {
            let width = node(k + 1) - v;
            v += width;
            // Taylor's series as far as the bend is known.
            let slope = width / density;
            let guess = x + slope * (1.0 - 0.5 * slope * self.bend(x));
            let (next, density_there) = self.solve(v, libm::fmin(guess, 0.5 * (x + 1.0)));
            each(k, [x, slope, next, width / density_there]);
            (x, density) = (next, density_there);
        }
    }
}

/// Coefficients cₙ of I_x(a, b) = xᵃ/B(a, b) · Σ cₙxⁿ: (1 − b)ₙ / (n!·(a + n)).
fn series(a: f64, b: f64) -> [f64; TERMS] {
    let mut rising = 1.0;
    core::array::from_fn(|n| {
        let n = n as f64;
        let c = rising / (a + n);
        rising *= (n + 1.0 - b) / (n + 1.0);
        c
    })
}

#[cfg(test)]
mod tests {
    use alloc::vec::Vec;

    use super::*;
    use proptest::prelude::*;
    use serde_json::Value;

    /// What the table may be off, in parts of the range.
    const ALLOWED: f64 = 1e-5;

    fn unit(likely: f64) -> Pert {
        Pert::new(0.0, likely, 1.0).unwrap()
    }

    /// Quantiles by scipy's beta distribution, from both ends, out to one in a trillion and for shapes at both ends.
    #[test]
    fn quantiles_agree_with_scipy() {
        let file: Value =
            serde_json::from_str(include_str!("../../../../tests/vectors/trade/pert_quantiles.json"))
                .unwrap();
        let mut compared = 0;
        for case in file["cases"].as_array().unwrap() {
            let likely = case["likely"].as_f64().unwrap();
            let table = Quantiles::of(&unit(likely));
            for (side, mirror) in [("lower", false), ("upper", true)] {
                for pair in case[side].as_array().unwrap() {
                    let [u, x] = [0, 1].map(|i| pair[i].as_f64().unwrap());
                    let got = table.at(if mirror { 1.0 - u } else { u });
                    assert!((got - x).abs() < ALLOWED, "likely {likely}, {side} {u}: {got} {x}");
                    compared += 1;
                }
            }
        }
        assert_eq!(compared, 16 * 40);
    }

    #[test]
    fn no_shape_is_off_by_more_than_a_hundred_thousandth_of_the_range() {
        let mut worst = 0.0;
        for m in (0..=32).map(|m| f64::from(m) / 32.0) {
            let (pert, table) = (unit(m), Quantiles::of(&unit(m)));
            let even = (1..150).map(|i| f64::from(i) / 300.0);
            let tails =
                (1..36).flat_map(|octave| [1.0, 1.1, 1.26, 1.5, 1.9].map(|f| f * libm::ldexp(0.5, -octave)));
            for v in even.chain(tails) {
                for u in [v, 1.0 - v] {
                    worst = libm::fmax(worst, libm::fabs(table.at(u) - pert.quantile(u)));
                }
            }
        }
        assert!(worst < ALLOWED, "{worst}");
    }

    #[test]
    fn drawing_evenly_gives_back_mean_and_variance() {
        for m in [0.0, 0.03, 0.2, 0.5, 0.8, 1.0] {
            let (pert, table) = (unit(m), Quantiles::of(&unit(m)));
            let n = 20_000;
            let draws: Vec<f64> = (0..n).map(|i| table.at((f64::from(i) + 0.5) / f64::from(n))).collect();
            let mean = draws.iter().sum::<f64>() / f64::from(n);
            let variance = draws.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / f64::from(n);
            assert!(libm::fabs(mean - pert.mean()) < 1e-5, "{m}: {mean}");
            assert!(libm::fabs(variance - pert.variance()) < 1e-5, "{m}: {variance}");
        }
    }

    #[test]
    fn the_ends_of_the_range_are_the_ends_of_probability() {
        for m in [0.0, 0.3, 1.0] {
            let table = Quantiles::of(&unit(m));
            assert_eq!((table.at(0.0), table.at(1.0)), (0.0, 1.0));
        }
    }

    proptest! {
        /// A larger probability never lies lower, but for the last digits of single precision.
        #[test]
        fn quantiles_rise(m in 0.0..=1.0f64, u in 0.0..1.0f64, more in 0.0..0.01f64) {
            let table = Quantiles::of(&unit(m));
            let (low, high) = (table.at(u), table.at(libm::fmin(u + more, 1.0)));
            prop_assert!((0.0..=1.0).contains(&low) && (0.0..=1.0).contains(&high));
            prop_assert!(high >= low - 2e-7, "{low} {high}");
        }

        /// Place within the range is all that counts: shape does not depend on where and how wide it is.
        #[test]
        fn equal_shapes_have_equal_tables(low in 0.0..5_000.0f64, m in 1u32..64, span in 1.0..9_000.0f64, u in 0.0..1.0f64) {
            let m = f64::from(m) / 64.0;
            let wide = Pert::new(low, low + m * span, low + span).unwrap();
            prop_assert!((Quantiles::of(&wide).at(u) - Quantiles::of(&unit(m)).at(u)).abs() < 1e-6);
        }
    }
}
