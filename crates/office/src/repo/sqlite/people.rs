//! People in SQLite.

use rusqlite::{Row, params};
use survey::SurveyId;

use super::{Sqlite, maybe, text};
use crate::OfficeError;
use crate::people::{AuditLine, Deed, Kept, Person, PersonId, Role, Second, Session};
use crate::repo::{PeopleRows, stamp};

const PERSON: &str = "SELECT id, name, folded, role, since, removed, memory_kib, passes, lanes, salt, hash, failures, last_failure,
     first_password, second_secret, second_last FROM person";
const AUDIT: &str = "SELECT n, at, who, what, about, address FROM audit";
const SESSION: &str = "SELECT hash, person, started, seen, address FROM session";

impl PeopleRows for Sqlite {
    fn firm(&self) -> Result<Option<String>, OfficeError> {
        self.one("SELECT name FROM firm", [], |r| r.get(0))
    }
    fn set_firm(&mut self, name: &str) -> Result<(), OfficeError> {
        let sql = "INSERT INTO firm (one, name) VALUES (1, ?1) ON CONFLICT (one) DO UPDATE SET name = ?1";
        self.run(sql, [name]).map(drop)
    }

    fn second_demanded(&self) -> Result<bool, OfficeError> {
        Ok(self.one("SELECT second_demanded FROM firm", [], |r| r.get(0))?.unwrap_or(false))
    }
    fn demand_second(&mut self, demanded: bool) -> Result<(), OfficeError> {
        self.run("UPDATE firm SET second_demanded = ?1", [demanded]).map(drop)
    }

    fn closed_houses(&self) -> Result<Vec<(SurveyId, Vec<PersonId>)>, OfficeError> {
        let sql =
            "SELECT h.survey, r.person FROM closed_house h LEFT JOIN house_reader r ON r.survey = h.survey
             ORDER BY h.survey, r.person";
        let rows = self.all(sql, [], |r| {
            let person = r.get::<_, Option<[u8; 16]>>(1)?.map(PersonId);
            Ok((SurveyId::from_bytes(r.get(0)?), person))
        })?;
        let mut houses: Vec<(SurveyId, Vec<PersonId>)> = Vec::new();
        for (survey, person) in rows {
            match houses.last_mut() {
                Some((last, readers)) if *last == survey => readers.extend(person),
                _ => houses.push((survey, person.into_iter().collect())),
            }
        }
        Ok(houses)
    }
    fn close_house(&mut self, survey: SurveyId, readers: &[PersonId]) -> Result<(), OfficeError> {
        self.open_house(survey)?;
        self.run("INSERT INTO closed_house (survey) VALUES (?1)", [survey.as_bytes()])?;
        for person in readers {
            let with = params![survey.as_bytes(), person.0];
            self.run("INSERT INTO house_reader (survey, person) VALUES (?1, ?2)", with)?;
        }
        Ok(())
    }
    fn forget_reader(&mut self, person: PersonId) -> Result<(), OfficeError> {
        self.run("DELETE FROM house_reader WHERE person = ?1", [person.0]).map(drop)
    }
    fn open_house(&mut self, survey: SurveyId) -> Result<(), OfficeError> {
        self.run("DELETE FROM closed_house WHERE survey = ?1", [survey.as_bytes()]).map(drop)
    }

