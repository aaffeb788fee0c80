//! Whether the texts of the packet agree with each other: record, bag-info, log, assessment, photographs.

use std::collections::BTreeSet;

use survey::Digest;
use survey::log::{Entry, EntryError};

use super::bagged::text;
use super::walk::Files;
use crate::bag::{bag_info, check_bag_info};
use crate::{HouseholdSignature, Info, PacketError, gather, limits, names, photos, schemas};

const LAYOUT: &str = "the packet's layout";

/// Refuses a newer layout as such; whatever else is wrong is found later.
pub(super) fn not_newer(files: &Files) -> Result<(), PacketError> {
    match text(files, names::PACKET_JSON, LAYOUT).and_then(Info::from_text) {
        Err(newer @ PacketError::Newer { .. }) => Err(newer),
        _ => Ok(()),
    }
}

/// What the texts say.
pub(super) struct Texts {
    pub(super) info: Info,
    pub(super) entries: Vec<Entry>,
    pub(super) household: Option<HouseholdSignature>,
}

pub(super) fn check(files: &Files, folder: &str) -> Result<Texts, PacketError> {
    let info = Info::from_text(text(files, names::PACKET_JSON, LAYOUT)?)?;
    let told = [&info.label, &info.software, &info.engine, info.organization.as_ref().unwrap_or(&info.label)];
    if gather::steers(&told.map(String::as_str)) {
        return Err(bad(names::PACKET_JSON, None, "a name in it holds letters that steer a screen"));
    }
    for name in names::ALWAYS {
        text(files, name, LAYOUT)?;
    }
    gather::check_pages(&info.pages).map_err(|reason| bad(names::PACKET_JSON, None, reason))?;
    let pages: BTreeSet<String> = info.pages.iter().map(|name| names::page(name)).collect();
    let signed = files.contains_key(names::HOUSEHOLD);
    let schema = |name: &str| schemas::of(signed).any(|(known, _)| known == name);
    let known = |name: &str| {
        names::held(name) || schema(name) || pages.contains(name) || names::photo_digest(name).is_some()
    };
    if let Some((name, _)) = schemas::of(signed).find(|(name, _)| !files.contains_key(*name)) {
        return Err(PacketError::Missing { file: name.to_owned(), named_in: LAYOUT });
    }
    if let Some(name) = files.keys().find(|n| !known(n)) {
        return Err(PacketError::Extra { file: name.clone(), absent_from: names::PACKET_JSON });
    }
    if let Some(file) = pages.iter().find(|name| !files.contains_key(*name)) {
        return Err(PacketError::Missing { file: file.clone(), named_in: names::PACKET_JSON });
    }
    if info.folder() != folder {
        let reason = format!("the zip's folder should be {}", info.folder());
        return Err(bad(names::PACKET_JSON, None, reason));
    }
    let payload: Vec<u64> =
        files.iter().filter(|(n, _)| n.starts_with("data/")).map(|(_, f)| u64::from(f.member.size)).collect();
    let expected = bag_info(&info, payload.iter().sum(), payload.len() as u64);
    check_bag_info(text(files, names::BAG_INFO, LAYOUT)?, &expected)?;
    let entries = read_log(text(files, names::LOG, LAYOUT)?)?;
    assessed(files, &info, &entries)?;
    check_photos(files, &info, &entries)?;
    let household = signed.then(|| signature(files, &info)).transpose()?;
    Ok(Texts { info, entries, household })
}

fn signature(files: &Files, info: &Info) -> Result<HouseholdSignature, PacketError> {
    HouseholdSignature::from_text(text(files, names::HOUSEHOLD, LAYOUT)?, |page| {
        let listed = info.pages.iter().any(|name| name == page);
        let found = files.get(&names::page(page)).filter(|_| listed)?;
        Some((found.digest, found.long.clone()))
    })
}

fn bad(file: &'static str, line: Option<u64>, reason: impl Into<String>) -> PacketError {
    PacketError::Text { file, line, reason: reason.into() }
}

fn read_log(text: &[u8]) -> Result<Vec<Entry>, PacketError> {
    let Some(body) = text.strip_suffix(b"\n") else {
        return Err(bad(names::LOG, None, "it is empty or its last line has no end"));
    };
    let mut entries = Vec::new();
    for (n, line) in (1u64..).zip(body.split(|b| *b == b'\n')) {
        if line.len() > limits::LOG_LINE {
            let (found, limit) = (line.len() as u64, limits::LOG_LINE as u64);
            return Err(PacketError::TooLarge { file: format!("{}, line {n}", names::LOG), found, limit });
        }
        entries.push(Entry::from_bytes(line).map_err(|e| match e {
            EntryError::Newer { found, .. } => {
                PacketError::Newer { file: names::LOG, found: found.to_string(), known: "2" }
            }
            other => bad(names::LOG, Some(n), other.to_string()),
        })?);
    }
    Ok(entries)
}

fn assessed(files: &Files, info: &Info, entries: &[Entry]) -> Result<(), PacketError> {
    let assessment = text(files, names::ASSESSMENT, LAYOUT)?;
    let digest = Digest::of(assessment);
    if digest != info.assessment {
        return Err(PacketError::Altered { file: names::ASSESSMENT.to_owned(), list: names::PACKET_JSON });
    }
    gather::check_assessment(assessment).map_err(|e| bad(names::ASSESSMENT, None, e))?;
    gather::check_log(entries, info.survey, digest).map_err(|(line, e)| bad(names::LOG, line, e))?;
    let count = entries.len() as u64;
    if count != info.entries || info.log_position > count || info.number == 0 {
        let reason = format!(
            "it counts {} entries, {} assessed, where the log has {count}",
            info.entries, info.log_position
        );
        return Err(bad(names::PACKET_JSON, None, reason));
    }
    Ok(())
}

/// Photographs: those the log names, those the record lists and those that lie there are the same.
fn check_photos(files: &Files, info: &Info, entries: &[Entry]) -> Result<(), PacketError> {
    let named = photos::named_in(entries);
    for digest in named.keys() {
        let file = names::photo(digest);
        match files.get(&file) {
            None => return Err(PacketError::Missing { file, named_in: names::LOG }),
            Some(f) if f.digest != *digest => return Err(PacketError::Altered { file, list: names::LOG }),
            Some(_) => {}
        }
    }
    let unnamed = files.keys().find(|n| names::photo_digest(n).is_some_and(|d| !named.contains_key(&d)));
    if let Some(file) = unnamed {
        return Err(PacketError::Extra { file: file.clone(), absent_from: names::LOG });
    }
    let expected = named.into_values().map(|mut photo| {
        let size = files.get(&names::photo(&photo.digest)).map_or(0, |f| u64::from(f.member.size));
        let said = photo.name.is_none() || photo.bytes == size;
        photo.bytes = size;
        (photo, said)
    });
    let expected: Vec<_> = expected.collect();
    if let Some((photo, _)) = expected.iter().find(|(_, said)| !said) {
        let reason = format!(
            "{} has {} bytes, which the log says otherwise",
            names::photo(&photo.digest),
            photo.bytes
        );
        return Err(bad(names::LOG, None, reason));
    }
    if !expected.iter().map(|(p, _)| p).eq(&info.photos) {
        return Err(bad(names::PACKET_JSON, None, "its list of photographs is not the one the log gives"));
    }
    Ok(())
}
