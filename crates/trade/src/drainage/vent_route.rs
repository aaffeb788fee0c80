//! The calculation `vent-route`: whether a flat vent lies high enough over the flood rim, whether it passes under a
//! window, whether the trap arm to the riser is short and level enough, and what an air admittance valve or an island
//! asks.

use alloc::{boxed::Box, format, vec::Vec};

use survey::catalog::{Book, Catalog, Shelf};
use survey::{Phrase, Said, say};

use super::by_book::{by_book, worse};
use super::enough::either;
use super::margin::{Margin, either_short};
use super::{rim, route_checks, route_fields, route_notes, window};
use crate::calculation::Calculation;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Given, show_inches};
use crate::measure::InchesPerFoot;
use crate::number::in_100;
use crate::picture::Picture;
use crate::sheet::{Assumed, Change, Limit, Line, Sheet, Standing};
use crate::tolerance::Reading;

/// Highest level taken, inches: 20 ft.
pub const HIGHEST_TAKEN: f64 = 240.0;
/// Longest trap arm taken, inches: 25 ft, as `trap-arm` takes.
pub const LONGEST_ARM: f64 = 300.0;

/// A window over the sink.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Window {
    /// Height of its sill.
    pub sill: Reading,
    /// Depth of sill and framing below that height.
    pub framing: Option<Reading>,
}

/// The flat piece of drain from the trap to the riser: the trap arm.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ArmPiece {
    /// Level length.
    pub length: Reading,
    /// Slope.
    pub slope: InchesPerFoot,
    /// Nominal size of the drain, which is not that of the vent: 1-1/4, 1-1/2, 2, 3 or 4.
    pub drain: &'static str,
}

/// An air admittance valve.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Valve {
    /// Height above the branch drain it vents.
    pub above: Reading,
    /// Whether the building department takes such valves; None if nobody asked.
    pub adopted: Option<bool>,
}

/// A riser that moves sideways.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Shift {
    /// How far.
    pub way: Reading,
    /// Center to center of the studs.
    pub spacing: Reading,
}

/// The route of a vent as planned or found. Heights of vent and sill are above the floor they were read from.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Route {
    /// Flood rim of the fixture above the finished new floor.
    pub rim: Reading,
    /// Underside of the lowest flat piece of the vent.
    pub flat: Option<Reading>,
    /// Window over the sink.
    pub window: Option<Window>,
    /// What the new floor adds to the floor that heights were read from; None if they were read from the new one.
    pub build_up: Option<Reading>,
    /// Nominal size of the vent: one of [`super::window::SIZES`].
    pub size: &'static str,
    /// Trap arm before the riser.
    pub piece: Option<ArmPiece>,
    /// Air admittance valve.
    pub valve: Option<Valve>,
    /// The fixture stands in an island, away from every wall.
    pub island: bool,
    /// Sideways way of the riser.
    pub shift: Option<Shift>,
}

/// A route within its ranges.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RoutePlan(Route);

impl RoutePlan {
    /// A plan.
    ///
    /// # Errors
    /// A height, length or way outside its range, or a size the tables do not list.
    pub fn new(route: Route) -> Result<Self, TradeError> {
        let listed = |what, size: &str, known: &[&str]| match known.contains(&size) {
            true => Ok(()),
            false => {
                let value = size.chars().take(60).collect();
                Err(TradeError::NoWord { what, value, known: known.join(", ") })
            }
        };
        listed(Phrase("trade-vent-size"), route.size, window::SIZES)?;
        if let Some(piece) = route.piece {
            listed(Phrase("trade-drain-size"), piece.drain, route_fields::DRAINS)?;
        }
        let within = |what, reading: Option<Reading>, high: f64| match reading.map(|r| r.inches()) {
            Some(value) if !(0.0..=high).contains(&value) => {
                Err(TradeError::OutOfRange { what, value, low: 0.0, high, unit: "in" })
            }
            _ => Ok(()),
        };
        within(Phrase("trade-flood-rim-height"), Some(route.rim), HIGHEST_TAKEN)?;
        within(Phrase("trade-height-flat-vent"), route.flat, HIGHEST_TAKEN)?;
        within(Phrase("trade-sill-height"), route.window.map(|w| w.sill), HIGHEST_TAKEN)?;
        within(Phrase("trade-depth-sill"), route.window.and_then(|w| w.framing), 24.0)?;
        within(Phrase("trade-new-floor"), route.build_up, 12.0)?;
        within(Phrase("trade-trap-arm-length"), route.piece.map(|p| p.length), LONGEST_ARM)?;
        within(Phrase("trade-valve-above-branch-drain"), route.valve.map(|v| v.above), HIGHEST_TAKEN)?;
        within(Phrase("trade-sideways-way"), route.shift.map(|s| s.way), 600.0)?;
        Ok(Self(route))
    }
    /// The route.
    pub const fn route(&self) -> &Route {
        &self.0
    }
}

