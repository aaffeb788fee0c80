//! Which names a packet may hold: plain letters only, so that no system reads one differently from another.

use std::collections::BTreeSet;

use crate::PacketError;
use crate::limits;

pub(crate) const BAGIT: &str = "bagit.txt";
pub(crate) const BAG_INFO: &str = "bag-info.txt";
pub(crate) const MANIFEST: &str = "manifest-sha256.txt";
pub(crate) const MANIFEST_512: &str = "manifest-sha512.txt";
pub(crate) const TAG_MANIFEST: &str = "tagmanifest-sha256.txt";
pub(crate) const TAG_MANIFEST_512: &str = "tagmanifest-sha512.txt";
/// The key that sealed, where no firm vouched for it.
pub(crate) const DEVICE_KEY: &str = "device.jwk";
/// The certificate of the key that sealed.
pub(crate) const CERTIFICATE: &str = "device.jws";
pub(crate) const SEAL: &str = "seal.jws";
pub(crate) const LOG: &str = "data/log.jsonl";
pub(crate) const ASSESSMENT: &str = "data/assessment.json";
pub(crate) const NETWORK: &str = "data/network.bif";
pub(crate) const PACKET_JSON: &str = "data/packet.json";
/// The household's signature, where it signed.
pub(crate) const HOUSEHOLD: &str = "data/household-signature.json";
/// Where the pages and tables lie.
const PAGES: &str = "data/pages/";

/// Files that every packet has, besides photographs and pages.
pub(crate) const ALWAYS: [&str; 11] = [
    BAG_INFO,
    BAGIT,
    ASSESSMENT,
    LOG,
    NETWORK,
    PACKET_JSON,
    MANIFEST,
    MANIFEST_512,
    SEAL,
    TAG_MANIFEST,
    TAG_MANIFEST_512,
];

/// Tag files that the tag manifests list, as far as they are there: all but the tag manifests themselves and the seal,
/// which is made over one of them.
pub(crate) const TAGS: [&str; 6] = [BAG_INFO, BAGIT, DEVICE_KEY, CERTIFICATE, MANIFEST, MANIFEST_512];

/// Whether opening keeps this file in memory.
pub(crate) fn held(name: &str) -> bool {
    ALWAYS.contains(&name) || [DEVICE_KEY, CERTIFICATE, HOUSEHOLD].contains(&name)
}

/// Where a photograph lies.
pub(crate) fn photo(digest: &survey::Digest) -> String {
    format!("data/photos/{digest}.jpg")
}

/// The digest in a photograph's name, if it is one.
pub(crate) fn photo_digest(name: &str) -> Option<survey::Digest> {
    name.strip_prefix("data/photos/")?.strip_suffix(".jpg")?.parse().ok()
}

/// Where one of the pages or tables lies, its name given within `data/`.
pub(crate) fn page(name: &str) -> String {
    format!("data/{name}")
}

/// Whether a name within `data/` may be one of the pages and tables: "pages/", lower case letters, digits and hyphens,
/// and an ending that says how to open it.
pub(crate) fn is_page(name: &str) -> bool {
    let split = name.strip_prefix("pages/").and_then(|n| n.rsplit_once('.'));
    split.is_some_and(|(stem, ending)| {
        (1..=60).contains(&stem.len())
            && stem.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
            && ["pdf", "csv", "xlsx"].contains(&ending)
    })
}

/// Most bytes this file may have.
pub(crate) fn limit(name: &str) -> u64 {
    match name {
        BAGIT | BAG_INFO | DEVICE_KEY | CERTIFICATE | SEAL => limits::TAG_TEXT,
        MANIFEST | MANIFEST_512 | TAG_MANIFEST | TAG_MANIFEST_512 => limits::MANIFEST,
        PACKET_JSON => limits::PACKET_JSON,
        LOG => limits::LOG,
        ASSESSMENT => limits::ASSESSMENT,
        NETWORK => limits::NETWORK,
        HOUSEHOLD => limits::SIGNATURE,
        schema if crate::schemas::is_schema(schema) => limits::SCHEMA,
        _ if name.starts_with(PAGES) => limits::PAGES,
        _ => limits::PHOTO,
    }
}

