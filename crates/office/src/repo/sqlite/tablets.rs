//! Tablets in SQLite.

use rusqlite::{Row, params};
use survey::Digest;

use super::{Sqlite, maybe, text};
use crate::OfficeError;
use crate::people::PersonId;
use crate::repo::{Known, TabletRows, stamp};
use crate::tablets::{Holds, Invitation, Tablet, TabletId};

const TABLET: &str =
    "SELECT id, name, hash, key, paired_at, paired_by, last_seen, revoked_at, numbers_held, numbers_sent
     FROM tablet";

impl TabletRows for Sqlite {
    fn tablets(&self) -> Result<Vec<Tablet>, OfficeError> {
        let mut all = self.all(TABLET, [], tablet)?;
        // By the moment, not by its text, which says it in one zone or another.
        all.sort_by_key(|tablet| (tablet.paired_at.unix_ms(), tablet.id));
        Ok(all)
    }
    fn tablet(&self, id: TabletId) -> Result<Option<Tablet>, OfficeError> {
        self.one(&format!("{TABLET} WHERE id = ?1"), [id.0], tablet)
    }
    fn tablet_of(&self, hash: &[u8; 32]) -> Result<Option<Tablet>, OfficeError> {
        self.one(&format!("{TABLET} WHERE hash = ?1"), [hash], tablet)
    }
    fn add_tablet(&mut self, tablet: &Tablet) -> Result<(), OfficeError> {
        let with = params![
            tablet.id.0,
            tablet.name,
            tablet.hash,
            tablet.key,
            tablet.paired_at.to_string(),
            tablet.paired_by.0,
            tablet.last_seen.map(|at| at.to_string()),
            tablet.revoked_at.map(|at| at.to_string()),
            tablet.holds.map(held),
            tablet.handed.map(u64::cast_signed),
        ];
        let sql = "INSERT INTO tablet
             (id, name, hash, key, paired_at, paired_by, last_seen, revoked_at, numbers_held, numbers_sent)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)";
        self.run(sql, with).map(drop)
    }
    fn change_tablet(&mut self, tablet: &Tablet) -> Result<(), OfficeError> {
        let at = |at: Option<survey::Stamp>| at.map(|at| at.to_string());
        let (holds, handed) = (tablet.holds.map(held), tablet.handed.map(u64::cast_signed));
        let with = params![tablet.id.0, at(tablet.last_seen), at(tablet.revoked_at), holds, handed];
        let sql = "UPDATE tablet SET last_seen = ?2, revoked_at = ?3, numbers_held = ?4, numbers_sent = ?5 WHERE id = ?1";
        match self.run(sql, with)? {
            1 => Ok(()),
            _ => Err(self.damaged(format!("there is no tablet {}", tablet.id))),
        }
    }

    fn add_invitation(&mut self, invitation: &Invitation) -> Result<(), OfficeError> {
        let Invitation { name, hash, made_by, until, wrong } = invitation;
        let sql = "INSERT INTO invitation (name, hash, made_by, until, wrong) VALUES (?1, ?2, ?3, ?4, ?5)";
        self.run(sql, params![name, hash, made_by.0, until, wrong]).map(drop)
    }
    fn invitation(&self, name: &[u8; 8]) -> Result<Option<Invitation>, OfficeError> {
        let sql = "SELECT name, hash, made_by, until, wrong FROM invitation WHERE name = ?1";
        self.one(sql, [name], |r| {
            Ok(Invitation {
                name: r.get(0)?,
                hash: r.get(1)?,
                made_by: PersonId(r.get(2)?),
                until: r.get(3)?,
                wrong: r.get(4)?,
            })
        })
    }
    fn end_invitation(&mut self, name: &[u8; 8]) -> Result<(), OfficeError> {
        self.run("DELETE FROM invitation WHERE name = ?1", [name]).map(drop)
    }
    fn end_invitations_before(&mut self, moment: i64) -> Result<(), OfficeError> {
        self.run("DELETE FROM invitation WHERE until <= ?1", [moment]).map(drop)
    }

    fn known(&self, digest: Digest) -> Result<Option<Known>, OfficeError> {
        self.one("SELECT packet, at, bytes FROM segment WHERE digest = ?1", [digest.as_bytes()], |r| {
            Ok(Known {
                packet: Digest::from_bytes(r.get(0)?),
                at: r.get::<_, i64>(1)?.unsigned_abs(),
                bytes: r.get::<_, i64>(2)?.unsigned_abs(),
            })
        })
    }
    fn keep_known(&mut self, digest: Digest, known: &Known) -> Result<(), OfficeError> {
        let sql = "INSERT INTO segment (digest, packet, at, bytes) VALUES (?1, ?2, ?3, ?4)
             ON CONFLICT (digest) DO NOTHING";
        // Both are below the 2⁶³ a file can have.
        let (at, bytes) = (known.at.cast_signed(), known.bytes.cast_signed());
        self.run(sql, params![digest.as_bytes(), known.packet.as_bytes(), at, bytes]).map(drop)
    }
    fn forget_known(&mut self, digest: Digest) -> Result<(), OfficeError> {
        self.run("DELETE FROM segment WHERE digest = ?1", [digest.as_bytes()]).map(drop)
    }
}

fn tablet(r: &Row<'_>) -> rusqlite::Result<Tablet> {
    Ok(Tablet {
        id: TabletId(r.get(0)?),
        name: r.get(1)?,
        hash: r.get(2)?,
        key: r.get(3)?,
        paired_at: text(r, 4, stamp)?,
        paired_by: PersonId(r.get(5)?),
        last_seen: maybe(r, 6, stamp)?,
        revoked_at: maybe(r, 7, stamp)?,
        holds: r.get::<_, Option<i64>>(8)?.map(holds),
        handed: r.get::<_, Option<i64>>(9)?.map(i64::unsigned_abs),
    })
}

/// What a tablet holds, as its column has it.
fn held(holds: Holds) -> i64 {
    match holds {
        Holds::Another => -1,
        Holds::Nothing => 0,
        Holds::Version(number) => number.cast_signed(),
    }
}

fn holds(held: i64) -> Holds {
    match held {
        0 => Holds::Nothing,
        number if number < 0 => Holds::Another,
        number => Holds::Version(number.unsigned_abs()),
    }
}
