//! What a vent route is held against, one thing at a time.

use alloc::{format, string::String, vec};

use survey::catalog::{Book, Shelf};

use super::by_book::word;
use super::flat_fall::FlatFall;
use super::vent_route::{Check, Route};
use super::{rim, valve as valves, window};
use crate::datum::aff_after_new_floor;
use crate::error::TradeError;
use crate::given::show_inches;
use crate::number::in_100;
use crate::picture::{FallSection, Picture};
use crate::sheet::{Assumed, Change, Limit, Line, Standing};
use crate::tolerance::{Budget, Reading};

/// σ of a height measured with a tape from the floor, inches, where nobody said: common practice, no source.
const HEIGHT_SIGMA: f64 = 0.25;
/// σ of a length paced off along a wall, inches, where nobody said: common practice, no source.
const LENGTH_SIGMA: f64 = 1.0;

/// A height above the finished new floor, inches.
fn height(route: &Route, reading: Reading) -> f64 {
    aff_after_new_floor(reading.inches(), route.build_up.map_or(0.0, |b| b.inches()))
}

fn build_up_sigma(route: &Route) -> f64 {
    route.build_up.map_or(0.0, |b| b.sigma(HEIGHT_SIGMA))
}

fn chance_words(chance: f64) -> String {
    format!("chance that it lies beyond: {}", in_100(chance))
}

/// The practice of reading "±" where nobody said.
fn unstated(readings: &[Reading], sigma: f64, what: &str) -> Option<Limit> {
    let value = show_inches(2.0 * sigma);
    let rule = format!("Tolerance of {what}, two standard deviations");
    readings.iter().any(|r| r.tolerance.is_none()).then(|| Limit::practice(rule, value))
}

/// The flat vent over the flood rim.
pub(super) fn six_inches(route: &Route, book: &Book) -> Result<Option<Check>, TradeError> {
    let Some(reading) = route.flat else { return Ok(None) };
    let flat = height(route, reading);
    let (least, limit) = rim::least_height(book, route.rim.inches())?;
    let spread = Budget::new()
        .with("flat vent", 1.0, reading.sigma(HEIGHT_SIGMA))
        .with("flood rim", -1.0, route.rim.sigma(HEIGHT_SIGMA))
        .with("new floor", -1.0, build_up_sigma(route));
    let chance = spread.chance_under(flat, least);
    let standing = Standing::of_chance(chance);
    let sentence = format!(
        "The flat vent at {} is {} the value of {}, {} over the flood rim; {}.",
        show_inches(flat),
        word(standing),
        show_inches(least),
        show_inches(least - route.rim.inches()),
        chance_words(chance)
    );
    let mut check = Check::new(standing, sentence);
    (check.chance, check.sigma) = (Some(chance), Some(spread.sigma()));
    if let Some(build_up) = route.build_up {
        let (read, added) = (show_inches(reading.inches()), show_inches(build_up.inches()));
        let text = format!("{read} − {added} = {}", show_inches(flat));
        check.lines.push(Line::new("Flat vent above the new floor", text));
    }
    let margin = show_inches(flat - least);
    let text = format!("{} − {} = {margin}", show_inches(flat), show_inches(least));
    check.lines.push(Line::new("Over the lowest", text));
    check.limits = vec![limit];
    check.limits.extend(unstated(&[reading, route.rim], HEIGHT_SIGMA, "a height from the floor"));
    if standing != Standing::Within {
        // Two standard deviations over the least height, so that the tolerance no longer straddles it.
        let by = least + 2.0 * spread.sigma() - flat;
        if by > 0.0 {
            let text = format!("the flat vent raised by {}", show_inches(by));
            check.changes.push(Change { text, enough: true });
        }
    }
    Ok(Some(check))
}

