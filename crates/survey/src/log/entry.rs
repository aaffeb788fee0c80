//! One entry of the log and its frozen byte form.
//!
//! The bytes are one line of JSON with the fields in the order declared here and no spaces. They are hashed and
//! sealed: changing a name, an order or a number format needs a new `v`. A test holds the bytes of version 1.
//! An entry carries the version its kind came with, so that old logs keep their bytes and an older program says of a kind
//! it does not know that it wants a newer one.

use serde::{Deserialize, Serialize};

use super::demolition::{Demolition, DemolitionWithdrawn};
use super::mark::{MarkGone, PhotoMark};
use super::value::Value;
use crate::units::{Length, Money};
use crate::{DeviceId, Digest, EntryId, Phrase, Said, Stamp, SurveyId, say};

/// One entry: who recorded what, when, on which device. A stream is one device's entries of one survey.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Version of its form: the one its kind came with ([`Body::form`]).
    pub v: u32,
    /// Id of the entry.
    pub id: EntryId,
    /// The house.
    pub survey: SurveyId,
    /// The device that recorded it.
    pub device: DeviceId,
    /// Position in this device's stream of this survey, from 1.
    pub seq: u64,
    /// Lamport number: one more than the highest this device had seen in this survey.
    pub lamport: u64,
    /// Wall time, for people.
    pub at: Stamp,
    /// The person.
    pub by: String,
    /// Hash of the stream's previous entry; none for the first.
    pub prev: Option<Digest>,
    /// What was recorded.
    pub body: Body,
}

/// What an entry records.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Body {
    /// The survey was opened.
    Opened(Opened),
    /// An item was answered, or an earlier answer corrected.
    Answer(Answer),
    /// A photograph was taken in.
    Photo(PhotoTaken),
    /// A note in words.
    Note(Note),
    /// The house was sealed into a packet.
    Sealed(Sealed),
    /// One more place of its kind was added, a place was named, or one was taken out.
    Place(PlaceNamed),
    /// A mark was made on a photograph.
    Mark(PhotoMark),
    /// A mark on a photograph was taken back.
    MarkGone(MarkGone),
    /// A note or a photograph was taken back.
    TakenBack(TakenBack),
    /// The stops of the walk were put in another order.
    Order(WalkOrder),
    /// Demolition was declared, which ends the walk.
    Demolition(Demolition),
    /// A declaration of demolition was withdrawn.
    DemolitionWithdrawn(DemolitionWithdrawn),
}

impl Body {
    /// The version of the form this kind came with, which its entries carry.
    pub const fn form(&self) -> u32 {
        match self {
            Self::Opened(_)
            | Self::Answer(_)
            | Self::Photo(_)
            | Self::Note(_)
            | Self::Sealed(_)
            | Self::Place(_)
            | Self::Mark(_)
            | Self::MarkGone(_)
            | Self::TakenBack(_)
            | Self::Order(_) => 1,
            Self::Demolition(_) | Self::DemolitionWithdrawn(_) => 2,
        }
    }
    /// True for what a walk records or takes back: nothing of it counts once demolition was declared. The opening is none
    /// of it, because every log begins with it.
    pub const fn is_of_walk(&self) -> bool {
        match self {
            Self::Answer(_)
            | Self::Photo(_)
            | Self::Note(_)
            | Self::Place(_)
            | Self::Mark(_)
            | Self::MarkGone(_)
            | Self::TakenBack(_)
            | Self::Order(_) => true,
            Self::Opened(_) | Self::Sealed(_) | Self::Demolition(_) | Self::DemolitionWithdrawn(_) => false,
        }
    }
}

/// Opening of a survey.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Opened {
    /// Name of the house for people.
    pub label: String,
    /// Contract price the unknown is compared with, in cents.
    pub contract: Option<Money>,
    /// Days the contract allows.
    pub contract_days: Option<u32>,
    /// Digest of the catalog the walk began with.
    pub catalog: Digest,
}

