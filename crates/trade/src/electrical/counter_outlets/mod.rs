//! Receptacles that a kitchen counter calls for (NEC 210.52(C)): along the wall no point farther than 24 in from
//! one; islands and peninsulas by edition.

use alloc::vec::Vec;

use survey::catalog::{Book, Catalog};
use survey::units::{Length, LengthStatus, LengthUnit, parse_length};
use survey::{Phrase, say};

use super::{CAUTION, any_of, count, edition};
use crate::calculation::Calculation;
use crate::cite::{table, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, show_inches, spoken};
use crate::normal::chance_over;
use crate::number::in_100;
use crate::sheet::{Change, Limit, Sheet, Standing};
use crate::tolerance::Reading;

mod parts;

use parts::{Basis, HAIR, LENGTH_SIGMA, basis, behind_part, top_part, wall_part};
pub use parts::{along_wall, by_area};

/// A stretch of counter along a wall, between corners, sink, range, refrigerator or doors.
#[derive(Clone, PartialEq, Debug)]
pub struct WallRun {
    /// Its length.
    pub length: Reading,
    /// Receptacles there, from its left end; absent if nobody looked.
    pub outlets: Option<Vec<Length>>,
}

/// An island, or a peninsula measured from where it joins.
#[derive(Clone, PartialEq, Debug)]
pub struct Top {
    /// Length.
    pub length: Reading,
    /// Width.
    pub width: Reading,
    /// It is joined to a wall or counter on one side.
    pub peninsula: bool,
    /// Receptacles there or planned; absent if nobody said.
    pub outlets: Option<u32>,
    /// From the outer end of a peninsula to the nearest of them.
    pub from_end: Option<Reading>,
}

/// Wall right behind a sink, range or cooktop.
#[derive(Clone, PartialEq, Debug)]
pub struct Behind {
    /// Width of what stands before it.
    pub width: Reading,
    /// Counter between its back and the wall, or the corner.
    pub space: Reading,
    /// It stands across a corner.
    pub corner: bool,
}

/// A kitchen's counters.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Counters {
    /// Wall runs.
    pub walls: Vec<WallRun>,
    /// Islands and peninsulas.
    pub tops: Vec<Top>,
    /// Walls behind sinks and ranges.
    pub behind: Vec<Behind>,
    /// The highest receptacle above the counter.
    pub highest: Option<Reading>,
}

