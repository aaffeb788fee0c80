//! What `drain-size` asks, and what was answered.

use alloc::{format, vec::Vec};

use super::drain_size::{HIGHEST_TAKEN, Part};
use super::fixture::{Fixture, WORDS};
use super::stack::MOST_INTERVALS;
use super::units::{Alike, MOST_ALIKE};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::measure::FixtureUnits;
use crate::number::show_number;
use crate::sheet::Assumed;

/// Drain sizes the tables know.
pub(super) const SIZES: &[&str] = &["1-1/4", "1-1/2", "2", "2-1/2", "3", "4"];

const ROW: &[Field] = &[
    Field::must("fixture", "Which fixture?", Kind::Word(&WORDS)),
    Field::or("count", "How many?", Kind::Number { unit: "", min: 1.0, max: MOST_ALIKE }, "1"),
    Field::may("new", "Does the work add it?", Kind::YesNo),
];

pub(super) const FIELDS: &[Field] = &[
    Field::must("fixtures", "What drains into the pipe?", Kind::Rows(ROW)),
    Field::or(
        "part",
        "Which part of the drainage is the pipe?",
        Kind::Word(&["horizontal-branch", "vertical", "stack", "building-drain"]),
        "horizontal-branch",
    ),
    Field::may("existing", "What size is there?", Kind::Word(SIZES)),
    Field::may(
        "slope",
        "How much does it fall in a foot, in inches?",
        Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 },
    ),
    Field::may(
        "height",
        "How far does a vertical drain or stack drop?",
        Kind::Length { min: 0.0, max: HIGHEST_TAKEN, feet: true },
    ),
    Field::may(
        "intervals",
        "Into how many branch intervals (stories) does a stack gather?",
        Kind::Number { unit: "", min: 1.0, max: MOST_INTERVALS as f64 },
    ),
    Field::may(
        "busiest",
        "How many fixture units enter a stack at its busiest interval?",
        Kind::Number { unit: "DFU", min: 0.0, max: FixtureUnits::MOST },
    ),
];

/// A count out of a number.
fn whole(field: &str, number: f64) -> Result<u32, TradeError> {
    if !(0.0..=1e6).contains(&number) || libm::trunc(number) != number {
        return Err(TradeError::BadField {
            field: field.into(),
            text: show_number(number),
            note: "write a whole number".into(),
        });
    }
    Ok(number as u32)
}

/// The fixtures, in the order given; empty if none were.
pub(super) fn fixtures(given: &Given) -> Result<Vec<Alike>, TradeError> {
    let mut out = Vec::new();
    for row in given.rows("fixtures") {
        if let (Some(word), Some(count)) = (row.word("fixture"), row.number("count")) {
            let fixture = Fixture::parse(word)?;
            out.push(Alike {
                fixture,
                count: whole("count", count)?,
                new: row.yes("new").unwrap_or_default(),
            });
        }
    }
    Ok(out)
}

/// Which part of the drainage it is. What a stack needs and nobody said is assumed at its worst.
pub(super) fn part(given: &Given, assumed: &mut Vec<Assumed>) -> Result<Part, TradeError> {
    match given.word("part") {
        Some("vertical") => Ok(Part::Vertical),
        Some("building-drain") => Ok(Part::BuildingDrain),
        Some("stack") => {
            let intervals = match given.number("intervals") {
                Some(n) => whole("intervals", n)?,
                None => {
                    assumed.push(Assumed { item: "intervals".into(), value: "1".into() });
                    1
                }
            };
            let busiest = match given.number("busiest") {
                Some(units) => FixtureUnits::new(units)?,
                None => {
                    if intervals > 1 {
                        let value = format!("the whole load of {intervals} intervals");
                        assumed.push(Assumed { item: "units at the busiest interval".into(), value });
                    }
                    FixtureUnits::new(FixtureUnits::MOST)?
                }
            };
            Ok(Part::Stack { intervals, busiest })
        }
        _ => Ok(Part::HorizontalBranch),
    }
}