/// An answer to one item of the walk.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Answer {
    /// Place: a station of the walk, or one of several places of a station.
    pub place: String,
    /// Item id of the catalog.
    pub item: String,
    /// The value.
    pub value: Value,
    /// Tolerance of a length, read as ± two standard deviations.
    pub tolerance: Option<Length>,
    /// The answer as it was entered.
    pub entered: Option<String>,
    /// Digests of photographs that show it.
    pub photos: Vec<Digest>,
    /// Entries this one corrects.
    pub corrects: Vec<EntryId>,
    /// Why it was corrected, or a remark.
    pub reason: Option<String>,
}

/// A photograph taken in: the original's digest and what its file said.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PhotoTaken {
    /// Place (as in an answer), if known.
    pub place: Option<String>,
    /// Item it belongs to, if any.
    pub item: Option<String>,
    /// SHA-256 of the original bytes.
    pub digest: Digest,
    /// File name it came with.
    pub name: String,
    /// Size of the original in bytes.
    pub bytes: u64,
    /// Width as shown upright, in pixels.
    pub width: u32,
    /// Height as shown upright, in pixels.
    pub height: u32,
    /// EXIF orientation 1 to 8.
    pub orientation: u8,
    /// Camera's time with offset, when the file says both.
    pub taken: Option<Stamp>,
    /// Camera's local time as written, when the file gives no offset.
    pub taken_local: Option<String>,
    /// What could not be read, in words.
    pub complaints: Vec<String>,
    /// Words of the person.
    pub caption: Option<String>,
}

/// A remark in words.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Note {
    /// Place (as in an answer), if it belongs to one.
    pub place: Option<String>,
    /// Item it belongs to, if any.
    pub item: Option<String>,
    /// The words.
    pub text: String,
}

/// A note or a photograph was taken back. It stays in the log, and the original of the photograph on the device; it is
/// shown, counted and sealed no more. Taking the same photograph in again is a new entry.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TakenBack {
    /// The entry that is taken back.
    pub entry: EntryId,
    /// Why, or a remark.
    pub reason: Option<String>,
}

/// The house was sealed: which assessment went along.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sealed {
    /// Digest of the frozen assessment in the packet.
    pub assessment: Digest,
}

/// A place of which a house can have several: one more soffit, another wall to open. The first place of a station has
/// the station's id and is always there; an entry about it gives it a name. A later entry about the same place stands
/// for it from then on, and nothing that was recorded there is lost.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PlaceNamed {
    /// Station of the walk it is a place of.
    pub station: String,
    /// Id of the place.
    pub place: String,
    /// Its name for people; empty for a first place whose name was taken back.
    pub label: String,
    /// False when it was taken out: added by mistake, or no longer part of the job.
    pub there: bool,
    /// Why, or a remark.
    pub reason: Option<String>,
}

/// The order in which the estimator walks the house. The last entry in log order stands; a stop that it does not name
/// (added since) comes after the one it follows in the catalog.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct WalkOrder {
    /// Every stop by the id of its place, in the order walked; empty: the catalog's order.
    pub places: Vec<String>,
    /// The place that was moved; none when the catalog's order was taken up again.
    pub moved: Option<String>,
    /// Why, or a remark.
    pub reason: Option<String>,
}

/// A line that is not an entry of this version.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum EntryError {
    /// Not JSON of the right shape.
    #[error("this line of the log cannot be read: {0}")]
    Unreadable(String),
    /// A version this program does not know.
    #[error("this line of the log has form {found}; this program reads form {known}: use a newer program")]
    Newer {
        /// Version found.
        found: u64,
        /// Newest version known.
        known: u32,
    },
    /// Readable, but not byte for byte what this program would write.
    #[error("this line of the log is readable but not in its one canonical form, so its hash means nothing")]
    NotCanonical,
}

impl EntryError {
    /// The same as a message.
    pub fn said(&self) -> Said {
        match self {
            Self::Unreadable(said) => say!("log-line-unread", said = said),
            Self::Newer { found, known } => {
                say!("log-line-newer", found = found.to_string(), known = known.to_string())
            }
            Self::NotCanonical => Phrase("log-line-not-canonical").into(),
        }
    }
}

