//! Tape arithmetic.

use ::trade::tape;
use serde_json::json;
use survey::units::{LengthStatus, LengthUnit, ParsedLength, parse_length};

use super::english;
use super::inputs::{Inputs, number, text};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("add_lengths", add_lengths),
    ("format_ftin_16", |i| text(tape::print_feet_inches(i.number("inches")?))),
    ("format_in_16", |i| text(tape::print_inches(i.number("inches")?))),
    ("in_to_mm", |i| number(tape::mm(i.number("inches")?))),
    ("parse_length", read_length),
    ("sqft_to_m2", |i| number(tape::square_meters(i.number("sqft")?))),
];

fn read_length(i: &Inputs) -> Answer {
    let unit = |word: &str| match word {
        "in" => Some(LengthUnit::Inch),
        "ft" => Some(LengthUnit::Foot),
        "mm" => Some(LengthUnit::Millimeter),
        "cm" => Some(LengthUnit::Centimeter),
        "m" => Some(LengthUnit::Meter),
        _ => None,
    };
    let unit = match i.has("default_unit") {
        true => i.word("default_unit", unit, "in, ft, mm, cm, m")?,
        false => LengthUnit::Inch, // the grammar's own default
    };
    let written = i.text("text")?;
    let status = match parse_length(written, unit).status {
        LengthStatus::Ok => "ok",
        LengthStatus::Warn => "warn",
        LengthStatus::Ambiguous => "ambiguous",
        LengthStatus::Error => "error",
    };
    Ok(json!({ "inches": ParsedLength::inches_as_written(written, unit), "status": status }))
}

fn add_lengths(i: &Inputs) -> Answer {
    let sum = tape::add(&i.texts("terms")?).map_err(english)?;
    Ok(json!({ "inches": number(sum)?, "text": text(tape::print_inches(sum))? }))
}
