//! Full tables of noisy-OR families.
//!
//! P(no | x) = (1 - leak) · product over present parents of (1 - weight). The weights are "net" weights,
//! without the leak: F. J. Díez, "Parameter adjustment in Bayes networks: the generalized noisy OR-gate",
//! Uncertainty in Artificial Intelligence 1993, 99-105.

use alloc::vec::Vec;

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
