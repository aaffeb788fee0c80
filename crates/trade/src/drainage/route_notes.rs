//! What else to know of a vent route: islands, valves, studs on the way.

use alloc::format;

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::reroute::{LONGEST_WAY, studs_passed};
use super::vent_route::Route;
use crate::cite;
use crate::error::TradeError;
use crate::given::show_inches;
use crate::number::show_number;
use crate::sheet::{Limit, Sheet};

/// Adds the notes.
pub(super) fn add(route: &Route, book: &Book, sheet: &mut Sheet) -> Result<(), TradeError> {
    if route.island {
        island(book, sheet)?;
    }
    if route.valve.is_some() {
        sheet.note(Phrase("trade-air-admittance-valve-stays"));
        if route.window.is_some() {
            sheet.note(Phrase("trade-valve-no-riser-passes"));
        }
    } else if route.window.is_none() && !route.island {
        sheet.note(Phrase("trade-no-window-over-sink"));
    }
    if book.table("gentle-slope").is_some() {
        sheet.note(say!("trade-lower-flat-vent-taken", title = &book.title));
    }
    if let Some(shift) = route.shift {
        studs(shift, sheet)?;
    }
    Ok(())
}

/// Families of island vents, in words.
fn island(book: &Book, sheet: &mut Sheet) -> Result<(), TradeError> {
    let table = cite::table(book, "island-vent")?;
    match table.value {
        Some(over) => {
            let over_shown = say!("trade-in", sigma = show_number(over));
            sheet.limits.push(Limit::of(book, table, over_shown.clone()));
            sheet.note(say!(
                "trade-island-loop-sinks-lavatories",
                title = &book.title,
                overshown = over_shown
            ));
        }
        None => {
            sheet.limits.push(Limit::of(book, table, Phrase("trade-named")));
            sheet.note(say!("trade-island-foot-vent-vent", title = &book.title));
        }
    }
    if refuses_valves(book) {
        sheet.note(Phrase("trade-air-admittance-valve-island"));
    } else {
        sheet.note(say!("trade-air-admittance-valve-asse", title = &book.title));
    }
    Ok(())
}

fn refuses_valves(book: &Book) -> bool {
    super::valve::is_named(book).is_ok_and(|(named, _)| !named)
}

fn studs(shift: super::vent_route::Shift, sheet: &mut Sheet) -> Result<(), TradeError> {
    let (way, spacing) = (shift.way.inches(), shift.spacing.inches());
    let tolerance = shift.way.tolerance.map_or(0.0, |t| t.abs().inches());
    let (fewest, _) = studs_passed(libm::fmax(way - tolerance, 0.0), spacing)?;
    let (_, most) = studs_passed(libm::fmin(way + tolerance, LONGEST_WAY), spacing)?;
    let studs = if fewest == most {
        Said::from(format!("{most}"))
    } else {
        say!("trade-to", counters = fewest, counters2 = most)
    };
    let (w, s, bays) = (show_inches(way), show_inches(spacing), show_number(way / spacing));
    sheet.line(
        Phrase("trade-studs-passed"),
        say!("trade-where-bay-starts", w = w, s = s, bays = bays, studs = &studs),
    );
    sheet.limits.push(Limit::practice(Phrase("trade-studs-sideways-way-passes"), studs));
    sheet.note(Phrase("trade-each-stud-passed-bored"));
    Ok(())
}
