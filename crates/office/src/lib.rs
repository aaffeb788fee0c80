//! The office desk: takes packets in once however often they come, keeps findings after demolition, compares. It certifies the
//! devices whose packets it takes, signs a receipt for each, and revokes what it no longer stands for.
//!
//! Knows neither the device's database nor how a bag is laid out; formulas live in `review`.

mod about;
pub mod ask;
mod desk;
mod error;
mod migrate;
mod pictures;
mod register;

pub use about::About;
pub use desk::{Desk, Receipt, ReceivedPacket, Uncertified};
pub use error::OfficeError;
pub use pictures::{InThisProcess, MadePictures, MakesPictures, PictureSize};
pub use register::{Register, Revocable};
