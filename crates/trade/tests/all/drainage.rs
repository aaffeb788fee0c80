//! Drain sizes, vent sizes and vent routes: worked sheets, random draws, and laws that hold for every input.

use crate::english::{English as _, EnglishList as _};
use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::sample::select;
use survey::catalog::{Book, Catalog, Family, builtin};
use trade::drainage::demand::Size;
use trade::drainage::fixture::WORDS;
use trade::drainage::flat_fall::FlatFall;
use trade::drainage::reroute::studs_passed;
use trade::drainage::units::{Fixtures, Load};
use trade::drainage::vent::Rules;
use trade::drainage::{branch, building_drain, rim, slope, stack, vent};
use trade::given::Given;
use trade::measure::FixtureUnits;
use trade::{Sheet, Standing, find};

/// The catalog that ships, without a chosen plumbing book.
static CATALOG: LazyLock<Catalog> = LazyLock::new(|| builtin().unwrap());

const BOOKS: [&str; 2] = ["ipc-2021", "upc-2012"];

fn book(id: &str) -> &'static Book {
    CATALOG.shelf.book(id).unwrap()
}

fn ask_in(catalog: &Catalog, word: &str, answers: &[(&str, &str)]) -> Sheet {
    let calculation = find(word).unwrap();
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    (calculation.run)(&Given::read(calculation.fields, &answers).unwrap(), catalog).unwrap()
}

/// Answers without a chosen book.
fn open(word: &str, answers: &[(&str, &str)]) -> Sheet {
    ask_in(&CATALOG, word, answers)
}

/// Answers under one book.
fn under(id: &str, word: &str, answers: &[(&str, &str)]) -> Sheet {
    ask_in(&CATALOG.clone().choosing(Family::Plumbing, id), word, answers)
}

fn line<'a>(sheet: &'a Sheet, label: &str) -> &'a str {
    let found = sheet.lines.iter().find(|l| l.label.read() == label);
    found.unwrap_or_else(|| panic!("{label} in {:?}", sheet.lines)).text.read()
}

const KITCHEN_AND_LAUNDRY: [(&str, &str); 3] =
    [("fixtures", "kitchen_sink_dw"), ("fixtures", "clothes_washer"), ("fixtures", "laundry_tray, 1, yes")];

#[test]
fn two_inch_pipe_is_exactly_full_with_six_units_under_the_ipc() {
    // IPC Tables 709.1 and 710.1(2): 2 + 2 + 2 of 6 DFU at 2 in
    let mut answers = KITCHEN_AND_LAUNDRY.to_vec();
    answers.push(("existing", "2"));
    let sheet = under("ipc-2021", "drain-size", &answers);
    assert_eq!(sheet.standing, Standing::Near);
    assert!(sheet.sentence.starts_with("2 in is near the table value"), "{}", sheet.sentence);
    assert!(sheet.sentence.contains("exactly full"), "{}", sheet.sentence);
    assert_eq!(
        line(&sheet, "Load"),
        "kitchen sink with dishwasher 1 × 2 + clothes washer 1 × 2 + laundry tray 1 × 2 = 6 DFU"
    );
    let changes: Vec<&str> = sheet.changes.iter().map(|c| c.text.read()).collect();
    assert_eq!(changes[0], "a 2-1/2 in pipe in place of 2 in");
    assert!(changes.contains(&"the laundry tray (2 DFU) led to another drain"), "{changes:?}");
    // under the UPC a washer counts 3: 7 of 8 DFU
    assert_eq!(under("upc-2012", "drain-size", &answers).standing, Standing::Within);
    assert_eq!(open("drain-size", &answers).standing, Standing::AskLocally);
}

#[test]
fn a_kitchen_sink_asks_for_two_inches_beyond_its_trap_arm_under_the_upc() {
    let answers = [("fixtures", "kitchen_sink_dw"), ("existing", "1-1/2")];
    let upc = under("upc-2012", "drain-size", &answers);
    assert_eq!(upc.standing, Standing::Beyond);
    assert!(upc.notes.iter().any(|n| n.contains("2 in beyond its trap arm")), "{:?}", upc.notes);
    assert!(upc.limits.iter().any(|l| l.clause == "Table 702.1, note"), "{:?}", upc.limits);
    assert_eq!(under("ipc-2021", "drain-size", &answers).standing, Standing::Within);
    assert_eq!(open("drain-size", &answers).standing, Standing::AskLocally);
}

