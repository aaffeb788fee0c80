//! One house kept assessed while answers come in: odds first, then reasons, looks, money and days, each on request
//! and each to be broken off when the next answer is there.
//!
//! The network depends on scope, measured probabilities and checks made, not on the other answers; it is kept between
//! answers, as are the loss curves. Everything else is computed anew, exactly: what comes out never depends on what
//! was asked before (tested against an assessment in one go).

use std::collections::BTreeSet;

use inference::{Changed, Engine, Evidence, Given, InferError, NodeId, Posterior, Split};
use survey::Digest;
use survey::catalog::{Catalog, LAST_GUT};
use survey::guide::{Status, walk_as_listed};
use survey::model::Picture;

use crate::assess::Request;
use crate::calculation::{Calculated, covering};
use crate::coverage::{Coverage, Worth, worth_together};
use crate::error::AssessError;
use crate::evidence::{HouseEvidence, Setting, checks_made, house_evidence, room_year};
use crate::forecast::{Look, PathStep, PlaceRef};
use crate::house_network::{HouseNetwork, Measured};
use crate::looks::rank_looks;
use crate::path::Walked;
use crate::reasons::{Reasons, Told};
use crate::scope::{Scope, Scoped, scope_of};
use crate::stakes::{Curves, Stake};
use crate::together::clusters;

/// What is kept of a house between answers. Nothing in it is worth saving.
#[derive(Clone, Debug, Default)]
pub struct Live {
    kept: Option<Kept>,
    curves: Curves,
}

/// Everything a network is built from besides catalog and tables.
#[derive(Clone, Debug, PartialEq)]
struct Shape {
    catalog: Digest,
    scope: Vec<String>,
    measured: Vec<Measured>,
    checks: Vec<(String, String, u32)>,
    room_dated: bool,
}

#[derive(Clone, Debug)]
struct Kept {
    shape: Shape,
    house: HouseNetwork,
    /// What all items were worth before any answer, with the curves it was computed by.
    all_items: Option<(Curves, Worth)>,
}

impl Live {
    /// The odds as the answers stand.
    ///
    /// # Errors
    /// [`AssessError::Impossible`] names the answers that cannot all be true under the model; they stay recorded.
    pub fn odds<'a>(&'a mut self, request: &Request<'a>) -> Result<Odds<'a>, AssessError> {
        let Request { picture, catalog, tables, rules, .. } = *request;
        let scope = scope_of(catalog, picture);
        let calculated = covering(catalog, picture, &scope);
        let shape = Shape {
            catalog: catalog.digest,
            scope: scope.iter().map(|s| s.key().to_owned()).collect(),
            measured: calculated.iter().filter_map(Calculated::measured).collect(),
            checks: checks_made(catalog, picture).into_iter().map(|(k, c, n, _)| (k, c, n)).collect(),
            room_dated: room_year(picture).is_some(),
        };
        let kept = match self.kept.take().filter(|kept| kept.shape == shape) {
            Some(kept) => kept,
            None => {
                let Shape { measured, checks, room_dated, .. } = &shape;
                let house = HouseNetwork::build(catalog, tables, &scope, measured, checks, *room_dated)?;
                Kept { shape, house, all_items: None }
            }
        };
        let Kept { shape, house, all_items } = self.kept.insert(kept);
        self.curves.renew(&scope, picture, &rules);
        let evidence = house_evidence(catalog, house, picture);
        let all = evidence.all();
        let tree = Split::new(&house.net, &all, &house.eras(catalog, &all))
            .map_err(|e| explain(e, &evidence, request))?;
        let nodes = house.conditions.iter().map(|(_, node)| *node).collect();
        let curves = &self.curves;
        Ok(Odds {
            request: *request,
            scope,
            nodes,
            calculated,
            shape,
            house,
            all_items,
            curves,
            evidence,
            tree,
        })
    }
}

/// The odds of a house as its answers stand, and what follows from them.
pub struct Odds<'a> {
    pub(crate) request: Request<'a>,
    /// Conditions in scope.
    pub(crate) scope: Scope<'a>,
    /// Their nodes, in the same order.
    pub(crate) nodes: Vec<NodeId>,
    /// Calculations that cover a condition in scope.
    pub(crate) calculated: Vec<Calculated>,
    shape: &'a Shape,
    house: &'a HouseNetwork,
    all_items: &'a mut Option<(Curves, Worth)>,
    pub(crate) curves: &'a Curves,
    pub(crate) evidence: HouseEvidence,
    /// All posteriors, and what would follow; era by era while the year is not known.
    pub(crate) tree: Split<'a>,
}

