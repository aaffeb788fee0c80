//! What a recessed light is held against, one requirement after another.

use alloc::{format, string::String, vec, vec::Vec};

use super::ceiling_light::{Insulation, LightPlan};
use super::clearance::{CLIP, Distances, room_beside_joist};
use crate::framing::{HAIR, inch, num};
use crate::sheet::{Assumed, Change, Limit, Sheet};
use crate::tolerance::{Budget, Reading};

/// Taken where nobody said, inches: common practice, no source.
const CANLESS_BODY: f64 = 0.5;
/// The deep end of housings that need 5 to 7 in: common practice, no source.
const HOUSING_BODY: f64 = 7.0;
const BOARD: f64 = 0.5;
const SPACING: f64 = 16.0;
/// The larger of the 2 to 4 in a driver box is said to need: common practice, no source.
const BOX_ROOM: f64 = 4.0;

/// σ where nobody stated a tolerance, inches: common practice, no source.
const JOIST_SIGMA: f64 = 0.25; // a joist found by knocking or magnet through the board
const SPACING_SIGMA: f64 = 0.25;
const CUT_OUT_SIGMA: f64 = 1.0 / 32.0;
const BODY_SIGMA: f64 = 1.0 / 32.0;
const BOARD_SIGMA: f64 = 1.0 / 64.0;
const BAY_SIGMA: f64 = 1.0 / 16.0;
const GAP_SIGMA: f64 = 0.25;

/// Name of the check on the joist.
pub(super) const PLACE: &str = "room beside the joist";

/// How one requirement stands.
pub(super) struct Check {
    /// What it is, as it ends "beyond the …".
    pub(super) what: &'static str,
    /// Its numbers.
    pub(super) why: String,
    pub(super) chance: f64,
    pub(super) sigma: f64,
    pub(super) changes: Vec<Change>,
}

/// What was given or taken, inches.
pub(super) struct Taken {
    pub(super) spacing: f64,
    thickness: f64,
    clip: f64,
    body: f64,
    board: f64,
    box_room: f64,
    ic: bool,
}

impl Taken {
    /// Takes the usual value for whatever nobody said, and says so.
    pub(super) fn of(plan: &LightPlan, thickness: f64, sheet: &mut Sheet) -> Self {
        let mut or = |reading: Option<Reading>, usual: f64, item: &str| {
            reading.map_or_else(
                || {
                    sheet.assumed.push(Assumed { item: item.into(), value: inch(usual) });
                    usual
                },
                |r| r.inches(),
            )
        };
        Self {
            spacing: or(plan.spacing, SPACING, "spacing"),
            clip: or(plan.clip, CLIP, "room for the clips"),
            body: or(plan.body, if plan.housing { HOUSING_BODY } else { CANLESS_BODY }, "depth of the light"),
            board: or(plan.board, BOARD, "ceiling board"),
            box_room: if plan.housing { 0.0 } else { or(plan.box_room, BOX_ROOM, "room for the driver box") },
            thickness,
            ic: plan.type_ic.unwrap_or(false),
        }
    }
}

/// The spreads taken where nobody stated one.
pub(super) fn spreads() -> Limit {
    let value = format!(
        "joist {}, spacing {}, cut-out {}, body {}, board {}, bay {}, insulation {}",
        num(JOIST_SIGMA),
        num(SPACING_SIGMA),
        num(CUT_OUT_SIGMA),
        num(BODY_SIGMA),
        num(BOARD_SIGMA),
        num(BAY_SIGMA),
        num(GAP_SIGMA)
    );
    Limit::practice("One standard deviation, in inches, where none was stated", value)
}

fn sigma(reading: Option<Reading>, unstated: f64) -> f64 {
    reading.map_or(unstated, |r| r.sigma(unstated))
}

fn change(text: impl Into<String>, enough: bool) -> Change {
    Change { text: text.into(), enough }
}

