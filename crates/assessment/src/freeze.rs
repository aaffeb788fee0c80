//! From the odds of a house to a frozen assessment.

use inference::{Sampler, sampler};
use rand_chacha::ChaCha8Rng;
use rand_core::SeedableRng;
use survey::catalog::{Catalog, Condition, Cut, Item as Asked, PLANNED_WORK, Stage};
use survey::log::Value;
use survey::model::Picture;
use survey::say;
use survey::units::Money;
use survey::{Digest, Stamp, guide};

use crate::advice::{advise, cost_pert, days_pert, in_base_price};
use crate::assess::{DRAWS, ENGINE, Request};
use crate::band::band;
use crate::calculation::{Calculated, with_the_rest};
use crate::error::AssessError;
use crate::forecast::{
    CalculationForecast, CatalogRef, ConditionForecast, Contribution, CutForecast, DaysForecast, Forecast,
    LogHead, LogPosition, MoneyForecast, NotKnown, PathStep, PlaceListed, PlaceRef, VERSION, cents, round2,
    round6,
};
use crate::live::{Before, Odds, explain_plain};
use crate::reasons::Reasons;
use crate::scope::Scoped;
use crate::simulate::{Item, Outcome, day_bars, money_alone, money_shape, run, spread, stream_of, word};

const CAUTION: &str = "A survey aid, not an inspection, a design or a code ruling. “Nothing seen” is never “nothing \
there”. Electrical, plumbing, gas, structural, asbestos, lead and mold work belongs to the licensed or certified \
person named with each condition, under the locally adopted code.";

/// How much of an assessment is worked out, each with what comes before it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Depth {
    /// Odds, advice, money and days.
    Odds,
    /// Which answers moved each condition, how, and further looks: all that is frozen.
    Why,
}

