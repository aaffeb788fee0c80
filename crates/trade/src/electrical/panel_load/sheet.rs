//! The sheet of a panel load.

use alloc::{format, string::String, vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::plan::{AREA_TOLERANCE, Method, PanelPlan, State, Sum};
use crate::cite::{table, value};
use crate::electrical::CAUTION;
use crate::electrical::demand::whole_amperes;
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
        let sentence = say!(
            "trade-optional-method-services-more",
            smallest = show_number(smallest),
            service = show_number(service)
        );
        let missing = vec![Phrase("trade-load-method-existing-dwelling").into()];
        let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
        sheet.limits.push(for_service);
        return Ok(sheet);
    }
    let (before, after) = (plan.sum(book, false)?, plan.sum(book, true)?);
    let carries = service * plan.volts;
    let chance = plan.chance(book, &after, carries)?;
    let standing = Standing::of_chance(chance);
    let amperes = |sum: &Sum| sum.total() / plan.volts;
    let mut sentence = say!(
        "trade-after-work-service-before",
        after = tenth(amperes(&after)),
        lies = standing.lies(),
        service = show_number(service),
        before = tenth(amperes(&before)),
        chance = in_100(chance)
    );
    let short = plan.spaces.map_or(0, |(free, wanted)| wanted.saturating_sub(free));
    if short > 0 {
        sentence = Said::sentences([
            sentence,
            say!("trade-panel-lacks-circuits-wanted", spaces = say!("trade-n-spaces", n = short)),
        ]);
    }
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    sheet.chance_beyond = Some(chance);
    let slope = after.steps.slope(after.connected);
    let sigma = slope * plan.connected_sigma(book, &after, slope)?;
    sheet.sigma = Some(say!(
        "trade-va-4",
        sigma = show_number(libm::round(sigma)),
        volts = format!("{:.2}", sigma / plan.volts)
    ));
    lines(&mut sheet, plan, book, &before, &after)?;
    sheet.limits = after.limits.clone();
    if plan.adds_climate() || plan.method == Method::Optional {
        sheet.note(Phrase("trade-heating-cooling-only-larger"));
    } else if plan.climate(true).existing() > 0.0 {
        sheet.note(Phrase("trade-heating-cooling-there-count"));
    }
    if service < value(book, "service-least")?.0 {
        sheet.limits.push(value(book, "service-least")?.1);
        sheet.note(Phrase("trade-service-smaller-than-code"));
    }
    if plan.area_tolerance.is_none() {
        let feet = show_number(libm::round(AREA_TOLERANCE * plan.area.get()));
        sheet.assumed.push(Assumed::new(say!("trade-floor-area-tolerance"), say!("trade-ft-2", feet = feet)));
        sheet.limits.push(Limit::practice(Phrase("trade-floor-area-nobody-gave"), "± 5 %"));
    }
    if standing != Standing::Within {
        changes(&mut sheet, plan, book)?;
        sheet.limits.push(value(book, "measured-demand")?.1);
        sheet.note(Phrase("trade-measured-use-may-show"));
    }
    if short > 0 {
        let text = say!("trade-make-room-small-panel", short = say!("trade-n-spaces", n = short));
        sheet.changes.push(Change::new(text, standing == Standing::Within));
        sheet.note(Phrase("trade-half-size-breakers-only"));
    }
    sheet.picture = Some(picture(plan, amperes(&before), amperes(&after)));
    Ok(sheet)
}

fn tenth(x: f64) -> String {
    show_number(libm::round(x * 10.0) / 10.0)
}

fn picture(plan: &PanelPlan, before: f64, after: f64) -> Picture {
    let mut parts = vec![(Phrase("trade-stays").into(), libm::fmin(before, after), false)];
    if after > before {
        parts.push((say!("trade-added-work"), after - before, true));
    }
    let carries =
        vec![(say!("trade-service", service = show_number(plan.service.get())), plan.service.get())];
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
        Phrase("trade-lighting-receptacles"),
        say!(
            "trade-ft-va-va",
            area = number(area),
            perfoot = number(per_foot),
            area2 = number(per_foot * area)
        ),
    );
    let (small, laundry) = (value(book, "small-appliance-load")?.0, value(book, "laundry-load")?.0);
    sheet.line(
        Phrase("trade-small-appliance-laundry-circuits"),
        say!(
            "trade-va-va-va",
            smallappliance = plan.small_appliance,
            small = number(small),
            laundry = plan.laundry,
            laundry2 = number(laundry),
            laundry3 = number(small * f64::from(plan.small_appliance) + laundry * f64::from(plan.laundry))
        ),
    );
    for load in &plan.loads {
        let counts =
            if load.part.is_climate() { load.nameplate.get() } else { PanelPlan::counts(book, load) };
        sheet.line(load.name.clone(), say!("trade-va-3", counts = number(counts), word = load.state.word()));
    }
    for (when, sum) in [(Phrase("trade-before"), before), (Phrase("trade-after-2"), after)] {
        let steps = &sum.steps;
        let load = steps.load(sum.connected);
        let text = if sum.connected <= steps.first {
            say!("trade-va-all-whole", connected = number(sum.connected))
        } else {
            say!(
                "trade-va-2",
                steps = number(steps.first),
                share = number(steps.share),
                connected = number(sum.connected),
                load = number(load)
            )
        };
        sheet.line(say!("trade-connected-load-what-counts", when = when), text);
        if sum.climate > 0.0 {
            let text = say!(
                "trade-va",
                load = number(load),
                climate = number(sum.climate),
                total = number(sum.total())
            );
            sheet.line(say!("trade-heating-cooling", when = when), text);
        }
        let amperes = sum.total() / plan.volts;
        sheet.line(
            say!("trade-amperes", when = when),
            say!(
                "trade-whole-amperes",
                total = number(sum.total()),
                volts = number(plan.volts),
                amperes = tenth(amperes),
                amperes2 = number(whole_amperes(amperes))
            ),
        );
    }
    let left = plan.service.get() - after.total() / plan.volts;
    sheet.line(Phrase("trade-room-left"), format!("{} A", tenth(left)));
    if let Some((free, wanted)) = plan.spaces {
        sheet.line(Phrase("trade-spaces-panel"), say!("trade-unused-wanted", free = free, wanted = wanted));
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
            let text = say!("trade-service-instead", name = name, service = show_number(plan.service.get()));
            sheet.changes.push(Change::new(text, true));
            sheet.limits.push(Limit::of(book, sizes, format!("{name} A")));
            break;
        }
    }
    for (at, load) in plan.loads.iter().enumerate().filter(|(_, l)| l.state == State::Planned) {
        let mut without = plan.clone();
        without.loads.remove(at);
        let sum = without.sum(book, true)?;
        let text = say!("trade-without", name = &load.name, volts = tenth(sum.total() / plan.volts));
        let chance = without.chance(book, &sum, plan.service.get() * plan.volts)?;
        sheet.changes.push(Change::new(text, within(chance)));
    }
    Ok(())
}
