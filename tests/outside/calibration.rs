//! The whole model from end to end: houses drawn from the catalog, walked, forecast, and held against what was hidden
//! in them. Probabilities and money must come true as often as they say; the reference is chance itself.

use assessment::decision::LossRules;
use assessment::{ClueTables, Request, assess};
use imagine::{SimulatedHouse, Truth, Wrong, houses};
use review::scores::log_score;
use survey::catalog::Catalog;
use survey::{Digest, SurveyId};

use crate::support::forecasts::{Judged, assert_money_holds, assert_probabilities_hold, judge};
use crate::support::{catalog, moment};

fn draw(catalog: &Catalog, truth: &Truth, seed: u64, n: usize) -> Vec<SimulatedHouse> {
    houses(catalog, truth, seed).unwrap().take(n).map(Result::unwrap).collect()
}

#[test]
fn forecasts_of_houses_that_are_as_the_catalog_says_come_true_as_often_as_they_say() {
    let catalog = catalog();
    let truth = Truth::new(catalog.clone()).unwrap();
    let houses = draw(&catalog, &truth, 2026, 160);
    let judged: Vec<Judged> = houses.iter().map(|h| judge(&catalog, &truth.tables, h, true)).collect();
    // Right probabilities of 160 houses are off by about 10·0.13/10,000 by chance alone.
    assert_probabilities_hold(&judged, 6e-4);
    assert_money_holds(&judged);

    // What is judged here is what an assessment freezes.
    for (house, judged) in houses.iter().zip(&judged).take(2) {
        let request = Request {
            survey: SurveyId::from_bytes([7; 16]),
            picture: &house.walked(&catalog),
            catalog: &catalog,
            tables: &truth.tables,
            rules: LossRules::default(),
        };
        let (forecast, _) = assess(&request, moment()).unwrap();
        assert_eq!(forecast.conditions.len(), judged.conditions.len());
        for (id, p, _) in &judged.conditions {
            assert!((forecast.condition(id).unwrap().probability - p).abs() < 1e-6, "{id}");
        }
        // Standard errors of both means, five of them.
        let mean = judged.money.iter().sum::<f64>() / judged.money.len() as f64;
        let se = forecast.money.standard_errors[0].dollars();
        let ratio = (f64::from(assessment::DRAWS) / judged.money.len() as f64).sqrt();
        assert!((forecast.money.mean.dollars() - mean).abs() <= 5.0 * se * (1.0 + ratio * ratio).sqrt());
    }
}

#[test]
fn a_catalog_that_is_wrong_about_the_houses_scores_worse_than_the_one_they_came_from() {
    let catalog = catalog();
    let tables = ClueTables::fit(&catalog);
    let wrong = Wrong::by(&catalog, 4.0, 3).unwrap().applied(&catalog).unwrap();
    assert_ne!(wrong.digest, Digest::of(b""));
    let truth = Truth::new(wrong).unwrap();
    let houses = draw(&catalog, &truth, 2027, 40);
    let score = |catalog: &Catalog, tables: &ClueTables| {
        let judged = houses.iter().map(|h| judge(catalog, tables, h, false));
        let (p, y): (Vec<f64>, Vec<bool>) = judged.flat_map(|j| j.conditions).map(|(_, p, y)| (p, y)).unzip();
        log_score(&p, &y).unwrap()
    };
    let (theirs, ours) = (score(&truth.catalog, &truth.tables), score(&catalog, &tables));
    assert!(ours > theirs + 0.01, "log score {ours:.4} by the catalog, {theirs:.4} by the truth");
}
