//! The files of the catalog in use, as the office is handed them for what its houses teach.

use std::path::{Path, PathBuf};

use actions::{CatalogFiles, Error, Kind, OVERLAY_FOLDER};
use office::learning::{Shelf, ShelfError};
use survey::catalog::Catalog;
use words::msg;

use super::Room;

/// A catalog of the firm's own where there is one, and the folder of its overlay, which need not be there yet; none where
/// there is no home either.
pub struct FirmShelf {
    own: Option<PathBuf>,
    into: Option<PathBuf>,
}

impl FirmShelf {
    /// The folder that is named, else the overlay in use, else the one in the home.
    ///
    /// # Errors
    /// An overlay that cannot be looked for.
    pub fn new(room: &Room<'_>, named: Option<&PathBuf>) -> Result<Self, Error> {
        let into = match (named, super::overlay_in_use(room.args)?) {
            (Some(named), _) => Some(named.clone()),
            (None, Some(in_use)) => Some(in_use),
            (None, None) => room.home().ok().map(|home| home.join(OVERLAY_FOLDER)),
        };
        Ok(Self { own: room.args.catalog.clone(), into })
    }

    fn files(&self) -> Result<CatalogFiles, Error> {
        let own = self.own.as_deref();
        match CatalogFiles::read(own, self.into.as_deref()) {
            // A folder that is not there yet, or holds no file yet.
            Err(e) if e.kind == Kind::Missing => CatalogFiles::read(own, None),
            read => read,
        }
    }

    /// The catalog as its files stand now.
    ///
    /// # Errors
    /// Every fault of it.
    pub fn catalog(&self) -> Result<Catalog, Error> {
        self.files()?.catalog()
    }

    /// The folder of the overlay. An overlay of one file is refused: what is learned is a file of its own.
    ///
    /// # Errors
    /// Such an overlay, or none.
    pub fn folder(&self) -> Result<&Path, Error> {
        let none = || {
            Error::new(Kind::Missing, msg!("error-learn-no-folder")).hint(msg!("error-learn-no-folder-hint"))
        };
        let into = self.into.as_deref().ok_or_else(none)?;
        if into.is_file() {
            let message = msg!("error-learn-one-file", path = into.display().to_string());
            return Err(Error::new(Kind::Input, message).hint(msg!("error-learn-one-file-hint")));
        }
        Ok(into)
    }
}

impl Shelf for FirmShelf {
    fn catalog(&self) -> Result<Catalog, ShelfError> {
        Ok(Self::catalog(self)?)
    }
    fn tried(&self, file: &str, text: &str) -> Result<Catalog, ShelfError> {
        Ok(self.files()?.with_file(file, text).catalog()?)
    }
    fn place(&self, file: &str) -> Result<PathBuf, ShelfError> {
        Ok(self.folder()?.join(file))
    }
    fn files(&self) -> Result<Vec<(String, String)>, ShelfError> {
        if let Some(own) = &self.own {
            let message = msg!("error-publish-own", path = own.display().to_string());
            return Err(Error::new(Kind::Conflict, message).hint(msg!("error-publish-own-hint")).into());
        }
        Ok(self.into.as_deref().map(actions::to_travel).transpose()?.unwrap_or_default())
    }
}
