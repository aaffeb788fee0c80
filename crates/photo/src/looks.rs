//! What kind of file this is, told from its first bytes: the pictures taken in here, and what to say of the others.
//!
//! Signatures: the format's own specification (PNG: W3C PNG 3rd ed. 5.2; WebP and RIFF; ISO/IEC 14496-12 `ftyp`
//! brands for HEIC, AVIF and films; ISO 32000 for PDF; TIFF 6.0; GIF89a; ISO/IEC 15444-1; ISO/IEC 18181-2).

use core::fmt;

use survey::msg;
use survey::said::Message;

/// The kind of file the first bytes speak for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[non_exhaustive]
pub enum Looks {
    /// JPEG picture.
    Jpeg,
    /// PNG picture.
    Png,
    /// WebP picture.
    WebP,
    /// HEIC or HEIF picture, the space-saving format of many phones.
    Heic,
    /// AVIF picture.
    Avif,
    /// GIF picture.
    Gif,
    /// TIFF picture or a camera's raw file built on it.
    Tiff,
    /// Windows bitmap.
    Bmp,
    /// JPEG 2000 picture.
    Jpeg2000,
    /// JPEG XL picture.
    JpegXl,
    /// A film (MP4, QuickTime and kin).
    Film,
    /// PDF document.
    Pdf,
    /// ZIP archive, or an office document inside one.
    Zip,
    /// SVG or other XML or HTML text.
    Markup,
    /// Plain text.
    Text,
    /// Nothing but zero bytes: a copy that reserved its place and never arrived.
    Zeros,
    /// Nothing known, with the first four bytes.
    Unknown([u8; 4]),
}

/// What the bytes look like. The caller has ruled out an empty file.
pub(crate) fn looks(bytes: &[u8]) -> Looks {
    let starts = |signature: &[u8]| bytes.starts_with(signature);
    let at =
        |from: usize, signature: &[u8]| bytes.get(from..).is_some_and(|rest| rest.starts_with(signature));
    if starts(b"\xff\xd8\xff") {
        Looks::Jpeg
    } else if starts(b"\x89PNG\r\n\x1a\n") {
        Looks::Png
    } else if starts(b"RIFF") && at(8, b"WEBP") {
        Looks::WebP
    } else if at(4, b"ftyp") {
        brand(bytes)
    } else if starts(b"GIF8") {
        Looks::Gif
    } else if starts(b"II*\0") || starts(b"MM\0*") || starts(b"II+\0") || starts(b"MM\0+") {
        Looks::Tiff
    } else if starts(b"\0\0\0\x0cjP  \r\n\x87\n") || starts(b"\xff\x4f\xff\x51") {
        Looks::Jpeg2000
    } else if starts(b"\0\0\0\x0cJXL \r\n\x87\n") || starts(b"\xff\x0a") {
        Looks::JpegXl
    } else if starts(b"%PDF-") {
        Looks::Pdf
    } else if starts(b"PK\x03\x04") || starts(b"PK\x05\x06") {
        Looks::Zip
    } else if starts(b"BM") && at(6, &[0; 4]) {
        Looks::Bmp
    } else if bytes.iter().all(|&byte| byte == 0) {
        Looks::Zeros
    } else {
        writing(bytes)
    }
}

/// Which picture or film an ISO base media file is, by its major brand and then its compatible brands.
fn brand(bytes: &[u8]) -> Looks {
    let brands = bytes.get(8..bytes.len().min(64)).unwrap_or_default().chunks_exact(4);
    for brand in brands {
        match brand {
            b"heic" | b"heix" | b"hevc" | b"hevx" | b"heim" | b"heis" | b"mif1" | b"msf1" => {
                return Looks::Heic;
            }
            b"avif" | b"avis" => return Looks::Avif,
            _ => {}
        }
    }
    Looks::Film
}

fn writing(bytes: &[u8]) -> Looks {
    let head = bytes.get(..bytes.len().min(512)).unwrap_or_default();
    let readable = match core::str::from_utf8(head) {
        Ok(text) => text,
        // A letter of several bytes may straddle the cut, so up to three bytes may be left over.
        Err(e) if e.error_len().is_none() => {
            core::str::from_utf8(&head[..e.valid_up_to()]).unwrap_or_default()
        }
        Err(_) => "",
    };
    let plain = |c: char| !c.is_control() || matches!(c, '\n' | '\r' | '\t');
    if readable.is_empty() || !readable.chars().all(plain) {
        let mut first = [0; 4];
        for (to, from) in first.iter_mut().zip(bytes) {
            *to = *from;
        }
        return Looks::Unknown(first);
    }
    let start = readable.trim_start_matches('\u{feff}').trim_start();
    if start.starts_with('<') { Looks::Markup } else { Looks::Text }
}

impl Looks {
    /// How to get from this kind of file to a photograph that can be taken in.
    pub(crate) fn hint(&self) -> &'static str {
        match self {
            Self::Film => "take a still photograph, or save one frame of the film as JPEG",
            Self::Pdf | Self::Zip | Self::Markup | Self::Text => "choose the photograph itself, a .jpg file",
            Self::Zeros => "the copy never arrived: copy it again from the camera",
            Self::Tiff => "set the camera to save JPEG beside its raw file, or export this one as JPEG",
            _ => "open it in a picture program, export it as JPEG and take that in",
        }
    }
}

