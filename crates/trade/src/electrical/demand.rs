//! What a household load counts for under Article 220, Part III: lighting, appliances, dryer, range, neutral.
//!
//! Values stand in the electrical books; Annex D of the California Electrical Code 2013 (NEC 2011) works examples.

use survey::Phrase;
use survey::catalog::Book;

use crate::cite::{first_carrying, row, table, value};
use crate::error::TradeError;
use crate::measure::{Amperes, SquareFeet, VoltAmperes};
use crate::number::show_number;
use crate::sheet::Limit;

/// Keeps a load exactly at a step on the near side of it whatever the last bit of a difference.
const HAIR: f64 = 1e-9;

/// Whole amperes as Annex D prints them: half an ampere or more counts as one, less is dropped.
pub fn whole_amperes(amperes: f64) -> f64 {
    libm::floor(amperes + 0.5 + HAIR)
}

/// Connected lighting, small-appliance and laundry load, volt-amperes.
///
/// # Errors
/// A book without the tables.
pub fn lighting_and_circuits(
    book: &Book,
    area: SquareFeet,
    small_appliance: u32,
    laundry: u32,
) -> Result<f64, TradeError> {
    let lighting = value(book, "lighting-load")?.0 * area.get();
    let small = value(book, "small-appliance-load")?.0 * f64::from(small_appliance);
    Ok(lighting + small + value(book, "laundry-load")?.0 * f64::from(laundry))
}

/// What counts of the lighting load, small-appliance and laundry circuits among it (220.42), volt-amperes.
///
/// # Errors
/// A book without the table.
pub fn lighting(book: &Book, load: VoltAmperes) -> Result<(f64, Limit), TradeError> {
    let table = table(book, "lighting-demand")?;
    let (mut counts, mut from) = (0.0, 0.0);
    let last = table.grid.len().saturating_sub(1);
    for (at, (upto, share)) in table.grid.iter().enumerate() {
        let end = if at == last { f64::INFINITY } else { *upto };
        let share = share.first().copied().unwrap_or(1.0);
        counts += share * libm::fmax(libm::fmin(load.get(), end) - from, 0.0);
        from = end;
    }
    Ok((counts, Limit::of(book, table, Phrase("trade-3000-va-whole-120"))))
}

/// What counts of appliances fastened in place (220.53), volt-amperes.
///
/// # Errors
/// A book without the table.
pub fn fastened(book: &Book, nameplates: &[VoltAmperes]) -> Result<(f64, Limit), TradeError> {
    let sum: f64 = nameplates.iter().map(|va| va.get()).sum();
    let (least, _) = row(book, "appliance-demand", "appliances")?;
    let (share, limit) = row(book, "appliance-demand", "share")?;
    Ok((if nameplates.len() as f64 >= least { share * sum } else { sum }, limit))
}

/// What counts of an electric dryer (220.54), volt-amperes; nothing where there is none.
///
/// # Errors
/// A book without the table.
pub fn dryer(book: &Book, nameplate: VoltAmperes) -> Result<(f64, Limit), TradeError> {
    let (least, limit) = value(book, "dryer-least")?;
    Ok((if nameplate.get() > 0.0 { libm::fmax(least, nameplate.get()) } else { 0.0 }, limit))
}

/// What counts of one household range (Table 220.55, column C), volt-amperes; nothing where there is none.
///
/// # Errors
/// A rating that is negative, not finite or beyond the table.
pub fn range(book: &Book, kilowatts: f64) -> Result<(f64, Limit), TradeError> {
    let cell = |name: &str| row(book, "range-demand", name);
    let ((demand, limit), (upto, _)) = (cell("demand, VA")?, cell("up to, kW")?);
    let ((more, _), (most, _)) = (cell("more for each further kW")?, cell("largest, kW")?);
    if !(0.0..=most).contains(&kilowatts) {
        let what = Phrase("trade-rating-range");
        return Err(TradeError::OutOfRange { what, value: kilowatts, low: 0.0, high: most, unit: "kW" });
    }
    if kilowatts == 0.0 {
        return Ok((0.0, limit));
    }
    let further = libm::fmax(libm::floor(kilowatts - upto + 0.5 + HAIR), 0.0);
    Ok((demand * (1.0 + more * further), limit))
}

/// The loads of a dwelling for the standard method.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Household<'a> {
    /// Floor area.
    pub area: SquareFeet,
    /// Small-appliance circuits.
    pub small_appliance: u32,
    /// Laundry circuits.
    pub laundry: u32,
    /// Rating of the range, kW; 0 if there is none.
    pub range_kilowatts: f64,
    /// Nameplate of the dryer.
    pub dryer: VoltAmperes,
    /// Nameplates of appliances fastened in place.
    pub fastened: &'a [VoltAmperes],
    /// Heating.
    pub heating: VoltAmperes,
    /// Cooling.
    pub cooling: VoltAmperes,
}

/// The standard load of a dwelling (Article 220, Part III), volt-amperes. Of heating and cooling the larger counts,
/// whole (220.51, 220.60).
///
/// # Errors
/// As [`range`], or a book without a table.
pub fn standard(book: &Book, house: &Household) -> Result<f64, TradeError> {
    let general = lighting_and_circuits(book, house.area, house.small_appliance, house.laundry)?;
    let general = lighting(book, VoltAmperes::new(general)?)?.0;
    let cooking_and_drying = range(book, house.range_kilowatts)?.0 + dryer(book, house.dryer)?.0;
    let climate = libm::fmax(house.heating.get(), house.cooling.get());
    Ok(general + cooking_and_drying + fastened(book, house.fastened)?.0 + climate)
}

