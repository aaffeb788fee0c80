//! A version of the catalog lists files that can lie in an overlay, and no others.

use keys::{CatalogFile, CatalogVersion, KeyError, Signed, Signer as _, is_overlay_file};
use survey::{Digest, SurveyId};

use crate::{at, key};

fn version(files: Vec<CatalogFile>) -> CatalogVersion {
    CatalogVersion {
        number: 1,
        made_at: at("2026-04-12T09:00:00.000-05:00"),
        by: "Rosa Ames".to_owned(),
        firm: "Hale & Daughter".to_owned(),
        extends: Digest::of(b"shipped"),
        becomes: Digest::of(b"whole"),
        houses: vec![SurveyId::new(1, &[7; 10])],
        files,
    }
}

fn refused(version: CatalogVersion) -> KeyError {
    Signed::new(version, &key(1)).unwrap_err()
}

#[test]
fn files_of_an_overlay_are_told_by_their_names() {
    for name in
        ["firm.toml", "learned.toml", "a/b/c/d.toml", "words/es/own.ftl", "Own-2_x.y.toml", "words/es/a.toml"]
    {
        assert!(is_overlay_file(name), "{name}");
    }
    let long = format!("{}.toml", "a".repeat(60));
    for name in [
        "",
        ".toml",
        "firm",
        "firm.txt",
        "../firm.toml",
        "a/../firm.toml",
        "./firm.toml",
        "/firm.toml",
        "a//b.toml",
        "a/b/c/d/e.toml",
        "C:\\firm.toml",
        "a\\b.toml",
        "con.toml",
        "Aux.a.toml",
        "com1.toml",
        "LPT9.toml",
        "firm.toml.",
        "firm .toml",
        "fírm.toml",
        "fi\0rm.toml",
        "words/own.ftl",
        "words/spanish/own.ftl",
        "words/es/a/own.ftl",
        "other/es/own.ftl",
        &long,
    ] {
        assert!(!is_overlay_file(name), "{name}");
    }
}

#[test]
fn a_version_is_read_as_it_was_signed_and_only_within_its_limits() {
    let file = |name: &str| CatalogFile::of(name, "x = 1\n");
    let signed = Signed::new(version(vec![file("a.toml"), file("b.toml")]), &key(1)).unwrap();
    let read = Signed::<CatalogVersion>::read(signed.text()).unwrap();
    assert_eq!(read.by_key(key(1).public()).unwrap(), signed.claimed());
    assert!(matches!(read.by_key(key(2).public()), Err(KeyError::Kid { .. })));
    // A text of another kind is none, whoever signed it.
    assert!(matches!(Signed::<keys::Receipt>::read(signed.text()), Err(KeyError::Kind { .. })));

    let large = |bytes| CatalogFile { bytes, ..file("a.toml") };
    for (what, files) in [
        ("up and out", vec![file("../a.toml")]),
        ("out of order", vec![file("b.toml"), file("a.toml")]),
        ("twice", vec![file("a.toml"), file("a.toml")]),
        ("twice but for capitals", vec![file("A.toml"), file("a.toml")]),
    ] {
        assert!(matches!(refused(version(files)), KeyError::Contents(_)), "{what}");
    }
    assert_eq!(refused(version(vec![large((1 << 20) + 1)])), KeyError::TooLong);
    let many = |n: usize, bytes| {
        (0..n).map(|i| CatalogFile { bytes, ..file(&format!("a{i:03}.toml")) }).collect::<Vec<_>>()
    };
    assert_eq!(refused(version(many(201, 1))), KeyError::TooLong);
    assert_eq!(refused(version(many(5, 1 << 20))), KeyError::TooLong);
    assert_eq!(refused(version(many(3, u64::MAX / 2))), KeyError::TooLong);
    assert!(matches!(refused(CatalogVersion { number: 0, ..version(Vec::new()) }), KeyError::Contents(_)));
    assert!(matches!(
        refused(CatalogVersion { by: " ".to_owned(), ..version(Vec::new()) }),
        KeyError::Contents(_)
    ));
}
