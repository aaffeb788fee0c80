//! Keys as JSON Web Keys (RFC 7517) of the type OKP (RFC 8037, section 2).

use std::fmt;
use std::str::FromStr;

use ed25519_dalek::{Signature, Signer as _, SigningKey, VerifyingKey};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use survey::Digest;
use zeroize::{Zeroize as _, Zeroizing};

use crate::KeyError;
use crate::text::{from_base64, to_base64};

/// Something that signs with one key. Where the secret lies is its own affair.
pub trait Signer {
    /// The key others verify with.
    fn public(&self) -> &PublicKey;
    /// An Ed25519 signature (RFC 8032, section 5.1.6) of these bytes.
    ///
    /// # Errors
    /// [`KeyError::Signing`] where the keeper of the secret refuses.
    fn sign(&self, message: &[u8]) -> Result<[u8; 64], KeyError>;
}

/// SHA-256 of a key's JSON (RFC 7638), written in base64url: 43 letters.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Thumbprint(Digest);

impl fmt::Display for Thumbprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&to_base64(self.0.as_bytes()))
    }
}

impl fmt::Debug for Thumbprint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Thumbprint({self})")
    }
}

impl FromStr for Thumbprint {
    type Err = KeyError;
    fn from_str(text: &str) -> Result<Self, KeyError> {
        let bytes: [u8; 32] =
            from_base64(text, "key name")?.try_into().map_err(|_| KeyError::Base64("key name"))?;
        Ok(Self(Digest::from_bytes(bytes)))
    }
}

impl Serialize for Thumbprint {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Thumbprint {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        String::deserialize(d)?.parse().map_err(serde::de::Error::custom)
    }
}

/// A public key. No key that anybody could sign with (a point of small order) is ever one.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct PublicKey(VerifyingKey);

/// The members in the order RFC 7638 hashes them.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Okp {
    crv: String,
    kty: String,
    x: String,
}

impl PublicKey {
    /// From its 32 bytes (RFC 8032, section 5.1.5).
    ///
    /// # Errors
    /// Bytes that are no point of the curve, a second spelling of one, a point of small order.
    pub fn from_bytes(bytes: &[u8; 32]) -> Result<Self, KeyError> {
        let key = VerifyingKey::from_bytes(bytes).map_err(|e| KeyError::Key(e.to_string()))?;
        if key.is_weak() || key.to_edwards().compress().as_bytes() != bytes {
            return Err(KeyError::Weak);
        }
        Ok(Self(key))
    }
    /// Its 32 bytes.
    pub fn as_bytes(&self) -> &[u8; 32] {
        self.0.as_bytes()
    }
    /// The JSON that its thumbprint is the SHA-256 of: no spaces, no line end.
    pub fn to_jwk(&self) -> String {
        format!(r#"{{"crv":"Ed25519","kty":"OKP","x":"{}"}}"#, to_base64(self.as_bytes()))
    }
    /// Reads what [`Self::to_jwk`] writes, and no other spelling of it.
    ///
    /// # Errors
    /// Anything else.
    pub fn from_jwk(text: &[u8]) -> Result<Self, KeyError> {
        let okp: Okp = serde_json::from_slice(text).map_err(|e| KeyError::Key(e.to_string()))?;
        let key = Self::of(&okp)?;
        if key.to_jwk().as_bytes() == text {
            Ok(key)
        } else {
            Err(KeyError::Key("it is readable, but spelled otherwise".to_owned()))
        }
    }
    fn of(okp: &Okp) -> Result<Self, KeyError> {
        if okp.kty != "OKP" || okp.crv != "Ed25519" {
            return Err(KeyError::Key(format!("it is of the kind {} {}", okp.kty, okp.crv)));
        }
        let bytes = from_base64(&okp.x, "key")?;
        let bytes =
            bytes.as_slice().try_into().map_err(|_| KeyError::Key("it has not 32 bytes".to_owned()))?;
        Self::from_bytes(bytes)
    }
    /// Its name.
    pub fn thumbprint(&self) -> Thumbprint {
        Thumbprint(Digest::of(self.to_jwk().as_bytes()))
    }
    /// True when this key signed these bytes, read as strictly as there is: S below the order of the group, no point
    /// of small order, the equation without the cofactor.
    pub fn signed(&self, message: &[u8], signature: &[u8; 64]) -> bool {
        self.0.verify_strict(message, &Signature::from_bytes(signature)).is_ok()
    }
}

impl fmt::Debug for PublicKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "PublicKey({})", self.thumbprint())
    }
}

impl Serialize for PublicKey {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let x = to_base64(self.as_bytes());
        Okp { crv: "Ed25519".to_owned(), kty: "OKP".to_owned(), x }.serialize(s)
    }
}

impl<'de> Deserialize<'de> for PublicKey {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        Self::of(&Okp::deserialize(d)?).map_err(serde::de::Error::custom)
    }
}

/// A secret key, wiped from memory when it goes out of use.
pub struct SecretKey {
    secret: SigningKey,
    public: PublicKey,
}

impl SecretKey {
    /// From 32 random bytes, which are handed in (RFC 8032, section 5.1.5).
    ///
    /// # Errors
    /// None for random bytes; the refusals of [`PublicKey::from_bytes`].
    pub fn from_random(mut bytes: [u8; 32]) -> Result<Self, KeyError> {
        let secret = SigningKey::from_bytes(&bytes);
        bytes.zeroize();
        let public = PublicKey::from_bytes(secret.verifying_key().as_bytes())?;
        Ok(Self { secret, public })
    }
    /// The JSON it is kept as, with the secret in it (`d` of RFC 8037).
    pub fn to_jwk(&self) -> Zeroizing<String> {
        let secret = Zeroizing::new(self.secret.to_bytes());
        let d = Zeroizing::new(to_base64(&*secret));
        let x = to_base64(self.public.as_bytes());
        Zeroizing::new(format!(r#"{{"crv":"Ed25519","d":"{}","kty":"OKP","x":"{x}"}}"#, *d))
    }
    /// Reads what [`Self::to_jwk`] writes.
    ///
    /// # Errors
    /// Anything else, and a public half that belongs to another secret. The text is never told.
    pub fn from_jwk(text: &[u8]) -> Result<Self, KeyError> {
        #[derive(Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Whole {
            #[serde(rename = "crv")]
            _crv: String,
            d: Zeroizing<String>,
            #[serde(rename = "kty")]
            _kty: String,
            #[serde(rename = "x")]
            _x: String,
        }
        let bad = || KeyError::Key("the secret cannot be read".to_owned());
        let whole: Whole = serde_json::from_slice(text).map_err(|_| bad())?;
        let bytes = Zeroizing::new(from_base64(&whole.d, "secret")?);
        let key = Self::from_random(bytes.as_slice().try_into().map_err(|_| bad())?)?;
        if key.to_jwk().as_bytes() == text { Ok(key) } else { Err(bad()) }
    }
}

impl Signer for SecretKey {
    fn public(&self) -> &PublicKey {
        &self.public
    }
    fn sign(&self, message: &[u8]) -> Result<[u8; 64], KeyError> {
        Ok(self.secret.sign(message).to_bytes())
    }
}

impl fmt::Debug for SecretKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "SecretKey(of {})", self.public.thumbprint())
    }
}
