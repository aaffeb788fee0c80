//! The sink drain as a sheet: standing by chance, two bowls, a floor shared by counter and stub, changes that are enough.

use crate::english::{English as _, EnglishList as _};
use survey::catalog::{Catalog, Family, builtin};
use survey::units::Length;
use trade::given::Given;
use trade::picture::Picture;
use trade::sink_drain::{CounterDatum, SecondBowl, SinkPlan, fit_under};
use trade::tolerance::Reading;
use trade::{Datum, DrainAnswer, DrainDefaults, DrainFit, Mount, Sheet, Shell, Standing, TradeError};

fn try_words(answers: &[(&str, &str)], catalog: &Catalog) -> Result<Sheet, TradeError> {
    let calculation = trade::find("sink-drain").unwrap();
    let answers: Vec<_> = answers.iter().map(|(n, t)| ((*n).to_owned(), (*t).to_owned())).collect();
    Given::read(calculation.fields, &answers).and_then(|given| (calculation.run)(&given, catalog))
}

fn under(book: &str, answers: &[(&str, &str)]) -> Sheet {
    try_words(answers, &builtin().unwrap().choosing(Family::Plumbing, book)).unwrap()
}

/// Undermount 8-1/2 in steel with a chosen disposer; stub at 16-1/2 read from the old floor, the new one 3/4 higher.
const FIFTH: [(&str, &str); 12] = [
    ("stub-height", "16-1/2 ± 1/4"),
    ("stub-datum", "finished-floor"),
    ("bowl-depth", "8-1/2"),
    ("sink-mount", "undermount"),
    ("sink-shell", "steel"),
    ("counter-height", "36"),
    ("counter-thick", "1-3/16"),
    ("floor-buildup", "3/4"),
    ("disposer-plan", "yes"),
    ("disposer-drop", "6-1/2"),
    ("trap-run", "20"),
    ("counter-datum", "new-floor"),
];

fn changed(
    base: &[(&'static str, &'static str)],
    to: &[(&'static str, &'static str)],
) -> Vec<(&'static str, &'static str)> {
    let kept = base.iter().filter(|(n, _)| !to.iter().any(|(m, _)| m == n));
    kept.chain(to).copied().filter(|(_, text)| !text.is_empty()).collect()
}

#[test]
fn the_standing_goes_with_the_chance_that_the_stub_must_change() {
    // The fifth worked example of worked_examples.rs: 9/16 of margin, 0.0978.
    let near = under("ipc-2021", &FIFTH);
    assert_eq!(near.standing, Standing::Near);
    assert!((near.chance_beyond.unwrap() - 0.0978).abs() < 1e-4);
    assert_eq!(near.sigma.as_ref().map(|s| s.read()), Some("0.451 in"));
    assert!(
        near.changes.is_empty() && near.notes.iter().any(|n| n.contains("would put it within")),
        "{:?}",
        near.notes
    );
    for (stub, standing) in [("15-3/4", Standing::Within), ("20", Standing::Beyond), ("2", Standing::Beyond)]
    {
        let sheet = under("ipc-2021", &changed(&FIFTH, &[("stub-height", stub)]));
        assert_eq!(sheet.standing, standing, "{stub}: {}", sheet.sentence);
        assert_eq!(sheet.standing, Standing::of_chance(sheet.chance_beyond.unwrap()));
        assert_eq!(sheet.changes.is_empty(), standing == Standing::Within);
    }
}

#[test]
fn the_picture_carries_the_levels_and_both_tolerances() {
    let Some(Picture::Sink(sink)) = under("ipc-2021", &FIFTH).picture else { panic!("no picture") };
    assert_eq!((sink.stub, sink.stub_tolerance, sink.bowls.as_slice()), (15.75, 0.25, [26.3125].as_slice()));
    assert!((sink.stub_max - 16.3333).abs() < 1e-4 && sink.disposer);
    // Root of the squares of both halves is the σ of the margin.
    let sigma = f64::hypot(sink.stub_tolerance, sink.stub_max_tolerance) / 2.0;
    assert!((sigma - 0.45069).abs() < 1e-5, "{sigma}");
}

