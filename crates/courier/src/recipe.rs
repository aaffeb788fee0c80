//! A file as an ordered list of segments, each named by its digest.

use std::io::{self, Read, Seek, SeekFrom};

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};
use survey::Digest;

/// Most bytes of a file (as the office's door takes at once; our own choice, no source).
pub const MOST_BYTES: u64 = 16 << 30;
/// Most bytes of one segment: a photograph is one, however large.
pub const MOST_SEGMENT: u64 = 1 << 30;
/// Most segments: a packet holds at most 100,000 files, and something lies between each two.
pub const MOST_SEGMENTS: usize = 200_100;
/// Most bytes of a recipe as JSON.
pub const MOST_JSON: usize = 24 << 20;
/// What lies between two places is cut to at most so much.
const CUT: u64 = 4 << 20;
/// Read at once.
const CHUNK: usize = 128 << 10;

/// One segment.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Segment {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// How many they are.
    pub bytes: u64,
}

/// A file as its segments.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Recipe {
    /// SHA-256 of the file.
    pub packet: Digest,
    /// Its length.
    pub bytes: u64,
    /// Its segments in their order.
    pub segments: Vec<Segment>,
}

/// Why a recipe is none.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RecipeError {
    /// Not as a recipe is written.
    #[error("the recipe cannot be read: {0}")]
    Unreadable(String),
    /// Too many segments, a segment or a file too long.
    #[error("the recipe is too large: {0}")]
    TooLarge(&'static str),
    /// A segment without bytes, or no segment.
    #[error("the recipe holds a segment without bytes, or none at all")]
    Empty,
    /// Lengths that do not add up.
    #[error("the segments of the recipe are {found} bytes together, and the file is said to be {said}")]
    Sum {
        /// What they are together.
        found: u64,
        /// What was said.
        said: u64,
    },
    /// One digest with two lengths.
    #[error("segment {0} stands in the recipe with two lengths")]
    TwoLengths(Digest),
}

impl Recipe {
    /// Reads a recipe and checks it.
    ///
    /// # Errors
    /// What is no recipe, or one that does not hold together.
    pub fn read(json: &[u8]) -> Result<Self, RecipeError> {
        if json.len() > MOST_JSON {
            return Err(RecipeError::TooLarge("its text"));
        }
        let read: Self = serde_json::from_slice(json).map_err(|e| RecipeError::Unreadable(e.to_string()))?;
        read.check()?;
        Ok(read)
    }

    /// The recipe as JSON.
    pub fn json(&self) -> Vec<u8> {
        // Digests and numbers: nothing in it can fail to be written.
        serde_json::to_vec(self).unwrap_or_default()
    }

    /// Where each segment begins in the file.
    pub fn offsets(&self) -> impl Iterator<Item = (u64, &Segment)> {
        self.segments.iter().scan(0u64, |at, segment| {
            let begins = *at;
            *at += segment.bytes; // no overflow: `check` held the sum
            Some((begins, segment))
        })
    }

    fn check(&self) -> Result<(), RecipeError> {
        if self.segments.len() > MOST_SEGMENTS {
            return Err(RecipeError::TooLarge("the number of its segments"));
        }
        if self.bytes > MOST_BYTES {
            return Err(RecipeError::TooLarge("the file"));
        }
        let mut found = 0u64;
        for segment in &self.segments {
            if segment.bytes > MOST_SEGMENT {
                return Err(RecipeError::TooLarge("a segment"));
            }
            if segment.bytes == 0 {
                return Err(RecipeError::Empty);
            }
            found += segment.bytes; // at most MOST_SEGMENTS × MOST_SEGMENT, far below 2⁶⁴
        }
        if found == 0 {
            return Err(RecipeError::Empty);
        }
        if found != self.bytes {
            return Err(RecipeError::Sum { found, said: self.bytes });
        }
        let mut all: Vec<&Segment> = self.segments.iter().collect();
        all.sort_unstable_by_key(|segment| (segment.sha256, segment.bytes));
        let two = all.windows(2).find(|two| two[0].sha256 == two[1].sha256 && two[0].bytes != two[1].bytes);
        two.map_or(Ok(()), |two| Err(RecipeError::TwoLengths(two[0].sha256)))
    }
}

/// A part of a file that is likely to come again in another: its digest is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Place {
    /// SHA-256 of its bytes.
    pub sha256: Digest,
    /// Where it begins.
    pub at: u64,
    /// How long it is.
    pub bytes: u64,
}

/// Makes the recipe of a file with this digest and length: each of the places is a segment, what lies between is cut to
/// pieces and summed. Places are in the order of the file and do not overlap.
///
/// # Errors
/// A file that cannot be read, that ends too early, or places that are not in it.
pub fn recipe<R: Read + Seek>(
    file: &mut R,
    packet: Digest,
    bytes: u64,
    places: impl IntoIterator<Item = Place>,
) -> io::Result<Recipe> {
    let mut segments = Vec::new();
    let mut at = 0;
    for place in places {
        if place.at < at || place.bytes == 0 || place.at + place.bytes > bytes {
            return Err(io::ErrorKind::InvalidInput.into());
        }
        between(file, at..place.at, &mut segments)?;
        segments.push(Segment { sha256: place.sha256, bytes: place.bytes });
        at = place.at + place.bytes;
    }
    between(file, at..bytes, &mut segments)?;
    let made = Recipe { packet, bytes, segments };
    made.check().map_err(|e| io::Error::new(io::ErrorKind::InvalidInput, e.to_string()))?;
    Ok(made)
}

