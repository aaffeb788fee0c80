//! Drainage fixture units: what each fixture counts for, and what a drain carries in all.
//!
//! IPC Table 709.1 and IRC Table P3004.1; UPC Table 702.1. Units are no flow: they already hold how seldom a fixture
//! runs, so they add up and are never turned into gallons.

use alloc::{format, vec::Vec};

use survey::catalog::Book;
use survey::{Phrase, Said, say};

use super::fixture::Fixture;
use crate::cite;
use crate::error::TradeError;
use crate::number::{show_number, size_name};
use crate::sheet::{Assumed, Limit};

/// Most of one fixture taken in a row.
pub const MOST_ALIKE: f64 = 50.0;

const BEYOND_ARM: &str = "beyond-trap-arm";
/// The fixture whose flow nobody said, and the table of a book whose units hold up to a flow.
const PLAIN_SHOWER: &str = "shower";
const SHOWER_FLOW: &str = "shower-flow";

/// The value of a fixture in a table, or in the one that holds what was recalled.
fn row_of(
    book: &Book,
    ids: [&'static str; 2],
    fixture: &Fixture,
) -> Result<Option<(f64, Limit)>, TradeError> {
    for id in ids {
        if book.table(id).is_some_and(|t| t.row(fixture.word).is_some()) {
            return cite::row(book, id, fixture.word).map(Some);
        }
    }
    Ok(None)
}

/// Units of one fixture, and the table they stand in.
///
/// # Errors
/// A fixture the book's tables do not list, with those they do.
pub fn units(book: &Book, fixture: &Fixture) -> Result<(f64, Limit), TradeError> {
    let ids = ["fixture-units", "fixture-units-recalled"];
    if let Some(found) = row_of(book, ids, fixture)? {
        return Ok(found);
    }
    let table = cite::table(book, "fixture-units")?;
    let tables = ids.iter().filter_map(|id| book.table(id));
    let known: Vec<&str> = tables.flat_map(|t| t.rows.iter().map(|(n, _)| n.as_str())).collect();
    Err(TradeError::NoRow {
        table: format!("{} {}", book.title, table.clause),
        value: fixture.word.into(),
        known: known.join(", "),
    })
}

/// Fixtures of one kind on a drain.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Alike {
    /// Which.
    pub fixture: &'static Fixture,
    /// How many.
    pub count: u32,
    /// Whether the work adds them.
    pub new: bool,
}

/// What drains into one pipe: at least one fixture.
#[derive(Clone, PartialEq, Debug)]
pub struct Fixtures(Vec<Alike>);

impl Fixtures {
    /// Fixtures of a drain.
    ///
    /// # Errors
    /// None at all, or a count of zero or over [`MOST_ALIKE`].
    pub fn new(rows: Vec<Alike>) -> Result<Self, TradeError> {
        let range = |what, value, high, unit| TradeError::OutOfRange { what, value, low: 1.0, high, unit };
        if rows.is_empty() || rows.len() > 100 {
            return Err(range(Phrase("trade-number-fixtures-drain"), rows.len() as f64, 100.0, "rows"));
        }
        match rows.iter().map(|r| f64::from(r.count)).find(|c| !(1.0..=MOST_ALIKE).contains(c)) {
            Some(count) => Err(range(Phrase("trade-count-fixture"), count, MOST_ALIKE, "fixtures")),
            None => Ok(Self(rows)),
        }
    }
    /// One of each word.
    ///
    /// # Errors
    /// As [`Self::new`], or an unknown word.
    pub fn of_words(words: &[&str]) -> Result<Self, TradeError> {
        let each = |word: &&str| Ok(Alike { fixture: Fixture::parse(word)?, count: 1, new: false });
        Self::new(words.iter().map(each).collect::<Result<_, TradeError>>()?)
    }
    /// The rows.
    pub fn rows(&self) -> &[Alike] {
        &self.0
    }
}

/// A size that a fixture asks of its drain, whatever the load.
#[derive(Clone, PartialEq, Debug)]
pub struct Floor {
    /// Which fixture.
    pub fixture: &'static Fixture,
    /// At least this, inches.
    pub inches: f64,
    /// Why, in words.
    pub why: Phrase,
    /// Where it stands.
    pub limit: Limit,
}

/// The load of one drain under one book.
#[derive(Clone, PartialEq, Debug)]
pub struct Load {
    /// All units.
    pub units: f64,
    /// Each row with its units.
    pub rows: Vec<(Alike, f64)>,
    /// Water closets.
    pub closets: u32,
    /// Sizes the fixtures ask for; the largest governs.
    pub floors: Vec<Floor>,
    /// Tables the units were read from.
    pub limits: Vec<Limit>,
    /// How a group was counted where the book lists none; what lies beyond a trap arm.
    pub notes: Vec<Said>,
    /// What the units rest on that nobody said.
    pub assumed: Vec<Assumed>,
}

