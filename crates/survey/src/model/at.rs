//! The picture as seen from one place.
//!
//! At a soffit the questions about soffits mean this one; the questions about the house mean the house. Nothing is
//! ever read from another place of the same kind.

use super::fold::{Picture, Standing};
use crate::catalog::Answers;
use crate::log::{Answer, Value};

/// A picture seen from one place of a house, or from the house as a whole.
#[derive(Clone, Copy, Debug)]
pub struct At<'p> {
    picture: &'p Picture,
    place: Option<&'p str>,
}

impl Picture {
    /// The picture as seen from a place of a station that can have several, or from the house as a whole.
    pub fn at<'p>(&'p self, place: Option<&'p str>) -> At<'p> {
        At { picture: self, place }
    }
    /// What stands for an item, seen from the house as a whole; see [`At::standing`].
    pub fn standing(&self, item: &str) -> Option<(&str, &Standing)> {
        self.at(None).standing(item)
    }
    /// The settled answer of an item, seen from the house as a whole.
    pub fn answer(&self, item: &str) -> Option<&Answer> {
        self.at(None).answer(item)
    }
    /// The settled value of an item, seen from the house as a whole; see [`At::value`].
    pub fn value(&self, item: &str) -> Option<&Value> {
        self.at(None).value(item)
    }
}

impl<'p> At<'p> {
    /// What stands for an item here, with the place of the answer. None where nobody answered, and where it was
    /// answered at several places none of which is this one: no place is picked.
    pub fn standing(&self, item: &str) -> Option<(&'p str, &'p Standing)> {
        let mut seen = self.seen(item);
        let first = seen.next()?;
        seen.next().is_none().then_some(first)
    }
    /// The settled answer of an item here.
    pub fn answer(&self, item: &str) -> Option<&'p Answer> {
        self.standing(item).and_then(|(_, standing)| standing.settled())
    }
    /// The settled value of an item here. Where it is asked at several places, none of which is this one: the value
    /// all of them have, if they have one.
    pub fn value(&self, item: &str) -> Option<&'p Value> {
        let all = self.values(item);
        let first = all.first().copied().flatten()?;
        all.iter().all(|v| *v == Some(first)).then_some(first)
    }
    /// The settled value at each place where the item is asked, as far as it concerns this one: one value here, or
    /// one for each place of another station. Never empty.
    fn values(&self, item: &str) -> Vec<Option<&'p Value>> {
        let settled = |standing: &'p Standing| standing.settled().map(|answer| &answer.value);
        let seen: Vec<_> = self.seen(item).collect();
        let Some((place, _)) = seen.first().copied() else { return vec![None] };
        if self.place == Some(place) {
            return vec![seen.first().and_then(|(_, standing)| settled(standing))];
        }
        // Places of that kind where nobody answered count too: they are unknown.
        let places = self.picture.places_of(self.picture.station_of(place));
        let at = |place: &str| seen.iter().find(|(p, _)| *p == place).and_then(|(_, s)| settled(s));
        let mut values: Vec<_> = places.iter().map(|place| at(place)).collect();
        values.extend(seen.iter().filter(|(p, _)| !places.contains(p)).map(|(_, s)| settled(s)));
        values
    }
    /// Answers to an item that concern this place: its own, otherwise those of the rest of the house.
    fn seen(&self, item: &str) -> impl Iterator<Item = (&'p str, &'p Standing)> {
        let picture = self.picture;
        let station = self.place.map(|place| picture.station_of(place));
        let own = self
            .place
            .is_some_and(|place| picture.answers.contains_key(&(place.to_owned(), item.to_owned())));
        let here = self.place;
        let item = item.to_owned();
        let concerns = move |place: &str| {
            if own {
                return Some(place) == here;
            }
            let of_station = station.is_some_and(|s| picture.station_of(place) == s);
            !of_station && !picture.taken_out(place)
        };
        let all = picture.answers.iter();
        all.filter(move |((place, i), _)| *i == item && concerns(place))
            .map(|((place, _), s)| (place.as_str(), s))
    }
}

impl Answers for At<'_> {
    fn value(&self, item: &str) -> Option<&Value> {
        At::value(self, item)
    }
    fn each(&self, item: &str) -> Vec<Option<&Value>> {
        self.values(item)
    }
}

impl Answers for Picture {
    fn value(&self, item: &str) -> Option<&Value> {
        Picture::value(self, item)
    }
    fn each(&self, item: &str) -> Vec<Option<&Value>> {
        self.at(None).values(item)
    }
}

#[cfg(test)]
mod tests;
