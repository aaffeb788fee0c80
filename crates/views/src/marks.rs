//! Marks on a photograph as a drawing to lie over it, the same in the app, on the pages and in copies.

use std::fmt::Write as _;

use survey::log::{Shape, Spot};
use survey::units::{Length, inches_16};

/// The pencil, and the paper that is left around its lines so that they can be seen on any picture.
const PENCIL: &str = "#4B2394";
const HALO: &str = "#FCF9F0";
/// Width of a line, as a part of the longer side of the picture.
const LINE: f64 = 1.0 / 240.0;

/// The marks as SVG of the picture's own size in pixels, without the picture. Equal marks, equal bytes.
pub fn overlay<'a>(marks: impl IntoIterator<Item = &'a Shape>, width: u32, height: u32) -> String {
    let line = f64::from(width.max(height)) * LINE;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\">"
    );
    let marks: Vec<Pieces> = marks.into_iter().map(|mark| Pieces::of(mark, f64::from(width), line)).collect();
    // All of the halo lies under all of the pencil, so that no mark cuts another.
    for (color, wide) in [(HALO, 3.0), (PENCIL, 1.0)] {
        let _ = write!(
            out,
            "<g fill=\"none\" stroke=\"{color}\" stroke-width=\"{}\" stroke-linecap=\"round\" stroke-linejoin=\"round\">",
            short(line * wide)
        );
        marks.iter().for_each(|m| out.push_str(&m.lines));
        out.push_str("</g>");
    }
    let size = short(line * 9.0);
    for (color, stroke) in [(HALO, short(line * 2.0)), (PENCIL, "0".to_owned())] {
        let _ = write!(
            out,
            "<g fill=\"{color}\" stroke=\"{color}\" stroke-width=\"{stroke}\" stroke-linejoin=\"round\" \
             font-family=\"Routed Gothic\" font-size=\"{size}\">"
        );
        marks.iter().for_each(|m| out.push_str(&m.words));
        out.push_str("</g>");
    }
    out.push_str("</svg>");
    out
}

/// What a mark says besides its lines.
pub fn dimension_words(length: Length, tolerance: Option<Length>) -> String {
    match tolerance {
        Some(tolerance) => format!("{} ± {}", inches_16(length), inches_16(tolerance)),
        None => inches_16(length),
    }
}

#[derive(Default)]
struct Pieces {
    lines: String,
    words: String,
}

impl Pieces {
    fn of(mark: &Shape, width: f64, line: f64) -> Self {
        let mut out = Self::default();
        match mark {
            Shape::Arrow { from, to } => {
                out.path(&[*from, *to], false);
                out.head(*from, *to, line * 7.0);
            }
            Shape::Ring { middle, through } => {
                let ((x, y), (a, b)) = (middle.pixels(), through.pixels());
                let r = libm::hypot(a - x, b - y);
                let _ =
                    write!(out.lines, "<circle cx=\"{}\" cy=\"{}\" r=\"{}\"/>", short(x), short(y), short(r));
            }
            Shape::Words { at, text } => out.say(at.pixels(), "start", text),
            Shape::Dimension { from, to, length, tolerance } => {
                out.path(&[*from, *to], false);
                out.tick(*from, *to, line * 5.0);
                out.tick(*to, *from, line * 5.0);
                let ((x, y), (a, b)) = (from.pixels(), to.pixels());
                let (middle, height) = ((x + a) / 2.0, (y + b) / 2.0);
                // Above a line that lies; beside one that stands, on the side where there is more of the picture.
                let (at, anchor) = if libm::fabs(a - x) >= libm::fabs(b - y) {
                    ((middle, height - line * 4.0), "middle")
                } else if middle * 2.0 <= width {
                    ((middle + line * 4.0, height + line * 3.0), "start")
                } else {
                    ((middle - line * 4.0, height + line * 3.0), "end")
                };
                out.say(at, anchor, &dimension_words(*length, *tolerance));
            }
            Shape::Paper { corners, .. } => out.path(corners, true),
        }
        out
    }
    fn path(&mut self, spots: &[Spot], closed: bool) {
        self.lines.push_str("<path d=\"");
        for (k, spot) in spots.iter().enumerate() {
            let (x, y) = spot.pixels();
            let _ = write!(self.lines, "{}{} {}", if k == 0 { "M" } else { " L" }, short(x), short(y));
        }
        self.lines.push_str(if closed { " Z\"/>" } else { "\"/>" });
    }
    /// Two strokes at the end of a line.
    fn head(&mut self, from: Spot, to: Spot, size: f64) {
        let ((x, y), (a, b)) = (from.pixels(), to.pixels());
        let far = libm::hypot(a - x, b - y).max(1e-9);
        let (u, v) = ((x - a) / far * size, (y - b) / far * size);
        let side = |s: f64| format!("{} {}", short(a + u - s * v / 2.0), short(b + v + s * u / 2.0));
        let _ = write!(self.lines, "<path d=\"M{} L{} {} L{}\"/>", side(1.0), short(a), short(b), side(-1.0));
    }
    /// A stroke across the end of a line.
    fn tick(&mut self, at: Spot, other: Spot, size: f64) {
        let ((x, y), (a, b)) = (at.pixels(), other.pixels());
        let far = libm::hypot(a - x, b - y).max(1e-9);
        let (u, v) = ((a - x) / far * size / 2.0, (b - y) / far * size / 2.0);
        let _ = write!(
            self.lines,
            "<path d=\"M{} {} L{} {}\"/>",
            short(x - v),
            short(y + u),
            short(x + v),
            short(y - u)
        );
    }
    fn say(&mut self, (x, y): (f64, f64), anchor: &str, text: &str) {
        let _ = write!(self.words, "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\">", short(x), short(y));
        for c in text.chars() {
            match c {
                '&' => self.words.push_str("&amp;"),
                '<' => self.words.push_str("&lt;"),
                '>' => self.words.push_str("&gt;"),
                c if c.is_control() => self.words.push(' '),
                c => self.words.push(c),
            }
        }
        self.words.push_str("</text>");
    }
}

