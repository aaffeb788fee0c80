//! Making a picture smaller: whole blocks are averaged first, then the rest of the way is resampled.
//!
//! Resampling a full photograph directly costs twice its decoding; averaging blocks costs a fraction of it and keeps
//! thin lines, such as a tape's marks, from breaking up. Integers only, so every processor makes the same picture.

use image::{DynamicImage, GrayImage, RgbImage};

/// The picture with its longer side at most `longest` pixels, never enlarged, in grey or RGB.
pub(crate) fn shrink(picture: DynamicImage, longest: u32) -> DynamicImage {
    let (width, height) = (picture.width(), picture.height());
    let long = width.max(height);
    let picture = match picture {
        DynamicImage::ImageLuma8(grey) => grey_blocks(grey, block(long, longest)),
        other => rgb_blocks(other.into_rgb8(), block(long, longest)),
    };
    if long <= longest {
        return picture;
    }
    let scaled = |side: u32| {
        let exact = (u64::from(side) * u64::from(longest) + u64::from(long) / 2) / u64::from(long);
        u32::try_from(exact).unwrap_or(longest).max(1)
    };
    picture.thumbnail_exact(scaled(width), scaled(height))
}

/// Side of the blocks that may be averaged so that at least twice the wanted size is left to resample.
fn block(long: u32, longest: u32) -> u32 {
    (long / longest.saturating_mul(2)).max(1)
}

fn grey_blocks(picture: GrayImage, block: u32) -> DynamicImage {
    if block == 1 {
        return DynamicImage::ImageLuma8(picture);
    }
    let (width, height) = (picture.width().div_ceil(block), picture.height().div_ceil(block));
    let means = means::<1>(picture.as_raw(), picture.width(), block);
    DynamicImage::ImageLuma8(GrayImage::from_raw(width, height, means).unwrap_or(picture))
}

fn rgb_blocks(picture: RgbImage, block: u32) -> DynamicImage {
    if block == 1 {
        return DynamicImage::ImageRgb8(picture);
    }
    let (width, height) = (picture.width().div_ceil(block), picture.height().div_ceil(block));
    let means = means::<3>(picture.as_raw(), picture.width(), block);
    DynamicImage::ImageRgb8(RgbImage::from_raw(width, height, means).unwrap_or(picture))
}

/// The rounded mean of every block, row by row; blocks at the right and lower edge may be smaller.
fn means<const CHANNELS: usize>(samples: &[u8], width: u32, block: u32) -> Vec<u8> {
    let (block, row) = (block as usize, width as usize * CHANNELS);
    let mut out = Vec::with_capacity(samples.len() / (block * block) + row);
    let mut sums: Vec<[u64; CHANNELS]> = vec![[0; CHANNELS]; (width as usize).div_ceil(block)];
    for band in samples.chunks(row * block) {
        sums.fill([0; CHANNELS]);
        for line in band.chunks_exact(row) {
            for (sum, part) in sums.iter_mut().zip(line.chunks(block * CHANNELS)) {
                for pixel in part.chunks_exact(CHANNELS) {
                    for (total, value) in sum.iter_mut().zip(pixel) {
                        *total += u64::from(*value);
                    }
                }
            }
        }
        let lines = (band.len() / row) as u64;
        for (place, sum) in sums.iter().enumerate() {
            let columns = block.min(width as usize - place * block) as u64;
            let count = lines * columns;
            out.extend(sum.iter().map(|total| ((total + count / 2) / count) as u8));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_are_averaged_and_the_smaller_ones_at_the_edge_by_their_own_count() {
        // Five columns and three rows, blocks of two.
        let samples = [0, 10, 20, 30, 7, 10, 20, 30, 40, 8, 100, 200, 50, 51, 255];
        assert_eq!(means::<1>(&samples, 5, 2), [10, 30, 8, 150, 51, 255]);
        let colors: Vec<u8> = samples.iter().flat_map(|&value| [value, 0, 255 - value]).collect();
        let expected = [10, 30, 8, 150, 51, 255].map(|mean: u8| [mean, 0, 255 - mean]);
        let found = means::<3>(&colors, 5, 2);
        // Rounding half up on both a value and its complement may differ by one.
        for (found, expected) in found.iter().zip(expected.as_flattened()) {
            assert!(found.abs_diff(*expected) <= 1);
        }
    }

    #[test]
    fn sizes_keep_the_ratio_and_never_grow() {
        for (size, longest, expected) in [
            ((4032, 3024), 320, (320, 240)),
            ((3024, 4032), 320, (240, 320)),
            ((321, 200), 320, (320, 199)),
            ((100, 50), 320, (100, 50)),
            ((1000, 20), 10, (10, 1)),
            ((7, 7), 1, (1, 1)),
        ] {
            let flat = DynamicImage::ImageLuma8(GrayImage::from_pixel(size.0, size.1, image::Luma([77])));
            let small = shrink(flat, longest);
            assert_eq!((small.width(), small.height()), expected, "{size:?} to {longest}");
            assert!(small.to_luma8().iter().all(|&value| value == 77));
        }
    }
}