/// The cut-out between its joists, or under one where the light is flat enough.
pub(super) fn place(
    sheet: &mut Sheet,
    plan: &LightPlan,
    taken: &Taken,
    distances: &Distances,
) -> Option<Check> {
    let Some(offset) = plan.offset else {
        sheet.missing.push("distance from the light to the nearer joist".into());
        return None;
    };
    let (at, cut_out) = (offset.inches(), plan.cut_out.inches());
    // A light that is not Type IC keeps off the wood as well, so the larger of the two is needed.
    let beside = if taken.ic { taken.clip } else { libm::fmax(taken.clip, distances.combustible) };
    let near = room_beside_joist(at, taken.thickness, cut_out, beside);
    let far = room_beside_joist(taken.spacing - at, taken.thickness, cut_out, beside);
    let half = num(taken.thickness / 2.0);
    let sum = |from: f64, room: f64| {
        let (from, cut_out) = (num(from), num(cut_out));
        format!("{from} − {half} − {cut_out} ÷ 2 − {} = {}", num(beside), inch(room))
    };
    sheet.line("Room beside the nearer joist", sum(at, near));
    sheet.line("Room beside the next joist", sum(taken.spacing - at, far));
    let joist = sigma(plan.offset, JOIST_SIGMA);
    let hole = plan.cut_out.sigma(CUT_OUT_SIGMA);
    let near_spread = Budget::new().with("joist", 1.0, joist).with("cut-out", -0.5, hole);
    let far_spread = Budget::new()
        .with("joist", -1.0, joist)
        .with("spacing", 1.0, sigma(plan.spacing, SPACING_SIGMA))
        .with("cut-out", -0.5, hole);
    // Too near the one joist and too near the other cannot both be true unless the bay is narrower than the hole.
    let overlap = near_spread.chance_under(near, -HAIR) + far_spread.chance_under(far, -HAIR);
    let overlap = libm::fmin(overlap, 1.0);
    let flat = Budget::new().with("body", 1.0, sigma(plan.body, BODY_SIGMA)).with(
        "board",
        -1.0,
        sigma(plan.board, BOARD_SIGMA),
    );
    let too_deep = flat.chance_over(taken.body, taken.board + HAIR);
    let may_lie_under = !plan.housing && taken.ic;
    let chance = match plan.clips_under_joist {
        Some(true) if may_lie_under => overlap * too_deep,
        None if may_lie_under && overlap > 0.05 && too_deep <= 0.95 => {
            sheet.missing.push("whether the clips hold under a joist".into());
            return None;
        }
        _ => overlap,
    };
    if may_lie_under && overlap > 0.05 {
        let word = if taken.body <= taken.board + HAIR { "no deeper than" } else { "deeper than" };
        let (body, board) = (inch(taken.body), inch(taken.board));
        sheet.line("Under a joist", format!("body {body}, {word} the board {board}"));
    }
    let room = libm::fmin(near, far);
    let mut changes = Vec::new();
    let bay = taken.spacing - taken.thickness;
    let needs = cut_out + 2.0 * beside;
    if room < 0.0 {
        let enough = needs <= bay + HAIR;
        let text = if enough {
            format!("Move it {} away from the joist.", inch(-room))
        } else {
            format!("Move it: it needs {} and the bay is {} wide.", inch(needs), inch(bay))
        };
        changes.push(change(text, enough));
        let smaller = cut_out + 2.0 * room;
        if smaller > 1.0 {
            changes.push(change(format!("A cut-out of no more than {}.", inch(smaller)), true));
        }
    } else {
        let clear = 2.0 * libm::fmax(near_spread.sigma(), far_spread.sigma());
        if room < clear {
            let text = format!("Move it {} further from the joist: two σ off it.", inch(clear - room));
            changes.push(change(text, needs + 2.0 * clear <= bay + HAIR));
        }
        changes.push(change("Find the joist more closely: drill a small hole or use a scope.", false));
    }
    if may_lie_under && taken.body > taken.board {
        changes.push(change(
            format!("A flat light no deeper than {}, whose clips hold under a joist.", inch(taken.board)),
            true,
        ));
    }
    let sigma = if near <= far { near_spread.sigma() } else { far_spread.sigma() };
    Some(Check { what: PLACE, why: format!("{} left", inch(room)), chance, sigma, changes })
}

