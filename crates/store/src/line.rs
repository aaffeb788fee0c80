//! The line to the office: with which office this device is paired, and how far its packets are on their way.

use rusqlite::types::Type;
use rusqlite::{OptionalExtension, Row};
use survey::{Digest, Stamp, SurveyId};

use crate::error::{SqlAt, StoreError};
use crate::open::Store;

/// The office this device is paired with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LinkRow {
    /// Name of the firm.
    pub firm: String,
    /// Name or address, and port.
    pub address: String,
    /// SHA-256 of the certificate it shows, in hexadecimal.
    pub fingerprint: String,
    /// What this device is called there.
    pub device: String,
    /// Since when.
    pub since: Stamp,
}

/// How a sending stands on the disk.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SendingStands {
    /// Begun, and not answered yet.
    Begun,
    /// The office has it.
    Acknowledged,
    /// The office does not take it.
    Refused,
}

impl SendingStands {
    const ALL: [Self; 3] = [Self::Begun, Self::Acknowledged, Self::Refused];
    const fn word(self) -> &'static str {
        match self {
            Self::Begun => "begun",
            Self::Acknowledged => "acknowledged",
            Self::Refused => "refused",
        }
    }
}

/// A packet on its way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SendingRow {
    /// Its digest.
    pub packet: Digest,
    /// Its house.
    pub survey: SurveyId,
    /// Its length.
    pub bytes: u64,
    /// How it stands.
    pub stands: SendingStands,
    /// What was said of it.
    pub said: Option<String>,
    /// When it came to stand so.
    pub at: Stamp,
}

impl Store {
    /// The office this device is paired with.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn office_link(&self) -> Result<Option<LinkRow>, StoreError> {
        let sql = "SELECT firm, address, fingerprint, device, since FROM office_link";
        let read = |row: &Row<'_>| {
            Ok(LinkRow {
                firm: row.get(0)?,
                address: row.get(1)?,
                fingerprint: row.get(2)?,
                device: row.get(3)?,
                since: stamp(row, 4, "since")?,
            })
        };
        self.conn.query_row(sql, [], read).optional().at(&self.file)
    }

    /// Keeps the office this device is paired with; the one before it is forgotten.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn keep_office_link(&mut self, link: &LinkRow) -> Result<(), StoreError> {
        let sql = "INSERT INTO office_link (one, firm, address, fingerprint, device, since) VALUES (1, ?1, ?2, ?3, ?4, ?5)
             ON CONFLICT (one) DO UPDATE SET firm = ?1, address = ?2, fingerprint = ?3, device = ?4, since = ?5";
        let LinkRow { firm, address, fingerprint, device, since } = link;
        self.conn.execute(sql, (firm, address, fingerprint, device, since.to_string())).at(&self.file)?;
        Ok(())
    }

    /// Forgets the office.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn forget_office_link(&mut self) -> Result<(), StoreError> {
        self.conn.execute("DELETE FROM office_link", []).at(&self.file)?;
        Ok(())
    }

    /// Packets that were sent, or begun to be, the last one first.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn sendings(&self) -> Result<Vec<SendingRow>, StoreError> {
        let mut statement = self
            .conn
            .prepare_cached("SELECT packet, survey, bytes, state, said, at FROM sending")
            .at(&self.file)?;
        let rows = statement.query_map([], |row| {
            let state: String = row.get(3)?;
            let stands = SendingStands::ALL.into_iter().find(|one| one.word() == state);
            let strange = || rusqlite::Error::InvalidColumnType(3, "state".into(), Type::Text);
            Ok(SendingRow {
                packet: Digest::from_bytes(row.get(0)?),
                survey: SurveyId::from_bytes(row.get(1)?),
                bytes: row.get::<_, i64>(2)?.cast_unsigned(),
                stands: stands.ok_or_else(strange)?,
                said: row.get(4)?,
                at: stamp(row, 5, "at")?,
            })
        });
        let mut all: Vec<SendingRow> = rows.and_then(Iterator::collect).at(&self.file)?;
        all.sort_by_key(|row| std::cmp::Reverse((row.at.unix_ms(), row.packet)));
        Ok(all)
    }

    /// Keeps how a sending stands. One that was acknowledged stays so.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn keep_sending(&mut self, row: &SendingRow) -> Result<(), StoreError> {
        let sql =
            "INSERT INTO sending (packet, survey, bytes, state, said, at) VALUES (?1, ?2, ?3, ?4, ?5, ?6)
             ON CONFLICT (packet) DO UPDATE SET state = ?4, said = ?5, at = ?6 WHERE state <> 'acknowledged'";
        let with = (
            row.packet.as_bytes(),
            row.survey.as_bytes(),
            row.bytes.cast_signed(),
            row.stands.word(),
            &row.said,
            row.at.to_string(),
        );
        self.conn.execute(sql, with).at(&self.file)?;
        Ok(())
    }
}

fn stamp(row: &Row<'_>, at: usize, name: &str) -> rusqlite::Result<Stamp> {
    let text: String = row.get(at)?;
    text.parse().map_err(|_| rusqlite::Error::InvalidColumnType(at, name.to_owned(), Type::Text))
}

#[cfg(test)]
mod tests {
    use survey::DeviceId;

    use super::*;

    fn at(minute: u32) -> Stamp {
        format!("2026-04-12T09:{minute:02}:00.000-05:00").parse().unwrap()
    }

    fn open(dir: &std::path::Path) -> Store {
        Store::open(dir, at(0), DeviceId::new(1, &[7; 10])).unwrap()
    }

    #[test]
    fn the_office_is_kept_replaced_and_forgotten() {
        let dir = tempfile::tempdir().unwrap();
        let mut store = open(dir.path());
        assert_eq!(store.office_link().unwrap(), None);
        let mut link = LinkRow {
            firm: "Hale & Daughter".to_owned(),
            address: "192.0.2.7:8443".to_owned(),
            fingerprint: "ab".repeat(32),
            device: "Tablet 3".to_owned(),
            since: at(1),
        };
        store.keep_office_link(&link).unwrap();
        link.address = "office.example:8443".to_owned();
        store.keep_office_link(&link).unwrap();
        drop(store);
        let mut store = open(dir.path());
        assert_eq!(store.office_link().unwrap(), Some(link));
        store.forget_office_link().unwrap();
        assert_eq!(store.office_link().unwrap(), None);
    }

    #[test]
    fn a_sending_is_kept_as_it_stands_and_stays_acknowledged() {
        let dir = tempfile::tempdir().unwrap();
        let mut store = open(dir.path());
        let row = |n: u8, stands, minute| SendingRow {
            packet: Digest::of(&[n]),
            survey: SurveyId::new(1, &[9; 10]),
            bytes: 7,
            stands,
            said: (stands == SendingStands::Refused).then(|| "words".to_owned()),
            at: at(minute),
        };
        store.keep_sending(&row(1, SendingStands::Begun, 1)).unwrap();
        store.keep_sending(&row(2, SendingStands::Refused, 2)).unwrap();
        let acknowledged = row(1, SendingStands::Acknowledged, 3);
        store.keep_sending(&acknowledged).unwrap();
        store.keep_sending(&row(1, SendingStands::Begun, 4)).unwrap();
        store.keep_sending(&row(2, SendingStands::Begun, 5)).unwrap();
        assert_eq!(store.sendings().unwrap(), [row(2, SendingStands::Begun, 5), acknowledged]);
        assert!(store.conn.execute("UPDATE sending SET state = 'begun'", []).is_err());
    }
}