/// A single change that would help.
pub(super) enum Fix {
    /// The route with the change made: whether it is enough is found by holding it again.
    Try(Said, Box<Route>),
    /// As judged elsewhere, for the one thing held.
    Said(Change),
}

/// One thing held against a value.
pub(super) struct Check {
    pub(super) standing: Standing,
    pub(super) sentence: Said,
    pub(super) chance: Option<f64>,
    pub(super) sigma: Option<Said>,
    /// The room left, where heights are held, which may hang on one reading.
    pub(super) margin: Option<Margin>,
    pub(super) lines: Vec<Line>,
    pub(super) limits: Vec<Limit>,
    pub(super) assumed: Vec<Assumed>,
    pub(super) fixes: Vec<Fix>,
    pub(super) picture: Option<Picture>,
}

impl Check {
    pub(super) fn new(standing: Standing, sentence: Said) -> Self {
        Self {
            standing,
            sentence,
            chance: None,
            sigma: None,
            margin: None,
            lines: Vec::new(),
            limits: Vec::new(),
            assumed: Vec::new(),
            fixes: Vec::new(),
            picture: None,
        }
    }
}

/// Chance that anything held lies beyond. Heights may hang on one reading; all else is read apart. None where one of
/// them has to be asked.
fn joined(checks: &[Check]) -> Option<f64> {
    if checks.is_empty() || checks.iter().any(|c| c.standing == Standing::AskLocally) {
        return None;
    }
    let rooms: Vec<&Margin> = checks.iter().filter_map(|c| c.margin.as_ref()).collect();
    let heights = match rooms.as_slice() {
        [one, two] => either_short(one, two),
        rooms => either(rooms.iter().map(|room| room.chance_short(0.0))),
    };
    let apart = checks.iter().filter(|c| c.margin.is_none()).filter_map(|c| c.chance);
    Some(either(apart.chain([heights])))
}

/// How all of it stands: as the worst of it, and no better than all of it together.
fn stands(checks: &[Check]) -> Standing {
    let alone = checks.iter().map(|c| c.standing).fold(Standing::Quantity, worse);
    joined(checks).map_or(alone, |chance| worse(alone, Standing::of_chance(chance)))
}

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-screening-answer-pricing-not-approval-licensed");

/// Holds a route against the firm's book, or against every plumbing book.
///
/// # Errors
/// A book without the rules.
pub fn judge(plan: &RoutePlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    by_book(shelf, CAUTION, |book| {
        let sheet = under(plan.route(), book, shelf)?;
        let (least, _) = rim::least_height(book, plan.route().rim.inches())?;
        Ok((sheet, show_inches(least).into()))
    })
}

fn held(route: &Route, book: &Book, shelf: &Shelf) -> Result<Vec<Check>, TradeError> {
    let mut checks: Vec<Check> = Vec::new();
    checks.extend(route_checks::six_inches(route, book)?);
    checks.extend(route_checks::under_window(route, book, shelf)?);
    checks.extend(route_checks::arm(route, book, shelf)?);
    checks.extend(route_checks::valve(route, book, shelf)?);
    // The worst is said first.
    checks.sort_by_key(|c| core::cmp::Reverse(rank(c.standing)));
    Ok(checks)
}

