//! Reads tauri.conf.json and the capabilities, and puts the screens of ui/dist into the program.

use tauri_build::{AppManifest, Attributes, try_build};

/// What the screens may ask; `capabilities/base.json` grants each by name, and nothing else is there to be granted.
const COMMANDS: &[&str] = &["ask", "take_photo", "pair_photo", "picture", "thumbnail"];

fn main() {
    if let Err(error) = try_build(Attributes::new().app_manifest(AppManifest::new().commands(COMMANDS))) {
        println!("cargo::error={error:#}");
    }
}
