//! The track record and what houses teach, through what the office's screens ask; held against the command line over the
//! same office, and against sums made by hand.

use std::collections::BTreeMap;
use std::time::{Duration, Instant};

use review::learn::{Job, propose};
use review::record::{By, JudgedCondition, JudgedHouse, JudgedSum, Known, track};
use serde_json::{Value, json};
use survey::catalog::PLANNED_WORK;
use survey::{Digest, Key, Stamp, SurveyId};
use views::office::{self as said, Houses, Progress};
use views::record_shape::LearningState;
use words::{CatalogWords, Language, Words};

use super::firm::{Seen, draw, truth};
use super::office::{Office, enter, sample};
use crate::support::forecasts::judge;
use crate::support::{catalog, underlath};

/// So many invented houses the screens are tested with.
const MANY: usize = 12;
/// Parts of their record and lines they teach that are kept: more than a screen shows at once.
const KEPT: usize = 24;
const HOUSES: [(&str, &str); 3] =
    [("heron-court", "heron"), ("alder-street", "alder"), ("quarry-bend", "quarry")];

/// A record of invented houses and what they teach, as the screens see them: walked by our catalog while another is true.
pub fn many() -> (Value, Value) {
    let catalog = catalog();
    let truth = truth(&catalog, 3.0, 11);
    let drawn = draw(&catalog, &truth, 41, MANY);
    let judged: Vec<JudgedHouse> = drawn.iter().map(|seen| judged(&catalog, &truth, seen)).collect();
    let labels: Vec<(SurveyId, String)> = judged.iter().map(|h| (h.survey, h.label.clone())).collect();
    let say = CatalogWords::new(Words::of(Language::En), &catalog);
    let told = track(&judged, &[], &[], &[], Some(By::Condition), false);
    let mut record = said::track(say, &told, Houses::new(&labels, &judged), false);
    record.groups.truncate(KEPT);
    let jobs: Vec<Job<'_>> = drawn.iter().map(Seen::job).collect();
    let proposal = propose(&catalog, &jobs, true).unwrap();
    let progress =
        Progress { state: LearningState::Ready, proposal: Some(&proposal), scoring: false, known: 0 };
    let found: Vec<said::Found<'_>> = drawn.iter().map(|s| (s.survey, s.findings.as_slice())).collect();
    let houses = Houses::new(&labels, &judged);
    let mut learning = said::learning(say, &progress, &found, houses, Vec::new(), |_| None);
    learning.lines.truncate(KEPT);
    (serde_json::to_value(record).unwrap(), serde_json::to_value(learning).unwrap())
}

fn judged(catalog: &survey::catalog::Catalog, truth: &imagine::Truth, seen: &Seen) -> JudgedHouse {
    let told = judge(catalog, &truth.tables, &seen.house, true);
    let outcomes: BTreeMap<&str, review::Outcome> =
        seen.findings.iter().map(|f| (f.condition.as_str(), f.outcome)).collect();
    let base = |id: &str, era: &str| {
        catalog.condition(id).and_then(|c| c.prior.by_band.get(era)).copied().unwrap_or(0.1)
    };
    let era = catalog.era().and_then(|era| era.level(&seen.picture)).map(str::to_owned);
    let conditions = told.conditions.iter().map(|(key, p, _)| {
        let id = Key::parse(key).id.to_owned();
        JudgedCondition {
            p: *p,
            era_base: base(&id, era.as_deref().unwrap_or_default()),
            outcome: outcomes.get(key.as_str()).copied(),
            id,
        }
    });
    let percentile = |share: f64| told.money[(share * told.money.len() as f64) as usize];
    let whole = !outcomes.values().any(|o| *o == review::Outcome::NotOpened);
    let paid: f64 = seen.findings.iter().map(|f| f.cost.dollars()).sum();
    let made_at = Stamp::new(1_767_600_000_000 + seen.house.number as i64 * 400_000_000, 0).unwrap();
    JudgedHouse {
        survey: seen.survey,
        label: seen.house.label.clone(),
        forecast: Digest::of(seen.house.label.as_bytes()),
        catalog: catalog.digest,
        made_at,
        conditions: conditions.collect(),
        out_of_scope: 0,
        money: Some(JudgedSum {
            percentiles: [0.5, 0.8, 0.9].map(percentile),
            members: (0..20).map(|k| percentile((f64::from(k) + 0.5) / 20.0)).collect(),
            actual: paid,
            whole,
        }),
        days: None,
        known: Known {
            surveyors: vec!["R. Ames".to_owned()],
            era,
            scope: match seen.picture.value(PLANNED_WORK) {
                Some(survey::log::Value::Choices(jobs)) => jobs.clone(),
                _ => Vec::new(),
            },
        },
    }
}

