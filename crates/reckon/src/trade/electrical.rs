//! Loads, circuits, receptacles, boxes.

use ::trade::electrical::box_fill::{Contents, Gauge};
use ::trade::electrical::demand::{self, Household, whole_amperes};
use ::trade::electrical::dwelling_load::{Climate, Steps};
use ::trade::electrical::{counter_outlets, edition, working_space};
use ::trade::measure::{Amperes, SquareFeet, VoltAmperes};
use serde_json::{Value, json};
use survey::catalog::Book;

use super::english;
use super::inputs::{Inputs, number};
use super::{Answer, Known};

pub(super) const KNOWN: &[Known] = &[
    ("annex_d1b_line_amps", annex_d1b_line_amps),
    ("appliance_demand_220_53", |i| {
        said(demand::fastened(base(i)?, &list(i, "nameplate_va")?)).and_then(|(va, _)| number(va))
    }),
    ("box_fill_in3", box_fill_in3),
    ("box_volume_per_conductor_in3", |i| {
        said(gauge(i, "awg")?.volume(base(i)?)).and_then(|(v, _)| number(v))
    }),
    ("counter_receptacles_wall", |i| {
        said(counter_outlets::along_wall(base(i)?, not_negative(i, "run_in")?)).map(|n| json!(n))
    }),
    ("island_receptacles_2020", |i| {
        said(counter_outlets::by_area(i.book_by_id("nec-2020")?, not_negative(i, "sqft")?)).map(|n| json!(n))
    }),
    ("light_demand_va", |i| said(demand::lighting(base(i)?, va(i, "va")?)).and_then(|(va, _)| number(va))),
    ("nec_220_82", nec_220_82),
    ("nec_220_82_heatpump", nec_220_82_heatpump),
    ("nec_220_83A", |i| nec_220_83(i, 0.0)),
    ("nec_220_83B", nec_220_83b),
    ("nec_neutral", nec_neutral),
    ("nec_standard_feeder", nec_standard_feeder),
    ("range_demand_va", |i| said(demand::range(base(i)?, i.number("kw")?)).and_then(|(va, _)| number(va))),
    ("working_space_ok", working_space_ok),
];

/// The edition the vectors were worked from.
fn base<'a>(i: &Inputs<'a>) -> Result<&'a Book, String> {
    i.book_by_id("nec-2011")
}

fn said<T>(result: Result<T, ::trade::TradeError>) -> Result<T, String> {
    result.map_err(english)
}

/// Volt-amperes; none where the input is absent.
fn va(i: &Inputs, key: &str) -> Result<VoltAmperes, String> {
    said(VoltAmperes::new(i.number_or(key, 0.0)?)).map_err(|e| format!("input “{key}”: {e}"))
}

fn list(i: &Inputs, key: &str) -> Result<Vec<VoltAmperes>, String> {
    let numbers = if i.has(key) { i.numbers(key)? } else { Vec::new() };
    said(numbers.into_iter().map(VoltAmperes::new).collect()).map_err(|e| format!("input “{key}”: {e}"))
}

fn not_negative(i: &Inputs, key: &str) -> Result<f64, String> {
    let value = i.number(key)?;
    if value < 0.0 { Err(format!("input “{key}” is negative")) } else { Ok(value) }
}

fn circuits(i: &Inputs, key: &str, absent: u32) -> Result<u32, String> {
    if i.has(key) { i.count(key) } else { Ok(absent) }
}

fn connected(i: &Inputs) -> Result<f64, String> {
    let area = said(SquareFeet::new(i.number("sqft")?))?;
    let (small, laundry) = (circuits(i, "small_appliance", 2)?, circuits(i, "laundry", 1)?);
    let general = said(demand::lighting_and_circuits(base(i)?, area, small, laundry))?;
    Ok(general + list(i, "nameplate_va")?.iter().map(|va| va.get()).sum::<f64>())
}

fn volts(i: &Inputs) -> Result<f64, String> {
    let volts = i.number_or("volts", 240.0)?;
    if volts > 0.0 { Ok(volts) } else { Err("input “volts” is not over zero".to_owned()) }
}

fn optional(i: &Inputs, climate: &Climate) -> Answer {
    let book = base(i)?;
    let general = connected(i)?;
    let total = said(Steps::new_dwelling(book))?.load(general) + said(climate.new_dwelling(book))?.0;
    Ok(json!({
        "general_va": number(general)?,
        "total_va": number(total)?,
        "amps": number(whole_amperes(total / volts(i)?))?,
    }))
}

