use proptest::prelude::*;

use super::*;
use crate::log::{PlaceNamed, check_chain};
use crate::units::Length;

mod demolition;

/// Builds streams as devices do: each sees only its own entries and those handed to it.
struct Device {
    id: DeviceId,
    clock_ms: i64,
    seen: Vec<Entry>,
}

impl Device {
    fn new(n: u8, clock_ms: i64) -> Self {
        Self { id: DeviceId::from_bytes([n; 16]), clock_ms, seen: Vec::new() }
    }
    fn answer(&mut self, item: &str, value: Value, corrects: Vec<EntryId>) -> EntryId {
        self.push(Body::Answer(Answer {
            place: "kitchen".into(),
            item: item.into(),
            value,
            tolerance: None,
            entered: None,
            photos: vec![],
            corrects,
            reason: None,
        }))
    }
    fn place(&mut self, station: &str, place: &str, label: &str, there: bool) -> EntryId {
        self.push(Body::Place(PlaceNamed {
            station: station.into(),
            place: place.into(),
            label: label.into(),
            there,
            reason: None,
        }))
    }
    fn push(&mut self, body: Body) -> EntryId {
        let own: Vec<&Entry> = self.seen.iter().filter(|e| e.device == self.id).collect();
        let seq = own.len() as u64 + 1;
        let id =
            EntryId::from_bytes([self.id.as_bytes()[0], seq as u8, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1]);
        let entry = Entry {
            v: body.form(),
            id,
            survey: SurveyId::from_bytes([9; 16]),
            device: self.id,
            seq,
            lamport: self.seen.iter().map(|e| e.lamport).max().unwrap_or(0) + 1,
            at: Stamp::new(self.clock_ms, 0).unwrap(),
            by: format!("surveyor {}", self.id.as_bytes()[0]),
            prev: own.last().map(|e| e.hash()),
            body,
        };
        self.clock_ms += 1_000;
        self.seen.push(entry);
        id
    }
    fn hear(&mut self, other: &Device) {
        for entry in &other.seen {
            if !self.seen.iter().any(|e| e.id == entry.id) {
                self.seen.push(entry.clone());
            }
        }
    }
}

fn inches(n: i64) -> Value {
    Value::Length(Length::from_sixty_fourths(n * 64))
}

/// A photograph of nothing, or of an item at a place.
fn taken(digest: Digest, shows: Option<(&str, &str)>) -> PhotoTaken {
    PhotoTaken {
        place: shows.map(|(place, _)| place.into()),
        item: shows.map(|(_, item)| item.into()),
        digest,
        name: "a.jpg".into(),
        bytes: 7,
        width: 100,
        height: 80,
        orientation: 1,
        taken: None,
        taken_local: None,
        complaints: vec![],
        caption: None,
    }
}

#[test]
fn a_correction_hides_the_first_reading() {
    let mut tablet = Device::new(1, 0);
    let first = tablet.answer("stub-height", inches(91), vec![]);
    tablet.answer("stub-height", inches(19), vec![first]);
    let picture = fold(&tablet.seen);
    assert_eq!(picture.value("stub-height"), Some(&inches(19)));
    assert_eq!(picture.standing("stub-height").unwrap().1.corrected, 1);
}

#[test]
fn rival_corrections_stand_side_by_side_until_one_names_both() {
    let (mut tablet, mut phone) = (Device::new(1, 0), Device::new(2, 0));
    let first = tablet.answer("stub-height", inches(91), vec![]);
    phone.hear(&tablet);
    let a = tablet.answer("stub-height", inches(19), vec![first]);
    let b = phone.answer("stub-height", inches(20), vec![first]);
    tablet.hear(&phone);
    let picture = fold(&tablet.seen);
    assert!(picture.standing("stub-height").unwrap().1.disagrees());
    assert_eq!(picture.value("stub-height"), None);
    tablet.answer("stub-height", inches(19), vec![a, b]);
    assert_eq!(fold(&tablet.seen).value("stub-height"), Some(&inches(19)));
}

#[test]
fn two_devices_that_say_the_same_do_not_disagree() {
    let (mut tablet, mut phone) = (Device::new(1, 0), Device::new(2, 0));
    tablet.answer("year-built", inches(1), vec![]);
    phone.answer("year-built", inches(1), vec![]);
    tablet.hear(&phone);
    assert_eq!(fold(&tablet.seen).value("year-built"), Some(&inches(1)));
}