/// Chances of one condition before the answers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Before {
    /// With the plan of work alone.
    pub(crate) base: f64,
    /// With the year built, and the year of the room's last gut.
    pub(crate) era: f64,
}

impl<'a> Odds<'a> {
    /// Keys of the conditions in scope with P(present), in catalog order.
    pub fn conditions(&self) -> impl Iterator<Item = (&str, f64)> {
        self.scope.iter().zip(&self.nodes).map(|(s, node)| (s.key(), self.p_at(*node)))
    }
    /// The network, before evidence.
    pub fn network(&self) -> &HouseNetwork {
        self.house
    }
    pub(crate) fn into_network(self) -> HouseNetwork {
        self.house.clone()
    }
    pub(crate) fn nodes(&self) -> &[NodeId] {
        &self.nodes
    }
    /// The evidence of all answers.
    pub(crate) fn all(&self) -> &Evidence {
        self.tree.evidence()
    }
    pub(crate) fn log_p_evidence(&self) -> f64 {
        self.tree.posterior().log_p_evidence
    }
    pub(crate) fn p_at(&self, node: NodeId) -> f64 {
        chance(self.tree.posterior(), node)
    }

    /// What would follow for the conditions from each state of a node.
    pub(crate) fn given(&mut self, node: NodeId) -> Result<Given, InferError> {
        self.tree.given(node, &self.nodes)
    }
    /// What would follow for some nodes without the findings on others.
    pub(crate) fn without(&mut self, out: &[NodeId], wanted: &[NodeId]) -> Result<Changed, InferError> {
        self.tree.without(out, wanted)
    }
    pub(crate) fn is_observed(&self, node: NodeId) -> bool {
        self.all().state(node).is_some()
    }