#[test]
fn a_missing_start_of_the_reading_is_asked_for_only_where_it_decides() {
    let open = under("ipc-2021", &changed(&FIFTH, &[("stub-datum", "")]));
    assert_eq!((open.standing, open.chance_beyond), (Standing::CannotSay, None));
    assert_eq!(open.missing.read_all(), ["where the stub reading starts"]);
    let either = under("ipc-2021", &changed(&FIFTH, &[("stub-datum", ""), ("stub-height", "24")]));
    assert_eq!(either.standing, Standing::Beyond);
    assert!(either.assumed.iter().any(|a| a.item.read() == "where the stub reading starts"));
}

#[test]
fn what_is_missing_or_contradictory_is_said() {
    let sheet = under("ipc-2021", &[("bowl-depth", "9")]);
    assert_eq!((sheet.standing, sheet.missing.read_all()), (Standing::CannotSay, vec!["stub height"]));
    let catalog = builtin().unwrap();
    for (wrong, says) in [
        (("second-distance", "16"), "second bowl without its depth"),
        (("disposer-plan", "no"), "no disposer is planned"),
        (("floor-drop", "1"), "rise and to drop"),
    ] {
        let error = try_words(&changed(&FIFTH, &[wrong]), &catalog).unwrap_err().message().en();
        assert!(error.contains(says), "{error}");
    }
    let both = changed(&FIFTH, &[("dishwasher-plan", "no"), ("dishwasher-method", "air_gap")]);
    assert!(try_words(&both, &catalog).unwrap_err().message().en().contains("no dishwasher"));
}

#[test]
fn a_counter_that_stays_goes_down_with_the_stub() {
    let stays = changed(&FIFTH, &[("counter-datum", "old-floor"), ("stub-height", "17 ± 1/4")]);
    let thin = under("ipc-2021", &stays);
    let thick = under("ipc-2021", &changed(&stays, &[("floor-buildup", "3 ± 2")]));
    assert_eq!(thin.chance_beyond, thick.chance_beyond);
    assert_eq!(thin.sigma, thick.sigma);
    let line = thick.lines.iter().find(|l| l.label.read() == "Counter top above the new floor").unwrap();
    assert_eq!(line.text.read(), "36\" − 3\" = 33\"");
    assert!(!thin.changes.iter().any(|c| c.text.contains("counter")), "{:?}", thin.changes);
}

#[test]
fn two_bowls_have_a_chain_each_and_the_lower_connection_governs() {
    // First bowl as in the fifth example, 16-1/3 highest; a second one of 10 in with a strainer 24 in away:
    // 36 − 1-3/16 − 10 = 24-13/16; − 1/16 − 3 = 21-3/4; − 1/2 of waste − 1-1/2 − 5/12 of fall = 19-1/3.
    let to = [("second-bowl-depth", "10"), ("second-distance", "24")];
    let strainer = under("ipc-2021", &changed(&FIFTH, &to));
    let text = |sheet: &Sheet, label: &str| {
        sheet.lines.iter().find(|l| l.label.read() == label).unwrap().text.read()
    };
    assert_eq!(
        text(&strainer, "Second bowl: Fall of the continuous waste to the trap"),
        "1/4\"/ft × 24\" ÷ 12 = 1/2\""
    );
    assert_eq!(
        text(&strainer, "Second bowl: Bottom of the strainer body"),
        "24-13/16\" − 1/16\" − 3\" = 21-3/4\""
    );
    assert_eq!(text(&strainer, "Highest practical stub"), "the lower of 16-5/16\" and 19-5/16\" = 16-5/16\"");
    // The shallower bowl lies the higher: it governs from below.
    assert_eq!(
        text(&strainer, "Lowest stub by the 24 in rule"),
        "the higher of 2-5/8\" and 1-1/8\" = 2-5/8\""
    );
    // The disposer moved to the deeper second bowl: 24-13/16 − 1/16 − 6-1/2 − 1/2 − 3 − 5/12 = 14-1/3.
    let moved = changed(
        &FIFTH,
        &[
            ("disposer-plan", "no"),
            ("disposer-drop", ""),
            ("second-bowl-depth", "10"),
            ("second-distance", "24"),
            ("second-disposer", "yes"),
            ("second-disposer-drop", "6-1/2"),
        ],
    );
    let sheet = under("ipc-2021", &moved);
    assert_eq!(text(&sheet, "Highest practical stub"), "the lower of 21-5/16\" and 14-5/16\" = 14-5/16\"");
    let Some(Picture::Sink(sink)) = sheet.picture else { panic!("no picture") };
    assert!(sink.disposer && sink.bowls == [26.3125, 24.8125]);
    let texts: Vec<_> = sheet.changes.iter().map(|c| c.text.read()).collect();
    assert!(texts.contains(&"Choose a second bowl no deeper than 8-9/16\"."), "{texts:?}");
}

