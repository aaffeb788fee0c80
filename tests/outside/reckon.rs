//! The contract of `underlath reckon`, against reference results of general-purpose libraries.

use std::io::Write as _;
use std::process::Stdio;

use serde_json::Value;

use crate::support::{root, underlath, vectors};

fn reckon(args: &[&str], input: &Value) -> Vec<Value> {
    let dir = tempfile::tempdir().unwrap();
    let mut child = underlath(dir.path())
        .arg("reckon")
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    child.stdin.take().unwrap().write_all(input.to_string().as_bytes()).unwrap();
    let output = child.wait_with_output().unwrap();
    assert!(output.status.success());
    serde_json::from_slice(&output.stdout).unwrap()
}

/// Textbook networks; values by pyAgrum 3.3.1, checked with pgmpy 1.1.2 and enumeration.
#[test]
fn posteriors_of_textbook_networks_agree_with_pyagrum() {
    let nets = root().join("tests/vectors/inference");
    for name in ["asia", "cancer", "earthquake", "sachs", "survey", "child"] {
        let file = vectors(&format!("inference/infer_{name}.json"));
        let cases = file["cases"].as_array().unwrap();
        let net = find(&nets, &format!("{name}.json"));
        let answers = reckon(&["posterior", "--net", net.to_str().unwrap()], &file);
        assert_eq!(answers.len(), cases.len());
        let mut compared = 0;
        for (case, answer) in cases.iter().zip(&answers) {
            assert_eq!(case["id"], answer["id"]);
            if case["impossible"] == Value::Bool(true) {
                assert_eq!(answer["impossible"], Value::Bool(true), "{answer}");
                continue;
            }
            let near = |a: &Value, b: &Value, at: &str| {
                let (a, b) = (a.as_f64().unwrap(), b.as_f64().unwrap_or(f64::NAN));
                assert!((a - b).abs() < 1e-9, "{} {at}: {a} {b}", case["id"]);
            };
            near(&case["log_p_evidence"], &answer["log_p_evidence"], "log P(e)");
            for (node, list) in case["posterior"].as_object().unwrap() {
                for (i, p) in list.as_array().unwrap().iter().enumerate() {
                    near(p, &answer["posterior"][node][i], node);
                    compared += 1;
                }
            }
        }
        assert!(compared > 20, "{name}");
    }
}

fn find(folder: &std::path::Path, name: &str) -> std::path::PathBuf {
    let mut found = Vec::new();
    super::super::house_rules::files(folder, &["json"], &mut found);
    found.into_iter().find(|p| p.file_name().unwrap() == name).unwrap_or_else(|| panic!("{name}"))
}

/// Every trade calculation against published tables, worked examples and general-purpose libraries; the source of each
/// case stands in the file.
#[test]
fn trade_calculations_agree_with_the_reference_cases() {
    let file = vectors("trade/trade-checks.json");
    let cases = file.as_array().or_else(|| file["cases"].as_array()).unwrap();
    assert_eq!(cases.len(), 253);
    let answers = reckon(&["trade"], &Value::Array(cases.clone()));
    for (case, answer) in cases.iter().zip(&answers) {
        assert_eq!(case["id"], answer["id"]);
        let tolerance = case["tolerance"].as_f64().unwrap_or(0.0);
        agree(&case["expected"], &answer["result"], tolerance, &format!("{case} → {answer}"));
    }
}

fn agree(want: &Value, got: &Value, tolerance: f64, at: &str) {
    match (want, got) {
        (Value::Number(a), Value::Number(b)) => {
            assert!((a.as_f64().unwrap() - b.as_f64().unwrap()).abs() <= tolerance + 1e-12, "{at}");
        }
        (Value::Object(a), Value::Object(b)) => {
            assert_eq!(a.keys().collect::<Vec<_>>(), b.keys().collect::<Vec<_>>(), "{at}");
            a.iter().for_each(|(k, v)| agree(v, &b[k], tolerance, at));
        }
        (Value::Array(a), Value::Array(b)) => {
            assert_eq!(a.len(), b.len(), "{at}");
            a.iter().zip(b).for_each(|(a, b)| agree(a, b, tolerance, at));
        }
        _ => assert_eq!(want, got, "{at}"),
    }
}

#[test]
fn a_case_that_cannot_be_answered_says_so_and_the_rest_still_run() {
    let cases = serde_json::json!({ "cases": [
        { "id": 1, "inputs": { "fn": "no_such_thing" } },
        { "id": 2, "inputs": { "fn": "in_to_mm", "inches": 1 } },
        { "id": 3 },
    ]});
    let answers = reckon(&["trade"], &cases);
    assert!(
        answers[0]["error"].as_str().unwrap().contains("in_to_mm"),
        "lists what it knows: {}",
        answers[0]
    );
    assert_eq!(answers[1]["result"], serde_json::json!(25.4));
    assert!(answers[2]["error"].is_string());
}