#[test]
fn without_a_size_the_books_are_shown_side_by_side_where_their_sizes_differ() {
    let sheet = open("drain-size", &[("fixtures", "kitchen_sink_dw"), ("existing", "can't tell")]);
    assert_eq!(sheet.standing, Standing::AskLocally);
    assert!(sheet.sentence.contains("IPC/IRC: Smallest horizontal branch 1-1/2 in"), "{}", sheet.sentence);
    assert!(sheet.sentence.contains("UPC: Smallest horizontal branch 2 in"), "{}", sheet.sentence);
    let same = open("drain-size", &[("fixtures", "wc_1.6")]);
    assert_eq!(same.standing, Standing::Quantity);
    let wide = open("drain-size", &[("fixtures", "kitchen_sink_dw"), ("existing", "3")]);
    assert_eq!(wide.standing, Standing::Within);
    assert!(
        wide.notes.iter().any(|n| n.contains("1-1/2 in under IPC/IRC, 2 in under UPC")),
        "{:?}",
        wide.notes
    );
}

#[test]
fn every_part_of_the_drainage_has_its_table() {
    // 2 + 2 + 1 = 5 DFU; IPC Table 710.1(2): branch 2 in (6), one interval 2 in (6), stack of 3 intervals 2 in (10);
    // 710.1(1) from memory: 2 in (21). UPC Table 703.2, 6 DFU: 2 in everywhere (8, 16)
    let fixtures =
        [("fixtures", "kitchen_sink_dw"), ("fixtures", "clothes_washer"), ("fixtures", "lavatory")];
    for (part, table) in [
        ("horizontal-branch", "Load of a horizontal branch"),
        ("vertical", "within one branch interval"),
        ("stack", "up to three branch intervals"),
        ("building-drain", "building drain"),
    ] {
        let mut answers = fixtures.to_vec();
        answers.push(("part", part));
        for id in BOOKS {
            let sheet = under(id, "drain-size", &answers);
            assert_eq!(sheet.standing, Standing::Quantity, "{part} {id}");
            assert!(sheet.sentence.contains(" 2 in"), "{part} {id}: {}", sheet.sentence);
        }
        let sheet = under("ipc-2021", "drain-size", &answers);
        assert!(sheet.limits.iter().any(|l| l.rule.contains(table)), "{part}: {:?}", sheet.limits);
    }
}

#[test]
fn four_water_closets_are_too_many_on_three_inches_lying_but_not_standing() {
    // UPC Table 703.2, notes: 3 horizontal, 4 vertical at 3 in
    for (part, count, standing) in [
        ("horizontal-branch", "3", Standing::Within),
        ("horizontal-branch", "4", Standing::Beyond),
        ("vertical", "4", Standing::Within),
        ("vertical", "5", Standing::Beyond),
    ] {
        let fixtures = format!("wc_1.6, {count}");
        let answers = [("fixtures", fixtures.as_str()), ("part", part), ("existing", "3")];
        assert_eq!(under("upc-2012", "drain-size", &answers).standing, standing, "{part} {count}");
    }
    let small = under("ipc-2021", "drain-size", &[("fixtures", "wc_1.6"), ("existing", "2")]);
    assert_eq!(small.standing, Standing::Beyond);
    assert!(small.sentence.contains("asks for 3 in"), "{}", small.sentence);
}

#[test]
fn a_slope_too_gentle_puts_the_drain_beyond() {
    // IPC 704.1: 1/4 at 2 in, 1/8 at 3 in; UPC 708.1: 1/4, 1/8 from 4 in with approval
    let standing = |id, size, slope| {
        under(id, "drain-size", &[("fixtures", "lavatory"), ("existing", size), ("slope", slope)]).standing
    };
    assert_eq!(standing("ipc-2021", "2", "0.125"), Standing::Beyond);
    assert_eq!(standing("ipc-2021", "3", "0.125"), Standing::Within);
    assert_eq!(standing("upc-2012", "3", "0.125"), Standing::Beyond);
    assert_eq!(standing("upc-2012", "4", "0.125"), Standing::AskLocally);
    // Exactly full and too gentle: neither change alone is enough.
    let mut full = KITCHEN_AND_LAUNDRY.to_vec();
    full.extend([("existing", "2"), ("slope", "0.125")]);
    assert!(under("ipc-2021", "drain-size", &full).changes.iter().all(|c| !c.enough));
    let building = [("fixtures", "lavatory"), ("part", "building-drain"), ("slope", "0.125")];
    assert_eq!(under("ipc-2021", "drain-size", &building).standing, Standing::CannotSay);
}

