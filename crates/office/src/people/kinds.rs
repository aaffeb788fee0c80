//! People, roles, sessions and lines of the audit log as plain data.

use std::net::IpAddr;

use serde::{Deserialize, Serialize};
use survey::Stamp;

/// Number of a person: 16 random bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PersonId(pub [u8; 16]);

impl std::fmt::Display for PersonId {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.iter().try_for_each(|byte| write!(f, "{byte:02x}"))
    }
}

impl PersonId {
    /// Reads what [`Display`](std::fmt::Display) writes.
    pub fn parse(text: &str) -> Option<Self> {
        unhex(text).map(Self)
    }
}

/// Bytes from lower-case hexadecimal digits, exactly as many as are wanted.
pub(crate) fn unhex<const N: usize>(text: &str) -> Option<[u8; N]> {
    let digit = |d: u8| match d {
        b'0'..=b'9' => Some(d - b'0'),
        b'a'..=b'f' => Some(d - b'a' + 10),
        _ => None,
    };
    let mut bytes = [0; N];
    let (pairs, rest) = text.as_bytes().as_chunks::<2>();
    if pairs.len() != N || !rest.is_empty() {
        return None;
    }
    for (byte, [high, low]) in bytes.iter_mut().zip(pairs) {
        *byte = digit(*high)? << 4 | digit(*low)?;
    }
    Some(bytes)
}

/// What a person may do; each may what those before may.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Reads.
    Estimator,
    /// Receives packets.
    Office,
    /// Enters findings.
    Reviewer,
    /// Everything, people too.
    Owner,
}

impl Role {
    /// All of them, the least first.
    pub const ALL: [Self; 4] = [Self::Estimator, Self::Office, Self::Reviewer, Self::Owner];
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Estimator => "estimator",
            Self::Office => "office",
            Self::Reviewer => "reviewer",
            Self::Owner => "owner",
        }
    }
    /// The role of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|role| role.word() == word)
    }
}

/// A password as it is kept: argon2id with what it was made with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Kept {
    /// Memory in KiB.
    pub memory_kib: u32,
    /// Passes over it.
    pub passes: u32,
    /// Lanes.
    pub lanes: u32,
    /// Random salt.
    pub salt: [u8; 16],
    /// What came of it.
    pub hash: [u8; 32],
}

/// What the codes of somebody's second factor are made from.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Second {
    /// 160 random bits.
    pub secret: [u8; 20],
    /// The step of time whose code was used last, in units of 30 seconds since 1970; no code of it or before it is good.
    pub last: i64,
}

impl std::fmt::Debug for Second {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Second").field("last", &self.last).finish_non_exhaustive()
    }
}

/// One person.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Person {
    /// Their number.
    pub id: PersonId,
    /// Their name as it is shown.
    pub name: String,
    /// The name by which they are looked up.
    pub folded: String,
    /// What they may do.
    pub role: Role,
    /// Since when they are here.
    pub since: Stamp,
    /// Since when they are gone.
    pub removed: Option<Stamp>,
    /// Their password; none once they are gone.
    pub password: Option<Kept>,
    /// Wrong passwords since the last right one.
    pub failures: u32,
    /// When the last of them was given, in Unix milliseconds.
    pub last_failure: i64,
    /// True while their password is the one an owner chose for them: it lets them choose their own, and do nothing else.
    pub first_password: bool,
    /// Their second factor, where they set one up.
    pub second: Option<Second>,
}

/// A browser that signed in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Session {
    /// SHA-256 of its secret.
    pub hash: [u8; 32],
    /// Whose it is.
    pub person: PersonId,
    /// When it began, in Unix milliseconds.
    pub started: i64,
    /// When it was last used.
    pub seen: i64,
    /// The address it began from, where that was noted.
    pub from: Option<IpAddr>,
}

/// What the audit log tells of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[allow(missing_docs, reason = "the names say it")]
pub enum Deed {
    SetUp,
    SignedIn,
    WrongPassword,
    Locked,
    Unlocked,
    SignedOut,
    PasswordChanged,
    PersonAdded,
    RoleSet,
    PersonRemoved,
    PacketReceived,
    FindingEntered,
    LearningAccepted,
    LearningRefused,
    CatalogPublished,
    PacketRefused,
    Restored,
    TabletInvited,
    TabletPaired,
    TabletRevoked,
    KeyRevoked,
    KeyMade,
    SessionsEnded,
    SecondFactorSet,
    SecondFactorDropped,
    SecondFactorDemanded,
    SecondFactorLeftFree,
    WrongCode,
    CodeAsked,
    HadToWait,
    WrongLink,
    NotAllowed,
    RequestRefused,
    Fault,
    HouseClosed,
    HouseOpened,
    HouseShown,
    HouseHidden,
}

