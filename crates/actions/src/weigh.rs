//! Weighing: what the answers so far make of the questions and looks that are left, for a screen that stays open.
//!
//! The walk itself needs no odds, so that a tap never waits for them. What depends on odds is weighed between taps,
//! with the assessment kept from tap to tap ([`assessment::Live`]), and is broken off when the next tap is there.

use std::collections::{BTreeMap, BTreeSet};

use assessment::forecast::Look;
use assessment::{Clashes, Live, after_report};
use survey::guide::Because;
use survey::log::{CheckResult, Value};
use survey::model::Picture;
use survey::units::Money;
use survey::{Key, SurveyId, guide};
use views::phrases;
use views::walk_shape::{AskView, ChangeView, ClashView, LeavingView, LookNextView, LookView};
use words::msg;

use crate::next::{Ask, Next, next_of};
use crate::{Desk, Error, Kind};

/// Looks and questions shown: those worth most.
const SHOWN: usize = 3;
/// Conditions shown that one look could move, each at every place it serves.
const MOVED: usize = 2;

/// What one house's answers are kept weighed with. Nothing in it is worth saving.
#[derive(Clone, Debug, Default)]
pub struct Kept {
    survey: Option<SurveyId>,
    pub(crate) live: Live,
    weighed: Option<Weighed>,
    pub(crate) told: Option<crate::odds_now::Told>,
}

/// What was weighed, and after which entry.
#[derive(Clone, Debug)]
struct Weighed {
    entries: u64,
    next: Next,
    /// P(present) of each condition in scope, by key.
    odds: BTreeMap<String, f64>,
}

impl Kept {
    pub(crate) fn turn_to(&mut self, survey: SurveyId) {
        if self.survey != Some(survey) {
            *self = Self { survey: Some(survey), ..Self::default() };
        }
    }
    /// What was weighed last in this house, however many answers have come since.
    pub(crate) fn next(&self, survey: SurveyId) -> Option<&Next> {
        (self.survey == Some(survey)).then_some(self.weighed.as_ref()).flatten().map(|w| &w.next)
    }
}

