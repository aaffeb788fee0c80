//! Trade calculations on what was measured, and how they enter: a calculation that covers a condition gives its
//! probability; the answers it read are not counted a second time.

use survey::catalog::{Answers, Calculation, Catalog, Condition};
use survey::log::Value;
use survey::model::Picture;
use survey::units::Length;
use trade::{Datum, DrainAnswer, DrainDefaults, Mount, Shell, SinkPlan};

use crate::forecast::{DrainFit, DrainForecast, round2, round6};
use crate::house_network::Measured;

/// Calculations this program runs; a condition measured by another one keeps its clues.
pub const RUN_HERE: [Calculation; 1] = [Calculation::SinkDrainFit];

/// Outcome of the sink drain fit for a house.
#[derive(Clone, Debug, PartialEq)]
pub struct DrainOutcome {
    condition: Option<String>,
    answer: Option<DrainAnswer>,
}

const STUB: &str = "stub-height";

fn length(answers: &dyn Answers, item: &str) -> Option<Length> {
    match answers.value(item) {
        Some(Value::Length(length)) => Some(*length),
        _ => None,
    }
}

fn choice<'a>(answers: &'a dyn Answers, item: &str) -> Option<&'a str> {
    match answers.value(item) {
        Some(Value::Choice(option)) => Some(option),
        _ => None,
    }
}

fn yes_no(answers: &dyn Answers, item: &str) -> Option<bool> {
    match choice(answers, item) {
        Some("yes") => Some(true),
        Some("no") => Some(false),
        _ => None,
    }
}

/// The planned sink and the stub, from the answers. The firm has not chosen a family of code yet.
pub fn drain_plan(picture: &Picture) -> SinkPlan {
    let stub = picture.answer(STUB).and_then(|a| match a.value {
        Value::Length(reading) => Some((reading, a.tolerance.unwrap_or(Length::ZERO))),
        _ => None,
    });
    SinkPlan {
        mount: match choice(picture, "sink-mount") {
            Some("undermount") => Some(Mount::Undermount),
            Some("drop-in") => Some(Mount::DropIn),
            Some("apron-front") => Some(Mount::ApronFront),
            _ => None,
        },
        bowl_depth: length(picture, "bowl-depth"),
        shell: match choice(picture, "sink-shell") {
            Some("steel") => Some(Shell::Steel),
            Some("composite") => Some(Shell::Composite),
            Some("fireclay") => Some(Shell::Fireclay),
            Some("cast-iron") => Some(Shell::CastIron),
            _ => None,
        },
        counter_height: length(picture, "counter-height"),
        counter_thick: length(picture, "counter-thick"),
        floor_buildup: length(picture, "floor-buildup"),
        disposer: yes_no(picture, "disposer-plan"),
        disposer_drop: length(picture, "disposer-drop"),
        dishwasher: yes_no(picture, "dishwasher-plan"),
        run: length(picture, "trap-run"),
        stub,
        stub_datum: match choice(picture, "stub-datum") {
            Some("finished-floor") => Some(Datum::FinishedFloor),
            Some("cabinet-floor") => Some(Datum::CabinetFloor),
            _ => None,
        },
        toe_kick: length(picture, "cabinet-toe-kick"),
        cabinet_floor_thick: length(picture, "cabinet-floor-thick"),
        code: None,
    }
}

fn defaults(catalog: &Catalog) -> DrainDefaults {
    let table = DrainDefaults::from_table(|id| {
        let d = catalog.drain_defaults.get(id)?;
        Some((d.length.inches(), d.sigma_measured, d.sigma_assumed))
    });
    // The catalog's loader has checked that every default is there.
    table.unwrap_or_else(|_| DrainDefaults::trade())
}

