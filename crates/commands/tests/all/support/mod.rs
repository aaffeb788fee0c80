//! A place in a folder, with a clock that ticks and random bits that are none.
#![allow(clippy::unwrap_used, reason = "a helper of a test may stop the test")]

use std::path::Path;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};

use actions::{Clock, Random, Stamp};
use commands::{Place, Refused, World};
use serde_json::{Value, json};

static SEEDS: AtomicU64 = AtomicU64::new(1_000);

struct Ticking(AtomicI64);

impl Clock for Ticking {
    fn now(&self) -> Stamp {
        let seconds = self.0.fetch_add(1, Ordering::SeqCst);
        Stamp::new(1_775_000_000_000 + seconds * 1_000, -300).unwrap()
    }
}

struct Counted {
    seed: u64,
    drawn: u16,
}

impl Random for Counted {
    fn ten(&mut self) -> [u8; 10] {
        self.drawn += 1;
        let mut bytes = [0; 10];
        bytes[..8].copy_from_slice(&self.seed.to_be_bytes());
        bytes[8..].copy_from_slice(&self.drawn.to_be_bytes());
        bytes
    }
}

/// A world whose ids are its own.
pub(crate) fn world() -> World {
    world_of(SEEDS.fetch_add(1, Ordering::SeqCst))
}

/// A world that is the same every time.
pub(crate) fn world_of(seed: u64) -> World {
    World {
        clock: Box::new(Ticking(AtomicI64::new(0))),
        random: Box::new(Counted { seed, drawn: 0 }),
        by: "R. Ames".to_owned(),
        downloads: None,
    }
}

pub(crate) fn place(folder: &Path) -> Place {
    Place::new(Some(folder.to_owned()), world())
}

pub(crate) fn ask(place: &Place, name: &str, args: Value) -> Result<Value, Refused> {
    place.ask("en", name, args)
}

/// A house that is started with some planned work; the walk it begins with.
pub(crate) fn started(place: &Place) -> Value {
    ask(
        place,
        "start-house",
        json!({ "label": "Mill Lane kitchen", "year": "1962", "within": 5, "contractCents": 8_000_000,
            "planned": ["remove-bulkhead", "deep-sink", "new-floor"], "by": "Rosa Lind" }),
    )
    .unwrap()
}

/// Id of the house of a walk.
pub(crate) fn survey(walk: &Value) -> String {
    walk["survey"].as_str().unwrap().to_owned()
}
