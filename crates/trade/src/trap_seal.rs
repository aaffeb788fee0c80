//! Depth of a trap's water seal: 2 to 4 in (IRC 2006 P3201.2; California Plumbing Code 2013, UPC 2012, 1005.1).

/// Least seal, inches.
pub const LEAST: f64 = 2.0;
/// Deepest seal, inches.
pub const MOST: f64 = 4.0;

/// Whether a seal lies within the published limits; not a number does not.
pub fn within_limits(seal: f64) -> bool {
    (LEAST..=MOST).contains(&seal)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_limits_belong_to_the_range() {
        // IRC 2006 P3201.2; California Plumbing Code 2013 (UPC 2012) 1005.1
        assert!(within_limits(2.0) && within_limits(4.0));
        for seal in [1.99, 4.01, 9.0, 0.0, -2.0, f64::NAN] {
            assert!(!within_limits(seal), "{seal}");
        }
    }
}
