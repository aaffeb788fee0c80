//! Whether the files are a whole BagIt bag: declaration, all manifests complete, nothing unlisted but the seal.

use super::walk::{Files, Found};
use crate::bag::{Listed, check_declaration, parse_manifest};
use crate::{PacketError, names};

const LAYOUT: &str = "the packet's layout";

pub(super) fn check(files: &Files) -> Result<(), PacketError> {
    check_declaration(text(files, names::BAGIT, "RFC 8493")?)?;
    let tag = |name: &str| names::TAGS.contains(&name);
    let payload = |name: &str| name.starts_with("data/");
    let short = |found: &Found| found.digest.hex();
    let long = |found: &Found| found.long.clone();
    let listed = |name: &'static str, digits: usize| -> Result<Listed, PacketError> {
        parse_manifest(name, text(files, name, LAYOUT)?, digits)
    };
    agree(files, &listed(names::TAG_MANIFEST, 64)?, names::TAG_MANIFEST, tag, short)?;
    agree(files, &listed(names::TAG_MANIFEST_512, 128)?, names::TAG_MANIFEST_512, tag, long)?;
    agree(files, &listed(names::MANIFEST, 64)?, names::MANIFEST, payload, short)?;
    agree(files, &listed(names::MANIFEST_512, 128)?, names::MANIFEST_512, payload, long)?;
    let last = [names::SEAL, names::TAG_MANIFEST, names::TAG_MANIFEST_512];
    let known = |name: &str| tag(name) || payload(name) || last.contains(&name);
    match files.keys().find(|name| !known(name)) {
        Some(name) => Err(PacketError::Extra { file: name.clone(), absent_from: names::TAG_MANIFEST }),
        None => Ok(()),
    }
}

/// The bytes of a file that must be there.
pub(super) fn text<'a>(
    files: &'a Files,
    name: &str,
    named_in: &'static str,
) -> Result<&'a [u8], PacketError> {
    let missing = || PacketError::Missing { file: name.to_owned(), named_in };
    files.get(name).and_then(|f| f.bytes.as_deref()).ok_or_else(missing)
}

/// Every listed file is there with its sum, and every file of that `kind` is listed.
fn agree(
    files: &Files,
    listed: &Listed,
    list: &'static str,
    kind: impl Fn(&str) -> bool,
    sum: impl Fn(&Found) -> String,
) -> Result<(), PacketError> {
    for (name, wanted) in listed {
        if !kind(name) {
            let reason = format!("it lists {name}, which does not belong in it");
            return Err(PacketError::Text { file: list, line: None, reason });
        }
        match files.get(name) {
            None => return Err(PacketError::Missing { file: name.clone(), named_in: list }),
            Some(f) if sum(f) != *wanted => return Err(PacketError::Altered { file: name.clone(), list }),
            Some(_) => {}
        }
    }
    match files.keys().find(|name| kind(name) && !listed.contains_key(*name)) {
        Some(name) => Err(PacketError::Extra { file: name.clone(), absent_from: list }),
        None => Ok(()),
    }
}
