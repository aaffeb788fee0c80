//! What a firm writes beside its catalog and its overlay in its own words.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::OnceLock;

use actions::{Error, Kind};
use words::{FileFault, Language, Words, msg};

use crate::fail;

/// The words of a language with those the firm wrote into `words/<language>/*.ftl` of its folders, later ones over
/// earlier ones; `published` are the (file, text) pairs of a catalog that an office published.
pub fn own_words(
    folders: &[&Path],
    published: Vec<(String, String)>,
    language: Language,
) -> Result<&'static Words, Error> {
    static OWN: OnceLock<Words> = OnceLock::new();
    let mut paths = Vec::new();
    for folder in folders {
        paths.extend(files(&folder.join("words").join(language.folder()))?);
    }
    if paths.is_empty() && published.is_empty() {
        return Ok(Words::of(language));
    }
    let read = |path: &PathBuf| -> Result<(String, String), Error> {
        let text = fs::read_to_string(path).map_err(|e| fail::file(path, &e))?;
        Ok((path.display().to_string(), text))
    };
    let mut texts = published;
    texts.extend(paths.iter().map(read).collect::<Result<Vec<_>, _>>()?);
    let words = Words::with_own(language, &texts).map_err(|faults| match faults.first() {
        Some(FileFault { file, line, text }) => {
            let message = msg!("error-own-words", file = file, line = *line, text = text);
            Error::new(Kind::Input, message).hint(msg!("error-own-words-hint"))
        }
        None => Error::new(Kind::Internal, msg!("error-own-words-hint")),
    })?;
    Ok(OWN.get_or_init(|| words))
}

/// The `*.ftl` files of a folder in order; none where it is not there.
fn files(folder: &Path) -> Result<Vec<PathBuf>, Error> {
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)
        .map_err(|e| fail::file(folder, &e))?
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|path| path.extension().is_some_and(|e| e == "ftl"))
        .collect();
    paths.sort();
    Ok(paths)
}
