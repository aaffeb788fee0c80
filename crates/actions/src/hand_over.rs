//! Handing a packet over without a network: a copy of it, or of its pages, where people look for files.

use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

use store::KeptPacket;
use survey::SurveyId;
use words::msg;

use crate::seal::packet_of;
use crate::{Desk, Error, Kind, file_trouble};

/// What is handed over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Handed {
    /// The packet, for the office.
    Packet,
    /// Its pages and tables alone, in a folder of their own.
    Pages,
}

/// Copies a packet of a house, or its pages, into a folder and returns where the copy lies. The packet is opened and
/// compared bit by bit first, so that nothing damaged is carried away. A copy that is there already is kept; another
/// file of that name is left alone and the copy gets a number.
///
/// # Errors
/// A number no packet has, a packet that was moved away or damaged, one without pages, a folder that is full.
pub fn hand_over(
    desk: &Desk,
    survey: SurveyId,
    (number, what): (u32, Handed),
    folder: &Path,
) -> Result<PathBuf, Error> {
    let kept = packet_of(desk, survey, number)?;
    if !kept.path.is_file() {
        let path = kept.path.display().to_string();
        return Err(Error::new(Kind::Missing, msg!("error-packet-gone", path = path))
            .hint(msg!("error-packet-gone-hint")));
    }
    let mut packet = packet::open(&kept.path)?;
    if packet.digest() != kept.digest {
        let path = kept.path.display().to_string();
        return Err(Error::new(Kind::Damaged, msg!("error-packet-changed", path = path))
            .hint(msg!("error-packet-gone-hint")));
    }
    fs::create_dir_all(folder).map_err(|e| file_trouble(folder, &e))?;
    match what {
        Handed::Packet => {
            let mut from = File::open(&kept.path).map_err(|e| file_trouble(&kept.path, &e))?;
            put(folder, &name(&kept, "zip"), &mut from)
        }
        Handed::Pages => {
            let names = packet.info().pages.clone();
            if names.is_empty() {
                return Err(Error::new(Kind::Missing, msg!("error-packet-pages"))
                    .hint(msg!("error-packet-pages-hint")));
            }
            let into = format!("{}-pages", kept.path.file_stem().unwrap_or_default().to_string_lossy());
            put_all(folder, &into, &mut packet, &names)
        }
    }
}

fn name(kept: &KeptPacket, ending: &str) -> String {
    kept.path.with_extension(ending).file_name().unwrap_or_default().to_string_lossy().into_owned()
}

/// A folder of pages, written beside and named when it is whole. One that is there already with the same pages is kept; where
/// another of that name lies, ours gets a number.
fn put_all(
    folder: &Path,
    name: &str,
    packet: &mut packet::Packet,
    pages: &[String],
) -> Result<PathBuf, Error> {
    let part = folder.join(format!(".{name}.part"));
    let trouble = |path: &Path| {
        let path = path.to_owned();
        move |e: io::Error| file_trouble(&path, &e)
    };
    if part.exists() {
        fs::remove_dir_all(&part).map_err(trouble(&part))?; // ours, broken off
    }
    let written = (|| {
        fs::create_dir(&part).map_err(trouble(&part))?;
        let mut files = Vec::new();
        for page in pages {
            let file = page.rsplit('/').next().unwrap_or(page);
            files.push(put(&part, file, &mut packet.page(page)?)?);
        }
        for into in numbered(folder, name, "") {
            if !into.exists() {
                fs::rename(&part, &into).map_err(trouble(&into))?;
                return Ok(into);
            }
            let there = files.iter().all(|file| {
                let kept = into.join(file.file_name().unwrap_or_default());
                kept.is_file() && same(&kept, file).unwrap_or(false)
            });
            if there {
                fs::remove_dir_all(&part).map_err(trouble(&part))?;
                return Ok(into);
            }
        }
        Err(file_trouble(folder, &io::ErrorKind::AlreadyExists.into()))
    })();
    written.inspect_err(|_| {
        let _ = fs::remove_dir_all(&part); // the first error is the one to tell
    })
}

/// Written beside and named when it is whole.
fn put(folder: &Path, name: &str, from: &mut dyn Read) -> Result<PathBuf, Error> {
    let part = folder.join(format!(".{name}.part"));
    let written = File::create(&part).and_then(|mut to| {
        io::copy(from, &mut to)?;
        to.sync_all()
    });
    let named = written.and_then(|()| {
        let path = free(folder, name, &part)?;
        fs::rename(&part, &path)?;
        Ok(path)
    });
    named.map_err(|e| {
        let _ = fs::remove_file(&part); // the first error is the one to tell
        file_trouble(&folder.join(name), &e)
    })
}

/// The name itself, or with the first number nothing else has; a file with the same bytes counts as ours.
fn free(folder: &Path, name: &str, part: &Path) -> io::Result<PathBuf> {
    let (stem, ending) = name.split_at(name.rfind('.').unwrap_or(name.len()));
    for path in numbered(folder, stem, ending) {
        if !path.exists() || same(&path, part)? {
            return Ok(path);
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

/// The name itself, then with each number from 2 before its ending.
fn numbered(folder: &Path, stem: &str, ending: &str) -> impl Iterator<Item = PathBuf> {
    (1_u32..).map(move |n| match n {
        1 => folder.join(format!("{stem}{ending}")),
        n => folder.join(format!("{stem} ({n}){ending}")),
    })
}

fn same(one: &Path, other: &Path) -> io::Result<bool> {
    if fs::metadata(one)?.len() != fs::metadata(other)?.len() {
        return Ok(false);
    }
    let (mut one, mut other) = (File::open(one)?, File::open(other)?);
    let (mut a, mut b) = (vec![0; 1 << 16], vec![0; 1 << 16]);
    loop {
        let n = one.read(&mut a)?;
        if n == 0 {
            return Ok(true);
        }
        other.read_exact(&mut b[..n])?;
        if a[..n] != b[..n] {
            return Ok(false);
        }
    }
}
