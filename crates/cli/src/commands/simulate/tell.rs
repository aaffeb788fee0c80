//! Invented houses in numbers.

use std::collections::BTreeMap;
use std::path::Path;

use imagine::SimulatedHouse;
use review::Outcome;
use survey::catalog::Catalog;

use super::device::Made;
use crate::out::Out;

/// Rows of what no answer could say.
const SHOWN: usize = 8;

/// What the houses come to together.
pub(super) fn numbers(houses: &[SimulatedHouse], seed: u64, truth: &Catalog, out: &mut Out) {
    let n = houses.len();
    let (version, digest) = (truth.version, truth.digest.short());
    out.head(format!("{n} invented houses of seed {seed}, drawn from catalog version {version} ({digest})"));
    if n == 0 {
        return;
    }
    let mean = |of: &dyn Fn(&SimulatedHouse) -> f64| houses.iter().map(of).sum::<f64>() / n as f64;
    let steps = || houses.iter().flat_map(|h| &h.walk);
    let missing = steps().filter(|s| !s.value.is_statement()).count();
    let states = || houses.iter().flat_map(|h| h.conditions.values());
    let share = |part: usize, whole: usize| percent(part as f64 / whole.max(1) as f64);
    let opened = |suspected: bool| {
        let places = houses.iter().flat_map(|h| &h.findings).filter(|f| f.suspected == suspected);
        let (mut all, mut open) = (0, 0);
        places.for_each(|f| {
            all += 1;
            open += usize::from(f.outcome != Outcome::NotOpened);
        });
        share(open, all)
    };
    out.table(&[
        row("items asked in a house", format!("{:.0}", mean(&|h| h.walk.len() as f64))),
        row("of these without a statement", share(missing, steps().count())),
        row(
            "houses with several soffits, walls or baths",
            share(houses.iter().filter(|h| !h.places.is_empty()).count(), n),
        ),
        row("conditions in scope of a house", format!("{:.0}", mean(&|h| h.conditions.len() as f64))),
        row("of these there", share(states().filter(|s| s.present).count(), states().count())),
        row("places opened, suspected", opened(true)),
        row("places opened, others", opened(false)),
    ]);
    out.line("  what is hidden comes to, as a share of the contract, outside the base price:");
    let mut parts: Vec<f64> = houses.iter().map(|h| h.loss.money.dollars() / h.contract.dollars()).collect();
    parts.sort_by(f64::total_cmp);
    let at = |q: f64| percent(parts[((q * n as f64).ceil() as usize).clamp(1, n) - 1]);
    out.table(&[
        row("mean", percent(mean(&|h| h.loss.money.dollars() / h.contract.dollars()))),
        row("P50, P80, P90", format!("{}, {}, {}", at(0.5), at(0.8), at(0.9))),
        row(
            "mean where places were opened",
            percent(mean(&|h| h.paid.money.dollars() / h.contract.dollars())),
        ),
    ]);
    unsayable(houses, out);
}

/// Items whose clues the catalog lets be seen in ways that none of their answers can say.
fn unsayable(houses: &[SimulatedHouse], out: &mut Out) {
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    houses.iter().flat_map(|h| &h.redrawn).for_each(|item| *counts.entry(item).or_default() += 1);
    let mut list: Vec<(&str, usize)> = counts.into_iter().collect();
    list.sort_by(|a, b| b.1.cmp(&a.1).then(a.0.cmp(b.0)));
    if list.is_empty() {
        return;
    }
    out.line("  the catalog let clues be seen in a way that no answer of the item says; they were drawn again, in:");
    let rows = list.iter().take(SHOWN);
    let rows: Vec<_> = rows.map(|(item, k)| row(item, percent(*k as f64 / houses.len() as f64))).collect();
    out.table(&rows);
}

/// What was written.
pub(super) fn made(made: &Made, wrong: bool, into: &Path, out: &mut Out) {
    out.line("Made:");
    out.line(format!("device  {}  {} houses, {} entries", made.device, made.houses, made.entries));
    if let Some(office) = &made.office {
        out.line(format!("office  {office}  {} findings", made.findings));
    }
    out.line(format!("houses  {}", into.join("houses.jsonl").display()));
    if wrong {
        out.line(format!("factors  {}", into.join("truth.toml").display()));
    }
}

fn row(name: &str, value: String) -> Vec<String> {
    vec![name.to_owned(), value]
}

fn percent(share: f64) -> String {
    format!("{:.1} %", share * 100.0)
}