/// Refuses any name that is not one or more plain segments joined by "/".
pub(crate) fn check(name: &[u8]) -> Result<&str, PacketError> {
    let refuse = |reason| {
        let file = String::from_utf8_lossy(name).chars().take(limits::PATH).collect();
        Err(PacketError::Name { file, reason })
    };
    let Ok(text) = core::str::from_utf8(name) else { return refuse("a name that is not UTF-8") };
    if text.is_empty() || text.len() > limits::PATH {
        return refuse("an empty or overlong name");
    }
    if text.chars().any(char::is_control) {
        return refuse("a name with control characters");
    }
    if text.contains('\\') {
        return refuse("a name with a backslash");
    }
    if text.contains(':') {
        return refuse("a name with a drive or stream");
    }
    if text.starts_with('/') || text.starts_with('~') {
        return refuse("an absolute name");
    }
    for segment in text.split('/') {
        match segment {
            "" => return refuse("a folder entry or an empty part of a name"),
            "." | ".." => return refuse("a name that climbs out of its folder"),
            _ if segment.ends_with('.') => return refuse("a part of a name that ends in a dot"),
            _ => {}
        }
    }
    if !text.bytes().all(|b| b.is_ascii_alphanumeric() || b"._-/".contains(&b)) {
        return refuse("a name with letters other than a-z, A-Z, 0-9, dot, hyphen and low line");
    }
    Ok(text)
}

/// Refuses names that come twice, out of order, or differ in case only.
pub(crate) fn check_all<'a>(names: impl IntoIterator<Item = &'a str>) -> Result<(), PacketError> {
    let mut folded = BTreeSet::new();
    let mut before = "";
    for name in names {
        let refuse = |reason| Err(PacketError::Name { file: name.to_owned(), reason });
        if name == before {
            return refuse("a name that comes twice");
        }
        if !folded.insert(name.to_ascii_lowercase()) {
            return refuse("a name that differs from another in case only, or comes twice");
        }
        if name < before {
            return refuse("a name out of order");
        }
        before = name;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_that_leave_the_folder_or_confuse_are_refused_with_the_reason() {
        for (name, reason) in [
            ("../x", "climbs"),
            ("a/../x", "climbs"),
            ("a/./x", "climbs"),
            ("/etc/passwd", "absolute"),
            ("~/x", "absolute"),
            ("a\\x", "backslash"),
            ("C:x", "drive"),
            ("a:stream", "drive"),
            ("a\u{7}", "control"),
            ("a\n", "control"),
            ("a/", "folder entry"),
            ("a//b", "empty part"),
            ("", "empty"),
            ("a.", "dot"),
            ("a/b./c", "dot"),
            ("é", "letters other"),
            ("a b", "letters other"),
            ("a\u{202e}b", "letters other"),
        ] {
            let error = check(name.as_bytes()).unwrap_err().to_string();
            assert!(error.contains(reason), "{name:?}: {error}");
        }
        assert!(check(&[b'a'; limits::PATH + 1]).is_err());
        assert!(check(&[0xff, 0xfe]).unwrap_err().to_string().contains("UTF-8"));
        assert_eq!(check(b"underlath-1/data/log.jsonl").unwrap(), "underlath-1/data/log.jsonl");
    }

    #[test]
    fn pages_have_plain_names_and_an_ending_that_is_known() {
        for (name, may) in [
            ("pages/office.pdf", true),
            ("pages/trade-plumber.pdf", true),
            ("pages/tables.xlsx", true),
            ("pages/conditions.csv", true),
            ("pages/office.exe", false),
            ("pages/Office.pdf", false),
            ("pages/a/b.pdf", false),
            ("pages/.pdf", false),
            ("pages/pdf", false),
            ("pages/a.b.pdf", false),
            ("photos/a.pdf", false),
            ("office.pdf", false),
        ] {
            assert_eq!(is_page(name), may, "{name}");
        }
        assert!(!is_page(&format!("pages/{}.pdf", "a".repeat(61))));
    }

    #[test]
    fn doubles_case_clashes_and_disorder_are_refused() {
        for (names, reason) in
            [(["a", "a"], "twice"), (["A", "a"], "case only"), (["b", "a"], "out of order")]
        {
            assert!(check_all(names).unwrap_err().to_string().contains(reason), "{names:?}");
        }
        assert!(check_all(["A", "b", "b/c"]).is_ok());
    }
}