/// Runs the drain fit when a condition in scope is measured by it.
pub fn drain_fit(catalog: &Catalog, picture: &Picture, scope: &[&Condition]) -> DrainOutcome {
    let covered =
        scope.iter().find(|c| c.measured_by.as_ref().is_some_and(|m| m.calc == Calculation::SinkDrainFit));
    DrainOutcome {
        condition: covered.map(|c| c.id.clone()),
        answer: covered.map(|_| trade::fit(&drain_plan(picture), &defaults(catalog))),
    }
}

impl DrainOutcome {
    /// The probability it gives, if it ran.
    pub fn measured(&self) -> Vec<Measured> {
        match (&self.condition, &self.answer) {
            (Some(condition), Some(DrainAnswer::Fit(fit))) => {
                vec![Measured { condition: condition.clone(), p: fit.p_over_practical }]
            }
            _ => Vec::new(),
        }
    }
    /// True when it gave this condition's probability.
    pub(crate) fn measures(&self, condition: &str) -> bool {
        self.measured().iter().any(|m| m.condition == condition)
    }
    /// The measurement it rests on.
    pub(crate) fn main_item(&self) -> Option<&'static str> {
        (!self.measured().is_empty()).then_some(STUB)
    }
    /// As it is frozen.
    pub(crate) fn freeze(&self) -> DrainForecast {
        let fit = match &self.answer {
            None => return DrainForecast::NotInPlan,
            Some(DrainAnswer::CannotSay { missing }) => {
                return DrainForecast::CannotSay {
                    missing: missing.iter().map(|m| (*m).to_owned()).collect(),
                };
            }
            Some(DrainAnswer::Fit(fit)) => fit,
        };
        DrainForecast::Fit(Box::new(DrainFit {
            verdict: fit.verdict.word().replace('_', "-"),
            sentence: sentence(fit),
            stub_in: round2(fit.stub),
            stub_max_in: round2(fit.levels.stub_max),
            stub_abs_in: round2(fit.levels.stub_abs),
            margin_in: round2(fit.margin),
            sigma_in: round6(fit.sigma),
            p_over_practical: round6(fit.p_over_practical),
            p_over_absolute: round6(fit.p_over_absolute),
            arithmetic: fit.lines.iter().map(|l| [l.label.clone(), l.text.clone()]).collect(),
            limits: fit
                .limits
                .iter()
                .map(|l| {
                    [
                        format!("{}: {}", l.rule, l.value),
                        format!("{}, {}, {}", l.document, l.edition, l.clause),
                    ]
                })
                .collect(),
            assumed: fit.assumed.iter().map(|a| format!("{}: {}", a.item, a.value)).collect(),
            remedies: fit.remedies.iter().map(|r| r.text.clone()).collect(),
            caution: fit.caution.to_owned(),
        }))
    }
}

/// The result in one sentence, with how sure.
fn sentence(fit: &trade::DrainFit) -> String {
    let inches = |x: f64| Length::from_inches(x.abs()).map(survey::units::inches_16).unwrap_or_default();
    let chance = crate::forecast::in_100;
    match fit.verdict {
        trade::Verdict::Fits => format!(
            "The stub at {} above the new floor lies {} below the highest that drains well; chance that it must come down {}.",
            inches(fit.stub),
            inches(fit.margin),
            chance(fit.p_over_practical)
        ),
        trade::Verdict::Marginal => format!(
            "The stub at {} above the new floor lies {} above the highest that drains well; chance that it should come down {}, that it must {}.",
            inches(fit.stub),
            inches(fit.margin),
            chance(fit.p_over_practical),
            chance(fit.p_over_absolute)
        ),
        trade::Verdict::MustMove => format!(
            "The stub at {} above the new floor lies {} above the highest that drains well; chance that it should come down {}, that it must {}.",
            inches(fit.stub),
            inches(fit.margin),
            chance(fit.p_over_practical),
            chance(fit.p_over_absolute)
        ),
        trade::Verdict::TooLow => format!(
            "The stub at {} above the new floor lies so low that the trap would hang more than the code’s distance below the outlet.",
            inches(fit.stub)
        ),
    }
}
