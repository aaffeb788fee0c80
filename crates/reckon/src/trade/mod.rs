//! Bare trade computations by name. Inputs and answers carry the names of the vector file; lengths are inches as plain
//! numbers, and nothing is rounded on the way. Published values come from the catalog's code books.

use serde_json::Value;
use survey::catalog::Shelf;

use inputs::Inputs;

mod drains;
mod electrical;
mod framing;
mod gas;
mod inputs;
mod lights;
mod money;
mod old_materials;
mod tape;

type Answer = Result<Value, String>;

/// One calculation: its name and what answers it.
type Known = (&'static str, fn(&Inputs) -> Answer);

/// Every function known, by trade.
const KNOWN: [&[Known]; 8] = [
    drains::KNOWN,
    electrical::KNOWN,
    framing::KNOWN,
    gas::KNOWN,
    lights::KNOWN,
    money::KNOWN,
    old_materials::KNOWN,
    tape::KNOWN,
];

/// An error as it is read on the command line.
fn english(error: ::trade::TradeError) -> String {
    words::Words::of(words::Language::En).say(&error.message())
}

/// Answers one case: `inputs` holds `fn` and what that function needs.
///
/// # Errors
/// A sentence: what is unknown (with what is known), missing or out of range.
pub(crate) fn answer(inputs: &Value, shelf: &Shelf) -> Answer {
    let name = match inputs.get("fn") {
        Some(Value::String(name)) => name.as_str(),
        Some(_) => return Err("“fn” is not a text; give the name of a function".to_owned()),
        None => return Err("“fn” is missing; give the name of a function".to_owned()),
    };
    match KNOWN.iter().copied().flatten().find(|(known, _)| *known == name) {
        Some((_, function)) => function(&Inputs::new(inputs, shelf)),
        None => {
            let mut known: Vec<&str> = KNOWN.iter().copied().flatten().map(|(known, _)| *known).collect();
            known.sort_unstable();
            let name: String = name.chars().take(60).collect();
            Err(format!("function “{name}” is not known; known are {}", known.join(", ")))
        }
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    /// Answers worked elsewhere; each case names its source.
    const CHECKS: &str = include_str!("../../../../tests/vectors/trade/trade-checks.json");

    fn agrees(got: &Value, expected: &Value, tolerance: f64) -> bool {
        match (got, expected) {
            (Value::Object(got), Value::Object(expected)) => {
                got.len() == expected.len()
                    && expected.iter().all(|(k, e)| got.get(k).is_some_and(|g| agrees(g, e, tolerance)))
            }
            (Value::Array(got), Value::Array(expected)) => {
                got.len() == expected.len() && got.iter().zip(expected).all(|(g, e)| agrees(g, e, tolerance))
            }
            (Value::Number(got), Value::Number(expected)) => {
                let difference = got.as_f64().unwrap() - expected.as_f64().unwrap();
                difference.abs() <= tolerance
            }
            _ => got == expected,
        }
    }

    #[test]
    fn every_case_of_the_vector_file_is_answered_under_its_own_names() {
        let cases: Vec<Value> = serde_json::from_str(CHECKS).unwrap();
        let shelf = survey::catalog::builtin().unwrap().shelf;
        let mut wrong = Vec::new();
        for case in &cases {
            let got = answer(&case["inputs"], &shelf);
            let tolerance = case["tolerance"].as_f64().unwrap();
            if !got.as_ref().is_ok_and(|got| agrees(got, &case["expected"], tolerance)) {
                wrong.push(format!("{} {}: {got:?}", case["id"], case["inputs"]["fn"]));
            }
        }
        assert!(wrong.is_empty(), "{} of {}:\n{}", wrong.len(), cases.len(), wrong.join("\n"));
        // Two more answer what the contract names without a case of its own.
        let without = ["expected_value", "nec_220_83B"];
        for (name, _) in KNOWN.iter().copied().flatten().filter(|(name, _)| !without.contains(name)) {
            assert!(cases.iter().any(|c| c["inputs"]["fn"] == *name), "no case for {name}");
        }
    }

    #[test]
    fn what_cannot_be_answered_says_why() {
        let shelf = survey::catalog::builtin().unwrap().shelf;
        for (inputs, part) in [
            (json!({}), "“fn” is missing"),
            (json!(null), "“fn” is missing"),
            (json!({"fn": 3}), "not a text"),
            (json!({"fn": "no_such"}), "trap_arm_check"),
            (json!({"fn": "fall_in", "slope_in_per_ft": 0.25}), "“run_in” is missing"),
            (json!({"fn": "fall_in", "slope_in_per_ft": "x", "run_in": 1}), "not a finite number"),
            (json!({"fn": "trap_arm_max_length_in", "code": "ABC", "trap_arm_diameter_in": 2}), "IPC, UPC"),
            (
                json!({"fn": "trap_arm_max_length_in", "code": "UPC", "trap_arm_diameter_in": 2.5}),
                "1-1/4, 1-1/2, 2",
            ),
            (json!({"fn": "p_stub_must_move", "sigmas_in": {}}), "sigmas_in: input “counter” is missing"),
            (json!({"fn": "add_lengths", "terms": ["36", "2x4"]}), "length 2"),
            (json!({"fn": "parse_length", "text": "3", "default_unit": "yd"}), "in, ft, mm, cm, m"),
            (json!({"fn": "in_to_mm", "inches": 1e308}), "too large"),
        ] {
            let error = answer(&inputs, &shelf).unwrap_err();
            assert!(error.contains(part), "{inputs}: {error}");
        }
    }
}
