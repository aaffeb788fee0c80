//! What a container holds besides its pixels.

use crate::complaint::Complaint;

/// One header, and the blocks of facts beside it.
pub(crate) struct Found<Header> {
    pub(crate) header: Header,
    pub(crate) exif: Vec<Vec<u8>>,
    pub(crate) xmp: Vec<Vec<u8>>,
    pub(crate) complaints: Vec<Complaint>,
}

impl<Header> Found<Header> {
    /// With nothing found yet.
    pub(crate) fn new(header: Header) -> Self {
        Self { header, exif: Vec::new(), xmp: Vec::new(), complaints: Vec::new() }
    }
}
