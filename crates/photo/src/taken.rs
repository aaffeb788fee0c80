//! When the photograph was taken, as its camera's clock showed it.
//!
//! Source: CIPA DC-008-2019 (Exif 2.32) 4.6.5 D (DateTimeOriginal, OffsetTimeOriginal, SubSecTimeOriginal). Most
//! cameras write no offset from UTC; then the time stays a local one and nothing is guessed.

use survey::Stamp;

use crate::complaint::Complaint;
use crate::error::tidy;

/// A valid time in the camera's own clock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Taken {
    /// "2026-04-14".
    date: String,
    /// "09:30:00".
    clock: String,
    /// The digits behind the second, as written, at most nine.
    fraction: Option<String>,
    /// The offset from UTC, "+HH:MM" or "-HH:MM".
    offset: Option<String>,
}

impl Taken {
    /// The moment, when the offset from UTC is known; digits past the millisecond are dropped.
    pub(crate) fn stamp(&self) -> Option<Stamp> {
        let ms: String = self.fraction.iter().flat_map(|f| f.chars()).chain("000".chars()).take(3).collect();
        format!("{}T{}.{ms}{}", self.date, self.clock, self.offset.as_deref()?).parse().ok()
    }
    /// The local time by RFC 3339 without an offset.
    pub(crate) fn local(&self) -> String {
        let fraction = self.fraction.as_ref().map(|digits| format!(".{digits}")).unwrap_or_default();
        format!("{}T{}{fraction}", self.date, self.clock)
    }
    /// DateTimeOriginal, OffsetTimeOriginal, SubSecTimeOriginal as EXIF spells them.
    pub(crate) fn exif(&self) -> (String, Option<&str>, Option<&str>) {
        let date = format!("{} {}", self.date.replace('-', ":"), self.clock);
        (date, self.offset.as_deref(), self.fraction.as_deref())
    }
}

/// Reads the three fields; what cannot be used becomes a complaint and the rest is kept.
pub(crate) fn read(
    date: Option<&[u8]>,
    offset: Option<&[u8]>,
    fraction: Option<&[u8]>,
    complaints: &mut Vec<Complaint>,
) -> Option<Taken> {
    let written = text(date?);
    if blank(&written) {
        return None; // spaces and colons only mean "unknown" by the standard
    }
    let Some(mut taken) = date_time(&written) else {
        let shown = tidy(&written, 30);
        complaints.push(if written.starts_with("0000") {
            Complaint::ClockNotSet { shown }
        } else {
            Complaint::NoTime { shown }
        });
        return None;
    };
    if let Some(written) = offset.map(text).filter(|written| !blank(written)) {
        match utc_offset(&written) {
            Some(found) => taken.offset = Some(found),
            None => complaints.push(Complaint::NoOffset { shown: tidy(&written, 20) }),
        }
    }
    if let Some(written) = fraction.map(text).filter(|written| !blank(written)) {
        if written.bytes().all(|byte| byte.is_ascii_digit()) {
            taken.fraction = Some(written.chars().take(9).collect());
        } else {
            complaints.push(Complaint::NoFraction { shown: tidy(&written, 20) });
        }
    }
    if taken.offset.is_some() && taken.stamp().is_none() {
        complaints.push(Complaint::TimeRange);
        taken.offset = None;
    }
    Some(taken)
}

/// The text of an ASCII field up to its first NUL, without outer spaces.
fn text(bytes: &[u8]) -> String {
    let end = bytes.iter().position(|&byte| byte == 0).unwrap_or(bytes.len());
    String::from_utf8_lossy(bytes.get(..end).unwrap_or_default()).trim().to_owned()
}

fn blank(written: &str) -> bool {
    written.chars().all(|c| matches!(c, ' ' | ':'))
}

/// "2026:04:14 09:30:00", also with dashes or a T, also with a fraction, "Z" or an offset behind, as some writers do.
fn date_time(written: &str) -> Option<Taken> {
    let bytes = written.as_bytes();
    let shape = bytes.get(..19)?;
    let fits = shape.iter().enumerate().all(|(place, byte)| match place {
        4 | 7 => matches!(byte, b':' | b'-'),
        10 => matches!(byte, b' ' | b'T'),
        13 | 16 => *byte == b':',
        _ => byte.is_ascii_digit(),
    });
    if !fits {
        return None;
    }
    let (date, clock) = (written.get(..10)?.replace(':', "-"), written.get(11..19)?.to_owned());
    // The calendar is checked by reading the time as if it were UTC.
    format!("{date}T{clock}Z").parse::<Stamp>().ok()?;
    let mut rest = written.get(19..)?;
    let mut fraction = None;
    if let Some(behind) = rest.strip_prefix('.') {
        let digits = behind.bytes().take_while(u8::is_ascii_digit).count();
        fraction = behind.get(..digits.min(9)).filter(|found| !found.is_empty()).map(str::to_owned);
        rest = behind.get(digits..)?;
    }
    let offset = if rest.trim().is_empty() { None } else { Some(utc_offset(rest.trim())?) };
    Some(Taken { date, clock, fraction, offset })
}

