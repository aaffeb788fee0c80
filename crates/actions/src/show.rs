//! Showing: the list of houses, and one house as it stands.

use store::Card;
use survey::{SurveyId, guide};
use views::{CardPacketView, HouseCard, HouseView, house_card, house_view};
use words::msg;

use crate::{Desk, Error, Kind};

/// All houses on this device, last touched first.
pub fn houses(desk: &Desk) -> Result<Vec<HouseCard>, Error> {
    let made_by = format!("{} {}", desk.catalog.digest, env!("CARGO_PKG_VERSION"));
    let mut cards = Vec::new();
    let mut fresh = Vec::new();
    for row in desk.store.cards(&made_by)? {
        let kept = row.line.as_deref().and_then(|line| serde_json::from_str::<HouseCard>(line).ok());
        let survey = row.survey.survey;
        let mut card = match kept {
            Some(card) => card,
            None => {
                let picture = desk.picture(survey)?;
                let card = house_card(survey, &picture, &desk.catalog, desk.latest(survey)?.as_ref());
                let line = serde_json::to_string(&card)
                    .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())))?;
                fresh.push((survey, row.survey.entries, row.assessed, line));
                card
            }
        };
        card.packet = row.packet.map(|(number, inside)| CardPacketView {
            number,
            since: u32::try_from(row.survey.entries.saturating_sub(inside)).unwrap_or(u32::MAX),
        });
        cards.push(card);
    }
    let lines: Vec<(SurveyId, Card<'_>)> = fresh
        .iter()
        .map(|(survey, entries, assessed, line)| {
            (*survey, Card { entries: *entries, assessed: *assessed, made_by: &made_by, line })
        })
        .collect();
    if !lines.is_empty() {
        // Only kept to be quicker the next time: a full disk takes nothing from the list.
        let _ = desk.store.keep_cards(&lines);
    }
    Ok(cards)
}

/// One house as it stands.
pub fn house(desk: &Desk, survey: SurveyId) -> Result<HouseView, Error> {
    let picture = desk.picture(survey)?;
    Ok(house_view(survey, &picture, desk.say(), desk.latest(survey)?.as_ref()))
}

/// A remark in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// When, to the minute.
    pub at: String,
    /// Who.
    pub by: String,
    /// The item it belongs to, if any.
    pub item: Option<String>,
    /// Name of the place it belongs to, where the house has several.
    pub place: Option<String>,
    /// The words.
    pub text: String,
}

/// Remarks about a house, in log order.
pub fn remarks(desk: &Desk, survey: SurveyId) -> Result<Vec<Remark>, Error> {
    let picture = desk.picture(survey)?;
    let one = |(at, by, note): &(survey::Stamp, String, survey::log::Note)| Remark {
        at: words::when(desk.words().language(), *at),
        by: by.clone(),
        item: note.item.clone(),
        place: note.place.as_deref().and_then(|p| guide::place_name(&desk.catalog, &picture, p)),
        text: note.text.clone(),
    };
    Ok(picture.notes.iter().map(one).collect())
}
