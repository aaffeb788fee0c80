//! `bag-info.txt`: a function of `data/packet.json` and the payload, so that opening can compare every letter of it.
//! Its wording belongs to format version 1: changing it needs a new version.

use crate::{Info, PacketError, names};

/// The text; `bytes` and `files` are the payload's (the Payload-Oxum of RFC 8493 section 2.2.2).
pub(crate) fn bag_info(info: &Info, bytes: u64, files: u64) -> String {
    let (year, month, day, ..) = info.sealed_at.wall();
    let label = one_line(&info.label);
    let mut out = format!(
        "Bag-Software-Agent: {}\nBagging-Date: {year:04}-{month:02}-{day:02}\n\
         External-Description: Survey of concealed conditions, packet {} of {label}\n\
         External-Identifier: {}\nPayload-Oxum: {bytes}.{files}\n",
        one_line(&info.software),
        info.number,
        info.survey,
    );
    if let Some(name) = &info.organization {
        out.push_str(&format!("Source-Organization: {}\n", one_line(name)));
    }
    let pages = match info.pages.as_slice() {
        [] => "none; sealed by a program built without them".to_owned(),
        list => list.iter().map(|name| names::page(name)).collect::<Vec<_>>().join(" "),
    };
    out.push_str(&format!("Underlath-Pages: {pages}\n"));
    out
}

/// Compares `found` with what [`bag_info`] writes, naming the first line that differs.
pub(crate) fn check_bag_info(found: &[u8], expected: &str) -> Result<(), PacketError> {
    if found == expected.as_bytes() {
        return Ok(());
    }
    let found = String::from_utf8_lossy(found);
    let pairs = found.lines().map(Some).chain(core::iter::repeat(None)).zip(expected.lines());
    let first = pairs.enumerate().find(|(_, (found, wanted))| *found != Some(wanted));
    let (line, reason) = match first {
        Some((n, (_, wanted))) => {
            let key = wanted.split(':').next().unwrap_or_default();
            (Some(n as u64 + 1), format!("{key} does not agree with the files of the packet"))
        }
        None => (None, "something follows its last line".to_owned()),
    };
    Err(PacketError::Text { file: names::BAG_INFO, line, reason })
}

/// People's words on one line: control characters and runs of spaces become one space.
fn one_line(text: &str) -> String {
    let spaced: String = text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_people_cannot_begin_a_line_of_their_own() {
        assert_eq!(one_line("12 Oak St\nPayload-Oxum: 0.0\r\n\t x"), "12 Oak St Payload-Oxum: 0.0 x");
    }

    #[test]
    fn the_line_that_differs_is_named() {
        let error = check_bag_info(b"A: 1\nB: 3\n", "A: 1\nB: 2\n").unwrap_err().to_string();
        assert_eq!(error, "bag-info.txt, line 2: B does not agree with the files of the packet");
        assert!(check_bag_info(b"A: 1\n", "A: 1\nB: 2\n").unwrap_err().to_string().contains("B does not"));
        assert!(check_bag_info(b"A: 1\nX: 2\n", "A: 1\n").is_err());
        assert!(check_bag_info(b"A: 1", "A: 1\n").is_err());
    }
}
