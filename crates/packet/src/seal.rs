//! Sealing: everything is checked first, then written front to back beside the target, flushed to disk and renamed.
//! The payload comes first and is summed as it is written; manifests, tag manifests and the signature over them follow.
//! An interrupted sealing leaves at most a hidden file ending in `.part`, never half a packet.

use std::collections::VecDeque;
use std::path::Path;

use keys::{Certificate, PublicKey, Signed, Signer};
use survey::log::Entry;
use survey::{DeviceId, Digest, Stamp, SurveyId};

use crate::bag::{DECLARATION, bag_info};
use crate::{Info, PacketError, PhotoInfo, PhotoSource, gather, limits, names, photos, schemas};

mod writing;

pub use writing::Sealing;

/// What goes into a packet, photographs aside.
pub struct Contents<'a> {
    /// The house.
    pub survey: SurveyId,
    /// Name of the house for people.
    pub label: &'a str,
    /// Number of the packet among this survey's, from 1.
    pub number: u32,
    /// The device that seals.
    pub device: DeviceId,
    /// When; the only time in the packet's own records.
    pub sealed_at: Stamp,
    /// The firm, if it gave its name.
    pub organization: Option<&'a str>,
    /// The whole log of the survey, every device's stream from its first entry; any order.
    pub entries: &'a [Entry],
    /// How many entries, in the log's order, the assessment was made from.
    pub log_position: u64,
    /// The frozen assessment as JSON; copied byte for byte.
    pub assessment: &'a [u8],
    /// The network it was computed with, as BIF.
    pub network: &'a [u8],
    /// Digest of the catalog it was made with.
    pub catalog: Digest,
    /// Name and version of what computed it.
    pub engine: &'a str,
    /// Digest of this survey's packet before this one, if any.
    pub previous: Option<Digest>,
    /// Pages and tables, as far as they were made; any order.
    pub pages: &'a [PageFile],
    /// The key that will sign, which the packet names.
    pub sealer: Sealer<'a>,
}

/// A file of the packet that is there to be read, printed or opened in a spreadsheet.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PageFile {
    /// Name within `data/`: "pages/", lower case letters, digits and hyphens, ".pdf", ".csv" or ".xlsx".
    pub name: String,
    /// The whole file.
    pub bytes: Vec<u8>,
}

/// The device's key, as far as somebody vouched for it.
#[derive(Clone, Copy, Debug)]
pub enum Sealer<'a> {
    /// A key alone; the packet can be verified, but only as sealed by that key.
    Key(&'a PublicKey),
    /// A key with the certificate of the firm's office.
    Certified(&'a Signed<Certificate>),
}

impl Sealer<'_> {
    /// The key.
    pub fn key(&self) -> &PublicKey {
        match self {
            Self::Key(key) => key,
            Self::Certified(certificate) => &certificate.claimed().key,
        }
    }
    /// The file that names it in the packet.
    fn file(&self) -> (&'static str, Vec<u8>) {
        match self {
            Self::Key(key) => (names::DEVICE_KEY, key.to_jwk().into_bytes()),
            Self::Certified(certificate) => (names::CERTIFICATE, certificate.text().into()),
        }
    }
}

/// A packet that was sealed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Sealed {
    /// SHA-256 of the zip file: the sum to note and to compare.
    pub digest: Digest,
    /// Length of the zip file in bytes.
    pub bytes: u64,
    /// Files inside.
    pub files: u64,
}

enum Content {
    Bytes(Vec<u8>),
    Photo(Digest),
}

/// Seals a packet at `to` (a path ending in `.zip` by custom), signed by `signer`. Photographs are those the log names;
/// each is read from `source`, compared with its digest, and copied in chunks. The same contents and key give the same
/// bytes. If the same packet already stands at `to` nothing changes; another file there is never written over.
///
/// # Errors
/// As [`Sealing::begin`] and [`Sealing::finish`].
pub fn seal(
    to: &Path,
    contents: &Contents<'_>,
    source: &mut dyn PhotoSource,
    signer: &dyn Signer,
) -> Result<Sealed, PacketError> {
    Sealing::begin(to, contents, source)?.finish(source, signer)
}

/// Name in the packet, and what is written.
type Files = VecDeque<(String, Content)>;

