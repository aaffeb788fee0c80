//! One house, assessed and frozen.

use std::collections::BTreeMap;

use inference::{InferError, NodeId, Posterior, posterior, sampler};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use survey::catalog::{Catalog, Condition, LAST_GUT, PLANNED_WORK, Stage};
use survey::log::Value;
use survey::model::Picture;
use survey::units::Money;
use survey::{Digest, Stamp, SurveyId};

use crate::advice::{advise, cost_pert, days_pert, in_base_price};
use crate::calculation::{Calculated, calculate};
use crate::clue_table::ClueTables;
use crate::decision::LossRules;
use crate::error::AssessError;
use crate::evidence::{HouseEvidence, checks_made, house_evidence, room_year};
use crate::forecast::{
    CalculationForecast, CatalogRef, ConditionForecast, Contribution, DaysForecast, Forecast, LogHead,
    LogPosition, MoneyForecast, NotKnown, Reason, VERSION, cents, round2, round6,
};
use crate::house_network::{HouseNetwork, Measured};
use crate::looks::rank_looks;
use crate::scope::{Scoped, scope_of};
use crate::simulate::{Item, Outcome, run};

/// Joint draws of money and days.
pub const DRAWS: u32 = 20_000;
/// Name and version of the engine, frozen with every assessment.
pub const ENGINE: &str = concat!("underlath ", env!("CARGO_PKG_VERSION"));

const CAUTION: &str = "A survey aid, not an inspection, a design or a code ruling. “Nothing seen” is never “nothing \
there”. Electrical, plumbing, gas, structural, asbestos, lead and mold work belongs to the licensed or certified \
person named with each condition, under the locally adopted code.";

/// What is assessed, with everything that does not come from the log handed in.
#[derive(Clone, Copy, Debug)]
pub struct Request<'a> {
    /// The house.
    pub survey: SurveyId,
    /// The folded picture.
    pub picture: &'a Picture,
    /// The catalog.
    pub catalog: &'a Catalog,
    /// Its clue tables.
    pub tables: &'a ClueTables,
    /// The firm's factors.
    pub rules: LossRules,
    /// When it is frozen.
    pub made_at: Stamp,
}

/// Assesses one house. The network that was used comes back beside the frozen assessment.
pub fn assess(request: &Request<'_>) -> Result<(Forecast, HouseNetwork), AssessError> {
    let Request { picture, catalog, tables, rules, .. } = *request;
    let scope = scope_of(catalog, picture);
    let calculated = calculate(catalog, picture, &scope);
    let measured: Vec<Measured> = calculated.iter().filter_map(Calculated::measured).collect();
    let checks: Vec<(String, String, u32)> =
        checks_made(catalog, picture).into_iter().map(|(k, c, n, _)| (k, c, n)).collect();
    let dated = room_year(picture).is_some();
    let house = HouseNetwork::build(catalog, tables, &scope, &measured, &checks, dated)?;
    let evidence = house_evidence(catalog, &house, picture);
    let with_all = posterior(&house.net, &evidence.all()).map_err(|e| explain(e, &evidence, picture))?;

    // Base rates come from the network without measurements.
    let bare = HouseNetwork::build(catalog, tables, &scope, &[], &checks, dated)?;
    let bare_evidence = house_evidence(catalog, &bare, picture);
    let base =
        posterior(&bare.net, &inference::Evidence::new()).map_err(|e| explain(e, &bare_evidence, picture))?;
    let year_item = catalog.era().map(|f| f.item.as_str()).unwrap_or_default();
    let era = posterior(&bare.net, &bare_evidence.keeping(|i| i == year_item || i == LAST_GUT))
        .map_err(|e| explain(e, &bare_evidence, picture))?;

    let reasons = Reasons::compute(&house, &evidence, &with_all, &calculated, &base, &bare, picture)?;
    let mut conditions: Vec<ConditionForecast> = Vec::new();
    for scoped in &scope {
        let (c, key, here) = (scoped.condition(), scoped.key(), scoped.here(picture));
        let (Some(node), Some(bare_node)) = (house.condition(key), bare.condition(key)) else { continue };
        let p = with_all.of(node)[1];
        conditions.push(ConditionForecast {
            id: key.to_owned(),
            name: c.name.clone(),
            group: c.group.clone(),
            probability: round6(p),
            base: round6(base.of(bare_node)[1]),
            era_base: round6(era.of(bare_node)[1]),
            p_cost: round6(c.p_cost_in(&here)),
            measured_by: measured_by(&calculated, key),
            cost: {
                let cost = c.cost_in(&here);
                [cost.low, cost.likely, cost.high]
            },
            days: [round2(c.days.low), round2(c.days.likely), round2(c.days.high)],
            stage: stage_id(c.stage).to_owned(),
            trade: c.trades.first().cloned().unwrap_or_default(),
            utility_wait: c.utility_wait,
            in_base_price: in_base_price(c, &here).is_some(),
            advice: advise(c, &here, p, &rules),
            because: reasons.of(key),
            caution: caution_of(c),
        });
    }
    conditions.sort_by(|a, b| b.probability.total_cmp(&a.probability).then(a.id.cmp(&b.id)));

    let seed = Digest::of(format!("{}|{}|{ENGINE}", request.survey, catalog.digest).as_bytes());
    let outcome = simulate_house(&house, &evidence, &scope, picture, &seed)?;
    let p_of = |key: &str| house.condition(key).map_or(0.0, |n| with_all.of(n)[1]);
    let contract = picture.opened.as_ref().and_then(|o| o.contract);
    let forecast = Forecast {
        v: VERSION,
        survey: request.survey,
        label: picture.opened.as_ref().map(|o| o.label.clone()).unwrap_or_default(),
        made_at: request.made_at,
        engine: ENGINE.to_owned(),
        catalog: CatalogRef { version: catalog.version.to_string(), digest: catalog.digest },
        log: position(picture),
        contract,
        rules,
        seed: format!("ChaCha8, seed SHA-256 {}", seed.hex()),
        draws: DRAWS,
        log_p_evidence: round6(with_all.log_p_evidence),
        evidence: evidence.settings.iter().map(|s| s.item.clone()).collect(),
        plan_known: picture.value(PLANNED_WORK).is_some_and(Value::is_statement),
        not_known: not_known(catalog, picture),
        conditions,
        money: money_of(&outcome, &scope, contract),
        days: days_of(&outcome),
        looks: rank_looks(catalog, &scope, picture, &rules, &p_of),
        calculations: calculated
            .iter()
            .map(|c| CalculationForecast::of_sheet(c.word, c.title, c.condition.clone(), &c.sheet))
            .collect(),
        caution: CAUTION.to_owned(),
    };
    Ok((forecast, house))
}

