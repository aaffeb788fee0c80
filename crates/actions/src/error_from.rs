//! Errors of the rooms as errors of actions, in messages a person reads.
//!
//! What a system, a database or a decoder of pictures says in its own words is kept inside the translated sentence: it
//! is what one sends to whoever can help.

use std::io;
use std::path::Path;

use survey::catalog::AnswerError;
use survey::units::QuantityError;
use words::{Arg, Message, msg};

use crate::{Error, Kind};

impl From<assessment::promise::PromiseError> for Error {
    fn from(e: assessment::promise::PromiseError) -> Self {
        use assessment::promise::PromiseError as P;
        let input = |message: Message| Self::new(Kind::Input, message);
        match e {
            P::Assess(e) => e.into(),
            P::Refused(all) => {
                let all = Arg::between("; ", all.into_iter().map(|one| refusal(one).into()));
                Self::new(Kind::Input, all).hint(msg!("error-promise-refused-hint"))
            }
            P::Nothing => input(msg!("error-promise-nothing")),
            P::Cap(given) => input(msg!("error-promise-cap", given = given)),
            P::Terms(given) => {
                let most = assessment::promise::MOST_LOADING.to_string();
                input(msg!("error-promise-terms", most = most, given = given.to_string()))
            }
        }
    }
}

/// Why a condition is not promised.
fn refusal(e: assessment::promise::Refusal) -> Message {
    use assessment::promise::Refusal as R;
    match e {
        R::NotInScope { key, near } => not_in_scope(key, near),
        R::Twice { key } => msg!("error-promise-twice", key = key),
        R::Gated { key, until } => msg!("error-promise-gated", key = key, until = until),
        R::InBasePrice { key } => msg!("error-promise-in-base", key = key),
        R::NoCost { key } => msg!("error-promise-no-cost", key = key),
    }
}

/// A condition that the house does not have in scope.
fn not_in_scope(key: String, near: Option<String>) -> Message {
    match near {
        Some(near) => msg!("error-not-in-scope-near", key = key, near = near),
        None => msg!("error-not-in-scope", key = key),
    }
}

impl From<assessment::suppose::SupposeError> for Error {
    fn from(e: assessment::suppose::SupposeError) -> Self {
        use assessment::suppose::SupposeError as S;
        let message = match e {
            S::Assess(e) => return e.into(),
            S::NotInScope { key, near } => not_in_scope(key, near),
            S::InBasePrice(key) => msg!("error-suppose-in-base", key = key),
            S::NoPair { check, key } => msg!("error-check-silent", check = check, condition = key),
            S::Made { check, key } => msg!("error-suppose-made", check = check, key = key),
        };
        Self::new(Kind::Input, message)
    }
}

impl From<store::StoreError> for Error {
    fn from(e: store::StoreError) -> Self {
        use store::ErrorKind as K;
        let kind = match e.kind() {
            K::Missing => Kind::Missing,
            K::WalkEnded => return Self::new(Kind::Conflict, e.what().clone()).hint(e.mend().clone()),
            K::Conflict => Kind::Conflict,
            K::Damaged | K::Newer => Kind::Damaged,
            K::Full | K::Io => Kind::Internal,
        };
        let place = e.place().display().to_string();
        Self::new(kind, msg!("error-store", said = e.what(), place = place)).hint(e.mend().clone())
    }
}

impl From<assessment::AssessError> for Error {
    fn from(e: assessment::AssessError) -> Self {
        use assessment::AssessError as A;
        match e {
            A::Impossible { items } => {
                Self::new(Kind::Conflict, msg!("error-assess-impossible", items = items))
            }
            A::TooLarge(said) => Self::new(Kind::Internal, msg!("error-assess-too-large", said = said)),
            A::Catalog(said) => Self::new(Kind::Input, msg!("error-assess-catalog", said = said)),
        }
    }
}

impl From<assessment::forecast::ForecastError> for Error {
    fn from(e: assessment::forecast::ForecastError) -> Self {
        Self::new(Kind::Damaged, forecast(&e))
    }
}

/// What is wrong with the bytes of a frozen assessment.
pub fn forecast(e: &assessment::forecast::ForecastError) -> Message {
    use assessment::forecast::ForecastError as F;
    let known = assessment::forecast::VERSION.to_string();
    match e {
        F::Unreadable(said) => msg!("error-forecast-unreadable", said = said),
        F::Older { found } => msg!("error-forecast-older", found = found.to_string(), known = known),
        F::Newer { found } => msg!("error-forecast-newer", found = found.to_string(), known = known),
    }
}

impl From<photo::PhotoError> for Error {
    fn from(e: photo::PhotoError) -> Self {
        Self::new(Kind::Input, e.said())
    }
}

