//! Decoding of HEIC, where the program is built with the feature `heic`.
//!
//! `heic-decoder` does it: pure Rust without unsafe code, so that every platform builds it without a second tool chain.
//! It is young, and so nothing it says is taken on trust: what a file declares is held against the limits before it is
//! asked, and a picture that comes out in another size than declared, cropped and turned, is refused.

use heic_decoder::{ColorInfo, DecodeOptions, RgbOptions};
use moxcms::ColorProfile;

use crate::blocks::Blocks;
use crate::color::Colors;
use crate::complaint::Reason;
use crate::error::Problem;
use crate::heif;
use crate::pixels::{Raw, cannot, flat};
use crate::size::{check_size, too_much_memory};

/// Bytes the decoder holds for each pixel, measured on the real files of the tests (`docs/photographs.md`): its samples
/// are 32-bit numbers, and a picture made of tiles is there twice.
const PER_PIXEL: u64 = 14;
/// The same where it also crops or mirrors the picture, for which it makes a copy.
const PER_PIXEL_MOVED: u64 = 20;
/// Primaries of Display P3 (ITU-T H.273 table 2), which phones name where they put no profile in.
const DISPLAY_P3: u16 = 12;

/// Bytes the decoder of a HEIC of this size holds.
pub(crate) fn heic_memory(found: &heif::Found) -> u64 {
    let each = if found.turned.is_some() { PER_PIXEL } else { PER_PIXEL_MOVED };
    (u64::from(found.width) * u64::from(found.height)).saturating_mul(each)
}

/// The picture, and the orientation under which it is stored: what the container says of turning it. EXIF's orientation
/// says the same once more and is not applied. Turning is done on the small picture; cropping and mirroring, which are
/// rare, by the decoder.
pub(crate) fn heic(bytes: &[u8], longest: u32) -> Result<(Raw, u8), Problem> {
    let found = heif::look_over(bytes)?;
    check_size(0, found.width, found.height)?;
    if let Some(reason) = too_much_memory(heic_memory(&found)) {
        return Err(Problem::Undecodable { reason });
    }
    let declared = found.shown();
    let info = heic_decoder::probe(bytes).map_err(cannot)?;
    // What is coded may be some rows larger than what is shown, and no more.
    let coded = info.coded_width as u64 * info.coded_height as u64;
    if coded > u64::from(found.width) * u64::from(found.height) * 2 {
        return Err(Problem::Undecodable { reason: Reason::TwoSizes });
    }
    agreed((info.width, info.height), declared)?;
    let options = DecodeOptions { apply_transforms: found.turned.is_none() };
    let picture = heic_decoder::decode_with(bytes, &options).map_err(cannot)?;
    let expected = if options.apply_transforms { declared } else { (found.width, found.height) };
    agreed((picture.width, picture.height), expected)?;
    let profile = picture.metadata.icc_profile.clone().or_else(|| {
        let named = picture.color_info.is_some_and(|color| color.color_primaries == DISPLAY_P3);
        named.then(|| ColorProfile::new_display_p3().encode().ok()).flatten()
    });
    let colors = RgbOptions { color: Some(labeled(picture.color_info)), ..RgbOptions::default() };
    let (channels, samples) = match picture.alpha {
        Some(_) => (4, picture.to_rgba8_with_options(&colors).map_err(cannot)?.data),
        None => (3, picture.to_rgb8_with_options(&colors).map_err(cannot)?.data),
    };
    drop(picture);
    let mut blocks = Blocks::new(expected.0, expected.1, longest);
    for row in samples.chunks_exact(expected.0 as usize * channels) {
        blocks.row(&flat(row, channels));
    }
    let (width, height, samples) = blocks.done();
    Ok((Raw { width, height, samples, colors: Colors::Rgb, profile }, found.turned.unwrap_or(1)))
}

/// How the samples are meant. A file that names no matrix means that of BT.601, as libheif takes it too; the decoder
/// would take BT.709, three levels off.
fn labeled(said: Option<ColorInfo>) -> ColorInfo {
    const UNSAID: u16 = 2; // ITU-T H.273 table 4
    const BT_601: u16 = 6;
    let said = said.unwrap_or(ColorInfo { matrix_coefficients: UNSAID, ..ColorInfo::default() });
    match said.matrix_coefficients {
        UNSAID => ColorInfo { matrix_coefficients: BT_601, ..said },
        _ => said,
    }
}

fn agreed(found: (usize, usize), declared: (u32, u32)) -> Result<(), Problem> {
    let declared = (declared.0 as usize, declared.1 as usize);
    if found == declared {
        return Ok(());
    }
    let (width, height) = found;
    Err(cannot(format!("it declares {} × {} pixels and holds {width} × {height}", declared.0, declared.1)))
}
