//! Where the calendar meets what the household cannot go without, and the rule of the household that helps.

use alloc::{vec, vec::Vec};

use survey::{Phrase, Said, say};

use super::calendar::{Calendar, Without, cuts_unnamed, cutting, device_circuit};
use super::days::{Clock, QUARTERS};
use super::household::{Household, circuit_said};
use super::order::Set;
use super::plan::Plan;
use super::schedule::QUARTER;
use super::service::{BATH, DRAINS, INTERNET, POWER, QUIET, Service, TOILET, WATER, service_said};
use super::tasks::Task;
use crate::error::TradeError;
use crate::number::{in_100, show_number};

/// Chances under this are not shown as conflicts, as beyond two σ elsewhere; a medical device has no such threshold.
pub const LEAST_SHOWN: f64 = 0.05;
/// When water is back in the evening (household rule of the catalog, common practice), quarter hours after midnight.
const EVENING: u32 = 17 * QUARTERS;

/// What meets what.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Kind {
    /// A medical device and its circuit.
    Medical,
    /// No toilet overnight.
    LastToilet,
    /// Water that would not be back by evening.
    WaterEvening,
    /// Power of the whole house that would not be back by evening.
    PowerEvening,
    /// Working from home without internet or power.
    HomeWork,
    /// Loud work in quiet hours.
    QuietHours,
}

impl Kind {
    /// Name shown.
    pub const fn shown(self) -> Phrase {
        match self {
            Self::Medical => Phrase("trade-medical-device"),
            Self::LastToilet => Phrase("trade-last-toilet"),
            Self::WaterEvening => Phrase("trade-water-evening"),
            Self::PowerEvening => Phrase("trade-power-evening"),
            Self::HomeWork => Phrase("trade-working-home"),
            Self::QuietHours => Phrase("trade-quiet-hours"),
        }
    }
    /// Id of the household rule in the catalog that helps.
    pub const fn rule(self) -> &'static str {
        match self {
            Self::Medical => "medical-power",
            Self::LastToilet => "one-bath-left",
            Self::WaterEvening => "water-evening-rule",
            Self::PowerEvening => "boxed-off-wiring",
            Self::HomeWork => "extension-to-router",
            Self::QuietHours => "quiet-work",
        }
    }
}

/// One conflict on one day.
#[derive(Clone, PartialEq, Debug)]
pub struct Conflict {
    /// Kind.
    pub kind: Kind,
    /// Working day, from 1.
    pub day: u32,
    /// Its chance: of the worst half hour, or of the night.
    pub chance: f64,
    /// What happens, in words without the day.
    pub words: Said,
    /// Tasks that may cause it.
    pub tasks: Set,
}

/// Every conflict, by kind and day.
///
/// # Errors
/// None for a household that was read.
pub fn conflicts(
    plan: &Plan,
    household: &Household,
    calendar: &Calendar,
) -> Result<Vec<Conflict>, TradeError> {
    let search = Search { plan, household, calendar };
    let mut out = search.medical()?;
    out.extend(search.last_toilet());
    out.extend(search.evening(Kind::WaterEvening, WATER)?);
    out.extend(search.evening(Kind::PowerEvening, POWER)?);
    out.extend(search.home_work()?);
    out.extend(search.quiet_hours()?);
    out.sort_by_key(|c| (c.kind, c.day));
    Ok(out)
}

struct Search<'a> {
    plan: &'a Plan,
    household: &'a Household,
    calendar: &'a Calendar,
}