impl Load {
    /// Adds the fixtures up under one book.
    ///
    /// # Errors
    /// A fixture the book does not list.
    pub fn of(book: &Book, fixtures: &Fixtures) -> Result<Self, TradeError> {
        let mut load = Self {
            units: 0.0,
            rows: Vec::new(),
            closets: 0,
            floors: Vec::new(),
            limits: Vec::new(),
            notes: Vec::new(),
            assumed: Vec::new(),
        };
        for row in fixtures.rows() {
            let units = f64::from(row.count) * load.each(book, row.fixture)?;
            load.units += units;
            load.rows.push((*row, units));
            load.closets = load.closets.saturating_add(row.count.saturating_mul(row.fixture.closets));
            for single in row.fixture.singles() {
                load.ask(book, single)?;
                load.assume(book, single)?;
            }
        }
        Ok(load)
    }
    /// Units of one; a group the book does not list counts as its parts.
    fn each(&mut self, book: &Book, fixture: &'static Fixture) -> Result<f64, TradeError> {
        let singles = fixture.singles();
        match units(book, fixture) {
            Ok((each, limit)) => {
                self.cite(fixture, each, limit);
                Ok(each)
            }
            Err(_) if singles.len() > 1 || singles.first().is_some_and(|s| s.word != fixture.word) => {
                let mut sum = 0.0;
                for single in singles {
                    let (each, limit) = units(book, single)?;
                    self.cite(single, each, limit);
                    sum += each;
                }
                let (title, name, sum_shown) = (&book.title, fixture.name, show_number(sum));
                self.notes.push(say!(
                    "trade-lists-no-counted-fixtures",
                    title = title,
                    name = name,
                    sumshown = sum_shown
                ));
                Ok(sum)
            }
            Err(e) => Err(e),
        }
    }
    /// Notes the sizes that one fixture asks for.
    fn ask(&mut self, book: &Book, fixture: &'static Fixture) -> Result<(), TradeError> {
        let mut floor = |inches, why, mut limit: Limit| {
            limit.value =
                say!("trade-in-3", name = fixture.name, sizename = size_name(inches).unwrap_or_default());
            let floor = Floor { fixture, inches, why, limit };
            if !self.floors.contains(&floor) {
                self.floors.push(floor);
            }
        };
        if let Some((inches, limit)) = row_of(book, ["fixture-trap", "fixture-trap-recalled"], fixture)? {
            floor(inches, Phrase("trade-trap-drain-never-smaller"), limit);
        }
        if fixture.closets > 0 {
            let (inches, limit) = cite::value(book, "water-closet-least")?;
            floor(inches, Phrase("trade-drain-water-closet"), limit);
        }
        if let Some((inches, limit)) = row_of(book, [BEYOND_ARM, BEYOND_ARM], fixture)? {
            let size = size_name(inches).unwrap_or_default();
            let note =
                say!("trade-drains-beyond-trap-arm", title = &book.title, name = fixture.name, size = size);
            floor(inches, Phrase("trade-drain-beyond-trap-arm"), limit);
            if !self.notes.contains(&note) {
                self.notes.push(note);
            }
        }
        Ok(())
    }
    /// Notes what the units of a fixture hold for only in part: a shower of a greater flow counts more.
    fn assume(&mut self, book: &Book, fixture: &Fixture) -> Result<(), TradeError> {
        if fixture.word == PLAIN_SHOWER && book.table(SHOWER_FLOW).is_some() {
            let (most, limit) = cite::value(book, SHOWER_FLOW)?;
            let value = say!("trade-no-more-than-gpm", most = show_number(most));
            let one = Assumed::new(say!("trade-flow-shower", title = &book.title), value);
            if !self.assumed.contains(&one) {
                self.assumed.push(one);
                self.limits.push(limit);
            }
        }
        Ok(())
    }
    /// Adds a value to the limit of its table.
    fn cite(&mut self, fixture: &Fixture, each: f64, mut limit: Limit) {
        limit.value = say!("trade-dfu-5", name = fixture.name, each = show_number(each));
        let same = |l: &&mut Limit| (&l.rule, &l.clause, l.mark) == (&limit.rule, &limit.clause, limit.mark);
        match self.limits.iter_mut().find(same) {
            Some(there) if there.value.is_among(&limit.value) => {}
            Some(there) => {
                there.value.also(limit.value);
            }
            None => self.limits.push(limit),
        }
    }
    /// The largest size asked for, with who asks.
    pub fn floor_of(&self) -> Option<&Floor> {
        self.floors.iter().max_by(|a, b| a.inches.total_cmp(&b.inches))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::testing::English as _;
    use crate::testing::catalog;
    use survey::catalog::Mark;

    fn of(book: &str, words: &[&str]) -> Load {
        let shelf = catalog().shelf;
        Load::of(shelf.book(book).unwrap(), &Fixtures::of_words(words).unwrap()).unwrap()
    }

    #[test]
    fn the_published_units_of_both_families() {
        // IPC Table 709.1 (copied table); UPC Table 702.1 (King County excerpt): IPC, UPC
        for (word, ipc, upc) in [
            ("kitchen_sink", 2.0, 2.0),
            ("kitchen_sink_dw", 2.0, 2.0),
            ("dishwasher", 2.0, 2.0),
            ("lavatory", 1.0, 1.0),
            ("bathtub", 2.0, 2.0),
            ("shower_le_5.7gpm", 2.0, 2.0),
            ("laundry_tray", 2.0, 2.0),
            ("clothes_washer", 2.0, 3.0),
            ("wc_1.6", 3.0, 3.0),
        ] {
            assert_eq!((of("ipc-2021", &[word]).units, of("upc-2012", &[word]).units), (ipc, upc), "{word}");
        }
    }

    #[test]
    fn a_shower_whose_flow_nobody_said_is_assumed_to_be_a_small_one() {
        // IPC Table 709.1: 2 DFU up to 5.7 gpm
        let load = of("ipc-2021", &["shower", "shower"]);
        assert_eq!((load.units, load.assumed.len()), (4.0, 1));
        assert!(load.assumed[0].value.contains("5.7 gpm"), "{:?}", load.assumed);
        for (book, word) in
            [("ipc-2021", "shower_le_5.7gpm"), ("ipc-2021", "lavatory"), ("upc-2012", "shower")]
        {
            assert!(of(book, &[word]).assumed.is_empty(), "{book} {word}");
        }
    }

    #[test]
    fn a_bar_sink_is_from_memory_under_every_book() {
        // IRC Table P3004.1 and UPC Table 702.1, from memory: 1 DFU; the other fixtures of the UPC table were read
        for book in ["ipc-2021", "upc-2012"] {
            let load = of(book, &["bar_sink", "lavatory"]);
            let marks: Vec<_> = load.limits.iter().map(|l| (l.value.read(), l.mark)).collect();
            assert_eq!(
                marks,
                [("bar sink 1 DFU", Mark::Memory), ("lavatory 1 DFU", Mark::Published)],
                "{book}"
            );
        }
    }

    #[test]
    fn groups_of_the_irc_are_from_memory_and_say_so() {
        // IRC Table P3004.1, from memory: kitchen 2, laundry 3, half bath 4, full bath 5
        for (word, units) in [
            ("kitchen_group", 2.0),
            ("laundry_group", 3.0),
            ("half_bath_group", 4.0),
            ("full_bath_group", 5.0),
        ] {
            let load = of("ipc-2021", &[word]);
            assert_eq!(load.units, units, "{word}");
            assert_eq!(load.limits[0].mark, Mark::Memory, "{word}");
        }
    }

    #[test]
    fn a_group_the_book_does_not_list_counts_as_its_fixtures() {
        let load = of("upc-2012", &["bath_group_1.6"]);
        assert_eq!((load.units, load.closets), (3.0 + 1.0 + 2.0, 1));
        assert!(load.notes[0].contains("6 DFU"), "{:?}", load.notes);
        let shelf = catalog().shelf;
        let error = units(shelf.book("upc-2012").unwrap(), Fixture::parse("bath_group_1.6").unwrap());
        let error = error.unwrap_err().message().en();
        assert!(error.contains("Table 702.1") && error.contains("clothes_washer"), "{error}");
        assert!(of("ipc-2021", &["bath_group_1.6"]).notes.is_empty());
    }

    #[test]
    fn the_largest_asker_is_named() {
        let asker = |book, words: &[&str]| of(book, words).floor_of().map(|f| (f.fixture.word, f.inches));
        assert_eq!(asker("ipc-2021", &["kitchen_sink_dw", "clothes_washer"]), Some(("clothes_washer", 2.0)));
        assert_eq!(asker("upc-2012", &["lavatory", "kitchen_sink_dw"]), Some(("kitchen_sink_dw", 2.0)));
        assert_eq!(asker("ipc-2021", &["bath_group_1.6"]), Some(("wc_1.6", 3.0)));
    }

    #[test]
    fn nothing_and_too_many_are_refused() {
        assert!(Fixtures::new(Vec::new()).is_err());
        let lavatory = Fixture::parse("lavatory").unwrap();
        for count in [0, 51] {
            assert!(Fixtures::new([Alike { fixture: lavatory, count, new: false }].into()).is_err());
        }
    }
}
