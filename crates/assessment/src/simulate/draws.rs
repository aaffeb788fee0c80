//! The draws themselves: in each of them, which conditions are there and what they bring.

use trade::pert::{Pert, Quantiles};

use super::Item;
use super::stream::{philox, unit};

/// Draws between two questions whether to go on.
const STRIDE: u32 = 1_000;

/// A condition that is there in a draw.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Entry {
    /// Index of its item.
    pub item: usize,
    /// Dollars it costs in this draw: 0 where it does not become a cost, or where another one's cost holds it.
    pub cost: f64,
    /// Working or waiting days it brings, likewise.
    pub days: f64,
}

/// Makes draws: the items ready to be drawn.
pub(super) struct Drawer<'a> {
    ready: Vec<Ready<'a>>,
    /// The tables of all shapes that occur, each once.
    shapes: Vec<u64>,
    tables: Vec<Quantiles>,
    seed: u64,
}

/// An item made ready.
struct Ready<'a> {
    counter: u64,
    stream: u64,
    /// It becomes a cost when 32 random bits lie below this.
    becomes: u64,
    cost: Laid,
    days: Laid,
    covers: &'a [usize],
}

/// An estimate by the table of its shape.
struct Laid {
    low: f64,
    span: f64,
    table: usize,
}

impl<'a> Drawer<'a> {
    pub(super) fn new(items: &'a [Item], seed: u64) -> Self {
        let mut drawer = Self { ready: Vec::new(), shapes: Vec::new(), tables: Vec::new(), seed };
        for (i, item) in items.iter().enumerate() {
            // Items that were given one stream still draw apart.
            let before = items[..i].iter().filter(|o| o.stream == item.stream).count();
            let ready = Ready {
                counter: (before as u64) << 32,
                stream: item.stream,
                becomes: libm::round(item.p_cost.clamp(0.0, 1.0) * 4_294_967_296.0) as u64,
                cost: drawer.lay(&item.cost),
                days: drawer.lay(&item.days),
                covers: &item.covers,
            };
            drawer.ready.push(ready);
        }
        drawer
    }

    fn lay(&mut self, pert: &Pert) -> Laid {
        let shape = pert.alpha().to_bits();
        let known = self.shapes.iter().position(|s| *s == shape);
        let table = known.unwrap_or_else(|| {
            self.shapes.push(shape);
            self.tables.push(Quantiles::of(pert));
            self.tables.len() - 1
        });
        Laid { low: pert.low(), span: pert.high() - pert.low(), table }
    }

    #[inline]
    fn at(&self, laid: &Laid, u: f64) -> f64 {
        laid.low + laid.span * self.tables[laid.table].at(u)
    }

    /// Room for one draw.
    pub(super) fn row(&self) -> Row {
        Row { entries: Vec::with_capacity(self.ready.len()), held_in: vec![u32::MAX; self.ready.len()] }
    }

    /// Fills in what the conditions that are `there` bring in a draw.
    fn draw(&self, draw: u32, there: &[u32], row: &mut Row) {
        let Row { entries, held_in } = row;
        let mut holds = false;
        entries.clear();
        entries.extend(there.iter().map(|i| {
            let item = &self.ready[*i as usize];
            let [first, second] = philox([item.counter | u64::from(draw), item.stream], self.seed);
            let mut entry = Entry { item: *i as usize, ..Entry::default() };
            if first >> 32 < item.becomes {
                entry.cost = self.at(&item.cost, unit(first));
                entry.days = self.at(&item.days, unit(second));
                for covered in item.covers {
                    held_in[*covered] = draw;
                    holds = true;
                }
            }
            entry
        }));
        if holds {
            // What is itself held by another still holds.
            for entry in entries.iter_mut().filter(|e| held_in[e.item] == draw) {
                (entry.cost, entry.days) = (0.0, 0.0);
            }
        }
    }

