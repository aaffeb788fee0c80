//! A promise about one house: which conditions may be promised, what it costs, what further checks would do.

use serde::Serialize;
use survey::catalog::nearest;
use survey::units::Money;

use super::{Check, Plan, Premium, Search, Terms, cheapest, price, without_each};
use crate::assess::{DRAWS, Request};
use crate::error::AssessError;
use crate::evidence::checks_made;
use crate::forecast::{Advice, ConditionForecast, cents, round2, round6};
use crate::house_draws::HouseDraws;
use crate::live::{Live, Odds};
use crate::looks::{Report, ask_first, effort, visits};
use crate::reasons::Reasons;
use crate::simulate::Draws;

/// What is promised, and for how much it should be had.
#[derive(Clone, Copy, Debug)]
pub struct Promised<'a> {
    /// Keys of the conditions.
    pub cover: &'a [String],
    /// The most that is paid.
    pub cap: Money,
    /// The premium wanted; checks that bring it there are then looked for.
    pub under: Option<Money>,
    /// The firm's terms.
    pub terms: Terms,
}

/// A promise priced.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Promise {
    /// The most that is paid.
    pub cap: Money,
    /// The firm's terms.
    pub terms: Terms,
    /// What it costs.
    pub price: Priced,
    /// The conditions, in the order given.
    pub covered: Vec<Covered>,
    /// The premium wanted, and what would bring it there.
    pub under: Option<CheckPlan>,
    /// Joint draws it rests on.
    pub draws: u32,
}

/// Money and chances of a promise.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Priced {
    /// Mean payout.
    pub mean: Money,
    /// The payout stays within this in 8 of 10 draws.
    pub p80: Money,
    /// In 9 of 10.
    pub p90: Money,
    /// mean + λ·(P90 − mean).
    pub premium: Money,
    /// Monte-Carlo standard errors of mean, P80, P90, and at most that of the premium.
    pub standard_errors: [Money; 4],
    /// P(the cap is reached).
    pub cap_reached: f64,
    /// Its standard error.
    pub cap_reached_error: f64,
}

/// A promised condition.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Covered {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// P(present | all answers).
    pub probability: f64,
    /// What the promise costs without it.
    pub without: Priced,
    /// Who decides.
    pub caution: String,
}

/// A wanted premium and the checks that lead there.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CheckPlan {
    /// The premium wanted.
    pub wanted: Money,
    /// True when the premium is there already.
    pub already: bool,
    /// True when the checks below have a sufficient chance; false when they only come nearest.
    pub sufficient: bool,
    /// True when every set of checks was tried.
    pub every: bool,
    /// The checks; none when no check that may be offered tells anything of what is promised.
    pub checks: Vec<Part>,
    /// Minutes together.
    pub minutes: f64,
    /// Cost together.
    pub cost: Money,
    /// P(the premium is at most the wanted figure after the results).
    pub chance: f64,
    /// P(nothing shows).
    pub clear: f64,
    /// The premium if nothing shows.
    pub if_clear: Money,
    /// The premium averaged over the results.
    pub expected: Money,
}

/// One check of a plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Part {
    /// Check id.
    pub check: String,
    /// Its name.
    pub name: String,
    /// Who does it.
    pub who: String,
    /// Promised conditions it tells of.
    pub reads: Vec<String>,
    /// What must be asked before it is done.
    pub ask_first: Vec<String>,
}

/// Why a condition is not promised.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The catalog or the plan of this house does not have it.
    NotInScope {
        /// As given.
        key: String,
        /// The nearest that is in scope.
        near: Option<String>,
    },
    /// It is named twice.
    Twice {
        /// Its key.
        key: String,
    },
    /// A gate stands before it.
    Gated {
        /// Its key.
        key: String,
        /// Who or what comes first, in the catalog's words.
        until: String,
    },
    /// The base price holds it.
    InBasePrice {
        /// Its key.
        key: String,
    },
    /// It has no cost of its own.
    NoCost {
        /// Its key.
        key: String,
    },
}

