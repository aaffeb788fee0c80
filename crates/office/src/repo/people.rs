//! What is kept of people.

use survey::SurveyId;

use crate::OfficeError;
use crate::people::{AuditLine, Person, PersonId, Session};

/// Firm, people, sessions, audit log. Each error is one of the place where they lie.
#[allow(clippy::missing_errors_doc, reason = "said once above")]
pub trait PeopleRows {
    /// Name of the firm, once somebody gave it.
    fn firm(&self) -> Result<Option<String>, OfficeError>;
    /// Gives it, or another one.
    fn set_firm(&mut self, name: &str) -> Result<(), OfficeError>;

    /// True where nobody gets on with a password alone.
    fn second_demanded(&self) -> Result<bool, OfficeError>;
    /// Demands it from now on, or no more. Nothing where nobody gave the firm a name yet.
    fn demand_second(&mut self, demanded: bool) -> Result<(), OfficeError>;

    /// Houses that are closed, each with those who see it besides owners; in the order of their numbers.
    fn closed_houses(&self) -> Result<Vec<(SurveyId, Vec<PersonId>)>, OfficeError>;
    /// Closes a house to all but these, whoever saw it before.
    fn close_house(&mut self, survey: SurveyId, readers: &[PersonId]) -> Result<(), OfficeError>;
    /// Somebody sees no closed house any more by being named.
    fn forget_reader(&mut self, person: PersonId) -> Result<(), OfficeError>;
    /// Opens it to everybody; one that was not closed is no fault.
    fn open_house(&mut self, survey: SurveyId) -> Result<(), OfficeError>;

    /// Everybody who is here, in the order they came.
    fn people(&self) -> Result<Vec<Person>, OfficeError>;
    /// Somebody by number, gone or not.
    fn person(&self, id: PersonId) -> Result<Option<Person>, OfficeError>;
    /// Somebody who is here, by folded name.
    fn person_called(&self, folded: &str) -> Result<Option<Person>, OfficeError>;
    /// Adds somebody. Two people who are here never share a folded name.
    fn add_person(&mut self, person: &Person) -> Result<(), OfficeError>;
    /// Keeps somebody as they are now. Whoever is gone stays as they were.
    fn change_person(&mut self, person: &Person) -> Result<(), OfficeError>;

    /// Begins a session.
    fn add_session(&mut self, session: &Session) -> Result<(), OfficeError>;
    /// A session by the hash of its secret.
    fn session(&self, hash: &[u8; 32]) -> Result<Option<Session>, OfficeError>;
    /// All sessions of somebody, in the order they began.
    fn sessions_of(&self, person: PersonId) -> Result<Vec<Session>, OfficeError>;
    /// Notes when a session was used.
    fn see_session(&mut self, hash: &[u8; 32], now: i64) -> Result<(), OfficeError>;
    /// Ends a session; none by that hash is no fault.
    fn end_session(&mut self, hash: &[u8; 32]) -> Result<(), OfficeError>;
    /// Ends all sessions of somebody.
    fn end_sessions_of(&mut self, person: PersonId) -> Result<(), OfficeError>;
    /// Ends all sessions begun before a moment, and all that were last used before another.
    fn end_sessions_before(&mut self, started: i64, seen: i64) -> Result<(), OfficeError>;

    /// Adds a line to the audit log; its number is the next one, whatever it holds.
    fn add_audit(&mut self, line: &AuditLine) -> Result<u64, OfficeError>;
    /// Lines of the audit log before a number, or the last ones; the newest first.
    fn audit(&self, before: Option<u64>, most: u32) -> Result<Vec<AuditLine>, OfficeError>;
    /// Lines of the audit log after a number, the oldest first.
    fn audit_after(&self, after: u64, most: u32) -> Result<Vec<AuditLine>, OfficeError>;
}
