//! What a picture may declare before anything is decoded, and how much memory decoding may take.
//!
//! The limits are common practice, no source: they pass the largest pictures phones and cameras store and stop files
//! made to exhaust memory.

use crate::complaint::Reason;
use crate::error::Problem;

/// The most pixels a picture may declare. Phones store up to 200 million.
pub const MAX_PIXELS: u64 = 250_000_000;
/// How many times longer one side may be than the other.
pub const MAX_RATIO: u32 = 50;
/// The most bytes a decoder may hold for one picture; one that needs more is kept without a preview.
pub const MAX_MEMORY: u64 = 176_000_000;

/// Refuses a size that no camera stores or that would exhaust memory, by declaration alone. `at` is where it is
/// declared.
pub(crate) fn check_size(at: usize, width: u32, height: u32) -> Result<(), Problem> {
    let at = at as u64;
    if width == 0 || height == 0 {
        return Err(Problem::NoSize { at, width, height });
    }
    let pixels = u64::from(width) * u64::from(height);
    if pixels > MAX_PIXELS {
        return Err(Problem::TooManyPixels { at, width, height, pixels, limit: MAX_PIXELS });
    }
    if u64::from(width.max(height)) > u64::from(MAX_RATIO) * u64::from(width.min(height)) {
        return Err(Problem::TooNarrow { at, width, height, limit: MAX_RATIO });
    }
    Ok(())
}

/// Why a picture that needs this many bytes to decode gets no preview, if it gets none.
pub(crate) fn too_much_memory(bytes: u64) -> Option<Reason> {
    (bytes > MAX_MEMORY)
        .then_some(Reason::Memory { needed: bytes / 1_000_000, limit: MAX_MEMORY / 1_000_000 })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quarter_of_a_billion_pixels_pass_and_one_column_more_does_not() {
        assert!(check_size(2, 25_000, 10_000).is_ok());
        let refused = check_size(2, 25_001, 10_000).unwrap_err();
        let text = refused.to_string();
        assert!(matches!(refused, Problem::TooManyPixels { at: 2, pixels: 250_010_000, .. }), "{text}");
        assert!(text.contains("25001 × 10000") && text.contains("smaller"), "{text}");
        assert!(check_size(0, u32::MAX, u32::MAX).is_err());
    }

    #[test]
    fn no_size_and_needle_shapes_are_refused_by_declaration() {
        assert!(matches!(check_size(2, 0, 40), Err(Problem::NoSize { at: 2, .. })));
        assert!(check_size(0, 50, 1).is_ok());
        assert!(matches!(check_size(0, 51, 1), Err(Problem::TooNarrow { .. })));
        assert!(matches!(check_size(0, 3, 40_000), Err(Problem::TooNarrow { .. })));
    }
}
