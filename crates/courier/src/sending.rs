//! A file on its way: what to ask next, and what an answer means. Bytes and sockets are elsewhere.
//!
//! It begins by asking what the office has, sends what it lacks piece by piece, and ends by asking for the receipt. When the
//! line breaks it waits and begins again; the office knows best what arrived. Pieces halve when one did not get through and
//! double when one did.

use std::collections::{BTreeMap, VecDeque};
use std::time::Duration;

use serde::de::DeserializeOwned;
use survey::Digest;

use crate::talk::{Begun, Have, Missing, Said};
use crate::{Recipe, Segment};

/// Most bytes of one piece.
pub const LARGEST_PIECE: u64 = 4 << 20;
/// Least, but for the last piece of a segment.
pub const SMALLEST_PIECE: u64 = 32 << 10;
const FIRST_PIECE: u64 = 512 << 10;
/// The longest wait before the line is tried again.
const LONGEST: Duration = Duration::from_secs(60);
/// How often a segment may come out wrong at the office: the file then is not what it was when its recipe was made.
const MOST_SPOILED: u32 = 3;

/// What is to be done next.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Next {
    /// Ask this, and tell what was heard.
    Ask(Ask),
    /// Wait so long, and say so with [`Sending::waited`].
    Wait(Duration),
    /// Nothing more.
    Over(Over),
}

/// What is asked.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Ask {
    /// The recipe is told; the answer is what is missing.
    Begin,
    /// A piece of a segment.
    Piece {
        /// Of which segment.
        segment: Segment,
        /// Where the piece begins in the segment.
        from: u64,
        /// How long it is.
        bytes: u64,
        /// Where it begins in the file.
        at: u64,
    },
    /// All is there; the answer is the receipt.
    Finish,
}

/// What was heard.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Heard {
    /// An answer, by its status and its bytes.
    Answer(u16, Vec<u8>),
    /// None: the line broke, or nothing came in time.
    Nothing,
}

/// How it ended.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Over {
    /// The office has it: its receipt.
    Acknowledged(String),
    /// The office does not take it.
    Refused(Said),
    /// The file is not any more what it was when its recipe was made.
    Changed,
}

/// Why it waits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Trouble {
    /// The line is down.
    Line,
    /// The office cannot just now, in its words.
    Office(Said),
    /// What was answered is no answer of an office.
    Strange,
}

/// One file on its way.
#[derive(Clone, Debug)]
pub struct Sending {
    recipe: Recipe,
    /// Where each segment begins in the file, the first time it stands there.
    at: BTreeMap<Digest, (u64, Segment)>,
    state: State,
    /// What is still missing, once the office said so.
    missing: VecDeque<Missing>,
    piece: u64,
    spoiled: BTreeMap<Digest, u32>,
    tries: u32,
    trouble: Option<Trouble>,
}

#[derive(Clone, Debug)]
enum State {
    Begin,
    Pieces,
    Finish,
    Wait,
    Over(Over),
}

impl Sending {
    /// A file by its recipe; nothing was asked yet.
    pub fn new(recipe: Recipe) -> Self {
        let mut at = BTreeMap::new();
        for (begins, segment) in recipe.offsets() {
            at.entry(segment.sha256).or_insert((begins, *segment));
        }
        Self {
            at,
            state: State::Begin,
            missing: VecDeque::new(),
            piece: FIRST_PIECE,
            spoiled: BTreeMap::new(),
            tries: 0,
            trouble: None,
            recipe,
        }
    }

    /// The recipe.
    pub fn recipe(&self) -> &Recipe {
        &self.recipe
    }

    /// Bytes of the file the office has, as far as it said.
    pub fn sent(&self) -> u64 {
        match &self.state {
            State::Over(Over::Acknowledged(_)) | State::Finish => self.recipe.bytes,
            _ if self.missing.is_empty() => 0,
            _ => {
                let lacking = |m: &Missing| self.at.get(&m.sha256).map_or(0, |(_, s)| s.bytes - m.have);
                // A segment that stands in the file twice is missing once.
                self.recipe.bytes.saturating_sub(self.missing.iter().map(lacking).sum())
            }
        }
    }

