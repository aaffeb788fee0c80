//! Working days: what time on which day a quarter hour of work falls, weekends left out.

use alloc::{format, string::String};

use survey::{Phrase, Said, say};

use crate::error::TradeError;
use crate::given::choice;

/// Quarter hours in an hour: the grain of the calendar.
pub const QUARTERS: u32 = 4;
/// Most working days a calendar reaches over.
pub const MOST_DAYS: u32 = 120;
/// Longest working day taken, hours.
const LONGEST_DAY: u32 = 12;

/// Days of the week as written; work goes on Monday to Friday (common practice, no source).
pub const WEEKDAYS: [&str; 5] = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday"];

/// A time of day in quarter hours after midnight.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Clock(u32);

impl Clock {
    /// From quarter hours after midnight, at most 24 h.
    pub fn from_quarters(quarters: u32) -> Option<Self> {
        (quarters <= 24 * QUARTERS).then_some(Self(quarters))
    }
    /// "8", "16.5", "16:30": quarter hours only.
    pub fn parse(text: &str) -> Option<Self> {
        let text = text.trim();
        let quarters = match text.split_once(':') {
            Some((hours, minutes)) => {
                let (hours, minutes): (u32, u32) = (hours.parse().ok()?, minutes.parse().ok()?);
                if hours > 24 || minutes > 59 || minutes % 15 != 0 {
                    return None;
                }
                hours * QUARTERS + minutes / 15
            }
            None => {
                let quarters = text.parse::<f64>().ok()? * f64::from(QUARTERS);
                if !(0.0..=96.0).contains(&quarters) || libm::floor(quarters) != quarters {
                    return None;
                }
                quarters as u32
            }
        };
        Self::from_quarters(quarters)
    }
    /// Quarter hours after midnight.
    pub const fn quarters(self) -> u32 {
        self.0
    }
    /// Hours after midnight.
    pub fn hours(self) -> f64 {
        f64::from(self.0) / f64::from(QUARTERS)
    }
    /// "8:00".
    pub fn shown(self) -> String {
        format!("{}:{:02}", self.0 / QUARTERS, self.0 % QUARTERS * 15)
    }
}

/// The working day and the weekday of the first one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct WorkingDays {
    start: Clock,
    end: Clock,
    first: usize,
}

impl WorkingDays {
    /// Working days from `start` to `end`, the first of them on a weekday (0 is Monday).
    ///
    /// # Errors
    /// A day that ends before it starts or lasts over twelve hours, or no weekday.
    pub fn new(start: Clock, end: Clock, first: usize) -> Result<Self, TradeError> {
        let long = end.0.saturating_sub(start.0);
        if long == 0 || long > LONGEST_DAY * QUARTERS {
            let (what, unit, high) = (Phrase("trade-length-working-day"), "h", f64::from(LONGEST_DAY));
            let value = end.hours() - start.hours();
            return Err(TradeError::OutOfRange { what, value, low: 0.25, high, unit });
        }
        if first >= WEEKDAYS.len() {
            let (what, unit) = (Phrase("trade-first-weekday"), "(Monday is 0)");
            return Err(TradeError::OutOfRange { what, value: first as f64, low: 0.0, high: 4.0, unit });
        }
        Ok(Self { start, end, first })
    }
    /// Quarter hours in a working day.
    pub const fn quarters(&self) -> usize {
        (self.end.0 - self.start.0) as usize
    }
    /// Start of the day.
    pub const fn start(&self) -> Clock {
        self.start
    }
    /// End of the day.
    pub const fn end(&self) -> Clock {
        self.end
    }
    /// Hours in a working day.
    pub fn hours(&self) -> f64 {
        self.end.hours() - self.start.hours()
    }
    /// The weekday of a working day counted from 1.
    pub fn weekday(&self, day: u32) -> usize {
        (self.first + day.saturating_sub(1) as usize) % WEEKDAYS.len()
    }
    /// "Day 3, Wednesday".
    pub fn day_shown(&self, day: u32) -> Said {
        say!(
            "trade-day",
            day = day,
            day2 = choice(WEEKDAYS.get(self.weekday(day)).copied().unwrap_or_default())
        )
    }
    /// Day (from 1) and time at which work of this many quarter hours since the first morning is over.
    pub fn ends(&self, quarters: usize) -> (u32, Clock) {
        let into = quarters.saturating_sub(1);
        let (day, within) = (into / self.quarters(), into % self.quarters() + usize::from(quarters > 0));
        (day as u32 + 1, Clock(self.start.0 + within as u32))
    }
    /// Time at which a quarter hour of the working day starts.
    pub fn starts(&self, within: usize) -> Clock {
        Clock(self.start.0 + within as u32)
    }
    /// Quarter hours of the working day inside a window of the clock: first, and one past the last.
    pub fn within(&self, window: [Clock; 2]) -> (usize, usize) {
        let inside = |c: Clock| c.0.clamp(self.start.0, self.end.0) - self.start.0;
        (inside(window[0]) as usize, inside(window[1]) as usize)
    }
}

/// A window of the day: "9-17", "13:30-15".
pub fn window(text: &str) -> Option<[Clock; 2]> {
    let (from, to) = text.split_once(['-', '–'])?;
    let window = [Clock::parse(from)?, Clock::parse(to)?];
    (window[0] < window[1]).then_some(window)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn clock(text: &str) -> Clock {
        Clock::parse(text).unwrap()
    }

    #[test]
    fn a_clock_keeps_quarter_hours() {
        for (text, quarters) in [("8", 32), ("16.5", 66), ("16:30", 66), ("0", 0), ("24", 96)] {
            assert_eq!(clock(text).quarters(), quarters);
        }
        for text in ["8:10", "25", "8.1", "x", "-1", "8:60", "24:15", "NaN"] {
            assert_eq!(Clock::parse(text), None, "{text}");
        }
        assert_eq!(clock("9.25").shown(), "9:15");
        assert_eq!(window("13:30-15").map(|w| w[1].quarters()), Some(60));
        assert_eq!((window("15-9"), window("9")), (None, None));
    }

    #[test]
    fn work_goes_on_the_next_morning_and_after_the_weekend() {
        let days = WorkingDays::new(clock("8"), clock("16:30"), 3).unwrap();
        assert_eq!(days.quarters(), 34);
        assert_eq!(days.ends(34), (1, clock("16:30")));
        assert_eq!(days.ends(35), (2, clock("8:15")));
        assert_eq!(days.ends(0), (1, clock("8")));
        assert_eq!((days.weekday(1), days.weekday(2), days.weekday(3)), (3, 4, 0));
        assert_eq!(days.within(window("7-9").unwrap()), (0, 4));
        assert_eq!(days.within(window("18-20").unwrap()), (34, 34));
        assert!(WorkingDays::new(clock("8"), clock("8"), 0).is_err());
        assert!(WorkingDays::new(clock("6"), clock("20"), 0).is_err());
        assert!(WorkingDays::new(clock("8"), clock("16"), 5).is_err());
    }
}
