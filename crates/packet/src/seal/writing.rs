//! A packet on its way to the disk.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufWriter};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use keys::{PublicKey, Signer};
use survey::Digest;

use super::{Content, Contents, Files, Sealed, described, plan};
use crate::bag::write_manifest;
use crate::stream::{Sums, copy};
use crate::zip::ZipWriter;
use crate::{HouseholdSignature, Info, PacketError, PhotoSource, PhotoSums, limits, names, schemas};

/// Files that follow the payload: manifests, tag manifests, seal.
pub(super) const CLOSING: u64 = 5;

/// A packet being written one file at a time, so that somebody can watch and stop it. Dropped before it is finished it
/// leaves nothing on the disk.
pub struct Sealing {
    to: PathBuf,
    part: Part,
    info: Info,
    /// Still to be written, in order.
    files: Files,
    zip: ZipWriter<BufWriter<File>>,
    /// Name and both sums of what is written.
    sums: Vec<(String, Digest, String)>,
    key: PublicKey,
    photos: u32,
    photos_written: u32,
}

impl Sealing {
    /// Checks everything that is handed in, and begins the file beside `to`.
    ///
    /// # Errors
    /// Contents that do not hold together, a photograph that is missing or has another length, a folder that cannot be
    /// written.
    pub fn begin(
        to: &Path,
        contents: &Contents<'_>,
        source: &mut dyn PhotoSource,
    ) -> Result<Self, PacketError> {
        let (info, files) = plan(contents, source)?;
        let path = part_beside(to)?;
        let file = OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&path)
            .map_err(PacketError::io("writing", &path))?;
        let photos = files.iter().filter(|(_, content)| matches!(content, Content::Photo(_))).count();
        Ok(Self {
            to: to.to_owned(),
            part: Part(path),
            info,
            files,
            zip: ZipWriter::new(BufWriter::with_capacity(limits::CHUNK, file)),
            sums: Vec::new(),
            key: *contents.sealer.key(),
            photos: u32::try_from(photos).unwrap_or(u32::MAX),
            photos_written: 0,
        })
    }

    /// Puts the household's signature into the packet, before the first file is written: the bag's metadata, which come
    /// first, count it.
    ///
    /// # Errors
    /// A packet that is already being written, a signature under a page that is not in it, a second one. The packet is as it
    /// was then.
    pub fn sign_household(&mut self, signature: &HouseholdSignature) -> Result<(), PacketError> {
        let bad = |reason: &str| PacketError::Contents { reason: reason.to_owned() };
        if !self.sums.is_empty() {
            return Err(bad("the packet is already being written; the household signs before that"));
        }
        let there =
            |wanted: &str| self.files.iter().find(|(name, _)| name == wanted).map(|(_, content)| content);
        if there(names::HOUSEHOLD).is_some() {
            return Err(bad("the household has signed already"));
        }
        let text = signature.to_text();
        // As opening will: this is what a reader is shown.
        HouseholdSignature::from_text(&text, |page| match there(&names::page(page))? {
            Content::Bytes(bytes) => {
                let sums = Sums::of(bytes);
                Some((sums.digest, sums.long))
            }
            Content::Photo(_) => None,
        })?;
        let (schema, form) = schemas::SIGNATURE;
        let (found, limit) = (text.len() as u64, limits::SIGNATURE);
        if found > limit {
            return Err(PacketError::TooLarge { file: names::HOUSEHOLD.to_owned(), found, limit });
        }
        let mut files: Vec<_> = self.files.drain(..).filter(|(name, _)| name != names::BAG_INFO).collect();
        files.push((names::HOUSEHOLD.to_owned(), Content::Bytes(text)));
        files.push((schema.to_owned(), Content::Bytes(form.into())));
        self.files = described(&self.info, files);
        Ok(())
    }

    /// Writes the next file; false once only lists and seal are left, which [`Sealing::finish`] writes.
    ///
    /// # Errors
    /// A photograph whose bytes are not those the log names, a disk that is full.
    pub fn step(&mut self, source: &mut dyn PhotoSource) -> Result<bool, PacketError> {
        let Some((name, content)) = self.files.pop_front() else { return Ok(false) };
        match content {
            Content::Bytes(bytes) => self.write(name, &bytes)?,
            Content::Photo(digest) => self.write_photo(name, &digest, source)?,
        }
        Ok(true)
    }

    fn write(&mut self, name: String, bytes: &[u8]) -> Result<(), PacketError> {
        let Sums { size, crc, digest, long } = Sums::of(bytes);
        let path = format!("{}/{name}", self.info.folder());
        let added = self.zip.add(path, (size, crc), &mut { bytes });
        added.map_err(PacketError::io("writing", &self.part.0))?;
        self.sums.push((name, digest, long));
        Ok(())
    }

    /// The zip wants length and CRC-32 before the content, so it is read twice: the sums are made in the first reading,
    /// and the second must have its length and CRC-32.
    fn write_photo(
        &mut self,
        name: String,
        digest: &Digest,
        source: &mut dyn PhotoSource,
    ) -> Result<(), PacketError> {
        let refused = |e: io::Error| photo_error(digest, e.to_string());
        let damaged =
            || photo_error(digest, "its bytes are not those the log names; it was damaged".to_owned());
        let PhotoSums(sums) = source.sums(digest).map_err(refused)?;
        if sums.digest != *digest {
            return Err(damaged());
        }
        let path = format!("{}/{name}", self.info.folder());
        let added = self.zip.add(path, (sums.size, sums.crc), &mut source.open(digest).map_err(refused)?);
        added.map_err(|e| match e.kind() {
            io::ErrorKind::InvalidData => refused(e),
            _ => PacketError::io("writing", &self.part.0)(e),
        })?;
        self.photos_written += 1;
        self.sums.push((name, sums.digest, sums.long));
        Ok(())
    }

    /// Lists of the files whose names `wanted` takes, by SHA-256 and by SHA-512.
    fn lists(&self, wanted: impl Fn(&str) -> bool) -> (String, String) {
        let listed = || self.sums.iter().filter(|(name, ..)| wanted(name));
        (
            write_manifest(listed().map(|(name, digest, _)| (name.as_str(), digest.hex()))),
            write_manifest(listed().map(|(name, _, long)| (name.as_str(), long.clone()))),
        )
    }

    /// Manifests, and the tag manifests over them; the seal over the longer of those is made last, and lies before them
    /// because the zip is in the order of names.
    fn close(&mut self, signer: &dyn Signer) -> Result<(), PacketError> {
        let (short, long) = self.lists(|name| name.starts_with("data/"));
        self.write(names::MANIFEST.to_owned(), short.as_bytes())?;
        self.write(names::MANIFEST_512.to_owned(), long.as_bytes())?;
        let (short, long) = self.lists(|name| names::TAGS.contains(&name));
        let seal = keys::sign_seal(long.as_bytes(), signer)
            .map_err(|source| PacketError::Seal { file: names::SEAL, source })?;
        self.write(names::SEAL.to_owned(), seal.as_bytes())?;
        self.write(names::TAG_MANIFEST.to_owned(), short.as_bytes())?;
        self.write(names::TAG_MANIFEST_512.to_owned(), long.as_bytes())
    }

    /// Photographs written so far.
    pub fn photos_written(&self) -> u32 {
        self.photos_written
    }

    /// Photographs in all.
    pub fn photos(&self) -> u32 {
        self.photos
    }

    /// Signs, flushes the packet to the disk and gives it its name. What [`Sealing::step`] has not written yet is written
    /// first.
    ///
    /// # Errors
    /// A signer with another key than the packet names, or that refuses; a disk that is full; another file at that path.
    pub fn finish(
        mut self,
        source: &mut dyn PhotoSource,
        signer: &dyn Signer,
    ) -> Result<Sealed, PacketError> {
        if *signer.public() != self.key {
            let reason = "the key of this device is not the one it had when sealing began; seal again";
            return Err(PacketError::Contents { reason: reason.to_owned() });
        }
        while self.step(source)? {}
        self.close(signer)?;
        let Self { to, mut part, zip, .. } = self;
        let path = part.0.clone();
        let (out, digest, bytes, files) = zip.finish().map_err(PacketError::io("writing", &path))?;
        let file = out.into_inner().map_err(|e| PacketError::io("writing", &path)(e.into_error()))?;
        file.sync_all().map_err(PacketError::io("writing", &path))?;
        part.settle(&to, Sealed { digest, bytes, files })
    }
}

