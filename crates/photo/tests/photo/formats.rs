//! PNG, WebP and HEIC beside JPEG: facts, the way up, previews, color profiles. Files are made here with the encoders
//! of the libraries; real ones are in `real.rs`.

use image::RgbImage;
use photo::{Format, Problem, intake, intake_and_place, thumbnail};

use crate::support::{
    Exif, a_place, dated, heic, jpeg, pixels, png, png_with, scene, stored, webp, with_profile,
};

/// Mean difference of the color values of two pictures, 0 to 255.
fn difference(a: &RgbImage, b: &RgbImage) -> f64 {
    assert_eq!(a.dimensions(), b.dimensions());
    let total: u64 = a.as_raw().iter().zip(b.as_raw()).map(|(a, b)| u64::from(a.abs_diff(*b))).sum();
    total as f64 / a.as_raw().len() as f64
}

#[test]
fn png_and_webp_stand_upright_in_all_eight_orientations() {
    let upright = scene(192, 128);
    for orientation in 1..=8_u8 {
        let lying = stored(&upright, orientation);
        let exif = dated(orientation.into()).tiff();
        for (format, file) in
            [(Format::Png, png(&lying, Some(&exif))), (Format::WebP, webp(&lying, Some(&exif)))]
        {
            let kept = intake(&file, "drawn").unwrap();
            assert_eq!((kept.format, kept.orientation), (format, orientation));
            assert_eq!((kept.width, kept.height), (192, 128));
            assert_eq!(kept.taken.unwrap().to_string(), "2026-04-14T09:30:05.120-05:00");
            assert!(kept.complaints.is_empty(), "{:?}", kept.complaints);
            let preview = pixels(&thumbnail(&file, kept.orientation, 96).unwrap()).to_rgb8();
            let reference = image::imageops::resize(&upright, 96, 64, image::imageops::FilterType::Triangle);
            assert!(difference(&preview, &reference) < 4.0, "{format:?} {orientation}");
        }
    }
}

#[test]
fn a_png_tells_its_way_up_in_a_raw_profile_or_in_xmp_and_exif_comes_first() {
    let picture = scene(96, 64);
    let hex = |tiff: &[u8]| -> String {
        let bytes = [b"Exif\0\0", tiff].concat();
        let digits: String = bytes.iter().map(|byte| format!("{byte:02x}")).collect();
        format!("\nexif\n{:8}\n{digits}\n", bytes.len())
    };
    let raw = png_with(&picture, &[("Raw profile type exif", &hex(&dated(8).tiff()))], None);
    let kept = intake(&raw, "raw profile").unwrap();
    assert_eq!((kept.orientation, kept.width, kept.height), (8, 64, 96));
    assert_eq!(kept.taken.unwrap().to_string(), "2026-04-14T09:30:05.120-05:00");
    for xmp in ["<rdf:Description tiff:Orientation=\"6\"/>", "<tiff:Orientation>6</tiff:Orientation>"] {
        let file = png_with(&picture, &[("XML:com.adobe.xmp", xmp)], None);
        assert_eq!(intake(&file, "xmp").unwrap().orientation, 6);
        let both = png_with(&picture, &[("XML:com.adobe.xmp", xmp)], Some(&dated(3).tiff()));
        assert_eq!(intake(&both, "both").unwrap().orientation, 3);
    }
}

#[test]
fn a_heic_keeps_its_facts_is_turned_by_its_container_alone_and_is_shown_only_where_that_was_built_in() {
    let exif = Exif { gps: a_place(), ..dated(6) }.tiff();
    for (turns, size) in [(0, (4032, 3024)), (1, (3024, 4032)), (2, (4032, 3024)), (3, (3024, 4032))] {
        let file = heic(4032, 3024, turns, &exif);
        let (kept, place) = intake_and_place(&file, "IMG_0001.HEIC").unwrap();
        assert_eq!((kept.format, kept.orientation), (Format::Heic, 1));
        assert_eq!((kept.width, kept.height), size, "turned {turns} times");
        assert_eq!((kept.stored_width, kept.stored_height), (4032, 3024));
        assert_eq!(kept.taken.unwrap().to_string(), "2026-04-14T09:30:05.120-05:00");
        let place = place.unwrap();
        assert!((place.latitude - 31.284_861).abs() < 1e-6 && (place.longitude + 41.033_333).abs() < 1e-6);
        let said = kept.complaints.iter().any(|c| c.to_string().contains("no preview"));
        assert_eq!((kept.no_preview.is_none(), said), (cfg!(feature = "heic"), !cfg!(feature = "heic")));
        let refused = thumbnail(&file, 1, 320).unwrap_err();
        assert!(matches!(refused.problem, Problem::Undecodable { .. }), "{refused}");
    }
}