#[test]
fn a_withdrawn_answer_leaves_nothing() {
    let mut tablet = Device::new(1, 0);
    let first = tablet.answer("stub-height", inches(91), vec![]);
    tablet.answer("stub-height", Value::Withdrawn, vec![first]);
    assert_eq!(fold(&tablet.seen).value("stub-height"), None);
}

#[test]
fn a_changed_line_breaks_the_chain() {
    let mut tablet = Device::new(1, 0);
    for n in 0..3 {
        tablet.answer("floor-count", inches(n), vec![]);
    }
    assert!(check_chain(&tablet.seen).is_ok());
    let mut forged = tablet.seen.clone();
    forged[1].by = "somebody else".into();
    assert!(check_chain(&forged).is_err());
    forged = tablet.seen.clone();
    forged.remove(1);
    assert!(check_chain(&forged).is_err());
}

/// One step of a random history of two devices in one house.
#[derive(Clone, Debug)]
enum Step {
    Answer { phone: bool, item: u8, value: i64, corrects: bool },
    Place { phone: bool, walls: bool, place: u8, label: u8, there: bool },
    Meet { to_phone: bool },
    ClockJump { phone: bool, ms: i64 },
}

fn step() -> impl Strategy<Value = Step> {
    prop_oneof![
        4 => (any::<bool>(), 0u8..3, 0i64..4, any::<bool>())
            .prop_map(|(phone, item, value, corrects)| Step::Answer { phone, item, value, corrects }),
        2 => (any::<bool>(), any::<bool>(), 0u8..3, 0u8..3, any::<bool>())
            .prop_map(|(phone, walls, place, label, there)| Step::Place { phone, walls, place, label, there }),
        1 => any::<bool>().prop_map(|to_phone| Step::Meet { to_phone }),
        1 => (any::<bool>(), -100_000_000_000i64..100_000_000_000).prop_map(|(phone, ms)| Step::ClockJump { phone, ms }),
    ]
}

proptest! {
    #[test]
    fn two_logs_merge_to_one_picture_in_any_order_with_wrong_clocks(
        steps in proptest::collection::vec(step(), 1..40),
        shuffle in any::<u64>(),
    ) {
        let mut devices = [Device::new(1, 0), Device::new(2, 500_000)];
        for step in steps {
            match step {
                Step::Answer { phone, item, value, corrects } => {
                    let device = &mut devices[usize::from(phone)];
                    let item = format!("item-{item}");
                    let named = match fold(&device.seen).standing(&item) {
                        Some((_, standing)) if corrects => standing.claims.iter().map(|c| c.id).collect(),
                        _ => vec![],
                    };
                    device.answer(&item, inches(value), named);
                }
                Step::Place { phone, walls, place, label, there } => {
                    let station = if walls { "walls" } else { "bulkhead" };
                    let (place, label) = (format!("place-{place}"), format!("label {label}"));
                    devices[usize::from(phone)].place(station, &place, &label, there);
                }
                Step::Meet { to_phone } => {
                    let [a, b] = &mut devices;
                    if to_phone { b.hear(a) } else { a.hear(b) }
                }
                Step::ClockJump { phone, ms } => devices[usize::from(phone)].clock_ms += ms,
            }
        }
        let [mut a, mut b] = devices;
        a.hear(&b);
        b.hear(&a);
        let picture = fold(&a.seen);
        prop_assert_eq!(&picture, &fold(&b.seen));
        // Any other order, with doubles.
        let mut mixed: Vec<Entry> = a.seen.iter().chain(&b.seen).cloned().collect();
        let mut state = shuffle | 1;
        for i in (1..mixed.len()).rev() {
            state = state.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            mixed.swap(i, (state >> 33) as usize % (i + 1));
        }
        prop_assert_eq!(&picture, &fold(&mixed));
        prop_assert!(check_chain(&a.seen).is_ok());
        // Nothing is lost: each claim stands or was corrected by another entry.
        let kept: u32 = picture.answers.values().map(|s| s.claims.len() as u32 + s.corrected).sum();
        let answers = a.seen.iter().filter(|e| matches!(e.body, Body::Answer(_))).count();
        prop_assert_eq!(kept as usize, answers);
        let named: BTreeSet<&str> = picture.places.iter().map(|p| p.id.as_str()).collect();
        prop_assert_eq!(named.len(), picture.places.len(), "each place stands once");
    }
}

