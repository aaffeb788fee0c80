//! What intake reads, against what exiftool reads.

use std::path::{Path, PathBuf};

use photo::{Intake, intake};
use serde_json::{Map, Value};

use crate::outside::{exiftool, exiftool_of};
use crate::support::{
    DRAWN, Exif, a_place, ascii, dated, jpeg, rationals, scene, short, talkative, with_exif,
};

fn text(found: &Map<String, Value>, key: &str) -> Option<String> {
    match found.get(key)? {
        Value::String(text) => Some(text.trim().to_owned()).filter(|text| !text.is_empty()),
        Value::Null => None,
        other => Some(other.to_string()),
    }
}

/// Whether exiftool sees a field that tells where and is not zero.
fn located(found: &Map<String, Value>) -> bool {
    found.iter().any(|(key, value)| {
        let (group, tag) = key.split_once(':').unwrap_or(("", key));
        let telling = ["GPSLatitude", "GPSLongitude", "GPSAltitude", "GPSDestLatitude", "GPSDestLongitude"];
        let value = value.as_str().map_or_else(|| value.to_string(), str::to_owned);
        (group == "GPS" || group == "XMP-exif") && telling.contains(&tag) && !value.is_empty() && value != "0"
    })
}

/// Every fact both readers give must be the same.
fn agree(name: &str, mine: &Intake, found: &Map<String, Value>) {
    let number = |key: &str| found.get(key).and_then(Value::as_u64);
    assert_eq!(number("File:ImageWidth"), Some(mine.stored_width.into()), "{name}: width");
    assert_eq!(number("File:ImageHeight"), Some(mine.stored_height.into()), "{name}: height");
    let orientation = number("IFD0:Orientation").filter(|o| (1..=8).contains(o)).unwrap_or(1);
    assert_eq!(orientation, u64::from(mine.orientation), "{name}: orientation");
    assert_eq!(located(found), mine.gps_present, "{name}: location");

    let date = text(found, "ExifIFD:DateTimeOriginal").filter(|date| !date.starts_with("0000"));
    let offset = text(found, "ExifIFD:OffsetTimeOriginal");
    let Some(date) = date else {
        assert_eq!((mine.taken, &mine.taken_local), (None, &None), "{name}: no time");
        return;
    };
    let (day, clock) = date.split_once(' ').unwrap();
    let day = day.replace(':', "-");
    let fraction = text(found, "ExifIFD:SubSecTimeOriginal");
    match offset {
        Some(offset) => {
            let ms = format!("{:0<3.3}", fraction.unwrap_or_default());
            let stamp = format!("{day}T{clock}.{ms}{offset}");
            assert_eq!(mine.taken.map(|taken| taken.to_string()), Some(stamp), "{name}: time taken");
            assert_eq!(mine.taken_local, None, "{name}");
        }
        None => {
            let fraction = fraction.map(|digits| format!(".{digits}")).unwrap_or_default();
            assert_eq!(mine.taken_local, Some(format!("{day}T{clock}{fraction}")), "{name}: local time");
            assert_eq!(mine.taken, None, "{name}");
        }
    }
}

#[test]
fn exiftool_and_intake_agree_on_files_made_here() {
    let plain = jpeg(&scene(96, 64));
    let mut cases: Vec<(String, Vec<u8>)> =
        vec![("no exif".into(), plain.clone()), ("all".into(), talkative())];
    cases.extend(DRAWN.map(|(name, bytes)| (name.to_owned(), bytes.to_vec())));
    for orientation in 1..=8 {
        cases.push((format!("orientation {orientation}"), with_exif(&plain, &dated(orientation).tiff())));
    }
    for (date, offset, fraction) in [
        ("2024:02:29 23:59:59", "+05:30", "5"),
        ("2026:11:01 01:30:00", "-03:30", "999"),
        ("2026:04:14 09:30:05", "", "05"),
        ("2026:04:14 09:30:05", "", ""),
        ("2026:04:14 09:30:05", "+00:00", "123456"),
        ("0000:00:00 00:00:00", "", ""),
    ] {
        let mut exif = Exif { exif: vec![ascii(0x9003, date)], ..Exif::default() };
        exif.exif.extend((!offset.is_empty()).then(|| ascii(0x9011, offset)));
        exif.exif.extend((!fraction.is_empty()).then(|| ascii(0x9291, fraction)));
        cases.push((format!("{date} {offset} {fraction}"), with_exif(&plain, &exif.tiff())));
    }
    let zeros = vec![
        ascii(1, "N"),
        rationals(2, &[(0, 1), (0, 1), (0, 1)]),
        ascii(3, "E"),
        rationals(4, &[(0, 1), (0, 1), (0, 1)]),
    ];
    let east_only = vec![
        ascii(1, "N"),
        rationals(2, &[(0, 1), (0, 1), (0, 1)]),
        ascii(3, "E"),
        rationals(4, &[(9, 1), (0, 1), (0, 1)]),
    ];
    for (name, gps) in [("a place", a_place()), ("blanked place", zeros), ("on the equator", east_only)] {
        cases.push((name.into(), with_exif(&plain, &Exif { gps, ..dated(1) }.tiff())));
    }
    let pictures: Vec<&[u8]> = cases.iter().map(|(_, bytes)| bytes.as_slice()).collect();
    for ((name, bytes), found) in cases.iter().zip(exiftool_of(&pictures)) {
        agree(name, &intake(bytes, name).unwrap(), &found);
    }
}

