//! What the calculation asks, and how it answers. Names are those of the questions of the walk, where there are such.

use survey::catalog::Catalog;
use survey::{Phrase, Said, say};

use super::defaults::DrainDefaults;
use super::plan::{CAUTION, CounterDatum, Datum, Mount, SecondBowl, Shell, SinkPlan};
use super::sheet::judge;
use crate::calculation::Calculation;
use crate::dishwasher::Method;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, spoken};
use crate::sheet::Sheet;
use crate::tolerance::Reading;

const fn inches(min: f64, max: f64) -> Kind {
    Kind::Length { min, max, feet: false }
}

const FIELDS: &[Field] = &[
    Field::must("stub-height", Phrase("trade-how-high-center-drain"), inches(0.0, 60.0)),
    Field::may(
        "stub-datum",
        Phrase("trade-where-does-stub-reading"),
        Kind::Word(&["finished-floor", "cabinet-floor"]),
    ),
    Field::must("bowl-depth", Phrase("trade-how-deep-planned-bowl"), inches(3.0, 20.0)),
    Field::may(
        "sink-mount",
        Phrase("trade-how-will-sink-mounted"),
        Kind::Word(&["undermount", "drop-in", "apron-front"]),
    ),
    Field::may(
        "sink-shell",
        Phrase("trade-what-sink-made"),
        Kind::Word(&["steel", "composite", "fireclay", "cast-iron"]),
    ),
    Field::may("sink-rim", Phrase("trade-how-far-does-rim"), inches(0.0, 3.0)),
    Field::may("counter-height", Phrase("trade-how-high-counter-top"), inches(24.0, 48.0)),
    Field::may(
        "counter-datum",
        Phrase("trade-which-floor-height-new"),
        Kind::Word(&["new-floor", "old-floor"]),
    ),
    Field::may("counter-thick", Phrase("trade-how-thick-counter"), inches(0.25, 6.0)),
    Field::may("floor-buildup", Phrase("trade-how-much-higher-will"), inches(0.0, 4.0)),
    Field::may("floor-drop", Phrase("trade-if-will-lower-how"), inches(0.0, 4.0)),
    Field::may("disposer-plan", Phrase("trade-disposer-planned-two-bowls"), Kind::YesNo),
    Field::may("disposer-drop", Phrase("trade-sheet-bowl-underside-disposers"), inches(2.0, 14.0)),
    Field::may("strainer-drop", Phrase("trade-where-strainer-hangs-bowl"), inches(0.5, 10.0)),
    Field::may("trap-run", Phrase("trade-what-level-distance-trap"), inches(0.0, 120.0)),
    Field::may("cabinet-toe-kick", Phrase("trade-how-high-toe-kick"), inches(0.0, 12.0)),
    Field::may("cabinet-floor-thick", Phrase("trade-how-thick-cabinet-floor"), inches(0.0, 3.0)),
    Field::may("second-bowl-depth", Phrase("trade-double-sink-how-deep"), inches(3.0, 20.0)),
    Field::may("second-disposer", Phrase("trade-does-disposer-hang-second"), Kind::YesNo),
    Field::may("second-disposer-drop", Phrase("trade-sheet-underside-second-bowl"), inches(2.0, 14.0)),
    Field::may("second-strainer-drop", Phrase("trade-where-strainer-hangs-second"), inches(0.5, 10.0)),
    Field::may("second-distance", Phrase("trade-how-far-apart-outlets"), inches(4.0, 60.0)),
    Field::may("dishwasher-plan", Phrase("trade-does-dishwasher-drain-this"), Kind::YesNo),
    Field::may(
        "dishwasher-method",
        Phrase("trade-how-dishwasher-joined"),
        Kind::Word(&["air_gap", "air_gap_downstream_of_disposer", "high_loop"]),
    ),
];

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[CALCULATION];

