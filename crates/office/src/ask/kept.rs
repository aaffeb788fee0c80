//! The last packets that were opened. Opening one compares every bit of it; a finding entered must not wait for that.

use std::collections::VecDeque;
use std::sync::Arc;

use assessment::Forecast;
use packet::HouseholdSignature;
use survey::Digest;
use survey::model::{Picture, fold};

use crate::learning::Work;
use crate::{About, Desk, OfficeError};

/// How many are kept: a few houses are worked on side by side.
const MOST: usize = 8;

/// A packet that was opened, without its photographs.
pub(super) struct Opened {
    /// Its digest.
    pub(super) packet: Digest,
    /// What it is.
    pub(super) about: About,
    /// What its log folds to.
    pub(super) picture: Picture,
    /// Its forecast.
    pub(super) forecast: Forecast,
    /// The household's signature, if it signed.
    pub(super) signature: Option<HouseholdSignature>,
}

/// Packets that were opened before, the last one first. A received packet never changes, so none is ever stale.
#[derive(Default)]
pub struct Kept {
    opened: VecDeque<Arc<Opened>>,
    /// What is learned beside everything else.
    pub(super) work: Work,
}

impl Kept {
    /// A packet of the desk.
    pub(super) fn open(&mut self, desk: &Desk, packet: Digest) -> Result<Arc<Opened>, OfficeError> {
        let at = self.opened.iter().position(|one| one.packet == packet);
        let opened = match at.and_then(|at| self.opened.remove(at)) {
            Some(there) => there,
            None => {
                let open = desk.open_packet(packet)?;
                Arc::new(Opened {
                    packet,
                    about: About::of(&open)?,
                    picture: fold(open.entries()),
                    forecast: Forecast::from_bytes(open.assessment())?,
                    signature: open.household().cloned(),
                })
            }
        };
        self.opened.push_front(Arc::clone(&opened));
        self.opened.truncate(MOST);
        Ok(opened)
    }
}