/// The body in the height of the bay.
pub(super) fn depth(
    sheet: &mut Sheet,
    plan: &LightPlan,
    taken: &Taken,
    distances: &Distances,
) -> Option<Check> {
    let over = if taken.ic { 0.0 } else { distances.combustible };
    let in_bay = libm::fmax(taken.body - taken.board, 0.0);
    if !plan.housing && in_bay <= 0.0 && plan.bay.is_none() {
        return None; // a disc within the board needs no height of its own
    }
    let need = in_bay + over;
    let Some(bay) = plan.bay else {
        sheet.missing.push("joist, or the height of the bay".into());
        return None;
    };
    let left = bay.inches() - need;
    sheet.line(
        "Height left in the bay",
        format!(
            "{} − ({} − {}) − {} = {}",
            num(bay.inches()),
            num(taken.body),
            num(libm::fmin(taken.board, taken.body)),
            num(over),
            inch(left)
        ),
    );
    let spread = Budget::new()
        .with("bay", 1.0, bay.sigma(BAY_SIGMA))
        .with("body", -1.0, sigma(plan.body, BODY_SIGMA))
        .with("board", 1.0, sigma(plan.board, BOARD_SIGMA));
    let mut changes = Vec::new();
    if plan.housing {
        let flat = format!("A canless light: its body of about {} lies in the board.", inch(CANLESS_BODY));
        changes.push(change(flat, CANLESS_BODY <= taken.board + HAIR));
        let shallow = bay.inches() - over + taken.board;
        changes.push(change(
            format!("A housing no deeper than {}.", inch(libm::fmax(shallow, 0.0))),
            shallow > 0.0,
        ));
    }
    Some(Check {
        what: "height of the bay",
        why: format!("{} left over", inch(left)),
        chance: spread.chance_under(left, -HAIR),
        sigma: spread.sigma(),
        changes,
    })
}

/// The driver box of a canless light: through the hole and into a clear bay.
pub(super) fn driver_box(sheet: &mut Sheet, plan: &LightPlan, taken: &Taken) -> Option<Check> {
    if plan.housing {
        return None;
    }
    let bay = taken.spacing - taken.thickness;
    let room = plan.beside.map_or(bay, |b| b.inches());
    // Under a joist only what lies beside it is open.
    let opening = plan.offset.map_or(f64::INFINITY, |offset| {
        offset.inches() - taken.thickness / 2.0 + plan.cut_out.inches() / 2.0
    });
    if opening < libm::fmin(taken.box_room, plan.cut_out.inches()) {
        sheet.note(format!(
            "Its box goes up through the {} left open beside the joist: the maker's sheet says whether it passes.",
            inch(libm::fmax(opening, 0.0))
        ));
    }
    if plan.beside.is_none() {
        let value = format!("{}: a bay with nothing in it", inch(bay));
        sheet.assumed.push(Assumed { item: "clear room beside the cut-out".into(), value });
    }
    sheet.line("Room for the driver box", format!("{} against {}", inch(room), inch(taken.box_room)));
    sheet.limits.push(Limit::practice(
        "Clear bay a driver box needs beside the light; the maker's sheet says",
        "2 to 4 in",
    ));
    let measured = plan.beside.or(plan.spacing);
    let spread = Budget::new().with("room beside", 1.0, sigma(measured, SPACING_SIGMA));
    Some(Check {
        what: "room for the driver box",
        why: format!("{} of {}", inch(room), inch(taken.box_room)),
        chance: spread.chance_under(room, taken.box_room - HAIR),
        sigma: spread.sigma(),
        changes: vec![
            change("Move it to where the bay beside it has nothing in it.", bay >= taken.box_room - HAIR),
            change(format!("A light whose box needs no more than {}.", inch(libm::fmax(room, 0.0))), true),
        ],
    })
}

/// Insulation about a light that is not Type IC.
pub(super) fn insulation(sheet: &mut Sheet, plan: &LightPlan, distances: &Distances) -> Option<Check> {
    if plan.type_ic == Some(true) {
        return None;
    }
    let changes = vec![
        change("A light marked Type IC.", true),
        change(format!("Keep insulation {} away, and none above.", inch(distances.insulation)), true),
    ];
    let check = |why: String, chance: f64, sigma: f64| {
        Some(Check { what: "distance from insulation", why, chance, sigma, changes })
    };
    match plan.insulation {
        Some(Insulation::None) => None,
        Some(Insulation::Above) => check("it lies above a light that is not Type IC".into(), 1.0, 0.0),
        Some(Insulation::Beside(Some(gap))) => {
            let spread = Budget::new().with("insulation", 1.0, gap.sigma(GAP_SIGMA));
            let least = distances.insulation;
            sheet.line("Insulation", format!("{} against at least {}", inch(gap.inches()), inch(least)));
            let why = format!("{} of {}", inch(gap.inches()), inch(least));
            check(why, spread.chance_under(gap.inches(), least - HAIR), spread.sigma())
        }
        Some(Insulation::Beside(None)) => {
            sheet.missing.push("how far the insulation is kept away".into());
            None
        }
        None => {
            sheet.missing.push("whether there is insulation, or whether the light is Type IC".into());
            None
        }
    }
}
