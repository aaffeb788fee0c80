//! The catalog in use: the one built in, or a folder of the firm's.

use std::fs;
use std::path::{Path, PathBuf};

use actions::{Error, Kind};
use survey::catalog::{Catalog, builtin};

use crate::fail;

/// Loads the catalog.
pub fn load(folder: Option<&Path>) -> Result<Catalog, Error> {
    let loaded = match folder {
        None => builtin(),
        Some(folder) => Catalog::load(&files(folder)?),
    };
    loaded.map_err(|e| Error::new(Kind::Input, e.to_string()).hint("mend the catalog; nothing was recorded"))
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
        return Err(Error::new(
            Kind::Missing,
            format!("{} holds no catalog files (*.toml)", folder.display()),
        ));
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
