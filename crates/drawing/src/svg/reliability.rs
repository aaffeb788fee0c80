//! A reliability diagram: forecast across, share found up, the line of forecasts that come true as often as they say, a
//! band about every point; below it how many outcomes each bin holds. A point whose band leaves the line out is drawn
//! as a square, one on the line as a ring, so that the two differ without color.

use alloc::string::String;

use survey::{Phrase, Said};

use super::canvas::Canvas;
use super::document::document;
use super::lettering::{fit, wrap};
use super::parts::letter_where_free;
use super::pens::{Fill, Hatch, Ink, Pen, letter};
use crate::reliability::{Reliability, ReliabilityBin, description, in_tenths, title};
use crate::said::Say;
use crate::setting::{Palette, Width, held};

/// Room for the numbers left of the plot, and right of it.
const LEFT: f64 = 40.0;
const RIGHT: f64 = 12.0;
/// The plot is square and no wider than this.
const MOST: f64 = 460.0;
/// Height of the longest bar of counts.
const BARS: f64 = 54.0;
/// Tenths between strokes of the two rules.
const STEP: u32 = 2;
const SIZE: f64 = 14.0;

/// A reliability diagram as one SVG element, as [`crate::svg()`] otherwise. Where the numbers are small only the counts
/// are drawn.
pub fn reliability(
    p: &Reliability,
    width: Width,
    palette: Palette,
    prefix: &str,
    say: &dyn Fn(&Said) -> String,
) -> String {
    let prefix = super::tidy(prefix);
    let mut canvas = Canvas::new(palette, &prefix, Say(say));
    let height = draw_reliability(&mut canvas, p, width.px());
    document(canvas, (width, height), &prefix, &say(&title(p)), &say(&description(p)))
}

/// Where probabilities lie.
struct Plot {
    side: f64,
    top: f64,
}

impl Plot {
    fn x(&self, p: f64) -> f64 {
        LEFT + held(p, 0.0, 1.0) * self.side
    }
    fn y(&self, p: f64) -> f64 {
        self.top + (1.0 - held(p, 0.0, 1.0)) * self.side
    }
}

/// Draws; gives the height.
pub(super) fn draw_reliability(c: &mut Canvas<'_>, p: &Reliability, w: f64) -> f64 {
    let side = (w - LEFT - RIGHT).min(MOST);
    let quiet = letter(SIZE).quiet();
    let mut foot = 0.0;
    if !p.small {
        let heading = wrap(&c.say(Phrase("drawing-reliability-up")), SIZE, w - 4.0, 2);
        let last = c.lines(2.0, 14.0, &heading, &quiet);
        let plot = Plot { side, top: last + 20.0 };
        draw_plot(c, p, &plot);
        foot = plot.y(0.0) + 8.0 + SIZE + 18.0;
    }
    let words = wrap(&c.say(Phrase("drawing-reliability-across")), SIZE, w - 4.0, 2);
    foot = c.lines(2.0, foot + 14.0, &words, &quiet);
    draw_counts(c, p, side, foot + 10.0) + 8.0
}

