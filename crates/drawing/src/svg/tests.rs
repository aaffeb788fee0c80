//! What holds of every drawing, whatever is drawn.

use alloc::string::String;
use alloc::vec::Vec;
use std::collections::BTreeSet;

use proptest::prelude::*;

use super::canvas::{Canvas, overlap};
use super::chances::{draw_bars, draw_dots};
use super::{bars, dots, draw, svg};
use crate::chances::{Chances, Flag};
use crate::said::Say;
use crate::setting::{Palette, Width};
use crate::testing::{any_picture, english, words_of};

pub(super) fn any_width() -> impl Strategy<Value = Width> {
    prop_oneof![
        3 => Just(Width::Phone),
        3 => Just(Width::Tablet),
        1 => any::<f64>().prop_map(Width::Px),
        1 => (300.0..1600.0f64).prop_map(Width::Px),
        1 => (70.0..260.0f64).prop_map(Width::Page),
    ]
}

/// Attributes that hold a number.
const NUMBERS: [&str; 16] = [
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "cx",
    "cy",
    "r",
    "width",
    "height",
    "dy",
    "dx",
    "font-size",
    "stroke-width",
    "letter-spacing",
];

/// No lettering lies on other lettering or outside the drawing.
pub(super) fn letters_hold(canvas: &Canvas<'_>, px: f64, height: f64) -> Result<(), TestCaseError> {
    let texts = canvas.texts();
    for (i, (area, text)) in texts.iter().enumerate() {
        prop_assert!(
            area[0] > -1.0 && area[1] > -1.0 && area[2] < px + 1.0 && area[3] < height + 1.0,
            "outside {px} by {height}: {text} {area:?}"
        );
        for (other, words) in &texts[i + 1..] {
            prop_assert!(!overlap(area, other), "{text} {area:?} on {words} {other:?}");
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(800))]

    #[test]
    fn every_drawing_is_a_document_with_its_result_in_words(
        picture in any_picture(),
        width in any_width(),
        page in any::<bool>(),
        prefix in any::<String>(),
    ) {
        let palette = if page { Palette::Page } else { Palette::Screen };
        let made = svg(&picture, width, palette, &prefix, &english);
        prop_assert_eq!(&made, &svg(&picture, width, palette, &prefix, &english));
        let document = roxmltree::Document::parse(&made).map_err(|e| TestCaseError::fail(alloc::format!("{e}")))?;
        let root = document.root_element();
        prop_assert_eq!(root.attribute("role"), Some("img"));
        let child = |name: &str| root.children().find(|n| n.has_tag_name(("http://www.w3.org/2000/svg", name)));
        for name in ["title", "desc"] {
            let words = child(name).map(words_of).unwrap_or_default().concat();
            prop_assert!(words.trim().len() > 3, "{name}: {words}");
        }
        prop_assert_eq!(page, !made.contains("var("));
        let mut ids = BTreeSet::new();
        for node in document.descendants().filter(|n| n.is_element()) {
            let name = node.tag_name().name();
            prop_assert!(!["script", "style", "image", "use", "foreignObject", "a"].contains(&name));
            for attribute in node.attributes() {
                let (name, value) = (attribute.name(), attribute.value());
                prop_assert!(!["style", "href", "class"].contains(&name) && !name.starts_with("on"));
                if NUMBERS.contains(&name) {
                    let number: f64 = value.trim_end_matches("mm").parse().unwrap();
                    prop_assert!(number.is_finite(), "{name}={value}");
                }
                if name == "font-size" && node.has_tag_name(("http://www.w3.org/2000/svg", "text")) {
                    prop_assert!(value.parse::<f64>().unwrap() >= 14.0, "too small: {value}");
                }
                if name == "d" {
                    prop_assert!(!value.contains("NaN") && !value.contains("inf"), "{value}");
                }
                if name == "id" {
                    prop_assert!(ids.insert(String::from(value)), "{value} twice");
                }
                if let Some(id) = value.strip_prefix("url(#").and_then(|v| v.strip_suffix(')')) {
                    prop_assert!(made.contains(&alloc::format!("<pattern id=\"{id}\"")), "{id}");
                }
            }
        }
    }

    #[test]
    fn no_lettering_lies_on_other_lettering_or_outside(picture in any_picture(), width in any_width()) {
        let px = width.px();
        let mut canvas = Canvas::new(Palette::Screen, "t", Say(&english));
        let height = draw(&mut canvas, &picture, px);
        prop_assert!(height.is_finite() && height > 0.0 && height < 20_000.0, "{height}");
        letters_hold(&canvas, px, height)?;
    }
}

