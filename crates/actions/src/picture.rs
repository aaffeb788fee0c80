//! A photograph as a screen shows it: upright and small, carrying nothing of the original but its looks.

use std::io::Read as _;

use survey::Digest;
use words::msg;

use crate::{Desk, Error, Kind, file_trouble};

/// How large a photograph is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shown {
    /// Alone on a screen: its longer side has 1600 pixels at most ([`photo::SCREEN`]).
    Screen,
    /// Among others: 320 pixels at most ([`photo::LIST`]).
    List,
}

/// A JPEG of a photograph of this device, by the digest it is filed under: the small picture made when it was taken in,
/// or one made now.
///
/// # Errors
/// A digest that is none, a photograph that is not here, or one that cannot be shown.
pub fn picture(desk: &Desk, digest: &str, shown: Shown) -> Result<Vec<u8>, Error> {
    let missing = || Error::new(Kind::Missing, msg!("error-no-photo", photo = short(digest)));
    let digest: Digest = digest.parse().map_err(|_| missing())?;
    if !desk.store.blobs().has(digest) {
        return Err(missing());
    }
    small(desk, digest, shown)
}

/// The same by the digest of a photograph that is here.
pub(crate) fn small(desk: &Desk, digest: Digest, shown: Shown) -> Result<Vec<u8>, Error> {
    let longest = match shown {
        Shown::Screen => photo::SCREEN,
        Shown::List => photo::LIST,
    };
    if let Some(mut kept) = desk.store.preview(digest, longest)? {
        let mut bytes = Vec::new();
        let path = desk.store.blobs().path(digest);
        kept.read_to_end(&mut bytes).map_err(|e| file_trouble(&path, &e))?;
        return Ok(bytes);
    }
    let bytes = original(desk, digest)?;
    let facts = photo::intake(&bytes, &digest.short())?;
    let made = photo::previews(&bytes, facts.orientation).map_err(|e| e.named(&digest.short()))?;
    Ok(match shown {
        Shown::Screen => made.screen.jpeg,
        Shown::List => made.list.jpeg,
    })
}

/// The original bytes of a photograph.
pub(crate) fn original(desk: &Desk, digest: Digest) -> Result<Vec<u8>, Error> {
    let mut bytes = Vec::new();
    let path = desk.store.blobs().path(digest);
    desk.store.blobs().open(digest)?.read_to_end(&mut bytes).map_err(|e| file_trouble(&path, &e))?;
    Ok(bytes)
}

/// What came from outside, short enough to be said.
fn short(text: &str) -> String {
    text.chars().take(80).collect()
}
