//! A pipe across studs: hole, wood kept at the edges, nail plates, notch instead (IRC R602.6).

use alloc::{format, string::String};

use survey::catalog::{Book, Catalog, Family, Shelf};

use super::chance::{Normal, chance_larger};
use super::hole::{Hole, LARGER, Place, usual_clearance};
use super::lumber::{DEPTH, LUMBER, MISSING, Member, thickness};
use super::nail_plate::{distances, edges_near};
use super::pipe::{MATERIAL, OUTSIDE, Pipe, SIZE};
use super::stud::{Rules, rules};
use super::{CAUTION, HAIR, inch, num, on_member, or_why, ranged, spreads, stud_changes};
use crate::calculation::Calculation;
use crate::cite::{across, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, show_inches};
use crate::number::in_100;
use crate::picture::{BoreSection, Picture};
use crate::sheet::{Assumed, Sheet, Standing};
use crate::tolerance::Reading;

/// A pipe that is to cross studs.
#[derive(Clone, PartialEq, Debug)]
pub struct StudPlan {
    pub(super) member: Member,
    pub(super) pipe: Pipe,
    pub(super) hole: Hole,
    pub(super) place: Place,
    hub: Option<Reading>,
    /// Whether the wall bears or is an exterior one; unknown is taken as bearing.
    pub bearing: Option<bool>,
    /// Whether every bored stud is doubled.
    pub doubled: bool,
    /// Doubled studs bored one after another; unknown: all that are crossed.
    pub successive: Option<u32>,
    /// Studs crossed.
    pub crossed: u32,
    /// Whether the stud is cut or notched in the same section.
    pub notched_there: bool,
}

impl StudPlan {
    /// One stud of unknown bearing, not doubled, bored in the middle.
    ///
    /// # Errors
    /// A clearance outside 0 to 4 in.
    pub fn new(member: Member, pipe: Pipe, clearance: Reading) -> Result<Self, TradeError> {
        let hole = Hole::around(&pipe, clearance)?;
        Ok(Self {
            member,
            pipe,
            hole,
            place: Place::Middle,
            hub: None,
            bearing: None,
            doubled: false,
            successive: None,
            crossed: 1,
            notched_there: false,
        })
    }
    /// The middle of the hole this far from one edge of the stud.
    ///
    /// # Errors
    /// Outside the stud.
    pub fn centered_at(mut self, from_edge: Reading) -> Result<Self, TradeError> {
        let from_edge = ranged("middle of the hole from the edge", from_edge, 0.0, self.member.depth)?;
        self.place = Place::FromEdge(from_edge);
        Ok(self)
    }
    /// The largest hub or coupling in the wall, across.
    ///
    /// # Errors
    /// Outside 0 to 16 in.
    pub fn with_hub(mut self, hub: Reading) -> Result<Self, TradeError> {
        self.hub = Some(ranged("hub", hub, 0.0, 16.0)?);
        Ok(self)
    }
    /// Widest part in the wall, inches.
    pub(super) fn widest(&self) -> f64 {
        libm::fmax(self.pipe.outside, self.hub.map_or(0.0, |h| h.inches()))
    }
    pub(super) fn bears(&self) -> bool {
        self.bearing.unwrap_or(true)
    }
    /// Doubled studs bored in a row.
    pub(super) fn in_a_row(&self) -> u32 {
        self.successive.unwrap_or(self.crossed)
    }
}

/// Largest hole by share and by the wood kept at the edges, for a hole whose middle lies `center` from one edge.
pub(super) fn largest(rules: &Rules, depth: f64, center: f64) -> (f64, f64) {
    let kept = libm::fmin(center, depth - center) - rules.edge;
    (rules.hole * depth, 2.0 * kept)
}

/// Holds a hole against the firm's framing book, or against every one.
///
/// # Errors
/// A book without the tables.
pub fn judge(plan: &StudPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    across(shelf, Family::Framing, CAUTION, |book| under(plan, book))
}

