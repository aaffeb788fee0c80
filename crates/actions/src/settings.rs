//! How this device is set: the firm, who walks, words and light of the screens, how the keypad begins, the code books
//! worked by. Kept beside the log, never part of it; what bears on a house is written into its packet when it is sealed.
//!
//! The code books are chosen in a file of their own in the overlay of this device, so that the catalog's digest says
//! which were worked by and every program over the same records reads the same choice.

use std::fs;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use survey::Stamp;
use survey::catalog::{Adopted, Family};
use views::settings_shape::{BookView, CodesView, ScreensView, SettingsView};
use words::{Language, msg};

use crate::calculate::{family_of, known_book};
use crate::enter::line_of;
use crate::start::BY;
use crate::{CatalogFiles, Desk, Error, Kept, Kind, OVERLAY_FOLDER, file_trouble};

/// The overlay's file that the settings write.
pub(crate) const CHOSEN: &str = "this-device.toml";
/// Longest name of a firm, a person or a device, in characters.
const LONGEST: usize = 80;
/// How close a reading is until somebody says otherwise.
const TOLERANCE: &str = "1/8\"";
/// The tolerances the keypad has.
const TOLERANCES: [&str; 4] = ["1/16\"", "1/8\"", "1/4\"", "1\""];

/// Names under which settings are kept.
mod name {
    pub(super) const FIRM: &str = "firm";
    pub(super) const ADDRESS: &str = "address";
    pub(super) const LANGUAGE: &str = "language";
    pub(super) const LIGHT: &str = "light";
    pub(super) const UNIT: &str = "unit";
    pub(super) const TOLERANCE: &str = "tolerance";
}

/// The firm, if it was set.
pub(crate) fn firm(desk: &Desk) -> Result<Option<String>, Error> {
    kept(desk, name::FIRM)
}

/// The line under the firm's name on what leaves it, if it was set.
pub(crate) fn address(desk: &Desk) -> Result<Option<String>, Error> {
    kept(desk, name::ADDRESS)
}

/// How the keypad begins where nothing was measured in the house yet: in millimeters, and how close.
pub(crate) fn keypad(desk: &Desk) -> Result<(bool, String), Error> {
    let metric = kept(desk, name::UNIT)?.is_some_and(|unit| unit == "mm");
    Ok((metric, kept(desk, name::TOLERANCE)?.unwrap_or_else(|| TOLERANCE.to_owned())))
}

fn kept(desk: &Desk, name: &str) -> Result<Option<String>, Error> {
    Ok(desk.store.kept_word(name)?.filter(|value| !value.is_empty()))
}

/// What the screens begin with: read at every start, so nothing is counted or listed for it.
///
/// # Errors
/// Records that cannot be read.
pub fn screens(desk: &Desk) -> Result<ScreensView, Error> {
    Ok(ScreensView { language: kept(desk, name::LANGUAGE)?, light: kept(desk, name::LIGHT)? })
}

/// How this device is set. `given`: the catalog was named when the program was started, so that nothing of it is chosen
/// here.
///
/// # Errors
/// Records that cannot be read.
pub fn settings(desk: &Desk, given: bool, now: Stamp) -> Result<SettingsView, Error> {
    let houses = desk.store.surveys()?;
    let (photos, _) = desk.store.blobs().list()?;
    let (metric, tolerance) = keypad(desk)?;
    let ScreensView { language, light } = screens(desk)?;
    let (key, key_state) = key_of(desk, now);
    Ok(SettingsView {
        firm: firm(desk)?.unwrap_or_default(),
        address: address(desk)?.unwrap_or_default(),
        by: kept(desk, BY)?.unwrap_or_default(),
        device: desk.store.device_name()?,
        device_id: desk.store.device().to_string(),
        key,
        key_state,
        language,
        light,
        metric,
        tolerance,
        codes: codes(desk, given)?,
        houses: u32::try_from(houses.len()).unwrap_or(u32::MAX),
        photos: u32::try_from(photos.len()).unwrap_or(u32::MAX),
        folder: desk.store.dir().display().to_string(),
        catalog: format!("{} ({})", desk.catalog.version, desk.catalog.digest.short()),
        software: concat!("Underlath ", env!("CARGO_PKG_VERSION")).to_owned(),
    })
}

