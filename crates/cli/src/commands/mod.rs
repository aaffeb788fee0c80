//! One file for each verb.

use std::path::{Path, PathBuf};

use actions::{CatalogFiles, Desk, Error, Kit, overlay_of};
use survey::catalog::Catalog;
use words::Words;

use crate::args::{Args, CatalogVerb, Verb};
use crate::catalog;
use crate::out::Out;
use crate::world::{self, SystemClock, SystemRandom, folder, person};

mod assess;
mod calc;
mod calibrate;
mod catalog_check;
mod catalog_diff;
mod catalog_show;
mod check;
mod compare;
mod demo;
mod demolition;
mod field;
mod finding;
mod fresh;
mod keys;
mod learn;
mod leave;
mod merge;
mod new;
mod new_overlay;
mod next;
mod note;
mod office;
mod order;
mod pair;
mod photo;
mod photo_files;
mod photo_marks;
mod place;
mod promise;
mod published;
mod receipt;
mod receive;
mod record;
mod rescue;
mod seal;
mod send;
mod sheet;
mod sheet_answers;
mod shelf;
mod show;
mod simulate;
mod suppose;
mod track;
mod undo;
mod verify;
mod word_list;

pub use compare::outcome;

/// What commands share: where the records lie, which catalog, who acts.
pub struct Room<'a> {
    args: &'a Args,
    random: SystemRandom,
    words: &'static Words,
}

impl Room<'_> {
    fn kit(&mut self) -> Result<Kit<'_>, Error> {
        Ok(Kit { clock: &SystemClock, random: &mut self.random, by: person(self.args.by.clone())? })
    }
    /// The same for somebody else who speaks, unless a person was named.
    fn kit_of(&mut self, other: String) -> Result<Kit<'_>, Error> {
        let by = person(Some(self.args.by.clone().unwrap_or(other)))?;
        Ok(Kit { clock: &SystemClock, random: &mut self.random, by })
    }
    fn catalog(&self) -> Result<Catalog, Error> {
        self.catalog_files(None)?.catalog()
    }
    /// The catalog's files, with an overlay that was named for this once or else the one in use.
    fn catalog_files(&self, overlay: Option<&Path>) -> Result<CatalogFiles, Error> {
        let own = self.args.catalog.as_deref();
        let named = overlay.map(Path::to_owned).or_else(|| overlay_named(self.args));
        match (named, home(self.args)) {
            (Some(named), _) => CatalogFiles::read(own, Some(&named)),
            (None, Ok(home)) => CatalogFiles::in_home(own, &home),
            (None, Err(_)) => CatalogFiles::read(own, None),
        }
    }
    /// True where the catalog or the overlay is named for this run, so that it is not the one of the home.
    fn catalog_is_named(&self) -> bool {
        self.args.catalog.is_some() || overlay_named(self.args).is_some()
    }
    fn home(&self) -> Result<PathBuf, Error> {
        home(self.args)
    }
    /// The device's desk.
    fn desk(&mut self) -> Result<Desk, Error> {
        let (home, catalog) = (self.home()?, self.catalog()?);
        let words = self.words;
        let mut kit = self.kit()?;
        let mut desk = Desk::open(&home, catalog, &mut kit)?;
        desk.speak(words);
        Ok(desk)
    }
    /// Where the office's records lie.
    pub fn office_folder(&self) -> Result<PathBuf, Error> {
        folder(self.args.office.clone(), "UNDERLATH_OFFICE", "underlath-office")
    }
    /// The office's desk.
    fn office(&self) -> Result<::office::Desk, Error> {
        let dir = self.office_folder()?;
        ::office::Desk::open(&dir).map_err(crate::fail::office)
    }
}

fn home(args: &Args) -> Result<PathBuf, Error> {
    folder(args.home.clone(), "UNDERLATH_HOME", "underlath")
}

/// The overlay that is named for this run, or by the variable.
fn overlay_named(args: &Args) -> Option<PathBuf> {
    args.overlay.clone().or_else(world::overlay)
}

/// The firm's overlay: the one named, that of the variable, or that in the home. Without a home there is none.
fn overlay_in_use(args: &Args) -> Result<Option<PathBuf>, Error> {
    match (overlay_named(args), home(args)) {
        (Some(named), _) => Ok(Some(named)),
        (None, Ok(home)) => overlay_of(&home),
        (None, Err(_)) => Ok(None),
    }
}

