//! What hangs on a gas pipe: nameplate inputs, or the typical input of a kind of appliance, which is said to be
//! assumed (NFPA 54 Table 5.4.2.1, in the gas book).

use alloc::{
    format,
    string::{String, ToString},
    vec::Vec,
};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use crate::cite;
use crate::error::TradeError;
use crate::given::Given;
use crate::measure::BtuPerHour;
use crate::number::show_number;
use crate::sheet::{Assumed, Limit};

/// Tables of typical inputs, the surer first.
const TABLES: [&str; 2] = ["typical-input", "typical-input-unclear"];

/// Names people use for rows of the tables.
const SPOKEN: [(&str, &str); 11] = [
    ("range", "range_freestanding"),
    ("oven", "built_in_oven"),
    ("wall_oven", "built_in_oven"),
    ("cooktop", "built_in_top"),
    ("dryer", "dryer_type1"),
    ("clothes_dryer", "dryer_type1"),
    ("water_heater_40_gal", "water_heater_30_40gal"),
    ("water_heater_50_gal", "water_heater_50gal"),
    ("grill", "barbecue"),
    ("fireplace", "direct_vent_fireplace"),
    ("gas_logs", "gas_log"),
];

/// One appliance with its input.
#[derive(Clone, PartialEq, Debug)]
pub struct Appliance {
    /// Name as given.
    pub name: String,
    /// Its input.
    pub input: BtuPerHour,
    /// The table its input was taken from, where nobody gave it.
    pub typical: Option<Limit>,
}

/// Typical input of a kind of appliance in Btu/h by the word of its row.
///
/// # Errors
/// An unknown word; the error lists the known ones.
pub fn typical(book: &Book, word: &str) -> Result<(f64, Limit), TradeError> {
    for id in TABLES {
        if let Ok(found) = cite::row(book, id, word) {
            return Ok(found);
        }
    }
    let value = word.chars().take(60).collect();
    Err(TradeError::NoWord { what: Phrase("trade-appliance"), value, known: words(book).join(", ") })
}

/// The words of every row.
pub fn words(book: &Book) -> Vec<&str> {
    TABLES
        .iter()
        .filter_map(|id| book.table(id))
        .flat_map(|t| t.rows.iter().map(|(n, _)| n.as_str()))
        .collect()
}

/// The word of the tables for a name as people write it.
fn word_of(name: &str) -> String {
    let joined = name.trim().to_lowercase().replace([' ', '-'], "_");
    SPOKEN.iter().find(|(spoken, _)| *spoken == joined).map_or(joined, |(_, word)| (*word).to_string())
}

/// Appliances as rows of name and Btu/h give them; where an input is absent and no table knows the kind, what is
/// missing.
///
/// # Errors
/// An input outside the range of [`BtuPerHour`].
pub fn read(book: &Book, rows: &[Given]) -> Result<(Vec<Appliance>, Vec<Said>), TradeError> {
    let (mut appliances, mut missing) = (Vec::new(), Vec::new());
    for row in rows {
        let name = row.text("appliance").unwrap_or_default();
        let (input, limit) = match (row.number("input"), typical(book, &word_of(name))) {
            (Some(input), _) => (input, None),
            (None, Ok((input, limit))) => (input, Some(limit)),
            (None, Err(_)) => {
                missing.push(say!("trade-input-btu-h-nameplate", name = name));
                continue;
            }
        };
        appliances.push(Appliance { name: name.into(), input: BtuPerHour::new(input)?, typical: limit });
    }
    Ok((appliances, missing))
}

/// Sum of inputs, Btu/h.
pub fn sum(appliances: &[Appliance]) -> f64 {
    appliances.iter().map(|a| a.input.get()).sum()
}

/// Names joined by commas, each once.
pub fn names(appliances: &[Appliance]) -> String {
    let mut names: Vec<&str> = Vec::new();
    for appliance in appliances {
        if !names.contains(&appliance.name.as_str()) {
            names.push(&appliance.name);
        }
    }
    names.join(", ")
}

/// The sum written out: `furnace 100,000 + range 65,000 = 165,000 Btu/h`.
pub fn written(appliances: &[Appliance]) -> Said {
    let parts: Vec<String> =
        appliances.iter().map(|a| format!("{} {}", a.name, show_number(a.input.get()))).collect();
    match parts.len() {
        0 => say!("trade-nothing"),
        1 => say!("trade-btu-h-2", concat = parts.concat()),
        _ => say!("trade-btu-h", parts = parts.join(" + "), appliances = show_number(sum(appliances))),
    }
}

/// What was taken because nobody read a nameplate.
pub fn assumed(appliances: &[Appliance]) -> Vec<Assumed> {
    let typical = appliances.iter().filter(|a| a.typical.is_some());
    typical
        .map(|a| Assumed {
            item: say!("trade-input", name = &a.name),
            value: say!("trade-btu-h-typical-read", input = show_number(a.input.get())),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn typical_inputs_are_the_published_ones() {
        // NFPA 54 Table 5.4.2.1 as California Plumbing Code 2013 Table 1208.4.1
        let shelf = catalog().shelf;
        let book = shelf.book("ifgc-2018").unwrap();
        for (word, input) in [
            ("range_freestanding", 65_000.0),
            ("built_in_oven", 25_000.0),
            ("built_in_top", 40_000.0),
            ("dryer_type1", 35_000.0),
            ("water_heater_30_40gal", 35_000.0),
            ("water_heater_50gal", 50_000.0),
            ("barbecue", 40_000.0),
        ] {
            assert_eq!(typical(book, word).unwrap().0, input, "{word}");
        }
        let error = typical(book, "sauna").unwrap_err().message().en();
        assert!(error.contains("sauna") && error.contains("range_freestanding") && error.contains("gas_log"));
    }

    #[test]
    fn every_spoken_name_leads_to_a_row() {
        let shelf = catalog().shelf;
        let book = shelf.book("ifgc-2018").unwrap();
        for (spoken, _) in SPOKEN {
            assert!(typical(book, &word_of(&spoken.replace('_', " "))).is_ok(), "{spoken}");
        }
        assert_eq!(word_of(" Water-Heater 50 gal"), "water_heater_50gal");
    }
}
