//! The copy that leaves the firm: same pixels, upright, dated, and nothing else.

use photo::{intake, without_location};
use survey::Digest;

use crate::outside::{exifread_of, exiftool_of};
use crate::support::{
    DRAWN, Exif, a_place, ascii, dated, heic, jpeg, pixels, png, png_with, scene, segment, talkative, webp,
    with_segments,
};

/// All that exiftool may find in a clean copy, by group and tag.
fn harmless(key: &str) -> bool {
    let (group, tag) = key.split_once(':').unwrap_or(("", key));
    match group {
        // JFIF and ICC profiles, and what exiftool says of the file itself or computes from the rest.
        "JFIF" | "ICC_Profile" | "System" | "" => true,
        group if group.starts_with("ICC-") => true,
        "ExifTool" => tag == "ExifToolVersion",
        "File" => tag != "Comment",
        "Adobe" => matches!(tag, "DCTEncodeVersion" | "APP14Flags0" | "APP14Flags1" | "ColorTransform"),
        "Composite" => matches!(tag, "ImageSize" | "Megapixels" | "SubSecDateTimeOriginal"),
        // What the header and the color chunks say; texts and times are not among them.
        "PNG" => {
            let picture =
                ["ImageWidth", "ImageHeight", "BitDepth", "ColorType", "Compression", "Filter", "Interlace"];
            let colors = ["SRGBRendering", "Gamma", "Palette", "Transparency", "SignificantBits"];
            let chromaticity = ["White", "Red", "Green", "Blue"].iter().any(|color| tag.starts_with(color));
            picture.contains(&tag) || colors.contains(&tag) || chromaticity || tag == "ProfileName"
        }
        "PNG-pHYs" => tag.starts_with("Pixel"),
        "RIFF" => {
            let picture =
                ["ImageWidth", "ImageHeight", "WebP_Flags", "VP8Version", "HorizontalScale", "VerticalScale"];
            picture.contains(&tag) || tag.starts_with("Alpha")
        }
        "IFD0" => tag == "Orientation",
        "ExifIFD" => matches!(tag, "DateTimeOriginal" | "OffsetTimeOriginal" | "SubSecTimeOriginal"),
        _ => false,
    }
}

/// A picture whose coded data is broken stays so in the copy, and exiftool says so of both.
fn broken(found: &serde_json::Map<String, serde_json::Value>) -> bool {
    found.get("ExifTool:Warning").is_some_and(|warning| warning == "JPEG format error")
}

/// No outside reader finds anything but orientation, time and color in the copy.
pub(crate) fn tells_nothing(name: &str, copy: &[u8]) {
    let found = exiftool_of(&[copy]).remove(0);
    let warned = |key: &str| key == "ExifTool:Warning" && broken(&found);
    let told: Vec<_> = found.iter().filter(|(key, _)| !harmless(key) && !warned(key)).collect();
    assert!(told.is_empty(), "{name}: exiftool finds {told:?}");
    let allowed = [
        "Image Orientation",
        "Image ExifOffset",
        "EXIF DateTimeOriginal",
        "EXIF OffsetTimeOriginal",
        "EXIF SubSecTimeOriginal",
    ];
    for key in exifread_of(copy).unwrap_or_default() {
        assert!(allowed.contains(&key.as_str()), "{name}: exifread finds {key}");
    }
}

#[test]
fn a_copy_tells_neither_where_nor_who_nor_with_what() {
    let original = talkative();
    let found = exiftool_of(&[&original]).remove(0);
    for key in [
        "GPS:GPSLatitude",
        "ExifIFD:SerialNumber",
        "IFD1:ThumbnailImage",
        "IPTC:City",
        "XMP-exif:GPSLatitude",
    ] {
        assert!(
            found.contains_key(key),
            "the original must tell {key}, else this test proves nothing: {found:?}"
        );
    }
    let copy = without_location(&original).unwrap();
    tells_nothing("talkative", &copy);
    assert!(!copy.windows(6).any(|window| window == b"SECRET"));
    let (before, after) = (intake(&original, "original").unwrap(), intake(&copy, "copy").unwrap());
    assert!(before.gps_present && !after.gps_present);
    assert!(after.complaints.is_empty(), "{:?}", after.complaints);
    assert_eq!((after.taken, after.orientation), (before.taken, before.orientation));
    assert_eq!(after.taken.unwrap().to_string(), "2026-04-14T09:30:05.120-05:00");
    assert_eq!((after.width, after.height), (64, 96));
    assert_eq!(exiftool_of(&[&copy])[0]["ExifIFD:SubSecTimeOriginal"], 120);
}

