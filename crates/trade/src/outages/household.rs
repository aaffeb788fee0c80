//! Who lives there during the work and what they cannot go without.

use alloc::{borrow::ToOwned, string::String, vec::Vec};

use survey::{Phrase, Said};

use super::days::{Clock, WEEKDAYS, window};
use crate::error::TradeError;

/// A device somebody's health depends on.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Medical {
    /// Nobody asked yet.
    Unasked,
    /// There is none.
    None,
    /// On this circuit.
    On(String),
}

/// What was learned about the household. Circuits are named as the tasks name them.
#[derive(Clone, PartialEq, Debug)]
pub struct Household {
    /// Weekdays on which somebody works from home, Monday first; none if nobody asked.
    pub home_days: Option<[bool; 5]>,
    /// Between which hours.
    pub home_hours: [Clock; 2],
    /// Medical device.
    pub medical: Medical,
    /// Hours in which loud work is not wanted; none if nobody asked.
    pub quiet: Option<Vec<[Clock; 2]>>,
    /// Toilets in the house, if known.
    pub toilets: Option<u32>,
    /// Toilets that still drain when the drains above are cut.
    pub toilets_apart: u32,
    /// Circuit of modem and router.
    pub internet_circuit: Option<String>,
    /// Circuit of the work place at home.
    pub office_circuit: Option<String>,
    /// Water comes from a well pump.
    pub well_pump: bool,
}

/// What stands for a circuit that somebody needs and nobody has named.
pub const UNNAMED: &str = "a circuit nobody has named";

/// The name of a circuit as spoken.
pub fn circuit_said(name: &str) -> Said {
    if name == UNNAMED { Phrase("trade-circuit-nobody-has-named").into() } else { name.into() }
}

/// A circuit's name as tasks write it.
pub fn circuit(text: &str) -> String {
    let text = text.trim().to_lowercase();
    text.strip_prefix("power:").unwrap_or(&text).trim().to_owned()
}

/// A medical device as answered: "none", or the name of its circuit.
pub fn medical(text: Option<&str>) -> Medical {
    match text.map(circuit) {
        None => Medical::Unasked,
        Some(word) if word == "none" || word == "no" => Medical::None,
        Some(name) => Medical::On(name),
    }
}

fn bad(field: &str, text: &str, note: Phrase) -> TradeError {
    TradeError::BadField { field: field.to_owned(), text: text.chars().take(60).collect(), note: note.into() }
}

/// Weekdays: "Mon+Wed", "every", "none".
///
/// # Errors
/// What is no working day.
pub fn weekdays(field: &str, text: &str) -> Result<[bool; 5], TradeError> {
    let word = text.trim().to_lowercase();
    match word.as_str() {
        "none" | "no" => return Ok([false; 5]),
        "every" | "all" => return Ok([true; 5]),
        _ => {}
    }
    let mut days = [false; 5];
    for piece in word.split('+').map(str::trim) {
        let found = WEEKDAYS.iter().position(|day| piece.len() >= 3 && day.to_lowercase().starts_with(piece));
        match found {
            Some(day) => days[day] = true,
            None => {
                return Err(bad(field, text, Phrase("trade-write-weekdays-joined-such")));
            }
        }
    }
    Ok(days)
}

/// Windows of the day: "13-15+17-18", "none".
///
/// # Errors
/// What is no window of quarter hours.
pub fn windows(field: &str, text: &str) -> Result<Vec<[Clock; 2]>, TradeError> {
    if text.trim().eq_ignore_ascii_case("none") {
        return Ok(Vec::new());
    }
    let note = Phrase("trade-write-hours-such-13");
    text.split('+').map(|piece| window(piece).ok_or_else(|| bad(field, text, note))).collect()
}

/// One time of day.
///
/// # Errors
/// What is no quarter hour of the day.
pub fn clock(field: &str, text: &str) -> Result<Clock, TradeError> {
    let note = Phrase("trade-write-hour-such-8");
    Clock::parse(text).ok_or_else(|| bad(field, text, note))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn weekdays_and_hours_read_as_people_write_them() {
        assert_eq!(weekdays("x", "Mon + wednesday").unwrap(), [true, false, true, false, false]);
        assert_eq!(
            (weekdays("x", "every").unwrap(), weekdays("x", "none").unwrap()),
            ([true; 5], [false; 5])
        );
        assert!(weekdays("x", "Sunday").is_err() && weekdays("x", "t").is_err());
        assert_eq!(windows("x", "13-15+17-18").unwrap().len(), 2);
        assert!(windows("x", "none").unwrap().is_empty());
        assert!(windows("x", "13").is_err() && clock("x", "8:10").is_err());
    }

    #[test]
    fn a_device_nobody_asked_about_is_not_taken_as_none() {
        assert_eq!(medical(None), Medical::Unasked);
        assert_eq!(medical(Some("None")), Medical::None);
        assert_eq!(medical(Some("power: Bedroom")), Medical::On("bedroom".into()));
    }
}
