//! `openings`: what the opening schedule asks, and how its rows are read.

use alloc::{
    string::{String, ToString},
    vec::Vec,
};

use survey::catalog::{Catalog, Family};
use survey::{Phrase, say};

use crate::calculation::Calculation;
use crate::cite::across;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, choice};
use crate::measure::SquareFeet;
use crate::openings::CAUTION;
use crate::openings::hole::{
    Break, Edges, FARTHEST, HOLE_RANGE, Hole, Place, PlaneSize, SPACING_RANGE, SURFACES, Surface, TRADES,
};
use crate::openings::lead_rule::YEARS;
use crate::openings::schedule::Schedule;
use crate::openings::schedule_sheet::{Around, under};
use crate::openings::suspects::MATERIALS;
use crate::sheet::{Assumed, Sheet};
use crate::tolerance::Reading;

const EDGE: Kind = Kind::Length { min: 0.0, max: FARTHEST, feet: false };
const SIZE: Kind = Kind::Length { min: HOLE_RANGE[0], max: HOLE_RANGE[1], feet: false };
const PLANE_SIZE: Kind = Kind::Length { min: 1.0, max: FARTHEST, feet: false };

const ROOM: Field = Field::must("room", Phrase("trade-which-room"), Kind::Text);
const SURFACE: Field = Field::must("surface", Phrase("trade-what-2"), Kind::Word(SURFACES));
const PLANE: Field = Field::must("plane", Phrase("trade-what-this-plane-called"), Kind::Text);

const HOLE: &[Field] = &[
    Field::must("trade", Phrase("trade-which-trade-needs"), Kind::Word(TRADES)),
    ROOM,
    SURFACE,
    PLANE,
    Field::must("x", Phrase("trade-where-left-edge-framing"), EDGE),
    Field::must("y", Phrase("trade-how-high-bottom"), EDGE),
    Field::must("width", Phrase("trade-how-wide-2"), SIZE),
    Field::must("height", Phrase("trade-how-high"), SIZE),
    Field::may(
        "spacing",
        Phrase("trade-how-far-apart-framing"),
        Kind::Length { min: SPACING_RANGE[0], max: SPACING_RANGE[1], feet: false },
    ),
    Field::may(
        "first-stud",
        Phrase("trade-if-x-left-end"),
        Kind::Length { min: 0.0, max: SPACING_RANGE[1], feet: false },
    ),
    Field::may("painted", Phrase("trade-surface-painted"), Kind::YesNo),
    Field::may("demolition", Phrase("trade-does-count-demolition-painted"), Kind::YesNo),
];

const PLANES: &[Field] = &[
    ROOM,
    SURFACE,
    PLANE,
    Field::must("width", Phrase("trade-how-wide-plane"), PLANE_SIZE),
    Field::must("height", Phrase("trade-how-high-plane"), PLANE_SIZE),
    Field::or("texture", Phrase("trade-textured"), Kind::YesNo, "no"),
];

const BREAKS: &[Field] =
    &[ROOM, SURFACE, PLANE, Field::must("at", Phrase("trade-where-may-finish-stop"), EDGE)];

const ROOM_AREA: &[Field] = &[
    ROOM,
    Field::must(
        "area",
        Phrase("trade-how-much-painted-surface-2"),
        Kind::Number { unit: "ft²", min: 0.0, max: 10_000.0 },
    ),
];

const FIELDS: &[Field] = &[
    Field::must("year", Phrase("trade-what-year-was-house"), YEARS),
    Field::must("hole", Phrase("trade-which-holes-does-each"), Kind::Rows(HOLE)),
    Field::may("plane", Phrase("trade-how-large-planes"), Kind::Rows(PLANES)),
    Field::may("break", Phrase("trade-where-may-finish-stop-between"), Kind::Rows(BREAKS)),
    Field::may("window", Phrase("trade-which-rooms-window-replaced"), Kind::Rows(&[ROOM])),
    Field::may("earlier", Phrase("trade-what-was-disturbed-30"), Kind::Rows(ROOM_AREA)),
    Field::may("removed", Phrase("trade-which-painted-components-taken"), Kind::Rows(ROOM_AREA)),
    Field::or("prohibited-practice", Phrase("trade-practice-used-lead-rule"), Kind::YesNo, "no"),
    Field::may(
        "material",
        Phrase("trade-which-old-dusty-materials"),
        Kind::Rows(&[Field::must("material", Phrase("trade-which-material"), Kind::Word(MATERIALS))]),
    ),
    Field::may(
        "dwelling-units",
        Phrase("trade-how-many-dwelling-units"),
        Kind::Number { unit: "", min: 1.0, max: 10_000.0 },
    ),
    Field::or("several-buildings", Phrase("trade-several-buildings-site-worked"), Kind::YesNo, "no"),
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "openings",
    title: Phrase("trade-openings-patches"),
    about: Phrase("trade-what-holes-all-trades"),
    fields: FIELDS,
    run,
};