fn nec_220_82(i: &Inputs) -> Answer {
    let heat_units = circuits(i, "heat_units", 1)?;
    let (cooling, heat) = (va(i, "ac_va")?.get(), va(i, "heat_va")?.get());
    optional(i, &Climate { cooling, heat, heat_units, ..Climate::default() })
}

fn nec_220_82_heatpump(i: &Inputs) -> Answer {
    let (heat_pump, supplementary) = (va(i, "hp_va")?.get(), va(i, "supp_va")?.get());
    optional(i, &Climate { heat_pump, supplementary, ..Climate::default() })
}

/// Amperes stay unrounded here, as the vectors have them.
fn nec_220_83(i: &Inputs, climate: f64) -> Answer {
    let general = connected(i)?;
    let total = said(Steps::existing_dwelling(base(i)?))?.load(general) + climate;
    Ok(json!({
        "general_va": number(general)?,
        "total_va": number(total)?,
        "amps": number(total / volts(i)?)?,
    }))
}

fn nec_220_83b(i: &Inputs) -> Answer {
    let (cooling, heat) = (va(i, "ac_va")?.get(), va(i, "heat_va")?.get());
    nec_220_83(i, Climate { cooling, heat, heat_units: 1, ..Climate::default() }.existing())
}

fn nec_standard_feeder(i: &Inputs) -> Answer {
    let fastened = list(i, "nameplate_va")?;
    let house = Household {
        area: said(SquareFeet::new(i.number("sqft")?))?,
        small_appliance: circuits(i, "small_appliance", 2)?,
        laundry: circuits(i, "laundry", 1)?,
        range_kilowatts: i.number_or("range_kw", 0.0)?,
        dryer: va(i, "dryer_va")?,
        fastened: &fastened,
        heating: va(i, "heat_va")?,
        cooling: va(i, "ac_va")?,
    };
    let load = said(demand::standard(base(i)?, &house))?;
    Ok(json!({"va": number(load)?, "amps": number(whole_amperes(load / volts(i)?))?}))
}

fn nec_neutral(i: &Inputs) -> Answer {
    let (range, dryer, other) = (va(i, "range_va")?, va(i, "dryer_va")?, va(i, "other_va")?);
    let (load, _) = said(demand::neutral(base(i)?, va(i, "lighting_net_va")?, range, dryer, other))?;
    Ok(json!({"va": number(load)?, "amps": number(whole_amperes(load / volts(i)?))?}))
}

/// Annex D, D1(b): the two lines and the neutral, added up in amperes. One 115 V air conditioner is on line A, the
/// dishwasher and the disposer are on line B, and of the two plugged loads the neutral carries the larger.
fn annex_d1b_line_amps(i: &Inputs) -> Answer {
    let base_amps = i.numbers("base")?;
    let [line_a, neutral, line_b] = base_amps[..] else {
        return Err("input “base” is not three numbers: line A, neutral, line B".to_owned());
    };
    let amps = |key: &str| i.number_or(key, 0.0);
    let (ac230, ac115) = (amps("ac230")?, amps("ac115")?);
    let (dishwasher, disposer) = (amps("dishwasher")?, amps("disposer")?);
    let motor = if i.has("motor25") {
        i.numbers("motor25")?
    } else {
        // A quarter of the largest motor on each (430.24); a dishwasher is taken as no motor there.
        let (on_a, on_b) = (ac230.max(ac115), ac230.max(disposer));
        [on_a, ac115.max(disposer), on_b].iter().map(|largest| largest / 4.0).collect()
    };
    let [motor_a, motor_n, motor_b] = motor[..] else {
        return Err("input “motor25” is not three numbers: line A, neutral, line B".to_owned());
    };
    let line_a = line_a + ac230 + ac115 + motor_a;
    let line_b = line_b + ac230 + dishwasher + disposer + motor_b;
    let neutral = neutral + ac115.max(dishwasher) + disposer + motor_n;
    let (service, _) = said(demand::service_size(base(i)?, said(Amperes::new(line_a.max(line_b)))?))?;
    Ok(json!({
        "line_a": number(line_a)?,
        "neutral": number(neutral)?,
        "line_b": number(line_b)?,
        "service": number(service)?,
    }))
}

/// A wire size given as a number or a text.
fn size(value: &Value) -> Result<Gauge, String> {
    match value {
        Value::String(text) => said(Gauge::new(text)),
        other => match other.as_f64().filter(|n| n.fract() == 0.0) {
            Some(whole) => said(Gauge::new(&whole.to_string())),
            None => said(Gauge::new(&other.to_string())),
        },
    }
}

fn gauge(i: &Inputs, key: &str) -> Result<Gauge, String> {
    size(i.get(key)?)
}

