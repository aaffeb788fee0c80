//! The houses of the office behind the door: what is asked of them, what comes in, what is shown.

use std::path::{Path, PathBuf};
use std::sync::{Arc, PoisonError, RwLock};

use actions::{Error, Kind, Stamp};
use apart::Apart;
use office::ask::{self, Call, Kept};
use office::people::{Role, Sight, Who};
use office::{Desk, OfficeError, PictureSize};
use serde_json::Value;
use server::Wanted;
use survey::Digest;
use survey::catalog::Catalog;
use words::{Words, msg};

use crate::commands::shelf::FirmShelf;
use crate::fail;

/// Who asks, when, in which language.
pub struct Asked<'a> {
    pub who: &'a Who,
    /// Which houses they see.
    pub sight: &'a Sight,
    pub now: Stamp,
    pub words: &'static Words,
}

/// A packet that was taken in.
pub struct Taken {
    /// What the screens are told.
    pub value: Value,
    /// What the audit log says of it.
    pub about: String,
    /// False when it was here already.
    pub first_time: bool,
}

/// What the door asks of houses.
pub trait Houses: Send {
    /// The least role of a command; none where there is no such command.
    fn least(&self, name: &str) -> Option<Role>;
    /// Answers it.
    fn ask(&mut self, asked: &Asked<'_>, name: &str, args: Value) -> Result<Value, Error>;
    /// Takes a packet in.
    fn receive(&mut self, asked: &Asked<'_>, file: &Path) -> Result<Taken, Error>;
    /// Takes in the photograph of a finding.
    fn keep_photo(&mut self, asked: &Asked<'_>, bytes: &[u8]) -> Result<Value, Error>;
    /// A picture.
    fn picture(&mut self, sight: &Sight, wanted: &Wanted<'_>) -> Result<Vec<u8>, Error>;
    /// A page of a packet.
    fn page(&mut self, sight: &Sight, packet: &str, name: &str) -> Result<Vec<u8>, Error>;
}

/// The catalog in use, the same for every desk of the office: it changes when somebody takes learned lines over.
pub struct InUse {
    files: FirmShelf,
    read: RwLock<Arc<Catalog>>,
}

impl InUse {
    pub fn new(files: FirmShelf, read: Catalog) -> Self {
        Self { files, read: RwLock::new(Arc::new(read)) }
    }
    fn catalog(&self) -> Arc<Catalog> {
        // It is replaced whole or not at all.
        Arc::clone(&self.read.read().unwrap_or_else(PoisonError::into_inner))
    }
    /// Reads the files again; a fault of theirs leaves what is in use.
    fn again(&self) {
        if let Ok(catalog) = self.files.catalog() {
            *self.read.write().unwrap_or_else(PoisonError::into_inner) = Arc::new(catalog);
        }
    }
}

/// Houses at a desk, told by a catalog.
pub struct AtDesk {
    desk: Desk,
    /// Packets that were opened before, and what is learned from them.
    kept: Kept,
    in_use: Arc<InUse>,
    pictures: Apart,
    /// The folder that is watched.
    watched: Option<PathBuf>,
    /// As it is in use while a command runs.
    catalog: Arc<Catalog>,
}

impl AtDesk {
    pub fn new(desk: Desk, in_use: Arc<InUse>, pictures: Apart, watched: Option<PathBuf>) -> Self {
        Self { desk, kept: Kept::default(), catalog: in_use.catalog(), in_use, pictures, watched }
    }
    /// What is of a house that somebody does not see is as if it were not there.
    fn seen(&self, sight: &Sight, packet: &str) -> Result<(), Error> {
        let seen = self.desk.is_seen(digest(packet)?, sight).map_err(fail::office_at_door)?;
        seen.then_some(()).ok_or_else(no_page)
    }
    fn call<'a>(&'a mut self, asked: &'a Asked<'_>) -> Call<'a> {
        self.catalog = self.in_use.catalog();
        let Self { desk, kept, in_use, catalog, watched, .. } = self;
        Call {
            desk,
            kept,
            catalog,
            shelf: &in_use.files,
            watched: watched.as_deref(),
            words: asked.words,
            by: &asked.who.name,
            sight: asked.sight,
            now: asked.now,
        }
    }
}

/// A digest as a page's address has it.
fn digest(text: &str) -> Result<Digest, Error> {
    text.parse().map_err(|_| no_page())
}

fn no_page() -> Error {
    Error::new(Kind::Missing, msg!("field-no-page"))
}

impl Houses for AtDesk {
    fn least(&self, name: &str) -> Option<Role> {
        ask::command(name).map(|command| command.least)
    }
    fn ask(&mut self, asked: &Asked<'_>, name: &str, args: Value) -> Result<Value, Error> {
        let command = ask::command(name).ok_or_else(|| Error::new(Kind::Missing, msg!("field-no-page")))?;
        let answer = command.run(&mut self.call(asked), args);
        // Taken over: the numbers are others. Refused: perhaps because somebody changed the files by hand.
        if name == ask::ACCEPT {
            self.in_use.again();
        }
        answer.map_err(fail::office_at_door)
    }
    fn receive(&mut self, asked: &Asked<'_>, file: &Path) -> Result<Taken, Error> {
        let line = ask::received(&mut self.call(asked), file).map_err(fail::office_at_door)?;
        let about = format!("{} {} {}", line.label, line.number, digest(&line.packet)?.short());
        let first_time = line.first_time.unwrap_or_default();
        let value = serde_json::to_value(line)
            .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())))?;
        Ok(Taken { value, about, first_time })
    }
    fn keep_photo(&mut self, _: &Asked<'_>, bytes: &[u8]) -> Result<Value, Error> {
        let digest = self.desk.take_finding_photo(bytes, &self.pictures).map_err(fail::office_at_door)?;
        Ok(serde_json::json!({ "digest": digest }))
    }
    fn picture(&mut self, sight: &Sight, wanted: &Wanted<'_>) -> Result<Vec<u8>, Error> {
        let made = match wanted {
            Wanted::OfPacket { packet, photo, small } => {
                self.seen(sight, packet)?;
                let size = if *small { PictureSize::List } else { PictureSize::Screen };
                self.desk.picture(digest(packet)?, digest(photo)?, size, &self.pictures)
            }
            Wanted::OfFinding { photo } => {
                let seen =
                    self.desk.is_finding_photo_seen(digest(photo)?, sight).map_err(fail::office_at_door)?;
                let none = || fail::office_at_door(OfficeError::NoPhoto { photo: (*photo).to_owned() });
                seen.then_some(()).ok_or_else(none)?;
                self.desk.finding_picture(digest(photo)?, PictureSize::Screen, &self.pictures)
            }
        };
        made.map_err(fail::office_at_door)
    }
    fn page(&mut self, sight: &Sight, packet: &str, name: &str) -> Result<Vec<u8>, Error> {
        self.seen(sight, packet)?;
        self.desk.page(digest(packet)?, &format!("pages/{name}")).map_err(fail::office_at_door)
    }
}
