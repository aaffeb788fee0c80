//! Lights for a room that replace one fixture: even rows at about half the ceiling height, moved off the joists.

use alloc::{format, string::String, vec, vec::Vec};

use survey::catalog::{Catalog, Family};
use survey::units::Length;
use survey::{Phrase, say};

use super::CAUTION;
use super::grid::{Layout, joists, lay, spacing};
use crate::calculation::Calculation;
use crate::cite::books;
use crate::cite::equals;
use crate::error::TradeError;
use crate::framing::{inch, lumber, num, or_why, ranged};
use crate::given::{Field, Given, Kind, show_inches};
use crate::number::in_100;
use crate::picture::{CeilingPlan, Picture};
use crate::sheet::{Limit, Sheet, Standing};
use crate::tolerance::{Budget, Reading};

/// Rooms taken, inches: 3 to 100 ft.
const ROOMS: (f64, f64) = (36.0, 1200.0);
/// Ceiling heights taken, inches: 6 to 30 ft.
const HEIGHTS: (f64, f64) = (72.0, 360.0);
/// Cut-outs taken, inches.
const CUT_OUTS: (f64, f64) = (1.0, 24.0);
/// Joist spacings taken, inches.
const SPACINGS: (f64, f64) = (4.0, 60.0);

/// σ of a joist found through the board, inches: common practice, no source.
const JOIST_SIGMA: f64 = 0.25;

/// A room and what goes into its ceiling.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct GridPlan {
    across: Reading,
    along: Reading,
    height: Reading,
    spacing: Reading,
    first: Reading,
    cut_out: Reading,
    clip: Reading,
    old: Option<(Reading, Reading)>,
}

impl GridPlan {
    /// A room: its size across the joists and along them, its height; joist spacing and the center of one joist from
    /// the wall; the cut-out.
    ///
    /// # Errors
    /// A room of less than 3 or more than 100 ft, a ceiling under 6 or over 30 ft, a spacing outside 4 to 60 in, a
    /// joist outside the room, a cut-out outside 1 to 24 in.
    pub fn new(
        (across, along): (Reading, Reading),
        height: Reading,
        (spacing, first): (Reading, Reading),
        cut_out: Reading,
    ) -> Result<Self, TradeError> {
        Ok(Self {
            across: ranged(Phrase("trade-room-across-joists"), across, ROOMS.0, ROOMS.1)?,
            along: ranged(Phrase("trade-room-along-joists"), along, ROOMS.0, ROOMS.1)?,
            height: ranged(Phrase("trade-ceiling-height"), height, HEIGHTS.0, HEIGHTS.1)?,
            spacing: ranged(Phrase("trade-joist-spacing"), spacing, SPACINGS.0, SPACINGS.1)?,
            first: ranged(Phrase("trade-joist-wall"), first, 0.0, across.inches())?,
            cut_out: ranged(Phrase("trade-cut-out"), cut_out, CUT_OUTS.0, CUT_OUTS.1)?,
            clip: Reading::plain(Length::from_sixty_fourths(16)),
            old: None,
        })
    }
    /// With other room for the clips than a quarter inch.
    ///
    /// # Errors
    /// Outside 0 to 4 in.
    pub fn with_clip(mut self, clip: Reading) -> Result<Self, TradeError> {
        self.clip = ranged(Phrase("trade-room-clips"), clip, 0.0, 4.0)?;
        Ok(self)
    }
    /// With the fixture that is replaced: from the same walls, across and along.
    ///
    /// # Errors
    /// Outside the room.
    pub fn replacing(mut self, across: Reading, along: Reading) -> Result<Self, TradeError> {
        let x = ranged(Phrase("trade-old-fixture-across-joists"), across, 0.0, self.across.inches())?;
        let y = ranged(Phrase("trade-old-fixture-along-joists"), along, 0.0, self.along.inches())?;
        self.old = Some((x, y));
        Ok(self)
    }
}

/// What the plan comes to.
#[derive(Clone, PartialEq, Debug)]
pub struct Grid {
    /// Centers of the joists, inches from the wall.
    pub joists: Vec<f64>,
    /// Places, or none where no bay is wide enough.
    pub layout: Option<Layout>,
    /// Kept from the center of a joist to the middle of a light, inches: half joist, half cut-out, clips, and two σ of
    /// the joist where the bay has that much room.
    pub off: f64,
}

/// Lays the lights out; `thickness` of the joists in inches.
///
/// # Errors
/// A height that is not finite.
pub fn grid(plan: &GridPlan, thickness: f64) -> Result<Grid, TradeError> {
    let (across, along) = (plan.across.inches(), plan.along.inches());
    let (pitch, cut_out) = (plan.spacing.inches(), plan.cut_out.inches());
    let joists = joists(across, plan.first.inches(), pitch);
    let least = thickness / 2.0 + cut_out / 2.0 + plan.clip.inches();
    // The doubt about the joist is kept clear as well, as far as the bay allows.
    let doubt = libm::fmin(2.0 * plan.first.sigma(JOIST_SIGMA), libm::fmax(pitch / 2.0 - least, 0.0));
    let off = least + doubt;
    let wall = cut_out / 2.0 + plan.clip.inches();
    let target = spacing(plan.height.inches())?.spacing;
    let layout = lay((across, along), target, &joists, off, wall, pitch);
    Ok(Grid { joists, layout, off })
}

