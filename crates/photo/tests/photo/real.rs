//! Real photographs of many cameras and phones, as packages bring them, against what exiftool says of them.
//!
//! The table is `vectors/real.tsv`. Crates' pictures are on every machine that built this; `tests/photographs` brings
//! npm's; `scripts/photographs.sh` brings more and names their folder in `UNDERLATH_TEST_PHOTOGRAPHS`.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

use photo::{Format, Intake, Problem, intake_and_place, previews, without_location};
use survey::Digest;

use crate::outside::exiftool_of;
use crate::support::pixels;

/// One line of the table.
struct Row {
    place: &'static str,
    package: &'static str,
    kind: &'static str,
    cells: Vec<&'static str>,
}

impl Row {
    fn number(&self, cell: usize) -> u32 {
        self.cells[cell].parse().unwrap()
    }
    fn said(&self, cell: usize) -> Option<&'static str> {
        Some(self.cells[cell]).filter(|text| *text != "-")
    }
}

fn table() -> BTreeMap<String, Row> {
    let lines = include_str!("vectors/real.tsv").lines().filter(|line| !line.starts_with('#'));
    let row = |line: &'static str| {
        let cells: Vec<_> = line.split('\t').collect();
        let (place, package, kind) = (cells[0], cells[1], cells[3]);
        (cells[2].to_owned(), Row { place, package, kind, cells: cells[4..].to_vec() })
    };
    lines.map(row).collect()
}

/// Folders that may hold pictures of the table.
fn folders() -> Vec<PathBuf> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let cargo = Command::new(env!("CARGO"))
        .args([
            "metadata",
            "--offline",
            "--format-version",
            "1",
            "--filter-platform",
            "x86_64-unknown-linux-gnu",
        ])
        .current_dir(here)
        .output()
        .unwrap();
    let found: serde_json::Value = serde_json::from_slice(&cargo.stdout).unwrap();
    let mut folders: Vec<PathBuf> = found["packages"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|package| matches!(package["name"].as_str(), Some("kamadak-exif" | "jpeg-decoder")))
        .map(|package| Path::new(package["manifest_path"].as_str().unwrap()).parent().unwrap().to_owned())
        .collect();
    assert_eq!(folders.len(), 2, "the crates that bring pictures");
    folders.push(here.join("../../tests/photographs/node_modules"));
    #[allow(clippy::disallowed_methods, reason = "a test may ask which pictures the test run has prepared")]
    folders.extend(std::env::var_os("UNDERLATH_TEST_PHOTOGRAPHS").map(PathBuf::from));
    folders
}

fn gather(folder: &Path, into: &mut BTreeMap<String, Vec<u8>>, table: &BTreeMap<String, Row>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten() {
        let path = entry.unwrap().path();
        let ending = path.extension().unwrap_or_default().to_ascii_lowercase();
        if path.is_dir() && !path.is_symlink() {
            gather(&path, into, table);
        } else if ["jpg", "jpeg", "heic", "heif", "hif", "png", "webp", "mpo"].iter().any(|e| ending == *e) {
            let bytes = std::fs::read(&path).unwrap();
            let digest = Digest::of(&bytes).hex();
            if table.contains_key(&digest) {
                into.insert(digest, bytes);
            }
        }
    }
}

/// The pictures of the table that are here.
fn pictures() -> Vec<(Row, Vec<u8>)> {
    let mut table = table();
    let mut found = BTreeMap::new();
    for folder in folders() {
        gather(&folder, &mut found, &table);
    }
    let here = found.into_iter();
    let pictures: Vec<(Row, Vec<u8>)> =
        here.map(|(digest, bytes)| (table.remove(&digest).unwrap(), bytes)).collect();
    let of = |place: &str| pictures.iter().filter(|(row, _)| row.place == place).count();
    assert_eq!(of("crate"), 8, "the pictures of the crates");
    let npm = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/photographs/node_modules/exif");
    assert_eq!(of("npm"), if npm.exists() { 18 } else { 0 }, "the pictures of tests/photographs");
    pictures
}

/// Photographs of the table large enough to be judged for sharpness: JPEG with a camera's time in them.
pub(crate) fn large_pictures() -> Vec<(String, Vec<u8>)> {
    let large = pictures().into_iter().filter(|(row, _)| {
        row.kind == "jpeg"
            && row.number(0).max(row.number(1)) >= 1200
            && (row.said(5).is_some() || row.place == "crate")
    });
    large.map(|(row, bytes)| (name(&row, &bytes), bytes)).collect()
}

/// The HEICs of the table.
#[cfg(feature = "heic")]
pub(crate) fn heics() -> Vec<(String, Vec<u8>)> {
    let heics = pictures().into_iter().filter(|(row, _)| row.kind == "heic");
    heics.map(|(row, bytes)| (name(&row, &bytes), bytes)).collect()
}

fn name(row: &Row, bytes: &[u8]) -> String {
    format!("{} {}", row.package, Digest::of(bytes).short())
}

/// The local time, without the fraction exiftool keeps in another field.
fn local(kept: &Intake) -> Option<String> {
    let text = kept.taken.map(|taken| taken.to_string()).or_else(|| kept.taken_local.clone())?;
    Some(text[..19].replacen('-', ":", 2))
}