#[test]
fn drawings_with_their_own_prefixes_share_no_id() {
    let picture = trade::picture::Picture::Load(trade::picture::LoadBar {
        unit: "A".into(),
        parts: alloc::vec![("range".into(), 30.0, true)],
        carries: alloc::vec![("service".into(), 100.0)],
    });
    let ids = |prefix: &str| -> BTreeSet<String> {
        let made = svg(&picture, Width::Phone, Palette::Screen, prefix, &english);
        let document = roxmltree::Document::parse(&made).unwrap();
        document.descendants().filter_map(|n| n.attribute("id")).map(Into::into).collect()
    };
    assert!(ids("one-").len() >= 3);
    assert!(ids("one-").is_disjoint(&ids("two-")));
}

/// Sums as they come up in houses, with nothing in half of all draws and with everything far out, and what nobody should
/// hand in.
fn any_chances() -> impl Strategy<Value = Chances> {
    let sum = prop_oneof![
        3 => 0.0..20_000.0f64,
        1 => Just(0.0),
        1 => prop::sample::select(&[f64::NAN, f64::INFINITY, -1.0, 1e300, 1e-9]),
    ];
    let sums = proptest::collection::vec(sum, 23);
    let shares = proptest::collection::vec(prop_oneof![0.0..0.2f64, Just(f64::NAN)], 0..48);
    (sums, prop_oneof![Just(200.0), Just(0.5), any::<f64>()], shares).prop_map(|(mut sums, step, shares)| {
        sums.sort_by(f64::total_cmp);
        let flag = |at: f64, name: &str| Flag {
            at,
            name: name.into(),
            value: dollars(at),
            says: "8 de 10 por debajo".into(),
        };
        Chances {
            title: "Money for the unknown".into(),
            said: "Half of the outcomes lie within it.".into(),
            flags: [flag(sums[10], "P50"), flag(sums[17], "P80"), flag(sums[20], "P90")],
            twentieths: sums[..20].to_vec(),
            step,
            shares,
        }
    })
}

fn dollars(x: f64) -> String {
    if x.is_finite() { alloc::format!("${x:.0}").chars().take(9).collect() } else { "not known".into() }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn chances_are_documents_and_their_lettering_stands_free(p in any_chances(), width in any_width()) {
        for made in [
            dots(&p, &dollars, width, Palette::Screen, "c"),
            bars(&p, &dollars, width, Palette::Page, "c"),
        ] {
            prop_assert!(roxmltree::Document::parse(&made).is_ok());
            prop_assert!(!made.contains("NaN") && !made.contains("inf"), "{made}");
        }
        let px = width.px();
        for drawn in [draw_dots, draw_bars] {
            let mut canvas = Canvas::new(Palette::Screen, "t", Say(&english));
            let height = drawn(&mut canvas, &p, &dollars, px);
            prop_assert!(height.is_finite() && height > 60.0 && height < 900.0, "{height}");
            letters_hold(&canvas, px, height)?;
        }
    }

    /// The marks of sums as houses have them cut no dot, unless they stand closer than the smallest dot is wide.
    #[test]
    fn no_mark_cuts_a_dot(
        mut sums in proptest::collection::vec(100.0..20_000.0f64, 20),
        width in prop_oneof![Just(Width::Phone), Just(Width::Tablet), Just(Width::Px(560.0))],
    ) {
        sums.sort_by(f64::total_cmp);
        let flag = |at: f64| Flag { at, name: "P".into(), value: dollars(at), says: "below".into() };
        let p = Chances {
            title: "t".into(),
            said: "s".into(),
            flags: [flag(sums[9]), flag(sums[15]), flag(sums[17])],
            twentieths: sums.clone(),
            step: 200.0,
            shares: alloc::vec![0.1; 10],
        };
        let made = dots(&p, &dollars, width, Palette::Page, "c");
        let document = roxmltree::Document::parse(&made).unwrap();
        let number = |n: &roxmltree::Node<'_, '_>, name: &str| n.attribute(name).unwrap().parse::<f64>().unwrap();
        let circles: Vec<(f64, f64)> = document
            .descendants()
            .filter(|n| n.has_tag_name(("http://www.w3.org/2000/svg", "circle")))
            .map(|n| (number(&n, "cx"), number(&n, "r")))
            .collect();
        prop_assert_eq!(circles.len(), 20);
        let marks: Vec<f64> = document
            .descendants()
            .filter(|n| n.has_tag_name(("http://www.w3.org/2000/svg", "line")) && n.attribute("stroke") == Some("#4B2394"))
            .map(|n| number(&n, "x1"))
            .collect();
        prop_assert_eq!(marks.len(), 3);
        let r = circles[0].1;
        let closest = marks.windows(2).map(|m| m[1] - m[0]).fold(f64::INFINITY, f64::min);
        if closest > 2.0 * r + 7.0 {
            for (x, r) in &circles {
                prop_assert!(marks.iter().all(|m| (m - x).abs() >= *r), "{x} by {marks:?}");
            }
            // Half the dots lie left of P50, sixteen left of P80, eighteen left of P90.
            let left = |mark: f64| circles.iter().filter(|(x, _)| *x < mark).count();
            prop_assert_eq!([left(marks[0]), left(marks[1]), left(marks[2])], [10, 16, 18]);
        }
    }
}
