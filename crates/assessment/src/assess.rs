//! One house, assessed and frozen in one go.

use survey::catalog::Catalog;
use survey::model::Picture;
use survey::{Stamp, SurveyId};

use crate::clue_table::ClueTables;
use crate::decision::LossRules;
use crate::error::AssessError;
use crate::forecast::Forecast;
use crate::house_network::HouseNetwork;
use crate::live::Live;

/// Joint draws of money and days.
pub const DRAWS: u32 = 20_000;
/// Name and version of the engine, frozen with every assessment.
pub const ENGINE: &str = concat!("underlath ", env!("CARGO_PKG_VERSION"));

/// What is assessed, with everything that does not come from the log handed in.
#[derive(Clone, Copy, Debug)]
pub struct Request<'a> {
    /// The house.
    pub survey: SurveyId,
    /// The folded picture.
    pub picture: &'a Picture,
    /// The catalog.
    pub catalog: &'a Catalog,
    /// Its clue tables.
    pub tables: &'a ClueTables,
    /// The firm's factors.
    pub rules: LossRules,
}

/// Assesses one house. The network that was used comes back beside the frozen assessment.
///
/// # Errors
/// [`AssessError::Impossible`] names the answers that cannot all be true under the model.
pub fn assess(request: &Request<'_>, made_at: Stamp) -> Result<(Forecast, HouseNetwork), AssessError> {
    let mut live = Live::default();
    let mut odds = live.odds(request)?;
    let forecast = odds.freeze(made_at)?;
    Ok((forecast, odds.into_network()))
}
