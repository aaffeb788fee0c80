//! Fixtures by the words that are written, and groups of them.

use alloc::{string::String, vec::Vec};

use survey::Phrase;

use crate::error::TradeError;

/// A fixture, or a group of fixtures that one figure of a table covers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Fixture {
    /// The word written.
    pub word: &'static str,
    /// What it is called.
    pub name: Phrase,
    /// Water closets in it.
    pub closets: u32,
    /// What a group is made of, by words; empty for a single fixture.
    pub parts: &'static [&'static str],
}

const fn one(word: &'static str, name: Phrase) -> Fixture {
    Fixture { word, name, closets: 0, parts: &[] }
}

const fn group(word: &'static str, name: Phrase, closets: u32, parts: &'static [&'static str]) -> Fixture {
    Fixture { word, name, closets, parts }
}

/// Every fixture known.
pub const FIXTURES: [Fixture; 16] = [
    one("kitchen_sink", Phrase("trade-kitchen-sink")),
    one("kitchen_sink_dw", Phrase("trade-kitchen-sink-dishwasher")),
    one("bar_sink", Phrase("trade-bar-sink")),
    one("dishwasher", Phrase("trade-dishwasher-own-drain")),
    one("lavatory", Phrase("trade-lavatory")),
    one("bathtub", Phrase("trade-bathtub")),
    one("shower", Phrase("trade-shower")),
    one("shower_le_5.7gpm", Phrase("trade-shower-up-5-7")),
    one("laundry_tray", Phrase("trade-laundry-tray")),
    one("clothes_washer", Phrase("trade-clothes-washer")),
    Fixture { word: "wc_1.6", name: Phrase("trade-water-closet-1-6"), closets: 1, parts: &[] },
    group("bath_group_1.6", Phrase("trade-bathroom-group-1-6"), 1, &["wc_1.6", "lavatory", "bathtub"]),
    group("kitchen_group", Phrase("trade-kitchen-group"), 0, &["kitchen_sink_dw"]),
    group("laundry_group", Phrase("trade-laundry-group"), 0, &["clothes_washer", "laundry_tray"]),
    group("half_bath_group", Phrase("trade-half-bath-group"), 1, &["wc_1.6", "lavatory"]),
    group("full_bath_group", Phrase("trade-full-bath-group"), 1, &["wc_1.6", "lavatory", "bathtub"]),
];

/// Their words, in the same order.
pub const WORDS: [&str; FIXTURES.len()] = {
    let mut out = [""; FIXTURES.len()];
    let mut at = 0;
    while at < out.len() {
        out[at] = FIXTURES[at].word;
        at += 1;
    }
    out
};

impl Fixture {
    /// The fixture of a word.
    ///
    /// # Errors
    /// An unknown word, with the known ones.
    pub fn parse(word: &str) -> Result<&'static Self, TradeError> {
        FIXTURES.iter().find(|f| f.word == word).ok_or_else(|| TradeError::NoWord {
            what: Phrase("trade-fixture"),
            value: word.chars().take(60).collect::<String>(),
            known: WORDS.join(", "),
        })
    }
    /// The single fixtures in it: its parts, or itself.
    pub fn singles(&'static self) -> Vec<&'static Self> {
        if self.parts.is_empty() {
            return [self].into();
        }
        FIXTURES.iter().filter(|f| self.parts.contains(&f.word)).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;

    #[test]
    fn every_part_of_a_group_is_a_fixture() {
        for fixture in &FIXTURES {
            let singles = fixture.singles();
            assert_eq!(singles.len(), fixture.parts.len().max(1), "{}", fixture.word);
            assert_eq!(singles.iter().map(|f| f.closets).sum::<u32>(), fixture.closets, "{}", fixture.word);
        }
        let error = Fixture::parse("jacuzzi").unwrap_err().message().en();
        assert!(error.contains("kitchen_sink_dw") && error.contains("wc_1.6"), "{error}");
    }
}
