//! Whether the files are a whole BagIt bag: declaration, both manifests complete, nothing unlisted.

use super::walk::Files;
use crate::bag::{Listed, check_declaration, parse_manifest};
use crate::{PacketError, names};

const TAGS: [&str; 3] = [names::BAG_INFO, names::BAGIT, names::MANIFEST];

pub(super) fn check(files: &Files) -> Result<(), PacketError> {
    check_declaration(text(files, names::BAGIT, "RFC 8493")?)?;
    let tags = parse_manifest(names::TAG_MANIFEST, text(files, names::TAG_MANIFEST, "the packet's layout")?)?;
    let payload = parse_manifest(names::MANIFEST, text(files, names::MANIFEST, "RFC 8493")?)?;
    agree(files, &tags, names::TAG_MANIFEST, |name| TAGS.contains(&name))?;
    agree(files, &payload, names::MANIFEST, |name| name.starts_with("data/"))?;
    let known =
        |name: &str| tags.contains_key(name) || payload.contains_key(name) || name == names::TAG_MANIFEST;
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
) -> Result<(), PacketError> {
    for (name, digest) in listed {
        if !kind(name) {
            let reason = format!("it lists {name}, which does not belong in it");
            return Err(PacketError::Text { file: list, line: None, reason });
        }
        match files.get(name) {
            None => return Err(PacketError::Missing { file: name.clone(), named_in: list }),
            Some(f) if f.digest != *digest => return Err(PacketError::Altered { file: name.clone(), list }),
            Some(_) => {}
        }
    }
    match files.keys().find(|name| kind(name) && !listed.contains_key(*name)) {
        Some(name) => Err(PacketError::Extra { file: name.clone(), absent_from: list }),
        None => Ok(()),
    }
}
