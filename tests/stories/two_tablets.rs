//! Two tablets record about one house, with clocks years apart, and exchange their logs.

use std::path::Path;

use actions::{Desk, Entered, Kit, NewSurvey, open_survey, record};
use serde_json::json;
use store::Store;
use survey::catalog::builtin;
use survey::log::Value;
use survey::model::fold;
use survey::units::Money;
use survey::{DeviceId, SurveyId};

use super::steps::{HOUSE, condition, json as ask, row};
use crate::support::{Counted, Still, run};

/// A tablet: its folder, its clock, its person.
struct Tablet {
    desk: Desk,
    clock: Still,
    random: Counted,
    by: &'static str,
}

impl Tablet {
    /// Records in `dir/device`, where the program looks too.
    fn new(dir: &Path, clock: &str, first: u64, by: &'static str) -> Self {
        let (clock, mut random) = (Still(clock.parse().unwrap()), Counted(first));
        let mut kit = Kit { clock: &clock, random: &mut random, by: by.into() };
        let desk = Desk::open(&dir.join("device"), builtin().unwrap(), &mut kit).unwrap();
        Self { desk, clock, random, by }
    }
    fn open(&mut self) -> SurveyId {
        let new = NewSurvey {
            label: HOUSE.into(),
            contract: Some(Money::from_dollars(80_000)),
            contract_days: None,
        };
        let mut kit = Kit { clock: &self.clock, random: &mut self.random, by: self.by.into() };
        open_survey(&mut self.desk, &new, &mut kit).unwrap()
    }
    /// Records and says how many claims this corrects.
    fn record(&mut self, survey: SurveyId, item: &str, answer: &[&str]) -> u32 {
        let entered =
            Entered { answer: answer.iter().map(|w| (*w).to_owned()).collect(), ..Entered::default() };
        let mut kit = Kit { clock: &self.clock, random: &mut self.random, by: self.by.into() };
        record(&mut self.desk, survey, item, &entered, &[], &mut kit).unwrap().corrected
    }
    /// Takes in everything the other has recorded; returns how many entries were new.
    fn take_from(&mut self, other: &Self, survey: SurveyId) -> u64 {
        let entries = other.desk.store().entries(survey).unwrap();
        let mut store =
            Store::open(self.desk.store().dir(), self.clock.0, DeviceId::new(0, &[9; 10])).unwrap();
        assert_eq!(store.device(), self.desk.store().device());
        store.import(&entries).unwrap().new
    }
}

/// Ames's clock is right; Bora's stands seven years behind, in another zone.
fn tablets(a: &Path, b: &Path) -> (Tablet, Tablet) {
    (
        Tablet::new(a, "2026-04-14T09:30:00-05:00", 1 << 40, "R. Ames"),
        Tablet::new(b, "2019-01-01T00:00:00+09:00", 2 << 40, "T. Bora"),
    )
}