/// Counts the receptacles under one book, and holds what is there against them.
///
/// # Errors
/// A book without the tables.
pub fn judge(counters: &Counters, book: &Book) -> Result<Sheet, TradeError> {
    let mut parts = Vec::new();
    for (at, run) in counters.walls.iter().enumerate() {
        parts.push(wall_part(run, at + 1, book)?);
    }
    for (at, behind) in counters.behind.iter().enumerate() {
        parts.push(behind_part(behind, at + 1, book)?);
    }
    for (at, top) in counters.tops.iter().enumerate() {
        parts.push(top_part(top, at + 1, book)?);
    }
    let called_for: u32 = parts.iter().map(|p| p.called_for).sum();
    let (most_height, height) = value(book, "counter-height")?;
    let too_high = counters.highest.map(|h| chance_over(h.inches(), most_height, h.sigma(LENGTH_SIGMA)));
    let chances = parts.iter().map(|p| p.chance).chain(too_high);
    let chance = any_of(chances);
    let looked = too_high.is_some() || parts.iter().any(|p| p.looked);
    let standing = match Standing::of_chance(chance) {
        Standing::Within if !looked => Standing::Quantity,
        Standing::Beyond if !looked => Standing::Near,
        standing => standing,
    };
    let sentence = match standing {
        Standing::Quantity => {
            say!("trade-called-4", count = say!("trade-n-counter-receptacles", n = called_for))
        }
        Standing::Near => say!(
            "trade-called-reading-near-where",
            count = say!("trade-n-counter-receptacles", n = called_for),
            chance = in_100(chance)
        ),
        Standing::Beyond => say!(
            "trade-called-what-there-beyond",
            count = say!("trade-n-counter-receptacles", n = called_for),
            chance = in_100(chance)
        ),
        _ => say!(
            "trade-called-what-there-within",
            count = say!("trade-n-counter-receptacles", n = called_for),
            chance = in_100(chance)
        ),
    };
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    sheet.chance_beyond = looked.then_some(chance);
    for part in parts {
        if Standing::of_chance(part.chance) != Standing::Within && part.looked {
            sheet.changes.extend(part.change.map(|text| Change::new(text, false)));
        }
        sheet.line(part.name, part.text);
    }
    if let [only] = sheet.changes.as_mut_slice() {
        only.enough = too_high.is_none_or(|p| p <= 0.05);
    }
    sheet.limits.push(value(book, "counter-least")?.1);
    sheet.limits.push(value(book, "counter-reach")?.1);
    if !counters.behind.is_empty() {
        sheet.limits.push(Limit::of(
            book,
            table(book, "counter-exempt")?,
            Phrase("trade-straight-12-corner-18"),
        ));
    }
    if !counters.tops.is_empty() {
        island_limits(&mut sheet, counters, book)?;
    }
    if let Some(highest) = counters.highest {
        sheet.line(
            Phrase("trade-highest-above-counter"),
            say!(
                "trade-most",
                highest = show_inches(highest.inches()),
                mostheight = show_inches(most_height)
            ),
        );
    }
    sheet.limits.push(height);
    sheet.limits.push(Limit::practice(
        Phrase("trade-length-along-counter-nobody"),
        say!("trade-plus-minus-quarter-inch"),
    ));
    sheet.sigma = Some(say!("trade-length-without-tolerance", lengthsigma = LENGTH_SIGMA));
    sheet.note(Phrase("trade-receptacle-behind-appliance-cabinet"));
    Ok(sheet)
}

fn island_limits(sheet: &mut Sheet, counters: &Counters, book: &Book) -> Result<(), TradeError> {
    let (basis, limit) = basis(book)?;
    sheet.limits.push(limit);
    match basis {
        Basis::Size => {
            sheet.limits.push(Limit::of(book, table(book, "island-size")?, say!("trade-island-24-12")))
        }
        Basis::Area => {
            sheet.limits.push(Limit::of(book, table(book, "island-area")?, Phrase("trade-9-ft-then-18")));
            if counters.tops.iter().any(|t| t.peninsula) {
                sheet.limits.push(value(book, "peninsula-end")?.1);
            }
        }
        Basis::Nothing => sheet.note(Phrase("trade-island-without-receptacle-gets")),
    }
    Ok(())
}

const SPAN: Kind = Kind::Length { min: 0.0, max: 600.0, feet: false };
const FEW: Kind = Kind::Number { unit: "", min: 0.0, max: 40.0 };
const LENGTH: Field = Field::must("length", Phrase("trade-how-long"), SPAN);
const WIDTH: Field = Field::must("width", Phrase("trade-how-wide"), SPAN);
const OUTLETS: Field = Field::may("outlets", Phrase("trade-how-many-receptacles"), FEW);

