//! What an unanswered item bears on: which conditions still depend on it, and what its answer is worth on average.
//!
//! An item matters when some condition in scope still depends on it given the answers so far: through the network
//! (numerically: some possible answer moves a chance), through a rule of the catalog (scope, gate, cost, base price,
//! what another answer hides or forbids), or as an input of a calculation that covers a condition.
//!
//! The value is EVSI = Σ min L(now) − E over answers of Σ min L(after), before the minutes it takes. An answer with
//! several ticks is several findings; of these each condition is credited with the one that tells most about it, so
//! the value is a floor. "Can't tell" is not among the answers weighed: the value is that of an answer.

use inference::{Given, NodeId};
use survey::catalog::{Condition, Item, LAST_GUT, Predicate};
use survey::guide::Step;

use crate::advice::IN_BASE_PRICE;
use crate::error::AssessError;
use crate::live::{Odds, explain_plain, stakes_at};
use crate::scope::Scoped;
use crate::stakes::Stake;

/// What one unanswered item bears on.
#[derive(Clone, Debug, PartialEq)]
pub struct Bearing {
    /// The item.
    pub item: String,
    /// Its place: the item's station, or one of several places of it.
    pub place: String,
    /// Expected fall of the least expected loss when it is answered, dollars, before the minutes it takes.
    pub value: f64,
    /// What it could be worth at the most, wherever the chances of its conditions stand, dollars: half the bend of each
    /// loss curve for each step of its chance. An answer that changes no decision alone can do so beside others.
    pub most: f64,
    /// Keys of conditions whose chance it may move, most first.
    pub moves: Vec<String>,
    /// Keys of conditions whose scope, gate, cost or place in the base price it decides.
    pub decides: Vec<String>,
    /// Keys of conditions measured by a calculation that reads it.
    pub measures: Vec<String>,
    /// Checks that its answer may forbid.
    pub forbids: Vec<String>,
}

impl Bearing {
    /// True when something in scope still depends on the item.
    pub fn matters(&self) -> bool {
        !self.moves.is_empty() || self.rules()
    }
    /// True when it is worth asking: it decides, measures or forbids something, it is worth what the asking costs, in
    /// dollars, or it could be worth ten times that beside others.
    pub fn worth_asking(&self, costs: f64) -> bool {
        self.rules() || self.value >= costs || self.most >= BESIDE_OTHERS * costs
    }
    fn rules(&self) -> bool {
        [&self.decides, &self.measures, &self.forbids].iter().any(|list| !list.is_empty())
    }
}

/// How many times its cost a question must be able to be worth, if its answer changes no decision alone. Judgment: on
/// invented houses the walk then keeps 99 in 100 of the value of all answers (`docs/orders.md`).
const BESIDE_OTHERS: f64 = 10.0;

/// A chance that moves by less than this on average does not depend on the item: rounding of exact posteriors.
const MOVED: f64 = 1e-9;

