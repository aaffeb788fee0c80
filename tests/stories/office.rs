//! The office desk through what its screens ask: packets as they came, findings entered, forecast beside finding. What a
//! house gives is kept for the tests of the screens.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use actions::CatalogFiles;
use office::ask::{self, Call, Kept};
use office::learning::{Shelf, ShelfError};
use office::people::Sight;
use office::{Desk, OfficeError, PictureSize};
use serde::Deserialize;
use serde_json::{Value, json};
use survey::catalog::{Catalog, builtin};
use survey::{Digest, Stamp};
use words::{Language, Words};

use super::demo::plain;
use super::office_record;
use crate::support::root;

/// An office with the three packets of the demo, received at these hours.
pub struct Office {
    pub dir: tempfile::TempDir,
    pub desk: Desk,
    kept: Kept,
    pub catalog: Catalog,
    shelf: Overlay,
    pub now: Stamp,
    by: &'static str,
}

/// The firm's own numbers in a folder beside the office.
struct Overlay(PathBuf);

impl Overlay {
    fn read(&self) -> CatalogFiles {
        let there = self.0.join(review::learn::FILE).is_file();
        CatalogFiles::read(None, there.then_some(self.0.as_path())).unwrap()
    }
}

impl Shelf for Overlay {
    fn catalog(&self) -> Result<Catalog, ShelfError> {
        Ok(self.read().catalog()?)
    }
    fn tried(&self, file: &str, text: &str) -> Result<Catalog, ShelfError> {
        Ok(self.read().with_file(file, text).catalog()?)
    }
    fn place(&self, file: &str) -> Result<PathBuf, ShelfError> {
        Ok(self.0.join(file))
    }
    fn files(&self) -> Result<Vec<(String, String)>, ShelfError> {
        Ok(actions::to_travel(&self.0)?)
    }
}

impl Office {
    pub fn new() -> Self {
        let dir = tempfile::tempdir().unwrap();
        let desk = Desk::open(dir.path()).unwrap();
        let now = "2026-03-03T09:02:00-05:00".parse().unwrap();
        let shelf = Overlay(dir.path().join("overlay"));
        Self { dir, desk, kept: Kept::default(), catalog: builtin().unwrap(), shelf, now, by: "W. Stroud" }
    }

