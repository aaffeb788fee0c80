//! The arguments of the commands.

use actions::{CheckShown, Drawn, Entered, NewHouse, Sheet, Sure, Toward};
use serde::Deserialize;
use survey::log::CheckOutcome;
use survey::units::Money;
use words::{Language, Words};

/// No arguments.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Nothing {}

/// One house: its id, the start of it, or its label.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct House {
    pub(crate) survey: String,
}

/// The household's signature under its page: the name, and the lines that were drawn.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HouseholdSigns {
    pub(crate) survey: String,
    pub(crate) name: String,
    pub(crate) strokes: Vec<Vec<[u16; 2]>>,
}

/// Sealing a house, the household's pages in a language of their own, signed by it or not.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Seal {
    pub(crate) survey: String,
    #[serde(default)]
    pub(crate) household: Option<Tongue>,
    #[serde(default)]
    pub(crate) signs: bool,
}

/// A language by its tag.
#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Tongue {
    En,
    Es,
}

impl Tongue {
    pub(crate) fn words(self) -> &'static Words {
        Words::of(match self {
            Self::En => Language::En,
            Self::Es => Language::Es,
        })
    }
}

/// A card of a house; none: where it was left.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Card {
    pub(crate) survey: String,
    pub(crate) key: Option<String>,
}

/// An answer to a card.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub(crate) struct Answer {
    pub(crate) survey: String,
    pub(crate) key: String,
    /// Option ids, a length or a number as written, or "cant-tell".
    #[serde(default)]
    answer: Vec<String>,
    could_not_reach: Option<String>,
    tolerance: Option<String>,
    reason: Option<String>,
    /// A value outside the plausible range is meant.
    #[serde(default)]
    sure: bool,
}

impl Answer {
    pub(crate) fn entered(&self) -> Entered {
        Entered {
            answer: self.answer.clone(),
            could_not_reach: self.could_not_reach.clone(),
            tolerance: self.tolerance.clone(),
            reason: self.reason.clone(),
            sure: self.sure,
        }
    }
}

/// Demolition of a house, declared with words or withdrawn with a reason.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Demolition {
    pub(crate) survey: String,
    /// Empty: none, which a withdrawal cannot do without.
    #[serde(default)]
    pub(crate) reason: String,
}

/// Words about a card.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Remark {
    pub(crate) survey: String,
    pub(crate) key: String,
    pub(crate) text: String,
}

/// A packet to hand over.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct HandOver {
    pub(crate) survey: String,
    pub(crate) number: u32,
    /// Its pages alone.
    #[serde(default)]
    pub(crate) pages: bool,
}

/// A link as it was pasted or read from a picture.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct OfLink {
    pub(crate) link: String,
}

/// Pairing by a link, under a name.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Pair {
    pub(crate) link: String,
    pub(crate) name: String,
}

/// A packet to be sent, by its digest.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Send {
    pub(crate) survey: String,
    pub(crate) packet: String,
}

/// One setting of this device.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Set {
    pub(crate) setting: String,
    /// Empty: back to what it was without.
    pub(crate) value: String,
}

/// A length as typed at a card.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Typed {
    pub(crate) key: String,
    pub(crate) text: String,
}

/// One more place of a station.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct NewPlace {
    pub(crate) survey: String,
    pub(crate) station: String,
    pub(crate) label: String,
}

/// Another name for a place.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Renamed {
    pub(crate) survey: String,
    pub(crate) place: String,
    pub(crate) label: String,
}

/// A place of a house.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct OnePlace {
    pub(crate) survey: String,
    pub(crate) place: String,
}

/// A stop of the walk that is moved past its neighbor.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct MoveStop {
    pub(crate) survey: String,
    pub(crate) place: String,
    pub(crate) toward: Past,
}

/// Which neighbor.
#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Past {
    Earlier,
    Later,
}

