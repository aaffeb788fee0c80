//! The readable tables against the fold, which knows nothing of them.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use rusqlite::Connection;
use survey::SurveyId;
use survey::log::{Body, Entry};
use survey::model::Picture;

use crate::error::{ErrorKind, SqlAt, StoreError};
use crate::projection::{tolerance, value_text};
use survey::{Phrase, say};

/// survey, label, wall time in ms, its offset, entries, entry that ended the walk.
type House = ([u8; 16], Option<String>, i64, i16, i64, Option<[u8; 16]>);
/// survey, place, item, id, time, person, value, tolerance, as entered.
type Claim = ([u8; 16], String, String, [u8; 16], String, String, String, Option<i64>, Option<String>);
/// survey, corrected entry, correcting entry.
type Correction = ([u8; 16], [u8; 16], [u8; 16]);

pub(super) fn compare(
    conn: &Connection,
    pictures: &BTreeMap<SurveyId, Picture>,
    entries: &[Entry],
    file: &Path,
) -> Result<(), StoreError> {
    let mut stale = Vec::new();
    if houses(conn).at(file)? != houses_of(pictures) {
        stale.push(Phrase("store-table-surveys"));
    }
    if claims(conn).at(file)? != claims_of(pictures) {
        stale.push(Phrase("store-table-answers"));
    }
    if corrections(conn).at(file)? != corrections_of(pictures, entries) {
        stale.push(Phrase("store-table-corrections"));
    }
    if stale.is_empty() {
        return Ok(());
    }
    Err(StoreError::new(
        ErrorKind::Damaged,
        say!("store-tables-stale", tables = stale),
        file,
        Phrase("store-tables-stale-mend"),
    ))
}

fn houses(conn: &Connection) -> rusqlite::Result<Vec<House>> {
    let mut statement = conn.prepare(
        "SELECT survey, label, last_ms, last_offset, entries, ended_by FROM now_survey ORDER BY survey",
    )?;
    let rows = statement
        .query_map([], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?, r.get(3)?, r.get(4)?, r.get(5)?)))?;
    rows.collect()
}

fn houses_of(pictures: &BTreeMap<SurveyId, Picture>) -> Vec<House> {
    let house = |(survey, picture): (&SurveyId, &Picture)| {
        let last = picture.last_touched?;
        let label = picture.opened.as_ref().map(|o| o.label.clone());
        let (at, offset) = (last.unix_ms(), last.offset_min());
        let ended_by = picture.demolition.as_ref().map(|declared| *declared.id.as_bytes());
        Some((*survey.as_bytes(), label, at, offset, picture.entries.cast_signed(), ended_by))
    };
    pictures.iter().filter_map(house).collect()
}

fn claims(conn: &Connection) -> rusqlite::Result<Vec<Claim>> {
    let mut statement = conn.prepare(
        "SELECT survey, place, item, id, at, by_whom, value, tolerance, entered FROM now_claim
         ORDER BY survey, place, item, lamport DESC, device DESC, seq DESC",
    )?;
    let rows = statement.query_map([], |r| {
        Ok((
            r.get(0)?,
            r.get(1)?,
            r.get(2)?,
            r.get(3)?,
            r.get(4)?,
            r.get(5)?,
            r.get(6)?,
            r.get(7)?,
            r.get(8)?,
        ))
    })?;
    rows.collect()
}

fn claims_of(pictures: &BTreeMap<SurveyId, Picture>) -> Vec<Claim> {
    let mut claims = Vec::new();
    for (survey, picture) in pictures {
        for ((place, item), standing) in &picture.answers {
            claims.extend(standing.claims.iter().map(|claim| {
                (
                    *survey.as_bytes(),
                    place.clone(),
                    item.clone(),
                    *claim.id.as_bytes(),
                    claim.at.to_string(),
                    claim.by.clone(),
                    value_text(&claim.answer),
                    tolerance(&claim.answer),
                    claim.answer.entered.clone(),
                )
            }));
        }
    }
    claims
}

fn corrections(conn: &Connection) -> rusqlite::Result<BTreeSet<Correction>> {
    let mut statement = conn.prepare("SELECT survey, corrected, by_entry FROM now_correction")?;
    let rows = statement.query_map([], |r| Ok((r.get(0)?, r.get(1)?, r.get(2)?)))?;
    rows.collect()
}

fn corrections_of(pictures: &BTreeMap<SurveyId, Picture>, entries: &[Entry]) -> BTreeSet<Correction> {
    let aside: BTreeSet<_> = pictures.values().flat_map(|p| &p.set_aside).map(|e| e.id).collect();
    let mut found = BTreeSet::new();
    for entry in entries.iter().filter(|e| !aside.contains(&e.id)) {
        if let Body::Answer(answer) = &entry.body {
            let others = answer.corrects.iter().filter(|id| **id != entry.id);
            found.extend(others.map(|id| (*entry.survey.as_bytes(), *id.as_bytes(), *entry.id.as_bytes())));
        }
    }
    found
}
