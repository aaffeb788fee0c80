//! `underlath field`: the screens in a browser of this machine, over the same commands as the window program.

use std::io;
use std::sync::Arc;

use actions::{Error, Kind};
use commands::{Photo, Place, Refused, World};
use field::{Answers, MOST_PHOTO, PhotoTaken, Refusal, SCREENS, Secrets, Why};
use serde_json::{Value, json};
use words::{Language, Words, msg};

use super::Room;
use crate::args;
use crate::out::Out;
use crate::world::{SystemClock, SystemRandom, downloads, person, secret};

pub fn run(args: &args::Field, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    if SCREENS.is_empty() {
        return Err(Error::new(Kind::Missing, msg!("error-no-screens")).hint(msg!("error-no-screens-hint")));
    }
    let files = room.catalog_files(None)?;
    // A fault of the catalog is said here and not on every screen.
    files.catalog()?;
    let by = person(room.args.by.clone())?;
    let home = room.home()?;
    let downloads = Some(downloads().unwrap_or_else(|| home.join("handed-over")));
    let world = World { clock: Box::new(SystemClock), random: Box::new(SystemRandom), by, downloads };
    let mut place = Place::new(Some(home), world);
    if room.catalog_is_named() {
        place = place.by_catalog(files);
    }
    let secrets = Secrets { token: secret()?, session: secret()? };
    let door = field::Field::open(args.port, secrets).map_err(|e| port(args.port, &e))?;
    if out.json() {
        out.value(&json!({ "address": door.address() }));
    } else {
        out.tell(msg!("field-open"));
        out.line(format!("  {}", door.address()));
        out.tell(msg!("field-how"));
    }
    door.serve(Arc::new(Desk { place, words: out.words() }), SCREENS).map_err(|e| port(args.port, &e))
}

fn port(port: u16, e: &io::Error) -> Error {
    let said = e.to_string();
    match e.kind() {
        io::ErrorKind::AddrInUse => {
            Error::new(Kind::Conflict, msg!("error-port-taken", port = port.to_string()))
                .hint(msg!("error-port-hint"))
        }
        io::ErrorKind::PermissionDenied => {
            let message = msg!("error-port-denied", port = port.to_string(), said = said);
            Error::new(Kind::Input, message).hint(msg!("error-port-hint"))
        }
        _ => Error::new(Kind::Internal, msg!("error-internal", said = said)),
    }
}

/// The commands of this device, behind the door.
struct Desk {
    place: Place,
    /// For what is asked without a language, such as a page that was typed.
    words: &'static Words,
}

impl Desk {
    fn words(&self, language: &str) -> &'static Words {
        Language::of_tag(language).map_or(self.words, Words::of)
    }
}

fn told(refused: Refused) -> Refusal {
    Refusal { kind: refused.kind, message: refused.message, hint: refused.hint }
}

impl Answers for Desk {
    fn ask(&self, language: &str, name: &str, args: Value) -> Result<Value, Refusal> {
        self.place.ask(language, name, args).map_err(told)
    }

    fn take_photo(&self, language: &str, photo: &PhotoTaken<'_>) -> Result<Value, Refusal> {
        let PhotoTaken { survey, key, name, bytes } = *photo;
        self.place.take_photo(language, &Photo { survey, key, name, bytes }).map_err(told)
    }

    fn pair_photo(&self, language: &str, bytes: &[u8]) -> Result<Value, Refusal> {
        self.place.pair_photo(language, bytes).map_err(told)
    }

    fn picture(&self, language: &str, digest: &str) -> Result<Vec<u8>, Refusal> {
        self.place.picture(language, digest).map_err(told)
    }

    fn thumbnail(&self, language: &str, digest: &str) -> Result<Vec<u8>, Refusal> {
        self.place.thumbnail(language, digest).map_err(told)
    }

    fn say(&self, language: &str, why: Why) -> Refusal {
        let again = || Some(msg!("field-again"));
        let (kind, message, hint) = match why {
            Why::Host | Why::Origin => ("input", msg!("field-foreign"), again()),
            Why::Cookie => ("input", msg!("field-unknown"), again()),
            Why::Token => ("input", msg!("field-token"), again()),
            Why::Page => ("missing", msg!("field-no-page"), None),
            Why::Json => ("input", msg!("field-no-json"), None),
            Why::PhotoWithout => ("input", msg!("field-photo-without"), None),
            Why::TooLarge { most: MOST_PHOTO } => {
                ("input", msg!("field-photo-large", most = MOST_PHOTO >> 20), None)
            }
            Why::TooLarge { most } => ("input", msg!("field-large", most = most >> 10), None),
            Why::Unread => ("input", msg!("field-unread"), None),
            Why::Ended => ("internal", msg!("field-ended"), again()),
        };
        let words = self.words(language);
        Refusal { kind, message: words.say(&message), hint: hint.map(|hint| words.say(&hint)) }
    }
}
