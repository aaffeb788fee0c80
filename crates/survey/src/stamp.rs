//! A moment with the UTC offset it was lived in, written by RFC 3339 to the millisecond.
//!
//! Wall time is for people: the order of the log never depends on it.

use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use time::format_description::well_known::Rfc3339;
use time::{OffsetDateTime, UtcOffset};

/// Unix milliseconds and the offset from UTC in whole minutes (within ±23:59), years 0000 to 9999.
#[derive(Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct Stamp {
    unix_ms: i64,
    offset_min: i16,
}

/// A time that cannot be read or lies outside what RFC 3339 can write.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is not a time with an offset; write it like 2026-04-14T09:30:00-05:00")]
pub struct StampError(pub String);

impl Stamp {
    /// 1970-01-01T00:00:00Z, where a moment is needed and none was lived.
    pub const EPOCH: Self = Self { unix_ms: 0, offset_min: 0 };
    /// A stamp from Unix milliseconds and minutes east of UTC.
    pub fn new(unix_ms: i64, offset_min: i16) -> Result<Self, StampError> {
        let stamp = Self { unix_ms, offset_min };
        match stamp.civil() {
            Some(civil) if (0..=9999).contains(&civil.year()) && offset_min.abs() < 1440 => Ok(stamp),
            _ => Err(StampError(format!("{unix_ms} ms, offset {offset_min} min"))),
        }
    }
    /// Milliseconds since 1970-01-01T00:00:00Z.
    pub fn unix_ms(&self) -> i64 {
        self.unix_ms
    }
    /// Minutes east of UTC.
    pub fn offset_min(&self) -> i16 {
        self.offset_min
    }
    /// Year, month, day, hour, minute, second as the clock on the wall showed them.
    pub fn wall(&self) -> (i32, u8, u8, u8, u8, u8) {
        match self.civil() {
            Some(c) => (c.year(), u8::from(c.month()), c.day(), c.hour(), c.minute(), c.second()),
            None => (1970, 1, 1, 0, 0, 0), // unreachable: the constructor has checked
        }
    }
    /// "2026-04-14 09:30", for a line a person reads.
    pub fn minute_text(&self) -> String {
        let (year, month, day, hour, minute, _) = self.wall();
        format!("{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}")
    }
    fn civil(&self) -> Option<OffsetDateTime> {
        let offset = UtcOffset::from_whole_seconds(i32::from(self.offset_min) * 60).ok()?;
        let utc = OffsetDateTime::from_unix_timestamp_nanos(i128::from(self.unix_ms) * 1_000_000).ok()?;
        utc.checked_to_offset(offset)
    }
}

impl fmt::Display for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (year, month, day, hour, minute, second) = self.wall();
        let ms = self.unix_ms.rem_euclid(1000);
        let (sign, off) = if self.offset_min < 0 { ('-', -self.offset_min) } else { ('+', self.offset_min) };
        write!(
            f,
            "{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{second:02}.{ms:03}{sign}{:02}:{:02}",
            off / 60,
            off % 60
        )
    }
}

impl fmt::Debug for Stamp {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for Stamp {
    type Err = StampError;
    fn from_str(text: &str) -> Result<Self, StampError> {
        let bad = || StampError(text.chars().take(60).collect());
        let time = OffsetDateTime::parse(text, &Rfc3339).map_err(|_| bad())?;
        let unix_ms = i64::try_from(time.unix_timestamp_nanos().div_euclid(1_000_000)).map_err(|_| bad())?;
        Self::new(unix_ms, time.offset().whole_minutes()).map_err(|_| bad())
    }
}

impl Serialize for Stamp {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Stamp {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_offset_is_kept_and_the_text_round_trips() {
        // The instant of RFC 3339 section 5.8, second example (offset −08:00).
        let stamp: Stamp = "1996-12-19T16:39:57-08:00".parse().unwrap();
        assert_eq!(stamp.unix_ms(), 851_042_397_000);
        assert_eq!(stamp.offset_min(), -480);
        assert_eq!(stamp.to_string(), "1996-12-19T16:39:57.000-08:00");
        assert_eq!(stamp.to_string().parse::<Stamp>().unwrap(), stamp);
    }

    #[test]
    fn half_hour_offsets_and_times_before_1970_survive() {
        for text in ["1969-07-20T20:17:40.500+05:30", "2026-01-01T00:00:00.001-09:30"] {
            assert_eq!(text.parse::<Stamp>().unwrap().to_string(), text);
        }
    }

    #[test]
    fn a_time_without_an_offset_is_refused() {
        for text in ["2026-04-14T09:30:00", "yesterday", "2026-13-01T00:00:00Z"] {
            assert!(text.parse::<Stamp>().is_err(), "{text}");
        }
        assert!(Stamp::new(i64::MAX, 0).is_err());
        assert!(Stamp::new(0, 1440).is_err());
    }
}
