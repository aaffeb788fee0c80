//! The catalog a desk works by: the one built in or a folder of the firm's, with the firm's overlay laid over it.

use std::fs;
use std::path::{Path, PathBuf};

use survey::catalog::{Catalog, CatalogError, FILES, Fault, OVERLAY, Writing, builtin_with};
use words::{Language, msg};

use crate::office_catalog;
use crate::settings::CHOSEN;
use crate::{Error, Kind, file_trouble};

/// Name of the overlay's folder in the home of a device.
pub const OVERLAY_FOLDER: &str = "overlay";

/// (path inside the folder, text), in the order of paths.
pub(crate) type Files = Vec<(String, String)>;

/// The files of a catalog and of the overlay over it, as they lie on the disk.
#[derive(Clone, Debug, Default)]
pub struct CatalogFiles {
    /// A folder of the firm's in place of the catalog built in.
    own: Option<Files>,
    overlay: Files,
    overlay_at: Option<PathBuf>,
    /// Where the file of this device's own settings lies, where the overlay itself lies elsewhere.
    own_at: Option<PathBuf>,
}

impl CatalogFiles {
    /// Reads the folder of a catalog (`None`: the one built in) and an overlay, a folder or one file.
    ///
    /// # Errors
    /// A path that is not there or cannot be read, or a folder without `*.toml`.
    pub fn read(own: Option<&Path>, overlay: Option<&Path>) -> Result<Self, Error> {
        Ok(Self {
            own: own.map(files).transpose()?,
            overlay: overlay.map(files).transpose()?.unwrap_or_default(),
            overlay_at: overlay.map(Path::to_owned),
            own_at: None,
        })
    }
    /// Reads what is in use in the home of a device: the overlay that lies there, else the catalog its office published,
    /// with what is chosen on the device itself beside it.
    ///
    /// # Errors
    /// As [`CatalogFiles::read`].
    pub fn in_home(own: Option<&Path>, home: &Path) -> Result<Self, Error> {
        // A published catalog is laid over the shipped one, and no other.
        if own.is_none()
            && let Some(taken) = office_catalog::in_use(home)?
        {
            return Self::published(home, &taken);
        }
        Self::read(own, overlay_of(home)?.as_deref())
    }
    /// A published catalog with what is chosen on the device itself beside it.
    pub(crate) fn published(home: &Path, taken: &office_catalog::Taken) -> Result<Self, Error> {
        let chosen = overlay_of(home)?.map(|folder| files(&folder)).transpose()?.unwrap_or_default();
        let mut overlay = taken.numbers();
        overlay.extend(chosen.into_iter().filter(|(name, _)| name == CHOSEN));
        overlay.sort();
        Ok(Self {
            own: None,
            overlay,
            overlay_at: Some(home.join(office_catalog::FILE)),
            own_at: Some(home.join(OVERLAY_FOLDER)),
        })
    }
    /// Loads the catalog with the overlay over it.
    ///
    /// # Errors
    /// Every fault; the overlay's files are named as they lie on the disk.
    pub fn load(&self) -> Result<Catalog, CatalogError> {
        let loaded = match &self.own {
            None => builtin_with(&self.overlay),
            Some(own) => Catalog::load_with(own, &self.overlay),
        };
        loaded.map_err(|e| CatalogError { faults: e.faults.into_iter().map(|f| self.placed(f)).collect() })
    }
    /// The same, with faults as an error of the desk.
    ///
    /// # Errors
    /// As [`CatalogFiles::load`].
    pub fn catalog(&self) -> Result<Catalog, Error> {
        self.load().map_err(|e| {
            Error::new(Kind::Input, msg!("error-catalog", said = e.to_string()))
                .hint(msg!("error-catalog-hint"))
        })
    }
    /// The same with one file of the overlay written anew, or one more; nothing on the disk is touched.
    #[must_use]
    pub fn with_file(&self, name: &str, text: &str) -> Self {
        let mut changed = self.clone();
        changed.overlay.retain(|(path, _)| path != name);
        changed.overlay.push((name.to_owned(), text.to_owned()));
        changed.overlay.sort();
        changed
    }
    /// The catalog without the overlay.
    ///
    /// # Errors
    /// As [`CatalogFiles::load`].
    pub fn without_overlay(&self) -> Result<Catalog, CatalogError> {
        Self { own: self.own.clone(), ..Self::default() }.load()
    }
    /// The files, read so that things can be looked up as they are written.
    pub fn writing(&self) -> Writing<'_> {
        let shipped = || FILES.to_vec();
        Writing::new(&self.own.as_deref().map_or_else(shipped, borrowed), &borrowed(&self.overlay))
    }
    /// True for the catalog built in, with nothing over it.
    pub fn is_shipped(&self) -> bool {
        self.own.is_none() && self.overlay.is_empty()
    }
    /// Where the overlay lies, if there is one.
    pub fn overlay_at(&self) -> Option<&Path> {
        self.overlay_at.as_deref()
    }
    /// Where a file lies that the catalog names: one of the overlay on the disk, one of the catalog as it is named.
    pub fn place(&self, file: &str) -> String {
        match (file.strip_prefix(OVERLAY), &self.own_at, &self.overlay_at) {
            (Some(CHOSEN), Some(folder), _) => folder.join(CHOSEN).display().to_string(),
            (Some(_), _, Some(one)) if one.is_file() => one.display().to_string(),
            (Some(rest), _, Some(folder)) => folder.join(rest).display().to_string(),
            _ => file.to_owned(),
        }
    }
    fn placed(&self, fault: Fault) -> Fault {
        Fault { file: self.place(&fault.file), ..fault }
    }
}

