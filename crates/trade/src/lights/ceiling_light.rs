//! One recessed light at one place in a ceiling: joist, depth, driver box, insulation.

use alloc::{format, vec::Vec};

use survey::catalog::{Book, Catalog, Family, Shelf};
use survey::{Phrase, Said, say};

use super::ceiling_checks::{self, Check};
use super::clearance::distances;
use super::{CAUTION, clearance};
use crate::calculation::Calculation;
use crate::cite::{across, books};
use crate::error::TradeError;
use crate::framing::{inch, lumber, or_why, ranged};
use crate::given::{Field, Given, Kind};
use crate::number::in_100;
use crate::picture::{CeilingPlan, Picture};
use crate::sheet::{Assumed, Sheet, Standing};
use crate::tolerance::Reading;

/// Cut-outs taken, inches.
const CUT_OUTS: (f64, f64) = (1.0, 24.0);

/// What the insulation above the ceiling does.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Insulation {
    /// There is none.
    None,
    /// Beside the light, kept this far away; unknown how far.
    Beside(Option<Reading>),
    /// Over the light.
    Above,
}

/// A light where it is to go.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LightPlan {
    /// A housing stands in the bay; else a canless light, flat, with its driver box apart.
    pub housing: bool,
    /// Depth of the body, behind the face of the ceiling.
    pub body: Option<Reading>,
    /// Ceiling board.
    pub board: Option<Reading>,
    /// Clear height of the bay over the board.
    pub bay: Option<Reading>,
    /// Joist spacing, center to center.
    pub spacing: Option<Reading>,
    /// From the middle of the light to the center of the nearer joist.
    pub offset: Option<Reading>,
    pub(super) cut_out: Reading,
    /// Room the clips need beside the cut-out.
    pub clip: Option<Reading>,
    /// Whether the clips hold where a joist lies over the cut-out.
    pub clips_under_joist: Option<bool>,
    /// Room the driver box needs.
    pub box_room: Option<Reading>,
    /// Clear room in the bay beside the cut-out; unknown: the width of the bay.
    pub beside: Option<Reading>,
    /// Type IC; unknown is taken as not.
    pub type_ic: Option<bool>,
    /// Insulation; unknown matters only where the light is not Type IC.
    pub insulation: Option<Insulation>,
    /// A bath above.
    pub bath_above: Option<bool>,
}

impl LightPlan {
    /// A light of which only its kind and cut-out are known.
    ///
    /// # Errors
    /// A cut-out outside 1 to 24 in.
    pub fn new(housing: bool, cut_out: Reading) -> Result<Self, TradeError> {
        Ok(Self {
            housing,
            body: None,
            board: None,
            bay: None,
            spacing: None,
            offset: None,
            cut_out: ranged(Phrase("trade-cut-out"), cut_out, CUT_OUTS.0, CUT_OUTS.1)?,
            clip: None,
            clips_under_joist: None,
            box_room: None,
            beside: None,
            type_ic: None,
            insulation: None,
            bath_above: None,
        })
    }
}

/// Holds a light against the firm's electrical book, or against every one.
///
/// # Errors
/// A book without the tables.
pub fn judge(plan: &LightPlan, shelf: &Shelf) -> Result<Sheet, TradeError> {
    let framing = books(shelf, Family::Framing)?.0;
    let framing = *framing.first().ok_or(TradeError::NoBook { family: "framing" })?;
    across(shelf, Family::Electrical, CAUTION, |book| under(plan, book, framing))
}