fn under(route: &Route, book: &Book, shelf: &Shelf) -> Result<Sheet, TradeError> {
    let checks = held(route, book, shelf)?;
    let (least, over_rim) = rim::least_height(book, route.rim.inches())?;
    let mut sheet = Sheet::new(stands(&checks), said(route, &checks, least), CAUTION);
    let over = show_inches(least - route.rim.inches());
    sheet.line(
        Phrase("trade-lowest-flat-vent"),
        format!("{} + {over} = {}", show_inches(route.rim.inches()), show_inches(least)),
    );
    sheet.limits.push(over_rim);
    sheet.chance_beyond = joined(&checks);
    // The spread shown is that of the thing likeliest to lie beyond.
    let worst =
        checks.iter().filter(|c| c.chance.is_some()).reduce(|a, b| if b.chance > a.chance { b } else { a });
    sheet.sigma = worst.and_then(|c| c.sigma.clone());
    for at in 0..checks.len() {
        let others = checks.iter().enumerate().filter(|(n, _)| *n != at);
        let others_within = others.map(|(_, c)| c.standing).all(|s| s == Standing::Within);
        for fix in checks.get(at).map(|c| c.fixes.as_slice()).unwrap_or_default() {
            sheet.changes.push(match fix {
                Fix::Try(text, changed) => {
                    let enough = stands(&held(changed, book, shelf)?) == Standing::Within;
                    Change::new(text.clone(), enough)
                }
                Fix::Said(change) => Change::new(change.text.clone(), change.enough && others_within),
            });
        }
    }
    for check in checks {
        sheet.lines.extend(check.lines);
        for limit in check.limits {
            if !sheet.limits.contains(&limit) {
                sheet.limits.push(limit);
            }
        }
        sheet.assumed.extend(check.assumed);
        sheet.picture = sheet.picture.or(check.picture);
    }
    sheet.limits.push(cite::value(book, "vent-above-center")?.1);
    route_notes::add(route, book, &mut sheet)?;
    Ok(sheet)
}

/// Everything held in sentences, and what all of it together comes to where that is more than each alone.
fn said(route: &Route, checks: &[Check], least: f64) -> Said {
    let mut sentences: Vec<Said> = checks.iter().map(|c| c.sentence.clone()).collect();
    if route.flat.is_none() {
        sentences.push(say!(
            "trade-no-vent-may-run",
            least = show_inches(least),
            rim = show_inches(least - route.rim.inches())
        ));
    }
    let alone = checks.iter().filter_map(|c| c.chance).fold(0.0, libm::fmax);
    if let Some(all) = joined(checks).filter(|all| in_100(*all) != in_100(alone)) {
        sentences.push(say!("trade-chance-any-lies-beyond", all = in_100(all)));
    }
    Said::sentences(sentences)
}

/// Order in which things are said.
const fn rank(standing: Standing) -> u8 {
    match standing {
        Standing::Beyond => 4,
        Standing::AskLocally => 3,
        Standing::CannotSay => 2,
        Standing::Near => 1,
        Standing::Within | Standing::Quantity => 0,
    }
}

/// The calculation.
pub const CALCULATION: Calculation = Calculation {
    word: "vent-route",
    title: Phrase("trade-vent-route"),
    about: Phrase("trade-whether-vent-lies-high"),
    fields: route_fields::FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let mut assumed: Vec<Assumed> = given.assumed().to_vec();
    let route = match route_fields::route(given, &mut assumed)? {
        Ok(route) => route,
        Err(missing) => {
            let sentence = say!(
                "trade-without-nothing-can-said-2",
                missing = missing
                    .iter()
                    .cloned()
                    .reduce(|before, next| say!("trade-and-the", before = before, next = next))
                    .unwrap_or_default()
            );
            return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
        }
    };
    let mut sheet = judge(&RoutePlan::new(route)?, &catalog.shelf)?;
    sheet.assumed.extend(assumed);
    Ok(sheet)
}
