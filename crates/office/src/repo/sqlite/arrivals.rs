//! Packets and findings in SQLite.

use rusqlite::{Params, Row, params};
use survey::{DeviceId, Digest, SurveyId};

use super::{Sqlite, text};
use crate::OfficeError;
use crate::repo::{Entered, FindingRows, PacketRows, Received, stamp};

const PACKET: &str = "SELECT digest, survey, device, number, label, sealed_at, received_at, position, bytes, vouched, after_demolition \
     FROM packet";

/// The next place in the count that packets and findings share, so that "received before the first finding" needs no clock.
/// It stands inside the statement that adds: one statement keeps others out by itself, and two rows in two tables could
/// otherwise be given one place by whoever adds without a transaction.
const NEXT_PLACE: &str = "(SELECT 1 + MAX(COALESCE((SELECT MAX(position) FROM packet), 0), COALESCE((SELECT MAX(position) FROM finding), 0)))";

impl PacketRows for Sqlite {
    fn add_packet(&mut self, packet: &Received, forecast: &[u8]) -> Result<u64, OfficeError> {
        let sql = format!(
            "INSERT INTO packet (digest, survey, device, number, label, sealed_at, received_at, position, bytes, forecast,
             vouched, after_demolition)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, {NEXT_PLACE}, ?8, ?9, ?10, ?11) RETURNING position"
        );
        let with = params![
            packet.digest.as_bytes(),
            packet.survey.as_bytes(),
            packet.device.as_bytes(),
            packet.number,
            packet.label,
            packet.sealed_at.to_string(),
            packet.received_at.to_string(),
            i64::try_from(packet.bytes).unwrap_or(i64::MAX),
            forecast,
            packet.vouched,
            packet.after_demolition,
        ];
        self.added(&sql, with)
    }
    fn packets(&self) -> Result<Vec<Received>, OfficeError> {
        self.all(&format!("{PACKET} ORDER BY position"), [], packet)
    }
    fn packets_of(&self, survey: SurveyId) -> Result<Vec<Received>, OfficeError> {
        self.all(&format!("{PACKET} WHERE survey = ?1 ORDER BY position"), [survey.as_bytes()], packet)
    }
    fn packet(&self, digest: Digest) -> Result<Option<Received>, OfficeError> {
        self.one(&format!("{PACKET} WHERE digest = ?1"), [digest.as_bytes()], packet)
    }
    fn packet_numbered(
        &self,
        survey: SurveyId,
        device: DeviceId,
        number: u32,
    ) -> Result<Option<Received>, OfficeError> {
        let with = params![survey.as_bytes(), device.as_bytes(), number];
        self.one(&format!("{PACKET} WHERE survey = ?1 AND device = ?2 AND number = ?3"), with, packet)
    }
    fn forecast(&self, digest: Digest) -> Result<Option<Vec<u8>>, OfficeError> {
        self.one("SELECT forecast FROM packet WHERE digest = ?1", [digest.as_bytes()], |r| r.get(0))
    }
}

impl FindingRows for Sqlite {
    fn add_finding(&mut self, survey: SurveyId, finding: &review::Finding) -> Result<u64, OfficeError> {
        let body = serde_json::to_string(finding).map_err(|e| self.damaged(e.to_string()))?;
        let sql = format!(
            "INSERT INTO finding (survey, n, position, condition, body)
             VALUES (?1, (SELECT COALESCE(MAX(n), 0) + 1 FROM finding WHERE survey = ?1), {NEXT_PLACE}, ?2, ?3) RETURNING n"
        );
        self.added(&sql, params![survey.as_bytes(), finding.condition, body])
    }
    fn findings(&self, survey: SurveyId) -> Result<Vec<Entered>, OfficeError> {
        let sql = "SELECT n, position, body FROM finding WHERE survey = ?1 ORDER BY n";
        let rows = self.all(sql, [survey.as_bytes()], |r| {
            Ok((
                r.get::<_, i64>(0)?.unsigned_abs(),
                r.get::<_, i64>(1)?.unsigned_abs(),
                r.get::<_, String>(2)?,
            ))
        })?;
        let read = |(n, position, body): (u64, u64, String)| {
            let finding = serde_json::from_str(&body).map_err(|e| self.damaged(e.to_string()))?;
            Ok(Entered { n, position, finding })
        };
        rows.into_iter().map(read).collect()
    }
    fn demolition_began(&self, survey: SurveyId) -> Result<Option<u64>, OfficeError> {
        let sql = "SELECT MIN(position) FROM (
               SELECT position FROM finding WHERE survey = ?1
               UNION ALL SELECT position FROM packet WHERE survey = ?1 AND after_demolition = 1)";
        let place = self.one(sql, [survey.as_bytes()], |r| r.get::<_, Option<i64>>(0))?;
        Ok(place.flatten().map(i64::unsigned_abs))
    }
}

impl Sqlite {
    /// Adds a row and gives back the number it was given. Read to the end, where SQLite says whether the row is kept.
    fn added(&self, sql: &str, with: impl Params) -> Result<u64, OfficeError> {
        let given: Vec<i64> = self.all(sql, with, |r| r.get(0))?;
        given.first().map(|n| n.unsigned_abs()).ok_or_else(|| self.damaged("nothing was added".to_owned()))
    }
}

fn packet(r: &Row<'_>) -> rusqlite::Result<Received> {
    Ok(Received {
        digest: Digest::from_bytes(r.get(0)?),
        survey: SurveyId::from_bytes(r.get(1)?),
        device: DeviceId::from_bytes(r.get(2)?),
        number: r.get(3)?,
        label: r.get(4)?,
        sealed_at: text(r, 5, stamp)?,
        received_at: text(r, 6, stamp)?,
        position: r.get::<_, i64>(7)?.unsigned_abs(),
        bytes: r.get::<_, i64>(8)?.unsigned_abs(),
        vouched: r.get(9)?,
        after_demolition: r.get(10)?,
    })
}
