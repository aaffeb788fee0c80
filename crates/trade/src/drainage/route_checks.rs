//! What a vent route is held against, one thing at a time.

use alloc::{boxed::Box, format, vec};

use survey::catalog::{Book, Family, Shelf};
use survey::units::Length;
use survey::{Phrase, Said, say};

use super::enough::{SIXTEENTH, least};
use super::margin::Margin;
use super::vent_route::{Check, Fix, HIGHEST_TAKEN, Route, Valve, Window};
use super::{rim, valve as valves, window};
use crate::datum::aff_after_new_floor;
use crate::error::TradeError;
use crate::given::show_inches;
use crate::number::{in_100, size_inches};
use crate::picture::Picture;
use crate::sheet::{Assumed, Change, Limit, Line, Standing};
use crate::tolerance::{Budget, Reading};
use crate::trap_arm::{self, ArmPlan};

/// σ of a height measured with a tape from the floor, inches, where nobody said: common practice, no source.
const HEIGHT_SIGMA: f64 = 0.25;
/// σ of a length paced off along a wall, inches, where nobody said: common practice, no source.
const LENGTH_SIGMA: f64 = 1.0;

/// Farthest that a change moves something, inches: no route is that far off by what it may be given.
const FARTHEST: f64 = 4.0 * HIGHEST_TAKEN;

/// A height above the finished new floor, inches.
fn height(route: &Route, reading: Reading) -> f64 {
    aff_after_new_floor(reading.inches(), route.build_up.map_or(0.0, |b| b.inches()))
}

fn build_up_sigma(route: &Route) -> f64 {
    route.build_up.map_or(0.0, |b| b.sigma(HEIGHT_SIGMA))
}

fn chance_words(chance: f64) -> Said {
    say!("trade-chance-lies-beyond", chance = in_100(chance))
}

fn sigma_words(sigma: f64) -> Option<Said> {
    Some(say!("trade-in", sigma = format!("{sigma:.3}")))
}

/// A reading made larger, tolerance and all. What is no length changes nothing.
fn raised(reading: Reading, by: f64) -> Reading {
    let by = Length::from_inches(by).unwrap_or(Length::ZERO);
    Reading { value: reading.value + by, ..reading }
}

/// The practice of reading "±" where nobody said.
fn unstated(readings: &[Reading], sigma: f64, what: Phrase) -> Option<Limit> {
    let value = show_inches(2.0 * sigma);
    let rule = say!("trade-tolerance-two-standard-deviations", what = what);
    readings.iter().any(|r| r.tolerance.is_none()).then(|| Limit::practice(rule, value))
}

/// The flat vent over the flood rim.
pub(super) fn six_inches(route: &Route, book: &Book) -> Result<Option<Check>, TradeError> {
    let Some(reading) = route.flat else { return Ok(None) };
    let flat = height(route, reading);
    let (lowest, limit) = rim::least_height(book, route.rim.inches())?;
    let room = Margin::new(flat - lowest)
        .with(Phrase("trade-flat-vent"), 1.0, reading.sigma(HEIGHT_SIGMA))
        .with(Phrase("trade-flood-rim"), -1.0, route.rim.sigma(HEIGHT_SIGMA))
        .with(Phrase("trade-new-floor"), -1.0, build_up_sigma(route));
    let chance = room.chance_short(0.0);
    let standing = Standing::of_chance(chance);
    let sentence = say!(
        "trade-flat-vent-value-over",
        flat = show_inches(flat),
        lies = standing.lies(),
        lowest = show_inches(lowest),
        rim = show_inches(lowest - route.rim.inches()),
        chance = chance_words(chance)
    );
    let mut check = Check::new(standing, sentence);
    (check.chance, check.sigma) = (Some(chance), sigma_words(room.sigma()));
    if let Some(build_up) = route.build_up {
        let (read, added) = (show_inches(reading.inches()), show_inches(build_up.inches()));
        let text = format!("{read} − {added} = {}", show_inches(flat));
        check.lines.push(Line::new(Phrase("trade-flat-vent-above-new"), text));
    }
    let margin = show_inches(flat - lowest);
    let text = format!("{} − {} = {margin}", show_inches(flat), show_inches(lowest));
    check.lines.push(Line::new(Phrase("trade-over-lowest"), text));
    check.limits = vec![limit];
    check.limits.extend(unstated(&[reading, route.rim], HEIGHT_SIGMA, Phrase("trade-height-floor")));
    if standing != Standing::Within
        && let Some(by) = least(SIXTEENTH, FARTHEST, |by| room.chance_short(by))
    {
        let text = say!("trade-flat-vent-raised", by = show_inches(by));
        check.fixes.push(Fix::Try(text, Box::new(Route { flat: Some(raised(reading, by)), ..*route })));
    }
    check.margin = Some(room);
    Ok(Some(check))
}

