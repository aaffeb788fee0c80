//! Ceiling lights and framing depths.

use ::trade::lights::{clearance, grid};
use serde_json::json;
use survey::catalog::Family;

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("actual_depth_in", actual_depth),
    ("disc_fits_under_joist", |i| {
        Ok(json!(clearance::lies_under_joist(i.number("body_depth_in")?, i.number("ceiling_board_in")?)))
    }),
    ("hole_clears_joist", hole_clears_joist),
    ("light_spacing_in", light_spacing),
    ("recessed_clearance_ok", recessed_clearance_ok),
];

fn actual_depth(i: &Inputs) -> Answer {
    clearance::bay_depth(i.book(Family::Framing)?, i.text("nominal")?).map_err(english).and_then(number)
}

fn hole_clears_joist(i: &Inputs) -> Answer {
    let (to_joist, cut_out) = (i.number("center_to_joist_centre_in")?, i.number("cutout_in")?);
    let clip = i.number_or("clip_clearance_in", clearance::CLIP)?;
    clearance::stays_off_joist(i.book(Family::Framing)?, to_joist, cut_out, clip)
        .map(|off| json!(off))
        .map_err(english)
}

/// Distances matter only where the light is not Type IC.
fn recessed_clearance_ok(i: &Inputs) -> Answer {
    if i.yes("type_ic")? {
        return Ok(json!(true));
    }
    let kept = clearance::distances(i.book(Family::Electrical)?).map_err(english)?;
    let (insulation, combustible) =
        (i.number("insulation_clearance_in")?, i.number("combustible_clearance_in")?);
    Ok(json!(kept.kept(false, insulation, combustible)))
}

fn light_spacing(i: &Inputs) -> Answer {
    let s = grid::spacing(i.number("ceiling_height_in")?).map_err(english)?;
    Ok(json!({ "spacing": number(s.spacing)?, "wall_offset": number(s.wall)? }))
}