impl Odds<'_> {
    /// What each of some unanswered steps of the walk bears on, in the order given; `None` if `go_on` said no on the way.
    ///
    /// # Errors
    /// As [`crate::Live::odds`].
    pub fn bearings(
        &mut self,
        steps: &[Step<'_>],
        go_on: &mut dyn FnMut() -> bool,
    ) -> Result<Option<Vec<Bearing>>, AssessError> {
        let stakes = stakes_at(&self.scope, &self.nodes, self.curves, &self.request, self.tree.posterior());
        let n = stakes.len();
        let mut all = Vec::new();
        for Step { item, place, .. } in steps {
            if !go_on() {
                return Ok(None);
            }
            let mut told = Told { gains: vec![0.0; n], moved: vec![0.0; n] };
            let mut nodes = self.nodes_of(item, place);
            nodes.retain(|node| !self.is_observed(*node));
            for node in nodes {
                // Field by field: the stakes hold on to scope and curves, not to the tree.
                let given = self.tree.given(node, &self.nodes).map_err(|e| explain_plain(&e))?;
                told.add(&given, &stakes);
            }
            all.push(self.bearing(item, place, &told, &stakes));
        }
        Ok(Some(all))
    }

    fn bearing(&self, item: &Item, place: &str, told: &Told, stakes: &[Stake<'_>]) -> Bearing {
        let Told { gains, moved } = told;
        let mut order: Vec<usize> = (0..stakes.len()).filter(|i| moved[*i] > MOVED).collect();
        order.sort_by(|a, b| moved[*b].total_cmp(&moved[*a]).then(a.cmp(b)));
        let keys = |wanted: &dyn Fn(&Condition) -> bool| {
            // An answer about one place decides nothing at another.
            let near = |s: &Scoped<'_>| !item.at_each || s.place().is_none_or(|p| p == place);
            let found = self.scope.iter().filter(|s| near(s) && wanted(s.condition()));
            found.map(|s| s.key().to_owned()).collect()
        };
        let id = item.id.as_str();
        let checks = self.request.catalog.checks.iter();
        Bearing {
            item: item.id.clone(),
            place: place.to_owned(),
            value: gains.iter().sum(),
            most: stakes.iter().zip(moved).map(|(stake, moved)| stake.most_per_step() * moved).sum(),
            moves: order.into_iter().map(|i| self.scope[i].key().to_owned()).collect(),
            decides: keys(&|c| decides(id, c)),
            measures: keys(&|c| c.measured_by.as_ref().is_some_and(|m| m.inputs.iter().any(|i| i == id))),
            forbids: checks
                .filter(|(check, c)| {
                    let offered =
                        self.scope.iter().any(|s| s.condition().checks.iter().any(|p| p.check == **check));
                    offered && c.blocked_if.iter().any(|b| reads(b, id))
                })
                .map(|(check, _)| check.clone())
                .collect(),
        }
    }

    /// Nodes on which an answer to the item at a place is evidence.
    pub(crate) fn nodes_of(&self, item: &Item, place: &str) -> Vec<NodeId> {
        let house = self.network();
        let factors = self.request.catalog.factors.iter().filter(|f| f.item == item.id);
        let mut nodes: Vec<NodeId> = factors.filter_map(|f| house.factors.get(&f.id).copied()).collect();
        nodes.extend(house.room_era.filter(|_| item.id == LAST_GUT));
        let here = |of: &Option<String>| of.as_deref().is_none_or(|p| p == place);
        let items = house.items.iter().filter(|n| n.item == item.id && here(&n.place));
        nodes.extend(items.map(|n| n.node));
        nodes
    }

    /// What an answer to a step tells about the conditions in scope, each alone, in bits; of several findings each
    /// condition is credited with the one that tells most about it.
    ///
    /// # Errors
    /// As [`crate::Live::odds`].
    pub fn information(&mut self, step: &Step<'_>) -> Result<f64, AssessError> {
        let now: Vec<f64> = self.nodes().iter().map(|node| self.p_at(*node)).collect();
        let mut told = vec![0.0; now.len()];
        for node in self.nodes_of(step.item, step.place) {
            if self.is_observed(node) {
                continue;
            }
            let given = self.given(node).map_err(|e| explain_plain(&e))?;
            for (i, now) in now.iter().enumerate() {
                let then = |state: usize| bits(given.of(state, i).get(1).copied().unwrap_or(*now));
                let unsure: f64 = given.chances.iter().enumerate().map(|(state, p)| p * then(state)).sum();
                told[i] = libm::fmax(told[i], bits(*now) - unsure);
            }
        }
        Ok(told.iter().sum())
    }
}

/// By condition, of the finding that says most about it.
struct Told {
    /// Expected fall of its least expected loss, dollars.
    gains: Vec<f64>,
    /// Mean shift of its chance.
    moved: Vec<f64>,
}

impl Told {
    /// Notes what a finding is worth and how far it moves each chance.
    fn add(&mut self, given: &Given, stakes: &[Stake<'_>]) {
        for (i, stake) in stakes.iter().enumerate() {
            let (mut after, mut shift) = (0.0, 0.0);
            for (state, chance) in given.chances.iter().enumerate().filter(|(_, chance)| **chance > 0.0) {
                let p = given.of(state, i).get(1).copied().unwrap_or(stake.p);
                after += chance * stake.least(p);
                shift += chance * libm::fabs(p - stake.p);
            }
            self.gains[i] = libm::fmax(self.gains[i], stake.now() - after);
            self.moved[i] = libm::fmax(self.moved[i], shift);
        }
    }
}

/// Entropy of yes or no at a chance, bits.
fn bits(p: f64) -> f64 {
    let term = |p: f64| if p > 0.0 { -p * libm::log2(p) } else { 0.0 };
    term(p) + term(1.0 - p)
}

/// True when the item decides a condition's scope, gate, cost or place in the base price.
fn decides(item: &str, c: &Condition) -> bool {
    let gates = c.decision.iter().flat_map(|d| d.when_if.iter().chain(&d.released_by));
    let scopes = c.not_applicable_if.iter().chain(&c.applies_if).chain(c.cost_when.iter().map(|w| &w.when));
    scopes.chain(gates).any(|rule| reads(rule, item)) || (c.usually_in_base_price && item == IN_BASE_PRICE)
}

fn reads(rule: &Predicate, item: &str) -> bool {
    rule.items().contains(&item)
}
