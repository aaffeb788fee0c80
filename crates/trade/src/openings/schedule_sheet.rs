//! The sheet of an opening schedule: planes, trades, sheets, rooms, cautions.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::cite::and;
use crate::error::TradeError;
use crate::given::choice;
use crate::given::show_inches;
use crate::number::{in_100, show_number};
use crate::openings::CAUTION;
use crate::openings::hole::{Surface, UNSTATED_SIGMA};
use crate::openings::lead::{LeadRule, never_minor, notes};
use crate::openings::plane::{Plane, USUAL_SPACING};
use crate::openings::rects::{HAIR, apart};
use crate::openings::schedule::{
    FARTHEST_MOVE, OFFCUT_ALLOWANCE, Room, SHEET_AREA, Schedule, counted_in, room_said, sheets, square_feet,
    word,
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
    sheet.sentence = say!(
        "trade-patches-sentence",
        total = square_feet(total),
        holes = holes,
        planes = planes,
        bought = bought,
        lead = lead
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
                say!("trade-hole-3", name = plane.name(), n = n + 1, trade = choice(hole.trade)),
                say!(
                    "trade-up-hole-144-framing",
                    x0 = show_inches(cut.x0),
                    x1 = show_inches(cut.x1),
                    y0 = show_inches(cut.y0),
                    x02 = show_inches(cut.x1 - cut.x0),
                    high = show_inches(high),
                    area = square_feet(cut.area() / 144.0),
                    x03 = show_inches(patch.x0),
                    x12 = show_inches(patch.x1),
                    wide = show_inches(wide),
                    area2 = square_feet(patch.area() / 144.0)
                ),
            );
        }
        for (members, around, area) in plane.merged() {
            if members.len() > 1 {
                let names: Vec<String> = members.iter().map(|i| format!("{}", i + 1)).collect();
                sheet.line(
                    say!("trade-one-patch-over-holes", name = plane.name(), names = names.join(", ")),
                    say!(
                        "trade-within-up-overlaps-once",
                        x0 = show_inches(around.x0),
                        x1 = show_inches(around.x1),
                        y0 = show_inches(around.y0),
                        y1 = show_inches(around.y1),
                        area = square_feet(area)
                    ),
                );
            }
        }
        let (sum, union) = (plane.patch_sum(), plane.patch_area());
        sheet.line(
            say!("trade-patches", name = plane.name()),
            say!(
                "trade-one-one-overlap",
                sum = square_feet(sum),
                union = square_feet(libm::fmax(sum - union, 0.0)),
                union2 = square_feet(union)
            ),
        );
        finishing(plane, sheet);
        if !plane.spacing_said {
            let item = say!("trade-framing-spacing-2", name = plane.name());
            sheet.assumed.push(Assumed::new(item, show_inches(USUAL_SPACING)));
        }
    }
    if schedule.planes.iter().any(|p| p.holes.iter().any(|h| !h.edges.all_stated())) {
        let item = say!("trade-tolerance-holes-place-size");
        sheet.assumed.push(Assumed::new(item, format!("± {}", show_inches(2.0 * UNSTATED_SIGMA))));
    }
    sheet.limits.push(Limit::practice(Phrase("trade-patch-reaches-left-right"), Phrase("trade-whole-bays")));
    sheet
        .limits
        .push(Limit::practice(Phrase("trade-finishing-priced-nearest-corner"), Phrase("trade-plane")));
}

fn finishing(plane: &Plane, sheet: &mut Sheet) {
    let Some(finishing) = plane.finishing() else {
        sheet.note(say!("trade-finishing-cannot-said-without", name = plane.name()));
        return;
    };
    let [width, height] = plane.size.unwrap_or_default();
    let whole = format!("{} × {} ÷ 144", show_inches(width), show_inches(height));
    let area = square_feet(finishing.area);
    let why = match (plane.texture, finishing.full) {
        (true, _) => say!("trade-texture-full-plane-2", whole = whole, area = area),
        (false, true) => say!("trade-corner-corner-2", whole = whole, area = area),
        (false, false) => {
            let wide = finishing.area * 144.0 / height;
            say!(
                "trade-nearest-corner-break-144-2",
                wide = show_inches(wide),
                height = show_inches(height),
                area = area
            )
        }
    };
    sheet.line(say!("trade-finishing", name = plane.name()), why);
    match plane.corner_strips() {
        Some(feet) if feet > HAIR => {
            let text = say!("trade-ft-corner-ceiling-line", x = show_number(feet));
            sheet.line(say!("trade-corner-strips", name = plane.name()), text);
        }
        _ => {}
    }
}

