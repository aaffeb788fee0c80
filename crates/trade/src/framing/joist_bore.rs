//! A hole through a joist: a third of the depth, two inches at top and bottom, and for a drain the fall from joist
//! to joist.

use alloc::format;

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::chance::{Normal, chance_larger};
use super::hole::{CENTER_SIGMA, Place};
use super::joist::{Rules, rules};
use super::joist_hole::JoistPlan;
use super::lumber::thickness;
use super::nail_plate::distances;
use super::{CAUTION, HAIR, inch, num, spreads};
use crate::cite::equals;
use crate::error::TradeError;
use crate::number::in_100;
use crate::picture::{BoreSection, Picture};
use crate::sheet::{Assumed, Change, Sheet, Standing};
use crate::tolerance::Budget;

/// Joist spacing taken where nobody said, inches: common practice, no source.
const SPACING: f64 = 16.0;

/// Largest hole by share, and by the wood kept over the highest hole and under the lowest one.
fn largest(rules: &Rules, depth: f64, highest: f64, fall: f64) -> (f64, f64) {
    let kept = libm::fmin(highest - fall, depth - highest) - rules.edge;
    (depth / rules.hole, 2.0 * kept)
}

/// Middle of the highest hole above the bottom: a falling line is centered as a whole.
fn highest(place: Place, depth: f64, fall: f64) -> f64 {
    match place {
        Place::Middle => depth / 2.0 + fall / 2.0,
        Place::FromEdge(_) => place.center(depth),
    }
}

fn spacing(plan: &JoistPlan) -> f64 {
    plan.spacing.map_or(SPACING, |s| s.inches())
}

/// Fall of the holes from the first joist to the last, inches.
fn fall(plan: &JoistPlan) -> f64 {
    let slope = plan.slope.map_or(0.0, |s| s.get());
    f64::from(plan.crossed.saturating_sub(1)) * spacing(plan) * slope / 12.0
}

/// The sheet for a hole.
pub(super) fn judge(plan: &JoistPlan, book: &Book) -> Result<Sheet, TradeError> {
    let rules = rules(book)?;
    let (depth, hole, fall) = (plan.member.depth, plan.hole.diameter(), fall(plan));
    let highest_now = highest(plan.place, depth, fall);
    let (by_share, by_edges) = largest(&rules, depth, highest_now, fall);
    let most = libm::fmin(by_share, by_edges);
    let size = chance_larger(
        Normal { mean: hole, sigma: plan.hole.sigma() },
        Normal { mean: depth, sigma: plan.member.sigma },
        plan.place.sigma(),
        |depth, shift| {
            let (share, edges) = largest(&rules, depth, highest(plan.place, depth, fall) + shift, fall);
            libm::fmin(share, edges) + HAIR
        },
    );
    let near_other = plan.other.map_or(0.0, |other| {
        let spread = Budget::new().with(Phrase("trade-distance-other-hole"), 1.0, other.sigma(CENTER_SIGMA));
        spread.chance_under(other.inches(), rules.edge - HAIR)
    });
    let chance = 1.0 - (1.0 - size) * (1.0 - near_other); // two readings, each with its own error
    let standing = Standing::of_chance(chance);
    let mut sheet =
        Sheet::new(standing, sentence(plan, standing, chance, by_share, by_edges, near_other), CAUTION);
    sheet.chance_beyond = Some(chance);
    let (share, place) = if by_share <= by_edges { (1.0 / rules.hole, 0.0) } else { (0.0, 2.0) };
    let spread = plan.hole.budget.clone().with(Phrase("trade-lumber"), -share, plan.member.sigma);
    sheet.sigma = Some(say!(
        "trade-in",
        sigma = format!("{:.3}", spread.with(Phrase("trade-place-hole"), place, plan.place.sigma()).sigma())
    ));
    sums(&mut sheet, plan, &rules, fall);
    sheet.limits.extend(rules.limits.iter().take(2).cloned());
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    let plates = distances(book)?;
    sheet.limits.push(spreads());
    if plan.slope.is_some() && plan.spacing.is_none() && plan.crossed > 1 {
        let value = say!("trade-center-center", spacing = inch(SPACING));
        sheet.assumed.push(Assumed::new(Phrase("trade-spacing"), value));
    }
    if plan.other.is_none() {
        sheet.note(say!("trade-another-hole-notch-least", edge = inch(rules.edge)));
    }
    if rules.edge >= plates.piping {
        let kept = inch(rules.edge);
        sheet.note(say!("trade-hole-keeps-wood-top", kept = kept));
    }
    if standing != Standing::Within {
        changes(&mut sheet, plan, &rules, most, fall);
    }
    sheet.picture = Some(Picture::Bore(BoreSection {
        member: say!("trade-joist", name = &plan.member.name),
        depth,
        thickness: plan.thickness.map_or(thickness(book)?.0, |t| t.inches()),
        hole,
        center: highest_now,
        largest: libm::fmax(most, 0.0),
        edge_kept: rules.edge,
        plate_edge: plates.piping,
    }));
    Ok(sheet)
}

