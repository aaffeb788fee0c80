//! A pipe across joists: a hole, a notch, or a notch at the end (IRC R502.8.1).

use survey::catalog::{Book, Catalog, Family, Shelf};
use survey::{Phrase, say};

use super::hole::{Hole, LARGER, Place, usual_clearance};
use super::lumber::{DEPTH, LUMBER, MISSING, Member};
use super::pipe::{MATERIAL, OUTSIDE, Pipe, SIZE};
use super::stud_hole::whole;
use super::{CAUTION, joist_bore, joist_notch, on_member, or_why, ranged};
use crate::calculation::Calculation;
use crate::cite::{across, table};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::measure::InchesPerFoot;
use crate::sheet::{Limit, Sheet};
use crate::tolerance::Reading;

/// Longest span taken, inches: 60 ft.
const SPANS: (f64, f64) = (0.0, 720.0);

/// What is cut out of the joist.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Cut {
    /// A round hole.
    Hole,
    /// A notch away from the ends.
    Notch,
    /// A notch at the end.
    EndNotch,
}

/// A pipe that is to cross solid joists.
#[derive(Clone, PartialEq, Debug)]
pub struct JoistPlan {
    pub(super) member: Member,
    pub(super) pipe: Pipe,
    pub(super) hole: Hole,
    pub(super) place: Place,
    pub(super) cut: Cut,
    /// To the nearest other hole or notch, from edge to edge.
    pub other: Option<Reading>,
    /// Joists crossed.
    pub crossed: u32,
    /// Their spacing; unknown: 16 in.
    pub spacing: Option<Reading>,
    /// Slope of a drain, by which the holes come to lie lower one after another.
    pub slope: Option<InchesPerFoot>,
    /// Length of a notch along the joist; unknown: as wide as the hole would be.
    pub length: Option<Reading>,
    /// Span of the joist.
    pub span: Option<Reading>,
    /// Middle of the notch from one support.
    pub from_support: Option<Reading>,
    /// Thickness of the joist; unknown: that of 2-by lumber.
    pub thickness: Option<Reading>,
    /// The notch is in the top; unknown: in the bottom.
    pub in_top: Option<bool>,
}

impl JoistPlan {
    /// One joist, bored in its middle or cut.
    ///
    /// # Errors
    /// A clearance outside 0 to 4 in.
    pub fn new(member: Member, pipe: Pipe, clearance: Reading, cut: Cut) -> Result<Self, TradeError> {
        let hole = Hole::around(&pipe, clearance)?;
        Ok(Self {
            member,
            pipe,
            hole,
            place: Place::Middle,
            cut,
            other: None,
            crossed: 1,
            spacing: None,
            slope: None,
            length: None,
            span: None,
            from_support: None,
            thickness: None,
            in_top: None,
        })
    }
    /// The middle of the highest hole this far above the bottom edge.
    ///
    /// # Errors
    /// Outside the joist.
    pub fn centered_at(mut self, above_bottom: Reading) -> Result<Self, TradeError> {
        let what = Phrase("trade-middle-hole-above-bottom");
        self.place = Place::FromEdge(ranged(what, above_bottom, 0.0, self.member.depth)?);
        Ok(self)
    }
}

/// Holds a hole or notch against the firm's framing book, or against every one.
///
/// # Errors
/// A book without the tables, or readings that contradict each other.
pub fn judge(plan: &JoistPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    across(shelf, Family::Framing, CAUTION, |book| under(plan, book))
}

fn under(plan: &JoistPlan, book: &Book) -> Result<Sheet, TradeError> {
    match plan.cut {
        Cut::Hole => joist_bore::judge(plan, book),
        Cut::Notch | Cut::EndNotch => joist_notch::judge(plan, book),
    }
}

