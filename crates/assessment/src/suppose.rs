//! What would be if: two pictures of a house assessed beside each other, the second one only supposed.
//!
//! Both are assessed as [`crate::assess()`] does, with the same seed, so what is supposed and later recorded gives the
//! numbers told here. Nothing is kept.

use serde::Serialize;
use survey::Stamp;
use survey::catalog::nearest;

use crate::assess::{Request, assess};
use crate::error::AssessError;
use crate::evidence::checks_made;
use crate::forecast::{Advice, ConditionForecast, DaysForecast, Forecast, Look, MoneyForecast, round6};
use crate::house_draws::HouseDraws;
use crate::live::Live;

/// A change of odds is told from this much on: one point in a hundred.
const POINT: f64 = 0.01;

/// Money and days of a picture.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Side {
    /// The unknown in money.
    pub money: MoneyForecast,
    /// The unknown in days.
    pub days: DaysForecast,
}

impl Side {
    fn of(forecast: &Forecast) -> Self {
        Self { money: forecast.money.clone(), days: forecast.days.clone() }
    }
}

/// A condition whose odds differ between two pictures.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Moved {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// P(present) before; none where it was out of scope.
    pub before: Option<f64>,
    /// P(present) after; none where it leaves the scope.
    pub after: Option<f64>,
    /// What comes before any arithmetic, where a gate stands in either picture.
    pub gate: Option<String>,
    /// Who decides.
    pub caution: String,
}

/// What would be.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Branch {
    /// What the look shows; none where no look is supposed.
    pub shows: Option<bool>,
    /// P(it shows this | all answers, those supposed too); 1 without a look.
    pub chance: f64,
    /// Money and days then.
    pub then: Side,
    /// Conditions whose odds change by a point or more, those that change most first.
    pub moved: Vec<Moved>,
}

/// Before and after.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Supposed {
    /// The house's label.
    pub label: String,
    /// As the answers stand.
    pub now: Side,
    /// As it would be, one branch for each result of a look.
    pub branches: Vec<Branch>,
    /// What the look is worth before it is made, with its cost; none where the arithmetic gives it no value.
    pub worth: Option<Look>,
    /// Conditions supposed to be priced in, with the cautions that stay.
    pub priced_in: Vec<Moved>,
}

/// Why nothing can be supposed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SupposeError {
    /// A condition that the house does not have in scope.
    #[error("“{key}” is not in scope of this house{}", .near.as_ref().map(|n| format!(" (did you mean “{n}”?)")).unwrap_or_default())]
    NotInScope {
        /// As given.
        key: String,
        /// The nearest that is.
        near: Option<String>,
    },
    /// The base price holds it already.
    #[error("“{0}” is in the base price already: there is nothing to suppose")]
    InBasePrice(String),
    /// A check that the catalog does not have, or that says nothing about the condition.
    #[error("the check “{check}” says nothing about “{key}”")]
    NoPair {
        /// The check.
        check: String,
        /// The condition.
        key: String,
    },
    /// A look that has been made.
    #[error("the check “{check}” was made on “{key}” already; suppose another result of it instead")]
    Made {
        /// The check.
        check: String,
        /// The condition.
        key: String,
    },
    /// The house cannot be assessed.
    #[error(transparent)]
    Assess(#[from] AssessError),
}

/// Assesses `now`, and `then` with some conditions (by key) taken into the base price.
///
/// # Errors
/// [`SupposeError`].
pub fn suppose(
    now: &Request<'_>,
    then: &Request<'_>,
    priced_in: &[String],
) -> Result<Supposed, SupposeError> {
    let (before, _) = assess(now, Stamp::EPOCH)?;
    let after = assess_priced_in(then, priced_in)?;
    let branch = Branch { shows: None, chance: 1.0, then: Side::of(&after), moved: moved(&before, &after) };
    Ok(told(&before, &after, vec![branch], None, priced_in))
}

