//! A pipe up a stud bay cuts the plates: how much of their width, and the ties to price (IRC R602.6.1).

use alloc::format;

use survey::catalog::{Book, Catalog, Family, Shelf};
use survey::{Phrase, Said, say};

use super::hole::{Hole, LARGER, usual_clearance};
use super::lumber::{DEPTH, LUMBER, MISSING, Member, thickness};
use super::nail_plate::distances;
use super::pipe::{MATERIAL, OUTSIDE, Pipe, SIZE};
use super::stud_hole::whole;
use super::{CAUTION, HAIR, inch, num, on_member, or_why, spreads};
use crate::calculation::Calculation;
use crate::cite::equals;
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
    let spread = plan.hole.budget.clone().with(Phrase("trade-lumber"), -share, plan.member.sigma);
    let chance = spread.chance_over(hole, share * width + HAIR);
    let bears = plan.bearing.unwrap_or(true);
    let standing = if bears { Standing::of_chance(chance) } else { Standing::Quantity };
    // Near the value the ties are priced too: one that is not needed costs less than one forgotten.
    let ties = if bears && standing != Standing::Within { plan.plates * plan.pipes } else { 0 };
    let mut sheet = Sheet::new(standing, sentence(plan, standing, [cut, most, chance], ties), CAUTION);
    sheet.chance_beyond = bears.then_some(chance);
    sheet.sigma = Some(say!("trade-width", width = format!("{:.1}", 100.0 * spread.sigma() / width)));
    let (pipe, clearance) = (num(plan.hole.pipe), num(plan.hole.clearance));
    sheet.line(Phrase("trade-hole"), equals(format!("{pipe} + {clearance}"), inch(hole)));
    let sum = format!("100 × {} ÷ {} = {} %", num(hole), num(width), num(cut));
    sheet.line(
        Phrase("trade-cut-plates-width"),
        if hole > width + HAIR { say!("trade-all-100") } else { sum.into() },
    );
    sheet.limits.push(rule);
    if bears {
        ties_to_price(&mut sheet, plan, book, ties)?;
    }
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    sheet.limits.push(spreads());
    if plan.bearing.is_none() {
        let value = say!("trade-yes-while-nobody-can");
        sheet.assumed.push(Assumed::new(Phrase("trade-bearing"), value));
    }
    if hole > width + HAIR {
        sheet.note(Phrase("trade-pipe-wider-than-plate"));
    }
    if !bears {
        sheet.note(Phrase("trade-rule-names-exterior-bearing"));
    }
    sheet.note(Phrase("trade-rule-names-top-plates"));
    let plates = distances(book)?;
    if !plan.pipe.hard && (width - hole) / 2.0 < plates.piping - HAIR {
        sheet.note(say!("trade-hole-leaves-less-than", piping = inch(plates.piping)));
        sheet.limits.extend(plates.limits.into_iter().take(2));
    }
    sheet.picture = Some(Picture::Bore(BoreSection {
        member: say!("trade-plate", name = &plan.member.name),
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

fn sentence(plan: &PlatePlan, standing: Standing, [cut, most, chance]: [f64; 3], ties: u32) -> Said {
    let start = say!("trade-takes-plate", name = &plan.pipe.name, cut = num(cut), name2 = &plan.member.name);
    if standing == Standing::Quantity {
        return say!("trade-wall-does-not-bear", start = start);
    }
    let priced = match ties {
        0 => say!("trade-no-tie-price"),
        1 => say!("trade-1-tie-price"),
        n => say!("trade-ties-price", n = n),
    };
    say!(
        "trade-table-value-chance-lies",
        start = start,
        word = standing.lies(),
        most = num(most),
        priced = priced,
        chance = in_100(chance)
    )
}

fn ties_to_price(sheet: &mut Sheet, plan: &PlatePlan, book: &Book, ties: u32) -> Result<(), TradeError> {
    let (thick, thick_rule) = value(book, "plate-strap-thickness")?;
    let (wide, wide_rule) = value(book, "plate-strap-width")?;
    let (nails, nail_rule) = value(book, "plate-strap-nails")?;
    let (past, past_rule) = value(book, "plate-strap-past")?;
    sheet.line(
        Phrase("trade-ties"),
        say!("trade-top-plates-pipes-price", plates = plan.plates, pipes = plan.pipes, ties = ties),
    );
    if ties > 0 {
        let hole = libm::fmin(plan.hole.diameter(), plan.member.depth);
        sheet.line(
            Phrase("trade-each-tie"),
            say!(
                "trade-galvanized-least-2-long",
                thick = inch(thick),
                wide = inch(wide),
                hole = num(hole),
                past = num(past),
                past2 = inch(hole + 2.0 * past)
            ),
        );
        sheet.line(
            Phrase("trade-nails"),
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
    Field::may("bearing", Phrase("trade-does-wall-bear-exterior"), Kind::YesNo),
    Field::or(
        "plates",
        Phrase("trade-how-many-top-plates"),
        Kind::Number { unit: "", min: 1.0, max: 20.0 },
        "2",
    ),
    Field::or(
        "pipes",
        Phrase("trade-how-many-such-pipes"),
        Kind::Number { unit: "", min: 1.0, max: 50.0 },
        "1",
    ),
];

/// A pipe up through plates.
pub const CALCULATION: Calculation = Calculation {
    word: "plate-cut",
    title: Phrase("trade-pipe-up-through-plates"),
    about: Phrase("trade-how-much-plates-pipe"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let answer = across(&catalog.shelf, Family::Framing, CAUTION, |book| {
        on_member(given, book, [MISSING, Phrase("trade-without-plate-pipe-nothing")], |member, pipe| {
            let clearance = given.length("clearance").unwrap_or_else(usual_clearance);
            let mut plan = PlatePlan::new(member, pipe, clearance)?;
            plan.bearing = given.yes("bearing");
            plan.plates = given.number("plates").map_or(1, whole);
            plan.pipes = given.number("pipes").map_or(1, whole);
            under(&plan, book)
        })
    });
    let mut sheet = or_why(answer, CAUTION)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}
