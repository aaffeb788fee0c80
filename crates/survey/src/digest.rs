//! SHA-256 digests (FIPS 180-4), written as 64 lower-case hexadecimal digits wherever a person or a file sees them.

use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use sha2::{Digest as _, Sha256};

/// A SHA-256 digest: 32 bytes.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Digest([u8; 32]);

/// A text that is not 64 lower-case hexadecimal digits.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("“{0}” is not a SHA-256 digest; write 64 lower-case hexadecimal digits")]
pub struct DigestError(pub String);

impl Digest {
    /// Digest of some bytes.
    pub fn of(bytes: &[u8]) -> Self {
        Self(Sha256::digest(bytes).into())
    }
    /// A digest already computed elsewhere, for example over a stream.
    pub fn from_bytes(bytes: [u8; 32]) -> Self {
        Self(bytes)
    }
    /// The 32 bytes.
    pub fn as_bytes(&self) -> &[u8; 32] {
        &self.0
    }
    /// 64 lower-case hexadecimal digits.
    pub fn hex(&self) -> String {
        use core::fmt::Write as _;
        self.0.iter().fold(String::with_capacity(64), |mut text, byte| {
            let _ = write!(text, "{byte:02x}");
            text
        })
    }
    /// The first twelve digits, for a line a person reads.
    pub fn short(&self) -> String {
        self.hex().chars().take(12).collect()
    }
}

impl fmt::Display for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.hex())
    }
}

impl fmt::Debug for Digest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Digest({})", self.short())
    }
}

impl FromStr for Digest {
    type Err = DigestError;
    fn from_str(text: &str) -> Result<Self, DigestError> {
        let bad = || DigestError(text.chars().take(80).collect());
        let ascii = text.as_bytes();
        if ascii.len() != 64 {
            return Err(bad());
        }
        let value = |c: u8| match c {
            b'0'..=b'9' => Ok(c - b'0'),
            b'a'..=b'f' => Ok(c - b'a' + 10),
            _ => Err(bad()),
        };
        let mut out = [0u8; 32];
        for (byte, pair) in out.iter_mut().zip(ascii.chunks_exact(2)) {
            *byte = value(pair[0])? << 4 | value(pair[1])?;
        }
        Ok(Self(out))
    }
}

impl Serialize for Digest {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.serialize_str(&self.hex())
    }
}

impl<'de> Deserialize<'de> for Digest {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_digest_of_abc_is_the_one_published_with_the_standard() {
        // FIPS 180-4 example computations, SHA-256, one-block message "abc".
        let hex = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        assert_eq!(Digest::of(b"abc").hex(), hex);
        assert_eq!(hex.parse::<Digest>().unwrap(), Digest::of(b"abc"));
    }

    #[test]
    fn upper_case_short_and_foreign_letters_are_refused() {
        for text in ["", "ab", &"A".repeat(64), &"g".repeat(64)] {
            assert!(text.parse::<Digest>().is_err(), "{text}");
        }
    }
}
