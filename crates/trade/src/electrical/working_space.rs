//! Room to stand before a panel, and where a panel may be (NEC 110.26, 240.24).
//!
//! Nothing is opened: depth, width and height are taken before the closed panel. The three readings are independent,
//! so the chance that at least one is too small is one minus the product of the chances that each is not.

use alloc::{format, vec::Vec};

use survey::catalog::{Book, Catalog};
use survey::{Phrase, Said, say};

use super::{CAUTION, any_of, edition};
use crate::calculation::Calculation;
use crate::cite::{row, value};
use crate::error::TradeError;
use crate::given::{Field, Given, Kind, show_inches, spoken};
use crate::normal::chance_over;
use crate::number::in_100;
use crate::sheet::{Assumed, Change, Limit, Sheet, Standing};
use crate::tolerance::{Budget, Reading};

/// A panel and the space before it. What nobody looked at is absent.
#[derive(Clone, PartialEq, Debug)]
pub struct Space {
    /// Clear depth from the panel's face.
    pub depth: Reading,
    /// Clear width.
    pub width: Reading,
    /// Clear height from the floor.
    pub height: Reading,
    /// Width of the panel.
    pub panel_width: Option<Reading>,
    /// Height of the panel's top above the floor, where that is over 6-1/2 ft.
    pub panel_top: Option<Reading>,
    /// Highest breaker handle above the floor.
    pub handle: Option<Reading>,
    /// Its door opens a right angle.
    pub door_opens: Option<bool>,
    /// Pipes, ducts or the like run over it.
    pub pipes_above: Option<bool>,
    /// Where it is: a row of `panel-places`.
    pub place: Option<&'static str>,
}

/// σ of a clear distance taken with a tape against something soft or stored, inches: common practice, no source.
const DISTANCE_SIGMA: f64 = 0.25;
/// So many σ inside a limit stand within: the chance of lying beyond is 0.05 there.
const WITHIN: f64 = 1.645;
/// Keeps a distance exactly at its limit within it.
const HAIR: f64 = 1e-9;

/// Width and height that are called for before a panel of such a width and top, inches.
///
/// # Errors
/// A book without the tables.
pub fn called_for(book: &Book, panel_width: f64, panel_top: f64) -> Result<[f64; 3], TradeError> {
    let width = libm::fmax(value(book, "working-width")?.0, panel_width);
    let height = libm::fmax(value(book, "working-height")?.0, panel_top);
    Ok([value(book, "working-depth")?.0, width, height])
}

/// Whether depth, width and height reach what is called for, inches.
pub fn reaches(space: [f64; 3], called_for: [f64; 3]) -> bool {
    space.iter().zip(called_for).all(|(is, least)| *is >= least - HAIR)
}

impl Space {
    /// Chance that depth, width or height is too small, or a handle too high.
    ///
    /// # Errors
    /// A book without the tables.
    pub fn chance_beyond(&self, book: &Book) -> Result<f64, TradeError> {
        Ok(any_of(self.measured(book)?.into_iter().map(|m| m.chance)))
    }
    fn measured(&self, book: &Book) -> Result<Vec<Measured>, TradeError> {
        let inches = |r: Option<Reading>| r.map_or(0.0, |r| r.inches());
        let [depth, width, height] = called_for(book, inches(self.panel_width), inches(self.panel_top))?;
        let mut out = Vec::new();
        for (name, reading, least, panel, id) in [
            (Phrase("trade-depth"), self.depth, depth, None, "working-depth"),
            (Phrase("trade-width-2"), self.width, width, self.panel_width, "working-width"),
            (Phrase("trade-height-2"), self.height, height, self.panel_top, "working-height"),
        ] {
            let mut spread = Budget::new().with(name, 1.0, reading.sigma(DISTANCE_SIGMA));
            // Where the panel itself is larger than the fixed value, its own reading is the limit.
            if let Some(panel) = panel.filter(|p| p.inches() >= least) {
                spread.add(Phrase("trade-panel"), -1.0, panel.sigma(DISTANCE_SIGMA));
            }
            let chance = spread.chance_under(reading.inches(), least);
            let (is, sigma, rule) = (reading.inches(), spread.sigma(), value(book, id)?.1);
            out.push(Measured { name, is, limit: least, chance, sigma, rule, most: false });
        }
        if let Some(handle) = self.handle {
            let (most, rule) = value(book, "handle-height")?;
            let (is, sigma) = (handle.inches(), handle.sigma(DISTANCE_SIGMA));
            let chance = chance_over(is, most, sigma);
            out.push(Measured {
                name: Phrase("trade-highest-handle"),
                is,
                limit: most,
                chance,
                sigma,
                rule,
                most: true,
            });
        }
        Ok(out)
    }
    fn unknown(&self) -> Vec<Said> {
        [
            (Phrase("trade-door-opens"), self.door_opens.is_none()),
            (Phrase("trade-pipes-above"), self.pipes_above.is_none()),
            (Phrase("trade-place"), self.place.is_none()),
        ]
        .into_iter()
        .filter(|(_, unknown)| *unknown)
        .map(|(name, _)| name.into())
        .collect()
    }
}