pub(super) fn under(plan: &StudPlan, book: &Book) -> Result<Sheet, TradeError> {
    let (row_most, row_limit) = value(book, "stud-doubled-successive")?;
    let row_counts = plan.bears() && plan.doubled;
    let row_too_long = row_counts && f64::from(plan.in_a_row()) > row_most;
    let rules = rules(book, plan.bears(), plan.doubled && !row_too_long)?;
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let center = plan.place.center(depth);
    let (by_share, by_edges) = largest(&rules, depth, center);
    let most = libm::fmin(by_share, by_edges);
    let chance = if plan.notched_there { 1.0 } else { chance(plan, &rules) };
    let standing = Standing::of_chance(chance);
    let mut sheet = Sheet::new(standing, sentence(plan, standing, chance, by_share, by_edges), CAUTION);
    sheet.chance_beyond = Some(chance);
    let share = if by_share <= by_edges { rules.hole } else { 0.0 };
    let place = if by_share <= by_edges { 0.0 } else { 2.0 };
    let budget = plan.hole.budget.clone().with("lumber", -share, plan.member.sigma);
    let spread = budget.with("place of the hole", place, plan.place.sigma());
    sheet.sigma = Some(format!("{:.3} in", spread.sigma()));
    sums(&mut sheet, plan, &rules, [by_share, by_edges, most]);
    plates(&mut sheet, plan, book)?;
    sheet.limits.splice(0..0, rules.limits.iter().cloned());
    if row_counts {
        sheet.limits.push(row_limit);
    }
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    sheet.limits.push(spreads());
    if row_too_long {
        sheet.note(format!(
            "{} doubled studs in a row are bored; the larger hole is for no more than {}, so the single stud's value \
             is used.",
            plan.in_a_row(),
            num(row_most)
        ));
    }
    notes(&mut sheet, plan);
    if standing != Standing::Within {
        sheet.changes = stud_changes::of(plan, book)?;
    }
    if plan.bearing.is_none() {
        let value = "yes: while nobody can tell, the wall is taken as bearing".into();
        sheet.assumed.push(Assumed { item: "bearing".into(), value });
    }
    if row_counts && plan.successive.is_none() {
        let value = format!("{}: every stud crossed", plan.crossed);
        sheet.assumed.push(Assumed { item: "doubled studs in a row".into(), value });
    }
    sheet.picture = Some(Picture::Bore(BoreSection {
        member: format!("{} stud{}", plan.member.name, if plan.bears() { ", bearing" } else { "" }),
        depth,
        thickness: thickness(book)?.0 * if plan.doubled { 2.0 } else { 1.0 },
        hole,
        center,
        largest: libm::fmax(most, 0.0),
        edge_kept: rules.edge,
        plate_edge: distances(book)?.piping,
    }));
    Ok(sheet)
}

/// P(the hole is larger than share or edges leave).
fn chance(plan: &StudPlan, rules: &Rules) -> f64 {
    let hole = Normal { mean: plan.hole.diameter(), sigma: plan.hole.sigma() };
    let depth = Normal { mean: plan.member.depth, sigma: plan.member.sigma };
    chance_larger(hole, depth, plan.place.sigma(), |depth, shift| {
        let (share, edges) = largest(rules, depth, plan.place.center(depth) + shift);
        libm::fmin(share, edges) + HAIR
    })
}

fn describe(plan: &StudPlan) -> String {
    let single = if plan.doubled { "doubled" } else { "single" };
    let bears = if plan.bears() { "bearing" } else { "not bearing" };
    format!("{} stud ({single}, {bears})", plan.member.name)
}

fn sentence(plan: &StudPlan, standing: Standing, chance: f64, by_share: f64, by_edges: f64) -> String {
    let hole = inch(plan.hole.diameter());
    let who = describe(plan);
    if plan.notched_there {
        return format!(
            "A hole of {hole} for {} beside a cut or notch in the same section of a {who}: beyond the rule.",
            plan.pipe.name
        );
    }
    let held = if by_edges < by_share {
        format!("{} that leave the table value of wood at both edges", inch(libm::fmax(by_edges, 0.0)))
    } else {
        format!("table value of {}", inch(by_share))
    };
    format!(
        "A hole of {hole} for {}, {} the {held} in a {who}; chance that it lies beyond: {}.",
        plan.pipe.name,
        standing.word(),
        in_100(chance)
    )
}

fn sums(sheet: &mut Sheet, plan: &StudPlan, rules: &Rules, [by_share, by_edges, most]: [f64; 3]) {
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let (pipe, clearance) = (num(plan.hole.pipe), num(plan.hole.clearance));
    sheet.line("Hole", format!("{pipe} + {clearance} = {}", inch(hole)));
    let percent = num(rules.hole * 100.0);
    sheet.line("Largest by share", format!("{percent} % × {} = {}", num(depth), inch(by_share)));
    let center = plan.place.center(depth);
    let near = libm::fmin(center, depth - center);
    sheet.line("Largest by edges", format!("2 × ({} − {}) = {}", num(near), num(rules.edge), inch(by_edges)));
    sheet.line(
        "Wood kept at the nearer edge",
        format!("{} − {} ÷ 2 = {}", num(near), num(hole), inch(near - hole / 2.0)),
    );
    sheet.line("Room left", format!("{} − {} = {}", num(most), num(hole), inch(most - hole)));
    let notch = rules.notch * depth;
    let word = if hole <= notch + HAIR { "within" } else { "beyond" };
    let percent = num(rules.notch * 100.0);
    sheet.line(
        "Notch instead",
        format!("{percent} % × {} = {}; the pipe needs {}: {word}", num(depth), inch(notch), inch(hole)),
    );
    if let Some(hub) = plan.hub {
        let hub = hub.inches();
        let through = if hub > hole + HAIR { "stays in the bay" } else { "passes the hole" };
        let wall = if hub > depth + HAIR { "stands out of the wall" } else { "lies within the wall" };
        sheet.line("Hub", format!("{} against hole {}: {through}; {wall}", show_inches(hub), inch(hole)));
    }
}

