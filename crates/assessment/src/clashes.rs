//! Answers that disagree under the model: each surprising in view of all others, with the one it clashes with most.
//!
//! An answer is surprising when the others leave it little chance, far less than it had before any answer. Its rival
//! is the answer without which it would surprise least. Nothing is dropped for that: both stand until somebody looks
//! again. The measure over all of them is Jensen's conf(e) = ln( Π P(e_i) / P(e) ), above 0 where they disagree.

use inference::{Evidence, NodeId};

use crate::error::AssessError;
use crate::evidence::{Finding, Setting};
use crate::live::{Odds, explain_plain};

/// A chance below this surprises (judgment).
const RARE: f64 = 0.05;
/// It must also have fallen to this part of what it was before any answer (judgment).
const FALLEN: f64 = 0.3;

/// An answer that the others make unlikely.
#[derive(Clone, Debug, PartialEq)]
pub struct Clash {
    /// Key of the item.
    pub answer: String,
    /// P(what was answered | all other answers).
    pub chance: f64,
    /// P(what was answered) before any answer.
    pub before: f64,
    /// Key of the item whose answer it clashes with most, where one answer alone makes much of the surprise.
    pub rival: Option<String>,
}

/// How far the answers disagree.
#[derive(Clone, Debug, PartialEq)]
pub struct Clashes {
    /// Jensen's measure over all answers, nats; above 0 they disagree.
    pub measure: f64,
    /// Surprising answers, the most surprising first.
    pub list: Vec<Clash>,
}

impl Odds<'_> {
    /// Which answers disagree; `None` if `go_on` said no on the way.
    ///
    /// # Errors
    /// As [`crate::Live::odds`].
    pub fn clashes(&mut self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Clashes>, AssessError> {
        let prior = self
            .network()
            .posterior(self.request.catalog, &Evidence::new())
            .map_err(|e| explain_plain(&e))?;
        let settings = self.evidence.settings.clone();
        let mut list = Vec::new();
        let mut apart = 0.0;
        for (i, setting) in settings.iter().enumerate() {
            if !go_on() {
                return Ok(None);
            }
            for (node, finding) in &setting.findings {
                let before = chance(finding, prior.of(*node));
                apart += libm::log(before);
                let left = self.chance_without(&[setting], *node, finding)?;
                if left < RARE && left < FALLEN * before {
                    let rival = self.rival(&settings, i, *node, finding, left)?;
                    list.push(Clash { answer: setting.key.clone(), chance: left, before, rival });
                }
            }
        }
        list.sort_by(|a, b| a.chance.total_cmp(&b.chance).then(a.answer.cmp(&b.answer)));
        list.dedup_by(|b, a| a.answer == b.answer);
        Ok(Some(Clashes { measure: apart - self.log_p_evidence(), list }))
    }

    /// P(finding) in view of everything but some answers.
    fn chance_without(
        &mut self,
        out: &[&Setting],
        node: NodeId,
        finding: &Finding,
    ) -> Result<f64, AssessError> {
        let mut nodes: Vec<NodeId> = out.iter().flat_map(|s| s.findings.iter().map(|(n, _)| *n)).collect();
        nodes.sort_unstable();
        nodes.dedup();
        let without = self.without(&nodes, &[node]).map_err(|e| explain_plain(&e))?;
        Ok(chance(finding, without.of(0)))
    }

    /// The answer without which the finding would surprise least, if that at least doubles its chance.
    fn rival(
        &mut self,
        settings: &[Setting],
        surprising: usize,
        node: NodeId,
        finding: &Finding,
        left: f64,
    ) -> Result<Option<String>, AssessError> {
        let mut best: Option<(f64, usize)> = None;
        for (j, other) in settings.iter().enumerate().filter(|(j, _)| *j != surprising) {
            let chance = self.chance_without(&[&settings[surprising], other], node, finding)?;
            if best.is_none_or(|(most, _)| chance > most) {
                best = Some((chance, j));
            }
        }
        let enough = |chance: f64| chance > 2.0 * left;
        Ok(best.filter(|(chance, _)| enough(*chance)).map(|(_, j)| settings[j].key.clone()))
    }
}

/// P(finding) under a distribution of its node; for a likelihood the mean of it, its scale being its own.
fn chance(finding: &Finding, distribution: &[f64]) -> f64 {
    match finding {
        Finding::State(state) => distribution.get(*state).copied().unwrap_or(0.0),
        Finding::Likelihood(l) => l.iter().zip(distribution).map(|(l, p)| l * p).sum(),
    }
}