impl Search<'_> {
    fn days(&self) -> core::ops::RangeInclusive<u32> {
        1..=self.calendar.schedule.days()
    }
    /// The half hour of a day's window in which a chance is highest, and that chance.
    fn worst(&self, day: u32, window: [Clock; 2], chances: &[f64]) -> Option<(Clock, f64)> {
        let days = self.plan.days();
        let (from, to) = days.within(window);
        let first = (day as usize - 1) * days.quarters();
        let mut worst: Option<(Clock, f64)> = None;
        for at in (from..to).step_by(2) {
            let quarters = chances.get(first + at..first + usize::min(at + 2, to)).unwrap_or_default();
            let mean = quarters.iter().sum::<f64>() / quarters.len().max(1) as f64;
            if worst.is_none_or(|(_, w)| mean > w) {
                worst = Some((days.starts(at), mean));
            }
        }
        worst
    }

    fn medical(&self) -> Result<Vec<Conflict>, TradeError> {
        let Some(circuit) = device_circuit(self.household) else { return Ok(Vec::new()) };
        let device = Service::new(POWER, Some(circuit))?;
        let (named, overnight) = cutting(self.plan, self.household, &device);
        let tasks = named.with(self.plan.named(cuts_unnamed));
        if tasks.is_empty() {
            return Ok(Vec::new());
        }
        let chances = self.calendar.schedule.under_way(tasks).chance;
        let nights = self.calendar.schedule.nights(overnight);
        let unfinished = self.calendar.schedule.nights(named);
        let all_day = [self.plan.days().start(), self.plan.days().end()];
        let of_day = |day: u32| {
            let (when, chance) = self.worst(day, all_day, &chances)?;
            let at = |nights: &[f64]| nights.get(day as usize - 1).copied().unwrap_or_default();
            let (night, unfinished) = (at(&nights), at(&unfinished));
            let dark = if night > 0.0 {
                say!("trade-off-overnight", night = in_100(night))
            } else if unfinished > 0.0 {
                say!("trade-not-done-evening", unfinished = in_100(unfinished))
            } else {
                Said::nothing()
            };
            let words = if named.is_empty() {
                say!(
                    "trade-power-which-feeds-medical-device",
                    circuit = circuit_said(circuit),
                    shown = when.shown(),
                    chance = in_100(chance),
                    dark = dark
                )
            } else {
                say!(
                    "trade-power-which-feeds-medical-device-cut",
                    circuit = circuit_said(circuit),
                    shown = when.shown(),
                    chance = in_100(chance),
                    dark = dark
                )
            };
            let chance = libm::fmax(chance, night);
            (chance > 0.0).then_some(Conflict { kind: Kind::Medical, day, chance, words, tasks })
        };
        Ok(self.days().filter_map(of_day).collect())
    }

    fn last_toilet(&self) -> Vec<Conflict> {
        let Some(toilets) = self.household.toilets else { return Vec::new() };
        let apart = self.household.toilets_apart.min(toilets);
        // A cut stack counts as more toilets than a house has, so that one sum tells both.
        let takes: Vec<(usize, u32)> = (0..self.plan.tasks().len())
            .filter_map(|at| self.plan.task(at).map(|task| (at, toilets_of(task))))
            .filter(|(_, takes)| *takes > 0)
            .collect();
        if takes.is_empty() {
            return Vec::new();
        }
        let none_left = |taken: u32| {
            let single = taken % STACK;
            single >= if taken >= STACK { apart } else { toilets }
        };
        let nights = self.calendar.schedule.nights_where(&takes, none_left);
        let mut tasks = Set::NONE;
        takes.iter().for_each(|(at, _)| tasks.insert(*at));
        let of_night = |(day, chance): (u32, f64)| {
            let words = say!("trade-no-toilet-works-night", chance = in_100(chance));
            (chance >= LEAST_SHOWN).then_some(Conflict { kind: Kind::LastToilet, day, chance, words, tasks })
        };
        self.days().zip(nights).filter_map(of_night).collect()
    }

    /// Water or power of the whole house that would not be back by evening.
    fn evening(&self, kind: Kind, word: &'static str) -> Result<Vec<Conflict>, TradeError> {
        let (tasks, overnight) = cutting(self.plan, self.household, &Service::new(word, None)?);
        if tasks.is_empty() {
            return Ok(Vec::new());
        }
        let schedule = &self.calendar.schedule;
        let chances = schedule.under_way(tasks).chance;
        let (unfinished, stays) = (schedule.nights(tasks), schedule.nights(overnight));
        let end = self.plan.days().end();
        let evening = Clock::from_quarters(EVENING).filter(|from| *from < end);
        let of_day = |day: u32| {
            let at = |nights: &[f64]| nights.get(day as usize - 1).copied().unwrap_or_default();
            let (unfinished, stays) = (at(&unfinished), at(&stays));
            let late = evening.and_then(|from| self.worst(day, [from, end], &chances)).map_or(0.0, |w| w.1);
            let words = if stays > 0.0 {
                say!(
                    "trade-stays-off-overnight",
                    word = service_said(word),
                    late = in_100(libm::fmax(stays, late))
                )
            } else if unfinished >= late {
                let chance = in_100(unfinished);
                say!("trade-work-not-done-evening", chance = chance, word = service_said(word))
            } else {
                say!("trade-off-after-17-00", word = service_said(word), late = in_100(late))
            };
            let chance = libm::fmax(unfinished, late);
            (chance >= LEAST_SHOWN).then_some(Conflict { kind, day, chance, words, tasks })
        };
        Ok(self.days().filter_map(of_day).collect())
    }

    fn home_work(&self) -> Result<Vec<Conflict>, TradeError> {
        let Some(home) = self.household.home_days else { return Ok(Vec::new()) };
        let window = self.household.home_hours;
        let mut out = Vec::new();
        for service in home_services(self.household)? {
            let Some(row) = self.calendar.row(&service) else { continue };
            for day in self.days().filter(|d| home[self.plan.days().weekday(*d)]) {
                let Some((when, chance)) = self.worst(day, window, &row.chance) else { continue };
                if chance < LEAST_SHOWN {
                    continue;
                }
                let words = say!(
                    "trade-off-h-working-hours",
                    shown = service.shown(),
                    window = show_number(libm::round(self.hours_within(row, day, window) * 10.0) / 10.0),
                    shown2 = when.shown(),
                    chance = in_100(chance)
                );
                out.push(Conflict { kind: Kind::HomeWork, day, chance, words, tasks: row.tasks });
            }
        }
        Ok(out)
    }
    /// Mean hours off inside a window of a day.
    fn hours_within(&self, row: &Without, day: u32, window: [Clock; 2]) -> f64 {
        let (from, to) = self.plan.days().within(window);
        let first = (day as usize - 1) * self.plan.days().quarters();
        row.chance.get(first + from..first + to).unwrap_or_default().iter().sum::<f64>() * QUARTER
    }

    fn quiet_hours(&self) -> Result<Vec<Conflict>, TradeError> {
        let Some(row) = self.calendar.row(&Service::new(QUIET, None)?) else { return Ok(Vec::new()) };
        let mut out = Vec::new();
        for window in self.household.quiet.iter().flatten() {
            for day in self.days() {
                let Some((when, chance)) = self.worst(day, *window, &row.chance) else { continue };
                if chance >= LEAST_SHOWN {
                    let words =
                        say!("trade-loud-work-most-likely", shown = when.shown(), chance = in_100(chance));
                    out.push(Conflict { kind: Kind::QuietHours, day, chance, words, tasks: row.tasks });
                }
            }
        }
        Ok(out)
    }
}