/// The key and who vouches for it. A secret that cannot be used is said here too, and closes no other setting.
fn key_of(desk: &Desk, now: Stamp) -> (String, String) {
    let words = desk.words();
    let state = match crate::device_key(desk) {
        Err(e) => return (String::new(), e.say(words)),
        Ok(state) => state,
    };
    let said = match (&state.key, &state.certificate) {
        (None, _) => msg!("keys-none"),
        (Some(_), None) => msg!("keys-not-certified"),
        (Some(_), Some(signed)) => {
            let ends = crate::key_words::certificate_ends(signed.claimed(), now);
            ends.unwrap_or_else(|| crate::key_words::certificate_said(signed.claimed()))
        }
    };
    (state.key.map(|key| key.thumbprint().to_string()).unwrap_or_default(), words.say(&said))
}

fn codes(desk: &Desk, given: bool) -> Result<Vec<CodesView>, Error> {
    let here = Chosen::read(desk.store.dir())?;
    let shelf = &desk.catalog.shelf;
    let of = |family: Family| {
        let books: Vec<BookView> = shelf
            .books()
            .filter(|book| book.family == family)
            .map(|book| BookView {
                id: book.id.clone(),
                title: book.title.clone(),
                document: format!("{}, {}", book.document, book.edition),
            })
            .collect();
        let chosen = match shelf.adopted(family) {
            Adopted::Chosen(book) => Some(book.id.clone()),
            Adopted::Open(_) => None,
        };
        CodesView {
            family: family.word().to_owned(),
            label: desk.words().say(&msg!("code-family", family = family.word())),
            fixed: given || books.len() < 2 || (chosen.is_some() && here.book(family).is_none()),
            books,
            chosen,
        }
    };
    Ok(Family::ALL.into_iter().map(of).collect())
}

/// Sets one thing; an empty value goes back to what it was without a setting.
///
/// # Errors
/// A setting there is none of, a value it cannot have. Nothing is changed then.
pub fn set(desk: &mut Desk, kept: &mut Kept, setting: &str, value: &str, given: bool) -> Result<(), Error> {
    let value = value.trim();
    if let Some(family) = setting.strip_prefix("codes-") {
        return choose(desk, kept, family, value, given);
    }
    let line = |what| if value.is_empty() { Ok(String::new()) } else { line_of(what, value, LONGEST) };
    let one_of = |those: &[&str]| match those.iter().find(|one| **one == value) {
        Some(one) => Ok((*one).to_owned()),
        None if value.is_empty() => Ok(String::new()),
        None => Err(Error::new(Kind::Input, msg!("error-setting-value", value = value, setting = setting))
            .hint(msg!("error-setting-value-hint", values = those.join(", ")))),
    };
    match setting {
        "device" => return Ok(desk.store.name_device(&line(msg!("the-name"))?)?),
        "firm" => desk.store.keep_word(name::FIRM, &line(msg!("the-name"))?)?,
        "address" => desk.store.keep_word(name::ADDRESS, &line(msg!("the-name"))?)?,
        "by" => desk.store.keep_word(BY, &line(msg!("the-name"))?)?,
        "language" => {
            let languages = [Language::En, Language::Es].map(Language::tag);
            desk.store.keep_word(name::LANGUAGE, &one_of(&languages)?)?;
        }
        "light" => desk.store.keep_word(name::LIGHT, &one_of(&["paper", "dark"])?)?,
        "unit" => desk.store.keep_word(name::UNIT, &one_of(&["in", "mm"])?)?,
        "tolerance" => desk.store.keep_word(name::TOLERANCE, &one_of(&TOLERANCES)?)?,
        other => {
            return Err(Error::new(Kind::Missing, msg!("error-no-setting", setting = other))
                .hint(msg!("error-no-setting-hint")));
        }
    }
    Ok(())
}