#[test]
fn size_way_up_time_and_place_are_what_exiftool_says() {
    for (row, bytes) in pictures() {
        let name = name(&row, &bytes);
        let read = intake_and_place(&bytes, &name);
        if row.kind == "refused" {
            assert!(read.is_err(), "{name}");
            continue;
        }
        let (kept, place) = read.unwrap_or_else(|e| panic!("{name}: {e}"));
        let format = match kept.format {
            Format::Jpeg => "jpeg",
            Format::Png => "png",
            Format::WebP => "webp",
            Format::Heic | Format::Avif => "heic",
        };
        assert_eq!(format, row.kind, "{name}");
        assert_eq!((kept.stored_width, kept.stored_height), (row.number(0), row.number(1)), "{name}");
        assert_eq!((kept.width, kept.height), (row.number(2), row.number(3)), "{name}: upright");
        assert_eq!(u32::from(kept.orientation), row.number(4), "{name}: orientation");
        let taken = row.said(5).filter(|taken| !taken.starts_with("0000"));
        assert_eq!(local(&kept).as_deref(), taken, "{name}: time");
        let offset = row.said(6).filter(|_| taken.is_some());
        assert_eq!(
            kept.taken.map(|taken| taken.to_string()[23..].to_owned()).as_deref(),
            offset,
            "{name}: offset"
        );
        match (row.said(7), row.said(8)) {
            (Some(latitude), Some(longitude)) => {
                let place = place.unwrap_or_else(|| panic!("{name}: no place; {:?}", kept.complaints));
                assert!(
                    (place.latitude - latitude.parse::<f64>().unwrap()).abs() < 0.006,
                    "{name}: {place:?}"
                );
                assert!(
                    (place.longitude - longitude.parse::<f64>().unwrap()).abs() < 0.006,
                    "{name}: {place:?}"
                );
                assert!(kept.gps_present);
            }
            _ => assert_eq!(place, None, "{name}"),
        }
    }
}

#[test]
fn every_one_that_claims_a_preview_gets_both_upright_and_the_others_say_why() {
    for (row, bytes) in pictures().into_iter().filter(|(row, _)| row.kind != "refused") {
        let name = name(&row, &bytes);
        let (kept, _) = intake_and_place(&bytes, &name).unwrap();
        match previews(&bytes, kept.orientation) {
            Ok(made) => {
                assert_eq!(kept.no_preview, None, "{name}");
                for (preview, longest) in [(&made.screen, photo::SCREEN), (&made.list, photo::LIST)] {
                    let shown = pixels(&preview.jpeg);
                    assert_eq!((shown.width(), shown.height()), (preview.width, preview.height), "{name}");
                    assert_eq!(preview.width.max(preview.height), kept.width.max(kept.height).min(longest));
                    assert_eq!(preview.width > preview.height, kept.width > kept.height, "{name}: upright");
                }
            }
            Err(refused) => {
                let broken = matches!(refused.problem, Problem::Undecodable { .. });
                assert!(broken && (kept.no_preview.is_some() || !whole(&bytes)), "{name}: {refused}");
            }
        }
    }
}

/// Whether another decoder makes anything of it.
fn whole(jpeg: &[u8]) -> bool {
    image::load_from_memory_with_format(jpeg, image::ImageFormat::Jpeg).is_ok()
}

#[test]
fn copies_tell_neither_place_nor_serial_number_and_keep_every_pixel() {
    let mut told = 0;
    for (row, bytes) in pictures().into_iter().filter(|(row, _)| row.kind != "refused") {
        let name = name(&row, &bytes);
        let copy = match without_location(&bytes) {
            Ok(copy) => copy,
            Err(refused) => {
                let broken = matches!(refused.problem, Problem::NoCopy(_) | Problem::Damaged { .. });
                assert!(broken, "{name}: {refused}");
                continue;
            }
        };
        told += usize::from(row.said(7).is_some() || row.said(9).is_some());
        crate::clean_copy::tells_nothing(&name, &copy);
        let found = exiftool_of(&[&copy]).remove(0);
        let secret =
            |key: &String| key.contains("GPS") || key.contains("Serial") || key.contains("Thumbnail");
        assert!(!found.keys().any(secret), "{name}: {found:?}");
        if row.kind == "jpeg" {
            assert_eq!(scans(&copy), scans(&bytes), "{name}: the coded picture");
        }
        let (before, after) =
            (intake_and_place(&bytes, "").unwrap().0, intake_and_place(&copy, "").unwrap().0);
        let facts =
            |kept: &Intake| (kept.width, kept.height, kept.orientation, kept.taken, kept.taken_local.clone());
        assert_eq!(facts(&before), facts(&after), "{name}");
        assert!(!after.gps_present, "{name}");
    }
    assert!(told >= 4, "pictures with a place or a serial number");
}

/// The coded data of all scans of the first picture.
fn scans(jpeg: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut at = 2;
    while let Some([0xff, marker, high, low]) = jpeg.get(at..).and_then(|rest| rest.first_chunk()).copied() {
        if marker == 0xd9 {
            break;
        }
        if marker == 0xff {
            at += 1;
            continue;
        }
        at += 2 + usize::from(u16::from_be_bytes([high, low]));
        if marker == 0xda {
            let ends = |w: &[u8]| w[0] == 0xff && !matches!(w[1], 0 | 0xd0..=0xd7 | 0xff);
            let end = jpeg[at..].windows(2).position(ends).map_or(jpeg.len(), |end| at + end);
            out.extend(&jpeg[at..end]);
            at = end;
        }
    }
    out
}