/// The catalog's caution, and who decides where there is a hazard.
fn caution_of(c: &Condition) -> String {
    match &c.decides {
        Some(who) => format!("{} Who decides: {who}; local code governs.", c.caution),
        None => c.caution.clone(),
    }
}

/// The calculation that gave a condition's probability.
fn measured_by(calculated: &[Calculated], key: &str) -> Option<String> {
    let gave = |c: &&Calculated| c.measured().is_some_and(|m| m.condition == key);
    calculated.iter().find(gave).map(|c| c.word.to_owned())
}

/// Stages by the words frozen in a forecast.
pub const STAGES: [(Stage, &str); 3] =
    [(Stage::Demolition, "demolition"), (Stage::RoughIn, "rough-in"), (Stage::CloseUp, "close-up")];

fn stage_id(stage: Stage) -> &'static str {
    STAGES.iter().find(|(s, _)| *s == stage).map_or("rough-in", |(_, id)| id)
}

fn position(picture: &Picture) -> LogPosition {
    LogPosition {
        entries: picture.entries,
        heads: picture
            .heads
            .iter()
            .map(|(device, (seq, hash))| LogHead { device: *device, seq: *seq, hash: *hash })
            .collect(),
    }
}

fn not_known(catalog: &Catalog, picture: &Picture) -> Vec<NotKnown> {
    let why = |item: &str| -> Option<String> {
        let (_, standing) = picture.standing(item)?;
        if standing.disagrees() {
            return Some("answers disagree".to_owned());
        }
        match &standing.leading().answer.value {
            Value::CantTell => Some("can't tell".to_owned()),
            Value::CouldNotReach(because) => Some(format!("could not reach: {because}")),
            _ => None,
        }
    };
    catalog.items.iter().filter_map(|i| Some(NotKnown { item: i.id.clone(), why: why(&i.id)? })).collect()
}

