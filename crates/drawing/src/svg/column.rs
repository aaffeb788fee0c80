//! Labels beside a drawing: each as near to its level as the others allow, with a leader where it had to move.

use alloc::{string::String, vec, vec::Vec};

use super::canvas::{Canvas, pitch};
use super::pens::{Letter, Pen};

/// Places for labels along a line, in the order given: `wanted` are centers and sizes. None overlap, none lies before
/// `least`; if they fit, none lies after `most`. The sum of squares of what they moved is the smallest possible.
pub(super) fn spread(wanted: &[(f64, f64)], least: f64, most: f64) -> Vec<f64> {
    /// Labels that touch each other.
    struct Cluster {
        labels: usize,
        size: f64,
        /// Sum over the labels of where the cluster would start if that label lay where it is wanted.
        starts: f64,
    }
    let mut order: Vec<usize> = (0..wanted.len()).collect();
    order.sort_by(|a, b| wanted[*a].0.total_cmp(&wanted[*b].0));
    let start = |c: &Cluster| {
        let mean = c.starts / c.labels as f64;
        libm::fmax(libm::fmin(mean, most - c.size), least)
    };
    let mut clusters: Vec<Cluster> = Vec::new();
    for &i in &order {
        let (center, size) = wanted[i];
        let mut last = Cluster { labels: 1, size, starts: center - size / 2.0 };
        while let Some(before) = clusters.pop() {
            if start(&before) + before.size <= start(&last) {
                clusters.push(before);
                break;
            }
            last = Cluster {
                labels: before.labels + last.labels,
                starts: before.starts + last.starts - before.size * last.labels as f64,
                size: before.size + last.size,
            };
        }
        clusters.push(last);
    }
    let mut places = vec![0.0; wanted.len()];
    let mut next = order.iter();
    let mut after = least;
    for cluster in &clusters {
        let mut at = libm::fmax(start(cluster), after);
        for &i in next.by_ref().take(cluster.labels) {
            places[i] = at + wanted[i].1 / 2.0;
            at += wanted[i].1;
        }
        after = at;
    }
    places
}

/// A label of some lines that belongs to a level.
pub(super) struct Block {
    /// Level it belongs to.
    pub(super) at: f64,
    pub(super) lines: Vec<(String, Letter)>,
    /// Where its leader starts, if it has one, and with what it is drawn.
    pub(super) leader: Option<(f64, Pen)>,
}

impl Block {
    pub(super) fn new(at: f64, lines: Vec<(String, Letter)>) -> Self {
        Self { at, lines, leader: None }
    }
    pub(super) fn led(self, from: f64, pen: Pen) -> Self {
        Self { leader: Some((from, pen)), ..self }
    }
    fn height(&self) -> f64 {
        self.lines.iter().map(|(_, l)| pitch(l.size)).sum::<f64>() + GAP
    }
}

/// Between two blocks.
const GAP: f64 = 6.0;
/// From the leader to its text.
const REACH: f64 = 5.0;

/// Letters blocks in a column whose texts are held at `x`; gives where the last one ends. Leaders come from the left
/// if the texts are held at their start, else from the right.
pub(super) fn column(c: &mut Canvas<'_>, x: f64, blocks: &[Block], least: f64, most: f64) -> f64 {
    let wanted: Vec<(f64, f64)> = blocks.iter().map(|b| (b.at, b.height())).collect();
    let places = spread(&wanted, least, most);
    let mut lowest = least;
    for (block, center) in blocks.iter().zip(&places) {
        let Some((_, first)) = block.lines.first() else { continue };
        if let Some((from, pen)) = block.leader {
            let tip = if from < x { x - REACH } else { x + REACH };
            // a level that still points at its label needs no slant
            let beside = libm::fabs(center - block.at) < (block.height() - GAP) / 2.0 - 3.0;
            c.line(from, block.at, tip, if beside { block.at } else { *center }, pen);
        }
        let mut y = center - (block.height() - GAP) / 2.0 - pitch(first.size) * 0.14;
        for (text, l) in &block.lines {
            y += pitch(l.size);
            c.text(x, y, text, l);
        }
        lowest = libm::fmax(lowest, y + 0.3 * first.size);
    }
    lowest
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn labels_that_do_not_touch_stay() {
        assert_eq!(spread(&[(10.0, 8.0), (40.0, 8.0)], 0.0, 100.0), [10.0, 40.0]);
    }

    #[test]
    fn two_at_one_place_part_evenly() {
        assert_eq!(spread(&[(50.0, 10.0), (50.0, 10.0)], 0.0, 100.0), [45.0, 55.0]);
    }

    proptest! {
        #[test]
        fn no_two_labels_overlap(
            wanted in prop::collection::vec((-500.0..900.0f64, 1.0..60.0f64), 0..40),
        ) {
            let places = spread(&wanted, 0.0, 400.0);
            let mut spans: Vec<(f64, f64)> =
                places.iter().zip(&wanted).map(|(p, (_, s))| (p - s / 2.0, p + s / 2.0)).collect();
            spans.sort_by(|a, b| a.0.total_cmp(&b.0));
            for pair in spans.windows(2) {
                prop_assert!(pair[0].1 <= pair[1].0 + 1e-6);
            }
            let total: f64 = wanted.iter().map(|w| w.1).sum();
            if let (Some(first), Some(last)) = (spans.first(), spans.last()) {
                prop_assert!(first.0 >= -1e-6);
                prop_assert!(total > 400.0 || last.1 <= 400.0 + 1e-6);
            }
        }
    }
}
