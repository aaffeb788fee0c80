//! The pass over the file: local headers compared, contents summed, small ones kept.

use std::collections::BTreeMap;
use std::io::{self, Read, Seek, SeekFrom, Write};

use keys::SealedBy;
use sha2::{Digest as _, Sha256};
use survey::Digest;

use super::{Verified, bagged, sealed, texts};
use crate::stream::{Long, copy};
use crate::zip::{Member, bytes_at, compare, directory, local_header, reading};
use crate::{PacketError, names};

/// One file as found: where it lies, its digest, and its bytes if it is one of those held in memory.
pub(super) struct Found {
    pub(super) member: Member,
    pub(super) digest: Digest,
    /// SHA-512.
    pub(super) long: Long,
    pub(super) bytes: Option<Vec<u8>>,
}

/// Files by name within the bag's folder.
pub(super) type Files = BTreeMap<String, Found>;

/// Verifies a packet that is `len` bytes long.
pub(crate) fn verify<R: Read + Seek>(from: &mut R, len: u64) -> Result<Verified, PacketError> {
    let directory = directory(from, len)?;
    let folder = one_folder(&directory.members)?;
    let mut whole = Sha256::new();
    let mut files = Files::new();
    for member in directory.members {
        let name = member.name.get(folder.len() + 1..).unwrap_or_default().to_owned();
        let found = take_in(from, &name, member, &mut whole)?;
        files.insert(name, found);
    }
    whole.update(&directory.tail);
    let digest = Digest::from_bytes(whole.finalize().into());
    // Before lists and seal: a newer layout may have others, and is not to be called damaged.
    texts::not_newer(&files)?;
    bagged::check(&files)?;
    let (key, certificate) = sealed::check(&files)?;
    let texts::Texts { info, entries, household } = texts::check(&files, &folder)?;
    let bytes =
        |files: &mut Files, name: &str| files.get_mut(name).and_then(|f| f.bytes.take()).unwrap_or_default();
    let assessment = bytes(&mut files, names::ASSESSMENT);
    let network = bytes(&mut files, names::NETWORK);
    let members = files.into_iter().map(|(name, f)| (name, f.member, f.digest)).collect();
    let sealed = SealedBy { packet: digest, key, sealed_at: info.sealed_at, certificate };
    Ok(Verified { info, entries, assessment, network, household, sealed, digest, bytes: len, members })
}

/// The one folder everything lies in.
fn one_folder(members: &[Member]) -> Result<String, PacketError> {
    let mut folders = members.iter().map(|m| m.name.split_once('/').map(|(folder, _)| folder));
    let Some(Some(first)) = folders.next() else {
        return Err(PacketError::NotWhole { reason: "it holds no folder with files".to_owned() });
    };
    match folders.position(|f| f != Some(first)) {
        None => Ok(first.to_owned()),
        Some(at) => {
            let file = members.get(at + 1).map(|m| m.name.clone()).unwrap_or_default();
            Err(PacketError::Name { file, reason: "it lies outside the one folder of the packet" })
        }
    }
}

/// Compares the local header, then sums the content.
fn take_in<R: Read + Seek>(
    from: &mut R,
    name: &str,
    member: Member,
    whole: &mut Sha256,
) -> Result<Found, PacketError> {
    let (size, limit) = (u64::from(member.size), names::limit(name));
    if size > limit {
        return Err(PacketError::TooLarge { file: name.to_owned(), found: size, limit });
    }
    let expected = local_header(&member);
    let header = bytes_at(from, member.offset, expected.len() as u64)?;
    compare(name, &header, &expected)?;
    whole.update(&header);
    let keep = names::held(name).then(Vec::new);
    let mut sink = Sink { whole, keep };
    from.seek(SeekFrom::Start(member.content())).map_err(reading)?;
    let sums = copy(&mut from.by_ref().take(size), &mut sink, size).map_err(reading)?;
    let bytes = sink.keep;
    if sums.size != size {
        return Err(PacketError::NotWhole { reason: format!("it ends within {name}") });
    }
    if sums.crc != member.crc {
        return Err(PacketError::Altered { file: name.to_owned(), list: "the zip's CRC-32" });
    }
    Ok(Found { member, digest: sums.digest, long: sums.long, bytes })
}

/// Sums into the digest of the whole zip and keeps the bytes if asked to.
struct Sink<'a> {
    whole: &'a mut Sha256,
    keep: Option<Vec<u8>>,
}

impl Write for Sink<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.whole.update(bytes);
        if let Some(keep) = &mut self.keep {
            keep.extend_from_slice(bytes);
        }
        Ok(bytes.len())
    }
    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}