/// Nail plates to price: one for each near edge of each stud, two side by side on a doubled one.
fn plates(sheet: &mut Sheet, plan: &StudPlan, book: &Book) -> Result<(), TradeError> {
    let distances = distances(book)?;
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let center = plan.place.center(depth);
    let ply = if plan.doubled { 2 } else { 1 };
    let count = |edge: f64| edges_near(depth, center, hole, edge) * plan.crossed * ply;
    let plates = if plan.pipe.hard { 0 } else { count(distances.piping) };
    let sides = edges_near(depth, center, hole, distances.piping);
    let (crossed, edge) = (plan.crossed, inch(distances.piping));
    if plan.pipe.hard {
        sheet.line("Nail plates", "0: the rule excepts cast-iron and galvanized steel pipe");
    } else {
        let plies = if plan.doubled { " × 2 (doubled)" } else { "" };
        sheet.line(
            "Nail plates",
            format!(
                "edges under {edge}: {sides}; studs crossed: {crossed}; {sides} × {crossed}{plies} = {plates}"
            ),
        );
    }
    let older = count(distances.older);
    if !plan.pipe.hard && older > plates {
        sheet.note(format!(
            "Older plumbing codes keep {}; by those it would be {older} plates.",
            inch(distances.older)
        ));
    }
    sheet.limits.extend(distances.limits);
    Ok(())
}

fn notes(sheet: &mut Sheet, plan: &StudPlan) {
    if plan.hub.is_none() {
        sheet.note(
            "Hubs of fittings and couplings are larger than the pipe: they stay in the bay, and in walls of 2x4 or less \
             they are to be checked against the depth.",
        );
    } else if plan.widest() > plan.member.depth + HAIR {
        sheet.note("The hub is larger than the wall is deep: a deeper wall, or another way.");
    }
    if sheet.standing != Standing::Within {
        sheet.note(
            "A metal stud shoe may mend an overbored stud where its maker and the building official allow it.",
        );
    }
}

const FIELDS: &[Field] = &[
    LUMBER,
    DEPTH,
    MATERIAL,
    SIZE,
    OUTSIDE,
    LARGER,
    Field::may("bearing", "Does the wall bear, or is it an exterior wall?", Kind::YesNo),
    Field::or("doubled", "Is every bored stud doubled?", Kind::YesNo, "no"),
    Field::may(
        "successive",
        "How many doubled studs in a row are bored?",
        Kind::Number { unit: "", min: 1.0, max: 200.0 },
    ),
    Field::or(
        "crossed",
        "How many studs does the pipe cross?",
        Kind::Number { unit: "", min: 1.0, max: 200.0 },
        "1",
    ),
    Field::may(
        "center",
        "How far is the middle of the hole from the nearer edge of the stud? Left out: in the middle.",
        Kind::Length { min: 0.0, max: 24.0, feet: false },
    ),
    Field::or("notched-there", "Is the stud cut or notched in the same section?", Kind::YesNo, "no"),
    Field::may(
        "hub",
        "How large across is the largest hub or coupling in the wall?",
        Kind::Length { min: 0.0, max: 16.0, feet: false },
    ),
];

/// A pipe across studs.
pub const CALCULATION: Calculation = Calculation {
    word: "stud-hole",
    title: "Pipe across studs",
    about: "Whether a stud takes the hole a pipe needs, and how many nail plates to price.",
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let answer = across(&catalog.shelf, Family::Framing, CAUTION, |book| {
        on_member(
            given,
            book,
            [MISSING, "Without stud and pipe nothing can be said about the hole."],
            |member, pipe| plan(given, member, pipe).and_then(|p| under(&p, book)),
        )
    });
    let mut sheet = or_why(answer, CAUTION)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}

fn plan(given: &Given, member: Member, pipe: Pipe) -> Result<StudPlan, TradeError> {
    let clearance = given.length("clearance").unwrap_or_else(usual_clearance);
    let mut plan = StudPlan::new(member, pipe, clearance)?;
    if let Some(center) = given.length("center") {
        plan = plan.centered_at(center)?;
    }
    if let Some(hub) = given.length("hub") {
        plan = plan.with_hub(hub)?;
    }
    plan.bearing = given.yes("bearing");
    plan.doubled = given.yes("doubled").unwrap_or(false);
    plan.successive = given.number("successive").map(whole);
    plan.crossed = given.number("crossed").map_or(1, whole);
    plan.notched_there = given.yes("notched-there").unwrap_or(false);
    Ok(plan)
}

/// A count out of a number that is at most some hundreds; a part counts as a whole one.
pub(crate) fn whole(number: f64) -> u32 {
    libm::ceil(libm::fmax(number, 0.0)) as u32
}
