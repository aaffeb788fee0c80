//! Each condition of a forecast with its evidence and the finding that stands.

use std::collections::{BTreeSet, HashMap};

use assessment::STAGES;
use assessment::forecast::{ConditionForecast, Forecast, PlaceRef, Reason};
use review::{Finding, Outcome, PaidBy};
use survey::model::{PhotoSeen, Picture};
use survey::{Digest, Key};
use words::CatalogWords;

use crate::house::path;
use crate::office_shape::{
    BorneView, FindingRowView, FindingsView, FoundView, OtherChoiceView, OtherRowView, OutcomeView,
    StageView, SurveyPictureView,
};
use crate::{chances, phrases};

use super::stage_words;

/// Most photographs of the survey that stand beside a finding.
const PICTURES: usize = 6;

/// All conditions by the stage that lays them bare. `packet` is the digest of the one whose forecast this is, `picture`
/// what its log folds to.
pub fn findings(
    say: CatalogWords<'_>,
    (packet, forecast): (&str, &Forecast),
    picture: &Picture,
    findings: &[Finding],
) -> FindingsView {
    let mut by_condition: HashMap<&str, Vec<&Finding>> = HashMap::new();
    findings.iter().for_each(|f| by_condition.entry(&f.condition).or_default().push(f));
    let stage = |id: &str| {
        let mut there: Vec<&ConditionForecast> = forecast
            .conditions
            .iter()
            .filter(|c| c.stage == id || (id == "rough-in" && !STAGES.iter().any(|(_, s)| *s == c.stage)))
            .collect();
        there.sort_by(|a, b| b.probability.total_cmp(&a.probability));
        let row = |c: &ConditionForecast| {
            let entered = by_condition.get(c.id.as_str()).map_or(&[][..], Vec::as_slice);
            finding_row(say, c, picture, entered)
        };
        StageView {
            id: id.to_owned(),
            name: stage_words(say.words, id),
            rows: there.into_iter().map(row).collect(),
        }
    };
    FindingsView {
        survey: forecast.survey.to_string(),
        label: forecast.label.clone(),
        packet: packet.to_owned(),
        frozen_at: forecast.made_at.to_string(),
        stages: STAGES.iter().map(|(_, id)| stage(id)).filter(|s| !s.rows.is_empty()).collect(),
        others: others(say, forecast, findings),
        choices: choices(say, forecast, &by_condition),
        caution: phrases::assessment_caution(say.words, forecast),
    }
}

/// One condition, with what was entered about it in the order it was.
pub fn finding_row(
    say: CatalogWords<'_>,
    c: &ConditionForecast,
    picture: &Picture,
    entered: &[&Finding],
) -> FindingRowView {
    FindingRowView {
        key: c.id.clone(),
        name: phrases::bare_name(say.words, c),
        place: c.place.as_ref().map(|p| p.label.clone()),
        probability: c.probability,
        base: c.base,
        band: c.band,
        about_in10: phrases::about_in_10(say.words, c.probability),
        words: phrases::odds_words(say.words, c.probability),
        cost_cents: c.cost.map(|cost| cost.cents()),
        days_said: c.days.map(|days| chances::half_days(say.words, days)),
        advice: phrases::advice_words(say.words, c),
        in_base_price: c.in_base_price,
        caution: phrases::condition_caution(say, c),
        because: c.because.iter().map(|reason| phrases::reason_words(say, reason)).collect(),
        path: path(c, say),
        pictures: pictures(say, c, picture),
        finding: entered.last().map(|f| found(f)),
        earlier: entered.len().saturating_sub(1) as u32,
    }
}

/// What was entered about conditions that the forecast does not hold.
fn others(say: CatalogWords<'_>, forecast: &Forecast, findings: &[Finding]) -> Vec<OtherRowView> {
    let mut seen = BTreeSet::new();
    let keys = findings.iter().map(|f| f.condition.as_str());
    let first = keys.filter(|key| forecast.condition(key).is_none() && seen.insert(*key));
    first.filter_map(|key| other_row(say, forecast, key, findings)).collect()
}

/// A condition that the forecast does not hold, with what was entered about it; none while nothing was.
pub fn other_row(
    say: CatalogWords<'_>,
    forecast: &Forecast,
    key: &str,
    findings: &[Finding],
) -> Option<OtherRowView> {
    let entered: Vec<&Finding> = findings.iter().filter(|f| f.condition == key).collect();
    let finding = found(entered.last()?);
    let OtherChoiceView { key, name, place } = choice(say, forecast, key);
    Some(OtherRowView { key, name, place, finding, earlier: entered.len() as u32 - 1 })
}