/// More toilets than any tasks take together.
const STACK: u32 = 100_000;

/// How many toilets a task takes overnight: each named place once, each nameless one; [`STACK`] more for the drains
/// above.
fn toilets_of(task: &Task) -> u32 {
    let mut places: Vec<Option<&str>> = Vec::new();
    let mut stack = 0;
    for off in task.off().iter().filter(|o| o.overnight) {
        let place = off.service.place();
        if off.service.is(DRAINS) {
            stack = STACK;
        } else if (off.service.is(TOILET) || off.service.is(BATH))
            && (place.is_none() || !places.contains(&place))
        {
            places.push(place);
        }
    }
    stack + places.len() as u32
}

/// What somebody who works from home cannot do without.
///
/// # Errors
/// None for a household that was read.
pub fn home_services(household: &Household) -> Result<Vec<Service>, TradeError> {
    let mut services = vec![Service::new(INTERNET, None)?];
    if let Some(office) = &household.office_circuit {
        services.push(Service::new(POWER, Some(office))?);
    }
    Ok(services)
}

/// The highest chance, over all days, that work from home meets a cut.
///
/// # Errors
/// None for a household that was read.
pub fn worst_home_work(plan: &Plan, household: &Household) -> Result<f64, TradeError> {
    let calendar = Calendar::only(plan, household, home_services(household)?);
    let found = Search { plan, household, calendar: &calendar }.home_work()?;
    Ok(found.iter().map(|c| c.chance).fold(0.0, libm::fmax))
}
