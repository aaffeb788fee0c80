//! The catalog in use: the one built in, or a folder of the firm's.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use actions::{Error, Kind};
use survey::catalog::{Catalog, builtin};
use words::{FileFault, Language, Words, msg};

use crate::fail;

/// Loads the catalog.
pub fn load(folder: Option<&Path>) -> Result<Catalog, Error> {
    let loaded = match folder {
        None => builtin(),
        Some(folder) => Catalog::load(&files(folder)?),
    };
    loaded.map_err(|e| {
        Error::new(Kind::Input, msg!("error-catalog", said = e.to_string())).hint(msg!("error-catalog-hint"))
    })
}

fn files(folder: &Path) -> Result<Vec<(String, String)>, Error> {
    let mut paths = Vec::new();
    collect(folder, &mut paths)?;
    paths.sort();
    let read = |path: PathBuf| -> Result<(String, String), Error> {
        let text = fs::read_to_string(&path).map_err(|e| fail::file(&path, &e))?;
        let name = path.strip_prefix(folder).unwrap_or(&path).to_string_lossy().replace('\\', "/");
        Ok((name, text))
    };
    let files: Vec<(String, String)> = paths.into_iter().map(read).collect::<Result<_, _>>()?;
    if files.is_empty() {
        let message = msg!("error-catalog-none", path = folder.display().to_string());
        return Err(Error::new(Kind::Missing, message));
    }
    Ok(files)
}

fn collect(folder: &Path, paths: &mut Vec<PathBuf>) -> Result<(), Error> {
    for entry in fs::read_dir(folder).map_err(|e| fail::file(folder, &e))? {
        let path = entry.map_err(|e| fail::file(folder, &e))?.path();
        if path.is_dir() {
            collect(&path, paths)?;
        } else if path.extension().is_some_and(|e| e == "toml") {
            paths.push(path);
        }
    }
    Ok(())
}

/// The words of a language with those the firm wrote into `words/<language>/*.ftl` of its catalog's folder.
pub fn own_words(folder: &Path, language: Language) -> Result<&'static Words, Error> {
    static OWN: OnceLock<Words> = OnceLock::new();
    let folder = folder.join("words").join(language.folder());
    if !folder.is_dir() {
        return Ok(Words::of(language));
    }
    let mut paths: Vec<PathBuf> = fs::read_dir(&folder)
        .map_err(|e| fail::file(&folder, &e))?
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "ftl"))
        .collect();
    paths.sort();
    let read = |path: &PathBuf| -> Result<(String, String), Error> {
        let text = fs::read_to_string(path).map_err(|e| fail::file(path, &e))?;
        Ok((path.display().to_string(), text))
    };
    let texts: Vec<(String, String)> = paths.iter().map(read).collect::<Result<_, _>>()?;
    let words = Words::with_own(language, &texts).map_err(|faults| match faults.first() {
        Some(FileFault { file, line, text }) => {
            let message = msg!("error-own-words", file = file, line = *line, text = text);
            Error::new(Kind::Input, message).hint(msg!("error-own-words-hint"))
        }
        None => Error::new(Kind::Internal, msg!("error-own-words-hint")),
    })?;
    Ok(OWN.get_or_init(|| words))
}
