//! Why a key or a signed text is refused.

/// What is wrong with a key or a signed text. What is at fault is named; nothing secret is ever told.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum KeyError {
    /// Not a key, or not spelled as one.
    #[error("this is not an Ed25519 key as this program writes it: {0}")]
    Key(String),
    /// A point of small order, or one with a second spelling: anybody could sign with it.
    #[error("this key is one that anybody could sign with")]
    Weak,
    /// Not three parts joined by dots.
    #[error("this is not a compact JSON Web Signature of three parts")]
    Shape,
    /// Longer than anything this program signs.
    #[error("this is longer than anything this program signs")]
    TooLong,
    /// Base64url with padding, spare bits or foreign letters.
    #[error("its {0} is not base64url as RFC 7515 spells it")]
    Base64(&'static str),
    /// A header that is no header, or is spelled otherwise.
    #[error("its header is not as this program writes it: {0}")]
    Header(String),
    /// Another algorithm.
    #[error("it is signed by “{0}”; only EdDSA is taken")]
    Algorithm(String),
    /// Extensions that must be understood.
    #[error("its header has “crit”; nothing critical is taken")]
    Critical,
    /// A signed text of another kind.
    #[error("it is “{found}”, where “{wanted}” is wanted")]
    Kind {
        /// What the header says.
        found: String,
        /// What was wanted.
        wanted: &'static str,
    },
    /// Another key's.
    #[error("it names the key {found}; the key here is {wanted}")]
    Kid {
        /// Thumbprint in the header.
        found: String,
        /// Thumbprint of the key at hand.
        wanted: String,
    },
    /// None of the firm's keys.
    #[error("it is signed by the key {0}, which is not among the firm's")]
    NotTheFirms(String),
    /// A signature that is none.
    #[error("its signature does not hold: what it signs was changed, or another key signed it")]
    Signature,
    /// Contents that cannot be read, or are spelled otherwise.
    #[error("what it says is not as this program writes it: {0}")]
    Payload(String),
    /// Contents that make no sense.
    #[error("what it says does not hold together: {0}")]
    Contents(&'static str),
    /// A signature could not be made.
    #[error("the key could not sign: {0}")]
    Signing(String),
    /// A secret that others can read.
    #[error("{path} can be read by others on this machine (mode {mode})")]
    Open {
        /// The file.
        path: String,
        /// Its mode, in octal.
        mode: String,
    },
    /// A file or another place of keys that cannot be used.
    #[error("{path}: {what}")]
    Store {
        /// The file or place.
        path: String,
        /// What the system says.
        what: String,
    },
}
