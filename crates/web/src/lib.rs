//! What the doors that carry the screens share: the files of the screens, what a browser may do with an answer, where a
//! request comes from, and how a refusal is written.
//!
//! | held against | stops |
//! | --- | --- |
//! | `Host` is one of the door's own | names of others that are made to point here |
//! | `Origin`, where sent, is ours; a request that writes must send it | forms and scripts of other pages |
//! | `Sec-Fetch-Site`, where sent, is ours or the address bar | the same, where a browser leaves `Origin` out |
//!
//! Knows no house, and no door.

mod refusal;
mod screens;
mod site;

use http::{HeaderName, header};
use subtle::ConstantTimeEq as _;

pub use refusal::{Refusal, language};
pub use screens::{SCREENS, Screens};
pub use site::{Foreign, cookies, from_here};

/// Nothing from outside, nothing inline, no frame, no guessing of types, nothing kept in a cache, nothing told to others.
pub const HEADERS: [(HeaderName, &str); 5] = [
    (
        header::CONTENT_SECURITY_POLICY,
        "default-src 'none'; script-src 'self'; style-src 'self'; font-src 'self'; img-src 'self' blob: data:; \
         connect-src 'self'; object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
    ),
    (header::X_CONTENT_TYPE_OPTIONS, "nosniff"),
    (header::REFERRER_POLICY, "no-referrer"),
    (header::CACHE_CONTROL, "no-store"),
    (HeaderName::from_static("cross-origin-resource-policy"), "same-origin"),
];

/// Compares in a time that does not tell how many letters agree.
pub fn same(a: &str, b: &str) -> bool {
    a.as_bytes().ct_eq(b.as_bytes()).into()
}
