//! The sheet a drawing is made on: pens, grounds and hatches, lines and lettering, written as SVG.

use alloc::{format, string::String, vec::Vec};
use core::fmt::Write;

use survey::Said;

use super::lettering::{BAR, NUMERAL, Piece, pieces, width};
use super::path::Path;
use super::pens::{Fill, HATCHES, Hatch, Hold, Ink, Letter, Pen};
use crate::said::Say;
use crate::setting::Palette;

/// Left, top, right, bottom.
pub(crate) type Area = [f64; 4];

/// Whether two areas share more than an edge.
pub(crate) fn overlap(a: &Area, b: &Area) -> bool {
    a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3]
}

/// Where a text lies that is held at a point of its baseline.
pub(crate) fn text_area(x: f64, y: f64, text: &str, l: &Letter) -> Area {
    let w = width(text, l.size);
    let left = match l.hold {
        Hold::Start => x,
        Hold::Middle => x - w / 2.0,
        Hold::End => x - w,
    };
    [left, y - 0.8 * l.size, left + w, y + 0.24 * l.size]
}

/// The sheet.
pub(crate) struct Canvas<'a> {
    palette: Palette,
    prefix: &'a str,
    say: Say<'a>,
    body: String,
    used: [bool; HATCHES.len()],
    /// Where lettering lies, and what it says.
    texts: Vec<(Area, String)>,
}

/// A number as it is written: two places at most, and held within what any viewer can draw.
pub fn put(out: &mut String, x: f64) {
    let x = libm::round(crate::setting::held(x, -1e5, 1e5) * 100.0) / 100.0;
    // never "-0"
    let x = if x == 0.0 { 0.0 } else { x };
    let _ = write!(out, "{x}");
}

/// Escaped for XML.
pub(crate) fn escape(out: &mut String, text: &str) {
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c if c.is_control() || c == '\u{fffe}' || c == '\u{ffff}' => out.push(' '),
            c => out.push(c),
        }
    }
}

impl<'a> Canvas<'a> {
    pub(crate) const fn new(palette: Palette, prefix: &'a str, say: Say<'a>) -> Self {
        Self { palette, prefix, say, body: String::new(), used: [false; HATCHES.len()], texts: Vec::new() }
    }

    /// In words.
    pub(crate) fn say(&self, said: impl Into<Said>) -> String {
        self.say.say(said)
    }
    /// A name, or a word in its place.
    pub(crate) fn named(&self, name: &Said) -> String {
        self.say.named(name)
    }

    fn color(&self, ink: Ink) -> String {
        let (name, light, page) = ink.names();
        match self.palette {
            Palette::Screen => format!("var({name},{light})"),
            Palette::Page => page.into(),
        }
    }

    fn attribute(&mut self, name: &str, x: f64) {
        let _ = write!(self.body, " {name}=\"");
        put(&mut self.body, x);
        self.body.push('"');
    }

    /// Ends a shape: its ground and its line.
    fn finish(&mut self, fill: Fill, pen: Option<Pen>) {
        let ground = match fill {
            Fill::None => "none".into(),
            Fill::Flat(ink) => self.color(ink),
            Fill::Hatch(hatch) | Fill::Over(hatch) => {
                if let Some(i) = HATCHES.iter().position(|(h, _)| *h == hatch) {
                    self.used[i] = true;
                }
                let letter = HATCHES.iter().find(|(h, _)| *h == hatch).map_or('h', |(_, c)| *c);
                format!("url(#{}{letter})", self.prefix)
            }
        };
        let _ = write!(self.body, " fill=\"{ground}\"");
        if let Some(pen) = pen {
            self.stroke(pen);
        }
        self.body.push_str("/>\n");
    }

    fn stroke(&mut self, pen: Pen) {
        let color = self.color(pen.ink);
        let _ = write!(self.body, " stroke=\"{color}\"");
        self.attribute("stroke-width", pen.weight);
        self.body.push_str(pen.dash.attribute());
    }

    pub(crate) fn line(&mut self, x1: f64, y1: f64, x2: f64, y2: f64, pen: Pen) {
        self.body.push_str("<line");
        for (name, x) in [("x1", x1), ("y1", y1), ("x2", x2), ("y2", y2)] {
            self.attribute(name, x);
        }
        self.stroke(pen);
        self.body.push_str("/>\n");
    }

    /// A rectangle by its left top corner; a negative size draws nothing.
    pub(crate) fn rect(&mut self, x: f64, y: f64, w: f64, h: f64, fill: Fill, pen: Option<Pen>) {
        if w.is_nan() || h.is_nan() || w <= 0.0 || h <= 0.0 {
            return;
        }
        if let Fill::Over(_) = fill {
            self.rect(x, y, w, h, Fill::Flat(Ink::Paper), None);
        }
        self.body.push_str("<rect");
        for (name, v) in [("x", x), ("y", y), ("width", w), ("height", h)] {
            self.attribute(name, v);
        }
        self.finish(fill, pen);
    }

    pub(crate) fn circle(&mut self, x: f64, y: f64, r: f64, fill: Fill, pen: Option<Pen>) {
        if r.is_nan() || r <= 0.0 {
            return;
        }
        self.body.push_str("<circle");
        for (name, v) in [("cx", x), ("cy", y), ("r", r)] {
            self.attribute(name, v);
        }
        self.finish(fill, pen);
    }

