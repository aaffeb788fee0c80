//! Common causes as hidden nodes, so that clues which report the same thing are not counted twice.
//!
//! When several clues of one condition share a common cause (four signs that all mean "a cable passes here"), they
//! hang not on the condition but on a hidden node between: *the condition shows itself this way*. With
//! P(shows | present) = h₁ and P(shows | absent) = h₀, no number of agreeing clues can move the odds beyond h₁/h₀,
//! and silence of them all not beyond (1−h₁)/(1−h₀). The two limits are set where the catalog's damping puts them:
//! the strongest clue in full, each further one at the power `shared_cause_damping` (judgment). Each clue's own
//! pair P(clue | present), P(clue | absent) stays exactly what the fitted table gives.

/// One clue of a group: its family's weight for the condition and its leak, in each era band it distinguishes.
#[derive(Clone, Debug)]
pub(crate) struct Member {
    /// Index of the clue in the caller's list.
    pub(crate) clue: usize,
    /// (P | present, P | absent) that the fitted table gives.
    pub(crate) pair: (f64, f64),
    /// Weight of the condition in each family of the clue.
    pub(crate) weights: Vec<f64>,
}

/// A hidden node between one condition and its clues of one cause.
#[derive(Clone, Debug)]
pub(crate) struct Mediator {
    /// Index of the condition.
    pub(crate) condition: usize,
    /// The cause.
    pub(crate) cause: String,
    /// P(shows | absent), P(shows | present).
    pub(crate) h: (f64, f64),
    /// Its clues.
    pub(crate) members: Vec<Member>,
}

impl Mediator {
    /// The node before the leaks of its clues are shared out; `None` when there is nothing to damp.
    pub(crate) fn new(condition: usize, cause: &str, members: Vec<Member>, damping: f64) -> Option<Self> {
        let usable =
            |m: &Member| m.weights.iter().all(|w| *w > 1e-6) && m.pair.0 > m.pair.1 && m.pair.1 > 0.0;
        if members.len() < 2 || !members.iter().all(usable) {
            return None;
        }
        let logs = |f: &dyn Fn(&Member) -> f64| -> f64 {
            let all: Vec<f64> = members.iter().map(f).collect();
            let strongest = all.iter().fold(0.0f64, |s, x| if x.abs() > s.abs() { *x } else { s });
            strongest + damping * (all.iter().sum::<f64>() - strongest)
        };
        let seen = libm::exp(logs(&|m| libm::log(m.pair.0 / m.pair.1)));
        let unseen = libm::exp(logs(&|m| libm::log((1.0 - m.pair.0).max(1e-9) / (1.0 - m.pair.1))));
        let h0 = (1.0 - unseen) / (seen - unseen);
        let h1 = (seen * h0).min(1.0 - 1e-6);
        let heaviest = members.iter().flat_map(|m| &m.weights).fold(0.0, |a: f64, w| a.max(*w));
        // Every clue must be reachable through the node even when it never shows by itself.
        let h1 = h1.max((heaviest * 1.000_001).min(1.0 - 1e-9));
        Some(Self { condition, cause: cause.to_owned(), h: (h0.min(h1 * 0.999), h1), members })
    }
    /// Activation of a clue by the node, so that its weight for the condition stays `w`.
    pub(crate) fn activation(&self, w: f64) -> f64 {
        w / (self.h.1 - (1.0 - w) * self.h.0)
    }
    /// Fewer false shows: used until every clue's leak can pay for them.
    fn calm(&mut self) {
        self.h.0 = if self.h.0 < 1e-9 { 0.0 } else { self.h.0 * 0.8 };
    }
}

/// Lowers P(shows | absent) of the nodes until no clue owes more false positives than its leak holds.
/// `leaks[clue][family]` is the fitted leak.
pub(crate) fn share_leaks(mediators: &mut [Mediator], leaks: &[Vec<f64>]) {
    loop {
        let mut owing: Vec<usize> = Vec::new();
        for (clue, families) in leaks.iter().enumerate() {
            for (f, leak) in families.iter().enumerate() {
                let feeding: Vec<usize> = (0..mediators.len())
                    .filter(|m| {
                        mediators[*m].h.0 > 0.0 && mediators[*m].members.iter().any(|x| x.clue == clue)
                    })
                    .collect();
                let silent: f64 = feeding.iter().map(|m| quiet(&mediators[*m], clue, f)).product();
                let too_strong = feeding.iter().any(|m| {
                    weight(&mediators[*m], clue, f).is_some_and(|w| mediators[*m].activation(w) > 1.0)
                });
                if silent < 1.0 - leak || too_strong {
                    owing.extend(feeding);
                }
            }
        }
        if owing.is_empty() {
            return;
        }
        owing.sort_unstable();
        owing.dedup();
        owing.into_iter().for_each(|m| mediators[m].calm());
    }
}

