//! Studs, joists, pipes through them.

use ::trade::framing::{hole, joist, lumber, nail_plate, pipe, stud};
use serde_json::json;
use survey::catalog::Family;

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("joist_limits", joist_limits),
    ("max_unplated_centred_hole_in", max_unplated),
    ("pipe_od_in", pipe_od),
    ("stud_hole_ok", stud_hole_ok),
    ("stud_limits", stud_limits),
];

fn stud_limits(i: &Inputs) -> Answer {
    let l = stud::limits(i.book(Family::Framing)?, i.text("lumber")?).map_err(english)?;
    Ok(json!({
        "notch_bearing": l.notch_bearing,
        "notch_non": l.notch_not_bearing,
        "hole_bearing": l.hole_bearing,
        "hole_max": l.hole_most,
        "edge_cap": l.edge_cap,
    }))
}

fn joist_limits(i: &Inputs) -> Answer {
    let l = joist::limits(i.book(Family::Framing)?, i.text("lumber")?).map_err(english)?;
    Ok(json!({
        "hole": l.hole,
        "notch": l.notch,
        "notch_len": l.notch_length,
        "end_notch": l.end_notch,
    }))
}

/// Clearance is the usual one where it is absent; a wall nobody calls free of load bears.
fn stud_hole_ok(i: &Inputs) -> Answer {
    let (pipe, clearance) = (i.number("pipe_od_in")?, i.number_or("clearance_in", hole::CLEARANCE)?);
    for (what, value) in [("pipe_od_in", pipe), ("clearance_in", clearance)] {
        if value < 0.0 {
            return Err(format!("input “{what}” is negative; a size is not"));
        }
    }
    let bearing = if i.has("bearing") { i.yes("bearing")? } else { true };
    let doubled = i.yes_or_no("doubled")?;
    let book = i.book(Family::Framing)?;
    stud::takes(book, i.text("lumber")?, pipe, clearance, bearing, doubled)
        .map(|takes| json!(takes))
        .map_err(english)
}

fn pipe_od(i: &Inputs) -> Answer {
    let book = i.book(Family::Framing)?;
    pipe::outside(book, i.text("material")?, i.text("nominal")?)
        .map_err(english)
        .and_then(|(inches, _)| number(inches))
}

/// The edge distance is the one for wiring where it is absent.
fn max_unplated(i: &Inputs) -> Answer {
    let book = i.book(Family::Framing)?;
    let (depth, _) = lumber::depth(book, i.text("lumber")?).map_err(english)?;
    let edge = if i.has("edge_in") {
        i.number("edge_in")?
    } else {
        nail_plate::distances(book).map_err(english)?.wiring
    };
    number(nail_plate::largest_unplated(depth, edge))
}
