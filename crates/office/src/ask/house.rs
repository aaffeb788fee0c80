//! A house as one of its packets holds it, the last one unless another is asked for.

use packet::HouseholdSignature;
use serde::Deserialize;
use serde_json::Value;
use survey::{Digest, SurveyId};
use views::demolition::declared_said;
use views::office_shape::{OfficeHouseView, PageLineView, SignatureView};
use views::{chances, house_view, office, photos, phrases};
use words::msg;

use super::{Arguments, Call, inbox, write};
use crate::{Began, OfficeError};

pub(super) fn house(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Wanted { survey, packet } = args.read()?;
    let survey = call.find(&survey)?;
    let packets = inbox::lines(call, |one| one.survey == survey)?;
    let none = || OfficeError::NoPacket { packet: packet.clone().unwrap_or_else(|| survey.to_string()) };
    // Only among its own: a packet of another house is not here.
    let mut its = packets.iter().map(|line| &line.packet);
    let line = match &packet {
        Some(wanted) => its.find(|packet| *packet == wanted),
        None => its.next(),
    };
    let shown: Digest = line.and_then(|packet| packet.parse().ok()).ok_or_else(none)?;
    let demolition = demolition(call, survey)?;
    let opened = call.kept.open(call.desk, shown)?;
    let (say, forecast) = (call.say(), &opened.forecast);
    let money = &forecast.money;
    let days = &forecast.days;
    write(&OfficeHouseView {
        survey: survey.to_string(),
        label: opened.picture.label().to_owned(),
        closed: call.sight.is_closed(survey),
        packets,
        packet: shown.to_string(),
        signature: opened.signature.as_ref().map(signature),
        record: house_view(survey, &opened.picture, say, Some(forecast)),
        demolition,
        photos: photos::photos(say, &opened.picture, &survey.to_string(), None),
        calculations: office::calculation_lines(call.words, forecast),
        pages: opened
            .about
            .pages
            .iter()
            .map(|(name, bytes)| PageLineView { name: name.clone(), bytes: *bytes })
            .collect(),
        money_cents: [money.p50, money.p80, money.p90].map(|sum| sum.cents()),
        days_said: [days.p50, days.p80, days.p90].map(|days| chances::half_days(call.words, days)),
        caution: phrases::assessment_caution(call.words, forecast),
    })
}

/// One house, and which of its packets.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Wanted {
    survey: String,
    packet: Option<String>,
}

fn signature(of: &HouseholdSignature) -> SignatureView {
    SignatureView {
        name: of.name.clone(),
        at: of.signed_at.to_string(),
        said: of.said.clone(),
        drawn: (!of.strokes.is_empty()).then(|| of.path()),
        wide: HouseholdSignature::WIDE,
        high: HouseholdSignature::HIGH,
    }
}

/// When demolition began, in a sentence.
fn demolition(call: &mut Call<'_>, survey: SurveyId) -> Result<Option<String>, OfficeError> {
    let (what, by, at) = match call.desk.demolition(survey)? {
        None => return Ok(None),
        Some(Began::Found(finding)) => (None, finding.by, finding.at),
        Some(Began::Declared(packet)) => {
            let opened = call.kept.open(call.desk, packet)?;
            // A packet is noted as one that declares it because its log does.
            let Some(declared) = opened.picture.demolition.clone() else { return Ok(None) };
            (Some(declared.reason), declared.by, declared.at)
        }
    };
    let at = words::when(call.words.language(), at);
    Ok(Some(call.words.say(&match what {
        None => msg!("demolition-found", by = by, at = at),
        Some(reason) => declared_said(&by, at, reason.as_deref()),
    })))
}
