//! Where the records of this device lie, and the desk over them, shared by everything that asks.

use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Mutex, PoisonError};

use actions::{Clock, Desk, Error, Kept, Kind, Kit, Random};
use serde_json::Value;
use words::{Language, Words, msg};

use crate::Refused;
use crate::table::{Call, find};

/// What a door hands in of the world.
pub struct World {
    /// The clock.
    pub clock: Box<dyn Clock + Send>,
    /// Random bits.
    pub random: Box<dyn Random + Send>,
    /// Who walks, until somebody gives a name on this device.
    pub by: String,
}

/// The folder, and its desk once it could be opened.
pub struct Place {
    folder: Option<PathBuf>,
    open: Mutex<Open>,
    /// How many wait for the desk.
    waiting: AtomicU32,
}

struct Open {
    world: World,
    desk: Option<Desk>,
    kept: Kept,
}

impl Place {
    /// A place in a folder; nothing is opened yet.
    pub fn new(folder: Option<PathBuf>, world: World) -> Self {
        let open = Open { world, desk: None, kept: Kept::default() };
        Self { folder, open: Mutex::new(open), waiting: AtomicU32::new(0) }
    }

    /// Answers a command by its name, in a language given by its tag (English where it is none of ours). Opens the
    /// desk first where that has not been done or has failed so far. One command runs at a time; long work is broken
    /// off when another one waits, and its answer is then `null`.
    ///
    /// # Errors
    /// What opening or the action itself is refused with, in that language; a name or arguments that are none.
    pub fn ask(&self, language: &str, name: &str, args: Value) -> Result<Value, Refused> {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        self.in_words(words, name, args).map_err(|error| Refused::new(&error, words))
    }

    fn in_words(&self, words: &'static Words, name: &str, args: Value) -> Result<Value, Error> {
        let command = find(name)?;
        self.waiting.fetch_add(1, Ordering::SeqCst);
        // A command that died while it ran has left nothing half done: an entry is on the disk or it is not.
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        self.waiting.fetch_sub(1, Ordering::SeqCst);
        let Open { world, desk, kept } = &mut *open;
        let desk = match desk.take() {
            Some(there) => desk.insert(there),
            None => desk.insert(self.desk(world)?),
        };
        desk.speak(words);
        let by = actions::who(desk)?.unwrap_or_else(|| world.by.clone());
        let kit = Kit { clock: &*world.clock, random: &mut *world.random, by };
        let mut go_on = || self.waiting.load(Ordering::SeqCst) == 0;
        (command.run)(&mut Call { desk, kept, kit, go_on: &mut go_on }, name, args)
    }

    fn desk(&self, world: &mut World) -> Result<Desk, Error> {
        let folder = self.folder.as_deref().ok_or_else(|| {
            Error::new(Kind::Input, msg!("error-no-folder")).hint(msg!("error-no-folder-window-hint"))
        })?;
        let catalog = actions::builtin_catalog().map_err(|e| {
            Error::new(Kind::Internal, msg!("error-catalog", said = e.to_string()))
                .hint(msg!("error-install-hint"))
        })?;
        let mut kit = Kit { clock: &*world.clock, random: &mut *world.random, by: world.by.clone() };
        Desk::open(folder, catalog, &mut kit)
    }
}
