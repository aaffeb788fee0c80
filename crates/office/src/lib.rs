//! The office desk: takes packets in once however often they come, keeps findings after demolition, compares. It certifies the
//! devices whose packets it takes, signs a receipt for each, and revokes what it no longer stands for.
//!
//! Who may come to it over the network: [`people`], [`tablets`]. What is coming and not whole yet: [`arriving`]. Where its
//! records lie: [`repo`].
//!
//! Knows neither the device's database nor how a bag is laid out; formulas live in `review`.

mod about;
pub mod arriving;
pub mod ask;
pub mod backup;
mod demolition;
mod desk;
mod error;
pub mod learning;
pub mod people;
mod pictures;
mod published;
mod register;
pub mod repo;
mod reviewed;
mod scanner;
pub mod tablets;
pub mod watched;

pub use about::About;
pub use demolition::Began;
pub use desk::{Desk, Receipt, ReceivedPacket, Uncertified};
pub use error::OfficeError;
pub use pictures::{MakesPictures, PictureSize};
pub use published::Standing;
pub use register::{Register, Revocable};
pub use reviewed::Reviewed;
pub use scanner::{NotScanned, Scanner};
