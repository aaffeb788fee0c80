//! The draws themselves: in each of them, which conditions are there and what they bring.

use std::ops::Range;

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
        let n = self.ready.len();
        Row { entries: Vec::with_capacity(n), words: Vec::with_capacity(n), held_in: vec![u32::MAX; n] }
    }

    /// Fills in what the conditions that are `there` bring in a draw, days only where they are wanted. First all random
    /// words, then all quantiles: the steps of one word wait for each other, those of several go side by side.
    fn draw<const DAYS: bool>(&self, draw: u32, there: &[u32], row: &mut Row) {
        let Row { entries, words, held_in } = row;
        let mut holds = false;
        words.clear();
        words.extend(there.iter().map(|i| {
            let item = &self.ready[*i as usize];
            philox([item.counter | u64::from(draw), item.stream], self.seed)
        }));
        entries.clear();
        entries.extend(there.iter().zip(&*words).map(|(i, [first, second])| {
            let item = &self.ready[*i as usize];
            let mut entry = Entry { item: *i as usize, ..Entry::default() };
            if first >> 32 < item.becomes {
                entry.cost = self.at(&item.cost, unit(*first));
                if DAYS {
                    entry.days = self.at(&item.days, unit(*second));
                }
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

    /// Makes the draws one after the other and hands each out, days only where they are wanted. `sample` begins at the first
    /// of them and sets one flag for each item, present or not; `go_on` is asked every thousand draws. Which items were
    /// there comes back, or nothing when it was told to stop.
    pub(super) fn run<const DAYS: bool>(
        &self,
        draws: Range<u32>,
        mut sample: impl FnMut(&mut [bool]),
        mut go_on: impl FnMut() -> bool,
        mut each: impl FnMut(&[Entry]),
    ) -> Option<Present> {
        // Whole groups of eight flags; those past the last item stay down.
        let mut present = vec![false; self.ready.len().next_multiple_of(8)];
        let mut row = self.row();
        let mut all = Present { starts: Vec::with_capacity(draws.len() + 1), there: Vec::new() };
        all.starts.push(0);
        for (done, draw) in (0u32..).zip(draws.clone()) {
            if done % STRIDE == 0 && !go_on() {
                return None;
            }
            if done == STRIDE {
                // Room for the other draws, judged by these.
                all.there.reserve(all.there.len() * (draws.len() / STRIDE as usize));
            }
            sample(&mut present[..self.ready.len()]);
            let from = all.there.len();
            list(&present, &mut all.there);
            self.draw::<DAYS>(draw, &all.there[from..], &mut row);
            each(&row.entries);
            all.starts.push(all.there.len());
        }
        Some(all)
    }

    /// Makes one of the draws of a run again.
    pub(super) fn again<'r>(&self, present: &Present, draw: usize, row: &'r mut Row) -> &'r [Entry] {
        self.draw::<true>(draw as u32, present.of(draw), row);
        &row.entries
    }
}

/// One draw.
pub(super) struct Row {
    entries: Vec<Entry>,
    words: Vec<[u64; 2]>,
    /// In which draw an item's cost was last held by another's.
    held_in: Vec<u32>,
}

/// Appends the places of the flags that are up: eight groups of eight become one word, whose bits are then counted off.
fn list(present: &[bool], there: &mut Vec<u32>) {
    // Sends the lowest bit of byte i to bit 56 + i.
    const GATHER: u64 = 0x0102_0408_1020_4080;
    for (flags, first) in present.chunks(64).zip((0u32..).step_by(64)) {
        let (groups, _) = flags.as_chunks::<8>();
        let mut up = groups.iter().rev().fold(0u64, |word, group| {
            let eight = u64::from_le_bytes(group.map(u8::from)).wrapping_mul(GATHER) >> 56;
            word << 8 | eight
        });
        while up != 0 {
            there.push(first + up.trailing_zeros());
            up &= up - 1;
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
        Drawer::new(items, seed).run::<true>(0..draws, sample, go_on, |entries| {
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

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_list_names_the_flags_that_are_up(flags in proptest::collection::vec(any::<bool>(), 0..200)) {
            let by_hand: Vec<u32> = flags.iter().zip(0..).filter(|(f, _)| **f).map(|(_, i)| i).collect();
            let mut padded = flags.clone();
            padded.resize(flags.len().next_multiple_of(8), false);
            let mut there = Vec::new();
            list(&padded, &mut there);
            prop_assert_eq!(there, by_hand);
        }
    }
}
