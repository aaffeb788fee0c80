//! When the demolition of a house began, as the office knows it.
//!
//! By the office's own count, which packets and findings share: with the first packet whose log declares it, or with the
//! first finding, whichever came earlier. A finding needs no declaration: whoever saw behind a wall opened one, and nobody
//! is kept from entering it because a tablet has not declared anything.

use review::Finding;
use survey::{Digest, SurveyId};

use crate::{Desk, OfficeError};

/// What says that demolition began.
#[derive(Clone, Debug, PartialEq)]
pub enum Began {
    /// The log of this packet.
    Declared(Digest),
    /// The first finding, before any packet that declares it.
    Found(Box<Finding>),
}

impl Desk {
    /// What says that the demolition of a house began; none while nothing does.
    ///
    /// # Errors
    /// A database that cannot be read.
    pub fn demolition(&self, survey: SurveyId) -> Result<Option<Began>, OfficeError> {
        let Some(began) = self.repo.demolition_began(survey)? else { return Ok(None) };
        let packets = self.repo.packets_of(survey)?;
        if let Some(packet) = packets.iter().find(|packet| packet.position == began) {
            return Ok(Some(Began::Declared(packet.digest)));
        }
        let first = self.repo.findings(survey)?.into_iter().next();
        Ok(first.map(|entered| Began::Found(Box::new(entered.finding))))
    }
}
