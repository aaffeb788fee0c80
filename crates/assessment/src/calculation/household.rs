//! What the household meets: old paint, outages, wishes.

use survey::{Said, say};

use super::inputs::Inputs;

/// Jobs that cut or take out a painted surface.
const OPENS: [&str; 6] =
    ["remove-bulkhead", "open-wall", "remove-wall", "open-ceiling", "widen-window", "bath-remodel"];

/// The federal rule on lead paint, where the year is old enough for it.
pub(super) fn lead_rule(i: &mut Inputs<'_>) {
    let Some(year) = i.number("year-built").filter(|year| *year < 1978.0) else {
        i.beside_the_point = true;
        return;
    };
    i.put("year", format!("{year}"));
    if !i.ticked("planned-work").is_empty() && !i.has("planned-work", "cant-tell") {
        let opens = OPENS.iter().any(|job| i.has("planned-work", job));
        i.put("demolition", if opens { "yes" } else { "no" });
        i.put("window", if i.has("planned-work", "widen-window") { "yes" } else { "no" });
    }
    if !i.ticked("who-home").is_empty() {
        i.put("child-under-6", if i.has("who-home", "child-under-6") { "yes" } else { "no" });
    }
}

/// What is off, day by day.
pub(super) fn outages(i: &mut Inputs<'_>) {
    i.asks("planned-work");
    let planned: Vec<_> = i.catalog.planned_outages(&i.here).collect();
    for outage in planned {
        if outage.in_days() {
            i.notes.push(say!(
                "trade-hours-all-likely",
                task = Said::of_catalog(format!("outage-{}-task", outage.id), &outage.task),
                low = format!("{}", outage.hours.low),
                high = format!("{}", outage.hours.high),
                likely = format!("{}", outage.hours.likely),
                help = Said::of_catalog(format!("outage-{}-help", outage.id), &outage.help)
            ));
        } else {
            i.put("task", outage.id.clone());
        }
    }
    if i.answers.is_empty() {
        i.beside_the_point = true;
        return;
    }
    let days: Vec<&str> =
        ["mon", "tue", "wed", "thu", "fri"].into_iter().filter(|day| i.has("home-work", day)).collect();
    if !days.is_empty() {
        i.put("home-days", days.join("+"));
    } else if i.has("home-work", "none") {
        i.put("home-days", "none");
    }
    i.word(
        "medical-circuit",
        "medical-power",
        &[("yes", trade::outages::household::UNNAMED), ("no", "none")],
    );
    i.word(
        "quiet-hours",
        "quiet-hours",
        // Usual hours: common practice, no source.
        &[("none", "none"), ("naps", "13-15"), ("early-mornings", "8-9"), ("nights-worked", "8-14")],
    );
    if !i.ticked("power-needs").is_empty() {
        i.put("well-pump", if i.has("power-needs", "well-pump") { "yes" } else { "no" });
    }
}

/// What a wish costs now and later.
pub(super) fn wishes(i: &mut Inputs<'_>) {
    let wished: Vec<String> = i.ticked("wishes").to_vec();
    for wish in wished.iter().filter(|w| i.catalog.wishes.iter().any(|known| known.id == **w)) {
        i.put("wish", wish.clone());
    }
    i.beside_the_point = i.answers.is_empty();
}
