//! A window over the sink: a riser below it has to turn aside under the framing of the sill, and may not do that
//! lower than the six-inch rule lets it. Plain geometry; outside diameters from memory.

use alloc::{format, string::String};

use survey::catalog::Mark;

use crate::error::TradeError;
use crate::sheet::Limit;

/// Outside diameters of plastic drain pipe by nominal size, inches: IPS sizes, ASTM D2661 (ABS) and D2665 (PVC); 1-1/4
/// from steel pipe of the same outside size. From memory.
const OUTSIDE: [(&str, f64); 6] =
    [("1-1/4", 1.66), ("1-1/2", 1.9), ("2", 2.375), ("2-1/2", 2.875), ("3", 3.5), ("4", 4.5)];

/// Sizes whose outside is known.
pub const SIZES: &[&str] = &["1-1/4", "1-1/2", "2", "2-1/2", "3", "4"];

/// Depth of sill and framing under the height of a window sill, inches: common practice, no source. A rough sill of
/// one flat 2x4, the stool over it, and shims.
pub const SILL_FRAMING: f64 = 3.0;
/// σ of that depth where it was not measured, inches: common practice, no source.
pub const SILL_FRAMING_SIGMA: f64 = 0.5;

/// Outside diameter of a nominal size in inches, and the limit to show.
///
/// # Errors
/// A size that is not listed.
pub fn outside(size: &str) -> Result<(f64, Limit), TradeError> {
    let found = OUTSIDE.iter().find(|(name, _)| *name == size);
    let (_, inches) = found.ok_or_else(|| TradeError::NoWord {
        what: "pipe size",
        value: size.chars().take(60).collect::<String>(),
        known: SIZES.join(", "),
    })?;
    let limit = Limit {
        rule: "Outside diameter of plastic drain pipe".into(),
        value: format!("{size}: {inches} in"),
        document: "ASTM D2661 (ABS), ASTM D2665 (PVC)".into(),
        edition: String::new(),
        clause: "IPS outside diameters".into(),
        mark: Mark::Memory,
    };
    Ok((*inches, limit))
}

/// Room left between the top of a flat vent and the framing under a sill, inches; negative where it does not pass.
/// `lowest` is the underside of the flat vent, all heights above one floor.
pub fn room(sill: f64, framing: f64, outside: f64, lowest: f64) -> f64 {
    sill - framing - outside - lowest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_usual_window_over_a_usual_sink_blocks_the_riser() {
        // rim 36: the flat vent lies at 42 or higher, its top at 43.9; a sill at 44 with 3 in of framing leaves 41
        let (pipe, _) = outside("1-1/2").unwrap();
        assert!((room(44.0, SILL_FRAMING, pipe, 42.0) - (41.0 - 43.9)).abs() < 1e-12);
        assert!(room(47.0, SILL_FRAMING, pipe, 42.0) > 0.0);
        assert!(outside("5").is_err());
        assert!(SIZES.iter().zip(OUTSIDE).all(|(a, (b, _))| *a == b));
    }
}