#[test]
fn exif_of_a_heic_may_be_larger_than_a_jpeg_segment() {
    let mut exif = dated(1).tiff();
    exif.resize(200_000, 0);
    let kept = intake(&heic(400, 300, 0, &exif), "large").unwrap();
    assert_eq!(kept.taken.unwrap().to_string(), "2026-04-14T09:30:05.120-05:00");
}

#[test]
fn a_heic_cut_anywhere_is_refused_or_kept_with_a_complaint() {
    let whole = heic(4032, 3024, 1, &dated(6).tiff());
    for cut in 1..whole.len() {
        if let Ok(kept) = intake(&whole[..cut], "cut") {
            assert_eq!((kept.stored_width, kept.stored_height), (4032, 3024), "{cut}");
            let least = if cfg!(feature = "heic") { 1 } else { 2 };
            assert!(kept.complaints.len() >= least, "{cut}: {:?}", kept.complaints);
        }
    }
}

#[test]
fn colors_of_another_profile_come_out_as_srgb() {
    // Display P3 (SMPTE RP 431-2 primaries, D65, the curve of sRGB). The same light in both spaces, from the published
    // matrices, worked out by hand: linear P3 (0.578, 0.013, 0.013) is linear sRGB (0.705, -0.011, 0.0018), which is
    // (218, 0, 6); greys are the same.
    let p3 = moxcms::ColorProfile::new_display_p3().encode().unwrap();
    for (stored, shown) in [([200, 30, 30], [218, 0, 6]), ([128, 128, 128], [128, 128, 128])] {
        let flat = RgbImage::from_pixel(64, 64, image::Rgb(stored));
        for file in [with_profile(&jpeg(&flat), &p3), png_with_profile(&flat, &p3)] {
            let found = pixels(&thumbnail(&file, 1, 64).unwrap()).to_rgb8().get_pixel(30, 30).0;
            for (found, shown) in found.iter().zip(shown) {
                assert!(found.abs_diff(shown) <= 4, "{stored:?} {found:?} {shown:?}");
            }
        }
    }
}

fn png_with_profile(picture: &RgbImage, profile: &[u8]) -> Vec<u8> {
    let mut info = ::png::Info::with_size(picture.width(), picture.height());
    info.color_type = ::png::ColorType::Rgb;
    info.icc_profile = Some(profile.to_vec().into());
    let mut out = Vec::new();
    let mut writer = ::png::Encoder::with_info(&mut out, info).unwrap().write_header().unwrap();
    writer.write_image_data(picture.as_raw()).unwrap();
    writer.finish().unwrap();
    out
}

#[test]
fn a_junk_profile_costs_nothing_but_itself() {
    let picture = scene(96, 64);
    let plain = thumbnail(&jpeg(&picture), 1, 64).unwrap();
    for junk in [b"junk".as_slice(), &[0; 200], &[0xff; 4000]] {
        assert_eq!(thumbnail(&with_profile(&jpeg(&picture), junk), 1, 64).unwrap(), plain);
    }
}

#[test]
fn a_png_bomb_is_refused_by_its_declared_size() {
    let mut file = png(&scene(96, 64), None);
    file[16..24].copy_from_slice(&[0, 0, 0x40, 0, 0, 0, 0x40, 0]); // 16384 × 16384
    for refused in [intake(&file, "bomb").unwrap_err(), thumbnail(&file, 1, 320).unwrap_err()] {
        assert!(matches!(refused.problem, Problem::TooManyPixels { at: 8, .. }), "{refused}");
    }
}

#[test]
fn transparent_parts_lie_on_white() {
    let mut out = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut out, 8, 8);
    encoder.set_color(::png::ColorType::Rgba);
    let mut writer = encoder.write_header().unwrap();
    writer.write_image_data(&[200, 0, 0, 0].repeat(64)).unwrap();
    writer.finish().unwrap();
    assert_eq!(pixels(&thumbnail(&out, 1, 8).unwrap()).to_rgb8().get_pixel(4, 4).0, [255, 255, 255]);
}

#[test]
fn a_png_that_stops_early_shows_what_came() {
    let file = png(&scene(600, 400), None);
    let cut = &file[..file.len() * 3 / 4];
    let kept = intake(cut, "cut").unwrap();
    assert!(
        kept.complaints.iter().any(|complaint| complaint.to_string().contains("stops at byte")),
        "{kept:?}"
    );
    assert_eq!(pixels(&thumbnail(cut, 1, 320).unwrap()).width(), 320);
}
