//! A copy of a photograph with its marks burnt in, for whoever gets a picture and no drawing beside it.

use survey::{Digest, SurveyId};

use crate::{Desk, Error, mark};

/// A copy that may leave the firm.
#[derive(Clone, Debug, PartialEq)]
pub struct MarkedCopy {
    /// The name of the original without its ending, and the start of its digest, as a file name.
    pub name: String,
    /// How many marks are drawn in it.
    pub marks: usize,
    /// The copy: upright, 1600 pixels at most, with the time taken and without location, serial numbers and all else.
    pub jpeg: Vec<u8>,
}

/// A copy of a photograph of the house with the marks that stand on it in its pixels. Nothing kept is changed.
///
/// # Errors
/// A photograph that is not there or cannot be shown.
pub fn marked_copy(desk: &Desk, survey: SurveyId, photo: Digest) -> Result<MarkedCopy, Error> {
    let picture = desk.picture(survey)?;
    let seen = mark::seen(&picture, photo)?;
    let bytes = crate::picture::original(desk, photo)?;
    let (width, height) = (seen.taken.width, seen.taken.height);
    let svg = views::marks::overlay(seen.marks.iter().map(|(_, _, mark)| mark), width, height);
    let drawing = photo::Drawing { svg: &svg, face: packet::LETTERING };
    let jpeg = photo::drawn_over(&bytes, seen.taken.orientation, photo::SCREEN, drawing)
        .map_err(|e| e.named(&seen.taken.name))?;
    Ok(MarkedCopy { name: file_name(&seen.taken.name, photo), marks: seen.marks.len(), jpeg })
}

/// The photographs of the house that bear marks, in the order of their digests.
///
/// # Errors
/// A house that cannot be read.
pub fn marked(desk: &Desk, survey: SurveyId) -> Result<Vec<Digest>, Error> {
    let picture = desk.picture(survey)?;
    Ok(picture.photos.iter().filter(|(_, seen)| !seen.marks.is_empty()).map(|(digest, _)| *digest).collect())
}

/// Letters, digits, hyphen and low line of a name somebody gave; two photographs of one name stay apart.
fn file_name(name: &str, photo: Digest) -> String {
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let plain: String =
        stem.chars().map(|c| if c.is_ascii_alphanumeric() || c == '_' { c } else { '-' }).take(60).collect();
    format!("{}-{}.jpg", plain.trim_matches('-'), photo.short()).trim_start_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_copy_bears_the_name_of_its_original_in_plain_letters() {
        let photo = Digest::of(b"x");
        for (given, stem) in [
            ("under-sink.jpg", "under-sink-"),
            ("IMG_0042.HEIC", "IMG_0042-"),
            ("../a b/\u{202e}é.png", "a-b-"),
            ("...", ""),
        ] {
            assert_eq!(file_name(given, photo), format!("{stem}{}.jpg", photo.short()), "{given:?}");
        }
    }
}
