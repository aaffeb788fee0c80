//! What holds of every drawing, whatever is drawn.

use alloc::string::String;
use alloc::vec::Vec;
use std::collections::BTreeSet;

use proptest::prelude::*;

use super::canvas::{Canvas, overlap};
use super::{draw, svg};
use crate::setting::{Palette, Width};
use crate::testing::{any_picture, words_of};

fn any_width() -> impl Strategy<Value = Width> {
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
        let made = svg(&picture, width, palette, &prefix);
        prop_assert_eq!(&made, &svg(&picture, width, palette, &prefix));
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
        let mut canvas = Canvas::new(Palette::Screen, "t");
        let height = draw(&mut canvas, &picture, px);
        prop_assert!(height.is_finite() && height > 0.0 && height < 20_000.0, "{height}");
        let texts: Vec<_> = canvas.texts().to_vec();
        for (i, (area, text)) in texts.iter().enumerate() {
            prop_assert!(
                area[0] > -1.0 && area[1] > -1.0 && area[2] < px + 1.0 && area[3] < height + 1.0,
                "outside {px} by {height}: {text} {area:?}"
            );
            for (other, words) in &texts[i + 1..] {
                prop_assert!(!overlap(area, other), "{text} {area:?} on {words} {other:?}");
            }
        }
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
        let made = svg(&picture, Width::Phone, Palette::Screen, prefix);
        let document = roxmltree::Document::parse(&made).unwrap();
        document.descendants().filter_map(|n| n.attribute("id")).map(Into::into).collect()
    };
    assert!(ids("one-").len() >= 3);
    assert!(ids("one-").is_disjoint(&ids("two-")));
}
