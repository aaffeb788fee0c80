//! How far the levels and the stub may lie from where the chain puts them, source by source.
//!
//! A source that enters both the stub and the levels, as the new floor does where the old counter stays, is added up
//! with its signs and cancels. Two bowls share counter, trap and stub, so that their chances are not independent:
//! the chance that either lies beyond is integrated over what they share.

use alloc::vec::Vec;

use survey::Phrase;

use crate::normal::chance_over;
use crate::tolerance::Budget;

/// One standard deviation of every term, inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Sigmas {
    /// Counter height.
    pub counter: f64,
    /// Offset from counter to bowl plane.
    pub thick: f64,
    /// Bowl depth.
    pub depth: f64,
    /// Shell.
    pub shell: f64,
    /// Drop to the connection.
    pub connection: f64,
    /// Trap drop.
    pub trap: f64,
    /// Fall over the run (slope times the run's own σ, over 12).
    pub fall: f64,
    /// Stub reading.
    pub stub: f64,
}

impl Sigmas {
    /// σ of the margin below STUB_MAX, and used for STUB_ABS too: the root of the sum of squares.
    pub fn margin(&self) -> f64 {
        self.common()
            .with(Phrase("trade-shell"), -1.0, self.shell)
            .with(Phrase("trade-connection-drop"), -1.0, self.connection)
            .with(Phrase("trade-trap-drop"), -1.0, self.trap)
            .sigma()
    }
    /// σ of the margin above STUB_MIN_CODE, which hangs on neither shell, connection nor trap drop.
    pub fn low_margin(&self) -> f64 {
        self.common().sigma()
    }
    fn common(&self) -> Budget {
        Budget::new()
            .with(Phrase("trade-counter"), 1.0, self.counter)
            .with(Phrase("trade-offset"), -1.0, self.thick)
            .with(Phrase("trade-bowl-depth"), -1.0, self.depth)
            .with(Phrase("trade-fall-2"), -1.0, self.fall)
            .with(Phrase("trade-stub"), -1.0, self.stub)
    }
}

/// Probabilities that the stub lies beyond its limits, given the spread of everything measured and assumed.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Odds {
    /// σ of the margin, inches.
    pub sigma: f64,
    /// P(stub above the highest practical): plan to move it.
    pub over_practical: f64,
    /// P(stub above what any allowed trap reaches): it must move.
    pub over_absolute: f64,
}

/// Φ((stub − limit)/σ) for both upper limits, errors independent and normal.
pub fn odds(stub: f64, stub_max: f64, stub_abs: f64, sigmas: &Sigmas) -> Odds {
    let sigma = sigmas.margin();
    Odds {
        sigma,
        over_practical: chance_over(stub, stub_max, sigma),
        over_absolute: chance_over(stub, stub_abs, sigma),
    }
}

/// One source of error: its σ, and by how much each height moves for one inch of it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Part {
    /// Name; the same name is the same error.
    pub(super) source: Phrase,
    /// σ, inches.
    pub(super) sigma: f64,
    /// Of the highest practical stub.
    pub(super) high: f64,
    /// Of the lowest stub by the outlet-to-weir limit.
    pub(super) low: f64,
    /// Of the stub that is there.
    pub(super) stub: f64,
}

impl Part {
    fn over(&self) -> f64 {
        self.stub - self.high
    }
    fn under(&self) -> f64 {
        self.low - self.stub
    }
}

/// Sources by bowl.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Spread {
    /// Of the first bowl.
    pub(super) first: Vec<Part>,
    /// Of the second, where there is one.
    pub(super) second: Option<Vec<Part>>,
}

fn budget<'a>(parts: impl Iterator<Item = &'a Part>, moved: fn(&Part) -> f64) -> Budget {
    let mut out = Budget::new();
    for part in parts {
        out.add(part.source, moved(part), part.sigma);
    }
    out
}

