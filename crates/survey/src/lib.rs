//! What a survey is: units, ids, the append-only observation log, the picture folded from it, the catalog
//! of concealed conditions and the order of the walk.
//!
//! Pure: no files, SQL, clock, randomness or packets; probabilities of conditions live in `assessment`.

pub mod catalog;
pub mod digest;
pub mod guide;
pub mod id;
mod key;
pub mod log;
pub mod model;
pub mod said;
pub mod stamp;
pub mod units;

pub use digest::Digest;
pub use id::{DeviceId, EntryId, SurveyId};
pub use key::Key;
pub use said::{Message, Phrase, Said};
pub use stamp::Stamp;