#[test]
fn two_outlets_far_apart_on_one_trap_are_noted_by_the_book_that_says_so() {
    // IPC 1002.1, exception for combination fixtures, as adopted in Chicago 18-29-1002.1: 30 in apart, 6 in deeper.
    let two = |depth, apart| changed(&FIFTH, &[("second-bowl-depth", depth), ("second-distance", apart)]);
    let notes = |book, depth, apart| under(book, &two(depth, apart)).notes.join(" ");
    assert!(notes("ipc-2021", "8-1/2", "36").contains("up to 30\" apart; here it is 36\""));
    assert!(notes("ipc-2021", "15", "16").contains("up to 6\" deeper"));
    assert!(!notes("ipc-2021", "14-1/2", "30").contains("one trap serves two bowls"));
    // UPC 1001.2, from memory: 30 in apart, and nothing of one deeper than the other.
    assert!(notes("upc-2012", "8-1/2", "36").contains("1001.2, from memory: look it up"));
    assert!(!notes("upc-2012", "15", "16").contains("one trap serves two bowls"));
}

/// A stub far below the highest practical, which stands within by its height.
const LOW_STUB: (&str, &str) = ("stub-height", "14 ± 1/4");

#[test]
fn another_value_of_the_book_that_is_broken_is_said_with_the_result() {
    // UPC Table 1002.2: 42 in; IPC Table 909.1: 72 in. IPC 1002.1 (Chicago) and UPC 1001.2 (memory): 30 in apart.
    let plain = under("upc-2012", &changed(&FIFTH, &[LOW_STUB]));
    assert_eq!(plain.standing, Standing::Within);
    assert!(!plain.sentence.contains("; but"), "{}", plain.sentence);
    for (book, to, says) in [
        (
            "upc-2012",
            vec![LOW_STUB, ("trap-run", "48")],
            "; but under UPC the run of 48\" is longer than the 42\"",
        ),
        ("ipc-2021", vec![LOW_STUB, ("trap-run", "75")], "longer than the 72\" of a trap arm"),
        (
            "ipc-2021",
            vec![LOW_STUB, ("second-bowl-depth", "8-1/2"), ("second-distance", "36")],
            "the two outlets are 36\" apart, more than the 30\" of one trap",
        ),
        (
            "upc-2012",
            vec![LOW_STUB, ("second-bowl-depth", "8-1/2"), ("second-distance", "36")],
            "under UPC the two outlets are 36\" apart",
        ),
        (
            "ipc-2021",
            vec![("second-bowl-depth", "15"), ("second-distance", "16"), ("stub-height", "10")],
            "6-1/2\" different in depth, more than the 6\" of one trap",
        ),
    ] {
        let sheet = under(book, &changed(&FIFTH, &to));
        assert!(sheet.sentence.contains(says), "{}", sheet.sentence);
        // The chance stays that of the height, for it enters the odds that the stub must change.
        assert_eq!(sheet.standing, Standing::Near, "{}", sheet.sentence);
        assert_eq!(Standing::of_chance(sheet.chance_beyond.unwrap()), Standing::Within, "{}", sheet.sentence);
    }
}

#[test]
fn a_run_too_long_for_one_book_does_not_hide_the_chance_while_none_is_chosen() {
    let long = changed(&FIFTH, &[LOW_STUB, ("trap-run", "48")]);
    let sheet = try_words(&long, &builtin().unwrap()).unwrap();
    assert_eq!(sheet.standing, Standing::Near);
    assert!(sheet.sentence.contains("; but under UPC the run") && !sheet.sentence.contains("under IPC"));
    assert_eq!(sheet.chance_beyond, under("ipc-2021", &long).chance_beyond);
}