fn box_fill_in3(i: &Inputs) -> Answer {
    let mut conductors = Vec::new();
    if i.has("conductors") {
        let object = i.get("conductors")?.as_object();
        let object = object.ok_or("input “conductors” is no object of sizes and counts")?;
        for (awg, n) in object {
            let n = n.as_u64().and_then(|n| u32::try_from(n).ok());
            conductors
                .push((said(Gauge::new(awg))?, n.ok_or(format!("conductors: “{awg}” is not a count"))?));
        }
    }
    let grounds = circuits(i, "egc_count", 0)?;
    let devices = if i.has("yoke_awgs") {
        let list = i.get("yoke_awgs")?.as_array().ok_or("input “yoke_awgs” is not a list of sizes")?;
        list.iter().map(size).collect::<Result<_, _>>()?
    } else {
        Vec::new()
    };
    let ground_gauge = match (i.has("egc_awg"), grounds) {
        (true, _) => Some(gauge(i, "egc_awg")?),
        (false, 0) => None,
        (false, _) => return Err("input “egc_awg” is missing".to_owned()),
    };
    let contents = Contents {
        conductors,
        grounds,
        ground_gauge,
        clamps: i.yes_or_no("internal_clamps")?,
        supports: circuits(i, "support_fittings", 0)?,
        devices,
    };
    let year = if i.has("edition") { i.count("edition")? } else { 2023 };
    let book = i.book_by_id(&edition::book_id(said(edition::edition_for(year))?))?;
    number(said(contents.fill(book))?)
}

fn working_space_ok(i: &Inputs) -> Answer {
    let (panel_width, panel_top) =
        (i.number_or("equipment_width_in", 0.0)?, i.number_or("equipment_height_in", 0.0)?);
    let least = said(working_space::called_for(base(i)?, panel_width, panel_top))?;
    let space = [i.number("depth_in")?, i.number("width_in")?, i.number("height_in")?];
    Ok(json!(working_space::reaches(space, least)))
}

#[cfg(test)]
mod tests {
    use super::super::answer;
    use super::*;

    fn ask(inputs: Value) -> Answer {
        answer(&inputs, &survey::catalog::builtin().unwrap().shelf)
    }

    #[test]
    fn what_may_be_left_out_may_be_left_out() {
        // two small-appliance circuits and one laundry circuit unless said otherwise
        let load = ask(json!({"fn": "nec_220_83A", "sqft": 1000})).unwrap();
        assert_eq!(load["general_va"], 7500.0);
        let heat = json!({"fn": "nec_220_82", "sqft": 1500, "heat_va": 9000, "heat_units": 3});
        assert_eq!(ask(heat).unwrap()["total_va"], 9000.0 + 0.65 * 9000.0);
        // a quarter of the largest motor: Annex D, D1(b) has 3, 3 and 2 A
        let lines = json!({"fn": "annex_d1b_line_amps", "base": [78, 61, 78], "ac230": 6, "ac115": 12,
            "dishwasher": 10, "disposer": 8});
        assert_eq!(
            ask(lines).unwrap(),
            json!({"line_a": 99.0, "neutral": 84.0, "line_b": 104.0, "service": 110.0})
        );
    }

    #[test]
    fn the_edition_of_a_box_switches_in_2020() {
        let fill = |edition: u32| {
            ask(json!({"fn": "box_fill_in3", "conductors": {"14": 8}, "egc_count": 6, "egc_awg": 14,
                "internal_clamps": true, "yoke_awgs": ["14"], "edition": edition}))
            .unwrap()
        };
        assert_eq!((fill(2017), fill(2020), fill(2023)), (json!(24.0), json!(25.0), json!(25.0)));
    }

    #[test]
    fn what_is_wrong_names_what_is_known() {
        for (inputs, part) in [
            (json!({"fn": "box_volume_per_conductor_in3", "awg": 13}), "18, 16, 14, 12, 10, 8, 6"),
            (json!({"fn": "range_demand_va", "kw": 30}), "outside 0 to 27 kW"),
            (json!({"fn": "light_demand_va", "va": -1}), "input “va”"),
            (json!({"fn": "counter_receptacles_wall", "run_in": -1}), "negative"),
            (json!({"fn": "annex_d1b_line_amps", "base": [1, 2]}), "three numbers"),
            (json!({"fn": "box_fill_in3", "egc_count": 1}), "egc_awg"),
        ] {
            let error = ask(inputs.clone()).unwrap_err();
            assert!(error.contains(part), "{inputs}: {error}");
        }
    }
}
