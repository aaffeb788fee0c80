//! After demolition was declared nothing that a walk records changes the picture.

use super::*;
use crate::log::{
    Demolition, DemolitionWithdrawn, MarkGone, Note, PhotoMark, Sealed, Shape, Spot, TakenBack, WalkOrder,
};

impl Device {
    fn declare(&mut self) -> EntryId {
        self.push(Body::Demolition(Demolition { reason: Some("north wall opened".into()) }))
    }
    fn withdraw(&mut self, declared: Vec<EntryId>) -> EntryId {
        self.push(Body::DemolitionWithdrawn(DemolitionWithdrawn {
            declared,
            reason: "the wrong house".into(),
        }))
    }
}

/// The picture without what says that there is a log, that demolition was declared, and what came after.
fn of_the_walk(picture: Picture) -> Picture {
    Picture {
        demolition: None,
        withdrawn: vec![],
        set_aside: vec![],
        entries: 0,
        lamport: 0,
        last_touched: None,
        survey: None,
        ..picture
    }
}

/// Anything a device can enter about what a house already holds.
fn late(n: u8, of: u64, sorted: &[Entry]) -> Body {
    let spot = Spot::from_pixels(1.0, 2.0).unwrap();
    let named: EntryId = sorted[of as usize % sorted.len()].id;
    let photo = Digest::of(&[(of % 3) as u8]);
    match n % 10 {
        0 | 1 => Body::Answer(Answer {
            place: "kitchen".into(),
            item: format!("item-{}", of % 3),
            value: inches((of % 5) as i64),
            tolerance: None,
            entered: None,
            photos: vec![photo],
            corrects: if n.is_multiple_of(2) { vec![named] } else { vec![] },
            reason: None,
        }),
        2 => Body::Photo(taken(photo, Some(("kitchen", "item-1")))),
        3 => Body::Note(Note { place: None, item: None, text: "wet".into() }),
        4 => Body::Place(PlaceNamed {
            station: "bulkhead".into(),
            place: format!("place-{}", of % 3),
            label: "late".into(),
            there: of.is_multiple_of(2),
            reason: None,
        }),
        5 => Body::Order(WalkOrder { places: vec!["sink".into()], moved: None, reason: None }),
        6 => Body::Mark(PhotoMark { photo, mark: Shape::Words { at: spot, text: "here".into() } }),
        7 => Body::MarkGone(MarkGone { photo, mark: named }),
        8 => Body::TakenBack(TakenBack { entry: named, reason: None }),
        _ => Body::Sealed(Sealed { assessment: photo }),
    }
}

proptest! {
    /// Two tablets walk a house and meet; one declares demolition; both go on as they please, having heard of it or not.
    #[test]
    fn no_entry_after_a_declaration_changes_the_walk_on_any_tablet_in_any_order(
        before in proptest::collection::vec((any::<bool>(), 0u8..10, any::<u64>(), any::<bool>()), 1..30),
        after in proptest::collection::vec((any::<bool>(), 0u8..10, any::<u64>(), any::<bool>()), 1..30),
        turned in any::<bool>(),
    ) {
        let mut devices = [Device::new(1, 0), Device::new(2, 500_000)];
        let go = |devices: &mut [Device; 2], steps: &[(bool, u8, u64, bool)]| {
            for (phone, n, of, meet) in steps {
                let device = &mut devices[usize::from(*phone)];
                let body = match device.seen.is_empty() {
                    true => Body::Note(Note { place: None, item: None, text: "first".into() }),
                    false => late(*n, *of, &device.seen),
                };
                device.push(body);
                if *meet {
                    let [a, b] = &mut *devices;
                    if *of % 2 == 0 { a.hear(b) } else { b.hear(a) }
                }
            }
        };
        go(&mut devices, &before);
        let declared = devices[0].declare();
        go(&mut devices, &after);
        let [mut a, b] = devices;
        a.hear(&b);
        let whole = fold(&a.seen);
        prop_assert_eq!(whole.demolition.as_ref().map(|d| d.id), Some(declared));
        // By the log's own order, whatever the clocks said: what comes before the declaration alone, and nothing else.
        let end = a.seen.iter().find(|e| e.id == declared).unwrap().order();
        let kept: Vec<Entry> = a.seen.iter().filter(|e| e.order() < end).cloned().collect();
        prop_assert_eq!(of_the_walk(whole.clone()), of_the_walk(fold(&kept)));
        prop_assert_eq!(whole.counted as usize, kept.len());
        // Nothing is lost: what came later stands aside, entry by entry.
        let later: Vec<&Entry> = {
            let mut list: Vec<&Entry> = a.seen.iter().filter(|e| e.order() > end && e.body.is_of_walk()).collect();
            list.sort_by_key(|e| e.order());
            list
        };
        prop_assert!(whole.set_aside.iter().eq(later));
        if turned {
            let mut mixed = a.seen.clone();
            mixed.reverse();
            prop_assert_eq!(&whole, &fold(&mixed));
        }
        // Withdrawn, all of it counts as though nothing had been declared.
        a.withdraw(vec![declared]);
        let back = fold(&a.seen);
        let never: Vec<Entry> = a
            .seen
            .iter()
            .filter(|e| !matches!(e.body, Body::Demolition(_) | Body::DemolitionWithdrawn(_)))
            .cloned()
            .collect();
        let places = |picture: &Picture| (picture.answers.clone(), picture.photos.clone(), picture.places.clone());
        prop_assert_eq!(places(&back), places(&fold(&never)));
        prop_assert_eq!((back.demolition, back.set_aside, back.counted), (None, vec![], a.seen.len() as u64));
    }
}