fn simulate_house(
    house: &HouseNetwork,
    evidence: &HouseEvidence,
    scope: &[Scoped<'_>],
    picture: &Picture,
    seed: &Digest,
) -> Result<Outcome, AssessError> {
    let items: Vec<Item> = scope
        .iter()
        .map(|scoped| {
            let (c, here) = (scoped.condition(), scoped.here(picture));
            Item {
                cost: cost_pert(c, &here),
                days: days_pert(c),
                stage: c.stage,
                trade: c.trades.first().cloned().unwrap_or_default(),
                p_cost: c.p_cost_in(&here),
                covers: scoped.covers(scope),
                in_base: in_base_price(c, &here).is_some(),
                utility_wait: c.utility_wait,
            }
        })
        .collect();
    let nodes: Vec<NodeId> = scope.iter().filter_map(|s| house.condition(s.key())).collect();
    let joint = sampler(&house.net, &evidence.all(), &nodes).map_err(|e| explain_plain(&e))?;
    let mut rng = ChaCha8Rng::from_seed(*seed.as_bytes());
    let mut states = vec![0u16; nodes.len()];
    Ok(run(&items, DRAWS, &mut rng, |rng, present| {
        joint.draw(rng, &mut states);
        present.iter_mut().zip(&states).for_each(|(p, s)| *p = *s == 1);
    }))
}

fn money_of(outcome: &Outcome, scope: &[Scoped<'_>], contract: Option<Money>) -> MoneyForecast {
    let m = &outcome.money;
    let n = outcome.sorted_money.len().max(1) as f64;
    let over = contract.map(|contract| {
        [0.02, 0.05, 0.10].map(|share| {
            let above = outcome.sorted_money.iter().filter(|x| **x > share * contract.dollars()).count();
            round6(above as f64 / n)
        })
    });
    let quantile = |k: i32| {
        let rank = libm::ceil(f64::from(k) / 20.0 * n) as usize;
        outcome.sorted_money.get(rank.saturating_sub(1)).map_or(Money::ZERO, |x| cents(*x))
    };
    let top = |values: &[f64]| {
        let mut list: Vec<Contribution> = scope
            .iter()
            .zip(values)
            .filter(|(_, v)| **v > 0.005)
            .map(|(s, v)| Contribution { condition: s.key().to_owned(), amount: cents(*v) })
            .collect();
        list.sort_by(|a, b| b.amount.cmp(&a.amount).then(a.condition.cmp(&b.condition)));
        list.truncate(10);
        list
    };
    MoneyForecast {
        mean: cents(m.mean),
        p50: cents(m.p50),
        p80: cents(m.p80),
        p90: cents(m.p90),
        standard_errors: m.se.map(cents),
        over,
        quantiles: (1..20).map(quantile).collect(),
        in_base_mean: cents(outcome.base_money.mean),
        to_mean: top(&outcome.mean_of),
        to_spread: top(&outcome.spread_of),
    }
}

fn days_of(outcome: &Outcome) -> DaysForecast {
    let d = &outcome.days;
    DaysForecast {
        mean: round2(d.mean),
        p50: round2(d.p50),
        p80: round2(d.p80),
        p90: round2(d.p90),
        standard_errors: d.se.map(round2),
        utility_wait: [round2(outcome.utility_days.mean), round2(outcome.utility_days.p80)],
    }
}

/// Which answers moved each condition, by leaving one out at a time.
struct Reasons {
    by_condition: BTreeMap<String, Vec<Reason>>,
}

/// Reasons kept for each condition.
const REASONS: usize = 5;

impl Reasons {
    fn compute(
        house: &HouseNetwork,
        evidence: &HouseEvidence,
        with_all: &Posterior,
        calculated: &[Calculated],
        base: &Posterior,
        bare: &HouseNetwork,
        picture: &Picture,
    ) -> Result<Self, AssessError> {
        let mut by_condition: BTreeMap<String, Vec<Reason>> = BTreeMap::new();
        let mut note = |condition: &str, item: &str, with: f64, without: f64| {
            let decibans = 10.0 * (libm::log10(with / (1.0 - with)) - libm::log10(without / (1.0 - without)));
            let Some(value) = picture.value(item).filter(|_| decibans.is_finite() && decibans.abs() >= 0.1)
            else {
                return;
            };
            let decibans = libm::round(decibans * 10.0) / 10.0;
            by_condition.entry(condition.to_owned()).or_default().push(Reason {
                item: item.to_owned(),
                value: value.clone(),
                decibans,
            });
        };
        for setting in &evidence.settings {
            let without =
                posterior(&house.net, &evidence.without(&setting.item)).map_err(|e| explain_plain(&e))?;
            for (condition, node) in &house.conditions {
                note(condition, &setting.item, with_all.of(*node)[1], without.of(*node)[1]);
            }
        }
        // A calculation is one reason, named by the measurement it rests on.
        for calculation in calculated {
            if let Some(Measured { condition, p }) = calculation.measured()
                && let Some(node) = bare.condition(&condition)
            {
                note(&condition, calculation.main_item, p, base.of(node)[1]);
            }
        }
        for reasons in by_condition.values_mut() {
            reasons.sort_by(|a, b| b.decibans.abs().total_cmp(&a.decibans.abs()).then(a.item.cmp(&b.item)));
            reasons.truncate(REASONS);
        }
        Ok(Self { by_condition })
    }
    fn of(&self, condition: &str) -> Vec<Reason> {
        self.by_condition.get(condition).cloned().unwrap_or_default()
    }
}

fn explain(error: InferError, evidence: &HouseEvidence, picture: &Picture) -> AssessError {
    match error {
        InferError::Impossible { conflict } => AssessError::Impossible {
            items: evidence
                .items_on(&conflict)
                .into_iter()
                .map(|item| {
                    let entered = picture.answer(item).and_then(|a| a.entered.clone());
                    format!("{item} = {}", entered.unwrap_or_else(|| "as recorded".to_owned()))
                })
                .collect(),
        },
        other => explain_plain(&other),
    }
}

fn explain_plain(error: &InferError) -> AssessError {
    match error {
        InferError::TooLarge { .. } => AssessError::TooLarge(error.to_string()),
        other => AssessError::Catalog(other.to_string()),
    }
}
