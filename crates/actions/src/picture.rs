//! A photograph as a screen shows it: upright and small, carrying nothing of the original but its looks.

use std::io::Read as _;

use survey::Digest;
use words::msg;

use crate::{Desk, Error, Kind, file_trouble};

/// Longer side of a picture on a screen, in pixels (judgment: a tablet's width).
const LONGEST: u32 = 1280;

/// A JPEG of a photograph of this device, by the digest it is filed under.
///
/// # Errors
/// A digest that is none, a photograph that is not here, or one that cannot be shown.
pub fn picture(desk: &Desk, digest: &str) -> Result<Vec<u8>, Error> {
    let missing = || Error::new(Kind::Missing, msg!("error-no-photo", photo = short(digest)));
    let digest: Digest = digest.parse().map_err(|_| missing())?;
    if !desk.store.blobs().has(digest) {
        return Err(missing());
    }
    let (mut file, path) = (desk.store.blobs().open(digest)?, desk.store.blobs().path(digest));
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes).map_err(|e| file_trouble(&path, &e))?;
    let facts = photo::intake(&bytes, &digest.short())?;
    Ok(photo::thumbnail(&bytes, facts.orientation, LONGEST).map_err(|e| e.named(&digest.short()))?)
}

/// What came from outside, short enough to be said.
fn short(text: &str) -> String {
    text.chars().take(80).collect()
}
