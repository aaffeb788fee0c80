//! What is planned, and the contract it is planned under.

use survey::catalog::{Catalog, MorePlace, PLANNED_WORK};
use survey::units::Money;

use crate::candidates::statements;
use crate::habits::Habits;
use crate::stream::Stream;

/// Jobs, price and days.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Plan {
    pub(crate) name: String,
    pub(crate) jobs: Vec<String>,
    pub(crate) contract: Money,
    pub(crate) days: u32,
}

/// Draws a plan from the mixes; jobs the catalog does not know are left out.
pub(crate) fn draw(catalog: &Catalog, habits: &Habits, stream: &mut Stream) -> Plan {
    let known: Vec<&str> = catalog.item(PLANNED_WORK).map(|i| statements(i).collect()).unwrap_or_default();
    let mut jobs: Vec<&str> = Vec::new();
    let mut name = String::new();
    if let Some(picked) = stream.pick(habits.plan.iter().map(|p| p.weight)) {
        let mix = &habits.plan[picked];
        name.clone_from(&mix.name);
        jobs.extend(mix.jobs.iter().map(String::as_str));
        for (job, chance) in &mix.maybe {
            if stream.chance(*chance) && !jobs.contains(&job.as_str()) {
                jobs.push(job);
            }
        }
    }
    jobs.retain(|job| known.contains(job));
    for [first, second] in &habits.not_together.pairs {
        if jobs.contains(&first.as_str()) {
            jobs.retain(|job| job != second);
        }
    }
    jobs.sort_unstable();
    let sum = |of: &std::collections::BTreeMap<String, f64>| -> f64 {
        jobs.iter().map(|job| of.get(*job).copied().unwrap_or(0.0)).sum()
    };
    let c = &habits.contract;
    let factor = stream.between(c.spread[0], c.spread[1]);
    let hundreds = libm::round((c.base + sum(&c.jobs)) * factor / 100.0);
    let days = libm::round((c.base_days + sum(&c.days)) * factor);
    Plan {
        name,
        contract: Money::from_f64(hundreds.max(1.0) * 100.0).unwrap_or(Money::MAX),
        days: (days as u32).max(1),
        jobs: jobs.into_iter().map(str::to_owned).collect(),
    }
}

/// What added places are called: "Second soffit".
const ORDINALS: [&str; 5] = ["Second", "Third", "Fourth", "Fifth", "Sixth"];

/// Draws how many there are of what a house can have several of: the places beyond the first of each station.
pub(crate) fn several(
    catalog: &Catalog,
    habits: &Habits,
    jobs: &[String],
    stream: &mut Stream,
) -> Vec<MorePlace> {
    let mut all = Vec::new();
    for station in &catalog.stations {
        let (Some(each), Some(of)) = (&station.each, habits.several.get(&station.id)) else { continue };
        // All draws are made, so that a stream keeps its meaning whatever is planned.
        let drawn: Vec<bool> = of.more.iter().map(|p| stream.chance(*p)).collect();
        if !of.jobs.iter().any(|job| jobs.contains(job)) {
            continue;
        }
        let there = drawn.iter().take_while(|more| **more).count().min(each.most.saturating_sub(1) as usize);
        for ordinal in ORDINALS.iter().take(there) {
            let label = format!("{ordinal} {}", each.one);
            if let Some(place) = each.place_id(&label) {
                all.push(MorePlace { station: station.id.clone(), place, label });
            }
        }
    }
    all
}
