//! Versions of the firm's catalog that are published to its tablets: signed by the office's key, numbered one after the
//! other, kept with the bytes that go along.
//!
//! A version is what the firm has over the shipped catalog, as files; every tablet has the shipped one. It holds for the
//! one shipped catalog it was laid over.

use courier::talk::{Published, Text};
use keys::{CatalogFile, CatalogVersion, KeyError, Signed, is_overlay_file};
use review::record::Trained;
use survey::catalog::builtin_with;

use crate::learning::{Hand, Shelf, known};
use crate::repo::alone;
use crate::{Desk, OfficeError};

/// What stands published, and whether the firm's numbers are others by now.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Standing {
    /// The version that was published last.
    pub last: Option<CatalogVersion>,
    /// True where the firm's files are not those of it.
    pub differs: bool,
}

impl Desk {
    /// The version that was published last, as it goes to tablets.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn published(&self) -> Result<Option<Published>, OfficeError> {
        self.repo.published()
    }

    /// What stands published beside the firm's files as they are.
    ///
    /// # Errors
    /// A database or files that cannot be read; a signature that no key of this office made.
    pub fn standing(&self, shelf: &dyn Shelf) -> Result<Standing, OfficeError> {
        let last = self.last_version()?;
        let files = listed(&shelf.files().map_err(OfficeError::Shelf)?);
        let differs = last.as_ref().map_or(!files.is_empty(), |last| last.files != files);
        Ok(Standing { last, differs })
    }

    fn last_version(&self) -> Result<Option<CatalogVersion>, OfficeError> {
        let Some(published) = self.published()? else { return Ok(None) };
        let signed = Signed::<CatalogVersion>::read(&published.version)?;
        Ok(Some(signed.by_firm(&self.register()?.keys)?.clone()))
    }

    /// Publishes the firm's files as they are: the next number, signed. With `again` also where they are those of the last
    /// version, which an office needs that came back from a backup and whose tablets have a higher number.
    ///
    /// # Errors
    /// An office without a key; files that make no catalog, are too large or have names that may not travel; nothing new.
    pub fn publish(
        &mut self,
        shelf: &dyn Shelf,
        again: bool,
        hand: Hand<'_>,
    ) -> Result<CatalogVersion, OfficeError> {
        let secret = self.secret_if_any()?.ok_or_else(|| OfficeError::NoKey { path: self.secret_place() })?;
        let files = shelf.files().map_err(OfficeError::Shelf)?;
        if let Some((name, _)) = files.iter().find(|(name, _)| !is_overlay_file(name)) {
            return Err(OfficeError::NotToTravel { name: name.clone() });
        }
        let numbers: Vec<(String, String)> =
            files.iter().filter(|(name, _)| name.ends_with(".toml")).cloned().collect();
        let catalog = builtin_with(&numbers).map_err(|e| OfficeError::Shelf(e.into()))?;
        let houses = known(&catalog, &self.trained()?);
        let register = self.register()?;
        // While nobody else writes, so that two programs never give one number twice.
        alone(self, |desk| {
            let last = desk.last_version()?;
            let list = listed(&files);
            let same = match &last {
                Some(last) => last.files == list && last.extends == catalog.base,
                None => list.is_empty(),
            };
            if same && !(again && last.is_some()) {
                return Err(OfficeError::NothingToPublish { last: last.map(|last| last.number) });
            }
            let version = CatalogVersion {
                number: last.map_or(0, |last| last.number) + 1,
                made_at: hand.now,
                by: hand.by.trim().to_owned(),
                firm: register.firm,
                extends: catalog.base,
                becomes: catalog.digest,
                houses,
                files: list,
            };
            let signed = Signed::new(version, &secret).map_err(|e| match e {
                KeyError::TooLong => OfficeError::TooMuchToPublish,
                other => other.into(),
            })?;
            let version = signed.claimed().clone();
            // What was learned may lie under another digest here, where a file that does not travel lies beside it.
            let noted = desk.trained()?.iter().any(|one| one.catalog == version.becomes);
            if !noted && !version.houses.is_empty() {
                let houses = version.houses.clone();
                let catalog = version.becomes;
                desk.note_trained(&Trained { v: Trained::VERSION, catalog, at: hand.now, houses })?;
            }
            let files = files.into_iter().map(|(name, text)| Text { name, text }).collect();
            let published = Published { version: signed.text().to_owned(), files };
            desk.repo.add_published(version.number, &published)?;
            Ok(version)
        })
    }
}

/// The files as a version lists them.
fn listed(files: &[(String, String)]) -> Vec<CatalogFile> {
    let mut list: Vec<CatalogFile> = files.iter().map(|(name, text)| CatalogFile::of(name, text)).collect();
    list.sort_by(|a, b| a.name.cmp(&b.name));
    list
}