impl Deed {
    /// All of them.
    pub const ALL: [Self; 38] = [
        Self::SetUp,
        Self::SignedIn,
        Self::WrongPassword,
        Self::Locked,
        Self::Unlocked,
        Self::SignedOut,
        Self::PasswordChanged,
        Self::PersonAdded,
        Self::RoleSet,
        Self::PersonRemoved,
        Self::PacketReceived,
        Self::FindingEntered,
        Self::LearningAccepted,
        Self::LearningRefused,
        Self::CatalogPublished,
        Self::PacketRefused,
        Self::Restored,
        Self::TabletInvited,
        Self::TabletPaired,
        Self::TabletRevoked,
        Self::KeyRevoked,
        Self::KeyMade,
        Self::SessionsEnded,
        Self::SecondFactorSet,
        Self::SecondFactorDropped,
        Self::SecondFactorDemanded,
        Self::SecondFactorLeftFree,
        Self::WrongCode,
        Self::CodeAsked,
        Self::HadToWait,
        Self::WrongLink,
        Self::NotAllowed,
        Self::RequestRefused,
        Self::Fault,
        Self::HouseClosed,
        Self::HouseOpened,
        Self::HouseShown,
        Self::HouseHidden,
    ];
    /// Its word, as it is kept and told.
    pub const fn word(self) -> &'static str {
        match self {
            Self::SetUp => "set-up",
            Self::SignedIn => "signed-in",
            Self::WrongPassword => "wrong-password",
            Self::Locked => "locked",
            Self::Unlocked => "unlocked",
            Self::SignedOut => "signed-out",
            Self::PasswordChanged => "password-changed",
            Self::PersonAdded => "person-added",
            Self::RoleSet => "role-set",
            Self::PersonRemoved => "person-removed",
            Self::PacketReceived => "packet-received",
            Self::FindingEntered => "finding-entered",
            Self::LearningAccepted => "learning-accepted",
            Self::LearningRefused => "learning-refused",
            Self::CatalogPublished => "catalog-published",
            Self::PacketRefused => "packet-refused",
            Self::Restored => "restored",
            Self::TabletInvited => "tablet-invited",
            Self::TabletPaired => "tablet-paired",
            Self::TabletRevoked => "tablet-revoked",
            Self::KeyRevoked => "key-revoked",
            Self::KeyMade => "key-made",
            Self::SessionsEnded => "sessions-ended",
            Self::SecondFactorSet => "second-factor-set",
            Self::SecondFactorDropped => "second-factor-dropped",
            Self::SecondFactorDemanded => "second-factor-demanded",
            Self::SecondFactorLeftFree => "second-factor-left-free",
            Self::WrongCode => "wrong-code",
            Self::CodeAsked => "code-asked",
            Self::HadToWait => "had-to-wait",
            Self::WrongLink => "wrong-link",
            Self::NotAllowed => "not-allowed",
            Self::RequestRefused => "request-refused",
            Self::Fault => "fault",
            Self::HouseClosed => "house-closed",
            Self::HouseOpened => "house-opened",
            Self::HouseShown => "house-shown",
            Self::HouseHidden => "house-hidden",
        }
    }
    /// The deed of a word.
    pub fn of_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|deed| deed.word() == word)
    }
}

/// A line of the audit log: who, what, when, about what. Never a password, a secret or a name somebody mistyped.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AuditLine {
    /// Its number, from 1.
    pub n: u64,
    /// When.
    pub at: Stamp,
    /// Who; none where nobody known did it.
    pub who: Option<PersonId>,
    /// What.
    pub what: Deed,
    /// About whom or what.
    pub about: Option<String>,
    /// From where.
    pub address: Option<IpAddr>,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_of_people_are_read_as_they_are_written() {
        let id = PersonId([0xab; 16]);
        assert_eq!(PersonId::parse(&id.to_string()), Some(id));
        for bad in ["", "ab", "zz", &"ab".repeat(17), &"AB".repeat(16), &"a".repeat(31)] {
            assert_eq!(PersonId::parse(bad), None, "{bad}");
        }
    }

    #[test]
    fn each_role_may_what_those_before_may_and_words_come_back() {
        assert!(Role::ALL.is_sorted());
        for role in Role::ALL {
            assert_eq!(Role::of_word(role.word()), Some(role));
            assert_eq!(serde_json::to_value(role).unwrap(), role.word());
        }
        for deed in Deed::ALL {
            assert_eq!(Deed::of_word(deed.word()), Some(deed));
            assert_eq!(serde_json::to_value(deed).unwrap(), deed.word());
        }
        assert_eq!((Role::of_word("Owner"), Deed::of_word("")), (None, None));
    }
}
