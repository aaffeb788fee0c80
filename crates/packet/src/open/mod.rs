//! Opening: one pass from front to back, in which every byte is either compared with what sealing writes or summed.

mod bagged;
mod sealed;
mod texts;
mod walk;

use std::fs::File;
use std::io::{self, Read, Seek, SeekFrom, Take};
use std::path::Path;

use keys::SealedBy;
use sha2::{Digest as _, Sha256};
use survey::Digest;
use survey::log::Entry;

use crate::zip::Member;
use crate::{HouseholdSignature, Info, PacketError, names};
pub(crate) use walk::verify;

/// A packet that was opened and found whole.
#[derive(Debug)]
pub struct Packet {
    file: File,
    found: Verified,
}

/// What a whole packet holds, photographs and pages aside.
#[derive(Debug)]
pub(crate) struct Verified {
    pub(crate) info: Info,
    pub(crate) entries: Vec<Entry>,
    pub(crate) assessment: Vec<u8>,
    pub(crate) network: Vec<u8>,
    pub(crate) household: Option<HouseholdSignature>,
    pub(crate) sealed: SealedBy,
    pub(crate) digest: Digest,
    pub(crate) bytes: u64,
    /// Name within the bag, where it lies, its digest.
    pub(crate) members: Vec<(String, Member, Digest)>,
}

/// Opens and verifies everything; the first fault found is told with its file. Memory: the texts, not the photographs.
pub fn open(path: &Path) -> Result<Packet, PacketError> {
    let mut file = File::open(path).map_err(PacketError::io("reading", path))?;
    let meta = file.metadata().map_err(PacketError::io("reading", path))?;
    if !meta.is_file() {
        let reason = format!("{} is not a file; give the zip, not an unpacked folder", path.display());
        return Err(PacketError::NotWhole { reason });
    }
    match verify(&mut file, meta.len()) {
        Ok(found) => Ok(Packet { file, found }),
        Err(PacketError::Io { source, .. }) => Err(PacketError::io("reading", path)(source)),
        Err(other) => Err(other),
    }
}

impl Packet {
    /// What the packet is.
    pub fn info(&self) -> &Info {
        &self.found.info
    }
    /// The log, in its one order.
    pub fn entries(&self) -> &[Entry] {
        &self.found.entries
    }
    /// The frozen assessment, byte for byte.
    pub fn assessment(&self) -> &[u8] {
        &self.found.assessment
    }
    /// The network, as BIF.
    pub fn network(&self) -> &[u8] {
        &self.found.network
    }
    /// The household's signature under one of the pages, if it signed.
    pub fn household(&self) -> Option<&HouseholdSignature> {
        self.found.household.as_ref()
    }
    /// Who sealed it: the key whose signature holds, and its certificate, if it carries one. Who signed that is for
    /// [`keys::judge`] to say.
    pub fn sealed_by(&self) -> &SealedBy {
        &self.found.sealed
    }
    /// SHA-256 of the zip file: the sum to compare with the one noted at sealing.
    pub fn digest(&self) -> Digest {
        self.found.digest
    }
    /// Length of the zip file in bytes.
    pub fn bytes(&self) -> u64 {
        self.found.bytes
    }
    /// Every file in the bag: name within its folder, bytes, SHA-256.
    pub fn files(&self) -> impl Iterator<Item = (&str, u64, Digest)> {
        self.found.members.iter().map(|(name, m, digest)| (name.as_str(), u64::from(m.size), *digest))
    }
    /// Where the bytes of each photograph lie in the zip, in its order: digest, beginning, length.
    pub fn photo_places(&self) -> impl Iterator<Item = (Digest, u64, u64)> {
        let photos = self.found.members.iter().filter(|(name, _, digest)| *name == names::photo(digest));
        photos.map(|(_, member, digest)| (*digest, member.content(), u64::from(member.size)))
    }
    /// A reader of one original photograph; `Missing` if the packet has none of that digest.
    pub fn photo(&mut self, digest: &Digest) -> Result<PayloadReader<'_>, PacketError> {
        self.reader(&names::photo(digest))
    }
    /// A reader of one file of the pages by its name in [`Info::pages`]; `Missing` if the packet has none of that name.
    pub fn page(&mut self, name: &str) -> Result<PayloadReader<'_>, PacketError> {
        let file = names::page(name);
        if !self.found.info.pages.iter().any(|n| n == name) {
            return Err(PacketError::Missing { file, named_in: "the caller" });
        }
        self.reader(&file)
    }

    fn reader(&mut self, name: &str) -> Result<PayloadReader<'_>, PacketError> {
        let found = self.found.members.binary_search_by(|(n, ..)| n.as_str().cmp(name));
        let missing = || PacketError::Missing { file: name.to_owned(), named_in: "the caller" };
        let at = found.map_err(|_| missing())?;
        let (_, member, digest) = self.found.members.get(at).ok_or_else(missing)?;
        self.file.seek(SeekFrom::Start(member.content())).map_err(|source| PacketError::Io {
            doing: "reading",
            path: name.to_owned(),
            source,
        })?;
        let size = u64::from(member.size);
        Ok(PayloadReader { from: (&mut self.file).take(size), size, sha: Sha256::new(), expected: *digest })
    }
}

/// Reads one file of the packet and sums it once more: if the zip was changed after it was opened, the last read
/// fails with `InvalidData` instead of ending.
#[derive(Debug)]
pub struct PayloadReader<'a> {
    from: Take<&'a mut File>,
    size: u64,
    sha: Sha256,
    expected: Digest,
}

impl PayloadReader<'_> {
    /// Its length in bytes.
    pub fn size(&self) -> u64 {
        self.size
    }
}

impl Read for PayloadReader<'_> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        let n = self.from.read(buffer)?;
        self.sha.update(buffer.get(..n).unwrap_or_default());
        if n == 0
            && !buffer.is_empty()
            && Digest::from_bytes(self.sha.clone().finalize().into()) != self.expected
        {
            let words = "the packet was changed while it was open";
            return Err(io::Error::new(io::ErrorKind::InvalidData, words));
        }
        Ok(n)
    }
}

#[cfg(test)]
mod household_tests;
#[cfg(test)]
mod seal_tests;
#[cfg(test)]
mod tests;
