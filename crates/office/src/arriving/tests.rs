//! What comes in pieces, with stops between them.

use courier::{Place, recipe};
use proptest::prelude::*;
use tempfile::TempDir;

use super::*;

fn at(minute: u32) -> Stamp {
    format!("2026-04-14T09:{minute:02}:00-05:00").parse().unwrap()
}

/// Two parts with a digest of their own, and what stands around them.
fn file() -> (Vec<u8>, Recipe) {
    let bytes: Vec<u8> = (0..10_000u32).map(|n| (n.wrapping_mul(2_654_435_761) >> 13) as u8).collect();
    let place = |at: u64, length: u64| Place {
        sha256: Digest::of(&bytes[at as usize..(at + length) as usize]),
        at,
        bytes: length,
    };
    let places = [place(100, 3_000), place(3_200, 4_000)];
    let made = recipe(&mut io::Cursor::new(&bytes), Digest::of(&bytes), 10_000, places).unwrap();
    (bytes, made)
}

struct Office {
    dir: TempDir,
    arriving: Arriving,
}

impl Office {
    fn new() -> Self {
        let dir = tempfile::tempdir().unwrap();
        let arriving = Arriving::new(dir.path());
        Self { dir, arriving }
    }
    /// As after the program was killed.
    fn again(&mut self) {
        self.arriving = Arriving::new(self.dir.path());
    }
    fn begin(&self, which: Which, recipe: &Recipe) -> Result<Vec<Missing>, ArrivingError> {
        self.arriving.begin(which, recipe, &mut |_| None, at(1))
    }
    /// Hands the file on by giving its bytes.
    fn finish(&self, which: Which) -> Result<Vec<u8>, ArrivingError> {
        let take = |file: &Path| fs::read(file).map_err(|e| ArrivingError::at(file, &e));
        self.arriving.finish(which, &mut |_| None, &mut |_| panic!(), take)
    }
    /// Sends all that is missing.
    fn send(&self, which: Which, recipe: &Recipe, bytes: &[u8]) {
        let missing = self.begin(which, recipe).unwrap();
        for (offset, segment) in recipe.offsets() {
            let Some(lacks) = missing.iter().find(|m| m.sha256 == segment.sha256) else { continue };
            let rest = &bytes[(offset + lacks.have) as usize..(offset + segment.bytes) as usize];
            let have = self.arriving.piece(which, *segment, lacks.have, rest).unwrap();
            assert_eq!(have.have, segment.bytes);
        }
    }
}

fn which(recipe: &Recipe) -> Which {
    Which { tablet: TabletId([1; 16]), packet: recipe.packet }
}

#[test]
fn what_came_in_pieces_is_handed_on_as_it_was_and_leaves_nothing() {
    let office = Office::new();
    let (bytes, recipe) = file();
    let which = which(&recipe);
    assert!(matches!(office.finish(which), Err(ArrivingError::NotBegun)));
    assert_eq!(office.begin(which, &recipe).unwrap().len(), 5);
    assert!(matches!(office.finish(which), Err(ArrivingError::Missing(m)) if m.len() == 5));
    office.send(which, &recipe, &bytes);
    assert_eq!(office.begin(which, &recipe).unwrap(), []);
    let all = office.arriving.all().unwrap();
    assert_eq!((all.len(), all[0].which, all[0].have, all[0].since), (1, which, 10_000, at(1)));
    assert_eq!(office.finish(which).unwrap(), bytes);
    assert_eq!(office.arriving.all().unwrap(), []);
    assert!(matches!(office.finish(which), Err(ArrivingError::NotBegun)));
}

#[test]
fn a_piece_that_does_not_follow_on_is_told_what_is_here() {
    let office = Office::new();
    let (bytes, recipe) = file();
    let (which, segment) = (which(&recipe), recipe.segments[1]);
    let piece = |from: u64, piece: &[u8]| office.arriving.piece(which, segment, from, piece);
    assert!(matches!(piece(0, &bytes[100..200]), Err(ArrivingError::NotBegun)));
    office.begin(which, &recipe).unwrap();
    assert_eq!(piece(0, &bytes[100..1_100]).unwrap().have, 1_000);
    for from in [0, 999, 1_001] {
        assert!(matches!(piece(from, b"abc"), Err(ArrivingError::NotNext { have: 1_000 })), "{from}");
    }
    assert!(matches!(piece(1_000, b""), Err(ArrivingError::NotInRecipe)));
    assert!(matches!(piece(1_000, &[0; 2_001]), Err(ArrivingError::NotInRecipe)));
    let other = Segment { bytes: 3_001, ..segment };
    assert!(matches!(office.arriving.piece(which, other, 1_000, b"a"), Err(ArrivingError::NotInRecipe)));
    let foreign = Segment { sha256: Digest::of(b"x"), bytes: 1 };
    assert!(matches!(office.arriving.piece(which, foreign, 0, b"x"), Err(ArrivingError::NotInRecipe)));
    // What is not what its digest says is thrown away.
    assert_eq!(piece(1_000, &[0; 2_000]).unwrap().have, 0);
    assert_eq!(piece(0, &bytes[100..3_100]).unwrap().have, 3_000);
    assert_eq!(piece(0, &bytes[100..200]).unwrap().have, 3_000, "whole already");
}

#[test]
fn segments_that_are_together_another_file_are_given_up() {
    let office = Office::new();
    let (bytes, mut recipe) = file();
    recipe.packet = Digest::of(b"another");
    let which = which(&recipe);
    office.send(which, &recipe, &bytes);
    assert!(matches!(office.finish(which), Err(ArrivingError::Another)));
    assert_eq!(office.arriving.all().unwrap(), []);
}

