//! Trade calculations on what was recorded, and how they enter: a calculation that covers a condition gives its
//! probability; the answers it read are not counted a second time. Those that cover none are shown with the rest.

use survey::catalog::{Catalog, Condition};
use survey::model::Picture;
use survey::units::{Length, inches_16};
use survey::{Phrase, say};
use trade::given::Given;
use trade::tolerance::Reading;
use trade::{Sheet, Standing, find};

use crate::house_network::Measured;
use crate::scope::Scoped;

mod household;
mod inputs;
mod panel;
mod pipes;

use inputs::Inputs;

/// A calculation never claims certainty: what it reads may have been misread in a way no tolerance covers. One in a
/// hundred each way; judgment.
const CERTAIN: [f64; 2] = [0.01, 0.99];

/// How one calculation is run on a house.
struct Runner {
    /// Its word in `trade`.
    word: &'static str,
    /// The answer it rests on: without it the calculation is not shown unless it covers a condition in scope.
    main_item: &'static str,
    /// Gathers what it asks from the answers.
    gather: fn(&mut Inputs<'_>),
}

/// Calculations run on a house, in the order shown.
const RUNNERS: [Runner; 8] = [
    Runner { word: "sink-drain", main_item: "stub-height", gather: pipes::sink_drain },
    Runner { word: "trap-arm", main_item: "arm-length", gather: pipes::trap_arm },
    Runner { word: "drain-size", main_item: "drain-size", gather: pipes::drain_size },
    Runner { word: "gas-run", main_item: "gas-run-length", gather: pipes::gas_run },
    Runner { word: "panel-load", main_item: "floor-area", gather: panel::load },
    Runner { word: "lead-rule", main_item: "year-built", gather: household::lead_rule },
    Runner { word: "outages", main_item: "planned-work", gather: household::outages },
    Runner { word: "wishes", main_item: "wishes", gather: household::wishes },
];

/// A calculation that was run on a house.
#[derive(Clone, Debug, PartialEq)]
pub struct Calculated {
    /// Its word.
    pub word: &'static str,
    /// Its title.
    pub title: Phrase,
    /// Key of the condition in scope it covers.
    pub condition: Option<String>,
    /// The place it was worked out for, where the condition is at each of several.
    pub place: Option<String>,
    /// The answer it rests on.
    pub main_item: &'static str,
    /// Its answer.
    pub sheet: Sheet,
    /// Questions of the walk it looked at, answered or not.
    pub asked: Vec<String>,
    /// What it was given, field and text each; measured lengths as inches with their tolerance.
    pub given: Vec<(String, String)>,
}

impl Calculated {
    /// The probability it gives the condition it covers, if it could be computed.
    pub fn measured(&self) -> Option<Measured> {
        let condition = self.condition.clone()?;
        let p = match (self.sheet.standing, self.sheet.chance_beyond) {
            (Standing::CannotSay | Standing::AskLocally | Standing::Quantity, _) => return None,
            (_, Some(chance)) => Some(chance).filter(|p| p.is_finite())?,
            // Without a tolerance it lies on one side or the other; near without a chance is no answer.
            (Standing::Beyond, None) => 1.0,
            (Standing::Within, None) => 0.0,
            (Standing::Near, None) => return None,
        };
        Some(Measured { condition, p: p.clamp(CERTAIN[0], CERTAIN[1]) })
    }
}

/// Runs every calculation that the answers touch or that covers a condition in scope.
pub fn calculate(catalog: &Catalog, picture: &Picture, scope: &[Scoped<'_>]) -> Vec<Calculated> {
    with_the_rest(covering(catalog, picture, scope), catalog, picture)
}

/// Runs only those that cover a condition in scope, once at each place where it can be: what the odds need, and quick.
pub(crate) fn covering(catalog: &Catalog, picture: &Picture, scope: &[Scoped<'_>]) -> Vec<Calculated> {
    let mut all = Vec::new();
    for runner in &RUNNERS {
        let Some(first) = scope.iter().find(|s| covers(s.condition(), runner)) else { continue };
        let places = scope.iter().filter(|s| s.condition().id == first.condition().id);
        all.extend(places.filter_map(|s| run(runner, catalog, picture, Some(s))));
    }
    all
}

/// All of them in the order shown: those that cover, and those whose main answer is there and that could cover nothing.
pub(crate) fn with_the_rest(
    covering: Vec<Calculated>,
    catalog: &Catalog,
    picture: &Picture,
) -> Vec<Calculated> {
    let mut covering = covering.into_iter().peekable();
    let mut all = Vec::new();
    for runner in &RUNNERS {
        while let Some(done) = covering.next_if(|c| c.word == runner.word) {
            all.push(done);
        }
        let could_cover = catalog.conditions.iter().any(|c| covers(c, runner));
        let answered = picture.value(runner.main_item).is_some_and(survey::log::Value::is_statement);
        if !could_cover && answered {
            all.extend(run(runner, catalog, picture, None));
        }
    }
    all
}

fn covers(c: &Condition, runner: &Runner) -> bool {
    c.measured_by.as_ref().is_some_and(|m| m.calc.word() == runner.word)
}

fn run(
    runner: &Runner,
    catalog: &Catalog,
    picture: &Picture,
    covered: Option<&Scoped<'_>>,
) -> Option<Calculated> {
    run_at(runner, catalog, picture, (covered.map(Scoped::key), covered.and_then(Scoped::place)))
}

/// Runs one calculation on the answers as a place sees them, whether or not there is anything to work it out from. None
/// for a calculation that the walk knows nothing about, and where the answers show that it has no object.
pub fn on_answers(
    catalog: &Catalog,
    picture: &Picture,
    word: &str,
    place: Option<&str>,
) -> Option<Calculated> {
    let runner = RUNNERS.iter().find(|r| r.word == word)?;
    run_at(runner, catalog, picture, (None, place))
}

fn run_at(
    runner: &Runner,
    catalog: &Catalog,
    picture: &Picture,
    (covered, place): (Option<&str>, Option<&str>),
) -> Option<Calculated> {
    let calculation = find(runner.word)?;
    let mut inputs = Inputs::new(catalog, picture.at(place));
    inputs.asks(runner.main_item);
    (runner.gather)(&mut inputs);
    if inputs.beside_the_point {
        return None;
    }
    let asked = inputs.asked();
    let lengths = inputs.lengths.iter().map(|(field, reading)| ((*field).to_owned(), written(reading)));
    let texts: Vec<(String, String)> = lengths.chain(inputs.answers.iter().cloned()).collect();
    let given = Given::read_with(calculation.fields, &inputs.answers, &inputs.lengths);
    let mut sheet = match inputs.cannot_say {
        Some((why, missing, caution)) => Sheet::cannot_say(why, missing, caution),
        None => given.and_then(|given| (calculation.run)(&given, catalog)).unwrap_or_else(|error| {
            Sheet::cannot_say(say!("trade-cannot-computed", error = error.message()), Vec::new(), DECIDES)
        }),
    };
    sheet.assumed.extend(inputs.assumed);
    sheet.notes.extend(inputs.notes);
    Some(Calculated {
        word: calculation.word,
        title: calculation.title,
        condition: covered.map(str::to_owned),
        place: place.map(str::to_owned),
        main_item: runner.main_item,
        sheet,
        asked,
        given: texts,
    })
}

/// A reading as it could be typed: inches in sixteenths where they are exact, else in decimals.
fn written(reading: &Reading) -> String {
    let inches = |length: Length| {
        let sixteenths = length.inches() * 16.0;
        if sixteenths.fract() == 0.0 { inches_16(length) } else { format!("{} in", length.inches()) }
    };
    match reading.tolerance {
        Some(tolerance) => format!("{} ± {}", inches(reading.value), inches(tolerance)),
        None => inches(reading.value),
    }
}

const DECIDES: Phrase = Phrase("trade-licensed-trade-decides-local");

/// Words of the calculations run on a house.
pub fn run_here() -> impl Iterator<Item = &'static str> {
    RUNNERS.iter().map(|r| r.word)
}
