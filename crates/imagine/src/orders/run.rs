//! One house asked in every order.

use std::collections::{BTreeMap, BTreeSet};

use assessment::decision::LossRules;
use assessment::{Bearing, ClueTables, Live, Odds, Request};
use survey::catalog::{AnswerKind, Catalog, Place};
use survey::guide::{Because, Status, Step, walk};
use survey::model::Picture;
use survey::{Key, SurveyId, guide};

use super::{AFTER, Order};
use crate::stream::Stream;
use crate::{ImagineError, SimulatedHouse, Truth};

/// How good the odds are at one point.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Score {
    /// What pricing by these odds loses on average over what can be there by the truth and all answers, dollars.
    pub lost: f64,
    /// Squared error of the odds, summed over the conditions in scope.
    pub brier: f64,
}

/// One order in one house.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Run {
    /// Items asked in the house.
    pub asked: usize,
    /// After each number of answers of [`AFTER`], then at the end.
    pub scores: Vec<Score>,
}

/// All orders in one house.
#[derive(Clone, Debug, PartialEq)]
pub struct HouseRuns {
    /// By plan and year alone.
    pub base: Score,
    /// With everything asked.
    pub all: Score,
    /// As [`Order::ALL`].
    pub runs: Vec<Run>,
}

/// A house and the catalog it is asked by.
#[derive(Clone, Copy)]
struct Visit<'a> {
    catalog: &'a Catalog,
    tables: &'a ClueTables,
    house: &'a SimulatedHouse,
}

struct Asker<'a> {
    visit: Visit<'a>,
    /// With everything asked. Its loss curves serve every order, so that only odds differ.
    full: &'a Odds<'a>,
    /// Chances of the conditions by the true catalog and the full answers.
    truly: BTreeMap<String, f64>,
}

pub(super) fn house(
    catalog: &Catalog,
    tables: &ClueTables,
    truth: &Truth,
    house: &SimulatedHouse,
) -> Result<HouseRuns, ImagineError> {
    let visit = Visit { catalog, tables, house };
    let before = visit.beforehand();
    // Everything that is asked of anybody, skip rules obeyed.
    let everything = visit.all_after(before.clone());
    let full = house.picture(catalog, |item| everything.contains(item));
    let request = visit.request(&full);

    let true_to = Request { catalog: &truth.catalog, tables: &truth.tables, ..request };
    let mut live = Live::default();
    let odds = live.odds(&true_to).map_err(told)?;
    let truly = odds.conditions().map(|(key, p)| (key.to_owned(), p)).collect();

    let mut live = Live::default();
    let full = live.odds(&request).map_err(told)?;
    let asker = Asker { visit, full: &full, truly };
    let year = catalog.era().map(|f| f.item.clone()).unwrap_or_default();
    let start = |item: &str| {
        item == year || catalog.item(item).is_some_and(|i| place(catalog, &i.station) == Place::Start)
    };
    let started = house.picture(catalog, start);
    let base = asker.scored(&Live::default().odds(&visit.request(&started)).map_err(told)?);
    let all = asker.scored(&full);
    let runs = Order::ALL.iter().map(|order| asker.run(*order, &before)).collect::<Result<_, _>>()?;
    Ok(HouseRuns { base, all, runs })
}

fn place(catalog: &Catalog, station: &str) -> Place {
    catalog.station(station).map_or(Place::House, |s| s.place)
}

impl<'a> Visit<'a> {
    /// The house as the answers of some items show it, by their keys.
    fn picture(&self, asked: &BTreeSet<String>) -> Picture {
        self.house.picture(self.catalog, |item| asked.contains(item))
    }
    /// What is said before the visit.
    fn beforehand(&self) -> BTreeSet<String> {
        let mut asked = BTreeSet::new();
        for item in self.catalog.items.iter().filter(|i| place(self.catalog, &i.station) != Place::House) {
            let open = guide::status(item, &item.station, &self.picture(&asked)) == Status::Open;
            if open && self.house.said.contains_key(&item.id) {
                asked.insert(item.id.clone());
            }
        }
        asked
    }
    /// Everything that can be asked after some answers, with them.
    fn all_after(&self, mut asked: BTreeSet<String>) -> BTreeSet<String> {
        loop {
            let picture = self.picture(&asked);
            let Some(next) = self.open(&picture).first().map(Step::key) else { return asked };
            asked.insert(next);
        }
    }
    /// Steps that can be asked in the house.
    fn open<'p>(&'p self, picture: &'p Picture) -> Vec<Step<'p>> {
        let steps = walk(self.catalog, picture).into_iter();
        steps.filter(|s| self.asks(s) && matches!(s.status, Status::Open | Status::SecondLook)).collect()
    }
    fn asks(&self, step: &Step<'_>) -> bool {
        place(self.catalog, &step.item.station) == Place::House
            && !matches!(step.item.answer, AnswerKind::Checks)
            && self.house.said.contains_key(&step.key())
    }
    fn request<'p>(&self, picture: &'p Picture) -> Request<'p>
    where
        'a: 'p,
    {
        Request {
            survey: SurveyId::new(0, &[0; 10]),
            picture,
            catalog: self.catalog,
            tables: self.tables,
            rules: LossRules::of(self.catalog),
        }
    }
}

