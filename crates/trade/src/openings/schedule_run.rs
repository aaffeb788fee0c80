//! `openings`: what the opening schedule asks, and how its rows are read.

use alloc::{
    format,
    string::{String, ToString},
    vec::Vec,
};

use survey::catalog::{Catalog, Family};

use crate::calculation::Calculation;
use crate::cite::across;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
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

const ROOM: Field = Field::must("room", "Which room?", Kind::Text);
const SURFACE: Field = Field::must("surface", "What is it?", Kind::Word(SURFACES));
const PLANE: Field = Field::must("plane", "What is this plane called, such as sink wall?", Kind::Text);

const HOLE: &[Field] = &[
    Field::must("trade", "Which trade needs it?", Kind::Word(TRADES)),
    ROOM,
    SURFACE,
    PLANE,
    Field::must("x", "Where is its left edge, from a framing center or from the left end?", EDGE),
    Field::must("y", "How high is its bottom?", EDGE),
    Field::must("width", "How wide is it?", SIZE),
    Field::must("height", "How high is it?", SIZE),
    Field::may(
        "spacing",
        "How far apart are the framing centers?",
        Kind::Length { min: SPACING_RANGE[0], max: SPACING_RANGE[1], feet: false },
    ),
    Field::may(
        "first-stud",
        "If x is from the left end: where is the first framing center?",
        Kind::Length { min: 0.0, max: SPACING_RANGE[1], feet: false },
    ),
    Field::may("painted", "Is the surface painted?", Kind::YesNo),
    Field::may("demolition", "Does it count as demolition of a painted surface?", Kind::YesNo),
];

const PLANES: &[Field] = &[
    ROOM,
    SURFACE,
    PLANE,
    Field::must("width", "How wide is the plane?", PLANE_SIZE),
    Field::must("height", "How high is the plane?", PLANE_SIZE),
    Field::or("texture", "Is it textured?", Kind::YesNo, "no"),
];

const BREAKS: &[Field] =
    &[ROOM, SURFACE, PLANE, Field::must("at", "Where may the finish stop, from the left end?", EDGE)];

const ROOM_AREA: &[Field] = &[
    ROOM,
    Field::must("area", "How much painted surface?", Kind::Number { unit: "ft²", min: 0.0, max: 10_000.0 }),
];

const FIELDS: &[Field] = &[
    Field::must("year", "In what year was the house built?", YEARS),
    Field::must("hole", "Which holes does each trade need?", Kind::Rows(HOLE)),
    Field::may("plane", "How large are the planes?", Kind::Rows(PLANES)),
    Field::may("break", "Where may the finish stop between corners?", Kind::Rows(BREAKS)),
    Field::may("window", "In which rooms is a window replaced?", Kind::Rows(&[ROOM])),
    Field::may("earlier", "What was disturbed in the 30 days before, by room?", Kind::Rows(ROOM_AREA)),
    Field::may("removed", "Which painted components are taken out whole, by room?", Kind::Rows(ROOM_AREA)),
    Field::or("prohibited-practice", "Is a practice used that the lead rule prohibits?", Kind::YesNo, "no"),
    Field::may(
        "material",
        "Which old or dusty materials are cut?",
        Kind::Rows(&[Field::must("material", "Which material?", Kind::Word(MATERIALS))]),
    ),
    Field::may(
        "dwelling-units",
        "How many dwelling units has the building?",
        Kind::Number { unit: "", min: 1.0, max: 10_000.0 },
    ),
    Field::or(
        "several-buildings",
        "Are several buildings on the site worked on under one owner or operator?",
        Kind::YesNo,
        "no",
    ),
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "openings",
    title: "Openings and patches",
    about: "What the holes of all trades take in patches, sheets and finishing, and what paint they disturb.",
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
        return Ok(Sheet::cannot_say("Without a list of holes nothing can be said.", missing, CAUTION));
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
    for (name, what) in
        [("painted", "painted surface"), ("demolition", "demolition of the painted surface by the cut-out")]
    {
        let unsaid = given.rows("hole").iter().filter(|r| !r.has(name) && r.yes("painted") != Some(false));
        let n = unsaid.count();
        if n > 0 {
            let item = format!("{what}, where not said (holes: {n})");
            sheet.assumed.push(Assumed { item, value: "yes".into() });
        }
    }
    if given.rows("window").is_empty() {
        sheet.assumed.push(Assumed { item: "windows replaced".into(), value: "none".into() });
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
