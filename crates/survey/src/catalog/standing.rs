//! What stands behind a number: its basis, the houses it weighs, its published sources.

use super::Catalog;
use super::condition::{Basis, Condition};
use super::overlay::Change;

/// What stands behind a number.
#[derive(Clone, PartialEq, Debug)]
pub struct Standing {
    /// Where it comes from.
    pub basis: Basis,
    /// How many houses it weighs when the firm's findings are set against it.
    pub weight: f64,
    /// Published sources by id.
    pub sources: Vec<String>,
}

impl Catalog {
    /// What stands behind one number of the catalog, named as an overlay names it: kind and id of the thing (no id for
    /// a table that is there once), and the key with dots, such as `clues.hot-line.if-present` or `prior.to-1939`.
    /// `None` for what is no number or is not there.
    pub fn standing(&self, kind: &str, id: &str, key: &str) -> Option<Standing> {
        let changes = self.overlay.iter().flat_map(|o| &o.changes);
        let own = changes.into_iter().find(|c| c.kind == kind && c.id == id && c.covers(key));
        if let Some((change, basis)) = own.and_then(|c| Some((c, c.backing.basis?))) {
            let counted = change.backing.jobs.map(f64::from);
            let weight = counted.unwrap_or_else(|| self.reference.weights.of(basis));
            return Some(Standing { basis, weight, sources: change.backing.sources.clone() });
        }
        let (basis, sources) = self.basis_of(kind, id, key)?;
        Some(Standing { basis, weight: self.reference.weights.of(basis), sources })
    }

    fn basis_of(&self, kind: &str, id: &str, key: &str) -> Option<(Basis, Vec<String>)> {
        let outer = key.split('.').next().unwrap_or_default();
        match kind {
            "condition" => of_condition(self.condition(id)?, key),
            "clue" => {
                let clue = self.clue(id).filter(|_| matches!(outer, "true-when" | "by-code"))?;
                Some((clue.basis, clue.sources.clone()))
            }
            "check" => {
                let check = self.check(id).filter(|_| matches!(outer, "minutes" | "cost"))?;
                Some((check.basis, check.sources.clone()))
            }
            "item" => {
                let numbers = ["min", "max", "skip-if", "promote-if"];
                let item = self.item(id).filter(|_| numbers.contains(&outer))?;
                Some((item.basis, Vec::new()))
            }
            "station" => {
                let own = self.items.iter().find(|i| i.station == id && outer == "minutes")?;
                Some((own.basis, Vec::new()))
            }
            "factor" => {
                let factor = self.factor(id).filter(|_| matches!(outer, "levels" | "given"))?;
                Some((factor.basis, factor.source.iter().cloned().collect()))
            }
            "outage" => {
                let outage = self.outages.iter().find(|o| o.id == id && outer == "hours")?;
                Some((outage.basis, outage.sources.clone()))
            }
            "wish" => {
                let wish = self.wishes.iter().find(|w| w.id == id && matches!(outer, "now" | "later"))?;
                Some((wish.basis, wish.sources.clone()))
            }
            "length" => {
                let length = self.drain_defaults.get(id)?;
                let numbers = ["inches", "low", "high", "sigma-measured", "sigma-assumed"];
                numbers.contains(&outer).then(|| (length.basis, length.sources.clone()))
            }
            "setting" => {
                let setting = self.settings.get(id).filter(|_| outer == "value")?;
                Some((setting.basis, setting.sources.clone()))
            }
            _ => self.basis_of_single(kind, key).map(|basis| (basis, Vec::new())),
        }
    }

    fn basis_of_single(&self, kind: &str, key: &str) -> Option<Basis> {
        let reference = &self.reference;
        match (kind, key) {
            ("reference", "early-price-factor") => Some(reference.early_price_basis),
            ("reference", "shared-cause-damping") => Some(reference.shared_cause_damping_basis),
            ("reference", "mid-range-kitchen") => Some(Basis::Published),
            ("base-odds", "factor") => Some(reference.base_odds.basis),
            ("weights", "judgment" | "common-practice" | "window" | "derived" | "published" | "firm") => {
                Some(reference.weights.basis)
            }
            _ => None,
        }
    }
}

fn of_condition(c: &Condition, key: &str) -> Option<(Basis, Vec<String>)> {
    let mut parts = key.split('.');
    let outer = parts.next().unwrap_or_default();
    let basis = match outer {
        "prior" | "adjust" => c.basis.prior,
        "clues" => c.basis.likelihoods,
        "checks" => {
            let check = parts.next()?;
            let pair = c.checks.iter().find(|p| p.check == check)?;
            if let Some(own) = pair.basis {
                return Some((own, pair.source.iter().cloned().collect()));
            }
            c.basis.checks
        }
        "cost" | "cost-when" => c.basis.cost,
        "days" => c.basis.days,
        "p-cost" | "p-cost-by-trigger" => c.basis.p_cost?,
        _ => return None,
    };
    Some((basis, c.sources.clone()))
}

impl Change {
    /// True when this change covers a key: the same one, or one inside it.
    pub fn covers(&self, key: &str) -> bool {
        key.strip_prefix(self.key.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
    }
}
