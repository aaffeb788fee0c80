//! One network, many sets of findings: work that does not depend on the findings is done once, and between
//! two sets only the messages that a changed finding makes stale are computed again.
//!
//! A junction tree with compressed potentials: S. L. Lauritzen, D. J. Spiegelhalter, "Local computations with
//! probabilities on graphical structures and their application to expert systems", Journal of the Royal
//! Statistical Society B 50 (1988) 157-224; F. Jensen, S. K. Andersen, "Approximations in Bayesian belief
//! universes for knowledge-based systems", Proc. 6th Conference on Uncertainty in Artificial Intelligence
//! (1990) 162-169, of which only the exact part is used: cells that are zero are left out.

mod findings;
mod map;
mod session;
mod shape;
mod state;
mod tree;
pub(crate) mod triangulate;

use alloc::vec;
use alloc::vec::Vec;

use crate::query::Posterior;
use crate::{Evidence, InferError, Network, posterior};

pub use findings::Finding;
pub use session::Session;

use state::{Ground, State};
use tree::{Draft, Tree};
use triangulate::TRIES;

/// A network made ready for many questions. Immutable: one engine serves many sessions.
///
/// Answers agree with [`posterior`] to rounding (1e-12); a network or a set of findings that a tree of plain
/// doubles cannot hold is passed on to it. Worth its making for many questions; where a third of all nodes and
/// more are observed, [`posterior`], which slices these out before it plans, can be quicker.
#[derive(Clone, Debug)]
pub struct Engine {
    net: Network,
    ready: Option<Ready>,
    prior: Posterior,
}

#[derive(Clone, Debug)]
struct Ready {
    tree: Tree,
    state: State,
}

impl Engine {
    /// Prepares a network.
    ///
    /// # Errors
    /// None today: a network too large for a tree is answered set by set, where [`InferError::TooLarge`] may
    /// come.
    pub fn new(net: &Network) -> Result<Self, InferError> {
        Self::with_tries(net, TRIES)
    }

    /// Prepares a network with so many tries at an elimination order, numbered from 0; the order whose tables have the
    /// fewest cells together is kept, the first of equal ones. [`Engine::new`] makes 32.
    ///
    /// # Errors
    /// As [`Engine::new`].
    pub fn with_tries(net: &Network, tries: u32) -> Result<Self, InferError> {
        let mut starts = vec![0];
        for node in net.nodes() {
            starts.push(starts[starts.len() - 1] + node.states.len());
        }
        let mut prior = Posterior { log_p_evidence: 0.0, shares: vec![1.0; starts[net.len()]], starts };
        let ready = ready(net, tries, &mut prior);
        Ok(Self { net: net.clone(), ready, prior })
    }

    /// The network.
    pub fn network(&self) -> &Network {
        &self.net
    }

    /// Every node's distribution given the evidence, and P(evidence).
    ///
    /// # Errors
    /// As [`posterior`].
    pub fn posterior(&self, evidence: &Evidence) -> Result<Posterior, InferError> {
        if self.ready.is_none() {
            return posterior(&self.net, evidence);
        }
        let mut session = self.session();
        session.load(evidence)?;
        session.finish()
    }

    /// A session without findings.
    pub fn session(&self) -> Session<'_> {
        Session::new(self)
    }

    fn ground(&self) -> Option<Ground<'_>> {
        let ready = self.ready.as_ref()?;
        Some(Ground { tree: &ready.tree, starts: &self.prior.starts, prior: Some(&ready.state) })
    }
}

/// Tree and messages without findings; `None` if doubles or memory do not reach.
fn ready(net: &Network, tries: u32, prior: &mut Posterior) -> Option<Ready> {
    // A factored family is cheaper left to the other way, which knows its hidden links.
    if (0..net.len()).any(|node| net.noisy(node).is_some()) {
        return None;
    }
    let mut draft = Draft::new(net, tries)?;
    let Posterior { starts, shares, .. } = prior;
    let mut settle = |tree: &Tree| -> Option<(State, Option<Vec<bool>>)> {
        let ground = Ground { tree, starts, prior: None };
        let mut state = State::new(ground);
        state.collect(ground).ok()?;
        state.distribute(ground, shares);
        let marks = state.possible(ground);
        Some((state, marks))
    };
    let mut tree = draft.tree();
    let (state, marks) = settle(&tree)?;
    let Some(marks) = marks else { return Some(Ready { tree, state }) };
    if marks.iter().all(|m| *m) {
        tree.pruned = true;
        return Some(Ready { tree, state });
    }
    // Let go before the smaller ones are made.
    drop(state);
    let Tree { potentials, .. } = tree;
    draft.keep(potentials, &marks);
    let tree = draft.tree();
    let state = settle(&tree)?.0;
    Some(Ready { tree, state })
}
