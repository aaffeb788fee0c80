//! What `vent-route` asks, and what was answered.

use alloc::vec::Vec;

use survey::units::{LengthUnit, parse_length};
use survey::{Phrase, Said, say};

use super::vent_route::{ArmPiece, HIGHEST_TAKEN, LONGEST_ARM, Route, Shift, Valve, Window};
use super::window::SIZES;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::measure::InchesPerFoot;
use crate::sheet::Assumed;
use crate::tolerance::Reading;

const fn inches(max: f64) -> Kind {
    Kind::Length { min: 0.0, max, feet: false }
}

/// Slope of the piece from trap to riser where nobody said, inches in a foot; its size, and stud spacing, inches.
const SLOPE: f64 = 0.25;
const DRAIN: &str = "1-1/2";
const SPACING: &str = "16";

/// Sizes of the drain from trap to riser: those the trap-arm tables list.
pub(super) const DRAINS: &[&str] = &["1-1/4", "1-1/2", "2", "3", "4"];

pub(super) const FIELDS: &[Field] = &[
    Field::must("flood-rim", Phrase("trade-how-high-flood-rim"), inches(HIGHEST_TAKEN)),
    Field::may("flat-height", Phrase("trade-how-high-underside-lowest"), inches(HIGHEST_TAKEN)),
    Field::or("size", Phrase("trade-what-size-vent"), Kind::Word(SIZES), "1-1/2"),
    Field::may("sill", Phrase("trade-how-high-sill-window"), inches(HIGHEST_TAKEN)),
    Field::may("sill-framing", Phrase("trade-how-deep-sill-framing"), inches(24.0)),
    Field::or(
        "read-from",
        Phrase("trade-which-floor-were-vent"),
        Kind::Word(&["new-floor", "old-floor"]),
        "new-floor",
    ),
    Field::may("build-up", Phrase("trade-how-much-does-new"), inches(12.0)),
    Field::may("flat-length", Phrase("trade-how-long-flat-piece"), inches(LONGEST_ARM)),
    Field::may("drain", Phrase("trade-what-size-piece-drain"), Kind::Word(DRAINS)),
    Field::may(
        "flat-slope",
        Phrase("trade-how-much-does-piece"),
        Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 },
    ),
    Field::may("valve-height", Phrase("trade-how-high-over-branch"), inches(HIGHEST_TAKEN)),
    Field::may("valve-adopted", Phrase("trade-does-building-department-take"), Kind::YesNo),
    Field::or("place", Phrase("trade-where-does-fixture-stand"), Kind::Word(&["wall", "island"]), "wall"),
    Field::may("shift", Phrase("trade-how-far-sideways-does"), inches(600.0)),
    Field::may(
        "spacing",
        Phrase("trade-how-far-apart-studs"),
        Kind::Length { min: 6.0, max: 48.0, feet: false },
    ),
];

/// The route, or what is missing.
pub(super) fn route(
    given: &Given,
    assumed: &mut Vec<Assumed>,
) -> Result<Result<Route, Vec<Said>>, TradeError> {
    let mut missing = given.missing(FIELDS);
    let from_old = given.word("read-from") == Some("old-floor");
    let read = given.has("flat-height") || given.has("sill");
    if from_old && read && !given.has("build-up") {
        missing.push(say!("trade-build-up-new-floor"));
    }
    let (Some(rim), true) = (given.length("flood-rim"), missing.is_empty()) else { return Ok(Err(missing)) };
    let piece = match given.length("flat-length") {
        Some(length) => {
            let slope = slope(given, assumed)?;
            Some(ArmPiece { length, slope, drain: drain(given, assumed) })
        }
        None => None,
    };
    let shift = given.length("shift").and_then(|way| {
        let spacing = given.length("spacing").or_else(|| {
            assumed.push(Assumed::new(say!("trade-stud-spacing"), SPACING));
            parse_length(SPACING, LengthUnit::Inch).length.map(Reading::plain)
        })?;
        Some(Shift { way, spacing })
    });
    Ok(Ok(Route {
        rim,
        flat: given.length("flat-height"),
        window: given.length("sill").map(|sill| Window { sill, framing: given.length("sill-framing") }),
        build_up: given.length("build-up").filter(|_| from_old),
        size: given.word("size").unwrap_or("1-1/2"),
        piece,
        valve: given.length("valve-height").map(|above| Valve { above, adopted: given.yes("valve-adopted") }),
        island: given.word("place") == Some("island"),
        shift,
    }))
}

fn drain(given: &Given, assumed: &mut Vec<Assumed>) -> &'static str {
    given.word("drain").unwrap_or_else(|| {
        assumed.push(Assumed::new(say!("trade-size-drain-trap-riser"), DRAIN));
        DRAIN
    })
}

fn slope(given: &Given, assumed: &mut Vec<Assumed>) -> Result<InchesPerFoot, TradeError> {
    let slope = given.number("flat-slope").unwrap_or_else(|| {
        assumed.push(Assumed::new(say!("trade-slope-flat-piece"), say!("trade-quarter-inch-foot")));
        SLOPE
    });
    InchesPerFoot::new(slope)
}
