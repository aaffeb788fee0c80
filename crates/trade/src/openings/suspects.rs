//! Materials in old houses that may hold asbestos, and materials whose dust holds silica.
//!
//! No word here says that a material is free of either. The presumption by year is OSHA's (29 CFR 1926.1101, from
//! memory); amounts that want notice are EPA's (40 CFR 61.145); air values are OSHA's (29 CFR 1926.1153).

use alloc::{format, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::cite;
use crate::error::TradeError;
use crate::openings::hole::Surface;
use crate::sheet::Limit;

/// What a material is suspected of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Suspect {
    /// Its word.
    pub word: &'static str,
    /// Its name.
    pub name: Phrase,
    /// Row of the table of presumed materials, where one names it.
    presumed: Option<&'static str>,
    /// Suspected by the trade (common practice, no source).
    by_practice: bool,
    /// Its dust holds silica.
    silica: bool,
}

const fn suspect(
    word: &'static str,
    name: Phrase,
    presumed: Option<&'static str>,
    by_practice: bool,
    silica: bool,
) -> Suspect {
    Suspect { word, name, presumed, by_practice, silica }
}

const SURFACING: Option<&str> = Some("sprayed or troweled surfacing");
const INSULATION: Option<&str> = Some("thermal insulation");
const FLOORING: Option<&str> = Some("resilient flooring");

/// Every material known, by word.
pub const SUSPECTS: [Suspect; 15] = [
    suspect("plaster", Phrase("trade-plaster"), SURFACING, false, true),
    suspect("joint-compound", Phrase("trade-joint-compound-wallboard"), None, true, false),
    suspect("texture", Phrase("trade-ceiling-wall-texture"), SURFACING, false, false),
    suspect("ceiling-tile", Phrase("trade-ceiling-tile"), None, true, false),
    suspect("resilient-floor", Phrase("trade-resilient-flooring"), FLOORING, false, false),
    suspect("floor-adhesive", Phrase("trade-black-floor-adhesive"), None, true, false),
    suspect("pipe-insulation", Phrase("trade-pipe-insulation"), INSULATION, false, false),
    suspect("duct-insulation", Phrase("trade-duct-insulation-tape"), INSULATION, false, false),
    suspect("loose-fill", Phrase("trade-loose-fill-insulation"), None, true, false),
    suspect("cement-board", Phrase("trade-cement-board-siding"), None, true, true),
    suspect("tile", Phrase("trade-tile-bed"), None, false, true),
    suspect("brick", Phrase("trade-brick-mortar"), None, false, true),
    suspect("block", Phrase("trade-concrete-block"), None, false, true),
    suspect("concrete", Phrase("trade-concrete-poured"), None, false, true),
    suspect("stone", Phrase("trade-stone-engineered-stone"), None, false, true),
];

/// Words of the materials, in the order of [`SUSPECTS`].
pub const MATERIALS: &[&str] = &[
    "plaster",
    "joint-compound",
    "texture",
    "ceiling-tile",
    "resilient-floor",
    "floor-adhesive",
    "pipe-insulation",
    "duct-insulation",
    "loose-fill",
    "cement-board",
    "tile",
    "brick",
    "block",
    "concrete",
    "stone",
];

/// What may lie in or behind a surface that nobody has described.
pub const fn behind(surface: Surface) -> &'static [&'static str] {
    match surface {
        Surface::Wall => &["plaster", "joint-compound", "pipe-insulation", "duct-insulation"],
        Surface::Ceiling => &["plaster", "joint-compound", "texture", "ceiling-tile", "pipe-insulation"],
        Surface::Floor => &["resilient-floor", "floor-adhesive", "pipe-insulation"],
        Surface::Outside => &["cement-board"],
    }
}

/// The amount from which notice and work rules hold in a facility: of `pipe_linear_ft`, `other_sqft` or
/// `off_component_cuft`.
///
/// # Errors
/// An unknown kind, with the known ones.
pub fn notice_from(book: &Book, kind: &str) -> Result<(f64, Limit), TradeError> {
    cite::row(book, "asbestos-notice", kind)
}

/// Whether a residential building is a facility by its dwelling units: over four, or one of several on a site under
/// one owner or operator.
///
/// # Errors
/// A book without the value.
pub fn is_facility(book: &Book, units: u32, alone: bool) -> Result<(bool, Limit), TradeError> {
    let (most, limit) = cite::value(book, "asbestos-notice-units")?;
    Ok((f64::from(units) > most || !alone, limit))
}

/// "tile or brick".
fn or(all: Vec<Phrase>) -> Said {
    let all = all.into_iter().map(Said::from);
    all.reduce(|before, next| say!("trade-or-2", before = before, next = next)).unwrap_or_default()
}

