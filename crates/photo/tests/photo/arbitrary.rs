//! Nothing panics, whatever the bytes; and a copy never tells a location.

use std::path::Path;

use photo::{Intake, intake, thumbnail, without_location};
use proptest::prelude::*;

use crate::laws::{any_exif, taken_in};
use crate::support::{DRAWN, Exif, a_place, dated, heic, png, png_with, scene, talkative, webp};

/// Everything the crate does with bytes. Previews of big declared sizes are left out to keep the test quick.
fn everything(bytes: &[u8]) -> Option<(Intake, Option<Vec<u8>>)> {
    let kept = intake(bytes, "arbitrary").ok();
    let copy = without_location(bytes).ok();
    if kept.as_ref().is_none_or(|kept| u64::from(kept.width) * u64::from(kept.height) < 1_000_000) {
        let _ = thumbnail(bytes, kept.as_ref().map_or(1, |kept| kept.orientation), 32);
    }
    kept.map(|kept| (kept, copy))
}

fn pictures() -> Vec<Vec<u8>> {
    DRAWN.iter().map(|(_, bytes)| bytes.to_vec()).chain([talkative()]).collect()
}

/// One small file of every other kind, with EXIF.
fn others() -> Vec<Vec<u8>> {
    let (picture, exif) = (scene(48, 32), dated(6).tiff());
    let text = "<rdf:Description tiff:Orientation=\"6\"/>";
    vec![
        png(&picture, Some(&exif)),
        png_with(
            &picture,
            &[("XML:com.adobe.xmp", text), ("Raw profile type exif", "\nexif\n 4\n4578\n")],
            None,
        ),
        webp(&picture, Some(&exif)),
        heic(4032, 3024, 1, &exif),
    ]
}

/// Files of a folder in `fuzz/corpus`, in the order of their names.
fn corpus(target: &str) -> Vec<Vec<u8>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fuzz/corpus").join(target);
    let mut files: Vec<_> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files.iter().map(|file| std::fs::read(file).unwrap()).collect()
}

/// Ten seconds of files bent at random places by a fixed seed: bytes changed, parts taken out, doubled and swapped
/// between files. The same seed bends the same way, so a failure can be had again. Returns how many were bent.
fn ten_seconds(files: &[Vec<u8>], law: fn(&[u8])) -> u64 {
    let mut state = 0x5eed_u64;
    let mut draw = |below: usize| {
        // SplitMix64 (Steele, Lea, Flood 2014).
        state = state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = state;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % below.max(1) as u64) as usize
    };
    #[allow(clippy::disallowed_methods, reason = "a test may take as long as it says")]
    let start = std::time::Instant::now();
    let mut bent = 0;
    while start.elapsed().as_secs() < 10 {
        let mut file = files[draw(files.len())].clone();
        for _ in 0..=draw(4) {
            if file.is_empty() {
                break;
            }
            let at = draw(file.len());
            let length = draw(24).min(file.len() - at);
            match draw(6) {
                0 => file[at] = draw(256) as u8,
                1 => file[at] ^= 1 << draw(8),
                2 => drop(file.drain(at..at + length)),
                3 => {
                    let part = file[at..at + length].to_vec();
                    let to = draw(file.len());
                    file.splice(to..to, part);
                }
                4 => {
                    let other = &files[draw(files.len())];
                    let from = draw(other.len());
                    let part = other[from..(from + length).min(other.len())].to_vec();
                    file.splice(at..at + length, part);
                }
                _ => file[at..at + length].fill([0, 0xff, 0x80][draw(3)]),
            }
        }
        law(&file);
        bent += 1;
    }
    bent
}

#[test]
fn ten_seconds_of_bent_files_never_panic_and_their_copies_hold_no_place() {
    let files: Vec<Vec<u8>> = pictures().into_iter().chain(others()).chain(corpus("intake")).collect();
    let bent = ten_seconds(&files, taken_in);
    assert!(bent > 100, "{bent} files in ten seconds");
}

#[test]
fn ten_seconds_of_bent_exif_never_panic_and_never_refuse_the_picture() {
    let bent = ten_seconds(&corpus("exif"), any_exif);
    assert!(bent > 100, "{bent} blocks in ten seconds");
}

/// The corpus of the fuzz targets begins with a file of every kind and holds what was found with them.
/// `UPDATE_CORPUS=1` writes the beginning anew.
#[test]
fn the_corpus_begins_with_one_file_of_every_kind_and_holds_every_case_that_was_found() {
    let kinds = ["jpeg-progressive", "jpeg-restarts", "jpeg-grey", "jpeg-cmyk", "jpeg-talkative"];
    let intake = kinds.iter().zip(pictures());
    let other = ["png-exif", "png-texts", "webp", "heic"].iter().zip(others());
    let exif = [
        ("dated", dated(6).tiff()),
        ("located", Exif { gps: a_place(), ..dated(8) }.tiff()),
        ("big-endian", b"MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x06\0\0\0\0\0\0".to_vec()),
    ];
    #[allow(clippy::disallowed_methods, reason = "a test may be asked to write what it compares with")]
    let write = std::env::var_os("UPDATE_CORPUS").is_some();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fuzz/corpus");
    let all = intake.chain(other).map(|(name, bytes)| (format!("intake/{name}"), bytes));
    for (name, bytes) in all.chain(exif.into_iter().map(|(name, bytes)| (format!("exif/{name}"), bytes))) {
        let path = folder.join(&name);
        if write {
            std::fs::write(&path, &bytes).unwrap();
        }
        // Another version of an encoder writes other bytes; that the file is there and holds is what counts.
        assert!(path.is_file(), "{name}: UPDATE_CORPUS=1 writes it");
    }
    corpus("intake").iter().for_each(|file| taken_in(file));
    corpus("exif").iter().for_each(|block| any_exif(block));
}

