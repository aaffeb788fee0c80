//! The device's store: one SQLite file with the observation log and the frozen forecasts, and one folder with
//! the photographs as they came, filed by digest.
//!
//! The log only grows; the schema itself refuses anything else. What `append` has returned from is on the disk:
//! the write-ahead log is fsynced before. Readable tables are made from the log and can be thrown away.
//!
//! Limits: forecasts are bytes with a digest, their meaning is not known here; wall time and the id of a new
//! device are handed in. One store serves several processes of one device; it is not for network file systems,
//! whose locks and fsync cannot be trusted (SQLite documentation, "Write-Ahead Logging", section 1).

mod backup;
mod blobs;
mod cards;
mod check;
mod error;
mod files;
mod forecast;
mod left;
mod line;
mod log;
mod migrate;
mod open;
mod packets;
mod previews;
mod projection;
mod read;
mod rescue;

pub use blobs::Blobs;
pub use cards::{Card, CardRow};
pub use check::CheckReport;
pub use error::{ErrorKind, StoreError};
pub use forecast::Forecast;
pub use line::{LinkRow, SendingRow, SendingStands};
pub use log::{Imported, Next};
pub use open::{DATABASE, Store};
pub use packets::{KeptPacket, PACKETS};
pub use previews::{Made, Preview};
pub use read::{LogMark, SurveyRow};
pub use rescue::{RescueReport, rescue, set_aside};
