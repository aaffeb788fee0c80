//! Frozen forecasts: bytes with a digest, numbered per survey, never changed.

use rusqlite::{OptionalExtension, Row, TransactionBehavior};
use survey::{Digest, Stamp, SurveyId};

use crate::error::{SqlAt, StoreError};
use crate::open::Store;
use survey::{Phrase, say};

/// One frozen forecast. What its bytes mean is not known here.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Forecast {
    /// Number within the survey, from 1; 0 before it is put.
    pub n: u64,
    /// SHA-256 of the bytes.
    pub digest: Digest,
    /// Digest of the catalog it was made with.
    pub catalog: Digest,
    /// Name and version of the program that made it.
    pub engine: String,
    /// How many entries of the log, in log order, it was made from.
    pub position: u64,
    /// When it was made.
    pub made_at: Stamp,
    /// The bytes as frozen.
    pub bytes: Vec<u8>,
}

impl Forecast {
    /// A forecast to be put; number and digest are filled in.
    pub fn new(catalog: Digest, engine: &str, position: u64, made_at: Stamp, bytes: Vec<u8>) -> Self {
        Self {
            n: 0,
            digest: Digest::of(&bytes),
            catalog,
            engine: engine.to_owned(),
            position,
            made_at,
            bytes,
        }
    }
}

pub(crate) const COLUMNS: &str = "n, digest, catalog, engine, position, made_at, bytes";

impl Store {
    /// Keeps a forecast and returns it with its number. When the latest one has the very same bytes, that one is
    /// returned and nothing is added. Number and digest of what is handed in are not looked at.
    pub fn put_forecast(&mut self, survey: SurveyId, forecast: &Forecast) -> Result<Forecast, StoreError> {
        let file = &self.file;
        let needed = 65_536 + 2 * forecast.bytes.len() as u64;
        let mut put = || {
            let tx = self.conn.transaction_with_behavior(TransactionBehavior::Immediate).at(file)?;
            let digest = Digest::of(&forecast.bytes);
            let latest: Option<(i64, [u8; 32])> = tx
                .prepare_cached("SELECT n, digest FROM forecast WHERE survey = ?1 ORDER BY n DESC LIMIT 1")
                .at(file)?
                .query_row([survey.as_bytes()], |row| Ok((row.get(0)?, row.get(1)?)))
                .optional()
                .at(file)?;
            let n = match latest {
                Some((n, same)) if same == *digest.as_bytes() => {
                    let row = tx.query_row(
                        &format!("SELECT {COLUMNS} FROM forecast WHERE survey = ?1 AND n = ?2"),
                        (survey.as_bytes(), n),
                        |row| Ok(forecast_of(row)),
                    );
                    return row.at(file)?.at(file)?.whole(file);
                }
                Some((n, _)) => n + 1,
                None => 1,
            };
            let position = i64::try_from(forecast.position)
                .map_err(|_| StoreError::damaged(Phrase("store-forecast-beyond"), file))?;
            tx.prepare_cached(
                "INSERT INTO forecast (survey, n, digest, catalog, engine, position, made_at, bytes)
                 VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)",
            )
            .at(file)?
            .execute((
                survey.as_bytes(),
                n,
                digest.as_bytes(),
                forecast.catalog.as_bytes(),
                &forecast.engine,
                position,
                forecast.made_at.to_string(),
                &forecast.bytes,
            ))
            .at(file)?;
            tx.commit().at(file)?;
            Ok(Forecast { n: n.unsigned_abs(), digest, ..forecast.clone() })
        };
        put().map_err(|e: StoreError| e.needing(needed))
    }

    /// The forecast put last.
    pub fn latest_forecast(&self, survey: SurveyId) -> Result<Option<Forecast>, StoreError> {
        let sql = format!("SELECT {COLUMNS} FROM forecast WHERE survey = ?1 ORDER BY n DESC LIMIT 1");
        Ok(self.read_forecasts(&sql, survey)?.pop())
    }

    /// Digest of the forecast put last, without reading its bytes.
    pub fn latest_digest(&self, survey: SurveyId) -> Result<Option<Digest>, StoreError> {
        let sql = "SELECT digest FROM forecast WHERE survey = ?1 ORDER BY n DESC LIMIT 1";
        let mut statement = self.conn.prepare_cached(sql).at(&self.file)?;
        let found = statement.query_row([survey.as_bytes()], |row| row.get(0)).optional().at(&self.file)?;
        Ok(found.map(Digest::from_bytes))
    }

    /// All forecasts of a survey in the order they were put.
    pub fn forecasts(&self, survey: SurveyId) -> Result<Vec<Forecast>, StoreError> {
        self.read_forecasts(&format!("SELECT {COLUMNS} FROM forecast WHERE survey = ?1 ORDER BY n"), survey)
    }

    fn read_forecasts(&self, sql: &str, survey: SurveyId) -> Result<Vec<Forecast>, StoreError> {
        let mut statement = self.conn.prepare_cached(sql).at(&self.file)?;
        let mut rows = statement.query([survey.as_bytes()]).at(&self.file)?;
        let mut found = Vec::new();
        while let Some(row) = rows.next().at(&self.file)? {
            found.push(forecast_of(row).at(&self.file)?.whole(&self.file)?);
        }
        Ok(found)
    }
}

impl Forecast {
    /// The forecast, if its bytes are the ones that were frozen.
    pub(crate) fn whole(self, file: &std::path::Path) -> Result<Self, StoreError> {
        if Digest::of(&self.bytes) == self.digest {
            return Ok(self);
        }
        Err(StoreError::damaged(say!("store-forecast-changed", n = self.n.to_string()), file))
    }
}

/// Reads one row selected with the columns above.
pub(crate) fn forecast_of(row: &Row<'_>) -> rusqlite::Result<Forecast> {
    let made_at: String = row.get(5)?;
    let made_at = made_at.parse().map_err(|e| {
        rusqlite::Error::FromSqlConversionFailure(5, rusqlite::types::Type::Text, Box::new(e))
    })?;
    Ok(Forecast {
        n: row.get::<_, i64>(0)?.unsigned_abs(),
        digest: Digest::from_bytes(row.get(1)?),
        catalog: Digest::from_bytes(row.get(2)?),
        engine: row.get(3)?,
        position: row.get::<_, i64>(4)?.unsigned_abs(),
        made_at,
        bytes: row.get(6)?,
    })
}
