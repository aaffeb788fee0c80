//! Outside diameters of pipe by material and nominal size: iron pipe size, copper tube size, hubless cast iron. The
//! tables, each with its standard, are in the framing book. A reading taken on the pipe outranks them.

use alloc::vec::Vec;

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::ranged;
use crate::cite::{row, table};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, choice};
use crate::sheet::Limit;
use crate::tolerance::Reading;

/// Materials by the words the trade writes, and the table of each.
pub const MATERIALS: [(&str, &str); 6] = [
    ("PVC/ABS DWV", "pipe-od-pvc-abs-dwv"),
    ("copper K/L/M", "pipe-od-copper"),
    ("PEX", "pipe-od-pex"),
    ("CPVC-CTS", "pipe-od-cpvc-cts"),
    ("steel sch 40", "pipe-od-steel-sch-40"),
    ("hubless cast iron", "pipe-od-hubless-cast-iron"),
];
const WORDS: &[&str] =
    &["PVC/ABS DWV", "copper K/L/M", "PEX", "CPVC-CTS", "steel sch 40", "hubless cast iron"];
/// Materials hard enough that the published rule asks no nail plate for them.
const HARD: [&str; 2] = ["steel sch 40", "hubless cast iron"];

/// σ of an outside diameter out of a table, inches: about a third of what the standards let a pipe vary; common
/// practice, no source.
pub const TABLE_SIGMA: f64 = 0.003;
/// σ of an outside diameter measured with a tape or caliper, inches: common practice, no source.
pub const MEASURED_SIGMA: f64 = 1.0 / 32.0;
/// Outside diameters taken, inches.
const DIAMETERS: (f64, f64) = (0.125, 12.0);

/// The material.
pub(crate) const MATERIAL: Field = Field::may("material", Phrase("trade-what-pipe-made"), Kind::Word(WORDS));
/// The nominal size.
pub(crate) const SIZE: Field = Field::may(
    "size",
    Phrase("trade-what-nominal-size"),
    Kind::Word(&["3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4"]),
);
/// The outside diameter as measured.
pub(crate) const OUTSIDE: Field = Field::may(
    "outside",
    Phrase("trade-how-thick-pipe-outside"),
    Kind::Length { min: DIAMETERS.0, max: DIAMETERS.1, feet: false },
);

/// Outside diameter in inches, and where it stands.
///
/// # Errors
/// An unknown material or size, with those that are known.
pub fn outside(book: &Book, material: &str, nominal: &str) -> Result<(f64, Limit), TradeError> {
    let Some((_, id)) = MATERIALS.iter().find(|(word, _)| *word == material) else {
        let value = material.chars().take(60).collect();
        return Err(TradeError::NoWord { what: Phrase("trade-material"), value, known: WORDS.join(", ") });
    };
    row(book, id, nominal)
}

/// A pipe that has to go through.
#[derive(Clone, PartialEq, Debug)]
pub struct Pipe {
    /// Name, such as "1-1/2 PVC/ABS DWV".
    pub(crate) name: Said,
    /// Outside diameter, inches.
    pub(crate) outside: f64,
    /// Its σ.
    pub(crate) sigma: f64,
    /// Steel or cast iron.
    pub(crate) hard: bool,
    /// Where the diameter stands, unless it was measured.
    pub(crate) limit: Option<Limit>,
}