/// "+05:30", "-0500" or "Z" as "+HH:MM".
fn utc_offset(written: &str) -> Option<String> {
    if matches!(written, "Z" | "z") {
        return Some("+00:00".into());
    }
    let digits = written.strip_prefix(['+', '-'])?;
    let (hours, minutes) = match digits.len() {
        5 => digits.split_once(':')?,
        4 => digits.split_at_checked(2)?,
        _ => return None,
    };
    let number = |part: &str, below: u8| {
        let plain = part.len() == 2 && part.bytes().all(|byte| byte.is_ascii_digit());
        plain.then(|| part.parse::<u8>().ok()).flatten().filter(|&value| value < below)
    };
    let (hours, minutes) = (number(hours, 24)?, number(minutes, 60)?);
    Some(format!("{}{hours:02}:{minutes:02}", written.get(..1)?))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn taken(date: &str, offset: &str, fraction: &str) -> (Option<Taken>, Vec<Complaint>) {
        let mut complaints = Vec::new();
        let field = |text: &str| (!text.is_empty()).then(|| text.as_bytes().to_vec());
        let (d, o, f) = (field(date), field(offset), field(fraction));
        let found = read(d.as_deref(), o.as_deref(), f.as_deref(), &mut complaints);
        (found, complaints)
    }

    #[test]
    fn time_offset_and_fraction_make_a_moment() {
        for (fraction, ms) in [("", "000"), ("5", "500"), ("05", "050"), ("123", "123"), ("123999", "123")] {
            let (found, complaints) = taken("2026:04:14 09:30:00\0", "-05:00\0", fraction);
            assert_eq!(
                found.unwrap().stamp().unwrap().to_string(),
                format!("2026-04-14T09:30:00.{ms}-05:00")
            );
            assert_eq!(complaints, Vec::<Complaint>::new());
        }
    }

    #[test]
    fn a_time_without_an_offset_stays_local_and_as_written() {
        let (found, complaints) = taken("2026:04:14 09:30:00", "   :  ", "0123456789");
        let found = found.unwrap();
        assert_eq!((found.stamp(), found.local().as_str()), (None, "2026-04-14T09:30:00.012345678"));
        assert!(complaints.is_empty());
    }

    #[test]
    fn offsets_written_in_other_ways_are_understood() {
        for (date, offset, expected) in [
            ("2019:06:01 10:00:00Z", "", "2019-06-01T10:00:00.000+00:00"),
            ("2019:06:01 10:00:00.25+05:30", "", "2019-06-01T10:00:00.250+05:30"),
            ("2019-06-01T10:00:00", "Z", "2019-06-01T10:00:00.000+00:00"),
            ("2019:06:01 10:00:00", "-0930", "2019-06-01T10:00:00.000-09:30"),
        ] {
            assert_eq!(taken(date, offset, "").0.unwrap().stamp().unwrap().to_string(), expected);
        }
    }

    #[test]
    fn unusable_times_are_complained_about_and_blank_ones_are_not() {
        for date in [
            "0000:00:00 00:00:00",
            "2026:02:30 10:00:00",
            "yesterday",
            "2026:04:14 24:00:00",
            "2026:04:14 9:5",
        ] {
            let (found, complaints) = taken(date, "-05:00", "");
            assert_eq!((found, complaints.len()), (None, 1), "{date}");
        }
        assert_eq!(taken("    :  :     :  :  ", "", ""), (None, vec![]));
        assert_eq!(taken("", "-05:00", ""), (None, vec![]));
    }

    #[test]
    fn a_bad_offset_or_fraction_costs_only_itself() {
        for offset in ["+24:00", "-05:60", "5", "+5:30", "EST", "+é5:0"] {
            let (found, complaints) = taken("2026:04:14 09:30:00", offset, "a");
            assert_eq!(found.unwrap().local(), "2026-04-14T09:30:00");
            assert_eq!(complaints.len(), 2, "{offset}: {complaints:?}");
        }
    }
}
