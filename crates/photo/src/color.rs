//! From the colors a camera or scanner wrote to sRGB, by the profile inside the file (ICC.1:2022).
//!
//! moxcms does the arithmetic: pure Rust, kept well, already here through the decoders. A profile that cannot be used
//! is passed over, and the numbers are taken for sRGB as every viewer does.

use moxcms::{ColorProfile, DataColorSpace, Layout, TransformOptions};

/// What the samples are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Colors {
    Grey,
    Rgb,
    /// 0 is no ink.
    Cmyk,
}

/// The samples as red, green and blue in sRGB.
pub(crate) fn to_srgb(samples: Vec<u8>, colors: Colors, profile: Option<&[u8]>) -> Vec<u8> {
    if let Some(converted) = profile.and_then(|profile| converted(&samples, colors, profile)) {
        return converted;
    }
    match colors {
        Colors::Rgb => samples,
        Colors::Grey => samples.iter().flat_map(|&grey| [grey; 3]).collect(),
        // Without a profile: inks as ideal filters over each other (common practice, no source).
        Colors::Cmyk => {
            let through = |ink: u8, black: u8| {
                let (ink, black) = (u32::from(255 - ink), u32::from(255 - black));
                ((ink * black + 127) / 255) as u8
            };
            let pixels = samples.chunks_exact(4);
            pixels.flat_map(|p| [through(p[0], p[3]), through(p[1], p[3]), through(p[2], p[3])]).collect()
        }
    }
}

fn converted(samples: &[u8], colors: Colors, profile: &[u8]) -> Option<Vec<u8>> {
    let profile = ColorProfile::new_from_slice(profile).ok()?;
    let (space, layout, channels) = match colors {
        Colors::Grey => (DataColorSpace::Gray, Layout::Gray, 1),
        Colors::Rgb => (DataColorSpace::Rgb, Layout::Rgb, 3),
        Colors::Cmyk => (DataColorSpace::Cmyk, Layout::Rgba, 4),
    };
    if profile.color_space != space {
        return None;
    }
    let srgb = ColorProfile::new_srgb();
    let transform =
        profile.create_transform_8bit(layout, &srgb, Layout::Rgb, TransformOptions::default()).ok()?;
    let mut out = vec![0; samples.len() / channels * 3];
    transform.transform(samples, &mut out).ok()?;
    Some(out)
}
