//! The office desk in the language of `say`: what was said before demolition beside what was found.

mod compared;
mod findings;
mod learning;
mod record;

pub use compared::compared;
pub use findings::{borne, finding_row, findings, other_row};
pub use learning::{Found, Progress, learning, what};
pub use record::{Houses, diagram, track};

use assessment::forecast::{CalculationForecast, Forecast};
use words::{Words, msg};

use crate::office_shape::CalculationLineView;

/// The trade calculations of a frozen assessment, each in a line.
pub fn calculation_lines(words: &Words, forecast: &Forecast) -> Vec<CalculationLineView> {
    let place = |c: &CalculationForecast| {
        let condition = forecast.condition(c.condition.as_deref()?)?;
        condition.place.as_ref().map(|place| place.label.clone())
    };
    let line = |c: &CalculationForecast| {
        let said = c.said_in(words);
        CalculationLineView {
            title: said.title,
            place: place(c),
            standing: c.standing.clone(),
            sentence: said.sentence,
            caution: said.caution,
        }
    };
    forecast.calculations.iter().map(line).collect()
}

/// A stage of the work in words.
pub fn stage_words(words: &Words, stage: &str) -> String {
    words.say(&match stage {
        "demolition" => msg!("pages-stage-demolition"),
        "close-up" => msg!("pages-stage-close-up"),
        _ => msg!("pages-stage-rough-in"),
    })
}