#[test]
fn the_coded_picture_is_the_same_to_the_byte_and_every_pixel_to_the_value() {
    let original = talkative();
    let plain = jpeg(&scene(96, 64));
    // From the first quantization table to the end marker: what the encoder wrote, found by its own bytes.
    let tables = plain.windows(2).position(|window| window == [0xff, 0xdb]).unwrap();
    let copy = without_location(&original).unwrap();
    assert!(copy.ends_with(&plain[tables..]));
    assert_eq!(pixels(&copy), pixels(&original));
    assert_eq!(
        Digest::of(&without_location(&copy).unwrap()),
        Digest::of(&copy),
        "a clean copy stays as it is"
    );
}

#[test]
fn progressive_grey_cmyk_and_restarts_keep_their_pixels() {
    for (name, file) in DRAWN {
        let copy = without_location(file).unwrap();
        assert_eq!(pixels(&copy), pixels(file), "{name}");
        tells_nothing(name, &copy);
    }
}

#[test]
fn extra_data_between_the_scans_of_a_progressive_picture_goes_too() {
    let file = DRAWN[0].1;
    let second = {
        let scans = file.windows(2).enumerate().filter(|(_, window)| *window == [0xff, 0xda]);
        scans.map(|(place, _)| place).nth(1).unwrap()
    };
    // The second scan may bring its own Huffman table: put the comment before that.
    let table = file[..second].windows(2).rposition(|window| window == [0xff, 0xc4]).unwrap();
    let comment = segment(0xfe, b"SECRET between scans");
    let talking = [&file[..table], &comment, &file[table..]].concat();
    assert_eq!(pixels(&talking), pixels(file), "the comment is in a legal place");
    assert_eq!(without_location(&talking).unwrap(), without_location(file).unwrap());
}

#[test]
fn a_picture_without_exif_gets_a_block_with_orientation_alone() {
    let copy = without_location(&jpeg(&scene(96, 64))).unwrap();
    let found = exiftool_of(&[&copy]).remove(0);
    assert_eq!(found["IFD0:Orientation"], 1);
    assert!(!found.keys().any(|key| key.starts_with("ExifIFD")));
}

#[test]
fn a_color_profile_stays_when_it_is_whole_and_goes_when_it_is_not() {
    let holds = |bytes: &[u8], word: &[u8]| bytes.windows(word.len()).any(|window| window == word);
    let mut original = talkative();
    assert!(holds(&without_location(&original).unwrap(), b"ICC_PROFILE"));
    // A wrong length makes the profile swallow the beginning of the segment behind it.
    let profile = original.windows(11).position(|window| window == b"ICC_PROFILE").unwrap();
    original[profile - 1] += 26;
    let copy = without_location(&original).unwrap();
    assert!(!holds(&copy, b"ICC_PROFILE") && !holds(&copy, b"SECRET"));
}

#[test]
fn a_segment_that_only_pretends_to_be_a_table_stops_the_copy() {
    // EXIF behind one flipped bit: quantization tables have a fixed length and this has another.
    let disguised = segment(0xdb, b"Exif\0\0MM\0*SECRET");
    let file = with_segments(&jpeg(&scene(96, 64)), &[disguised]);
    let refused = without_location(&file).unwrap_err();
    assert!(matches!(refused.problem, photo::Problem::Damaged { at: 2, .. }), "{refused}");
}

