//! The key of a drawing: what its marks stand for.

use alloc::string::String;

use super::canvas::Canvas;
use super::lettering::{fit, width};
use super::parts::{found, proposed};
use super::pens::{Fill, Ink, Letter, Pen};

/// A mark of the key.
#[derive(Clone, Copy)]
pub(super) enum Sign {
    Found,
    Proposed,
    Line(Pen),
    Swatch(Fill, Pen),
    /// A light; moved or not.
    Light(bool),
    /// Off with a chance: a share of the field filled.
    Share(f64),
}

/// Width of a sign.
const SIGN: f64 = 36.0;
const AFTER: f64 = 24.0;
const ROW: f64 = 26.0;

impl Sign {
    fn draw(self, c: &mut Canvas<'_>, x: f64, y: f64) {
        let middle = x + SIGN / 2.0;
        match self {
            Self::Found => found(c, middle, y, 5.5),
            Self::Proposed => proposed(c, middle, y, 6.0),
            Self::Line(pen) => c.line(x, y, x + SIGN, y, pen),
            Self::Swatch(fill, pen) => c.rect(x + 3.0, y - 8.0, SIGN - 6.0, 16.0, fill, Some(pen)),
            Self::Light(moved) => light(c, middle, y, 6.5, moved),
            Self::Share(share) => {
                c.rect(
                    x + 3.0,
                    y + 8.0 - 16.0 * share,
                    SIGN - 6.0,
                    16.0 * share,
                    Fill::Flat(Ink::Strong),
                    None,
                );
                c.rect(x + 3.0, y - 8.0, SIGN - 6.0, 16.0, Fill::None, Some(Pen::whole(Ink::Strong, 1.25)));
            }
        }
    }
}

/// A light seen from below: a circle with a cross; moved ones in the pencil.
pub(super) fn light(c: &mut Canvas<'_>, x: f64, y: f64, r: f64, moved: bool) {
    let pen = if moved { Pen::whole(Ink::Mark, 2.5) } else { Pen::SEEN };
    c.circle(x, y, r, Fill::Flat(Ink::Paper), Some(pen));
    let cross = if moved { Pen::whole(Ink::Mark, 1.25) } else { Pen::BEYOND };
    c.line(x - r - 4.0, y, x + r + 4.0, y, cross);
    c.line(x, y - r - 4.0, x, y + r + 4.0, cross);
}

/// Letters signs with their words in rows from `y` down, as many in a row as fit; gives where it ends.
pub(super) fn key(c: &mut Canvas<'_>, x: f64, y: f64, w: f64, l: &Letter, entries: &[(Sign, String)]) -> f64 {
    let mut at = x;
    let mut row = y + ROW / 2.0;
    for (sign, words) in entries {
        let words = fit(words, l.size, w - SIGN - 8.0);
        let wide = SIGN + 8.0 + width(&words, l.size);
        if at > x && at + wide > x + w {
            at = x;
            row += ROW;
        }
        sign.draw(c, at, row);
        c.text(at + SIGN + 8.0, row + l.size * 0.34, &words, l);
        at += wide + AFTER;
    }
    if entries.is_empty() { y } else { row + ROW / 2.0 }
}