    fn people(&self) -> Result<Vec<Person>, OfficeError> {
        self.all(&format!("{PERSON} WHERE removed IS NULL ORDER BY since, id"), [], person)
    }
    fn person(&self, id: PersonId) -> Result<Option<Person>, OfficeError> {
        self.one(&format!("{PERSON} WHERE id = ?1"), [id.0], person)
    }
    fn person_called(&self, folded: &str) -> Result<Option<Person>, OfficeError> {
        self.one(&format!("{PERSON} WHERE folded = ?1 AND removed IS NULL"), [folded], person)
    }
    fn add_person(&mut self, person: &Person) -> Result<(), OfficeError> {
        let sql = "INSERT INTO person (id, name, folded, role, since, removed, memory_kib, passes, lanes, salt, hash, failures, last_failure,
             first_password, second_secret, second_last)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15, ?16)";
        self.write_person(sql, person).map(drop)
    }
    fn change_person(&mut self, person: &Person) -> Result<(), OfficeError> {
        let sql = "UPDATE person SET name = ?2, folded = ?3, role = ?4, since = ?5, removed = ?6, memory_kib = ?7, passes = ?8,
             lanes = ?9, salt = ?10, hash = ?11, failures = ?12, last_failure = ?13,
             first_password = ?14, second_secret = ?15, second_last = ?16 WHERE id = ?1";
        match self.write_person(sql, person)? {
            1 => Ok(()),
            _ => Err(self.damaged(format!("there is no person {}", person.id))),
        }
    }

    fn add_session(&mut self, session: &Session) -> Result<(), OfficeError> {
        let from = session.from.map(|from| from.to_string());
        let with = params![session.hash, session.person.0, session.started, session.seen, from];
        let sql = "INSERT INTO session (hash, person, started, seen, address) VALUES (?1, ?2, ?3, ?4, ?5)";
        self.run(sql, with).map(drop)
    }
    fn session(&self, hash: &[u8; 32]) -> Result<Option<Session>, OfficeError> {
        self.one(&format!("{SESSION} WHERE hash = ?1"), [hash], session)
    }
    fn sessions_of(&self, person: PersonId) -> Result<Vec<Session>, OfficeError> {
        self.all(&format!("{SESSION} WHERE person = ?1 ORDER BY started, hash"), [person.0], session)
    }
    fn see_session(&mut self, hash: &[u8; 32], now: i64) -> Result<(), OfficeError> {
        self.run("UPDATE session SET seen = ?2 WHERE hash = ?1", params![hash, now]).map(drop)
    }
    fn end_session(&mut self, hash: &[u8; 32]) -> Result<(), OfficeError> {
        self.run("DELETE FROM session WHERE hash = ?1", [hash]).map(drop)
    }
    fn end_sessions_of(&mut self, person: PersonId) -> Result<(), OfficeError> {
        self.run("DELETE FROM session WHERE person = ?1", [person.0]).map(drop)
    }
    fn end_sessions_before(&mut self, started: i64, seen: i64) -> Result<(), OfficeError> {
        self.run("DELETE FROM session WHERE started < ?1 OR seen < ?2", [started, seen]).map(drop)
    }

    fn add_audit(&mut self, line: &AuditLine) -> Result<u64, OfficeError> {
        let n: i64 = self.one("SELECT COALESCE(MAX(n), 0) + 1 FROM audit", [], |r| r.get(0))?.unwrap_or(1);
        let with = params![
            n,
            line.at.to_string(),
            line.who.map(|who| who.0),
            line.what.word(),
            line.about,
            line.address.map(|a| a.to_string())
        ];
        self.run(
            "INSERT INTO audit (n, at, who, what, about, address) VALUES (?1, ?2, ?3, ?4, ?5, ?6)",
            with,
        )?;
        Ok(n.unsigned_abs())
    }
    fn audit(&self, before: Option<u64>, most: u32) -> Result<Vec<AuditLine>, OfficeError> {
        let before = before.and_then(|n| i64::try_from(n).ok()).unwrap_or(i64::MAX);
        self.all(&format!("{AUDIT} WHERE n < ?1 ORDER BY n DESC LIMIT ?2"), params![before, most], line)
    }
    fn audit_after(&self, after: u64, most: u32) -> Result<Vec<AuditLine>, OfficeError> {
        let after = i64::try_from(after).unwrap_or(i64::MAX);
        self.all(&format!("{AUDIT} WHERE n > ?1 ORDER BY n LIMIT ?2"), params![after, most], line)
    }
}

impl Sqlite {
    fn write_person(&self, sql: &str, person: &Person) -> Result<usize, OfficeError> {
        let kept = person.password.as_ref();
        let with = params![
            person.id.0,
            person.name,
            person.folded,
            person.role.word(),
            person.since.to_string(),
            person.removed.map(|at| at.to_string()),
            kept.map(|k| k.memory_kib),
            kept.map(|k| k.passes),
            kept.map(|k| k.lanes),
            kept.map(|k| k.salt),
            kept.map(|k| k.hash),
            person.failures,
            person.last_failure,
            person.first_password,
            person.second.map(|second| second.secret),
            person.second.map(|second| second.last),
        ];
        self.run(sql, with)
    }
}

fn person(r: &Row<'_>) -> rusqlite::Result<Person> {
    let password = match r.get::<_, Option<[u8; 32]>>(10)? {
        None => None,
        Some(hash) => {
            Some(Kept { memory_kib: r.get(6)?, passes: r.get(7)?, lanes: r.get(8)?, salt: r.get(9)?, hash })
        }
    };
    Ok(Person {
        id: PersonId(r.get(0)?),
        name: r.get(1)?,
        folded: r.get(2)?,
        role: text(r, 3, |word| Role::of_word(word).ok_or_else(|| format!("“{word}” is no role")))?,
        since: text(r, 4, stamp)?,
        removed: maybe(r, 5, stamp)?,
        password,
        failures: r.get(11)?,
        last_failure: r.get(12)?,
        first_password: r.get(13)?,
        second: match r.get::<_, Option<[u8; 20]>>(14)? {
            None => None,
            Some(secret) => Some(Second { secret, last: r.get(15)? }),
        },
    })
}

fn session(r: &Row<'_>) -> rusqlite::Result<Session> {
    Ok(Session {
        hash: r.get(0)?,
        person: PersonId(r.get(1)?),
        started: r.get(2)?,
        seen: r.get(3)?,
        from: maybe(r, 4, address)?,
    })
}

fn line(r: &Row<'_>) -> rusqlite::Result<AuditLine> {
    Ok(AuditLine {
        n: r.get::<_, i64>(0)?.unsigned_abs(),
        at: text(r, 1, stamp)?,
        who: r.get::<_, Option<[u8; 16]>>(2)?.map(PersonId),
        what: text(r, 3, |word| Deed::of_word(word).ok_or_else(|| format!("“{word}” is no deed")))?,
        about: r.get(4)?,
        address: maybe(r, 5, address)?,
    })
}

fn address(text: &str) -> Result<std::net::IpAddr, String> {
    text.parse().map_err(|e: std::net::AddrParseError| e.to_string())
}