impl Odds<'_> {
    /// Computes all there is and freezes it.
    ///
    /// # Errors
    /// As [`crate::live::Live::odds`].
    pub fn freeze(&mut self, made_at: Stamp) -> Result<Forecast, AssessError> {
        let forecast = self.tell(Depth::Why, made_at, &mut || true)?;
        // Nobody breaks this off.
        forecast.ok_or_else(|| AssessError::Catalog("the assessment was broken off".to_owned()))
    }

    /// The assessment as far as it is asked for; `None` if `go_on` said no on the way. Only the whole of it is worth
    /// freezing: without the reasons, looks and paths are empty.
    ///
    /// # Errors
    /// As [`crate::live::Live::odds`].
    pub fn tell(
        &mut self,
        depth: Depth,
        made_at: Stamp,
        go_on: &mut dyn FnMut() -> bool,
    ) -> Result<Option<Forecast>, AssessError> {
        let Request { survey, picture, catalog, rules, .. } = self.request;
        let before = self.before()?;
        let (mut reasons, mut paths, mut looks) = (Reasons::default(), None, Vec::new());
        if depth >= Depth::Why {
            let Some(found) = self.reasons(&before, go_on)? else { return Ok(None) };
            reasons = found;
            let Some(found) = self.paths(&before, go_on)? else { return Ok(None) };
            paths = Some(found);
            let Some(found) = self.looks(go_on)? else { return Ok(None) };
            looks = found;
        }
        let Some(outcome) = self.money(go_on)? else { return Ok(None) };
        let (money, days) = self.sums(&outcome);
        Ok(Some(Forecast {
            v: VERSION,
            survey,
            label: picture.label().to_owned(),
            made_at,
            engine: ENGINE.to_owned(),
            catalog: CatalogRef { version: catalog.version.to_string(), digest: catalog.digest },
            log: position(picture),
            contract: self.contract(),
            rules,
            seed: format!("ChaCha8, seed SHA-256 {}", seed(&self.request).hex()),
            draws: DRAWS,
            log_p_evidence: round6(self.log_p_evidence()),
            evidence: self.evidence.settings.iter().map(|s| s.key.clone()).collect(),
            plan_known: picture.value(PLANNED_WORK).is_some_and(Value::is_statement),
            places: guide::stops_as_listed(catalog, picture)
                .filter_map(|stop| {
                    let PlaceRef { id, label } = PlaceRef::of(catalog, picture, stop.place)?;
                    Some(PlaceListed { station: stop.station.id.clone(), id, label })
                })
                .collect(),
            not_known: not_known(catalog, picture),
            conditions: self.rows(&before, &reasons, paths.as_deref()),
            money,
            days,
            looks,
            calculations: with_the_rest(self.calculated.clone(), catalog, picture)
                .iter()
                .map(|c| {
                    let place = c.place.as_deref().and_then(|p| PlaceRef::of(catalog, picture, p));
                    let title = match place {
                        None => c.title.into(),
                        Some(p) => say!("trade-name-at", name = c.title, depth = p.label),
                    };
                    CalculationForecast::of_sheet(c.word, title, c.condition.clone(), &c.sheet)
                })
                .collect(),
            caution: CAUTION.to_owned(),
        }))
    }

    /// Money to carry at P80 alone, as it is frozen; `None` if `go_on` said no on the way.
    ///
    /// # Errors
    /// As [`crate::live::Live::odds`].
    pub fn p80(&self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Money>, AssessError> {
        if !go_on() {
            return Ok(None);
        }
        let presence = self.presence()?;
        let from = |first| presence.from(first);
        let money = money_alone(&self.sim_items(), DRAWS, self.seed_word(), &from, go_on);
        Ok(money.map(|mut money| cents(spread(&mut money).p80)))
    }

    fn contract(&self) -> Option<Money> {
        self.request.picture.opened.as_ref().and_then(|o| o.contract)
    }

    /// Money and days of an outcome as they are frozen.
    pub(crate) fn sums(&self, outcome: &Outcome) -> (MoneyForecast, DaysForecast) {
        let keys: Vec<&str> = self.scope.iter().map(Scoped::key).collect();
        (money_of(outcome, &keys, self.contract()), days_of(outcome))
    }

    /// The conditions, likeliest first.
    pub(crate) fn rows(
        &self,
        before: &[Before],
        reasons: &Reasons,
        paths: Option<&[Vec<PathStep>]>,
    ) -> Vec<ConditionForecast> {
        let Request { picture, catalog, rules, .. } = self.request;
        let each = self.scope.iter().zip(self.nodes()).zip(before).enumerate();
        let mut rows: Vec<ConditionForecast> = each
            .map(|(i, ((scoped, node), before))| {
                let (c, key, here) = (scoped.condition(), scoped.key(), scoped.here(picture));
                let (p, cost) = (self.p_at(*node), c.cost_in(&here));
                ConditionForecast {
                    id: key.to_owned(),
                    name: c.name.clone(),
                    place: scoped.place().and_then(|p| PlaceRef::of(catalog, picture, p)),
                    group: c.group.clone(),
                    probability: round6(p),
                    base: round6(before.base),
                    era_base: round6(before.era),
                    p_cost: round6(c.p_cost_in(&here)),
                    measured_by: measured_by(&self.calculated, key),
                    cost: [cost.low, cost.likely, cost.high],
                    days: [round2(c.days.low), round2(c.days.likely), round2(c.days.high)],
                    stage: stage_id(c.stage).to_owned(),
                    trade: c.trades.first().cloned().unwrap_or_default(),
                    utility_wait: c.utility_wait,
                    in_base_price: in_base_price(c, &here).is_some(),
                    advice: advise(c, &here, p, &rules),
                    because: reasons.of(key),
                    band: measured_by(&self.calculated, key)
                        .is_none()
                        .then(|| band(catalog, picture, scoped, (before.era, p)))
                        .flatten(),
                    path: paths.and_then(|paths| paths.get(i).cloned()),
                    cut: c.cut.map(|Cut { number, width, height }| CutForecast { number, width, height }),
                    caution: caution_of(c),
                }
            })
            .collect();
        rows.sort_by(|a, b| b.probability.total_cmp(&a.probability).then(a.id.cmp(&b.id)));
        rows
    }
}

/// Seed of the joint draws: one for each survey, catalog and engine.
fn seed(request: &Request<'_>) -> Digest {
    Digest::of(format!("{}|{}|{ENGINE}", request.survey, request.catalog.digest).as_bytes())
}