fn draw_plot(c: &mut Canvas<'_>, p: &Reliability, plot: &Plot) {
    let quiet = letter(SIZE).quiet();
    for tenth in (0..=10).step_by(STEP as usize) {
        let at = f64::from(tenth) / 10.0;
        let shown = c.say(in_tenths(at));
        c.line(plot.x(at), plot.y(0.0), plot.x(at), plot.y(1.0), Pen::HAIR);
        c.line(plot.x(0.0), plot.y(at), plot.x(1.0), plot.y(at), Pen::HAIR);
        c.line(plot.x(at), plot.y(0.0), plot.x(at), plot.y(0.0) + 7.0, Pen::SEEN);
        c.line(plot.x(0.0) - 7.0, plot.y(at), plot.x(0.0), plot.y(at), Pen::SEEN);
        c.text(plot.x(at), plot.y(0.0) + 10.0 + SIZE, &shown, &quiet.middle());
        c.text(plot.x(0.0) - 11.0, plot.y(at) + 5.0, &shown, &quiet.end());
    }
    c.line(plot.x(0.0), plot.y(0.0), plot.x(1.0), plot.y(0.0), Pen::GROUND);
    c.line(plot.x(0.0), plot.y(0.0), plot.x(0.0), plot.y(1.0), Pen::GROUND);
    c.line(plot.x(0.0), plot.y(0.0), plot.x(1.0), plot.y(1.0), Pen::LIMIT);
    for bin in &p.bins {
        let (x, y) = (plot.x(bin.mean), plot.y(bin.share));
        let [low, high] = bin.band.map(|b| plot.y(b));
        let pen = Pen::whole(Ink::Mark, 2.0);
        c.line(x, low, x, high, pen);
        c.line(x - 6.0, low, x + 6.0, low, pen);
        c.line(x - 6.0, high, x + 6.0, high, pen);
        if bin.is_off() {
            c.rect(x - 6.0, y - 6.0, 12.0, 12.0, Fill::Flat(Ink::Mark), Some(pen));
        } else {
            c.circle(x, y, 6.0, Fill::Flat(Ink::Paper), Some(pen));
        }
    }
    // The line says what it is where it has room: above itself, or below.
    let words = c.say(Phrase("drawing-reliability-line"));
    let inside = [plot.x(0.0) + 2.0, plot.y(1.0), plot.x(1.0), plot.y(0.0)];
    let field = letter(SIZE).quiet().field();
    let shown = fit(&words, SIZE, plot.side * 0.55);
    letter_where_free(
        c,
        &shown,
        &[
            (plot.x(0.04), plot.y(0.93), field),
            (plot.x(0.98), plot.y(0.05), field.end()),
            (plot.x(0.04), plot.y(0.8), field),
        ],
        &inside,
    );
}

/// Bars of outcomes by bin, those found hatched in them, lettered where there is room; gives where they end.
fn draw_counts(c: &mut Canvas<'_>, p: &Reliability, side: f64, top: f64) -> f64 {
    let most = p.bins.iter().map(|b| b.n).max().unwrap_or(0);
    let base = top + 2.0 * (SIZE + 5.0) + BARS;
    let x = |p: f64| LEFT + held(p, 0.0, 1.0) * side;
    let tall = |n: u32| if most == 0 { 0.0 } else { f64::from(n.min(most)) / f64::from(most) * BARS };
    let inside = [0.0, top, LEFT + side + RIGHT, base];
    for bin in &p.bins {
        let [from, to] = bin.ends.map(x);
        let pen = Some(Pen::whole(Ink::Strong, 1.25));
        let wide = to - from - 4.0;
        c.rect(from + 2.0, base - tall(bin.n), wide, tall(bin.n), Fill::Flat(Ink::Paper), pen);
        c.rect(from + 2.0, base - tall(bin.found), wide, tall(bin.found), Fill::Hatch(Hatch::Wood), pen);
        let middle = (from + to) / 2.0;
        let shown = count(c, bin, wide);
        // Beside a neighbor as wide as itself a count stands one row higher.
        let (y, l) = (base - tall(bin.n) - 5.0, letter(SIZE).middle());
        letter_where_free(c, &shown, &[(middle, y, l), (middle, y - SIZE - 3.0, l)], &inside);
    }
    c.line(x(0.0), base, x(1.0), base, Pen::GROUND);
    let quiet = letter(SIZE).quiet();
    for tenth in (0..=10).step_by(STEP as usize) {
        let at = f64::from(tenth) / 10.0;
        c.line(x(at), base, x(at), base + 7.0, Pen::SEEN);
        let shown = c.say(in_tenths(at));
        c.text(x(at), base + 10.0 + SIZE, &shown, &quiet.middle());
    }
    let words = wrap(&c.say(Phrase("drawing-reliability-counts")), SIZE, LEFT + side, 2);
    c.lines(2.0, base + 10.0 + SIZE + 22.0, &words, &quiet)
}

