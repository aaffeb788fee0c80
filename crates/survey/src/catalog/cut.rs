//! Openings that a condition makes a crew cut beyond those the plan of work makes anyway: how many, and how large.
//!
//! A drywall crew prices patches by number and size. Before anything is open nobody knows them, so the catalog says what is
//! usual and the trade states its own beside it. Judgment; where the plan opens the place already, nothing is said.

use serde::Deserialize;

use crate::units::Length;

/// Most openings of one condition.
const MOST: u16 = 60;
/// Longest side of one opening: a whole wall is planned work and no opening.
const LONGEST: f64 = 120.0;

/// Openings to allow for.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Deserialize)]
#[serde(try_from = "Written")]
pub struct Cut {
    /// How many: few, usual, many; ordered, at least one.
    pub number: [u16; 3],
    /// Width of one, or the shorter side on a floor or ceiling.
    pub width: Length,
    /// Height of one, or the longer side.
    pub height: Length,
}

impl Cut {
    /// Square feet of the usual number.
    pub fn area(&self) -> f64 {
        let [_, usual, _] = self.number;
        f64::from(usual) * self.width.inches() * self.height.inches() / 144.0
    }
}

/// As it stands in a file: sides in inches.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    number: [u16; 3],
    width: f64,
    height: f64,
}

impl TryFrom<Written> for Cut {
    type Error = String;
    fn try_from(Written { number, width, height }: Written) -> Result<Self, String> {
        let [few, usual, many] = number;
        if !(1 <= few && few <= usual && usual <= many && many <= MOST) {
            return Err(format!(
                "number = [{few}, {usual}, {many}] must be few, usual, many in that order, from 1 to {MOST}"
            ));
        }
        let side = |inches: f64| {
            let length = Length::from_inches(inches).filter(|_| (1.0..=LONGEST).contains(&inches));
            length.ok_or_else(|| format!("a side of {inches} in must lie between 1 and {LONGEST} in"))
        };
        Ok(Self { number, width: side(width)?, height: side(height)? })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str) -> Result<Cut, String> {
        toml::from_str(text).map_err(|e| e.to_string())
    }

    #[test]
    fn sizes_are_read_in_inches_and_their_area_is_that_of_the_usual_number() {
        let cut = read("number = [1, 2, 4]\nwidth = 16\nheight = 48").unwrap();
        assert_eq!((cut.width.inches(), cut.height.inches()), (16.0, 48.0));
        assert!((cut.area() - 2.0 * 16.0 * 48.0 / 144.0).abs() < 1e-12);
    }

    #[test]
    fn what_nobody_cuts_is_refused_by_what_is_wrong_with_it() {
        for (text, said) in [
            ("number = [2, 1, 4]\nwidth = 16\nheight = 48", "in that order"),
            ("number = [0, 1, 4]\nwidth = 16\nheight = 48", "from 1 to 60"),
            ("number = [1, 1, 61]\nwidth = 16\nheight = 48", "from 1 to 60"),
            ("number = [1, 1, 1]\nwidth = 0.5\nheight = 48", "a side of 0.5 in"),
            ("number = [1, 1, 1]\nwidth = 16\nheight = nan", "between 1 and 120"),
            ("number = [1, 1, 1]\nwidth = 16", "height"),
            ("number = [1, 1, 1]\nwidth = 16\nheight = 4\ndepth = 1", "depth"),
        ] {
            let fault = read(text).unwrap_err();
            assert!(fault.contains(said), "{text}: {fault}");
        }
    }
}
