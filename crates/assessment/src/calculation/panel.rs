//! The service load from the answers.

use survey::said::in_catalog;
use survey::{Phrase, Said, say};
use trade::Assumed;
use trade::electrical::CAUTION;

use super::inputs::Inputs;

/// Typical nameplates in volt-amperes, where the walk only ticked that the appliance is there: common practice, no
/// source. The nameplate governs.
const TYPICAL: [(&str, &str, u32); 9] = [
    ("range", "range", 12_000),
    ("cooktop", "cooktop", 7_000),
    ("oven", "wall oven", 4_500),
    ("dishwasher", "dishwasher", 1_200),
    ("disposer", "disposer", 800),
    ("microwave", "built-in microwave", 1_500),
    ("dryer", "dryer", 5_000),
    ("water-heater", "water heater", 4_500),
    ("car-charger", "vehicle charger", 7_200),
];
/// The same for heating and cooling.
const CLIMATE: [(&str, &str, &str, u32); 2] = [
    ("air-conditioner", "air conditioner", "air-conditioning", 5_000),
    ("electric-heat", "electric heat", "electric-heat", 10_000),
];
/// Two σ of a typical nameplate, as a share of it: judgment.
const TOLERANCE: f64 = 0.25;

/// The load before and after against the main.
pub(super) fn load(i: &mut Inputs<'_>) {
    for item in ["floor-area", "main-size", "electric-there", "electric-planned", "free-spaces"] {
        i.asks(item);
    }
    // A sum that leaves appliances out would look better than it is.
    let known = |item: &str| !i.ticked(item).is_empty() && !i.has(item, "cant-tell");
    let asked = [
        ("electric-there", Phrase("trade-electric-appliances-there")),
        ("electric-planned", Phrase("trade-electric-appliances-planned")),
    ];
    let missing: Vec<Said> =
        asked.iter().filter(|(item, _)| !known(item)).map(|(_, words)| Said::from(*words)).collect();
    if !missing.is_empty() {
        let why = Phrase("trade-without-knowing-which-appliances");
        i.cannot_say = Some((why, missing, CAUTION));
        return;
    }
    if let Some(area) = i.number("floor-area") {
        i.put("floor-area", format!("{area}"));
    }
    i.word(
        "service",
        "main-size",
        &[("60", "60"), ("100", "100"), ("125", "125"), ("150", "150"), ("200-plus", "200")],
    );
    for (option, name, va) in TYPICAL {
        let field = if option == "car-charger" { "vehicle-charger" } else { "appliance" };
        if let Some(state) = state(i, option) {
            let tolerance = f64::from(va) * TOLERANCE;
            let row = match field {
                "appliance" => format!("{name}, {va}, {state}, {tolerance}"),
                _ => format!("{va}, {state}, {tolerance}"),
            };
            i.put(field, row);
            assume(i, name, va);
        }
    }
    for (option, name, kind, va) in CLIMATE {
        if let Some(state) = state(i, option) {
            i.put("climate", format!("{kind}, {va}, {state}, 1, {}", f64::from(va) * TOLERANCE));
            assume(i, name, va);
        }
    }
    if let Some(spaces) = i.number("free-spaces") {
        i.notes.push(say!("trade-panel-shows-unused-spaces", spaces = format!("{spaces}")));
    }
}

/// What is there today and planned again is replaced by its like.
fn state(i: &Inputs<'_>, option: &str) -> Option<&'static str> {
    match (i.has("electric-there", option), i.has("electric-planned", option)) {
        (true, _) => Some("there"),
        (false, true) => Some("planned"),
        (false, false) => None,
    }
}

fn assume(i: &mut Inputs<'_>, name: &str, va: u32) {
    i.assumed.push(Assumed::new(
        say!("trade-nameplate", name = in_catalog("appliance", name)),
        say!(
            "trade-va-typical-read-plate",
            va = format!("{va}"),
            tolerance = format!("{:.0}", f64::from(va) * TOLERANCE)
        ),
    ));
}
