//! Where a recessed light finds room: between joists, under one, and away from wood and insulation.
//!
//! Geometry is plain and has no source; distances for lights that are not Type IC are NEC 410.116, in the
//! electrical books.

use alloc::{vec, vec::Vec};

use survey::Phrase;
use survey::catalog::Book;

use crate::cite::value;
use crate::error::{TradeError, finite};
use crate::framing::{HAIR, lumber};
use crate::sheet::Limit;

/// Room the spring clips need beside the cut-out, inches: common practice, no source.
pub const CLIP: f64 = 0.25;

/// Depth of dry dressed lumber, inches: what a joist bay offers.
///
/// # Errors
/// A size the framing book does not know.
pub fn bay_depth(framing: &Book, nominal: &str) -> Result<f64, TradeError> {
    Ok(lumber::depth(framing, nominal)?.0)
}

/// Whether a flat light may lie under a joist: its body no deeper than the ceiling board; inches.
pub fn lies_under_joist(body: f64, board: f64) -> bool {
    body <= board + HAIR
}

/// Room between the cut-out with its clips and the joist: negative where they overlap; inches.
pub fn room_beside_joist(to_joist_center: f64, joist_thickness: f64, cut_out: f64, clip: f64) -> f64 {
    to_joist_center - joist_thickness / 2.0 - cut_out / 2.0 - clip
}

/// Whether a cut-out and its clips stay off the joist; inches.
///
/// # Errors
/// A framing book without the thickness of lumber, or a number that is not finite.
pub fn stays_off_joist(
    framing: &Book,
    to_joist_center: f64,
    cut_out: f64,
    clip: f64,
) -> Result<bool, TradeError> {
    let (thickness, _) = lumber::thickness(framing)?;
    let to_joist_center = finite(Phrase("trade-distance-joist"), to_joist_center)?;
    let room = room_beside_joist(
        to_joist_center,
        thickness,
        finite(Phrase("trade-cut-out"), cut_out)?,
        finite(Phrase("trade-clip"), clip)?,
    );
    Ok(room >= -HAIR)
}

/// Distances for a light that is not Type IC.
#[derive(Clone, PartialEq, Debug)]
pub struct Distances {
    /// To combustible material, inches.
    pub combustible: f64,
    /// To insulation, inches; none above.
    pub insulation: f64,
    /// Where they stand.
    pub limits: Vec<Limit>,
}

/// The distances of an electrical book.
///
/// # Errors
/// A book without them.
pub fn distances(electrical: &Book) -> Result<Distances, TradeError> {
    let (combustible, wood) = value(electrical, "recessed-combustible")?;
    let (insulation, wool) = value(electrical, "recessed-insulation")?;
    Ok(Distances { combustible, insulation, limits: vec![wood, wool] })
}

impl Distances {
    /// Whether a light keeps them; one that is Type IC may touch both. Inches.
    pub fn kept(&self, type_ic: bool, to_insulation: f64, to_combustible: f64) -> bool {
        type_ic || (to_insulation >= self.insulation - HAIR && to_combustible >= self.combustible - HAIR)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn a_flat_light_lies_under_a_joist_only_within_the_board() {
        // Own geometry: nothing may stand into the joist
        let got = [(0.5, 0.5), (0.5, 0.625), (1.0, 0.625), (0.75, 0.625), (0.625, 0.625)]
            .map(|(body, board)| lies_under_joist(body, board));
        assert_eq!(got, [true, true, false, false, true]);
    }

    #[test]
    fn half_the_joist_half_the_cut_out_and_the_clips() {
        // Own geometry: distance − 3/4 against cut-out/2 + 1/4
        let shelf = catalog().shelf;
        let framing = shelf.book("irc-2012-framing").unwrap();
        let off = |to, cut_out| stays_off_joist(framing, to, cut_out, 0.25).unwrap();
        assert_eq!(
            [off(8.0, 6.25), off(3.0, 4.25), off(3.2, 4.25), off(3.125, 4.25)],
            [true, false, true, true]
        );
        assert!(stays_off_joist(framing, f64::NAN, 4.0, 0.25).is_err());
    }

    #[test]
    fn type_ic_may_touch_and_others_keep_half_an_inch_and_three() {
        // California Electrical Code 2013 (NEC 2011) 410.116(A), (B)
        let shelf = catalog().shelf;
        for id in ["nec-2011", "nec-2020", "nec-2023"] {
            let d = distances(shelf.book(id).unwrap()).unwrap();
            assert!(d.kept(true, 0.0, 0.0) && d.kept(false, 3.0, 0.5));
            assert!(!d.kept(false, 2.9, 0.5) && !d.kept(false, 3.0, 0.4) && !d.kept(false, 0.0, 0.0));
        }
    }
}
