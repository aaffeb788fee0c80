//! Bare trade computations by name: sink drains and tape arithmetic. Inputs and answers carry the names of the vector
//! file; lengths are inches as plain numbers, and nothing is rounded on the way.

use serde_json::{Value, json};
use survey::units::{LengthStatus, LengthUnit, ParsedLength, parse_length};
use trade::sink_drain::{
    Chain, Connection, Sigmas, levels, odds, required_below_counter_plane, without_disposer_gain,
};
use trade::{Code, datum, dishwasher::Method, tape, trap_arm, trap_seal};

type Answer = Result<Value, String>;

/// One calculation: its name and what answers it.
type Calculation = (&'static str, fn(&Inputs) -> Answer);

/// Every function known, in order of name.
const KNOWN: [Calculation; 18] = [
    ("add_lengths", add_lengths),
    ("dishwasher_drain_ok", dishwasher_drain_ok),
    ("fall_in", |i| number(trap_arm::fall(i.number("slope_in_per_ft")?, i.number("run_in")?))),
    ("format_ftin_16", |i| text(tape::print_feet_inches(i.number("inches")?))),
    ("format_in_16", |i| text(tape::print_inches(i.number("inches")?))),
    ("in_to_mm", |i| number(tape::mm(i.number("inches")?))),
    ("p_stub_must_move", p_stub_must_move),
    ("parse_length", read_length),
    ("remove_disposer_gain_in", remove_disposer_gain_in),
    ("required_below_counter_plane_in", required_below_counter_plane_in),
    ("sink_drain_fit", sink_drain_fit),
    ("sqft_to_m2", |i| number(tape::square_meters(i.number("sqft")?))),
    ("stub_aff_after_new_floor", stub_aff_after_new_floor),
    ("stub_aff_from_cabinet_floor", stub_aff_from_cabinet_floor),
    ("stub_verdict", stub_verdict),
    ("trap_arm_check", trap_arm_check),
    ("trap_arm_max_length_in", trap_arm_max_length_in),
    ("trap_seal_ok", |i| Ok(json!(trap_seal::within_limits(i.number("seal_in")?)))),
];

/// Answers one case: `inputs` holds `fn` and what that function needs.
///
/// # Errors
/// A sentence: what is unknown (with what is known), missing or out of range.
pub fn answer(inputs: &Value) -> Result<Value, String> {
    let name = match inputs.get("fn") {
        Some(Value::String(name)) => name.as_str(),
        Some(_) => return Err("“fn” is not a text; give the name of a function".to_owned()),
        None => return Err("“fn” is missing; give the name of a function".to_owned()),
    };
    match KNOWN.iter().find(|(known, _)| *known == name) {
        Some((_, function)) => function(&Inputs(inputs)),
        None => {
            let known: Vec<&str> = KNOWN.iter().map(|(known, _)| *known).collect();
            let name: String = name.chars().take(60).collect();
            Err(format!("function “{name}” is not known; known are {}", known.join(", ")))
        }
    }
}

/// The inputs of one case; every look-up names what is missing.
struct Inputs<'a>(&'a Value);

impl<'a> Inputs<'a> {
    fn get(&self, key: &str) -> Result<&'a Value, String> {
        self.0.get(key).ok_or_else(|| format!("input “{key}” is missing"))
    }
    fn number(&self, key: &str) -> Result<f64, String> {
        let value = self.get(key)?.as_f64().filter(|n| n.is_finite());
        value.ok_or_else(|| format!("input “{key}” is not a finite number"))
    }
    fn text(&self, key: &str) -> Result<&'a str, String> {
        self.get(key)?.as_str().ok_or_else(|| format!("input “{key}” is not a text"))
    }
    fn word<T>(&self, key: &str, parse: impl Fn(&str) -> Option<T>, known: &str) -> Result<T, String> {
        let word = self.text(key)?;
        let short = || word.chars().take(60).collect::<String>();
        parse(word).ok_or_else(|| format!("“{}” is no {key} this knows; known are {known}", short()))
    }
    fn code(&self) -> Result<Code, String> {
        self.word("code", Code::parse, Code::WORDS)
    }
}

/// A number, if it stayed finite.
fn number(value: f64) -> Answer {
    if value.is_finite() { Ok(json!(value)) } else { Err("the result is too large for a number".to_owned()) }
}

