//! What must hold between log, assessment and photographs, on sealing as on opening.

use std::collections::BTreeSet;

use survey::log::{Body, Entry, check_chain};
use survey::{Digest, SurveyId};

use crate::{limits, names};

/// The log: one survey, the one order, no id twice, every device's chain whole, and the last "sealed" entry naming
/// this assessment. The reason in words, with the line (from 1) where one is to blame.
pub(crate) fn check_log(
    entries: &[Entry],
    survey: SurveyId,
    assessment: Digest,
) -> Result<(), (Option<u64>, String)> {
    if entries.is_empty() {
        return Err((None, "the log is empty".to_owned()));
    }
    let mut ids = BTreeSet::new();
    let mut before = None;
    for (line, entry) in (1u64..).zip(entries) {
        if entry.survey != survey {
            return Err((Some(line), format!("the entry belongs to another survey, {}", entry.survey)));
        }
        if before.is_some_and(|b| b >= entry.order()) {
            return Err((Some(line), "the entry comes twice or out of the log's order".to_owned()));
        }
        if !ids.insert(entry.id) {
            return Err((Some(line), format!("the id {} comes twice", entry.id)));
        }
        before = Some(entry.order());
    }
    check_chain(entries).map_err(|e| (None, e.to_string()))?;
    let sealed = entries.iter().rev().find_map(|e| match &e.body {
        Body::Sealed(sealed) => Some(sealed.assessment),
        _ => None,
    });
    match sealed {
        Some(digest) if digest != assessment => {
            Err((None, format!("its last “sealed” entry names another assessment, {}", digest.short())))
        }
        _ => Ok(()),
    }
}

/// The list of pages: names a packet may hold, in bytewise order, each once, not too many.
/// Whether names a packet is told by hold letters that steer a screen.
pub(crate) fn steers(names: &[&str]) -> bool {
    names.iter().any(|name| name.contains(survey::said::steers))
}

pub(crate) fn check_pages(pages: &[String]) -> Result<(), String> {
    if pages.len() > limits::PAGE_FILES {
        return Err(format!("it lists {} pages where {} is the most", pages.len(), limits::PAGE_FILES));
    }
    if let Some(name) = pages.iter().find(|name| !names::is_page(name)) {
        return Err(format!("{name:?} is no name for pages: pages/<a-z, 0-9, hyphen>.pdf, .csv or .xlsx"));
    }
    if pages.iter().zip(pages.iter().skip(1)).any(|(a, b)| a >= b) {
        return Err("its list of pages names one twice or is out of order".to_owned());
    }
    Ok(())
}

/// The assessment is one JSON text.
pub(crate) fn check_assessment(bytes: &[u8]) -> Result<(), String> {
    serde_json::from_slice::<serde::de::IgnoredAny>(bytes)
        .map(drop)
        .map_err(|e| format!("this is not JSON: {e}"))
}
