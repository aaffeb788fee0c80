//! Where the records of this device lie, and the desk over them, shared by everything that asks.

use std::path::PathBuf;
use std::sync::atomic::{AtomicU32, Ordering};
use std::sync::{Mutex, PoisonError};

use actions::{CatalogFiles, Clock, Desk, Error, Kept, Kind, Kit, Random, Sealing, Shown};
use serde_json::Value;
use words::{Language, Words, msg};

use crate::Refused;
use crate::line::Post;
use crate::table::{Call, find, write};

/// What a door hands in of the world.
pub struct World {
    /// The clock.
    pub clock: Box<dyn Clock + Send>,
    /// Random bits.
    pub random: Box<dyn Random + Send>,
    /// Who walks, until somebody gives a name on this device.
    pub by: String,
    /// Where people look for files that were handed over.
    pub downloads: Option<PathBuf>,
}

/// A photograph as it comes in.
#[derive(Clone, Copy, Debug)]
pub struct Photo<'a> {
    /// The house.
    pub survey: &'a str,
    /// What it shows.
    pub key: Option<&'a str>,
    /// Name of its file.
    pub name: &'a str,
    /// The bytes as the camera made them.
    pub bytes: &'a [u8],
}

/// The folder, and its desk once it could be opened.
pub struct Place {
    folder: Option<PathBuf>,
    /// The catalog to walk by; none: the one built in, with the overlay in the folder.
    catalog: Option<CatalogFiles>,
    open: Mutex<Open>,
    /// How many wait for the desk.
    waiting: AtomicU32,
}

struct Open {
    world: World,
    desk: Option<Desk>,
    kept: Kept,
    sealing: Option<Sealing>,
    post: Post,
}

impl Place {
    /// A place in a folder; nothing is opened yet.
    pub fn new(folder: Option<PathBuf>, world: World) -> Self {
        let open = Open { world, desk: None, kept: Kept::default(), sealing: None, post: Post::default() };
        Self { folder, catalog: None, open: Mutex::new(open), waiting: AtomicU32::new(0) }
    }

    /// The same by another catalog.
    #[must_use]
    pub fn by_catalog(mut self, files: CatalogFiles) -> Self {
        self.catalog = Some(files);
        self
    }

    /// Answers a command by its name, in a language given by its tag (English where it is none of ours). Opens the
    /// desk first where that has not been done or has failed so far. One command runs at a time; long work is broken
    /// off when a quicker one waits, and its answer is then `null`.
    ///
    /// # Errors
    /// What opening or the action itself is refused with, in that language; a name or arguments that are none.
    pub fn ask(&self, language: &str, name: &str, args: Value) -> Result<Value, Refused> {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        self.in_words(words, name, args).map_err(|error| Refused::new(&error, words))
    }

    fn in_words(&self, words: &'static Words, name: &str, args: Value) -> Result<Value, Error> {
        let command = find(name)?;
        self.at_desk(words, command.long, |call| (command.run)(call, name, args))
    }

    /// Takes in a photograph of a house, given as an id, the start of one or a label: of the house, or of an item, its key
    /// at a place, or `@` and a place. Its bytes are kept as they are. Gives what is
    /// said of it ([`actions::photo_taken`]).
    ///
    /// # Errors
    /// As [`Place::ask`], and a file that is no photograph.
    pub fn take_photo(&self, language: &str, photo: &Photo<'_>) -> Result<Value, Refused> {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        let Photo { survey, key, name, bytes } = *photo;
        let taken = self.at_desk(words, false, |call| {
            let survey = call.desk.find(survey)?;
            let key = key.map(|key| actions::about_card(call.desk, key));
            let taken =
                actions::import_photo(call.desk, survey, key.as_deref(), name, bytes, None, &mut call.kit)?;
            write(&actions::photo_taken(&taken, words))
        });
        taken.map_err(|error| Refused::new(&error, words))
    }

    /// The link to an office in a photograph of its QR code ([`actions::link_in_photo`]); the photograph is not kept.
    ///
    /// # Errors
    /// As there.
    pub fn pair_photo(&self, language: &str, bytes: &[u8]) -> Result<Value, Refused> {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        let read = actions::link_in_photo(bytes).and_then(|link| write(&actions::link_view(&link)));
        read.map_err(|error| Refused::new(&error, words))
    }

    /// What a door says of a photograph that came without its bytes or without what goes beside them.
    pub fn photo_without(&self, language: &str) -> Refused {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        Refused::new(&Error::new(Kind::Input, msg!("field-photo-without")), words)
    }

    /// The picture of a photograph as a screen shows it alone ([`actions::picture`]), by its digest.
    ///
    /// # Errors
    /// A photograph that is not here or cannot be shown.
    pub fn picture(&self, language: &str, digest: &str) -> Result<Vec<u8>, Refused> {
        self.shown(language, digest, Shown::Screen)
    }

    /// The same as small as it stands among others, by its digest.
    ///
    /// # Errors
    /// As [`Place::picture`].
    pub fn thumbnail(&self, language: &str, digest: &str) -> Result<Vec<u8>, Refused> {
        self.shown(language, digest, Shown::List)
    }

    fn shown(&self, language: &str, digest: &str, shown: Shown) -> Result<Vec<u8>, Refused> {
        let words = Words::of(Language::of_tag(language).unwrap_or_default());
        let picture = self.at_desk(words, false, |call| actions::picture(call.desk, digest, shown));
        picture.map_err(|error| Refused::new(&error, words))
    }

    fn at_desk<T>(
        &self,
        words: &'static Words,
        long: bool,
        act: impl FnOnce(&mut Call<'_>) -> Result<T, Error>,
    ) -> Result<T, Error> {
        // Long work that waits breaks nothing off: two of them would break each other off for ever.
        let breaks_off = u32::from(!long);
        self.waiting.fetch_add(breaks_off, Ordering::SeqCst);
        // A command that died while it ran has left nothing half done: an entry is on the disk or it is not.
        let mut open = self.open.lock().unwrap_or_else(PoisonError::into_inner);
        self.waiting.fetch_sub(breaks_off, Ordering::SeqCst);
        let Open { world, desk, kept, sealing, post } = &mut *open;
        let desk = match desk.take() {
            Some(there) => desk.insert(there),
            None => desk.insert(self.desk(world)?),
        };
        desk.speak(words);
        let by = actions::who(desk)?.unwrap_or_else(|| world.by.clone());
        let kit = Kit { clock: &*world.clock, random: &mut *world.random, by };
        let mut go_on = || self.waiting.load(Ordering::SeqCst) == 0;
        act(&mut Call {
            desk,
            kept,
            kit,
            sealing,
            post,
            catalog_given: self.catalog.is_some(),
            downloads: world.downloads.as_deref(),
            go_on: &mut go_on,
        })
    }

    fn desk(&self, world: &mut World) -> Result<Desk, Error> {
        let folder = self.folder.as_deref().ok_or_else(|| {
            Error::new(Kind::Input, msg!("error-no-folder")).hint(msg!("error-no-folder-window-hint"))
        })?;
        let catalog = match &self.catalog {
            Some(files) => files.catalog()?,
            None => CatalogFiles::in_home(None, folder)?.catalog()?,
        };
        let mut kit = Kit { clock: &*world.clock, random: &mut *world.random, by: world.by.clone() };
        Desk::open(folder, catalog, &mut kit)
    }
}
