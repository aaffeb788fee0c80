//! What the office's records must do, wherever they lie. Another adapter is held to it by one more line in `adapters`.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

#[path = "repo_behaviour/arrivals.rs"]
mod arrivals;
#[path = "repo_behaviour/keys.rs"]
mod keys;
#[path = "repo_behaviour/together.rs"]
mod together;

use office::OfficeError;
use office::people::{AuditLine, Deed, Kept, Person, PersonId, Role, Second, Session};
use office::repo::{Known, PeopleRows as _, Repo, Sqlite, TabletRows as _};
use office::tablets::{Holds, Invitation, Tablet, TabletId};
use survey::{Digest, Stamp, SurveyId};
use tempfile::TempDir;

/// An empty place, as often opened as wanted.
struct Place {
    dir: TempDir,
    open: fn(&TempDir) -> Box<dyn Repo>,
}

impl Place {
    fn open(&self) -> Box<dyn Repo> {
        (self.open)(&self.dir)
    }
}

/// One empty place for each adapter.
fn adapters() -> Vec<(&'static str, Place)> {
    let sqlite = |dir: &TempDir| -> Box<dyn Repo> {
        Box::new(Sqlite::open(&dir.path().join("office.sqlite")).unwrap())
    };
    vec![("sqlite", Place { dir: tempfile::tempdir().unwrap(), open: sqlite })]
}

fn each(holds: impl Fn(&str, &Place)) {
    for (name, place) in adapters() {
        holds(name, &place);
    }
}

fn at(minute: u32) -> Stamp {
    format!("2026-04-14T09:{minute:02}:00-05:00").parse().unwrap()
}

/// What a text may be made of: control characters and quotes, letters beyond every length of UTF-8, both spellings of an é,
/// joined and right-to-left signs, what is no character at all. Only U+0000 is left out, which not every database takes.
fn every_kind_of_letter() -> String {
    let first = ('\u{1}'..='\u{2FF}').collect::<String>();
    first
        + "\u{E9} e\u{301} \u{202E}\u{5E9}\u{5DC}\u{202C} \u{738B} \u{1F469}\u{200D}\u{1F527} \u{7FF}\u{800}\u{D7FF}\u{E000}\u{FEFF}\u{FFFD}\u{FFFF}\u{10000}\u{10FFFF}"
}

fn person(n: u8, name: &str, role: Role) -> Person {
    let kept = Kept { memory_kib: 19_456, passes: 2, lanes: 1, salt: [n; 16], hash: [n; 32] };
    Person {
        id: PersonId([n; 16]),
        name: name.to_owned(),
        folded: name.to_lowercase(),
        role,
        since: at(u32::from(n)),
        removed: None,
        password: Some(kept),
        failures: 0,
        last_failure: 0,
        first_password: false,
        second: None,
    }
}

fn line(who: Option<PersonId>, what: Deed, minute: u32) -> AuditLine {
    let (about, address) = (Some("about".to_owned()), Some("2001:db8::1".parse().unwrap()));
    AuditLine { n: 77, at: at(minute), who, what, about, address }
}

#[test]
fn what_is_kept_is_there_when_it_is_opened_again() {
    each(|adapter, place| {
        let (rosa, luis) = (person(1, "Rosa Ames", Role::Owner), person(2, "Luis Pardo", Role::Office));
        let mut repo = place.open();
        assert_eq!((repo.firm().unwrap(), repo.people().unwrap()), (None, vec![]), "{adapter}");
        repo.begin().unwrap();
        repo.set_firm("Hale").unwrap();
        assert!(!repo.second_demanded().unwrap(), "{adapter}");
        repo.demand_second(true).unwrap();
        repo.set_firm("Hale & Daughter").unwrap();
        repo.add_person(&luis).unwrap();
        repo.add_person(&rosa).unwrap();
        repo.commit().unwrap();
        drop(repo);
        let repo = place.open();
        assert_eq!(repo.firm().unwrap().as_deref(), Some("Hale & Daughter"), "{adapter}");
        assert!(repo.second_demanded().unwrap(), "{adapter}: another name of the firm leaves it");
        assert_eq!(repo.people().unwrap(), [rosa.clone(), luis.clone()], "{adapter}: in the order they came");
        assert_eq!(repo.person(luis.id).unwrap(), Some(luis), "{adapter}");
        assert_eq!(repo.person_called("rosa ames").unwrap(), Some(rosa), "{adapter}");
        assert_eq!(repo.person_called("Rosa Ames").unwrap(), None, "{adapter}: by the folded name");
        assert_eq!(repo.person(PersonId([9; 16])).unwrap(), None, "{adapter}");
        repo.check().unwrap();
    });
}

