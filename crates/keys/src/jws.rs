//! Compact JSON Web Signatures (RFC 7515) by Ed25519 (RFC 8037), in one spelling.
//!
//! Written here because no kept library does the one form wanted: detached content, one algorithm that the header
//! cannot choose, one spelling of the header, strict base64url and strict Ed25519. The arithmetic is a library's.

use serde::Deserialize;

use crate::text::{from_base64, to_base64};
use crate::{KeyError, PublicKey, Signer, Thumbprint};

/// Most letters of a signed text, detached content aside.
const MOST: usize = 4 << 20;

/// The header for a key, with `typ` for what is no seal (RFC 8725, section 3.11): a text of one kind is never taken for
/// another.
fn header(kid: &Thumbprint, typ: Option<&str>) -> String {
    match typ {
        Some(typ) => format!(r#"{{"alg":"EdDSA","kid":"{kid}","typ":"{typ}"}}"#),
        None => format!(r#"{{"alg":"EdDSA","kid":"{kid}"}}"#),
    }
}

fn signing_input(head: &str, payload: &[u8]) -> Vec<u8> {
    [head.as_bytes(), b".", to_base64(payload).as_bytes()].concat()
}

/// Signs `payload`, which stands in the text.
pub(crate) fn sign(typ: &str, payload: &[u8], signer: &dyn Signer) -> Result<String, KeyError> {
    let (head, signature) = signature(Some(typ), payload, signer)?;
    Ok(format!("{head}.{}.{signature}", to_base64(payload)))
}

/// Signs `payload`, which stands elsewhere (RFC 7515, appendix F): the middle part is empty.
///
/// # Errors
/// What the signer refuses with.
pub fn sign_seal(payload: &[u8], signer: &dyn Signer) -> Result<String, KeyError> {
    let (head, signature) = signature(None, payload, signer)?;
    Ok(format!("{head}..{signature}"))
}

fn signature(typ: Option<&str>, payload: &[u8], signer: &dyn Signer) -> Result<(String, String), KeyError> {
    let public = signer.public();
    let head = to_base64(header(&public.thumbprint(), typ).as_bytes());
    let input = signing_input(&head, payload);
    let signature = signer.sign(&input)?;
    // A keeper of secrets that gives another key's signature is found here, not in ten years.
    if !public.signed(&input, &signature) {
        return Err(KeyError::Signing("it gave a signature that does not hold".to_owned()));
    }
    Ok((head, to_base64(&signature)))
}

/// A signed text taken apart; the signature is not checked yet.
pub(crate) struct Parts<'a> {
    head: &'a str,
    pub(crate) kid: Thumbprint,
    /// Empty where the content is detached.
    pub(crate) payload: Vec<u8>,
    signature: [u8; 64],
}

/// Takes a text apart and checks all of its spelling. `typ` is the kind wanted, none for a seal.
pub(crate) fn parts<'a>(text: &'a str, typ: Option<&'static str>) -> Result<Parts<'a>, KeyError> {
    if text.len() > MOST {
        return Err(KeyError::TooLong);
    }
    let mut three = text.split('.');
    let (Some(head), Some(payload), Some(signature), None) =
        (three.next(), three.next(), three.next(), three.next())
    else {
        return Err(KeyError::Shape);
    };
    if typ.is_none() != payload.is_empty() {
        return Err(KeyError::Shape);
    }
    let kid = read_header(&from_base64(head, "header")?, typ)?;
    let payload = from_base64(payload, "content")?;
    let signature = from_base64(signature, "signature")?.try_into().map_err(|_| KeyError::Signature)?;
    Ok(Parts { head, kid, payload, signature })
}

/// The key a header names. Algorithm and kind are compared with what is wanted, never chosen by it.
fn read_header(bytes: &[u8], typ: Option<&'static str>) -> Result<Thumbprint, KeyError> {
    #[derive(Deserialize)]
    struct Header {
        alg: String,
        kid: Option<String>,
        typ: Option<String>,
        crit: Option<serde::de::IgnoredAny>,
    }
    let header_read: Header = serde_json::from_slice(bytes).map_err(|e| KeyError::Header(e.to_string()))?;
    let short = |text: String| text.chars().take(60).collect::<String>();
    if header_read.crit.is_some() {
        return Err(KeyError::Critical);
    }
    if header_read.alg != "EdDSA" {
        return Err(KeyError::Algorithm(short(header_read.alg)));
    }
    if header_read.typ.as_deref() != typ {
        let found = short(header_read.typ.unwrap_or_else(|| "a seal".to_owned()));
        return Err(KeyError::Kind { found, wanted: typ.unwrap_or("a seal") });
    }
    let kid: Thumbprint =
        header_read.kid.ok_or_else(|| KeyError::Header("it names no key".to_owned()))?.parse()?;
    if header(&kid, typ).as_bytes() != bytes {
        return Err(KeyError::Header("it is readable, but spelled otherwise".to_owned()));
    }
    Ok(kid)
}

impl Parts<'_> {
    /// Whether this key is the one named and signed `payload`.
    pub(crate) fn check(&self, payload: &[u8], key: &PublicKey) -> Result<(), KeyError> {
        let wanted = key.thumbprint();
        if self.kid != wanted {
            return Err(KeyError::Kid { found: self.kid.to_string(), wanted: wanted.to_string() });
        }
        if key.signed(&signing_input(self.head, payload), &self.signature) {
            Ok(())
        } else {
            Err(KeyError::Signature)
        }
    }
}

/// Whether `text` is the seal by `key` over `payload`, in its one spelling.
///
/// # Errors
/// Which part of it is not.
pub fn verify_seal(text: &str, payload: &[u8], key: &PublicKey) -> Result<(), KeyError> {
    parts(text, None)?.check(payload, key)
}
