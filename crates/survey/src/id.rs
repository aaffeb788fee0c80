//! Ids: UUIDs in newtypes, so that a survey's id cannot be passed for an entry's.
//!
//! New ones are time-ordered (UUID version 7, RFC 9562 section 5.7); time and random bits are handed in.

use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use uuid::Uuid;

/// A text that is not a UUID in the usual 8-4-4-4-12 form.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is not an id; ids look like 0190f1c2-7b3a-7c11-8a55-2f1f3c9d0e42")]
pub struct IdError(pub String);

macro_rules! id {
    ($name:ident, $what:literal) => {
        #[doc = $what]
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(Uuid);

        impl $name {
            /// A time-ordered id from Unix milliseconds and ten random bytes, both handed in.
            pub fn new(unix_ms: u64, random: &[u8; 10]) -> Self {
                Self(uuid::Builder::from_unix_timestamp_millis(unix_ms, random).into_uuid())
            }
            /// The id with exactly these 16 bytes.
            pub fn from_bytes(bytes: [u8; 16]) -> Self {
                Self(Uuid::from_bytes(bytes))
            }
            /// The 16 bytes.
            pub fn as_bytes(&self) -> &[u8; 16] {
                self.0.as_bytes()
            }
        }
        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}", self.0.hyphenated())
            }
        }
        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, "{}", self.0.hyphenated())
            }
        }
        impl FromStr for $name {
            type Err = IdError;
            fn from_str(text: &str) -> Result<Self, IdError> {
                let id = Uuid::try_parse(text).ok().map(Self).filter(|id| id.to_string() == text);
                id.ok_or_else(|| IdError(text.chars().take(60).collect()))
            }
        }
        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
                s.collect_str(self)
            }
        }
        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
                String::deserialize(d)?.parse().map_err(serde::de::Error::custom)
            }
        }
    };
}

id!(SurveyId, "One house, one survey.");
id!(EntryId, "One entry of the observation log.");
id!(DeviceId, "One tablet, phone or desk that records.");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn later_ids_sort_after_earlier_ones() {
        assert!(EntryId::new(1_000, &[255; 10]) < EntryId::new(1_001, &[0; 10]));
    }

    #[test]
    fn text_round_trips_and_other_spellings_are_refused() {
        let id = SurveyId::new(1_760_000_000_000, &[7; 10]);
        assert_eq!(id.to_string().parse::<SurveyId>().unwrap(), id);
        assert!(id.to_string().to_uppercase().parse::<SurveyId>().is_err());
        assert!("house".parse::<SurveyId>().is_err());
    }
}