struct Measured {
    name: Phrase,
    is: f64,
    limit: f64,
    chance: f64,
    sigma: f64,
    rule: Limit,
    /// The limit is a most, not a least.
    most: bool,
}

impl Measured {
    fn over(&self) -> bool {
        if self.most { self.is > self.limit } else { self.is < self.limit }
    }
}

/// Holds a space against one book.
///
/// # Errors
/// A book without the tables.
pub fn judge(space: &Space, book: &Book) -> Result<Sheet, TradeError> {
    let measured = space.measured(book)?;
    let mut limits: Vec<Limit> = measured.iter().map(|m| m.rule.clone()).collect();
    let faults = seen_faults(space, book, &mut limits)?;
    let mut beyond: Vec<Said> = Vec::new();
    let mut changes = Vec::new();
    let short = measured.iter().filter(|m| Standing::of_chance(m.chance) != Standing::Within).count();
    for m in &measured {
        let word = match Standing::of_chance(m.chance) {
            Standing::Within => continue,
            Standing::Near => Phrase("trade-near"),
            _ => Phrase("trade-beyond"),
        };
        let side = if m.most { Phrase("trade-most-3") } else { Phrase("trade-least-3") };
        let (is, limit) = (show_inches(m.is), show_inches(m.limit));
        beyond.push(say!("trade-value", name = m.name, is = is, word = word, side = side, limit = limit));
        // So much that the reading stands within, its own spread included; to the next eighth.
        let by = libm::fabs(m.limit - m.is) * if m.over() { 1.0 } else { -1.0 } + WITHIN * m.sigma;
        let by = show_inches(libm::ceil(by * 8.0) / 8.0);
        let text = if m.most {
            say!("trade-highest-handle-lower", by = by)
        } else {
            say!("trade-more-clear", by = by, name = m.name)
        };
        changes.push(Change::new(text, short == 1 && faults.is_empty()));
    }
    let certain = !faults.is_empty();
    beyond.extend(faults);
    let chance = any_of(measured.iter().map(|m| m.chance));
    let chance = if certain { 1.0 } else { chance };
    let unknown = space.unknown();
    let mut standing = Standing::of_chance(chance);
    if standing == Standing::Within && !unknown.is_empty() {
        standing = Standing::CannotSay;
    }
    let sentence = match standing {
        Standing::CannotSay => say!("trade-depth-width-height-within", unknown = unknown.clone()),
        Standing::Within => Said::from(Phrase("trade-depth-width-height-door")),
        _ => {
            if beyond.is_empty() {
                beyond.push(say!("trade-each-reading-within-value"));
            }
            let sentence = Said::between("; ", beyond).capital();
            say!("trade-chance-space-lies-beyond", sentence = sentence, chance = in_100(chance))
        }
    };
    let mut sheet = Sheet::new(standing, sentence, CAUTION);
    if standing != Standing::CannotSay {
        sheet.chance_beyond = Some(chance);
    }
    for m in &measured {
        let left = if m.most { m.limit - m.is } else { m.is - m.limit };
        let sum = if m.most { (m.limit, m.is) } else { (m.is, m.limit) };
        let text = format!("{} − {} = {}", show_inches(sum.0), show_inches(sum.1), show_inches(left));
        sheet.line(say!("trade-spare", name = m.name), text);
    }
    let widest = [space.depth, space.width, space.height].map(|r| r.sigma(DISTANCE_SIGMA));
    sheet.sigma = Some(say!(
        "trade-depth-width-height",
        widest = format!("{:.3}", widest[0]),
        widest2 = format!("{:.3}", widest[1]),
        widest3 = format!("{:.3}", widest[2])
    ));
    sheet.limits = limits;
    sheet.changes = changes;
    sheet.missing = unknown;
    if space.panel_width.is_none() {
        sheet.assumed.push(Assumed::new(say!("trade-panel-width"), say!("trade-not-over-30")));
    }
    if [space.depth, space.width, space.height].iter().any(|r| r.tolerance.is_none()) {
        sheet.limits.push(Limit::practice(
            Phrase("trade-clear-distance-nobody-gave"),
            say!("trade-plus-minus-half-inch"),
        ));
    }
    sheet.note(Phrase("trade-width-need-not-centered"));
    Ok(sheet)
}

/// What is beyond without any measuring: door, pipes, place. Their limits are added.
fn seen_faults(space: &Space, book: &Book, limits: &mut Vec<Limit>) -> Result<Vec<Said>, TradeError> {
    let mut faults = Vec::new();
    if let Some(opens) = space.door_opens {
        limits.push(value(book, "working-door")?.1);
        if !opens {
            faults.push(say!("trade-door-does-not-open"));
        }
    }
    if let Some(pipes) = space.pipes_above {
        limits.push(value(book, "clear-above")?.1);
        if pipes {
            faults.push(say!("trade-pipes-ducts-run-over"));
        }
    }
    if let Some(place) = space.place {
        let (may, limit) = row(book, "panel-places", place)?;
        let shown = spoken(place);
        if may == 0.0 {
            faults.push(say!("trade-breakers-not-this-place", shown = &shown));
        }
        limits.push(Limit { value: shown, ..limit });
    }
    Ok(faults)
}

