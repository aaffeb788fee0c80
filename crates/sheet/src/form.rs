//! What a sheet asks: the items of the catalog's sheet stations, as far as the plan leaves them in question.

use survey::catalog::{AnswerKind, Catalog, Choice, Item, PhotoWish, Place, UNSURE};
use survey::model::Picture;
use survey::units::Quantity;
use survey::{Digest, SurveyId, guide};

use crate::catalog_text::{Said, catalog_text, option_id};
use crate::phrases::Language;

/// A sheet for one house.
#[derive(Clone, Debug)]
pub struct Form<'c> {
    /// The house.
    pub survey: SurveyId,
    /// The catalog it was made from.
    pub catalog: Digest,
    /// Questions, in walking order.
    pub questions: Vec<Question<'c>>,
}

/// One question.
#[derive(Clone, Debug)]
pub struct Question<'c> {
    /// Its number on the sheet, from 1.
    pub number: usize,
    /// The item.
    pub item: &'c Item,
    /// How it is answered.
    pub takes: Takes<'c>,
}

/// How a question is answered. "We are not sure" and nothing at all are always possible.
#[derive(Clone, Debug)]
pub enum Takes<'c> {
    /// One of these.
    One(Vec<&'c Choice>),
    /// Any of these; those named second stand alone.
    Several(Vec<&'c Choice>, &'c [String]),
    /// A number or year.
    Number {
        /// Unit symbol; empty for a year or a count.
        unit: &'c str,
        /// Least, as a decimal.
        least: String,
        /// Most, as a decimal.
        most: String,
        /// What zero means, where it is no number ("never").
        zero: Option<&'c str>,
    },
}

/// How a household can answer an item; none for lengths and check results, which the estimator takes.
pub(crate) fn takes(item: &Item) -> Option<Takes<'_>> {
    let sure =
        |options: &'_ [Choice]| options.iter().filter(|o| !UNSURE.contains(&o.id.as_str())).count() > 0;
    match &item.answer {
        AnswerKind::Choice { options } if sure(options) => Some(Takes::One(stated(options))),
        AnswerKind::Choices { options, alone } if sure(options) => {
            Some(Takes::Several(stated(options), alone))
        }
        AnswerKind::Number { unit, min_milli, max_milli, zero_means, .. } => Some(Takes::Number {
            unit,
            least: Quantity { milli: *min_milli, unit: String::new() }.to_string(),
            most: Quantity { milli: *max_milli, unit: String::new() }.to_string(),
            zero: zero_means.as_deref(),
        }),
        _ => None,
    }
}

/// Options that state something: the sheet has one "we are not sure" of its own.
fn stated(options: &[Choice]) -> Vec<&Choice> {
    options.iter().filter(|o| !UNSURE.contains(&o.id.as_str())).collect()
}

/// Whether an item is asked on a sheet, whatever the plan.
pub(crate) fn on_a_sheet(catalog: &Catalog, item: &Item) -> bool {
    let sheet = catalog.stations.iter().any(|s| s.id == item.station && s.place == Place::Sheet);
    sheet && takes(item).is_some()
}

impl<'c> Form<'c> {
    /// The sheet of a house as its log stands: items that the plan certainly rules out are left out, and second looks
    /// that nothing promoted.
    pub fn of(catalog: &'c Catalog, picture: &Picture, survey: SurveyId) -> Self {
        let walked = guide::stops(catalog, picture).map(|stop| &stop.station.id);
        let asked = walked
            .flat_map(|station| catalog.items.iter().filter(move |i| i.station == *station))
            .filter(|i| on_a_sheet(catalog, i) && !i.skipped(picture) && i.in_first_walk(picture));
        let questions = asked
            .filter_map(|item| Some((item, takes(item)?)))
            .enumerate()
            .map(|(at, (item, takes))| Question { number: at + 1, item, takes })
            .collect();
        Self { survey, catalog: catalog.digest, questions }
    }
}

impl<'c> Question<'c> {
    /// The question in words.
    pub fn asks(&self, language: Language) -> Said<'c> {
        catalog_text(language, &format!("item-{}-question", self.item.id), &self.item.question)
    }
    /// Why it is asked.
    pub fn why(&self, language: Language) -> Said<'c> {
        catalog_text(language, &format!("item-{}-why", self.item.id), &self.item.why)
    }
    /// An option in words.
    pub fn option(&self, language: Language, choice: &'c Choice) -> Said<'c> {
        catalog_text(language, &option_id(&self.item.id, &choice.id, &choice.label), &choice.label)
    }
    /// Whether a picture helps.
    pub fn picture_helps(&self) -> bool {
        self.item.photo != PhotoWish::None
    }
}