    /// What is at stake with each condition in scope.
    pub(crate) fn stakes(&self) -> Vec<Stake<'_>> {
        stakes_at(&self.scope, &self.nodes, self.curves, &self.request, self.tree.posterior())
    }

    /// What the conditions lose together when each is priced as is best at the chance `at` gives it by its key, while
    /// `truly` is the chance by which it is there. Costs stay means over their laws. Dollars.
    pub fn loses(&self, at: &dyn Fn(&str) -> f64, truly: &dyn Fn(&str) -> f64) -> f64 {
        let Request { picture, rules, .. } = &self.request;
        let stake = |s: &'_ Scoped<'_>| {
            Stake::new(s, at(s.key()), self.curves.of(s, picture), rules).truly(truly(s.key()))
        };
        self.scope.iter().map(stake).sum()
    }

    /// Further looks, best first; `None` if `go_on` said no on the way.
    ///
    /// # Errors
    /// As [`Live::odds`].
    pub fn looks(&mut self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Vec<Look>>, AssessError> {
        let Request { picture, catalog, rules, .. } = self.request;
        let Some(covariance) = self.covariance(go_on)? else { return Ok(None) };
        let stakes = self.stakes();
        let clusters = clusters(&self.tree, &self.nodes, |i, j| covariance[i * stakes.len() + j])
            .map_err(|e| explain_plain(&e))?;
        Ok(rank_looks(catalog, &stakes, &clusters, picture, &rules, go_on))
    }

    /// Covariance of the presence of any two conditions, as a square table.
    fn covariance(&mut self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Vec<f64>>, AssessError> {
        let now: Vec<f64> = self.nodes.iter().map(|node| self.p_at(*node)).collect();
        let mut table = Vec::with_capacity(now.len() * now.len());
        for (node, p) in self.nodes.iter().zip(&now) {
            if !go_on() {
                return Ok(None);
            }
            let given = self.tree.given(*node, &self.nodes).map_err(|e| explain_plain(&e))?;
            // What is impossible varies with nothing.
            let with = |other: usize| given.of(1, other).get(1).map_or(0.0, |with| p * (with - now[other]));
            table.extend((0..now.len()).map(with));
        }
        Ok(Some(table))
    }

    /// How much of what answers can be worth has been gathered; `None` if `go_on` said no on the way.
    ///
    /// # Errors
    /// As [`Live::odds`].
    pub fn coverage(&mut self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Coverage>, AssessError> {
        let Request { survey, picture, catalog, rules, .. } = self.request;
        let seed = |what: &str| {
            let text = format!("{survey}|{}|coverage|{what}", catalog.digest);
            *Digest::of(text.as_bytes()).as_bytes()
        };
        let house = (self.house, catalog);
        let steps = walk_as_listed(catalog, picture);
        let open: Vec<NodeId> = steps
            .iter()
            .filter(|step| matches!(step.status, Status::Open | Status::SecondLook | Status::Disagreed))
            .flat_map(|step| self.nodes_of(step.item, step.place))
            .filter(|node| !self.is_observed(*node))
            .collect();
        let stakes = self.stakes();
        let left = worth_together(house, self.all(), &open, (&self.nodes, &stakes), seed("left"), go_on);
        let Some(left) = left.map_err(|e| explain_plain(&e))? else { return Ok(None) };
        if let Some((_, all)) = self.all_items.as_ref().filter(|(curves, _)| curves == self.curves) {
            return Ok(Some(Coverage::new(left, *all)));
        }
        let none = Evidence::new();
        let at_first = self.house.posterior(catalog, &none).map_err(|e| explain_plain(&e))?;
        let every: Vec<NodeId> = steps.iter().flat_map(|step| self.nodes_of(step.item, step.place)).collect();
        let stakes: Vec<Stake<'_>> = self
            .scope
            .iter()
            .zip(&self.nodes)
            .map(|(s, node)| Stake::new(s, chance(&at_first, *node), self.curves.of(s, picture), &rules))
            .collect();
        let all = worth_together(house, &none, &every, (&self.nodes, &stakes), seed("all"), go_on);
        let Some(all) = all.map_err(|e| explain_plain(&e))? else { return Ok(None) };
        *self.all_items = Some((self.curves.clone(), all));
        Ok(Some(Coverage::new(left, all)))
    }

    /// Chances before the answers, condition by condition. Base rates come from the network without measurements.
    pub(crate) fn before(&self) -> Result<Vec<Before>, AssessError> {
        let Request { picture, catalog, tables, .. } = self.request;
        let Shape { measured, checks, room_dated, .. } = self.shape;
        let built;
        let bare = if measured.is_empty() {
            self.house
        } else {
            built = HouseNetwork::build(catalog, tables, &self.scope, &[], checks, *room_dated)?;
            &built
        };
        let evidence = house_evidence(catalog, bare, picture);
        let year = catalog.era().map(|f| f.item.as_str()).unwrap_or_default();
        let at = |evidence: &Evidence| bare.posterior(catalog, evidence).map_err(|e| explain_plain(&e));
        let (base, era) = (at(&Evidence::new())?, at(&evidence.keeping(|i| i == year || i == LAST_GUT))?);
        let nodes = bare.conditions.iter().map(|(_, node)| *node);
        Ok(nodes.map(|node| Before { base: chance(&base, node), era: chance(&era, node) }).collect())
    }

    /// Which answers moved each condition; `None` if `go_on` said no on the way.
    pub(crate) fn reasons(
        &mut self,
        before: &[Before],
        go_on: &mut dyn FnMut() -> bool,
    ) -> Result<Option<Reasons>, AssessError> {
        let mut reasons = Reasons::default();
        let Request { picture, catalog, .. } = self.request;
        for setting in &self.evidence.settings {
            if !go_on() {
                return Ok(None);
            }
            let Some(told) = told(catalog, picture, &setting.item, setting.place.as_deref()) else {
                continue;
            };
            let left_out: Vec<NodeId> = setting.findings.iter().map(|(node, _)| *node).collect();
            let without = match self.tree.without(&left_out, &self.nodes) {
                Ok(without) => without,
                // Without this answer the network would be too large: it is told without how far this one moved it.
                Err(InferError::TooLarge { .. }) => continue,
                Err(error) => return Err(explain_plain(&error)),
            };
            for (i, (scoped, node)) in self.scope.iter().zip(&self.nodes).enumerate() {
                let without = without.of(i).get(1).copied().unwrap_or(0.0);
                reasons.note(scoped.key(), &told, chance(self.tree.posterior(), *node), without);
            }
        }
        // A calculation is one reason, named by the measurement it rests on.
        for calculation in &self.calculated {
            let place = calculation.place.as_deref();
            if let (Some(m), Some(told)) =
                (calculation.measured(), told(catalog, picture, calculation.main_item, place))
                && let Some(i) = self.scope.iter().position(|s| s.key() == m.condition)
            {
                reasons.note(&m.condition, &told, m.p, before[i].base);
            }
        }
        Ok(Some(reasons.strongest()))
    }

    /// How each condition came from its base rate to its odds: the answers taken one after the other in the order of
    /// the catalog's walk. A calculation comes first, since the network is built with it. `None` if `go_on` said no on
    /// the way.
    pub(crate) fn paths(
        &self,
        before: &[Before],
        go_on: &mut dyn FnMut() -> bool,
    ) -> Result<Option<Vec<Vec<PathStep>>>, AssessError> {
        let Request { picture, catalog, .. } = self.request;
        let engine = Engine::new(&self.house.net).map_err(|e| explain_plain(&e))?;
        let mut session = engine.session();
        let mut walked: Vec<Walked<'_>> = before.iter().map(|b| Walked::from(b.base)).collect();
        for calculation in &self.calculated {
            let place = calculation.place.as_deref();
            if let (Some(m), Some(told)) =
                (calculation.measured(), told(catalog, picture, calculation.main_item, place))
                && let Some(i) = self.scope.iter().position(|s| s.key() == m.condition)
            {
                walked[i].take(&told, m.p);
            }
        }
        let mut taken: BTreeSet<&str> = BTreeSet::new();
        for setting in &self.evidence.settings {
            if !go_on() {
                return Ok(None);
            }
            taken.insert(&setting.key);
            let so_far = self.evidence.keeping(|key| taken.contains(key));
            let Some(told) = told(catalog, picture, &setting.item, setting.place.as_deref()) else {
                continue;
            };
            let mut take = |now: &Posterior| {
                for (walked, node) in walked.iter_mut().zip(&self.nodes) {
                    walked.take(&told, chance(now, *node));
                }
            };
            // Messages are kept from answer to answer, but for an era that is open: its cases are told apart.
            let outcome = if self.house.eras(catalog, &so_far).is_empty() {
                session.load(&so_far).and_then(|()| session.posterior().map(&mut take))
            } else {
                self.house.posterior(catalog, &so_far).map(|now| take(&now))
            };
            match outcome {
                // With so few answers the network may be too large; what this one moved is told with the next.
                Ok(()) | Err(InferError::TooLarge { .. }) => {}
                Err(error) => return Err(explain_plain(&error)),
            }
        }
        let each = walked.into_iter().zip(&self.nodes);
        Ok(Some(each.map(|(walked, node)| walked.steps(self.p_at(*node))).collect()))
    }
}

/// What is at stake with each condition, from the parts that hold it, so that the tree stays free to be asked.
pub(crate) fn stakes_at<'s>(
    scope: &'s Scope<'_>,
    nodes: &[NodeId],
    curves: &'s Curves,
    request: &Request<'_>,
    now: &Posterior,
) -> Vec<Stake<'s>> {
    let each = scope.iter().zip(nodes);
    each.map(|(scoped, node)| {
        let curve = curves.of(scoped, request.picture);
        Stake::new(scoped, chance(now, *node), curve, &request.rules)
    })
    .collect()
}