/// "3 of 12", or "3:12" where that is wider than the bar.
fn count(c: &Canvas<'_>, bin: &ReliabilityBin, wide: f64) -> String {
    let long = c.say(bin.counted());
    if super::lettering::width(&long, SIZE) <= wide {
        long
    } else {
        alloc::format!("{}:{}", bin.found, bin.n)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::{any_width, letters_hold};
    use super::*;
    use crate::testing::english;

    fn bin(tenth: u32, n: u32, found: u32) -> ReliabilityBin {
        let at = f64::from(tenth) / 10.0;
        let share = f64::from(found) / f64::from(n);
        ReliabilityBin {
            ends: [at, at + 0.1],
            n,
            found,
            mean: at + 0.05,
            share,
            band: [share - 0.1, share + 0.1],
        }
    }

    fn attribute(node: &roxmltree::Node<'_, '_>, name: &str) -> f64 {
        node.attribute(name).unwrap().parse().unwrap()
    }

    #[test]
    fn points_lie_on_the_scales_and_their_strokes_stand_at_even_tenths() {
        let p = Reliability { bins: alloc::vec![bin(2, 40, 10), bin(7, 40, 38)], small: false };
        let made = reliability(&p, Width::Px(512.0), Palette::Page, "r", &english);
        let document = roxmltree::Document::parse(&made).unwrap();
        let svg_node = "http://www.w3.org/2000/svg";
        let all =
            |name: &'static str| document.descendants().filter(move |n| n.has_tag_name((svg_node, name)));
        // A side of 460 from x = 40: the forecast 0.25 stands at 40 + 115; the share 0.25 lies 115 above the bottom.
        let ring = all("circle").next().unwrap();
        assert!((attribute(&ring, "cx") - 155.0).abs() < 0.01);
        let bottom =
            all("line").filter(|n| n.attribute("stroke-width") == Some("2.5")).map(|n| attribute(&n, "y1"));
        let bottom = bottom.fold(f64::MAX, f64::min);
        assert!((bottom - attribute(&ring, "cy") - 115.0).abs() < 0.01, "{bottom}");
        // The other lies off and is a square about 0.75, 0.95.
        let square = all("rect").find(|n| n.attribute("width") == Some("12")).unwrap();
        assert!((attribute(&square, "x") + 6.0 - (40.0 + 0.75 * 460.0)).abs() < 0.01);
        assert!((bottom - attribute(&square, "y") - 6.0 - 0.95 * 460.0).abs() < 0.01);
        // Numbers 0, 2 … 10 under both rules, evenly apart.
        let middles: alloc::vec::Vec<(f64, alloc::string::String)> = all("text")
            .filter(|n| {
                n.attribute("text-anchor") == Some("middle") && n.attribute("fill") == Some("#4B4337")
            })
            .map(|n| (attribute(&n, "x"), n.text().unwrap_or_default().into()))
            .collect();
        assert_eq!(middles.len(), 12);
        for (k, (x, shown)) in middles.iter().enumerate() {
            let tenth = (k % 6) as f64 * 2.0;
            assert!((x - (40.0 + tenth * 46.0)).abs() < 0.01, "{x}");
            assert_eq!(*shown, alloc::format!("{tenth}"));
        }
        // Said in words too, with the one that lies off called so.
        let said =
            document.descendants().find(|n| n.tag_name().name() == "desc").and_then(|n| n.text()).unwrap();
        assert!(said.contains("10 of 40") && said.contains("38 of 40"), "{said}");
    }

    #[test]
    fn small_numbers_are_counted_and_no_point_is_drawn() {
        let p = Reliability { bins: alloc::vec![bin(1, 6, 2)], small: true };
        let made = reliability(&p, Width::Phone, Palette::Screen, "r", &english);
        assert!(!made.contains("<circle") && made.contains("2 of 6"), "{made}");
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(400))]

        #[test]
        fn lettering_stands_free_whatever_was_found(
            found in proptest::collection::vec((0u32..10, 1u32..3000, 0.0..1.0f64), 0..10),
            width in any_width(), small in any::<bool>(), wild in any::<f64>(),
        ) {
            let mut bins: alloc::vec::Vec<ReliabilityBin> = found
                .iter()
                .map(|(tenth, n, share)| bin(*tenth, *n, (f64::from(*n) * share) as u32))
                .collect();
            bins.sort_by(|a, b| a.ends[0].total_cmp(&b.ends[0]));
            bins.dedup_by(|a, b| a.ends == b.ends);
            if let Some(first) = bins.first_mut() {
                first.mean = wild;
                first.band = [wild, f64::NAN];
            }
            let p = Reliability { bins, small };
            let px = width.px();
            let mut canvas = Canvas::new(Palette::Screen, "t", Say(&english));
            let height = draw_reliability(&mut canvas, &p, px);
            prop_assert!(height.is_finite() && height > 60.0 && height < 900.0, "{}", height);
            letters_hold(&canvas, px, height)?;
            let made = reliability(&p, width, Palette::Page, "r", &english);
            prop_assert!(roxmltree::Document::parse(&made).is_ok());
            prop_assert!(!made.contains("NaN") && !made.contains("inf"));
        }
    }
}
