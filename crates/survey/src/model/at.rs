//! The picture as seen from one place.

use super::fold::{Picture, Standing};
use crate::log::{Answer, Value};

/// A picture seen from one place of a house, or from none in particular.
#[derive(Clone, Copy, Debug)]
pub struct At<'p> {
    picture: &'p Picture,
}

impl Picture {
    /// The picture as seen from a place, or from none in particular.
    pub fn at<'p>(&'p self, _place: Option<&'p str>) -> At<'p> {
        At { picture: self }
    }
}

impl<'p> At<'p> {
    /// What stands for an item here, with the place of the answer.
    pub fn standing(&self, item: &str) -> Option<(&'p str, &'p Standing)> {
        self.picture.standing(item)
    }
    /// The settled answer of an item here.
    pub fn answer(&self, item: &str) -> Option<&'p Answer> {
        self.picture.answer(item)
    }
    /// The settled value of an item here.
    pub fn value(&self, item: &str) -> Option<&'p Value> {
        self.picture.value(item)
    }
}

impl crate::catalog::Answers for At<'_> {
    fn value(&self, item: &str) -> Option<&Value> {
        At::value(self, item)
    }
}
