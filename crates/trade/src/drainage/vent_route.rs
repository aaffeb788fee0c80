//! The calculation `vent-route`: whether a flat vent lies high enough over the flood rim, whether it passes under a
//! window, whether the piece before the riser falls too far, and what an air admittance valve or an island asks.

use alloc::{format, string::String, vec::Vec};

use survey::catalog::{Book, Catalog, Shelf};

use super::by_book::{by_book, worse};
use super::{rim, route_checks, route_fields, route_notes};
use crate::calculation::Calculation;
use crate::cite;
use crate::error::TradeError;
use crate::given::{Given, show_inches};
use crate::measure::InchesPerFoot;
use crate::sheet::{Assumed, Change, Limit, Line, Sheet, Standing};
use crate::tolerance::Reading;

/// Highest level taken, inches: 20 ft.
pub const HIGHEST_TAKEN: f64 = 240.0;

/// A window over the sink.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Window {
    /// Height of its sill.
    pub sill: Reading,
    /// Depth of sill and framing below that height.
    pub framing: Option<Reading>,
}

/// The flat piece between the trap and the riser.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FlatPiece {
    /// Level length.
    pub length: Reading,
    /// Slope.
    pub slope: InchesPerFoot,
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
    /// Flat piece before the riser.
    pub piece: Option<FlatPiece>,
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
    /// A height, length or way outside its range, or a size of no known outside.
    pub fn new(route: Route) -> Result<Self, TradeError> {
        super::window::outside(route.size)?;
        let within = |what, reading: Option<Reading>, high: f64| match reading.map(|r| r.inches()) {
            Some(value) if !(0.0..=high).contains(&value) => {
                Err(TradeError::OutOfRange { what, value, low: 0.0, high, unit: "in" })
            }
            _ => Ok(()),
        };
        within("flood rim height", Some(route.rim), HIGHEST_TAKEN)?;
        within("height of the flat vent", route.flat, HIGHEST_TAKEN)?;
        within("sill height", route.window.map(|w| w.sill), HIGHEST_TAKEN)?;
        within("depth of the sill", route.window.and_then(|w| w.framing), 24.0)?;
        within("new floor", route.build_up, 12.0)?;
        within("flat piece", route.piece.map(|p| p.length), 1200.0)?;
        within("valve above the branch drain", route.valve.map(|v| v.above), HIGHEST_TAKEN)?;
        within("sideways way", route.shift.map(|s| s.way), 600.0)?;
        Ok(Self(route))
    }
    /// The route.
    pub const fn route(&self) -> &Route {
        &self.0
    }
}

/// One thing held against a value.
pub(super) struct Check {
    pub(super) standing: Standing,
    pub(super) sentence: String,
    pub(super) chance: Option<f64>,
    pub(super) sigma: Option<f64>,
    pub(super) lines: Vec<Line>,
    pub(super) limits: Vec<Limit>,
    pub(super) assumed: Vec<Assumed>,
    pub(super) changes: Vec<Change>,
}

impl Check {
    pub(super) fn new(standing: Standing, sentence: String) -> Self {
        Self {
            standing,
            sentence,
            chance: None,
            sigma: None,
            lines: Vec::new(),
            limits: Vec::new(),
            assumed: Vec::new(),
            changes: Vec::new(),
        }
    }
}

/// What stands beside every answer.
pub const CAUTION: &str = "A screening answer for pricing, not an approval. A licensed plumber routes the vent; the \
    local plumbing code as adopted and its inspector govern, also over air admittance valves and island vents.";

/// Holds a route against the firm's book, or against every plumbing book.
///
/// # Errors
/// A book without the rules.
pub fn judge(plan: &RoutePlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    by_book(shelf, CAUTION, |book| {
        let sheet = under(plan.route(), book, shelf)?;
        let (least, _) = rim::least_height(book, plan.route().rim.inches())?;
        Ok((sheet, show_inches(least)))
    })
}

fn under(route: &Route, book: &Book, shelf: &Shelf) -> Result<Sheet, TradeError> {
    let mut checks: Vec<Check> = Vec::new();
    checks.extend(route_checks::six_inches(route, book)?);
    checks.extend(route_checks::under_window(route, book)?);
    checks.extend(route_checks::flat_piece(route, book)?);
    checks.extend(route_checks::valve(route, book, shelf)?);
    let (least, over_rim) = rim::least_height(book, route.rim.inches())?;
    let mut sheet = Sheet::new(Standing::Quantity, String::new(), CAUTION);
    for check in &checks {
        sheet.standing = worse(sheet.standing, check.standing);
    }
    // The worst is said first.
    checks.sort_by_key(|c| core::cmp::Reverse(rank(c.standing)));
    let over = show_inches(least - route.rim.inches());
    if !checks.iter().any(|c| c.sentence.contains("flood rim")) {
        let least = show_inches(least);
        sheet.sentence = format!(
            "No vent may run flat lower than {least} above the finished floor, {over} over the flood rim."
        );
    }
    let sentences: Vec<&str> = checks.iter().map(|c| c.sentence.as_str()).collect();
    let lead = core::mem::take(&mut sheet.sentence);
    sheet.sentence =
        sentences.into_iter().chain([lead.as_str()]).filter(|s| !s.is_empty()).collect::<Vec<_>>().join(" ");
    sheet.line(
        "Lowest flat vent",
        format!("{} + {over} = {}", show_inches(route.rim.inches()), show_inches(least)),
    );
    sheet.limits.push(over_rim);
    for check in checks {
        // Several things held: the chance is that of the likeliest to lie beyond, and the spread goes with it.
        if check.chance.is_some() && (sheet.chance_beyond.is_none() || check.chance > sheet.chance_beyond) {
            sheet.chance_beyond = check.chance;
            sheet.sigma = check.sigma.map(|s| format!("{s:.3} in"));
        }
        sheet.lines.extend(check.lines);
        for limit in check.limits {
            if !sheet.limits.contains(&limit) {
                sheet.limits.push(limit);
            }
        }
        sheet.assumed.extend(check.assumed);
        sheet.changes.extend(check.changes);
    }
    sheet.limits.push(cite::value(book, "vent-above-center")?.1);
    route_notes::add(route, book, &mut sheet)?;
    sheet.picture = route_checks::picture(route, book)?;
    Ok(sheet)
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
    title: "Vent route",
    about: "Whether a vent lies high enough over the flood rim, passes a window, and what a valve or an island asks.",
    fields: route_fields::FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let mut assumed: Vec<Assumed> = given.assumed().to_vec();
    let route = match route_fields::route(given, &mut assumed)? {
        Ok(route) => route,
        Err(missing) => {
            let sentence = format!("Without the {} nothing can be said.", missing.join(" and the "));
            return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
        }
    };
    let mut sheet = judge(&RoutePlan::new(route)?, &catalog.shelf)?;
    sheet.assumed.extend(assumed);
    Ok(sheet)
}
