//! What a recessed light is held against, one requirement after another.

use alloc::{format, vec, vec::Vec};

use survey::{Phrase, Said, say};

use super::ceiling_light::{Insulation, LightPlan};
use super::clearance::{CLIP, Distances, room_beside_joist};
use crate::cite::equals;
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
pub(super) const PLACE: Phrase = Phrase("trade-room-beside-joist-2");

/// How one requirement stands.
pub(super) struct Check {
    /// What it is, as it ends "beyond the …".
    pub(super) what: Phrase,
    /// Its numbers.
    pub(super) why: Said,
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
        let mut or = |reading: Option<Reading>, usual: f64, item: Phrase| {
            reading.map_or_else(
                || {
                    sheet.assumed.push(Assumed::new(item, inch(usual)));
                    usual
                },
                |r| r.inches(),
            )
        };
        Self {
            spacing: or(plan.spacing, SPACING, Phrase("trade-spacing")),
            clip: or(plan.clip, CLIP, Phrase("trade-room-clips")),
            body: or(
                plan.body,
                if plan.housing { HOUSING_BODY } else { CANLESS_BODY },
                Phrase("trade-depth-light"),
            ),
            board: or(plan.board, BOARD, Phrase("trade-ceiling-board")),
            box_room: if plan.housing {
                0.0
            } else {
                or(plan.box_room, BOX_ROOM, Phrase("trade-room-driver-box"))
            },
            thickness,
            ic: plan.type_ic.unwrap_or(false),
        }
    }
}

/// The spreads taken where nobody stated one.
pub(super) fn spreads() -> Limit {
    let value = say!(
        "trade-joist-spacing-cut-out",
        joistsigma = num(JOIST_SIGMA),
        spacingsigma = num(SPACING_SIGMA),
        cutoutsigma = num(CUT_OUT_SIGMA),
        bodysigma = num(BODY_SIGMA),
        boardsigma = num(BOARD_SIGMA),
        baysigma = num(BAY_SIGMA),
        gapsigma = num(GAP_SIGMA)
    );
    Limit::practice(Phrase("trade-one-standard-deviation-inches"), value)
}

fn sigma(reading: Option<Reading>, unstated: f64) -> f64 {
    reading.map_or(unstated, |r| r.sigma(unstated))
}

fn change(text: impl Into<Said>, enough: bool) -> Change {
    Change::new(text, enough)
}

