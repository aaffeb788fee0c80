//! Entries, ids and times made from small numbers; the same test always makes the same ones.

use std::path::{Path, PathBuf};
use std::process::Command;

use store::{DATABASE, Next, Store, StoreError};
use survey::log::{Answer, Body, Entry, Note, Opened, Value};
use survey::units::Length;
use survey::{DeviceId, Digest, EntryId, Stamp, SurveyId};
use words::{Language, Words};

/// An error as it is said in English.
pub(crate) fn said(error: &StoreError) -> String {
    Words::of(Language::En).say(&error.message())
}
pub(crate) fn stamp(second: i64) -> Stamp {
    Stamp::new(1_776_000_000_000 + second * 1_000, -300).unwrap()
}
pub(crate) fn device(n: u8) -> DeviceId {
    DeviceId::from_bytes([n; 16])
}
pub(crate) fn house(n: u8) -> SurveyId {
    SurveyId::from_bytes([0xA0 + n; 16])
}
/// An id made from where the entry stands and a salt.
pub(crate) fn entry_id(next: &Next, salt: u64) -> EntryId {
    let text = format!("{} {} {} {salt}", next.survey, next.device, next.seq);
    let digest = Digest::of(text.as_bytes());
    EntryId::from_bytes(digest.as_bytes()[..16].try_into().unwrap())
}
pub(crate) fn entry(next: Next, body: Body) -> Entry {
    Entry {
        v: body.form(),
        id: entry_id(&next, 0),
        survey: next.survey,
        device: next.device,
        seq: next.seq,
        lamport: next.lamport,
        at: stamp(next.seq as i64),
        by: format!("surveyor {}", next.device.as_bytes()[0]),
        prev: next.prev,
        body,
    }
}
pub(crate) fn answer(item: &str, sixty_fourths: i64, corrects: &[EntryId]) -> Body {
    Body::Answer(Answer {
        place: "kitchen".into(),
        item: item.into(),
        value: Value::Length(Length::from_sixty_fourths(sixty_fourths)),
        tolerance: Some(Length::from_sixty_fourths(4)),
        entered: Some(format!("{sixty_fourths}/64 in")),
        photos: vec![],
        corrects: corrects.to_vec(),
        reason: None,
    })
}
pub(crate) fn opened(label: &str) -> Body {
    Body::Opened(Opened {
        label: label.into(),
        contract: None,
        contract_days: Some(30),
        catalog: Digest::of(b"catalog"),
    })
}
pub(crate) fn note(words: &str) -> Body {
    Body::Note(Note { place: None, item: None, text: words.into() })
}
pub(crate) fn record(store: &mut Store, survey: SurveyId, body: Body) -> Entry {
    store.append_with(survey, |next| entry(next, body.clone())).unwrap()
}
pub(crate) fn open(dir: &Path, n: u8) -> Store {
    Store::open(dir, stamp(0), device(n)).unwrap()
}
pub(crate) fn database(dir: &Path) -> PathBuf {
    dir.join(DATABASE)
}
/// A house of `n` entries: opening, answers, corrections, and now and then a note longer than a page.
pub(crate) fn fill(store: &mut Store, survey: SurveyId, n: u64) {
    record(store, survey, opened(&format!("House {}", survey.as_bytes()[0])));
    let mut last = None;
    for i in 1..n {
        let body = match i % 10 {
            3 => answer(&format!("item-{}", i % 7), i as i64, last.as_slice()),
            7 => note(&format!("{i}: {}", "behind the base cabinet, left of the drain. ".repeat(i as usize))),
            _ => answer(&format!("item-{}", i % 7), i as i64, &[]),
        };
        last = Some(record(store, survey, body).id);
    }
}

/// This test program again, running one test alone; `what` is handed over in the environment.
pub(crate) fn child(test: &str, what: &Path) -> Command {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args([test, "--exact", "--nocapture", "--test-threads=1"]).env("UNDERLATH_TEST_CHILD", what);
    command
}
/// What the parent handed over; none when the test program was started by hand.
#[allow(clippy::disallowed_methods)] // a test may be told by its parent what to do
pub(crate) fn handed_over() -> Option<PathBuf> {
    std::env::var_os("UNDERLATH_TEST_CHILD").map(PathBuf::from)
}
#[allow(clippy::disallowed_methods)] // whether a missing means is a failure depends on the machine
pub(crate) fn on_build_machine() -> bool {
    std::env::var_os("CI").is_some_and(|v| v == "true")
}

/// A seeded sequence (the 64-bit linear congruential generator of Knuth, MMIX), so that a failure can be repeated.
pub(crate) struct Dice(pub(crate) u64);
impl Dice {
    pub(crate) fn below(&mut self, n: u64) -> u64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % n
    }
}