const FIELDS: &[Field] = &[
    LUMBER,
    DEPTH,
    Field::or(
        "kind",
        Phrase("trade-joists-solid-lumber"),
        Kind::Word(&["solid", "engineered", "i-joist", "truss"]),
        "solid",
    ),
    MATERIAL,
    SIZE,
    OUTSIDE,
    LARGER,
    Field::or(
        "cut",
        Phrase("trade-bored-notched-notched-end"),
        Kind::Word(&["hole", "notch", "end-notch"]),
        "hole",
    ),
    Field::may(
        "center",
        Phrase("trade-how-high-middle-highest"),
        Kind::Length { min: 0.0, max: 24.0, feet: false },
    ),
    Field::may(
        "other",
        Phrase("trade-how-far-nearest-other"),
        Kind::Length { min: 0.0, max: 240.0, feet: false },
    ),
    Field::or(
        "crossed",
        Phrase("trade-how-many-joists-does"),
        Kind::Number { unit: "", min: 1.0, max: 200.0 },
        "1",
    ),
    Field::may(
        "spacing",
        Phrase("trade-how-far-apart-joists"),
        Kind::Length { min: 4.0, max: 60.0, feet: false },
    ),
    Field::may(
        "slope",
        Phrase("trade-if-drain-how-much"),
        Kind::Number { unit: "in/ft", min: 0.0, max: 12.0 },
    ),
    Field::may(
        "length",
        Phrase("trade-how-long-notch-along"),
        Kind::Length { min: 0.0, max: 120.0, feet: false },
    ),
    Field::may(
        "span",
        Phrase("trade-how-far-does-joist"),
        Kind::Length { min: SPANS.0, max: SPANS.1, feet: true },
    ),
    Field::may(
        "from-support",
        Phrase("trade-how-far-middle-notch"),
        Kind::Length { min: SPANS.0, max: SPANS.1, feet: true },
    ),
    Field::may(
        "thickness",
        Phrase("trade-how-thick-joist"),
        Kind::Length { min: 0.5, max: 12.0, feet: false },
    ),
    Field::may("face", Phrase("trade-notch-top-bottom"), Kind::Word(&["top", "bottom"])),
];

/// A pipe across joists.
pub const CALCULATION: Calculation = Calculation {
    word: "joist-hole",
    title: Phrase("trade-pipe-across-joists"),
    about: Phrase("trade-whether-solid-joist-takes"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let answer = across(&catalog.shelf, Family::Framing, CAUTION, |book| {
        if given.word("kind").is_some_and(|k| k != "solid") {
            return engineered(book);
        }
        on_member(given, book, [MISSING, Phrase("trade-without-joist-pipe-nothing")], |member, pipe| {
            plan(given, member, pipe).and_then(|p| under(&p, book))
        })
    });
    let mut sheet = or_why(answer, CAUTION)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}

fn engineered(book: &Book) -> Result<Sheet, TradeError> {
    let rule = table(book, "joist-engineered")?;
    let sentence = Phrase("trade-engineered-lumber-i-joists");
    let missing = alloc::vec![say!("trade-makers-sheet-this-joist")];
    let mut sheet = Sheet::cannot_say(sentence, missing, CAUTION);
    sheet.limits.push(Limit::of(book, rule, Phrase("trade-no-value-maker-engineer")));
    Ok(sheet)
}

fn plan(given: &Given, member: Member, pipe: Pipe) -> Result<JoistPlan, TradeError> {
    let cut = match given.word("cut") {
        Some("notch") => Cut::Notch,
        Some("end-notch") => Cut::EndNotch,
        _ => Cut::Hole,
    };
    let clearance = given.length("clearance").unwrap_or_else(usual_clearance);
    let mut plan = JoistPlan::new(member, pipe, clearance, cut)?;
    if let Some(center) = given.length("center") {
        plan = plan.centered_at(center)?;
    }
    plan.other = given.length("other");
    plan.crossed = given.number("crossed").map_or(1, whole);
    plan.spacing = given.length("spacing");
    plan.slope = given.number("slope").map(InchesPerFoot::new).transpose()?;
    plan.length = given.length("length");
    plan.span = given.length("span");
    plan.from_support = given.length("from-support");
    plan.thickness = given.length("thickness");
    plan.in_top = given.word("face").map(|face| face == "top");
    Ok(plan)
}
