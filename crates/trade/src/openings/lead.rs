//! The federal lead rule for renovation (40 CFR 745): which houses it names, and when work is so small that its work
//! practices need not be used. A rule about work, not a finding about paint: nobody can tell lead by eye.

use alloc::{format, vec, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::cite;
use crate::error::TradeError;
use crate::measure::SquareFeet;
use crate::openings::rects::HAIR;
use crate::sheet::Limit;

/// What a house and its work are, for the rule.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Work {
    /// Year the house was built.
    pub year: u32,
    /// Painted surface disturbed in the room where most is.
    pub inside: SquareFeet,
    /// Painted surface disturbed outside.
    pub outside: SquareFeet,
    /// A window is replaced.
    pub window: bool,
    /// A painted surface is demolished.
    pub demolition: bool,
    /// A practice the rule prohibits is used.
    pub prohibited: bool,
}

/// The rule as read from the book.
#[derive(Clone, PartialEq, Debug)]
pub struct LeadRule {
    /// Houses built before this year.
    pub before: f64,
    /// Minor repair in one room, at most, ft².
    pub inside: f64,
    /// Minor repair outside, at most, ft².
    pub outside: f64,
    /// Work within so many days is one job.
    pub days: f64,
    /// Where all of it stands.
    pub limits: Vec<Limit>,
}

impl LeadRule {
    /// Reads it.
    ///
    /// # Errors
    /// A book without one of the values.
    pub fn read(book: &Book) -> Result<Self, TradeError> {
        let (before, houses) = cite::value(book, "lead-houses-before")?;
        let (inside, at_most_inside) = cite::value(book, "lead-minor-inside")?;
        let (outside, at_most_outside) = cite::value(book, "lead-minor-outside")?;
        let (days, same_job) = cite::value(book, "lead-same-job")?;
        let mut limits = vec![houses, at_most_inside, at_most_outside, same_job];
        for row in ["window replacement", "demolition of painted surface", "prohibited practice"] {
            limits.push(cite::row(book, "lead-never-minor", row)?.1);
        }
        Ok(Self { before, inside, outside, days, limits })
    }
    /// Whether the rule names a house of this year.
    pub fn names(&self, year: u32) -> bool {
        f64::from(year) < self.before
    }
    /// Whether painted areas of one room within the days of one job stay minor repair, and their sum.
    pub fn same_room(&self, areas: &[SquareFeet]) -> (f64, bool) {
        let total = areas.iter().map(|a| a.get()).sum::<f64>();
        (total, total <= self.inside + HAIR)
    }
    /// Whether the rule's work practices apply: a house it names, and work that is not minor repair.
    pub fn applies(&self, work: &Work) -> bool {
        let small = work.inside.get() <= self.inside + HAIR && work.outside.get() <= self.outside + HAIR;
        self.names(work.year) && (work.window || work.demolition || work.prohibited || !small)
    }
}

/// Reasons why no area is small enough, in words.
pub fn never_minor(window: bool, demolition: bool, prohibited: bool) -> Vec<Said> {
    let reasons = [
        (demolition, Phrase("trade-painted-surface-demolished")),
        (window, Phrase("trade-window-replaced-2")),
        (prohibited, Phrase("trade-prohibited-practice-used")),
    ];
    reasons.into_iter().filter(|(is, _)| *is).map(|(_, words)| words.into()).collect()
}

/// What to know beside every answer about lead.
///
/// # Errors
/// A book without the values of a test.
pub fn notes(book: &Book, rule: &LeadRule) -> Result<(Vec<Said>, Vec<Limit>), TradeError> {
    let (mg, by_area) = cite::row(book, "lead-tested-below", "mg/cm²")?;
    let (percent, by_weight) = cite::row(book, "lead-tested-below", "percent by weight")?;
    let year = rule.before;
    let notes = vec![
        say!("trade-rule-leaves-out-housing", year = format!("{year}")),
        say!("trade-certified-persons-test-below", mg = mg, percent = percent),
        Phrase("trade-open-flames-heat-guns").into(),
        Phrase("trade-epa-reads-demolition-destroying").into(),
    ];
    Ok((notes, vec![by_area, by_weight]))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    fn rule() -> LeadRule {
        LeadRule::read(catalog().shelf.book("old-materials").unwrap()).unwrap()
    }
    fn square_feet(area: f64) -> SquareFeet {
        SquareFeet::new(area).unwrap()
    }

    #[test]
    fn six_inside_and_twenty_outside_are_still_minor() {
        // 40 CFR 745.83, minor repair and maintenance; target housing: built before 1978
        let rule = rule();
        let applies = |year, inside, outside| {
            let (inside, outside) = (square_feet(inside), square_feet(outside));
            rule.applies(&Work { year, inside, outside, ..Work::default() })
        };
        assert!(!applies(1965, 6.0, 0.0) && applies(1965, 6.01, 0.0));
        assert!(!applies(1965, 0.0, 20.0) && applies(1965, 0.0, 20.01));
        assert!(applies(1977, 7.0, 0.0) && !applies(1978, 700.0, 700.0));
    }

    #[test]
    fn nothing_is_minor_with_demolition_a_window_or_a_prohibited_practice() {
        let rule = rule();
        let none = Work { year: 1965, inside: square_feet(0.5), ..Work::default() };
        assert!(!rule.applies(&none));
        for work in [
            Work { window: true, ..none },
            Work { demolition: true, ..none },
            Work { prohibited: true, ..none },
        ] {
            assert!(rule.applies(&work));
            assert!(!rule.applies(&Work { year: 1978, ..work }));
        }
    }

    #[test]
    fn areas_of_one_room_add_up_within_the_days_of_one_job() {
        // 40 CFR 745.83: 3 + 2.5 + 1 = 6.5 ft², no longer minor
        let sums = |areas: &[f64]| {
            let areas: Vec<_> = areas.iter().map(|a| square_feet(*a)).collect();
            rule().same_room(&areas)
        };
        assert_eq!(sums(&[3.0, 2.5, 1.0]), (6.5, false));
        assert!(sums(&[1.1, 2.2, 2.7]).1); // 6 in tenths, a hair over it in binary
        assert_eq!(sums(&[]), (0.0, true));
        assert_eq!(rule().days, 30.0);
    }
}
