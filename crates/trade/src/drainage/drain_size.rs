//! The calculation `drain-size`: what the fixtures on a pipe load it with, the smallest size that carries them, the
//! least slope, and how a pipe that is there lies to it.

use alloc::{format, vec::Vec};

use survey::catalog::{Book, Catalog, Shelf};
use survey::{Phrase, Said, say};

use super::by_book::{Sized, by_book, worse};
use super::demand::{Demand, HAIR, Size};
use super::drain_changes::{self, Tall};
use super::units::{Fixtures, Load};
use super::{branch, building_drain, drain_fields, drain_lines, slope, stack};
use crate::calculation::Calculation;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Given, show_inches};
use crate::measure::{FixtureUnits, InchesPerFoot};
use crate::number::show_number;
use crate::sheet::{Assumed, Change, Sheet, Standing};
use crate::tolerance::Reading;

/// Which part of the drainage a pipe is.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Part {
    /// Gathers fixtures and falls gently.
    HorizontalBranch,
    /// Drops within one story.
    Vertical,
    /// Stands through stories.
    Stack {
        /// Branch intervals: about one for each story that drains into it.
        intervals: u32,
        /// Most units that enter within one interval.
        busiest: FixtureUnits,
    },
    /// Leads out of the house.
    BuildingDrain,
}

/// Highest vertical drain taken, inches: 400 ft, beyond every table.
pub const HIGHEST_TAKEN: f64 = 4800.0;

impl Part {
    /// Name in a sentence.
    pub const fn name(self) -> Phrase {
        match self {
            Self::HorizontalBranch => Phrase("trade-horizontal-branch"),
            Self::Vertical => Phrase("trade-vertical-drain"),
            Self::Stack { .. } => Phrase("trade-stack"),
            Self::BuildingDrain => Phrase("trade-building-drain"),
        }
    }
    /// Whether it falls gently, so that a slope matters.
    pub const fn is_level(self) -> bool {
        matches!(self, Self::HorizontalBranch | Self::BuildingDrain)
    }
}

/// A drain as planned or found.
#[derive(Clone, PartialEq, Debug)]
pub struct DrainPlan {
    fixtures: Fixtures,
    part: Part,
    existing: Option<Size>,
    slope: Option<InchesPerFoot>,
    height: Option<Reading>,
}

impl DrainPlan {
    /// A plan.
    ///
    /// # Errors
    /// A height outside 0 to 400 ft, or branch intervals outside 1 to 20.
    pub fn new(
        fixtures: Fixtures,
        part: Part,
        existing: Option<Size>,
        slope: Option<InchesPerFoot>,
        height: Option<Reading>,
    ) -> Result<Self, TradeError> {
        let range = |what, value, low, high, unit| TradeError::OutOfRange { what, value, low, high, unit };
        if let Some(inches) = height.map(|h| h.inches()).filter(|h| !(0.0..=HIGHEST_TAKEN).contains(h)) {
            return Err(range(Phrase("trade-height-vertical-drain"), inches, 0.0, HIGHEST_TAKEN, "in"));
        }
        match part {
            Part::Stack { intervals, .. } if !(1..=stack::MOST_INTERVALS).contains(&intervals) => {
                let most = f64::from(stack::MOST_INTERVALS);
                Err(range(Phrase("trade-number-branch-intervals"), f64::from(intervals), 1.0, most, ""))
            }
            _ => Ok(Self { fixtures, part, existing, slope, height }),
        }
    }
    fn slope(&self) -> Option<f64> {
        self.slope.filter(|_| self.part.is_level()).map(InchesPerFoot::get)
    }
    fn height(&self) -> Option<Reading> {
        self.height.filter(|_| !self.part.is_level())
    }
}

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval-licensed-plumber-sizes");

/// Holds a drain against the firm's book, or against every plumbing book.
///
/// # Errors
/// A book without the tables, or a fixture it does not list.
pub fn judge(plan: &DrainPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    by_book(shelf, CAUTION, |book| under(plan, book))
}

fn under(plan: &DrainPlan, book: &Book) -> Result<Sized, TradeError> {
    let load = Load::of(book, &plan.fixtures)?;
    let slope = plan.slope();
    if let (Part::BuildingDrain, Some(s)) = (plan.part, slope)
        && !building_drain::column_holds(book, s)?
    {
        return column_missing(plan, book, &load, s);
    }
    let demand = match plan.part {
        Part::HorizontalBranch => branch::demand(book, &load, slope)?,
        Part::Vertical => stack::demand_upright(book, &load)?,
        Part::Stack { intervals, busiest } => {
            stack::demand(book, &load, intervals, libm::fmin(busiest.get(), load.units))?
        }
        Part::BuildingDrain => building_drain::demand(book, &load, slope)?,
    };
    let high = plan.height();
    let tall = |size: &Size| Tall::of(book, *size, high);
    // A size whose chance to be too tall is under one half does by its height.
    let does = |s: &Size| demand.faults(*s).is_empty() && tall(s).is_none_or(|t| t.chance(0.0) <= 0.5);
    let needed = demand.sizes().find(does);
    let Some(needed) = needed else { return Ok((beyond_table(plan, book, &load, &demand), Said::nothing())) };
    let mut sheet = held(plan, &load, &demand, needed, tall);
    drain_lines::add(&mut sheet, plan.part.name(), &load, &demand, plan.existing, needed);
    sheet.limits.extend(load.limits.iter().cloned());
    sheet.limits.extend(demand.limits.iter().cloned());
    sheet.notes.extend(load.notes.iter().cloned());
    sheet.assumed.extend(load.assumed.iter().cloned());
    if high.is_some() && book.table("vertical-drain-length").is_some() {
        let size = plan.existing.unwrap_or(needed);
        if let Ok((_, limit)) = cite::row(book, "vertical-drain-length", size.name) {
            sheet.limits.push(limit);
        }
    }
    if plan.part.is_level() {
        fall(plan, book, needed, &mut sheet)?;
    }
    sheet.picture = Some(drain_lines::picture(&load, &demand, plan.existing, needed));
    Ok((sheet, say!("trade-in", sigma = needed.name)))
}