/// The cut-out between its joists, or under one where the light is flat enough.
pub(super) fn place(
    sheet: &mut Sheet,
    plan: &LightPlan,
    taken: &Taken,
    distances: &Distances,
) -> Option<Check> {
    let Some(offset) = plan.offset else {
        sheet.missing.push(say!("trade-distance-light-nearer-joist"));
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
        equals(format!("{from} − {half} − {cut_out} ÷ 2 − {}", num(beside)), inch(room))
    };
    sheet.line(Phrase("trade-room-beside-nearer-joist"), sum(at, near));
    sheet.line(Phrase("trade-room-beside-next-joist"), sum(taken.spacing - at, far));
    let joist = sigma(plan.offset, JOIST_SIGMA);
    let hole = plan.cut_out.sigma(CUT_OUT_SIGMA);
    let near_spread =
        Budget::new().with(Phrase("trade-joist-2"), 1.0, joist).with(Phrase("trade-cut-out"), -0.5, hole);
    let far_spread = Budget::new()
        .with(Phrase("trade-joist-2"), -1.0, joist)
        .with(Phrase("trade-spacing"), 1.0, sigma(plan.spacing, SPACING_SIGMA))
        .with(Phrase("trade-cut-out"), -0.5, hole);
    // Too near the one joist and too near the other cannot both be true unless the bay is narrower than the hole.
    let overlap = near_spread.chance_under(near, -HAIR) + far_spread.chance_under(far, -HAIR);
    let overlap = libm::fmin(overlap, 1.0);
    let flat = Budget::new().with(Phrase("trade-body"), 1.0, sigma(plan.body, BODY_SIGMA)).with(
        Phrase("trade-board"),
        -1.0,
        sigma(plan.board, BOARD_SIGMA),
    );
    let too_deep = flat.chance_over(taken.body, taken.board + HAIR);
    let may_lie_under = !plan.housing && taken.ic;
    let chance = match plan.clips_under_joist {
        Some(true) if may_lie_under => overlap * too_deep,
        None if may_lie_under && overlap > 0.05 && too_deep <= 0.95 => {
            sheet.missing.push(say!("trade-whether-clips-hold-under"));
            return None;
        }
        _ => overlap,
    };
    if may_lie_under && overlap > 0.05 {
        let word = if taken.body <= taken.board + HAIR {
            Phrase("trade-no-deeper-than")
        } else {
            Phrase("trade-deeper-than")
        };
        let (body, board) = (inch(taken.body), inch(taken.board));
        sheet.line(
            Phrase("trade-under-joist"),
            say!("trade-body-board", body = body, word = word, board = board),
        );
    }
    let room = libm::fmin(near, far);
    let mut changes = Vec::new();
    let bay = taken.spacing - taken.thickness;
    let needs = cut_out + 2.0 * beside;
    if room < 0.0 {
        let enough = needs <= bay + HAIR;
        let text = if enough {
            say!("trade-move-away-joist", room = inch(-room))
        } else {
            say!("trade-move-needs-bay-wide", needs = inch(needs), bay = inch(bay))
        };
        changes.push(change(text, enough));
        let smaller = cut_out + 2.0 * room;
        if smaller > 1.0 {
            changes.push(change(say!("trade-cut-out-no-more", smaller = inch(smaller)), true));
        }
    } else {
        let clear = 2.0 * libm::fmax(near_spread.sigma(), far_spread.sigma());
        if room < clear {
            let text = say!("trade-move-further-joist-two", room = inch(clear - room));
            changes.push(change(text, needs + 2.0 * clear <= bay + HAIR));
        }
        changes.push(change(Phrase("trade-find-joist-more-closely"), false));
    }
    if may_lie_under && taken.body > taken.board {
        changes.push(change(say!("trade-flat-light-no-deeper", board = inch(taken.board)), true));
    }
    let sigma = if near <= far { near_spread.sigma() } else { far_spread.sigma() };
    Some(Check { what: PLACE, why: say!("trade-left-2", room = inch(room)), chance, sigma, changes })
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
        sheet.missing.push(say!("trade-joist-height-bay"));
        return None;
    };
    let left = bay.inches() - need;
    sheet.line(
        Phrase("trade-height-left-bay"),
        equals(
            format!(
                "{} − ({} − {}) − {}",
                num(bay.inches()),
                num(taken.body),
                num(libm::fmin(taken.board, taken.body)),
                num(over)
            ),
            inch(left),
        ),
    );
    let spread = Budget::new()
        .with(Phrase("trade-bay-2"), 1.0, bay.sigma(BAY_SIGMA))
        .with(Phrase("trade-body"), -1.0, sigma(plan.body, BODY_SIGMA))
        .with(Phrase("trade-board"), 1.0, sigma(plan.board, BOARD_SIGMA));
    let mut changes = Vec::new();
    if plan.housing {
        let flat = say!("trade-canless-light-body-about", canlessbody = inch(CANLESS_BODY));
        changes.push(change(flat, CANLESS_BODY <= taken.board + HAIR));
        let shallow = bay.inches() - over + taken.board;
        changes.push(change(
            say!("trade-housing-no-deeper-than", shallow = inch(libm::fmax(shallow, 0.0))),
            shallow > 0.0,
        ));
    }
    Some(Check {
        what: Phrase("trade-height-bay"),
        why: say!("trade-left-over", left = inch(left)),
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
        sheet.note(say!("trade-box-goes-up-through", opening = inch(libm::fmax(opening, 0.0))));
    }
    if plan.beside.is_none() {
        let value = say!("trade-bay-nothing", bay = inch(bay));
        sheet.assumed.push(Assumed::new(say!("trade-clear-room-beside-cut"), value));
    }
    sheet.line(
        Phrase("trade-room-driver-box-2"),
        say!("trade-against", room = inch(room), boxroom = inch(taken.box_room)),
    );
    sheet
        .limits
        .push(Limit::practice(Phrase("trade-clear-bay-driver-box"), Phrase("trade-two-to-four-inches")));
    let measured = plan.beside.or(plan.spacing);
    let spread = Budget::new().with(Phrase("trade-room-beside"), 1.0, sigma(measured, SPACING_SIGMA));
    Some(Check {
        what: Phrase("trade-room-driver-box"),
        why: say!("trade-of", gap = inch(room), least = inch(taken.box_room)),
        chance: spread.chance_under(room, taken.box_room - HAIR),
        sigma: spread.sigma(),
        changes: vec![
            change(Phrase("trade-move-where-bay-beside"), bay >= taken.box_room - HAIR),
            change(say!("trade-light-whose-box-needs", room = inch(libm::fmax(room, 0.0))), true),
        ],
    })
}

/// Insulation about a light that is not Type IC.
pub(super) fn insulation(sheet: &mut Sheet, plan: &LightPlan, distances: &Distances) -> Option<Check> {
    if plan.type_ic == Some(true) {
        return None;
    }
    let changes = vec![
        change(Phrase("trade-light-marked-type-ic"), true),
        change(say!("trade-keep-insulation-away-none", insulation = inch(distances.insulation)), true),
    ];
    let check = |why: Said, chance: f64, sigma: f64| {
        Some(Check { what: Phrase("trade-distance-insulation"), why, chance, sigma, changes })
    };
    match plan.insulation {
        Some(Insulation::None) => None,
        Some(Insulation::Above) => check(say!("trade-lies-above-light-not"), 1.0, 0.0),
        Some(Insulation::Beside(Some(gap))) => {
            let spread =
                Budget::new().with(Phrase("trade-distance-to-insulation"), 1.0, gap.sigma(GAP_SIGMA));
            let least = distances.insulation;
            sheet.line(
                Phrase("trade-insulation-line"),
                say!("trade-against-least-2", gap = inch(gap.inches()), least = inch(least)),
            );
            let why = say!("trade-of", gap = inch(gap.inches()), least = inch(least));
            check(why, spread.chance_under(gap.inches(), least - HAIR), spread.sigma())
        }
        Some(Insulation::Beside(None)) => {
            sheet.missing.push(say!("trade-how-far-insulation-kept"));
            None
        }
        None => {
            sheet.missing.push(say!("trade-whether-there-insulation-whether"));
            None
        }
    }
}
