//! Taking in what another tablet recorded, or what was rescued from this one: the same entries again change nothing.

use std::io::Read;

use survey::log::Entry;
use survey::{Digest, SurveyId};

use crate::{Desk, Error};

/// What came in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Merged {
    /// The houses concerned.
    pub surveys: Vec<SurveyId>,
    /// Entries that were new here.
    pub new: u64,
    /// Entries that were here already.
    pub known: u64,
    /// Entries of these houses that came after demolition was declared: kept, and counted nowhere.
    pub set_aside: u64,
}

/// Takes in entries in any order, all or none.
pub fn merge(desk: &mut Desk, entries: &[Entry]) -> Result<Merged, Error> {
    let imported = desk.store.import(entries)?;
    let mut surveys: Vec<SurveyId> = entries.iter().map(|e| e.survey).collect();
    surveys.sort_unstable();
    surveys.dedup();
    let mut set_aside = 0;
    for survey in &surveys {
        set_aside += desk.picture(*survey)?.set_aside.len() as u64;
    }
    Ok(Merged { surveys, new: imported.new, known: imported.known, set_aside })
}

/// Files an original photograph that came along.
pub fn keep_original(desk: &Desk, reader: &mut dyn Read) -> Result<Digest, Error> {
    Ok(desk.store.blobs().put_reader(reader)?.0)
}