    pub(crate) fn path(&mut self, path: &Path, fill: Fill, pen: Option<Pen>) {
        if let Fill::Over(_) = fill {
            self.path(path, Fill::Flat(Ink::Paper), None);
        }
        let _ = write!(self.body, "<path d=\"{}\"", path.0);
        self.finish(fill, pen);
    }

    /// Lettering held at a point of its baseline. Empty texts draw nothing.
    pub(crate) fn text(&mut self, x: f64, y: f64, text: &str, l: &Letter) {
        if text.trim().is_empty() {
            return;
        }
        let area = text_area(x, y, text, l);
        if l.field {
            let [x0, y0, x1, y1] = area;
            self.rect(x0 - 3.0, y0, x1 - x0 + 6.0, y1 - y0, Fill::Flat(Ink::Paper), None);
        }
        self.texts.push((area, text.into()));
        self.body.push_str("<text");
        for (name, v) in [("x", x), ("y", y), ("font-size", l.size)] {
            self.attribute(name, v);
        }
        match l.hold {
            Hold::Start => {}
            Hold::Middle => self.body.push_str(" text-anchor=\"middle\""),
            Hold::End => self.body.push_str(" text-anchor=\"end\""),
        }
        let color = self.color(l.ink);
        let _ = write!(self.body, " fill=\"{color}\"");
        if l.heavy {
            let _ = write!(self.body, " stroke=\"{color}\" stroke-width=\".5\"");
        }
        self.body.push('>');
        self.letters(text, l.size);
        self.body.push_str("</text>\n");
    }

    fn letters(&mut self, text: &str, size: f64) {
        // the baseline that the next run starts from, below that of the text
        let mut below = 0.0;
        let raised = -0.28 * size;
        for piece in pieces(text) {
            match piece {
                Piece::Plain(run) if below == 0.0 => escape(&mut self.body, &run),
                Piece::Plain(run) => {
                    self.span(&run, None, -below);
                    below = 0.0;
                }
                Piece::Fraction(over, under, whole) => {
                    let over = if whole { format!("\u{a0}{over}") } else { over };
                    self.span(&over, Some(size * NUMERAL), raised - below);
                    self.span("/", Some(size * BAR), -0.04 * size - raised);
                    self.span(&under, Some(size * NUMERAL), 0.06 * size);
                    below = 0.02 * size;
                }
            }
        }
    }

    fn span(&mut self, run: &str, size: Option<f64>, down: f64) {
        self.body.push_str("<tspan");
        if let Some(size) = size {
            self.attribute("font-size", size);
        }
        self.attribute("dy", down);
        self.body.push('>');
        escape(&mut self.body, run);
        self.body.push_str("</tspan>");
    }

    /// Lines of lettering under each other from a first baseline; the last baseline.
    pub(crate) fn lines(&mut self, x: f64, y: f64, lines: &[String], l: &Letter) -> f64 {
        let mut at = y;
        for (i, line) in lines.iter().enumerate() {
            if i > 0 {
                at += pitch(l.size);
            }
            self.text(x, at, line, l);
        }
        at
    }

    /// Whether an area is free of lettering.
    pub(crate) fn is_free(&self, area: &Area) -> bool {
        !self.texts.iter().any(|(t, _)| overlap(t, area))
    }

    /// The hatches used, as patterns.
    fn patterns(&self) -> String {
        let mut out = String::new();
        let (quiet, mark) = (self.color(Ink::Quiet), self.color(Ink::Mark));
        for ((hatch, letter), used) in HATCHES.iter().zip(self.used) {
            if !used {
                continue;
            }
            let id = format!("{}{letter}", self.prefix);
            let strokes = |pitch: u8, turn: i16, color: &str, weight: &str| {
                format!(
                    "<pattern id=\"{id}\" width=\"{pitch}\" height=\"{pitch}\" patternUnits=\"userSpaceOnUse\" \
                     patternTransform=\"rotate({turn})\"><line x1=\"1\" y1=\"0\" x2=\"1\" y2=\"{pitch}\" \
                     stroke=\"{color}\" stroke-width=\"{weight}\"/></pattern>\n"
                )
            };
            out += &match hatch {
                Hatch::Wood => strokes(7, 45, &quiet, ".6"),
                Hatch::Dense => strokes(4, 45, &quiet, ".6"),
                Hatch::Back => strokes(6, -45, &quiet, ".6"),
                Hatch::Pencil => strokes(6, 45, &mark, ".8"),
                Hatch::Dots => format!(
                    "<pattern id=\"{id}\" width=\"7\" height=\"7\" patternUnits=\"userSpaceOnUse\"><circle cx=\"1.8\" \
                     cy=\"1.8\" r=\"1\" fill=\"{quiet}\"/><circle cx=\"5.2\" cy=\"5\" r=\"1\" fill=\"{quiet}\"/></pattern>\n"
                ),
                Hatch::Grid => format!(
                    "<pattern id=\"{id}\" width=\"9\" height=\"9\" patternUnits=\"userSpaceOnUse\"><path \
                     d=\"M0 4.5H9M4.5 0V9\" stroke=\"{quiet}\" stroke-width=\".8\" fill=\"none\"/></pattern>\n"
                ),
            };
        }
        out
    }

    /// Definitions and shapes, to stand in a document.
    pub(crate) fn into_parts(self) -> (String, String) {
        let patterns = self.patterns();
        (patterns, self.body)
    }

    /// Where lettering lies.
    #[cfg(test)]
    pub(crate) fn texts(&self) -> &[(Area, String)] {
        &self.texts
    }
}

/// From baseline to baseline.
pub(crate) fn pitch(size: f64) -> f64 {
    size + 4.0
}
