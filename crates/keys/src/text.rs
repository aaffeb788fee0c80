//! Base64url and JSON with one spelling each.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::KeyError;

/// Without padding (RFC 7515, section 2).
pub(crate) fn to_base64(bytes: &[u8]) -> String {
    URL_SAFE_NO_PAD.encode(bytes)
}

/// The bytes; refused with padding, letters of another alphabet, or spare bits that are not zero.
pub(crate) fn from_base64(text: &str, part: &'static str) -> Result<Vec<u8>, KeyError> {
    let bytes = URL_SAFE_NO_PAD.decode(text).map_err(|_| KeyError::Base64(part))?;
    // Whatever a reader lets pass: there is one spelling.
    if to_base64(&bytes) == text { Ok(bytes) } else { Err(KeyError::Base64(part)) }
}

/// JSON without spaces, in the order of the fields.
pub(crate) fn to_json<T: Serialize>(value: &T) -> Result<Vec<u8>, KeyError> {
    serde_json::to_vec(value).map_err(|e| KeyError::Payload(e.to_string()))
}

/// Reads what [`to_json`] wrote, and nothing spelled otherwise.
pub(crate) fn from_json<T: Serialize + DeserializeOwned>(bytes: &[u8]) -> Result<T, KeyError> {
    let value: T = serde_json::from_slice(bytes).map_err(|e| KeyError::Payload(e.to_string()))?;
    if to_json(&value)? == bytes {
        Ok(value)
    } else {
        Err(KeyError::Payload("it is readable, but spelled otherwise".to_owned()))
    }
}
