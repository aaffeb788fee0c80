//! Load of a house before and after the work, against its service (NEC 220.83 and 220.82).
//!
//! For an existing house 220.83 is used: (A) without, (B) with added cooling or heating. Under (A) cooling and
//! heating that are already there count among the appliances, the larger of the two (220.60). The floor area is the
//! one reading with a tolerance; the load grows evenly with it, so the chance of lying beyond is exact.

use alloc::vec::Vec;

use survey::catalog::Catalog;
use survey::said::in_catalog;
use survey::{Phrase, Said, say};

use super::{CAUTION, count, edition};
use crate::calculation::Calculation;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, spoken};
use crate::measure::{Amperes, SquareFeet, VoltAmperes};
use crate::sheet::Sheet;

mod plan;
mod sheet;

pub use plan::{Load, Method, PanelPlan, Part, State};
pub use sheet::judge;

const VA: Kind = Kind::Number { unit: "VA", min: 0.0, max: 50_000.0 };
const CIRCUITS: Kind = Kind::Number { unit: "", min: 0.0, max: 20.0 };
const SPACES: Kind = Kind::Number { unit: "", min: 0.0, max: 84.0 };
const STATE: Field =
    Field::or("state", Phrase("trade-there-planned-removed"), Kind::Word(State::WORDS), "there");

const TOLERANCE: Field = Field::may(
    "tolerance",
    Phrase("trade-how-far-off-may"),
    Kind::Number { unit: "VA", min: 0.0, max: 50_000.0 },
);

const FIELDS: &[Field] = &[
    Field::must(
        "floor-area",
        Phrase("trade-how-large-house-measured"),
        Kind::Number { unit: "ft²", min: 0.0, max: 50_000.0 },
    ),
    Field::may(
        "floor-area-tolerance",
        Phrase("trade-how-far-off-may-plus"),
        Kind::Number { unit: "ft²", min: 0.0, max: 10_000.0 },
    ),
    Field::or("small-appliance-circuits", Phrase("trade-how-many-20-circuits-feed-kitchens"), CIRCUITS, "2"),
    Field::or("laundry-circuits", Phrase("trade-how-many-20-circuits-feed-laundry"), CIRCUITS, "1"),
    Field::may(
        "appliance",
        Phrase("trade-which-appliances-fastened-place"),
        Kind::Rows(&[
            Field::must("name", Phrase("trade-which"), Kind::Text),
            Field::must("load", Phrase("trade-how-much"), VA),
            STATE,
            TOLERANCE,
        ]),
    ),
    Field::may(
        "vehicle-charger",
        Phrase("trade-which-vehicle-chargers"),
        Kind::Rows(&[Field::must("load", Phrase("trade-how-much"), VA), STATE, TOLERANCE]),
    ),
    Field::may(
        "climate",
        Phrase("trade-which-electric-heating-cooling"),
        Kind::Rows(&[
            Field::must("kind", Phrase("trade-what-2"), Kind::Word(Part::CLIMATE)),
            Field::must("load", Phrase("trade-how-much"), VA),
            STATE,
            Field::or("units", Phrase("trade-how-many-separately-controlled"), CIRCUITS, "1"),
            TOLERANCE,
        ]),
    ),
    Field::must(
        "service",
        Phrase("trade-what-service-rated"),
        Kind::Number { unit: "A", min: 15.0, max: 600.0 },
    ),
    Field::or("volts", Phrase("trade-volts-between-two-hot"), Kind::Word(&["240", "208"]), "240"),
    Field::or(
        "method",
        Phrase("trade-method-existing-dwelling-optional"),
        Kind::Word(&["existing", "optional"]),
        "existing",
    ),
    Field::may("spaces-unused", Phrase("trade-how-many-spaces-panel"), SPACES),
    Field::may("spaces-wanted", Phrase("trade-how-many-spaces-do"), SPACES),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "panel-load",
    title: Phrase("trade-panel-load"),
    about: Phrase("trade-load-house-before-after"),
    fields: FIELDS,
    run,
};

