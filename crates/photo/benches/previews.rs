//! Both previews of many photographs, for `benches/peers/photographs.py`, which times this program beside others:
//!
//! `make FROM INTO COUNT` writes photographs of 12 megapixels, as phones store them, cut from the large JPEGs in FROM:
//! sensor-like noise, quality 94, color at half resolution, EXIF orientations 1, 6, 8, 3 in turn.
//! `previews THREADS FILE…` makes both previews of each and throws them away.
//! `parts FILE…` says where the time of a preview goes.
//! `formats INTO FILE…` writes each at 1600 pixels as PNG, and as what the encoders at hand make of it, for
//! `benches/peers/preview_formats.py`; prints bytes and milliseconds.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::print_stdout,
    reason = "a measuring program"
)]

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use image::{RgbImage, imageops};

const WIDE: u32 = 4032;
const HIGH: u32 = 3024;

fn main() {
    let words: Vec<String> = std::env::args().skip(1).filter(|word| word != "--bench").collect();
    match words.iter().map(String::as_str).collect::<Vec<_>>().as_slice() {
        ["make", from, into, count] => make(Path::new(from), Path::new(into), count.parse().unwrap()),
        ["previews", threads, files @ ..] => {
            let files: Vec<PathBuf> = files.iter().map(PathBuf::from).collect();
            previews(threads.parse().unwrap(), &files);
        }
        ["parts", files @ ..] => parts(files),
        ["formats", into, files @ ..] => formats(Path::new(into), files),
        _ => println!("scripts/bench.sh runs this"),
    }
}

fn previews(threads: usize, files: &[PathBuf]) {
    let next = AtomicUsize::new(0);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                while let Some(file) = files.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let bytes = std::fs::read(file).unwrap();
                    let kept = photo::intake(&bytes, "").unwrap();
                    let made = photo::previews(&bytes, kept.orientation).unwrap();
                    assert_eq!(made.screen.width.max(made.screen.height), photo::SCREEN);
                }
            });
        }
    });
}

/// Milliseconds since then.
fn since(start: std::time::Instant) -> f64 {
    start.elapsed().as_secs_f64() * 1000.0
}

fn now() -> std::time::Instant {
    #[allow(clippy::disallowed_methods, reason = "a measuring program")]
    std::time::Instant::now()
}

/// Sums of milliseconds for taking in, for the 320 alone (all the decoding, little else) and for both previews.
fn parts(files: &[&str]) {
    let (mut intake, mut list, mut both) = (0.0, 0.0, 0.0);
    for file in files {
        let bytes = std::fs::read(file).unwrap();
        let start = now();
        let kept = photo::intake(&bytes, "").unwrap();
        intake += since(start);
        let start = now();
        let small = photo::thumbnail(&bytes, kept.orientation, photo::LIST).unwrap();
        list += since(start);
        assert!(!small.is_empty());
        let start = now();
        let made = photo::previews(&bytes, kept.orientation).unwrap();
        both += since(start);
        assert!(!made.screen.jpeg.is_empty());
    }
    let each = |sum: f64| sum / files.len() as f64;
    println!("intake {:.1} ms, the 320 alone {:.1} ms, both {:.1} ms", each(intake), each(list), each(both));
}

fn formats(into: &Path, files: &[&str]) {
    std::fs::create_dir_all(into).unwrap();
    let kinds = ["png", "jpg", "webp"];
    let mut sums = kinds.map(|_| (0.0, 0));
    for (n, file) in files.iter().enumerate() {
        let picture = image::open(file).unwrap().into_rgb8();
        let (wide, high) = picture.dimensions();
        let long = f64::from(photo::SCREEN) / f64::from(wide.max(high));
        let side = |side: u32| (f64::from(side) * long).round() as u32;
        let small = imageops::resize(&picture, side(wide), side(high), imageops::FilterType::Lanczos3);
        let (wide, high) = small.dimensions();
        for (kind, sum) in kinds.iter().zip(&mut sums) {
            let mut out = Vec::new();
            let start = now();
            match *kind {
                "jpg" => jpeg_encoder::Encoder::new(&mut out, 82)
                    .encode(small.as_raw(), wide as u16, high as u16, jpeg_encoder::ColorType::Rgb)
                    .unwrap(),
                "webp" => image_webp::WebPEncoder::new(&mut out)
                    .encode(small.as_raw(), wide, high, image_webp::ColorType::Rgb8)
                    .unwrap(),
                _ => {
                    let mut encoder = png::Encoder::new(&mut out, wide, high);
                    encoder.set_color(png::ColorType::Rgb);
                    encoder.write_header().unwrap().write_image_data(small.as_raw()).unwrap();
                }
            }
            *sum = (sum.0 + since(start), sum.1 + out.len());
            std::fs::write(into.join(format!("{n:02}.{kind}")), out).unwrap();
        }
    }
    for (kind, (ms, bytes)) in kinds.iter().zip(sums) {
        let count = files.len();
        println!("{kind}: {:.1} ms, {} kB", ms / count as f64, bytes / count / 1000);
    }
}

fn large(folder: &Path, into: &mut Vec<PathBuf>) {
    let mut paths: Vec<PathBuf> =
        std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    for path in paths {
        if path.is_dir() {
            large(&path, into);
        } else if path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("jpg")) {
            let bytes = std::fs::read(&path).unwrap();
            let wide = |kept: photo::Intake| kept.stored_width >= WIDE && kept.stored_height >= HIGH;
            if photo::intake(&bytes, "").is_ok_and(wide) {
                into.push(path);
            }
        }
    }
}

fn make(from: &Path, into: &Path, count: usize) {
    let mut sources = Vec::new();
    large(from, &mut sources);
    assert!(!sources.is_empty(), "no JPEG of 12 megapixels in {}", from.display());
    std::fs::create_dir_all(into).unwrap();
    let pictures: Vec<RgbImage> = sources.iter().map(|path| image::open(path).unwrap().into_rgb8()).collect();
    let mut state = 1_u32;
    for n in 0..count {
        let picture = &pictures[n % pictures.len()];
        // Another part of the picture each time, as far as it reaches.
        let room = (picture.width() - WIDE, picture.height() - HIGH);
        let at = |room: u32| (room as usize * (n % 7) / 6) as u32;
        let mut cut = imageops::crop_imm(picture, at(room.0), at(room.1), WIDE, HIGH).to_image();
        for value in cut.iter_mut() {
            // The sum of three draws of -4 to 4 has the spread of a small sensor (about 4 levels).
            let mut noise = 0;
            for _ in 0..3 {
                state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                noise += (state >> 24) as i32 % 9 - 4;
            }
            *value = (i32::from(*value) + noise).clamp(0, 255) as u8;
        }
        let mut coded = Vec::new();
        let mut encoder = jpeg_encoder::Encoder::new(&mut coded, 94);
        encoder.set_sampling_factor(jpeg_encoder::SamplingFactor::F_2_2);
        encoder.encode(cut.as_raw(), WIDE as u16, HIGH as u16, jpeg_encoder::ColorType::Rgb).unwrap();
        let orientation = [1, 6, 8, 3][n % 4];
        let mut exif = b"\xff\xe1\0\x22Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0".to_vec();
        exif.extend([orientation, 0, 0, 0, 0, 0, 0]);
        coded.splice(2..2, exif);
        std::fs::write(into.join(format!("{n:02}.jpg")), coded).unwrap();
    }
}
