//! What every document looks at: the answers, the frozen forecast, and how to say them.

use assessment::Forecast;
use assessment::forecast::{CalculationForecast, ConditionForecast, Look};
use survey::catalog::{Condition, Item};
use survey::guide::{self, Stop};
use survey::log::Value;
use survey::model::{Picture, Standing};
use survey::units::Money;
use survey::{Digest, Key};
use views::{chances, phrases};
use words::{CatalogWords, catalog, msg};

/// Answers and forecast of a house, with the words of one language.
#[derive(Clone, Copy)]
pub(super) struct Sight<'a> {
    pub(super) say: CatalogWords<'a>,
    pub(super) picture: &'a Picture,
    pub(super) forecast: &'a Forecast,
    /// The photographs in the order shown.
    pub(super) photos: &'a [Digest],
}

impl<'a> Sight<'a> {
    /// The conditions on the pages, likeliest first.
    pub(super) fn listed(&self) -> impl Iterator<Item = &'a ConditionForecast> + use<'a> {
        self.forecast.conditions.iter().filter(|c| super::listed(c))
    }

    /// The catalog's own entry of a condition.
    pub(super) fn catalogued(&self, c: &ConditionForecast) -> Option<&'a Condition> {
        self.say.catalog.condition_of(&c.id)
    }

    /// What a condition is, in a sentence.
    pub(super) fn what(&self, c: &ConditionForecast) -> String {
        let Some(condition) = self.catalogued(c) else { return String::new() };
        self.say.words.catalog(&format!("condition-{}-what", condition.id), &condition.what).into_owned()
    }

    /// Working days it adds, when the work meets it, and who is needed.
    pub(super) fn when(&self, c: &ConditionForecast) -> String {
        let trades: Vec<String> = match self.catalogued(c) {
            Some(condition) => condition.trades.iter().map(|t| self.trade(t)).collect(),
            None => vec![self.trade(&c.trade)],
        };
        [self.days(c), self.stage(&c.stage), trades.join(", ")].join(" · ")
    }

    /// "1/2 to 2 days", or the calendar days of a utility.
    pub(super) fn days(&self, c: &ConditionForecast) -> String {
        let [low, high] = [c.days[0], c.days[2]].map(|days| chances::half_days(self.say.words, days));
        self.say.words.say(&if c.utility_wait {
            msg!("pages-days-wait", low = low, high = high)
        } else {
            msg!("pages-days-range", low = low, high = high)
        })
    }

    /// When the work meets something.
    pub(super) fn stage(&self, stage: &str) -> String {
        self.say.words.say(&match stage {
            "demolition" => msg!("pages-stage-demolition"),
            "rough-in" => msg!("pages-stage-rough-in"),
            _ => msg!("pages-stage-close-up"),
        })
    }

    /// A trade, as the catalog calls it.
    pub(super) fn trade(&self, english: &str) -> String {
        self.say.words.catalog(&format!("trade-{}", catalog::slug(english)), english).into_owned()
    }

    /// Items its clues are read from and its calculation reads, in the catalog's order.
    pub(super) fn items_of(&self, c: &ConditionForecast) -> Vec<&'a str> {
        let Some(condition) = self.catalogued(c) else { return Vec::new() };
        let clues = condition.clues.iter().filter_map(|pair| self.say.catalog.clues.get(&pair.clue));
        let inputs = condition.measured_by.iter().flat_map(|m| m.inputs.iter().map(String::as_str));
        clues.map(|clue| clue.item.as_str()).chain(inputs).collect()
    }

    /// Photographs that show what its clues are read from, as positions.
    pub(super) fn photos_of(&self, c: &ConditionForecast) -> Vec<usize> {
        let items = self.items_of(c);
        let place = Key::parse(&c.id).place;
        self.photos_where(|at, item| {
            let each = self.say.catalog.item(item).is_some_and(|i| i.at_each);
            items.contains(&item) && (!each || place.is_none_or(|place| place == at))
        })
    }

    /// Photographs that show an item at a place for which `wanted` holds, as positions.
    pub(super) fn photos_where(&self, wanted: impl Fn(&str, &str) -> bool) -> Vec<usize> {
        let shows = |digest: &Digest| {
            let Some(seen) = self.picture.photos.get(digest) else { return false };
            let taken = (seen.taken.place.as_deref(), seen.taken.item.as_deref());
            let taken = matches!(taken, (place, Some(item)) if wanted(place.unwrap_or_default(), item));
            taken || seen.shows.iter().any(|(place, item)| wanted(place, item))
        };
        (0..).zip(self.photos).filter(|(_, digest)| shows(digest)).map(|(n, _)| n).collect()
    }

    /// A calculation of the forecast by its word.
    pub(super) fn calculation(&self, word: &str) -> Option<CalculationForecast> {
        let found = self.forecast.calculations.iter().find(|c| c.word == word)?;
        Some(found.said_in(self.say.words))
    }

    /// What was answered to an item of the house.
    pub(super) fn value(&self, item: &str) -> Option<&'a Value> {
        self.picture.value(item)
    }

    /// Every answer that stands: place, item, standing, in the order of the walk.
    pub(super) fn answers(&self) -> Vec<(&'a str, &'a Item, &'a Standing)> {
        let mut all = Vec::new();
        for stop in guide::stops(self.say.catalog, self.picture) {
            all.extend(self.answers_at(&stop).map(|(item, standing)| (stop.place, item, standing)));
        }
        all
    }

    /// The answers that stand at one stop of the walk.
    pub(super) fn answers_at(
        &self,
        stop: &Stop<'a>,
    ) -> impl Iterator<Item = (&'a Item, &'a Standing)> + use<'a> {
        let (picture, station, place) = (self.picture, stop.station, stop.place);
        let items = self.say.catalog.items.iter().filter(move |i| i.station == station.id);
        items.filter_map(move |item| {
            let (_, standing) = guide::seen_by(item, place, picture).standing(&item.id)?;
            Some((item, standing))
        })
    }

    /// Looks that are worth their minutes, best first.
    pub(super) fn looks(&self) -> impl Iterator<Item = &'a Look> + use<'a> {
        self.forecast.looks.iter().filter(|l| l.net_per_minute > Money::ZERO)
    }

    /// Caution of a condition.
    pub(super) fn caution(&self, c: &ConditionForecast) -> String {
        phrases::condition_caution(self.say, c)
    }

    /// One message.
    pub(super) fn words(&self, message: &words::Message) -> String {
        self.say.words.say(message)
    }
}
