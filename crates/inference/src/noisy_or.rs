//! Noisy-OR and noisy-MAX families: every parent pushes the child on its own, and the strongest push wins.
//!
//! For a two-state child, P(no | x) = (1 - leak) · product over present parents of (1 - weight). The weights
//! are "net" weights, without the leak: F. J. Díez, "Parameter adjustment in Bayes networks: the generalized
//! noisy OR-gate", Uncertainty in Artificial Intelligence 1993, 99-105, which also has the many-valued form:
//! each parent draws a state of the child, the leak draws one, and the child takes the highest.
//!
//! Such a family needs as many numbers as its parents have states, and it stays that small in a network
//! built with [`crate::NetworkBuilder::noisy_or`] or [`crate::NetworkBuilder::noisy_max`]: the highest draw
//! so far is carried from parent to parent through variables that no list shows (D. Heckerman, "Causal
//! independence for knowledge acquisition and inference", Uncertainty in Artificial Intelligence 1993,
//! 122-127). Nothing is subtracted on the way, so small probabilities keep all their digits and zero stays
//! zero; the factors with negative entries of F. J. Díez, S. F. Galán, "Efficient computation for the noisy
//! MAX", International Journal of Intelligent Systems 18 (2003) 165-177, would not keep them.

mod build;
mod split;

use alloc::vec;
use alloc::vec::Vec;

pub(crate) use split::{Link, chain};

/// The table of a two-state child [no, yes] with two-state parents [no, yes], ready for
/// [`crate::NetworkBuilder::table`].
///
/// Rows: all parents "no" first, first parent slowest, last parent fastest; 2^n rows of two numbers.
/// `weights[i]` is P(yes | only parent i present, no leak), `leak` is P(yes | no parent present). Values
/// outside 0..=1 are not mended here; the network refuses the table then. Meant for small families: the
/// table doubles with every parent.
pub fn table(weights: &[f64], leak: f64) -> Vec<f64> {
    let mut no = Vec::from([1.0 - leak]);
    for weight in weights {
        no = no.iter().flat_map(|p| [*p, p * (1.0 - weight)]).collect();
    }
    no.iter().flat_map(|p| [*p, 1.0 - p]).collect()
}

/// A family kept factored: what each parent does to the child on its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Noisy {
    pub(crate) leak: Vec<f64>,
    pub(crate) effects: Vec<Vec<f64>>,
}

impl Noisy {
    /// What the child draws without any parent: one probability per state of the child, lowest first.
    pub fn leak(&self) -> &[f64] {
        &self.leak
    }

    /// Per parent, in the order of [`crate::Node::parents`]: one row per state of the parent, in it what that
    /// state makes the child draw, one probability per state of the child.
    pub fn effects(&self) -> &[Vec<f64>] {
        &self.effects
    }

    /// P(state of the child | state index of every parent); empty if the states do not fit the parents.
    pub fn row(&self, states: &[usize]) -> Vec<f64> {
        let width = self.leak.len();
        if states.len() != self.effects.len() {
            return Vec::new();
        }
        let mut row = self.leak.clone();
        for (effect, state) in self.effects.iter().zip(states) {
            match effect.chunks_exact(width).nth(*state) {
                Some(push) => row = highest(&row, push),
                None => return Vec::new(),
            }
        }
        row
    }

    /// The whole table, laid out as [`crate::Node::cpt`].
    pub(crate) fn table(&self) -> Vec<f64> {
        let width = self.leak.len();
        let mut rows = self.leak.clone();
        for effect in &self.effects {
            rows = rows
                .chunks_exact(width)
                .flat_map(|row| effect.chunks_exact(width).flat_map(|push| highest(row, push)))
                .collect();
        }
        rows
    }
}

/// Distribution of the higher of two independent draws. Sums of products only: nothing cancels.
fn highest(a: &[f64], b: &[f64]) -> Vec<f64> {
    let (mut below_a, mut below_b) = (0.0, 0.0);
    let mut out = vec![0.0; a.len()];
    for ((o, a), b) in out.iter_mut().zip(a).zip(b) {
        *o = a * (below_b + b) + below_a * b;
        below_a += a;
        below_b += b;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_higher_of_two_dice_is_distributed_as_the_textbook_says() {
        // P(max of two fair dice = k) = (2k - 1) / 36.
        let die = [1.0 / 6.0; 6];
        for (i, p) in highest(&die, &die).iter().enumerate() {
            assert!((p - (2 * i + 1) as f64 / 36.0).abs() < 1e-15);
        }
    }

    #[test]
    fn rows_of_a_family_are_those_of_its_table() {
        let family = Noisy {
            leak: vec![0.9, 0.1, 0.0],
            effects: vec![vec![1.0, 0.0, 0.0, 0.2, 0.5, 0.3], vec![0.5, 0.25, 0.25, 0.1, 0.1, 0.8]],
        };
        let table = family.table();
        for (i, row) in table.chunks_exact(3).enumerate() {
            assert_eq!(family.row(&[i / 2, i % 2]), row);
        }
        assert!(family.row(&[0]).is_empty() && family.row(&[0, 2]).is_empty());
    }
}
