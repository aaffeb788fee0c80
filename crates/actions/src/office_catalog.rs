//! The catalog an office published: taken by this device, kept as it came, laid over the shipped one.
//!
//! It lies in one file that is written whole or not at all, so that a program that dies leaves the version before or this
//! one. Nothing in that file is believed: each time it is read its signature has to hold by the firm's keys, and every file
//! in it to have the sum that was signed. Numbers of this device's own, in the folder `overlay` of its home, go before it.

#[cfg(test)]
mod tests;

use std::fs::{self, File};
use std::io::{ErrorKind, Read as _};
use std::path::Path;

use courier::talk::{MOST_PUBLISHED, Published};
use keys::{CatalogFile, CatalogVersion, FirmKeys, Signed};
use serde::{Deserialize, Serialize};
use survey::catalog::{builtin_with, shipped};
use survey::{Digest, Stamp};
use views::link_shape::{TakenView, VersionView};
use words::{Language, Message, Words, msg};

use crate::catalog_files::{Files, own_overlay};
use crate::settings::CHOSEN;
use crate::{CatalogFiles, Desk, Error, FIRM_FILE, Kept, Kind, OVERLAY_FOLDER, file_trouble};

/// Where it lies in the home of a device.
pub(crate) const FILE: &str = "office-catalog.json";
const VERSION: u32 = 1;
/// Name under which it is kept why the last one was not taken.
const NOT_TAKEN: &str = "catalog-not-taken";

/// What lies in the file.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Lies {
    v: u32,
    since: Stamp,
    published: Published,
}

/// A published catalog whose signature holds and whose files are the signed ones.
pub(crate) struct Taken {
    version: CatalogVersion,
    /// By which the office is told that it is here.
    digest: Digest,
    since: Stamp,
    files: Files,
}

impl Taken {
    /// The files that make the catalog.
    pub(crate) fn numbers(&self) -> Files {
        self.with_ending(".toml")
    }
    /// The firm's own words in a language.
    fn words(&self, language: Language) -> Files {
        let folder = format!("words/{}/", language.folder());
        self.with_ending(".ftl").into_iter().filter(|(name, _)| name.starts_with(&folder)).collect()
    }
    fn with_ending(&self, ending: &str) -> Files {
        self.files.iter().filter(|(name, _)| name.ends_with(ending)).cloned().collect()
    }
}

/// The catalog that was taken and is to be walked by in this home: the firm's, for the shipped catalog of this program, and
/// nothing of the device's own goes before it.
pub(crate) fn in_use(home: &Path) -> Result<Option<Taken>, Error> {
    // One that cannot be read closes no house: it is told in the settings, and asked for again.
    let taken = kept(home).ok().flatten().filter(|taken| taken.version.extends == shipped());
    Ok(if taken.is_some() && own_overlay(home)? { None } else { taken })
}

/// The firm's own words in the catalog that is in use in this home, as (file, text).
///
/// # Errors
/// A folder that cannot be read.
pub fn published_words(home: &Path, language: Language) -> Result<Vec<(String, String)>, Error> {
    Ok(in_use(home)?.map(|taken| taken.words(language)).unwrap_or_default())
}

/// Reads what was taken, and holds it to its signature.
fn kept(home: &Path) -> Result<Option<Taken>, Error> {
    let path = home.join(FILE);
    let file = match File::open(&path) {
        Ok(file) => file,
        Err(e) if e.kind() == ErrorKind::NotFound => return Ok(None),
        Err(e) => return Err(file_trouble(&path, &e)),
    };
    let mut bytes = Vec::new();
    file.take(2 * MOST_PUBLISHED as u64).read_to_end(&mut bytes).map_err(|e| file_trouble(&path, &e))?;
    let damaged = |what: String| Error::new(Kind::Damaged, msg!("error-catalog-kept", said = what));
    let lies: Lies = serde_json::from_slice(&bytes).map_err(|e| damaged(e.to_string()))?;
    if lies.v != VERSION {
        return Err(damaged(format!("v = {}", lies.v)));
    }
    held(home, lies.published, lies.since).map(Some)
}

/// Holds a published catalog to the firm's keys and to the sums that were signed.
fn held(home: &Path, published: Published, since: Stamp) -> Result<Taken, Error> {
    let path = home.join(crate::device_key::FOLDER).join(FIRM_FILE);
    let no_keys =
        || Error::new(Kind::Missing, msg!("error-no-firm-keys")).hint(msg!("error-no-firm-keys-hint"));
    let firm = match fs::read(&path) {
        Ok(text) => FirmKeys::read(&text)?,
        Err(e) if e.kind() == ErrorKind::NotFound => return Err(no_keys()),
        Err(e) => return Err(file_trouble(&path, &e)),
    };
    let digest = published.digest();
    let version = Signed::<CatalogVersion>::read(&published.version)?.by_firm(&firm)?.clone();
    let files: Files = published.files.into_iter().map(|one| (one.name, one.text)).collect();
    // The names were held against what a file of an overlay may be called when the signed list was read.
    let same =
        |(signed, (name, text)): (&CatalogFile, &(String, String))| *signed == CatalogFile::of(name, text);
    if files.len() != version.files.len() || !version.files.iter().zip(&files).all(same) {
        return Err(Error::new(Kind::Damaged, msg!("error-catalog-sums")));
    }
    Ok(Taken { version, digest, since, files })
}

/// What the office is told this device has; none where it has to be asked for anew.
pub fn published_here(desk: &Desk) -> Option<Digest> {
    kept(desk.store.dir()).ok().flatten().map(|taken| taken.digest)
}