impl From<packet::PacketError> for Error {
    fn from(e: packet::PacketError) -> Self {
        use packet::PacketError as P;
        let kind = match &e {
            P::Exists { .. } => Kind::Conflict,
            P::Contents { .. } => Kind::Input,
            P::Io { .. } | P::Pages { .. } => Kind::Internal,
            _ => Kind::Damaged,
        };
        Self::new(kind, msg!("error-packet", said = e.to_string())).hint(packet_hint(&e))
    }
}

/// How to mend a packet.
pub fn packet_hint(e: &packet::PacketError) -> Message {
    use packet::PacketError as P;
    match e {
        P::Io { .. } => msg!("error-packet-io-mend"),
        P::NotWhole { .. }
        | P::Header { .. }
        | P::Altered { .. }
        | P::Missing { .. }
        | P::Extra { .. }
        | P::Text { .. } => msg!("error-packet-altered-mend"),
        P::Seal { .. } => msg!("error-packet-seal-mend"),
        P::Name { .. } => msg!("error-packet-name-mend"),
        P::Newer { .. } => msg!("error-packet-newer-mend"),
        P::TooLarge { .. } => msg!("error-packet-too-large-mend"),
        P::Exists { .. } => msg!("error-packet-exists-mend"),
        P::Contents { .. } => msg!("error-packet-contents-mend"),
        P::Photo { .. } => msg!("error-packet-photo-mend"),
        P::Pages { .. } => msg!("error-packet-pages-mend"),
    }
}

/// A word that may be meant, to follow a sentence; nothing where there is none.
fn meant(mend: Option<String>) -> Arg {
    match mend {
        Some(word) => Arg::from(msg!("error-did-you-mean", word = word)),
        None => Arg::from(""),
    }
}

/// What does not fit about an answer.
pub(crate) fn answer(e: AnswerError) -> Message {
    use AnswerError as A;
    match e {
        A::UnknownItem { item, mend } => msg!("error-answer-unknown-item", item = item, meant = meant(mend)),
        A::UnknownOption { item, given, mend, known } => {
            msg!(
                "error-answer-unknown-option",
                item = item,
                given = given,
                meant = meant(mend),
                known = known
            )
        }
        A::WrongKind { item, wanted } => msg!("error-answer-wrong-kind", item = item, wanted = wanted),
        A::WrongUnit { item, given, wanted } => {
            msg!("error-answer-wrong-unit", item = item, given = given, wanted = wanted)
        }
        A::OutOfRange { item, given, min, max } => {
            msg!("error-answer-out-of-range", item = item, given = given, min = min, max = max)
        }
        A::StandsAlone { item, option } => {
            msg!("error-answer-stands-alone", item = item, option = option)
        }
        A::Empty { item } => msg!("error-answer-empty", item = item),
        A::UnknownReference { kind: "check", given, mend } => {
            msg!("error-answer-unknown-check", given = given, meant = meant(mend))
        }
        A::UnknownReference { given, mend, .. } => {
            msg!("error-answer-unknown-condition", given = given, meant = meant(mend))
        }
    }
}

/// What is wrong with a number.
pub(crate) fn quantity(e: QuantityError) -> Message {
    match e {
        QuantityError::NotANumber { text, unit } if unit.is_empty() => msg!("error-number-none", text = text),
        QuantityError::NotANumber { text, unit } => {
            msg!("error-number-none-unit", text = text, unit = unit)
        }
        QuantityError::WrongUnit { text, found, wanted } if wanted == "a plain number" => {
            msg!("error-number-no-unit", text = text, found = found)
        }
        QuantityError::WrongUnit { text, found, wanted } => {
            msg!("error-number-unit", text = text, found = found, wanted = wanted)
        }
        QuantityError::TooFine { text } => msg!("error-number-fine", text = text),
    }
}

/// A file that could not be read or written.
pub fn file_trouble(path: &Path, e: &io::Error) -> Error {
    let kind = match e.kind() {
        io::ErrorKind::NotFound => Kind::Missing,
        // No text where text was to be read.
        io::ErrorKind::InvalidData => Kind::Input,
        _ => Kind::Internal,
    };
    let path = path.display().to_string();
    match e.kind() {
        io::ErrorKind::NotFound => {
            let message = msg!("error-file-missing", path = path, said = e.to_string());
            Error::new(kind, message).hint(msg!("error-path-hint"))
        }
        io::ErrorKind::StorageFull => {
            let message = msg!("error-file-full", path = path, said = e.to_string());
            Error::new(kind, message).hint(msg!("error-room-hint"))
        }
        _ => Error::new(kind, msg!("error-file", path = path, said = e.to_string())),
    }
}
