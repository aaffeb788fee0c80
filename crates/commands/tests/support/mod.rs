//! A place in a folder, with a clock that ticks and random bits that are none.
#![allow(unreachable_pub, dead_code, reason = "shared by test binaries")]

use std::path::Path;
use std::sync::atomic::{AtomicI64, AtomicU64, Ordering};

use actions::{Clock, Random, Stamp};
use commands::{Place, Refused, World};
use serde_json::Value;

static SECONDS: AtomicI64 = AtomicI64::new(0);
static DRAWN: AtomicU64 = AtomicU64::new(0);

struct Ticking;

impl Clock for Ticking {
    fn now(&self) -> Stamp {
        let seconds = SECONDS.fetch_add(1, Ordering::SeqCst);
        Stamp::new(1_775_000_000_000 + seconds * 1_000, -300).unwrap()
    }
}

struct Counted;

impl Random for Counted {
    fn ten(&mut self) -> [u8; 10] {
        let mut bytes = [0; 10];
        bytes[2..].copy_from_slice(&DRAWN.fetch_add(1, Ordering::SeqCst).to_be_bytes());
        bytes
    }
}

pub fn world() -> World {
    World { clock: Box::new(Ticking), random: Box::new(Counted), by: "R. Ames".to_owned() }
}

pub fn place(folder: &Path) -> Place {
    Place::new(Some(folder.to_owned()), world())
}

pub fn ask(place: &Place, name: &str, args: Value) -> Result<Value, Refused> {
    place.ask("en", name, args)
}