/// The sheet of a layout.
///
/// # Errors
/// A framing book without the thickness of lumber.
pub fn judge(plan: &GridPlan, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let framing = books(&catalog.shelf, Family::Framing)?.0;
    let framing = *framing.first().ok_or(TradeError::NoBook { family: "framing" })?;
    let (thickness, joist) = lumber::thickness(framing)?;
    let grid = grid(plan, thickness)?;
    let target = spacing(plan.height.inches())?;
    let mut sheet = Sheet::new(Standing::Quantity, "", CAUTION);
    sheet.line(
        Phrase("trade-spacing-aimed"),
        say!(
            "trade-2-walls",
            height = show_inches(plan.height.inches()),
            spacing = show_inches(target.spacing),
            wall = show_inches(target.wall)
        ),
    );
    match &grid.layout {
        None => no_room(&mut sheet, plan, thickness),
        Some(layout) => laid(&mut sheet, plan, &grid, layout, thickness),
    }
    sheet.limits = vec![
        Limit::practice(Phrase("trade-spacing-lights-ceiling-height"), Phrase("trade-half")),
        Limit::practice(Phrase("trade-room-clips-beside-cut"), inch(plan.clip.inches())),
        Limit::practice(Phrase("trade-one-standard-deviation-joist"), inch(JOIST_SIGMA)),
        joist,
    ];
    sheet.note(Phrase("trade-joists-counted-evenly-first"));
    sheet.note(Phrase("trade-lights-not-type-ic"));
    sheet.note(Phrase("trade-new-lights-hang-old"));
    let lights = grid.layout.iter().flat_map(|l| points(l, plan.cut_out.inches())).collect();
    sheet.picture = Some(Picture::Ceiling(CeilingPlan {
        width: plan.across.inches(),
        depth: plan.along.inches(),
        joists: grid.joists,
        lights,
        old_fixture: plan.old.map(|(x, y)| (x.inches(), y.inches())),
    }));
    Ok(sheet)
}

/// Every light: x, y, cut-out, moved.
fn points(layout: &Layout, cut_out: f64) -> Vec<(f64, f64, f64, bool)> {
    let column = |y: &f64| -> Vec<(f64, f64, f64, bool)> {
        layout.across.iter().map(|x| (x.to, *y, cut_out, libm::fabs(x.by()) > 1e-9)).collect()
    };
    layout.along.iter().flat_map(column).collect()
}

fn no_room(sheet: &mut Sheet, plan: &GridPlan, thickness: f64) {
    let bay = plan.spacing.inches() - thickness;
    let need = plan.cut_out.inches() + 2.0 * plan.clip.inches();
    sheet.standing = Standing::Beyond;
    sheet.chance_beyond = None;
    sheet.sentence = say!(
        "trade-no-even-layout-keeps",
        cutout = show_inches(plan.cut_out.inches()),
        need = inch(need),
        bay = inch(bay)
    );
    sheet.line(
        Phrase("trade-bay"),
        equals(format!("{} − {}", num(plan.spacing.inches()), num(thickness)), inch(bay)),
    );
    let smaller = bay - 2.0 * plan.clip.inches();
    if smaller > 0.0 {
        let text = say!("trade-lights-cut-out-no", smaller = inch(smaller));
        sheet.changes.push(crate::sheet::Change::new(text, smaller < plan.cut_out.inches()));
    }
}

fn laid(sheet: &mut Sheet, plan: &GridPlan, grid: &Grid, layout: &Layout, thickness: f64) {
    let (columns, rows) = (layout.across.len(), layout.along.len());
    let moved = layout.across.iter().filter(|m| libm::fabs(m.by()) > 1e-9).count();
    let steps = (plan.across.inches() / columns as f64, plan.along.inches() / rows as f64);
    let chance = chance_of_a_joist(plan, grid, layout, thickness);
    sheet.standing = Standing::of_chance(chance);
    sheet.chance_beyond = Some(chance);
    sheet.sentence = say!(
        "trade-lights-across-joists-along",
        rows = columns * rows,
        columns = columns,
        rows2 = rows,
        steps = show_inches(steps.0),
        steps2 = show_inches(steps.1),
        moved = say!("trade-columns-moved", n = moved),
        word = sheet.standing.lies(),
        chance = in_100(chance)
    );
    let list = |places: &mut dyn Iterator<Item = f64>| -> String {
        let texts: Vec<String> = places.map(show_inches).collect();
        texts.join(", ")
    };
    sheet.line(Phrase("trade-even-across-joists"), list(&mut layout.across.iter().map(|m| m.from)));
    sheet.line(
        Phrase("trade-kept-joists-center"),
        say!(
            "trade-2-2-doubt-about",
            thickness = num(thickness),
            cutout = num(plan.cut_out.inches()),
            clip = num(plan.clip.inches()),
            off = inch(grid.off)
        ),
    );
    sheet.line(Phrase("trade-across-joists"), list(&mut layout.across.iter().map(|m| m.to)));
    sheet.line(Phrase("trade-along-joists"), list(&mut layout.along.iter().copied()));
    sheet.sigma = Some(say!(
        "trade-every-joist-together",
        joistsigma = format!("{:.3}", plan.first.sigma(JOIST_SIGMA))
    ));
    match plan.old {
        None => sheet.note(Phrase("trade-where-old-fixture-hangs")),
        Some((x, y)) => {
            let near = |(lx, ly, _, _): &(f64, f64, f64, bool)| libm::hypot(lx - x.inches(), ly - y.inches());
            let nearest = points(layout, 0.0).iter().map(near).fold(f64::INFINITY, libm::fmin);
            sheet.line(Phrase("trade-old-fixture-nearest-light"), show_inches(nearest));
            sheet.note(if nearest < 1.0 {
                Phrase("trade-light-comes-lie-where")
            } else {
                Phrase("trade-hole-old-fixture-patched")
            });
        }
    }
}

