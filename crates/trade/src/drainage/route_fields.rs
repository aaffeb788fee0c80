//! What `vent-route` asks, and what was answered.

use alloc::{string::String, vec::Vec};

use survey::units::{LengthUnit, parse_length};

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
    Field::must(
        "flood-rim",
        "How high is the flood rim above the finished new floor?",
        inches(HIGHEST_TAKEN),
    ),
    Field::may(
        "flat-height",
        "How high is the underside of the lowest flat piece of vent?",
        inches(HIGHEST_TAKEN),
    ),
    Field::or("size", "What size is the vent?", Kind::Word(SIZES), "1-1/2"),
    Field::may("sill", "How high is the sill of the window over the sink?", inches(HIGHEST_TAKEN)),
    Field::may("sill-framing", "How deep are sill and framing below that height?", inches(24.0)),
    Field::or(
        "read-from",
        "From which floor were vent and sill read?",
        Kind::Word(&["new-floor", "old-floor"]),
        "new-floor",
    ),
    Field::may("build-up", "How much does the new floor add to the old one?", inches(12.0)),
    Field::may(
        "flat-length",
        "How long is the flat piece from the trap to the riser? It is the trap arm.",
        inches(LONGEST_ARM),
    ),
    Field::may("drain", "What size is that piece of drain?", Kind::Word(DRAINS)),
    Field::may(
        "flat-slope",
        "How much does that piece fall in a foot, in inches?",
        Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 },
    ),
    Field::may(
        "valve-height",
        "How high over the branch drain is an air admittance valve?",
        inches(HIGHEST_TAKEN),
    ),
    Field::may("valve-adopted", "Does the building department take air admittance valves?", Kind::YesNo),
    Field::or("place", "Where does the fixture stand?", Kind::Word(&["wall", "island"]), "wall"),
    Field::may("shift", "How far sideways does the riser move?", inches(600.0)),
    Field::may(
        "spacing",
        "How far apart are the studs, center to center?",
        Kind::Length { min: 6.0, max: 48.0, feet: false },
    ),
];

/// The route, or what is missing.
pub(super) fn route(
    given: &Given,
    assumed: &mut Vec<Assumed>,
) -> Result<Result<Route, Vec<String>>, TradeError> {
    let mut missing = given.missing(FIELDS);
    let from_old = given.word("read-from") == Some("old-floor");
    let read = given.has("flat-height") || given.has("sill");
    if from_old && read && !given.has("build-up") {
        missing.push("build-up of the new floor".into());
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
            assumed.push(Assumed { item: "stud spacing".into(), value: SPACING.into() });
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
        assumed.push(Assumed { item: "size of the drain from trap to riser".into(), value: DRAIN.into() });
        DRAIN
    })
}

fn slope(given: &Given, assumed: &mut Vec<Assumed>) -> Result<InchesPerFoot, TradeError> {
    let slope = given.number("flat-slope").unwrap_or_else(|| {
        assumed.push(Assumed { item: "slope of the flat piece".into(), value: "1/4 in/ft".into() });
        SLOPE
    });
    InchesPerFoot::new(slope)
}
