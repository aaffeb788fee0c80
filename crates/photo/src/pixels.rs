//! From the file to a small upright sRGB picture: decoded as small as the decoder can, shrunk, colored, turned.
//!
//! Whole pictures are never held where it can be helped: a JPEG is decoded at an eighth, a quarter or half its size
//! straight from its coefficients, a PNG is averaged row by row.

use std::io::Cursor;

use fast_image_resize::images::{TypedImage, TypedImageRef};
use fast_image_resize::pixels::U8x3;
use fast_image_resize::{FilterType, ResizeAlg, ResizeOptions, Resizer};
use image::ImageDecoder as _;
use jpeg_decoder::PixelFormat;

use crate::color::{Colors, to_srgb};
use crate::complaint::Reason;
use crate::error::{Problem, tidy};
use crate::intake::Format;
use crate::jpeg::declared_frame;
use crate::size::{MAX_MEMORY, too_much_memory};
use crate::{blocks::Blocks, heif, png, turn, webp};

/// Rows of red, green and blue, eight bits each.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Pixels {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) rgb: Vec<u8>,
}

/// What a decoder gave, and how its colors are meant.
pub(crate) struct Raw {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) samples: Vec<u8>,
    pub(crate) colors: Colors,
    pub(crate) profile: Option<Vec<u8>>,
}

/// The photograph upright in sRGB, its longer side at most `longest` and never enlarged.
#[cfg_attr(
    not(feature = "heic"),
    allow(unused_mut, reason = "the container of a HEIC says how it is turned")
)]
pub(crate) fn small(bytes: &[u8], mut orientation: u8, longest: u32) -> Result<Pixels, Problem> {
    let raw = match Format::of(bytes)? {
        Format::Jpeg => jpeg(bytes, longest)?,
        Format::Png => png(bytes, longest)?,
        Format::WebP => webp(bytes, longest)?,
        #[cfg(feature = "heic")]
        Format::Heic => {
            let (raw, turned) = crate::heic::heic(bytes, longest)?;
            orientation = turned;
            raw
        }
        #[cfg(not(feature = "heic"))]
        Format::Heic => {
            heif::look_over(bytes)?;
            return Err(Problem::Undecodable { reason: Reason::NotDecoded { kind: "HEIC" } });
        }
        Format::Avif => {
            heif::look_over(bytes)?;
            return Err(Problem::Undecodable { reason: Reason::NotDecoded { kind: "AVIF" } });
        }
    };

    let (width, height) = fitted(raw.width, raw.height, longest);
    let (from, to, profile) = ((raw.width, raw.height), (width, height), raw.profile.as_deref());
    let rgb = match raw.colors {
        // Fewer pixels to convert.
        Colors::Rgb => to_srgb(resized(raw.samples, from, to)?, Colors::Rgb, profile),
        other => resized(to_srgb(raw.samples, other, profile), from, to)?,
    };
    Ok(turn::upright(Pixels { width, height, rgb }, orientation))
}

/// A picture of this size made to fit, the sides in their ratio.
fn fitted(width: u32, height: u32, longest: u32) -> (u32, u32) {
    let long = width.max(height);
    if long <= longest {
        return (width, height);
    }
    let scaled = |side: u32| {
        let exact = (u64::from(side) * u64::from(longest) + u64::from(long) / 2) / u64::from(long);
        u32::try_from(exact).unwrap_or(longest).max(1)
    };
    (scaled(width), scaled(height))
}

impl Pixels {
    /// The picture made smaller so that its longer side is at most `longest`.
    pub(crate) fn smaller(&self, longest: u32) -> Result<Self, Problem> {
        let (width, height) = fitted(self.width, self.height, longest);
        let rgb = resized(self.rgb.clone(), (self.width, self.height), (width, height))?;
        Ok(Self { width, height, rgb })
    }
}

