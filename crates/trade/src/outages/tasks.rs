//! One planned task: how long, by whom, what it takes away, and what comes before it.

use alloc::{borrow::ToOwned, string::String, vec::Vec};

use survey::catalog::{Catalog, Outage};
use survey::{Phrase, Said, say};

use super::days::MOST_DAYS;
use super::order::{STAGES, stage_rank};
use super::service::{Off, QUIET};
use crate::error::TradeError;
use crate::measure::Hours;
use crate::pert::Pert;

/// Longest task taken, hours.
pub const MOST_HOURS: f64 = 2000.0;

/// Tasks of the catalog whose hours run day and night, not only while somebody works: common practice, no source.
const DAY_AND_NIGHT: [&str; 2] = ["shower-out", "kitchen-gap"];

/// Tasks of the catalog that are loud though they do not list "quiet": common practice, no source.
const LOUD: [&str; 1] = ["demo-dust"];

/// Working days in a week over its days: a clock hour counts as this much of an hour of a working week.
const WORKING_WEEK: f64 = 5.0 / 7.0;

/// A planned task.
#[derive(Clone, PartialEq, Debug)]
pub struct Task {
    name: String,
    hours: Pert,
    likely: f64,
    who: String,
    off: Vec<Off>,
    after: Vec<String>,
    stage: Option<&'static str>,
    from_day: u32,
    outage: Option<String>,
    help: Option<String>,
}

impl Task {
    /// A task by a name of its own, with hours low, likely and high.
    ///
    /// # Errors
    /// An empty name, hours outside 0 to 2000, or out of order.
    pub fn new(name: &str, hours: [f64; 3]) -> Result<Self, TradeError> {
        let name = name.trim();
        let bad = |note: Said| TradeError::BadField {
            field: "task".to_owned(),
            text: name.chars().take(60).collect(),
            note,
        };
        if name.is_empty() {
            return Err(bad(say!("trade-task-needs-name")));
        }
        for value in hours {
            if Hours::new(value)?.get() > MOST_HOURS {
                let (what, unit) = (Phrase("trade-time-task"), Hours::UNIT);
                return Err(TradeError::OutOfRange { what, value, low: 0.0, high: MOST_HOURS, unit });
            }
        }
        let pert = Pert::new(hours[0], hours[1], hours[2]).map_err(|e| bad(e.said()))?;
        Ok(Self {
            name: name.to_owned(),
            hours: pert,
            likely: hours[1],
            who: String::new(),
            off: Vec::new(),
            after: Vec::new(),
            stage: None,
            from_day: 1,
            outage: None,
            help: None,
        })
    }
    /// A task of the catalog under a name that is its id, or its id and “ #2”: hours and what is off come from there.
    ///
    /// # Errors
    /// A service in the catalog that is not known here.
    pub fn of_catalog(name: &str, outage: &Outage) -> Result<Self, TradeError> {
        let mut task = Self::new(name, [outage.hours.low, outage.hours.likely, outage.hours.high])?;
        for word in &outage.off {
            task.off.push(Off::of_catalog(word, &outage.scope)?);
        }
        task.outage = Some(outage.id.clone());
        task.help = Some(outage.help.clone());
        Ok(task)
    }
    /// The same with other hours.
    ///
    /// # Errors
    /// As [`Task::new`].
    pub fn lasting(self, hours: [f64; 3]) -> Result<Self, TradeError> {
        let fresh = Self::new(&self.name, hours)?;
        Ok(Self { hours: fresh.hours, likely: fresh.likely, ..self })
    }
    /// The same by a trade.
    #[must_use]
    pub fn by(self, who: &str) -> Self {
        Self { who: who.trim().to_lowercase(), ..self }
    }
    /// The same taking other services away.
    #[must_use]
    pub fn taking(self, off: Vec<Off>) -> Self {
        Self { off, ..self }
    }
    /// The same after one task more.
    #[must_use]
    pub fn after(mut self, name: &str) -> Self {
        self.after.push(name.trim().to_owned());
        self
    }
    /// The same at a stage of the work.
    ///
    /// # Errors
    /// An unknown stage: which are known.
    pub fn at_stage(self, stage: &str) -> Result<Self, TradeError> {
        let rank = stage_rank(stage).ok_or_else(|| TradeError::NoWord {
            what: Phrase("trade-stage"),
            value: stage.chars().take(60).collect(),
            known: STAGES.join(", "),
        })?;
        Ok(Self { stage: STAGES.get(rank).copied(), ..self })
    }
    /// The same not before a working day, counted from 1: a utility's date.
    ///
    /// # Errors
    /// A day outside 1 to 120.
    pub fn not_before(self, day: u32) -> Result<Self, TradeError> {
        if !(1..=MOST_DAYS).contains(&day) {
            let (what, value, unit) = (Phrase("trade-earliest-day"), f64::from(day), "");
            return Err(TradeError::OutOfRange { what, value, low: 1.0, high: f64::from(MOST_DAYS), unit });
        }
        Ok(Self { from_day: day, ..self })
    }
    /// Name.
    pub fn name(&self) -> &str {
        &self.name
    }
    /// Hours as stated: of work, or by the clock where [`Task::day_and_night`].
    pub const fn hours(&self) -> Pert {
        self.hours
    }
    /// Likely hours as stated.
    pub const fn likely(&self) -> f64 {
        self.likely
    }
    /// Hours of working time on a working day of so many hours: as stated, or for clock hours h·(day/24)·(5/7).
    pub fn working_hours(&self, day: f64) -> Pert {
        if self.day_and_night() { self.hours.times(day / 24.0 * WORKING_WEEK) } else { self.hours }
    }
    /// Trade; empty if nobody said.
    pub fn who(&self) -> &str {
        &self.who
    }
    /// What it takes away.
    pub fn off(&self) -> &[Off] {
        &self.off
    }
    /// Names of tasks that end before it starts.
    pub fn afters(&self) -> &[String] {
        &self.after
    }
    /// Stage.
    pub const fn stage(&self) -> Option<&'static str> {
        self.stage
    }
    /// Earliest working day, from 1.
    pub const fn from_day(&self) -> u32 {
        self.from_day
    }
    /// Id of the catalog's task.
    pub fn outage(&self) -> Option<&str> {
        self.outage.as_deref()
    }
    /// What helps, as the catalog says.
    pub fn help(&self) -> Option<&str> {
        self.help.as_deref()
    }
    /// Whether its hours run day and night.
    pub fn day_and_night(&self) -> bool {
        self.outage().is_some_and(|id| DAY_AND_NIGHT.contains(&id))
    }
    /// Whether it is loud: it takes quiet away, is demolition by stage, or is one of the loud tasks of the catalog.
    pub fn loud(&self) -> bool {
        self.off.iter().any(|o| o.service.is(QUIET))
            || self.stage == Some("demolition")
            || self.outage().is_some_and(|id| LOUD.contains(&id))
    }
}

