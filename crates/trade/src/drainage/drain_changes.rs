//! The height of a vertical drain against its table, and what alone would put a pipe within.

use survey::catalog::Book;
use survey::{Phrase, say};

use super::demand::{Demand, Fault, HAIR, Size};
use super::enough::{is_enough, least};
use super::units::Load;
use crate::normal::chance_over;
use crate::number::show_number;
use crate::sheet::{Change, Sheet};
use crate::tolerance::Reading;

/// σ of a height paced off story by story, inches: common practice, no source.
const HEIGHT_SIGMA: f64 = 12.0;
/// Inches in a foot.
const FOOT: f64 = 12.0;

/// A vertical drain against the most its table takes at a size.
pub(super) struct Tall {
    height: Reading,
    /// The most, feet.
    pub(super) most: f64,
}

impl Tall {
    /// None where neither height nor table is there.
    pub(super) fn of(book: &Book, size: Size, high: Option<Reading>) -> Option<Self> {
        Some(Self { height: high?, most: book.table("vertical-drain-length")?.row(size.name)? })
    }
    /// Chance that it is taller than that, were it shorter by some inches.
    pub(super) fn chance(&self, less: f64) -> f64 {
        chance_over(self.height.inches() - less, self.most * FOOT, self.sigma())
    }
    /// σ of its height, inches.
    pub(super) fn sigma(&self) -> f64 {
        self.height.sigma(HEIGHT_SIGMA)
    }
}

/// What alone would put the pipe within: a larger pipe, a shorter one, or one row of fixtures led elsewhere.
pub(super) fn add(
    part: Phrase,
    load: &Load,
    demand: &Demand,
    size: Size,
    tall: impl Fn(&Size) -> Option<Tall>,
    sheet: &mut Sheet,
) {
    let by_load = |s: &Size| demand.faults(*s).is_empty() && !demand.is_full(*s);
    let by_height = |s: &Size| tall(s).is_none_or(|t| is_enough(t.chance(0.0)));
    let does = |s: &Size| s.inches > size.inches && by_load(s) && by_height(s);
    if let Some(larger) = demand.sizes().find(does) {
        let text = say!("trade-pipe-place", name = larger.name, name2 = size.name);
        sheet.changes.push(Change::new(text, true));
    }
    if let Some(tall) = tall(&size).filter(|t| !is_enough(t.chance(0.0)))
        && let Some(less) = least(FOOT, tall.height.inches(), |less| tall.chance(less))
    {
        let text = say!("trade-shorter-ft", part = part, foot = show_number(less / FOOT));
        sheet.changes.push(Change::new(text, by_load(&size)));
    }
    let only_load = demand.faults(size).iter().all(|f| matches!(f, Fault::Load { .. }));
    let [column] = demand.columns.as_slice() else { return };
    let Some(carries) = column.carries(size.name) else { return };
    let crowded = load.units >= carries - HAIR;
    if !only_load || !crowded || load.rows.len() < 2 {
        return;
    }
    for (row, units) in &load.rows {
        if load.units - units < carries - HAIR {
            let (name, units) = (row.fixture.name, show_number(*units));
            let text = say!("trade-dfu-led-another-drain", name = name, units = units);
            sheet.changes.push(Change::new(text, by_height(&size)));
        }
    }
}