fn place(row: &Given) -> Option<Place> {
    let (room, plane) = (row.text("room")?.trim().to_string(), row.text("plane")?.trim().to_string());
    Some(Place { room, surface: Surface::parse(row.word("surface")?)?, plane })
}

fn hole(row: &Given) -> Result<Option<Hole>, TradeError> {
    let four = [row.length("x"), row.length("y"), row.length("width"), row.length("height")];
    let (Some(trade), Some(place), [Some(x), Some(y), Some(width), Some(height)]) =
        (row.word("trade"), place(row), four)
    else {
        return Ok(None);
    };
    let value = |name: &str| row.length(name).map(|r: Reading| r.value);
    Ok(Some(Hole {
        trade,
        place,
        edges: Edges::new(x, y, width, height)?,
        spacing: value("spacing"),
        first: value("first-stud"),
        painted: row.yes("painted").unwrap_or(true),
        demolition: row.yes("demolition").unwrap_or(true),
    }))
}

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let mut holes = Vec::new();
    for row in given.rows("hole") {
        holes.extend(hole(row)?);
    }
    if holes.is_empty() {
        let missing = given.missing(FIELDS);
        return Ok(Sheet::cannot_say(Phrase("trade-without-list-holes-nothing"), missing, CAUTION));
    }
    let sizes: Vec<PlaneSize> = given.rows("plane").iter().filter_map(size).collect();
    let breaks: Vec<Break> = given.rows("break").iter().filter_map(mark).collect();
    let mut schedule = Schedule::new(&holes, &sizes, &breaks)?;
    for row in given.rows("window") {
        schedule.windows.extend(row.text("room").map(Into::into));
    }
    schedule.earlier = by_room(given.rows("earlier"))?;
    schedule.removed = by_room(given.rows("removed"))?;
    schedule.prohibited = given.yes("prohibited-practice").unwrap_or_default();
    let around = Around {
        year: given.number("year").map(|y| y as u32),
        materials: given.rows("material").iter().filter_map(|r| r.word("material")).collect(),
        units: given.number("dwelling-units").map(|n| n as u32),
        several: given.yes("several-buildings").unwrap_or_default(),
    };
    let mut sheet =
        across(&catalog.shelf, Family::OldMaterials, CAUTION, |book| under(&schedule, &around, book))?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    for (name, what) in [
        ("painted", Phrase("trade-painted-surface-3")),
        ("demolition", Phrase("trade-demolition-painted-surface-cut")),
    ] {
        let unsaid = given.rows("hole").iter().filter(|r| !r.has(name) && r.yes("painted") != Some(false));
        let n = unsaid.count();
        if n > 0 {
            let item = say!("trade-where-not-said-holes", what = what, n = n);
            sheet.assumed.push(Assumed::new(item, choice("yes")));
        }
    }
    if given.rows("window").is_empty() {
        sheet.assumed.push(Assumed::new(say!("trade-windows-replaced"), choice("none")));
    }
    Ok(sheet)
}

fn by_room(rows: &[Given]) -> Result<Vec<(String, SquareFeet)>, TradeError> {
    let mut out = Vec::new();
    for row in rows {
        if let (Some(room), Some(area)) = (row.text("room"), row.number("area")) {
            out.push((room.into(), SquareFeet::new(area)?));
        }
    }
    Ok(out)
}

fn size(row: &Given) -> Option<PlaneSize> {
    Some(PlaneSize {
        place: place(row)?,
        width: row.length("width")?.value,
        height: row.length("height")?.value,
        texture: row.yes("texture").unwrap_or_default(),
    })
}

fn mark(row: &Given) -> Option<Break> {
    Some(Break { place: place(row)?, at: row.length("at")?.value })
}
