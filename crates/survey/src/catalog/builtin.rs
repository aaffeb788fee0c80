//! The catalog that ships with the program.

use super::load::load;
use super::source_file::Texts;
use super::{Catalog, CatalogError, borrowed, digest};
use crate::Digest;

macro_rules! files {
    ($($path:literal),* $(,)?) => {
        /// Path inside the catalog folder and text of every file, in the order of paths.
        pub const FILES: &[(&str, &str)] = &[$(($path, include_str!(concat!("../../../../catalog/", $path)))),*];
    };
}

files![
    "catalog.toml",
    "causes.toml",
    "checks.toml",
    "clues/above.toml",
    "clues/air.toml",
    "clues/bath.toml",
    "clues/beforehand.toml",
    "clues/below.toml",
    "clues/bulkhead.toml",
    "clues/ceiling.toml",
    "clues/floor.toml",
    "clues/gas.toml",
    "clues/office.toml",
    "clues/outside.toml",
    "clues/panel.toml",
    "clues/plan.toml",
    "clues/power.toml",
    "clues/sink.toml",
    "clues/talk.toml",
    "clues/walls.toml",
    "clues/water.toml",
    "codes/adopted.toml",
    "codes/ifgc-2018.toml",
    "codes/ipc-2021.toml",
    "codes/irc-2012-framing.toml",
    "codes/nec-2011.toml",
    "codes/nec-2020.toml",
    "codes/nec-2023.toml",
    "codes/old-materials.toml",
    "codes/upc-2012.toml",
    "conditions/bulkhead.toml",
    "conditions/drain.toml",
    "conditions/electrical.toml",
    "conditions/envelope.toml",
    "conditions/floor.toml",
    "conditions/gas.toml",
    "conditions/history.toml",
    "conditions/hvac.toml",
    "conditions/structure.toml",
    "conditions/supply.toml",
    "conditions/walls.toml",
    "context.toml",
    "drain-defaults.toml",
    "outages.toml",
    "relations.toml",
    "settings.toml",
    "sources.toml",
    "walk/01-plan.toml",
    "walk/02-beforehand.toml",
    "walk/03-office.toml",
    "walk/04-talk.toml",
    "walk/05-sink.toml",
    "walk/06-bulkhead.toml",
    "walk/07-ceiling.toml",
    "walk/08-wall-faces.toml",
    "walk/08-walls.toml",
    "walk/09-floor.toml",
    "walk/10-power.toml",
    "walk/11-air.toml",
    "walk/12-below.toml",
    "walk/13-panel.toml",
    "walk/14-water.toml",
    "walk/15-gas.toml",
    "walk/16-outside.toml",
    "walk/17-above.toml",
    "walk/18-bath.toml",
    "walk/19-leaving.toml",
    "wishes.toml",
];

/// Loads the catalog that ships with the program. It fails only if the program was built from a broken one.
pub fn builtin() -> Result<Catalog, CatalogError> {
    load(FILES, &[])
}

/// Digest of the catalog that ships with the program, as [`Catalog::base`] has it.
pub fn shipped() -> Digest {
    digest(Texts::new(FILES.to_vec(), Vec::new()).base.iter())
}

/// The same with a firm's overlay laid over it: (path inside the overlay, text) pairs in any order.
pub fn builtin_with(overlay: &[(String, String)]) -> Result<Catalog, CatalogError> {
    load(FILES, &borrowed(overlay))
}
