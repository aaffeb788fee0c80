//! What single change would let a pipe go where the hole is too large, each with whether it is enough.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::Book;

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
    let mut add = |text: String, enough: bool| out.push(Change { text, enough });
    let widest = plan.widest();
    let cut = num(libm::round(super::plate_cut::percent_cut(member.depth, hole)));
    add(
        format!(
            "Run it up the stud bay instead of across: {} in a wall {} deep; the plates are then cut by {cut} % of \
             their width (see plate-cut).",
            inch(widest),
            inch(member.depth)
        ),
        widest <= member.depth + HAIR,
    );
    if plan.notched_there {
        add("Bore above or below the cut or notch, in a section of its own.".into(), {
            let (by_share, by_edges) = largest(&now, member.depth, center);
            hole <= libm::fmin(by_share, by_edges) + HAIR
        });
    }
    if bears && !doubled {
        let rules = rules(book, true, true)?;
        let text = format!(
            "Double each bored stud, no more than {} in a row: {} % × {} = {}.",
            num(row_most),
            num(rules.hole * 100.0),
            num(member.depth),
            inch(rules.hole * member.depth)
        );
        let in_a_row = if plan.doubled { plan.in_a_row() } else { plan.crossed };
        add(text, f64::from(in_a_row) <= row_most && fits(&rules, member.depth, center));
    }
    if plan.bearing.is_none() {
        let rules = rules(book, false, false)?;
        let text = format!(
            "Find out whether the wall bears; if it does not: {} % × {} = {}.",
            num(rules.hole * 100.0),
            num(member.depth),
            inch(rules.hole * member.depth)
        );
        add(text, fits(&rules, member.depth, center));
    }
    let in_middle = fits(&now, member.depth, member.depth / 2.0);
    if plan.place != Place::Middle && in_middle && !fits(&now, member.depth, center) {
        add("Bore in the middle of the stud.".into(), true);
    }
    let most = libm::fmin(now.hole * member.depth, largest(&now, member.depth, center).1);
    if plan.hole.pipe <= most + HAIR && plan.hole.clearance > 0.0 && !plan.notched_there {
        let tighter = libm::fmin(most, hole);
        add(format!("Bore less than {}: the pipe is {}.", inch(tighter), inch(plan.hole.pipe)), true);
    }
    if hole <= now.notch * member.depth + HAIR {
        add(format!("Notch it instead, no deeper than {}.", inch(now.notch * member.depth)), true);
    }
    if let Some((name, share, enough)) = deeper(plan, book, &now)? {
        let text = format!("Frame the wall of {name}: the largest hole is then {}.", inch(share));
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
