//! Every example at every width, held against committed files. `UPDATE_SNAPSHOTS=1 cargo test -p drawing` rewrites
//! them; look at what changed as pictures before committing.

#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    reason = "a test may stop, and is told to rewrite by name"
)]

mod examples;

use std::fs;
use std::path::Path;

use drawing::{Palette, Width, svg, text};

fn hold(name: &str, made: &str) {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/snapshots").join(name);
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::write(path, made).unwrap();
        return;
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == made, "{name} changed; look at it, then UPDATE_SNAPSHOTS=1 cargo test -p drawing");
}

#[test]
fn every_drawing_is_as_it_was_looked_at() {
    for (name, picture) in examples::examples() {
        for (width, palette, at) in [
            (Width::Tablet, Palette::Screen, "tablet"),
            (Width::Phone, Palette::Screen, "phone"),
            (Width::Page(168.0), Palette::Page, "page"),
        ] {
            hold(&format!("{name}-{at}.svg"), &svg(&picture, width, palette, name));
        }
        hold(&format!("{name}.txt"), &text(&picture, 78));
    }
}