fn between<R: Read + Seek>(
    file: &mut R,
    range: std::ops::Range<u64>,
    into: &mut Vec<Segment>,
) -> io::Result<()> {
    if range.is_empty() {
        return Ok(());
    }
    file.seek(SeekFrom::Start(range.start))?;
    let mut at = range.start;
    let mut chunk = vec![0; CHUNK];
    while at < range.end {
        let bytes = CUT.min(range.end - at);
        let (mut sha, mut left) = (Sha256::new(), bytes);
        while left > 0 {
            let most = usize::try_from(left).map_or(CHUNK, |left| left.min(CHUNK));
            file.read_exact(&mut chunk[..most])?;
            sha.update(&chunk[..most]);
            left -= most as u64;
        }
        into.push(Segment { sha256: Digest::from_bytes(sha.finalize().into()), bytes });
        at += bytes;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use std::io::Cursor;

    use super::*;

    fn part(text: &[u8], at: u64, bytes: u64) -> Place {
        let part = &text[at as usize..(at + bytes) as usize];
        Place { sha256: Digest::of(part), at, bytes }
    }

    #[test]
    fn the_segments_of_a_file_are_the_file() {
        let text: Vec<u8> = (0..9_000_000u32).map(|n| (n % 251) as u8).collect();
        let digest = Digest::of(&text);
        let length = text.len() as u64;
        for places in [
            vec![],
            vec![part(&text, 0, 10)],
            vec![part(&text, 10, 20), part(&text, 30, 5)],
            vec![part(&text, 5_000_000, 1_000_000), part(&text, length - 1, 1)],
            vec![part(&text, 0, length)],
        ] {
            let named = places.len();
            let made = recipe(&mut Cursor::new(&text), digest, length, places).unwrap();
            for (at, segment) in made.offsets() {
                let bytes = &text[at as usize..(at + segment.bytes) as usize];
                assert_eq!(Digest::of(bytes), segment.sha256);
                assert!(segment.bytes <= CUT || named == 1);
            }
            assert_eq!(made.segments.iter().map(|s| s.bytes).sum::<u64>(), length);
            assert_eq!(Recipe::read(&made.json()).unwrap(), made);
        }
    }

    #[test]
    fn places_that_are_not_in_the_file_and_a_file_that_ends_early_are_refused() {
        let text = [7u8; 100];
        let digest = Digest::of(&text);
        let place = |at, bytes| Place { sha256: digest, at, bytes };
        for places in [
            vec![place(90, 11)],
            vec![place(10, 5), place(14, 5)],
            vec![place(10, 0)],
            vec![place(50, 5), place(0, 5)],
        ] {
            assert!(recipe(&mut Cursor::new(&text), digest, 100, places).is_err());
        }
        assert!(recipe(&mut Cursor::new(&text), digest, 101, []).is_err());
    }

    #[test]
    fn a_recipe_that_does_not_hold_together_is_refused_by_its_fault() {
        let (a, b) = (Digest::of(b"a"), Digest::of(b"b"));
        let of = |bytes, segments: &[(Digest, u64)]| Recipe {
            packet: a,
            bytes,
            segments: segments
                .iter()
                .map(|(sha256, bytes)| Segment { sha256: *sha256, bytes: *bytes })
                .collect(),
        };
        let told = |recipe: &Recipe| Recipe::read(&recipe.json()).unwrap_err();
        assert_eq!(told(&of(0, &[])), RecipeError::Empty);
        assert_eq!(told(&of(3, &[(a, 3), (b, 0)])), RecipeError::Empty);
        assert_eq!(told(&of(4, &[(a, 3)])), RecipeError::Sum { found: 3, said: 4 });
        assert_eq!(told(&of(7, &[(a, 3), (a, 4)])), RecipeError::TwoLengths(a));
        let large = MOST_SEGMENT + 1;
        assert_eq!(told(&of(large, &[(a, large)])), RecipeError::TooLarge("a segment"));
        let most = of(MOST_BYTES + 1, &[(a, 3)]);
        assert_eq!(told(&most), RecipeError::TooLarge("the file"));
        let many = of(200_101, &vec![(a, 1); MOST_SEGMENTS + 1]);
        assert_eq!(told(&many), RecipeError::TooLarge("the number of its segments"));
        for text in ["", "{}", "[]", "{\"packet\":1}", "null"] {
            assert!(matches!(Recipe::read(text.as_bytes()), Err(RecipeError::Unreadable(_))), "{text}");
        }
        let whole = of(7, &[(a, 3), (b, 4)]);
        assert_eq!(Recipe::read(&whole.json()).unwrap(), whole);
        let longer = [whole.json().as_slice(), b" x"].concat();
        assert!(Recipe::read(&longer).is_err());
    }
}
