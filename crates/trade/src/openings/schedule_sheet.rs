//! The sheet of an opening schedule: planes, trades, sheets, rooms, cautions.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::Book;

use crate::error::TradeError;
use crate::given::show_inches;
use crate::number::{in_100, show_number};
use crate::openings::CAUTION;
use crate::openings::hole::{Surface, UNSTATED_SIGMA};
use crate::openings::lead::{LeadRule, never_minor, notes};
use crate::openings::plane::{Plane, USUAL_SPACING};
use crate::openings::rects::{HAIR, apart};
use crate::openings::schedule::{
    FARTHEST_MOVE, OFFCUT_ALLOWANCE, Room, SHEET_AREA, Schedule, counted_in, sheets, square_feet, word,
};
use crate::openings::suspects::{behind, cautions, is_facility, notice_from};
use crate::picture::{Picture, WallElevation};
use crate::sheet::{Assumed, Change, Limit, Sheet, Standing};

/// What else bears on a schedule.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Around {
    /// Year built.
    pub year: Option<u32>,
    /// Materials somebody named.
    pub materials: Vec<&'static str>,
    /// Dwelling units of the building.
    pub units: Option<u32>,
    /// One of several buildings on a site under one owner or operator.
    pub several: bool,
}

/// The sheet under one book.
///
/// # Errors
/// A book without one of the values.
pub fn under(schedule: &Schedule, around: &Around, book: &Book) -> Result<Sheet, TradeError> {
    let rule = LeadRule::read(book)?;
    let mut sheet = Sheet::new(Standing::Quantity, "", CAUTION);
    planes(schedule, &mut sheet);
    let bought = quantities(schedule, &mut sheet);
    let lead = lead(schedule, around.year, &rule, &mut sheet);
    let total = schedule.patch_area(|_| true);
    let (holes, planes) = (schedule.holes(), schedule.planes.len());
    let s = |n: usize| if n == 1 { "" } else { "s" };
    sheet.sentence = format!(
        "{} of patches for {holes} hole{} on {planes} plane{}, {bought}. {lead}",
        square_feet(total),
        s(holes),
        s(planes)
    );
    let (beside, tests) = notes(book, &rule)?;
    sheet.limits.extend(rule.limits.iter().cloned());
    sheet.limits.extend(tests);
    if around.year.is_none_or(|y| rule.names(y)) {
        sheet.notes.extend(beside);
    }
    old_materials(schedule, around, total, book, &mut sheet)?;
    changes(schedule, around.year, &rule, &mut sheet);
    let most = schedule.planes.iter().map(|p| p.holes.len()).max().unwrap_or_default();
    sheet.picture = schedule.planes.iter().find(|p| p.holes.len() == most).map(drawn);
    Ok(sheet)
}

fn planes(schedule: &Schedule, sheet: &mut Sheet) {
    for plane in &schedule.planes {
        for (n, (hole, patch)) in plane.holes.iter().zip(plane.patches()).enumerate() {
            let cut = hole.edges.rect();
            let (wide, high) = (patch.x1 - patch.x0, patch.y1 - patch.y0);
            sheet.line(
                format!("{}, hole {}, {}", plane.name(), n + 1, hole.trade),
                format!(
                    "from {} to {} and {} up: hole {} × {} ÷ 144 = {}; to framing {} to {}: patch {} × {} ÷ 144 = {}",
                    show_inches(cut.x0),
                    show_inches(cut.x1),
                    show_inches(cut.y0),
                    show_inches(cut.x1 - cut.x0),
                    show_inches(high),
                    square_feet(cut.area() / 144.0),
                    show_inches(patch.x0),
                    show_inches(patch.x1),
                    show_inches(wide),
                    show_inches(high),
                    square_feet(patch.area() / 144.0),
                ),
            );
        }
        for (members, around, area) in plane.merged() {
            if members.len() > 1 {
                let names: Vec<String> = members.iter().map(|i| format!("{}", i + 1)).collect();
                sheet.line(
                    format!("{}, one patch over holes {}", plane.name(), names.join(", ")),
                    format!(
                        "within {} to {} and {} to {} up: {}, overlaps once",
                        show_inches(around.x0),
                        show_inches(around.x1),
                        show_inches(around.y0),
                        show_inches(around.y1),
                        square_feet(area)
                    ),
                );
            }
        }
        let (sum, union) = (plane.patch_sum(), plane.patch_area());
        sheet.line(
            format!("{}, patches", plane.name()),
            format!(
                "{} one by one − {} of overlap = {}",
                square_feet(sum),
                square_feet(libm::fmax(sum - union, 0.0)),
                square_feet(union)
            ),
        );
        finishing(plane, sheet);
        if !plane.spacing_said {
            let item = format!("framing spacing, {}", plane.name());
            sheet.assumed.push(Assumed { item, value: show_inches(USUAL_SPACING) });
        }
    }
    if schedule.planes.iter().any(|p| p.holes.iter().any(|h| !h.edges.all_stated())) {
        let item = "tolerance of a hole's place and size, where none was given".into();
        sheet.assumed.push(Assumed { item, value: format!("± {}", show_inches(2.0 * UNSTATED_SIGMA)) });
    }
    sheet.limits.push(Limit::practice(
        "A patch reaches left and right to the centers of framing; its upper and lower edges get blocking",
        "whole bays",
    ));
    sheet.limits.push(Limit::practice(
        "Finishing is priced to the nearest corner or break, a texture over the full plane",
        "plane",
    ));
}

