//! What holds for any bytes at all, for the tests here and for the fuzz targets in `fuzz/`.

use photo::{intake, intake_and_place, previews, without_location};

/// Larger pictures are not decoded, to keep each try quick.
const LARGE: u64 = 1_000_000;

/// All that is done with a photograph that is taken in.
pub(crate) fn taken_in(bytes: &[u8]) {
    let Ok((kept, place)) = intake_and_place(bytes, "arbitrary") else { return };
    assert!(kept.width > 0 && kept.height > 0 && (1..=8).contains(&kept.orientation));
    assert!(place.is_none_or(|place| place.latitude.abs() <= 90.0 && place.longitude.abs() <= 180.0));
    if u64::from(kept.stored_width) * u64::from(kept.stored_height) < LARGE {
        let made = previews(bytes, kept.orientation);
        assert!(made.is_err() || kept.no_preview.is_none());
        if let Ok(made) = made {
            let long = kept.width.max(kept.height);
            assert_eq!(made.screen.width.max(made.screen.height), long.min(photo::SCREEN));
            assert_eq!(made.list.width.max(made.list.height), long.min(photo::LIST));
        }
    }
    if let Ok(copy) = without_location(bytes) {
        let Ok(again) = intake(&copy, "copy") else { panic!("the copy is refused") };
        assert!(!again.gps_present);
        assert_eq!(
            (again.width, again.height, again.orientation),
            (kept.width, kept.height, kept.orientation)
        );
        assert_eq!((again.taken, again.taken_local), (kept.taken, kept.taken_local));
    }
}

/// A grey JPEG of 48 × 32 pixels without EXIF.
const PLAIN: &[u8] = include_bytes!("vectors/grey.jpg");

/// Any bytes as the EXIF block of a good picture, which is taken in whatever they are.
pub(crate) fn any_exif(tiff: &[u8]) {
    let tiff = tiff.get(..65_000).unwrap_or(tiff);
    let length = (tiff.len() + 8) as u16; // at most 65,008
    let [high, low] = length.to_be_bytes();
    let block = [&[0xff, 0xe1, high, low], b"Exif\0\0".as_slice(), tiff].concat();
    let file = [&PLAIN[..2], &block, &PLAIN[2..]].concat();
    let Ok(kept) = intake(&file, "exif") else { panic!("refused for its EXIF") };
    assert_eq!((kept.stored_width, kept.stored_height), (48, 32));
    taken_in(&file);
}
