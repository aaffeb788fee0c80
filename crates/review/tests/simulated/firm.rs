//! An invented firm: houses walked by one catalog while another is true, and its findings.

use assessment::decision::LossRules;
use assessment::{ClueTables, Live, Request};
use imagine::{SimulatedHouse, Truth, Wrong, houses};
use review::Finding;
use review::learn::Job;
use review::scores::log_score;
use survey::catalog::{Catalog, builtin};
use survey::model::Picture;
use survey::{Stamp, SurveyId};

pub fn catalog() -> Catalog {
    builtin().unwrap()
}

/// A truth whose odds and likelihood ratios are off by up to `most` either way.
pub fn truth(catalog: &Catalog, most: f64, seed: u64) -> Truth {
    Truth::new(Wrong::by(catalog, most, seed).unwrap().applied(catalog).unwrap()).unwrap()
}

/// A house with its folded walk and what the firm noted.
pub struct Seen {
    pub survey: SurveyId,
    pub house: SimulatedHouse,
    pub picture: Picture,
    pub findings: Vec<Finding>,
}

impl Seen {
    pub fn job(&self) -> Job<'_> {
        Job { survey: self.survey, picture: &self.picture, findings: &self.findings }
    }
}

pub fn draw(catalog: &Catalog, truth: &Truth, seed: u64, n: usize) -> Vec<Seen> {
    let drawn = houses(catalog, truth, seed).unwrap().take(n).map(Result::unwrap);
    drawn
        .map(|house| {
            let found = |f: &imagine::Found| Finding {
                paid_by: None,
                condition: f.condition.clone(),
                outcome: f.outcome,
                cost: f.cost,
                days: f.days,
                priced_before_signing: f.priced_before_signing,
                note: String::new(),
                photo: None,
                by: "A. Foreman".into(),
                at: Stamp::EPOCH,
            };
            Seen {
                survey: SurveyId::new(house.number, &[1; 10]),
                picture: house.walked(catalog),
                findings: house.findings.iter().map(found).collect(),
                house,
            }
        })
        .collect()
}

/// Log score of a catalog on everything hidden in some houses, opened or not.
pub fn score(catalog: &Catalog, houses: &[Seen]) -> f64 {
    let tables = ClueTables::fit(catalog);
    let (mut p, mut y) = (Vec::new(), Vec::new());
    for seen in houses {
        let mut live = Live::default();
        let rules = LossRules::default();
        let request =
            Request { survey: seen.survey, picture: &seen.picture, catalog, tables: &tables, rules };
        let Ok(odds) = live.odds(&request) else { continue };
        for (key, chance) in odds.conditions() {
            p.push(chance);
            y.push(seen.house.conditions.get(key).is_some_and(|s| s.present));
        }
    }
    log_score(&p, &y).unwrap()
}