#[test]
fn a_building_drain_of_unsaid_slope_is_read_at_the_slope_of_its_column() {
    // IPC Table 710.1(1), 1/4 in/ft column, from memory: 42 DFU at 3 in; IPC 704.1: 1/8 in/ft at least there
    let answers = [("fixtures", "wc_1.6, 14"), ("part", "building-drain"), ("existing", "3")];
    let sheet = under("ipc-2021", "drain-size", &answers);
    assert_eq!(line(&sheet, "3 in carries"), "42 DFU; load of the building drain 42 DFU");
    assert!(sheet.sentence.contains("taken to fall 1/4\" in a foot"), "{}", sheet.sentence);
    assert!(!sheet.sentence.contains("1/8\""), "{}", sheet.sentence);
    let assumed = |sheet: &Sheet, item: &str| sheet.assumed.iter().any(|a| a.item.read() == item);
    assert!(assumed(&sheet, "slope, IPC/IRC"), "{:?}", sheet.assumed);
    let note = sheet.notes.iter().find(|n| n.contains("least slope")).unwrap();
    assert!(note.contains("1/8\" in a foot") && note.contains("carries less"), "{note}");
    // UPC Table 703.2, note 5: every horizontal column is for 1/4 in/ft
    let branch = [("fixtures", "kitchen_sink_dw")];
    assert!(assumed(&under("upc-2012", "drain-size", &branch), "slope, UPC"));
    // IPC Table 710.1(2) names no slope, nor does an upright drain have one; what was said is not assumed.
    assert!(!assumed(&under("ipc-2021", "drain-size", &branch), "slope, IPC/IRC"));
    for more in [("part", "vertical"), ("slope", "1/4")] {
        let sheet = under("upc-2012", "drain-size", &[branch[0], more]);
        assert!(!assumed(&sheet, "slope, UPC"), "{more:?}");
    }
}

#[test]
fn a_drain_near_the_height_of_its_table_is_offered_a_larger_or_a_shorter_one() {
    // UPC Table 703.2: 65 ft at 1-1/2 in, 85 at 2
    let upright = |height: &str| {
        let answers =
            [("fixtures", "lavatory"), ("part", "vertical"), ("existing", "1-1/2"), ("height", height)];
        under("upc-2012", "drain-size", &answers)
    };
    let near = upright("64 ± 4 ft");
    assert_eq!(near.standing, Standing::Near);
    let offered: Vec<_> = near.changes.iter().map(|c| (c.text.read(), c.enough)).collect();
    assert_eq!(offered[0], ("a 2 in pipe in place of 1-1/2 in", true));
    let (text, enough) = offered[1];
    let feet: f64 =
        text.strip_prefix("a vertical drain shorter by ").unwrap().trim_end_matches(" ft").parse().unwrap();
    assert!(enough && upright(&format!("{} ± 4 ft", 64.0 - feet)).standing == Standing::Within, "{text}");
    assert_eq!(upright(&format!("{} ± 4 ft", 65.0 - feet)).standing, Standing::Near);
    // Fixtures that ask for a larger pipe are not helped by a shorter one.
    let sink =
        [("fixtures", "kitchen_sink"), ("part", "vertical"), ("existing", "1-1/2"), ("height", "70 ft")];
    let sink = under("upc-2012", "drain-size", &sink);
    let enough: Vec<_> = sink.changes.iter().map(|c| c.enough).collect();
    assert_eq!(enough, [true, false], "{:?}", sink.changes);
}

#[test]
fn a_plain_shower_says_what_its_units_rest_on() {
    // IPC Table 709.1: 2 DFU for a shower up to 5.7 gpm
    let shower = |id, word| under(id, "drain-size", &[("fixtures", word)]).assumed;
    let flow = |id, word| shower(id, word).iter().any(|a| a.value.contains("5.7 gpm"));
    assert!(flow("ipc-2021", "shower"));
    assert!(!flow("ipc-2021", "shower_le_5.7gpm") && !flow("upc-2012", "shower"));
}

#[test]
fn what_is_missing_is_said_and_never_guessed() {
    for (word, answers, missing) in [
        ("drain-size", vec![], "fixtures"),
        ("vent-size", vec![("drain", "2")], "length"),
        ("vent-size", vec![("length", "20")], "drain size or fixture units"),
        (
            "vent-size",
            vec![("drain", "2"), ("length", "10"), ("horizontal", "12")],
            "lengths that go together",
        ),
        ("vent-route", vec![("sill", "44")], "flood rim"),
        ("vent-route", vec![("flood-rim", "36"), ("sill", "44"), ("read-from", "old-floor")], "build-up"),
    ] {
        let sheet = open(word, &answers);
        assert_eq!(sheet.standing, Standing::CannotSay, "{word}");
        assert!(sheet.missing.iter().any(|m| m.contains(missing)), "{word}: {:?}", sheet.missing);
    }
    let half = open("drain-size", &[("fixtures", "lavatory, 1.5")]);
    assert_eq!(half.standing, Standing::CannotSay);
    assert!(half.sentence.contains("whole number"), "{}", half.sentence);
}

