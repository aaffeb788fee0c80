//! Where the screens were left, and who walks: kept beside the log, never part of it.

use rusqlite::{OptionalExtension, TransactionBehavior};
use survey::{Stamp, SurveyId};

use crate::error::{SqlAt, StoreError};
use crate::open::Store;

impl Store {
    /// Keeps the card of a house that is on the screen, and that this house is the one on the screen.
    pub fn leave_at(&mut self, survey: SurveyId, card: &str, now: Stamp) -> Result<(), StoreError> {
        let file = &self.file;
        let tx = self.conn.transaction_with_behavior(TransactionBehavior::Immediate).at(file)?;
        tx.prepare_cached("UPDATE left_at SET here = 0 WHERE here = 1 AND survey <> ?1")
            .at(file)?
            .execute([survey.as_bytes()])
            .at(file)?;
        tx.prepare_cached(
            "INSERT INTO left_at (survey, card, here, at) VALUES (?1, ?2, 1, ?3)
             ON CONFLICT (survey) DO UPDATE SET card = ?2, here = 1, at = ?3",
        )
        .at(file)?
        .execute((survey.as_bytes(), card, now.to_string()))
        .at(file)?;
        tx.commit().at(file)
    }

    /// No house is on the screen any more; the cards are kept.
    pub fn leave_house(&mut self) -> Result<(), StoreError> {
        self.conn.execute("UPDATE left_at SET here = 0 WHERE here = 1", []).at(&self.file)?;
        Ok(())
    }

    /// The card a house was left at.
    pub fn left_at(&self, survey: SurveyId) -> Result<Option<String>, StoreError> {
        let mut statement =
            self.conn.prepare_cached("SELECT card FROM left_at WHERE survey = ?1").at(&self.file)?;
        statement.query_row([survey.as_bytes()], |row| row.get(0)).optional().at(&self.file)
    }

    /// The house that was on the screen when the program ended, if one was.
    pub fn left_house(&self) -> Result<Option<SurveyId>, StoreError> {
        let found: Option<[u8; 16]> = self
            .conn
            .query_row("SELECT survey FROM left_at WHERE here = 1", [], |row| row.get(0))
            .optional()
            .at(&self.file)?;
        Ok(found.map(SurveyId::from_bytes))
    }

    /// A word kept under a name.
    pub fn kept_word(&self, name: &str) -> Result<Option<String>, StoreError> {
        let mut statement =
            self.conn.prepare_cached("SELECT value FROM kept_word WHERE name = ?1").at(&self.file)?;
        statement.query_row([name], |row| row.get(0)).optional().at(&self.file)
    }

    /// Keeps a word under a name.
    pub fn keep_word(&mut self, name: &str, value: &str) -> Result<(), StoreError> {
        let sql =
            "INSERT INTO kept_word (name, value) VALUES (?1, ?2) ON CONFLICT (name) DO UPDATE SET value = ?2";
        self.conn.execute(sql, [name, value]).at(&self.file)?;
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use survey::DeviceId;

    use super::*;

    fn open(dir: &std::path::Path) -> Store {
        Store::open(dir, now(), DeviceId::new(1, &[7; 10])).unwrap()
    }

    fn now() -> Stamp {
        "2026-04-12T09:30:00.000-05:00".parse().unwrap()
    }

    #[test]
    fn a_store_opened_again_knows_the_card_and_the_house_on_the_screen() {
        let dir = tempfile::tempdir().unwrap();
        let [one, two] = [1, 2].map(|n| SurveyId::new(n, &[9; 10]));
        let mut store = open(dir.path());
        assert_eq!((store.left_house().unwrap(), store.left_at(one).unwrap()), (None, None));
        store.leave_at(one, "stub-height", now()).unwrap();
        store.leave_at(two, "bowl-depth", now()).unwrap();
        store.leave_at(two, "bulkhead-form@fridge-soffit", now()).unwrap();
        drop(store);
        let mut store = open(dir.path());
        assert_eq!(store.left_house().unwrap(), Some(two));
        assert_eq!(store.left_at(two).unwrap().as_deref(), Some("bulkhead-form@fridge-soffit"));
        assert_eq!(store.left_at(one).unwrap().as_deref(), Some("stub-height"));
        store.leave_house().unwrap();
        assert_eq!(store.left_house().unwrap(), None);
        assert_eq!(store.left_at(one).unwrap().as_deref(), Some("stub-height"));
    }

    #[test]
    fn a_store_of_the_form_before_gains_the_place_it_is_left_at_and_keeps_its_device() {
        let dir = tempfile::tempdir().unwrap();
        let store = open(dir.path());
        let device = store.device();
        store
            .conn
            .execute_batch(
                "DROP TABLE left_at; DROP TABLE kept_word; DROP TABLE preview; DROP TABLE look;
                 DROP TABLE packet; DROP TABLE card; DROP TABLE office_link; DROP TABLE sending; DELETE FROM migration WHERE number >= 2;",
            )
            .unwrap();
        drop(store);
        let mut store = open(dir.path());
        assert_eq!(store.device(), device);
        let survey = SurveyId::new(1, &[9; 10]);
        store.leave_at(survey, "stub-height", now()).unwrap();
        assert_eq!(store.left_at(survey).unwrap().as_deref(), Some("stub-height"));
    }

    #[test]
    fn a_kept_word_is_the_last_one_kept() {
        let dir = tempfile::tempdir().unwrap();
        let mut store = open(dir.path());
        assert_eq!(store.kept_word("by").unwrap(), None);
        store.keep_word("by", "R. Ames").unwrap();
        store.keep_word("by", "Rosa Lind").unwrap();
        assert_eq!(store.kept_word("by").unwrap().as_deref(), Some("Rosa Lind"));
    }
}
