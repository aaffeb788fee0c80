//! The track record in the language of `say`. Houses are named by their place in one list, so that a record by condition
//! does not name each of hundreds of houses a hundred times.

use std::collections::BTreeMap;

use drawing::{Palette, Reliability, ReliabilityBin, Width};
use review::record::{
    AmountScores, Amounts, BinRow, By, Group, JudgedHouse, Record, SMALL_HOUSES, SMALL_OUTCOMES, Track, Why,
};
use review::scores::wilson::{NINETY_FIVE, wilson};
use survey::SurveyId;
use survey::catalog::{Level, PLANNED_WORK};
use survey::units::Money;
use words::{CatalogWords, Words, msg};

use crate::record_shape::{
    BinView, LeftOutView, RecordGroupView, RecordHouseView, RecordScoresView, RecordSumView, RecordSumsView,
    RecordView, TrackView,
};
use crate::shape::DrawingView;

/// The diagram is square; a column of the office's screens has room for this, px.
const COLUMN: Width = Width::Px(560.0);

/// The houses of an office, and where each stands in the list.
pub struct Houses {
    list: Vec<RecordHouseView>,
    at: BTreeMap<SurveyId, u32>,
}

impl Houses {
    /// Houses received, with what judges them, in the order of their names.
    pub fn new(received: &[(SurveyId, String)], judged: &[JudgedHouse]) -> Self {
        let judged: BTreeMap<SurveyId, &JudgedHouse> = judged.iter().map(|h| (h.survey, h)).collect();
        let mut named: Vec<(&str, SurveyId)> =
            received.iter().map(|(survey, label)| (label.as_str(), *survey)).collect();
        named.sort();
        let list = named.iter().map(|(label, survey)| line(*survey, label, judged.get(survey).copied()));
        let at = (0..).zip(&named).map(|(n, (_, survey))| (*survey, n)).collect();
        Self { list: list.collect(), at }
    }
    pub(super) fn places(&self, houses: &[SurveyId]) -> Vec<u32> {
        let mut places: Vec<u32> = houses.iter().filter_map(|id| self.at.get(id).copied()).collect();
        places.sort_unstable();
        places
    }
    pub(super) fn into_list(self) -> Vec<RecordHouseView> {
        self.list
    }
}

fn line(survey: SurveyId, label: &str, judged: Option<&JudgedHouse>) -> RecordHouseView {
    let conditions = judged.map(|h| h.conditions.as_slice()).unwrap_or_default();
    let happened = |wanted: &[bool]| {
        conditions.iter().filter(|c| c.happened().is_some_and(|there| wanted.contains(&there))).count() as u32
    };
    let cents = |dollars: f64| Money::from_f64(dollars).unwrap_or(Money::MAX).cents();
    RecordHouseView {
        survey: survey.to_string(),
        label: label.to_owned(),
        frozen_at: judged.map(|h| h.made_at.to_string()),
        opened: happened(&[true, false]),
        found: happened(&[true]),
        money: judged.and_then(|h| h.money.as_ref()).map(|sum| RecordSumView {
            cents: sum.percentiles.map(cents),
            came_cents: cents(sum.actual),
            whole: sum.whole,
        }),
    }
}

/// The record as it is shown; `with_seen` as it was asked for.
pub fn track(say: CatalogWords<'_>, told: &Track, houses: Houses, with_seen: bool) -> TrackView {
    let words = say.words;
    let record = |r: &Record| record(words, r, &houses);
    let mut groups: Vec<RecordGroupView> = told
        .groups
        .iter()
        .map(|Group { name, record: r }| RecordGroupView {
            name: told.by.map_or_else(|| name.clone(), |by| group_name(say, by, name)),
            record: record(r),
        })
        .collect();
    // Months go by themselves; of the rest, those that say most come first.
    if told.by != Some(By::Month) {
        groups.sort_by(|a, b| b.record.opened.cmp(&a.record.opened).then_with(|| a.name.cmp(&b.name)));
    }
    let out = |why: Why, word: &str| {
        let these: Vec<SurveyId> = told.left_out.iter().filter(|l| l.why == why).map(|l| l.survey).collect();
        (!these.is_empty()).then(|| LeftOutView { why: word.to_owned(), houses: houses.places(&these) })
    };
    let left_out = [
        out(Why::NoFindings, "no-findings"),
        out(Why::NoForecastInTime, "no-forecast-in-time"),
        out(Why::NothingOpened, "nothing-opened"),
        out(Why::CatalogSawIt, "catalog-saw-it"),
    ];
    TrackView {
        all: record(&told.all),
        drawing: told.all.scores.is_some().then(|| drawn(words, &diagram(&told.all))),
        by: told.by.map(by_word),
        groups,
        overlap: matches!(told.by, Some(By::Scope | By::Surveyor)),
        left_out: left_out.into_iter().flatten().collect(),
        with_seen,
        again: told.again.as_ref().map(record),
        few: [SMALL_OUTCOMES as u32, SMALL_HOUSES as u32],
        houses: houses.into_list(),
    }
}

