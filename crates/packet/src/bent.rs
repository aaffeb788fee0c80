//! What holds for any bytes at all, for the tests here and for the fuzz targets in `fuzz/`: never a panic, memory bounded by
//! the limits, and what opens is what it says.

#![allow(clippy::unwrap_used, reason = "only for tests and fuzzing: what is unwrapped was made right here")]

use std::collections::BTreeMap;
use std::io::Cursor;
use std::sync::LazyLock;

use survey::Digest;

use crate::bag::{bag_info, write_manifest};
use crate::open::{Verified, verify};
use crate::sample::{house, key, zip};
use crate::stream::Sums;
use crate::zip::Member;
use crate::{Contents, HouseholdSignature, Info, PacketError, PageFile, Sealing, names};

/// Files of a packet by name within its folder.
pub(crate) type Unpacked = BTreeMap<String, Vec<u8>>;

static SIGNED: LazyLock<(String, Unpacked)> = LazyLock::new(|| unpack(&signed_house()));

/// Any bytes as a packet. One that opens has every byte in its place.
pub fn opened(bytes: &[u8]) {
    let Ok(found) = check(bytes) else { return };
    assert_eq!((found.digest, found.bytes), (Digest::of(bytes), bytes.len() as u64));
    assert!(found.members.iter().all(|(_, member, _)| member.end() <= found.bytes));
    agrees(&found);
}

/// Any bytes in the place of one text of a whole packet, lists and seal made right again, as by somebody who has the
/// device's key: the first byte says which text, the others are it.
pub fn resealed(bytes: &[u8]) {
    let Some((first, text)) = bytes.split_first() else { return };
    let (folder, mut files) = SIGNED.clone();
    let texts: Vec<&String> = SIGNED.1.keys().filter(|name| names::held(name)).collect();
    let Some(name) = texts.get(usize::from(*first) % texts.len()).copied() else { return };
    files.insert(name.clone(), text.to_vec());
    if !name.ends_with(".txt") {
        mend(&mut files);
    }
    opened(&pack(&folder, &files));
}

/// What has to be true of every packet that opens.
fn agrees(found: &Verified) {
    assert_eq!(found.info.entries, found.entries.len() as u64);
    assert!(found.info.log_position <= found.info.entries && found.info.number > 0);
    assert!(!crate::gather::steers(&[&found.info.label]));
    let held = |name: &str| found.members.iter().any(|(there, ..)| there == name);
    assert!(found.info.pages.iter().all(|page| held(&names::page(page))));
    assert!(found.info.photos.iter().all(|photo| held(&names::photo(&photo.digest))));
    if let Some(signed) = &found.household {
        let page = found.members.iter().find(|(name, ..)| *name == names::page(&signed.page));
        assert!(page.is_some_and(|(.., digest)| *digest == signed.sha256));
    }
}

pub(crate) fn check(bytes: &[u8]) -> Result<Verified, PacketError> {
    verify(&mut Cursor::new(bytes), bytes.len() as u64)
}

/// A packet with two pages, the household's signature under one of them.
pub(crate) fn signed_house() -> Vec<u8> {
    let house = house();
    let pages = [("pages/household.pdf", "%PDF read this"), ("pages/office.pdf", "%PDF for the office")]
        .map(|(name, text)| PageFile { name: name.to_owned(), bytes: text.into() });
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let contents = Contents { pages: &pages, ..house.contents() };
    let mut photos = house.photos.clone();
    let mut sealing = Sealing::begin(&path, &contents, &mut photos).unwrap();
    let [page, _] = &pages;
    let at = contents.sealed_at;
    let signature = HouseholdSignature::of(page, "Read.", "Ada Alder", vec![vec![[20, 200], [300, 40]]], at);
    sealing.sign_household(&signature.unwrap()).unwrap();
    sealing.finish(&mut photos, &key()).unwrap();
    std::fs::read(path).unwrap()
}

/// The files of a packet by name within its folder.
pub(crate) fn unpack(bytes: &[u8]) -> (String, Unpacked) {
    let found = check(bytes).unwrap();
    let content = |m: &Member| bytes[m.content() as usize..m.end() as usize].to_vec();
    (found.info.folder(), found.members.iter().map(|(n, m, _)| (n.clone(), content(m))).collect())
}

pub(crate) fn pack(folder: &str, files: &Unpacked) -> Vec<u8> {
    zip(&files.iter().map(|(n, b)| (format!("{folder}/{n}"), b.clone())).collect::<Vec<_>>())
}

/// Makes lists, bag-info and seal agree with the files again, as somebody who forges and has the key would.
pub(crate) fn mend(files: &mut Unpacked) {
    let payload: Vec<_> = files.iter().filter(|(n, _)| n.starts_with("data/")).collect();
    let manifest = write_manifest(payload.iter().map(|(n, b)| (n.as_str(), Digest::of(b).hex())));
    let long = write_manifest(payload.iter().map(|(n, b)| (n.as_str(), Sums::of(b).long)));
    let bytes = payload.iter().map(|(_, b)| b.len() as u64).sum();
    let count = payload.len() as u64;
    if let Ok(info) = files.get(names::PACKET_JSON).map_or(Err(()), |b| Info::from_text(b).map_err(drop)) {
        files.insert(names::BAG_INFO.into(), bag_info(&info, bytes, count).into_bytes());
    }
    files.insert(names::MANIFEST.into(), manifest.into_bytes());
    files.insert(names::MANIFEST_512.into(), long.into_bytes());
    mend_tags(files);
}

pub(crate) fn mend_tags(files: &mut Unpacked) {
    let tags = || names::TAGS.into_iter().filter_map(|n| files.get(n).map(|b| (n, Sums::of(b))));
    let short = write_manifest(tags().map(|(n, sums)| (n, sums.digest.hex())));
    let long = write_manifest(tags().map(|(n, sums)| (n, sums.long)));
    files.insert(names::SEAL.into(), keys::sign_seal(long.as_bytes(), &key()).unwrap().into_bytes());
    files.insert(names::TAG_MANIFEST.into(), short.into_bytes());
    files.insert(names::TAG_MANIFEST_512.into(), long.into_bytes());
}

#[cfg(test)]
mod tests;