    /// How often in a row it had to wait without getting on.
    pub fn tries(&self) -> u32 {
        self.tries
    }

    /// Why it waits, or waited last.
    pub fn trouble(&self) -> Option<&Trouble> {
        self.trouble.as_ref()
    }

    /// What is to be done next.
    pub fn next(&self) -> Next {
        match &self.state {
            State::Begin => Next::Ask(Ask::Begin),
            State::Finish => Next::Ask(Ask::Finish),
            State::Wait => Next::Wait(pause(self.tries)),
            State::Over(over) => Next::Over(over.clone()),
            State::Pieces => {
                match self.missing.front().and_then(|m| self.at.get(&m.sha256).map(|s| (m, s))) {
                    Some((missing, (begins, segment))) => {
                        let bytes = self.piece.min(segment.bytes - missing.have);
                        let (from, at) = (missing.have, begins + missing.have);
                        Next::Ask(Ask::Piece { segment: *segment, from, bytes, at })
                    }
                    None => Next::Ask(Ask::Finish),
                }
            }
        }
    }

    /// The wait is over.
    pub fn waited(&mut self) {
        if matches!(self.state, State::Wait) {
            self.state = State::Begin;
        }
    }

    /// Tells what was heard to what [`next`](Self::next) asked.
    pub fn heard(&mut self, heard: Heard) {
        if matches!(self.state, State::Over(_)) {
            return;
        }
        let (status, body) = match heard {
            Heard::Answer(status, body) => (status, body),
            Heard::Nothing => {
                self.piece = (self.piece / 2).max(SMALLEST_PIECE);
                return self.wait(Trouble::Line);
            }
        };
        match (self.next(), status) {
            (Next::Ask(Ask::Begin), 200) | (Next::Ask(Ask::Finish), 200 | 409) => {
                match read::<Begun>(&body) {
                    Some(begun) => self.begun(begun),
                    None => self.no(status, &body),
                }
            }
            (Next::Ask(Ask::Piece { segment, from, bytes, .. }), 200 | 409) => match read::<Have>(&body) {
                Some(Have { have }) if have <= segment.bytes => self.has(segment, from, bytes, have),
                _ => self.no(status, &body),
            },
            (Next::Ask(_), _) => self.no(status, &body),
            (Next::Wait(_) | Next::Over(_), _) => {}
        }
    }

    fn begun(&mut self, begun: Begun) {
        if let Some(receipt) = begun.receipt {
            self.missing.clear();
            self.state = State::Over(Over::Acknowledged(receipt));
            return;
        }
        let mut asked_for: BTreeMap<Digest, u64> = BTreeMap::new();
        for Missing { sha256, have } in begun.missing {
            match self.at.get(&sha256) {
                Some((_, segment)) if have < segment.bytes => asked_for.insert(sha256, have),
                _ => return self.wait(Trouble::Strange),
            };
        }
        // In the order of the file, so that it is read from front to back.
        let mut missing: Vec<Missing> =
            asked_for.into_iter().map(|(sha256, have)| Missing { sha256, have }).collect();
        missing.sort_by_key(|m| self.at.get(&m.sha256).map(|(at, _)| *at));
        let finished = matches!(self.state, State::Finish);
        if finished && missing.is_empty() {
            return self.wait(Trouble::Strange);
        }
        if finished {
            // Something was lost at the office: a wait, should it happen again and again.
            self.tries += 1;
        }
        self.missing = missing.into();
        self.state = if self.missing.is_empty() { State::Finish } else { State::Pieces };
    }