fn plan(given: &Given) -> Result<Option<PanelPlan>, TradeError> {
    let (Some(area), Some(service)) = (given.number("floor-area"), given.number("service")) else {
        return Ok(None);
    };
    let mut loads = Vec::new();
    for line in given.rows("appliance") {
        // What the walk puts here has a word in every language; what a person types is said as typed.
        let name = in_catalog("appliance", line.text("name").unwrap_or_default());
        loads.push(load(line, name, Part::Appliance)?);
    }
    for line in given.rows("vehicle-charger") {
        loads.push(load(line, say!("trade-vehicle-charger"), Part::VehicleCharger)?);
    }
    for line in given.rows("climate") {
        let kind = line.word("kind").unwrap_or_default();
        let part = Part::of(kind, count(line, "units")?.unwrap_or(1));
        loads.push(load(line, spoken(kind), part)?);
    }
    let spaces = count(given, "spaces-unused")?.zip(count(given, "spaces-wanted")?);
    Ok(Some(PanelPlan {
        area: SquareFeet::new(area)?,
        area_tolerance: given.number("floor-area-tolerance").map(SquareFeet::new).transpose()?,
        small_appliance: count(given, "small-appliance-circuits")?.unwrap_or(2),
        laundry: count(given, "laundry-circuits")?.unwrap_or(1),
        loads,
        service: Amperes::new(service)?,
        volts: if given.word("volts") == Some("208") { 208.0 } else { 240.0 },
        method: if given.word("method") == Some("optional") { Method::Optional } else { Method::Existing },
        spaces,
    }))
}

