//! Previews stand upright, whatever way the camera was held.

use image::DynamicImage;

use crate::support::{DRAWN, Exif, dated, jpeg, pixels, scene, short, stored, talkative, with_exif};

/// Mean difference of the color values of two pictures, 0 to 255.
fn difference(a: &DynamicImage, b: &DynamicImage) -> f64 {
    let (a, b) = (a.to_rgb8(), b.to_rgb8());
    assert_eq!(a.dimensions(), b.dimensions());
    let total: u64 = a.as_raw().iter().zip(b.as_raw()).map(|(a, b)| u64::from(a.abs_diff(*b))).sum();
    total as f64 / a.as_raw().len() as f64
}

#[test]
fn all_eight_orientations_give_the_same_upright_preview() {
    let upright = scene(192, 128);
    // 1000: turned only; 96: shrunk by a whole number; 50: by a broken one.
    for (longest, size) in [(1000, (192, 128)), (96, (96, 64)), (50, (50, 33))] {
        let reference =
            image::imageops::resize(&upright, size.0, size.1, image::imageops::FilterType::Triangle);
        let reference = DynamicImage::ImageRgb8(reference);
        for orientation in 1..=8_u8 {
            let file = with_exif(&jpeg(&stored(&upright, orientation)), &dated(orientation.into()).tiff());
            let intake = photo::intake(&file, "drawn").unwrap();
            assert_eq!(intake.orientation, orientation);
            assert_eq!((intake.width, intake.height), (192, 128), "orientation {orientation}");
            let lying = if orientation >= 5 { (128, 192) } else { (192, 128) };
            assert_eq!((intake.stored_width, intake.stored_height), lying);
            let preview = pixels(&photo::thumbnail(&file, intake.orientation, longest).unwrap());
            assert_eq!((preview.width(), preview.height()), size, "orientation {orientation}");
            let off = difference(&preview, &reference);
            // Color has half the resolution, which shows at sharp edges of a picture this small.
            assert!(off < 5.0, "orientation {orientation}, longest {longest}: {off}");
        }
    }
}

#[test]
fn the_drawing_tells_the_eight_orientations_apart() {
    // Without this the test above could pass by symmetry.
    let square = scene(96, 96);
    let turned: Vec<_> = (1..=8).map(|o| DynamicImage::ImageRgb8(stored(&square, o))).collect();
    for (first, a) in turned.iter().enumerate() {
        for (second, b) in turned.iter().enumerate().skip(first + 1) {
            assert!(difference(a, b) > 15.0, "{} and {}", first + 1, second + 1);
        }
    }
}

#[test]
fn a_preview_carries_nothing_but_the_picture() {
    let preview = photo::thumbnail(&talkative(), 6, 320).unwrap();
    let again = photo::intake(&preview, "preview").unwrap();
    assert_eq!((again.orientation, again.taken, again.gps_present), (1, None, false));
    assert_eq!((again.width, again.height), (64, 96), "not enlarged");
    for word in [b"SECRET".as_slice(), b"Exif", b"ICC_PROFILE", b"http"] {
        assert!(!preview.windows(word.len()).any(|window| window == word));
    }
}

#[test]
fn progressive_grey_cmyk_and_restarts_get_a_preview() {
    for (name, file) in DRAWN {
        let preview = pixels(&photo::thumbnail(file, 8, 24).unwrap());
        assert_eq!((preview.width(), preview.height()), (16, 24), "{name}");
        // The red corner (top left as stored) ends at the bottom left: orientation 8 turns to the left.
        let corner = preview.to_rgb8();
        let (there, opposite) = (corner.get_pixel(3, 21).0, corner.get_pixel(12, 5).0);
        assert!(there[1] < 90 && opposite[1] > 150, "{name}: {there:?} {opposite:?}");
    }
}

#[test]
fn an_orientation_that_does_not_exist_shows_the_picture_as_stored_and_complains() {
    for bad in [0, 9, 36_865] {
        let exif = Exif { main: vec![short(0x0112, bad)], ..Exif::default() };
        let file = with_exif(&jpeg(&scene(96, 64)), &exif.tiff());
        let intake = photo::intake(&file, "drawn").unwrap();
        assert_eq!((intake.orientation, intake.width), (1, 96));
        assert!(
            intake.complaints.iter().any(|c| c.to_string().contains(&format!("orientation {bad}"))),
            "{intake:?}"
        );
        let as_stored = photo::thumbnail(&file, 1, 320).unwrap();
        assert_eq!(photo::thumbnail(&file, bad as u8, 320).unwrap(), as_stored);
    }
    let preview = photo::thumbnail(&jpeg(&scene(96, 64)), 1, 0).unwrap();
    assert_eq!(pixels(&preview).width(), 1, "a longest side of 0 is taken as 1");
}
