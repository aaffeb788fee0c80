//! Where a drawing is to stand: how wide, and in which colors.

/// How wide a drawing is, and with that which of its layouts is used.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Width {
    /// Content of a phone held upright: 358 px.
    Phone,
    /// Content of a tablet held upright: 704 px.
    Tablet,
    /// Any width in px; held between 300 and 1600.
    Px(f64),
    /// A printed page: width in millimeters, held between 70 and 400.
    Page(f64),
}

/// Points on paper for one px of the drawing: lettering of 14 px prints at 9.2 points.
const POINTS_PER_PX: f64 = 0.66;
const MM_PER_INCH: f64 = 25.4;
const POINTS_PER_INCH: f64 = 72.0;

impl Width {
    /// Width of the drawing in its own px.
    pub(crate) fn px(self) -> f64 {
        match self {
            Self::Phone => 358.0,
            Self::Tablet => 704.0,
            Self::Px(px) => held(px, 300.0, 1600.0),
            Self::Page(mm) => held(mm, 70.0, 400.0) / Self::mm_per_px(),
        }
    }

    /// Millimeters on paper for one px of the drawing.
    const fn mm_per_px() -> f64 {
        POINTS_PER_PX / POINTS_PER_INCH * MM_PER_INCH
    }

    /// A length in px with the unit in which the document is told of it.
    pub(crate) fn outside(self, px: f64) -> (f64, &'static str) {
        match self {
            Self::Page(_) => (px * Self::mm_per_px(), "mm"),
            _ => (px, ""),
        }
    }
}

/// Which colors a drawing names.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Palette {
    /// Custom properties of the screen's style sheet, with the light values to fall back on: follows light and dark.
    Screen,
    /// Fixed colors for white paper and for files that stand alone.
    Page,
}

/// A number held between two ends; what is not a number becomes the lower.
pub(crate) fn held(x: f64, least: f64, most: f64) -> f64 {
    if x.is_nan() { least } else { libm::fmin(libm::fmax(x, least), most) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_as_wide_as_the_text_prints_lettering_above_nine_points() {
        let px = Width::Page(168.0).px();
        assert!((700.0..740.0).contains(&px), "{px}");
        let points = 14.0 * 168.0 / px / MM_PER_INCH * POINTS_PER_INCH;
        assert!(points > 9.0, "{points}");
    }

    #[test]
    fn no_width_is_absurd() {
        for x in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 0.0, -3.0, 1e300] {
            assert!((100.0..2000.0).contains(&Width::Px(x).px()));
            assert!((100.0..2000.0).contains(&Width::Page(x).px()));
        }
    }
}