/// The three sample houses, received and opened.
fn opened() -> (Office, Vec<String>) {
    let mut office = Office::new();
    let mut surveys = Vec::new();
    for (_, file) in HOUSES {
        let line = office.receive(file, "2026-03-03T14:12:00-05:00");
        surveys.push(line["survey"].as_str().unwrap().to_owned());
    }
    office.now = "2026-06-09T14:45:00-04:00".parse().unwrap();
    for ((folder, _), survey) in HOUSES.iter().zip(&surveys) {
        let text = office.ask("findings", json!({ "survey": survey })).unwrap().to_string();
        for f in sample(folder).iter().filter(|f| text.contains(&format!("\"key\":\"{}\"", f.condition))) {
            enter(&mut office, folder, survey, f);
        }
    }
    (office, surveys)
}

#[test]
fn the_record_on_the_screen_is_that_of_the_command_line_and_every_number_leads_to_its_houses() {
    let (mut office, surveys) = opened();
    let shown = office.ask("track", json!({ "by": "condition", "include_seen": false })).unwrap();
    let output = underlath(office.dir.path())
        .args(["--json", "track", "--split", "condition", "--office"])
        .arg(office.dir.path())
        .output()
        .unwrap();
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let told: Value = serde_json::from_slice(&output.stdout).unwrap();
    let (all, theirs) = (&shown["all"], &told["all"]);
    for (ours, key) in [("opened", "opened"), ("found", "found"), ("notOpened", "not_opened")] {
        assert_eq!(all[ours], theirs[key], "{ours}");
    }
    for (ours, key) in
        [("brier", "brier"), ("logScore", "log_score"), ("auc", "auc"), ("brierSkill", "brier_skill")]
    {
        assert_eq!(all["scores"][ours], theirs["scores"][key], "{ours}");
    }
    assert_eq!(all["small"], json!(true), "three houses are few");
    // By hand: what was found in the three houses beside their comparisons.
    let compared: Vec<Value> =
        surveys.iter().map(|s| office.ask("comparison", json!({ "survey": s })).unwrap()).collect();
    let sum = |key: &str| compared.iter().map(|c| c[key].as_u64().unwrap()).sum::<u64>();
    assert_eq!((all["opened"].as_u64(), all["found"].as_u64()), (Some(sum("opened")), Some(sum("found"))));
    let brier: f64 = compared
        .iter()
        .map(|c| c["scores"]["brier"].as_f64().unwrap() * c["opened"].as_f64().unwrap())
        .sum::<f64>()
        / sum("opened") as f64;
    let ours = all["scores"]["brier"].as_f64().unwrap();
    assert!((ours - brier).abs() < 1e-4, "{ours} {brier}: a comparison rounds");
    // Places in the list are the houses themselves.
    let houses = shown["houses"].as_array().unwrap();
    let of_all: Vec<&str> = all["houses"]
        .as_array()
        .unwrap()
        .iter()
        .map(|n| houses[n.as_u64().unwrap() as usize]["survey"].as_str().unwrap())
        .collect();
    assert_eq!(of_all.len(), 3);
    assert!(surveys.iter().all(|s| of_all.contains(&s.as_str())));
    let groups = shown["groups"].as_array().unwrap();
    let of_groups: u64 = groups.iter().map(|g| g["record"]["opened"].as_u64().unwrap()).sum();
    assert_eq!(of_groups, sum("opened"));
    let by_era = office.ask("track", json!({ "by": "era" })).unwrap();
    assert!(by_era["groups"].as_array().unwrap().iter().all(|g| !g["name"].as_str().unwrap().is_empty()));
    assert!(office.ask("track", json!({ "by": "year" })).is_err());
}

