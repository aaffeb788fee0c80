//! One section of a gas run: its load before and after against what its size carries.

use survey::Phrase;
use survey::catalog::Book;

use super::capacity::{Capacity, HAIR, SIZES, capacity};
use super::form::Form;
use super::plan::{GasPlan, Segment};
use crate::cite;
use crate::error::TradeError;
use crate::sheet::Standing;
use crate::tolerance::Budget;

/// A section with what it is held against.
#[derive(Clone, PartialEq, Debug)]
pub struct Section {
    /// Which.
    pub segment: Segment,
    /// Size by name.
    pub size: &'static str,
    /// Length it is sized for, feet: the longest run with what its fittings add.
    pub feet: f64,
    /// Flow now, ft³/h.
    pub before: f64,
    /// Flow with what is planned, ft³/h.
    pub load: f64,
    /// Where the capacity comes from; for gravity 0.60.
    pub capacity: Capacity,
    /// What it carries of this gas, ft³/h.
    pub carries: f64,
    /// Next longer row: its length and what it carries of this gas.
    pub next_row: Option<(f64, f64)>,
    /// Longest run over which this size carries the load, feet.
    pub longest: f64,
    /// Chance that the load lies beyond what it carries, by the tolerance of the length.
    pub chance: f64,
    /// σ of what it carries, ft³/h.
    pub sigma: f64,
}

impl Section {
    /// The next longer row carries less than the load, although the length itself carries it.
    pub fn short_by_rows(&self) -> bool {
        self.next_row.is_some_and(|(_, carries)| self.load > carries + HAIR)
    }
    /// How it stands: by chance, and near where only a reading by rows says otherwise.
    pub fn standing(&self) -> Standing {
        match Standing::of_chance(self.chance) {
            Standing::Within if self.short_by_rows() => Standing::Near,
            other => other,
        }
    }
    /// Whether it carries the load at the values taken.
    pub fn carries_load(&self) -> bool {
        self.load <= self.carries + HAIR
    }
}

/// What sections of one run share.
pub struct Sizing<'a> {
    /// The run.
    pub plan: &'a GasPlan,
    /// The book.
    pub book: &'a Book,
    form: Form,
    /// Multiplier for the gas's gravity.
    pub multiplier: f64,
}

impl<'a> Sizing<'a> {
    /// For one run under one book.
    ///
    /// # Errors
    /// A book without the form or the gravity.
    pub fn new(plan: &'a GasPlan, book: &'a Book) -> Result<Self, TradeError> {
        let multiplier = cite::row(book, "gravity-multiplier", plan.gravity)?.0;
        Ok(Self { plan, book, form: Form::of(book)?, multiplier })
    }
    /// The length sections are sized for, in feet: the longest run with what fittings add at these sizes.
    ///
    /// # Errors
    /// As [`GasPlan::fittings_feet`].
    pub fn feet(&self, trunk: &str, branch: Option<&str>) -> Result<f64, TradeError> {
        let on_branch = self.plan.fittings_feet(self.book, Segment::Branch, branch.unwrap_or(trunk))?;
        let on_trunk = self.plan.fittings_feet(self.book, Segment::Trunk, trunk)?;
        Ok(self.plan.length.feet() + on_trunk + on_branch)
    }
    /// One section at a size over a length in feet.
    ///
    /// # Errors
    /// As [`capacity`].
    pub fn section(
        &self,
        segment: Segment,
        size: &'static str,
        feet: f64,
        [before, load]: [f64; 2],
    ) -> Result<Section, TradeError> {
        let capacity = capacity(self.book, self.plan.drop, size, feet)?;
        let carries = capacity.cfh * self.multiplier;
        let next_row = capacity.next_row.map(|(at, cfh)| (at, cfh * self.multiplier));
        // The load gives out at a length, and the length is what carries the tolerance: exact, where a straight line
        // through the capacity would be a first order only.
        let longest = self.form.feet_for(capacity.feet, carries, load);
        let spread = Budget::new().with(Phrase("trade-length-run"), 1.0, self.plan.length.sigma_feet());
        // A load exactly at the value lies half beyond it, whatever the last bit of its power.
        let at = if libm::fabs(load - carries) < HAIR { capacity.feet } else { longest };
        let chance = spread.chance_over(capacity.feet, at);
        let sigma = self.form.lost_per_foot(capacity.feet, carries) * spread.sigma();
        Ok(Section {
            segment,
            size,
            feet,
            before,
            load,
            capacity,
            carries,
            next_row,
            longest: at,
            chance,
            sigma,
        })
    }
    /// The trunk at a size.
    ///
    /// # Errors
    /// As [`capacity`].
    pub fn trunk(&self, size: &'static str) -> Result<Section, TradeError> {
        let (before, after) = (self.plan.before(), self.plan.before() + self.plan.added());
        self.section(Segment::Trunk, size, self.feet(size, self.plan.branch)?, [before, after])
    }
    /// The branch at a size.
    ///
    /// # Errors
    /// As [`capacity`].
    pub fn branch(&self, size: &'static str) -> Result<Section, TradeError> {
        let feet = self.feet(self.plan.trunk, Some(size))?;
        self.section(Segment::Branch, size, feet, [0.0, self.plan.added()])
    }
    /// A pipe of its own from the meter to what is planned, sized for the longest run; its own length counts where
    /// that is longer.
    ///
    /// # Errors
    /// As [`capacity`].
    pub fn own_run(&self, size: &'static str) -> Result<Section, TradeError> {
        let own = self.plan.own_run.map_or(0.0, |r| r.inches() / 12.0);
        let feet = libm::fmax(own, self.plan.length.feet());
        self.section(Segment::Branch, size, feet, [0.0, self.plan.added()])
    }
}

/// The first size, from the smallest, at which a section passes a test.
///
/// # Errors
/// As `at`.
pub fn smallest(
    at: impl Fn(&'static str) -> Result<Section, TradeError>,
    test: impl Fn(&Section) -> bool,
) -> Result<Option<Section>, TradeError> {
    for size in SIZES {
        let section = at(size)?;
        if test(&section) {
            return Ok(Some(section));
        }
    }
    Ok(None)
}

/// The smallest size at which a section stands within its value, tolerance and next row included.
///
/// # Errors
/// As `at`.
pub fn roomy(
    at: impl Fn(&'static str) -> Result<Section, TradeError>,
) -> Result<Option<Section>, TradeError> {
    smallest(at, |s| s.standing() == Standing::Within)
}