/// Weighs a house as its log stands, unless that is done. False if `go_on` said no on the way; what was weighed before
/// then stays.
///
/// # Errors
/// Answers that cannot all be true, or a house that cannot be assessed.
pub fn weigh(
    desk: &Desk,
    kept: &mut Kept,
    survey: SurveyId,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<bool, Error> {
    weigh_picture(desk, kept, survey, &*desk.picture(survey)?, go_on)
}

fn weigh_picture(
    desk: &Desk,
    kept: &mut Kept,
    survey: SurveyId,
    picture: &Picture,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<bool, Error> {
    kept.turn_to(survey);
    if kept.weighed.as_ref().is_some_and(|w| w.entries == picture.entries) {
        return Ok(true);
    }
    if !go_on() {
        return Ok(false);
    }
    let request = desk.request(survey, picture);
    let mut odds = kept.live.odds(&request)?;
    let chances = odds.conditions().map(|(key, p)| (key.to_owned(), p)).collect();
    let Some(next) = next_of(desk, &request, &mut odds, None, go_on)? else { return Ok(false) };
    kept.weighed = Some(Weighed { entries: picture.entries, next, odds: chances });
    Ok(true)
}

/// The three looks worth their minutes, as weighed, and none once demolition was declared; `None` if `go_on` said no on the way.
///
/// # Errors
/// No such survey.
pub fn look_next(
    desk: &Desk,
    kept: &mut Kept,
    survey: SurveyId,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<LookNextView>, Error> {
    let picture = desk.picture(survey)?;
    let mut view = LookNextView {
        survey: survey.to_string(),
        label: picture.label().to_owned(),
        looks: Vec::new(),
        minutes: 0.0,
        gathered: String::new(),
        ask: None,
        trouble: None,
    };
    match weigh_picture(desk, kept, survey, &picture, go_on) {
        Ok(true) => {}
        Ok(false) => return Ok(None),
        Err(error) => {
            view.trouble = Some(to_settle(desk, error)?);
            return Ok(Some(view));
        }
    }
    let Some(Weighed { next, odds, .. }) = &kept.weighed else { return Ok(Some(view)) };
    view.gathered = phrases::in_100(desk.words(), next.coverage.share);
    if picture.demolition.is_some() {
        return Ok(Some(view)); // what a look would show now is a finding
    }
    let worth = next.looks.iter().filter(|l| l.net_per_minute > Money::ZERO);
    let made = made(desk, &picture);
    view.looks = worth.take(SHOWN).map(|look| look_view(desk, look, odds, &made)).collect();
    view.minutes = view.looks.iter().map(|l| l.minutes).sum();
    view.ask = most_worth(next).first().map(|ask| ask_view(desk, ask));
    Ok(Some(view))
}

/// Answers that cannot all be true are for the person to settle, in words; the walk goes on. Anything else is a fault.
pub(crate) fn to_settle(desk: &Desk, error: Error) -> Result<String, Error> {
    match error.kind {
        Kind::Conflict | Kind::Input => Ok(error.say(desk.words())),
        _ => Err(error),
    }
}

/// Unasked questions, those worth most first.
fn most_worth(next: &Next) -> Vec<&Ask> {
    let mut asks: Vec<&Ask> = next.items.iter().collect();
    asks.sort_by_key(|ask| std::cmp::Reverse(ask.value));
    asks.truncate(SHOWN);
    asks
}

/// Results that were recorded: check and key of the condition.
fn made(desk: &Desk, picture: &Picture) -> BTreeSet<(String, String)> {
    let recorded = crate::suppose::check_item(desk).ok().and_then(|item| picture.value(&item.id));
    let Some(Value::Checks(results)) = recorded else { return BTreeSet::new() };
    let each = |r: &CheckResult| {
        let check = r.check.clone();
        r.conditions.clone().into_iter().map(move |key| (check.clone(), key))
    };
    results.iter().flat_map(each).collect()
}

fn look_view(
    desk: &Desk,
    look: &Look,
    odds: &BTreeMap<String, f64>,
    made: &BTreeSet<(String, String)>,
) -> LookView {
    let words = desk.words();
    let told = phrases::look_words(words, look);
    // Its result is recorded for what is shown; what it showed before is not asked again.
    let open = |key: &&String| !made.contains(&(look.check.clone(), (*key).clone()));
    let change = |key: &String| {
        let condition = desk.catalog.condition_of(key)?;
        let pair = condition.checks.iter().find(|pair| pair.check == look.check)?;
        let now = odds.get(key).copied()?;
        let (if_yes, if_no) = after_report(pair, now);
        Some(ChangeView {
            key: key.clone(),
            name: phrases::key_words(desk.say(), key),
            now,
            if_yes,
            if_no,
            caution: phrases::caution_of(desk.say(), condition),
        })
    };
    LookView {
        check: look.check.clone(),
        label: phrases::at(words, told.label, look.place.as_ref()),
        how: words.say(&phrases::invasive(look.invasiveness)),
        who: told.who,
        minutes: look.minutes,
        worth_cents: look.value.cents() - look.cost.cents(),
        serves: phrases::serves_words(words, look),
        ask_first: told.ask_first,
        changes: first_moved(look.conditions.iter().filter(open).filter_map(change).collect()),
    }
}

/// The first conditions a look could move, at every place where it could: its result is recorded there.
fn first_moved(mut all: Vec<ChangeView>) -> Vec<ChangeView> {
    let mut first: Vec<String> = Vec::new();
    for change in &all {
        let id = Key::parse(&change.key).id;
        if first.len() < MOVED && !first.iter().any(|f| f == id) {
            first.push(id.to_owned());
        }
    }
    all.retain(|change| first.iter().any(|f| f == Key::parse(&change.key).id));
    all
}

/// A question that is asked, as screens show it.
pub(crate) fn ask_view(desk: &Desk, ask: &Ask) -> AskView {
    AskView {
        key: ask.key(&desk.catalog),
        question: phrases::at(desk.words(), ask.question.clone(), ask.place.as_ref()),
        why: why_now(desk, ask),
        worth_cents: ask.value.cents(),
    }
}

/// Why a question is asked in this house now.
pub(crate) fn why_now(desk: &Desk, ask: &Ask) -> String {
    let names = phrases::some_conditions(desk.say(), &ask.conditions, MOVED);
    desk.words().say(&match ask.because {
        Because::Disagreed => msg!("next-disagreed"),
        Because::Packet => msg!("next-for-pages"),
        Because::Matters | Because::WorthIt => msg!("next-bears-on", conditions = names),
    })
}

/// What is amiss before the house is left; `None` if `go_on` said no on the way. Once demolition was declared nothing of it
/// can be mended, and only what was gathered is told.
///
/// # Errors
/// No such survey.
pub fn leaving(
    desk: &Desk,
    kept: &mut Kept,
    survey: SurveyId,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<LeavingView>, Error> {
    let picture = desk.picture(survey)?;
    if picture.demolition.is_some() {
        return Ok(Some(only_gathered(survey, &picture)));
    }
    let gaps = guide::gaps(&desk.catalog, &picture);
    let amiss = |step: &guide::Step<'_>| views::walk::amiss(desk.say(), &picture, &step.key());
    let mut view = LeavingView {
        survey: survey.to_string(),
        label: picture.label().to_owned(),
        disagreements: gaps.disagreements.iter().filter_map(amiss).collect(),
        clashes: Vec::new(),
        implausible: gaps.implausible.iter().filter_map(amiss).collect(),
        ruled_out: gaps.ruled_out.iter().filter_map(amiss).collect(),
        photos: gaps
            .photos
            .iter()
            .filter_map(|p| views::walk::photo_wanted(desk.say(), &picture, &p.item.key_at(p.place)))
            .collect(),
        ask: Vec::new(),
        gathered: None,
        trouble: None,
        counts: views::walk::counts(&picture),
    };
    let weighed = weigh_picture(desk, kept, survey, &picture, go_on).and_then(|done| match done {
        true => clashes(desk, kept, survey, &picture, go_on),
        false => Ok(None),
    });
    match weighed {
        Ok(Some(found)) => view.clashes = clash_views(desk, &picture, &found),
        Ok(None) => return Ok(None),
        Err(error) => {
            view.trouble = Some(to_settle(desk, error)?);
            return Ok(Some(view));
        }
    }
    if let Some(Weighed { next, .. }) = &kept.weighed {
        view.ask = most_worth(next).into_iter().map(|ask| ask_view(desk, ask)).collect();
        view.gathered = Some(phrases::in_100(desk.words(), next.coverage.share));
    }
    Ok(Some(view))
}

fn only_gathered(survey: SurveyId, picture: &Picture) -> LeavingView {
    LeavingView {
        survey: survey.to_string(),
        label: picture.label().to_owned(),
        disagreements: Vec::new(),
        clashes: Vec::new(),
        implausible: Vec::new(),
        ruled_out: Vec::new(),
        photos: Vec::new(),
        ask: Vec::new(),
        gathered: None,
        trouble: None,
        counts: views::walk::counts(picture),
    }
}

fn clashes(
    desk: &Desk,
    kept: &mut Kept,
    survey: SurveyId,
    picture: &Picture,
    go_on: &mut dyn FnMut() -> bool,
) -> Result<Option<Clashes>, Error> {
    let request = desk.request(survey, picture);
    let mut odds = kept.live.odds(&request)?;
    Ok(odds.clashes(go_on)?)
}

fn clash_views(desk: &Desk, picture: &Picture, found: &Clashes) -> Vec<ClashView> {
    let amiss = |key: &str| views::walk::amiss(desk.say(), picture, key);
    let view = |clash: &assessment::Clash| {
        Some(ClashView {
            one: amiss(&clash.answer)?,
            other: clash.rival.as_deref().and_then(amiss),
            chance: phrases::in_100(desk.words(), clash.chance),
        })
    };
    found.list.iter().filter_map(view).collect()
}