/// The overlay in the home of a device, where one lies there. A folder without `*.toml` is none.
///
/// # Errors
/// A folder that cannot be read.
pub fn overlay_of(home: &Path) -> Result<Option<PathBuf>, Error> {
    let (folder, paths) = numbers_in(home)?;
    Ok((!paths.is_empty()).then_some(folder))
}

/// True where a home holds numbers of its own, beside what the settings write.
pub(crate) fn own_overlay(home: &Path) -> Result<bool, Error> {
    let (folder, paths) = numbers_in(home)?;
    let chosen = folder.join(CHOSEN);
    Ok(paths.iter().any(|path| *path != chosen))
}

/// Where the overlay of a home lies, and every `*.toml` in it.
fn numbers_in(home: &Path) -> Result<(PathBuf, Vec<PathBuf>), Error> {
    let (folder, mut paths) = (home.join(OVERLAY_FOLDER), Vec::new());
    if folder.is_dir() {
        collect(&folder, &mut paths)?;
    }
    Ok((folder, paths))
}

/// The firm's own words in a language, as they lie in `words/LANGUAGE/*.ftl` of a folder: (path, text), in the order of
/// paths. Nothing where nothing lies there.
///
/// # Errors
/// Files that cannot be read.
pub fn word_files(folder: &Path, language: Language) -> Result<Vec<(PathBuf, String)>, Error> {
    let folder = folder.join("words").join(language.folder());
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let mut found = Vec::new();
    for entry in fs::read_dir(&folder).map_err(|e| file_trouble(&folder, &e))? {
        let path = entry.map_err(|e| file_trouble(&folder, &e))?.path();
        if path.extension().is_some_and(|e| e == "ftl") {
            let text = fs::read_to_string(&path).map_err(|e| file_trouble(&path, &e))?;
            found.push((path, text));
        }
    }
    found.sort();
    Ok(found)
}

/// The files of an overlay as they travel to other devices: numbers and the firm's own words, without what one device
/// chose for itself. Nothing where nothing lies there.
///
/// # Errors
/// Files that cannot be read.
pub fn to_travel(at: &Path) -> Result<Vec<(String, String)>, Error> {
    if !at.exists() {
        return Ok(Vec::new());
    }
    let mut all = match files(at) {
        Err(e) if e.kind == Kind::Missing => Files::new(), // a folder without numbers
        read => read?,
    };
    all.retain(|(name, _)| name != CHOSEN);
    for language in [Language::En, Language::Es] {
        for (path, text) in word_files(at, language)? {
            let name = path.file_name().unwrap_or_default().to_string_lossy();
            all.push((format!("words/{}/{name}", language.folder()), text));
        }
    }
    all.sort();
    Ok(all)
}

