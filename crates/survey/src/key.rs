//! Keys: what the catalog holds once and a house may hold several times.
//!
//! A condition or an item at a place of which a house may have several (two soffits, three walls to open) is named
//! by its id and the place: `bulkhead-wires@fridge-soffit`. At the first such place, and for everything that a house
//! has once, the key is the id alone. This is the one place that makes and reads keys.

use core::fmt;

/// An id of the catalog, and the place where there are several and it is not the first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Key<'a> {
    /// Id of a condition or an item.
    pub id: &'a str,
    /// The place; none for the first of several and for what a house has once.
    pub place: Option<&'a str>,
}

/// Between id and place; neither can hold it, because ids are lower-case words joined by hyphens.
const AT: char = '@';

impl<'a> Key<'a> {
    /// The key of something at a place of a station; the first place of a station has the station's id.
    pub fn new(id: &'a str, place: Option<&'a str>, station: Option<&str>) -> Self {
        Self { id, place: place.filter(|p| Some(*p) != station) }
    }
    /// Reads a key. Any text is one: whether id and place exist is for the catalog and the house to say.
    pub fn parse(text: &'a str) -> Self {
        match text.split_once(AT) {
            Some((id, place)) => Self { id, place: Some(place) },
            None => Self { id: text, place: None },
        }
    }
}

impl fmt::Display for Key<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.place {
            Some(place) => write!(f, "{}{AT}{place}", self.id),
            None => f.write_str(self.id),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_first_place_has_the_bare_id_and_the_others_name_theirs() {
        let cases = [
            (None, None, "bulkhead-wires"),
            (Some("bulkhead"), Some("bulkhead"), "bulkhead-wires"),
            (Some("fridge-soffit"), Some("bulkhead"), "bulkhead-wires@fridge-soffit"),
        ];
        for (place, station, text) in cases {
            let key = Key::new("bulkhead-wires", place, station);
            assert_eq!(key.to_string(), text);
            assert_eq!(Key::parse(text), key);
        }
    }
}
