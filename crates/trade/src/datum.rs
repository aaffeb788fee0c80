//! Heights above the finished new floor (AFF) from readings taken elsewhere: plain sums, no published source needed.
//! Everything in a drain fit is measured from one plane, the new floor; forgetting a new floor's thickness turns a
//! fit into a false alarm or hides one.

/// Stub height above the new floor from a reading above the cabinet floor. All in inches.
pub fn aff_from_cabinet_floor(toe_kick: f64, cabinet_floor: f64, reading: f64, buildup: f64) -> f64 {
    toe_kick + cabinet_floor + reading - buildup
}

/// A height above the new floor from the same one above the old floor: a floor that rises lowers the stub, and the
/// counter too where the old one stays.
pub fn aff_after_new_floor(old_aff: f64, buildup: f64) -> f64 {
    old_aff - buildup
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_reading_from_the_cabinet_floor_gains_the_toe_kick_and_the_bottom() {
        assert_eq!(aff_from_cabinet_floor(4.5, 0.75, 11.25, 0.0), 16.5);
        assert_eq!(aff_after_new_floor(16.5, 0.75), 15.75);
    }
}
