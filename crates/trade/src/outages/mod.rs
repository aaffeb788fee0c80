//! Planned tasks to a calendar of what the household goes without: which hours are likely without water, power by
//! circuit, gas or internet, and what that meets in the house.
//!
//! No random numbers: every task takes a three-point (beta PERT) time to the quarter hour, and the plan is placed on
//! working days in some 65 000 evenly spread courses of the work ([`lattice`]), so that tasks which wait for the same
//! earlier one are late together. Multiplying distributions at every join would be simpler, but it takes such tasks as
//! independent and ends a plan of a few stages hours too late. Work goes on from one working day to the next; what a
//! task takes away is back at the end of the day or when the task is done, by service ([`service`]). Hours, services,
//! help and household rules come from the catalog's outages, which are common practice.

pub mod answer;
pub mod ask;
pub mod calendar;
pub mod conflicts;
pub mod days;
pub mod household;
pub mod lattice;
pub mod notes;
pub mod order;
pub mod plan;
pub mod remedies;
pub mod schedule;
pub mod service;
pub mod spread;
pub mod strip;
pub mod tasks;

use survey::Phrase;

use crate::calculation::Calculation;

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-planning-aid-pricing-household");

/// What this room answers.
pub const CALCULATIONS: &[Calculation] = &[Calculation {
    word: "outages",
    title: Phrase("trade-outages"),
    about: Phrase("trade-which-hours-household-likely"),
    fields: ask::FIELDS,
    run: ask::run,
}];
