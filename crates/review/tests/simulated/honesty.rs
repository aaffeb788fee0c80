//! No forecast can have seen a finding: a firm whose every finding is turned over forecasts the same bytes.

use assessment::decision::LossRules;
use assessment::{ClueTables, Request, assess};
use review::learn::learn;
use review::record::{JudgedHouse, Known, track};
use review::{Finding, Outcome};
use survey::catalog::Catalog;
use survey::{Digest, Stamp};

use crate::firm::{Seen, catalog, draw, truth};

fn frozen(catalog: &Catalog, tables: &ClueTables, seen: &Seen) -> Vec<u8> {
    let rules = LossRules::default();
    let request = Request { survey: seen.survey, picture: &seen.picture, catalog, tables, rules };
    assess(&request, Stamp::EPOCH).unwrap().0.to_bytes()
}

/// Found becomes not there and the other way about; what stayed closed stays closed.
fn turned(findings: &[Finding]) -> Vec<Finding> {
    let turn = |f: &Finding| {
        let outcome = match f.outcome {
            Outcome::Found => Outcome::NotThere,
            Outcome::NotThere => Outcome::Found,
            Outcome::NotOpened => Outcome::NotOpened,
        };
        let there = outcome == Outcome::Found;
        Finding {
            outcome,
            cost: if there { f.cost } else { survey::units::Money::ZERO },
            days: 0.0,
            ..f.clone()
        }
    };
    findings.iter().map(turn).collect()
}

#[test]
fn with_every_finding_turned_over_forecasts_old_and_remade_are_the_same_bytes() {
    let catalog = catalog();
    let truth = truth(&catalog, 3.0, 5);
    let run = |turn: bool| {
        let mut firm = draw(&catalog, &truth, 11, 4);
        let tables = ClueTables::fit(&catalog);
        let old: Vec<Vec<u8>> = firm.iter().map(|s| frozen(&catalog, &tables, s)).collect();
        if turn {
            firm.iter_mut().for_each(|s| s.findings = turned(&s.findings));
        }
        let judged: Vec<JudgedHouse> = firm
            .iter()
            .zip(&old)
            .map(|(s, bytes)| {
                let forecast = assessment::Forecast::from_bytes(bytes).unwrap();
                JudgedHouse::new(&forecast, Digest::of(bytes), &s.findings, Known::default())
            })
            .collect();
        let record = track(&judged, &[], &[], &[], None, false);
        let learned = learn(&catalog, &firm.iter().map(Seen::job).collect::<Vec<_>>());
        // After findings, scores and learning the same house is forecast as it was before.
        let remade: Vec<Vec<u8>> = firm.iter().map(|s| frozen(&catalog, &tables, s)).collect();
        assert_eq!(old, remade);
        (old, record, learned.map(|l| l.catalog.digest))
    };
    let (as_found, turned) = (run(false), run(true));
    assert_eq!(as_found.0, turned.0, "forecasts");
    // That nothing else is equal shows that the findings did arrive where they may.
    assert_ne!(as_found.1.all.scores, turned.1.all.scores);
    assert_ne!(as_found.2, turned.2);
    assert_eq!(as_found.1.all.not_opened, turned.1.all.not_opened);
}
