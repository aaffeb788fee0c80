//! HEIC becomes previews where this is built with the feature `heic`. Real files of phones and cameras come with
//! `scripts/photographs.sh`, and with it pillow-heif, whose decoder (libheif) shares no code with the one here.
#![cfg(feature = "heic")]

use std::process::Command;

use photo::{Problem, intake, previews, thumbnail};

use crate::real::heics;
use crate::support::{dated, heic, pixels};

/// Python with pillow-heif, where the test run has prepared one.
#[allow(clippy::disallowed_methods, reason = "a test may ask which Python the test run has prepared")]
fn other_decoder() -> Option<std::ffi::OsString> {
    std::env::var_os("UNDERLATH_TEST_HEIF_PYTHON")
}

/// Upright in sRGB at the size asked for, as rows of red, green and blue.
const OTHER: &str = "import io, sys
import pillow_heif
from PIL import Image, ImageCms
pillow_heif.register_heif_opener()
source, wide, high, into = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), sys.argv[4]
picture = Image.open(source)
profile = picture.info.get('icc_profile')
if picture.mode != 'RGB':
    white = Image.new('RGBA', picture.size, 'white')
    white.alpha_composite(picture.convert('RGBA'))
    picture = white.convert('RGB')
if profile:
    picture = ImageCms.profileToProfile(picture, ImageCms.ImageCmsProfile(io.BytesIO(profile)), ImageCms.createProfile('sRGB'))
picture = picture.resize((wide, high), Image.Resampling.BOX)
open(into, 'wb').write(picture.tobytes())
";

#[test]
fn what_is_decoded_is_upright_and_what_another_decoder_sees() {
    let (python, mut decoded) = (other_decoder(), 0);
    for (name, bytes) in heics() {
        let kept = intake(&bytes, &name).unwrap();
        let small = match thumbnail(&bytes, kept.orientation, 256) {
            Ok(small) => pixels(&small).to_rgb8(),
            Err(refused) => {
                println!("{name}: {} × {}: {refused}", kept.width, kept.height);
                assert!(matches!(refused.problem, Problem::Undecodable { .. }), "{name}");
                continue;
            }
        };
        decoded += 1;
        assert_eq!(small.width() > small.height(), kept.width > kept.height, "{name}: upright");
        assert_eq!(small.width().max(small.height()), 256.min(kept.width.max(kept.height)), "{name}");
        // What is missing of a file that stops early every decoder fills in its own way.
        let Some(python) = python.as_ref().filter(|_| kept.complaints.is_empty()) else { continue };
        let folder = tempfile::tempdir().unwrap();
        let (file, out) = (folder.path().join("a.heic"), folder.path().join("a.rgb"));
        std::fs::write(&file, &bytes).unwrap();
        let sides = [small.width().to_string(), small.height().to_string()];
        let run =
            Command::new(python).args(["-c", OTHER]).arg(&file).args(&sides).arg(&out).output().unwrap();
        assert!(run.status.success(), "{name}: {}", String::from_utf8_lossy(&run.stderr));
        let other = std::fs::read(&out).unwrap();
        assert_eq!(other.len(), small.as_raw().len(), "{name}");
        let apart: u64 = small.as_raw().iter().zip(&other).map(|(a, b)| u64::from(a.abs_diff(*b))).sum();
        let mean = apart as f64 / other.len() as f64;
        let shift = [0, 1, 2].map(|channel| {
            let of = |rgb: &[u8]| rgb.chunks_exact(3).map(|p| f64::from(p[channel])).sum::<f64>();
            (of(small.as_raw()) - of(&other)) / (other.len() / 3) as f64
        });
        println!("{name}: {} × {}, {mean:.2} levels apart, shifted by {shift:.2?}", kept.width, kept.height);
        // JPEG at quality 82 and another way of shrinking: a few levels at edges. Another matrix or range, or a profile
        // that is passed over, shifts a channel; a picture on its side is twenty and more apart.
        assert!(mean < 6.0 && shift.iter().all(|s| s.abs() < 2.0), "{name}: {mean:.2}, {shift:.2?}");
    }
    if python.is_some() {
        assert!(decoded >= 8, "{decoded} decoded");
    }
}

#[test]
fn a_heic_cut_short_gives_no_picture_of_another_size() {
    for (name, bytes) in heics().into_iter().filter(|(_, bytes)| bytes.len() < 1_000_000) {
        for part in 1..16 {
            let cut = &bytes[..bytes.len() * part / 16];
            let Ok(kept) = intake(cut, &name) else { continue };
            let Ok(made) = previews(cut, kept.orientation) else { continue };
            let (width, height) = (made.screen.width, made.screen.height);
            assert_eq!(width.max(height), kept.width.max(kept.height).min(photo::SCREEN), "{name} {part}/16");
            assert_eq!(width > height, kept.width > kept.height, "{name} {part}/16");
        }
    }
}

#[test]
fn a_container_without_a_picture_is_refused_with_what_to_do() {
    let refused = previews(&heic(400, 300, 0, &dated(6).tiff()), 1).unwrap_err().problem;
    assert!(matches!(refused, Problem::Undecodable { .. }), "{refused}");
    let said = refused.to_string();
    assert!(said.contains("original is untouched") && said.contains("JPEG"), "{said}");
    // Too large by what it declares: not even tried.
    let kept = intake(&heic(12_000, 9_000, 0, &dated(1).tiff()), "large").unwrap();
    assert!(kept.no_preview.unwrap().to_string().contains("memory"));
}
