//! Lead, asbestos, dust, patches.

use ::trade::measure::SquareFeet;
use ::trade::openings::grid::patch_area;
use ::trade::openings::lead::{LeadRule, Work};
use ::trade::openings::plane::USUAL_SPACING;
use ::trade::openings::suspects;
use serde_json::json;
use survey::catalog::Family;

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("neshap_facility", neshap_facility),
    ("neshap_threshold", neshap_threshold),
    ("patch_area_sqft_16oc", patch_area_sqft_16oc),
    ("rrp_30_day_sum_sf", rrp_30_day_sum_sf),
    ("rrp_work_practices_apply", rrp_work_practices_apply),
    ("silica_limits_ug_m3", silica_limits_ug_m3),
];

fn square_feet(area: f64) -> Result<SquareFeet, String> {
    SquareFeet::new(area).map_err(english)
}

fn lead_rule(i: &Inputs) -> Result<LeadRule, String> {
    LeadRule::read(i.book(Family::OldMaterials)?).map_err(english)
}

fn rrp_work_practices_apply(i: &Inputs) -> Answer {
    let work = Work {
        year: i.count("year")?,
        inside: square_feet(i.number_or("int_sf", 0.0)?)?,
        outside: square_feet(i.number_or("ext_sf", 0.0)?)?,
        window: i.yes_or_no("window")?,
        demolition: i.yes_or_no("demo")?,
        prohibited: i.yes_or_no("prohibited")?,
    };
    Ok(json!(lead_rule(i)?.applies(&work)))
}

fn rrp_30_day_sum_sf(i: &Inputs) -> Answer {
    let areas: Vec<SquareFeet> =
        i.numbers("same_room_sf")?.into_iter().map(square_feet).collect::<Result<_, _>>()?;
    let (total, minor) = lead_rule(i)?.same_room(&areas);
    Ok(json!({ "total": number(total)?, "minor": minor }))
}

fn patch_area_sqft_16oc(i: &Inputs) -> Answer {
    patch_area(i.number("x0_in")?, i.number("x1_in")?, i.number("height_in")?, USUAL_SPACING)
        .map_err(english)
        .and_then(number)
}

fn neshap_threshold(i: &Inputs) -> Answer {
    suspects::notice_from(i.book(Family::OldMaterials)?, i.text("kind")?)
        .map_err(english)
        .and_then(|(amount, _)| number(amount))
}

/// Without `isolated` the building is taken to stand alone.
fn neshap_facility(i: &Inputs) -> Answer {
    let alone = !i.has("isolated") || i.yes("isolated")?;
    suspects::is_facility(i.book(Family::OldMaterials)?, i.count("dwelling_units")?, alone)
        .map(|(facility, _)| json!(facility))
        .map_err(english)
}

fn silica_limits_ug_m3(i: &Inputs) -> Answer {
    let ([pel, action], _) = suspects::silica_in_air(i.book(Family::OldMaterials)?).map_err(english)?;
    Ok(json!({ "pel": number(pel)?, "action": number(action)? }))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trade::answer;
    use serde_json::Value;

    fn asked(inputs: Value) -> Answer {
        answer(&inputs, &survey::catalog::builtin().unwrap().shelf)
    }

    #[test]
    fn what_is_absent_is_none_or_no() {
        let rrp = |more: Value| {
            let mut inputs = json!({"fn": "rrp_work_practices_apply", "year": 1965});
            inputs.as_object_mut().unwrap().extend(more.as_object().unwrap().clone());
            asked(inputs)
        };
        // 40 CFR 745.83: 6 ft² inside and 20 ft² outside are still minor
        assert_eq!(rrp(json!({})), Ok(json!(false)));
        assert_eq!(rrp(json!({"int_sf": 6, "ext_sf": null})), Ok(json!(false)));
        assert_eq!(rrp(json!({"ext_sf": 20.5})), Ok(json!(true)));
        for reason in ["window", "demo", "prohibited"] {
            let mut more = json!({"int_sf": 1});
            more[reason] = json!(true);
            assert_eq!(rrp(more), Ok(json!(true)), "{reason}");
        }
        let facility = |units| asked(json!({"fn": "neshap_facility", "dwelling_units": units}));
        assert_eq!((facility(4), facility(5)), (Ok(json!(false)), Ok(json!(true))));
    }

    #[test]
    fn what_cannot_be_read_says_why() {
        for (inputs, part) in [
            (
                json!({"fn": "neshap_threshold", "kind": "pipe"}),
                "pipe_linear_ft, other_sqft, off_component_cuft",
            ),
            (json!({"fn": "rrp_30_day_sum_sf", "same_room_sf": [3, -1]}), "area -1 is outside 0 to"),
            (json!({"fn": "rrp_30_day_sum_sf"}), "“same_room_sf” is missing"),
            (
                json!({"fn": "patch_area_sqft_16oc", "x0_in": 9, "x1_in": 3, "height_in": 8}),
                "right edge 3 is outside",
            ),
            (json!({"fn": "rrp_work_practices_apply", "year": "old"}), "“year” is not a count"),
        ] {
            let error = asked(inputs.clone()).unwrap_err();
            assert!(error.contains(part), "{inputs}: {error}");
        }
    }
}
