//! Printing lengths to the nearest 1/16 in, ties away from zero, fraction reduced.
//!
//! A print is for reading. Sums are made from the exact lengths and printed once; a printed value is never an
//! input of the next line.

use super::Length;

/// 1/8 µm in a sixteenth of an inch: a whole number, so no rounding happens before the one announced.
const PER_SIXTEENTH: u64 = (Length::PER_INCH / 16) as u64;

/// `42-1/2"`: nearest sixteenth, ties away from zero, fraction reduced.
pub fn inches_16(length: Length) -> String {
    let (sign, sixteenths) = sixteenths(length);
    let (whole, rest) = (sixteenths / 16, sixteenths % 16);
    match (whole, rest) {
        (_, 0) => format!("{sign}{whole}\""),
        (0, _) => format!("{sign}{}\"", fraction(rest)),
        _ => format!("{sign}{whole}-{}\"", fraction(rest)),
    }
}

/// `3'-6 1/2"`: the same with a carry into feet (11.97 in is `1'-0"`).
pub fn feet_inches_16(length: Length) -> String {
    let (sign, sixteenths) = sixteenths(length);
    let (feet, whole, rest) = (sixteenths / 192, sixteenths / 16 % 12, sixteenths % 16);
    match (whole, rest) {
        (_, 0) => format!("{sign}{feet}'-{whole}\""),
        (0, _) => format!("{sign}{feet}'-{}\"", fraction(rest)),
        _ => format!("{sign}{feet}'-{whole} {}\"", fraction(rest)),
    }
}

/// The sign to print and the rounded count; a length that rounds to nothing has no sign.
fn sixteenths(length: Length) -> (&'static str, u64) {
    let magnitude = length.eighth_um().unsigned_abs();
    let count = (magnitude + PER_SIXTEENTH / 2) / PER_SIXTEENTH;
    (if length < Length::ZERO && count > 0 { "-" } else { "" }, count)
}

/// Sixteenths 1 to 15, reduced.
fn fraction(sixteenths: u64) -> String {
    let shift = sixteenths.trailing_zeros().min(4);
    format!("{}/{}", sixteenths >> shift, 16_u64 >> shift)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(value: f64) -> Length {
        Length::from_inches(value).unwrap()
    }

    #[test]
    fn prints_are_reduced_and_carried() {
        for (value, short, long) in [
            (42.5, "42-1/2\"", "3'-6 1/2\""),
            (17.96875, "18\"", "1'-6\""),
            (0.03, "0\"", "0'-0\""),
            (0.04, "1/16\"", "0'-1/16\""),
            (15.9375, "15-15/16\"", "1'-3 15/16\""),
            (11.97, "12\"", "1'-0\""),
            (0.75, "3/4\"", "0'-3/4\""),
            (95.9375, "95-15/16\"", "7'-11 15/16\""),
            (12.125, "12-1/8\"", "1'-1/8\""),
        ] {
            assert_eq!(
                (inches_16(inches(value)).as_str(), feet_inches_16(inches(value)).as_str()),
                (short, long)
            );
        }
    }

    #[test]
    fn ties_go_away_from_zero_on_both_sides() {
        assert_eq!(inches_16(Length::from_sixty_fourths(2)), "1/16\""); // 1/32 in
        assert_eq!(inches_16(Length::from_sixty_fourths(-2)), "-1/16\"");
        assert_eq!(inches_16(Length::from_eighth_um(6_349)), "0\"");
        assert_eq!(inches_16(Length::from_eighth_um(-6_349)), "0\"");
        assert_eq!(feet_inches_16(Length::from_sixty_fourths(-18 * 64)), "-1'-6\"");
    }

    #[test]
    fn the_extremes_print_without_overflow() {
        for count in [i64::MIN, i64::MAX, 0] {
            assert!(inches_16(Length::from_eighth_um(count)).ends_with('"'));
            assert!(feet_inches_16(Length::from_eighth_um(count)).ends_with('"'));
        }
    }
}