/// The flat vent under the sill of a window. A valve needs no riser, so the window then matters no longer.
pub(super) fn under_window(route: &Route, book: &Book) -> Result<Option<Check>, TradeError> {
    let (Some(found), None) = (route.window, route.valve) else { return Ok(None) };
    let (outside, diameter) = window::outside(route.size)?;
    let (framing, framing_sigma) = match found.framing {
        Some(reading) => (reading.inches(), reading.sigma(HEIGHT_SIGMA)),
        None => (window::SILL_FRAMING, window::SILL_FRAMING_SIGMA),
    };
    let sill = height(route, found.sill);
    let mut spread = Budget::new()
        .with("sill", 1.0, found.sill.sigma(HEIGHT_SIGMA))
        .with("framing", -1.0, framing_sigma)
        .with("new floor", -1.0, build_up_sigma(route));
    // A flat vent that lies too low is held here at the height where it belongs.
    let least = rim::least_height(book, route.rim.inches())?.0;
    let lowest = match route.flat.filter(|f| height(route, *f) >= least) {
        Some(reading) => {
            // Sill and vent were read from one floor: what the new floor adds cancels.
            spread.add("flat vent", -1.0, reading.sigma(HEIGHT_SIGMA));
            spread.add("new floor", 1.0, build_up_sigma(route));
            height(route, reading)
        }
        None => {
            spread.add("flood rim", -1.0, route.rim.sigma(HEIGHT_SIGMA));
            least
        }
    };
    let room = window::room(sill, framing, outside, lowest);
    let chance = spread.chance_under(room, 0.0);
    let standing = Standing::of_chance(chance);
    let (size, shown, at) = (route.size, show_inches(libm::fabs(room)), show_inches(lowest));
    let lies = if room < 0.0 { format!("{shown} are missing") } else { format!("{shown} are left") };
    let blocked = if standing == Standing::Beyond { ": the window blocks the riser" } else { "" };
    let sentence = format!(
        "A {size} in vent flat at {at} is {} the room under the window sill at {}, where {lies}{blocked}; {}.",
        word(standing),
        show_inches(sill),
        chance_words(chance)
    );
    let mut check = Check::new(standing, sentence);
    (check.chance, check.sigma) = (Some(chance), Some(spread.sigma()));
    let [sill_shown, framing_shown, outside_shown] = [sill, framing, outside].map(show_inches);
    let text = format!("{sill_shown} − {framing_shown} − {outside_shown} − {at} = {}", show_inches(room));
    check.lines.push(Line::new("Room under the sill: sill − framing − pipe − flat vent", text));
    check.limits = vec![diameter];
    if found.framing.is_none() {
        let value = format!("{} ± {}", show_inches(framing), show_inches(2.0 * framing_sigma));
        check
            .limits
            .push(Limit::practice("Sill and framing under the height of a window sill", value.clone()));
        check.assumed.push(Assumed { item: "depth of sill and framing".into(), value });
    }
    check.limits.extend(unstated(&[found.sill], HEIGHT_SIGMA, "a height from the floor"));
    if standing != Standing::Within {
        let by = 2.0 * spread.sigma() - room;
        let text = format!("a window sill higher by {}", show_inches(by));
        check.changes.push(Change { text, enough: true });
        for text in [
            "the drain led sideways to a riser beside the window: hold that arm by `trap-arm`",
            "an air admittance valve under the counter, where it is adopted",
        ] {
            check.changes.push(Change { text: text.into(), enough: false });
        }
    }
    Ok(Some(check))
}