/// Asks until it is worked out; the score on houses apart needs more of them, and ends at once.
fn taught(office: &mut Office) -> Value {
    let begun = Instant::now();
    loop {
        let told = office.ask("learning", json!({})).unwrap();
        if told["state"] != "working" && told["scoring"] == json!(false) {
            return told;
        }
        assert!(begun.elapsed() < Duration::from_secs(300), "{told}");
        std::thread::sleep(Duration::from_millis(50));
    }
}

#[test]
fn a_line_taken_over_is_written_with_who_and_when_and_its_houses_teach_no_second_time() {
    let (mut office, _) = opened();
    let none = office.ask("accept-learning", json!({ "lines": ["bulkhead-duct/prior"] }));
    assert!(none.is_err(), "nothing was shown yet");
    let told = taught(&mut office);
    assert_eq!(
        (&told["state"], &told["heldOut"]),
        (&json!("ready"), &Value::Null),
        "three houses cannot be held out"
    );
    let lines = told["lines"].as_array().unwrap();
    let [first, second] = [0, 1].map(|n| lines[n]["id"].as_str().unwrap().to_owned());
    assert!(lines.iter().all(|l| l["opened"].as_u64() >= l["found"].as_u64()));

    // Refused with a word why: it stays on the list, and says so. Nothing is written.
    let refused =
        office.ask("refuse-learning", json!({ "line": second, "why": " too few houses " })).unwrap();
    let line = refused["lines"].as_array().unwrap().iter().find(|l| l["id"] == second.as_str()).unwrap();
    assert_eq!(line["decided"]["why"], json!("too few houses"));
    assert_eq!((&line["decided"]["accepted"], &line["decided"]["by"]), (&json!(false), &json!("W. Stroud")));
    assert!(office.ask("refuse-learning", json!({ "line": "no/such", "why": "" })).is_err());
    assert!(office.ask("accept-learning", json!({ "lines": ["no/such"] })).is_err());
    assert!(office.ask("accept-learning", json!({ "lines": [] })).is_err());
    let overlay = office.dir.path().join("overlay/learned.toml");
    assert!(!overlay.exists());

    // Later: what is decided in one moment has no order.
    office.now = "2026-06-09T14:46:00-04:00".parse().unwrap();
    let before = office.catalog.digest;
    let done = office.ask("accept-learning", json!({ "lines": [first] })).unwrap();
    assert_eq!(done["houses"], json!(3));
    let text = std::fs::read_to_string(&overlay).unwrap();
    let condition = first.split('/').next().unwrap();
    assert!(text.contains(&format!("[change.condition.{condition}")), "{text}");
    office.read_again();
    assert_ne!(office.catalog.digest, before);
    let told = taught(&mut office);
    assert_eq!((&told["state"], &told["known"]), (&json!("none"), &json!(3)));
    let decided = told["decided"].as_array().unwrap();
    assert_eq!(decided.len(), 2);
    assert_eq!((&decided[0]["accepted"], &decided[0]["line"]), (&json!(true), &json!(first)));
    assert_eq!(decided[0]["at"], json!("2026-06-09T14:46:00.000-04:00"));
    // The record was made before anything was learned, and stays.
    let shown = office.ask("track", json!({})).unwrap();
    assert_eq!(shown["all"]["houses"].as_array().unwrap().len(), 3);

    // By hand, the files changed under what is shown: it is worked out anew before anything is taken over.
    std::fs::write(&overlay, text.replace("reason = \"learned", "reason = \"by hand, learned")).unwrap();
    let stale = office.ask("accept-learning", json!({ "lines": [second] }));
    assert!(stale.is_err(), "{stale:?}");
}
