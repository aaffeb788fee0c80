//! Planted faults: each is found, on its line, with a way to mend it.

use survey::catalog::{Catalog, CatalogError, FILES};

pub(crate) fn files() -> Vec<(String, String)> {
    FILES.iter().map(|(p, t)| ((*p).to_owned(), (*t).to_owned())).collect()
}

/// Replaces the first `from` after `after` in one file, and returns the errors of loading.
pub(crate) fn planted(
    file: &str,
    after: &str,
    from: &str,
    to: &str,
) -> (Vec<(String, String)>, CatalogError) {
    let mut files = files();
    let (_, text) = files.iter_mut().find(|(p, _)| p == file).unwrap_or_else(|| panic!("no file {file}"));
    let start = text.find(after).unwrap_or_else(|| panic!("{file} has no {after}"));
    let at = start + text[start..].find(from).unwrap_or_else(|| panic!("{file} has no {from} after {after}"));
    text.replace_range(at..at + from.len(), to);
    match Catalog::load(&files) {
        Err(error) => (files, error),
        Ok(_) => panic!("{file}: {from} → {to} was accepted"),
    }
}

pub(crate) struct Plant {
    file: &'static str,
    after: &'static str,
    from: &'static str,
    to: &'static str,
    /// Part of the message.
    what: &'static str,
    /// Part of the suggestion, or "".
    mend: &'static str,
    /// Part of the line blamed.
    on: &'static str,
}

