//! When the demolition of a house began, as the office knows it.
//!
//! By the office's own count, which packets and findings share: with the first packet whose log declares it, or with the
//! first finding, whichever came earlier. A finding needs no declaration: whoever saw behind a wall opened one, and nobody
//! is kept from entering it because a tablet has not declared anything.

use review::Finding;
use rusqlite::OptionalExtension as _;
use survey::{Digest, SurveyId};

use crate::{Desk, OfficeError};

/// What says that demolition began.
#[derive(Clone, Debug, PartialEq)]
pub enum Began {
    /// The log of this packet.
    Declared(Digest),
    /// The first finding, before any packet that declares it.
    Found(Box<Finding>),
}

impl Desk {
    /// What says that the demolition of a house began; none while nothing does.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn demolition(&self, survey: SurveyId) -> Result<Option<Began>, OfficeError> {
        let Some(began) = self.demolition_began(survey)? else { return Ok(None) };
        let packet: Option<[u8; 32]> = self
            .conn
            .query_row("SELECT digest FROM packet WHERE position = ?1", [began.cast_signed()], |r| r.get(0))
            .optional()
            .map_err(|e| self.fail(&e))?;
        Ok(match packet {
            Some(digest) => Some(Began::Declared(Digest::from_bytes(digest))),
            None => self.findings(survey)?.into_iter().next().map(Box::new).map(Began::Found),
        })
    }

    /// Where in the office's count it began: what has a lower place came in time.
    pub(crate) fn demolition_began(&self, survey: SurveyId) -> Result<Option<u64>, OfficeError> {
        self.first_place(
            "SELECT MIN(position) FROM (
               SELECT position FROM finding WHERE survey = ?1
               UNION ALL SELECT position FROM packet WHERE survey = ?1 AND after_demolition = 1)",
            survey,
        )
    }

    /// Where in the office's count the first finding of a house stands.
    pub(crate) fn first_finding(&self, survey: SurveyId) -> Result<Option<u64>, OfficeError> {
        self.first_place("SELECT MIN(position) FROM finding WHERE survey = ?1", survey)
    }

    fn first_place(&self, sql: &str, survey: SurveyId) -> Result<Option<u64>, OfficeError> {
        self.conn
            .prepare_cached(sql)
            .and_then(|mut rows| rows.query_row([survey.as_bytes()], |r| r.get::<_, Option<i64>>(0)))
            .map(|place| place.map(i64::unsigned_abs))
            .map_err(|e| self.fail(&e))
    }
}