/// The task of the catalog a name means: its id, or its id and “ #2”.
pub fn outage_named<'a>(catalog: &'a Catalog, name: &str) -> Option<&'a Outage> {
    let id = name.split_once('#').map_or(name, |(id, _)| id).trim();
    catalog.outages.iter().find(|o| o.id.eq_ignore_ascii_case(id))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::catalog;

    #[test]
    fn a_name_of_the_catalog_brings_hours_and_services() {
        let catalog = catalog();
        let outage = outage_named(&catalog, "Cap-Sink #2").unwrap();
        let task = Task::of_catalog("cap-sink #2", outage).unwrap();
        assert_eq!((task.hours().low(), task.likely(), task.hours().high()), (0.5, 1.0, 2.5));
        assert!(task.off()[0].service.is("water"));
        assert!(outage_named(&catalog, "hang pictures").is_none());
    }

    #[test]
    fn clock_hours_shrink_to_the_working_week() {
        // 240 h by the clock are 10 days, 7.14 working days, 60.7 h at 8.5 h a day.
        let catalog = catalog();
        let task = Task::of_catalog("shower-out", outage_named(&catalog, "shower-out").unwrap()).unwrap();
        assert!((task.working_hours(8.5).low() - 240.0 / 24.0 * 5.0 / 7.0 * 8.5).abs() < 1e-9);
        assert_eq!(Task::new("tile", [4.0, 6.0, 9.0]).unwrap().working_hours(8.5).low(), 4.0);
    }

    #[test]
    fn what_is_no_task_is_refused() {
        for hours in [[2.0, 1.0, 3.0], [-1.0, 1.0, 2.0], [1.0, 2.0, 2001.0], [f64::NAN, 1.0, 2.0]] {
            assert!(Task::new("tile", hours).is_err(), "{hours:?}");
        }
        assert!(Task::new(" ", [1.0; 3]).is_err());
        let tile = || Task::new("tile", [1.0; 3]).unwrap();
        assert!(tile().at_stage("party").is_err() && tile().not_before(0).is_err());
        assert!(tile().at_stage("Demolition").unwrap().loud());
    }
}