fn under(plan: &LightPlan, electrical: &Book, framing: &Book) -> Result<Sheet, TradeError> {
    let (thickness, joist) = lumber::thickness(framing)?;
    let distances = distances(electrical)?;
    let mut sheet = Sheet::new(Standing::CannotSay, "", CAUTION);
    let taken = ceiling_checks::Taken::of(plan, thickness, &mut sheet);
    let mut checks: Vec<Check> = Vec::new();
    checks.extend(ceiling_checks::place(&mut sheet, plan, &taken, &distances));
    checks.extend(ceiling_checks::depth(&mut sheet, plan, &taken, &distances));
    checks.extend(ceiling_checks::driver_box(&mut sheet, plan, &taken));
    checks.extend(ceiling_checks::insulation(&mut sheet, plan, &distances));
    // Place, depth, box and insulation are read apart, each with its own error.
    let chance = 1.0 - checks.iter().map(|c| 1.0 - c.chance).product::<f64>();
    let standing = Standing::of_chance(chance);
    if standing == Standing::Beyond || sheet.missing.is_empty() {
        sheet.missing.clear();
        sheet.standing = standing;
        sheet.chance_beyond = Some(chance);
        sheet.sentence = sentence(plan, standing, chance, &checks);
        let spread = checks.iter().find(|c| c.what == ceiling_checks::PLACE);
        sheet.sigma = spread.map(|c| say!("trade-room-beside-joist", sigma = format!("{:.3}", c.sigma)));
        for check in checks.iter().filter(|c| c.chance > 0.05) {
            sheet.changes.extend(check.changes.iter().cloned());
        }
        // A change is enough by itself only where nothing else is wrong.
        if checks.iter().filter(|c| c.chance > 0.05).count() > 1 {
            sheet.changes.iter_mut().for_each(|c| c.enough = false);
        }
    } else {
        sheet.sentence = say!("trade-whether-light-finds-room");
    }
    sheet.limits.extend(distances.limits);
    sheet.limits.push(joist);
    sheet.limits.push(ceiling_checks::spreads());
    if plan.type_ic.is_none() {
        let value = say!("trade-no-while-nobody-says");
        sheet.assumed.push(Assumed::new(say!("trade-type-ic"), value));
    }
    match plan.bath_above {
        Some(true) => sheet.note(Phrase("trade-bath-lies-above-look")),
        Some(false) => {}
        None => sheet.note(Phrase("trade-ask-whether-bath-lies")),
    }
    sheet.picture = picture(plan, &taken);
    Ok(sheet)
}

fn sentence(plan: &LightPlan, standing: Standing, chance: f64, checks: &[Check]) -> Said {
    let name = if plan.housing { Phrase("trade-housing") } else { Phrase("trade-canless-light") };
    let cut_out = inch(plan.cut_out.inches());
    let worst = checks.iter().max_by(|a, b| a.chance.total_cmp(&b.chance));
    let odds = in_100(chance);
    match (standing, worst) {
        (Standing::Within, _) | (_, None) => {
            say!("trade-cut-out-finds-room", name = name, cutout = cut_out, odds = odds)
        }
        (standing, Some(worst)) => say!(
            "trade-cut-out-lies-chance",
            name = name,
            cutout = cut_out,
            word = standing.lies(),
            what = worst.what,
            why = &worst.why,
            odds = odds
        ),
    }
}

/// A few bays with the light among them.
fn picture(plan: &LightPlan, taken: &ceiling_checks::Taken) -> Option<Picture> {
    let offset = plan.offset?.inches();
    let spacing = taken.spacing;
    let joists: Vec<f64> = (0_u32..4).map(|k| spacing * (f64::from(k) + 0.5)).collect();
    let at = joists.get(1)? + offset;
    let width = 4.0 * spacing;
    Some(Picture::Ceiling(CeilingPlan {
        width,
        depth: width,
        joists,
        lights: alloc::vec![(at, width / 2.0, plan.cut_out.inches(), false)],
        old_fixture: None,
    }))
}

