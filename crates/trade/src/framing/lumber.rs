//! Dressed lumber: what a nominal size measures (American Softwood Lumber Standard PS 20, in the framing book).

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::ranged;
use crate::cite::{row, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::sheet::Limit;
use crate::tolerance::Reading;

/// Nominal sizes asked for, shallow to deep.
pub const NAMES: &[&str] = &["2x4", "2x6", "2x8", "2x10", "2x12"];

/// σ of the depth of a dry dressed member, inches: common practice, no source.
pub const DEPTH_SIGMA: f64 = 1.0 / 32.0;

/// Depths taken, inches.
const DEPTHS: (f64, f64) = (1.0, 24.0);

/// The nominal size.
pub(crate) const LUMBER: Field = Field::may("lumber", Phrase("trade-what-lumber"), Kind::Word(NAMES));
/// The depth as measured.
pub(crate) const DEPTH: Field = Field::may(
    "depth",
    Phrase("trade-how-deep-measured-where"),
    Kind::Length { min: DEPTHS.0, max: DEPTHS.1, feet: false },
);
/// What is missing where neither was given.
pub(crate) const MISSING: Phrase = Phrase("trade-lumber-measured-depth");

/// Depth of dry dressed lumber in inches, and where it stands.
///
/// # Errors
/// A size the table does not know, or a book without it.
pub fn depth(book: &Book, lumber: &str) -> Result<(f64, Limit), TradeError> {
    row(book, "lumber-depth", lumber)
}

/// Thickness of dry dressed 2-by lumber in inches, and where it stands.
///
/// # Errors
/// A book without it.
pub fn thickness(book: &Book) -> Result<(f64, Limit), TradeError> {
    value(book, "lumber-thickness")
}

/// A stud, joist or plate of known depth.
#[derive(Clone, PartialEq, Debug)]
pub struct Member {
    /// Name, such as "2x4".
    pub(crate) name: Said,
    /// Depth across which it is bored, inches.
    pub(crate) depth: f64,
    /// Its σ.
    pub(crate) sigma: f64,
    /// Where the depth stands, unless it was measured.
    pub(crate) limit: Option<Limit>,
}

impl Member {
    /// A member of dressed lumber.
    ///
    /// # Errors
    /// A size the table does not know, or a book without it.
    pub fn of_lumber(book: &Book, lumber: &str) -> Result<Self, TradeError> {
        let (depth, limit) = depth(book, lumber)?;
        Ok(Self { name: lumber.into(), depth, sigma: DEPTH_SIGMA, limit: Some(limit) })
    }
    /// A member as measured: old stock is full-sawn or 1-5/8 × 3-5/8.
    ///
    /// # Errors
    /// A depth outside 1 to 24 in.
    pub fn measured(depth: Reading) -> Result<Self, TradeError> {
        let depth = ranged(Phrase("trade-depth-member"), depth, DEPTHS.0, DEPTHS.1)?;
        let name = say!("trade-deep", depth = super::inch(depth.inches()));
        Ok(Self { name, depth: depth.inches(), sigma: depth.sigma(DEPTH_SIGMA), limit: None })
    }
    /// Out of the answers; none if neither size nor depth was given. A measured depth outranks the nominal size.
    pub(crate) fn read(given: &Given, book: &Book) -> Result<Option<Self>, TradeError> {
        match (given.length("depth"), given.word("lumber")) {
            (Some(depth), lumber) => {
                let mut member = Self::measured(depth)?;
                if let Some(lumber) = lumber {
                    member.name = say!("trade-name-at", name = lumber, depth = member.name);
                }
                Ok(Some(member))
            }
            (None, Some(lumber)) => Self::of_lumber(book, lumber).map(Some),
            (None, None) => Ok(None),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn dressed_lumber_measures_less_than_its_name() {
        // PS 20-05, dry dressed sizes, as reprinted in tables
        let shelf = catalog().shelf;
        let book = shelf.book("irc-2012-framing").unwrap();
        for (name, inches) in [("2x4", 3.5), ("2x6", 5.5), ("2x8", 7.25), ("2x10", 9.25), ("2x12", 11.25)] {
            assert_eq!(depth(book, name).unwrap().0, inches);
        }
        assert_eq!(thickness(book).unwrap().0, 1.5);
        let error = depth(book, "2x5").unwrap_err().message().en();
        assert!(error.contains("2x4, 2x6, 2x8, 2x10, 2x12"), "{error}");
        assert!(NAMES.iter().all(|n| depth(book, n).is_ok()));
    }
}
