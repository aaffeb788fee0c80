//! A pipe across studs: hole, wood kept at the edges, nail plates, notch instead (IRC R602.6).

use alloc::format;

use survey::catalog::{Book, Catalog, Family, Shelf};
use survey::{Phrase, Said, say};

use super::chance::{Normal, chance_larger};
use super::hole::{Hole, LARGER, Place, usual_clearance};
use super::lumber::{DEPTH, LUMBER, MISSING, Member, thickness};
use super::nail_plate::{distances, edges_near};
use super::pipe::{MATERIAL, OUTSIDE, Pipe, SIZE};
use super::stud::{Rules, rules};
use super::{CAUTION, HAIR, inch, num, on_member, or_why, ranged, spreads, stud_changes};
use crate::calculation::Calculation;
use crate::cite::equals;
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
        let from_edge = ranged(Phrase("trade-middle-hole-edge"), from_edge, 0.0, self.member.depth)?;
        self.place = Place::FromEdge(from_edge);
        Ok(self)
    }
    /// The largest hub or coupling in the wall, across.
    ///
    /// # Errors
    /// Outside 0 to 16 in.
    pub fn with_hub(mut self, hub: Reading) -> Result<Self, TradeError> {
        self.hub = Some(ranged(Phrase("trade-hub-2"), hub, 0.0, 16.0)?);
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
    let budget = plan.hole.budget.clone().with(Phrase("trade-lumber"), -share, plan.member.sigma);
    let spread = budget.with(Phrase("trade-place-hole"), place, plan.place.sigma());
    sheet.sigma = Some(say!("trade-in", sigma = format!("{:.3}", spread.sigma())));
    sums(&mut sheet, plan, &rules, [by_share, by_edges, most]);
    plates(&mut sheet, plan, book)?;
    sheet.limits.splice(0..0, rules.limits.iter().cloned());
    if row_counts {
        sheet.limits.push(row_limit);
    }
    sheet.limits.extend([&plan.member.limit, &plan.pipe.limit].into_iter().flatten().cloned());
    sheet.limits.push(spreads());
    if row_too_long {
        sheet.note(say!("trade-doubled-studs-row-bored", inarow = plan.in_a_row(), rowmost = num(row_most)));
    }
    notes(&mut sheet, plan);
    if standing != Standing::Within {
        sheet.changes = stud_changes::of(plan, book)?;
    }
    if plan.bearing.is_none() {
        let value = say!("trade-yes-while-nobody-can");
        sheet.assumed.push(Assumed::new(Phrase("trade-bearing"), value));
    }
    if row_counts && plan.successive.is_none() {
        let value = say!("trade-every-stud-crossed", crossed = plan.crossed);
        sheet.assumed.push(Assumed::new(say!("trade-doubled-studs-row"), value));
    }
    sheet.picture = Some(Picture::Bore(BoreSection {
        member: if plan.bears() {
            say!("trade-stud-bearing", name = &plan.member.name)
        } else {
            say!("trade-stud-3", name = &plan.member.name)
        },
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

fn describe(plan: &StudPlan) -> Said {
    let single = if plan.doubled { Phrase("trade-doubled") } else { Phrase("trade-single") };
    let bears = if plan.bears() { Phrase("trade-bearing") } else { Phrase("trade-not-bearing") };
    say!("trade-stud", name = &plan.member.name, single = single, bears = bears)
}

fn sentence(plan: &StudPlan, standing: Standing, chance: f64, by_share: f64, by_edges: f64) -> Said {
    let hole = inch(plan.hole.diameter());
    let who = describe(plan);
    if plan.notched_there {
        return say!("trade-hole-beside-cut-notch", hole = hole, name = &plan.pipe.name, who = who);
    }
    let held = if by_edges < by_share {
        say!("trade-leave-table-value-wood", byedges = inch(libm::fmax(by_edges, 0.0)))
    } else {
        say!("trade-table-value-2", byshare = inch(by_share))
    };
    say!(
        "trade-hole-chance-lies-beyond",
        hole = hole,
        name = &plan.pipe.name,
        word = standing.lies(),
        held = held,
        who = who,
        chance = in_100(chance)
    )
}

fn sums(sheet: &mut Sheet, plan: &StudPlan, rules: &Rules, [by_share, by_edges, most]: [f64; 3]) {
    let (depth, hole) = (plan.member.depth, plan.hole.diameter());
    let (pipe, clearance) = (num(plan.hole.pipe), num(plan.hole.clearance));
    sheet.line(Phrase("trade-hole"), equals(format!("{pipe} + {clearance}"), inch(hole)));
    let percent = num(rules.hole * 100.0);
    sheet
        .line(Phrase("trade-largest-share"), equals(format!("{percent} % × {}", num(depth)), inch(by_share)));
    let center = plan.place.center(depth);
    let near = libm::fmin(center, depth - center);
    sheet.line(
        Phrase("trade-largest-edges"),
        equals(format!("2 × ({} − {})", num(near), num(rules.edge)), inch(by_edges)),
    );
    sheet.line(
        Phrase("trade-wood-kept-nearer-edge"),
        equals(format!("{} − {} ÷ 2", num(near), num(hole)), inch(near - hole / 2.0)),
    );
    sheet
        .line(Phrase("trade-room-left"), equals(format!("{} − {}", num(most), num(hole)), inch(most - hole)));
    let notch = rules.notch * depth;
    let word = if hole <= notch + HAIR { Phrase("trade-within") } else { Phrase("trade-beyond") };
    let percent = num(rules.notch * 100.0);
    sheet.line(
        Phrase("trade-notch-instead"),
        say!(
            "trade-pipe-needs",
            percent = percent,
            depth = num(depth),
            notch = inch(notch),
            hole = inch(hole),
            word = word
        ),
    );
    if let Some(hub) = plan.hub {
        let hub = hub.inches();
        let through = if hub > hole + HAIR { Phrase("trade-stays-bay") } else { Phrase("trade-passes-hole") };
        let wall = if hub > depth + HAIR {
            Phrase("trade-stands-out-wall")
        } else {
            Phrase("trade-lies-within-wall")
        };
        sheet.line(
            Phrase("trade-hub"),
            say!(
                "trade-against-hole",
                hub = show_inches(hub),
                hole = inch(hole),
                through = through,
                wall = wall
            ),
        );
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
        sheet.line(Phrase("trade-nail-plates"), Phrase("trade-0-rule-excepts-cast"));
    } else {
        sheet.line(
            Phrase("trade-nail-plates"),
            if plan.doubled {
                say!(
                    "trade-edges-under-studs-crossed-2",
                    edge = edge,
                    sides = sides,
                    crossed = crossed,
                    plates = plates
                )
            } else {
                say!(
                    "trade-edges-under-studs-crossed-3",
                    edge = edge,
                    sides = sides,
                    crossed = crossed,
                    plates = plates
                )
            },
        );
    }
    let older = count(distances.older);
    if !plan.pipe.hard && older > plates {
        sheet.note(say!("trade-older-plumbing-codes-keep", older = inch(distances.older), older2 = older));
    }
    sheet.limits.extend(distances.limits);
    Ok(())
}

fn notes(sheet: &mut Sheet, plan: &StudPlan) {
    if plan.hub.is_none() {
        sheet.note(Phrase("trade-hubs-fittings-couplings-larger"));
    } else if plan.widest() > plan.member.depth + HAIR {
        sheet.note(Phrase("trade-hub-larger-than-wall"));
    }
    if sheet.standing != Standing::Within {
        sheet.note(Phrase("trade-metal-stud-shoe-may"));
    }
}

const FIELDS: &[Field] = &[
    LUMBER,
    DEPTH,
    MATERIAL,
    SIZE,
    OUTSIDE,
    LARGER,
    Field::may("bearing", Phrase("trade-does-wall-bear-exterior"), Kind::YesNo),
    Field::or("doubled", Phrase("trade-every-bored-stud-doubled"), Kind::YesNo, "no"),
    Field::may(
        "successive",
        Phrase("trade-how-many-doubled-studs"),
        Kind::Number { unit: "", min: 1.0, max: 200.0 },
    ),
    Field::or(
        "crossed",
        Phrase("trade-how-many-studs-does"),
        Kind::Number { unit: "", min: 1.0, max: 200.0 },
        "1",
    ),
    Field::may(
        "center",
        Phrase("trade-how-far-middle-hole"),
        Kind::Length { min: 0.0, max: 24.0, feet: false },
    ),
    Field::or("notched-there", Phrase("trade-stud-cut-notched-same"), Kind::YesNo, "no"),
    Field::may(
        "hub",
        Phrase("trade-how-large-across-largest"),
        Kind::Length { min: 0.0, max: 16.0, feet: false },
    ),
];

/// A pipe across studs.
pub const CALCULATION: Calculation = Calculation {
    word: "stud-hole",
    title: Phrase("trade-pipe-across-studs"),
    about: Phrase("trade-whether-stud-takes-hole"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let answer = across(&catalog.shelf, Family::Framing, CAUTION, |book| {
        on_member(given, book, [MISSING, Phrase("trade-without-stud-pipe-nothing")], |member, pipe| {
            plan(given, member, pipe).and_then(|p| under(&p, book))
        })
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
