//! The one place of the shell that asks the system: for the folder of the records, the time, random bits and the name
//! of the person.

use std::path::PathBuf;

use actions::{Clock, Random, Stamp};
use commands::{Place, World};

/// Where records lie and where copies for people go.
struct Folders {
    records: Option<PathBuf>,
    copies: Option<PathBuf>,
    person: Option<String>,
}

/// The place of the records on this device.
pub(crate) fn place(app: &tauri::App) -> Place {
    let Folders { records, copies, person } = folders(app);
    let by = person.filter(|name| !name.trim().is_empty()).unwrap_or_else(|| "unnamed".to_owned());
    let downloads = copies.or_else(|| records.as_ref().map(|folder| folder.join("handed-over")));
    Place::new(records, World { clock: Box::new(SystemClock), random: Box::new(SystemRandom), by, downloads })
}

/// The folder the command line uses too: `UNDERLATH_HOME`, or `underlath` below the data folder of the person.
#[cfg(desktop)]
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
fn folders(_: &tauri::App) -> Folders {
    let set = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    let records = set("UNDERLATH_HOME")
        .or_else(|| set("XDG_DATA_HOME").map(|data| data.join("underlath")))
        .or_else(|| set("HOME").map(|home| home.join(".local/share/underlath")));
    let found = set("HOME").map(|home| home.join("Downloads")).filter(|folder| folder.is_dir());
    Folders { records, copies: set("XDG_DOWNLOAD_DIR").or(found), person: std::env::var("USER").ok() }
}

/// The folder the tablet keeps for this program alone, and its documents folder, which the tablet's own file list
/// shows. A tablet knows no person; settings do.
#[cfg(mobile)]
fn folders(app: &tauri::App) -> Folders {
    use tauri::Manager;
    let paths = app.path();
    let records = paths.app_data_dir().ok().map(|data| data.join("underlath"));
    Folders { records, copies: paths.document_dir().ok(), person: None }
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