#[test]
fn marks_of_two_tablets_stand_together_and_what_was_taken_back_is_gone_in_whatever_order() {
    use crate::log::{MarkGone, PhotoMark, Shape, Spot};
    let photo = Digest::of(b"picture");
    let spot = |x, y| Spot::from_pixels(x, y).unwrap();
    let ring = |x| Shape::Ring { middle: spot(x, 10.0), through: spot(x, 20.0) };
    let mark = |x| Body::Mark(PhotoMark { photo, mark: ring(x) });
    let (mut one, mut two) = (Device::new(1, 0), Device::new(2, 9));
    let taken = taken(photo, None);
    // The other tablet's mark comes before its photograph in the log's order.
    let early = two.push(mark(5.0));
    one.push(Body::Photo(taken));
    let first = one.push(mark(1.0));
    let second = one.push(mark(2.0));
    one.push(Body::MarkGone(MarkGone { photo, mark: first }));
    one.hear(&two);
    let mut entries = one.seen.clone();
    let ids = |entries: &[Entry]| -> Vec<EntryId> {
        fold(entries).photos[&photo].marks.iter().map(|(id, _, _)| *id).collect()
    };
    assert_eq!(ids(&entries), [early, second]);
    entries.reverse();
    assert_eq!(ids(&entries), [early, second]);
}

#[test]
fn a_note_and_a_photograph_taken_back_are_gone_in_whatever_order_and_may_come_again() {
    use crate::log::{Note, TakenBack};
    let photo = Digest::of(b"picture");
    let taken = |item: &str| Body::Photo(taken(photo, Some(("sink", item))));
    let back = |entry| Body::TakenBack(TakenBack { entry, reason: None });
    let mut one = Device::new(1, 0);
    let note = one.push(Body::Note(Note { place: None, item: None, text: "behind the filter".into() }));
    let first = one.push(taken("stub-height"));
    one.push(Body::Answer(Answer {
        place: "kitchen".into(),
        item: "stub-height".into(),
        value: Value::Choice("yes".into()),
        tolerance: None,
        entered: None,
        photos: vec![photo],
        corrects: vec![],
        reason: None,
    }));
    one.push(back(note));
    one.push(back(first));
    let check = |entries: &[Entry], photos: usize| {
        let picture = fold(entries);
        assert_eq!((picture.notes.len(), picture.photos.len()), (0, photos));
        let shown: usize = picture.answers.values().map(|s| s.leading().answer.photos.len()).sum();
        assert_eq!(shown, photos);
    };
    check(&one.seen, 0);
    let mut turned = one.seen.clone();
    turned.reverse();
    check(&turned, 0);
    // Taken in again it is a new entry; only what was named is gone.
    one.push(taken("drain-kind"));
    check(&one.seen, 1);
    let shows = &fold(&one.seen).photos[&photo].shows;
    let items: Vec<&str> = shows.iter().map(|(_, item)| item.as_str()).collect();
    assert_eq!(items, ["stub-height", "drain-kind"], "the answer shows it again");
}

#[test]
fn a_mark_is_frozen_byte_for_byte() {
    use crate::log::{PhotoMark, Shape, Spot};
    let mark = Shape::Dimension {
        from: Spot::from_pixels(1.5, 2.0).unwrap(),
        to: Spot::from_pixels(3.0, 4.125).unwrap(),
        length: Length::from_sixty_fourths(1240),
        tolerance: None,
    };
    let body = Body::Mark(PhotoMark { photo: Digest::from_bytes([7; 32]), mark });
    let expected = format!(
        "{{\"kind\":\"mark\",\"photo\":\"{}\",\"mark\":{{\"shape\":\"dimension\",\"from\":{{\"x\":12,\"y\":16}},\
         \"to\":{{\"x\":24,\"y\":33}},\"length\":3937000,\"tolerance\":null}}}}",
        "07".repeat(32)
    );
    assert_eq!(serde_json::to_string(&body).unwrap(), expected);
    assert_eq!(serde_json::from_str::<Body>(&expected).unwrap(), body);
}
