//! Packets and findings: what comes back, what is refused, and the one count that both share.

use office::OfficeError;
use office::repo::{Entered, FindingRows as _, PacketRows as _, Received, Repo, Sqlite};
use review::{Finding, Outcome, PaidBy};
use survey::units::Money;
use survey::{DeviceId, Digest, Stamp, SurveyId};

use super::{at, each, every_kind_of_letter};

pub(crate) fn house(n: u8) -> SurveyId {
    SurveyId::from_bytes([n; 16])
}

/// A packet whose place is given by nobody: what it says of it does not count.
pub(crate) fn packet(of: u8, device: u8, number: u32) -> Received {
    Received {
        digest: Digest::of(format!("{of}, {device}, {number}").as_bytes()),
        survey: house(of),
        device: DeviceId::from_bytes([device; 16]),
        number,
        label: format!("House {of}"),
        sealed_at: at(50 - number % 50),
        received_at: at(50 - number % 50),
        position: 77,
        bytes: 5,
        vouched: true,
        after_demolition: false,
    }
}

pub(crate) fn finding(note: &str) -> Finding {
    Finding {
        condition: "knob-and-tube".to_owned(),
        outcome: Outcome::NotThere,
        cost: Money::ZERO,
        days: 0.0,
        priced_before_signing: false,
        paid_by: None,
        note: note.to_owned(),
        photo: None,
        by: "Rosa Ames".to_owned(),
        at: at(5),
    }
}

/// Every place in the count that was given, of these houses.
pub(crate) fn places(repo: &dyn Repo, houses: &[u8]) -> Vec<u64> {
    let findings = houses.iter().flat_map(|n| repo.findings(house(*n)).unwrap()).map(|f| f.position);
    let mut all: Vec<u64> = repo.packets().unwrap().iter().map(|p| p.position).chain(findings).collect();
    all.sort_unstable();
    all
}

fn numbers(packets: &[Received]) -> Vec<(u64, u32)> {
    packets.iter().map(|p| (p.position, p.number)).collect()
}

#[test]
fn a_packet_comes_back_as_it_was_added_with_every_byte_of_its_forecast() {
    each(|adapter, place| {
        let mut one = Received {
            label: every_kind_of_letter(),
            sealed_at: "0000-01-01T00:00:00.001+13:45".parse::<Stamp>().unwrap(),
            received_at: "9999-12-30T23:59:59.999-11:30".parse().unwrap(),
            bytes: 5_000_000_000,
            vouched: false,
            after_demolition: true,
            ..packet(1, 2, u32::MAX)
        };
        let mut two = Received { label: String::new(), ..packet(3, 4, 1) };
        let forecast: Vec<u8> = (0..1u32 << 20).map(|n| (n ^ (n >> 8)) as u8).collect();
        let mut repo = place.open();
        assert_eq!(repo.packets().unwrap(), [], "{adapter}");
        one.position = repo.add_packet(&one, &forecast).unwrap();
        two.position = repo.add_packet(&two, &[]).unwrap();
        drop(repo);
        let repo = place.open();
        assert_eq!(repo.packets().unwrap(), [one.clone(), two.clone()], "{adapter}");
        assert!(repo.forecast(one.digest).unwrap() == Some(forecast), "{adapter}: 1 MB"); // too long to be told
        assert_eq!(repo.forecast(two.digest).unwrap(), Some(vec![]), "{adapter}");
        assert_eq!(repo.packet(one.digest).unwrap(), Some(one), "{adapter}");
        let none = Digest::of(b"none");
        assert_eq!((repo.packet(none).unwrap(), repo.forecast(none).unwrap()), (None, None), "{adapter}");
        repo.check().unwrap();
    });
}

#[test]
fn no_two_packets_share_a_digest_nor_house_device_and_number() {
    each(|adapter, place| {
        let mut repo = place.open();
        let first = packet(1, 1, 1);
        assert_eq!(repo.add_packet(&first, b"first").unwrap(), 1, "{adapter}");
        let before = repo.packets().unwrap();
        for again in [
            first.clone(),
            Received { digest: first.digest, ..packet(2, 2, 2) },
            Received { digest: Digest::of(b"other"), after_demolition: true, ..first.clone() },
        ] {
            let refused = repo.add_packet(&again, b"other").unwrap_err();
            assert!(matches!(refused, OfficeError::Database { .. }), "{adapter}: {refused}");
            assert_eq!(repo.packets().unwrap(), before, "{adapter}");
            assert_eq!(repo.forecast(first.digest).unwrap().as_deref(), Some(&b"first"[..]), "{adapter}");
            assert_eq!(repo.forecast(Digest::of(b"other")).unwrap(), None, "{adapter}");
        }
        // Each of the three alone may be shared, and what was refused took no place.
        for (place, other) in (2..).zip([packet(2, 1, 1), packet(1, 2, 1), packet(1, 1, 2)]) {
            assert_eq!(repo.add_packet(&other, b"other").unwrap(), place, "{adapter}");
        }
    });
}

