//! The rising curve that fits outcomes best: weighted least squares by pooling adjacent violators (M. Ayer and others,
//! Annals of Mathematical Statistics 26, 1955), straight between its corners and level outside them.

use super::truth;

/// A curve from forecast to share, never falling.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Isotonic {
    /// Forecasts at the corners, rising.
    pub x_thresholds: Vec<f64>,
    /// Shares at the corners, in [0, 1], never falling.
    pub y_thresholds: Vec<f64>,
}

impl Isotonic {
    /// Fits outcomes over forecasts; one weight a case, and a case without a positive weight is left out. Equal
    /// forecasts are first replaced by their weighted mean. `None` if no case is left.
    pub fn fit(p: &[f64], y: &[bool], weights: &[f64]) -> Option<Self> {
        let mut cases: Vec<(f64, f64, f64)> = p
            .iter()
            .zip(y)
            .zip(weights)
            .filter(|(_, w)| **w > 0.0)
            .map(|((p, y), w)| (*p, truth(*y), *w))
            .collect();
        cases.sort_by(|a, b| a.0.total_cmp(&b.0));
        let points: Vec<(f64, Block)> = cases
            .chunk_by(|a, b| a.0 == b.0)
            .map(|tied| {
                let weight = tied.iter().map(|c| c.2).sum();
                (tied[0].0, Block { sum: tied.iter().map(|c| c.1 * c.2).sum(), weight, points: 1 })
            })
            .collect();
        let mut blocks: Vec<Block> = Vec::new();
        for (_, point) in &points {
            let mut block = *point;
            while let Some(before) = blocks.pop_if(|before| before.mean() >= block.mean()) {
                block = Block {
                    sum: before.sum + block.sum,
                    weight: before.weight + block.weight,
                    points: before.points + block.points,
                };
            }
            blocks.push(block);
        }
        let mut curve = Self::default();
        let mut start = 0;
        for block in blocks {
            // Only the ends of a level stretch are corners.
            for at in [start, start + block.points - 1].into_iter().take(block.points) {
                curve.x_thresholds.push(points[at].0);
                curve.y_thresholds.push(block.mean().clamp(0.0, 1.0));
            }
            start += block.points;
        }
        (start > 0).then_some(curve)
    }

    /// The share that the curve gives a forecast.
    pub fn at(&self, p: f64) -> f64 {
        let (x, y) = (&self.x_thresholds, &self.y_thresholds);
        let above = x.partition_point(|x| *x < p);
        match (above.checked_sub(1), y.get(above)) {
            (None, Some(first)) => *first,
            (Some(below), Some(upper)) => {
                let share = (p - x[below]) / (x[above] - x[below]);
                if share >= 1.0 { *upper } else { y[below] + share * (upper - y[below]) }
            }
            (_, None) => y.last().copied().unwrap_or(f64::NAN),
        }
    }
}

#[derive(Clone, Copy)]
struct Block {
    sum: f64,
    weight: f64,
    points: usize,
}

impl Block {
    fn mean(&self) -> f64 {
        self.sum / self.weight
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn violators_are_pooled_by_weight_and_the_curve_is_straight_between_corners() {
        // By hand: outcomes 0, 1, 0, 1 at 0.1, 0.2, 0.4, 0.8 with weights 1, 1, 3, 1: the middle two pool to 1/4.
        let y = [false, true, false, true];
        let curve = Isotonic::fit(&[0.1, 0.2, 0.4, 0.8], &y, &[1.0, 1.0, 3.0, 1.0]).unwrap();
        assert_eq!(curve.x_thresholds, [0.1, 0.2, 0.4, 0.8]);
        assert_eq!(curve.y_thresholds, [0.0, 0.25, 0.25, 1.0]);
        assert!((curve.at(0.6) - 0.625).abs() < 1e-15);
        assert_eq!((curve.at(0.0), curve.at(0.3), curve.at(1.0)), (0.0, 0.25, 1.0));
        assert_eq!(Isotonic::fit(&[0.3], &[true], &[0.0]), None);
    }
}
