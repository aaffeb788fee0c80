//! A pipe up a stud bay cuts the plates: how much of their width, and the ties to price (IRC R602.6.1).

use alloc::{format, string::String};

use survey::catalog::{Book, Catalog, Family, Shelf};

use super::hole::{Hole, LARGER, usual_clearance};
use super::lumber::{DEPTH, LUMBER, MISSING, Member, thickness};
use super::nail_plate::distances;
use super::pipe::{MATERIAL, OUTSIDE, Pipe, SIZE};
use super::stud_hole::whole;
use super::{CAUTION, HAIR, inch, num, on_member, or_why, spreads};
use crate::calculation::Calculation;
use crate::cite::{across, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::number::in_100;
use crate::picture::{BoreSection, Picture};
use crate::sheet::{Assumed, Sheet, Standing};
use crate::tolerance::Reading;

/// A pipe that goes up through plates.
#[derive(Clone, PartialEq, Debug)]
pub struct PlatePlan {
    member: Member,
    pipe: Pipe,
    hole: Hole,
    /// Whether the wall bears or is an exterior one; unknown is taken as bearing.
    pub bearing: Option<bool>,
    /// Top plates the pipe goes through.
    pub plates: u32,
    /// Pipes, each in a hole of its own.
    pub pipes: u32,
}

impl PlatePlan {
    /// One pipe through one plate of a wall of unknown bearing.
    ///
    /// # Errors
    /// A clearance outside 0 to 4 in.
    pub fn new(member: Member, pipe: Pipe, clearance: Reading) -> Result<Self, TradeError> {
        let hole = Hole::around(&pipe, clearance)?;
        Ok(Self { member, pipe, hole, bearing: None, plates: 1, pipes: 1 })
    }
}

/// Part of a plate's width that a hole takes, %; inches in. More than the plate is all of it.
pub fn percent_cut(width: f64, hole: f64) -> f64 {
    if width > 0.0 { libm::fmin(100.0 * hole / width, 100.0) } else { 100.0 }
}

/// Holds the cut against the firm's framing book, or against every one.
///
/// # Errors
/// A book without the tables.
pub fn judge(plan: &PlatePlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    across(shelf, Family::Framing, CAUTION, |book| under(plan, book))
}

fn under(plan: &PlatePlan, book: &Book) -> Result<Sheet, TradeError> {
    let (most, rule) = value(book, "plate-cut")?;
    let (width, hole) = (plan.member.depth, plan.hole.diameter());
    let cut = libm::round(percent_cut(width, hole) * 10.0) / 10.0; // as printed
    let share = most / 100.0;
    let spread = plan.hole.budget.clone().with("lumber", -share, plan.member.sigma);
    let chance = spread.chance_over(hole, share * width + HAIR);
    let bears = plan.bearing.unwrap_or(true);
    let standing = if bears { Standing::of_chance(chance) } else { Standing::Quantity };
    // Near the value the ties are priced too: one that is not needed costs less than one forgotten.
    let ties = if bears && standing != Standing::Within { plan.plates * plan.pipes } else { 0 };
    let mut sheet = Sheet::new(standing, sentence(plan, standing, [cut, most, chance], ties), CAUTION);
    sheet.chance_beyond = bears.then_some(chance);
    sheet.sigma = Some(format!("{:.1} % of the width", 100.0 * spread.sigma() / width));
    let (pipe, clearance) = (num(plan.hole.pipe), num(plan.hole.clearance));
    sheet.line("Hole", format!("{pipe} + {clearance} = {}", inch(hole)));
    let sum = format!("100 × {} ÷ {} = {} %", num(hole), num(width), num(cut));
    sheet.line("Cut of the plate's width", if hole > width + HAIR { "all of it: 100 %".into() } else { sum });
    sheet.limits.push(rule);
    if bears {
        ties_to_price(&mut sheet, plan, book, ties)?;
    }
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    sheet.limits.push(spreads());
    if plan.bearing.is_none() {
        let value = "yes: while nobody can tell, the wall is taken as bearing".into();
        sheet.assumed.push(Assumed { item: "bearing".into(), value });
    }
    if hole > width + HAIR {
        sheet.note("The pipe is wider than the plate: a deeper wall, or a chase beside it.");
    }
    if !bears {
        sheet.note(
            "The rule names exterior and bearing walls only; ask whether a tie is wanted here as well.",
        );
    }
    sheet.note("The rule names top plates; a bottom plate cut through is fastened again at both sides.");
    let plates = distances(book)?;
    if !plan.pipe.hard && (width - hole) / 2.0 < plates.piping - HAIR {
        sheet.note(format!(
            "The hole leaves less than {} at the edges of the plate: steel plates against nails as well, on both \
             faces.",
            inch(plates.piping)
        ));
        sheet.limits.extend(plates.limits.into_iter().take(2));
    }
    sheet.picture = Some(Picture::Bore(BoreSection {
        member: format!("{} plate", plan.member.name),
        depth: width,
        thickness: thickness(book)?.0,
        hole,
        center: width / 2.0,
        largest: share * width,
        edge_kept: 0.0,
        plate_edge: plates.piping,
    }));
    Ok(sheet)
}

fn sentence(plan: &PlatePlan, standing: Standing, [cut, most, chance]: [f64; 3], ties: u32) -> String {
    let start = format!("{} takes {} % of a {} plate", plan.pipe.name, num(cut), plan.member.name);
    if standing == Standing::Quantity {
        return format!("{start}; the wall does not bear, and the rule on ties speaks of walls that do.");
    }
    let priced = match ties {
        0 => "no tie to price".into(),
        1 => "1 tie to price".into(),
        n => format!("{n} ties to price"),
    };
    format!(
        "{start}, {} the table value of {} %: {priced}; chance that it lies beyond: {}.",
        standing.word(),
        num(most),
        in_100(chance)
    )
}

fn ties_to_price(sheet: &mut Sheet, plan: &PlatePlan, book: &Book, ties: u32) -> Result<(), TradeError> {
    let (thick, thick_rule) = value(book, "plate-strap-thickness")?;
    let (wide, wide_rule) = value(book, "plate-strap-width")?;
    let (nails, nail_rule) = value(book, "plate-strap-nails")?;
    let (past, past_rule) = value(book, "plate-strap-past")?;
    sheet.line("Ties", format!("top plates {} × pipes {}: {ties} to price", plan.plates, plan.pipes));
    if ties > 0 {
        let hole = libm::fmin(plan.hole.diameter(), plan.member.depth);
        sheet.line(
            "Each tie",
            format!(
                "galvanized, {} × {}, at least {} + 2 × {} = {} long",
                inch(thick),
                inch(wide),
                num(hole),
                num(past),
                inch(hole + 2.0 * past)
            ),
        );
        sheet.line(
            "Nails",
            format!("10d: 2 × {} × {ties} = {}", num(nails), num(2.0 * nails * f64::from(ties))),
        );
    }
    sheet.limits.extend([thick_rule, wide_rule, nail_rule, past_rule]);
    Ok(())
}

const FIELDS: &[Field] = &[
    LUMBER,
    DEPTH,
    MATERIAL,
    SIZE,
    OUTSIDE,
    LARGER,
    Field::may("bearing", "Does the wall bear, or is it an exterior wall?", Kind::YesNo),
    Field::or(
        "plates",
        "How many top plates does the pipe go through?",
        Kind::Number { unit: "", min: 1.0, max: 20.0 },
        "2",
    ),
    Field::or("pipes", "How many such pipes go up?", Kind::Number { unit: "", min: 1.0, max: 50.0 }, "1"),
];

/// A pipe up through plates.
pub const CALCULATION: Calculation = Calculation {
    word: "plate-cut",
    title: "Pipe up through the plates",
    about: "How much of the plates a pipe going up a wall takes, and the ties to price.",
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let answer = across(&catalog.shelf, Family::Framing, CAUTION, |book| {
        on_member(
            given,
            book,
            [MISSING, "Without plate and pipe nothing can be said about the cut."],
            |member, pipe| {
                let clearance = given.length("clearance").unwrap_or_else(usual_clearance);
                let mut plan = PlatePlan::new(member, pipe, clearance)?;
                plan.bearing = given.yes("bearing");
                plan.plates = given.number("plates").map_or(1, whole);
                plan.pipes = given.number("pipes").map_or(1, whole);
                under(&plan, book)
            },
        )
    });
    let mut sheet = or_why(answer, CAUTION)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}
