//! The texts of a BagIt 1.0 bag (RFC 8493): declaration (section 2.1.1), metadata (2.2.2) and manifests (2.1.3, 2.2.1).

mod info_txt;
mod manifest;

pub(crate) use info_txt::{bag_info, check_bag_info};
pub(crate) use manifest::{Listed, parse_manifest, write_manifest};

use crate::{PacketError, names};

/// The declaration, fixed by RFC 8493 section 2.1.1.
pub(crate) const DECLARATION: &str = "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n";

/// Refuses any declaration but the one written; a higher version is said to be newer.
pub(crate) fn check_declaration(text: &[u8]) -> Result<(), PacketError> {
    if text == DECLARATION.as_bytes() {
        return Ok(());
    }
    let text = String::from_utf8_lossy(text);
    let version = text.lines().next().and_then(|l| l.strip_prefix("BagIt-Version: ")).unwrap_or_default();
    let parts: Vec<u32> = version.split('.').filter_map(|p| p.parse().ok()).collect();
    if parts.len() == 2 && parts > vec![1, 0] {
        let found = version.chars().take(20).collect();
        return Err(PacketError::Newer { file: names::BAGIT, found, known: "1.0" });
    }
    let reason = "this is not the declaration of BagIt 1.0 in UTF-8".to_owned();
    Err(PacketError::Text { file: names::BAGIT, line: None, reason })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_declaration_is_refused_and_a_newer_one_called_newer() {
        assert!(check_declaration(DECLARATION.as_bytes()).is_ok());
        let newer = DECLARATION.replace("1.0", "2.1");
        assert!(matches!(check_declaration(newer.as_bytes()), Err(PacketError::Newer { .. })));
        for text in
            [DECLARATION.replace("1.0", "0.97"), DECLARATION.replace("UTF-8", "UTF-16"), String::new()]
        {
            assert!(matches!(check_declaration(text.as_bytes()), Err(PacketError::Text { .. })), "{text}");
        }
    }
}