fn weight(mediator: &Mediator, clue: usize, family: usize) -> Option<f64> {
    let member = mediator.members.iter().find(|m| m.clue == clue)?;
    member.weights.get(family.min(member.weights.len() - 1)).copied()
}

/// P(the node does not set off the clue | condition absent).
pub(crate) fn quiet(mediator: &Mediator, clue: usize, family: usize) -> f64 {
    weight(mediator, clue, family).map_or(1.0, |w| 1.0 - mediator.h.0 * mediator.activation(w))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn member(clue: usize, present: f64, absent: f64) -> Member {
        Member { clue, pair: (present, absent), weights: vec![1.0 - (1.0 - present) / (1.0 - absent)] }
    }

    /// P(clue | condition) through the node.
    fn through(m: &Mediator, clue: usize, absent: f64, present: bool) -> f64 {
        let u = m.activation(weight(m, clue, 0).unwrap());
        let leak = 1.0 - (1.0 - absent) / quiet(m, clue, 0);
        let h = if present { m.h.1 } else { m.h.0 };
        1.0 - (1.0 - leak) * (1.0 - h * u)
    }

    #[test]
    fn each_clue_keeps_its_own_pair() {
        let pairs = [(0.6, 0.12), (0.5, 0.05), (0.55, 0.12)];
        let members: Vec<Member> = pairs.iter().enumerate().map(|(i, (p, a))| member(i, *p, *a)).collect();
        let mut all = vec![Mediator::new(0, "route", members, 0.35).unwrap()];
        share_leaks(&mut all, &[vec![0.12], vec![0.05], vec![0.12]]);
        for (i, (present, absent)) in pairs.iter().enumerate() {
            assert!((through(&all[0], i, *absent, true) - present).abs() < 1e-9);
            assert!((through(&all[0], i, *absent, false) - absent).abs() < 1e-9);
        }
    }

    #[test]
    fn agreeing_clues_move_the_odds_less_than_independent_ones_but_no_less_than_the_strongest() {
        let pairs = [(0.6, 0.12), (0.5, 0.05)];
        let members: Vec<Member> = pairs.iter().enumerate().map(|(i, (p, a))| member(i, *p, *a)).collect();
        let mut all = vec![Mediator::new(0, "route", members, 0.35).unwrap()];
        share_leaks(&mut all, &[vec![0.12], vec![0.05]]);
        let m = &all[0];
        let joint = |h: f64| -> f64 {
            let shown = |on: f64| -> f64 {
                pairs
                    .iter()
                    .enumerate()
                    .map(|(i, (_, absent))| {
                        let leak = 1.0 - (1.0 - absent) / quiet(m, i, 0);
                        1.0 - (1.0 - leak) * (1.0 - on * m.activation(weight(m, i, 0).unwrap()))
                    })
                    .product()
            };
            h * shown(1.0) + (1.0 - h) * shown(0.0)
        };
        let ratio = joint(m.h.1) / joint(m.h.0);
        let independent = 0.6 / 0.12 * 0.5 / 0.05;
        assert!(ratio < 0.6 * independent, "{ratio} {independent}");
        assert!(ratio > 0.5 / 0.05, "{ratio}");
    }

    #[test]
    fn leaks_that_cannot_pay_calm_the_node() {
        let members = vec![member(0, 0.9, 0.001), member(1, 0.3, 0.29)];
        let mut all = vec![Mediator::new(0, "route", members, 0.35).unwrap()];
        share_leaks(&mut all, &[vec![0.001], vec![0.29]]);
        for (clue, leak) in [(0, 0.001), (1, 0.29)] {
            assert!(quiet(&all[0], clue, 0) >= 1.0 - leak - 1e-12);
        }
    }
}
