//! What each part of the counters calls for, and the chance that more is due than is there.

use alloc::{format, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::{Behind, Top, WallRun};
use crate::cite::{row, row_name, value};
use crate::electrical::any_of;
use crate::error::TradeError;
use crate::given::show_inches;
use crate::normal::chance_over;
use crate::number::show_number;
use crate::sheet::Limit;
use crate::tolerance::{Budget, Reading};

/// σ of a length along a counter taken with a tape, inches: common practice, no source.
pub(super) const LENGTH_SIGMA: f64 = 0.125;
/// Keeps a length exactly at a step on its near side.
pub(super) const HAIR: f64 = 1e-9;

fn steps(x: f64) -> u32 {
    libm::fmin(libm::fmax(libm::ceil(x - HAIR), 0.0), 1e6) as u32
}

/// Receptacles that a wall counter of so many inches calls for.
///
/// # Errors
/// A book without the tables.
pub fn along_wall(book: &Book, inches: f64) -> Result<u32, TradeError> {
    let (least, reach) = (value(book, "counter-least")?.0, value(book, "counter-reach")?.0);
    Ok(if inches < least - HAIR { 0 } else { steps(inches / (2.0 * reach)) })
}

/// Receptacles that an island of so many square feet calls for where its area counts (NEC 2020).
///
/// # Errors
/// A book without the table.
pub fn by_area(book: &Book, square_feet: f64) -> Result<u32, TradeError> {
    let (first, further) = (row(book, "island-area", "first")?.0, row(book, "island-area", "further")?.0);
    let more = steps((square_feet - first) / further);
    Ok(if square_feet > 0.0 { 1 + more } else { 0 })
}

/// What one part of the counters calls for.
pub(super) struct Part {
    pub(super) name: Said,
    pub(super) called_for: u32,
    /// Chance that more is called for than is there; than counted, where nobody looked.
    pub(super) chance: f64,
    /// Somebody looked: the chance is held against what is there.
    pub(super) looked: bool,
    pub(super) text: Said,
    pub(super) change: Option<Said>,
}

pub(super) fn wall_part(run: &WallRun, at: usize, book: &Book) -> Result<Part, TradeError> {
    let (length, reach) = (run.length.inches(), value(book, "counter-reach")?.0);
    let least = value(book, "counter-least")?.0;
    let called_for = along_wall(book, length)?;
    let sigma = run.length.sigma(LENGTH_SIGMA);
    let name = say!("trade-wall-run", at = at);
    let text = if called_for == 0 {
        say!("trade-under-none", length = show_inches(length), least = show_inches(least))
    } else {
        say!(
            "trade-up",
            length = show_inches(length),
            reach = show_inches(2.0 * reach),
            calledfor = called_for
        )
    };
    let Some(outlets) = &run.outlets else {
        let next = if called_for == 0 { least } else { 2.0 * reach * f64::from(called_for) };
        let chance = chance_over(length, next, sigma);
        return Ok(Part { name, called_for, chance, looked: false, text, change: None });
    };
    // From the left end to the first, between neighbors half the distance, from the last to the right end. The
    // chances are joined as if the distances were independent; they share readings, so this is near, not exact.
    let mut points: Vec<f64> = outlets.iter().map(|p| p.inches()).collect();
    points.sort_by(f64::total_cmp);
    let mut farthest: f64 = 0.0;
    let mut chances = Vec::new();
    let mut take = |distance: f64, sigma: f64| {
        farthest = libm::fmax(farthest, distance);
        chances.push(chance_over(distance, reach, sigma));
    };
    match (points.first(), points.last()) {
        (Some(first), Some(last)) => {
            take(*first, LENGTH_SIGMA);
            let right = Budget::new().with(Phrase("trade-run"), 1.0, sigma).with(
                Phrase("trade-outlet"),
                -1.0,
                LENGTH_SIGMA,
            );
            take(length - last, right.sigma());
            for pair in points.windows(2) {
                let apart = Budget::new().with(Phrase("trade-one"), 0.5, LENGTH_SIGMA).with(
                    Phrase("trade-next"),
                    -0.5,
                    LENGTH_SIGMA,
                );
                take((pair[1] - pair[0]) / 2.0, apart.sigma());
            }
        }
        _ => farthest = length,
    }
    let wide = 1.0 - chance_over(least, length, sigma);
    let chance = if points.is_empty() { wide } else { any_of(chances) * wide };
    let there = points.len();
    let text = if called_for == 0 {
        text
    } else if there == 0 {
        say!("trade-none-there", text = text)
    } else {
        say!("trade-there-farthest-point-away", text = text, there = there, farthest = show_inches(farthest))
    };
    let more = called_for.saturating_sub(there as u32);
    let change = if more > 0 {
        Some(say!("trade-more", name = &name, n = say!("trade-n-receptacles", n = more)))
    } else {
        Some(say!("trade-move-add-receptacle-no", name = &name, reach = show_inches(reach)))
    };
    Ok(Part { name, called_for, chance, looked: true, text, change })
}

/// What islands go by in a book.
pub(super) enum Basis {
    Size,
    Area,
    Nothing,
}

pub(super) fn basis(book: &Book) -> Result<(Basis, Limit), TradeError> {
    for (name, basis) in
        [("by size", Basis::Size), ("by area", Basis::Area), ("none called for", Basis::Nothing)]
    {
        let (holds, mut limit) = row(book, "island-basis", name)?;
        if holds > 0.0 {
            limit.value = row_name(name);
            return Ok((basis, limit));
        }
    }
    Err(TradeError::NotInBook { book: book.title.clone(), table: "island-basis" })
}

pub(super) fn top_part(top: &Top, at: usize, book: &Book) -> Result<Part, TradeError> {
    let name = Said::between(
        " ",
        [if top.peninsula { Phrase("trade-peninsula") } else { Phrase("trade-island") }.into(), at.into()],
    );
    let (length, width) = (top.length.inches(), top.width.inches());
    let (long, short) = if length >= width { (top.length, top.width) } else { (top.width, top.length) };
    let over =
        |reading: Reading, limit: f64| chance_over(reading.inches(), limit, reading.sigma(LENGTH_SIGMA));
    // Count, and the chance that one more is called for.
    let (called_for, more, mut text) = match basis(book)?.0 {
        Basis::Size => {
            let (least_long, least_short) =
                (row(book, "island-size", "long")?.0, row(book, "island-size", "short")?.0);
            let large = long.inches() >= least_long - HAIR && short.inches() >= least_short - HAIR;
            let more = if large { 0.0 } else { over(long, least_long) * over(short, least_short) };
            let is = if large { Phrase("trade-least-3") } else { Phrase("trade-not") };
            let size = format!("{} × {}", show_inches(least_long), show_inches(least_short));
            (
                u32::from(large),
                more,
                say!("trade-island-size-is", is = is, size = size, count = u32::from(large)),
            )
        }
        Basis::Area => {
            let (first, further) =
                (row(book, "island-area", "first")?.0, row(book, "island-area", "further")?.0);
            let area = length * width / 144.0;
            let n = by_area(book, area)?;
            let spread = Budget::new()
                .with(Phrase("trade-length-3"), width / 144.0, top.length.sigma(LENGTH_SIGMA))
                .with(Phrase("trade-width-2"), length / 144.0, top.width.sigma(LENGTH_SIGMA));
            let next = first + further * f64::from(n.saturating_sub(1));
            let more = if n == 0 { 0.0 } else { spread.chance_over(area, next) };
            let text = say!(
                "trade-ft-1-ft-then",
                area = show_number(area),
                x = show_number(first),
                further = show_number(further),
                n = n
            );
            (n, more, text)
        }
        Basis::Nothing => (0, 0.0, say!("trade-none-called-but-way")),
    };
    let mut chance = match top.outlets {
        Some(there) if there < called_for => 1.0,
        Some(there) if there > called_for => 0.0,
        _ => more,
    };
    if let Some(there) = top.outlets {
        text = say!("trade-there-2", text = text, there = there);
    }
    let end = book.table("peninsula-end").and_then(|t| t.value).filter(|_| top.peninsula && called_for > 0);
    if let (Some(end), Some(from_end)) = (end, top.from_end) {
        chance = any_of([chance, over(from_end, end)]);
        text = say!(
            "trade-outer-end-most",
            text = text,
            from = show_inches(from_end.inches()),
            end = show_inches(end)
        );
    }
    let lacks = called_for.saturating_sub(top.outlets.unwrap_or(called_for));
    let change = match lacks {
        0 => Some(say!("trade-one-receptacle-nearer-outer", name = &name)).filter(|_| top.from_end.is_some()),
        n => Some(say!("trade-more", name = &name, n = say!("trade-n-receptacles", n = n))),
    };
    Ok(Part { name, called_for, chance, looked: top.outlets.is_some(), text, change })
}

pub(super) fn behind_part(behind: &Behind, at: usize, book: &Book) -> Result<Part, TradeError> {
    let least = row(book, "counter-exempt", if behind.corner { "corner" } else { "straight" })?.0;
    let space = behind.space.inches();
    let exempt = space < least - HAIR;
    let called_for = if exempt { 0 } else { along_wall(book, behind.width.inches())? };
    let text = say!(
        "trade-between-wall",
        space = show_inches(space),
        exempt = if exempt { Phrase("trade-under-2") } else { Phrase("trade-not-under") },
        least = show_inches(least),
        calledfor = if exempt {
            say!("trade-exempt")
        } else {
            say!("trade-counts-wall-run-own", calledfor = called_for)
        }
    );
    let nearly = chance_over(space, least, behind.space.sigma(LENGTH_SIGMA));
    let chance = if exempt { nearly } else { 0.0 };
    Ok(Part {
        name: say!("trade-wall-behind", at = at),
        called_for,
        chance,
        looked: false,
        text,
        change: None,
    })
}