/// The flat vent under the sill of a window. A valve needs no riser, so the window then matters no longer.
pub(super) fn under_window(route: &Route, book: &Book, shelf: &Shelf) -> Result<Option<Check>, TradeError> {
    let (Some(found), None) = (route.window, route.valve) else { return Ok(None) };
    let (outside, diameter) = window::outside(shelf, route.size)?;
    let (framing, framing_sigma) = match found.framing {
        Some(reading) => (reading.inches(), reading.sigma(HEIGHT_SIGMA)),
        None => (window::SILL_FRAMING, window::SILL_FRAMING_SIGMA),
    };
    let sill = height(route, found.sill);
    let mut errors = Margin::new(0.0)
        .with(Phrase("trade-sill"), 1.0, found.sill.sigma(HEIGHT_SIGMA))
        .with(Phrase("trade-framing"), -1.0, framing_sigma)
        .with(Phrase("trade-new-floor"), -1.0, build_up_sigma(route));
    // A flat vent that lies too low is held here at the height where it belongs.
    let belongs = rim::least_height(book, route.rim.inches())?.0;
    let lowest = match route.flat.filter(|f| height(route, *f) >= belongs) {
        Some(reading) => {
            // Sill and vent were read from one floor: what the new floor adds cancels.
            errors.add(Phrase("trade-flat-vent"), -1.0, reading.sigma(HEIGHT_SIGMA));
            errors.add(Phrase("trade-new-floor"), 1.0, build_up_sigma(route));
            height(route, reading)
        }
        None => {
            errors.add(Phrase("trade-flood-rim"), -1.0, route.rim.sigma(HEIGHT_SIGMA));
            belongs
        }
    };
    let left = window::room(sill, framing, outside, lowest);
    let room = errors.about(left);
    let chance = room.chance_short(0.0);
    let standing = Standing::of_chance(chance);
    let (size, shown, at) = (route.size, show_inches(libm::fabs(left)), show_inches(lowest));
    let lies =
        if left < 0.0 { say!("trade-missing", shown = shown) } else { say!("trade-left", shown = shown) };
    let sentence = if standing == Standing::Beyond {
        say!(
            "trade-vent-flat-room-under-window",
            size = size,
            at = &at,
            how = standing.lies(),
            sill = show_inches(sill),
            room = lies,
            chance = chance_words(chance)
        )
    } else {
        say!(
            "trade-vent-flat-room-under-window-sill",
            size = size,
            at = &at,
            how = standing.lies(),
            sill = show_inches(sill),
            room = lies,
            chance = chance_words(chance)
        )
    };
    let mut check = Check::new(standing, sentence);
    (check.chance, check.sigma) = (Some(chance), sigma_words(room.sigma()));
    let [sill_shown, framing_shown, outside_shown] = [sill, framing, outside].map(show_inches);
    let text = format!("{sill_shown} − {framing_shown} − {outside_shown} − {at} = {}", show_inches(left));
    check.lines.push(Line::new(Phrase("trade-room-under-sill-sill"), text));
    check.limits = vec![diameter];
    if found.framing.is_none() {
        let value = format!("{} ± {}", show_inches(framing), show_inches(2.0 * framing_sigma));
        check.limits.push(Limit::practice(Phrase("trade-sill-framing-under-height"), value.clone()));
        check.assumed.push(Assumed::new(say!("trade-depth-sill-framing"), value));
    }
    check.limits.extend(unstated(&[found.sill], HEIGHT_SIGMA, Phrase("trade-height-floor")));
    if standing != Standing::Within {
        if let Some(by) = least(SIXTEENTH, FARTHEST, |by| room.chance_short(by)) {
            let text = say!("trade-window-sill-higher", by = show_inches(by));
            let window = Some(Window { sill: raised(found.sill, by), ..found });
            check.fixes.push(Fix::Try(text, Box::new(Route { window, ..*route })));
        }
        for text in [Phrase("trade-drain-led-sideways-riser"), Phrase("trade-air-admittance-valve-under")] {
            check.fixes.push(Fix::Said(Change::new(text, false)));
        }
    }
    check.margin = Some(room);
    Ok(Some(check))
}

