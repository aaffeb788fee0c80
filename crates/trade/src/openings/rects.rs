//! Rectangles in one plane: the area they cover together, counted once, and which of them hang together.

use alloc::{vec, vec::Vec};

/// Lengths that differ by less are one, in inches: far under what a tape shows, far over float error.
pub const HAIR: f64 = 1e-6;

/// A rectangle in a plane. Inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Rect {
    /// Left.
    pub x0: f64,
    /// Bottom.
    pub y0: f64,
    /// Right.
    pub x1: f64,
    /// Top.
    pub y1: f64,
}

impl Rect {
    /// From left, bottom, width and height.
    pub const fn at(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self { x0: x, y0: y, x1: x + width, y1: y + height }
    }
    /// Square inches; nothing for a rectangle turned inside out.
    pub fn area(&self) -> f64 {
        libm::fmax(self.x1 - self.x0, 0.0) * libm::fmax(self.y1 - self.y0, 0.0)
    }
    /// Whether another lies wholly inside.
    pub fn holds(&self, other: &Self) -> bool {
        self.x0 <= other.x0 && self.y0 <= other.y0 && self.x1 >= other.x1 && self.y1 >= other.y1
    }
    /// Whether the two overlap or share more than a point of an edge.
    pub fn meets(&self, other: &Self) -> bool {
        let wide = libm::fmin(self.x1, other.x1) - libm::fmax(self.x0, other.x0);
        let high = libm::fmin(self.y1, other.y1) - libm::fmax(self.y0, other.y0);
        wide >= -HAIR && high >= -HAIR && (wide > HAIR || high > HAIR)
    }
    /// The smallest rectangle around both.
    #[must_use]
    pub fn around(&self, other: &Self) -> Self {
        Self {
            x0: libm::fmin(self.x0, other.x0),
            y0: libm::fmin(self.y0, other.y0),
            x1: libm::fmax(self.x1, other.x1),
            y1: libm::fmax(self.y1, other.y1),
        }
    }
}

/// The covered part cut into rectangles that do not overlap, left to right, low to high. The result does not depend
/// on the order of the input.
pub fn apart(rects: &[Rect]) -> Vec<Rect> {
    let mut edges: Vec<f64> = rects.iter().flat_map(|r| [r.x0, r.x1]).collect();
    edges.sort_by(f64::total_cmp);
    edges.dedup();
    let mut done: Vec<Rect> = Vec::new();
    let mut open: Vec<Rect> = Vec::new(); // pieces of the strip to the left that may go on
    for (left, right) in edges.iter().zip(edges.iter().skip(1)) {
        let mut spans: Vec<(f64, f64)> = rects
            .iter()
            .filter(|r| r.x0 <= *left && r.x1 >= *right && r.y1 > r.y0)
            .map(|r| (r.y0, r.y1))
            .collect();
        spans.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        let mut joined: Vec<(f64, f64)> = Vec::new();
        for (low, high) in spans {
            match joined.last_mut() {
                Some(last) if low <= last.1 => last.1 = libm::fmax(last.1, high),
                _ => joined.push((low, high)),
            }
        }
        let mut next = Vec::new();
        for (y0, y1) in joined {
            match open.iter().position(|r| r.y0 == y0 && r.y1 == y1) {
                Some(at) => next.push(Rect { x1: *right, ..open.swap_remove(at) }),
                None => next.push(Rect { x0: *left, y0, x1: *right, y1 }),
            }
        }
        done.append(&mut open);
        open = next;
    }
    done.append(&mut open);
    done.sort_by(|a, b| a.x0.total_cmp(&b.x0).then(a.y0.total_cmp(&b.y0)));
    done
}

/// Square inches covered together, each spot counted once.
pub fn covered(rects: &[Rect]) -> f64 {
    apart(rects).iter().map(Rect::area).sum()
}

/// Positions of rectangles that hang together by overlap or a shared edge, in the order of the input.
pub fn clusters(rects: &[Rect]) -> Vec<Vec<usize>> {
    let mut of: Vec<usize> = (0..rects.len()).collect();
    for (i, a) in rects.iter().enumerate() {
        for (j, b) in rects.iter().enumerate().skip(i + 1) {
            let (keep, give) = (of[i].min(of[j]), of[i].max(of[j]));
            if keep != give && a.meets(b) {
                of.iter_mut().filter(|c| **c == give).for_each(|c| *c = keep);
            }
        }
    }
    let mut out: Vec<(usize, Vec<usize>)> = Vec::new();
    for (i, cluster) in of.into_iter().enumerate() {
        match out.iter_mut().find(|(c, _)| *c == cluster) {
            Some((_, members)) => members.push(i),
            None => out.push((cluster, vec![i])),
        }
    }
    out.into_iter().map(|(_, members)| members).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_overlap_is_counted_once() {
        // 4 × 4 and 4 × 4 shifted by 2 and 2: 16 + 16 − 2 × 2 = 28
        let two = [Rect::at(0.0, 0.0, 4.0, 4.0), Rect::at(2.0, 2.0, 4.0, 4.0)];
        assert_eq!(covered(&two), 28.0);
        // The same twice, and one inside the other: 16
        assert_eq!(covered(&[two[0], two[0], Rect::at(1.0, 1.0, 2.0, 2.0)]), 16.0);
        assert_eq!(covered(&[]), 0.0);
    }

    #[test]
    fn pieces_are_as_wide_as_they_can_be() {
        let side_by_side = [Rect::at(0.0, 0.0, 16.0, 8.0), Rect::at(16.0, 0.0, 16.0, 8.0)];
        assert_eq!(apart(&side_by_side), [Rect::at(0.0, 0.0, 32.0, 8.0)]);
        let stepped = [Rect::at(0.0, 0.0, 16.0, 8.0), Rect::at(16.0, 0.0, 16.0, 12.0)];
        assert_eq!(apart(&stepped).len(), 2);
    }

    #[test]
    fn a_shared_edge_joins_and_a_shared_corner_does_not() {
        let a = Rect::at(0.0, 0.0, 16.0, 8.0);
        assert!(a.meets(&Rect::at(16.0, 4.0, 16.0, 8.0)) && a.meets(&Rect::at(0.0, 8.0, 16.0, 8.0)));
        assert!(!a.meets(&Rect::at(16.0, 8.0, 16.0, 8.0)) && !a.meets(&Rect::at(17.0, 0.0, 1.0, 8.0)));
        let chain =
            [a, Rect::at(40.0, 0.0, 1.0, 1.0), Rect::at(16.0, 0.0, 16.0, 8.0), Rect::at(32.0, 0.0, 4.0, 4.0)];
        assert_eq!(clusters(&chain), [vec![0, 2, 3], vec![1]]);
    }
}