#[test]
fn a_vent_without_its_load_is_sized_at_least() {
    // UPC Table 703.2: 1-1/4 in vents 1 DFU, 1-1/2 in 8; a 2-in drain carries 8
    let open_size = under("upc-2012", "vent-size", &[("drain", "2"), ("length", "20")]);
    assert!(open_size.sentence.starts_with("At least 1-1/4 in"), "{}", open_size.sentence);
    let with = |existing| {
        let answers = [("drain", "2"), ("length", "20"), ("existing", existing)];
        under("upc-2012", "vent-size", &answers).standing
    };
    assert_eq!((with("1-1/4"), with("1-1/2")), (Standing::CannotSay, Standing::Within));
    let known = [("units", "2"), ("drain", "2"), ("length", "20"), ("existing", "1-1/4")];
    assert_eq!(under("upc-2012", "vent-size", &known).standing, Standing::Beyond);
    assert_eq!(under("ipc-2021", "vent-size", &known).standing, Standing::Within);
}

#[test]
fn a_load_alone_takes_the_smallest_drain_and_says_so() {
    // IPC Table 710.1(2): 7 DFU take 2-1/2 in; half of that is 1-1/4
    let sheet = under("ipc-2021", "vent-size", &[("units", "7"), ("length", "20")]);
    assert!(sheet.sentence.contains("1-1/4 in"), "{}", sheet.sentence);
    assert!(sheet.assumed.iter().any(|a| a.value.starts_with("2-1/2 in")), "{:?}", sheet.assumed);
}

#[test]
fn a_route_shortened_as_offered_stands_within() {
    // IPC 906.2 as restated: over 40 ft one size larger; UPC Table 703.2: 60 ft and 20 ft flat at 1-1/2 in
    let ipc = [("drain", "2"), ("units", "2"), ("existing", "1-1/4"), ("length", "39 ± 3 ft")];
    let sheet = under("ipc-2021", "vent-size", &ipc);
    assert_eq!(sheet.standing, Standing::Near);
    let text = sheet.changes.iter().find_map(|c| c.text.read().strip_prefix("a route shorter by ")).unwrap();
    let feet: f64 = text.trim_end_matches(" ft").parse().unwrap();
    for (less, standing) in [(feet, Standing::Within), (feet - 1.0, Standing::Near)] {
        let length = format!("{} ± 3 ft", 39.0 - less);
        let shorter = [ipc[0], ipc[1], ipc[2], ("length", length.as_str())];
        assert_eq!(under("ipc-2021", "vent-size", &shorter).standing, standing, "{less}");
    }
    // Two limits passed by far: neither change alone is enough.
    let both =
        [("drain", "2"), ("units", "8"), ("existing", "1-1/2"), ("length", "70"), ("horizontal", "30")];
    let both = under("upc-2012", "vent-size", &both);
    let part: Vec<_> = both.changes.iter().filter(|c| c.text.contains("shorter")).map(|c| c.enough).collect();
    assert_eq!(part, [false, false], "{:?}", both.changes);
}

#[test]
fn the_flat_piece_before_the_riser_is_held_as_a_trap_arm() {
    // UPC Table 1002.2: 42 in for 1-1/2; IPC Table 909.1: 72 in. 48 in falls 1 in, under one diameter.
    let piece = |id, more: &[(&str, &str)]| {
        let mut answers = vec![("flood-rim", "36"), ("flat-length", "48 ± 1")];
        answers.extend(more);
        under(id, "vent-route", &answers)
    };
    let upc = piece("upc-2012", &[]);
    assert_eq!(upc.standing, Standing::Beyond, "{}", upc.sentence);
    assert!(upc.limits.iter().any(|l| l.clause == "Table 1002.2"), "{:?}", upc.limits);
    assert!(
        upc.assumed.iter().any(|a| a.item.contains("drain") && a.value.read() == "1-1/2"),
        "{:?}",
        upc.assumed
    );
    assert_eq!(piece("ipc-2021", &[]).standing, Standing::Within);
    // IPC 704.1, UPC 708.1: 1/4 in/ft at least; two diameters at least: IRC P3105.3, UPC 1002.2
    for id in BOOKS {
        let slope = piece(id, &[("flat-slope", "0.125"), ("drain", "2")]);
        assert_eq!((slope.standing, slope.chance_beyond), (Standing::Beyond, Some(1.0)), "{id}");
        let short = [("flood-rim", "36"), ("flat-length", "2 ± 1/4")];
        assert_eq!(under(id, "vent-route", &short).standing, Standing::Beyond, "{id}");
    }
    // The drain's size counts, not the vent's: 60 in at 2 in.
    let two = piece("upc-2012", &[("drain", "2"), ("size", "1-1/4")]);
    assert_eq!(two.standing, Standing::Within, "{}", two.sentence);
    assert_eq!(line(&two, "Trap arm, longest by table"), "60\"");
    // As `trap-arm` answers alone.
    for (id, length) in [("upc-2012", "41 ± 2"), ("ipc-2021", "71 ± 4"), ("ipc-2021", "3.5 ± 2")] {
        let alone = under(id, "trap-arm", &[("length", length)]);
        let route = under(id, "vent-route", &[("flood-rim", "36"), ("flat-length", length)]);
        assert_eq!(
            (route.standing, route.chance_beyond),
            (alone.standing, alone.chance_beyond),
            "{id} {length}"
        );
        assert!(route.sentence.contains(alone.sentence.read()), "{}", route.sentence);
    }
}