/// Conditions of the catalog without a row, at each place where the house has several.
fn choices(
    say: CatalogWords<'_>,
    forecast: &Forecast,
    entered: &HashMap<&str, Vec<&Finding>>,
) -> Vec<OtherChoiceView> {
    let keys = say.catalog.conditions.iter().flat_map(|c| {
        let home = c.place.as_deref();
        let places: Vec<Option<&str>> = forecast
            .places
            .iter()
            .filter(|p| Some(p.station.as_str()) == home)
            .map(|p| Some(p.id.as_str()))
            .collect();
        let places = if places.is_empty() { vec![None] } else { places };
        places.into_iter().map(move |place| Key::new(&c.id, place, home).to_string())
    });
    let without = keys.filter(|key| forecast.condition(key).is_none() && !entered.contains_key(key.as_str()));
    let mut choices: Vec<OtherChoiceView> = without.map(|key| choice(say, forecast, &key)).collect();
    choices.sort_by_cached_key(|one| (one.name.to_lowercase(), one.key.clone()));
    choices
}

fn choice(say: CatalogWords<'_>, forecast: &Forecast, key: &str) -> OtherChoiceView {
    let parsed = Key::parse(key);
    let home = say.catalog.condition(parsed.id).and_then(|known| known.place.as_deref());
    // The first place has its station's id and is left out of keys.
    let at = parsed.place.or(home);
    let place =
        forecast.places.iter().find(|p| Some(p.id.as_str()) == at && Some(p.station.as_str()) == home);
    OtherChoiceView {
        key: key.to_owned(),
        name: say.condition(key).into_owned(),
        place: place.map(|p| p.label.clone()),
    }
}

fn found(f: &Finding) -> FoundView {
    FoundView {
        outcome: outcome(f.outcome),
        cost_cents: f.cost.cents(),
        days_tenths: libm::round(f.days * 10.0) as i64,
        borne: borne(f),
        note: f.note.clone(),
        photo: f.photo.map(|digest| digest.to_string()),
        by: f.by.clone(),
        at: f.at.to_string(),
    }
}

pub(super) fn outcome(outcome: Outcome) -> OutcomeView {
    match outcome {
        Outcome::Found => OutcomeView::Found,
        Outcome::NotThere => OutcomeView::NotThere,
        Outcome::NotOpened => OutcomeView::NotOpened,
    }
}

/// Who bore the cost of a finding: who is named, and where nobody is, whether it stood in the price.
pub fn borne(f: &Finding) -> BorneView {
    match f.paid_by {
        Some(PaidBy::Absorbed) => BorneView::Absorbed,
        Some(PaidBy::Allowance) => BorneView::Allowance,
        Some(PaidBy::ChangeOrder) => BorneView::ChangeOrder,
        None if f.priced_before_signing => BorneView::InPrice,
        None => BorneView::NotSaid,
    }
}

/// Photographs that show an answer which moved the odds come first, the strongest answer's before the others'; then those
/// taken at the condition's place.
fn pictures(say: CatalogWords<'_>, c: &ConditionForecast, picture: &Picture) -> Vec<SurveyPictureView> {
    let asked_at = |item: &str, place: Option<&PlaceRef>| match place {
        Some(place) => Some(place.id.clone()),
        None => say.catalog.item(item).map(|found| found.station.clone()),
    };
    let steps = c.path.iter().flatten().filter_map(|step| step.answer.as_ref());
    let spots: Vec<(String, &str)> = c
        .because
        .iter()
        .chain(steps)
        .filter_map(|Reason { item, place, .. }| Some((asked_at(item, place.as_ref())?, item.as_str())))
        .collect();
    let key = Key::parse(&c.id);
    let home = key
        .place
        .map(str::to_owned)
        .or_else(|| say.catalog.condition(key.id).and_then(|known| known.place.clone()));
    let shows = |seen: &PhotoSeen, (place, item): &(String, &str)| {
        seen.shows.iter().any(|(p, i)| p == place && i == item)
    };
    let at_home = |seen: &PhotoSeen| {
        home.as_ref().is_some_and(|home| {
            seen.taken.place.as_ref() == Some(home) || seen.shows.iter().any(|(place, _)| place == home)
        })
    };
    let mut chosen: Vec<(&Digest, &PhotoSeen)> = Vec::new();
    let mut taken: BTreeSet<&Digest> = BTreeSet::new();
    for spot in &spots {
        chosen
            .extend(picture.photos.iter().filter(|(digest, seen)| shows(seen, spot) && taken.insert(digest)));
    }
    chosen.extend(picture.photos.iter().filter(|(digest, seen)| at_home(seen) && taken.insert(digest)));
    chosen.truncate(PICTURES);
    chosen
        .into_iter()
        .map(|(digest, seen)| SurveyPictureView {
            digest: digest.to_string(),
            at: seen.at.to_string(),
            place: crate::photos::place_of(seen).map(|place| phrases::place_words(say, picture, place)),
            shows: crate::photos::shows(say, seen),
            width: seen.taken.width,
            height: seen.taken.height,
            marks: crate::photos::marks(seen),
        })
        .collect()
}