pub(crate) const fn plant(
    file: &'static str,
    (after, from, to): (&'static str, &'static str, &'static str),
    (what, mend, on): (&'static str, &'static str, &'static str),
) -> Plant {
    Plant { file, after, from, to, what, mend, on }
}

const STUB: &str = "id = \"drain-stub-high\"";

const PLANTS: &[Plant] = &[
    plant(
        "codes/upc-2012.toml",
        ("id = \"trap-arm-longest\"", "mark = \"published\"", "mark = \"publised\""),
        ("unknown variant `publised`", "“published”", "publised"),
    ),
    plant(
        "codes/upc-2012.toml",
        ("id = \"outlet-to-weir\"", "value = 24", "rows = []"),
        ("holds not exactly one kind of value", "give a value, or rows", "outlet-to-weir"),
    ),
    plant(
        "codes/upc-2012.toml",
        ("id = \"outlet-to-weir\"", "clause = \"1001.1\"", "clause = \"\""),
        ("names no rule or no clause", "", "outlet-to-weir"),
    ),
    plant(
        "codes/nec-2023.toml",
        ("", "based-on = \"nec-2020\"", "based-on = \"nec-2002\""),
        ("there is no book “nec-2002”", "“nec-20", "nec-2002"),
    ),
    plant(
        "codes/nec-2020.toml",
        ("", "based-on = \"nec-2011\"", "based-on = \"nec-2023\""),
        ("stands on another one of its own family", "", "based-on"),
    ),
    plant(
        "codes/adopted.toml",
        ("[adopted]", "gas = \"ifgc-2018\"", "gas = \"ifgc-2081\""),
        ("there is no book of gas “ifgc-2081”", "“ifgc-2018”", "ifgc-2081"),
    ),
    plant(
        "codes/adopted.toml",
        ("[adopted]", "gas = \"ifgc-2018\"", "gass = \"ifgc-2018\""),
        ("there is no family of codes “gass”", "“gas”", "gass"),
    ),
    plant(
        "outages.toml",
        ("id = \"cap-sink\"", "\"deep-sink\"", "\"deep-sinks\""),
        ("“deep-sinks”", "“deep-sink”", "deep-sinks"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "clue = \"stub-high\"", "clue = \"stub-hihg\""),
        ("there is no clue “stub-hihg”", "did you mean “stub-high”?", "stub-hihg"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "check = \"peek-panel\"", "check = \"peak-panel\""),
        ("there is no check “peak-panel”", "“peek-panel”", "peak-panel"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "triggers = [\"deep-sink\"]", "triggers = [\"deep-sinks\"]"),
        ("there is no option of “planned-work” “deep-sinks”", "“deep-sink”", "deep-sinks"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "cost = [450, 1100, 2800]", "cost = [450, 2800, 1100]"),
        ("low, likely, high in that order", "", "cost = [450, 2800"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "days = [0.5, 1, 2]", "days = [-0.5, 1, 2]"),
        ("not negative", "", "days = [-0.5"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "caution = ", "cuation = "),
        ("unknown field `cuation`", "“caution”", "cuation"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "stage = \"rough-in\"", "stage = \"rough-inn\""),
        ("unknown variant `rough-inn`", "“rough-in”", "rough-inn"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "1940-1959 = 0.36", "1940-1959 = 1.36"),
        ("must lie between 0 and 0.98", "", "1.36"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "1940-1959 = 0.36", "1940-1960 = 0.36"),
        ("there is no era “1940-1960”", "“1940-1959”", "1940-1960"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "if-present = 0.92, if-absent = 0.45", "if-present = 0.42, if-absent = 0.45"),
        ("“stub-high” does not raise “drain-stub-high”", "more than if-absent", "stub-high"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "sensitivity = 0.95, specificity = 0.95", "sensitivity = 0.4, specificity = 0.5"),
        ("add up to more than 1", "", "sensitivity = 0.4"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "inputs = [\n  \"sink-mount\"", "inputs = [\n  \"sink-munt\""),
        ("there is no item “sink-munt”", "“sink-mount”", "sink-munt"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "replaces-clues = [\"stub-high\"", "replaces-clues = [\"trap-s\""),
        ("there is no clue of “drain-stub-high” “trap-s”", "known: stub-high", "trap-s"),
    ),
    plant(
        "conditions/drain.toml",
        (STUB, "prior = \"judgment\"", "prior = \"published\""),
        ("names no source", "sources =", "basis = { prior = \"published\""),
    ),
    plant(
        "conditions/drain.toml",
        (
            "id = \"steel-drain-clogged\"",
            "sources = [\"steel-pipe-life\"]",
            "sources = [\"steel-pipe-live\"]",
        ),
        ("there is no source “steel-pipe-live”", "“steel-pipe-life”", "steel-pipe-live"),
    ),
    plant(
        "conditions/bulkhead.toml",
        ("id = \"bulkhead-duct\"", "level = \"no-ducts\"", "level = \"no-duct\""),
        ("there is no level of “heat” “no-duct”", "“no-ducts”", "no-duct"),
    ),
    plant(
        "conditions/bulkhead.toml",
        (
            "id = \"bulkhead-cable-bundle\"",
            "covers-cost-of = [\"bulkhead-wires\"]",
            "covers-cost-of = [\"bulkhead-wire\"]",
        ),
        ("there is no condition “bulkhead-wire”", "“bulkhead-wires”", "bulkhead-wire"),
    ),
    plant(
        "conditions/bulkhead.toml",
        ("id = \"bulkhead-cable-bundle\"", "to-1939 = ", "to-1939 = 0.97 # "),
        (
            "“bulkhead-cable-bundle” means “bulkhead-wires”, but its prior for to-1939 is higher",
            "",
            "bulkhead-cable-bundle",
        ),
    ),
    plant(
        "conditions/electrical.toml",
        (
            "id = \"panel-obsolete\"",
            "clue = \"panel-fuses\", if-present = 0.23",
            "clue = \"panel-fuses\", if-present = 0.28",
        ),
        (
            "“panel-kind” exclude each other, but their chances add up to 0.980",
            "below 0.97",
            "panel-discontinued",
        ),
    ),
    plant(
        "clues/panel.toml",
        ("id = \"panel-fuses\"", "in = [\"fuses\"]", "in = [\"fuses\", \"discontinued-breakers\"]"),
        ("two clues of “panel-obsolete” are true at “discontinued-breakers”", "", "panel-discontinued"),
    ),
    plant(
        "conditions/gas.toml",
        ("group = ", "group = \"gas\"", "group = \"gass\""),
        ("there is no group “gass”", "“gas”", "gass"),
    ),
    plant(
        "conditions/walls.toml",
        (
            "id = \"lead-paint\"",
            "never = [\"exclude\", \"allowance-without-test\"]",
            "never = [\"allowance-without-test\"]",
        ),
        ("may never be excluded", "never = [\"exclude\"]", "condition.decision"),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"stub-high\"", "item = \"stub-height\"", "item = \"stub-hight\""),
        ("there is no item “stub-hight”", "“stub-height”", "stub-hight"),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"stub-high\"", "gte = 17", "gte = 170"),
        ("outside the range of “stub-height”", "", "170"),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"trap-s\"", "in = [\"s-through-floor\"]", "in = [\"s-thru-floor\"]"),
        ("there is no option of “trap-shape” “s-thru-floor”", "“s-through-floor”", "s-thru-floor"),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"trap-s\"", "{ in = ", "{ has = "),
        ("“has” does not fit “trap-shape”", "in, not-in read one option", "has = "),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"trap-s\"", "cause = \"poor-venting\"", "cause = \"poor-vent\""),
        ("there is no cause “poor-vent”", "“poor-venting”", "poor-vent"),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"trap-s\"", "id = \"trap-s\"", "id = \"trap_s\""),
        ("“trap_s” is not an id", "single hyphens", "trap_s"),
    ),
    plant(
        "clues/sink.toml",
        ("id = \"trap-odd\"", "id = \"trap-odd\"", "id = \"trap-s\""),
        ("the clue “trap-s” is there twice", "", "trap-s"),
    ),
    plant(
        "checks.toml",
        ("id = \"pinhole\"", "item = \"wall-scan\"", "item = \"wall-scam\""),
        ("there is no item “wall-scam”", "“wall-scan”", "wall-scam"),
    ),
    plant(
        "walk/01-plan.toml",
        ("id = \"sink-mount\"", "item = \"planned-work\"", "item = \"stub-datum\""),
        ("there is no earlier item “stub-datum”", "", "stub-datum"),
    ),
    plant(
        "walk/05-sink.toml",
        ("id = \"stub-height\"", "unit = \"in\"", "unit = \"cubit\""),
        ("the unit of a length", "", "cubit"),
    ),
    plant(
        "walk/05-sink.toml",
        ("id = \"stub-height\"", "max = 30", "max = 1"),
        ("min must be less than max", "", "min = "),
    ),
    plant(
        "walk/05-sink.toml",
        ("id = \"stub-height\"", "answer = \"length\"", "answer = \"lenght\""),
        ("unknown variant `lenght`", "“length”", "lenght"),
    ),
    plant(
        "walk/05-sink.toml",
        ("id = \"stub-height\"", "id = \"stub-height\"", "id = \"stub-datum\""),
        ("the item “stub-datum” is there twice", "", "stub-datum"),
    ),
    plant(
        "context.toml",
        ("id = \"foundation\"", "prior = 0.42", "prior = 0.52"),
        ("the shares of “foundation” add up to 1.1000", "", "levels"),
    ),
    plant(
        "context.toml",
        ("id = \"year-band\"", "from = 1940", "from = 1941"),
        ("leave a gap or overlap", "", "1941"),
    ),
    plant(
        "relations.toml",
        ("[[excludes]]", "\"bulkhead-wires\"", "\"bulkhead-wirse\""),
        ("there is no condition “bulkhead-wirse”", "“bulkhead-wires”", "bulkhead-wirse"),
    ),
    plant(
        "catalog.toml",
        ("not-for", "\"lead-paint\"", "\"led-paint\""),
        ("there is no condition “led-paint”", "“lead-paint”", "led-paint"),
    ),
    plant(
        "drain-defaults.toml",
        ("[[length]]", "id = \"toe-kick\"", "id = \"toe-kik\""),
        ("no calculation reads a default “toe-kik”", "“toe-kick”", ""),
    ),
    plant(
        "wishes.toml",
        ("[[wish]]", "now = [250, 900]", "now = [900, 250]"),
        ("sums are [low, high]", "", "now = [900"),
    ),
    plant("causes.toml", ("[[cause]]", "id = \"", "id = "), ("", "", "id = ")),
];