const FIELDS: &[Field] = &[
    Field::may(
        "wall",
        Phrase("trade-which-runs-counter-there"),
        Kind::Rows(&[LENGTH, Field::may("outlets", Phrase("trade-where-receptacles-left-end"), Kind::Text)]),
    ),
    Field::may("island", Phrase("trade-which-islands"), Kind::Rows(&[LENGTH, WIDTH, OUTLETS])),
    Field::may(
        "peninsula",
        Phrase("trade-which-peninsulas"),
        Kind::Rows(&[
            LENGTH,
            WIDTH,
            OUTLETS,
            Field::may("from-end", Phrase("trade-how-far-one-outer"), SPAN),
        ]),
    ),
    Field::may(
        "behind",
        Phrase("trade-which-walls-right-behind"),
        Kind::Rows(&[
            WIDTH,
            Field::must("space", Phrase("trade-how-much-counter-between"), SPAN),
            Field::or("corner", Phrase("trade-does-stand-across-corner"), Kind::YesNo, "no"),
        ]),
    ),
    Field::may("highest-outlet", Phrase("trade-how-high-above-counter"), SPAN),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "counter-outlets",
    title: Phrase("trade-counter-receptacles"),
    about: Phrase("trade-how-many-receptacles-counters"),
    fields: FIELDS,
    run,
};

/// Places written as "10; 58 1/2", or "none".
fn places(text: &str) -> Result<Vec<Length>, TradeError> {
    if text.trim().eq_ignore_ascii_case("none") {
        return Ok(Vec::new());
    }
    text.split(';')
        .map(|one| {
            let parsed = parse_length(one.trim(), LengthUnit::Inch);
            let length =
                parsed.length.filter(|_| matches!(parsed.status, LengthStatus::Ok | LengthStatus::Warn));
            length.ok_or_else(|| TradeError::BadField {
                field: "outlets".into(),
                text: one.trim().chars().take(60).collect(),
                note: parsed.note,
            })
        })
        .collect()
}

fn counters(given: &Given) -> Result<Counters, TradeError> {
    let mut counters = Counters { highest: given.length("highest-outlet"), ..Counters::default() };
    let zero = Reading::plain(Length::ZERO);
    let length = |row: &Given, name: &str| row.length(name).unwrap_or(zero);
    for run in given.rows("wall") {
        let outlets = run.text("outlets").map(places).transpose()?;
        let length = length(run, "length");
        let inside = |p: &&Length| p.inches() < -HAIR || p.inches() > length.inches() + HAIR;
        if let Some(outside) = outlets.iter().flatten().find(inside) {
            let what = say!("trade-receptacle-lies-outside-run", outside = show_inches(outside.inches()));
            return Err(TradeError::Clash { what, mend: Phrase("trade-measure-left-end-run") });
        }
        counters.walls.push(WallRun { length, outlets });
    }
    for (name, peninsula) in [("island", false), ("peninsula", true)] {
        for top in given.rows(name) {
            counters.tops.push(Top {
                length: length(top, "length"),
                width: length(top, "width"),
                peninsula,
                outlets: count(top, "outlets")?,
                from_end: top.length("from-end"),
            });
        }
    }
    for behind in given.rows("behind") {
        let corner = behind.yes("corner") == Some(true);
        let (width, space) = (length(behind, "width"), length(behind, "space"));
        counters.behind.push(Behind { width, space, corner });
    }
    Ok(counters)
}

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let counters = counters(given)?;
    if counters.walls.is_empty() && counters.tops.is_empty() && counters.behind.is_empty() {
        let missing = ["wall", "island", "peninsula"].map(spoken).into();
        let sentence = Phrase("trade-without-runs-counter-islands");
        return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
    }
    edition::under(given, catalog, edition::Alike::Words, |book| judge(&counters, book))
}

#[cfg(test)]
mod tests {
    use alloc::format;

    use super::*;
    use crate::testing::English as _;
    use crate::testing::{catalog, run_words};

    fn sheet(answers: &[(&str, &str)]) -> Sheet {
        run_words(&CALCULATION, answers, &catalog())
    }

    #[test]
    fn a_wall_counter_calls_for_one_in_each_four_feet_or_part() {
        // NEC 210.52(C)(1): from 12 in wide, no point over 24 in away
        let catalog = catalog();
        let book = catalog.shelf.book("nec-2011").unwrap();
        for (inches, n) in [(11.0, 0), (11.99, 0), (12.0, 1), (48.0, 1), (48.01, 2), (96.0, 2), (100.0, 3)] {
            assert_eq!(along_wall(book, inches).unwrap(), n, "{inches}");
        }
    }