#[test]
fn a_picture_that_stops_early_is_copied_as_far_as_it_goes() {
    let whole = jpeg(&scene(96, 64));
    let cut = &whole[..whole.len() - 60];
    let copy = without_location(cut).unwrap();
    assert!(copy.ends_with(&cut[cut.len() - 20..]));
    assert!(
        intake(cut, "cut")
            .unwrap()
            .complaints
            .iter()
            .any(|complaint| complaint.to_string().contains("stops at byte"))
    );
    assert_eq!(intake(&copy, "copy").unwrap().complaints.len(), 1, "the copy still says that it stops early");
    for (name, file) in DRAWN {
        for missing in [3, 10, 25] {
            let cut = &file[..file.len() - missing];
            match without_location(cut) {
                Ok(copy) => assert!(decoded(&copy) == decoded(cut), "{name} less {missing} bytes"),
                // Cut within the header of a later scan.
                Err(refused) => {
                    assert!(matches!(refused.problem, photo::Problem::Damaged { .. }), "{refused}")
                }
            }
        }
    }
}

/// Pixels, or none when the decoder gives up.
fn decoded(jpeg: &[u8]) -> Option<image::DynamicImage> {
    image::load_from_memory_with_format(jpeg, image::ImageFormat::Jpeg).ok()
}

/// EXIF with a place, a serial number and a maker.
fn telling() -> Vec<u8> {
    let mut exif = Exif { gps: a_place(), ..dated(6) };
    exif.main.push(ascii(0x010f, "SECRET maker"));
    exif.exif.push(ascii(0xa431, "SECRET body serial"));
    exif.tiff()
}

#[test]
fn copies_of_png_and_webp_tell_nothing_either_and_show_the_same() {
    let picture = scene(96, 64);
    let xmp = "<x:xmpmeta xmlns:x='adobe:ns:meta/'>exif:GPSLatitude='31,17.1N' SECRET</x:xmpmeta>";
    let texts =
        [("XML:com.adobe.xmp", xmp), ("Comment", "SECRET comment"), ("Raw profile type iptc", "SECRET")];
    let mut with_trailer = png_with(&picture, &texts, Some(&telling()));
    with_trailer.extend(b"SECRET behind the end");
    for (name, original) in [("png", with_trailer), ("webp", webp(&picture, Some(&telling())))] {
        let before = intake(&original, name).unwrap();
        assert!(before.gps_present && original.windows(6).any(|window| window == b"SECRET"), "{name}");
        let copy = without_location(&original).unwrap();
        tells_nothing(name, &copy);
        assert!(!copy.windows(6).any(|window| window == b"SECRET"), "{name}");
        let after = intake(&copy, name).unwrap();
        assert_eq!((after.gps_present, after.complaints.len()), (false, 0), "{name}");
        assert_eq!((after.taken, after.orientation), (before.taken, 6), "{name}");
        let shown = |bytes: &[u8]| photo::thumbnail(bytes, 6, 64).unwrap();
        assert_eq!(shown(&copy), shown(&original), "{name}");
        assert_eq!(without_location(&copy).unwrap(), copy, "{name}: a clean copy stays as it is");
    }
}

#[test]
fn a_heic_is_not_copied_and_the_reason_says_what_to_do() {
    let refused = without_location(&heic(4032, 3024, 0, &telling())).unwrap_err();
    assert_eq!(refused.problem, photo::Problem::NoCopy(photo::Looks::Heic));
    assert!(refused.to_string().contains("export it as JPEG"), "{refused}");
}

#[test]
fn an_unknown_chunk_that_a_png_needs_stops_the_copy() {
    let mut file = png(&scene(96, 64), None);
    // Another first letter makes an unknown chunk of the picture data: a capital one is needed by its own word.
    let data = file.windows(4).position(|window| window == b"IDAT").unwrap();
    file.splice(data - 4..data - 4, [0, 0, 0, 0, b'Q', b'Q', b'Q', b'Q', 0, 0, 0, 0]);
    let refused = without_location(&file).unwrap_err();
    assert!(matches!(refused.problem, photo::Problem::Damaged { .. }), "{refused}");
}
