//! Takeoff: running lengths, areas and volumes of measured parts, summed exactly and rounded once at the print, with
//! waste and a count of sheets, boxes, sticks or bags.
//!
//! Every dimension is a whole count of 1/8 µm, so a sum is a whole number of their squares or cubes. 1 in = 25.4 mm
//! exactly, 1 yd = 3 ft (NIST Special Publication 811, Appendix B).

use alloc::{format, string::String, vec, vec::Vec};

use survey::catalog::{Catalog, Mark};
use survey::units::{Length, feet_inches_16};
use survey::{Phrase, Said, say};

use crate::calculation::Calculation;
use crate::cite::equals;
use crate::error::TradeError;
use crate::given::{Field, Given, Kind};
use crate::number::show_number;
use crate::sheet::{Limit, Sheet, Standing};
use crate::tape::{decimal, whole_ones};
use crate::tolerance::{Budget, GRID_SIGMA, Reading};

/// What is counted of a part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shape {
    /// A running length.
    Length,
    /// A rectangle.
    Area,
    /// A box.
    Volume,
}

impl Shape {
    /// Every shape.
    pub const ALL: [Self; 3] = [Self::Length, Self::Area, Self::Volume];

    /// The word of the shape.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Length => "length",
            Self::Area => "area",
            Self::Volume => "volume",
        }
    }
    /// The word as spoken.
    pub const fn name(self) -> Phrase {
        match self {
            Self::Length => Phrase("trade-length-3"),
            Self::Area => Phrase("trade-area"),
            Self::Volume => Phrase("trade-volume"),
        }
    }
    const fn sum(self) -> Phrase {
        match self {
            Self::Length => Phrase("trade-sum-lengths"),
            Self::Area => Phrase("trade-sum-areas"),
            Self::Volume => Phrase("trade-sum-volumes"),
        }
    }
    const fn with_waste(self) -> Phrase {
        match self {
            Self::Length => Phrase("trade-length-waste"),
            Self::Area => Phrase("trade-area-waste"),
            Self::Volume => Phrase("trade-volume-waste"),
        }
    }
    /// How many dimensions it has.
    pub const fn dimensions(self) -> u32 {
        match self {
            Self::Length => 1,
            Self::Area => 2,
            Self::Volume => 3,
        }
    }
}

/// Longest dimension taken, inches: 300 ft.
const LONGEST: f64 = 3600.0;
/// Most of one part.
const MOST_TIMES: u32 = 1000;

/// A part, so many times.
#[derive(Clone, PartialEq, Debug)]
pub struct Part {
    shape: Shape,
    sides: Vec<Reading>,
    times: u32,
}

impl Part {
    /// A part with as many sides as its shape has dimensions.
    ///
    /// # Errors
    /// Another number of sides, a side outside 0 to 300 ft, or a number of times outside 1 to 1000.
    pub fn new(shape: Shape, sides: Vec<Reading>, times: u32) -> Result<Self, TradeError> {
        if sides.len() != shape.dimensions() as usize {
            let what = say!(
                "trade-has-dimensions-not",
                word = shape.name(),
                dimensions = shape.dimensions(),
                sides = sides.len()
            );
            return Err(TradeError::Clash { what, mend: Phrase("trade-give-length-one-area") });
        }
        for side in &sides {
            let value = side.inches();
            if !(0.0..=LONGEST + 1e-6).contains(&value) {
                let (what, unit) = (Phrase("trade-dimension"), "in");
                return Err(TradeError::OutOfRange { what, value, low: 0.0, high: LONGEST, unit });
            }
        }
        if !(1..=MOST_TIMES).contains(&times) {
            let (what, value, high) = (Phrase("trade-number-times"), f64::from(times), f64::from(MOST_TIMES));
            return Err(TradeError::OutOfRange { what, value, low: 1.0, high, unit: "" });
        }
        Ok(Self { shape, sides, times })
    }
    /// Exact amount in 1/8 µm to the power of its dimensions.
    fn count(&self) -> i128 {
        let one: i128 = self.sides.iter().map(|s| i128::from(s.value.eighth_um())).product();
        one * i128::from(self.times)
    }
}

/// An exact sum of one shape, with waste.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Total {
    shape: Shape,
    /// 1/8 µm to the power of the dimensions.
    count: i128,
    /// Waste in hundredths of a percent.
    waste: i128,
}