#[test]
fn what_is_here_already_is_not_asked_for_and_asked_for_when_it_was_lost() {
    let office = Office::new();
    let (bytes, recipe) = file();
    let (which, photo) = (which(&recipe), recipe.segments[1]);
    let earlier = office.dir.path().join("earlier.zip");
    fs::write(&earlier, [b"before".as_slice(), &bytes[100..3_100], b"behind"].concat()).unwrap();
    let there = Elsewhere { file: earlier.clone(), at: 6, bytes: 3_000 };
    let mut finds = |digest| (digest == photo.sha256).then(|| there.clone());
    let missing = office.arriving.begin(which, &recipe, &mut finds, at(1)).unwrap();
    assert!(missing.len() == 4 && missing.iter().all(|m| m.sha256 != photo.sha256));
    for (offset, segment) in recipe.offsets().filter(|(_, s)| s.sha256 != photo.sha256) {
        let part = &bytes[offset as usize..(offset + segment.bytes) as usize];
        office.arriving.piece(which, *segment, 0, part).unwrap();
    }
    let read = |file: &Path| fs::read(file).map_err(|e| ArrivingError::at(file, &e));
    fs::write(&earlier, vec![0; 4_000]).unwrap();
    let mut lost = Vec::new();
    let no = office.arriving.finish(which, &mut finds, &mut |digest| lost.push(digest), read);
    assert!(
        matches!(&no, Err(ArrivingError::Missing(m)) if m.len() == 1 && m[0].sha256 == photo.sha256),
        "{no:?}"
    );
    assert_eq!(lost, [photo.sha256]);
    office.arriving.piece(which, photo, 0, &bytes[100..3_100]).unwrap();
    assert_eq!(office.arriving.finish(which, &mut |_| None, &mut |_| panic!(), read).unwrap(), bytes);
}

#[test]
fn a_packet_that_is_refused_or_breaks_off_while_it_is_taken_in_is_still_there() {
    let mut office = Office::new();
    let (bytes, recipe) = file();
    let which = which(&recipe);
    office.send(which, &recipe, &bytes);
    let no = office
        .arriving
        .finish(which, &mut |_| None, &mut |_| panic!(), |_| Err::<(), _>(ArrivingError::Full));
    assert!(matches!(no, Err(ArrivingError::Full)));
    office.again();
    assert_eq!(office.finish(which).unwrap(), bytes);
}

#[test]
fn there_are_only_so_many_and_what_nobody_goes_on_with_is_swept() {
    let office = Office::new();
    let (_, recipe) = file();
    let one = |tablet: u8, n: u8| {
        let packet = Digest::of(&[n]);
        let which = Which { tablet: TabletId([tablet; 16]), packet };
        (which, Recipe { packet, ..recipe.clone() })
    };
    for n in 0..MOST_OF_ONE as u8 {
        let (which, recipe) = one(1, n);
        office.begin(which, &recipe).unwrap();
    }
    let (over, recipe) = one(1, 99);
    assert!(matches!(office.begin(over, &recipe), Err(ArrivingError::TooMany)));
    let (again, recipe) = one(1, 0);
    office.begin(again, &recipe).unwrap();
    let (other, recipe) = one(2, 99);
    office.begin(other, &recipe).unwrap();
    // The file system knows when they came: now. A month on they are old, and what has no note counts as never begun.
    let soon = office.arriving.all().unwrap()[0].last;
    assert_eq!(office.arriving.sweep(soon).unwrap(), 0);
    fs::remove_file(office.arriving.place(other).join(NOTE)).unwrap();
    assert_eq!(office.arriving.sweep(soon).unwrap(), 1);
    let late = Stamp::new(soon.unix_ms() + KEPT_MS + 60_000, 0).unwrap();
    assert_eq!(office.arriving.sweep(late).unwrap(), MOST_OF_ONE);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Pieces of any size in any order of segments, some twice, the program ended between any two of them.
    #[test]
    fn any_stop_and_any_repeat_give_the_same_bytes(
        steps in prop::collection::vec((0usize..5, 1usize..2_500, any::<bool>(), any::<bool>()), 0..25),
    ) {
        let mut office = Office::new();
        let (bytes, recipe) = file();
        let which = which(&recipe);
        office.begin(which, &recipe).unwrap();
        let offsets: Vec<(u64, Segment)> = recipe.offsets().map(|(at, s)| (at, *s)).collect();
        for (n, length, twice, killed) in steps {
            let (offset, segment) = offsets[n];
            let missing = office.begin(which, &recipe).unwrap();
            let Some(lacks) = missing.iter().find(|m| m.sha256 == segment.sha256) else { continue };
            let from = (offset + lacks.have) as usize;
            let to = (from + length).min((offset + segment.bytes) as usize);
            let have = office.arriving.piece(which, segment, lacks.have, &bytes[from..to]).unwrap();
            prop_assert_eq!(have.have as usize, to - offset as usize);
            if twice {
                let told = office.arriving.piece(which, segment, lacks.have, &bytes[from..to]);
                match told {
                    Ok(have) => prop_assert_eq!(have.have, segment.bytes),
                    Err(ArrivingError::NotNext { have: told }) => prop_assert_eq!(told, have.have),
                    Err(other) => prop_assert!(false, "{}", other),
                }
            }
            if killed {
                office.again();
            }
        }
        office.send(which, &recipe, &bytes);
        prop_assert_eq!(office.finish(which).unwrap(), bytes);
    }
}
