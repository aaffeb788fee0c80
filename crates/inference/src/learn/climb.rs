//! The climb itself: expectation and maximisation in turn.

use alloc::vec::Vec;

use super::{Counts, LearnError, Prior, Records, mode};
use crate::{Network, Node};

/// A climb has arrived once the log posterior rises by less than this in one step.
pub const CONVERGED: f64 = 1e-9;

/// Rounding may lower the log posterior by this times 1 + its size + the weight of the records.
const NOISE: f64 = 1e-10;

/// A network on its way up the log posterior of some records.
pub struct Climb<'a> {
    records: &'a mut Records,
    prior: &'a Prior,
    net: Network,
    counts: Counts,
    log_posterior: f64,
    iteration: usize,
}

impl<'a> Climb<'a> {
    /// Starts at `net`, with the first expectation step done.
    ///
    /// # Errors
    /// A prior or records made for a network of another shape; a record that is impossible under `net`.
    pub fn new(net: Network, records: &'a mut Records, prior: &'a Prior) -> Result<Self, LearnError> {
        prior.fits(&net)?;
        let counts = records.expect(&net)?;
        let log_posterior = counts.log_likelihood + prior.log_density(&net);
        Ok(Self { records, prior, net, counts, log_posterior, iteration: 0 })
    }

    /// One maximisation and the expectation after it. Returns by how much the log posterior rose (infinite from
    /// a start of probability zero).
    ///
    /// # Errors
    /// [`LearnError::Fell`] if the log posterior fell; [`LearnError::Table`] where counts overflow. The climb
    /// stays where it was.
    pub fn step(&mut self) -> Result<f64, LearnError> {
        let net = self.maximise()?;
        let counts = self.records.expect(&net)?;
        let (before, after) = (self.log_posterior, counts.log_likelihood + self.prior.log_density(&net));
        if after < before - NOISE * (1.0 + before.abs() + counts.weight) {
            return Err(LearnError::Fell { iteration: self.iteration + 1, before, after });
        }
        self.net = net;
        self.counts = counts;
        self.log_posterior = after;
        self.iteration += 1;
        Ok(if after == before { 0.0 } else { after - before })
    }

    /// Steps until one raises the log posterior by less than [`CONVERGED`], `most` steps at most. True if it
    /// arrived.
    ///
    /// # Errors
    /// As [`Climb::step`].
    pub fn run(&mut self, most: usize) -> Result<bool, LearnError> {
        for _ in 0..most {
            if self.step()? < CONVERGED {
                return Ok(true);
            }
        }
        Ok(false)
    }

    fn maximise(&self) -> Result<Network, LearnError> {
        let mut nodes: Vec<Node> = self.net.nodes().to_vec();
        for (id, node) in nodes.iter_mut().enumerate() {
            let width = node.states.len();
            let (counts, beta) =
                (self.counts.of(id).chunks_exact(width), self.prior.of(id).chunks_exact(width));
            for (row, (theta, (n, b))) in node.cpt.chunks_exact_mut(width).zip(counts.zip(beta)).enumerate() {
                if !self.prior.is_fixed(id, row) {
                    mode(n, b, theta);
                }
            }
        }
        Network::from_nodes(nodes).map_err(LearnError::Table)
    }

    /// The network as it stands.
    pub fn network(&self) -> &Network {
        &self.net
    }

    /// Expected counts under the network as it stands, with the log likelihood.
    pub fn counts(&self) -> &Counts {
        &self.counts
    }

    /// sum of weight · ln P(record) + sum of beta · ln theta under the network as it stands.
    pub fn log_posterior(&self) -> f64 {
        self.log_posterior
    }

    /// How many maximisations were done.
    pub fn iteration(&self) -> usize {
        self.iteration
    }
}
