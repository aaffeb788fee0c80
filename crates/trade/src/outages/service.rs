//! What a household can be without, how a survey writes it, and which of it comes back in the evening.

use alloc::{format, string::String, vec::Vec};

use survey::said::{in_catalog, slug};
use survey::{Phrase, Said, say};

use crate::cite::labeled;
use crate::error::TradeError;
use crate::outages::household::{UNNAMED, circuit_said};

/// Something a household can be without: water, power of one circuit, a bath.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Service {
    kind: usize,
    place: Option<String>,
}

/// Kinds of service: word, whether it stays off until its task ends (else it is back at the end of each working day),
/// and other words for it. Common practice, no source.
const KINDS: [(&str, bool, &[&str]); 14] = [
    (WATER, false, &[]),
    ("hot water", true, &[]),
    (POWER, false, &[]),
    (INTERNET, false, &[]),
    ("gas", true, &[]),
    ("heat", true, &[]),
    ("cooling", true, &[]),
    ("kitchen drain", true, &[]),
    (DRAINS, true, &["all drains above"]),
    (TOILET, true, &[]),
    (BATH, true, &[]),
    ("kitchen", true, &[]),
    ("access", true, &[]),
    (QUIET, false, &[]),
];
/// A pump follows the power of its house; it has no word of its own among [`KINDS`] but a place under power.
const PUMP: (&str, &str) = ("sump or sewage pump", "sump or sewage pump");

/// Water of the house.
pub const WATER: &str = "water";
/// Power; a place names the circuit, without one it is the whole house.
pub const POWER: &str = "power";
/// Internet.
pub const INTERNET: &str = "internet";
/// Every drain above a cut stack.
pub const DRAINS: &str = "drains";
/// One toilet.
pub const TOILET: &str = "toilet";
/// One bath with its toilet.
pub const BATH: &str = "bath";
/// Quiet: it is "off" while loud work goes on.
pub const QUIET: &str = "quiet";
/// Water of a house on a well: off with the power of the whole house.
pub const WELL_WATER: &str = "water (well pump)";

/// A service by its word, as spoken.
pub fn service_said(word: &str) -> Said {
    Said::by_id(format!("service-{}", slug(word)))
}

impl Service {
    /// A service by its word and, where it has one, its place or circuit.
    ///
    /// # Errors
    /// An unknown word: which are known.
    pub fn new(word: &str, place: Option<&str>) -> Result<Self, TradeError> {
        let word = word.trim().to_lowercase();
        if word == PUMP.0 {
            return Self::new(POWER, Some(PUMP.1));
        }
        let kind =
            KINDS.iter().position(|(name, _, others)| *name == word || others.contains(&word.as_str()));
        let Some(kind) = kind else {
            let known: Vec<&str> = KINDS.iter().map(|(name, _, _)| *name).collect();
            let known =
                format!("{}, each with “:” and a place where it has one, {}", known.join(", "), PUMP.0);
            return Err(TradeError::NoWord {
                what: Phrase("trade-service-2"),
                value: word.chars().take(60).collect(),
                known,
            });
        };
        let place = place.map(|p| p.trim().to_lowercase()).filter(|p| !p.is_empty());
        Ok(Self { kind, place })
    }
    /// Its word.
    pub fn word(&self) -> &'static str {
        KINDS.get(self.kind).map_or("", |k| k.0)
    }
    /// Circuit or place.
    pub fn place(&self) -> Option<&str> {
        self.place.as_deref()
    }
    /// Whether this is the service of that word.
    pub fn is(&self, word: &str) -> bool {
        self.word() == word
    }
    /// Power of every circuit.
    pub fn is_whole_power(&self) -> bool {
        self.is(POWER) && self.place.is_none()
    }
    /// Whether it stays off overnight until its task ends.
    pub fn stays_off(&self) -> bool {
        KINDS.get(self.kind).is_some_and(|k| k.1)
    }
    /// Whether being without `self` means being without `other`: the same, or the whole of which that is a place. A
    /// toilet or bath without a name is one, not all.
    pub fn covers(&self, other: &Self) -> bool {
        let whole = self.place.is_none() && !self.is(TOILET) && !self.is(BATH);
        self.kind == other.kind && (self.place == other.place || whole)
    }
    /// As shown: "water", "power, whole house", "power: kitchen".
    pub fn shown(&self) -> Said {
        match &self.place {
            Some(place) if self.is(POWER) && place == PUMP.1 => service_said(PUMP.0),
            Some(place) if place == UNNAMED => labeled(service_said(self.word()), circuit_said(place)),
            // The scope of a task of the catalog; what somebody named is in no catalog and stays as it is.
            Some(place) => labeled(service_said(self.word()), in_catalog("scope", place)),
            None if self.is(POWER) => say!("trade-power-whole-house"),
            None if self.is(QUIET) => service_said(QUIET),
            None => service_said(self.word()),
        }
    }
}