/// The fall of the flat piece before the riser.
pub(super) fn flat_piece(route: &Route, book: &Book) -> Result<Option<Check>, TradeError> {
    let Some(piece) = route.piece else { return Ok(None) };
    let diameter = crate::number::size_inches(route.size).unwrap_or_default();
    let (slope, length) = (piece.slope.get(), piece.length.inches());
    let fall = FlatFall::of(book, diameter, slope, length)?;
    let spread = Budget::new().with("flat piece", slope / 12.0, piece.length.sigma(LENGTH_SIGMA));
    let chance = spread.chance_over(fall.fall, fall.most);
    let standing = Standing::of_chance(chance);
    let sentence = format!(
        "The flat piece falls {}, {} the value of one diameter, {}; {}.",
        show_inches(fall.fall),
        word(standing),
        show_inches(fall.most),
        chance_words(chance)
    );
    let mut check = Check::new(standing, sentence);
    (check.chance, check.sigma) = (Some(chance), Some(spread.sigma()));
    let [s, l, f] = [slope, length, fall.fall].map(show_inches);
    check.lines.push(Line::new("Fall of the flat piece", format!("{s}/ft × {l} ÷ 12 = {f}")));
    check.limits = vec![fall.limit];
    check.limits.extend(unstated(&[piece.length], LENGTH_SIGMA, "a length paced off"));
    if standing != Standing::Within && slope > 0.0 {
        let most = fall.most * 12.0 / slope - 2.0 * piece.length.sigma(LENGTH_SIGMA);
        if most > 0.0 && most < length {
            let text = format!("a flat piece shorter by {}", show_inches(length - most));
            check.changes.push(Change { text, enough: true });
        }
    }
    Ok(Some(check))
}

/// An air admittance valve: its height, and whether it is taken here.
pub(super) fn valve(route: &Route, book: &Book, shelf: &Shelf) -> Result<Option<Check>, TradeError> {
    let Some(valve) = route.valve else { return Ok(None) };
    let (least, limit) = valves::least_height(valves::naming(book, shelf))?;
    let (named, named_limit) = valves::is_named(book)?;
    let above = valve.above.inches();
    let spread = Budget::new().with("valve", 1.0, valve.above.sigma(HEIGHT_SIGMA));
    let chance = spread.chance_under(above, least);
    let by_height = Standing::of_chance(chance);
    let mut sentence = format!(
        "The air admittance valve, {} over the branch drain, is {} the value of {}; {}.",
        show_inches(above),
        word(by_height),
        show_inches(least),
        chance_words(chance)
    );
    let mut standing = by_height;
    match valve.adopted {
        Some(false) => {
            standing = Standing::Beyond;
            sentence.push_str(" The building department does not take such valves.");
        }
        None if !named && by_height != Standing::Beyond => {
            standing = Standing::AskLocally;
            sentence.push_str(&format!(" Places that work by {} commonly refuse such valves.", book.title));
        }
        _ => {}
    }
    let mut check = Check::new(standing, sentence);
    (check.chance, check.sigma) = (Some(chance), Some(spread.sigma()));
    if valve.adopted == Some(false) {
        (check.chance, check.sigma) = (None, None);
    }
    let [a, l, m] = [above, least, above - least].map(show_inches);
    check.lines.push(Line::new("Valve over the least height", format!("{a} − {l} = {m}")));
    check.limits = vec![limit, named_limit];
    check.limits.extend(unstated(&[valve.above], HEIGHT_SIGMA, "a height from the floor"));
    if by_height != Standing::Within {
        let by = least + 2.0 * spread.sigma() - above;
        let text = format!("the valve raised by {}", show_inches(by));
        check.changes.push(Change { text, enough: valve.adopted != Some(false) });
    }
    Ok(Some(check))
}

/// The flat piece, drawn.
pub(super) fn picture(route: &Route, book: &Book) -> Result<Option<Picture>, TradeError> {
    let Some(piece) = route.piece else { return Ok(None) };
    let diameter = crate::number::size_inches(route.size).unwrap_or_default();
    let (slope, length) = (piece.slope.get(), piece.length.inches());
    let fall = FlatFall::of(book, diameter, slope, length)?;
    let limits =
        if slope > 0.0 { vec![("one diameter of fall".into(), fall.most * 12.0 / slope)] } else { vec![] };
    Ok(Some(Picture::Fall(FallSection {
        from: "trap".into(),
        to: "riser".into(),
        length,
        fall: fall.fall,
        diameter,
        limits,
    })))
}