fn text<E: ToString>(result: Result<String, E>) -> Answer {
    result.map(Value::String).map_err(|e| e.to_string())
}

fn sink_drain_fit(i: &Inputs) -> Answer {
    let l = levels(&Chain {
        counter_height: i.number("H")?,
        offset: i.number("off")?,
        depth: i.number("depth")?,
        shell: i.number("shell")?,
        connection: i.word("conn", Connection::parse, Connection::WORDS)?,
        connection_drop: i.number("conn_drop")?,
        trap_drop: i.number("trap_drop")?,
        run: i.number("run")?,
        slope: i.number("slope")?,
        trap_size: i.number("D")?,
        seal: i.number("seal0")?,
        seal_most: i.number("seal_max")?,
        cabinet_floor: i.number("cab_floor")?,
        service: i.number("svc")?,
        outlet_to_weir_most: i.number("limit24")?,
    });
    Ok(json!({
        "z_outlet": number(l.outlet)?,
        "z_conn": number(l.connection)?,
        "fall": number(l.fall)?,
        "stub_max": number(l.stub_max)?,
        "stub_abs": number(l.stub_abs)?,
        "stub_flood": number(l.flood)?,
        "stub_min_code": number(l.stub_min_code)?,
        "stub_min_cab": number(l.stub_min_cabinet)?,
    }))
}

fn p_stub_must_move(i: &Inputs) -> Answer {
    let nested = Inputs(i.get("sigmas_in")?);
    let sigma = |key: &str| match nested.number(key) {
        Ok(sigma) if sigma < 0.0 => Err(format!("sigmas_in: “{key}” is negative; a spread is not")),
        other => other.map_err(|e| format!("sigmas_in: {e}")),
    };
    let sigmas = Sigmas {
        counter: sigma("counter")?,
        thick: sigma("thick")?,
        depth: sigma("depth")?,
        shell: sigma("shell")?,
        connection: sigma("conn")?,
        trap: sigma("trap")?,
        fall: sigma("fall")?,
        stub: sigma("stub")?,
    };
    let odds = odds(i.number("stub_in")?, i.number("stub_max")?, i.number("stub_abs")?, &sigmas);
    Ok(json!({
        "sigma_margin": number(odds.sigma)?,
        "p_over_practical": number(odds.over_practical)?,
        "p_over_absolute": number(odds.over_absolute)?,
    }))
}

fn stub_verdict(i: &Inputs) -> Answer {
    let (stub, low) = (i.number("stub_in")?, i.number("stub_min_code")?);
    let verdict = trade::verdict(stub, low, i.number("stub_max")?, i.number("stub_abs")?);
    Ok(json!(verdict.word()))
}

fn trap_arm_max_length_in(i: &Inputs) -> Answer {
    trap_arm::longest(i.code()?, i.number("trap_arm_diameter_in")?)
        .map_err(|e| e.to_string())
        .and_then(number)
}

fn trap_arm_check(i: &Inputs) -> Answer {
    let (length, slope) = (i.number("length_in")?, i.number("slope_in_per_ft")?);
    let arm =
        trap_arm::check(i.code()?, i.number("diameter_in")?, length, slope).map_err(|e| e.to_string())?;
    Ok(json!({
        "fall_in": number(arm.fall)?,
        "max_len_in": arm.longest,
        "min_len_in": arm.shortest,
        "ok": arm.faults.is_empty(),
    }))
}

fn remove_disposer_gain_in(i: &Inputs) -> Answer {
    let (disposer, disposer_trap) = (i.number("disposer_drop")?, i.number("disposer_trap_drop")?);
    let (strainer, strainer_trap) = (i.number("strainer_drop")?, i.number("strainer_trap_drop")?);
    number(without_disposer_gain(disposer, disposer_trap, strainer, strainer_trap))
}

fn required_below_counter_plane_in(i: &Inputs) -> Answer {
    let (depth, shell, drop) = (i.number("depth")?, i.number("shell")?, i.number("conn_drop")?);
    number(required_below_counter_plane(depth, shell, drop, i.number("trap_drop")?, i.number("fall")?))
}

fn stub_aff_from_cabinet_floor(i: &Inputs) -> Answer {
    let (toe, floor) = (i.number("toe_kick_in")?, i.number("cabinet_floor_thickness_in")?);
    number(datum::aff_from_cabinet_floor(
        toe,
        floor,
        i.number("reading_in")?,
        i.number("new_floor_buildup_in")?,
    ))
}