/// Takes what the office answered: a catalog it published, or none that is new. From then on houses are walked by it,
/// unless numbers of this device's own go before it or the catalog was `given` when the program was started. True where it
/// is a new one. Why one is not taken is kept, to be told until the office has a better one.
///
/// # Errors
/// A catalog the firm did not sign, an older one than is here, one for another shipped catalog, files that are not the
/// signed ones or make no catalog: everything stays as it was then.
pub fn take_published(
    desk: &mut Desk,
    walk: &mut Kept,
    answer: Option<Published>,
    given: bool,
    now: Stamp,
) -> Result<bool, Error> {
    let taken = answer.map_or(Ok(false), |published| take(desk, walk, published, given, now));
    let why = taken.as_ref().err().map(|e| e.say_whole(desk.words())).unwrap_or_default();
    if desk.store.kept_word(NOT_TAKEN)?.unwrap_or_default() != why {
        desk.store.keep_word(NOT_TAKEN, &why)?;
    }
    taken
}

fn take(
    desk: &mut Desk,
    walk: &mut Kept,
    published: Published,
    given: bool,
    now: Stamp,
) -> Result<bool, Error> {
    let home = desk.store.dir().to_owned();
    let taken = held(&home, published.clone(), now)?;
    let (new, number) = (&taken.version, taken.version.number);
    // One that cannot be read, or is another firm's, holds nothing up.
    if let Some(here) = kept(&home).ok().flatten() {
        let had = here.version.number;
        if here.digest == taken.digest {
            return Ok(false);
        }
        if number <= had {
            return Err(Error::new(Kind::Conflict, msg!("error-catalog-older", number = number, had = had))
                .hint(msg!("error-catalog-older-hint")));
        }
    }
    if new.extends != shipped() {
        let (theirs, ours) = (new.extends.short(), shipped().short());
        let message = msg!("error-catalog-extends", number = number, theirs = theirs, ours = ours);
        return Err(Error::new(Kind::Conflict, message).hint(msg!("error-catalog-extends-hint")));
    }
    let no_catalog = |said: String| {
        Error::new(Kind::Damaged, msg!("error-catalog-unloadable", number = number, said = said))
    };
    // What one device chose for itself is none of the firm's.
    if taken.files.iter().any(|(name, _)| name == CHOSEN) {
        return Err(no_catalog(CHOSEN.to_owned()));
    }
    let catalog = builtin_with(&taken.numbers()).map_err(|e| no_catalog(e.to_string()))?;
    if catalog.digest != new.becomes {
        return Err(no_catalog(msg_digest(&catalog.digest, &new.becomes)));
    }
    for language in [Language::En, Language::Es] {
        Words::with_own(language, &taken.words(language)).map_err(|faults| {
            no_catalog(
                faults.first().map(|f| format!("{}:{} {}", f.file, f.line, f.text)).unwrap_or_default(),
            )
        })?;
    }
    let walked_by = if given || own_overlay(&home)? { None } else { Some(beside_own(&home, &taken)?) };
    let lies = Lies { v: VERSION, since: now, published };
    let text = serde_json::to_vec(&lies).map_err(|e| no_catalog(e.to_string()))?;
    let path = home.join(FILE);
    keys::write_whole(&path, &text).map_err(|e| file_trouble(&path, &e))?;
    if let Some(catalog) = walked_by {
        desk.walk_by(catalog);
        *walk = Kept::default();
    }
    Ok(true)
}

fn msg_digest(found: &Digest, signed: &Digest) -> String {
    format!("{} ≠ {}", found.short(), signed.short())
}

/// The catalog with the code books that are chosen on this device beside it.
fn beside_own(home: &Path, taken: &Taken) -> Result<survey::catalog::Catalog, Error> {
    CatalogFiles::published(home, taken)?.load().map_err(|e| {
        let number = taken.version.number;
        Error::new(Kind::Conflict, msg!("error-catalog-beside", number = number, said = e.to_string()))
            .hint(msg!("error-catalog-beside-hint"))
    })
}

/// The catalog that was taken, and why the last one was not, for the screens.
pub(crate) fn published_view(desk: &Desk, given: bool) -> Result<(Option<TakenView>, Option<String>), Error> {
    let home = desk.store.dir();
    let words = desk.words();
    let not_taken = desk.store.kept_word(NOT_TAKEN)?.filter(|why| !why.is_empty());
    let taken = match kept(home) {
        Ok(None) => return Ok((None, not_taken)),
        Ok(Some(taken)) => taken,
        Err(e) => return Ok((None, not_taken.or_else(|| Some(e.say(words))))),
    };
    let folder = || home.join(OVERLAY_FOLDER).display().to_string();
    let unused: Option<Message> = if given {
        Some(msg!("catalog-unused-given"))
    } else if taken.version.extends != shipped() {
        Some(msg!("catalog-unused-shipped"))
    } else if own_overlay(home)? {
        Some(msg!("catalog-unused-own", folder = folder()))
    } else {
        None
    };
    let version = VersionView {
        number: u32::try_from(taken.version.number).unwrap_or(u32::MAX),
        at: taken.version.made_at.to_string(),
        by: taken.version.by,
        houses: u32::try_from(taken.version.houses.len()).unwrap_or(u32::MAX),
        catalog: taken.version.becomes.short(),
    };
    let unused = unused.map(|why| words.say(&why));
    Ok((Some(TakenView { version, since: taken.since.to_string(), unused }), not_taken))
}