/// What stands for an item at a place, as a reason.
fn told<'p>(
    catalog: &Catalog,
    picture: &'p Picture,
    item: &'p str,
    place: Option<&'p str>,
) -> Option<Told<'p>> {
    let value = picture.at(place).value(item)?;
    Some(Told { item, place: place.and_then(|p| PlaceRef::of(catalog, picture, p)), value })
}

/// P(yes) of a node with the states no and yes.
fn chance(of: &Posterior, node: NodeId) -> f64 {
    of.of(node).get(1).copied().unwrap_or(0.0)
}

/// Impossible evidence by the answers that make it.
pub(crate) fn explain(error: InferError, evidence: &HouseEvidence, request: &Request<'_>) -> AssessError {
    match error {
        InferError::Impossible { conflict } => AssessError::Impossible {
            items: evidence
                .on(&conflict)
                .into_iter()
                .map(|Setting { item, place, key, .. }| {
                    let answer = request.picture.at(place.as_deref()).answer(item);
                    let entered = answer.and_then(|a| a.entered.clone());
                    format!("{key} = {}", entered.unwrap_or_else(|| "as recorded".to_owned()))
                })
                .collect(),
        },
        other => explain_plain(&other),
    }
}

pub(crate) fn explain_plain(error: &InferError) -> AssessError {
    match error {
        InferError::TooLarge { .. } => AssessError::TooLarge(error.to_string()),
        other => AssessError::Catalog(other.to_string()),
    }
}