fn stub_aff_after_new_floor(i: &Inputs) -> Answer {
    number(datum::aff_after_new_floor(i.number("old_aff_in")?, i.number("new_floor_buildup_in")?))
}

fn dishwasher_drain_ok(i: &Inputs) -> Answer {
    let method = i.word("method", Method::parse, Method::WORDS)?;
    Ok(json!(trade::dishwasher::is_named(i.code()?, method).0))
}

fn read_length(i: &Inputs) -> Answer {
    let unit = |word: &str| match word {
        "in" => Some(LengthUnit::Inch),
        "ft" => Some(LengthUnit::Foot),
        "mm" => Some(LengthUnit::Millimeter),
        "cm" => Some(LengthUnit::Centimeter),
        "m" => Some(LengthUnit::Meter),
        _ => None,
    };
    let unit = match i.0.get("default_unit") {
        Some(_) => i.word("default_unit", unit, "in, ft, mm, cm, m")?,
        None => LengthUnit::Inch, // the grammar's own default
    };
    let written = i.text("text")?;
    let status = match parse_length(written, unit).status {
        LengthStatus::Ok => "ok",
        LengthStatus::Warn => "warn",
        LengthStatus::Ambiguous => "ambiguous",
        LengthStatus::Error => "error",
    };
    Ok(json!({ "inches": ParsedLength::inches_as_written(written, unit), "status": status }))
}

fn add_lengths(i: &Inputs) -> Answer {
    let not_texts = || "input “terms” is not a list of texts".to_owned();
    let terms = i.get("terms")?.as_array().ok_or_else(not_texts)?;
    let terms: Option<Vec<&str>> = terms.iter().map(Value::as_str).collect();
    let sum = tape::add(&terms.ok_or_else(not_texts)?).map_err(|e| e.to_string())?;
    Ok(json!({ "inches": number(sum)?, "text": text(tape::print_inches(sum))? }))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Answers worked elsewhere; each case names its source.
    const CHECKS: &str = include_str!("../../../../tests/vectors/trade/trade-checks.json");

    fn agrees(got: &Value, expected: &Value, tolerance: f64) -> bool {
        match (got, expected) {
            (Value::Object(got), Value::Object(expected)) => {
                got.len() == expected.len()
                    && expected.iter().all(|(k, e)| got.get(k).is_some_and(|g| agrees(g, e, tolerance)))
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
        for case in &cases {
            let got = answer(&case["inputs"]).unwrap();
            let tolerance = case["tolerance"].as_f64().unwrap();
            assert!(agrees(&got, &case["expected"], tolerance), "{}: {got}", case["id"]);
        }
        for (name, _) in KNOWN {
            assert!(cases.iter().any(|c| c["inputs"]["fn"] == name), "no case for {name}");
        }
    }

    #[test]
    fn what_cannot_be_answered_says_why() {
        for (inputs, part) in [
            (json!({}), "“fn” is missing"),
            (json!(null), "“fn” is missing"),
            (json!({"fn": 3}), "not a text"),
            (json!({"fn": "dfu"}), "trap_arm_check"),
            (json!({"fn": "fall_in", "slope_in_per_ft": 0.25}), "“run_in” is missing"),
            (json!({"fn": "fall_in", "slope_in_per_ft": "x", "run_in": 1}), "not a finite number"),
            (json!({"fn": "trap_arm_max_length_in", "code": "ABC", "trap_arm_diameter_in": 2}), "IPC, UPC"),
            (
                json!({"fn": "trap_arm_max_length_in", "code": "UPC", "trap_arm_diameter_in": 2.5}),
                "1.25, 1.5, 2",
            ),
            (json!({"fn": "p_stub_must_move", "sigmas_in": {}}), "sigmas_in: input “counter” is missing"),
            (json!({"fn": "add_lengths", "terms": ["36", "2x4"]}), "length 2"),
            (json!({"fn": "parse_length", "text": "3", "default_unit": "yd"}), "in, ft, mm, cm, m"),
            (json!({"fn": "in_to_mm", "inches": 1e308}), "too large"),
        ] {
            let error = answer(&inputs).unwrap_err();
            assert!(error.contains(part), "{inputs}: {error}");
        }
    }
}