#[test]
fn a_blanked_location_counts_as_none_and_is_mentioned() {
    let gps = vec![rationals(2, &[(0, 1), (0, 1), (0, 1)]), rationals(4, &[(0, 1), (0, 1), (0, 1)])];
    let file = with_exif(&jpeg(&scene(96, 64)), &Exif { gps, ..dated(1) }.tiff());
    let intake = intake(&file, "blanked").unwrap();
    assert!(!intake.gps_present);
    assert!(
        intake.complaints.iter().any(|complaint| complaint.to_string().contains("blanked")),
        "{:?}",
        intake.complaints
    );
}

#[test]
fn exif_with_a_stray_next_directory_is_still_read() {
    // A strict reader gives up on the whole block here, and the picture would lie on its side.
    let mut exif = dated(6);
    exif.exif = vec![ascii(0x9003, "2026:04:14 09:30:05"), ascii(0x9011, "-05:00")];
    let mut tiff = exif.tiff();
    let exif_at = 8 + 2 + 12 * 2 + 4;
    let next = exif_at + 2 + 12 * 2;
    assert_eq!(tiff[next..next + 4], [0; 4]);
    tiff[next] = 8;
    let file = with_exif(&jpeg(&scene(96, 64)), &tiff);
    let mine = intake(&file, "stray").unwrap();
    assert_eq!(mine.orientation, 6);
    assert_eq!(mine.taken.unwrap().to_string(), "2026-04-14T09:30:05.000-05:00");
    assert!(
        mine.complaints.iter().any(|complaint| complaint.to_string().contains("damaged")),
        "{:?}",
        mine.complaints
    );
    agree("stray", &mine, &exiftool_of(&[&file])[0]);
}

#[test]
fn broken_exif_never_costs_the_picture() {
    let plain = jpeg(&scene(96, 64));
    let whole = Exif { gps: a_place(), ..dated(8) }.tiff();
    for cut in 0..whole.len() {
        let file = with_exif(&plain, &whole[..cut]);
        let mine = intake(&file, "cut").unwrap();
        assert_eq!((mine.stored_width, mine.stored_height), (96, 64));
        assert!(!mine.complaints.is_empty(), "cut at {cut}");
        photo::thumbnail(&file, mine.orientation, 32).unwrap();
    }
    let junk = [b"MM\0*\0\0\0\x08\xff\xff".as_slice(), &[0xff; 200]].concat();
    for tiff in [b"".as_slice(), b"XX*\0\0\0\0\x08", &junk, &[0; 64]] {
        let mine = intake(&with_exif(&plain, tiff), "junk").unwrap();
        assert_eq!((mine.orientation, mine.taken, mine.gps_present), (1, None, false));
        assert!(!mine.complaints.is_empty());
    }
}

#[test]
fn a_location_that_cannot_be_read_counts_as_a_location() {
    let mut tiff = Exif { main: vec![short(0x0112, 6)], gps: a_place(), ..Exif::default() }.tiff();
    tiff.truncate(8 + 2 + 12 * 2 + 4); // the pointer stays, the place behind it is cut off
    let mine = intake(&with_exif(&jpeg(&scene(96, 64)), &tiff), "cut").unwrap();
    assert_eq!((mine.gps_present, mine.orientation), (true, 6));
}

/// The photographs of the sample surveys, house by house: those of the walk and those of the findings.
fn sample_photographs() -> Vec<(PathBuf, Vec<PathBuf>)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../sample-surveys");
    let mut houses = Vec::new();
    for house in std::fs::read_dir(root).unwrap() {
        let house = house.unwrap().path();
        let folders = ["photos", "findings-photos"].map(|folder| house.join(folder));
        let files =
            folders.iter().filter(|folder| folder.is_dir()).flat_map(|folder| folder.read_dir().unwrap());
        let is_jpeg =
            |path: &PathBuf| path.extension().is_some_and(|ending| ending == "jpg" || ending == "jpeg");
        let mut files: Vec<PathBuf> = files.map(|file| file.unwrap().path()).filter(is_jpeg).collect();
        files.sort();
        if folders[0].is_dir() {
            houses.push((house, files));
        }
    }
    houses.sort();
    houses
}

#[test]
fn exiftool_and_intake_agree_on_the_sample_surveys() {
    let houses = sample_photographs();
    assert!(houses.len() >= 3, "the sample surveys have lost their photographs");
    for (folder, files) in houses {
        assert!(files.len() >= 8, "fewer than eight photographs in {}", folder.display());
        for (path, found) in files.iter().zip(exiftool(&files)) {
            let name = path.display().to_string();
            let bytes = std::fs::read(path).unwrap();
            let mine = intake(&bytes, &name).unwrap();
            agree(&name, &mine, &found);
            let preview = photo::thumbnail(&bytes, mine.orientation, 320).unwrap();
            let shown = crate::support::pixels(&preview);
            assert_eq!(shown.width() > shown.height(), mine.width > mine.height, "{name}: upright");
            let copy = photo::without_location(&bytes).unwrap();
            crate::clean_copy::tells_nothing(&name, &copy);
        }
    }
}