#[test]
fn the_chance_of_a_route_is_never_less_than_that_of_anything_held() {
    // A valve that is not taken, under a flat vent far above the rim.
    let refused =
        [("flood-rim", "36"), ("flat-height", "50"), ("valve-height", "6"), ("valve-adopted", "no")];
    let sheet = open("vent-route", &refused);
    assert_eq!((sheet.standing, sheet.chance_beyond), (Standing::Beyond, Some(1.0)));
    // A flat vent and an arm, read apart: 1 − (1 − p)(1 − q).
    let chance = |answers: &[(&str, &str)]| under("ipc-2021", "vent-route", answers).chance_beyond.unwrap();
    let (rim, flat, arm) =
        (("flood-rim", "36 ± 1/2"), ("flat-height", "42.25 ± 1/2"), ("flat-length", "71 ± 4"));
    let (p, q, both) = (chance(&[rim, flat]), chance(&[rim, arm]), chance(&[rim, flat, arm]));
    assert!((both - (p + q - p * q)).abs() < 1e-9, "{p} {q} {both}");
    // A flat vent between rim and sill: what it gains over the one it loses under the other.
    let (sill, framing) = (("sill", "47-1/2 ± 1/2"), ("sill-framing", "3 ± 1/2"));
    let squeezed = under("ipc-2021", "vent-route", &[rim, flat, sill, framing]);
    let q = chance(&[rim, ("flat-height", "44"), ("sill", "49.25 ± 1/2"), framing]);
    assert!(squeezed.chance_beyond.unwrap() > p, "{:?} {p} {q}", squeezed.chance_beyond);
    assert!(squeezed.sentence.contains("any of it"), "{}", squeezed.sentence);
    // Whether a valve is taken has to be asked: no chance of that can be stated.
    let unasked = [("flood-rim", "36"), ("flat-height", "50"), ("valve-height", "6")];
    let unasked = under("upc-2012", "vent-route", &unasked);
    assert_eq!((unasked.standing, unasked.chance_beyond), (Standing::AskLocally, None));
}

#[test]
fn a_change_of_a_route_is_enough_only_if_nothing_else_is_broken() {
    let low = [("flood-rim", "36 ± 1/8"), ("flat-height", "40 ± 1/8")];
    assert!(under("ipc-2021", "vent-route", &low).changes[0].enough);
    for more in [("sill", "44"), ("flat-length", "90"), ("flat-length", "2")] {
        let sheet = under("ipc-2021", "vent-route", &[low[0], low[1], more]);
        let raised = sheet.changes.iter().find(|c| c.text.contains("raised by")).unwrap();
        assert!(!raised.enough, "{more:?}: {:?}", sheet.changes);
    }
    // A sill that leaves room for the vent as it lies but not for the vent raised.
    let tight = [low[0], low[1], ("sill", "48 ± 1/8"), ("sill-framing", "4 ± 1/8")];
    let tight = under("ipc-2021", "vent-route", &tight);
    assert!(tight.changes.iter().all(|c| !c.enough), "{:?}", tight.changes);
}

#[test]
fn a_vent_that_turns_too_low_is_raised_by_what_is_missing() {
    // IPC 905.5, UPC 905.3: 36 + 6 = 42
    let sheet = open("vent-route", &[("flood-rim", "36 ± 1/8"), ("flat-height", "40 ± 1/8")]);
    assert_eq!(sheet.standing, Standing::Beyond);
    assert!(sheet.sentence.contains("beyond the value of 42\""), "{}", sheet.sentence);
    assert_eq!(line(&sheet, "Lowest flat vent"), "36\" + 6\" = 42\"");
    assert_eq!(line(&sheet, "Over the lowest"), "40\" − 42\" = −2\"");
    assert_eq!(sheet.changes[0].text.read(), "the flat vent raised by 2-3/16\"");
    let at = open("vent-route", &[("flood-rim", "36"), ("flat-height", "42")]);
    assert_eq!((at.standing, at.chance_beyond), (Standing::Near, Some(0.5)));
}

#[test]
fn a_new_floor_lowers_the_vent_that_was_read_from_the_old_one() {
    let read =
        [("flood-rim", "36"), ("flat-height", "42-1/2"), ("read-from", "old-floor"), ("build-up", "3/4")];
    let sheet = under("ipc-2021", "vent-route", &read);
    assert_eq!(line(&sheet, "Over the lowest"), "41-3/4\" − 42\" = −1/4\"");
    assert!(sheet.chance_beyond.unwrap() > 0.5);
}