fn load(line: &Given, name: Said, part: Part) -> Result<Load, TradeError> {
    let nameplate = VoltAmperes::new(line.number("load").unwrap_or_default())?;
    let tolerance = VoltAmperes::new(line.number("tolerance").unwrap_or_default())?;
    Ok(Load { name, part, nameplate, tolerance, state: State::of(line.word("state").unwrap_or_default()) })
}

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let Some(plan) = plan(given)? else {
        let missing = given.missing(FIELDS);
        let sentence = Phrase("trade-without-floor-area-rating");
        return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
    };
    let mut sheet = edition::under(given, catalog, edition::Alike::Standing, |book| judge(&plan, book))?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::Standing;
    use crate::testing::{English as _, EnglishList as _};
    use crate::testing::{catalog, run_words};

    /// The house of 220.83(A) with our own appliances; dishwasher and disposer are planned.
    const HOUSE: [(&str, &str); 8] = [
        ("floor-area", "1500"),
        ("floor-area-tolerance", "100"),
        ("appliance", "range, 12000"),
        ("appliance", "dryer, 5000"),
        ("appliance", "water heater, 4500"),
        ("appliance", "dishwasher, 1200, planned"),
        ("appliance", "disposer, 800, planned"),
        ("spaces-unused", "0"),
    ];

    fn sheet(more: &[(&str, &str)]) -> Sheet {
        run_words(&CALCULATION, &[HOUSE.as_slice(), more].concat(), &catalog())
    }

    #[test]
    fn the_load_is_shown_before_and_after_against_the_service() {
        // NEC 220.83(A): 30,500 VA before, 32,500 VA after; 17,000 and 17,800 VA count
        let sheet = sheet(&[("service", "100")]);
        assert_eq!(sheet.standing, Standing::Within);
        assert_eq!(
            sheet.sentence.read(),
            "74.2 A after the work, within the 100 A of the service; 70.8 A before it. \
             Chance that it lies beyond: under 1 in 100."
        );
        assert_eq!(sheet.sigma.as_ref().map(|s| s.read()), Some("60 VA, 0.25 A"));
        let line = |label: &str| sheet.lines.iter().find(|l| l.label.read() == label).map(|l| l.text.read());
        assert_eq!(
            line("After: connected load and what counts"),
            Some("8000 + 0.4 × (32,500 − 8000) = 17,800 VA")
        );
        assert_eq!(line("Room left"), Some("25.8 A"));
        assert!(sheet.limits.iter().any(|l| l.clause == "220.83(A), (B)" && l.edition.contains("NEC 2011")));
    }

    #[test]
    fn a_small_service_is_beyond_and_says_what_would_help() {
        let sheet = sheet(&[("service", "60")]);
        assert_eq!((sheet.standing, sheet.chance_beyond), (Standing::Beyond, Some(1.0)));
        let texts: Vec<_> = sheet.changes.iter().map(|c| (c.text.read(), c.enough)).collect();
        assert_eq!(
            texts,
            [
                ("A service of 100 A instead of 60 A.", true),
                ("Without dishwasher: 72.2 A.", false),
                ("Without disposer: 72.8 A.", false)
            ]
        );
        assert!(sheet.notes.iter().any(|n| n.contains("Measured use")));
    }

    #[test]
    fn near_the_service_the_floor_area_decides() {
        let sheet = sheet(&[("service", "74")]);
        assert_eq!(sheet.standing, Standing::Near);
    }

    #[test]
    fn missing_spaces_are_told_apart_from_the_load() {
        let sheet = sheet(&[("service", "100"), ("spaces-wanted", "2")]);
        assert_eq!(sheet.standing, Standing::Within);
        assert!(sheet.sentence.ends_with("The panel lacks 2 spaces for the circuits wanted."));
        assert_eq!(sheet.changes.len(), 1);
        assert_eq!(
            (sheet.changes[0].text.read(), sheet.changes[0].enough),
            ("Make room for 2 spaces: a small panel beside it, or a larger one.", true)
        );
    }

    #[test]
    fn added_cooling_counts_whole_cooling_that_is_there_in_part() {
        // 220.83(B) against (A): 5000 VA more on 32,500 VA
        let there = sheet(&[("service", "100"), ("climate", "air-conditioning, 5000")]);
        assert!(there.sentence.starts_with("82.5 A after"), "{}", there.sentence); // (17,800 + 2000) ÷ 240
        let added = sheet(&[("service", "100"), ("climate", "air-conditioning, 5000, planned")]);
        assert!(added.sentence.starts_with("95 A after"), "{}", added.sentence); // (17,800 + 5000) ÷ 240
        assert!(added.sentence.contains("70.8 A before"));
    }

    #[test]
    fn a_small_vehicle_charger_counts_7200_volt_amperes_from_2023_on() {
        // NEC 2023 220.57
        let amps = |edition| {
            sheet(&[("service", "200"), ("vehicle-charger", "3800, planned"), ("edition", edition)])
        };
        assert!(amps("2020").sentence.starts_with("80.5 A"), "{}", amps("2020").sentence);
        assert!(amps("2023").sentence.starts_with("86.2 A"), "{}", amps("2023").sentence);
    }

    #[test]
    fn the_optional_method_is_not_for_services_under_100_amperes() {
        // 220.82(A)
        let optional = |amperes| sheet(&[("service", amperes), ("method", "optional")]);
        assert_eq!(optional("60").standing, Standing::CannotSay);
        assert!(optional("100").sentence.starts_with("79.2 A"), "{}", optional("100").sentence); // 10,000 + 0.4 × 22,500
    }

    #[test]
    fn what_cannot_be_said_says_what_is_missing() {
        let sheet = run_words(&CALCULATION, &[("service", "100")], &catalog());
        assert_eq!(
            (sheet.standing, sheet.missing.read_all()),
            (Standing::CannotSay, Vec::from(["floor area"]))
        );
        let answers = [
            ("floor-area".into(), "900".into()),
            ("service".into(), "100".into()),
            ("laundry-circuits".into(), "1.5".into()),
        ];
        assert!(run(&Given::read(FIELDS, &answers).unwrap(), &catalog()).is_err());
    }
}
