//! What single change would let a pipe go where the hole is too large, each with whether it is enough.

use alloc::vec::Vec;

use survey::catalog::Book;
use survey::{Said, say};

use super::hole::Place;
use super::lumber::{NAMES, depth};
use super::stud::rules;
use super::stud_hole::{StudPlan, largest};
use super::{HAIR, inch, num};
use crate::cite::value;
use crate::error::TradeError;
use crate::sheet::Change;

/// The deepest lumber a wall is built of: beyond 2x8 it is no wall.
const DEEPEST_WALL: f64 = 7.5;

/// Changes in the order a carpenter would weigh them.
pub(super) fn of(plan: &StudPlan, book: &Book) -> Result<Vec<Change>, TradeError> {
    let (bears, hole, member) = (plan.bears(), plan.hole.diameter(), &plan.member);
    let (row_most, _) = value(book, "stud-doubled-successive")?;
    let doubled = plan.doubled && (!bears || f64::from(plan.in_a_row()) <= row_most);
    let now = rules(book, bears, doubled)?;
    let fits = |share: &super::stud::Rules, depth: f64, center: f64| {
        let (by_share, by_edges) = largest(share, depth, center);
        !plan.notched_there && hole <= libm::fmin(by_share, by_edges) + HAIR
    };
    let center = plan.place.center(member.depth);
    let mut out = Vec::new();
    let mut add = |text: Said, enough: bool| out.push(Change::new(text, enough));
    let widest = plan.widest();
    let cut = num(libm::round(super::plate_cut::percent_cut(member.depth, hole)));
    add(
        say!("trade-run-up-stud-bay", widest = inch(widest), depth = inch(member.depth), cut = cut),
        widest <= member.depth + HAIR,
    );
    if plan.notched_there {
        add(say!("trade-bore-above-below-cut"), {
            let (by_share, by_edges) = largest(&now, member.depth, center);
            hole <= libm::fmin(by_share, by_edges) + HAIR
        });
    }
    if bears && !doubled {
        let rules = rules(book, true, true)?;
        let text = say!(
            "trade-double-each-bored-stud",
            rowmost = num(row_most),
            hole = num(rules.hole * 100.0),
            depth = num(member.depth),
            depth2 = inch(rules.hole * member.depth)
        );
        let in_a_row = if plan.doubled { plan.in_a_row() } else { plan.crossed };
        add(text, f64::from(in_a_row) <= row_most && fits(&rules, member.depth, center));
    }
    if plan.bearing.is_none() {
        let rules = rules(book, false, false)?;
        let text = say!(
            "trade-find-out-whether-wall",
            hole = num(rules.hole * 100.0),
            depth = num(member.depth),
            depth2 = inch(rules.hole * member.depth)
        );
        add(text, fits(&rules, member.depth, center));
    }
    let in_middle = fits(&now, member.depth, member.depth / 2.0);
    if plan.place != Place::Middle && in_middle && !fits(&now, member.depth, center) {
        add(say!("trade-bore-middle-stud"), true);
    }
    let most = libm::fmin(now.hole * member.depth, largest(&now, member.depth, center).1);
    if plan.hole.pipe <= most + HAIR && plan.hole.clearance > 0.0 && !plan.notched_there {
        let tighter = libm::fmin(most, hole);
        add(say!("trade-bore-less-than-pipe", tighter = inch(tighter), pipe = inch(plan.hole.pipe)), true);
    }
    if hole <= now.notch * member.depth + HAIR {
        add(say!("trade-notch-instead-no-deeper", depth = inch(now.notch * member.depth)), true);
    }
    if let Some((name, share, enough)) = deeper(plan, book, &now)? {
        let text = say!("trade-frame-wall-largest-hole", name = name, share = inch(share));
        add(text, enough);
    }
    Ok(out)
}

/// The first deeper lumber that takes the hole in its middle, else the deepest a wall is built of.
fn deeper(
    plan: &StudPlan,
    book: &Book,
    now: &super::stud::Rules,
) -> Result<Option<(&'static str, f64, bool)>, TradeError> {
    let mut found = None;
    for name in NAMES {
        let (depth, _) = depth(book, name)?;
        if depth <= plan.member.depth + HAIR || depth > DEEPEST_WALL {
            continue;
        }
        let (by_share, by_edges) = largest(now, depth, depth / 2.0);
        let most = libm::fmin(by_share, by_edges);
        let enough = plan.hole.diameter() <= most + HAIR;
        found = Some((*name, most, enough));
        if enough {
            break;
        }
    }
    Ok(found)
}
