//! What is wrong with a photograph, in messages a person reads. What a decoder says stays in its own words inside.

use photo::{Looks, PhotoError, Problem};
use words::{Message, msg};

use crate::{Error, Kind};

impl From<PhotoError> for Error {
    fn from(e: PhotoError) -> Self {
        Self::new(Kind::Input, photograph(&e))
    }
}

/// What is wrong, where, and how to mend it.
pub(crate) fn photograph(e: &PhotoError) -> Message {
    let problem = problem(&e.problem);
    match e.photo.as_str() {
        "" => msg!("photo-error", problem = problem),
        name => msg!("photo-error-named", name = name, problem = problem),
    }
}

fn problem(problem: &Problem) -> Message {
    let text = |n: &u64| n.to_string();
    let side = |n: &u32| n.to_string();
    match problem {
        Problem::Empty => msg!("photo-empty"),
        Problem::NotAPhotograph(looks) => msg!("photo-other-kind", looks = kind(looks), hint = hint(looks)),
        Problem::NoCopy(looks) => msg!("photo-no-copy", looks = kind(looks)),
        Problem::CutOff { at, bytes } => msg!("photo-cut-off", bytes = text(bytes), at = text(at)),
        Problem::Damaged { at, what } => msg!("photo-damaged", at = text(at), said = *what),
        Problem::NoSize { at, width, height } => {
            msg!("photo-no-size", at = text(at), width = side(width), height = side(height))
        }
        Problem::TooManyPixels { at, width, height, pixels, limit } => msg!(
            "photo-too-many-pixels",
            at = text(at),
            width = side(width),
            height = side(height),
            pixels = text(pixels),
            limit = text(limit)
        ),
        Problem::TooNarrow { at, width, height, limit } => msg!(
            "photo-too-narrow",
            at = text(at),
            width = side(width),
            height = side(height),
            limit = side(limit)
        ),
        Problem::Undecodable { reason } => msg!("photo-undecodable", said = reason),
        Problem::Unencodable { reason } => msg!("photo-unencodable", said = reason),
    }
}

/// What the file looks like.
fn kind(looks: &Looks) -> Message {
    match looks {
        Looks::Jpeg => msg!("photo-picture", format = "JPEG"),
        Looks::Png => msg!("photo-picture", format = "PNG"),
        Looks::WebP => msg!("photo-picture", format = "WebP"),
        Looks::Heic => msg!("photo-picture", format = "HEIC"),
        Looks::Avif => msg!("photo-picture-avif"),
        Looks::Gif => msg!("photo-picture", format = "GIF"),
        Looks::Tiff => msg!("photo-picture-tiff"),
        Looks::Bmp => msg!("photo-picture", format = "BMP"),
        Looks::Jpeg2000 => msg!("photo-picture", format = "JPEG 2000"),
        Looks::JpegXl => msg!("photo-picture", format = "JPEG XL"),
        Looks::Film => msg!("photo-film"),
        Looks::Pdf => msg!("photo-pdf"),
        Looks::Zip => msg!("photo-zip"),
        Looks::Markup => msg!("photo-markup"),
        Looks::Text => msg!("photo-text"),
        Looks::Zeros => msg!("photo-zeros"),
        Looks::Unknown([a, b, c, d]) => {
            msg!("photo-unknown", bytes = format!("{a:02x} {b:02x} {c:02x} {d:02x}"))
        }
        _ => msg!("photo-other-file"),
    }
}

/// How to get from that kind of file to a photograph.
fn hint(looks: &Looks) -> Message {
    match looks {
        Looks::Film => msg!("photo-film-hint"),
        Looks::Pdf | Looks::Zip | Looks::Markup | Looks::Text => msg!("photo-document-hint"),
        Looks::Zeros => msg!("photo-zeros-hint"),
        Looks::Tiff => msg!("photo-tiff-hint"),
        _ => msg!("photo-export-hint"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use words::{Language, Words};

    #[test]
    fn the_english_is_that_of_the_room_and_the_spanish_is_another() {
        let looks = [
            Looks::Jpeg,
            Looks::Png,
            Looks::WebP,
            Looks::Heic,
            Looks::Avif,
            Looks::Gif,
            Looks::Tiff,
            Looks::Bmp,
            Looks::Jpeg2000,
            Looks::JpegXl,
            Looks::Film,
            Looks::Pdf,
            Looks::Zip,
            Looks::Markup,
            Looks::Text,
            Looks::Zeros,
            Looks::Unknown(*b"\x7fELF"),
        ];
        let (at, width, height) = (12, 40_000, 30_000);
        let mut all = vec![
            Problem::Empty,
            Problem::NoCopy(Looks::Heic),
            Problem::CutOff { at, bytes: 4_096 },
            Problem::Damaged { at, what: "the first chunk is no header" },
            Problem::NoSize { at, width: 0, height },
            Problem::TooManyPixels { at, width, height, pixels: 1_200_000_000, limit: 100_000_000 },
            Problem::TooNarrow { at, width, height: 10, limit: 50 },
            Problem::Undecodable { reason: "no end".into() },
            Problem::Unencodable { reason: "no room".into() },
        ];
        all.extend(looks.map(Problem::NotAPhotograph));
        for problem in all {
            for name in ["", "IMG_0001.JPG"] {
                let error = PhotoError { photo: name.into(), problem: problem.clone() };
                let said = |language| Words::of(language).say(&photograph(&error));
                assert_eq!(said(Language::En), error.to_string());
                assert_ne!(said(Language::Es), error.to_string());
            }
        }
    }
}
