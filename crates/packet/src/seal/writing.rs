//! A packet on its way to the disk.

use std::fs::{self, File, OpenOptions};
use std::io::{self, BufWriter};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};

use survey::Digest;

use super::{Content, Contents, Files, Sealed, plan};
use crate::stream::{Sums, copy};
use crate::zip::ZipWriter;
use crate::{PacketError, PhotoSource, limits, names};

/// A packet being written one file at a time, so that somebody can watch and stop it. Dropped before it is finished it
/// leaves nothing on the disk.
pub struct Sealing {
    to: PathBuf,
    part: Part,
    folder: String,
    /// Still to be written, in order.
    files: Files,
    zip: ZipWriter<BufWriter<File>>,
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
        let (folder, files) = plan(contents, source)?;
        let path = part_beside(to)?;
        let file = OpenOptions::new()
            .write(true)
            .create_new(true)
            .open(&path)
            .map_err(PacketError::io("writing", &path))?;
        let photos = files.iter().filter(|(_, _, content)| matches!(content, Content::Photo(_))).count();
        Ok(Self {
            to: to.to_owned(),
            part: Part(path),
            folder,
            files,
            zip: ZipWriter::new(BufWriter::with_capacity(limits::CHUNK, file)),
            photos: u32::try_from(photos).unwrap_or(u32::MAX),
            photos_written: 0,
        })
    }

    /// Writes the next file; false once there is none.
    ///
    /// # Errors
    /// A photograph whose bytes are not those the log names, a disk that is full.
    pub fn step(&mut self, source: &mut dyn PhotoSource) -> Result<bool, PacketError> {
        let Some((name, sums, content)) = self.files.pop_front() else { return Ok(false) };
        let path = format!("{}/{name}", self.folder);
        let added = match (content, sums) {
            (Content::Bytes(bytes), Some(sums)) => self.zip.add(path, &sums, &mut bytes.as_slice()),
            (Content::Photo(digest), _) => {
                let sums = check_photo(&digest, source)?;
                let mut reader = source.open(&digest).map_err(|e| photo_error(&digest, e.to_string()))?;
                self.photos_written += 1;
                match self.zip.add(path, &sums, &mut reader) {
                    Err(e) if e.kind() == io::ErrorKind::InvalidData => {
                        return Err(photo_error(&digest, e.to_string()));
                    }
                    other => other,
                }
            }
            (Content::Bytes(_), None) => Ok(()), // every other content has its sums
        };
        added.map_err(PacketError::io("writing", &self.part.0))?;
        Ok(true)
    }

    /// Photographs written so far.
    pub fn photos_written(&self) -> u32 {
        self.photos_written
    }

    /// Photographs in all.
    pub fn photos(&self) -> u32 {
        self.photos
    }

    /// Flushes the packet to the disk and gives it its name. What [`Sealing::step`] has not written yet is written first.
    ///
    /// # Errors
    /// A disk that is full; another file at that path.
    pub fn finish(mut self, source: &mut dyn PhotoSource) -> Result<Sealed, PacketError> {
        while self.step(source)? {}
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

/// First reading: the sums, and whether the bytes are those the log names.
fn check_photo(digest: &Digest, source: &mut dyn PhotoSource) -> Result<Sums, PacketError> {
    let said = source.size(digest).map_err(|e| photo_error(digest, e.to_string()))?;
    let mut reader = source.open(digest).map_err(|e| photo_error(digest, e.to_string()))?;
    let sums = copy(&mut reader, &mut io::sink(), said).map_err(|e| photo_error(digest, e.to_string()))?;
    if sums.digest != *digest || sums.size != said {
        return Err(photo_error(digest, "its bytes are not those the log names; it was damaged".to_owned()));
    }
    Ok(sums)
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
