//! What the calculation asks, and how it answers. Names are those of the questions of the walk, where there are such.

use alloc::{format, string::ToString};

use survey::catalog::Catalog;

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
    Field::must(
        "stub-height",
        "How high is the center of the drain stub-out above where the reading starts?",
        inches(0.0, 60.0),
    ),
    Field::may(
        "stub-datum",
        "Where does the stub reading start?",
        Kind::Word(&["finished-floor", "cabinet-floor"]),
    ),
    Field::must(
        "bowl-depth",
        "How deep is the planned bowl inside (of two, the one over the trap)?",
        inches(3.0, 20.0),
    ),
    Field::may(
        "sink-mount",
        "How will the sink be mounted?",
        Kind::Word(&["undermount", "drop-in", "apron-front"]),
    ),
    Field::may(
        "sink-shell",
        "What is the sink made of?",
        Kind::Word(&["steel", "composite", "fireclay", "cast-iron"]),
    ),
    Field::may(
        "sink-rim",
        "How far does the rim stand above the counter (drop-in, or an apron front not under it; 0 is flush)?",
        inches(0.0, 3.0),
    ),
    Field::may("counter-height", "How high is the counter top?", inches(24.0, 48.0)),
    Field::may(
        "counter-datum",
        "From which floor is that height: the new one, or today's because the counter stays?",
        Kind::Word(&["new-floor", "old-floor"]),
    ),
    Field::may("counter-thick", "How thick is the counter?", inches(0.25, 6.0)),
    Field::may("floor-buildup", "How much higher will the finished floor be at the sink?", inches(0.0, 4.0)),
    Field::may("floor-drop", "If it will be lower: by how much?", inches(0.0, 4.0)),
    Field::may(
        "disposer-plan",
        "Is a disposer planned (of two bowls, at the one over the trap)?",
        Kind::YesNo,
    ),
    Field::may(
        "disposer-drop",
        "From its sheet: bowl underside to the disposer's outlet center?",
        inches(2.0, 14.0),
    ),
    Field::may(
        "strainer-drop",
        "Where a strainer hangs: bowl underside to the bottom of its body (of two bowls, of both unless said apart)?",
        inches(0.5, 10.0),
    ),
    Field::may("trap-run", "What is the level distance from the trap to the stub-out?", inches(0.0, 120.0)),
    Field::may(
        "cabinet-toe-kick",
        "How high is the toe kick, floor to cabinet underside?",
        inches(0.0, 12.0),
    ),
    Field::may("cabinet-floor-thick", "How thick is the cabinet floor?", inches(0.0, 3.0)),
    Field::may("second-bowl-depth", "Of a double sink: how deep is the second bowl?", inches(3.0, 20.0)),
    Field::may("second-disposer", "Does a disposer hang at the second bowl?", Kind::YesNo),
    Field::may(
        "second-disposer-drop",
        "From its sheet: underside of the second bowl to that disposer's outlet center?",
        inches(2.0, 14.0),
    ),
    Field::may(
        "second-strainer-drop",
        "Where a strainer hangs at the second bowl: its underside to the bottom of that strainer's body?",
        inches(0.5, 10.0),
    ),
    Field::may("second-distance", "How far apart are the outlets of the two bowls?", inches(4.0, 60.0)),
    Field::may("dishwasher-plan", "Does a dishwasher drain at this sink?", Kind::YesNo),
    Field::may(
        "dishwasher-method",
        "How is the dishwasher joined?",
        Kind::Word(&["air_gap", "air_gap_downstream_of_disposer", "high_loop"]),
    ),
];

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[CALCULATION];

const CALCULATION: Calculation = Calculation {
    word: "sink-drain",
    title: "Sink drain fit",
    about: "Whether the planned sink drains into the stub-out that is there, and what would make it.",
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let missing = given.missing(FIELDS);
    if !missing.is_empty() {
        return Ok(Sheet::cannot_say(
            "Without stub height and bowl depth nothing can be said.",
            missing,
            CAUTION,
        ));
    }
    judge(&plan(given)?, &DrainDefaults::of_catalog(catalog)?, &catalog.shelf)
}

fn clash(what: &str, mend: &'static str) -> TradeError {
    TradeError::Clash { what: what.to_string(), mend }
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
                let what = format!("“{}” is given for a second bowl without its depth", spoken(name));
                return Err(clash(&what, "give the second bowl's depth, or leave it out"));
            }
            None => None,
        },
    };
    for (hangs, drop, strainer) in [
        ("disposer-plan", "disposer-drop", "strainer-drop"),
        ("second-disposer", "second-disposer-drop", "second-strainer-drop"),
    ] {
        if given.yes(hangs) == Some(false) && given.has(drop) {
            let what = format!("no disposer is planned, yet its “{}” is given", spoken(drop));
            return Err(clash(&what, "leave one of the two out"));
        }
        if given.yes(hangs).is_none() && given.has(drop) && given.has(strainer) {
            let what = format!("“{}” and “{}” are both given", spoken(drop), spoken(strainer));
            return Err(clash(&what, "say whether a disposer hangs there, or leave one of the two out"));
        }
    }
    if given.yes("dishwasher-plan") == Some(false) && given.has("dishwasher-method") {
        return Err(clash(
            "no dishwasher drains here, yet a way to join it is given",
            "leave one of the two out",
        ));
    }
    let lowered = given.length("floor-drop").map(|drop| Reading { value: -drop.value, ..drop });
    if lowered.is_some() && given.has("floor-buildup") {
        return Err(clash("the floor is said to rise and to drop", "leave one of the two out"));
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