/// Hundredths of a percent in a whole.
const WHOLE: i128 = 10_000;

impl Total {
    /// The sum of the parts of a shape; none where there are none.
    ///
    /// # Errors
    /// Larger than can be kept exactly.
    pub fn of(parts: &[Part], shape: Shape) -> Result<Option<Self>, TradeError> {
        let mut sum: Option<i128> = None;
        for part in parts.iter().filter(|p| p.shape == shape) {
            let next = part.count().checked_add(sum.unwrap_or(0)).filter(|c| *c < i128::MAX / (4 * WHOLE));
            sum = Some(next.ok_or_else(too_large)?);
        }
        Ok(sum.map(|count| Self { shape, count, waste: 0 }))
    }
    /// The same sum with this waste, percent to the nearest hundredth.
    ///
    /// # Errors
    /// Not finite, or outside 0 to 100 %.
    pub fn wasting(self, percent: f64) -> Result<Self, TradeError> {
        if !(0.0..=100.0).contains(&percent) {
            let (what, value, unit) = (Phrase("trade-waste-2"), percent, "%");
            return Err(TradeError::OutOfRange { what, value, low: 0.0, high: 100.0, unit });
        }
        Ok(Self { waste: libm::round(percent * 100.0) as i128, ..self })
    }
    /// The sum with its waste, times [`WHOLE`]: still exact.
    const fn top(self) -> i128 {
        self.count * (WHOLE + self.waste)
    }
    /// In a unit whose side is so many 1/8 µm, rounded once to so many places.
    ///
    /// # Errors
    /// Larger than can be printed.
    pub fn print(self, side: i128, places: u32) -> Result<String, TradeError> {
        let unit = side.pow(self.shape.dimensions()) * WHOLE;
        decimal(self.top(), unit, places).ok_or_else(too_large)
    }
    /// How many of something that holds `each` 1/8 µm to the power of the dimensions.
    pub fn whole_ones(self, each: i128) -> Option<i128> {
        whole_ones(self.top(), each.checked_mul(WHOLE)?)
    }
    /// All units an estimator uses, the first leading: feet and inches or ft² or yd³, then the others.
    ///
    /// # Errors
    /// Larger than can be printed.
    pub fn words(self) -> Result<Said, TradeError> {
        Ok(match self.shape {
            Shape::Length => {
                // Straight to sixteenths: the one rounding of the print.
                let inch = i128::from(Length::PER_INCH) * WHOLE;
                let sixteenths = (self.top() * 32 + inch) / (2 * inch);
                let printed =
                    Length::from_sixty_fourths(i64::try_from(sixteenths * 4).map_err(|_| too_large())?);
                format!("{} ({} m)", feet_inches_16(printed), self.print(METER, 3)?).into()
            }
            Shape::Area => say!("trade-ft-m", foot = self.print(FOOT, 2)?, meter = self.print(METER, 2)?),
            Shape::Volume => say!(
                "trade-yd-ft-m",
                foot = self.print(3 * FOOT, 2)?,
                foot2 = self.print(FOOT, 2)?,
                meter = self.print(METER, 3)?
            ),
        })
    }
}

/// A foot in 1/8 µm.
pub const FOOT: i128 = 12 * Length::PER_INCH as i128;
/// A meter in 1/8 µm.
pub const METER: i128 = 1000 * Length::PER_MM as i128;

fn too_large() -> TradeError {
    TradeError::OutOfRange {
        what: Phrase("trade-sum"),
        value: f64::INFINITY,
        low: 0.0,
        high: 1e30,
        unit: "1/8 µm",
    }
}

/// σ of the sum of a shape in inches to the power of its dimensions, first order; each side is a reading of its own.
pub fn sigma(parts: &[Part], shape: Shape) -> f64 {
    let mut budget = Budget::new();
    for (n, part) in parts.iter().enumerate().filter(|(_, p)| p.shape == shape) {
        for (at, side) in part.sides.iter().enumerate() {
            let others = part.sides.iter().enumerate().filter(|(i, _)| *i != at).map(|(_, s)| s.inches());
            let per_inch = others.product::<f64>() * f64::from(part.times);
            budget.add(format!("{n}.{at}"), per_inch, side.sigma(GRID_SIGMA));
        }
    }
    budget.sigma()
}

/// What stands beside every answer.
pub const CAUTION: Phrase = Phrase("trade-quantities-pricing-not-order");

