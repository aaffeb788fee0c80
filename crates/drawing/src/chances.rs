//! What chances are drawn of: a sum or a stretch of days, in words and numbers made by whoever hands it in.

use alloc::{string::String, vec::Vec};

/// A mark on the rule.
#[derive(Clone, PartialEq, Debug)]
pub struct Flag {
    /// Where it stands, in the unit of the rule.
    pub at: f64,
    /// Its name, as "P80".
    pub name: String,
    /// Its value as it is written.
    pub value: String,
    /// What it means, as "8 in 10 below".
    pub says: String,
}

/// How draws of a quantity lie, from nothing up.
#[derive(Clone, PartialEq, Debug)]
pub struct Chances {
    /// What it is, for those who hear it.
    pub title: String,
    /// What it shows, for those who hear it.
    pub said: String,
    /// P50, P80, P90, rising.
    pub flags: [Flag; 3],
    /// Twenty values of equal chance, rising; none where bars alone are drawn.
    pub twentieths: Vec<f64>,
    /// Width of a bar.
    pub step: f64,
    /// Share of the draws in each bar, 0 to 1.
    pub shares: Vec<f64>,
}

/// What it came to, as it hangs through the chances.
#[derive(Clone, PartialEq, Debug)]
pub struct Plumb {
    /// Where it hangs, in the unit of the rule.
    pub at: f64,
    /// What it is, as "came to $4,400".
    pub value: String,
    /// Where that lies, as "between P50 and P80".
    pub says: String,
}

/// How a number of the rule is written.
pub type Write<'a> = &'a dyn Fn(f64) -> String;