#[test]
fn a_trap_below_the_cabinet_floor_is_said_and_no_code_is_laid_on_it() {
    // Levels of the fifth example: the cabinet floor at 5-1/4; the trap clears it by 1 in from a stub at 10.458 up.
    let at = |stub: &'static str| {
        under("ipc-2021", &changed(&FIFTH, &[("stub-height", stub), ("floor-buildup", "0")]))
    };
    let below = at("8-1/2 ± 1/4");
    assert!(
        below.sentence.contains("; but the trap would lie 15/16\" below the cabinet floor."),
        "{}",
        below.sentence
    );
    assert_eq!(below.standing, Standing::Within);
    let close = at("10 ± 1/4");
    assert!(
        close.sentence.contains("; but the trap would come within 9/16\" of the cabinet floor."),
        "{}",
        close.sentence
    );
    assert!(!at("10-1/2 ± 1/4").sentence.contains("cabinet"));
    // Beyond already: it comes on top.
    assert!(at("1 ± 1/4").sentence.contains("; also the trap would lie"), "{}", at("1 ± 1/4").sentence);
}

/// The eighth worked example: an apron front 10 in deep of fireclay over a strainer, its stub at 18-1/2.
const EIGHTH: [(&str, &str); 11] = [
    ("stub-height", "18-1/2 ± 1/4"),
    ("stub-datum", "finished-floor"),
    ("bowl-depth", "10"),
    ("sink-mount", "apron-front"),
    ("sink-shell", "fireclay"),
    ("counter-height", "36"),
    ("counter-thick", "1-1/4"),
    ("floor-buildup", "0"),
    ("disposer-plan", "no"),
    ("strainer-drop", "3"),
    ("trap-run", "18"),
];

#[test]
fn a_measured_strainer_narrows_the_answer() {
    // worked_examples.rs, EX8: 0.0828 with σ 0.451, its strainer measured. Not measured, 2-1/2 to 4 in is ±2σ: 0.375.
    let sheet = under("ipc-2021", &EIGHTH);
    assert_eq!(sheet.sigma.as_ref().map(|s| s.read()), Some("0.451 in"));
    assert!((sheet.chance_beyond.unwrap() - 0.0828).abs() < 1e-4, "{:?}", sheet.chance_beyond);
    assert!(!sheet.assumed.iter().any(|a| a.item.read() == "drop of the strainer"), "{:?}", sheet.assumed);
    let open = under("ipc-2021", &changed(&EIGHTH, &[("strainer-drop", "")]));
    let sigma = (0.45069_f64.powi(2) - 0.125_f64.powi(2) + 0.375_f64.powi(2)).sqrt();
    assert_eq!(open.sigma.en(), format!("{sigma:.3} in"));
    assert!(open.assumed.iter().any(|a| a.item.read() == "drop of the strainer"), "{:?}", open.assumed);
    // A strainer 1/2 in longer lowers everything below it by as much.
    let longer = under("ipc-2021", &changed(&EIGHTH, &[("strainer-drop", "3-1/2")]));
    let margin = |sheet: &Sheet| sheet.lines.iter().find(|l| l.label.read() == "Margin").unwrap().text.read();
    assert_eq!(margin(&sheet), "19-1/8\" − 18-1/2\" = 5/8\"");
    assert_eq!(margin(&longer), "18-5/8\" − 18-1/2\" = 1/8\"");
    // Its drop alone says that a strainer hangs there; with a disposer's it does not say which.
    let alone = under("ipc-2021", &changed(&EIGHTH, &[("disposer-plan", "")]));
    assert_eq!(alone.chance_beyond, sheet.chance_beyond);
    assert!(alone.assumed.iter().any(|a| a.value.read() == "strainer"), "{:?}", alone.assumed);
    let both = changed(&EIGHTH, &[("disposer-plan", ""), ("disposer-drop", "6")]);
    let error = try_words(&both, &builtin().unwrap()).unwrap_err().message().en();
    assert!(error.contains("both given") && error.contains("whether a disposer"), "{error}");
}

