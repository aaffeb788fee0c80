//! Every dependency's licence is one we can ship under MIT OR Apache-2.0.

use spdx::{Expression, LicenseReq, ParseMode};

use crate::support::cargo_metadata;

/// Permissive (IJG: that of the JPEG library an encoder began with, acknowledged in docs/photographs.md), or weak
/// copyleft that reaches only its own files (MPL-2.0); fonts under their own licence.
const ALLOWED: [&str; 17] = [
    "0BSD",
    "Apache-2.0",
    "BSD-1-Clause",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    "CDLA-Permissive-2.0",
    "IJG",
    "ISC",
    "MIT",
    "MIT-0",
    "MPL-2.0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
    "OFL-1.1",
];

fn acceptable(licence: &str) -> bool {
    let Ok(expression) = Expression::parse_mode(licence, ParseMode::LAX) else { return false };
    expression.evaluate(|req: &LicenseReq| {
        let name = req.license.to_string();
        ALLOWED.contains(&name.as_str())
    })
}

#[test]
fn every_dependency_has_a_licence_we_can_ship() {
    let metadata = cargo_metadata(&["--locked"]);
    let packages = metadata["packages"].as_array().unwrap();
    assert!(packages.len() > 100, "the list is whole");
    let bad: Vec<String> = packages
        .iter()
        .filter(|p| !acceptable(p["license"].as_str().unwrap_or_default()))
        .map(|p| format!("{} {}: {}", p["name"], p["version"], p["license"]))
        .collect();
    assert!(bad.is_empty(), "{}", bad.join("\n"));
}

#[test]
fn a_strong_copyleft_licence_would_be_found() {
    assert!(acceptable("MIT OR GPL-3.0-only"));
    assert!(acceptable("(MIT OR Apache-2.0) AND Unicode-3.0"));
    assert!(!acceptable("GPL-3.0-only") && !acceptable("MIT AND AGPL-3.0-only") && !acceptable(""));
}