/// The flat piece from the trap to the riser, where its vent begins: a trap arm, and held as one.
pub(super) fn arm(route: &Route, book: &Book, shelf: &Shelf) -> Result<Option<Check>, TradeError> {
    let Some(piece) = route.piece else { return Ok(None) };
    let plan = ArmPlan::new(piece.length, size_inches(piece.drain).unwrap_or_default(), piece.slope)?;
    let sheet = trap_arm::judge(&plan, &shelf.clone().choosing(Family::Plumbing, &book.id))?;
    let sentence = say!("trade-trap-riser", sentence = sheet.sentence);
    let mut check = Check::new(sheet.standing, sentence);
    (check.chance, check.sigma) = (sheet.chance_beyond, sheet.sigma);
    let lines = sheet.lines.into_iter();
    check.lines = lines
        .map(|l| Line::new(Said::List(vec![Phrase("trade-trap-arm").into(), l.label.small()]), l.text))
        .collect();
    check.limits = sheet.limits;
    check.limits.extend(unstated(&[piece.length], LENGTH_SIGMA, Phrase("trade-length-paced-off")));
    check.assumed = sheet.assumed;
    check.fixes = sheet.changes.into_iter().map(Fix::Said).collect();
    check.picture = sheet.picture.map(|picture| match picture {
        Picture::Fall(mut fall) => {
            fall.to = Phrase("trade-riser").into();
            Picture::Fall(fall)
        }
        other => other,
    });
    Ok(Some(check))
}

/// An air admittance valve: its height, and whether it is taken here.
pub(super) fn valve(route: &Route, book: &Book, shelf: &Shelf) -> Result<Option<Check>, TradeError> {
    let Some(valve) = route.valve else { return Ok(None) };
    let (lowest, limit) = valves::least_height(valves::naming(book, shelf))?;
    let (named, named_limit) = valves::is_named(book)?;
    let above = valve.above.inches();
    let spread = Budget::new().with(Phrase("trade-valve"), 1.0, valve.above.sigma(HEIGHT_SIGMA));
    let chance = spread.chance_under(above, lowest);
    let by_height = Standing::of_chance(chance);
    let mut sentence = vec![say!(
        "trade-air-admittance-valve-over",
        above = show_inches(above),
        lies = by_height.lies(),
        lowest = show_inches(lowest),
        chance = chance_words(chance)
    )];
    let mut standing = by_height;
    match valve.adopted {
        Some(false) => {
            standing = Standing::Beyond;
            sentence.insert(0, say!("trade-building-department-takes-no"));
        }
        None if !named && by_height != Standing::Beyond => {
            standing = Standing::AskLocally;
            sentence.push(say!("trade-places-work-commonly-refuse", book = &book.title));
        }
        _ => {}
    }
    let mut check = Check::new(standing, Said::sentences(sentence));
    (check.chance, check.sigma) = (Some(chance), sigma_words(spread.sigma()));
    if valve.adopted == Some(false) {
        // It is not taken, however high it stands.
        (check.chance, check.sigma) = (Some(1.0), None);
    }
    let [a, l, m] = [above, lowest, above - lowest].map(show_inches);
    check.lines.push(Line::new(Phrase("trade-valve-over-least-height"), format!("{a} − {l} = {m}")));
    check.limits = vec![limit, named_limit];
    check.limits.extend(unstated(&[valve.above], HEIGHT_SIGMA, Phrase("trade-height-floor")));
    if by_height != Standing::Within
        && let Some(by) = least(SIXTEENTH, FARTHEST, |by| spread.chance_under(above + by, lowest))
    {
        let text = say!("trade-valve-raised", by = show_inches(by));
        let valve = Some(Valve { above: raised(valve.above, by), ..valve });
        check.fixes.push(Fix::Try(text, Box::new(Route { valve, ..*route })));
    }
    Ok(Some(check))
}
