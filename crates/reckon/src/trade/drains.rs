//! Sink drains, trap arms, drain and vent sizes.

use ::trade::drainage::demand::Size;
use ::trade::drainage::fixture::Fixture;
use ::trade::drainage::flat_fall::FlatFall;
use ::trade::drainage::units::{Fixtures, Load, units};
use ::trade::drainage::{branch, building_drain, rim, slope, stack, valve, vent};
use ::trade::measure::FixtureUnits;
use ::trade::sink_drain::{
    Chain, Connection, Sigmas, levels, odds, required_below_counter_plane, without_disposer_gain,
};
use ::trade::{TradeError, datum, dishwasher::Method, trap_arm, trap_seal};
use serde_json::json;
use survey::catalog::{Book, Family};

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("aav_height_ok", aav_height_ok),
    ("building_drain_size_quarter_slope", |i| by_units(i, building_drain::smallest)),
    ("dfu", dfu),
    ("dishwasher_drain_ok", dishwasher_drain_ok),
    ("fall_in", |i| number(trap_arm::fall(i.number("slope_in_per_ft")?, i.number("run_in")?))),
    ("horizontal_branch_size", horizontal_branch_size),
    ("min_horizontal_vent_height_aff", min_horizontal_vent_height_aff),
    ("min_slope_in_per_ft", min_slope_in_per_ft),
    ("p_stub_must_move", p_stub_must_move),
    ("remove_disposer_gain_in", remove_disposer_gain_in),
    ("required_below_counter_plane_in", required_below_counter_plane_in),
    ("sink_drain_fit", sink_drain_fit),
    ("stack_size_le3_intervals", |i| by_units(i, stack::smallest_low)),
    ("stub_aff_after_new_floor", stub_aff_after_new_floor),
    ("stub_aff_from_cabinet_floor", stub_aff_from_cabinet_floor),
    ("stub_verdict", stub_verdict),
    ("trap_arm_check", trap_arm_check),
    ("trap_arm_max_length_in", trap_arm_max_length_in),
    ("trap_seal_ok", |i| {
        let book = i.book(survey::catalog::Family::Plumbing)?;
        trap_seal::within_limits(book, i.number("seal_in")?).map(|ok| json!(ok)).map_err(english)
    }),
    ("vent_fall_ok", vent_fall_ok),
    ("vent_size", vent_size),
    ("vent_size_by_dfu", |i| by_units(i, vent::by_load)),
    ("vertical_drain_size", |i| by_units(i, stack::smallest_upright)),
];

fn sink_drain_fit(i: &Inputs) -> Answer {
    let l = levels(&Chain {
        counter_height: i.number("H")?,
        offset: i.number("off")?,
        depth: i.number("depth")?,
        shell: i.number("shell")?,
        connection: i.word("conn", Connection::parse, Connection::WORDS)?,
        connection_drop: i.number("conn_drop")?,
        trap_drop: i.number("trap_drop")?,
        run: i.number("run")?,
        slope: i.number("slope")?,
        trap_size: i.number("D")?,
        seal: i.number("seal0")?,
        seal_most: i.number("seal_max")?,
        cabinet_floor: i.number("cab_floor")?,
        service: i.number("svc")?,
        outlet_to_weir_most: i.number("limit24")?,
    });
    Ok(json!({
        "z_outlet": number(l.outlet)?,
        "z_conn": number(l.connection)?,
        "fall": number(l.fall)?,
        "stub_max": number(l.stub_max)?,
        "stub_abs": number(l.stub_abs)?,
        "stub_flood": number(l.flood)?,
        "stub_min_code": number(l.stub_min_code)?,
        "stub_min_cab": number(l.stub_min_cabinet)?,
    }))
}

fn p_stub_must_move(i: &Inputs) -> Answer {
    let nested = i.nested("sigmas_in")?;
    let sigma = |key: &str| match nested.number(key) {
        Ok(sigma) if sigma < 0.0 => Err(format!("sigmas_in: “{key}” is negative; a spread is not")),
        other => other.map_err(|e| format!("sigmas_in: {e}")),
    };
    let sigmas = Sigmas {
        counter: sigma("counter")?,
        thick: sigma("thick")?,
        depth: sigma("depth")?,
        shell: sigma("shell")?,
        connection: sigma("conn")?,
        trap: sigma("trap")?,
        fall: sigma("fall")?,
        stub: sigma("stub")?,
    };
    let odds = odds(i.number("stub_in")?, i.number("stub_max")?, i.number("stub_abs")?, &sigmas);
    Ok(json!({
        "sigma_margin": number(odds.sigma)?,
        "p_over_practical": number(odds.over_practical)?,
        "p_over_absolute": number(odds.over_absolute)?,
    }))
}

fn stub_verdict(i: &Inputs) -> Answer {
    let (stub, low) = (i.number("stub_in")?, i.number("stub_min_code")?);
    let verdict = ::trade::verdict(stub, low, i.number("stub_max")?, i.number("stub_abs")?);
    Ok(json!(verdict.word()))
}