/// Resampled with a Catmull-Rom kernel as wide as the step, in integers, so that every processor gives the same. Said
/// for one kind of pixel: asked for any kind, the library would be compiled for all of them.
fn resized(samples: Vec<u8>, from: (u32, u32), to: (u32, u32)) -> Result<Vec<u8>, Problem> {
    if from == to {
        return Ok(samples);
    }
    let source = TypedImageRef::<U8x3>::from_buffer(from.0, from.1, &samples).map_err(cannot)?;
    let mut rgb = vec![0; to.0 as usize * to.1 as usize * 3];
    let mut out = TypedImage::<U8x3>::from_buffer(to.0, to.1, &mut rgb).map_err(cannot)?;
    let how =
        ResizeOptions::new().resize_alg(ResizeAlg::Convolution(FilterType::CatmullRom)).use_alpha(false);
    Resizer::new().resize_typed(&source, &mut out, &how).map_err(cannot)?;
    drop(out);
    Ok(rgb)
}

/// What a decoder said, as a problem.
pub(crate) fn cannot(e: impl std::fmt::Display) -> Problem {
    Problem::Undecodable { reason: Reason::Decoder(tidy(&e.to_string(), 200)) }
}

fn jpeg(bytes: &[u8], longest: u32) -> Result<Raw, Problem> {
    let frame = declared_frame(bytes)?;
    if let Some(reason) = frame.no_preview() {
        return Err(Problem::Undecodable { reason });
    }
    scaled_jpeg(bytes, (frame.width, frame.height), longest).or_else(|problem| {
        // A decoder that forgives more, at full size: files that stop early, tables that are slightly wrong.
        let bytes_held = u64::from(frame.width) * u64::from(frame.height) * 3;
        if bytes_held > MAX_MEMORY { Err(problem) } else { whole_jpeg(bytes, (frame.width, frame.height)) }
    })
}

fn scaled_jpeg(bytes: &[u8], declared: (u32, u32), longest: u32) -> Result<Raw, Problem> {
    let mut decoder = jpeg_decoder::Decoder::new(bytes);
    decoder.read_info().map_err(cannot)?;
    let info = decoder.info().ok_or_else(|| cannot("it holds no frame"))?;
    agreed((info.width.into(), info.height.into()), declared)?;
    let (wide, high) = fitted(declared.0, declared.1, longest);
    let (mut width, mut height) = (info.width, info.height);
    // Asked for the size it has, the decoder may still halve a picture of a few pixels.
    if (wide, high) != declared {
        // Both fit: they are at most the declared sides, which are 16-bit numbers.
        (width, height) = decoder.scale(wide as u16, high as u16).map_err(cannot)?;
    }
    let samples = decoder.decode().map_err(cannot)?;
    let colors = match info.pixel_format {
        PixelFormat::L8 => Colors::Grey,
        PixelFormat::RGB24 => Colors::Rgb,
        PixelFormat::CMYK32 => Colors::Cmyk,
        PixelFormat::L16 => return Err(Problem::Undecodable { reason: Reason::Bits { bits: 16 } }),
    };
    let profile = decoder.icc_profile();
    Ok(Raw { width: width.into(), height: height.into(), samples, colors, profile })
}

fn whole_jpeg(bytes: &[u8], declared: (u32, u32)) -> Result<Raw, Problem> {
    let mut decoder = image::codecs::jpeg::JpegDecoder::new(Cursor::new(bytes)).map_err(cannot)?;
    agreed(decoder.dimensions(), declared)?;
    let profile = decoder.icc_profile().ok().flatten();
    let rgb = image::DynamicImage::from_decoder(decoder).map_err(cannot)?.into_rgb8();
    let (width, height) = rgb.dimensions();
    Ok(Raw { width, height, samples: rgb.into_raw(), colors: Colors::Rgb, profile })
}

/// A decoder may find another frame header than ours in a broken file.
fn agreed(found: (u32, u32), declared: (u32, u32)) -> Result<(), Problem> {
    if found == declared { Ok(()) } else { Err(Problem::Undecodable { reason: Reason::TwoSizes }) }
}

/// Bytes the decoder of a PNG holds: two rows, or everything when it is interlaced.
pub(crate) fn png_memory(header: &png::Header) -> u64 {
    let row = u64::from(header.width) * u64::from(header.channels);
    if header.interlaced { row * u64::from(header.height) } else { row * 4 }
}

