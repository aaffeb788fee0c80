//! The houses of the office behind the door: what is asked of them, what comes in, what is shown.

use std::path::Path;

use actions::{Error, Kind, Stamp};
use office::Desk;
use office::people::{Role, Who};
use serde_json::Value;
use server::{FindingPhoto, Wanted};
use words::{Words, msg};

use crate::fail;

/// Who asks, when, in which language.
#[allow(
    dead_code,
    reason = "whoever answers about houses writes a name down and says things; taking packets in does neither"
)]
pub struct Asked<'a> {
    pub who: &'a Who,
    pub now: Stamp,
    pub words: &'static Words,
}

/// A packet that was taken in.
pub struct Taken {
    /// What the screens are told.
    pub value: Value,
    /// What the audit log says of it.
    pub about: String,
    /// False when it was here already.
    pub first_time: bool,
}

/// What the door asks of houses.
pub trait Houses: Send {
    /// The least role of a command; none where there is no such command.
    fn least(&self, name: &str) -> Option<Role>;
    /// Answers it.
    fn ask(&mut self, asked: &Asked<'_>, name: &str, args: Value) -> Result<Value, Error>;
    /// Takes a packet in.
    fn receive(&mut self, asked: &Asked<'_>, file: &Path) -> Result<Taken, Error>;
    /// Takes in the photograph of a finding.
    fn keep_photo(&mut self, asked: &Asked<'_>, photo: &FindingPhoto<'_>) -> Result<Value, Error>;
    /// A picture.
    fn picture(&mut self, wanted: &Wanted<'_>) -> Result<Vec<u8>, Error>;
    /// A page of a packet.
    fn page(&mut self, packet: &str, name: &str) -> Result<Vec<u8>, Error>;
}

/// Houses at a desk: packets are taken in.
pub struct AtDesk(pub Desk);

fn not_here() -> Error {
    Error::new(Kind::Missing, msg!("office-not-here"))
}

impl Houses for AtDesk {
    fn least(&self, _: &str) -> Option<Role> {
        None
    }
    fn ask(&mut self, _: &Asked<'_>, _: &str, _: Value) -> Result<Value, Error> {
        Err(not_here())
    }
    fn receive(&mut self, asked: &Asked<'_>, file: &Path) -> Result<Taken, Error> {
        let receipt = self.0.receive(file, asked.now).map_err(fail::office)?;
        let about = format!("{} {} {}", receipt.label, receipt.number, receipt.digest.short());
        let first_time = receipt.first_time;
        let value = serde_json::to_value(receipt)
            .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())))?;
        Ok(Taken { value, about, first_time })
    }
    fn keep_photo(&mut self, _: &Asked<'_>, photo: &FindingPhoto<'_>) -> Result<Value, Error> {
        photo::intake(photo.bytes, photo.name)?;
        let digest = self.0.keep_photo(photo.bytes).map_err(fail::office)?;
        Ok(serde_json::json!({ "digest": digest }))
    }
    fn picture(&mut self, _: &Wanted<'_>) -> Result<Vec<u8>, Error> {
        Err(not_here())
    }
    fn page(&mut self, _: &str, _: &str) -> Result<Vec<u8>, Error> {
        Err(not_here())
    }
}
