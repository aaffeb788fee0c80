//! Assessing a house and freezing what came out.

use assessment::{Forecast, HouseNetwork};
use survey::{Digest, SurveyId};

use crate::{Desk, Error, Kit};

/// A frozen assessment and the network it was computed with.
pub struct Assessed {
    /// The assessment.
    pub forecast: Forecast,
    /// Its frozen bytes.
    pub bytes: Vec<u8>,
    /// Digest of the bytes.
    pub digest: Digest,
    /// Number among this survey's assessments, from 1.
    pub number: u64,
    /// The network, before evidence.
    pub network: HouseNetwork,
}

/// Assesses the house as the log stands and keeps the result beside the earlier ones.
pub fn assess(desk: &mut Desk, survey: SurveyId, kit: &mut Kit<'_>) -> Result<Assessed, Error> {
    let picture = desk.picture(survey)?;
    let request = desk.request(survey, &picture);
    let (forecast, network) = assessment::assess(&request, kit.now())?;
    let bytes = forecast.to_bytes();
    let kept = store::Forecast::new(
        forecast.catalog.digest,
        &forecast.engine,
        forecast.log.entries,
        forecast.made_at,
        bytes.clone(),
    );
    let kept = desk.store.put_forecast(survey, &kept)?;
    Ok(Assessed { forecast, digest: kept.digest, number: kept.n, bytes, network })
}