fn finishing(plane: &Plane, sheet: &mut Sheet) {
    let Some(finishing) = plane.finishing() else {
        sheet.note(format!(
            "{}: finishing cannot be said without the width and height of the plane.",
            plane.name()
        ));
        return;
    };
    let [width, height] = plane.size.unwrap_or_default();
    let whole = format!("{} × {} ÷ 144", show_inches(width), show_inches(height));
    let why = match (plane.texture, finishing.full) {
        (true, _) => format!("texture, full plane: {whole} = "),
        (false, true) => format!("corner to corner: {whole} = "),
        (false, false) => {
            let wide = finishing.area * 144.0 / height;
            format!(
                "to the nearest corner or break: {} × {} ÷ 144 = ",
                show_inches(wide),
                show_inches(height)
            )
        }
    };
    sheet.line(format!("{}, finishing", plane.name()), format!("{why}{}", square_feet(finishing.area)));
    match plane.corner_strips() {
        Some(feet) if feet > HAIR => {
            let text = format!("{} ft of corner or ceiling line taped anew", show_number(feet));
            sheet.line(format!("{}, corner strips", plane.name()), text);
        }
        _ => {}
    }
}

/// Areas by trade and in all, and sheets to buy; answers the sheets in words.
fn quantities(schedule: &Schedule, sheet: &mut Sheet) -> String {
    for share in schedule.shares() {
        sheet.line(
            format!("For {}", share.trade),
            format!(
                "holes: {}; {} of holes; {} of patches if they were the only ones",
                share.holes,
                square_feet(share.hole_area),
                square_feet(share.patch_area)
            ),
        );
    }
    let mut bought = Vec::new();
    for (what, area) in [
        ("wallboard", schedule.patch_area(|s| matches!(s, Surface::Wall | Surface::Ceiling))),
        ("floor sheathing", schedule.patch_area(|s| s == Surface::Floor)),
        ("outside sheathing", schedule.patch_area(|s| s == Surface::Outside)),
    ] {
        if area > 0.0 {
            let n = sheets(area);
            sheet.line(
                format!("Sheets of {what}, 4 × 8"),
                format!(
                    "{} × {} ÷ {SHEET_AREA}, rounded up = {n}",
                    square_feet(area),
                    show_number(1.0 + OFFCUT_ALLOWANCE)
                ),
            );
            let s = if n > 1.0 { "s" } else { "" };
            bought.push(format!("{n} sheet{s} of {what}, 4 × 8"));
        }
    }
    let share = format!("{} percent", show_number(OFFCUT_ALLOWANCE * 100.0));
    sheet.limits.push(Limit::practice("Added to the patch area for offcuts", share));
    bought.join(" and ")
}

/// Painted surface by room against the rule; answers the sentence, and sets standing, chance and σ.
fn lead(schedule: &Schedule, year: Option<u32>, rule: &LeadRule, sheet: &mut Sheet) -> String {
    let rooms = schedule.rooms();
    for room in &rooms {
        let mut text = format!(
            "patches over painted holes {} + components taken out {} + {} within {} days before = {}, at most {}; chance that it is more: {}",
            square_feet(room.painted),
            square_feet(room.removed),
            square_feet(room.earlier),
            rule.days,
            square_feet(room.total()),
            square_feet(room.most(rule)),
            in_100(room.chance_over(rule))
        );
        for reason in never_minor(room.window, room.demolition, schedule.prohibited) {
            text.push_str(&format!("; {reason}: no area is small enough"));
        }
        sheet.line(format!("Painted surface, {}", room.name), text);
    }
    let Some(year) = year else {
        sheet.standing = Standing::CannotSay;
        sheet.missing.push("year built".into());
        return "Without the year the house was built nothing can be said under the lead rule; until it is known, price \
                as if it applied."
            .into();
    };
    if !rule.names(year) {
        return format!("Built {year}: the lead rule names houses built before {}.", rule.before);
    }
    let chance = schedule.chance(rule);
    sheet.chance_beyond = Some(chance);
    sheet.standing = Standing::of_chance(chance);
    let reasons = |r: &Room| never_minor(r.window, r.demolition, schedule.prohibited);
    let governs = rooms.iter().max_by(|a, b| {
        let key = |r: &Room| (reasons(r).len().min(1), r.chance_over(rule), r.total() / r.most(rule));
        let ((a_why, a_chance, a_share), (b_why, b_chance, b_share)) = (key(a), key(b));
        a_why.cmp(&b_why).then(a_chance.total_cmp(&b_chance)).then(a_share.total_cmp(&b_share))
    });
    let Some(room) = governs else { return String::new() };
    sheet.sigma = Some(format!("{:.3} ft² of painted surface, {}", room.spread.sigma(), room.name));
    let area = format!(
        "In a house built {year}, painted surface disturbed, {}: {}, {} the table value of {}",
        room.name,
        square_feet(room.total()),
        word(room.chance_over(rule)),
        square_feet(room.most(rule))
    );
    match reasons(room).as_slice() {
        [] => format!("{area}; chance that the lead rule's work practices apply: {}.", in_100(chance)),
        why => format!(
            "{area}; {}, so no area is small enough and the lead rule's work practices apply.",
            why.join(", ")
        ),
    }
}

