//! Manifests: one line per file, its sum in hexadecimal, two spaces, its path; in bytewise order of the paths.

use std::collections::BTreeMap;

use crate::{PacketError, names};

/// Path to sum.
pub(crate) type Listed = BTreeMap<String, String>;

/// The text of a manifest.
pub(crate) fn write_manifest<'a>(files: impl IntoIterator<Item = (&'a str, String)>) -> String {
    let mut files: Vec<(&str, String)> = files.into_iter().collect();
    files.sort();
    files.iter().map(|(path, sum)| format!("{sum}  {path}\n")).collect()
}

/// Reads a manifest of sums with so many hexadecimal digits strictly: the one spelling [`write_manifest`] has, safe
/// paths, no path twice.
pub(crate) fn parse_manifest(file: &'static str, text: &[u8], digits: usize) -> Result<Listed, PacketError> {
    let bad = |line: Option<usize>, reason: &str| PacketError::Text {
        file,
        line: line.map(|n| n as u64 + 1),
        reason: reason.to_owned(),
    };
    let text = core::str::from_utf8(text).map_err(|_| bad(None, "this is not UTF-8"))?;
    if !text.ends_with('\n') {
        return Err(bad(None, "the last line has no end"));
    }
    let mut out = Listed::new();
    for (n, line) in text.split_terminator('\n').enumerate() {
        let (sum, path) =
            line.split_once("  ").ok_or_else(|| bad(Some(n), "a line is a sum, two spaces and a path"))?;
        let hexadecimal = sum.bytes().all(|c| c.is_ascii_digit() || (b'a'..=b'f').contains(&c));
        if sum.len() != digits || !hexadecimal {
            return Err(bad(Some(n), &format!("a sum has {digits} lower-case hexadecimal digits")));
        }
        let path = names::check(path.as_bytes())?;
        if out.last_key_value().is_some_and(|(before, _)| before.as_str() >= path) {
            return Err(bad(Some(n), "a path comes twice or out of order"));
        }
        out.insert(path.to_owned(), sum.to_owned());
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use survey::Digest;

    #[test]
    fn a_manifest_reads_back_and_is_sorted() {
        let (a, b) = (Digest::of(b"a").hex(), Digest::of(b"b").hex());
        let text = write_manifest([("data/b", b.clone()), ("data/a", a.clone())]);
        assert!(text.starts_with(&format!("{a}  data/a\n")));
        let read = parse_manifest("m", text.as_bytes(), 64).unwrap();
        assert_eq!(read.into_iter().collect::<Vec<_>>(), [("data/a".into(), a), ("data/b".into(), b)]);
    }

    #[test]
    fn other_spellings_doubles_and_unsafe_paths_are_refused() {
        let d = Digest::of(b"a").hex();
        for text in [
            format!("{d} data/a\n"),
            format!("{d}  data/a"),
            format!("{d}  data/a\r\n"),
            format!("{d} *data/a\n"),
            format!("{}  data/a\n", d.to_uppercase()),
            format!("{d}  data/a\n{d}  data/a\n"),
            format!("{d}  data/b\n{d}  data/a\n"),
            format!("{d}  ../a\n"),
            format!("{d}  /etc/passwd\n"),
            format!("{d}  data\\a\n"),
            format!("{d}   data/a\n"),
            "\n".to_owned(),
            String::new(),
        ] {
            assert!(parse_manifest("m", text.as_bytes(), 64).is_err(), "{text:?}");
        }
        assert!(parse_manifest("m", b"\xff\n", 64).is_err());
        let long = format!("{d}{d}  data/a\n");
        assert!(parse_manifest("m", long.as_bytes(), 128).is_ok());
        assert!(parse_manifest("m", long.as_bytes(), 64).is_err());
    }
}
