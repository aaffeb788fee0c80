//! `underlath promise`.

use actions::{Error, promise};
use assessment::forecast::in_100;
use assessment::promise::{CheckPlan, Promise, Promised, Terms};
use survey::units::Money;
use views::phrases::about_in_10;
use words::Language;

use super::Room;
use crate::args;
use crate::out::Out;

pub fn run(args: &args::Promise, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let promised = Promised {
        cover: &args.cover,
        cap: Money::from_dollars(args.cap),
        under: args.under.map(Money::from_dollars),
        terms: Terms { loading: args.loading, chance: args.chance },
    };
    let priced = promise(&desk, survey, &promised)?;
    if out.json() {
        out.value(&priced);
    } else {
        tell(&priced, out);
    }
    Ok(())
}

/// What the odds rest on until findings say more.
pub(super) const ODDS_ARE_JUDGMENT: &str = "Odds and costs are the catalog’s, and one factor on all base odds sets their level: \
judgment until the firm’s own jobs have spoken.";

/// A sum to whole dollars.
pub(super) fn whole(sum: Money) -> String {
    words::whole_money(Language::En, sum)
}

fn tell(promise: &Promise, out: &mut Out) {
    let Promise { price, covered, terms, .. } = promise;
    let things = if covered.len() == 1 { "condition" } else { "conditions" };
    out.head(format!("A promise of {} {things}, up to {}", covered.len(), promise.cap));
    let [mean, p80, p90, premium] = price.standard_errors.map(whole);
    out.line(format!(
        "  premium {} ± {premium}: the mean {} and {} of what P90 {} lies above it",
        whole(price.premium),
        whole(price.mean),
        terms.loading,
        whole(price.p90)
    ));
    if price.p90 < price.mean {
        out.line(
            "    P90 lies below the mean: what is rare and dear is in the mean only, and the loading takes off instead of adding. \
             Think of charging the mean at least.",
        );
    }
    out.line(format!(
        "  payout  mean {} ± {mean}, 8 in 10 within {} ± {p80}, 9 in 10 within {} ± {p90}",
        whole(price.mean),
        whole(price.p80),
        whole(price.p90)
    ));
    out.line(format!("  the cap is reached: {}", in_100(price.cap_reached)));
    out.line("");
    out.head("The premium without one of them");
    let said = out.words();
    let row = |c: &assessment::promise::Covered| {
        let without = format!("{} without it", whole(c.without.premium));
        vec![c.key.clone(), c.name.clone(), about_in_10(said, c.probability), without]
    };
    out.table(&covered.iter().map(row).collect::<Vec<_>>());
    if let Some(plan) = &promise.under {
        out.line("");
        out.head(format!("Under {}", plan.wanted));
        tell_plan(plan, terms, out);
    }
    out.line("");
    for c in covered {
        out.line(format!("{}: {}", c.name, c.caution));
    }
    out.line(format!(
        "From {} joint draws. {} So is the loading of {}. Nothing was recorded.",
        words::number(Language::En, f64::from(promise.draws), 0),
        ODDS_ARE_JUDGMENT,
        terms.loading
    ));
}

fn tell_plan(plan: &CheckPlan, terms: &Terms, out: &mut Out) {
    if plan.already {
        out.line("  it is there already");
        return;
    }
    let tried = if plan.every { "every set of checks was tried" } else { "built up one check at a time" };
    match (plan.sufficient, plan.checks.is_empty()) {
        (_, true) => {
            out.line("  no check that may be offered tells anything of what is promised");
            return;
        }
        (true, _) => {
            out.line(format!("  cheapest with a chance of {} or more ({tried}):", in_100(terms.chance)))
        }
        (false, _) => out.line(format!(
            "  no set of checks has a chance of {} ({tried}); the nearest:",
            in_100(terms.chance)
        )),
    }
    for part in &plan.checks {
        out.line(format!("    {} ({}), for {}", part.name, part.who, part.reads.join(", ")));
        if !part.ask_first.is_empty() {
            out.line(format!("        not while: {}", part.ask_first.join("; ")));
        }
    }
    out.line(format!(
        "  {} minutes, about {}; chance that the premium is then {} or less: {}",
        plan.minutes,
        whole(plan.cost),
        plan.wanted,
        in_100(plan.chance)
    ));
    out.line(format!(
        "  chance that nothing shows: {}, the premium then {}; averaged over all results {}, because looking does not change what is there",
        in_100(plan.clear),
        whole(plan.if_clear),
        whole(plan.expected)
    ));
}