fn png(bytes: &[u8], longest: u32) -> Result<Raw, Problem> {
    let header = png::header(bytes)?;
    if let Some(reason) = too_much_memory(png_memory(&header)) {
        return Err(Problem::Undecodable { reason });
    }
    let mut decoder =
        ::png::Decoder::new_with_limits(Cursor::new(bytes), ::png::Limits { bytes: MAX_MEMORY as usize });
    decoder.set_transformations(::png::Transformations::normalize_to_color8());
    decoder.set_ignore_text_chunk(true);
    let mut reader = decoder.read_info().map_err(cannot)?;
    let info = reader.info();
    agreed(info.size(), (header.width, header.height))?;
    let profile = info.icc_profile.as_ref().map(|profile| profile.to_vec());
    let (color, _) = reader.output_color_type();
    let channels = color.samples();
    let mut blocks = Blocks::new(header.width, header.height, longest);
    if header.interlaced {
        let length = reader.output_buffer_size().ok_or_else(|| cannot("it is too large"))?;
        let mut whole = vec![0; length];
        reader.next_frame(&mut whole).map_err(cannot)?;
        for row in whole.chunks_exact(header.width as usize * channels) {
            blocks.row(&flat(row, channels));
        }
    } else {
        let mut rows = 0;
        loop {
            match reader.next_row() {
                Ok(Some(row)) => blocks.row(&flat(row.data(), channels)),
                Ok(None) => break,
                // What came so far is shown, as with a JPEG that stops early.
                Err(_) if rows > 0 => break,
                Err(e) => return Err(cannot(e)),
            }
            rows += 1;
        }
    }
    let (width, height, samples) = blocks.done();
    // A profile of a grey picture is about one channel; by now there are three.
    let profile = profile.filter(|_| channels > 2);
    Ok(Raw { width, height, samples, colors: Colors::Rgb, profile })
}

/// Bytes the decoder of a WebP holds: the picture, and its planes or the four channels it is stored in.
pub(crate) fn webp_memory(header: &webp::Header) -> u64 {
    let pixels = u64::from(header.width) * u64::from(header.height);
    let out = if header.alpha { 4 } else { 3 };
    let inside = if header.lossless { 8 } else { 3 }; // halves of a byte
    pixels * out + pixels * inside / 2
}

fn webp(bytes: &[u8], longest: u32) -> Result<Raw, Problem> {
    let header = webp::header(bytes)?;
    if let Some(reason) = too_much_memory(webp_memory(&header)) {
        return Err(Problem::Undecodable { reason });
    }
    let mut decoder = image_webp::WebPDecoder::new(Cursor::new(bytes)).map_err(cannot)?;
    decoder.set_memory_limit(MAX_MEMORY as usize);
    agreed(decoder.dimensions(), (header.width, header.height))?;
    let profile = decoder.icc_profile().ok().flatten();
    let channels = if decoder.has_alpha() { 4 } else { 3 };
    let length = decoder.output_buffer_size().ok_or_else(|| cannot("it is too large"))?;
    let mut whole = vec![0; length];
    decoder.read_image(&mut whole).map_err(cannot)?;
    let mut blocks = Blocks::new(header.width, header.height, longest);
    for row in whole.chunks_exact(header.width as usize * channels) {
        blocks.row(&flat(row, channels));
    }
    let (width, height, samples) = blocks.done();
    Ok(Raw { width, height, samples, colors: Colors::Rgb, profile })
}

/// A row as red, green and blue; what is transparent lies on white, as on paper.
pub(crate) fn flat(row: &[u8], channels: usize) -> std::borrow::Cow<'_, [u8]> {
    let on_white = |value: u8, alpha: u8| {
        let (value, alpha) = (u32::from(value), u32::from(alpha));
        ((value * alpha + 255 * (255 - alpha) + 127) / 255) as u8
    };
    match channels {
        3 => row.into(),
        1 => row.iter().flat_map(|&grey| [grey; 3]).collect::<Vec<u8>>().into(),
        2 => {
            let pixels = row.chunks_exact(2);
            pixels.flat_map(|pixel| [on_white(pixel[0], pixel[1]); 3]).collect::<Vec<u8>>().into()
        }
        _ => {
            let pixels = row.chunks_exact(4);
            let flat =
                pixels.flat_map(|p| [on_white(p[0], p[3]), on_white(p[1], p[3]), on_white(p[2], p[3])]);
            flat.collect::<Vec<u8>>().into()
        }
    }
}
