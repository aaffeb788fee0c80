//! What a screen is told when something cannot be done.

use http::{HeaderMap, StatusCode};
use serde_json::json;

/// Why something cannot be done.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refusal {
    /// For programs: input, missing, conflict, damaged, internal; of the office also signed-out, role, too-many.
    pub kind: &'static str,
    /// For people: what and where.
    pub message: String,
    /// How to mend it.
    pub hint: Option<String>,
}

impl Refusal {
    /// The status that goes with its kind.
    pub fn status(&self) -> StatusCode {
        match self.kind {
            "input" => StatusCode::BAD_REQUEST,
            "signed-out" => StatusCode::UNAUTHORIZED,
            "role" | "code" => StatusCode::FORBIDDEN,
            "missing" => StatusCode::NOT_FOUND,
            "conflict" => StatusCode::CONFLICT,
            "too-many" => StatusCode::TOO_MANY_REQUESTS,
            _ => StatusCode::INTERNAL_SERVER_ERROR,
        }
    }
    /// The refusal in JSON.
    pub fn body(&self) -> String {
        let Self { kind, message, hint } = self;
        json!({ "kind": kind, "message": message, "hint": hint }).to_string()
    }
}

/// The header with the language the screens are in.
const LANGUAGE: &str = "x-underlath-language";

/// The language the screens are in; empty where they do not say.
pub fn language(headers: &HeaderMap) -> String {
    headers.get(LANGUAGE).and_then(|v| v.to_str().ok()).unwrap_or_default().to_owned()
}