/// Every joist shifts alike, as they are counted from one: too far one way or the other cannot both be true.
fn chance_of_a_joist(plan: &GridPlan, grid: &Grid, layout: &Layout, thickness: f64) -> f64 {
    let least = thickness / 2.0 + plan.cut_out.inches() / 2.0 + plan.clip.inches();
    let slack = |side: f64| {
        let rooms = layout.across.iter().flat_map(|m| {
            grid.joists.iter().map(move |j| side * (m.to - j)).filter(|d| *d >= 0.0).map(move |d| d - least)
        });
        rooms.fold(f64::INFINITY, libm::fmin)
    };
    let spread = Budget::new().with(Phrase("trade-joist-2"), 1.0, plan.first.sigma(JOIST_SIGMA));
    let chance = |room: f64| if room.is_finite() { spread.chance_under(room, 0.0) } else { 0.0 };
    libm::fmin(chance(slack(1.0)) + chance(slack(-1.0)), 1.0)
}

const FIELDS: &[Field] = &[
    Field::must(
        "across",
        Phrase("trade-how-long-room-across"),
        Kind::Length { min: ROOMS.0, max: ROOMS.1, feet: true },
    ),
    Field::must(
        "along",
        Phrase("trade-how-long-room-along"),
        Kind::Length { min: ROOMS.0, max: ROOMS.1, feet: true },
    ),
    Field::must(
        "height",
        Phrase("trade-how-high-ceiling-feet"),
        Kind::Length { min: HEIGHTS.0, max: HEIGHTS.1, feet: true },
    ),
    Field::or(
        "spacing",
        Phrase("trade-how-far-apart-joists"),
        Kind::Length { min: SPACINGS.0, max: SPACINGS.1, feet: false },
        "16",
    ),
    Field::must(
        "first-joist",
        Phrase("trade-how-far-wall-center"),
        Kind::Length { min: 0.0, max: ROOMS.1, feet: false },
    ),
    Field::must(
        "cut-out",
        Phrase("trade-how-large-hole-light"),
        Kind::Length { min: CUT_OUTS.0, max: CUT_OUTS.1, feet: false },
    ),
    Field::or(
        "clip",
        Phrase("trade-how-much-room-do-clips"),
        Kind::Length { min: 0.0, max: 4.0, feet: false },
        "1/4",
    ),
    Field::may(
        "old-across",
        Phrase("trade-old-fixture-how-far"),
        Kind::Length { min: 0.0, max: ROOMS.1, feet: false },
    ),
    Field::may(
        "old-along",
        Phrase("trade-old-fixture-how-far-end"),
        Kind::Length { min: 0.0, max: ROOMS.1, feet: false },
    ),
];

/// Lights for a room.
pub const CALCULATION: Calculation = Calculation {
    word: "light-grid",
    title: Phrase("trade-lights-over-room"),
    about: Phrase("trade-how-many-lights-replace"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let (Some(across), Some(along), Some(height), Some(spacing), Some(first), Some(cut_out)) = (
        given.length("across"),
        given.length("along"),
        given.length("height"),
        given.length("spacing"),
        given.length("first-joist"),
        given.length("cut-out"),
    ) else {
        let sentence = Phrase("trade-without-room-joists-cut");
        return Ok(Sheet::cannot_say(sentence, given.missing(FIELDS), CAUTION));
    };
    let plan = || {
        let clip = given.length("clip").unwrap_or_else(|| Reading::plain(Length::from_sixty_fourths(16)));
        let plan = GridPlan::new((across, along), height, (spacing, first), cut_out)?.with_clip(clip)?;
        match (given.length("old-across"), given.length("old-along")) {
            (Some(x), Some(y)) => plan.replacing(x, y),
            _ => Ok(plan),
        }
    };
    let mut sheet = or_why(plan().and_then(|plan| judge(&plan, catalog)), CAUTION)?;
    sheet.assumed.extend(given.assumed().iter().cloned());
    Ok(sheet)
}
