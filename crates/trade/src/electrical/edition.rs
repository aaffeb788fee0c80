//! Which edition of the code a question is answered under.

use alloc::string::String;

use survey::Phrase;
use survey::catalog::{Book, Catalog, Family};

use super::CAUTION;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::sheet::{Sheet, Standing};

/// Asks for the edition; without an answer the firm's book holds, or every book.
pub const EDITION: Field =
    Field::may("edition", Phrase("trade-which-edition-nec-governs"), Kind::Word(&["2011", "2020", "2023"]));

/// Editions whose books stand in the catalog, old to new.
pub const EDITIONS: [u32; 3] = [2011, 2020, 2023];
/// Earliest and latest year taken for an edition.
const YEARS: [u32; 2] = [1996, 2035];

/// Id of the book of an edition.
pub fn book_id(edition: u32) -> String {
    alloc::format!("nec-{edition}")
}

/// The edition to look into for a year: the newest that is not newer; the oldest for years before it.
///
/// # Errors
/// A year out of all reason.
pub fn edition_for(year: u32) -> Result<u32, TradeError> {
    let [low, high] = YEARS;
    if !(low..=high).contains(&year) {
        let (value, low, high) = (f64::from(year), f64::from(low), f64::from(high));
        return Err(TradeError::OutOfRange {
            what: Phrase("trade-edition-code"),
            value,
            low,
            high,
            unit: "(year)",
        });
    }
    Ok(EDITIONS.into_iter().rev().find(|of| *of <= year).unwrap_or(EDITIONS[0]))
}

/// When editions count as giving one answer.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Alike {
    /// They stand the same; a quantity must also be the same.
    Standing,
    /// They say the same in words: what is counted is itself the answer.
    Words,
}

/// Answers under the edition that was asked for, else under the firm's book, else under every book; where those
/// are not alike, the answer is "ask locally".
///
/// # Errors
/// As `answer`, or a catalog without the book.
pub fn under(
    given: &Given,
    catalog: &Catalog,
    alike: Alike,
    answer: impl Fn(&Book) -> Result<Sheet, TradeError>,
) -> Result<Sheet, TradeError> {
    let none = TradeError::NoBook { family: Family::Electrical.word() };
    if let Some(year) = given.word("edition") {
        return answer(catalog.shelf.book(&alloc::format!("nec-{year}")).ok_or(none)?);
    }
    let (books, _) = cite::books(&catalog.shelf, Family::Electrical)?;
    let first = answer(books.first().ok_or(none)?)?;
    cite::across(&catalog.shelf, Family::Electrical, CAUTION, |book| {
        let mut sheet = answer(book)?;
        // Books are told apart by how they stand; one that says something else says so by standing apart.
        if sheet.sentence != first.sentence && (alike == Alike::Words || sheet.standing == Standing::Quantity)
        {
            sheet.standing = Standing::AskLocally;
        }
        Ok(sheet)
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn a_year_takes_the_newest_edition_that_is_not_newer() {
        for (year, edition) in [(2005, 2011), (2017, 2011), (2020, 2020), (2022, 2020), (2026, 2023)] {
            assert_eq!(edition_for(year), Ok(edition));
        }
        assert!(edition_for(12).is_err());
    }

    #[test]
    fn every_edition_that_can_be_asked_for_has_its_book() {
        let shelf = catalog().shelf;
        let Kind::Word(words) = EDITION.kind else { panic!("a word") };
        assert_eq!(words.iter().map(|w| w.parse().unwrap()).collect::<alloc::vec::Vec<u32>>(), EDITIONS);
        assert!(EDITIONS.iter().all(|edition| shelf.book(&book_id(*edition)).is_some()));
    }

    #[test]
    fn a_rule_taken_over_from_an_older_edition_says_where_it_was_read() {
        let shelf = catalog().shelf;
        let book = shelf.book("nec-2023").unwrap();
        assert_eq!(cite::value(book, "counter-reach").unwrap().1.edition.read(), "2013, based on NEC 2011");
        assert_eq!(
            cite::value(book, "grounds-more").unwrap().1.edition.read(),
            "2020, as quoted on a public forum"
        );
    }
}
