//! Streams of other devices.

use store::{ErrorKind, Imported, Store};
use survey::log::{Body, Value};
use survey::model::fold;

use crate::support::*;

#[test]
fn two_stores_that_import_each_other_see_the_same_house() {
    let (tablet_dir, phone_dir) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut tablet, mut phone) = (open(tablet_dir.path(), 1), open(phone_dir.path(), 2));
    fill(&mut tablet, house(1), 25);
    assert_eq!(phone.import(&tablet.entries(house(1)).unwrap()).unwrap(), Imported { new: 25, known: 0 });
    // Apart again: both correct the same first reading, and one opens the house a second time.
    let first = tablet.entries(house(1)).unwrap()[1].id;
    record(&mut phone, house(1), answer("item-1", 19, &[first]));
    record(&mut phone, house(1), opened("The phone's name for it"));
    record(&mut tablet, house(1), answer("item-1", 20, &[first]));
    let from_phone = phone.entries(house(1)).unwrap();
    let from_tablet = tablet.entries(house(1)).unwrap();
    assert_eq!(tablet.import(&from_phone).unwrap(), Imported { new: 2, known: 25 });
    assert_eq!(phone.import(&from_tablet).unwrap(), Imported { new: 1, known: 25 });
    let (a, b) = (tablet.entries(house(1)).unwrap(), phone.entries(house(1)).unwrap());
    assert_eq!(a, b);
    assert_eq!(fold(&a), fold(&b));
    assert!(fold(&a).disagreements().any(|(_, item, _)| item == "item-1"));
    assert_eq!(tablet.surveys().unwrap(), phone.surveys().unwrap());
    for store in [&tablet, &phone] {
        assert!(store.check().is_whole(), "{:?}", store.check().problems);
    }
    // The next entry stands above everything seen.
    assert_eq!(phone.next(house(1)).unwrap().lamport, 28);
}

#[test]
fn an_import_in_any_order_and_again_changes_nothing_more() {
    let (from, to) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut tablet, mut desk) = (open(from.path(), 1), open(to.path(), 3));
    fill(&mut tablet, house(1), 30);
    fill(&mut tablet, house(2), 10);
    let mut entries = tablet.entries(house(2)).unwrap();
    entries.extend(tablet.entries(house(1)).unwrap());
    let mut dice = Dice(5);
    for i in (1..entries.len()).rev() {
        entries.swap(i, dice.below(i as u64 + 1) as usize);
    }
    entries.push(entries[4].clone());
    assert_eq!(desk.import(&entries).unwrap(), Imported { new: 40, known: 1 });
    assert_eq!(desk.import(&entries).unwrap(), Imported { new: 0, known: 41 });
    assert_eq!(desk.entries(house(1)).unwrap(), tablet.entries(house(1)).unwrap());
    assert!(desk.check().is_whole(), "{:?}", desk.check().problems);
    assert_eq!(tablet.import(&entries).unwrap(), Imported { new: 0, known: 41 }, "its own entries come back");
}

#[test]
fn corrections_that_arrive_before_what_they_correct_hide_it_all_the_same() {
    let (a, b, c) =
        (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut tablet, mut phone, mut desk) = (open(a.path(), 1), open(b.path(), 2), open(c.path(), 3));
    let first = record(&mut tablet, house(1), answer("stub-height", 1, &[]));
    phone.import(std::slice::from_ref(&first)).unwrap();
    let second = record(&mut phone, house(1), answer("stub-height", 2, &[first.id]));
    desk.import(&[second]).unwrap();
    assert!(desk.check().is_whole(), "{:?}", desk.check().problems);
    desk.import(&[first]).unwrap();
    assert!(desk.check().is_whole(), "{:?}", desk.check().problems);
    assert_eq!(fold(&desk.entries(house(1)).unwrap()).standing("stub-height").unwrap().1.claims.len(), 1);
}

