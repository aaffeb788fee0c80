//! One trade calculation on answers given by hand, apart from any house.

use survey::catalog::{Catalog, Family};
use trade::given::Given;
use trade::{Calculation, Sheet, TradeError, calculations, find};
use words::msg;

use crate::{Error, Kind};

/// A calculation by its word.
///
/// # Errors
/// No calculation has that word; the hint names the nearest.
pub fn calculation(word: &str) -> Result<&'static Calculation, Error> {
    find(word).ok_or_else(|| {
        let near = survey::catalog::nearest(word, calculations().map(|c| c.word));
        let hint = match near {
            Some(near) => msg!("error-did-you-mean-hint", word = near),
            None => msg!("error-no-calculation-hint"),
        };
        Error::new(Kind::Missing, msg!("error-no-calculation", word = short(word))).hint(hint)
    })
}

/// Runs a calculation on written answers, name and text each.
///
/// # Errors
/// An answer that cannot be read or taken: which, and how to write it. A missing one is no error: the sheet then says
/// what is missing.
pub fn calculate(
    calculation: &Calculation,
    answers: &[(String, String)],
    catalog: &Catalog,
) -> Result<Sheet, Error> {
    let given = Given::read(calculation.fields, answers).map_err(input)?;
    (calculation.run)(&given, catalog).map_err(input)
}

/// The catalog with other code books for this once, each as "family=book".
///
/// # Errors
/// A family or a book that is not there.
pub fn with_books(mut catalog: Catalog, choices: &[String]) -> Result<Catalog, Error> {
    for choice in choices {
        let (family, book) = choice.split_once('=').unwrap_or((choice.as_str(), ""));
        let family = family_of(family)?;
        known_book(&catalog, family, book)?;
        catalog = catalog.choosing(family, book);
    }
    Ok(catalog)
}

/// The family of codes of a word.
pub(crate) fn family_of(word: &str) -> Result<Family, Error> {
    Family::ALL.into_iter().find(|f| f.word() == word).ok_or_else(|| {
        let families = Family::ALL.map(Family::word).join(", ");
        Error::new(Kind::Input, msg!("error-no-family", word = short(word)))
            .hint(msg!("error-no-family-hint", families = families))
    })
}

/// Checks that a family has a book of this id.
pub(crate) fn known_book(catalog: &Catalog, family: Family, book: &str) -> Result<(), Error> {
    let books: Vec<&str> =
        catalog.shelf.books().filter(|b| b.family == family).map(|b| b.id.as_str()).collect();
    if books.contains(&book) {
        return Ok(());
    }
    let message = msg!("error-no-book", word = short(book), family = family.word());
    Err(Error::new(Kind::Missing, message).hint(msg!("error-no-book-hint", books = books)))
}

fn input(error: TradeError) -> Error {
    Error::new(Kind::Input, error.message())
}

fn short(text: &str) -> String {
    text.chars().take(60).collect()
}