#[test]
fn a_second_strainer_is_of_one_product_unless_its_own_drop_is_given() {
    let two = changed(&EIGHTH, &[("second-bowl-depth", "10"), ("second-distance", "16")]);
    let level = |sheet: &Sheet| {
        let label = "Second bowl: Bottom of the strainer body";
        sheet.lines.iter().find(|l| l.label.read() == label).unwrap().text.read()
    };
    let same = under("ipc-2021", &changed(&two, &[("strainer-drop", "3-1/2")]));
    assert_eq!(level(&same), "24-3/4\" − 3/4\" − 3-1/2\" = 20-1/2\"");
    assert!(same.assumed.iter().any(|a| a.item.contains("second bowl's strainer")), "{:?}", same.assumed);
    let own = under("ipc-2021", &changed(&two, &[("second-strainer-drop", "4")]));
    assert_eq!(level(&own), "24-3/4\" − 3/4\" − 4\" = 20\"");
    let error = try_words(&changed(&EIGHTH, &[("second-strainer-drop", "3")]), &builtin().unwrap());
    assert!(error.unwrap_err().message().en().contains("second bowl without its depth"));
    // A disposer left out is replaced by the strainer that was measured.
    let omitted = |drop| {
        let to = [("disposer-plan", "yes"), ("strainer-drop", drop), ("stub-height", "19 ± 1/4")];
        let texts = under("ipc-2021", &changed(&EIGHTH, &to)).changes;
        texts.iter().find(|c| c.text.contains("Omit")).unwrap().text.read()
    };
    assert_ne!(omitted("3"), omitted("2-1/2"));
}

#[test]
fn dishwasher_and_run_are_judged_by_every_book_while_none_is_chosen() {
    // IPC 802.1.6, IRC P2717.2; California Plumbing Code 2013 (UPC 2012) 807.4. Trap arm: 72 and 42 in.
    let looped =
        changed(&FIFTH, &[("dishwasher-method", "high_loop"), ("trap-run", "48"), ("stub-height", "12")]);
    let notes = try_words(&looped, &builtin().unwrap()).unwrap().notes;
    let has = |part: &str| notes.iter().any(|n| n.contains(part));
    assert!(has("among the ways IPC/IRC names") && has("not among the ways UPC names"), "{notes:?}");
    assert!(has("Under UPC the run alone") && !has("Under IPC/IRC the run alone"));
}

#[test]
fn a_stretched_trap_is_held_against_the_seal_of_the_book() {
    // IRC 2006 P3201.2; California Plumbing Code 2013 (UPC 2012) 1005.1: 2 to 4 in.
    let seal = |stub| {
        under("upc-2012", &changed(&FIFTH, &[("stub-height", stub), ("floor-buildup", "0")])).notes.join(" ")
    };
    assert!(
        seal("17-1/3").contains("stretched by 1\". Its seal would be 3-1/4\", within the 2\" to 4\" of UPC")
    );
    assert!(seal("23").contains("deeper than the 2\" to 4\""));
    assert!(seal("23").contains("water would stand in the disposer"));
    assert!(!seal("16").contains("stretched"));
}

#[test]
fn another_counter_or_disposer_is_offered_with_its_amount() {
    let plan = changed(&FIFTH, &[("stub-height", "17-1/2"), ("counter-thick", "1-1/2")]);
    // 36 − 1-1/2 − 8-1/2 − 1/16 − 6-1/2 − 3 − 0.417 = 16.02 against a stub of 16-3/4: 0.73 too high.
    let changes = under("ipc-2021", &plan).changes;
    let find = |part: &str| changes.iter().find(|c| c.text.contains(part)).map(|c| c.enough);
    assert_eq!(find("no thicker than 3/4\" with its top kept at 36\""), Some(true), "{changes:?}");
    assert_eq!(find("counter top at 36-3/4\""), Some(true), "{changes:?}");
    assert_eq!(find("no more than 5-3/4\" under the bowl"), Some(true), "{changes:?}");
    let thin = under("ipc-2021", &changed(&plan, &[("counter-thick", "7/8"), ("stub-height", "18-1/4")]));
    assert!(thin.changes.iter().any(|c| !c.enough && c.text.contains("thinnest usual, 3/4\", gains 1/8\"")));
    let dropped = under("ipc-2021", &changed(&plan, &[("sink-mount", "drop-in")]));
    assert!(!dropped.changes.iter().any(|c| c.text.contains("thick")), "{:?}", dropped.changes);
}

