//! Learning of tables from records: maximum a posteriori by expectation-maximisation.
//!
//! Expectation: N(i, j, k) = sum over records of weight · P(node i = k, its parents = j | record). Maximisation:
//! row = (N + beta) / sum(N + beta), where beta are pseudo-counts of a Dirichlet prior less one, so that the
//! result is the mode. Rows without any mass keep their value, fixed rows never move and carry no beta. No
//! random restarts, no damping. What climbs is
//! log posterior = sum of weight · ln P(record) + sum of beta · ln theta, without the Dirichlet's constant.
//!
//! A. P. Dempster, N. M. Laird, D. B. Rubin, "Maximum likelihood from incomplete data via the EM algorithm",
//! Journal of the Royal Statistical Society B 39 (1977) 1-38; for Bayesian networks S. L. Lauritzen, "The EM
//! algorithm for graphical association models with missing data", Computational Statistics & Data Analysis 19
//! (1995) 191-201.
//!
//! A noisy-OR is learned through one node per cause, never observed, between cause and effect: its row for the
//! absent cause is fixed to "no", its other row is the strength; one more node without parents is the leak; the
//! effect is their fixed OR.
//!
//! Where several networks share numbers, prepare [`Records`] for each, add up the rows of their [`Counts`] that
//! share one number, and let [`mode`] turn the sums into the new row.

mod climb;
mod counts;
mod error;
mod prior;
mod records;

pub use climb::{CONVERGED, Climb};
pub use counts::Counts;
pub use error::LearnError;
pub use prior::{Prior, mode};
pub use records::Records;
