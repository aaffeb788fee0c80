//! What was said about each condition beside what was found, and entering the latter.

use std::sync::Arc;

use assessment::Forecast;
use review::{Finding, Outcome, PaidBy};
use serde::Deserialize;
use serde_json::Value;
use survey::units::Money;
use survey::{Digest, SurveyId};
use views::office;

use super::kept::Opened;
use super::{Arguments, Call, short, write};
use crate::OfficeError;

pub(super) fn findings(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let survey = call.house(args)?;
    let (opened, forecast) = judged(call, survey)?;
    let entered = call.desk.findings(survey)?;
    let packet = opened.packet.to_string();
    write(&office::findings(call.say(), (&packet, &forecast), &opened.picture, &entered))
}

/// A finding as it is entered.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Entered {
    survey: String,
    condition: String,
    outcome: Outcome,
    #[serde(default)]
    cost_cents: i64,
    #[serde(default)]
    days_tenths: i64,
    /// It stood in the price; an allowance does too.
    #[serde(default)]
    in_price: bool,
    paid_by: Option<PaidBy>,
    #[serde(default)]
    note: String,
    photo: Option<String>,
}

/// Longest note, in letters.
const NOTE: usize = 2000;

pub(super) fn enter(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let (opened, forecast, key, entered) = keep(call, args, true)?;
    let c = forecast.condition(&key).ok_or_else(|| OfficeError::NotForecast { condition: key.clone() })?;
    let entered: Vec<&Finding> = entered.iter().filter(|f| f.condition == key).collect();
    write(&office::finding_row(call.say(), c, &opened.picture, &entered))
}

/// What was found although nobody forecast it.
pub(super) fn enter_other(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let (_, forecast, key, entered) = keep(call, args, false)?;
    write(&office::other_row(call.say(), &forecast, &key, &entered))
}

type Kept = (Arc<Opened>, Forecast, String, Vec<Finding>);

/// Keeps a finding about a condition that the forecast holds, or about one that it does not: what is asked for otherwise
/// is refused, so that a row never changes sides.
fn keep(call: &mut Call<'_>, args: Arguments, forecasted: bool) -> Result<Kept, OfficeError> {
    let Entered { survey, condition, outcome, cost_cents, days_tenths, in_price, paid_by, note, photo } =
        args.read()?;
    let survey = call.find(&survey)?;
    let (opened, forecast) = judged(call, survey)?;
    let photo = photo.map(|text| filed(call, &text)).transpose()?;
    let note = note.trim();
    if note.chars().count() > NOTE {
        return Err(OfficeError::LongNote { most: NOTE });
    }
    let finding = Finding {
        condition,
        outcome,
        cost: Money::from_cents(cost_cents),
        days: days_tenths as f64 / 10.0,
        priced_before_signing: in_price || paid_by == Some(PaidBy::Allowance),
        paid_by,
        note: note.to_owned(),
        photo,
        by: call.by.to_owned(),
        at: call.now,
    };
    // As the desk spells it, whatever was given; held against the forecast first, so that a refusal keeps nothing.
    let key = call.desk.condition_key(survey, &finding.condition, call.catalog)?;
    match (forecasted, forecast.condition(&key)) {
        (true, None) => return Err(OfficeError::NotForecast { condition: key }),
        (false, Some(_)) => return Err(OfficeError::InForecast { condition: key }),
        _ => {}
    }
    call.desk.enter(survey, &finding, call.catalog)?;
    let entered = call.desk.findings(survey)?;
    Ok((opened, forecast, key, entered))
}

/// A photograph that was sent before the finding it belongs to.
fn filed(call: &Call<'_>, text: &str) -> Result<Digest, OfficeError> {
    let missing = || OfficeError::NoPhoto { photo: short(text) };
    let digest: Digest = text.parse().map_err(|_| missing())?;
    // One of a house they do not see is not there for them, or it could be brought into sight by another finding.
    let seen = call.desk.is_finding_photo_seen(digest, call.sight)?;
    (seen && call.desk.finding_photo_path(digest).is_file()).then_some(digest).ok_or_else(missing)
}

/// The packet a house is judged by, opened, with its forecast. Where two packets hold the same forecast, the later.
pub(super) fn judged(call: &mut Call<'_>, survey: SurveyId) -> Result<(Arc<Opened>, Forecast), OfficeError> {
    let none = || OfficeError::NoForecast { survey: survey.to_string() };
    let (digest, forecast) = call.desk.judged_forecast(survey)?.ok_or_else(none)?;
    let packets = call.desk.packets()?;
    for one in packets.iter().rev().filter(|one| one.survey == survey) {
        if call.desk.about(one.digest).is_ok_and(|about| about.assessment == digest) {
            return Ok((call.kept.open(call.desk, one.digest)?, forecast));
        }
    }
    Err(none())
}
