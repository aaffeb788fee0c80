//! States of the key register and versions of the catalog: both only grow, and the last one counts.

use courier::talk::{Published, Text};
use office::OfficeError;
use office::repo::{CatalogRows as _, RegisterRows as _, Repo, Sqlite};

use super::arrivals::{finding, house, packet};
use super::{each, every_kind_of_letter};

pub(crate) fn version(text: &str) -> Published {
    let file = |name: &str| Text { name: name.to_owned(), text: format!("# {text}\n") };
    // Not in the order of their names.
    Published { version: text.to_owned(), files: vec![file("rates/b.toml"), file("a.toml")] }
}

#[test]
fn the_last_state_of_the_register_counts_and_is_the_text_that_was_added() {
    each(|adapter, place| {
        let letters = serde_json::to_string(&every_kind_of_letter()).unwrap();
        // Spaces, the order of members and one that is there twice stay: what was signed is held by its bytes.
        let spaced = format!("\n{{ \"b\" : 1.50, \"a\":{letters},\t\"b\":1e2 }} ");
        let mut repo = place.open();
        assert_eq!(repo.register().unwrap(), None, "{adapter}");
        for state in ["{}", &spaced, "{}", "[2]", &spaced] {
            repo.add_register(state).unwrap();
            assert_eq!(repo.register().unwrap().as_deref(), Some(state), "{adapter}");
            assert_eq!(place.open().register().unwrap().as_deref(), Some(state), "{adapter}");
        }
        repo.begin().unwrap();
        repo.add_register("[3]").unwrap();
        assert_eq!(repo.register().unwrap().as_deref(), Some("[3]"), "{adapter}");
        repo.roll_back().unwrap();
        assert_eq!(repo.register().unwrap(), Some(spaced), "{adapter}");
    });
}

#[test]
fn a_state_of_the_register_that_is_no_json_is_refused() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.add_register("[1]").unwrap();
        for bad in ["", "{", "[1,]", "{a: 1}", "{'a': 1}", "[1] [2]", "[NaN]", "[0x10]", "// nothing\n[1]"] {
            let refused = repo.add_register(bad).unwrap_err();
            assert!(matches!(refused, OfficeError::Database { .. }), "{adapter}, {bad}: {refused}");
            assert_eq!(repo.register().unwrap().as_deref(), Some("[1]"), "{adapter}, {bad}");
        }
    });
}

#[test]
fn a_published_version_comes_back_as_it_was_added() {
    each(|adapter, place| {
        let letters = every_kind_of_letter();
        let text = |name: &str, text: String| Text { name: name.to_owned(), text };
        let files = vec![
            text(&letters, letters.clone()),
            text("large.toml", "rate = 1\r\n".repeat(1 << 17)),
            text("a.toml", String::new()),
        ];
        let one = Published { version: letters, files };
        let two = Published { version: "none".to_owned(), files: vec![] };
        let mut repo = place.open();
        assert_eq!(repo.published().unwrap(), None, "{adapter}");
        repo.add_published(1, &one).unwrap();
        let one_digest = one.digest();
        assert!(place.open().published().unwrap() == Some(one), "{adapter}: 1 MB"); // too long to be told
        repo.add_published(2, &two).unwrap();
        assert_eq!(place.open().published().unwrap(), Some(two.clone()), "{adapter}");
        let numbers = |repo: &dyn Repo| {
            [one_digest, two.digest(), version("unknown").digest()]
                .map(|of| repo.published_number(of).unwrap())
        };
        assert_eq!(numbers(place.open().as_ref()), [Some(1), Some(2), None], "{adapter}");
    });
}