impl core::fmt::Display for Refusal {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::NotInScope { key, near: Some(near) } => {
                write!(f, "“{key}” is not in scope of this house (did you mean “{near}”?)")
            }
            Self::NotInScope { key, near: None } => write!(f, "“{key}” is not in scope of this house"),
            Self::Twice { key } => write!(f, "“{key}” is named twice"),
            Self::Gated { key, until } => {
                write!(f, "“{key}” cannot be promised away: a named licensed person looks first ({until})")
            }
            Self::InBasePrice { key } => write!(f, "“{key}” is in the base price and no part of a promise"),
            Self::NoCost { key } => write!(f, "“{key}” has no cost of its own to promise"),
        }
    }
}

/// The most that can be charged of what the ninetieth percentile lies above the mean: the range of the setting
/// `promise-spread`. A firm that fears a promise more than its ninetieth percentile charges more than the whole of it.
pub const MOST_LOADING: f64 = 5.0;

/// Why a promise has no price.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum PromiseError {
    /// Nothing is promised.
    #[error("a promise covers at least one condition")]
    Nothing,
    /// A cap that is none.
    #[error("a promise has a cap above $0; {0} was given")]
    Cap(Money),
    /// A loading or a chance out of range.
    #[error(
        "the loading of a promise lies between 0 and {MOST_LOADING}, its chance between 0 and 1; {0} was given"
    )]
    Terms(f64),
    /// Conditions that cannot be promised.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "))]
    Refused(Vec<Refusal>),
    /// The house cannot be assessed.
    #[error(transparent)]
    Assess(#[from] AssessError),
}

/// Prices a promise about a house as its answers stand. Nothing is frozen; the same request gives the same numbers.
///
/// # Errors
/// [`PromiseError`].
pub fn promise(request: &Request<'_>, promised: &Promised<'_>) -> Result<Promise, PromiseError> {
    let Promised { cover, cap, under, terms } = *promised;
    if cover.is_empty() {
        return Err(PromiseError::Nothing);
    }
    if cap <= Money::ZERO {
        return Err(PromiseError::Cap(cap));
    }
    for (given, most) in [(terms.loading, MOST_LOADING), (terms.chance, 1.0)] {
        if !(0.0..=most).contains(&given) {
            return Err(PromiseError::Terms(given));
        }
    }
    let mut live = Live::default();
    let odds = live.odds(request)?;
    let rows = odds.rows(&odds.before()?, &Reasons::default(), None);
    let conditions = admitted(cover, &rows).map_err(PromiseError::Refused)?;
    // Asked to go on it always does, so there are draws.
    let Some(HouseDraws { draws, .. }) = HouseDraws::of(&odds, || true)? else {
        return Err(PromiseError::Nothing);
    };
    let position = |key: &String| odds.scope.iter().position(|s| s.key() == key);
    let items: Vec<usize> = cover.iter().filter_map(position).collect();
    let limit = cap.dollars();
    let premium = price(&draws, &items, limit, &terms);
    let without = without_each(&draws, &items, limit, &terms);
    let covered = conditions.iter().zip(&without).map(|(c, without)| Covered {
        key: c.id.clone(),
        name: c.name.clone(),
        probability: c.probability,
        without: Priced::of(without),
        caution: c.caution.clone(),
    });
    Ok(Promise {
        cap,
        terms,
        price: Priced::of(&premium),
        covered: covered.collect(),
        under: under.map(|wanted| plan(&odds, &draws, &items, promised, wanted, &premium)),
        draws: DRAWS,
    })
}

/// The conditions of the forecast that are named, or every reason why one cannot be promised.
fn admitted<'f>(
    cover: &[String],
    rows: &'f [ConditionForecast],
) -> Result<Vec<&'f ConditionForecast>, Vec<Refusal>> {
    let mut refused = Vec::new();
    let mut admitted: Vec<&ConditionForecast> = Vec::new();
    for key in cover {
        let key = key.clone();
        let Some(c) = rows.iter().find(|c| c.id == key) else {
            let near = nearest(&key, rows.iter().map(|c| c.id.as_str())).map(str::to_owned);
            refused.push(Refusal::NotInScope { key, near });
            continue;
        };
        match &c.advice {
            _ if admitted.iter().any(|a| a.id == key) => refused.push(Refusal::Twice { key }),
            Advice::LicensedLookFirst { until } | Advice::PriceInOrTest { until } => {
                refused.push(Refusal::Gated { key, until: until.clone() });
            }
            Advice::InBasePrice { .. } => refused.push(Refusal::InBasePrice { key }),
            Advice::Nothing => refused.push(Refusal::NoCost { key }),
            Advice::BelowFloor | Advice::Price { .. } => admitted.push(c),
        }
    }
    if refused.is_empty() { Ok(admitted) } else { Err(refused) }
}

