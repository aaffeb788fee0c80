//! The append-only observation log: what an entry is, its frozen byte form, and the chain of each device's stream.

mod chain;
mod demolition;
mod entry;
mod mark;
mod value;

pub use chain::{ChainError, Heads, check_chain};
pub use demolition::{Demolition, DemolitionWithdrawn};
pub use entry::{
    Answer, Body, Entry, EntryError, Note, Opened, PhotoTaken, PlaceNamed, Sealed, TakenBack, WalkOrder,
};
pub use mark::{MarkGone, PhotoMark, Shape, Spot};
pub use value::{CheckOutcome, CheckResult, Value};