#[test]
fn packets_are_found_by_house_and_by_what_their_device_called_them() {
    each(|adapter, place| {
        let mut repo = place.open();
        // Neither numbers nor digests nor times run in the order they came.
        for one in [packet(1, 1, 7), packet(2, 1, 9), packet(1, 2, 7), packet(1, 1, 3), packet(2, 1, 8)] {
            repo.add_packet(&one, b"").unwrap();
        }
        let all = repo.packets().unwrap();
        assert_eq!(numbers(&all), [(1, 7), (2, 9), (3, 7), (4, 3), (5, 8)], "{adapter}");
        for (of, own) in [(1, vec![(1, 7), (3, 7), (4, 3)]), (2, vec![(2, 9), (5, 8)]), (3, vec![])] {
            let found = repo.packets_of(house(of)).unwrap();
            assert_eq!(numbers(&found), own, "{adapter}");
            assert!(found.iter().all(|p| p.survey == house(of)), "{adapter}");
        }
        for one in &all {
            let found = repo.packet_numbered(one.survey, one.device, one.number).unwrap();
            assert_eq!(found.as_ref(), Some(one), "{adapter}");
        }
        let [first, second, ..] = all.as_slice() else { panic!("{adapter}") };
        assert_eq!(repo.packet_numbered(first.survey, first.device, 9).unwrap(), None, "{adapter}");
        assert_eq!(repo.packet_numbered(second.survey, second.device, 7).unwrap(), None, "{adapter}");
        assert_eq!(repo.packet_numbered(house(3), first.device, 7).unwrap(), None, "{adapter}");
    });
}

#[test]
fn findings_come_back_as_they_were_entered_and_are_numbered_by_house() {
    each(|adapter, place| {
        let full = Finding {
            condition: "subfloor-rot@bath-2".to_owned(),
            outcome: Outcome::Found,
            cost: Money::from_dollars(1_234),
            days: 0.1 + 0.2, // more digits than a short form has
            priced_before_signing: true,
            paid_by: Some(PaidBy::ChangeOrder),
            photo: Some(Digest::of(b"photo")),
            ..finding(&every_kind_of_letter())
        };
        let (plain, last) = (finding(""), finding("again, of the same condition"));
        let mut repo = place.open();
        let entered = [(1, &full), (2, &plain), (1, &plain), (2, &full), (1, &last)];
        let given = entered.map(|(of, finding)| repo.add_finding(house(of), finding).unwrap());
        assert_eq!(given, [1, 1, 2, 2, 3], "{adapter}");
        drop(repo);
        let repo = place.open();
        let row = |n, position, finding: &Finding| Entered { n, position, finding: finding.clone() };
        let (one, two) = (repo.findings(house(1)).unwrap(), repo.findings(house(2)).unwrap());
        assert_eq!(one, [row(1, 1, &full), row(2, 3, &plain), row(3, 5, &last)], "{adapter}");
        assert_eq!(two, [row(1, 2, &plain), row(2, 4, &full)], "{adapter}");
        assert_eq!(repo.findings(house(3)).unwrap(), [], "{adapter}");
    });
}

#[test]
fn packets_and_findings_of_all_houses_share_one_count() {
    each(|adapter, place| {
        let mut repo = place.open();
        assert_eq!(repo.add_packet(&packet(1, 1, 1), b"").unwrap(), 1, "{adapter}");
        repo.add_finding(house(2), &finding("second")).unwrap();
        repo.add_finding(house(1), &finding("third")).unwrap();
        assert_eq!(repo.add_packet(&packet(2, 1, 1), b"").unwrap(), 4, "{adapter}");
        drop(repo);
        let mut repo = place.open();
        assert_eq!(repo.add_packet(&packet(3, 1, 1), b"").unwrap(), 5, "{adapter}");
        repo.add_finding(house(3), &finding("sixth")).unwrap();
        for (of, position) in [(2, 2), (1, 3), (3, 6)] {
            let found = repo.findings(house(of)).unwrap();
            assert_eq!(
                found.iter().map(|f| (f.n, f.position)).collect::<Vec<_>>(),
                [(1, position)],
                "{adapter}"
            );
        }
        assert_eq!(places(repo.as_ref(), &[1, 2, 3]), [1, 2, 3, 4, 5, 6], "{adapter}");
    });
}

