//! QR codes in a photograph (ISO/IEC 18004), such as an office shows to be paired by.

use rqrr::PreparedImage;

use crate::PhotoError;
use crate::pixels::{Pixels, small};
use crate::preview::SCREEN;

/// Most codes that are read in one picture.
const MOST: usize = 16;
/// A code that fills the picture is read small, one far away only large.
const LONGEST: [u32; 2] = [SCREEN / 2, SCREEN * 2];

/// The texts of the codes in a picture, whichever way it is turned. A code that cannot be read is left out.
///
/// # Errors
/// As [`crate::intake()`], and when the picture itself cannot be decoded.
pub fn codes(bytes: &[u8]) -> Result<Vec<String>, PhotoError> {
    for longest in LONGEST {
        let picture = small(bytes, 1, longest).map_err(PhotoError::unnamed)?;
        let found = read(&picture);
        if !found.is_empty() {
            return Ok(found);
        }
    }
    Ok(Vec::new())
}

fn read(picture: &Pixels) -> Vec<String> {
    let (width, height) = (picture.width as usize, picture.height as usize);
    let gray = |x: usize, y: usize| {
        let at = 3 * (y * width + x);
        let rgb = picture.rgb.get(at..at + 3).unwrap_or(&[0; 3]);
        // Rec. 709 in 256ths: 54 + 183 + 19.
        let [r, g, b] = [rgb[0], rgb[1], rgb[2]].map(u32::from);
        u8::try_from((54 * r + 183 * g + 19 * b) >> 8).unwrap_or(u8::MAX)
    };
    let mut prepared = PreparedImage::prepare_from_greyscale(width, height, gray);
    let grids = prepared.detect_grids();
    grids.iter().take(MOST).filter_map(|grid| grid.decode().ok()).map(|(_, text)| text).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::preview::encoded;
    use qrcodegen::{QrCode, QrCodeEcc};

    /// A code drawn at so many pixels a module, somewhere in a grayish picture.
    fn drawn(text: &str, module: u32, side: u32) -> Vec<u8> {
        let code = QrCode::encode_text(text, QrCodeEcc::Medium).unwrap();
        let (modules, at) = (code.size().unsigned_abs(), 4 * module);
        let dark = |x: u32, y: u32| {
            let (x, y) = (x.checked_sub(at), y.checked_sub(at));
            let (Some(x), Some(y)) = (x, y) else { return false };
            let (x, y) = (x / module, y / module);
            x < modules && y < modules && code.get_module(x as i32, y as i32)
        };
        let rgb =
            (0..side * side).flat_map(|n| [if dark(n % side, n / side) { 40 } else { 215 }; 3]).collect();
        encoded(&Pixels { width: side, height: side, rgb }).unwrap()
    }

    #[test]
    fn a_code_is_read_large_and_small() {
        let text = format!(
            "underlath-office:192.0.2.7:8443?sum={}&code={}&firm=Hale",
            "ab".repeat(32),
            "0".repeat(48)
        );
        for (module, side) in [(3, 400), (9, 900), (4, 2_000), (20, 1_600)] {
            assert_eq!(
                codes(&drawn(&text, module, side)).unwrap(),
                std::slice::from_ref(&text),
                "{module} in {side}"
            );
        }
    }

    #[test]
    fn a_picture_without_a_code_has_none_and_what_is_no_picture_is_refused() {
        let plain = Pixels { width: 300, height: 200, rgb: vec![128; 300 * 200 * 3] };
        assert_eq!(codes(&encoded(&plain).unwrap()).unwrap(), Vec::<String>::new());
        assert!(codes(b"no picture").is_err());
    }
}