/// A service that a task takes away.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Off {
    /// Which.
    pub service: Service,
    /// It stays off overnight until the task ends.
    pub overnight: bool,
    /// The circuit is the scope of the catalog's task, not one the survey named.
    pub unnamed_circuit: bool,
    /// Only where the house has a well pump.
    pub well: bool,
}

impl Off {
    /// One piece: "water", "power:kitchen", "gas daily" (back each evening), "water overnight" (off until the end).
    ///
    /// # Errors
    /// An unknown service.
    pub fn parse(text: &str) -> Result<Self, TradeError> {
        let text = text.trim().to_lowercase();
        if text == WELL_WATER {
            let service = Service::new(WATER, None)?;
            return Ok(Self { service, overnight: false, unnamed_circuit: false, well: true });
        }
        let (rest, said) = match (text.strip_suffix(" overnight"), text.strip_suffix(" daily")) {
            (Some(rest), _) => (rest, Some(true)),
            (None, Some(rest)) => (rest, Some(false)),
            (None, None) => (text.as_str(), None),
        };
        let (word, place) = match rest.split_once(':') {
            Some((word, place)) => (word, Some(place)),
            None => (rest, None),
        };
        let service = Service::new(word, place)?;
        let overnight = said.unwrap_or(service.stays_off());
        Ok(Self { service, overnight, unnamed_circuit: false, well: false })
    }
    /// Several joined by "+"; "none" is nothing.
    ///
    /// # Errors
    /// An unknown service.
    pub fn parse_all(text: &str) -> Result<Vec<Self>, TradeError> {
        if text.trim().eq_ignore_ascii_case("none") {
            return Ok(Vec::new());
        }
        text.split('+').filter(|piece| !piece.trim().is_empty()).map(Self::parse).collect()
    }
    /// As the catalog writes it, with the scope of its task: power that is not the whole house's is that of circuits
    /// the catalog cannot name.
    ///
    /// # Errors
    /// An unknown service.
    pub fn of_catalog(word: &str, scope: &str) -> Result<Self, TradeError> {
        let mut off = Self::parse(word)?;
        if off.service.is_whole_power() && !scope.starts_with("whole house") {
            off.service = Service::new(POWER, Some(scope))?;
            off.unnamed_circuit = true;
        }
        Ok(off)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;

    #[test]
    fn a_piece_says_what_where_and_until_when() {
        let off = |text: &str| Off::parse(text).unwrap();
        assert_eq!(off("power:Kitchen counter").service.shown().read(), "power: kitchen counter");
        assert_eq!(off("power").service.shown().read(), "power, whole house");
        assert_eq!(off("all drains above"), off("drains"));
        assert!(!off("water").overnight && off("water overnight").overnight);
        assert!(off("gas").overnight && !off("gas daily").overnight);
        assert!(off("water (well pump)").well);
        assert_eq!(Off::parse_all("water + heat").unwrap().len(), 2);
        assert_eq!(Off::parse_all("none").unwrap(), []);
        let error = Off::parse("steam").unwrap_err().message().en();
        assert!(error.contains("kitchen drain"), "{error}");
    }

    #[test]
    fn the_whole_house_covers_a_circuit_and_one_toilet_is_not_another() {
        let service = |text: &str| Off::parse(text).unwrap().service;
        assert!(service("power").covers(&service("power:bedroom")));
        assert!(!service("power:bedroom").covers(&service("power")));
        assert!(!service("toilet").covers(&service("toilet:upstairs")));
        assert!(service("power").covers(&service("sump or sewage pump")));
    }

    #[test]
    fn everything_the_catalog_takes_away_is_known_here() {
        for outage in &catalog().outages {
            for word in &outage.off {
                let off = Off::of_catalog(word, &outage.scope);
                assert!(off.is_ok(), "{}: {word}", outage.id);
            }
        }
        assert!(Off::of_catalog("power", "kitchen circuits").unwrap().unnamed_circuit);
        assert!(!Off::of_catalog("power", "whole house").unwrap().unnamed_circuit);
    }
}
