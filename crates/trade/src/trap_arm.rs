//! Trap arm: the drain from the trap to its vent. Longest length by table, shortest two diameters, fall no more
//! than one diameter, so that the vent opening does not lie below the weir.
//!
//! Sources: IRC 2021 Table P3105.1 and IPC Table 909.1; California Plumbing Code 2013 (UPC 2012) Table 1002.2;
//! IRC P3105.2 and P3105.3. The plumber decides where the vent really is: it hides in the wall.

use alloc::{format, vec::Vec};

use crate::error::{TradeError, finite};
use crate::limits::Code;

/// One reason why an arm is outside the limits.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fault {
    /// Longer than the table allows.
    TooLong,
    /// Shorter than two diameters.
    TooShort,
    /// Falls more than one diameter.
    FallsTooFar,
    /// Level or falling back toward the trap.
    NoFall,
}

/// A trap arm against its limits.
#[derive(Clone, PartialEq, Debug)]
pub struct TrapArm {
    /// Total fall, inches.
    pub fall: f64,
    /// Longest by table, inches.
    pub longest: f64,
    /// Shortest, inches.
    pub shortest: f64,
    /// What is outside; empty when within the limits.
    pub faults: Vec<Fault>,
}

/// Fall over a run: slope in inches per foot, run in inches.
pub fn fall(slope_per_foot: f64, run: f64) -> f64 {
    slope_per_foot * run / 12.0
}

/// Longest trap arm in inches for a nominal diameter in inches.
pub fn longest(code: Code, diameter: f64) -> Result<f64, TradeError> {
    let diameter = finite("trap arm diameter", diameter)?;
    // IRC 2021 Table P3105.1 / IPC Table 909.1; California Plumbing Code 2013 (UPC 2012) Table 1002.2
    let rows: [(f64, f64, f64); 5] =
        [(1.25, 60.0, 30.0), (1.5, 72.0, 42.0), (2.0, 96.0, 60.0), (3.0, 144.0, 72.0), (4.0, 192.0, 120.0)];
    let row = rows.iter().find(|row| libm::fabs(row.0 - diameter) < 1e-9);
    match (row, code) {
        (Some(row), Code::Ipc) => Ok(row.1),
        (Some(row), Code::Upc) => Ok(row.2),
        (None, _) => Err(TradeError::NotInTable {
            table: match code {
                Code::Ipc => "IRC 2021 Table P3105.1 (IPC Table 909.1)",
                Code::Upc => "UPC 2012 Table 1002.2",
            },
            what: "trap arm diameter",
            value: format!("{diameter} in"),
            known: "1.25, 1.5, 2, 3 and 4 in",
        }),
    }
}

/// Checks one arm; lengths in inches, slope in inches per foot.
pub fn check(code: Code, diameter: f64, length: f64, slope_per_foot: f64) -> Result<TrapArm, TradeError> {
    let longest = longest(code, diameter)?;
    let length = finite("trap arm length", length)?;
    let fall = fall(finite("slope", slope_per_foot)?, length);
    let shortest = 2.0 * diameter;
    let hair = 1e-9; // inches; keeps an arm exactly at a limit inside it whatever the last bit of the product
    let faults = [
        (length > longest + hair, Fault::TooLong),
        (length < shortest - hair, Fault::TooShort),
        (fall > diameter + hair, Fault::FallsTooFar),
        (slope_per_foot <= 0.0, Fault::NoFall),
    ];
    let faults = faults.into_iter().filter_map(|(is, fault)| is.then_some(fault)).collect();
    Ok(TrapArm { fall, longest, shortest, faults })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_table_of_the_irc_is_kept() {
        // IRC 2021 Table P3105.1, IPC Table 909.1: 5, 6, 8, 12, 16 ft
        for (diameter, feet) in [(1.25, 5.0), (1.5, 6.0), (2.0, 8.0), (3.0, 12.0), (4.0, 16.0)] {
            assert_eq!(longest(Code::Ipc, diameter), Ok(feet * 12.0));
        }
    }

    #[test]
    fn the_table_of_the_upc_is_kept() {
        // California Plumbing Code 2013 (UPC 2012) Table 1002.2: 2 ft 6, 3 ft 6, 5, 6, 10 ft
        for (diameter, inches) in [(1.25, 30.0), (1.5, 42.0), (2.0, 60.0), (3.0, 72.0), (4.0, 120.0)] {
            assert_eq!(longest(Code::Upc, diameter), Ok(inches));
        }
    }

    #[test]
    fn every_fault_is_named() {
        // IRC P3105.2 (fall), P3105.3 (two diameters), Table P3105.1 (length)
        let faults = |length, slope| check(Code::Ipc, 1.5, length, slope).unwrap().faults;
        assert_eq!(faults(72.0, 0.25), []); // 72 in at 1/4 in per ft falls exactly one diameter
        assert_eq!(faults(73.0, 0.25), [Fault::TooLong, Fault::FallsTooFar]);
        assert_eq!(faults(2.5, 0.25), [Fault::TooShort]);
        assert_eq!(faults(60.0, 0.5), [Fault::FallsTooFar]);
        assert_eq!(faults(60.0, -0.25), [Fault::NoFall]);
    }

    #[test]
    fn a_size_outside_the_table_says_which_sizes_there_are() {
        let error = alloc::string::ToString::to_string(&longest(Code::Upc, 2.5).unwrap_err());
        assert!(error.contains("2.5 in") && error.contains("1.25, 1.5, 2, 3 and 4"), "{error}");
        assert!(check(Code::Ipc, 1.5, f64::NAN, 0.25).is_err());
    }
}