/// What is drawn of a record.
pub fn diagram(record: &Record) -> Reliability {
    let bin = |b: &BinRow| ReliabilityBin {
        ends: [b.from, b.to],
        n: b.n,
        found: b.found,
        mean: b.mean,
        share: b.share,
        band: b.band,
    };
    Reliability { bins: record.bins.iter().map(bin).collect(), small: record.small }
}

fn drawn(words: &Words, shown: &Reliability) -> DrawingView {
    let at = |width, held: &str| {
        let name = format!("record-{held}");
        drawing::reliability(shown, width, Palette::Screen, &name, &|said| words.text(said))
    };
    DrawingView { wide: at(COLUMN, "wide"), beside: at(COLUMN, "beside"), narrow: at(Width::Phone, "narrow") }
}

fn record(words: &Words, r: &Record, houses: &Houses) -> RecordView {
    RecordView {
        houses: houses.places(&r.houses),
        opened: r.opened,
        found: r.found,
        expected: r.bins.iter().map(|b| b.mean * f64::from(b.n)).sum(),
        band: wilson(r.found as usize, r.opened as usize, NINETY_FIVE),
        not_opened: r.not_opened,
        not_entered: r.not_entered,
        small: r.small,
        scores: r.scores.as_ref().map(|s| RecordScoresView {
            brier: s.brier,
            reliability: s.reliability,
            resolution: s.resolution,
            uncertainty: s.uncertainty,
            base_brier: s.base_brier,
            brier_skill: s.brier_skill,
            log_score: s.log_score,
            base_log_score: s.base_log_score,
            log_skill: s.log_skill,
            auc: s.auc,
        }),
        bins: r.bins.iter().map(|b| bin(words, b, houses)).collect(),
        money: amounts(&r.money, houses, &|dollars| {
            words::whole_money(words.language(), Money::from_f64(dollars).unwrap_or(Money::MAX))
        }),
        days: amounts(&r.days, houses, &|days| words::number(words.language(), days, 1)),
    }
}

fn bin(words: &Words, b: &BinRow, houses: &Houses) -> BinView {
    let tenths = |share: f64| words::number(words.language(), share * 10.0, 0);
    BinView {
        said: words.say(&msg!("record-bin", from = tenths(b.from), to = tenths(b.to))),
        n: b.n,
        found: b.found,
        mean: b.mean,
        band: b.band,
        off: b.mean < b.band[0] || b.mean > b.band[1],
        houses: houses.places(&b.houses),
    }
}

fn amounts(amounts: &Amounts, houses: &Houses, write: &dyn Fn(f64) -> String) -> Vec<RecordSumsView> {
    let one = |scores: &AmountScores, whole: bool| RecordSumsView {
        whole,
        houses: houses.places(&scores.houses),
        came: write(scores.actual),
        off_by: scores.crps.map(write),
        within: scores.within,
        bands: scores.bands,
    };
    let whole = amounts.whole.iter().map(|scores| one(scores, true));
    whole.chain(amounts.in_part.iter().map(|scores| one(scores, false))).collect()
}

/// What a part of the record is called.
fn group_name(say: CatalogWords<'_>, by: By, name: &str) -> String {
    let words = say.words;
    match by {
        _ if name.is_empty() => words.say(&msg!("track-unknown")),
        By::Condition => say.condition(name).into_owned(),
        By::Era => era(say, name),
        By::Scope => match say.catalog.item(PLANNED_WORK) {
            Some(item) => say.option(item, name).into_owned(),
            None => name.to_owned(),
        },
        By::Surveyor | By::Month => name.to_owned(),
    }
}

/// An era of the catalog by its years.
pub(super) fn era(say: CatalogWords<'_>, id: &str) -> String {
    let levels = say.catalog.era().map(|era| era.levels.as_slice()).unwrap_or_default();
    let year = |year: &i64| year.to_string();
    say.words.say(&match levels.iter().find(|level| level.id == id) {
        Some(Level { from: Some(from), to: Some(to), .. }) => {
            msg!("record-era", from = year(from), to = year(to))
        }
        Some(Level { from: None, to: Some(to), .. }) => msg!("record-era-to", to = year(to)),
        Some(Level { from: Some(from), to: None, .. }) => msg!("record-era-from", from = year(from)),
        _ => return id.to_owned(),
    })
}

/// The word by which a split is asked for.
fn by_word(by: By) -> String {
    match by {
        By::Condition => "condition",
        By::Era => "era",
        By::Scope => "scope",
        By::Surveyor => "surveyor",
        By::Month => "month",
    }
    .to_owned()
}