/// A number as drawings write it: two decimals at most.
fn short(x: f64) -> String {
    let mut text = String::new();
    drawing::put(&mut text, x);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn spot(x: f64, y: f64) -> Spot {
        Spot::from_pixels(x, y).unwrap()
    }

    #[test]
    fn every_kind_of_mark_is_drawn_and_nothing_a_person_wrote_is_markup() {
        let inch = |x| Length::from_inches(x).unwrap();
        let marks = [
            Shape::Arrow { from: spot(0.0, 0.0), to: spot(100.0, 0.0) },
            Shape::Ring { middle: spot(50.0, 50.0), through: spot(53.0, 54.0) },
            Shape::Words { at: spot(10.0, 90.0), text: "wet </text><script> & cold".into() },
            Shape::Dimension {
                from: spot(0.0, 10.0),
                to: spot(0.0, 60.0),
                length: inch(19.375),
                tolerance: Some(inch(0.25)),
            },
            Shape::Paper {
                corners: [spot(1.0, 1.0), spot(9.0, 1.0), spot(9.0, 11.0), spot(1.0, 11.0)],
                width: inch(8.5),
                height: inch(11.0),
            },
        ];
        let svg = overlay(&marks, 240, 180);
        assert!(
            svg.contains("M0 0 L100 0\"")
                && svg.contains("r=\"5\"")
                && svg.contains("M1 1 L9 1 L9 11 L1 11 Z"),
            "{svg}"
        );
        assert!(svg.contains("wet &lt;/text&gt;&lt;script&gt; &amp; cold</text>"), "{svg}");
        assert!(
            svg.contains(&format!("{} ± {}</text>", inches_16(inch(19.375)), inches_16(inch(0.25)))),
            "{svg}"
        );
        assert_eq!(svg.matches("<g ").count(), svg.matches("</g>").count());
        // Words stand beside a line that stands, where there is room for them, and above one that lies.
        let dimension = |from, to| Shape::Dimension { from, to, length: inch(1.0), tolerance: None };
        for (from, to, at) in [
            (spot(0.0, 10.0), spot(0.0, 60.0), "x=\"4\" y=\"38\" text-anchor=\"start\""),
            (spot(200.0, 60.0), spot(200.0, 10.0), "x=\"196\" y=\"38\" text-anchor=\"end\""),
            (spot(10.0, 50.0), spot(60.0, 50.0), "x=\"35\" y=\"46\" text-anchor=\"middle\""),
            (spot(10.0, 10.0), spot(60.0, 60.0), "x=\"35\" y=\"31\" text-anchor=\"middle\""),
        ] {
            let svg = overlay([&dimension(from, to)], 240, 180);
            assert!(svg.contains(at), "{at}: {svg}");
        }
        // The head of the arrow points to where it points: both strokes start behind it.
        assert!(svg.contains("M93 -3.5 L100 0 L93 3.5\""), "{svg}");
        assert_eq!(svg, overlay(&marks, 240, 180));
    }
}
