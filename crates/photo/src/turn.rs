//! Turning a picture upright (CIPA DC-008-2019 4.6.4 A).

use crate::pixels::Pixels;

/// The picture as it is to be seen when it is stored under this EXIF orientation; anything but 2 to 8 stays.
pub(crate) fn upright(stored: Pixels, orientation: u8) -> Pixels {
    let (width, height) = (stored.width as usize, stored.height as usize);
    // Where the pixel of the stored row and column 0 goes, and one step along a stored row and column.
    let (w, h) = (width as isize, height as isize);
    let (start, along, down) = match orientation {
        2 => (w - 1, -1, w),
        3 => (w * h - 1, -1, -w),
        4 => (w * (h - 1), 1, -w),
        5 => (0, h, 1),
        6 => (h - 1, h, -1),
        7 => (w * h - 1, -h, -1),
        8 => (h * (w - 1), -h, 1),
        _ => return stored,
    };
    let mut rgb = vec![0; stored.rgb.len()];
    for (row, line) in stored.rgb.chunks_exact(width * 3).enumerate() {
        let mut to = start + down * row as isize;
        for pixel in line.chunks_exact(3) {
            let at = to as usize * 3;
            if let Some(place) = rgb.get_mut(at..at + 3) {
                place.copy_from_slice(pixel);
            }
            to += along;
        }
    }
    let (width, height) =
        if orientation >= 5 { (stored.height, stored.width) } else { (stored.width, stored.height) };
    Pixels { width, height, rgb }
}
