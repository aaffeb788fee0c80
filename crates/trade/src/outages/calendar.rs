//! The calendar: for every service, the chance in every quarter hour that the household is without it.

use alloc::vec::Vec;

use survey::Phrase;

use super::household::{Household, Medical};
use super::order::Set;
use super::plan::Plan;
use super::schedule::{QUARTER, Schedule};
use super::service::{INTERNET, POWER, QUIET, Service, WATER};
use super::tasks::Task;
use crate::error::TradeError;

/// Most services in a calendar.
pub const MOST_SERVICES: usize = 40;

/// One service that the household goes without at times.
#[derive(Clone, PartialEq, Debug)]
pub struct Without {
    /// Which.
    pub service: Service,
    /// Tasks that take it away.
    pub tasks: Set,
    /// Those of them that keep it off overnight.
    pub overnight: Set,
    /// Chance that it is off in each quarter hour of work since the first morning.
    pub chance: Vec<f64>,
    /// Chance that it is off during the night after each working day.
    pub nights: Vec<f64>,
    /// Working hours off: mean.
    pub mean: f64,
    /// Working hours off: P50 and P90; none if beyond the days looked at.
    pub hours: [Option<f64>; 2],
    /// Quarter hour of work by which it is back for good: P50 and P90.
    pub ends: [Option<usize>; 2],
}

impl Without {
    /// Chance in one half hour of a day (from 1), counted from the start of work: the mean of its quarter hours.
    pub fn half_hour(&self, day_quarters: usize, day: u32, half: usize) -> f64 {
        let first = (day as usize - 1) * day_quarters + 2 * half;
        let last = usize::min(first + 2, day as usize * day_quarters);
        let quarters = self.chance.get(first..last).unwrap_or_default();
        if quarters.is_empty() { 0.0 } else { quarters.iter().sum::<f64>() / quarters.len() as f64 }
    }
}

/// A plan's calendar.
#[derive(Clone, PartialEq, Debug)]
pub struct Calendar {
    /// When tasks start and end.
    pub schedule: Schedule,
    /// What is off.
    pub rows: Vec<Without>,
    /// Quarter hour of work by which all is done: P50 and P90.
    pub ends: [Option<usize>; 2],
}

/// The tasks that take a service away, and those that keep it off overnight.
pub fn cutting(plan: &Plan, household: &Household, service: &Service) -> (Set, Set) {
    let router = household.internet_circuit.as_deref();
    let cuts = |task: &Task, overnight: bool| {
        let loud = service.is(QUIET) && task.loud() && !overnight;
        loud || task.off().iter().filter(|o| o.overnight || !overnight).any(|o| {
            let power = o.service.is(POWER);
            let of_router = power && router.is_some() && o.service.place() == router;
            let by_power = (service.is(INTERNET) && (o.service.is_whole_power() || of_router))
                || (service.is(WATER) && household.well_pump && o.service.is_whole_power());
            (!o.well || household.well_pump) && (o.service.covers(service) || by_power)
        })
    };
    (plan.named(|t| cuts(t, false)), plan.named(|t| cuts(t, true)))
}

fn services(plan: &Plan, household: &Household) -> Result<Vec<Service>, TradeError> {
    let mut all: Vec<Service> = Vec::new();
    for off in plan.tasks().iter().flat_map(Task::off) {
        all.push(off.service.clone());
    }
    for word in [INTERNET, WATER, QUIET] {
        all.push(Service::new(word, None)?);
    }
    let (router, office) = (household.internet_circuit.as_deref(), household.office_circuit.as_deref());
    let circuits = [device_circuit(household), router, office];
    for name in circuits.into_iter().flatten() {
        all.push(Service::new(POWER, Some(name))?);
    }
    all.sort();
    all.dedup();
    all.retain(|s| !cutting(plan, household, s).0.is_empty());
    if all.len() > MOST_SERVICES {
        let (what, value, high) =
            (Phrase("trade-number-services-off"), all.len() as f64, MOST_SERVICES as f64);
        return Err(TradeError::OutOfRange { what, value, low: 0.0, high, unit: "" });
    }
    Ok(all)
}

impl Calendar {
    /// Places the tasks and says what is off when.
    ///
    /// # Errors
    /// Over 40 different services and circuits.
    pub fn of(plan: &Plan, household: &Household) -> Result<Self, TradeError> {
        Ok(Self::only(plan, household, services(plan, household)?))
    }
    /// The same for some services only.
    pub fn only(plan: &Plan, household: &Household, services: Vec<Service>) -> Self {
        let schedule = plan.schedule();
        let rows = services.into_iter().map(|s| without(plan, household, &schedule, s)).collect();
        let ends = schedule.done(plan.all()).p50_p90();
        Self { rows, ends, schedule }
    }
    /// The row of a service.
    pub fn row(&self, service: &Service) -> Option<&Without> {
        self.rows.iter().find(|r| r.service == *service)
    }
}

fn without(plan: &Plan, household: &Household, schedule: &Schedule, service: Service) -> Without {
    let (tasks, overnight) = cutting(plan, household, &service);
    let under_way = schedule.under_way(tasks);
    let hours = under_way.length.p50_p90().map(|q| q.map(|quarters| quarters as f64 * QUARTER));
    let nights = schedule.nights(overnight);
    let ends = schedule.done(tasks).p50_p90();
    Without { service, tasks, overnight, chance: under_way.chance, nights, mean: under_way.mean, hours, ends }
}

/// Whether a task cuts power of circuits that nobody named.
pub fn cuts_unnamed(task: &Task) -> bool {
    task.off().iter().any(|o| o.unnamed_circuit)
}

/// The name of a circuit that a medical device hangs on.
pub fn device_circuit(household: &Household) -> Option<&str> {
    match &household.medical {
        Medical::On(name) => Some(name),
        _ => None,
    }
}