impl Entry {
    /// The newest version of the form this program reads.
    pub const NEWEST: u32 = 2;

    /// The frozen bytes: one line of JSON without the line end.
    pub fn to_bytes(&self) -> Vec<u8> {
        // Every field serializes; maps and floats do not occur, so this cannot fail.
        serde_json::to_vec(self).unwrap_or_default()
    }
    /// SHA-256 of the frozen bytes.
    pub fn hash(&self) -> Digest {
        Digest::of(&self.to_bytes())
    }
    /// Reads one line; refuses anything but the canonical form.
    pub fn from_bytes(line: &[u8]) -> Result<Self, EntryError> {
        #[derive(Deserialize)]
        struct Version {
            v: u64,
        }
        let unreadable = |e: serde_json::Error| EntryError::Unreadable(e.to_string());
        let version: Version = serde_json::from_slice(line).map_err(unreadable)?;
        if version.v > u64::from(Self::NEWEST) {
            return Err(EntryError::Newer { found: version.v, known: Self::NEWEST });
        }
        let entry: Self = serde_json::from_slice(line).map_err(unreadable)?;
        let canonical = entry.v == entry.body.form() && entry.to_bytes() == line;
        if canonical { Ok(entry) } else { Err(EntryError::NotCanonical) }
    }
    /// The one order in which every reader sorts entries: Lamport number, device, position.
    pub fn order(&self) -> (u64, DeviceId, u64) {
        (self.lamport, self.device, self.seq)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample() -> Entry {
        Entry {
            v: 1,
            id: EntryId::new(1_776_000_000_000, &[1; 10]),
            survey: SurveyId::new(1_776_000_000_000, &[2; 10]),
            device: DeviceId::new(1_776_000_000_000, &[3; 10]),
            seq: 2,
            lamport: 5,
            at: "2026-04-12T09:30:00.000-05:00".parse().unwrap(),
            by: "R. Ames".into(),
            prev: Some(Digest::of(b"first")),
            body: Body::Answer(Answer {
                place: "kitchen".into(),
                item: "stub-height".into(),
                value: Value::Length(Length::from_sixty_fourths(1240)),
                tolerance: Some(Length::from_sixty_fourths(4)),
                entered: Some("19 3/8".into()),
                photos: vec![],
                corrects: vec![],
                reason: None,
            }),
        }
    }

    #[test]
    fn the_bytes_of_version_1_never_change() {
        let expected = concat!(
            r#"{"v":1,"id":"019d81d9-6000-7101-8101-010101010101","survey":"019d81d9-6000-7202-8202-020202020202","#,
            r#""device":"019d81d9-6000-7303-8303-030303030303","seq":2,"lamport":5,"at":"2026-04-12T09:30:00.000-05:00","#,
            r#""by":"R. Ames","prev":"a7937b64b8caa58f03721bb6bacf5c78cb235febe0e70b1b84cd99541461a08e","#,
            r#""body":{"kind":"answer","place":"kitchen","item":"stub-height","value":{"length":3937000},"#,
            r#""tolerance":12700,"entered":"19 3/8","photos":[],"corrects":[],"reason":null}}"#
        );
        assert_eq!(String::from_utf8(sample().to_bytes()).unwrap(), expected);
        assert_eq!(Entry::from_bytes(expected.as_bytes()).unwrap(), sample());
    }

    #[test]
    fn the_bytes_of_a_place_never_change() {
        let mut entry = sample();
        entry.body = Body::Place(PlaceNamed {
            station: "bulkhead".into(),
            place: "over-refrigerator-soffit".into(),
            label: "Soffit over the refrigerator".into(),
            there: true,
            reason: None,
        });
        let body = concat!(
            r#""body":{"kind":"place","station":"bulkhead","place":"over-refrigerator-soffit","#,
            r#""label":"Soffit over the refrigerator","there":true,"reason":null}}"#
        );
        let text = String::from_utf8(entry.to_bytes()).unwrap();
        assert!(text.ends_with(body), "{text}");
        assert_eq!(Entry::from_bytes(text.as_bytes()).unwrap(), entry);
        let without = text.replace(r#""there":true,"#, "");
        assert!(matches!(Entry::from_bytes(without.as_bytes()), Err(EntryError::Unreadable(_))));
    }

    #[test]
    fn the_bytes_of_a_note_taken_back_never_change() {
        let mut entry = sample();
        let note = EntryId::new(1_776_000_000_000, &[9; 10]);
        entry.body = Body::TakenBack(TakenBack { entry: note, reason: Some("taken back".into()) });
        let text = String::from_utf8(entry.to_bytes()).unwrap();
        let body = format!(r#""body":{{"kind":"taken-back","entry":"{note}","reason":"taken back"}}}}"#);
        assert!(text.ends_with(&body), "{text}");
        assert_eq!(Entry::from_bytes(text.as_bytes()).unwrap(), entry);
    }

    #[test]
    fn the_bytes_of_an_order_never_change() {
        let mut entry = sample();
        let places = ["plan", "sink", "talk"].map(str::to_owned).to_vec();
        entry.body = Body::Order(WalkOrder { places, moved: Some("sink".into()), reason: None });
        let body = r#""body":{"kind":"order","places":["plan","sink","talk"],"moved":"sink","reason":null}}"#;
        let text = String::from_utf8(entry.to_bytes()).unwrap();
        assert!(text.ends_with(body), "{text}");
        assert_eq!(Entry::from_bytes(text.as_bytes()).unwrap(), entry);
    }

    #[test]
    fn the_bytes_of_a_declaration_never_change_and_an_older_program_is_told_to_be_too_old() {
        let mut entry = sample();
        entry.v = 2;
        entry.body = Body::Demolition(Demolition { reason: Some("north wall opened".into()) });
        let text = String::from_utf8(entry.to_bytes()).unwrap();
        assert!(text.ends_with(r#""body":{"kind":"demolition","reason":"north wall opened"}}"#), "{text}");
        // A program of form 1 reads the number before anything else, and this is above its own.
        assert!(text.starts_with(r#"{"v":2,"#), "{text}");
        assert_eq!(Entry::from_bytes(text.as_bytes()).unwrap(), entry);
        let declared = vec![EntryId::new(1_776_000_000_000, &[9; 10])];
        let body = format!(
            r#""body":{{"kind":"demolition-withdrawn","declared":["{}"],"reason":"the wrong house"}}}}"#,
            declared[0]
        );
        let reason = "the wrong house".into();
        entry.body = Body::DemolitionWithdrawn(DemolitionWithdrawn { declared, reason });
        let text = String::from_utf8(entry.to_bytes()).unwrap();
        assert!(text.ends_with(&body), "{text}");
        assert_eq!(Entry::from_bytes(text.as_bytes()).unwrap(), entry);
    }

    #[test]
    fn a_kind_under_another_version_than_its_own_is_refused() {
        let answer = String::from_utf8(sample().to_bytes()).unwrap();
        let mut declared = sample();
        declared.body = Body::Demolition(Demolition { reason: None });
        for (text, own) in [(answer, "1"), (String::from_utf8(declared.to_bytes()).unwrap(), "2")] {
            for v in ["0", "1", "2"] {
                let as_v = text.replacen(r#""v":1"#, &format!(r#""v":{v}"#), 1);
                let read = Entry::from_bytes(as_v.as_bytes());
                assert_eq!(read.is_ok(), v == own, "{as_v}");
            }
        }
    }

    #[test]
    fn other_spellings_of_the_same_entry_are_refused() {
        let text = String::from_utf8(sample().to_bytes()).unwrap();
        let spaced = text.replacen(',', ", ", 1);
        assert_eq!(Entry::from_bytes(spaced.as_bytes()), Err(EntryError::NotCanonical));
        let newer = text.replacen(r#""v":1"#, r#""v":9"#, 1);
        assert_eq!(Entry::from_bytes(newer.as_bytes()), Err(EntryError::Newer { found: 9, known: 2 }));
        assert!(matches!(Entry::from_bytes(b"{"), Err(EntryError::Unreadable(_))));
    }
}
