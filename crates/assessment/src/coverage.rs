//! How much of what answers can be worth has been gathered: 1 − EVSI(all unasked | answers) / EVSI(all | none).
//!
//! The value of a set of items is a mean over joint draws of what they would show, from the exact posterior; for each
//! draw the chances after it are exact. Two thousand draws; the standard error is told. 1 where nothing is at stake.

use inference::{Evidence, InferError, NodeId, posterior, sampler};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;

use survey::catalog::Catalog;

use crate::house_network::HouseNetwork;
use crate::stakes::Stake;

/// Joint draws of what the items would show.
const DRAWS: u32 = 2_000;
/// A value below this is nothing, dollars.
const NOTHING: f64 = 0.005;

/// How much of the value of all answers has been gathered.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coverage {
    /// 0 to 1.
    pub share: f64,
    /// Its standard error.
    pub error: f64,
    /// What the unasked items are still worth together, dollars, before the minutes they take.
    pub left: f64,
}

/// A mean and its standard error.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Worth {
    mean: f64,
    error: f64,
}

impl Coverage {
    /// From what the unasked items are worth now and what all were worth before any answer.
    pub(crate) fn new(left: Worth, all: Worth) -> Self {
        let nothing = all.mean <= NOTHING || left.mean <= NOTHING;
        if nothing {
            return Self { share: 1.0, error: 0.0, left: left.mean };
        }
        let ratio = left.mean / all.mean;
        // First order: the two means are drawn apart.
        let relative = [left.error / left.mean, all.error / all.mean];
        let error = ratio * libm::sqrt(relative[0] * relative[0] + relative[1] * relative[1]);
        // Answers can raise what is at stake: then nothing of it is covered yet.
        Self { share: (1.0 - ratio).clamp(0.0, 1.0), error, left: left.mean }
    }
}

/// Expected fall of the least expected loss when all of some nodes are seen together; `None` if `go_on` said no.
pub(crate) fn worth_together(
    (house, catalog): (&HouseNetwork, &Catalog),
    evidence: &Evidence,
    seen: &[NodeId],
    (nodes, stakes): (&[NodeId], &[Stake<'_>]),
    seed: [u8; 32],
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<Worth>, InferError> {
    if seen.is_empty() {
        return Ok(Some(Worth::default()));
    }
    let sampler = sampler(&house.net, evidence, seen)?;
    let mut rng = ChaCha8Rng::from_seed(seed);
    let mut states = vec![0u16; seen.len()];
    let now: f64 = stakes.iter().map(Stake::now).sum();
    let (mut sum, mut squares) = (0.0, 0.0);
    for _ in 0..DRAWS {
        if !go_on() {
            return Ok(None);
        }
        sampler.draw(&mut rng, &mut states);
        let mut with = evidence.clone();
        seen.iter().zip(&states).for_each(|(node, state)| with.observe(*node, usize::from(*state)));
        // A room as old as the house: said of the one, said of the other.
        let era = catalog.era().and_then(|era| with.state(*house.factors.get(&era.id)?));
        if let (Some(era), Some(room)) = (era, house.room_as_house()) {
            with.observe(room, era);
        }
        // With most of it seen, the whole is cheaper at once than era by era.
        let after = posterior(&house.net, &with)?;
        let chance = |node: &NodeId| after.of(*node).get(1).copied().unwrap_or(0.0);
        let fall = now - nodes.iter().zip(stakes).map(|(node, stake)| stake.least(chance(node))).sum::<f64>();
        sum += fall;
        squares += fall * fall;
    }
    let n = f64::from(DRAWS);
    let mean = sum / n;
    let variance = (squares / n - mean * mean).max(0.0) * n / (n - 1.0);
    Ok(Some(Worth { mean: mean.max(0.0), error: libm::sqrt(variance / n) }))
}