    #[test]
    fn an_island_counts_by_size_by_area_or_not_at_all() {
        // NEC 2011 210.52(C)(2): 24 × 12 in; NEC 2020: 9 ft², then 18 ft²; NEC 2023: provision only
        let catalog = catalog();
        let book = catalog.shelf.book("nec-2020").unwrap();
        for (area, n) in [(0.0, 0), (1.0, 1), (9.0, 1), (9.01, 2), (10.0, 2), (27.0, 2), (28.0, 3), (45.5, 4)]
        {
            assert_eq!(by_area(book, area).unwrap(), n, "{area}");
        }
        for (edition, n) in
            [("2011", "1 counter receptacle called"), ("2020", "3 counter receptacles"), ("2023", "0 ")]
        {
            let sheet = sheet(&[("island", "96, 42.5"), ("edition", edition)]);
            assert!(sheet.sentence.starts_with(n), "{edition}: {}", sheet.sentence);
        }
        let open = sheet(&[("island", "96, 42.5")]);
        assert_eq!(open.standing, Standing::AskLocally);
        // also where every edition finds the wall short, for the counts are not the same
        let short = sheet(&[("island", "96, 42.5"), ("wall", "60, none")]);
        assert_eq!(short.standing, Standing::AskLocally);
        assert_eq!(sheet(&[("wall", "100")]).standing, Standing::Quantity);
    }

    #[test]
    fn the_editions_agree_on_a_wall() {
        let sheet = sheet(&[("wall", "100, 20; 50; 80"), ("wall", "30, 12")]);
        assert_eq!(sheet.standing, Standing::Within, "{}", sheet.sentence);
        assert!(sheet.notes.iter().any(|n| n.contains("stand the same")), "{:?}", sheet.notes);
    }

    #[test]
    fn a_gap_over_four_feet_is_beyond_and_says_what_is_missing() {
        let gap = sheet(&[("wall", "100, 20; 80")]);
        assert_eq!(gap.standing, Standing::Beyond);
        assert_eq!(gap.changes.len(), 1);
        assert_eq!(
            (gap.changes[0].text.read(), gap.changes[0].enough),
            ("Wall run 1: 1 receptacle more.", true)
        );
        let none = sheet(&[("wall", "60, none")]);
        assert_eq!((none.standing, none.chance_beyond), (Standing::Beyond, Some(1.0)));
        // exactly at the reach the tolerance decides
        let near = sheet(&[("wall", "48, 24")]);
        assert_eq!(near.standing, Standing::Near);
    }

    #[test]
    fn the_wall_behind_a_sink_is_exempt_up_to_a_foot_and_a_half_in_a_corner() {
        // Figure 210.52(C)(1): under 12 in straight, under 18 in across a corner
        let text = |row: &str| sheet(&[("behind", row), ("edition", "2011")]).lines[0].text.read();
        assert!(text("30, 6").ends_with("exempt"));
        assert!(text("30, 14").contains("counts as a wall run of its own, 1"));
        assert!(text("30, 14, yes").ends_with("exempt"));
    }

    #[test]
    fn a_peninsula_wants_one_within_two_feet_of_its_outer_end() {
        // NEC 2020 210.52(C)(2)(b)
        let at = |end: &str| {
            let row = format!("36, 30, 1, {end}");
            sheet(&[("peninsula", row.as_str()), ("edition", "2020")]).standing
        };
        assert_eq!((at("12"), at("30")), (Standing::Within, Standing::Beyond));
    }

    #[test]
    fn a_receptacle_outside_its_run_is_a_clash() {
        let answers = [("wall".into(), "40, 50".into())];
        let given = Given::read(FIELDS, &answers).unwrap();
        assert!(matches!(run(&given, &catalog()), Err(TradeError::Clash { .. })));
    }
}