/// A check that may be offered, with what must be asked first.
struct Offered<'a> {
    id: &'a str,
    check: Check,
    ask_first: Vec<String>,
}

/// Checks that nothing forbids and that were not made yet, with what they tell of the promised conditions.
fn offered<'a>(odds: &Odds<'a>, items: &[usize]) -> Vec<Offered<'a>> {
    let Request { catalog, picture, rules, .. } = odds.request;
    let done = checks_made(catalog, picture);
    let one = |(id, check): (&'a String, &'a survey::catalog::Check)| {
        let report = |item: &usize| Report::of(id, check, *item, &odds.scope[*item], picture, &done);
        let reports: Vec<Report> = items.iter().filter_map(report).collect();
        if reports.is_empty() {
            return None;
        }
        let told = reports.iter().map(|r| &odds.scope[r.reads.condition]);
        let visits = visits(check, told, catalog, picture) as f64;
        let (minutes, cost) = effort(check, &rules);
        let (minutes, cost) = (visits * minutes, visits * cost);
        let reads = reports.iter().map(|r| r.reads).collect();
        let ask_first = ask_first(check, reports.iter().any(|r| r.unsettled));
        Some(Offered { id, check: Check { minutes, cost, reads }, ask_first })
    };
    catalog.checks.iter().filter_map(one).collect()
}

fn plan(
    odds: &Odds<'_>,
    draws: &Draws,
    items: &[usize],
    promised: &Promised<'_>,
    wanted: Money,
    now: &Premium,
) -> CheckPlan {
    let already = cents(now.premium) <= wanted;
    let mut plan = CheckPlan {
        wanted,
        already,
        sufficient: already,
        every: true,
        checks: Vec::new(),
        minutes: 0.0,
        cost: Money::ZERO,
        chance: f64::from(u8::from(already)),
        clear: 1.0,
        if_clear: cents(now.premium),
        expected: cents(now.premium),
    };
    if already {
        return plan;
    }
    let offered = offered(odds, items);
    let checks: Vec<Check> = offered.iter().map(|o| o.check.clone()).collect();
    let (cap, terms) = (promised.cap.dollars(), &promised.terms);
    let found = cheapest(draws, items, cap, wanted.dollars(), terms, &checks, || true);
    let Some(Search { found, nearest, every }) = found else { return plan };
    (plan.sufficient, plan.every) = (found.is_some(), every);
    let Some(Plan { checks, minutes, cost, chance, expected, clear, if_clear }) = found.or(nearest) else {
        return plan;
    };
    let part = |at: &usize| {
        let Offered { id, check, ask_first } = &offered[*at];
        let of_catalog = odds.request.catalog.check(id);
        Part {
            check: (*id).to_owned(),
            name: of_catalog.map_or(*id, |c| c.name.as_str()).to_owned(),
            who: of_catalog.map(|c| c.who.clone()).unwrap_or_default(),
            reads: check.reads.iter().map(|r| odds.scope[r.condition].key().to_owned()).collect(),
            ask_first: ask_first.clone(),
        }
    };
    CheckPlan {
        checks: checks.iter().map(part).collect(),
        minutes: round2(minutes),
        cost: cents(cost),
        chance: round6(chance),
        clear: round6(clear),
        if_clear: cents(if_clear),
        expected: cents(expected),
        ..plan
    }
}

impl Priced {
    fn of(premium: &Premium) -> Self {
        let [mean, p80, p90, reached, whole] = premium.se;
        Self {
            mean: cents(premium.mean),
            p80: cents(premium.p80),
            p90: cents(premium.p90),
            premium: cents(premium.premium),
            standard_errors: [mean, p80, p90, whole].map(cents),
            cap_reached: round6(premium.reached),
            cap_reached_error: round6(reached),
        }
    }
}