    /// Makes the draws one after the other and hands each out. `sample` sets one flag for each item, present or not;
    /// `go_on` is asked every thousand draws. Which items were there comes back, or nothing when it was told to stop.
    pub(super) fn run(
        &self,
        draws: u32,
        mut sample: impl FnMut(&mut [bool]),
        mut go_on: impl FnMut() -> bool,
        mut each: impl FnMut(&[Entry]),
    ) -> Option<Present> {
        // Whole groups of eight flags; those past the last item stay down.
        let mut present = vec![false; self.ready.len().next_multiple_of(8)];
        let mut row = self.row();
        let mut all = Present { starts: Vec::with_capacity(draws as usize + 1), there: Vec::new() };
        all.starts.push(0);
        for draw in 0..draws {
            if draw % STRIDE == 0 && !go_on() {
                return None;
            }
            if draw == STRIDE {
                // Room for the other draws, judged by these.
                all.there.reserve(all.there.len() * (draws / STRIDE) as usize);
            }
            sample(&mut present[..self.ready.len()]);
            let from = all.there.len();
            list(&present, &mut all.there);
            self.draw(draw, &all.there[from..], &mut row);
            each(&row.entries);
            all.starts.push(all.there.len());
        }
        Some(all)
    }

    /// Makes one of the draws of a run again.
    pub(super) fn again<'r>(&self, present: &Present, draw: usize, row: &'r mut Row) -> &'r [Entry] {
        self.draw(draw as u32, present.of(draw), row);
        &row.entries
    }
}

/// One draw.
pub(super) struct Row {
    entries: Vec<Entry>,
    /// In which draw an item's cost was last held by another's.
    held_in: Vec<u32>,
}

/// Appends the places of the flags that are up, eight at a time.
fn list(present: &[bool], there: &mut Vec<u32>) {
    let (groups, _) = present.as_chunks::<8>();
    for (group, first) in groups.iter().zip((0u32..).step_by(8)) {
        let mut flags = u64::from_le_bytes(group.map(u8::from));
        while flags != 0 {
            there.push(first + (flags.trailing_zeros() >> 3));
            flags &= flags - 1;
        }
    }
}

/// Which items were there in each draw.
#[derive(Clone, Debug, PartialEq, Default)]
pub(super) struct Present {
    /// Where the items of each draw start, and where the last end.
    starts: Vec<usize>,
    there: Vec<u32>,
}

impl Present {
    fn of(&self, draw: usize) -> &[u32] {
        match (self.starts.get(draw), self.starts.get(draw + 1)) {
            (Some(from), Some(to)) => &self.there[*from..*to],
            _ => &[],
        }
    }
}

/// Joint draws, kept.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Draws {
    /// Where the entries of each draw end.
    ends: Vec<usize>,
    entries: Vec<Entry>,
}

impl Draws {
    /// Makes `draws` joint draws. `sample` sets one flag for each item, present or not, for one draw after the other;
    /// cost and days come from the streams of the items under `seed`. `go_on` is asked every thousand draws.
    ///
    /// Returns nothing when it was told to stop.
    pub fn make(
        items: &[Item],
        draws: u32,
        seed: u64,
        sample: impl FnMut(&mut [bool]),
        go_on: impl FnMut() -> bool,
    ) -> Option<Self> {
        let mut made = Self::default();
        Drawer::new(items, seed).run(draws, sample, go_on, |entries| {
            made.entries.extend_from_slice(entries);
            made.ends.push(made.entries.len());
        })?;
        Some(made)
    }

    /// How many draws there are.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// True when there are none.
    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// What is there in a draw, in the order of the items.
    pub fn entries(&self, draw: usize) -> &[Entry] {
        let from = draw.checked_sub(1).map_or(0, |before| self.ends[before]);
        &self.entries[from..self.ends[draw]]
    }

    /// All draws in order.
    pub fn iter(&self) -> impl Iterator<Item = &[Entry]> {
        (0..self.len()).map(|draw| self.entries(draw))
    }
}