#[test]
fn every_planted_fault_is_found_on_its_line_with_a_way_to_mend_it() {
    every_one_is_found(PLANTS);
}

/// Plants one fault after the other, and tells all that were not found as they should be.
pub(crate) fn every_one_is_found(plants: &[Plant]) {
    let missed: Vec<String> = plants.iter().filter_map(missed).collect();
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}

fn missed(plant: &Plant) -> Option<String> {
    let (files, error) = planted(plant.file, plant.after, plant.from, plant.to);
    let why = |why: &str| Some(format!("{}: {} → {}: {why}\n{error}", plant.file, plant.from, plant.to));
    let Some(fault) = error.faults.iter().find(|f| f.what.contains(plant.what)) else {
        return why("not told");
    };
    if !fault.mend.as_deref().unwrap_or_default().contains(plant.mend) {
        return why("another way to mend it");
    }
    let (_, text) = files.iter().find(|(p, _)| *p == fault.file)?;
    let line = text.lines().nth(fault.line as usize - 1).unwrap_or_default();
    if !line.contains(plant.on) {
        return why(&format!("line {} is “{line}”", fault.line));
    }
    let place = format!("{}:{}: ", fault.file, fault.line);
    (!error.to_string().contains(&place)).then(|| format!("{place} is not in\n{error}"))
}