fn trap_arm_max_length_in(i: &Inputs) -> Answer {
    trap_arm::longest(i.code()?, i.number("trap_arm_diameter_in")?)
        .map_err(english)
        .and_then(|(inches, _)| number(inches))
}

fn trap_arm_check(i: &Inputs) -> Answer {
    let (length, slope) = (i.number("length_in")?, i.number("slope_in_per_ft")?);
    let arm = trap_arm::check(i.code()?, i.number("diameter_in")?, length, slope).map_err(english)?;
    Ok(json!({
        "fall_in": number(arm.fall)?,
        "max_len_in": arm.longest,
        "min_len_in": arm.shortest,
        // The contract asks for length and fall; a slope too gentle is told elsewhere.
        "ok": arm.faults.iter().all(|f| *f == trap_arm::Fault::TooGentle),
    }))
}

fn remove_disposer_gain_in(i: &Inputs) -> Answer {
    let (disposer, disposer_trap) = (i.number("disposer_drop")?, i.number("disposer_trap_drop")?);
    let (strainer, strainer_trap) = (i.number("strainer_drop")?, i.number("strainer_trap_drop")?);
    number(without_disposer_gain(disposer, disposer_trap, strainer, strainer_trap))
}

fn required_below_counter_plane_in(i: &Inputs) -> Answer {
    let (depth, shell, drop) = (i.number("depth")?, i.number("shell")?, i.number("conn_drop")?);
    number(required_below_counter_plane(depth, shell, drop, i.number("trap_drop")?, i.number("fall")?))
}

fn stub_aff_from_cabinet_floor(i: &Inputs) -> Answer {
    let (toe, floor) = (i.number("toe_kick_in")?, i.number("cabinet_floor_thickness_in")?);
    number(datum::aff_from_cabinet_floor(
        toe,
        floor,
        i.number("reading_in")?,
        i.number("new_floor_buildup_in")?,
    ))
}

fn stub_aff_after_new_floor(i: &Inputs) -> Answer {
    number(datum::aff_after_new_floor(i.number("old_aff_in")?, i.number("new_floor_buildup_in")?))
}

fn dishwasher_drain_ok(i: &Inputs) -> Answer {
    let method = i.word("method", Method::parse, Method::WORDS)?;
    ::trade::dishwasher::is_named(i.code()?, method).map(|(named, _)| json!(named)).map_err(english)
}

fn said<T>(result: Result<T, TradeError>) -> Result<T, String> {
    result.map_err(english)
}

/// The book of `code`, or the first plumbing book where the rule is the same in all.
fn code_or_first<'a>(i: &Inputs<'a>) -> Result<&'a Book, String> {
    if i.has("code") { i.code() } else { i.book(Family::Plumbing) }
}

/// A size by a load alone.
fn by_units(i: &Inputs, size: fn(&Book, FixtureUnits) -> Result<Size, TradeError>) -> Answer {
    let units = said(FixtureUnits::new(i.number("dfu")?))?;
    number(said(size(i.code()?, units))?.inches)
}

fn dfu(i: &Inputs) -> Answer {
    let fixture = said(Fixture::parse(i.text("fixture")?))?;
    number(said(units(i.code()?, fixture))?.0)
}

fn horizontal_branch_size(i: &Inputs) -> Answer {
    let book = i.code()?;
    let fixtures = said(Fixtures::of_words(&i.texts("fixtures")?))?;
    let load = said(Load::of(book, &fixtures))?;
    let size = said(branch::smallest(book, &load))?;
    Ok(json!({ "dfu": number(load.units)?, "size_in": size.inches }))
}

fn min_slope_in_per_ft(i: &Inputs) -> Answer {
    number(said(slope::least(i.code()?, i.number("pipe_in")?))?.0)
}

fn vent_size(i: &Inputs) -> Answer {
    let rules = said(vent::Rules::of(i.code()?, i.number("drain_in")?))?;
    let units = if i.has("dfu") { Some(said(FixtureUnits::new(i.number("dfu")?))?) } else { None };
    let length = i.number("vent_length_ft")?;
    if length < 0.0 {
        return Err("input “vent_length_ft” is negative; a length is not".to_owned());
    }
    number(said(rules.smallest(units, length, None))?.inches)
}

fn min_horizontal_vent_height_aff(i: &Inputs) -> Answer {
    number(said(rim::least_height(code_or_first(i)?, i.number("flood_rim_aff_in")?))?.0)
}

fn vent_fall_ok(i: &Inputs) -> Answer {
    let (diameter, slope, length) = (i.number("pipe_d_in")?, i.number("slope")?, i.number("length_in")?);
    Ok(json!(said(FlatFall::of(code_or_first(i)?, diameter, slope, length))?.is_within()))
}

fn aav_height_ok(i: &Inputs) -> Answer {
    // Only the IRC names a height: it holds wherever such valves are taken.
    let book = i.book_by_id("ipc-2021")?;
    Ok(json!(said(valve::is_high_enough(book, i.number("above_branch_drain_in")?))?))
}
