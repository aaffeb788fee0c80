//! Pictures of 48 megapixels become previews within 200 MB of memory, the file itself included: what the system says of
//! a program that does nothing else.

use std::path::{Path, PathBuf};
use std::process::Command;

use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

const WIDE: u32 = 8064;
const HIGH: u32 = 6048;
/// Megabytes.
const LIMIT: u64 = 200;

#[allow(clippy::disallowed_methods, reason = "the test runs itself again and must tell the child so")]
fn asked() -> Option<PathBuf> {
    std::env::var_os("UNDERLATH_TEST_CHILD").map(PathBuf::from)
}

/// Most memory this process has held, in megabytes.
fn held() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap();
    let line = status.lines().find(|line| line.starts_with("VmHWM:")).unwrap();
    line.split_whitespace().nth(1).unwrap().parse::<u64>().unwrap() / 1000
}

/// Does the work when the test below asks for it in another process.
#[test]
fn child() {
    let Some(file) = asked() else { return };
    let bytes = std::fs::read(file).unwrap();
    let kept = photo::intake(&bytes, "large").unwrap();
    let made = photo::previews(&bytes, kept.orientation).unwrap();
    assert_eq!((made.screen.width, made.screen.height), (1600, 1200));
    println!("held {} MB", held());
}

fn picture() -> Vec<u8> {
    let pixel = |n: u32| {
        let (x, y) = (n % WIDE, n / WIDE);
        // Blocks and a little unrest, so that the file has the size of a photograph.
        let value = (x / 500 * 40 + y / 300 * 17 + (x * 7 + y * 13) % 11) as u8;
        [value, value.wrapping_add(20), 200 - value / 2]
    };
    (0..WIDE * HIGH).flat_map(pixel).collect()
}

fn jpeg(rgb: &[u8], progressive: bool) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = Encoder::new(&mut out, 90);
    encoder.set_sampling_factor(SamplingFactor::F_2_2);
    encoder.set_progressive(progressive);
    encoder.encode(rgb, WIDE as u16, HIGH as u16, ColorType::Rgb).unwrap();
    out
}

fn png(rgb: &[u8]) -> Vec<u8> {
    let mut out = Vec::new();
    let mut encoder = ::png::Encoder::new(&mut out, WIDE, HIGH);
    encoder.set_color(::png::ColorType::Rgb);
    encoder.set_compression(::png::Compression::Fast);
    encoder.write_header().unwrap().write_image_data(rgb).unwrap();
    out
}

#[test]
#[cfg_attr(not(target_os = "linux"), ignore = "asks the system how Linux tells it")]
fn forty_eight_megapixels_take_less_than_200_megabytes() {
    let folder = tempfile::tempdir().unwrap();
    let rgb = picture();
    let files: [(&str, Vec<u8>); 3] =
        [("baseline.jpg", jpeg(&rgb, false)), ("progressive.jpg", jpeg(&rgb, true)), ("rows.png", png(&rgb))];
    drop(rgb);
    for (name, bytes) in files {
        let path = folder.path().join(name);
        std::fs::write(&path, &bytes).unwrap();
        let held = ask(&path);
        println!("{name}: {held} MB, of which the file {} MB", bytes.len() / 1_000_000);
        assert!(held < LIMIT, "{name}: {held} MB");
    }
}

fn ask(file: &Path) -> u64 {
    let output = Command::new(std::env::current_exe().unwrap())
        .args(["memory::child", "--exact", "--nocapture", "--test-threads=1"])
        .env("UNDERLATH_TEST_CHILD", file)
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout).into_owned();
    let held = said.lines().find_map(|line| line.split("held ").nth(1)?.strip_suffix(" MB")?.parse().ok());
    held.unwrap_or_else(|| panic!("{said}{}", String::from_utf8_lossy(&output.stderr)))
}
