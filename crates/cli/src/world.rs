//! The world handed to the core: clock, random bits, folders. The one place that asks the system for them.

use std::path::PathBuf;

use actions::{Clock, Error, Kind, Random};
use survey::Stamp;
use words::{Language, msg};

/// The machine's clock and zone.
pub struct SystemClock;

impl Clock for SystemClock {
    fn now(&self) -> Stamp {
        let now = jiff::Zoned::now();
        let minutes = i16::try_from(now.offset().seconds() / 60).unwrap_or(0);
        Stamp::new(now.timestamp().as_millisecond(), minutes).unwrap_or_else(|_| epoch())
    }
}

fn epoch() -> Stamp {
    // Zero is within every bound the constructor checks.
    Stamp::new(0, 0).unwrap_or_else(|_| unreachable!("the epoch is a stamp"))
}

/// The machine's random bits.
pub struct SystemRandom;

impl Random for SystemRandom {
    fn ten(&mut self) -> [u8; 10] {
        let mut bytes = [0; 10];
        // Without entropy two devices could only be told apart by their clocks; better to stop than to collide.
        if getrandom::fill(&mut bytes).is_err() {
            std::process::abort();
        }
        bytes
    }
}

/// A secret of 32 random bytes, in hexadecimal.
pub fn secret() -> Result<String, Error> {
    let mut bytes = [0; 32];
    getrandom::fill(&mut bytes)
        .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())))?;
    Ok(bytes.iter().map(|byte| format!("{byte:02x}")).collect())
}

/// Fills with random bits, for whoever takes them so.
pub fn fill(bytes: &mut [u8]) {
    // As above: a secret somebody could guess is worse than no program.
    if getrandom::fill(bytes).is_err() {
        std::process::abort();
    }
}

/// A clock that stands where it was put, for replaying a sample.
pub struct SetClock(pub std::cell::Cell<Stamp>);

impl Clock for SetClock {
    fn now(&self) -> Stamp {
        self.0.get()
    }
}

/// Counts instead of drawing, for replaying a sample: the same replay gives the same ids.
pub struct Counted(pub u64);

impl Random for Counted {
    fn ten(&mut self) -> [u8; 10] {
        self.0 += 1;
        let mut bytes = [0; 10];
        bytes[2..].copy_from_slice(&self.0.to_be_bytes());
        bytes
    }
}

/// A folder from an option, a variable, or below the data folder of the person.
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
pub fn folder(given: Option<PathBuf>, variable: &str, name: &str) -> Result<PathBuf, Error> {
    let set = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    given
        .or_else(|| set(variable))
        .or_else(|| set("XDG_DATA_HOME").map(|d| d.join(name)))
        .or_else(|| set("HOME").map(|h| h.join(".local/share").join(name)))
        .ok_or_else(|| {
            let hint = msg!("error-no-folder-hint", variable = variable);
            Error::new(Kind::Input, msg!("error-no-folder")).hint(hint)
        })
}

/// The folder in which the person looks for files, where there is one.
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
pub fn downloads() -> Option<PathBuf> {
    let set = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
    let home = || set("HOME").map(|home| home.join("Downloads")).filter(|folder| folder.is_dir());
    set("XDG_DOWNLOAD_DIR").or_else(home)
}

/// The overlay that a variable names.
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
pub fn overlay() -> Option<PathBuf> {
    std::env::var_os("UNDERLATH_OVERLAY").filter(|v| !v.is_empty()).map(PathBuf::from)
}

/// Name of the person at the machine.
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
pub fn person(given: Option<String>) -> Result<String, Error> {
    let name = given.or_else(|| std::env::var("USER").ok()).unwrap_or_else(|| "unnamed".to_owned());
    let name = name.trim().to_owned();
    if name.is_empty() || name.chars().count() > 80 || name.chars().any(char::is_control) {
        return Err(Error::new(Kind::Input, msg!("error-person")));
    }
    Ok(name)
}

/// The language of the person's terminal: of the first of these variables that is set, as POSIX orders them.
#[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
pub fn language() -> Language {
    let set = |name: &&str| std::env::var(name).ok().filter(|value| !value.is_empty());
    let first = ["LC_ALL", "LC_MESSAGES", "LANG"].iter().find_map(set);
    first.and_then(|tag| Language::of_tag(&tag)).unwrap_or_default()
}