    fn call<T>(&mut self, act: impl FnOnce(&mut Call<'_>) -> T) -> T {
        let words = Words::of(Language::En);
        let Self { desk, kept, catalog, shelf, now, by, .. } = self;
        let sight = &Sight::default();
        act(&mut Call { desk, kept, catalog, shelf, watched: None, words, by, sight, now: *now })
    }

    /// The catalog as its files stand now, as a door that took lines over reads it.
    pub fn read_again(&mut self) {
        self.catalog = self.shelf.catalog().unwrap();
    }

    pub fn ask(&mut self, name: &str, args: Value) -> Result<Value, OfficeError> {
        let command = ask::command(name).unwrap_or_else(|| panic!("no command {name}"));
        self.call(|call| command.run(call, args))
    }

    /// Receives the packet of a house, by the beginning of its file's name.
    pub fn receive(&mut self, house: &str, at: &str) -> Value {
        self.receive_file(&packet(house), at)
    }

    /// Receives a packet.
    pub fn receive_file(&mut self, path: &Path, at: &str) -> Value {
        self.now = at.parse().unwrap();
        let line = self.call(|call| ask::received(call, path)).unwrap();
        serde_json::to_value(line).unwrap()
    }
}

fn packet(house: &str) -> std::path::PathBuf {
    let run = plain();
    let named = |name: &&String| name.ends_with(".zip") && name.contains(house);
    run.dir.join(run.made.keys().find(named).unwrap_or_else(|| panic!("no packet of {house}")))
}

/// What was found in a sample house.
#[derive(Deserialize)]
pub struct Sample {
    pub finding: Vec<SampleFinding>,
}

#[derive(Deserialize)]
pub struct SampleFinding {
    pub condition: String,
    pub found: String,
    cost: f64,
    days: f64,
    priced_before_signing: bool,
    paid_by: Option<String>,
    #[serde(default)]
    note: String,
    photo: Option<String>,
}

pub fn sample(house: &str) -> Vec<SampleFinding> {
    let path = root().join("sample-surveys").join(house).join("findings.toml");
    toml::from_str::<Sample>(&std::fs::read_to_string(path).unwrap()).unwrap().finding
}

/// Enters one, with its photograph; gives the row renewed.
pub fn enter(office: &mut Office, house: &str, survey: &str, f: &SampleFinding) -> Value {
    let photo = f.photo.as_ref().map(|photo| {
        let bytes = std::fs::read(root().join("sample-surveys").join(house).join(photo)).unwrap();
        office.desk.take_finding_photo(&bytes, &InThisProcess).unwrap().to_string()
    });
    let found = f.found == "found";
    let args = json!({
        "survey": survey, "condition": f.condition, "outcome": f.found,
        "cost_cents": (f.cost * 100.0).round() as i64, "days_tenths": (f.days * 10.0).round() as i64,
        "in_price": f.priced_before_signing && found, "paid_by": f.paid_by, "note": f.note, "photo": photo,
    });
    office.ask("enter-finding", args).unwrap()
}

const HOUSE: &str = "quarry-bend";
/// So many findings are entered when the list is recorded.
const ENTERED: usize = 22;

/// The office as its screens see it, kept in `ui/e2e/page/office.json`.
#[test]
fn the_office_the_screens_are_tested_with_is_the_one_the_program_gives() {
    let mut office = Office::new();
    office.receive("heron", "2026-03-02T16:40:00-05:00");
    office.receive("alder", "2026-03-03T09:02:00-05:00");
    let line = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let survey = line["survey"].as_str().unwrap().to_owned();
    let house = office.ask("house", json!({ "survey": survey })).unwrap();
    let unopened = office.ask("comparison", json!({ "survey": survey })).unwrap();
    office.now = "2026-06-09T14:45:00-04:00".parse().unwrap();
    // As the forecast orders them, so that a few of each outcome are among the first.
    let all = sample(HOUSE);
    let known: Vec<&SampleFinding> = {
        let findings = office.ask("findings", json!({ "survey": survey })).unwrap();
        let text = findings.to_string();
        all.iter().filter(|f| text.contains(&format!("\"key\":\"{}\"", f.condition))).collect()
    };
    for f in &known[..ENTERED] {
        enter(&mut office, HOUSE, &survey, f);
    }
    let findings = office.ask("findings", json!({ "survey": survey })).unwrap();
    let inbox = office.ask("inbox", json!({})).unwrap();
    for f in &known[ENTERED..] {
        enter(&mut office, HOUSE, &survey, f);
    }
    let compared = office.ask("comparison", json!({ "survey": survey })).unwrap();
    let small = office.ask("track", json!({ "by": "condition" })).unwrap();
    let (track, learning) = office_record::many();
    let recorded = json!({
        "inbox": inbox, "house": house, "findings": findings, "compared": compared, "unopened": unopened,
        "track": track, "small": small, "learning": learning, "shots": shots(),
    });
    let mut names = BTreeMap::new();
    let text = format!("{}\n", serde_json::to_string_pretty(&steady(recorded, &mut names)).unwrap());
    let path = root().join("ui/e2e/page/office.json");
    if std::env::var_os("UPDATE_BINDINGS").is_some() {
        std::fs::write(&path, &text).unwrap();
    }
    let committed = std::fs::read_to_string(&path).unwrap_or_default();
    assert!(
        committed == text,
        "{} is stale: run UPDATE_BINDINGS=1 cargo test -p house-tests stories::office",
        path.display()
    );
}

/// Where each photograph of the sample house lies.
fn shots() -> BTreeMap<String, String> {
    let mut shots = BTreeMap::new();
    for folder in ["photos", "findings-photos"] {
        for file in std::fs::read_dir(root().join("sample-surveys").join(HOUSE).join(folder)).unwrap() {
            let file = file.unwrap();
            let digest = Digest::of(&std::fs::read(file.path()).unwrap()).to_string();
            shots.insert(digest, format!("{HOUSE}/{folder}/{}", file.file_name().to_string_lossy()));
        }
    }
    shots
}

/// The same whatever the build: chances to three places, packets numbered as they are met, their size and pages left out,
/// which hang on whether this build sets pages.
fn steady(value: Value, names: &mut BTreeMap<String, String>) -> Value {
    match value {
        Value::Number(n) if n.is_f64() => json!((n.as_f64().unwrap() * 1000.0).round() / 1000.0),
        Value::Array(list) => list.into_iter().map(|one| steady(one, names)).collect(),
        Value::Object(map) => {
            let mut steadied = serde_json::Map::new();
            for (key, value) in map {
                let value = match (key.as_str(), value) {
                    ("packet", Value::String(digest)) => {
                        let n = names.len() + 1;
                        json!(names.entry(digest).or_insert_with(|| format!("packet-{n}")))
                    }
                    ("bytes", _) => json!(0),
                    ("pages", _) => json!([]),
                    (_, other) => steady(other, names),
                };
                steadied.insert(key, value);
            }
            Value::Object(steadied)
        }
        other => other,
    }
}

#[test]
fn a_packet_comes_in_once_and_its_line_says_what_its_seal_is_worth() {
    let mut office = Office::new();
    let first = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let again = office.receive(HOUSE, "2026-03-04T08:00:00-05:00");
    assert_eq!((&first["firstTime"], &again["firstTime"]), (&json!(true), &json!(false)));
    assert_eq!(first["receivedAt"], again["receivedAt"]);
    let inbox = office.ask("inbox", json!({})).unwrap();
    assert_eq!(inbox["packets"].as_array().unwrap().len(), 1);
    let line = &inbox["packets"][0];
    assert_eq!((line["photos"].as_u64(), line["judged"].as_bool()), (Some(10), Some(true)));
    assert!(line["seal"].as_str().unwrap().contains("no key yet"), "{line}");
    office.desk.make_key(Some("Hale & Daughter"), [7; 32]).unwrap();
    let inbox = office.ask("inbox", json!({})).unwrap();
    let line = &inbox["packets"][0];
    assert!(line["seal"].as_str().unwrap().contains("certified by nobody"), "{line}");
    assert_eq!(line["certified"], json!(false));
}

#[test]
fn a_note_ends_at_2000_letters_and_a_longer_one_keeps_nothing() {
    let mut office = Office::new();
    let line = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let survey = line["survey"].as_str().unwrap().to_owned();
    let condition = sample(HOUSE)[0].condition.clone();
    let enter = |office: &mut Office, note: String| {
        let args = json!({ "survey": survey, "condition": condition, "outcome": "not-there", "note": note });
        office.ask("enter-finding", args)
    };
    let refused = enter(&mut office, "é".repeat(2001)).unwrap_err();
    assert!(matches!(refused, OfficeError::LongNote { most: 2000 }), "{refused}");
    let entered =
        |office: &mut Office| office.ask("inbox", json!({})).unwrap()["packets"][0]["entered"].clone();
    assert_eq!(entered(&mut office), json!(0));
    enter(&mut office, "é".repeat(2000)).unwrap();
    assert_eq!(entered(&mut office), json!(1));
}

#[test]
fn a_packet_that_was_lost_from_the_disk_is_told_and_hides_no_other() {
    let mut office = Office::new();
    office.receive("heron", "2026-03-02T16:40:00-05:00");
    let lost = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let digest: Digest = lost["packet"].as_str().unwrap().parse().unwrap();
    std::fs::remove_file(office.desk.packet_path(digest)).unwrap();
    std::fs::remove_dir_all(office.dir.path().join("derived")).unwrap();
    let inbox = office.ask("inbox", json!({})).unwrap();
    let packets = inbox["packets"].as_array().unwrap();
    assert_eq!(packets.len(), 2);
    assert!(packets[0]["trouble"].is_string() && packets[1]["trouble"].is_null(), "{packets:?}");
}

#[test]
fn a_finding_entered_is_the_row_renewed_and_the_earlier_entry_is_counted() {
    let mut office = Office::new();
    let line = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let survey = line["survey"].as_str().unwrap().to_owned();
    office.now = "2026-06-09T14:45:00-04:00".parse().unwrap();
    let args = |outcome: &str, cents: i64| {
        json!({ "survey": survey, "condition": "bulkhead-duct", "outcome": outcome, "cost_cents": cents,
            "days_tenths": if cents > 0 { 15 } else { 0 }, "paid_by": (cents > 0).then_some("change-order") })
    };
    let row = office.ask("enter-finding", args("found", 148_000)).unwrap();
    assert_eq!(row["finding"]["costCents"], json!(148_000));
    assert_eq!(row["finding"]["daysTenths"], json!(15));
    assert_eq!(row["finding"]["borne"], json!("change-order"));
    assert_eq!((&row["finding"]["by"], &row["earlier"]), (&json!("W. Stroud"), &json!(0)));
    assert!(!row["path"].as_array().unwrap().is_empty() && !row["pictures"].as_array().unwrap().is_empty());
    let row = office.ask("enter-finding", args("not-there", 0)).unwrap();
    assert_eq!((&row["finding"]["outcome"], &row["earlier"]), (&json!("not-there"), &json!(1)));
    // What does not go together is refused, and changes nothing.
    let wrong = json!({ "survey": survey, "condition": "bulkhead-duct", "outcome": "not-opened", "paid_by": "absorbed" });
    assert!(matches!(office.ask("enter-finding", wrong), Err(OfficeError::Finding(_))));
    for condition in ["no-such-thing", "bulkhead-duct@nowhere"] {
        let wrong = json!({ "survey": survey, "condition": condition, "outcome": "not-there" });
        assert!(office.ask("enter-finding", wrong).is_err(), "{condition}");
    }
    let row = office.ask("enter-finding", args("not-there", 0)).unwrap();
    assert_eq!(row["earlier"], json!(2));
}

#[test]
fn what_nobody_forecast_is_chosen_from_the_catalog_entered_once_and_is_a_miss() {
    let mut office = Office::new();
    let line = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let survey = line["survey"].as_str().unwrap().to_owned();
    office.now = "2026-06-09T14:45:00-04:00".parse().unwrap();
    let list = |office: &mut Office| office.ask("findings", json!({ "survey": survey })).unwrap();
    let before = list(&mut office);
    let choices = before["choices"].as_array().unwrap();
    let rows: Vec<&Value> =
        before["stages"].as_array().unwrap().iter().flat_map(|s| s["rows"].as_array().unwrap()).collect();
    assert!(!choices.is_empty() && before["others"] == json!([]));
    assert!(choices.iter().all(|one| rows.iter().all(|row| row["key"] != one["key"])), "each has no row yet");
    let key = choices[0]["key"].clone();
    let args = |condition: &Value, outcome: &str, cents: i64| json!({ "survey": survey, "condition": condition, "outcome": outcome, "cost_cents": cents, "days_tenths": 0 });
    // Each side takes its own conditions only, and what is refused is not kept.
    let wrong = office.ask("enter-other-finding", args(&rows[0]["key"], "found", 1)).unwrap_err();
    assert!(matches!(wrong, OfficeError::InForecast { .. }), "{wrong}");
    let wrong = office.ask("enter-finding", args(&key, "found", 1)).unwrap_err();
    assert!(matches!(wrong, OfficeError::NotForecast { .. }), "{wrong}");
    assert_eq!(list(&mut office), before);

    let row = office.ask("enter-other-finding", args(&key, "found", 64_000)).unwrap();
    assert_eq!((&row["key"], &row["name"], &row["earlier"]), (&key, &choices[0]["name"], &json!(0)));
    let after = list(&mut office);
    assert_eq!(after["others"], json!([row]));
    assert_eq!(after["choices"].as_array().unwrap().len(), choices.len() - 1, "it has a row now");
    let compared = office.ask("comparison", json!({ "survey": survey })).unwrap();
    let told = compared["rows"].as_array().unwrap().iter().find(|one| one["key"] == key).unwrap();
    assert_eq!(
        (&told["missed"], &told["aboutIn10"], &told["cameCents"]),
        (&json!(true), &Value::Null, &json!(64_000))
    );
    assert_eq!((&compared["cameCents"], &compared["opened"]), (&json!(64_000), &json!(0)));

    // Entered by mistake: a further entry takes it out of the comparison, and the row stays.
    let row = office.ask("enter-other-finding", args(&key, "not-there", 0)).unwrap();
    assert_eq!(row["earlier"], json!(1));
    assert_eq!(list(&mut office)["others"], json!([row]));
    let compared = office.ask("comparison", json!({ "survey": survey })).unwrap();
    assert_eq!((&compared["rows"], &compared["cameCents"]), (&json!([]), &json!(0)));
}

#[test]
fn arguments_that_are_none_and_houses_that_are_not_here_are_refused_by_name() {
    let mut office = Office::new();
    for command in ask::COMMANDS {
        let refused = office.ask(command.name, json!({ "surprise": 1 })).unwrap_err();
        assert!(
            matches!(&refused, OfficeError::Arguments { command: of, .. } if of == command.name),
            "{refused}"
        );
    }
    for name in ["house", "findings", "comparison"] {
        let refused = office.ask(name, json!({ "survey": "nowhere" })).unwrap_err();
        assert!(matches!(refused, OfficeError::NoSuchHouse { .. }), "{name}: {refused}");
    }
    assert!(ask::command("everything").is_none());
}

#[test]
fn pictures_are_our_own_of_photographs_that_the_packet_holds_only() {
    let mut office = Office::new();
    let line = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let packet: Digest = line["packet"].as_str().unwrap().parse().unwrap();
    let path = root().join("sample-surveys").join(HOUSE).join("photos/under-sink.jpg");
    let original = std::fs::read(path).unwrap();
    let photo = Digest::of(&original);
    for (size, longest) in [(PictureSize::Screen, 1600), (PictureSize::List, 320)] {
        let made = office.desk.picture(packet, photo, size, &InThisProcess).unwrap();
        assert_ne!(made, original);
        let shown = image::load_from_memory(&made).unwrap();
        assert!(shown.width().max(shown.height()) <= longest);
        // Kept: it needs no packet any more.
        assert_eq!(office.desk.picture(packet, photo, size, &Never).unwrap(), made);
    }
    let other = Digest::of(b"not in there");
    assert!(matches!(
        office.desk.picture(packet, other, PictureSize::List, &InThisProcess),
        Err(OfficeError::NoPhoto { .. })
    ));
    assert!(matches!(
        office.desk.picture(other, photo, PictureSize::List, &InThisProcess),
        Err(OfficeError::NoPacket { .. })
    ));
    assert!(matches!(
        office.desk.take_finding_photo(b"%PDF-1.7", &InThisProcess),
        Err(OfficeError::Pictures(_))
    ));
}

/// Makes them in this process: the photographs of the stories are ours.
struct InThisProcess;

impl office::MakesPictures for InThisProcess {
    fn make(&self, original: Vec<u8>) -> Result<apart::Made, apart::ApartError> {
        apart::pictures(&original).map_err(|e| apart::ApartError::Refused(e.said()))
    }
}

/// Makes no picture.
struct Never;

impl office::MakesPictures for Never {
    fn make(&self, _: Vec<u8>) -> Result<apart::Made, apart::ApartError> {
        panic!("it was made before")
    }
}

/// What is derived may be thrown away.
#[test]
fn what_is_derived_is_made_again() {
    let mut office = Office::new();
    let line = office.receive(HOUSE, "2026-03-03T14:12:00-05:00");
    let survey = line["survey"].clone();
    let before = office.ask("house", json!({ "survey": survey })).unwrap();
    let derived: &Path = &office.dir.path().join("derived");
    assert!(derived.is_dir());
    std::fs::remove_dir_all(derived).unwrap();
    office.kept = Kept::default();
    assert_eq!(office.ask("house", json!({ "survey": survey })).unwrap(), before);
}

/// What was carried on average is what the forecast itself found by drawing: the mean of each condition's part.
#[test]
fn differences_hold_what_was_drawn_against_what_it_came_to() {
    let office = Desk::open(&plain().dir.join("demo-made/office")).unwrap();
    for house in ["Quarry Bend kitchen", "Alder Street kitchen", "Heron Court kitchen and hall bath"] {
        let survey = office.find(house).unwrap();
        let (digest, forecast) = office.judged_forecast(survey).unwrap().unwrap();
        let findings = office.findings(survey).unwrap();
        let comparison = review::compare(&forecast, digest, &findings);
        let all = review::differences(&forecast, &findings);
        let came: survey::units::Money = all.iter().map(|d| d.came).sum();
        assert_eq!(came, comparison.money.actual, "{house}");
        let opened = comparison.rows.len() as u32 - comparison.not_opened;
        assert_eq!(all.len(), opened as usize + comparison.out_of_scope.len(), "{house}");
        let missed: Vec<&str> = all.iter().filter(|d| d.missed).map(|d| d.condition.as_str()).collect();
        assert_eq!(sorted(&missed), sorted(&comparison.missed), "{house}");
        let alarms: Vec<&str> = all.iter().filter(|d| d.false_alarm).map(|d| d.condition.as_str()).collect();
        assert_eq!(sorted(&alarms), sorted(&comparison.false_alarms), "{house}");
        for pair in all.windows(2) {
            assert!(pair[0].more().abs() >= pair[1].more().abs(), "{house}: {pair:?}");
        }
        for part in &forecast.money.to_mean {
            let Some(d) = all.iter().find(|d| d.condition == part.condition) else { continue };
            let (drawn, carried) = (part.amount.dollars(), d.carried.dollars());
            // What another condition covers is drawn once only, so that the drawn part may be smaller.
            assert!(
                drawn <= carried * 1.06 + 20.0,
                "{house} {}: drawn {drawn}, carried {carried}",
                d.condition
            );
        }
    }
}

fn sorted(list: &[impl AsRef<str>]) -> Vec<&str> {
    let mut sorted: Vec<&str> = list.iter().map(AsRef::as_ref).collect();
    sorted.sort_unstable();
    sorted
}
