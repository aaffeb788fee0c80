//! Sealing: assess as the log stands, note the sealing in the log, write the packet.
//!
//! The entry comes before the file: should writing fail, the log says that sealing was begun, nothing else changed,
//! and sealing again makes a new packet.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use assessment::Forecast;
use packet::Contents;
use survey::log::{Body, Sealed};
use survey::model::Picture;
use survey::{Digest, SurveyId};
use words::Words;

use crate::pages::Sealing;
use crate::{Desk, Error, Kit, assess};

/// How to seal.
#[derive(Clone, Default)]
pub struct SealOptions {
    /// The firm's name, if it gives one.
    pub organization: Option<String>,
    /// The language of the pages, if it is not the desk's: the household may read another one than the crew.
    pub pages_in: Option<&'static Words>,
}

/// A packet on the disk.
#[derive(Clone, Debug, PartialEq)]
pub struct SealedPacket {
    /// The file.
    pub path: PathBuf,
    /// SHA-256 of the file.
    pub digest: Digest,
    /// Its size in bytes.
    pub bytes: u64,
    /// Files inside.
    pub files: u64,
    /// Photographs inside.
    pub photos: u32,
    /// True when it holds pages to read.
    pub pages: bool,
    /// The pages themselves, if they were made.
    pub pages_bytes: Option<Vec<u8>>,
}

/// Seals the house into `folder` and returns where the packet lies.
pub fn seal(
    desk: &mut Desk,
    survey: SurveyId,
    folder: &Path,
    options: &SealOptions,
    kit: &mut Kit<'_>,
) -> Result<SealedPacket, Error> {
    let assessed = assess(desk, survey, kit)?;
    let sealed_at = kit.now();
    desk.append(survey, Body::Sealed(Sealed { assessment: assessed.digest }), kit)?;
    let entries = desk.store.entries(survey)?;
    let picture = desk.picture(survey)?;
    let number = entries.iter().filter(|e| matches!(e.body, Body::Sealed(_))).count() as u32;
    let label = picture.label().to_owned();
    let network = assessment::bif(&assessed.network, &assessed.forecast);
    let pages_bytes = pages(
        desk,
        &picture,
        &assessed.forecast,
        &Sealing {
            survey,
            number,
            organization: options.organization.as_deref(),
            sealed_at,
            assessment: assessed.digest,
            words: options.pages_in.unwrap_or(desk.words()),
        },
    )?;
    let contents = Contents {
        survey,
        label: &label,
        number,
        device: desk.store.device(),
        sealed_at,
        organization: options.organization.as_deref(),
        entries: &entries,
        log_position: assessed.forecast.log.entries,
        assessment: &assessed.bytes,
        network: network.as_bytes(),
        catalog: assessed.forecast.catalog.digest,
        engine: &assessed.forecast.engine,
        previous: None,
        pages: pages_bytes.as_deref(),
    };
    let path = folder.join(format!("{}-{number}.zip", file_name(&label, survey)));
    let mut originals: BTreeMap<Digest, PathBuf> =
        picture.photos.keys().map(|d| (*d, desk.store.blobs().path(*d))).collect();
    let sealed = packet::seal(&path, &contents, &mut originals)?;
    Ok(SealedPacket {
        path,
        digest: sealed.digest,
        bytes: sealed.bytes,
        files: sealed.files,
        photos: picture.photos.len() as u32,
        pages: pages_bytes.is_some(),
        pages_bytes,
    })
}

/// A file name without spaces from a label: lower case, digits and hyphens; the id where nothing is left.
fn file_name(label: &str, survey: SurveyId) -> String {
    let mut name = String::new();
    for c in label.chars() {
        if c.is_ascii_alphanumeric() {
            name.push(c.to_ascii_lowercase());
        } else if !name.ends_with('-') && !name.is_empty() {
            name.push('-');
        }
    }
    let name: String = name.trim_end_matches('-').chars().take(60).collect();
    if name.is_empty() { survey.to_string() } else { name }
}

/// Pages to read, when this program was built with them.
#[cfg(feature = "pdf")]
fn pages(
    desk: &Desk,
    picture: &Picture,
    forecast: &Forecast,
    sealing: &Sealing<'_>,
) -> Result<Option<Vec<u8>>, Error> {
    let data = crate::pages::data(desk, picture, forecast, sealing)?;
    Ok(Some(packet::pages(&data, sealing.words)?))
}

#[cfg(not(feature = "pdf"))]
fn pages(_: &Desk, _: &Picture, _: &Forecast, _: &Sealing<'_>) -> Result<Option<Vec<u8>>, Error> {
    Ok(None)
}