fn sentence(
    plan: &JoistPlan,
    standing: Standing,
    chance: f64,
    by_share: f64,
    by_edges: f64,
    near_other: f64,
) -> Said {
    let held = if near_other > 0.95 {
        say!("trade-value-wood-kept-next")
    } else if by_edges < by_share {
        say!("trade-leave-table-value-wood-top", byedges = inch(libm::fmax(by_edges, 0.0)))
    } else {
        say!("trade-table-value-2", byshare = inch(by_share))
    };
    say!(
        "trade-hole-solid-joist-chance",
        diameter = inch(plan.hole.diameter()),
        name = &plan.pipe.name,
        word = standing.lies(),
        held = held,
        name2 = &plan.member.name,
        chance = in_100(chance)
    )
}

fn sums(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules, fall: f64) {
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let highest = highest(plan.place, depth, fall);
    let (by_share, by_edges) = largest(rules, depth, highest, fall);
    let (pipe, clearance) = (num(plan.hole.pipe), num(plan.hole.clearance));
    sheet.line(Phrase("trade-hole"), equals(format!("{pipe} + {clearance}"), inch(hole)));
    sheet.line(
        Phrase("trade-largest-share"),
        equals(format!("{} ÷ {}", num(depth), num(rules.hole)), inch(by_share)),
    );
    if fall > 0.0 {
        let slope = plan.slope.map_or(0.0, |s| s.get());
        sheet.line(
            Phrase("trade-fall-over-joists"),
            equals(
                format!("{} × {} × {} ÷ 12", plan.crossed.saturating_sub(1), num(spacing(plan)), num(slope)),
                inch(fall),
            ),
        );
    }
    let near = libm::fmin(highest - fall, depth - highest);
    sheet.line(
        Phrase("trade-largest-edges"),
        equals(format!("2 × ({} − {})", num(near), num(rules.edge)), inch(by_edges)),
    );
    let most = libm::fmin(by_share, by_edges);
    sheet
        .line(Phrase("trade-room-left"), equals(format!("{} − {}", num(most), num(hole)), inch(most - hole)));
    if let Some(other) = plan.other {
        let least = num(rules.edge);
        sheet.line(
            Phrase("trade-next-hole-notch"),
            say!("trade-against-least", other = inch(other.inches()), least = least),
        );
    }
}

fn changes(sheet: &mut Sheet, plan: &JoistPlan, rules: &Rules, most: f64, fall: f64) {
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let mut add = |text: Said, enough: bool| sheet.changes.push(Change::new(text, enough));
    let pipe = plan.hole.pipe;
    add(say!("trade-run-along-joists-bay", pipe = inch(pipe), depth = inch(depth)), pipe <= depth + HAIR);
    let (share, middle) = largest(rules, depth, depth / 2.0 + fall / 2.0, fall);
    let middle_fits = hole <= libm::fmin(share, middle) + HAIR;
    if plan.place != Place::Middle && hole > most + HAIR && middle_fits {
        add(say!("trade-bore-middle-depth"), true);
    }
    if pipe <= most + HAIR && plan.hole.clearance > 0.0 {
        add(
            say!("trade-bore-less-than-pipe", tighter = inch(libm::fmin(most, hole)), pipe = inch(pipe)),
            true,
        );
    }
    let per_joist = spacing(plan) * plan.slope.map_or(0.0, |s| s.get()) / 12.0;
    let spare = depth - 2.0 * rules.edge - hole;
    if fall > 0.0 && hole <= share + HAIR && spare >= 0.0 && !middle_fits {
        let joists = 1.0 + libm::floor((spare + HAIR) / per_joist);
        add(say!("trade-cross-no-more-than", joists = num(joists), perjoist = inch(per_joist)), true);
    }
    if plan.other.is_some_and(|o| o.inches() < rules.edge) {
        let enough = hole <= most + HAIR;
        add(say!("trade-keep-next-hole-notch", edge = inch(rules.edge)), enough);
    }
    if hole > most + HAIR {
        sheet.note(Phrase("trade-pipe-under-joists-wants"));
    }
}