fn old_materials(
    schedule: &Schedule,
    around: &Around,
    total: f64,
    book: &Book,
    sheet: &mut Sheet,
) -> Result<(), TradeError> {
    let mut materials = around.materials.clone();
    for plane in &schedule.planes {
        materials.extend(behind(plane.place.surface));
    }
    let (says, limits) = cautions(book, around.year, &materials)?;
    sheet.notes.extend(says);
    sheet.limits.extend(limits);
    let (other, amount) = notice_from(book, "other_sqft")?;
    let (pipe, _) = notice_from(book, "pipe_linear_ft")?;
    let (off, _) = notice_from(book, "off_component_cuft")?;
    let units = around.units.unwrap_or(1);
    let (facility, limit) = is_facility(book, units, !around.several)?;
    if facility {
        sheet.note(format!(
            "The building counts as a facility: written notice and work rules from {pipe} ft of pipe, {other} ft² or \
             {off} ft³ of asbestos material on; the openings take {} of surface in all.",
            square_feet(total)
        ));
    } else {
        sheet.note(
            "A house of up to four units standing alone is no facility under the federal notice rule; states and \
             worker rules can be stricter.",
        );
    }
    if around.units.is_none() {
        sheet
            .assumed
            .push(Assumed { item: "dwelling units".into(), value: "1, standing alone unless said".into() });
    }
    sheet.limits.extend([amount, limit]);
    Ok(())
}

fn changes(schedule: &Schedule, year: Option<u32>, rule: &LeadRule, sheet: &mut Sheet) {
    let judged = year.is_some_and(|y| rule.names(y)) && sheet.standing != Standing::Within;
    let rooms = schedule.rooms();
    let by_area_only = !schedule.prohibited && !rooms.iter().any(|r| r.demolition || r.window);
    let moves = schedule.moves();
    if !moves.is_empty() {
        let most = show_inches(FARTHEST_MOVE);
        sheet.limits.push(Limit::practice("Farthest a hole is proposed to be moved along its plane", most));
    }
    for m in moves {
        let Some(plane) = schedule.planes.get(m.plane) else { continue };
        let way = if m.by < 0.0 { "left" } else { "right" };
        let text = format!(
            "{}, hole {}: {} further {way} spares a bay, {} of patch, if the trade can have it there.",
            plane.name(),
            m.hole + 1,
            show_inches(libm::fabs(m.by)),
            square_feet(m.saved)
        );
        let here = counted_in(plane);
        let left = |r: &Room| r.total() - if r.name == here { m.saved } else { 0.0 };
        let small = judged && by_area_only && rooms.iter().all(|r| left(r) <= r.most(rule) + HAIR);
        let enough = small && Standing::of_chance(m.then.chance(rule)) == Standing::Within;
        sheet.changes.push(Change { text, enough });
    }
    if judged {
        let text = "A certified person's test of the painted surfaces before work, priced on its own line.";
        sheet.changes.push(Change { text: text.into(), enough: false });
    }
}

fn drawn(plane: &Plane) -> Picture {
    let patches = apart(&plane.patches());
    let reach =
        |edge: fn(&crate::openings::rects::Rect) -> f64| patches.iter().map(edge).fold(0.0, libm::fmax);
    let [width, height] = plane.size.unwrap_or([reach(|r| r.x1), reach(|r| r.y1)]);
    let width = libm::fmax(width, reach(|r| r.x1));
    let hole = |(n, h): (usize, &crate::openings::hole::Hole)| {
        let r = h.edges.rect();
        (format!("{}", n + 1), h.trade.into(), [r.x0, r.y0, r.x1, r.y1])
    };
    Picture::Wall(WallElevation {
        name: plane.name(),
        width,
        height,
        framing: plane.grid.centers(0.0, width),
        holes: plane.holes.iter().enumerate().map(hole).collect(),
        patches: patches.iter().map(|r| [r.x0, r.y0, r.x1, r.y1]).collect(),
    })
}
