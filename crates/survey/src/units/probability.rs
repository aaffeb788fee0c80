//! Probabilities as a checked newtype.

use serde::{Deserialize, Serialize};

/// A finite number in [0, 1].
#[derive(Clone, Copy, PartialEq, PartialOrd, Debug, Serialize, Deserialize)]
#[serde(try_from = "f64", into = "f64")]
pub struct Probability(f64);

/// A number outside [0, 1].
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{0} is not a probability; it must lie between 0 and 1")]
pub struct ProbabilityError(pub f64);

impl Probability {
    /// Checks the range; −0 becomes 0.
    pub fn new(value: f64) -> Result<Self, ProbabilityError> {
        if (0.0..=1.0).contains(&value) { Ok(Self(value + 0.0)) } else { Err(ProbabilityError(value)) }
    }
    /// The number.
    pub fn get(self) -> f64 {
        self.0
    }
    /// The odds p / (1 − p); infinite at 1.
    pub fn odds(self) -> f64 {
        self.0 / (1.0 - self.0)
    }
}

impl TryFrom<f64> for Probability {
    type Error = ProbabilityError;
    fn try_from(value: f64) -> Result<Self, ProbabilityError> {
        Self::new(value)
    }
}
impl From<Probability> for f64 {
    fn from(p: Probability) -> f64 {
        p.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_numbers_between_zero_and_one_pass() {
        assert!(Probability::new(0.0).is_ok() && Probability::new(1.0).is_ok());
        for bad in [-0.001, 1.000_001, f64::NAN, f64::INFINITY] {
            assert!(Probability::new(bad).is_err(), "{bad}");
        }
    }
}