impl Looks {
    /// What it is, as a message.
    pub fn said(&self) -> Message {
        match self {
            Self::Jpeg => msg!("photo-looks-jpeg"),
            Self::Png => msg!("photo-looks-png"),
            Self::WebP => msg!("photo-looks-webp"),
            Self::Heic => msg!("photo-looks-heic"),
            Self::Avif => msg!("photo-looks-avif"),
            Self::Gif => msg!("photo-looks-gif"),
            Self::Tiff => msg!("photo-looks-tiff"),
            Self::Bmp => msg!("photo-looks-bmp"),
            Self::Jpeg2000 => msg!("photo-looks-jpeg-2000"),
            Self::JpegXl => msg!("photo-looks-jpeg-xl"),
            Self::Film => msg!("photo-looks-film"),
            Self::Pdf => msg!("photo-looks-pdf"),
            Self::Zip => msg!("photo-looks-zip"),
            Self::Markup => msg!("photo-looks-markup"),
            Self::Text => msg!("photo-looks-text"),
            Self::Zeros => msg!("photo-looks-zeros"),
            Self::Unknown([a, b, c, d]) => {
                msg!("photo-looks-unknown", bytes = format!("{a:02x} {b:02x} {c:02x} {d:02x}"))
            }
        }
    }

    /// How to get to a photograph, as a message.
    pub(crate) fn hint_said(&self) -> Message {
        match self {
            Self::Film => msg!("photo-instead-film"),
            Self::Pdf | Self::Zip | Self::Markup | Self::Text => msg!("photo-instead-itself"),
            Self::Zeros => msg!("photo-instead-zeros"),
            Self::Tiff => msg!("photo-instead-raw"),
            _ => msg!("photo-instead-export"),
        }
    }
}

impl fmt::Display for Looks {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Jpeg => "a JPEG picture",
            Self::Png => "a PNG picture",
            Self::WebP => "a WebP picture",
            Self::Heic => "a HEIC picture",
            Self::Avif => "an AVIF picture",
            Self::Gif => "a GIF picture",
            Self::Tiff => "a TIFF or camera raw picture",
            Self::Bmp => "a BMP picture",
            Self::Jpeg2000 => "a JPEG 2000 picture",
            Self::JpegXl => "a JPEG XL picture",
            Self::Film => "a film (MP4 or QuickTime)",
            Self::Pdf => "a PDF document",
            Self::Zip => "a ZIP archive or office document",
            Self::Markup => "XML or HTML text",
            Self::Text => "plain text",
            Self::Zeros => "a file of zero bytes only",
            Self::Unknown(first) => {
                return write!(
                    f,
                    "an unknown kind of file (it begins with {:02x} {:02x} {:02x} {:02x})",
                    first[0], first[1], first[2], first[3]
                );
            }
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn common_files_are_told_apart_by_their_first_bytes() {
        let cases: [(&[u8], Looks); 19] = [
            (b"\xff\xd8\xff\xe1\0\x10Exif\0\0", Looks::Jpeg),
            (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", Looks::Png),
            (b"RIFF\x24\0\0\0WEBPVP8 ", Looks::WebP),
            (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic", Looks::Heic),
            (b"\0\0\0\x18ftypmif1\0\0\0\0mif1heic", Looks::Heic),
            (b"\0\0\0\x1cftypavif\0\0\0\0avifmif1", Looks::Avif),
            (b"\0\0\0\x14ftypqt  \0\0\0\0qt  ", Looks::Film),
            (b"GIF89a", Looks::Gif),
            (b"II*\0\x08\0\0\0", Looks::Tiff),
            (b"MM\0*\0\0\0\x08", Looks::Tiff),
            (b"\0\0\0\x0cjP  \r\n\x87\n", Looks::Jpeg2000),
            (b"\xff\x0a\xfa\x7f", Looks::JpegXl),
            (b"%PDF-1.7\n", Looks::Pdf),
            (b"PK\x03\x04\x14\0", Looks::Zip),
            (b"BM\x46\0\0\0\0\0\0\0\x36\0\0\0", Looks::Bmp),
            ("\u{feff}  <svg xmlns='…'>".as_bytes(), Looks::Markup),
            ("under the sink, left of the tailpiece – no photograph".as_bytes(), Looks::Text),
            (&[0; 40], Looks::Zeros),
            (b"\x7fELF\x02\x01", Looks::Unknown(*b"\x7fELF")),
        ];
        for (bytes, expected) in cases {
            assert_eq!(looks(bytes), expected);
        }
    }

    #[test]
    fn a_letter_cut_in_half_at_the_end_of_the_look_is_still_text() {
        let mut text = "a".repeat(511);
        text.push('é');
        assert_eq!(looks(text.as_bytes()), Looks::Text);
        assert_eq!(looks(b"\xc3"), Looks::Unknown([0xc3, 0, 0, 0]));
    }
}