#[test]
fn two_logs_give_one_picture_and_rival_corrections_count_as_no_evidence_until_settled() {
    let (dir_a, dir_b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut a, mut b) = tablets(dir_a.path(), dir_b.path());
    assert_ne!(a.desk.store().device(), b.desk.store().device());
    let survey = a.open();
    a.record(survey, "planned-work", &["remove-bulkhead", "new-floor"]);
    a.record(survey, "year-built", &["1962"]);
    let unanswered = {
        let c = tempfile::tempdir().unwrap();
        let mut c_tablet = Tablet::new(c.path(), "2026-04-14T09:30:00-05:00", 3 << 40, "R. Ames");
        let survey = c_tablet.open();
        c_tablet.record(survey, "planned-work", &["remove-bulkhead", "new-floor"]);
        ask(c.path(), &["assess", HOUSE])
    };
    assert_eq!(b.take_from(&a, survey), 3);

    // Apart: both correct the same reading, each also records something of its own.
    assert_eq!(a.record(survey, "year-built", &["1958"]), 1);
    a.record(survey, "over-kitchen", &["bath"]);
    assert_eq!(b.record(survey, "year-built", &["1983"]), 1);
    b.record(survey, "below-kind", &["crawl"]);

    assert_eq!(a.take_from(&b, survey), 2);
    assert_eq!(b.take_from(&a, survey), 2);
    assert_eq!(a.take_from(&b, survey), 0, "a second time brings nothing new");
    let picture = a.desk.picture(survey).unwrap();
    assert_eq!(picture, b.desk.picture(survey).unwrap());
    let mut backwards = a.desk.store().entries(survey).unwrap();
    backwards.reverse();
    assert_eq!(fold(&backwards), *picture, "in whatever order");
    assert_eq!(picture.entries, 7);
    assert_eq!(picture.disagreements().map(|(_, item, _)| item).collect::<Vec<_>>(), vec!["year-built"]);
    assert_eq!(picture.value("year-built"), None);
    assert_eq!(picture.value("below-kind"), Some(&Value::Choice("crawl".into())));

    for dir in [dir_a.path(), dir_b.path()] {
        let shown = row(dir, "year-built");
        assert_eq!(shown["kind"], "disagreement");
        let mut rivals: Vec<(&str, &str)> = shown["rivals"]
            .as_array()
            .unwrap()
            .iter()
            .map(|r| (r["answer"].as_str().unwrap(), r["by"].as_str().unwrap()))
            .collect();
        rivals.sort_unstable();
        assert_eq!(rivals, vec![("1958", "R. Ames"), ("1983", "T. Bora")], "the corrected 1962 is no rival");
        let plain = run(dir, &["show", HOUSE]);
        let line = plain.lines().find(|l| l.trim_start().starts_with("year-built")).unwrap();
        assert!(
            line.contains('≠') && line.contains("1958 (R. Ames)") && line.contains("1983 (T. Bora)"),
            "{line}"
        );

        let forecast = ask(dir, &["assess", HOUSE]);
        assert!(!forecast["evidence"].as_array().unwrap().contains(&json!("year-built")));
        assert!(forecast["not_known"].as_array().unwrap().contains(&json!({
            "item": "year-built", "place": null, "why": "answers disagree"
        })));
        let lead = |f: &serde_json::Value| condition(f, "lead-paint")["probability"].as_f64().unwrap();
        assert!((lead(&forecast) - lead(&unanswered)).abs() < 1e-6, "as if the year had not been asked");
        let open = ask(dir, &["next", HOUSE]);
        assert!(
            open["ask"].as_array().unwrap().iter().any(|i| i["item"] == "year-built"),
            "it is asked again: {open}"
        );
    }

    // A person settles it on one tablet: both rivals are corrected there, and on the other after the exchange.
    assert_eq!(b.record(survey, "year-built", &["1958"]), 2);
    assert_eq!(a.take_from(&b, survey), 1);
    let settled = a.desk.picture(survey).unwrap();
    assert_eq!(settled, b.desk.picture(survey).unwrap());
    assert_eq!(settled.disagreements().count(), 0);
    assert_eq!(settled.standing("year-built").unwrap().1.corrected, 3, "all three are kept");
    let by_a = ask(dir_a.path(), &["assess", HOUSE]);
    let by_b = ask(dir_b.path(), &["assess", HOUSE]);
    assert!(by_a["evidence"].as_array().unwrap().contains(&json!("year-built")));
    let lead = condition(&by_a, "lead-paint")["probability"].as_f64();
    assert!(
        lead > condition(&unanswered, "lead-paint")["probability"].as_f64(),
        "1958 says more than no year"
    );
    assert_eq!((&by_a["conditions"], &by_a["money"]), (&by_b["conditions"], &by_b["money"]));
}

#[test]
fn a_correction_made_by_a_clock_seven_years_behind_still_corrects() {
    let (dir_a, dir_b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut a, mut b) = tablets(dir_a.path(), dir_b.path());
    let survey = a.open();
    a.record(survey, "year-built", &["1962"]);
    b.take_from(&a, survey);
    assert_eq!(b.record(survey, "year-built", &["1965"]), 1);
    a.take_from(&b, survey);
    for dir in [dir_a.path(), dir_b.path()] {
        let shown = row(dir, "year-built");
        assert_eq!((&shown["answer"], &shown["kind"]), (&json!("1965"), &json!("answer")));
        assert!(
            shown["at"].as_str().unwrap().starts_with("2019"),
            "the clock's word is kept as it was: {shown}"
        );
    }
    let check = ask(dir_a.path(), &["check"]);
    assert_eq!((&check["entries"], &check["problems"]), (&json!(3), &json!([])));
}

#[test]
fn the_same_answer_from_two_tablets_is_no_disagreement() {
    let (dir_a, dir_b) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut a, mut b) = tablets(dir_a.path(), dir_b.path());
    let survey = a.open();
    b.take_from(&a, survey);
    a.record(survey, "year-built", &["1962"]);
    b.record(survey, "year-built", &["1962"]);
    a.take_from(&b, survey);
    assert_eq!(row(dir_a.path(), "year-built")["kind"], "answer");
    assert_eq!(a.desk.picture(survey).unwrap().standing("year-built").unwrap().1.claims.len(), 2);
}