    /// The office has so much of a segment of which a piece was sent.
    fn has(&mut self, segment: Segment, from: u64, bytes: u64, have: u64) {
        if have == from + bytes || have == segment.bytes {
            self.piece = (self.piece * 2).min(LARGEST_PIECE);
            self.tries = 0;
            self.trouble = None;
        } else if have < from || (have == 0 && from + bytes == segment.bytes) {
            // It was whole, and was not what its digest says.
            let spoiled = self.spoiled.entry(segment.sha256).or_default();
            *spoiled += 1;
            if *spoiled >= MOST_SPOILED {
                self.state = State::Over(Over::Changed);
                return;
            }
        } else {
            self.tries += 1;
            if self.tries > MOST_SPOILED {
                return self.wait(Trouble::Strange);
            }
        }
        if have == segment.bytes {
            self.missing.pop_front();
        } else if let Some(front) = self.missing.front_mut() {
            front.have = have;
        }
        if self.missing.is_empty() {
            self.state = State::Finish;
        }
    }

    /// An answer that is not the one hoped for.
    fn no(&mut self, status: u16, body: &[u8]) {
        let Some(said) = read::<Said>(body) else { return self.wait(Trouble::Strange) };
        match status {
            // Unknown to the office: it was away too long, and what had come was swept.
            404 if matches!(self.state, State::Pieces | State::Finish) => self.wait(Trouble::Office(said)),
            400..=407 | 409..=428 | 430..=499 => self.state = State::Over(Over::Refused(said)),
            _ => self.wait(Trouble::Office(said)),
        }
    }

    fn wait(&mut self, trouble: Trouble) {
        self.tries = self.tries.saturating_add(1);
        self.trouble = Some(trouble);
        self.state = State::Wait;
    }
}

/// 1, 2, 4 … 60 seconds.
fn pause(tries: u32) -> Duration {
    Duration::from_secs(1 << tries.saturating_sub(1).min(6)).min(LONGEST)
}