#[test]
fn an_answer_cannot_count_as_clue_and_as_context() {
    let (_, error) = planted(
        "conditions/drain.toml",
        STUB,
        "clues = [\n",
        "adjust = [{ factor = \"past-work\", level = \"owner\", odds-ratio = 1.5 }]\nclues = [\n  { clue = \"owner-work\", if-present = 0.4, if-absent = 0.2 },\n",
    );
    let fault = error
        .faults
        .iter()
        .find(|f| f.what.contains("would count twice"))
        .unwrap_or_else(|| panic!("{error}"));
    assert!(fault.what.contains("earlier-work"), "{fault}");
}

#[test]
fn missing_doubled_and_foreign_files_are_named() {
    let mut missing = files();
    missing.retain(|(p, _)| p != "checks.toml");
    let error = Catalog::load(&missing).unwrap_err();
    assert_eq!(error.faults[0].to_string(), "checks.toml: this file is missing; put it back");

    let mut doubled = files();
    doubled.push(doubled[0].clone());
    assert!(Catalog::load(&doubled).unwrap_err().to_string().contains("given twice"));

    let mut foreign = files();
    foreign.push(("conditions.toml".into(), String::new()));
    let error = Catalog::load(&foreign).unwrap_err().to_string();
    assert!(error.contains("conditions.toml: this file has no place in a catalog"), "{error}");
    assert!(Catalog::load(&[]).is_err());
}

#[test]
fn several_faults_come_together_in_the_order_of_files_and_lines() {
    let mut files = files();
    for (path, text) in &mut files {
        if path == "conditions/drain.toml" {
            *text = text.replace("check = \"drain-open\"", "check = \"drain-oven\"");
        }
        if path == "clues/sink.toml" {
            *text = text.replace("cause = \"old-valves\"", "cause = \"old-valve\"");
        }
    }
    let error = Catalog::load(&files).unwrap_err();
    assert!(error.faults.len() >= 2, "{error}");
    let mut sorted = error.faults.clone();
    sorted.sort();
    assert_eq!(error.faults, sorted);
    assert!(error.faults.iter().any(|f| f.file == "clues/sink.toml"));
    assert!(error.faults.iter().any(|f| f.file == "conditions/drain.toml"));
}
