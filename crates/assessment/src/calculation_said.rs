//! What a trade calculation says is frozen twice: in English, so that a record can be read without this program, and as
//! messages, so that it can be said in another language.

use serde::{Deserialize, Serialize};
use survey::{Said, say};
use trade::{Change, Sheet, Standing};
use words::{Language, Words};

use crate::forecast::{CalculationForecast, round6};

/// The texts of a calculation as messages, in the order of [`CalculationForecast`].
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CalculationSaid {
    /// Its title.
    pub title: Said,
    /// The result in one sentence.
    pub sentence: Said,
    /// One standard deviation of the result, with its unit.
    pub sigma: Option<Said>,
    /// What would have to be known.
    pub missing: Vec<Said>,
    /// The arithmetic, line by line.
    pub arithmetic: Vec<[Said; 2]>,
    /// Values used: rule, value, and document, edition, clause, mark.
    pub limits: Vec<[Said; 3]>,
    /// Inputs that nobody gave, with what was taken.
    pub assumed: Vec<Said>,
    /// Single changes that would help.
    pub changes: Vec<Said>,
    /// What else to know.
    pub notes: Vec<Said>,
    /// Who decides.
    pub caution: Said,
}

impl CalculationSaid {
    fn of(title: Said, sheet: &Sheet) -> Self {
        // Only where something is to be brought inside a value can a change be too little.
        let held = matches!(sheet.standing, Standing::Near | Standing::Beyond | Standing::AskLocally);
        let english = Words::of(Language::En);
        let change = |c: &Change| {
            if c.enough || !held || english.text(&c.text).contains("not enough") {
                c.text.clone()
            } else {
                say!("trade-not-enough-alone", change = c.text.clone().open())
            }
        };
        Self {
            title,
            sentence: sheet.sentence.clone(),
            sigma: sheet.sigma.clone(),
            missing: sheet.missing.clone(),
            arithmetic: sheet.lines.iter().map(|l| [l.label.clone(), l.text.clone()]).collect(),
            limits: sheet.limits.iter().map(|l| [l.rule.clone(), l.value.clone(), l.place()]).collect(),
            assumed: sheet.assumed.iter().map(|a| trade::cite::labeled(&a.item, &a.value)).collect(),
            changes: sheet.changes.iter().map(change).collect(),
            notes: sheet.notes.clone(),
            caution: sheet.caution.clone(),
        }
    }
}

impl CalculationForecast {
    /// Freezes a sheet.
    pub fn of_sheet(word: &str, title: impl Into<Said>, condition: Option<String>, sheet: &Sheet) -> Self {
        let hollow = Self {
            word: word.to_owned(),
            title: String::new(),
            standing: sheet.standing.word().to_owned(),
            sentence: String::new(),
            chance_beyond: sheet.chance_beyond.filter(|p| p.is_finite()).map(round6),
            sigma: None,
            condition,
            missing: Vec::new(),
            arithmetic: Vec::new(),
            limits: Vec::new(),
            assumed: Vec::new(),
            changes: Vec::new(),
            notes: Vec::new(),
            caution: String::new(),
            picture: sheet.picture.clone().and_then(trade::picture::Picture::frozen),
            said: Some(CalculationSaid::of(title.into(), sheet)),
        };
        hollow.filled(Words::of(Language::En))
    }

    /// The same with its texts in the language of the words; in English as they were frozen.
    #[must_use]
    pub fn said_in(&self, words: &Words) -> Self {
        if words.language() == Language::En { self.clone() } else { self.clone().filled(words) }
    }

    fn filled(self, words: &Words) -> Self {
        let Some(said) = &self.said else { return self };
        let all = |list: &[Said]| list.iter().map(|one| words.text(one)).collect::<Vec<_>>();
        Self {
            title: words.text(&said.title),
            sentence: words.text(&said.sentence),
            sigma: said.sigma.as_ref().map(|one| words.text(one)),
            missing: all(&said.missing),
            arithmetic: said
                .arithmetic
                .iter()
                .map(|line| line.each_ref().map(|one| words.text(one)))
                .collect(),
            limits: said.limits.iter().map(|limit| limit.each_ref().map(|one| words.text(one))).collect(),
            assumed: all(&said.assumed),
            changes: all(&said.changes),
            notes: all(&said.notes),
            caution: words.text(&said.caution),
            ..self
        }
    }
}
