//! What is asked once about something a house has several of: the places together.
//!
//! A clue alone in its node is set off by each place by itself (a noisy-OR over places, its leak once), through one
//! hidden node for each place. Clues that share a node hang on "at some place", as they hang on the only place where
//! there is one. What is there when nothing else is (a bare soffit) speaks through the house only when it is so at
//! every place.
//!
//! A hidden node between a condition and its clues sometimes shows with nothing there. Several places would show
//! falsely more often than the fit of the clue allows for; so a false show is passed on only as often as makes all
//! places together show falsely as often as one.

use inference::{NetworkError, NodeId};
use survey::catalog::DatedBy;

use super::{Builder, NO_YES};

/// How a condition at one place reaches a clue.
pub(super) struct Route {
    /// The condition.
    pub(super) condition: NodeId,
    /// The hidden node between, and P(it shows | condition absent).
    pub(super) shows: Option<(NodeId, f64)>,
    /// Weight of the last step, in each family of the clue.
    pub(super) weights: Vec<f64>,
    /// Places of the condition.
    pub(super) places: usize,
}

/// Part of false events passed on, so that `places` of them together happen as often as one of probability `p`.
fn thinned(p: f64, places: usize) -> f64 {
    if places < 2 || p <= 0.0 { 1.0 } else { (1.0 - libm::pow(1.0 - p, 1.0 / places as f64)) / p }
}

impl Route {
    fn parents(&self) -> Vec<NodeId> {
        self.shows.iter().map(|(node, _)| *node).chain([self.condition]).collect()
    }
    /// P(the clue is set off) from the states of the parents.
    fn sets_off(&self, on: &[bool], family: usize) -> f64 {
        let weight = self.weights.get(family.min(self.weights.len().saturating_sub(1))).copied();
        let weight = weight.unwrap_or(0.0);
        match (&self.shows, on) {
            (Some(_), [true, true]) | (None, [true]) => weight,
            (Some((_, h0)), [true, false]) => weight * thinned(h0 * weight, self.places),
            _ => 0.0,
        }
    }
    /// P(it shows) from the states of the parents.
    fn shown(&self, on: &[bool]) -> f64 {
        match (&self.shows, on) {
            (Some(_), [true, true]) | (None, [true]) => 1.0,
            (Some((_, h0)), [true, false]) => thinned(*h0, self.places),
            _ => 0.0,
        }
    }
}

impl Builder<'_> {
    /// "This place sets the clue off": all its conditions together.
    pub(super) fn sets_off(
        &mut self,
        name: &str,
        routes: &[Route],
        bands: usize,
        by_era_of: Option<DatedBy>,
    ) -> Result<NodeId, NetworkError> {
        let mut parents: Vec<NodeId> = routes.iter().flat_map(Route::parents).collect();
        let mut table = Vec::new();
        for band in 0..bands {
            for row in 0..1usize << parents.len() {
                let bits: Vec<bool> = (0..parents.len()).rev().map(|b| row >> b & 1 == 1).collect();
                let (mut rest, mut silent) = (bits.as_slice(), 1.0);
                for route in routes {
                    let (own, later) = rest.split_at(route.parents().len().min(rest.len()));
                    silent *= 1.0 - route.sets_off(own, band);
                    rest = later;
                }
                // A condition that makes a clue rarer (a weight below 0) takes from what sets it off at its own place.
                // Where nothing else there does, the place is silent: it cannot hush the others or the leak.
                let silent = silent.min(1.0);
                table.extend([silent, 1.0 - silent]);
            }
        }
        let node = self.nb.node(name, &NO_YES)?;
        if let Some(dated) = by_era_of {
            parents.splice(0..0, self.era_of(dated));
        }
        self.nb.table(node, &parents, table)?;
        Ok(node)
    }

    /// On when any of `nodes` is; pair by pair, so that no table grows with the number of places.
    pub(super) fn any(&mut self, name: &str, nodes: &[NodeId]) -> Result<Option<NodeId>, NetworkError> {
        self.chain(&format!("any.{name}"), nodes, [0.0, 1.0, 1.0, 1.0])
    }
    /// On when all of `nodes` are.
    pub(super) fn every(&mut self, name: &str, nodes: &[NodeId]) -> Result<Option<NodeId>, NetworkError> {
        self.chain(&format!("every.{name}"), nodes, [0.0, 0.0, 0.0, 1.0])
    }
    fn chain(&mut self, name: &str, nodes: &[NodeId], on: [f64; 4]) -> Result<Option<NodeId>, NetworkError> {
        let Some((first, others)) = nodes.split_first() else { return Ok(None) };
        let mut so_far = *first;
        for (n, node) in others.iter().enumerate() {
            let last = n + 1 == others.len();
            let name = if last { name.to_owned() } else { format!("{name}.{}", n + 2) };
            so_far = self.hidden(&name, &[so_far, *node], on.iter().flat_map(|p| [1.0 - p, *p]).collect())?;
        }
        Ok(Some(so_far))
    }
    /// "It shows at some place": on when any place shows, false shows passed on in part.
    pub(super) fn shown_somewhere(
        &mut self,
        name: &str,
        routes: &[Route],
    ) -> Result<Option<NodeId>, NetworkError> {
        let mut shown = Vec::new();
        for (n, route) in routes.iter().enumerate() {
            let parents = route.parents();
            let states = (0..1usize << parents.len())
                .map(|row| (0..parents.len()).rev().map(|b| row >> b & 1 == 1).collect::<Vec<bool>>());
            let table = states.map(|on| route.shown(&on)).flat_map(|p| [1.0 - p, p]).collect();
            shown.push(self.hidden(&format!("shown.{name}.{}", n + 1), &parents, table)?);
        }
        self.any(&format!("shown.{name}"), &shown)
    }
    /// A hidden node; made once by name.
    fn hidden(&mut self, name: &str, parents: &[NodeId], cpt: Vec<f64>) -> Result<NodeId, NetworkError> {
        if let Some(made) = self.hidden.get(name) {
            return Ok(*made);
        }
        let node = self.nb.node(name, &NO_YES)?;
        self.nb.table(node, parents, cpt)?;
        self.hidden.insert(name.to_owned(), node);
        Ok(node)
    }
}
