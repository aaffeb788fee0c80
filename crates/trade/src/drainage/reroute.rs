//! A riser that moves sideways passes studs. Plain geometry: common practice, no source.

use survey::Phrase;

use crate::error::TradeError;

/// Longest sideways way taken, inches: 100 ft.
pub const LONGEST_WAY: f64 = 1200.0;

/// Fewest and most studs that a sideways way passes when it starts anywhere in a bay, both lengths in inches. On
/// average it passes way ÷ spacing.
///
/// # Errors
/// A way that is negative or over 100 ft, or a spacing outside 6 to 48 in.
pub fn studs_passed(way: f64, spacing: f64) -> Result<(u32, u32), TradeError> {
    for (what, value, low, high) in [
        (Phrase("trade-sideways-way"), way, 0.0, LONGEST_WAY),
        (Phrase("trade-stud-spacing"), spacing, 6.0, 48.0),
    ] {
        if !(low..=high).contains(&value) {
            return Err(TradeError::OutOfRange { what, value, low, high, unit: "in" });
        }
    }
    let hair = 1e-9; // studs; keeps a whole number of bays whole
    let bays = way / spacing;
    Ok((libm::floor(bays + hair) as u32, libm::ceil(bays - hair).max(0.0) as u32))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_way_of_whole_bays_passes_as_many_studs() {
        for (way, spacing, studs) in [
            (0.0, 16.0, (0, 0)),
            (10.0, 16.0, (0, 1)),
            (32.0, 16.0, (2, 2)),
            (40.0, 16.0, (2, 3)),
            (40.0, 24.0, (1, 2)),
        ] {
            assert_eq!(studs_passed(way, spacing).unwrap(), studs);
        }
        assert!(studs_passed(-1.0, 16.0).is_err() && studs_passed(1.0, 0.0).is_err());
    }
}
