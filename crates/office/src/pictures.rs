//! Pictures as the office shows them: upright, small, our own, never the bytes of a packet.
//!
//! They are made once and kept in the folder of derived things. Whoever makes them is handed in ([`MakesPictures`]), so
//! that a door can have it done where a hostile photograph can do least.

use std::fs;
use std::io::Read as _;

use apart::{Apart, ApartError, Made};
use survey::Digest;

use crate::desk::file_error;
use crate::{Desk, OfficeError};

/// How large a picture is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureSize {
    /// Alone: 1600 pixels at most.
    Screen,
    /// Among others: 320 pixels at most.
    List,
}

/// Makes pictures of a photograph.
pub trait MakesPictures {
    /// Both sizes of the photograph in these bytes, which are of nobody knows whom.
    ///
    /// # Errors
    /// What is no photograph, or one that cannot be shown.
    fn make(&self, original: Vec<u8>) -> Result<Made, ApartError>;
}

/// In a process of its own.
impl MakesPictures for Apart {
    fn make(&self, original: Vec<u8>) -> Result<Made, ApartError> {
        self.pictures(original)
    }
}

impl Desk {
    /// A picture of a photograph in a packet.
    ///
    /// # Errors
    /// A packet that is not here, one that has no such photograph, a photograph that cannot be shown.
    pub fn picture(
        &self,
        packet: Digest,
        photo: Digest,
        size: PictureSize,
        maker: &dyn MakesPictures,
    ) -> Result<Vec<u8>, OfficeError> {
        let about = self.about(packet)?;
        let missing = || OfficeError::NoPhoto { photo: photo.to_string() };
        if !about.photos.contains(&photo) {
            return Err(missing());
        }
        self.small(packet, photo, size, maker, || {
            let mut open = self.open_packet(packet)?;
            let mut bytes = Vec::new();
            open.photo(&photo)?
                .read_to_end(&mut bytes)
                .map_err(|e| file_error(&self.packet_path(packet), &e))?;
            Ok(bytes)
        })
    }

    /// A picture of the photograph of a finding.
    ///
    /// # Errors
    /// A photograph that is not here or cannot be shown.
    pub fn finding_picture(
        &self,
        photo: Digest,
        size: PictureSize,
        maker: &dyn MakesPictures,
    ) -> Result<Vec<u8>, OfficeError> {
        let path = self.finding_photo_path(photo);
        if !path.is_file() {
            return Err(OfficeError::NoPhoto { photo: photo.to_string() });
        }
        self.small(photo, photo, size, maker, || fs::read(&path).map_err(|e| file_error(&path, &e)))
    }

    /// Files the photograph of a finding, once pictures could be made of it: what nobody could ever look at is refused
    /// while whoever took it can still take another.
    ///
    /// # Errors
    /// What is no photograph, or one that cannot be shown.
    pub fn take_finding_photo(&self, bytes: &[u8], maker: &dyn MakesPictures) -> Result<Digest, OfficeError> {
        let made = maker.make(bytes.to_vec())?;
        let digest = self.keep_photo(bytes)?;
        self.keep_pictures(digest, digest, &made);
        Ok(digest)
    }

    /// A page of a packet by its name in it.
    ///
    /// # Errors
    /// A packet that is not here, a page it does not hold.
    pub fn page(&self, packet: Digest, name: &str) -> Result<Vec<u8>, OfficeError> {
        let mut open = self.open_packet(packet)?;
        let mut bytes = Vec::new();
        open.page(name)?.read_to_end(&mut bytes).map_err(|e| file_error(&self.packet_path(packet), &e))?;
        Ok(bytes)
    }

    fn small(
        &self,
        of: Digest,
        photo: Digest,
        size: PictureSize,
        maker: &dyn MakesPictures,
        original: impl FnOnce() -> Result<Vec<u8>, OfficeError>,
    ) -> Result<Vec<u8>, OfficeError> {
        if let Ok(kept) = fs::read(self.small_path(of, photo, size)) {
            return Ok(kept);
        }
        let made = maker.make(original()?)?;
        self.keep_pictures(of, photo, &made);
        Ok(match size {
            PictureSize::Screen => made.screen,
            PictureSize::List => made.list,
        })
    }

    /// Where nothing can be kept, they are made again next time.
    fn keep_pictures(&self, of: Digest, photo: Digest, made: &Made) {
        for (size, jpeg) in [(PictureSize::Screen, &made.screen), (PictureSize::List, &made.list)] {
            let _ = keys::write_whole(&self.small_path(of, photo, size), jpeg);
        }
    }

    fn small_path(&self, of: Digest, photo: Digest, size: PictureSize) -> std::path::PathBuf {
        let size = match size {
            PictureSize::Screen => "screen",
            PictureSize::List => "list",
        };
        self.derived(of).join(format!("{photo}-{size}.jpg"))
    }
}
