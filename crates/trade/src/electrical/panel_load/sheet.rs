//! The sheet of a panel load.

use alloc::{format, string::String, vec};

use survey::catalog::Book;

use super::plan::{AREA_TOLERANCE, Method, PanelPlan, State, Sum};
use crate::cite::{table, value};
use crate::electrical::demand::whole_amperes;
use crate::electrical::{CAUTION, counted};
use crate::error::TradeError;
use crate::number::{in_100, show_number};
use crate::picture::{LoadBar, Picture};
use crate::sheet::{Assumed, Change, Limit, Sheet, Standing};

/// Holds the load against the service under one book.
///
/// # Errors
/// A book without the tables.
pub fn judge(plan: &PanelPlan, book: &Book) -> Result<Sheet, TradeError> {
    let service = plan.service.get();
    let (smallest, for_service) = value(book, "load-new-service")?;
    if plan.method == Method::Optional && service < smallest {
        let sentence = format!(
            "The optional method is for services of {} A and more; this one has {} A.",
            show_number(smallest),
            show_number(service)
        );
        let missing = vec![String::from("the load by the method for an existing dwelling")];
        let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
        sheet.limits.push(for_service);
        return Ok(sheet);
    }
    let (before, after) = (plan.sum(book, false)?, plan.sum(book, true)?);
    let carries = service * plan.volts;
    let chance = plan.chance(book, &after, carries)?;
    let standing = Standing::of_chance(chance);
    let amperes = |sum: &Sum| sum.total() / plan.volts;
    let mut sentence = format!(
        "{} A after the work, {} the {} A of the service; {} A before it. Chance that it lies beyond: {}.",
        tenth(amperes(&after)),
        standing.lies(),
        show_number(service),
        tenth(amperes(&before)),
        in_100(chance)
    );
    let short = plan.spaces.map_or(0, |(free, wanted)| wanted.saturating_sub(free));
    if short > 0 {
        sentence.push_str(&format!(" The panel lacks {} for the circuits wanted.", counted(short, "space")));
    }
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    sheet.chance_beyond = Some(chance);
    let slope = after.steps.slope(after.connected);
    let sigma = slope * plan.connected_sigma(book, &after, slope)?;
    sheet.sigma = Some(format!("{} VA, {:.2} A", show_number(libm::round(sigma)), sigma / plan.volts));
    lines(&mut sheet, plan, book, &before, &after)?;
    sheet.limits = after.limits.clone();
    if plan.adds_climate() || plan.method == Method::Optional {
        sheet.note("Of heating and cooling only the larger counts.");
    } else if plan.climate(true).existing() > 0.0 {
        sheet.note(
            "Heating and cooling that are there count among the appliances, the larger of the \
            two; the section does not say so in words.",
        );
    }
    if service < value(book, "service-least")?.0 {
        sheet.limits.push(value(book, "service-least")?.1);
        sheet.note(
            "The service is smaller than the code asks for a house today; ask whether the work makes it due.",
        );
    }
    if plan.area_tolerance.is_none() {
        let feet = show_number(libm::round(AREA_TOLERANCE * plan.area.get()));
        sheet.assumed.push(Assumed { item: "floor area tolerance".into(), value: format!("±{feet} ft²") });
        sheet.limits.push(Limit::practice("Floor area nobody gave a tolerance for", "± 5 %"));
    }
    if standing != Standing::Within {
        changes(&mut sheet, plan, book)?;
        sheet.limits.push(value(book, "measured-demand")?.1);
        sheet.note(
            "Measured use may show room that this sum does not: a year of readings, or 30 days recorded.",
        );
    }
    if short > 0 {
        let text =
            format!("Make room for {}: a small panel beside it, or a larger one.", counted(short, "space"));
        sheet.changes.push(Change { text, enough: standing == Standing::Within });
        sheet.note("Half-size breakers only where the label in the door lists them.");
    }
    sheet.picture = Some(picture(plan, amperes(&before), amperes(&after)));
    Ok(sheet)
}

fn tenth(x: f64) -> String {
    show_number(libm::round(x * 10.0) / 10.0)
}