impl Odds<'_> {
    /// What the simulation must know of each condition in scope.
    pub(crate) fn sim_items(&self) -> Vec<Item> {
        let (picture, scope) = (self.request.picture, &*self.scope);
        let item = |scoped: &Scoped<'_>| {
            let (c, here) = (scoped.condition(), scoped.here(picture));
            Item {
                stream: stream_of(scoped.key()),
                cost: cost_pert(c, &here),
                days: days_pert(c),
                stage: c.stage,
                trade: c.trades.first().cloned().unwrap_or_default(),
                p_cost: c.p_cost_in(&here),
                covers: scoped.covers(scope),
                in_base: in_base_price(c, &here).is_some(),
                utility_wait: c.utility_wait,
            }
        };
        scope.iter().map(item).collect()
    }

    /// The seed of the streams of cost and days.
    pub(crate) fn seed_word(&self) -> u64 {
        word(&seed(&self.request))
    }

    /// Which of the conditions in scope are there in each joint draw.
    pub(crate) fn presence(&self) -> Result<Presence, AssessError> {
        let joint = sampler(&self.network().net, self.all(), self.nodes()).map_err(|e| explain_plain(&e))?;
        Ok(Presence { joint, seed: seed(&self.request) })
    }

    /// Money and days over joint draws; `None` if `go_on` said no on the way.
    ///
    /// # Errors
    /// As [`crate::Live::odds`].
    pub fn money(&self, go_on: &mut dyn FnMut() -> bool) -> Result<Option<Outcome>, AssessError> {
        if !go_on() {
            return Ok(None);
        }
        Ok(run(&self.sim_items(), DRAWS, self.seed_word(), self.presence()?.from(0), go_on))
    }
}

/// Joint draws of what is there: a function of the seed and the number of the draw.
pub(crate) struct Presence {
    joint: Sampler,
    seed: Digest,
}

impl Presence {
    /// The draws from `first` on, one after the other.
    pub(crate) fn from(&self, first: u32) -> impl FnMut(&mut [bool]) + use<'_> {
        /// Draws made at a time, which is quicker than one by one.
        const AHEAD: usize = 64;
        /// Words of the generator, of 32 bits, that a draw takes ([`Sampler::draw`]).
        const WORDS: u128 = 2;
        let mut rng = ChaCha8Rng::from_seed(*self.seed.as_bytes());
        rng.set_word_pos(WORDS * u128::from(first));
        let width = self.joint.wanted().len();
        let mut states = vec![0u16; width * AHEAD];
        let mut next = AHEAD;
        move |present: &mut [bool]| {
            if next == AHEAD {
                self.joint.draws(&mut rng, &mut states);
                next = 0;
            }
            let row = &states[next * width..(next + 1) * width];
            present.iter_mut().zip(row).for_each(|(p, s)| *p = *s == 1);
            next += 1;
        }
    }
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
        entries: picture.counted,
        heads: picture
            .heads
            .iter()
            .map(|(device, (seq, hash))| LogHead { device: *device, seq: *seq, hash: *hash })
            .collect(),
    }
}

fn not_known(catalog: &Catalog, picture: &Picture) -> Vec<NotKnown> {
    let why = |item: &Asked, place: &str| -> Option<String> {
        let (_, standing) = guide::seen_by(item, place, picture).standing(&item.id)?;
        if standing.disagrees() {
            return Some("answers disagree".to_owned());
        }
        match &standing.leading().answer.value {
            Value::CantTell => Some("can't tell".to_owned()),
            Value::CouldNotReach(because) => Some(format!("could not reach: {because}")),
            _ => None,
        }
    };
    let not_known = |guide::Step { item, place, .. }| {
        let of_place = item.at_each.then(|| PlaceRef::of(catalog, picture, place)).flatten();
        Some(NotKnown { item: item.id.clone(), place: of_place, why: why(item, place)? })
    };
    guide::walk_as_listed(catalog, picture).into_iter().filter_map(not_known).collect()
}

fn money_of(outcome: &Outcome, keys: &[&str], contract: Option<Money>) -> MoneyForecast {
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
        let mut list: Vec<Contribution> = keys
            .iter()
            .zip(values)
            .filter(|(_, v)| **v > 0.005)
            .map(|(key, v)| Contribution { condition: (*key).to_owned(), amount: cents(*v) })
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
        shape: Some(money_shape(&outcome.sorted_money)),
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
        bars: Some(day_bars(&outcome.day_draws)),
    }
}