const SIDE: Kind = Kind::Length { min: 0.0, max: LONGEST, feet: false };

const PART: &[Field] = &[
    Field::must("kind", Phrase("trade-length-area-volume"), Kind::Word(&["length", "area", "volume"])),
    Field::must("length", Phrase("trade-how-long"), SIDE),
    Field::may("width", Phrase("trade-how-wide-high-areas"), SIDE),
    Field::may("depth", Phrase("trade-how-deep-thick-volumes"), SIDE),
    Field::or("times", Phrase("trade-how-many-2"), Kind::Number { unit: "", min: 1.0, max: 1000.0 }, "1"),
];

const FIELDS: &[Field] = &[
    Field::must("part", Phrase("trade-which-parts-there"), Kind::Rows(PART)),
    Field::may(
        "waste",
        Phrase("trade-how-much-waste-added"),
        Kind::Number { unit: "%", min: 0.0, max: 100.0 },
    ),
    Field::may(
        "sheet-width",
        Phrase("trade-how-wide-sheet"),
        Kind::Length { min: 1.0, max: 240.0, feet: false },
    ),
    Field::may(
        "sheet-length",
        Phrase("trade-how-long-sheet"),
        Kind::Length { min: 1.0, max: 240.0, feet: false },
    ),
    Field::may(
        "box-covers",
        Phrase("trade-what-does-box-cover"),
        Kind::Number { unit: "ft²", min: 0.1, max: 1000.0 },
    ),
    Field::may("stick", Phrase("trade-how-long-stick"), Kind::Length { min: 1.0, max: 480.0, feet: true }),
    Field::may(
        "bag-holds",
        Phrase("trade-what-does-bag-yield"),
        Kind::Number { unit: "ft³", min: 0.01, max: 1000.0 },
    ),
];

/// What this file answers.
pub const CALCULATIONS: &[Calculation] = &[CALCULATION];