const FIELDS: &[Field] = &[
    Field::must("kind", Phrase("trade-canless-housing"), Kind::Word(&["canless", "housing"])),
    Field::must(
        "cut-out",
        Phrase("trade-how-large-hole-ceiling"),
        Kind::Length { min: CUT_OUTS.0, max: CUT_OUTS.1, feet: false },
    ),
    Field::may(
        "body",
        Phrase("trade-how-deep-light-behind"),
        Kind::Length { min: 0.0, max: 24.0, feet: false },
    ),
    Field::may(
        "board",
        Phrase("trade-how-thick-ceiling-board"),
        Kind::Length { min: 0.125, max: 4.0, feet: false },
    ),
    Field::may("joist", Phrase("trade-what-lumber-joists"), Kind::Word(lumber::NAMES)),
    Field::may("bay", Phrase("trade-how-high-clear-bay"), Kind::Length { min: 0.0, max: 120.0, feet: false }),
    Field::may(
        "spacing",
        Phrase("trade-how-far-apart-joists"),
        Kind::Length { min: 4.0, max: 60.0, feet: false },
    ),
    Field::may(
        "offset",
        Phrase("trade-how-far-middle-light"),
        Kind::Length { min: 0.0, max: 60.0, feet: false },
    ),
    Field::may("clip", Phrase("trade-how-much-room-do"), Kind::Length { min: 0.0, max: 4.0, feet: false }),
    Field::may("clips-under-joist", Phrase("trade-if-joist-lies-over"), Kind::YesNo),
    Field::may(
        "box-room",
        Phrase("trade-how-much-clear-bay"),
        Kind::Length { min: 0.0, max: 24.0, feet: false },
    ),
    Field::may(
        "beside",
        Phrase("trade-how-much-clear-bay-there"),
        Kind::Length { min: 0.0, max: 240.0, feet: false },
    ),
    Field::may("type-ic", Phrase("trade-marked-type-ic"), Kind::YesNo),
    Field::may(
        "insulation",
        Phrase("trade-there-insulation-above-ceiling"),
        Kind::Word(&["none", "beside", "above"]),
    ),
    Field::may(
        "insulation-gap",
        Phrase("trade-if-beside-light-how"),
        Kind::Length { min: 0.0, max: 60.0, feet: false },
    ),
    Field::may("bath-above", Phrase("trade-there-bath-above"), Kind::YesNo),
];

/// One light.
pub const CALCULATION: Calculation = Calculation {
    word: "ceiling-light",
    title: Phrase("trade-recessed-ceiling-light"),
    about: Phrase("trade-whether-canless-light-housing"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let (Some(kind), Some(cut_out)) = (given.word("kind"), given.length("cut-out")) else {
        let missing = given.missing(FIELDS);
        let sentence = Phrase("trade-without-kind-light-cut");
        return Ok(Sheet::cannot_say(sentence, missing, CAUTION));
    };
    let answer = plan(given, kind, cut_out, &catalog.shelf).and_then(|plan| judge(&plan, &catalog.shelf));
    let mut sheet = or_why(answer, CAUTION)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}

fn plan(given: &Given, kind: &str, cut_out: Reading, shelf: &Shelf) -> Result<LightPlan, TradeError> {
    let mut plan = LightPlan::new(kind == "housing", cut_out)?;
    plan.body = given.length("body");
    plan.board = given.length("board");
    plan.bay = given.length("bay");
    if let (None, Some(joist)) = (plan.bay, given.word("joist")) {
        let framing = books(shelf, Family::Framing)?.0;
        let framing = *framing.first().ok_or(TradeError::NoBook { family: "framing" })?;
        let depth = clearance::bay_depth(framing, joist)?;
        plan.bay = survey::units::Length::from_inches(depth).map(Reading::plain);
    }
    plan.spacing = given.length("spacing");
    plan.offset = given.length("offset");
    plan.clip = given.length("clip");
    plan.clips_under_joist = given.yes("clips-under-joist");
    plan.box_room = given.length("box-room");
    plan.beside = given.length("beside");
    plan.type_ic = given.yes("type-ic");
    plan.insulation = match given.word("insulation") {
        Some("none") => Some(Insulation::None),
        Some("beside") => Some(Insulation::Beside(given.length("insulation-gap"))),
        Some("above") => Some(Insulation::Above),
        _ => None,
    };
    plan.bath_above = given.yes("bath-above");
    Ok(plan)
}