#[test]
fn what_is_rolled_back_was_never_there() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.begin().unwrap();
        repo.set_firm("Hale").unwrap();
        repo.add_person(&person(1, "Rosa Ames", Role::Owner)).unwrap();
        repo.add_audit(&line(Some(PersonId([1; 16])), Deed::SetUp, 1)).unwrap();
        repo.roll_back().unwrap();
        assert_eq!((repo.firm().unwrap(), repo.people().unwrap()), (None, vec![]), "{adapter}");
        assert_eq!(repo.audit(None, 10).unwrap(), [], "{adapter}");
        repo.begin().unwrap();
        repo.set_firm("Hale").unwrap();
        drop(repo); // as if the program had been killed
        assert_eq!(place.open().firm().unwrap(), None, "{adapter}");
    });
}

#[test]
fn two_people_never_share_a_name_but_a_name_of_somebody_gone_is_free() {
    each(|adapter, place| {
        let mut repo = place.open();
        let mut first = person(1, "Rosa Ames", Role::Owner);
        repo.add_person(&first).unwrap();
        let second = person(2, "Rosa Ames", Role::Office);
        let refused = repo.add_person(&second).unwrap_err();
        assert!(matches!(refused, OfficeError::Database { .. }), "{adapter}: {refused}");
        first.role = Role::Reviewer;
        first.second = Some(Second { secret: [7; 20], last: 59_000_000 });
        first.failures = 3;
        first.last_failure = -5;
        repo.change_person(&first).unwrap();
        assert_eq!(repo.person(first.id).unwrap(), Some(first.clone()), "{adapter}");
        first.removed = Some(at(30));
        first.password = None;
        first.second = None;
        repo.change_person(&first).unwrap();
        assert_eq!(repo.people().unwrap(), [], "{adapter}");
        assert_eq!(repo.person(first.id).unwrap(), Some(first.clone()), "{adapter}: the log names them");
        repo.add_person(&second).unwrap();
        let mut back = first.clone();
        back.removed = None;
        back.password = second.password.clone();
        assert!(repo.change_person(&back).is_err(), "{adapter}: gone is gone");
        assert!(repo.change_person(&person(9, "Nobody", Role::Office)).is_err(), "{adapter}");
        let mut none = person(3, "No Password", Role::Office);
        none.password = None;
        assert!(repo.add_person(&none).is_err(), "{adapter}: whoever is here has a password");
    });
}

#[test]
fn sessions_come_and_go() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.add_person(&person(1, "Rosa Ames", Role::Owner)).unwrap();
        repo.add_person(&person(2, "Luis Pardo", Role::Office)).unwrap();
        let session = |n: u8, who: u8, started: i64, seen: i64| Session {
            hash: [n; 32],
            person: PersonId([who; 16]),
            started,
            seen,
            from: n.is_multiple_of(2).then(|| "2001:db8::7".parse().unwrap()),
        };
        for one in
            [session(1, 1, 10, 10), session(2, 1, 20, 90), session(3, 2, 30, 40), session(4, 2, 50, 60)]
        {
            repo.add_session(&one).unwrap();
            assert_eq!(repo.session(&one.hash).unwrap(), Some(one), "{adapter}");
            let of = repo.sessions_of(PersonId([2; 16])).unwrap();
            assert!(of.is_sorted_by_key(|one| one.started), "{adapter}");
        }
        assert!(repo.add_session(&session(5, 9, 0, 0)).is_err(), "{adapter}: of nobody");
        repo.see_session(&[1; 32], 95).unwrap();
        assert_eq!(repo.session(&[1; 32]).unwrap(), Some(session(1, 1, 10, 95)), "{adapter}");
        let of = |who: u8| repo.sessions_of(PersonId([who; 16])).unwrap().len();
        assert_eq!((of(1), of(2), of(9)), (2, 2, 0), "{adapter}");
        let there = |repo: &dyn Repo| -> Vec<u8> {
            (1..=5).filter(|n| repo.session(&[*n; 32]).unwrap().is_some()).collect()
        };
        repo.end_sessions_before(11, 41).unwrap();
        assert_eq!(there(repo.as_ref()), [2, 4], "{adapter}");
        repo.end_sessions_of(PersonId([2; 16])).unwrap();
        assert_eq!(there(repo.as_ref()), [2], "{adapter}");
        repo.end_session(&[2; 32]).unwrap();
        repo.end_session(&[2; 32]).unwrap();
        assert_eq!(there(repo.as_ref()), Vec::<u8>::new(), "{adapter}");
    });
}

fn tablet(n: u8, minute: u32) -> Tablet {
    Tablet {
        id: TabletId([n; 16]),
        name: format!("Tablet {n}"),
        hash: [n; 32],
        key: "thumbprint".to_owned(),
        paired_at: at(minute),
        paired_by: PersonId([1; 16]),
        last_seen: None,
        revoked_at: None,
        holds: None,
        handed: None,
    }
}

