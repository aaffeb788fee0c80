//! Small pictures of photographs: made when one is taken in, made anew when they are missing.

use photo::{Look, Previews};
use serde_json::{from_str, to_string};
use survey::Digest;

use crate::{Desk, Error};

/// What mending found to do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Mended {
    /// Photographs whose small pictures were made anew.
    pub made: u64,
    /// Files taken away that no photograph has.
    pub swept: u64,
}

/// Hands what was made of a photograph to `work` in the form the store keeps.
pub(crate) fn handed<T>(
    original: Digest,
    previews: &Previews,
    work: impl FnOnce(&store::Made<'_>) -> Result<T, Error>,
) -> Result<T, Error> {
    let small = |longest, preview: &photo::Preview| (longest, preview.width, preview.height);
    let pictures = [
        (small(photo::SCREEN, &previews.screen), &previews.screen.jpeg),
        (small(photo::LIST, &previews.list), &previews.list.jpeg),
    ];
    let pictures =
        pictures.map(|((longest, width, height), bytes)| store::Preview { longest, width, height, bytes });
    let seen = to_string(&previews.look).unwrap_or_default(); // numbers only, so it can be written
    work(&store::Made { original, previews: &pictures, seen: &seen })
}

/// What was seen of a photograph when its small pictures were made, if they were.
pub(crate) fn look(desk: &Desk, original: Digest) -> Result<Option<Look>, Error> {
    // Written by another version of the program: as if it had not been looked at.
    Ok(desk.store.seen(original)?.and_then(|seen| from_str(&seen).ok()))
}

/// Makes small pictures anew where one is missing or damaged, and for photographs that came from elsewhere.
pub(crate) fn mend(desk: &mut Desk) -> Result<Mended, Error> {
    let mut wanting = desk.store.without_previews()?;
    let (kept, _) = desk.store.blobs().list()?;
    for digest in kept {
        if look(desk, digest)?.is_none() {
            wanting.push(digest);
        }
    }
    wanting.sort_unstable();
    wanting.dedup();
    let mut mended = Mended::default();
    for original in wanting {
        // An original that cannot be read or decoded is for the check to name, not for mending.
        let Ok(bytes) = std::fs::read(desk.store.blobs().path(original)) else { continue };
        let Ok(intake) = photo::intake(&bytes, "") else { continue };
        let Ok(previews) = photo::previews(&bytes, intake.orientation) else { continue };
        handed(original, &previews, |made| Ok(desk.store.keep_previews(made)?))?;
        mended.made += 1;
    }
    mended.swept = desk.store.sweep_previews()?;
    Ok(mended)
}