#[test]
fn a_window_over_the_sink_blocks_the_riser() {
    let sheet = open("vent-route", &[("flood-rim", "36"), ("sill", "44")]);
    assert_eq!(sheet.standing, Standing::Beyond);
    assert!(sheet.sentence.contains("the window blocks the riser"), "{}", sheet.sentence);
    assert!(sheet.changes.iter().any(|c| c.text.contains("air admittance valve")));
    // A valve needs no riser.
    let valve = [("flood-rim", "36"), ("sill", "44"), ("valve-height", "6"), ("valve-adopted", "yes")];
    assert_eq!(open("vent-route", &valve).standing, Standing::Within);
}

#[test]
fn a_valve_is_held_to_its_height_and_asked_for_where_it_is_commonly_refused() {
    // IRC P3114.4: 4 in; UPC from memory
    let valve = |adopted| {
        let mut answers = vec![("flood-rim", "36"), ("valve-height", "6 ± 1/2")];
        answers.extend(adopted);
        answers
    };
    let unasked = valve(None);
    assert_eq!(under("ipc-2021", "vent-route", &unasked).standing, Standing::Within);
    assert_eq!(under("upc-2012", "vent-route", &unasked).standing, Standing::AskLocally);
    assert_eq!(open("vent-route", &unasked).standing, Standing::AskLocally);
    let refused = open("vent-route", &valve(Some(("valve-adopted", "no"))));
    assert_eq!((refused.standing, refused.chance_beyond), (Standing::Beyond, Some(1.0)));
    let low = [("flood-rim", "36"), ("valve-height", "3-1/2 ± 1/4"), ("valve-adopted", "yes")];
    assert_eq!(open("vent-route", &low).standing, Standing::Beyond);
}

#[test]
fn an_island_names_the_family_of_each_book() {
    let island = [("flood-rim", "36"), ("place", "island")];
    let words = |id| under(id, "vent-route", &island).notes.join(" ");
    assert!(words("ipc-2021").contains("a loop") && words("ipc-2021").contains("air admittance"));
    assert!(words("upc-2012").contains("a foot vent"));
    let both = open("vent-route", &island).notes.join(" ");
    assert!(both.contains("a loop") && both.contains("a foot vent"), "{both}");
}

#[test]
fn a_riser_moved_sideways_counts_the_studs_it_passes() {
    let sheet = open("vent-route", &[("flood-rim", "36"), ("shift", "40")]);
    assert_eq!(line(&sheet, "Studs passed"), "40\" ÷ 16\" = 2.5: 2 to 3, by where in a bay it starts");
    assert!(sheet.notes.iter().any(|n| n.contains("`stud-hole`")));
    assert!(sheet.assumed.iter().any(|a| a.item.read() == "stud spacing"));
}

#[test]
fn every_sheet_names_who_decides_and_where_its_values_stand() {
    for (word, answers) in [
        ("drain-size", vec![("fixtures", "kitchen_sink_dw")]),
        ("vent-size", vec![("drain", "2"), ("length", "20")]),
        ("vent-route", vec![("flood-rim", "36")]),
    ] {
        let sheet = open(word, &answers);
        assert!(sheet.caution.contains("licensed plumber") && sheet.caution.contains("local"), "{word}");
        assert!(!sheet.limits.is_empty() && sheet.limits.iter().all(|l| !l.place().is_empty()), "{word}");
    }
}

/// 400 000 draws of every reading by `make_vent_mc.py` with numpy.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/vent_mc.json");

#[test]
fn every_chance_agrees_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let cases = drawn["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 15);
    for case in cases {
        let text = |key: &str| case[key].as_str().unwrap();
        let answers: Vec<(&str, &str)> = case["answers"]
            .as_array()
            .unwrap()
            .iter()
            .map(|pair| (pair[0].as_str().unwrap(), pair[1].as_str().unwrap()))
            .collect();
        let chance = under(text("book"), text("calculation"), &answers).chance_beyond.unwrap();
        let share = case["beyond"].as_f64().unwrap();
        // z of the share under our chance: 4 is passed by one case in 16 000.
        let z = (share - chance) / (chance * (1.0 - chance) / draws).sqrt();
        assert!(z.abs() < 4.0, "{}: {chance} against {share}, z {z}", text("id"));
    }
}

fn load(id: &str, words: &[&str]) -> Load {
    Load::of(book(id), &Fixtures::of_words(words).unwrap()).unwrap()
}

fn inches(size: Option<Size>) -> f64 {
    size.map_or(f64::INFINITY, |s| s.inches)
}

