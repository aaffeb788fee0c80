//! Drains, trap arms and gas pipes from the answers.

use survey::Phrase;
use trade::Assumed;

use super::inputs::Inputs;

/// The planned sink against the stub that is there. Questions of the walk and of the calculation have the same names.
pub(super) fn sink_drain(i: &mut Inputs<'_>) {
    for length in [
        "stub-height",
        "bowl-depth",
        "counter-height",
        "counter-thick",
        "floor-buildup",
        "trap-run",
        "cabinet-toe-kick",
        "cabinet-floor-thick",
    ] {
        i.length(length, length);
    }
    for word in ["stub-datum", "sink-mount", "sink-shell", "disposer-plan", "dishwasher-plan"] {
        i.same_word(word, word);
    }
    // A drop read from the sheet of a disposer that is not planned any more says nothing.
    if i.choice("disposer-plan") != Some("no") {
        i.length("disposer-drop", "disposer-drop");
    }
}

/// Trap arm as seen or planned.
pub(super) fn trap_arm(i: &mut Inputs<'_>) {
    i.length("length", "arm-length");
    i.word("size", "drain-size", STUB_SIZES);
}

/// Nominal sizes of the drain stub-out.
const STUB_SIZES: &[(&str, &str)] =
    &[("inch-and-quarter", "1-1/4"), ("inch-and-half", "1-1/2"), ("two-inch", "2")];

/// The kitchen's branch beyond the trap arm.
pub(super) fn drain_size(i: &mut Inputs<'_>) {
    let dishwasher = i.choice("dishwasher-plan") != Some("no");
    if !matches!(i.choice("dishwasher-plan"), Some("yes" | "no")) {
        i.assumed.push(Assumed::new(Phrase("trade-dishwasher-sink"), trade::given::choice("yes")));
    }
    i.put("fixtures", if dishwasher { "kitchen_sink_dw, 1" } else { "kitchen_sink, 1" });
    i.word("existing", "drain-size", STUB_SIZES);
}

/// Every gas appliance on the run from the meter, and the planned one on its branch.
pub(super) fn gas_run(i: &mut Inputs<'_>) {
    const KINDS: &[(&str, &str)] =
        &[("black-steel", "steel"), ("corrugated-flexible", "corrugated"), ("copper", "copper")];
    const SIZES: &[(&str, &str)] = &[
        ("half-inch", "1/2"),
        ("three-quarter", "3/4"),
        ("one-inch", "1"),
        ("one-inch-plus", "1"),
        ("inch-and-quarter", "1-1/4"),
    ];
    i.word("pipe", "gas-pipe-kind", KINDS);
    i.length("length", "gas-run-length");
    i.word("trunk", "gas-trunk-size", SIZES);
    let planned = i.number("gas-planned").filter(|kbtu| *kbtu > 0.0);
    if planned.is_some() {
        i.word("branch", "gas-size", SIZES);
    }
    if let Some(all) = i.number("gas-load") {
        // The walk asks for the sum of all nameplates, the planned one among them.
        let there = all - planned.unwrap_or_default();
        if there < 0.0 {
            let why = Phrase("trade-sum-all-gas-nameplates");
            i.cannot_say = Some((why, vec![Phrase("trade-gas-load").into()], trade::gas::run::CAUTION));
            return;
        }
        i.put("existing", format!("by their nameplates, {}", there * 1000.0));
    }
    if let Some(kbtu) = planned {
        i.put("planned", format!("planned range, {}", kbtu * 1000.0));
    }
}
