//! A link as a picture.

use qrcodegen::{QrCode as Code, QrCodeEcc};

use crate::link_shape::QrCode;

/// White modules around the code, as ISO/IEC 18004 asks for.
const QUIET: i32 = 4;

/// A text as a QR code; none where it is longer than one can hold.
pub fn qr(text: &str) -> Option<QrCode> {
    // Medium: a screen is not torn, but it shines.
    let code = Code::encode_text(text, QrCodeEcc::Medium).ok()?;
    let size = code.size();
    let mut path = String::new();
    for y in 0..size {
        let mut x = 0;
        while x < size {
            let wide = (x..size).take_while(|x| code.get_module(*x, y)).count() as i32;
            if wide > 0 {
                path.push_str(&format!("M{} {}h{wide}v1h-{wide}z", x + QUIET, y + QUIET));
            }
            x += wide.max(1);
        }
    }
    Some(QrCode { size: (size + 2 * QUIET).unsigned_abs(), path })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_has_its_three_corners_and_a_quiet_zone() {
        let code = qr("underlath-office:192.0.2.7:8443").unwrap();
        let size = code.size as i32;
        // The upper edge of each finder pattern: seven modules in a row.
        for corner in [(4, 4), (size - 11, 4), (4, size - 11)] {
            assert!(code.path.contains(&format!("M{} {}h7v1h-7z", corner.0, corner.1)), "{corner:?}");
        }
        assert!(!code.path.contains("M3 ") && !code.path.contains("M0 "));
        assert_eq!(qr(&"x".repeat(3_000)), None);
    }
}