proptest! {
    #[test]
    fn one_fixture_more_never_needs_a_smaller_pipe(
        id in select(&BOOKS[..]),
        words in prop::collection::vec(select(&WORDS[..]), 1..20),
        more in select(&WORDS[..]),
        slope in prop::option::of(0.0..1.0),
        intervals in 1_u32..6,
    ) {
        let mut larger = words.clone();
        larger.push(more);
        let (few, many) = (load(id, &words), load(id, &larger));
        prop_assert!(many.units > few.units);
        let sizes = |load: &Load| [
            inches(branch::demand(book(id), load, slope).unwrap().smallest()),
            inches(stack::demand_upright(book(id), load).unwrap().smallest()),
            inches(stack::demand(book(id), load, intervals, load.units).unwrap().smallest()),
            inches(building_drain::demand(book(id), load, slope).unwrap().smallest()),
        ];
        for (few, many) in sizes(&few).into_iter().zip(sizes(&many)) {
            prop_assert!(few <= many, "{few} {many}");
        }
    }

    #[test]
    fn order_of_the_fixtures_does_not_matter(
        id in select(&BOOKS[..]),
        words in prop::collection::vec(select(&WORDS[..]), 1..20).prop_shuffle(),
    ) {
        let mut sorted = words.clone();
        sorted.sort_unstable();
        let (one, other) = (load(id, &words), load(id, &sorted));
        prop_assert_eq!(one.units, other.units);
        prop_assert_eq!(branch::smallest(book(id), &one).ok(), branch::smallest(book(id), &other).ok());
    }

    #[test]
    fn a_pipe_that_does_is_never_under_the_trap_and_a_larger_one_does_too(
        id in select(&BOOKS[..]),
        words in prop::collection::vec(select(&WORDS[..]), 1..12),
    ) {
        let load = load(id, &words);
        let demand = branch::demand(book(id), &load, None).unwrap();
        if let Some(smallest) = demand.smallest() {
            prop_assert!(load.floors.iter().all(|f| f.inches <= smallest.inches));
            for size in demand.sizes().filter(|s| s.inches > smallest.inches) {
                prop_assert!(demand.faults(size).is_empty());
            }
        }
    }

    #[test]
    fn a_size_by_load_is_the_first_that_carries(units in 0.0..600.0_f64) {
        let load = FixtureUnits::new(units).unwrap();
        for (id, table, size) in [
            ("ipc-2021", "stack-to-three", stack::smallest_low(book("ipc-2021"), load)),
            ("upc-2012", "vertical-drain", stack::smallest_upright(book("upc-2012"), load)),
            ("ipc-2021", "building-drain", building_drain::smallest(book("ipc-2021"), load)),
            ("upc-2012", "building-drain", building_drain::smallest(book("upc-2012"), load)),
            ("upc-2012", "vent-load", vent::by_load(book("upc-2012"), load)),
        ] {
            let rows = &book(id).table(table).unwrap().rows;
            match size {
                Ok(size) => {
                    let at = rows.iter().position(|(name, _)| name == size.name).unwrap();
                    prop_assert!(rows[at].1 >= units - 1e-6);
                    prop_assert!(at == 0 || rows[at - 1].1 < units);
                }
                Err(error) => {
                    prop_assert!(rows.iter().all(|(_, most)| *most < units));
                    prop_assert!(error.message().en().contains("outside"), "{error}");
                }
            }
        }
    }

    #[test]
    fn a_longer_fuller_vent_of_a_larger_drain_is_never_smaller(
        id in select(&BOOKS[..]),
        drain in select(&[1.25, 1.5, 2.0, 2.5, 3.0, 4.0][..]),
        units in 0.0..300.0_f64,
        length in 0.0..320.0_f64,
        part in 0.0..1.0_f64,
        more in 0.0..60.0_f64,
    ) {
        let need = |drain: f64, units: f64, length: f64, flat: f64| {
            let rules = Rules::of(book(id), drain).unwrap();
            inches(rules.smallest(Some(FixtureUnits::new(units).unwrap()), length, Some(flat)).ok())
        };
        let flat = part * length;
        let base = need(drain, units, length, flat);
        prop_assert!(base >= 1.25 && base >= drain / 2.0);
        prop_assert!(need(drain, units, length + more, flat) >= base);
        prop_assert!(need(drain, units + more, length, flat) >= base);
        prop_assert!(need(drain, units, length, (flat + more).min(length)) >= base);
        let larger = [1.5, 2.0, 2.5, 3.0, 4.0, 6.0].into_iter().find(|d| *d > drain).unwrap();
        if larger <= 4.0 || id == "ipc-2021" {
            prop_assert!(need(larger, units, length, flat) >= base);
        }
    }

    #[test]
    fn a_larger_pipe_never_needs_a_steeper_slope(
        id in select(&BOOKS[..]),
        pair in select(&[(1.25, 1.5), (1.5, 2.0), (2.0, 2.5), (2.5, 3.0), (3.0, 4.0), (4.0, 5.0), (5.0, 8.0)][..]),
    ) {
        let least = |inches| slope::least(book(id), inches).unwrap().0;
        prop_assert!(least(pair.0) >= least(pair.1));
    }

    #[test]
    fn rim_fall_and_studs_grow_with_what_they_are_made_of(
        a in 0.0..200.0_f64, b in 0.0..200.0_f64, d in 1.0..6.0_f64, s in 0.0..2.0_f64,
    ) {
        let (low, high) = (a.min(b), a.max(b));
        for id in BOOKS {
            let height = |h| rim::least_height(book(id), h).unwrap().0;
            prop_assert!((height(high) - height(low) - (high - low)).abs() < 1e-9);
            let within = |length| FlatFall::of(book(id), d, s, length).unwrap().is_within();
            prop_assert!(within(low) || !within(high));
        }
        let (fewest, most) = studs_passed(high, 16.0).unwrap();
        prop_assert!(fewest <= most && most - fewest <= 1);
        prop_assert!(studs_passed(low, 16.0).unwrap().1 <= most);
    }

    #[test]
    fn no_number_panics(x in any::<f64>(), y in any::<f64>(), z in any::<f64>()) {
        for id in BOOKS {
            let book = book(id);
            let _ = slope::least(book, x);
            let _ = slope::judge(book, x, y);
            let _ = rim::least_height(book, x);
            let _ = FlatFall::of(book, x, y, z);
            let _ = studs_passed(x, y);
            if let Ok(units) = FixtureUnits::new(x) {
                let _ = stack::smallest_low(book, units);
                let _ = vent::by_load(book, units);
            }
            if let Ok(rules) = Rules::of(book, x) {
                let _ = rules.smallest(FixtureUnits::new(y).ok(), z, Some(y));
            }
        }
    }

    #[test]
    fn every_readable_answer_gets_a_sheet(
        fixtures in prop::collection::vec((select(&WORDS[..]), 1_u32..51), 0..4),
        part in select(&["horizontal-branch", "vertical", "stack", "building-drain"][..]),
        size in select(&["", "1-1/4", "1-1/2", "2", "2-1/2", "3", "4"][..]),
        number in 0.0..12.0_f64,
        length in 0.0..500.0_f64,
        tolerance in 0.0..200.0_f64,
        share in 0.0..1.2_f64,
        word in select(&["", "yes", "no"][..]),
        drain_size in select(&["", "1-1/4", "1-1/2", "2", "3", "4"][..]),
    ) {
        let (number_text, feet) = (format!("{number}"), format!("{length:.3} ± {tolerance:.3}"));
        let rows: Vec<String> = fixtures.iter().map(|(w, n)| format!("{w},{n}")).collect();
        let mut drain: Vec<(&str, &str)> = rows.iter().map(|r| ("fixtures", r.as_str())).collect();
        drain.extend([("part", part), ("existing", size), ("slope", number_text.as_str())]);
        let height = format!("{:.3}", length * 0.8);
        let intervals = format!("{:.2}", 1.0 + number);
        drain.extend([("height", height.as_str()), ("intervals", intervals.as_str())]);
        let flat = format!("{:.3}", (length * share).min(500.0));
        let units = format!("{}", number * 20.0);
        let vent = [("drain", size), ("units", units.as_str()), ("length", feet.as_str()),
            ("horizontal", flat.as_str()), ("existing", size)];
        let high = format!("{:.3} ± {tolerance:.3}", length * 0.48);
        let inches = format!("{:.3}", number + 6.0);
        let route = [("flood-rim", high.as_str()), ("flat-height", high.as_str()), ("sill", high.as_str()),
            ("sill-framing", inches.as_str()), ("read-from", "old-floor"), ("build-up", "1 ± 1/2"),
            ("flat-length", high.as_str()), ("flat-slope", number_text.as_str()), ("drain", drain_size),
            ("valve-height", high.as_str()), ("valve-adopted", word), ("shift", high.as_str()),
            ("spacing", inches.as_str())];
        for id in BOOKS {
            for sheet in [under(id, "drain-size", &drain), under(id, "vent-size", &vent), under(id, "vent-route", &route)] {
                prop_assert!(!sheet.sentence.is_empty() && !sheet.caution.is_empty());
                prop_assert!(sheet.chance_beyond.is_none_or(|p| (0.0..=1.0).contains(&p)));
                let within = sheet.standing == Standing::Within;
                prop_assert!(!within || sheet.chance_beyond.is_none_or(|p| Standing::of_chance(p) == Standing::Within));
                prop_assert_eq!(sheet.standing == Standing::CannotSay, !sheet.missing.is_empty());
            }
        }
    }
}