/// The standing and its sentence.
fn held(
    plan: &DrainPlan,
    load: &Load,
    demand: &Demand,
    needed: Size,
    tall: impl Fn(&Size) -> Option<Tall>,
) -> Sheet {
    let (part, units) = (plan.part.name(), show_number(load.units));
    let carried = demand.columns.first().and_then(|c| c.carries(needed.name)).unwrap_or_default();
    let smallest = say!(
        "trade-smallest-which-carries-dfu",
        part = part,
        name = needed.name,
        carried = show_number(carried),
        units = units
    );
    let Some(size) = plan.existing else {
        let mut sheet = Sheet::new(Standing::Quantity, Said::run([smallest.capital(), ".".into()]), CAUTION);
        if demand.is_full(needed) {
            sheet.note(say!("trade-exactly-full-one-more", name = needed.name));
        }
        sheet.note(Phrase("trade-no-size-there-was"));
        return sheet;
    };
    let faults = demand.faults(size);
    let mut standing = match faults.is_empty() {
        false => Standing::Beyond,
        true if demand.is_full(size) => Standing::Near,
        true => Standing::Within,
    };
    let mut why: Vec<Said> = faults.iter().map(super::demand::Fault::words).collect();
    if standing == Standing::Near {
        why.push(say!("trade-exactly-full-one-more-fixture"));
    }
    let height = tall(&size);
    if let Some(height) = &height {
        let by_height = Standing::of_chance(height.chance(0.0));
        if by_height != Standing::Within {
            let (how, most) = (by_height.lies(), show_number(height.most));
            why.push(say!("trade-height-ft-table-takes", how = how, most = most));
        }
        standing = worse(standing, by_height);
    }
    let how = standing.lies();
    let sentence = say!("trade-table-value", name = size.name, how = how, part = part, smallest = smallest);
    why.insert(0, sentence);
    let mut sheet = Sheet::new(standing, Said::sentences(why), CAUTION);
    if let Some(height) = height {
        sheet.chance_beyond = Some(if faults.is_empty() { height.chance(0.0) } else { 1.0 });
        sheet.sigma = Some(say!("trade-in", sigma = format!("{:.3}", height.sigma())));
    }
    if matches!(standing, Standing::Beyond | Standing::Near) {
        drain_changes::add(part, load, demand, size, tall, &mut sheet);
    }
    sheet
}

/// Slope that the column read is for, where the book's column is for one; inches per foot.
fn column_slope(part: Part, book: &Book) -> Result<Option<f64>, TradeError> {
    if book.table("gentle-slope-part").is_some() {
        return Ok(part.is_level().then_some(branch::TABLE_SLOPE));
    }
    match part {
        Part::BuildingDrain if book.table("building-drain-slope").is_some() => {
            Ok(Some(cite::value(book, "building-drain-slope")?.0))
        }
        _ => Ok(None),
    }
}