#[test]
fn tablets_are_known_by_their_secret_and_stay_revoked() {
    each(|adapter, place| {
        let mut repo = place.open();
        assert!(repo.add_tablet(&tablet(1, 1)).is_err(), "{adapter}: invited by nobody");
        repo.add_person(&person(1, "Rosa Ames", Role::Owner)).unwrap();
        let (late, mut early) = (tablet(1, 5), tablet(2, 2));
        repo.add_tablet(&late).unwrap();
        repo.add_tablet(&early).unwrap();
        assert!(
            repo.add_tablet(&Tablet { id: TabletId([3; 16]), ..late.clone() }).is_err(),
            "{adapter}: two secrets"
        );
        drop(repo);
        let mut repo = place.open();
        assert_eq!(
            repo.tablets().unwrap(),
            [early.clone(), late.clone()],
            "{adapter}: in the order they came"
        );
        assert_eq!(repo.tablet_of(&[1; 32]).unwrap(), Some(late.clone()), "{adapter}");
        assert_eq!(
            (repo.tablet_of(&[9; 32]).unwrap(), repo.tablet(TabletId([9; 16])).unwrap()),
            (None, None)
        );
        early.last_seen = Some(at(7));
        repo.change_tablet(&early).unwrap();
        for (holds, handed) in [
            (Holds::Nothing, Some(1)),
            (Holds::Version(1), None),
            (Holds::Version(7), Some(u32::MAX.into())),
            (Holds::Another, None),
        ] {
            (early.holds, early.handed) = (Some(holds), handed);
            repo.change_tablet(&early).unwrap();
            assert_eq!(place.open().tablet(early.id).unwrap(), Some(early.clone()), "{adapter}");
        }
        assert_eq!(repo.tablet(late.id).unwrap(), Some(late.clone()), "{adapter}: no other is changed");
        early.revoked_at = Some(at(8));
        repo.change_tablet(&early).unwrap();
        assert_eq!(repo.tablet(early.id).unwrap(), Some(early.clone()), "{adapter}");
        assert!(
            repo.change_tablet(&Tablet { revoked_at: None, ..early.clone() }).is_err(),
            "{adapter}: revoked is revoked"
        );
        assert!(repo.change_tablet(&tablet(9, 1)).is_err(), "{adapter}: there is none");
    });
}

#[test]
fn invitations_end_by_name_and_by_time() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.add_person(&person(1, "Rosa Ames", Role::Owner)).unwrap();
        let one = |n: u8, until: i64| Invitation {
            name: [n; 8],
            hash: [n; 32],
            made_by: PersonId([1; 16]),
            until,
            wrong: u32::from(n),
        };
        for invitation in [one(1, 10), one(2, 20), one(3, 30)] {
            repo.add_invitation(&invitation).unwrap();
            assert_eq!(repo.invitation(&invitation.name).unwrap(), Some(invitation), "{adapter}");
        }
        assert!(repo.add_invitation(&one(1, 40)).is_err(), "{adapter}: two of one name");
        repo.end_invitations_before(20).unwrap();
        repo.end_invitation(&[9; 8]).unwrap();
        let there: Vec<u8> = (1..=3).filter(|n| repo.invitation(&[*n; 8]).unwrap().is_some()).collect();
        assert_eq!(there, [3], "{adapter}");
        repo.end_invitation(&[3; 8]).unwrap();
        assert_eq!(repo.invitation(&[3; 8]).unwrap(), None, "{adapter}");
    });
}

#[test]
fn known_bytes_stay_where_they_were_noted_first_until_they_are_forgotten() {
    each(|adapter, place| {
        let mut repo = place.open();
        let (digest, first) = (Digest::of(b"photo"), Known { packet: Digest::of(b"1"), at: 7, bytes: 5 });
        assert_eq!(repo.known(digest).unwrap(), None, "{adapter}");
        repo.keep_known(digest, &first).unwrap();
        repo.keep_known(digest, &Known { packet: Digest::of(b"2"), ..first }).unwrap();
        assert_eq!(repo.known(digest).unwrap(), Some(first), "{adapter}");
        repo.forget_known(digest).unwrap();
        assert_eq!(repo.known(digest).unwrap(), None, "{adapter}");
    });
}