#[test]
fn an_answer_is_taken_until_the_declaration_and_stands_aside_after_it() {
    let mut tablet = Device::new(1, 0);
    let first = tablet.answer("stub-height", inches(19), vec![]);
    tablet.declare();
    tablet.answer("stub-height", inches(23), vec![first]);
    tablet.answer("drain-kind", inches(2), vec![]);
    let picture = fold(&tablet.seen);
    assert_eq!(picture.value("stub-height"), Some(&inches(19)));
    assert_eq!(picture.value("drain-kind"), None);
    assert_eq!((picture.set_aside.len(), picture.counted, picture.entries), (2, 1, 4));
    let declared = picture.demolition.unwrap();
    assert_eq!((declared.by.as_str(), declared.reason.as_deref()), ("surveyor 1", Some("north wall opened")));
}

#[test]
fn another_tablet_that_had_not_heard_of_it_counts_as_far_as_its_numbers_are_lower() {
    let (mut tablet, mut phone) = (Device::new(1, 0), Device::new(2, 0));
    for n in 0..3 {
        tablet.answer(&format!("item-{n}"), inches(n), vec![]);
    }
    tablet.declare();
    for n in 10..16 {
        phone.answer(&format!("item-{n}"), inches(n), vec![]);
    }
    tablet.hear(&phone);
    let picture = fold(&tablet.seen);
    // Four numbers were given here: those above, and the phone's fourth after the tablet's own.
    let answered: Vec<&str> = picture.answers.keys().map(|(_, item)| item.as_str()).collect();
    assert_eq!(answered, ["item-0", "item-1", "item-10", "item-11", "item-12", "item-2"]);
    assert_eq!(picture.set_aside.len(), 3);
}

#[test]
fn of_two_declarations_the_first_ends_the_walk_and_both_must_be_withdrawn() {
    let (mut tablet, mut phone) = (Device::new(1, 0), Device::new(2, 0));
    tablet.answer("item-1", inches(1), vec![]);
    phone.hear(&tablet);
    let one = tablet.declare();
    let two = phone.declare();
    tablet.hear(&phone);
    tablet.answer("item-2", inches(2), vec![]);
    assert_eq!(fold(&tablet.seen).demolition.unwrap().id, one);
    tablet.withdraw(vec![one]);
    let picture = fold(&tablet.seen);
    assert_eq!((picture.demolition.as_ref().map(|d| d.id), picture.set_aside.len()), (Some(two), 1));
    tablet.withdraw(vec![two]);
    let picture = fold(&tablet.seen);
    assert_eq!((picture.demolition, picture.set_aside.len(), picture.withdrawn.len()), (None, 0, 2));
    assert!(picture.answers.contains_key(&("kitchen".to_owned(), "item-2".to_owned())));
}
