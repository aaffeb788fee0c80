//! Odds and money as the answers stand, for a screen that stays open. Nothing is frozen: that is for sealing, and for
//! whoever asks for it ([`crate::assess()`]).

use assessment::{Depth, Forecast};
use survey::SurveyId;
use survey::units::Money;
use views::{OddsNowView, assessment_view};

use crate::weigh::{Kept, to_settle};
use crate::{Desk, Error, Kit};

/// What was worked out last of a house, and after which entry.
#[derive(Clone, Debug)]
pub(crate) struct Told {
    entries: u64,
    depth: Depth,
    forecast: Forecast,
}

fn money(p80: Money) -> OddsNowView {
    OddsNowView { p80_cents: Some(p80.cents()), assessment: None, whole: false, trouble: None }
}

/// Answers that cannot all be true are for the person to settle; the walk goes on.
fn troubled(desk: &Desk, error: Error) -> Result<Option<OddsNowView>, Error> {
    let trouble = Some(to_settle(desk, error)?);
    Ok(Some(OddsNowView { p80_cents: None, assessment: None, whole: false, trouble }))
}

/// Money to carry at P80 alone, which the foot of every leaf shows after each touch; `None` if `go_on` said no on the
/// way.
///
/// # Errors
/// No such survey, or a house that cannot be assessed.
pub fn money_now(
    desk: &Desk,
    kept: &mut Kept,
    survey: SurveyId,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<OddsNowView>, Error> {
    let picture = desk.picture(survey)?;
    kept.turn_to(survey);
    if let Some(told) = kept.told.as_ref().filter(|told| told.entries == picture.entries) {
        return Ok(Some(money(told.forecast.money.p80)));
    }
    let request = desk.request(survey, &picture);
    match kept.live.odds(&request).and_then(|odds| odds.p80(go_on)) {
        Ok(p80) => Ok(p80.map(money)),
        Err(error) => troubled(desk, error.into()),
    }
}

/// Every condition in scope with its odds, and money and days; with the `whole` also how each came about. `None` if
/// `go_on` said no on the way.
///
/// # Errors
/// No such survey, or a house that cannot be assessed.
pub fn odds_now(
    desk: &Desk,
    kept: &mut Kept,
    (survey, whole): (SurveyId, bool),
    go_on: &mut dyn FnMut() -> bool,
    kit: &Kit<'_>,
) -> Result<Option<OddsNowView>, Error> {
    let picture = desk.picture(survey)?;
    kept.turn_to(survey);
    let depth = if whole { Depth::Why } else { Depth::Odds };
    let known = |told: &Told| told.entries == picture.entries && told.depth >= depth;
    if !kept.told.as_ref().is_some_and(known) {
        let request = desk.request(survey, &picture);
        let told = kept.live.odds(&request).and_then(|mut odds| odds.tell(depth, kit.now(), go_on));
        match told {
            Ok(Some(forecast)) => kept.told = Some(Told { entries: picture.entries, depth, forecast }),
            Ok(None) => return Ok(None),
            Err(error) => return troubled(desk, error.into()),
        }
    }
    Ok(kept.told.as_ref().map(|told| OddsNowView {
        assessment: Some(assessment_view(&told.forecast, desk.say())),
        whole: told.depth >= Depth::Why,
        ..money(told.forecast.money.p80)
    }))
}
