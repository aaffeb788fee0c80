//! How a firm's pages look: its own templates from a folder, and its letterhead.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use packet::Style;
use packet::limits::{TEMPLATE, TEMPLATES};
use words::msg;

use crate::{Desk, Error, Kind, file_trouble};

/// Folder of the firm's templates in the home of the records.
const FOLDER: &str = "templates";
/// The firm's mark in it.
const MARK: &str = "letterhead.svg";

/// The firm's templates in `folder`, or in the home's folder `templates` if it is there; its mark and address.
///
/// # Errors
/// A folder that was named and is not there, a file that cannot be read or is too large.
pub(crate) fn style(desk: &Desk, folder: Option<&Path>) -> Result<Style, Error> {
    let home = desk.store().dir().join(FOLDER);
    let templates = match folder {
        Some(folder) => read(folder)?,
        None if home.is_dir() => read(&home)?,
        None => BTreeMap::new(),
    };
    Ok(Style {
        address: crate::settings::address(desk)?,
        mark: templates.get(MARK).map(|svg| String::from_utf8_lossy(svg).into_owned()),
        templates,
    })
}

/// Templates and drawings of a folder by name; other files, folders and links in it are left alone: a link in a folder
/// that somebody sent could stand for any file of this device.
fn read(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>, Error> {
    let trouble = |e: &std::io::Error| file_trouble(folder, e);
    let mut files = BTreeMap::new();
    for entry in fs::read_dir(folder).map_err(|e| trouble(&e))? {
        let path = entry.map_err(|e| trouble(&e))?.path();
        let known = path.extension().is_some_and(|ending| ending == "typ" || ending == "svg");
        let Some(name) = path.file_name().and_then(|n| n.to_str()).filter(|_| known) else { continue };
        let size = fs::symlink_metadata(&path).map_err(|e| file_trouble(&path, &e))?;
        if !size.is_file() {
            continue;
        }
        if size.len() > TEMPLATE as u64 || files.len() == TEMPLATES {
            let message = msg!("error-template-large", path = path.display().to_string(), most = TEMPLATES);
            return Err(Error::new(Kind::Input, message).hint(msg!("error-template-large-hint")));
        }
        files.insert(name.to_owned(), fs::read(&path).map_err(|e| file_trouble(&path, &e))?);
    }
    Ok(files)
}