impl From<Past> for Toward<'_> {
    fn from(past: Past) -> Self {
        match past {
            Past::Earlier => Toward::Earlier,
            Past::Later => Toward::Later,
        }
    }
}

/// What a look showed.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Shown {
    pub(crate) survey: String,
    pub(crate) check: String,
    shown: Vec<OneShown>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OneShown {
    condition: String,
    result: CheckOutcome,
}

impl Shown {
    pub(crate) fn list(&self) -> Vec<CheckShown> {
        let one = |s: &OneShown| CheckShown { condition: s.condition.clone(), result: s.result };
        self.shown.iter().map(one).collect()
    }
}

/// A house to start.
#[derive(Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub(crate) struct Start {
    label: String,
    #[serde(default)]
    year: String,
    /// The year is right within so many years; 0 when it is known, none when nobody knows.
    within: Option<u32>,
    contract_cents: Option<i64>,
    contract_days: Option<u32>,
    #[serde(default)]
    planned: Vec<String>,
    by: Option<String>,
}

impl Start {
    pub(crate) fn house(self) -> NewHouse {
        NewHouse {
            label: self.label,
            year: self.year,
            sure: match self.within {
                Some(0) => Sure::Known,
                Some(years) => Sure::Within(years),
                None => Sure::NoIdea,
            },
            contract: self.contract_cents.map(Money::from_cents),
            contract_days: self.contract_days,
            planned: self.planned,
            by: self.by.filter(|by| !by.trim().is_empty()),
        }
    }
}

/// A trade calculation of a house: its word, or "WORD@PLACE"; with figures typed by hand, name and text each.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Fit {
    pub(crate) survey: String,
    pub(crate) key: String,
    pub(crate) typed: Option<Vec<(String, String)>>,
}

/// A photograph of a house, by its digest or the start of it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Photograph {
    pub(crate) survey: String,
    pub(crate) photo: String,
}

/// A mark to be made. Points are pixels of the upright picture.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct Mark {
    pub(crate) survey: String,
    pub(crate) photo: String,
    mark: OneMark,
}

#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum OneMark {
    Arrow { points: [[f64; 2]; 2] },
    Ring { points: [[f64; 2]; 2] },
    Words { points: [[f64; 2]; 1], text: String },
    Dimension { points: [[f64; 2]; 2], length: String, tolerance: Option<String> },
}

impl Mark {
    pub(crate) fn drawn(self) -> Drawn {
        match self.mark {
            OneMark::Arrow { points } => Drawn::Arrow(points),
            OneMark::Ring { points } => Drawn::Ring(points),
            OneMark::Words { points: [at], text } => Drawn::Words(at, text),
            OneMark::Dimension { points, length, tolerance } => Drawn::Dimension(points, length, tolerance),
        }
    }
}

/// A mark to be taken back, by its entry.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct MarkBack {
    pub(crate) survey: String,
    pub(crate) photo: String,
    pub(crate) mark: String,
}

/// A length to be measured on a photograph.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(crate) struct OnSheet {
    pub(crate) survey: String,
    pub(crate) photo: String,
    sheet: OneSheet,
    /// True when the first edge is the height of the upright sheet.
    #[serde(default)]
    pub(crate) lying: bool,
    /// In order around the sheet, the first edge its width.
    pub(crate) corners: [[f64; 2]; 4],
    pub(crate) ends: [[f64; 2]; 2],
    /// What it is the answer to; nothing is recorded without.
    pub(crate) key: Option<String>,
}

#[derive(Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case", deny_unknown_fields)]
enum OneSheet {
    Letter,
    A4,
    Own { width: String, height: String },
}

impl OnSheet {
    pub(crate) fn sheet(&self) -> Sheet {
        match &self.sheet {
            OneSheet::Letter => Sheet::Letter,
            OneSheet::A4 => Sheet::A4,
            OneSheet::Own { width, height } => Sheet::Own(width.clone(), height.clone()),
        }
    }
}