fn picture(plan: &PanelPlan, before: f64, after: f64) -> Picture {
    let mut parts = vec![("stays".into(), libm::fmin(before, after), false)];
    if after > before {
        parts.push(("added by the work".into(), after - before, true));
    }
    let carries = vec![(format!("service, {} A", show_number(plan.service.get())), plan.service.get())];
    Picture::Load(LoadBar { unit: "A".into(), parts, carries })
}

fn lines(
    sheet: &mut Sheet,
    plan: &PanelPlan,
    book: &Book,
    before: &Sum,
    after: &Sum,
) -> Result<(), TradeError> {
    let (area, number) = (plan.area.get(), show_number);
    let per_foot = value(book, "lighting-load")?.0;
    sheet.line(
        "Lighting and receptacles",
        format!("{} ft² × {} VA = {} VA", number(area), number(per_foot), number(per_foot * area)),
    );
    let (small, laundry) = (value(book, "small-appliance-load")?.0, value(book, "laundry-load")?.0);
    sheet.line(
        "Small-appliance and laundry circuits",
        format!(
            "{} × {} VA + {} × {} VA = {} VA",
            plan.small_appliance,
            number(small),
            plan.laundry,
            number(laundry),
            number(small * f64::from(plan.small_appliance) + laundry * f64::from(plan.laundry))
        ),
    );
    for load in &plan.loads {
        let counts =
            if load.part.is_climate() { load.nameplate.get() } else { PanelPlan::counts(book, load) };
        sheet.line(load.name.clone(), format!("{} VA, {}", number(counts), load.state.word()));
    }
    for (when, sum) in [("Before", before), ("After", after)] {
        let steps = &sum.steps;
        let load = steps.load(sum.connected);
        let text = if sum.connected <= steps.first {
            format!("{} VA, all of it whole", number(sum.connected))
        } else {
            format!(
                "{} + {} × ({} − {}) = {} VA",
                number(steps.first),
                number(steps.share),
                number(sum.connected),
                number(steps.first),
                number(load)
            )
        };
        sheet.line(format!("{when}: connected load and what counts"), text);
        if sum.climate > 0.0 {
            let text = format!("{} + {} = {} VA", number(load), number(sum.climate), number(sum.total()));
            sheet.line(format!("{when}: with heating or cooling"), text);
        }
        let amperes = sum.total() / plan.volts;
        sheet.line(
            format!("{when}: amperes"),
            format!(
                "{} ÷ {} = {} A, in whole amperes {}",
                number(sum.total()),
                number(plan.volts),
                tenth(amperes),
                number(whole_amperes(amperes))
            ),
        );
    }
    let left = plan.service.get() - after.total() / plan.volts;
    sheet.line("Room left", format!("{} A", tenth(left)));
    if let Some((free, wanted)) = plan.spaces {
        sheet.line("Spaces in the panel", format!("{free} unused, {wanted} wanted"));
    }
    Ok(())
}

/// The next size of service, and the plan without one of its loads.
fn changes(sheet: &mut Sheet, plan: &PanelPlan, book: &Book) -> Result<(), TradeError> {
    let after = plan.sum(book, true)?;
    let within = |chance: f64| Standing::of_chance(chance) == Standing::Within;
    let sizes = table(book, "standard-sizes")?;
    let from = libm::fmax(plan.service.get(), value(book, "service-least")?.0);
    for (name, size) in sizes.rows.iter().filter(|(_, size)| *size >= from && *size > plan.service.get()) {
        if within(plan.chance(book, &after, size * plan.volts)?) {
            let text = format!("A service of {name} A instead of {} A.", show_number(plan.service.get()));
            sheet.changes.push(Change { text, enough: true });
            sheet.limits.push(Limit::of(book, sizes, format!("{name} A")));
            break;
        }
    }
    for (at, load) in plan.loads.iter().enumerate().filter(|(_, l)| l.state == State::Planned) {
        let mut without = plan.clone();
        without.loads.remove(at);
        let sum = without.sum(book, true)?;
        let text = format!("Without {}: {} A.", load.name, tenth(sum.total() / plan.volts));
        let chance = without.chance(book, &sum, plan.service.get() * plan.volts)?;
        sheet.changes.push(Change { text, enough: within(chance) });
    }
    Ok(())
}