/// Checks what was handed in and lays out every file but the lists of sums and the seal, in bytewise order.
fn plan(contents: &Contents<'_>, source: &mut dyn PhotoSource) -> Result<(Info, Files), PacketError> {
    let bad = |reason: String| PacketError::Contents { reason };
    let mut entries: Vec<&Entry> = contents.entries.iter().collect();
    entries.sort_by_key(|e| e.order());
    let entries: Vec<Entry> = entries.into_iter().cloned().collect();
    let assessment = Digest::of(contents.assessment);
    gather::check_log(&entries, contents.survey, assessment)
        .map_err(|(line, reason)| bad(line.map(|n| format!("log entry {n}: {reason}")).unwrap_or(reason)))?;
    gather::check_assessment(contents.assessment).map_err(|e| bad(format!("the assessment: {e}")))?;
    if gather::steers(&[contents.label, contents.engine, contents.organization.unwrap_or_default()]) {
        return Err(bad("a name holds letters that steer a screen, as a line end".into()));
    }
    if contents.log_position > entries.len() as u64 || contents.number == 0 {
        return Err(bad(
            "the assessment was made from more entries than the log has, or the number is 0".into()
        ));
    }
    let photos = lengths(photos::named_in(&entries).into_values().collect(), source)?;
    let info = Info {
        format: Info::FORMAT.to_owned(),
        version: Info::VERSION,
        survey: contents.survey,
        label: contents.label.to_owned(),
        number: contents.number,
        device: contents.device,
        sealed_at: contents.sealed_at,
        entries: entries.len() as u64,
        log_position: contents.log_position,
        catalog: contents.catalog,
        engine: contents.engine.to_owned(),
        software: concat!("Underlath ", env!("CARGO_PKG_VERSION")).to_owned(),
        organization: contents.organization.map(str::to_owned),
        previous: contents.previous,
        assessment,
        pages: page_names(contents.pages)?,
        photos,
    };
    let mut log = Vec::new();
    for entry in &entries {
        log.extend(entry.to_bytes());
        log.push(b'\n');
    }
    let mut payload = vec![
        (names::ASSESSMENT.to_owned(), Content::Bytes(contents.assessment.to_vec())),
        (names::LOG.to_owned(), Content::Bytes(log)),
        (names::NETWORK.to_owned(), Content::Bytes(contents.network.to_vec())),
        (names::PACKET_JSON.to_owned(), Content::Bytes(info.to_text())),
    ];
    for (name, text) in schemas::of(false) {
        payload.push((name.to_owned(), Content::Bytes(text.into())));
    }
    payload.extend(contents.pages.iter().map(|p| (names::page(&p.name), Content::Bytes(p.bytes.clone()))));
    payload.extend(info.photos.iter().map(|p| (names::photo(&p.digest), Content::Photo(p.digest))));
    let files = bagged(&info, payload, contents.sealer)?;
    Ok((info, files))
}

/// The names of the pages in bytewise order, each one that a packet may hold and none twice.
fn page_names(pages: &[PageFile]) -> Result<Vec<String>, PacketError> {
    let mut names: Vec<String> = pages.iter().map(|p| p.name.clone()).collect();
    names.sort();
    gather::check_pages(&names).map_err(|reason| PacketError::Contents { reason })?;
    Ok(names)
}

/// Fills in lengths the log does not say and refuses those it says otherwise.
fn lengths(mut photos: Vec<PhotoInfo>, source: &mut dyn PhotoSource) -> Result<Vec<PhotoInfo>, PacketError> {
    for photo in &mut photos {
        let named = photo.name.is_some();
        let found = source.size(&photo.digest).map_err(|e| refuse(photo, e.to_string()))?;
        if named && found != photo.bytes {
            return Err(refuse(photo, format!("it has {found} bytes where the log says {}", photo.bytes)));
        }
        photo.bytes = found;
    }
    Ok(photos)
}

fn refuse(photo: &PhotoInfo, reason: String) -> PacketError {
    PacketError::Photo { digest: photo.digest, name: photo.name.clone().unwrap_or_default(), reason }
}

/// Adds the tag files that are known beforehand.
fn bagged(info: &Info, mut files: Vec<(String, Content)>, sealer: Sealer<'_>) -> Result<Files, PacketError> {
    let (device, text) = sealer.file();
    for (name, bytes) in [(names::BAGIT, DECLARATION.as_bytes().to_vec()), (device, text)] {
        files.push((name.to_owned(), Content::Bytes(bytes)));
    }
    let files = described(info, files);
    for (file, content) in &files {
        let (found, limit) = (size(info, content), names::limit(file));
        if found > limit {
            return Err(PacketError::TooLarge { file: file.clone(), found, limit });
        }
    }
    let (found, limit) = (files.len() as u64 + writing::CLOSING, limits::FILES as u64);
    if found > limit {
        return Err(PacketError::TooLarge { file: "the number of files".to_owned(), found, limit });
    }
    Ok(files)
}

fn size(info: &Info, content: &Content) -> u64 {
    match content {
        Content::Bytes(bytes) => bytes.len() as u64,
        Content::Photo(digest) => info.photos.iter().find(|p| p.digest == *digest).map_or(0, |p| p.bytes),
    }
}

/// Puts bag-info, which counts the payload, to the others, and all in bytewise order.
fn described(info: &Info, mut files: Vec<(String, Content)>) -> Files {
    let payload = || files.iter().filter(|(name, _)| name.starts_with("data/"));
    let octets = payload().fold(0u64, |sum, (_, content)| sum.saturating_add(size(info, content)));
    let text = bag_info(info, octets, payload().count() as u64).into_bytes();
    files.push((names::BAG_INFO.to_owned(), Content::Bytes(text)));
    files.sort_by(|a, b| a.0.cmp(&b.0));
    files.into()
}

#[cfg(test)]
mod tests;
