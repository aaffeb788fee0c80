//! Averaging a picture down by whole blocks while its rows come in.
//!
//! Resampling a full photograph directly costs more than its decoding; averaging blocks costs a fraction of it and
//! keeps thin lines, such as a tape's marks, from breaking up. Integers only.

/// Takes in rows of red, green and blue and gives their blocks' rounded means; blocks at the right and lower edge may
/// be smaller.
pub(crate) struct Blocks {
    width: usize,
    height: usize,
    block: usize,
    sums: Vec<[u32; 3]>,
    /// Rows in the sums.
    rows: usize,
    /// Rows taken in.
    taken: usize,
    out: Vec<u8>,
}

impl Blocks {
    /// Blocks so large that at least twice the wanted size is left to resample.
    pub(crate) fn new(width: u32, height: u32, longest: u32) -> Self {
        let block = (width.max(height) / longest.saturating_mul(2).max(1)).clamp(1, 1024) as usize;
        let (width, height) = (width as usize, height as usize);
        let columns = width.div_ceil(block);
        let room = columns * height.div_ceil(block) * 3;
        Self {
            width,
            height,
            block,
            sums: vec![[0; 3]; columns],
            rows: 0,
            taken: 0,
            out: Vec::with_capacity(room),
        }
    }

    /// The next row; more rows than the height are passed over.
    pub(crate) fn row(&mut self, row: &[u8]) {
        if self.taken >= self.height {
            return;
        }
        self.taken += 1;
        if self.block == 1 {
            let mut row = row.get(..self.width * 3).unwrap_or(row).to_vec();
            row.resize(self.width * 3, 0);
            self.out.extend(row);
            return;
        }
        for (sum, part) in self.sums.iter_mut().zip(row.chunks(self.block * 3)) {
            for pixel in part.chunks_exact(3) {
                for (total, value) in sum.iter_mut().zip(pixel) {
                    *total += u32::from(*value);
                }
            }
        }
        self.rows += 1;
        if self.rows == self.block || self.taken == self.height {
            self.settle();
        }
    }

    fn settle(&mut self) {
        for (place, sum) in self.sums.iter_mut().enumerate() {
            let columns = self.block.min(self.width - place * self.block);
            let count = (self.rows * columns).max(1) as u32; // at most 1024 × 1024
            self.out.extend(sum.map(|total| ((total + count / 2) / count) as u8));
            *sum = [0; 3];
        }
        self.rows = 0;
    }

    /// Width, height and samples; rows that never came are grey.
    pub(crate) fn done(mut self) -> (u32, u32, Vec<u8>) {
        if self.rows > 0 {
            self.settle();
        }
        let (width, height) = (self.width.div_ceil(self.block), self.height.div_ceil(self.block));
        self.out.resize(width * height * 3, 128);
        (width as u32, height as u32, self.out)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn blocks_are_averaged_and_the_smaller_ones_at_the_edge_by_their_own_count() {
        // Five columns and three rows, blocks of two.
        let samples: [u8; 15] = [0, 10, 20, 30, 7, 10, 20, 30, 40, 8, 100, 200, 50, 51, 255];
        let mut blocks = Blocks::new(5, 3, 1);
        blocks.row(&samples[..5].iter().flat_map(|&v| [v, 0, 255 - v]).collect::<Vec<_>>());
        for row in samples[5..].chunks(5) {
            blocks.row(&row.iter().flat_map(|&v| [v, 0, 255 - v]).collect::<Vec<_>>());
        }
        let (width, height, found) = blocks.done();
        assert_eq!((width, height), (3, 2));
        let expected = [10, 30, 8, 150, 51, 255].map(|mean: u8| [mean, 0, 255 - mean]);
        // Rounding half up on both a value and its complement may differ by one.
        for (found, expected) in found.iter().zip(expected.as_flattened()) {
            assert!(found.abs_diff(*expected) <= 1, "{found} {expected}");
        }
    }

    #[test]
    fn a_picture_that_is_small_enough_passes_and_missing_rows_are_grey() {
        let mut blocks = Blocks::new(2, 2, 320);
        blocks.row(&[1, 2, 3, 4, 5, 6]);
        assert_eq!(blocks.done(), (2, 2, vec![1, 2, 3, 4, 5, 6, 128, 128, 128, 128, 128, 128]));
    }
}