/// The load of the neutral (220.61): lighting as it counts, a share of range and dryer, and what else runs on it.
///
/// # Errors
/// A book without the table.
pub fn neutral(
    book: &Book,
    lighting: VoltAmperes,
    range: VoltAmperes,
    dryer: VoltAmperes,
    other: VoltAmperes,
) -> Result<(f64, Limit), TradeError> {
    let (share, limit) = value(book, "neutral-share")?;
    Ok((lighting.get() + share * (range.get() + dryer.get()) + other.get(), limit))
}

/// The smallest standard size (240.6) for a service that carries so many amperes and is not under the least for one
/// house (230.79).
///
/// # Errors
/// More than the largest size of the table.
pub fn service_size(book: &Book, amperes: Amperes) -> Result<(f64, Limit), TradeError> {
    let sizes = table(book, "standard-sizes")?;
    let need = libm::fmax(amperes.get(), value(book, "service-least")?.0);
    match first_carrying(sizes, need - HAIR) {
        Some((name, size)) => Ok((size, Limit::of(book, sizes, alloc::format!("{name} A")))),
        None => Err(TradeError::NoRow {
            table: alloc::format!("{} {}", book.title, sizes.clause),
            value: show_number(amperes.get()).into(),
            known: sizes.rows.iter().map(|(n, _)| n.as_str()).collect::<alloc::vec::Vec<_>>().join(", "),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    fn book() -> Book {
        catalog().shelf.book("nec-2011").cloned().unwrap()
    }
    fn va(x: f64) -> VoltAmperes {
        VoltAmperes::new(x).unwrap()
    }

    #[test]
    fn example_d1a_comes_to_78_amperes_and_61_in_the_neutral() {
        // California Electrical Code 2013 (NEC 2011), Annex D, D1(a): 1500 ft², 12 kW range, 5.5 kW dryer
        let book = book();
        let house = Household {
            area: SquareFeet::new(1500.0).unwrap(),
            small_appliance: 2,
            laundry: 1,
            range_kilowatts: 12.0,
            dryer: va(5500.0),
            ..Household::default()
        };
        let load = standard(&book, &house).unwrap();
        assert_eq!((load, whole_amperes(load / 240.0)), (18_600.0, 78.0));
        let neutral = neutral(&book, va(5100.0), va(8000.0), va(5500.0), va(0.0)).unwrap().0;
        assert!((neutral - 14_550.0).abs() < 1e-9);
        assert_eq!(whole_amperes(neutral / 240.0), 61.0);
        // its remainder in D2(a): range 8 kVA, dryer 5 kVA and dishwasher 1.2 kVA: 15,400 VA, 64 A
        let d2a = super::neutral(&book, va(5100.0), va(8000.0), va(5000.0), va(1200.0)).unwrap().0;
        assert!((d2a - 15_400.0).abs() < 1e-9 && whole_amperes(d2a / 240.0) == 64.0);
    }

    #[test]
    fn a_range_grows_by_five_percent_for_each_kilowatt_or_major_fraction_over_twelve() {
        // Table 220.55 column C, note 1; Annex D: a fraction of 0.5 kW or more counts
        for (kw, load) in [
            (8.75, 8000.0),
            (12.0, 8000.0),
            (12.4, 8000.0),
            (12.5, 8400.0),
            (14.0, 8800.0),
            (15.6, 9600.0),
            (27.0, 14_000.0),
        ] {
            assert!((range(&book(), kw).unwrap().0 - load).abs() < 1e-9, "{kw}");
        }
        for kw in [27.1, -1.0, f64::NAN] {
            assert!(range(&book(), kw).is_err());
        }
    }

    #[test]
    fn lighting_counts_whole_then_35_then_25_percent() {
        // Table 220.42
        for (load, counts) in
            [(3000.0, 3000.0), (9000.0, 5100.0), (120_000.0, 43_950.0), (200_000.0, 63_950.0)]
        {
            assert_eq!(lighting(&book(), va(load)).unwrap().0, counts);
        }
    }

    #[test]
    fn four_appliances_fastened_in_place_count_three_quarters() {
        // 220.53
        let four = [va(4500.0), va(1200.0), va(800.0), va(900.0)];
        assert_eq!(fastened(&book(), &four).unwrap().0, 5550.0);
        assert_eq!(fastened(&book(), &four[..3]).unwrap().0, 6500.0);
    }

    #[test]
    fn a_service_takes_the_next_standard_size_and_never_under_100_amperes() {
        // Annex D, D1(b): 104 A gives 110 A; D2(c): 145 A gives 150 A; 230.79(C): 100 A
        let size = |a: f64| service_size(&book(), Amperes::new(a).unwrap()).map(|(size, _)| size);
        assert_eq!((size(104.0).unwrap(), size(145.0).unwrap(), size(78.0).unwrap()), (110.0, 150.0, 100.0));
        assert_eq!(size(110.0).unwrap(), 110.0);
        assert!(size(401.0).is_err());
    }
}