/// Permissible exposure limit and action level for silica in air, µg/m³ over eight hours.
///
/// # Errors
/// A book without them.
pub fn silica_in_air(book: &Book) -> Result<([f64; 2], [Limit; 2]), TradeError> {
    let (pel, pel_limit) = cite::row(book, "silica-air", "permissible exposure limit")?;
    let (action, action_limit) = cite::row(book, "silica-air", "action level")?;
    Ok(([pel, action], [pel_limit, action_limit]))
}

/// What to say about a list of materials in a house of a year, and where it stands.
///
/// # Errors
/// A book without one of the values.
pub fn cautions(
    book: &Book,
    year: Option<u32>,
    materials: &[&str],
) -> Result<(Vec<Said>, Vec<Limit>), TradeError> {
    let there: Vec<&Suspect> = SUSPECTS.iter().filter(|s| materials.contains(&s.word)).collect();
    let (mut notes, mut limits) = (Vec::new(), Vec::new());
    let mut presumed = Vec::new();
    let mut test_first = Vec::new();
    for one in &there {
        if let Some(row) = one.presumed {
            let (to, limit) = cite::row(book, "asbestos-presumed-to", row)?;
            if !limits.contains(&limit) {
                limits.push(limit);
            }
            match year {
                Some(year) if f64::from(year) > to => test_first.push(one.name),
                _ => presumed.push(one.name),
            }
        }
        if one.by_practice {
            test_first.push(one.name);
        }
    }
    if !presumed.is_empty() {
        let why =
            year.map_or_else(|| say!("trade-year-not-known"), |y| say!("trade-built", y = format!("{y}")));
        let list = presumed;
        notes.push(say!("trade-presume-asbestos-until-test", why = why, list = list));
    }
    if !test_first.is_empty() {
        let list = test_first;
        notes.push(say!("trade-have-these-tested-before", list = list));
        let rule = Phrase("trade-test-before-cutting-joint");
        limits.push(Limit::practice(rule, Phrase("trade-any-year")));
    }
    let ([pel, action], air) = silica_in_air(book)?;
    let (tools, table_1) = cite::value(book, "silica-tools")?;
    let dusty: Vec<Phrase> = there.iter().filter(|s| s.silica).map(|s| s.name).collect();
    let what = if dusty.is_empty() {
        say!("trade-cutting-grinding-tile-masonry")
    } else {
        say!("trade-cutting-grinding", dusty = or(dusty))
    };
    notes.push(say!("trade-makes-silica-dust-water", what = what, tools = tools, pel = pel, action = action));
    limits.extend(air);
    limits.push(table_1);
    Ok((notes, limits))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;
    use crate::testing::{English as _, EnglishList as _};

    fn book() -> Book {
        catalog().shelf.book("old-materials").cloned().unwrap()
    }

    #[test]
    fn amounts_and_air_values_are_the_published_ones() {
        // 40 CFR 61.145(a); 29 CFR 1926.1153
        for (kind, amount) in [("pipe_linear_ft", 260.0), ("other_sqft", 160.0), ("off_component_cuft", 35.0)]
        {
            assert_eq!(notice_from(&book(), kind).unwrap().0, amount);
        }
        let error = notice_from(&book(), "pipe").unwrap_err().message().en();
        assert!(error.contains("pipe_linear_ft, other_sqft, off_component_cuft"), "{error}");
        assert_eq!(silica_in_air(&book()).unwrap().0, [50.0, 25.0]);
    }

    #[test]
    fn four_units_standing_alone_are_no_facility() {
        // 40 CFR 61.141; 60 FR 38725
        let facility = |units, alone| is_facility(&book(), units, alone).unwrap().0;
        assert!(!facility(1, true) && !facility(4, true) && facility(5, true) && facility(1, false));
    }

    #[test]
    fn nothing_is_ever_said_to_be_free_of_asbestos() {
        for year in [None, Some(1950), Some(1980), Some(1981), Some(2020)] {
            let notes = cautions(&book(), year, MATERIALS).unwrap().0.join(" ");
            assert!(!notes.contains("free") && !notes.contains("safe"), "{notes}");
            let presumed = notes.contains("Presume asbestos");
            assert_eq!(presumed, year.is_none_or(|y| y <= 1980), "{year:?}");
            assert!(notes.contains("joint compound") && notes.contains("pipe insulation"), "{notes}");
        }
    }

    #[test]
    fn the_words_and_the_table_are_one_list() {
        let words: Vec<&str> = SUSPECTS.iter().map(|s| s.word).collect();
        assert_eq!(words, MATERIALS);
        for surface in Surface::ALL {
            assert!(behind(surface).iter().all(|w| MATERIALS.contains(w)));
        }
    }
}