#[test]
fn other_bytes_at_the_same_position_are_a_conflict_and_nothing_is_taken_in() {
    let (from, to) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut tablet, mut desk) = (open(from.path(), 1), open(to.path(), 3));
    fill(&mut tablet, house(1), 10);
    let entries = tablet.entries(house(1)).unwrap();
    desk.import(&entries[..8]).unwrap();
    let mut forged = entries.clone();
    forged[7].by = "somebody else".into();
    let error = desk.import(&forged).unwrap_err();
    assert_eq!(error.kind(), ErrorKind::Conflict);
    assert!(said(&error).contains("other content"), "{error}");
    // The same id at another position.
    let mut moved = entries[9].clone();
    (moved.id, moved.seq, moved.prev) = (entries[2].id, 9, Some(entries[7].hash()));
    let error = desk.import(&[moved]).unwrap_err();
    assert!(error.kind() == ErrorKind::Conflict && said(&error).contains("another position"), "{error}");
    assert_eq!(desk.entries(house(1)).unwrap(), entries[..8]);
}

#[test]
fn holes_breaks_and_impossible_numbers_are_refused_in_words() {
    let (from, to) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let (mut tablet, mut desk) = (open(from.path(), 1), open(to.path(), 3));
    fill(&mut tablet, house(1), 10);
    let entries = tablet.entries(house(1)).unwrap();
    let mut hole = entries.clone();
    hole.remove(4);
    let mut broken = entries.clone();
    broken[4].by = "somebody else".into();
    let mut high = entries.clone();
    high[9].lamport = u64::MAX;
    let mut newer = entries.clone();
    newer[9].v = 2;
    let mut far = entries.clone();
    far[9].seq = u64::MAX;
    for (bad, word) in [
        (&hole, "are missing"),
        (&broken, "one of them was changed"),
        (&high, "Lamport number"),
        (&newer, "form 2"),
        (&far, "are missing"),
    ] {
        let error = desk.import(bad).unwrap_err();
        assert_eq!(error.kind(), ErrorKind::Damaged, "{error}");
        assert!(said(&error).contains(word), "{error}");
        assert_eq!(desk.entries(house(1)).unwrap(), []);
    }
    desk.import(&entries).unwrap();
}

/// The readable tables follow a declaration, what comes after it, and its withdrawal; a check holds them to the fold.
#[test]
fn after_demolition_the_walk_is_refused_here_and_set_aside_from_elsewhere() {
    use survey::log::{Demolition, DemolitionWithdrawn};
    let folders = [tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap()];
    let mut one = open(folders[0].path(), 1);
    let mut two = open(folders[1].path(), 2);
    record(&mut one, house(1), opened("Mill Lane"));
    let first = record(&mut one, house(1), answer("stub-height", 1240, &[])).id;
    two.import(&one.entries(house(1)).unwrap()).unwrap();
    let declared = record(&mut one, house(1), Body::Demolition(Demolition { reason: None })).id;

    let refused = one.append_with(house(1), |next| entry(next, note("wet"))).unwrap_err();
    assert_eq!(refused.kind(), ErrorKind::WalkEnded);
    assert!(said(&refused).contains("surveyor 1 declared demolition"), "{}", said(&refused));
    assert_eq!(one.still_walked(house(1)).unwrap_err().kind(), ErrorKind::WalkEnded);
    one.still_walked(house(2)).unwrap();
    let next = one.next(house(1)).unwrap();
    assert!(one.append(&[entry(next, answer("stub-height", 1, &[]))]).is_err(), "nor several at once");

    for n in 0..3 {
        record(&mut two, house(1), answer("stub-height", 1500 + n, &[first]));
    }
    assert_eq!(one.import(&two.entries(house(1)).unwrap()).unwrap().new, 3);
    let stands = |store: &Store| -> Vec<i64> {
        let picture = fold(&store.entries(house(1)).unwrap());
        let claims = picture.answers.values().flat_map(|s| &s.claims);
        claims
            .map(|c| match &c.answer.value {
                Value::Length(length) => length.eighth_um() / 3175,
                other => panic!("{other:?}"),
            })
            .collect()
    };
    assert_eq!(stands(&one), [1240]);
    assert!(one.check().is_whole(), "{:?}", one.check().problems);
    one.rebuild().unwrap();
    assert!(one.check().is_whole(), "made anew they are the same");

    let withdrawn = DemolitionWithdrawn { declared: vec![declared], reason: "the wrong house".into() };
    record(&mut one, house(1), Body::DemolitionWithdrawn(withdrawn));
    assert_eq!(stands(&one).len(), 3, "all of it counts again");
    assert!(one.check().is_whole(), "{:?}", one.check().problems);
    record(&mut one, house(1), note("the walk goes on"));
}