/// What an answer, a photograph or a remark is about: an item, a place, or an item at a place.
fn about(item: Option<&str>, place: Option<&str>) -> Option<String> {
    let id = item.unwrap_or_default();
    match place {
        Some(_) => Some(survey::Key { id, place }.to_string()),
        None => item.map(str::to_owned),
    }
}

/// Runs what was asked.
pub fn run(args: Args, out: &mut Out) -> Result<(), Error> {
    let overlay = overlay_in_use(&args)?;
    let folders: Vec<&Path> = args.catalog.iter().chain(&overlay).map(PathBuf::as_path).collect();
    let published = match home(&args) {
        Ok(home) if args.catalog.is_none() && overlay_named(&args).is_none() => {
            actions::published_words(&home, out.words().language())?
        }
        _ => Vec::new(),
    };
    out.speak(catalog::own_words(&folders, published, out.words().language())?);
    let mut room = Room { args: &args, random: SystemRandom, words: out.words() };
    match &args.verb {
        Verb::New(a) => new::run(a, &mut room, out),
        Verb::Record(a) => record::run(a, &mut room, out),
        Verb::Place(a) => place::run(a, &mut room, out),
        Verb::Order(a) => order::run(a, &mut room, out),
        Verb::Sheet(a) => sheet::run(a, &mut room, out),
        Verb::SheetAnswers(a) => sheet_answers::run(a, &mut room, out),
        Verb::Note(a) => note::run(a, &mut room, out),
        Verb::Undo(a) => undo::run(a, &mut room, out),
        Verb::Photo(a) => photo::run(a, &mut room, out),
        Verb::Show(a) => show::run(a, &mut room, out),
        Verb::Assess(a) => assess::run(a, &mut room, out),
        Verb::Leave(a) => leave::run(a, &mut room, out),
        Verb::Next(a) => next::run(a, &mut room, out),
        Verb::Promise(a) => promise::run(a, &mut room, out),
        Verb::Suppose(a) => suppose::run(a, &mut room, out),
        Verb::Seal(a) => seal::run(a, &mut room, out),
        Verb::Demolition(a) => demolition::run(a, &mut room, out),
        Verb::Verify(a) => verify::run(a, out),
        Verb::Field(a) => field::run(a, &mut room, out),
        Verb::Receipt(a) => receipt::run(a, &mut room, out),
        Verb::Pair(a) => pair::run(a, &mut room, out),
        Verb::Send(a) => send::run(a, &mut room, out),
        Verb::Keys(a) => keys::run(&a.what, &mut room, out),
        Verb::Receive(a) => receive::run(a, &mut room, out),
        Verb::Office(a) => office::run(a, &mut room, out),
        Verb::Finding(a) => finding::run(a, &mut room, out),
        Verb::Compare(a) => compare::run(a, &mut room, out),
        Verb::Track(a) => track::run(a, &room, out),
        Verb::Learn(a) => learn::run(a, &room, out),
        Verb::Merge(a) => merge::run(a, &mut room, out),
        Verb::Check(a) => check::run(a, &mut room, out),
        Verb::Rescue(a) => rescue::run(a, &mut room, out),
        Verb::Demo(a) => demo::run(a, &mut room, out),
        Verb::Simulate(a) => simulate::run(a, &room, out),
        Verb::Calc(a) => calc::run(a, &room, out),
        Verb::Catalog(a) => match &a.what {
            CatalogVerb::Calibrate(a) => calibrate::run(a, &room, out),
            CatalogVerb::Fetch => published::fetch(&mut room, out),
            CatalogVerb::Publish(a) => published::publish(a, &room, out),
            CatalogVerb::Check(a) => catalog_check::run(a, &room, out),
            CatalogVerb::Show(a) => catalog_show::run(a, &room, out),
            CatalogVerb::Diff => catalog_diff::run(&room, out),
            CatalogVerb::NewOverlay(a) => new_overlay::run(a, out),
        },
        Verb::Reckon(a) => crate::reckon::run(a, &room.catalog()?, out),
        Verb::Words(a) => word_list::run(a, &room, out),
    }
}
