//! The list of houses, with the line of each as it was made last: hundreds of houses are listed without reading their
//! logs. What stands in a line is not known here; whoever makes it says from which catalog and program.

use survey::SurveyId;

use crate::error::{SqlAt, StoreError};
use crate::open::Store;
use crate::read::{LIST, SurveyRow, survey_row};

/// A line made from so many entries and an assessment.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Card<'a> {
    /// Entries in the log when it was made.
    pub entries: u64,
    /// Number of the frozen assessment it shows; 0 for none.
    pub assessed: u64,
    /// Catalog and program.
    pub made_by: &'a str,
    /// The line, as JSON.
    pub line: &'a str,
}

/// A house in the list.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CardRow {
    /// The house.
    pub survey: SurveyRow,
    /// Number of its latest frozen assessment; 0 for none.
    pub assessed: u64,
    /// Number of its last packet, and entries inside.
    pub packet: Option<(u32, u64)>,
    /// Its line, where it still stands.
    pub line: Option<String>,
}

impl Store {
    /// Every house, the one touched last first, with the line `made_by` this catalog and program where nothing was
    /// recorded or assessed since.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn cards(&self, made_by: &str) -> Result<Vec<CardRow>, StoreError> {
        let sql = format!(
            "SELECT {LIST}, coalesce((SELECT max(n) FROM forecast WHERE forecast.survey = now_survey.survey), 0),
                    packet.number, packet.entries, card.assessed, card.line
             FROM now_survey
             LEFT JOIN packet ON packet.survey = now_survey.survey
              AND packet.number = (SELECT max(number) FROM packet AS p WHERE p.survey = now_survey.survey)
             LEFT JOIN card ON card.survey = now_survey.survey AND card.made_by = ?1
              AND card.entries = now_survey.entries
             ORDER BY now_survey.last_ms DESC, now_survey.survey"
        );
        let file = &self.file;
        let mut statement = self.conn.prepare_cached(&sql).at(file)?;
        let mut rows = statement.query([made_by]).at(file)?;
        let mut cards = Vec::new();
        while let Some(row) = rows.next().at(file)? {
            let assessed = row.get::<_, i64>(5).at(file)?.cast_unsigned();
            let packet: Option<(u32, i64)> =
                row.get::<_, Option<u32>>(6).at(file)?.zip(row.get::<_, Option<i64>>(7).at(file)?);
            let shown: Option<i64> = row.get(8).at(file)?;
            let line: Option<String> = row.get(9).at(file)?;
            cards.push(CardRow {
                survey: survey_row(row, file)?,
                assessed,
                packet: packet.map(|(number, entries)| (number, entries.cast_unsigned())),
                line: line.filter(|_| shown.is_some_and(|n| n.cast_unsigned() == assessed)),
            });
        }
        Ok(cards)
    }

    /// Keeps lines of houses, in place of older ones.
    ///
    /// # Errors
    /// A database that cannot be written.
    pub fn keep_cards(&self, cards: &[(SurveyId, Card<'_>)]) -> Result<(), StoreError> {
        let file = &self.file;
        let tx = self.conn.unchecked_transaction().at(file)?;
        let mut statement = tx
            .prepare_cached(
                "INSERT OR REPLACE INTO card (survey, entries, assessed, made_by, line) VALUES (?1, ?2, ?3, ?4, ?5)",
            )
            .at(file)?;
        for (survey, card) in cards {
            let (entries, assessed) = (card.entries.cast_signed(), card.assessed.cast_signed());
            statement.execute((survey.as_bytes(), entries, assessed, card.made_by, card.line)).at(file)?;
        }
        drop(statement);
        tx.commit().at(file)
    }
}

#[cfg(test)]
mod tests {
    use survey::log::{Body, Entry, Note, Opened};
    use survey::{DeviceId, Stamp};

    use super::*;

    fn now() -> Stamp {
        "2026-04-12T09:30:00.000-05:00".parse().unwrap()
    }

    fn append(store: &mut Store, survey: SurveyId, body: Body) {
        store
            .append_with(survey, |next| Entry {
                v: body.form(),
                id: survey::EntryId::new(next.lamport, &[next.survey.as_bytes()[5]; 10]),
                survey: next.survey,
                device: next.device,
                seq: next.seq,
                lamport: next.lamport,
                at: now(),
                by: "R. Ames".into(),
                prev: next.prev,
                body: body.clone(),
            })
            .unwrap();
    }

    fn opened(label: &str) -> Body {
        Body::Opened(Opened {
            label: label.into(),
            contract: None,
            contract_days: None,
            catalog: survey::Digest::of(b"c"),
        })
    }

    fn note() -> Body {
        Body::Note(Note { place: None, item: None, text: "wet".into() })
    }

    /// Label, line and assessment of each row.
    fn rows(store: &Store, made_by: &str) -> Vec<(String, Option<String>, u64)> {
        let cards = store.cards(made_by).unwrap();
        cards.into_iter().map(|card| (card.survey.label, card.line, card.assessed)).collect()
    }

    #[test]
    fn a_line_stands_until_something_is_recorded_or_assessed_or_another_catalog_asks() {
        let dir = tempfile::tempdir().unwrap();
        let mut store = Store::open(dir.path(), now(), DeviceId::new(1, &[7; 10])).unwrap();
        let [one, two] = [1, 2].map(|n| SurveyId::new(n, &[9; 10]));
        append(&mut store, one, opened("Elm Court"));
        append(&mut store, two, opened("Mill Lane"));
        let card = |line| Card { entries: 1, assessed: 0, made_by: "catalog 1", line };
        store.keep_cards(&[(one, card("1")), (two, card("2"))]).unwrap();
        let mut kept = rows(&store, "catalog 1");
        kept.sort();
        assert_eq!(
            kept,
            [("Elm Court".into(), Some("1".into()), 0), ("Mill Lane".into(), Some("2".into()), 0)]
        );
        assert!(rows(&store, "catalog 2").iter().all(|(_, line, _)| line.is_none()));
        append(&mut store, one, note());
        let forecast = crate::Forecast::new(survey::Digest::of(b"c"), "e", 1, now(), b"{}".to_vec());
        store.put_forecast(two, &forecast).unwrap();
        let mut stale = rows(&store, "catalog 1");
        stale.sort();
        assert_eq!(stale, [("Elm Court".into(), None, 0), ("Mill Lane".into(), None, 1)]);
        store.keep_cards(&[(two, Card { assessed: 1, ..card("3") })]).unwrap();
        assert!(rows(&store, "catalog 1").contains(&("Mill Lane".into(), Some("3".into()), 1)));
    }
}