#[test]
fn an_apron_front_may_stand_flush_or_proud_of_the_counter() {
    let plane = |rim: &'static str| {
        let sheet = under("ipc-2021", &changed(&FIFTH, &[("sink-mount", "apron-front"), ("sink-rim", rim)]));
        let Some(Picture::Sink(sink)) = sheet.picture else { panic!("no picture") };
        sink.bowl_plane
    };
    assert_eq!((plane("0"), plane("1/2"), plane("")), (36.0, 36.5, 36.0 - 1.1875));
}

/// 400 000 draws of every case by `make_sink_mc.py` with numpy.
const DRAWN: &str = include_str!("../../../../tests/vectors/trade/sink_mc.json");
/// Share and probability may lie apart by so many standard errors of the share, and one draw.
const Z: f64 = 4.0;

fn inches(value: &serde_json::Value) -> Length {
    Length::from_inches(value.as_f64().unwrap()).unwrap()
}

fn drawn_plan(case: &serde_json::Value) -> SinkPlan {
    let plain = |key: &str| Some(Reading::plain(inches(&case[key])));
    let within = |key: &str| {
        let tolerance = inches(&case[format!("{key}_plus_minus")]);
        Some(Reading {
            value: inches(&case[key]),
            tolerance: (tolerance > Length::ZERO).then_some(tolerance),
        })
    };
    let drop = |bowl: &serde_json::Value| bowl[1].as_f64().map(|_| Reading::plain(inches(&bowl[1])));
    let bowls = case["bowls"].as_array().unwrap();
    let yes = |key: &str| case[key].as_bool().unwrap();
    SinkPlan {
        mount: Some(Mount::Undermount),
        bowl_depth: Some(Reading::plain(inches(&bowls[0][0]))),
        shell: Some(Shell::Steel),
        counter_height: plain("counter"),
        counter_datum: yes("counter_from_old_floor").then_some(CounterDatum::OldFloor),
        counter_thick: plain("thick"),
        floor_buildup: within("buildup"),
        disposer: Some(drop(&bowls[0]).is_some()),
        disposer_drop: drop(&bowls[0]),
        second: bowls.get(1).map(|bowl| SecondBowl {
            depth: Reading::plain(inches(&bowl[0])),
            disposer: Some(drop(bowl).is_some()),
            disposer_drop: drop(bowl),
            strainer_drop: None,
            distance: within("apart"),
        }),
        run: plain("run"),
        stub: within("stub"),
        stub_datum: Some(if yes("from_cabinet_floor") { Datum::CabinetFloor } else { Datum::FinishedFloor }),
        toe_kick: Some(Reading::plain(Length::from_inches(4.5).unwrap())),
        cabinet_floor_thick: Some(Reading::plain(Length::from_inches(0.75).unwrap())),
        ..SinkPlan::default()
    }
}

fn answer(plan: &SinkPlan) -> DrainFit {
    let shelf = builtin().unwrap().shelf;
    match fit_under(plan, &DrainDefaults::trade(), shelf.book("ipc-2021").unwrap()).unwrap() {
        DrainAnswer::Fit(fit) => *fit,
        DrainAnswer::CannotSay { missing } => panic!("{missing:?}"),
    }
}

#[test]
fn shared_causes_agree_with_random_draws() {
    let drawn: serde_json::Value = serde_json::from_str(DRAWN).unwrap();
    let draws = drawn["draws"].as_f64().unwrap();
    let cases = drawn["cases"].as_array().unwrap();
    assert_eq!(cases.len(), 8);
    for case in cases {
        let fit = answer(&drawn_plan(case));
        let pairs = [
            ("over_practical", fit.p_over_practical),
            ("over_seal", fit.p_over_absolute),
            ("too_low", fit.p_too_low),
        ];
        for (name, p) in pairs {
            let share = case[name].as_f64().unwrap();
            let allowed = Z * (p * (1.0 - p) / draws).sqrt() + 1.0 / draws;
            assert!((p - share).abs() <= allowed, "{} {name}: {p} against {share} ± {allowed}", case["id"]);
        }
    }
}