#[test]
fn every_single_byte_of_the_other_kinds_may_be_wrong() {
    for mut file in others() {
        for place in 0..file.len() {
            let right = file[place];
            for wrong in [right ^ 0xff, right ^ 1, 0] {
                file[place] = wrong;
                taken_in(&file);
            }
            file[place] = right;
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, ..ProptestConfig::default() })]

    #[test]
    fn random_bytes_never_panic(bytes in prop::collection::vec(any::<u8>(), 0..400), jpeg in any::<bool>()) {
        let bytes = if jpeg { [&[0xff, 0xd8, 0xff], bytes.as_slice()].concat() } else { bytes };
        everything(&bytes);
    }

    #[test]
    fn random_exif_never_panics_and_never_refuses_the_picture(
        mut tiff in prop::collection::vec(prop_oneof![0..16_u8, any::<u8>()], 8..600),
        big in any::<bool>(),
    ) {
        let head: &[u8; 8] = if big { b"MM\0*\0\0\0\x08" } else { b"II*\0\x08\0\0\0" };
        tiff[..8].copy_from_slice(head);
        let file = crate::support::with_exif(DRAWN[1].1, &tiff);
        let (kept, copy) = everything(&file).unwrap();
        prop_assert_eq!((kept.stored_width, kept.stored_height), (48, 32));
        prop_assert!((1..=8).contains(&kept.orientation));
        prop_assert!(!intake(&copy.unwrap(), "copy").unwrap().gps_present);
    }

    #[test]
    fn damaged_pictures_never_panic_and_their_copies_tell_nothing(
        which in 0..5_usize,
        hits in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
        cut in prop::option::weighted(0.2, any::<prop::sample::Index>()),
    ) {
        let mut file = pictures().swap_remove(which);
        for (place, value) in hits {
            let place = place.index(file.len());
            file[place] = value;
        }
        if let Some(cut) = cut {
            file.truncate(cut.index(file.len()));
        }
        if let Some((_, Some(copy))) = everything(&file) {
            let again = intake(&copy, "copy").unwrap();
            prop_assert!(!again.gps_present);
            tells_nothing_and_shows_the_same(&file, &copy);
            prop_assert_eq!(&without_location(&copy).unwrap(), &copy);
        }
    }
}

/// A copy may mend a file that could not be decoded, but never changes the pixels of one that could.
fn tells_nothing_and_shows_the_same(file: &[u8], copy: &[u8]) {
    assert!(!copy.windows(6).any(|window| window == b"SECRET"), "told: {file:02x?}");
    let kept = intake(copy, "copy").unwrap();
    // Extra data behind the first scan, made here out of a table by damage: the copy is without it, and a decoder
    // that has lost its way in the wrongly coded scan before it may find back at another place.
    let scan = file.windows(2).position(|window| window == [0xff, 0xda]).unwrap();
    if file[scan..].windows(2).any(|window| window[0] == 0xff && matches!(window[1], 0xe0..=0xef | 0xfe)) {
        return;
    }
    if u64::from(kept.width) * u64::from(kept.height) < 1_000_000 {
        let decode = |bytes: &[u8]| image::load_from_memory_with_format(bytes, image::ImageFormat::Jpeg).ok();
        if let Some(before) = decode(file) {
            assert!(decode(copy) == Some(before), "other pixels: {file:02x?}");
        }
    }
}

#[test]
fn every_marker_may_be_any_other() {
    for mut file in pictures() {
        let markers: Vec<usize> = (1..file.len()).filter(|&place| file[place - 1] == 0xff).collect();
        for place in markers {
            let right = file[place];
            for wrong in 0..=255 {
                file[place] = wrong;
                if let Some((_, Some(copy))) = everything(&file) {
                    tells_nothing_and_shows_the_same(&file, &copy);
                }
            }
            file[place] = right;
        }
    }
}

#[test]
fn every_single_byte_of_every_picture_may_be_wrong() {
    for mut file in pictures() {
        for place in 0..file.len() {
            let right = file[place];
            for wrong in [right ^ 0xff, right ^ 1] {
                file[place] = wrong;
                if let Some((_, Some(copy))) = everything(&file) {
                    assert!(
                        !copy.windows(6).any(|window| window == b"SECRET"),
                        "byte {place} made {wrong:#x}"
                    );
                }
            }
            file[place] = right;
        }
    }
}
