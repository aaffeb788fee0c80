//! Where the records of this device lie, and the desk over them. The one place of the shell that asks the system for
//! folder, time and random bits.

use std::path::PathBuf;
use std::sync::{Mutex, PoisonError};

use actions::{Clock, Desk, Error, Kind, Kit, Random, Stamp};
use words::{Language, Words, msg};

use crate::Refused;

/// The folder, and its desk once it could be opened.
pub struct Place {
    folder: Option<PathBuf>,
    desk: Mutex<Option<Desk>>,
}

impl Place {
    /// A place in a folder; nothing is opened yet.
    pub fn new(folder: Option<PathBuf>) -> Self {
        Self { folder, desk: Mutex::new(None) }
    }
    /// The folder the command line uses too: `UNDERLATH_HOME`, or `underlath` below the data folder of the person.
    #[allow(clippy::disallowed_methods, reason = "this is the door: the environment is read here only")]
    pub fn of_this_device() -> Self {
        let set = |name: &str| std::env::var_os(name).filter(|v| !v.is_empty()).map(PathBuf::from);
        Self::new(
            set("UNDERLATH_HOME")
                .or_else(|| set("XDG_DATA_HOME").map(|data| data.join("underlath")))
                .or_else(|| set("HOME").map(|home| home.join(".local/share/underlath"))),
        )
    }
    /// Does something at the desk in a language given by its tag (English where it is none of ours), opening the desk
    /// first where that has not been done or has failed so far.
    ///
    /// Errors: what opening or the action itself is refused with, in that language.
    pub fn at_desk<T>(
        &self,
        language: &str,
        act: impl FnOnce(&Desk) -> Result<T, Error>,
    ) -> Result<T, Refused> {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        self.in_words(words, act).map_err(|error| Refused::new(&error, words))
    }
    fn in_words<T>(
        &self,
        words: &'static Words,
        act: impl FnOnce(&Desk) -> Result<T, Error>,
    ) -> Result<T, Error> {
        // A command that died while it read has left nothing half done.
        let mut desk = self.desk.lock().unwrap_or_else(PoisonError::into_inner);
        let open = match desk.take() {
            Some(open) => open,
            None => self.open()?,
        };
        let desk = desk.insert(open);
        desk.speak(words);
        act(desk)
    }
    fn open(&self) -> Result<Desk, Error> {
        let folder = self.folder.as_deref().ok_or_else(|| {
            Error::new(Kind::Input, msg!("error-no-folder")).hint(msg!("error-no-folder-window-hint"))
        })?;
        let catalog = actions::builtin_catalog().map_err(|e| {
            Error::new(Kind::Internal, msg!("error-catalog", said = e.to_string()))
                .hint(msg!("error-install-hint"))
        })?;
        // Nothing is recorded here in this version, so nobody acts.
        let mut kit = Kit { clock: &SystemClock, random: &mut SystemRandom, by: String::new() };
        Desk::open(folder, catalog, &mut kit)
    }
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
