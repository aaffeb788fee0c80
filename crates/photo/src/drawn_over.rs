//! A copy of a photograph with a drawing burnt in: for whoever gets a picture and no drawing beside it.
//!
//! resvg rasterizes (well kept, pure Rust, already in the tree through the pages, which set the same drawing with it).
//! The drawing brings its own face; no font, file or address of the machine is looked at.

use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree};

use crate::clean;
use crate::error::{PhotoError, Problem, tidy};
use crate::intake::facts_of;
use crate::pixels::{Pixels, small};
use crate::preview::{MAX_SIDE, encoded};

/// What is drawn over a photograph.
#[derive(Debug, Clone, Copy)]
pub struct Drawing<'a> {
    /// An SVG of the upright photograph's own size.
    pub svg: &'a str,
    /// The face its words are set in, TrueType or OpenType; the only one that is looked at.
    pub face: &'a [u8],
}

/// A JPEG of the photograph turned upright and in sRGB, its longer side at most `longest` pixels and never enlarged, with
/// the drawing in its pixels. It holds the time taken, if the camera wrote one, and otherwise nothing but the picture.
/// `orientation` as for [`crate::thumbnail()`]. The photograph given is not changed.
///
/// # Errors
/// As [`crate::thumbnail()`], and when the drawing is no SVG that can be read.
pub fn drawn_over(
    bytes: &[u8],
    orientation: u8,
    longest: u32,
    drawing: Drawing<'_>,
) -> Result<Vec<u8>, PhotoError> {
    let made = || {
        let picture = small(bytes, orientation, longest.clamp(1, MAX_SIDE))?;
        let jpeg = encoded(&over(picture, drawing)?)?;
        clean::upright_and_dated(&jpeg, &facts_of(bytes)?)
    };
    made().map_err(PhotoError::unnamed)
}

/// The drawing laid over the picture, stretched to its size.
fn over(mut picture: Pixels, drawing: Drawing<'_>) -> Result<Pixels, Problem> {
    let undrawn = |reason: String| Problem::Undrawn { reason: tidy(&reason, 200) };
    let mut options = Options::default();
    options.fontdb_mut().load_font_data(drawing.face.to_vec());
    let tree = Tree::from_str(drawing.svg, &options).map_err(|e| undrawn(e.to_string()))?;
    let mut layer = Pixmap::new(picture.width, picture.height)
        .ok_or_else(|| undrawn(format!("{} × {} pixels", picture.width, picture.height)))?;
    let size = tree.size();
    let stretch =
        Transform::from_scale(picture.width as f32 / size.width(), picture.height as f32 / size.height());
    resvg::render(&tree, stretch, &mut layer.as_mut());
    for (under, drawn) in picture.rgb.chunks_exact_mut(3).zip(layer.pixels()) {
        let through = u32::from(255 - drawn.alpha());
        for (value, ink) in under.iter_mut().zip([drawn.red(), drawn.green(), drawn.blue()]) {
            // Ink is multiplied by its alpha already, so the sum is at most 255.
            let shines = (u32::from(*value) * through + 127) / 255;
            *value = (shines + u32::from(ink)).min(255) as u8;
        }
    }
    Ok(picture)
}

#[cfg(test)]
mod tests {
    use super::*;

    const GREY: [u8; 3] = [120, 120, 120];
    const PENCIL: [u8; 3] = [0x4b, 0x23, 0x94];

    fn plain() -> Pixels {
        Pixels { width: 40, height: 30, rgb: GREY.repeat(40 * 30) }
    }
    fn drawing(svg: &str) -> Drawing<'_> {
        Drawing { svg, face: &[] }
    }

    #[test]
    fn pixels_under_a_line_are_its_color_and_all_others_stay_to_the_value() {
        // Twice the picture's size: a line of 8 from column 10 to 14 and row 5 to 25 once it is stretched.
        let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 80 60" width="80" height="60">
            <path d="M24 10 L24 50" stroke="#4B2394" stroke-width="8"/></svg>"##;
        let out = over(plain(), drawing(svg)).unwrap();
        for (at, pixel) in out.rgb.chunks_exact(3).enumerate() {
            let (x, y) = (at % 40, at / 40);
            let drawn = (10..14).contains(&x) && (5..25).contains(&y);
            assert_eq!(pixel, if drawn { PENCIL } else { GREY }, "{x}, {y}");
        }
    }

    #[test]
    fn half_seen_ink_lets_half_of_the_picture_through() {
        let svg = r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30" width="40" height="30">
            <rect width="40" height="30" fill="#000" fill-opacity="0.5"/></svg>"##;
        let out = over(plain(), drawing(svg)).unwrap();
        assert!(out.rgb.iter().all(|&value| value.abs_diff(60) <= 1), "{:?}", &out.rgb[..3]);
    }

    #[test]
    fn a_drawing_that_is_none_is_refused_and_one_that_asks_for_a_file_gets_nothing() {
        assert!(matches!(over(plain(), drawing("arrows")), Err(Problem::Undrawn { .. })));
        let svg = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 30" width="40" height="30">
            <image href="/etc/hostname" width="40" height="30"/></svg>"#;
        assert_eq!(over(plain(), drawing(svg)).unwrap(), plain());
    }
}
