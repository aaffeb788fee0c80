//! How an answer in the log is known to come from a household's sheet: by the first words of its remark.
//!
//! An entry has no field for it, and its form is frozen; its remark is read by people and says where it comes from.

use survey::Digest;

/// How the remark of every answer from a sheet begins.
const SHEET: &str = "household’s sheet ";

/// The remark of an answer from a file, with the household's own words to it.
pub fn remark(file: &Digest, words: Option<&str>) -> String {
    let origin = format!("{SHEET}{}", file.short());
    match words {
        Some(words) => format!("{origin}: “{words}”"),
        None => origin,
    }
}

/// Whether a remark says that its answer came from some sheet.
pub fn from_a_sheet(remark: Option<&str>) -> bool {
    remark.is_some_and(|r| r.starts_with(SHEET))
}

/// Whether a remark says that its answer came from this file.
pub fn from_this_file(remark: Option<&str>, file: &Digest) -> bool {
    let own = self::remark(file, None);
    remark.is_some_and(|r| {
        r.strip_prefix(own.as_str()).is_some_and(|rest| rest.is_empty() || rest.starts_with(": "))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_remark_names_its_file_and_only_that() {
        let (a, b) = (Digest::of(b"a"), Digest::of(b"b"));
        for words in [None, Some("about 1962, the neighbor says")] {
            let said = remark(&a, words);
            assert!(from_a_sheet(Some(&said)) && from_this_file(Some(&said), &a));
            assert!(!from_this_file(Some(&said), &b));
        }
        assert!(!from_a_sheet(None) && !from_a_sheet(Some("measured again")) && !from_this_file(None, &a));
    }
}
