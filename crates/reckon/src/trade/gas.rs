//! Fuel gas pipes.

use ::trade::gas::{
    capacity::{self, Drop},
    form::{self, Form, Pipe},
    loads, plan,
};
use serde_json::{Value, json};
use survey::catalog::Family;

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

/// C_r of natural gas and the usual drop, where a case names none.
const FACTOR: f64 = 0.6094;
const DROP: f64 = 0.5;
const HEATING_VALUE: f64 = 1000.0;

pub(super) const KNOWN: &[Known] = &[
    ("cfh", |i| {
        number(plan::cfh(i.number("btuh")?, i.number_or("btu_per_cf", HEATING_VALUE)?).map_err(english)?)
    }),
    ("fitting_equiv_length_ft", |i| {
        let feet = plan::equivalent_feet(i.book(Family::Gas)?, i.number("diameters")?, i.text("size")?);
        number(feet.map_err(english)?)
    }),
    ("gas_add_load", gas_add_load),
    ("gas_capacity_cfh_2313_3sig", |i| {
        let pipe = pipe(i)?;
        let cfh = Form::of(i.book(Family::Gas)?).and_then(|form| form.cfh(pipe));
        number(form::as_printed(cfh.map_err(english)?))
    }),
    ("gas_capacity_cfh_formula", |i| {
        number(form::older_cfh(i.book(Family::Gas)?, pipe(i)?).map_err(english)?)
    }),
    ("gas_longest_length_size", |i| size_for(i, i.number("load_cfh")?)),
    ("gas_table_row_cfh", gas_table_row_cfh),
    ("typical_gas_input_btuh", |i| {
        let input = loads::typical(i.book(Family::Gas)?, i.text("appliance")?);
        input.map(|(btuh, _)| json!(btuh)).map_err(english)
    }),
];

fn pipe(i: &Inputs) -> Result<Pipe, String> {
    let inside = capacity::inside(i.book(Family::Gas)?, i.text("size")?).map_err(english)?.0;
    let (drop, factor) = (i.number_or("dp_inwc", DROP)?, i.number_or("Cr", FACTOR)?);
    Ok(Pipe { inside, feet: i.number("length_ft")?, drop, factor })
}

/// The table a case names, or the usual low pressure.
fn table(i: &Inputs) -> Result<Drop, String> {
    if i.has("table") { i.word("table", Drop::parse, Drop::WORDS) } else { Ok(Drop::Half) }
}

fn gas_table_row_cfh(i: &Inputs) -> Answer {
    let drop = i.word("table", Drop::parse, Drop::WORDS)?;
    let row = capacity::row(i.book(Family::Gas)?, drop, i.number("length_ft")?);
    row.map(|cells| json!(cells)).map_err(english)
}

/// The smallest size that carries a load over the longest length; null where no size known does.
fn size_for(i: &Inputs, load: f64) -> Answer {
    let found = capacity::size_for(i.book(Family::Gas)?, table(i)?, load, i.number("longest_length_ft")?);
    Ok(found.map_err(english)?.map_or(Value::Null, |(size, _)| json!(size)))
}

fn gas_add_load(i: &Inputs) -> Answer {
    let total = i.numbers("existing_cfh")?.iter().sum::<f64>() + i.number("new_cfh")?;
    let trunk = i.text("trunk")?;
    let carries = capacity::capacity(i.book(Family::Gas)?, table(i)?, trunk, i.number("longest_length_ft")?);
    let carries = carries.map_err(english)?.cfh;
    Ok(json!({
        "total_cfh": number(total)?,
        "trunk_ok": total <= carries + capacity::HAIR,
        "needed": size_for(i, total)?,
    }))
}
