//! Every reference network through every way to ask: `posterior`, an engine, its sessions, a calibrated tree.

use std::path::Path;

use inference::{Calibrated, Engine, InferError, Posterior, log_p_evidence, posterior};
use serde_json::Value;

use crate::support::{evidence, folder, network_in, numbers, read};

/// Required of every number; the files themselves agree to 1e-12.
const TOLERANCE: f64 = 1e-9;
/// Required between our own ways.
const SAME: f64 = 1e-12;

/// Checks the cases of one file; returns how many there were, and the largest difference of a share.
fn check(folder: &Path, name: &str) -> (usize, f64) {
    let net = network_in(folder, name);
    let file: Value =
        serde_json::from_str(&read(&folder.join(format!("infer_{name}.json"))).unwrap()).unwrap();
    let engine = Engine::new(&net).unwrap();
    let mut session = engine.session();
    let (mut count, mut worst) = (0, 0.0f64);
    for case in file["cases"].as_array().unwrap() {
        let id = case["id"].as_str().unwrap();
        let ev = evidence(&net, case);
        let plain = posterior(&net, &ev);
        let calibrated = Calibrated::new(&net, &ev).map(|c| c.posterior().clone());
        assert_eq!(plain, calibrated, "{id}");
        session.load(&ev).unwrap();
        let answers = [plain, engine.posterior(&ev), session.posterior().cloned()];
        count += 1;
        if case.get("impossible").and_then(Value::as_bool) == Some(true) {
            assert!(answers.iter().all(|a| matches!(a, Err(InferError::Impossible { .. }))), "{id}");
            continue;
        }
        let answers: Vec<Posterior> = answers.into_iter().map(Result::unwrap).collect();
        let log_p = case["log_p_evidence"].as_f64().unwrap();
        let alone = log_p_evidence(&net, &ev).unwrap();
        for found in answers.iter().map(|a| a.log_p_evidence).chain([alone]) {
            assert!((found - log_p).abs() <= TOLERANCE, "{id}: {found} {log_p}");
        }
        for (node, theirs) in case["posterior"].as_object().unwrap() {
            let theirs = numbers(theirs);
            let node = net.find(node).unwrap();
            for answer in &answers {
                for (i, ours) in answer.of(node).iter().enumerate() {
                    worst = worst.max((ours - theirs[i]).abs());
                    assert!((ours - answers[0].of(node)[i]).abs() <= SAME, "{id} {node}");
                }
            }
        }
        assert!(worst <= TOLERANCE, "{id}: {worst}");
    }
    (count, worst)
}

#[test]
fn networks_of_medicine_weather_and_water_agree() {
    for name in ["hepar2", "hailfinder", "water", "pathfinder"] {
        assert!(check(&folder(), name).0 >= 12, "{name}");
    }
}

#[test]
fn networks_of_hundreds_of_nodes_agree() {
    for name in ["win95pts", "andes", "pigs", "house_l"] {
        assert!(check(&folder(), name).0 >= 13, "{name}");
    }
}

#[test]
fn a_network_of_a_thousand_nodes_agrees() {
    assert!(check(&folder(), "munin").0 >= 12);
}

#[test]
fn networks_with_large_tables_agree() {
    assert!(check(&folder(), "mildew").0 >= 12);
    assert!(check(&folder(), "diabetes").0 >= 12);
}

#[test]
fn the_network_of_a_sample_house_agrees() {
    let (count, worst) = check(&folder(), "house_sample");
    assert!(count == 4 && worst < 1e-12, "{worst}");
}

/// See the README of the reference folder.
#[test]
#[ignore = "reads the folder that UNDERLATH_VECTORS names"]
#[allow(clippy::disallowed_methods, clippy::print_stdout, reason = "asked for from outside, and tells")]
fn every_network_of_a_folder_agrees() {
    let folder = std::env::var_os("UNDERLATH_VECTORS").unwrap();
    let folder = Path::new(&folder);
    let mut names: Vec<String> = std::fs::read_dir(folder)
        .unwrap()
        .filter_map(|entry| {
            let name = entry.unwrap().file_name().into_string().ok()?;
            let name = name.strip_suffix(".gz").unwrap_or(&name);
            Some(name.strip_prefix("infer_")?.strip_suffix(".json")?.to_owned())
        })
        .collect();
    names.sort();
    assert!(!names.is_empty());
    for name in names {
        let (count, worst) = check(folder, &name);
        println!("{name:14} {count:3} cases, largest difference {worst:.1e}");
    }
}
