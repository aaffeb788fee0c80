//! What `drain-size` asks, and what was answered.

use alloc::vec::Vec;

use survey::{Phrase, say};

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
    Field::must("fixture", Phrase("trade-which-fixture"), Kind::Word(&WORDS)),
    Field::or("count", Phrase("trade-how-many"), Kind::Number { unit: "", min: 1.0, max: MOST_ALIKE }, "1"),
    Field::may("new", Phrase("trade-does-work-add"), Kind::YesNo),
];

pub(super) const FIELDS: &[Field] = &[
    Field::must("fixtures", Phrase("trade-what-drains-into-pipe"), Kind::Rows(ROW)),
    Field::or(
        "part",
        Phrase("trade-which-part-drainage-pipe"),
        Kind::Word(&["horizontal-branch", "vertical", "stack", "building-drain"]),
        "horizontal-branch",
    ),
    Field::may("existing", Phrase("trade-what-size-there"), Kind::Word(SIZES)),
    Field::may(
        "slope",
        Phrase("trade-how-much-does-fall"),
        Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 },
    ),
    Field::may(
        "height",
        Phrase("trade-how-far-does-vertical"),
        Kind::Length { min: 0.0, max: HIGHEST_TAKEN, feet: true },
    ),
    Field::may(
        "intervals",
        Phrase("trade-into-how-many-branch"),
        Kind::Number { unit: "", min: 1.0, max: MOST_INTERVALS as f64 },
    ),
    Field::may(
        "busiest",
        Phrase("trade-how-many-fixture-units"),
        Kind::Number { unit: "DFU", min: 0.0, max: FixtureUnits::MOST },
    ),
];

/// A count out of a number.
fn whole(field: &str, number: f64) -> Result<u32, TradeError> {
    if !(0.0..=1e6).contains(&number) || libm::trunc(number) != number {
        return Err(TradeError::BadField {
            field: field.into(),
            text: show_number(number),
            note: say!("trade-write-whole-number"),
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
                    assumed.push(Assumed::new(Phrase("trade-intervals"), "1"));
                    1
                }
            };
            let busiest = match given.number("busiest") {
                Some(units) => FixtureUnits::new(units)?,
                None => {
                    if intervals > 1 {
                        let value = say!("trade-whole-load-intervals", intervals = intervals);
                        assumed.push(Assumed::new(say!("trade-units-busiest-interval"), value));
                    }
                    FixtureUnits::new(FixtureUnits::MOST)?
                }
            };
            Ok(Part::Stack { intervals, busiest })
        }
        _ => Ok(Part::HorizontalBranch),
    }
}