#[test]
fn the_audit_log_counts_its_lines_and_gives_them_from_either_end() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.add_person(&person(1, "Rosa Ames", Role::Owner)).unwrap();
        for (n, what) in Deed::ALL.into_iter().enumerate() {
            let n = n as u32 + 1;
            let who = n.is_multiple_of(2).then_some(PersonId([1; 16]));
            assert_eq!(repo.add_audit(&line(who, what, n)).unwrap(), u64::from(n), "{adapter}");
        }
        let all = repo.audit(None, 100).unwrap();
        let count = Deed::ALL.len() as u32;
        let expected: Vec<AuditLine> = (1..=count)
            .rev()
            .map(|n| {
                let who = n.is_multiple_of(2).then_some(PersonId([1; 16]));
                AuditLine { n: u64::from(n), ..line(who, Deed::ALL[n as usize - 1], n) }
            })
            .collect();
        assert_eq!(all, expected, "{adapter}");
        let few = repo.audit(Some(5), 2).unwrap();
        assert_eq!(few.iter().map(|l| l.n).collect::<Vec<_>>(), [4, 3], "{adapter}");
        let after = repo.audit_after(u64::from(count) - 2, 9).unwrap();
        assert_eq!(after, [all[1].clone(), all[0].clone()], "{adapter}: the oldest first");
        assert_eq!(
            repo.audit_after(3, 2).unwrap().iter().map(|l| l.n).collect::<Vec<_>>(),
            [4, 5],
            "{adapter}"
        );
        assert_eq!(repo.audit_after(u64::MAX, 2).unwrap(), [], "{adapter}");
        assert_eq!(repo.audit(Some(1), 2).unwrap(), [], "{adapter}");
        assert_eq!(repo.audit(Some(u64::MAX), 1).unwrap().len(), 1, "{adapter}");
    });
}

#[test]
fn a_copy_holds_what_was_kept_and_is_never_written_over() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.set_firm("Hale").unwrap();
        let file = place.dir.path().join("copy");
        repo.copy_into(&file).unwrap();
        repo.set_firm("Another").unwrap();
        let copy = Sqlite::open(&file).unwrap();
        assert_eq!(copy.firm().unwrap().as_deref(), Some("Hale"), "{adapter}");
        assert!(repo.copy_into(&file).is_err(), "{adapter}");
    });
}

/// Beside the trait: whatever writes past it is stopped by the database.
#[test]
fn no_statement_changes_or_removes_a_line_of_the_audit_log_or_deletes_a_person() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("office.sqlite");
    let mut repo = Sqlite::open(&file).unwrap();
    repo.add_person(&person(1, "Rosa Ames", Role::Owner)).unwrap();
    repo.add_tablet(&tablet(1, 1)).unwrap();
    repo.add_audit(&line(Some(PersonId([1; 16])), Deed::SetUp, 1)).unwrap();
    let raw = rusqlite::Connection::open(&file).unwrap();
    for sql in [
        "UPDATE audit SET what = 'signed-in'",
        "DELETE FROM audit",
        "INSERT OR REPLACE INTO audit (n, at, what) VALUES (1, '2026-04-14T09:30:00-05:00', 'signed-in')",
        "DELETE FROM person",
        "UPDATE person SET role = 'king'",
        "DELETE FROM tablet",
    ] {
        assert!(raw.execute(sql, []).is_err(), "{sql}");
    }
    assert_eq!(repo.audit(None, 10).unwrap().len(), 1);
}

#[test]
fn a_closed_house_has_the_readers_it_was_closed_to_last() {
    each(|adapter, place| {
        let (rosa, luis) = (person(1, "Rosa Ames", Role::Owner), person(2, "Luis Pardo", Role::Office));
        let house = |n: u8| SurveyId::from_bytes([n; 16]);
        let mut repo = place.open();
        repo.add_person(&rosa).unwrap();
        repo.add_person(&luis).unwrap();
        assert_eq!(repo.closed_houses().unwrap(), [], "{adapter}");
        repo.close_house(house(2), &[luis.id, rosa.id]).unwrap();
        repo.close_house(house(1), &[]).unwrap();
        let both = [(house(1), vec![]), (house(2), vec![rosa.id, luis.id])];
        assert_eq!(repo.closed_houses().unwrap(), both, "{adapter}");
        drop(repo);
        let mut repo = place.open();
        repo.close_house(house(2), &[luis.id]).unwrap();
        repo.open_house(house(1)).unwrap();
        repo.open_house(house(3)).unwrap();
        assert_eq!(repo.closed_houses().unwrap(), [(house(2), vec![luis.id])], "{adapter}");
        assert!(
            repo.close_house(house(2), &[PersonId([9; 16])]).is_err(),
            "{adapter}: nobody by that number"
        );
        repo.forget_reader(luis.id).unwrap();
        assert_eq!(repo.closed_houses().unwrap(), [(house(2), vec![])], "{adapter}");
        repo.open_house(house(2)).unwrap();
        assert_eq!(repo.closed_houses().unwrap(), [], "{adapter}");
        repo.check().unwrap();
    });
}