impl Spread {
    fn of_bowl(&self, second: bool) -> &[Part] {
        match &self.second {
            Some(parts) if second => parts,
            _ => &self.first,
        }
    }
    /// Errors of the stub less a bowl's highest practical one.
    pub(super) fn over(&self, second: bool) -> Budget {
        budget(self.of_bowl(second).iter(), Part::over)
    }
    /// Errors of a bowl's lowest stub less the stub.
    pub(super) fn under(&self, second: bool) -> Budget {
        budget(self.of_bowl(second).iter(), Part::under)
    }
    /// σ of the stub alone.
    pub(super) fn stub_sigma(&self) -> f64 {
        budget(self.first.iter(), |p| p.stub).sigma()
    }
    /// σ of a bowl's highest practical stub alone.
    pub(super) fn high_sigma(&self, second: bool) -> f64 {
        budget(self.of_bowl(second).iter(), |p| p.high).sigma()
    }
    /// P(stub above a limit of the first bowl, or of the second); `excess` is the stub less each limit.
    pub(super) fn chance_over(&self, excess: [f64; 2]) -> f64 {
        self.chance(excess, Part::over)
    }
    /// P(stub below a limit of the first bowl, or of the second); `lack` is each limit less the stub.
    pub(super) fn chance_under(&self, lack: [f64; 2]) -> f64 {
        self.chance(lack, Part::under)
    }
    fn chance(&self, by: [f64; 2], moved: fn(&Part) -> f64) -> f64 {
        let Some(second) = &self.second else {
            return budget(self.first.iter(), moved).chance_over(by[0], 0.0);
        };
        let within = |parts: &[Part], p: &Part| parts.iter().any(|q| q.source == p.source);
        let shared = budget(self.first.iter().filter(|p| within(second, p)), moved).sigma();
        let first = budget(self.first.iter().filter(|p| !within(second, p)), moved).sigma();
        let other = budget(second.iter().filter(|p| !within(&self.first, p)), moved).sigma();
        either(shared, (by[0], first), (by[1], other))
    }
}

/// Steps of the integral: the width of one is far under any σ of a bowl over the σ shared.
const STEPS: u32 = 2000;
/// Standard deviations integrated to either side: beyond lies less than 1e-16.
const REACH: f64 = 8.5;

/// P(a > 0 or b > 0) of two normal sums with a common normal part of σ `shared`; each is its mean and its own σ.
/// Given the common part the two are independent: trapezoids over it, all weights positive, so that a growing mean
/// never lowers the answer.
fn either(shared: f64, a: (f64, f64), b: (f64, f64)) -> f64 {
    let whole = |(mean, own): (f64, f64)| chance_over(mean, 0.0, libm::hypot(shared, own));
    let (alone_a, alone_b) = (whole(a), whole(b));
    let (mut sum, mut weights) = (0.0, 0.0);
    for step in 0..=STEPS {
        let x = REACH * (2.0 * f64::from(step) / f64::from(STEPS) - 1.0);
        let weight = libm::exp(-0.5 * x * x);
        let given = |(mean, own): (f64, f64)| chance_over(mean + shared * x, 0.0, own);
        let (given_a, given_b) = (given(a), given(b));
        sum += weight * (given_a + given_b * (1.0 - given_a));
        weights += weight;
    }
    let least = libm::fmax(alone_a, alone_b);
    libm::fmin(libm::fmax(sum / weights, least), libm::fmin(alone_a + alone_b, 1.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_independent_chances_join_as_such_and_one_common_cause_is_counted_once() {
        let p = chance_over(-0.3, 0.0, 0.4);
        let q = chance_over(-0.1, 0.0, 0.2);
        assert!((either(0.0, (-0.3, 0.4), (-0.1, 0.2)) - (p + q - p * q)).abs() < 1e-12);
        // Nearly all in common: the nearer of the two decides.
        let near = either(0.5, (-0.2, 1e-2), (-0.4, 1e-2));
        assert!((near - chance_over(-0.2, 0.0, libm::hypot(0.5, 1e-2))).abs() < 1e-4, "{near}");
    }

    #[test]
    fn equal_halves_in_common_give_the_orthant_of_a_bivariate_normal() {
        // Sheppard 1899: P(both under 0) = 1/4 + asin(r)/(2π); with r = 1/2 that is 1/3, so either is over in 2/3.
        let got = either(1.0, (0.0, 1.0), (0.0, 1.0));
        assert!((got - 2.0 / 3.0).abs() < 1e-9, "{got}");
    }
}