impl Pipe {
    /// A pipe by material and nominal size.
    ///
    /// # Errors
    /// As [`outside`].
    pub fn of_size(book: &Book, material: &str, nominal: &str) -> Result<Self, TradeError> {
        let (outside, limit) = outside(book, material, nominal)?;
        let name = Said::between(" ", [nominal.into(), choice(material)]);
        let hard = HARD.contains(&material);
        Ok(Self { name, outside, sigma: TABLE_SIGMA, hard, limit: Some(limit) })
    }
    /// A pipe as measured.
    ///
    /// # Errors
    /// A diameter outside 1/8 to 12 in.
    pub fn measured(outside: Reading) -> Result<Self, TradeError> {
        let outside = ranged(Phrase("trade-outside-diameter"), outside, DIAMETERS.0, DIAMETERS.1)?;
        let name = say!("trade-pipe", outside = super::inch(outside.inches()));
        let sigma = outside.sigma(MEASURED_SIGMA);
        Ok(Self { name, outside: outside.inches(), sigma, hard: false, limit: None })
    }
    /// Out of the answers, or what is missing. A measured diameter outranks the nominal size.
    pub(crate) fn read(given: &Given, book: &Book) -> Result<Result<Self, Said>, TradeError> {
        let (material, size) = (given.word("material"), given.word("size"));
        if let Some(measured) = given.length("outside") {
            let mut pipe = Self::measured(measured)?;
            pipe.hard = material.is_some_and(|m| HARD.contains(&m));
            return Ok(Ok(pipe));
        }
        match (material, size) {
            (Some(material), Some(size)) => match Self::of_size(book, material, size) {
                Err(TradeError::NoRow { known, .. }) => Ok(Err(say!(
                    "trade-size-listed-outside-diameter",
                    material = choice(material),
                    known = known
                ))),
                other => other.map(Ok),
            },
            (Some(material), None) => {
                let id = MATERIALS.iter().find(|(word, _)| *word == material).map_or("", |(_, id)| id);
                let known: Vec<&str> = table(book, id)?.rows.iter().map(|(n, _)| n.as_str()).collect();
                Ok(Err(say!("trade-size-pipe-outside-diameter", known = known.join(", "))))
            }
            (None, Some(_)) => Ok(Err(say!("trade-material-pipe-outside-diameter"))),
            (None, None) => Ok(Err(say!("trade-material-size-pipe-outside"))),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn nominal_sizes_are_smaller_than_the_pipe() {
        // ASTM D2665/D2661 and A53 (iron pipe size), B88, F876, D2846 (nominal and 1/8), CISPI 301
        let shelf = catalog().shelf;
        let book = shelf.book("irc-2012-framing").unwrap();
        for (material, nominal, inches) in [
            ("PVC/ABS DWV", "1-1/2", 1.9),
            ("PVC/ABS DWV", "4", 4.5),
            ("steel sch 40", "1/2", 0.84),
            ("steel sch 40", "1-1/4", 1.66),
            ("copper K/L/M", "1-1/2", 1.625),
            ("PEX", "3/4", 0.875),
            ("CPVC-CTS", "1", 1.125),
            ("hubless cast iron", "3", 3.35),
        ] {
            assert_eq!(outside(book, material, nominal).unwrap().0, inches, "{material} {nominal}");
        }
        for (material, id) in MATERIALS {
            for (name, od) in &book.table(id).unwrap().rows {
                assert!(*od > crate::number::size_inches(name).unwrap(), "{material} {name}");
            }
        }
    }

    #[test]
    fn copper_is_an_eighth_over_its_name() {
        // ASTM B88: outside diameter is the nominal size and 1/8 in
        let shelf = catalog().shelf;
        for (name, od) in
            &shelf.book("irc-2012-framing").unwrap().table("pipe-od-copper").unwrap().rows.clone()
        {
            assert!((od - crate::number::size_inches(name).unwrap() - 0.125).abs() < 1e-12, "{name}");
        }
    }

    #[test]
    fn an_unknown_pipe_says_what_is_known() {
        let shelf = catalog().shelf;
        let book = shelf.book("irc-2012-framing").unwrap();
        let error = outside(book, "clay", "4").unwrap_err().message().en();
        assert!(error.contains("PVC/ABS DWV, copper K/L/M"), "{error}");
        let error = outside(book, "PEX", "2").unwrap_err().message().en();
        assert!(error.contains("1/2, 3/4, 1"), "{error}");
    }
}
