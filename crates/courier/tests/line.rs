//! Whatever the line does, the office ends with the same bytes, once: a model of an office, and a line that loses questions,
//! loses answers, repeats questions and forgets.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use std::collections::BTreeMap;

use courier::talk::{Begun, Have, Missing};
use courier::{Ask, Heard, Next, Over, Place, Recipe, Sending, recipe};
use proptest::prelude::*;
use survey::Digest;

/// An office as the agreement has it: bytes of segments by digest, packets that are whole.
#[derive(Default)]
struct Office {
    recipe: Option<Recipe>,
    there: BTreeMap<Digest, Vec<u8>>,
    packets: BTreeMap<Digest, Vec<u8>>,
    /// How often a packet was taken in.
    taken: u32,
    /// Bytes of pieces that came.
    came: u64,
}

impl Office {
    fn begun(&self, recipe: &Recipe) -> Begun {
        if self.packets.contains_key(&recipe.packet) {
            return Begun { missing: vec![], receipt: Some(recipe.packet.hex()) };
        }
        let mut missing: BTreeMap<Digest, Missing> = BTreeMap::new();
        for segment in &recipe.segments {
            let have = self.there.get(&segment.sha256).map_or(0, |b| b.len() as u64);
            if have < segment.bytes {
                missing.insert(segment.sha256, Missing { sha256: segment.sha256, have });
            }
        }
        Begun { missing: missing.into_values().collect(), receipt: None }
    }

    fn answer(&mut self, ask: &Ask, told: &Recipe, file: &[u8]) -> (u16, Vec<u8>) {
        match ask {
            Ask::Begin => {
                self.recipe = Some(Recipe::read(&told.json()).unwrap());
                (200, json(&self.begun(told)))
            }
            Ask::Piece { segment, from, bytes, at } => {
                if self.recipe.is_none() {
                    return (404, b"{\"kind\":\"missing\",\"message\":\"begin\",\"hint\":null}".to_vec());
                }
                let held = self.there.entry(segment.sha256).or_default();
                if held.len() as u64 != *from {
                    return (409, json(&Have { have: held.len() as u64 }));
                }
                held.extend(&file[*at as usize..(at + bytes) as usize]);
                self.came += bytes;
                if held.len() as u64 == segment.bytes && Digest::of(held) != segment.sha256 {
                    held.clear();
                }
                (200, json(&Have { have: held.len() as u64 }))
            }
            Ask::Finish => {
                let Some(recipe) = self.recipe.clone() else { return (404, b"{}".to_vec()) };
                let begun = self.begun(&recipe);
                if begun.receipt.is_some() {
                    return (200, json(&begun));
                }
                if !begun.missing.is_empty() {
                    return (409, json(&begun));
                }
                let whole: Vec<u8> =
                    recipe.segments.iter().flat_map(|s| self.there[&s.sha256].clone()).collect();
                assert_eq!(Digest::of(&whole), recipe.packet, "the same bytes");
                self.packets.insert(recipe.packet, whole);
                self.taken += 1;
                (200, json(&self.begun(&recipe)))
            }
        }
    }
}

fn json<T: serde::Serialize>(value: &T) -> Vec<u8> {
    serde_json::to_vec(value).unwrap()
}

/// What the line does with one question.
#[derive(Clone, Copy, Debug)]
enum Luck {
    Good,
    /// The question does not arrive.
    Lost,
    /// It arrives, and the answer does not.
    Unheard,
    /// It arrives twice.
    Twice,
    /// The tablet's program is ended and begins anew.
    Killed,
    /// The office's program is ended in the middle: a part of a piece is lost.
    Short(u16),
    /// What had come is swept.
    Swept,
}

fn luck() -> impl Strategy<Value = Luck> {
    prop_oneof![
        6 => Just(Luck::Good),
        1 => Just(Luck::Lost),
        2 => Just(Luck::Unheard),
        1 => Just(Luck::Twice),
        1 => Just(Luck::Killed),
        1 => any::<u16>().prop_map(Luck::Short),
        1 => Just(Luck::Swept),
    ]
}

