//! What else to know of a vent route: islands, valves, studs on the way.

use alloc::format;

use survey::catalog::Book;

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
        sheet.note(
            "An air admittance valve stays within reach and has air around it, and the house keeps at least one vent \
             to outdoors; ask the building department whether valves are adopted before pricing one.",
        );
        if route.window.is_some() {
            sheet.note(
                "With a valve no riser passes the window, so the room under the sill is not held here.",
            );
        }
    } else if route.window.is_none() && !route.island {
        sheet.note("No window over the sink was given; one there often blocks the riser.");
    }
    if book.table("gentle-slope").is_some() {
        sheet.note(format!(
            "{}: a lower flat vent is taken only where the structure forbids the height, piped with drainage \
             fittings and to grade.",
            book.title
        ));
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
            let over_shown = format!("{} in", show_number(over));
            sheet.limits.push(Limit::of(book, table, over_shown.clone()));
            sheet.note(format!(
                "Island, {}: a loop, for sinks and lavatories, also with dishwasher and disposer. The vent rises \
                 above the outlet of the fixture, turns over and drops; what lies below the rim is piped as drainage \
                 and comes back into the drain in full size; the branch vent rises {over_shown} above the rim at the \
                 wall; cleanouts reach both legs.",
                book.title
            ));
        }
        None => {
            sheet.limits.push(Limit::of(book, table, "named"));
            sheet.note(format!(
                "Island, {}: a foot vent. The vent rises as high as it can, at least to the height of the drainboard, \
                 and returns to the horizontal drain by a wye just downstream of the upright fixture drain; a foot \
                 vent goes below the floor to the nearest wall; nothing else drains upstream; a cleanout stands in \
                 the foot vent.",
                book.title
            ));
        }
    }
    if refuses_valves(book) {
        sheet.note(
            "An air admittance valve in an island is commonly refused here (from memory); ask locally.",
        );
    } else {
        sheet.note(format!(
            "{}: an air admittance valve (ASSE 1051) in the island is the third way, where it is adopted; \
             `valve-height` holds its height.",
            book.title
        ));
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
    let studs = if fewest == most { format!("{most}") } else { format!("{fewest} to {most}") };
    let (w, s, bays) = (show_inches(way), show_inches(spacing), show_number(way / spacing));
    sheet.line("Studs passed", format!("{w} ÷ {s} = {bays}: {studs}, by where in a bay it starts"));
    sheet.limits.push(Limit::practice("Studs a sideways way passes: way ÷ spacing", studs));
    sheet.note(
        "Each stud passed is bored: hold the pipe against the stud by `stud-hole`, a calculation of its own. A flat \
         piece of vent there keeps the six inches over the rim.",
    );
    Ok(())
}