const CALCULATION: Calculation = Calculation {
    word: "takeoff",
    title: Phrase("trade-takeoff"),
    about: Phrase("trade-running-lengths-areas-volumes"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, _: &Catalog) -> Result<Sheet, TradeError> {
    let (parts, missing) = parts(given)?;
    if parts.is_empty() || !missing.is_empty() {
        let missing = if missing.is_empty() { given.missing(FIELDS) } else { missing };
        let why = Phrase("trade-without-kind-every-part");
        return Ok(Sheet::cannot_say(why, missing, CAUTION));
    }
    let mut sheet = Sheet::new(Standing::Quantity, "", CAUTION);
    for (n, part) in (1..).zip(&parts) {
        part_line(n, part, &mut sheet)?;
    }
    let (mut said, mut sigmas) = (Vec::new(), Vec::new());
    let stated = parts.iter().flat_map(|p| &p.sides).any(|s| s.tolerance.is_some());
    for shape in Shape::ALL {
        let Some(mut total) = Total::of(&parts, shape)? else { continue };
        let name = if shape == Shape::Length { Phrase("trade-running-length") } else { shape.name() };
        sheet.line(shape.sum(), total.words()?);
        let mut words = vec![Said::between(" ", [name.into(), total.words()?])];
        if let Some(percent) = given.number("waste") {
            total = total.wasting(percent)?;
            let percent = show_number(percent);
            sheet.line(shape.with_waste(), equals(format!("+ {percent} %"), total.words()?));
            words.push(say!("trade-waste-3", total = total.words()?, percent = percent));
        }
        counts(given, total, &mut sheet, &mut words)?;
        said.push(Said::from(words));
        if stated {
            sigmas.push(sigma_words(&parts, shape));
        }
    }
    sheet.sentence = Said::run([Said::between("; ", said).capital(), ".".into()]);
    sheet.sigma = stated.then(|| Said::between("; ", sigmas));
    sheet.limits = vec![conversions()];
    if given.has("sheet-width") != given.has("sheet-length") {
        sheet.note(Phrase("trade-count-sheets-both-their"));
    }
    sheet.note(Phrase("trade-sums-made-exact-dimensions"));
    Ok(sheet)
}

/// The parts, and what is missing of them in words.
fn parts(given: &Given) -> Result<(Vec<Part>, Vec<Said>), TradeError> {
    let (mut parts, mut missing) = (Vec::new(), Vec::new());
    for (n, row) in (1..).zip(given.rows("part")) {
        let Some(shape) = Shape::ALL.into_iter().find(|s| row.word("kind") == Some(s.word())) else {
            continue;
        };
        let sides = ["length", "width", "depth"].map(|side| row.length(side));
        let needed = shape.dimensions() as usize;
        let times = row.number("times").unwrap_or(1.0);
        if libm::trunc(times) != times {
            missing.push(say!("trade-part-how-many-whole", n = n));
        } else if sides[..needed].iter().any(Option::is_none) || sides[needed..].iter().any(Option::is_some) {
            missing.push(say!("trade-part-dimensions", n = n, word = shape.name(), needed = needed));
        } else {
            parts.push(Part::new(shape, sides.into_iter().flatten().collect(), times as u32)?);
        }
    }
    Ok((parts, missing))
}

fn part_line(n: u32, part: &Part, sheet: &mut Sheet) -> Result<(), TradeError> {
    let sides: Vec<String> = part.sides.iter().map(|s| feet_inches_16(s.value)).collect();
    let times = if part.times == 1 { String::new() } else { format!(" × {}", part.times) };
    let amount = Total::of(core::slice::from_ref(part), part.shape)?.ok_or_else(too_large)?.words()?;
    sheet.line(
        say!("trade-part", n = n, word = part.shape.name()),
        equals(format!("{}{times}", sides.join(" × ")), amount),
    );
    Ok(())
}

/// Sheets, boxes, sticks, bags: whole ones, rounded up.
fn counts(given: &Given, total: Total, sheet: &mut Sheet, words: &mut Vec<Said>) -> Result<(), TradeError> {
    let each = |name: &str| given.length(name).map(|r| i128::from(r.value.eighth_um()));
    // A box or bag is said in decimals of ft² or ft³: kept in whole thousandths.
    let thousandths = |name: &str| given.number(name).map(|x| libm::round(x * 1000.0) as i128);
    let mut count = |what: Phrase, size: Said, each: Option<i128>| -> Result<(), TradeError> {
        let Some(each) = each.filter(|e| *e > 0) else { return Ok(()) };
        let ones = total.whole_ones(each).ok_or_else(too_large)?;
        let all = total.words()?;
        sheet.line(what, say!("trade-rounded-up-2", all = all, size = size, ones = format!("{ones}")));
        words.push(Said::between(" ", [format!("{ones}").into(), Said::from(what).small()]));
        Ok(())
    };
    let shown = |name: &str| given.length(name).map(|r| feet_inches_16(r.value)).unwrap_or_default();
    let number = |name: &str| show_number(given.number(name).unwrap_or_default());
    match total.shape {
        Shape::Length => {
            count(Phrase("trade-sticks-pieces-joined-end"), shown("stick").into(), each("stick"))?
        }
        Shape::Area => {
            let sheet = each("sheet-width").zip(each("sheet-length")).map(|(w, l)| w * l);
            count(
                Phrase("trade-sheets-area"),
                format!("({} × {})", shown("sheet-width"), shown("sheet-length")).into(),
                sheet,
            )?;
            let covers = thousandths("box-covers").map(|t| t * FOOT * FOOT / 1000);
            count(Phrase("trade-boxes"), say!("trade-ft-4", area = number("box-covers")), covers)?;
        }
        Shape::Volume => {
            let holds = thousandths("bag-holds").map(|t| t * FOOT * FOOT * FOOT / 1000);
            count(Phrase("trade-bags"), say!("trade-ft-5", number = number("bag-holds")), holds)?;
        }
    }
    Ok(())
}

fn sigma_words(parts: &[Part], shape: Shape) -> Said {
    let sigma = sigma(parts, shape);
    match shape {
        Shape::Length => say!("trade-length-2", sigma = format!("{sigma:.3}")),
        Shape::Area => say!("trade-ft-area", sigma = format!("{:.3}", sigma / 144.0)),
        Shape::Volume => say!("trade-ft-volume", sigma = format!("{:.3}", sigma / 1728.0)),
    }
}

fn conversions() -> Limit {
    Limit {
        rule: say!("trade-units-length"),
        value: say!("trade-1-25-4-mm"),
        document: "NIST Special Publication 811".into(),
        edition: "2008".into(),
        clause: "Appendix B".into(),
        mark: Mark::Memory,
    }
}