/// Least slope of the size needed and of the one that is there, and how a slope that was given lies to it.
fn fall(plan: &DrainPlan, book: &Book, needed: Size, sheet: &mut Sheet) -> Result<(), TradeError> {
    let size = plan.existing.unwrap_or(needed);
    let (least, limit) = slope::least(book, size.inches)?;
    sheet.line(Phrase("trade-least-slope"), say!("trade-foot", name = size.name, least = show_inches(least)));
    sheet.limits.push(limit);
    let column = column_slope(plan.part, book)?;
    if column.is_some() && book.table("building-drain-slope").is_some() {
        sheet.limits.push(cite::value(book, "building-drain-slope")?.1);
    }
    if let (None, Some(column)) = (plan.slope(), column) {
        assume_slope(book, size, least, column, sheet);
        return Ok(());
    }
    let (name, shown) = (size.name, show_inches(least));
    sheet.say_also(say!("trade-falls-least-foot", name = name, shown = &shown));
    let Some(given) = plan.slope() else { return Ok(()) };
    let (standing, limit) = slope::judge(book, size.inches, given)?;
    if !sheet.limits.contains(&limit) {
        sheet.limits.push(limit);
    }
    let (shown, least_shown, size) = (show_inches(given), show_inches(least), size.name);
    let so_far = core::mem::take(&mut sheet.sentence);
    match standing {
        Standing::Beyond => {
            sheet.sentence = say!(
                "trade-foot-beyond-table-value",
                shown = &shown,
                size = size,
                leastshown = &least_shown,
                sofar = so_far
            );
            // Nothing else helps a drain that lies too gently, and a slope helps nothing else.
            sheet.changes.iter_mut().for_each(|change| change.enough = false);
            let text = say!("trade-slope-foot-place", leastshown = &least_shown, shown = &shown);
            let enough = matches!(sheet.standing, Standing::Within | Standing::Quantity);
            sheet.changes.push(Change::new(text, enough));
        }
        Standing::AskLocally => {
            sheet.sentence = say!(
                "trade-ask-locally-whether-authority",
                shown = &shown,
                size = size,
                leastshown = least_shown,
                sofar = so_far
            );
        }
        _ => sheet.sentence = say!("trade-foot-within", sofar = so_far, shown = &shown),
    }
    sheet.standing = match (sheet.standing, standing) {
        // Without a pipe to hold against, a slope that is enough changes nothing.
        (Standing::Quantity, Standing::Within) => Standing::Quantity,
        (so_far, by_slope) => worse(so_far, by_slope),
    };
    Ok(())
}

/// Nobody said the slope: what was read holds at that of the column. A gentler one may be taken, and carries less.
fn assume_slope(book: &Book, size: Size, least: f64, column: f64, sheet: &mut Sheet) {
    let (name, title, shown) = (size.name, &book.title, show_inches(column));
    sheet.say_also(say!("trade-taken-fall-foot-slope", shown = &shown));
    let value = say!("trade-foot-slope-column", shown = &shown);
    sheet.assumed.push(Assumed::new(say!("trade-slope", title = title), value));
    if least < column - HAIR {
        sheet.note(say!(
            "trade-least-slope-foot-less",
            title = title,
            name = name,
            least = show_inches(least),
            shown = &shown
        ));
    }
}

fn beyond_table(plan: &DrainPlan, book: &Book, load: &Load, demand: &Demand) -> Sheet {
    let (units, part) = (show_number(load.units), plan.part.name());
    let sentence = say!("trade-no-size-table-does-dfu", title = &book.title, part = part, units = &units);
    let missing = [say!("trade-size-beyond-table-dfu", units = &units)].into();
    let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
    drain_lines::add_load(&mut sheet, load);
    sheet.limits.extend(load.limits.iter().chain(&demand.limits).cloned());
    sheet
}

fn column_missing(plan: &DrainPlan, book: &Book, load: &Load, slope: f64) -> Result<Sized, TradeError> {
    let shown = show_inches(slope);
    let sentence =
        say!("trade-book-has-no-column", title = &book.title, name = plan.part.name(), shown = &shown);
    let missing = [say!("trade-column-building-drain-foot", shown = &shown)].into();
    let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
    drain_lines::add_load(&mut sheet, load);
    sheet.limits.push(cite::value(book, "building-drain-slope")?.1);
    Ok((sheet, Said::nothing()))
}

/// The calculation.
pub const CALCULATION: Calculation = Calculation {
    word: "drain-size",
    title: Phrase("trade-drain-size-3"),
    about: Phrase("trade-what-fixtures-load-drain"),
    fields: drain_fields::FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    if given.rows("fixtures").is_empty() {
        let missing = given.missing(drain_fields::FIELDS);
        return Ok(Sheet::cannot_say(Phrase("trade-without-fixtures-drain-nothing"), missing, CAUTION));
    }
    let mut assumed: Vec<Assumed> = given.assumed().to_vec();
    let plan = match plan(given, &mut assumed) {
        Ok(plan) => plan,
        // A count of one and a half, or more rows than a drain has fixtures.
        Err(error) => {
            let missing = [say!("trade-fixtures-intervals-counts")].into();
            return Ok(Sheet::cannot_say(
                say!("trade-cannot-say-2", error = error.message()),
                missing,
                CAUTION,
            ));
        }
    };
    let mut sheet = judge(&plan, &catalog.shelf)?;
    let unused = if plan.part.is_level() { plan.height.is_some() } else { plan.slope.is_some() };
    if unused {
        let what = if plan.part.is_level() { Phrase("trade-height") } else { Phrase("trade-slope-2") };
        sheet.note(say!("trade-not-used-says-nothing", what = what, name = plan.part.name()));
    }
    sheet.assumed.extend(assumed);
    Ok(sheet)
}

fn plan(given: &Given, assumed: &mut Vec<Assumed>) -> Result<DrainPlan, TradeError> {
    let fixtures = Fixtures::new(drain_fields::fixtures(given)?)?;
    let part = drain_fields::part(given, assumed)?;
    let slope = given.number("slope").map(InchesPerFoot::new).transpose()?;
    let existing = given.word("existing").and_then(Size::named);
    DrainPlan::new(fixtures, part, existing, slope, given.length("height"))
}
