//! The sealed packet of one house: a BagIt 1.0 bag (RFC 8493) in one canonical zip file, and its pages.
//!
//! A packet holds the log entry by entry, the frozen assessment, the network it was computed with, the pages, and
//! every photograph **as the camera wrote it** (the digests in the log are those of the originals, and the packet
//! goes to the firm's own office; a copy for anybody else must first have its location taken out).
//!
//! [`seal`](fn@seal) writes one as a stream: memory does not grow with the photographs. [`open`](fn@open) refuses a packet in which a
//! single bit differs from what sealing writes for that content, naming file and reason: the zip is compared
//! header byte by header byte, the rest by CRC-32, SHA-256 and SHA-512 lists, the chain of the log, and the signature
//! of the device's key over the last of the lists.
//!
//! What that shows and what it does not: a packet that opens is whole and unaltered since the key it names sealed it
//! ([`Packet::sealed_by`]). Whose key that is, and whether it counted then, [`keys::judge`] says, from the firm's public
//! keys, the office's receipt and its revocation list. `docs/packet.md` describes every file, and how to verify a
//! packet without this program.

mod ahead;
mod bag;
mod error;
mod gather;
mod household;
mod info;
pub mod limits;
mod names;
mod open;
mod pages;
mod photos;
mod schemas;
mod seal;
mod stream;
mod tables;
mod zip;

/// Laws for any bytes at all, shared by the tests and the fuzz targets.
#[cfg(any(test, feature = "bent"))]
#[allow(missing_docs, reason = "for fuzzing only")]
pub mod bent;
#[cfg(any(test, feature = "bent"))]
#[cfg_attr(not(test), allow(dead_code, reason = "the rest is for the tests"))]
mod sample;

pub use ahead::Originals;
pub use error::PacketError;
pub use household::{HouseholdSignature, Point};
pub use info::{Info, PhotoInfo};
pub use open::{Packet, PayloadReader, open};
pub use pages::{
    Amount, AnswerRow, Book, CalculationBlock, ChangeOrderPages, ClueRow, ConditionRow, Drawn,
    HouseholdPages, LimitRow, LookRow, MoneyBlock, OpeningRow, OrderBlock, PagesData, PhotoBlock,
    PromiseBlock, Readers, ReadingRow, Station, Style, TodoRow, TradePages, TradeRow, UnknownRow, WeightRow,
};
#[cfg(feature = "pdf")]
pub use pages::{ShownPages, book, shown};
pub use photos::{PhotoSource, PhotoSums};
pub use seal::{Contents, PageFile, Sealed, Sealer, Sealing, seal};
pub use tables::{Cell, Table, Tables};

/// Routed Gothic, the face in which drawings and marks are lettered, as TrueType (SIL Open Font License 1.1).
pub const LETTERING: &[u8] = include_bytes!("../fonts/RoutedGothic-Regular.ttf");
