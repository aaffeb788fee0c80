use proptest::prelude::*;

use super::*;

/// A text with some bytes changed, taken out, doubled or put in.
fn bent(mut text: Vec<u8>, edits: &[(u8, prop::sample::Index, u8)]) -> Vec<u8> {
    for (how, at, byte) in edits {
        if text.is_empty() {
            break;
        }
        let at = at.index(text.len());
        match how % 5 {
            0 => text[at] = *byte,
            1 => text[at] ^= 1 << (byte % 8),
            2 => drop(text.drain(at..text.len().min(at + usize::from(*byte)))),
            3 => text.insert(at, *byte),
            _ => {
                let part = text[at..text.len().min(at + usize::from(*byte))].to_vec();
                text.splice(at..at, part);
            }
        }
    }
    text
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn no_bytes_make_opening_fail_in_another_way_than_by_refusing(
        edits in prop::collection::vec((any::<u8>(), any::<prop::sample::Index>(), any::<u8>()), 0..6),
    ) {
        opened(&bent(signed_house(), &edits));
    }

    #[test]
    fn nor_do_texts_that_somebody_with_the_key_bends(
        which in any::<u8>(),
        edits in prop::collection::vec((any::<u8>(), any::<prop::sample::Index>(), any::<u8>()), 0..6),
    ) {
        let texts: Vec<&Vec<u8>> =
            SIGNED.1.iter().filter(|(name, _)| names::held(name)).map(|(_, text)| text).collect();
        let text = texts[usize::from(which) % texts.len()].clone();
        resealed(&[vec![which], bent(text, &edits)].concat());
    }
}

#[test]
fn the_texts_as_they_are_open_again() {
    assert!(check(&signed_house()).unwrap().household.is_some());
    for (which, (name, text)) in (0u8..).zip(SIGNED.1.iter().filter(|(name, _)| names::held(name))) {
        resealed(&[vec![which], text.clone()].concat());
        let (folder, mut files) = SIGNED.clone();
        files.insert(name.clone(), text.clone());
        mend(&mut files);
        assert!(check(&pack(&folder, &files)).is_ok(), "{name}");
    }
}

/// What the fuzz targets begin with; `UPDATE_EXPECTED=1` writes it.
#[test]
fn the_corpus_is_a_packet_as_it_is_sealed_today() {
    let corpus = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../fuzz/corpus");
    let mut cases = vec![("opening/signed".to_owned(), signed_house())];
    for (which, (name, text)) in (0u8..).zip(SIGNED.1.iter().filter(|(name, _)| names::held(name))) {
        let name = name.replace(['/', '.'], "-");
        cases.push((format!("resealed/{name}"), [vec![which], text.clone()].concat()));
    }
    for (name, bytes) in cases {
        let path = corpus.join(name);
        #[allow(clippy::disallowed_methods, reason = "whoever runs the tests asks for it")]
        if std::env::var_os("UPDATE_EXPECTED").is_some() {
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(&path, &bytes).unwrap();
        }
        assert!(std::fs::read(&path).is_ok_and(|there| there == bytes), "{}", path.display());
    }
}