const DISTANCE: Kind = Kind::Length { min: 0.0, max: 600.0, feet: false };

const FIELDS: &[Field] = &[
    Field::must("depth", Phrase("trade-how-much-clear-floor"), DISTANCE),
    Field::must("width", Phrase("trade-how-wide-clear-there"), DISTANCE),
    Field::must("height", Phrase("trade-how-high-clear-there"), DISTANCE),
    Field::may("panel-width", Phrase("trade-how-wide-panel"), DISTANCE),
    Field::may("panel-top", Phrase("trade-how-high-top-if"), DISTANCE),
    Field::may("highest-handle", Phrase("trade-how-high-highest-breaker"), DISTANCE),
    Field::may("door-opens", Phrase("trade-does-door-open-right"), Kind::YesNo),
    Field::may("pipes-above", Phrase("trade-do-pipes-ducts-run"), Kind::YesNo),
    Field::may(
        "place",
        Phrase("trade-where"),
        Kind::Word(&["elsewhere", "bathroom", "clothes-closet", "over-stairs"]),
    ),
    edition::EDITION,
];

pub(super) const CALCULATION: Calculation = Calculation {
    word: "working-space",
    title: Phrase("trade-working-space"),
    about: Phrase("trade-whether-there-room-stand"),
    fields: FIELDS,
    run,
};

fn run(given: &Given, catalog: &Catalog) -> Result<Sheet, TradeError> {
    let (Some(depth), Some(width), Some(height)) =
        (given.length("depth"), given.length("width"), given.length("height"))
    else {
        let sentence = Phrase("trade-without-clear-depth-width");
        return Ok(Sheet::cannot_say(sentence, given.missing(FIELDS), CAUTION));
    };
    let space = Space {
        depth,
        width,
        height,
        panel_width: given.length("panel-width"),
        panel_top: given.length("panel-top"),
        handle: given.length("highest-handle"),
        door_opens: given.yes("door-opens"),
        pipes_above: given.yes("pipes-above"),
        place: given.word("place"),
    };
    edition::under(given, catalog, edition::Alike::Standing, |book| judge(&space, book))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::{catalog, run_words};

    const LOOKED: [(&str, &str); 3] = [("door-opens", "yes"), ("pipes-above", "no"), ("place", "elsewhere")];

    fn sheet(answers: &[(&str, &str)]) -> Sheet {
        run_words(&CALCULATION, answers, &catalog())
    }

    #[test]
    fn three_feet_deep_thirty_inches_wide_six_and_a_half_feet_high_are_called_for() {
        // NEC 110.26(A)(1) to (3), 0 to 150 V to ground
        let catalog = catalog();
        let book = catalog.shelf.book("nec-2011").unwrap();
        let least = called_for(book, 14.0, 0.0).unwrap();
        assert_eq!(least, [36.0, 30.0, 78.0]);
        assert!(reaches([36.0, 30.0, 78.0], least) && !reaches([36.0, 29.0, 78.0], least));
        assert_eq!(called_for(book, 36.0, 84.0).unwrap(), [36.0, 36.0, 84.0]);
    }

    #[test]
    fn ample_space_is_within_once_door_pipes_and_place_are_known() {
        let measured = [("depth", "44"), ("width", "36"), ("height", "84")];
        let sheet_known = sheet(&[measured.as_slice(), &LOOKED].concat());
        assert_eq!(sheet_known.standing, Standing::Within);
        let unknown = sheet(&measured);
        assert_eq!((unknown.standing, unknown.missing.len()), (Standing::CannotSay, 3));
        assert_eq!(unknown.chance_beyond, None);
    }

    #[test]
    fn a_washer_inside_the_depth_is_beyond_whatever_else_is_unknown() {
        let sheet = sheet(&[("depth", "24"), ("width", "36"), ("height", "84")]);
        assert_eq!(sheet.standing, Standing::Beyond);
        let change = &sheet.changes[0];
        assert_eq!((change.text.read(), change.enough), ("12-1/2\" more clear depth.", true));
    }

    #[test]
    fn a_bath_a_closet_or_stairs_are_no_place_for_breakers() {
        // NEC 240.24(D), (E), (F)
        for place in ["bathroom", "clothes-closet", "over-stairs"] {
            let answers = [("depth", "44"), ("width", "36"), ("height", "84"), ("place", place)];
            let sheet = sheet(&answers);
            assert_eq!((sheet.standing, sheet.chance_beyond), (Standing::Beyond, Some(1.0)), "{place}");
        }
    }

    #[test]
    fn near_two_limits_the_chances_join() {
        let sheet = sheet(
            &[[("depth", "36 ± 1/2"), ("width", "30 ± 1/2"), ("height", "84")].as_slice(), &LOOKED].concat(),
        );
        assert_eq!(sheet.standing, Standing::Near);
        assert!((sheet.chance_beyond.unwrap() - 0.75).abs() < 1e-12);
    }
}