#[test]
fn demolition_began_with_the_first_finding_or_the_first_packet_that_declares_it() {
    each(|adapter, place| {
        let mut repo = place.open();
        let expect = |repo: &dyn Repo, began: [Option<u64>; 3]| {
            let told = [1, 2, 3].map(|of| repo.demolition_began(house(of)).unwrap());
            assert_eq!(told, began, "{adapter}");
        };
        let declares = |of, number| Received { after_demolition: true, ..packet(of, 1, number) };
        expect(repo.as_ref(), [None, None, None]);
        repo.add_packet(&packet(1, 1, 1), b"").unwrap();
        expect(repo.as_ref(), [None, None, None]);
        repo.add_finding(house(2), &finding("first")).unwrap();
        expect(repo.as_ref(), [None, Some(2), None]);
        repo.add_packet(&declares(1, 2), b"").unwrap();
        expect(repo.as_ref(), [Some(3), Some(2), None]);
        repo.add_finding(house(1), &finding("after it was declared")).unwrap();
        repo.add_packet(&declares(2, 1), b"").unwrap();
        repo.add_packet(&declares(1, 3), b"").unwrap();
        repo.add_finding(house(2), &finding("second")).unwrap();
        repo.add_packet(&packet(1, 1, 4), b"").unwrap();
        expect(repo.as_ref(), [Some(3), Some(2), None]);
    });
}

#[test]
fn what_is_rolled_back_takes_no_place() {
    each(|adapter, place| {
        let mut repo = place.open();
        repo.add_packet(&packet(1, 1, 1), b"").unwrap();
        repo.begin().unwrap();
        assert_eq!(repo.add_packet(&packet(1, 1, 2), b"forgotten").unwrap(), 2, "{adapter}");
        assert_eq!(repo.add_finding(house(1), &finding("forgotten")).unwrap(), 1, "{adapter}");
        assert_eq!(repo.demolition_began(house(1)).unwrap(), Some(3), "{adapter}: seen by whoever writes");
        repo.roll_back().unwrap();
        assert_eq!(places(repo.as_ref(), &[1]), [1], "{adapter}");
        assert_eq!(repo.forecast(packet(1, 1, 2).digest).unwrap(), None, "{adapter}");
        assert_eq!(repo.demolition_began(house(1)).unwrap(), None, "{adapter}");
        assert_eq!(repo.add_finding(house(1), &finding("kept")).unwrap(), 1, "{adapter}");
        assert_eq!(repo.add_packet(&packet(1, 1, 2), b"kept").unwrap(), 3, "{adapter}");
        repo.begin().unwrap();
        repo.add_packet(&packet(1, 1, 3), b"").unwrap();
        drop(repo); // as if the program had been killed
        assert_eq!(place.open().add_packet(&packet(1, 1, 4), b"").unwrap(), 4, "{adapter}");
    });
}

/// Beside the trait: whatever writes past it is stopped by the database.
#[test]
fn no_statement_changes_removes_or_replaces_a_packet_or_a_finding() {
    let dir = tempfile::tempdir().unwrap();
    let file = dir.path().join("office.sqlite");
    let mut repo = Sqlite::open(&file).unwrap();
    repo.add_packet(&packet(1, 1, 1), b"first").unwrap();
    repo.add_finding(house(1), &finding("first")).unwrap();
    let before = (repo.packets().unwrap(), repo.findings(house(1)).unwrap());
    let raw = rusqlite::Connection::open(&file).unwrap();
    let copied = "digest, survey, device, number, label, sealed_at, received_at, position, bytes, forecast";
    for (sql, why) in [
        ("UPDATE packet SET after_demolition = 1".to_owned(), "never changed"),
        ("DELETE FROM packet".to_owned(), "never removed"),
        (format!("INSERT OR REPLACE INTO packet ({copied}) SELECT {copied} FROM packet"), "never replaced"),
        ("UPDATE finding SET position = 9".to_owned(), "never changed"),
        ("DELETE FROM finding".to_owned(), "never removed"),
        ("INSERT OR REPLACE INTO finding SELECT * FROM finding".to_owned(), "never replaced"),
        ("INSERT INTO finding SELECT survey, n + 1, 9, condition, '{' FROM finding".to_owned(), "json_valid"),
    ] {
        let refused = raw.execute(&sql, []).unwrap_err().to_string();
        assert!(refused.contains(why), "{sql}: {refused}");
    }
    assert_eq!((repo.packets().unwrap(), repo.findings(house(1)).unwrap()), before);
}
