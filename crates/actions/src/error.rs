//! One error for all doors: a kind for programs, a message for people, and how to mend it.

use std::fmt;

/// What kind of trouble, for programs: doors map it to exit codes and responses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// What was given cannot be taken.
    Input,
    /// What was named is not there.
    Missing,
    /// It clashes with what stands.
    Conflict,
    /// Something recorded is damaged.
    Damaged,
    /// No room, no rights, or a fault of ours.
    Internal,
}

/// What went wrong, where, and how to mend it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Error {
    /// For programs.
    pub kind: Kind,
    /// For people: what and where.
    pub message: String,
    /// How to mend it.
    pub hint: Option<String>,
}

impl Error {
    /// An error without a hint.
    pub fn new(kind: Kind, message: impl Into<String>) -> Self {
        Self { kind, message: message.into(), hint: None }
    }
    /// The same with a hint.
    #[must_use]
    pub fn hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
    /// The kind in one word.
    pub fn kind_word(&self) -> &'static str {
        match self.kind {
            Kind::Input => "input",
            Kind::Missing => "missing",
            Kind::Conflict => "conflict",
            Kind::Damaged => "damaged",
            Kind::Internal => "internal",
        }
    }
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl std::error::Error for Error {}

impl From<store::StoreError> for Error {
    fn from(e: store::StoreError) -> Self {
        let kind = match e.kind() {
            store::ErrorKind::Missing => Kind::Missing,
            store::ErrorKind::Conflict => Kind::Conflict,
            store::ErrorKind::Damaged | store::ErrorKind::Newer => Kind::Damaged,
            store::ErrorKind::Full | store::ErrorKind::Io => Kind::Internal,
        };
        Self::new(kind, format!("{} ({})", e.what(), e.place().display())).hint(e.mend())
    }
}

impl From<assessment::AssessError> for Error {
    fn from(e: assessment::AssessError) -> Self {
        let kind = match e {
            assessment::AssessError::Impossible { .. } => Kind::Conflict,
            assessment::AssessError::TooLarge(_) => Kind::Internal,
            assessment::AssessError::Catalog(_) => Kind::Input,
        };
        Self::new(kind, e.to_string())
    }
}

impl From<assessment::forecast::ForecastError> for Error {
    fn from(e: assessment::forecast::ForecastError) -> Self {
        Self::new(Kind::Damaged, e.to_string())
    }
}

impl From<photo::PhotoError> for Error {
    fn from(e: photo::PhotoError) -> Self {
        Self::new(Kind::Input, e.to_string())
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
        Self::new(kind, e.to_string()).hint(e.hint())
    }
}