/// Works by another book of a family from now on; none: the choice is open again.
fn choose(desk: &mut Desk, kept: &mut Kept, family: &str, book: &str, given: bool) -> Result<(), Error> {
    let family = family_of(family)?;
    if !book.is_empty() {
        known_book(&desk.catalog, family, book)?;
    }
    let home = desk.store.dir().to_owned();
    let mut chosen = Chosen::read(&home)?;
    let fixed =
        matches!(desk.catalog.shelf.adopted(family), Adopted::Chosen(_)) && chosen.book(family).is_none();
    if given || fixed {
        return Err(Error::new(
            Kind::Conflict,
            msg!("error-codes-fixed", family = msg!("code-family", family = family.word())),
        )
        .hint(msg!("error-codes-fixed-hint")));
    }
    let before = chosen.clone();
    chosen.set(family, book);
    chosen.write(&home)?;
    match CatalogFiles::in_home(None, &home).and_then(|files| files.catalog()) {
        Ok(catalog) => {
            desk.walk_by(catalog);
            *kept = Kept::default();
            Ok(())
        }
        Err(error) => {
            before.write(&home)?;
            Err(error)
        }
    }
}

/// The books chosen on this device, as its own file in the overlay says.
#[derive(Clone, Debug, Default, PartialEq)]
struct Chosen(Vec<(Family, String)>);

impl Chosen {
    fn at(home: &Path) -> PathBuf {
        home.join(OVERLAY_FOLDER).join(CHOSEN)
    }

    fn read(home: &Path) -> Result<Self, Error> {
        let path = Self::at(home);
        let text = match fs::read_to_string(&path) {
            Ok(text) => text,
            Err(e) if e.kind() == std::io::ErrorKind::NotFound => String::new(),
            Err(e) => return Err(file_trouble(&path, &e)),
        };
        // Only lines as they are written below; the loader of the catalog holds the whole file to account.
        let line = |family: Family| {
            let value =
                text.lines().find_map(|l| l.strip_prefix(family.word())?.trim_start().strip_prefix('='))?;
            Some((family, value.trim().trim_matches('"').to_owned()))
        };
        Ok(Self(Family::ALL.into_iter().filter_map(line).collect()))
    }

    fn book(&self, family: Family) -> Option<&str> {
        self.0.iter().find(|(f, _)| *f == family).map(|(_, book)| book.as_str())
    }

    fn set(&mut self, family: Family, book: &str) {
        self.0.retain(|(f, _)| *f != family);
        if !book.is_empty() {
            self.0.push((family, book.to_owned()));
            self.0.sort();
        }
    }

    /// Written beside and renamed, so that a program that dies leaves the old file or the new one.
    fn write(&self, home: &Path) -> Result<(), Error> {
        let path = Self::at(home);
        if self.0.is_empty() {
            return match fs::remove_file(&path) {
                Err(e) if e.kind() != std::io::ErrorKind::NotFound => Err(file_trouble(&path, &e)),
                _ => Ok(()),
            };
        }
        let mut text = String::from(
            "# Which code books are worked by here. Written by the settings of this device; change it there.\n\
             basis = \"firm\"\nreason = \"chosen in the settings of this device\"\n\n[change.adopted]\n",
        );
        for (family, book) in &self.0 {
            text.push_str(&format!("{} = \"{book}\"\n", family.word()));
        }
        let beside = path.with_extension("toml.new");
        let folder = home.join(OVERLAY_FOLDER);
        fs::create_dir_all(&folder).map_err(|e| file_trouble(&folder, &e))?;
        let mut file = fs::File::create(&beside).map_err(|e| file_trouble(&beside, &e))?;
        file.write_all(text.as_bytes())
            .and_then(|()| file.sync_all())
            .map_err(|e| file_trouble(&beside, &e))?;
        fs::rename(&beside, &path).map_err(|e| file_trouble(&path, &e))
    }
}