/// Areas by trade and in all, and sheets to buy; answers the sheets in words.
fn quantities(schedule: &Schedule, sheet: &mut Sheet) -> Said {
    for share in schedule.shares() {
        sheet.line(
            say!("trade-for", trade = choice(share.trade)),
            say!(
                "trade-holes-holes-patches-if",
                holes = share.holes,
                holearea = square_feet(share.hole_area),
                patcharea = square_feet(share.patch_area)
            ),
        );
    }
    let mut bought = Vec::new();
    for (what, area) in [
        (Phrase("trade-wallboard"), schedule.patch_area(|s| matches!(s, Surface::Wall | Surface::Ceiling))),
        (Phrase("trade-floor-sheathing"), schedule.patch_area(|s| s == Surface::Floor)),
        (Phrase("trade-outside-sheathing"), schedule.patch_area(|s| s == Surface::Outside)),
    ] {
        if area > 0.0 {
            let n = sheets(area);
            sheet.line(
                say!("trade-sheets-4-8", what = what),
                say!(
                    "trade-rounded-up",
                    area = square_feet(area),
                    offcutallowance = show_number(1.0 + OFFCUT_ALLOWANCE),
                    sheetarea = SHEET_AREA,
                    n = n
                ),
            );
            bought.push(say!("trade-n-sheets-of", n = n, what = what));
        }
    }
    let share = say!("trade-percent", offcutallowance = show_number(OFFCUT_ALLOWANCE * 100.0));
    sheet.limits.push(Limit::practice(Phrase("trade-added-patch-area-offcuts"), share));
    and(bought)
}

/// Painted surface by room against the rule; answers the sentence, and sets standing, chance and σ.
fn lead(schedule: &Schedule, year: Option<u32>, rule: &LeadRule, sheet: &mut Sheet) -> Said {
    let rooms = schedule.rooms();
    for room in &rooms {
        let mut text = say!(
            "trade-patches-over-painted-holes",
            painted = square_feet(room.painted),
            removed = square_feet(room.removed),
            earlier = square_feet(room.earlier),
            days = rule.days,
            total = square_feet(room.total()),
            rule = square_feet(room.most(rule)),
            rule2 = in_100(room.chance_over(rule))
        );
        for reason in never_minor(room.window, room.demolition, schedule.prohibited) {
            text = say!("trade-no-area-small-enough-2", text = text, reason = reason);
        }
        sheet.line(say!("trade-painted-surface-4", name = room_said(&room.name)), text);
    }
    let Some(year) = year else {
        sheet.standing = Standing::CannotSay;
        sheet.missing.push(say!("trade-year-built"));
        return Phrase("trade-without-year-house-was-built").into();
    };
    if !rule.names(year) {
        return say!(
            "trade-built-lead-rule-names",
            year = format!("{year}"),
            before = format!("{}", rule.before)
        );
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
    let Some(room) = governs else { return Said::nothing() };
    sheet.sigma = Some(say!(
        "trade-ft-painted-surface",
        sigma = format!("{:.3}", room.spread.sigma()),
        name = room_said(&room.name)
    ));
    let area = say!(
        "trade-house-built-painted-surface",
        year = format!("{year}"),
        name = room_said(&room.name),
        total = square_feet(room.total()),
        rule = word(room.chance_over(rule)),
        rule2 = square_feet(room.most(rule))
    );
    match reasons(room).as_slice() {
        [] => say!("trade-chance-lead-rules-work", area = area, chance = in_100(chance)),
        why => say!("trade-no-area-small-enough", area = area, why = why.to_vec()),
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
        sheet.note(say!(
            "trade-building-counts-facility-written",
            pipe = pipe,
            other = other,
            off = off,
            total = square_feet(total)
        ));
    } else {
        sheet.note(Phrase("trade-house-up-four-units"));
    }
    if around.units.is_none() {
        sheet.assumed.push(Assumed::new(say!("trade-dwelling-units"), say!("trade-1-standing-alone-unless")));
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
        sheet.limits.push(Limit::practice(Phrase("trade-farthest-hole-proposed-moved"), most));
    }
    for m in moves {
        let Some(plane) = schedule.planes.get(m.plane) else { continue };
        let way = if m.by < 0.0 { Phrase("trade-left-3") } else { Phrase("trade-right") };
        let text = say!(
            "trade-hole-further-spares-bay",
            name = plane.name(),
            hole = m.hole + 1,
            by = show_inches(libm::fabs(m.by)),
            way = way,
            saved = square_feet(m.saved)
        );
        let here = counted_in(plane);
        let left = |r: &Room| r.total() - if r.name == here { m.saved } else { 0.0 };
        let small = judged && by_area_only && rooms.iter().all(|r| left(r) <= r.most(rule) + HAIR);
        let enough = small && Standing::of_chance(m.then.chance(rule)) == Standing::Within;
        sheet.changes.push(Change::new(text, enough));
    }
    if judged {
        let text = Phrase("trade-certified-persons-test-painted");
        sheet.changes.push(Change::new(text, false));
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
        (format!("{}", n + 1).into(), choice(h.trade), [r.x0, r.y0, r.x1, r.y1])
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
