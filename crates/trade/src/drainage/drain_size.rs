//! The calculation `drain-size`: what the fixtures on a pipe load it with, the smallest size that carries them, the
//! least slope, and how a pipe that is there lies to it.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::{Book, Catalog, Shelf};

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
use crate::number::{capital, show_number};
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
    pub const fn name(self) -> &'static str {
        match self {
            Self::HorizontalBranch => "horizontal branch",
            Self::Vertical => "vertical drain",
            Self::Stack { .. } => "stack",
            Self::BuildingDrain => "building drain",
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
            return Err(range("height of a vertical drain", inches, 0.0, HIGHEST_TAKEN, "in"));
        }
        match part {
            Part::Stack { intervals, .. } if !(1..=stack::MOST_INTERVALS).contains(&intervals) => {
                let most = f64::from(stack::MOST_INTERVALS);
                Err(range("number of branch intervals", f64::from(intervals), 1.0, most, ""))
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
pub const CAUTION: &str = "A screening answer for pricing, not an approval. A licensed plumber sizes and lays out the \
    drainage; the local plumbing code as adopted and its inspector govern.";

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
    let Some(needed) = needed else { return Ok((beyond_table(plan, book, &load, &demand), String::new())) };
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
    Ok((sheet, format!("{} in", needed.name)))
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
    let smallest = format!(
        "smallest {part} {} in, which carries {} DFU against a load of {units} DFU",
        needed.name,
        show_number(carried)
    );
    let Some(size) = plan.existing else {
        let mut sheet = Sheet::new(Standing::Quantity, format!("{}.", capital(&smallest)), CAUTION);
        if demand.is_full(needed) {
            sheet.note(format!(
                "{} in is exactly full: one more fixture asks for the next size.",
                needed.name
            ));
        }
        sheet.note("No size that is there was given, so nothing is held against the table.");
        return sheet;
    };
    let faults = demand.faults(size);
    let mut standing = match faults.is_empty() {
        false => Standing::Beyond,
        true if demand.is_full(size) => Standing::Near,
        true => Standing::Within,
    };
    let mut why: Vec<String> = faults.iter().map(super::demand::Fault::words).collect();
    if standing == Standing::Near {
        why.push("It is exactly full: one more fixture asks for the next size.".into());
    }
    let height = tall(&size);
    if let Some(height) = &height {
        let by_height = Standing::of_chance(height.chance(0.0));
        if by_height != Standing::Within {
            let (how, most) = (by_height.lies(), show_number(height.most));
            why.push(format!("Its height is {how} the {most} ft that the table takes at this size."));
        }
        standing = worse(standing, by_height);
    }
    let how = standing.lies();
    let mut sentence = format!("{} in is {how} the table value of a {part}; {smallest}.", size.name);
    for why in why {
        sentence.push(' ');
        sentence.push_str(&why);
    }
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    if let Some(height) = height {
        sheet.chance_beyond = Some(if faults.is_empty() { height.chance(0.0) } else { 1.0 });
        sheet.sigma = Some(format!("{:.3} in", height.sigma()));
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
    sheet.line("Least slope", format!("{} in: {} in a foot", size.name, show_inches(least)));
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
    sheet.sentence.push_str(&format!(" At {name} in it falls at least {shown} in a foot."));
    let Some(given) = plan.slope() else { return Ok(()) };
    let (standing, limit) = slope::judge(book, size.inches, given)?;
    if !sheet.limits.contains(&limit) {
        sheet.limits.push(limit);
    }
    let (shown, least_shown, size) = (show_inches(given), show_inches(least), size.name);
    let so_far = core::mem::take(&mut sheet.sentence);
    match standing {
        Standing::Beyond => {
            sheet.sentence = format!(
                "{shown} in a foot is beyond the table value for {size} in, {least_shown}: too gentle. {so_far}"
            );
            // Nothing else helps a drain that lies too gently, and a slope helps nothing else.
            sheet.changes.iter_mut().for_each(|change| change.enough = false);
            let text = format!("a slope of {least_shown} in a foot in place of {shown}");
            let enough = matches!(sheet.standing, Standing::Within | Standing::Quantity);
            sheet.changes.push(Change { text, enough });
        }
        Standing::AskLocally => {
            sheet.sentence = format!(
                "Ask locally whether the authority approves {shown} in a foot for {size} in: the table value is \
                 {least_shown}, less only from 4 in up with approval. {so_far}"
            );
        }
        _ => sheet.sentence = format!("{so_far} {shown} in a foot is within that."),
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
    sheet.sentence.push_str(&format!(" It is taken to fall {shown} in a foot, the slope its column is for."));
    let value = format!("{shown} in a foot, the slope its column is for");
    sheet.assumed.push(Assumed { item: format!("slope, {title}"), value });
    if least < column - HAIR {
        sheet.note(format!(
            "{title}: the least slope at {name} in is {} in a foot; at less than {shown} the drain carries less than \
             is said here.",
            show_inches(least)
        ));
    }
}

fn beyond_table(plan: &DrainPlan, book: &Book, load: &Load, demand: &Demand) -> Sheet {
    let (units, part) = (show_number(load.units), plan.part.name());
    let sentence = format!("No size in the table of {} does for a {part} of {units} DFU.", book.title);
    let missing = [format!("a size beyond the table for {units} DFU")].into();
    let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
    drain_lines::add_load(&mut sheet, load);
    sheet.limits.extend(load.limits.iter().chain(&demand.limits).cloned());
    sheet
}

fn column_missing(plan: &DrainPlan, book: &Book, load: &Load, slope: f64) -> Result<Sized, TradeError> {
    let shown = show_inches(slope);
    let sentence = format!(
        "The book {} has no column for a {} that falls {shown} in a foot.",
        book.title,
        plan.part.name()
    );
    let missing = [format!("the column of the building drain for {shown} in a foot")].into();
    let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
    drain_lines::add_load(&mut sheet, load);
    sheet.limits.push(cite::value(book, "building-drain-slope")?.1);
    Ok((sheet, String::new()))
}

/// The calculation.
pub const CALCULATION: Calculation = Calculation {
    word: "drain-size",
    title: "Drain size",
    about: "What the fixtures load a drain with, the smallest size and slope for it, and how the pipe there lies to it.",
    fields: drain_fields::FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    if given.rows("fixtures").is_empty() {
        let missing = given.missing(drain_fields::FIELDS);
        return Ok(Sheet::cannot_say(
            "Without the fixtures on the drain nothing can be said.",
            missing,
            CAUTION,
        ));
    }
    let mut assumed: Vec<Assumed> = given.assumed().to_vec();
    let plan = match plan(given, &mut assumed) {
        Ok(plan) => plan,
        // A count of one and a half, or more rows than a drain has fixtures.
        Err(error) => {
            let missing = ["fixtures and intervals as counts".into()].into();
            return Ok(Sheet::cannot_say(format!("Cannot say: {error}."), missing, CAUTION));
        }
    };
    let mut sheet = judge(&plan, &catalog.shelf)?;
    let unused = if plan.part.is_level() { plan.height.is_some() } else { plan.slope.is_some() };
    if unused {
        let what = if plan.part.is_level() { "The height" } else { "The slope" };
        sheet.note(format!("{what} is not used: it says nothing of a {}.", plan.part.name()));
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
