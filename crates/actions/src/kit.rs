//! What an action needs of the world besides the store: the time, some random bits, and who is acting.

use survey::{DeviceId, EntryId, Stamp, SurveyId};

/// The time now.
pub trait Clock {
    /// Now, with the offset of the place.
    fn now(&self) -> Stamp;
}

/// Random bits for ids.
pub trait Random {
    /// Ten fresh random bytes.
    fn ten(&mut self) -> [u8; 10];
    /// Thirty-two fresh random bytes, for a secret key.
    fn thirty_two(&mut self) -> [u8; 32] {
        let mut bytes = [0; 32];
        for part in bytes.chunks_mut(10) {
            let ten = self.ten();
            part.copy_from_slice(ten.get(..part.len()).unwrap_or_default());
        }
        bytes
    }
}

/// Clock, random bits and the person.
pub struct Kit<'a> {
    /// The clock.
    pub clock: &'a dyn Clock,
    /// The random bits.
    pub random: &'a mut dyn Random,
    /// The person who acts.
    pub by: String,
}

impl Kit<'_> {
    /// Now.
    pub fn now(&self) -> Stamp {
        self.clock.now()
    }
    fn parts(&mut self) -> (u64, [u8; 10]) {
        (u64::try_from(self.clock.now().unix_ms()).unwrap_or(0), self.random.ten())
    }
    /// A fresh entry id.
    pub fn entry_id(&mut self) -> EntryId {
        let (ms, ten) = self.parts();
        EntryId::new(ms, &ten)
    }
    /// A fresh survey id.
    pub fn survey_id(&mut self) -> SurveyId {
        let (ms, ten) = self.parts();
        SurveyId::new(ms, &ten)
    }
    /// A fresh device id.
    pub fn device_id(&mut self) -> DeviceId {
        let (ms, ten) = self.parts();
        DeviceId::new(ms, &ten)
    }
}