fn read<T: DeserializeOwned>(body: &[u8]) -> Option<T> {
    serde_json::from_slice(body).ok()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Place;

    fn two() -> (Sending, [Segment; 2]) {
        let text = [vec![1u8; 600_000], vec![2u8; 40_000]].concat();
        let place = Place { sha256: Digest::of(&text[600_000..]), at: 600_000, bytes: 40_000 };
        let made =
            crate::recipe(&mut std::io::Cursor::new(&text), Digest::of(&text), 640_000, [place]).unwrap();
        let segments = [made.segments[0], made.segments[1]];
        (Sending::new(made), segments)
    }

    fn ok<T: serde::Serialize>(answer: &T) -> Heard {
        Heard::Answer(200, serde_json::to_vec(answer).unwrap())
    }

    fn said(kind: &str) -> Said {
        Said { kind: kind.to_owned(), message: "words".to_owned(), hint: None }
    }

    fn no(status: u16, kind: &str) -> Heard {
        Heard::Answer(status, serde_json::to_vec(&said(kind)).unwrap())
    }

    fn missing(segments: &[(Segment, u64)]) -> Begun {
        let missing = segments.iter().map(|(s, have)| Missing { sha256: s.sha256, have: *have }).collect();
        Begun { missing, receipt: None }
    }

    fn receipt() -> Begun {
        Begun { missing: vec![], receipt: Some("signed".to_owned()) }
    }

    #[test]
    fn a_file_goes_piece_by_piece_and_ends_with_its_receipt() {
        let (mut sending, [a, b]) = two();
        assert_eq!(sending.next(), Next::Ask(Ask::Begin));
        sending.heard(ok(&missing(&[(b, 0), (a, 100)])));
        let piece = |segment, from, bytes, at| Next::Ask(Ask::Piece { segment, from, bytes, at });
        assert_eq!((sending.next(), sending.sent()), (piece(a, 100, 524_288, 100), 100));
        sending.heard(ok(&Have { have: 524_388 }));
        assert_eq!(sending.next(), piece(a, 524_388, 75_612, 524_388));
        sending.heard(ok(&Have { have: 600_000 }));
        assert_eq!((sending.next(), sending.sent()), (piece(b, 0, 40_000, 600_000), 600_000));
        sending.heard(ok(&Have { have: 40_000 }));
        assert_eq!((sending.next(), sending.sent()), (Next::Ask(Ask::Finish), 640_000));
        sending.heard(ok(&receipt()));
        assert_eq!(sending.next(), Next::Over(Over::Acknowledged("signed".to_owned())));
        sending.heard(Heard::Nothing);
        assert!(matches!(sending.next(), Next::Over(_)), "what is over stays so");
    }

    #[test]
    fn what_is_heard_decides_what_comes_next() {
        let wait = |seconds| Next::Wait(Duration::from_secs(seconds));
        let refused = |kind: &str| Next::Over(Over::Refused(said(kind)));
        // (answers in a row, what comes next)
        let (_, [a, b]) = two();
        let all = ok(&missing(&[(a, 0), (b, 0)]));
        let spoiled = vec![ok(&Have { have: 524_288 }), ok(&Have { have: 0 })];
        for (heard, next) in [
            (vec![], Next::Ask(Ask::Begin)),
            (vec![ok(&receipt())], Next::Over(Over::Acknowledged("signed".to_owned()))),
            (vec![ok(&missing(&[]))], Next::Ask(Ask::Finish)),
            (vec![Heard::Nothing], wait(1)),
            (vec![Heard::Answer(200, b"<html>".to_vec())], wait(1)),
            (vec![Heard::Answer(502, b"<html>".to_vec())], wait(1)),
            (vec![no(401, "signed-out")], refused("signed-out")),
            (vec![no(403, "input")], refused("input")),
            (vec![no(413, "input")], refused("input")),
            (vec![no(429, "too-many")], wait(1)),
            (vec![no(500, "internal")], wait(1)),
            (vec![no(507, "internal")], wait(1)),
            (vec![no(404, "missing")], refused("missing")),
            (vec![all.clone(), no(404, "missing")], wait(1)),
            (vec![all.clone(), ok(&Have { have: 600_001 })], wait(1)),
            (vec![ok(&missing(&[(Segment { sha256: Digest::of(b"x"), bytes: 1 }, 0)]))], wait(1)),
            (vec![ok(&missing(&[(a, 600_000)]))], wait(1)),
            (vec![ok(&missing(&[])), no(409, "conflict")], refused("conflict")),
            (vec![ok(&missing(&[])), ok(&missing(&[]))], wait(1)),
            (
                vec![ok(&missing(&[])), Heard::Answer(409, serde_json::to_vec(&missing(&[(b, 7)])).unwrap())],
                Next::Ask(Ask::Piece { segment: b, from: 7, bytes: 39_993, at: 600_007 }),
            ),
            (
                [vec![all.clone()], spoiled.clone(), spoiled.clone(), spoiled].concat(),
                Next::Over(Over::Changed),
            ),
        ] {
            let (mut sending, _) = two();
            heard.iter().for_each(|heard| sending.heard(heard.clone()));
            assert_eq!(sending.next(), next, "{heard:?}");
        }
    }

    #[test]
    fn it_waits_longer_each_time_and_a_piece_that_gets_through_makes_it_patient_again() {
        let (mut sending, [a, b]) = two();
        for seconds in [1, 2, 4, 8, 16, 32, 60, 60] {
            sending.heard(Heard::Nothing);
            assert_eq!(sending.next(), Next::Wait(Duration::from_secs(seconds)));
            sending.waited();
            assert_eq!(sending.next(), Next::Ask(Ask::Begin));
        }
        sending.heard(ok(&missing(&[(a, 0), (b, 0)])));
        let Next::Ask(Ask::Piece { bytes, .. }) = sending.next() else { panic!() };
        assert_eq!(bytes, SMALLEST_PIECE, "a bad line gets small pieces");
        sending.heard(ok(&Have { have: bytes }));
        assert_eq!((sending.tries(), sending.trouble()), (0, None));
        let Next::Ask(Ask::Piece { bytes, .. }) = sending.next() else { panic!() };
        assert_eq!(bytes, 2 * SMALLEST_PIECE);
        sending.heard(Heard::Nothing);
        assert_eq!(
            (sending.next(), sending.trouble()),
            (Next::Wait(Duration::from_secs(1)), Some(&Trouble::Line))
        );
    }
}
