//! What a drain must carry and be, and which sizes do. Each part of a drainage system (branch, stack, building drain)
//! states its demand; sizes are then tried from the smallest up.

use alloc::vec::Vec;

use survey::catalog::{Book, Table};
use survey::{Phrase, Said, say};

use super::units::Load;
use crate::cite;
use crate::error::TradeError;
use crate::measure::FixtureUnits;
use crate::number::{show_number, size_inches, size_name};
use crate::sheet::Limit;

/// Keeps a load exactly at a table value inside it, whatever the last bit of a sum. DFU or inches.
pub(super) const HAIR: f64 = 1e-9;

/// A size of a table.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Size {
    /// Its name, such as "1-1/2".
    pub name: &'static str,
    /// Nominal, inches.
    pub inches: f64,
}

impl Size {
    /// A size by name; None if the trade has no such size.
    pub fn named(name: &str) -> Option<Self> {
        let inches = size_inches(name)?;
        Some(Self { name: size_name(inches)?, inches })
    }
}

/// One column of a table that a load is held against.
#[derive(Clone, Debug)]
pub struct Column<'a> {
    /// The column.
    pub table: &'a Table,
    /// What enters it, in words.
    pub what: Phrase,
    /// Units that enter it.
    pub units: f64,
    /// Part of the table value that holds, 1 unless the slope is gentle.
    pub part: f64,
}

impl Column<'_> {
    /// Units a size carries; None if the column does not list it.
    pub fn carries(&self, size: &str) -> Option<f64> {
        self.table.row(size).map(|units| units * self.part)
    }
}

/// Why a size does not do.
#[derive(Clone, PartialEq, Debug)]
pub enum Fault {
    /// The column does not list the size.
    NotListed {
        /// What enters the column.
        what: Phrase,
    },
    /// Carries less than the load.
    Load {
        /// What enters the column.
        what: Phrase,
        /// Units that enter.
        units: f64,
        /// Units it carries.
        carries: f64,
    },
    /// A fixture asks for more.
    Floor {
        /// Which.
        fixture: Phrase,
        /// At least this, inches.
        inches: f64,
        /// Why.
        why: Phrase,
    },
    /// Too many water closets on this size.
    Closets {
        /// How many there are.
        count: u32,
        /// At most.
        most: f64,
    },
}

impl Fault {
    /// The fault in a sentence.
    pub fn words(&self) -> Said {
        match self {
            Self::NotListed { what } => say!("trade-table-names-no-such", what = *what),
            Self::Load { what, units, carries } => {
                say!(
                    "trade-dfu-size-carries",
                    what = *what,
                    units = show_number(*units),
                    carries = show_number(*carries)
                )
            }
            Self::Floor { fixture, inches, why } => {
                let size = size_name(*inches).unwrap_or_default();
                say!("trade-asks", fixture = *fixture, size = size, why = *why)
            }
            Self::Closets { count, most } => {
                say!("trade-water-closets-lie-table", count = *count, most = show_number(*most))
            }
        }
    }
}

/// What a pipe is asked to do.
#[derive(Clone, Debug)]
pub struct Demand<'a> {
    /// Columns, the first naming the sizes there are.
    pub columns: Vec<Column<'a>>,
    /// The load, for what its fixtures ask.
    pub load: &'a Load,
    /// How many water closets a size takes, where the book says so.
    pub closets: Option<&'a Table>,
    /// What the tables were, to show.
    pub limits: Vec<Limit>,
}

impl<'a> Demand<'a> {
    /// A demand on one column of a book.
    ///
    /// # Errors
    /// A book without the table.
    pub fn on(
        book: &'a Book,
        id: &'static str,
        what: Phrase,
        load: &'a Load,
        closets: &str,
    ) -> Result<Self, TradeError> {
        let table = cite::table(book, id)?;
        let mut demand = Self { columns: Vec::new(), load, closets: book.table(closets), limits: Vec::new() };
        demand.add(book, table, what, load.units);
        if let (Some(table), true) = (demand.closets, load.closets > 0) {
            let values: Vec<Said> = table
                .rows
                .iter()
                .map(|(size, most)| say!("trade-in-2", size = size, most = show_number(*most)))
                .collect();
            demand.limits.push(Limit::of(book, table, values));
        }
        Ok(demand)
    }
    /// Adds a column.
    pub fn add(&mut self, book: &Book, table: &'a Table, what: Phrase, units: f64) {
        let values: Vec<Said> = table
            .rows
            .iter()
            .map(|(size, most)| say!("trade-in-2", size = size, most = show_number(*most)))
            .collect();
        let values = say!("trade-dfu", values = values);
        self.limits.push(Limit::of(book, table, values));
        self.columns.push(Column { table, what, units, part: 1.0 });
    }
    /// Why a size does not do; empty if it does.
    pub fn faults(&self, size: Size) -> Vec<Fault> {
        let mut out = Vec::new();
        for column in &self.columns {
            match column.carries(size.name) {
                None => out.push(Fault::NotListed { what: column.what }),
                Some(carries) if column.units > carries + HAIR => {
                    out.push(Fault::Load { what: column.what, units: column.units, carries });
                }
                Some(_) => {}
            }
        }
        // Of several fixtures that ask for more, the one that asks for most speaks for all.
        if let Some(floor) = self.load.floor_of()
            && floor.inches > size.inches + HAIR
        {
            out.push(Fault::Floor { fixture: floor.fixture.name, inches: floor.inches, why: floor.why });
        }
        if let Some(most) = self.closets.and_then(|t| t.row(size.name))
            && f64::from(self.load.closets) > most + HAIR
        {
            out.push(Fault::Closets { count: self.load.closets, most });
        }
        out
    }
    /// Whether a size that does is exactly full in some column.
    pub fn is_full(&self, size: Size) -> bool {
        let full = |c: &Column| c.carries(size.name).is_some_and(|most| libm::fabs(most - c.units) <= HAIR);
        self.columns.iter().any(full)
    }
    /// The sizes of the first column, from the smallest up.
    pub fn sizes(&self) -> impl Iterator<Item = Size> {
        let rows = self.columns.first().map(|c| c.table.rows.as_slice()).unwrap_or_default();
        rows.iter().filter_map(|(name, _)| Size::named(name))
    }
    /// The smallest size without a fault; None beyond the table.
    pub fn smallest(&self) -> Option<Size> {
        self.sizes().find(|size| self.faults(*size).is_empty())
    }
    /// As [`Self::smallest`].
    ///
    /// # Errors
    /// No size of the table carries the load.
    pub fn smallest_or_error(&self, what: Phrase) -> Result<Size, TradeError> {
        let beyond = || match self.columns.first() {
            Some(column) => beyond(column.table, column.units, what),
            None => TradeError::NotFinite { what },
        };
        self.smallest().ok_or_else(beyond)
    }
}

/// The smallest size of a column that carries a load, whatever the fixtures.
///
/// # Errors
/// No size does.
pub fn by_units(table: &Table, units: FixtureUnits, what: Phrase) -> Result<Size, TradeError> {
    let found = cite::first_carrying(table, units.get() - HAIR).and_then(|(name, _)| Size::named(name));
    found.ok_or_else(|| beyond(table, units.get(), what))
}

fn beyond(table: &Table, value: f64, what: Phrase) -> TradeError {
    let high = table.rows.iter().map(|(_, most)| *most).fold(0.0, f64::max);
    TradeError::OutOfRange { what, value, low: 0.0, high, unit: "DFU" }
}