fn borrowed(files: &[(String, String)]) -> Vec<(&str, &str)> {
    files.iter().map(|(path, text)| (path.as_str(), text.as_str())).collect()
}

/// Every `*.toml` below a folder, or one file.
fn files(at: &Path) -> Result<Files, Error> {
    let text = |path: &Path| fs::read_to_string(path).map_err(|e| file_trouble(path, &e));
    if at.is_file() {
        let name = at.file_name().unwrap_or_default().to_string_lossy().into_owned();
        return Ok(vec![(name, text(at)?)]);
    }
    let mut paths = Vec::new();
    collect(at, &mut paths)?;
    paths.sort();
    if paths.is_empty() {
        let message = msg!("error-catalog-none", path = at.display().to_string());
        return Err(Error::new(Kind::Missing, message));
    }
    let read = |path: &PathBuf| -> Result<(String, String), Error> {
        let name = path.strip_prefix(at).unwrap_or(path).to_string_lossy().replace('\\', "/");
        Ok((name, text(path)?))
    };
    paths.iter().map(read).collect()
}

fn collect(folder: &Path, paths: &mut Vec<PathBuf>) -> Result<(), Error> {
    for entry in fs::read_dir(folder).map_err(|e| file_trouble(folder, &e))? {
        let path = entry.map_err(|e| file_trouble(folder, &e))?.path();
        if path.is_dir() {
            collect(&path, paths)?;
        } else if path.extension().is_some_and(|e| e == "toml") {
            paths.push(path);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_overlay_is_a_folder_or_one_file_and_its_faults_name_the_file_on_the_disk() {
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("deep/firm.toml");
        fs::create_dir_all(file.parent().unwrap()).unwrap();
        fs::write(&file, "[change.setting.idle-day]\nvalue = 900\nbasis = \"firm\"\nreason = \"rent\"\n")
            .unwrap();
        for at in [dir.path(), &file] {
            let catalog = CatalogFiles::read(None, Some(at)).unwrap().catalog().unwrap();
            assert_eq!(catalog.setting("idle-day"), Some(900.0));
        }
        fs::write(&file, "[change.setting.idel-day]\nvalue = 900\nbasis = \"firm\"\nreason = \"rent\"\n")
            .unwrap();
        for at in [dir.path(), &file] {
            let fault = CatalogFiles::read(None, Some(at)).unwrap().load().unwrap_err().faults.remove(0);
            assert_eq!((fault.file, fault.line), (file.display().to_string(), 1));
            assert!(fault.mend.unwrap().contains("idle-day"));
        }
    }

    #[test]
    fn the_home_has_an_overlay_where_its_folder_holds_a_file() {
        let home = tempfile::tempdir().unwrap();
        assert_eq!(overlay_of(home.path()).unwrap(), None);
        let folder = home.path().join(OVERLAY_FOLDER);
        fs::create_dir(&folder).unwrap();
        assert_eq!(overlay_of(home.path()).unwrap(), None);
        fs::write(folder.join("firm.toml"), "").unwrap();
        assert_eq!(overlay_of(home.path()).unwrap(), Some(folder));
    }

    #[test]
    fn what_is_not_there_or_holds_nothing_is_missing() {
        let dir = tempfile::tempdir().unwrap();
        for at in [dir.path().to_owned(), dir.path().join("nowhere")] {
            assert_eq!(CatalogFiles::read(None, Some(&at)).unwrap_err().kind, Kind::Missing);
            assert_eq!(CatalogFiles::read(Some(&at), None).unwrap_err().kind, Kind::Missing);
        }
    }
}