fn file(lengths: &[u32]) -> (Vec<u8>, Vec<Place>) {
    let (mut bytes, mut places) = (Vec::new(), Vec::new());
    for (n, length) in lengths.iter().enumerate() {
        bytes.extend([b'h', n as u8, 0, 7]);
        let at = bytes.len() as u64;
        bytes.extend((0..*length).map(|b| (b as usize * 31 + n * 7) as u8));
        places.push(Place { sha256: Digest::of(&bytes[at as usize..]), at, bytes: u64::from(*length) });
    }
    bytes.extend(b"the end");
    (bytes, places)
}

fn made(bytes: &[u8], places: &[Place]) -> Recipe {
    let length = bytes.len() as u64;
    recipe(&mut std::io::Cursor::new(bytes), Digest::of(bytes), length, places.iter().copied()).unwrap()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn any_stop_any_repeat_any_order_gives_the_same_bytes_once(
        lengths in prop::collection::vec(1u32..700_000, 1..5),
        lucks in prop::collection::vec(luck(), 0..60),
    ) {
        let (bytes, places) = file(&lengths);
        let recipe = made(&bytes, &places);
        let mut office = Office::default();
        let mut sending = Sending::new(recipe.clone());
        let mut lucks = lucks.into_iter();
        let mut late: Option<Ask> = None;
        for step in 0.. {
            prop_assert!(step < 5_000, "it comes to an end");
            let ask = match sending.next() {
                Next::Ask(ask) => ask,
                Next::Wait(_) => { sending.waited(); continue }
                Next::Over(over) => {
                    prop_assert_eq!(over, Over::Acknowledged(recipe.packet.hex()));
                    break;
                }
            };
            prop_assert!(sending.sent() <= recipe.bytes);
            let heard = match lucks.next().unwrap_or(Luck::Good) {
                Luck::Good => {
                    // What was on its way for long arrives first.
                    if let Some(late) = late.take() {
                        office.answer(&late, &recipe, &bytes);
                    }
                    let (status, body) = office.answer(&ask, &recipe, &bytes);
                    Heard::Answer(status, body)
                }
                Luck::Lost => { late = Some(ask); Heard::Nothing }
                Luck::Unheard => { office.answer(&ask, &recipe, &bytes); Heard::Nothing }
                Luck::Twice => {
                    office.answer(&ask, &recipe, &bytes);
                    let (status, body) = office.answer(&ask, &recipe, &bytes);
                    Heard::Answer(status, body)
                }
                Luck::Killed => { sending = Sending::new(recipe.clone()); continue }
                Luck::Short(cut) => {
                    office.answer(&ask, &recipe, &bytes);
                    if let Some(last) = office.there.values_mut().next_back() {
                        let left = last.len().saturating_sub(usize::from(cut));
                        last.truncate(left);
                    }
                    Heard::Nothing
                }
                Luck::Swept => { office.there.clear(); office.recipe = None; Heard::Nothing }
            };
            sending.heard(heard);
        }
        prop_assert_eq!(office.taken, 1);
        prop_assert_eq!(&office.packets[&recipe.packet], &bytes);
    }
}

#[test]
fn a_second_file_sends_only_what_is_new() {
    let (first, places) = file(&[50_000, 60_000]);
    let (second, more) = file(&[50_000, 60_000, 70_000]);
    let mut office = Office::default();
    let mut came = Vec::new();
    for (bytes, places) in [(&first, &places), (&second, &more)] {
        let recipe = made(bytes, places);
        let mut sending = Sending::new(recipe.clone());
        while let Next::Ask(ask) = sending.next() {
            let (status, body) = office.answer(&ask, &recipe, bytes);
            sending.heard(Heard::Answer(status, body));
        }
        assert!(matches!(sending.next(), Next::Over(Over::Acknowledged(_))));
        came.push(std::mem::take(&mut office.came));
    }
    assert_eq!(came[0], first.len() as u64);
    assert_eq!(came[1], 70_000 + 4, "the third photograph and what stands before it");
}