const CALCULATION: Calculation = Calculation {
    word: "sink-drain",
    title: Phrase("trade-sink-drain-fit"),
    about: Phrase("trade-whether-planned-sink-drains"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let missing = given.missing(FIELDS);
    if !missing.is_empty() {
        return Ok(Sheet::cannot_say(Phrase("trade-without-stub-height-bowl"), missing, CAUTION));
    }
    judge(&plan(given)?, &DrainDefaults::of_catalog(catalog)?, &catalog.shelf)
}

fn clash(what: impl Into<Said>, mend: Phrase) -> TradeError {
    TradeError::Clash { what: what.into(), mend }
}

/// The plan that was written down.
fn plan(given: &Given) -> Result<SinkPlan, TradeError> {
    let second_of = ["second-disposer", "second-disposer-drop", "second-strainer-drop", "second-distance"];
    let second = match given.length("second-bowl-depth") {
        Some(depth) => Some(SecondBowl {
            depth,
            disposer: given.yes("second-disposer"),
            disposer_drop: given.length("second-disposer-drop"),
            strainer_drop: given.length("second-strainer-drop"),
            distance: given.length("second-distance"),
        }),
        None => match second_of.into_iter().find(|name| given.has(name)) {
            Some(name) => {
                let what = say!("trade-given-second-bowl-without", name = spoken(name));
                return Err(clash(what, Phrase("trade-give-second-bowls-depth")));
            }
            None => None,
        },
    };
    for (hangs, drop, strainer) in [
        ("disposer-plan", "disposer-drop", "strainer-drop"),
        ("second-disposer", "second-disposer-drop", "second-strainer-drop"),
    ] {
        if given.yes(hangs) == Some(false) && given.has(drop) {
            let what = say!("trade-no-disposer-planned-yet", drop = spoken(drop));
            return Err(clash(what, Phrase("trade-leave-one-two-out")));
        }
        if given.yes(hangs).is_none() && given.has(drop) && given.has(strainer) {
            let what = say!("trade-both-given", drop = spoken(drop), strainer = spoken(strainer));
            return Err(clash(what, Phrase("trade-say-whether-disposer-hangs")));
        }
    }
    if given.yes("dishwasher-plan") == Some(false) && given.has("dishwasher-method") {
        return Err(clash(Phrase("trade-no-dishwasher-drains-here"), Phrase("trade-leave-one-two-out")));
    }
    let lowered = given.length("floor-drop").map(|drop| Reading { value: -drop.value, ..drop });
    if lowered.is_some() && given.has("floor-buildup") {
        return Err(clash(Phrase("trade-floor-said-rise-drop"), Phrase("trade-leave-one-two-out")));
    }
    Ok(SinkPlan {
        mount: match given.word("sink-mount") {
            Some("undermount") => Some(Mount::Undermount),
            Some("drop-in") => Some(Mount::DropIn),
            Some("apron-front") => Some(Mount::ApronFront),
            _ => None,
        },
        bowl_depth: given.length("bowl-depth"),
        shell: match given.word("sink-shell") {
            Some("steel") => Some(Shell::Steel),
            Some("composite") => Some(Shell::Composite),
            Some("fireclay") => Some(Shell::Fireclay),
            Some("cast-iron") => Some(Shell::CastIron),
            _ => None,
        },
        counter_height: given.length("counter-height"),
        counter_datum: match given.word("counter-datum") {
            Some("new-floor") => Some(CounterDatum::NewFloor),
            Some("old-floor") => Some(CounterDatum::OldFloor),
            _ => None,
        },
        counter_thick: given.length("counter-thick"),
        rim: given.length("sink-rim"),
        floor_buildup: given.length("floor-buildup").or(lowered),
        disposer: given.yes("disposer-plan"),
        disposer_drop: given.length("disposer-drop"),
        strainer_drop: given.length("strainer-drop"),
        second,
        dishwasher: given.yes("dishwasher-plan"),
        dishwasher_method: given.word("dishwasher-method").and_then(Method::parse),
        run: given.length("trap-run"),
        stub: given.length("stub-height"),
        stub_datum: match given.word("stub-datum") {
            Some("finished-floor") => Some(Datum::FinishedFloor),
            Some("cabinet-floor") => Some(Datum::CabinetFloor),
            _ => None,
        },
        toe_kick: given.length("cabinet-toe-kick"),
        cabinet_floor_thick: given.length("cabinet-floor-thick"),
    })
}