#[test]
fn a_version_is_added_under_a_higher_number_or_refused() {
    each(|adapter, place| {
        let mut repo = place.open();
        assert!(repo.add_published(0, &version("0")).is_err(), "{adapter}: they are counted from 1");
        assert_eq!(repo.published().unwrap(), None, "{adapter}");
        // An office that came back from a backup may leave numbers out.
        for (last, refused) in [(1, vec![0, 1]), (2, vec![0, 1, 2]), (9, vec![1, 2, 3, 8, 9]), (10, vec![10])]
        {
            repo.add_published(last, &version(&last.to_string())).unwrap();
            for number in refused {
                let refused = repo.add_published(number, &version("refused")).unwrap_err();
                assert!(matches!(refused, OfficeError::Database { .. }), "{adapter}: {refused}");
                assert_eq!(
                    repo.published().unwrap(),
                    Some(version(&last.to_string())),
                    "{adapter}, {number}"
                );
            }
        }
        repo.begin().unwrap();
        repo.add_published(11, &version("forgotten")).unwrap();
        repo.roll_back().unwrap();
        assert_eq!(repo.published().unwrap(), Some(version("10")), "{adapter}");
        repo.add_published(11, &version("11")).unwrap();
        assert_eq!(place.open().published().unwrap(), Some(version("11")), "{adapter}");
    });
}

#[test]
fn a_copy_holds_packets_findings_register_and_catalog() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.add_packet(&packet(1, 1, 1), b"forecast").unwrap();
        repo.add_finding(house(1), &finding("first")).unwrap();
        repo.add_register("[1]").unwrap();
        repo.add_published(1, &version("one")).unwrap();
        let file = place.dir.path().join("copy");
        repo.copy_into(&file).unwrap();
        let mut copy: Box<dyn office::repo::Repo> = Box::new(Sqlite::open(&file).unwrap());
        assert_eq!(copy.packets().unwrap(), repo.packets().unwrap(), "{adapter}");
        assert_eq!(
            copy.forecast(packet(1, 1, 1).digest).unwrap().as_deref(),
            Some(&b"forecast"[..]),
            "{adapter}"
        );
        assert_eq!(copy.findings(house(1)).unwrap(), repo.findings(house(1)).unwrap(), "{adapter}");
        assert_eq!(copy.register().unwrap().as_deref(), Some("[1]"), "{adapter}");
        assert_eq!(copy.published().unwrap(), Some(version("one")), "{adapter}");
        assert_eq!(copy.add_packet(&packet(1, 1, 2), b"").unwrap(), 3, "{adapter}: the count goes on");
        assert_eq!(repo.packets().unwrap().len(), 1, "{adapter}: in the copy alone");
    });
}

/// Beside the trait: whatever writes past it is stopped by the database, and so is a number its column cannot hold.
#[test]
fn no_statement_changes_removes_or_replaces_a_state_of_the_register_or_a_version() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("office.sqlite");
    let mut repo = Sqlite::open(&file).unwrap();
    repo.add_register("[1]").unwrap();
    repo.add_published(2, &version("two")).unwrap();
    let raw = rusqlite::Connection::open(&file).unwrap();
    for (sql, why) in [
        ("UPDATE register SET body = '[2]'", "never changed"),
        ("DELETE FROM register", "never removed"),
        ("INSERT OR REPLACE INTO register VALUES (1, '[2]')", "never replaced"),
        ("UPDATE catalog_version SET number = 3", "never changed"),
        ("DELETE FROM catalog_version", "never removed"),
        ("INSERT OR REPLACE INTO catalog_version VALUES (2, 'other', '[]')", "never replaced"),
        ("INSERT INTO catalog_version VALUES (1, 'other', '[]')", "never replaced"),
    ] {
        let refused = raw.execute(sql, []).unwrap_err().to_string();
        assert!(refused.contains(why), "{sql}: {refused}");
    }
    for number in [1 << 63, u64::MAX] {
        assert!(repo.add_published(number, &version("too high")).is_err(), "{number}");
    }
    assert_eq!(repo.register().unwrap().as_deref(), Some("[1]"));
    assert_eq!(repo.published().unwrap(), Some(version("two")));
}
