//! The one place of the shell that asks the system: for the folder of the records, the time, random bits and the name
//! of the person.

use std::path::PathBuf;

use actions::{Clock, Random, Stamp};
use commands::{Place, World};

/// The place in the folder the command line uses too: `UNDERLATH_HOME`, or `underlath` below the data folder of the
/// person.
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
pub(crate) fn place() -> Place {
    let set = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    let folder = set("UNDERLATH_HOME")
        .or_else(|| set("XDG_DATA_HOME").map(|data| data.join("underlath")))
        .or_else(|| set("HOME").map(|home| home.join(".local/share/underlath")));
    let by = std::env::var("USER").ok().filter(|name| !name.trim().is_empty());
    let by = by.unwrap_or_else(|| "unnamed".to_owned());
    let home = set("HOME").map(|home| home.join("Downloads")).filter(|folder| folder.is_dir());
    let downloads =
        set("XDG_DOWNLOAD_DIR").or(home).or_else(|| folder.as_ref().map(|f| f.join("handed-over")));
    Place::new(folder, World { clock: Box::new(SystemClock), random: Box::new(SystemRandom), by, downloads })
}

/// The machine's clock and zone.
struct SystemClock;

impl Clock for SystemClock {
    fn now(&self) -> Stamp {
        let now = jiff::Zoned::now();
        let minutes = i16::try_from(now.offset().seconds() / 60).unwrap_or(0);
        Stamp::new(now.timestamp().as_millisecond(), minutes)
            // Zero is within every bound the constructor checks.
            .or_else(|_| Stamp::new(0, 0))
            .unwrap_or_else(|_| unreachable!("the epoch is a stamp"))
    }
}

/// The machine's random bits.
struct SystemRandom;

impl Random for SystemRandom {
    fn ten(&mut self) -> [u8; 10] {
        let mut bytes = [0; 10];
        // Without them two devices could not be told apart; better to stop than to collide.
        if getrandom::fill(&mut bytes).is_err() {
            std::process::abort();
        }
        bytes
    }
}