/// What a look at a condition may show, and what would be then: the chance of a result, given the answers of `then`, and
/// one picture for each (`shown`: it does not show, it shows).
///
/// # Errors
/// [`SupposeError`].
pub fn suppose_look(
    now: &Request<'_>,
    then: &Request<'_>,
    [check, key]: [&str; 2],
    shown: [&Request<'_>; 2],
    priced_in: &[String],
) -> Result<Supposed, SupposeError> {
    let (before, _) = assess(now, Stamp::EPOCH)?;
    let middle = assess_priced_in(then, priced_in)?;
    if checks_made(then.catalog, then.picture).iter().any(|(c, k, _, _)| c == check && k == key) {
        return Err(SupposeError::Made { check: check.to_owned(), key: key.to_owned() });
    }
    let condition = middle.condition(key).ok_or_else(|| not_in_scope(key, &middle))?;
    let pair = then.catalog.condition_of(key).and_then(|c| c.checks.iter().find(|pair| pair.check == check));
    let pair = pair.ok_or_else(|| SupposeError::NoPair { check: check.to_owned(), key: key.to_owned() })?;
    let p = condition.probability;
    let shows = p * pair.sensitivity + (1.0 - p) * (1.0 - pair.specificity);
    let mut branches = Vec::new();
    for (shows, chance, request) in [(true, shows, shown[1]), (false, 1.0 - shows, shown[0])] {
        let after = assess_priced_in(request, priced_in)?;
        branches.push(Branch {
            shows: Some(shows),
            chance: round6(chance),
            then: Side::of(&after),
            moved: moved(&before, &after),
        });
    }
    let worth =
        middle.looks.iter().find(|look| look.check == check && look.conditions.iter().any(|c| c == key));
    Ok(told(&before, &middle, branches, worth.cloned(), priced_in))
}

fn told(
    before: &Forecast,
    after: &Forecast,
    branches: Vec<Branch>,
    worth: Option<Look>,
    priced_in: &[String],
) -> Supposed {
    let one = |key: &String| Some(compared(before.condition(key), after.condition(key)?));
    Supposed {
        label: before.label.clone(),
        now: Side::of(before),
        branches,
        worth,
        priced_in: priced_in.iter().filter_map(one).collect(),
    }
}

/// The assessment of a picture with some conditions taken into the base price. A gate stays where it is: a price does
/// not replace the licensed look.
fn assess_priced_in(request: &Request<'_>, priced_in: &[String]) -> Result<Forecast, SupposeError> {
    let mut live = Live::default();
    let mut odds = live.odds(request)?;
    let mut forecast = odds.freeze(Stamp::EPOCH)?;
    for key in priced_in {
        let missing = not_in_scope(key, &forecast);
        let condition = forecast.conditions.iter_mut().find(|c| c.id == *key).ok_or(missing)?;
        if condition.in_base_price {
            return Err(SupposeError::InBasePrice(key.clone()));
        }
        condition.in_base_price = true;
        if gate(condition).is_none() {
            condition.advice = Advice::InBasePrice { confirmed: true };
        }
    }
    if !priced_in.is_empty()
        && let Some(HouseDraws { mut items, draws }) = HouseDraws::of(&odds, || true)?
    {
        for (scoped, item) in odds.scope.iter().zip(&mut items) {
            item.in_base |= priced_in.iter().any(|key| key == scoped.key());
        }
        (forecast.money, forecast.days) = odds.sums(&draws.outcome(&items));
    }
    Ok(forecast)
}

fn not_in_scope(key: &str, forecast: &Forecast) -> SupposeError {
    let near = nearest(key, forecast.conditions.iter().map(|c| c.id.as_str())).map(str::to_owned);
    SupposeError::NotInScope { key: key.to_owned(), near }
}

/// What comes before any arithmetic.
fn gate(c: &ConditionForecast) -> Option<String> {
    match &c.advice {
        Advice::LicensedLookFirst { until } | Advice::PriceInOrTest { until } => Some(until.clone()),
        _ => None,
    }
}

/// Conditions whose odds differ by a point or more, or that come into scope or leave it.
fn moved(before: &Forecast, after: &Forecast) -> Vec<Moved> {
    let new = after.conditions.iter().filter(|c| before.condition(&c.id).is_none());
    let stayed = before.conditions.iter().map(|c| compared(Some(c), after.condition(&c.id).unwrap_or(c)));
    let left = |m: &Moved| after.condition(&m.key).is_none();
    let stayed = stayed.map(|m| if left(&m) { Moved { after: None, ..m } } else { m });
    let mut moved: Vec<Moved> = stayed.chain(new.map(|c| compared(None, c))).collect();
    let far = |m: &Moved| (m.after.unwrap_or(0.0) - m.before.unwrap_or(0.0)).abs();
    moved.retain(|m| m.before.is_none() || m.after.is_none() || far(m) >= POINT - 1e-9);
    moved.sort_by(|a, b| far(b).total_cmp(&far(a)).then(a.key.cmp(&b.key)));
    moved
}

fn compared(before: Option<&ConditionForecast>, after: &ConditionForecast) -> Moved {
    Moved {
        key: after.id.clone(),
        name: after.name.clone(),
        before: before.map(|c| c.probability),
        after: Some(after.probability),
        gate: before.and_then(gate).or_else(|| gate(after)),
        caution: after.caution.clone(),
    }
}
