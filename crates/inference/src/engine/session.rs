//! Findings that come and go, and answers that follow.

use core::iter::{empty, once};

use super::Engine;
use super::findings::{Finding, Findings};
use super::state::{Halt, State};
use crate::query::{Posterior, impossible};
use crate::{Evidence, InferError, NodeId, posterior};

/// Findings on the network of an engine, entered and taken back one by one; a question computes only what
/// has become stale since the last one. Once every message has been computed, nothing more is allocated
/// unless findings are impossible or too far apart for plain doubles.
#[derive(Clone, Debug)]
pub struct Session<'e> {
    engine: &'e Engine,
    state: Option<State>,
    findings: Findings,
    answer: Posterior,
    /// `answer` holds what [`posterior`] said, not what the messages say.
    foreign: bool,
}

impl<'e> Session<'e> {
    pub(super) fn new(engine: &'e Engine) -> Self {
        Self {
            engine,
            state: engine.ready.as_ref().map(|r| r.state.fork()),
            findings: Findings::new(engine.net.len()),
            answer: engine.prior.clone(),
            foreign: false,
        }
    }

    /// Sets the finding on a node, in place of whatever was there.
    ///
    /// # Errors
    /// [`InferError::BadEvidence`]; the session then stays as it was.
    pub fn set(&mut self, node: NodeId, finding: Finding<'_>) -> Result<(), InferError> {
        let states = self.engine.net.nodes().get(node).map_or(0, |n| n.states.len());
        match finding {
            Finding::State(state) if state < states => self.put(node, Some(state), empty),
            Finding::Likelihood(l)
                if states > 0 && l.len() == states && l.iter().all(|x| x.is_finite() && *x >= 0.0) =>
            {
                self.put(node, None, || once(l));
            }
            _ => {
                // Let the check name what is wrong.
                let mut ev = Evidence::new();
                match finding {
                    Finding::State(state) => ev.observe(node, state),
                    Finding::Likelihood(l) => ev.likelihood(node, l.into()),
                }
                ev.check(&self.engine.net)?;
            }
        }
        Ok(())
    }

    /// Takes back every finding on a node; nothing happens if there is none.
    pub fn retract(&mut self, node: NodeId) {
        if node < self.engine.net.len() {
            self.put(node, None, empty);
        }
    }

    /// Makes the findings exactly those of `evidence`; what stays the same stays computed.
    ///
    /// # Errors
    /// [`InferError::BadEvidence`]; the session then stays as it was.
    pub fn load(&mut self, evidence: &Evidence) -> Result<(), InferError> {
        evidence.check(&self.engine.net)?;
        for i in 0..self.findings.listed().len() {
            let node = self.findings.listed()[i];
            self.put(node, evidence.state(node), || soft_on(evidence, node));
        }
        for (node, state) in evidence.hard() {
            self.put(node, Some(state), || soft_on(evidence, node));
        }
        for (node, _) in evidence.soft() {
            self.put(node, evidence.state(node), || soft_on(evidence, node));
        }
        Ok(())
    }

    fn put<'a, I: Iterator<Item = &'a [f64]>>(
        &mut self,
        node: NodeId,
        hard: Option<usize>,
        soft: impl Fn() -> I,
    ) {
        if self.findings.same(node, hard, soft()) {
            return;
        }
        self.findings.put(node, hard, soft());
        if let (Some(state), Some(ground)) = (&mut self.state, self.engine.ground()) {
            let places = ground.starts[node]..ground.starts[node + 1];
            state.said[node] = self.findings.said(node, &mut state.likelihood[places]);
            state.touch(ground, node);
        }
    }

    /// Every node's distribution given the findings, and their probability.
    ///
    /// # Errors
    /// As [`posterior`].
    pub fn posterior(&mut self) -> Result<&Posterior, InferError> {
        let (Some(state), Some(ground)) = (&mut self.state, self.engine.ground()) else {
            return self.elsewhere();
        };
        if self.findings.wild() {
            return self.elsewhere();
        }
        match state.collect(ground) {
            Ok(()) => {
                if self.foreign {
                    // Distributions that have not changed since may lie overwritten.
                    state.read_again();
                    self.foreign = false;
                }
                state.distribute(ground, &mut self.answer.shares);
                self.answer.log_p_evidence = state.ln(ground);
                Ok(&self.answer)
            }
            Err(Halt::Zero) => Err(impossible(&self.engine.net, &self.findings.evidence())),
            Err(Halt::Narrow) => self.elsewhere(),
        }
    }

    /// ln P(findings), without going through the distributions.
    ///
    /// # Errors
    /// As [`posterior`].
    pub fn log_p_evidence(&mut self) -> Result<f64, InferError> {
        if let (Some(state), Some(ground)) = (&mut self.state, self.engine.ground())
            && !self.findings.wild()
        {
            match state.collect(ground) {
                Ok(()) => return Ok(state.ln(ground)),
                Err(Halt::Zero) => return Err(impossible(&self.engine.net, &self.findings.evidence())),
                Err(Halt::Narrow) => {}
            }
        }
        crate::log_p_evidence(&self.engine.net, &self.findings.evidence())
    }

    fn elsewhere(&mut self) -> Result<&Posterior, InferError> {
        self.answer = posterior(&self.engine.net, &self.findings.evidence())?;
        self.foreign = true;
        Ok(&self.answer)
    }

    pub(super) fn finish(mut self) -> Result<Posterior, InferError> {
        self.posterior()?;
        Ok(self.answer)
    }
}

fn soft_on(evidence: &Evidence, node: NodeId) -> impl Iterator<Item = &[f64]> {
    evidence.soft().filter(move |(n, _)| *n == node).map(|(_, l)| l)
}