impl Asker<'_> {
    fn scored(&self, odds: &Odds<'_>) -> Score {
        let chances: BTreeMap<&str, f64> = odds.conditions().collect();
        // What is out of scope by the answers is forecast not to be there.
        let chance = |key: &str| chances.get(key).copied().unwrap_or(0.0);
        let truly = |key: &str| self.truly.get(key).copied().unwrap_or(0.0);
        let error = |(key, state): (&String, &crate::State)| {
            let miss = chance(key) - if state.present { 1.0 } else { 0.0 };
            miss * miss
        };
        let lost = self.full.loses(&chance, &truly);
        Score { lost, brier: self.visit.house.conditions.iter().map(error).sum() }
    }

    fn run(&self, order: Order, before: &BTreeSet<String>) -> Result<Run, ImagineError> {
        let Visit { catalog, house, .. } = self.visit;
        let mut asked = before.clone();
        let mut run = Run::default();
        let mut live = Live::default();
        let mut shuffle = Stream::new(house.seed, house.number, "orders");
        let mut lots: BTreeMap<&str, f64> =
            catalog.items.iter().map(|item| (item.id.as_str(), shuffle.share())).collect();
        // Those of added places after all others, so that a house with one of each keeps its lots.
        for key in house.said.keys().filter(|key| Key::parse(key).place.is_some()) {
            lots.insert(key, shuffle.share());
        }
        loop {
            let picture = self.visit.picture(&asked);
            let request = self.visit.request(&picture);
            let mut odds = live.odds(&request).map_err(told)?;
            if AFTER.contains(&run.asked) {
                run.scores.push(self.scored(&odds));
            }
            let next = match order {
                Order::Fixed => {
                    self.visit.open(&picture).iter().find(|s| s.status == Status::Open).map(Step::key)
                }
                Order::Random => {
                    let lot = |s: &Step<'_>| lots.get(s.key().as_str()).copied().unwrap_or(0.0);
                    let open = self.visit.open(&picture);
                    open.iter().min_by(|a, b| lot(a).total_cmp(&lot(b))).map(Step::key)
                }
                // After the last point that is scored only how the order ends counts, and it ends with everything.
                Order::Entropy if run.asked > AFTER[AFTER.len() - 1] => {
                    self.visit.open(&picture).first().map(Step::key)
                }
                Order::Entropy => {
                    let open = self.visit.open(&picture);
                    let mut best: Option<(f64, &Step<'_>)> = None;
                    for step in &open {
                        let bits = odds.information(step).map_err(told)?;
                        if best.is_none_or(|(most, _)| bits > most) {
                            best = Some((bits, step));
                        }
                    }
                    best.map(|(_, step)| step.key())
                }
                Order::Adaptive => self.planned(&mut odds)?.first().map(|(b, _)| self.key(b)),
                Order::WorthFirst => {
                    let planned = self.planned(&mut odds)?;
                    let planned: Vec<Bearing> = planned.into_iter().map(|(b, _)| b).collect();
                    // Of what is worth nothing alone, what could be worth most beside others.
                    let worthy =
                        most(&planned, |b| b.value).filter(|_| planned.iter().any(|b| b.value > 0.005));
                    worthy.or_else(|| most(&planned, |b| b.most)).map(|b| self.key(b))
                }
            };
            let Some(next) = next else {
                let last = self.scored(&odds);
                run.scores.resize(AFTER.len() + 1, last);
                return Ok(run);
            };
            asked.insert(next);
            run.asked += 1;
        }
    }

    /// Key of item and place.
    fn key(&self, bearing: &Bearing) -> String {
        let item = self.visit.catalog.item(&bearing.item);
        item.map_or_else(|| bearing.item.clone(), |item| item.key_at(&bearing.place))
    }

    /// What the walk asks in the house now, in its order.
    fn planned(&self, odds: &mut Odds<'_>) -> Result<Vec<(Bearing, Because)>, ImagineError> {
        let questions = odds.questions(None, &mut || true).map_err(told)?.unwrap_or_default();
        let planned = questions.plan.ask.iter().filter(|p| self.visit.asks(&p.step));
        Ok(planned.filter_map(|p| Some((questions.bearing(&p.step)?.clone(), p.because))).collect())
    }
}

/// The item with the most; the first in walking order of equals.
fn most(bearings: &[Bearing], of: impl Fn(&Bearing) -> f64) -> Option<&Bearing> {
    let mut best: Option<&Bearing> = None;
    for b in bearings {
        if best.is_none_or(|best| of(b) > of(best)) {
            best = Some(b);
        }
    }
    best
}

fn told(error: assessment::AssessError) -> ImagineError {
    ImagineError::Network(error.to_string())
}