/// The unfinished file; taken away when it goes out of use.
struct Part(PathBuf);

impl Drop for Part {
    fn drop(&mut self) {
        if !self.0.as_os_str().is_empty() {
            let _ = fs::remove_file(&self.0); // the first error is the one to tell
        }
    }
}

impl Part {
    /// Gives the finished file its name, unless another file has it.
    fn settle(&mut self, to: &Path, sealed: Sealed) -> Result<Sealed, PacketError> {
        if to.exists() {
            let mut there = File::open(to).map_err(PacketError::io("reading", to))?;
            let same = copy(&mut there, &mut io::sink(), u64::MAX).map_err(PacketError::io("reading", to))?;
            if same.digest != sealed.digest {
                return Err(PacketError::Exists { path: to.display().to_string() });
            }
            return Ok(sealed);
        }
        fs::rename(&self.0, to).map_err(PacketError::io("renaming to", to))?;
        self.0.as_mut_os_string().clear();
        sync_folder(to).map_err(PacketError::io("writing", to))?;
        Ok(sealed)
    }
}

fn photo_error(digest: &Digest, reason: String) -> PacketError {
    PacketError::Photo { digest: *digest, name: names::photo(digest), reason }
}

/// A name of our own in the same folder, so that renaming stays within one file system.
fn part_beside(to: &Path) -> Result<PathBuf, PacketError> {
    static COUNT: AtomicU64 = AtomicU64::new(0);
    let name = to.file_name().ok_or_else(|| PacketError::Contents {
        reason: format!("{} is not the path of a file", to.display()),
    })?;
    let mut part = std::ffi::OsString::from(".");
    part.push(name);
    part.push(format!(".{}-{}.part", std::process::id(), COUNT.fetch_add(1, Ordering::Relaxed)));
    Ok(to.with_file_name(part))
}

/// Makes the new name itself survive a power cut, where the system allows a folder to be flushed.
fn sync_folder(of: &Path) -> io::Result<()> {
    if cfg!(unix) {
        let folder = of.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
        File::open(folder)?.sync_all()?;
    }
    Ok(())
}
