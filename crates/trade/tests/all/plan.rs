//! From a planned sink to an answer: what is assumed, how it widens the spread, what would help.

use crate::english::English as _;
use survey::Phrase;
use survey::catalog::{Family, Shelf, builtin};
use survey::units::{Length, LengthUnit, parse_length};
use trade::normal::phi;
use trade::sink_drain::{RemedyKind, SinkPlan, fit};
use trade::tolerance::Reading;
use trade::{Datum, DrainAnswer, DrainDefaults, DrainFit, Mount, Shell, Term, Verdict};

fn length(text: &str) -> Length {
    parse_length(text, LengthUnit::Inch).length.unwrap()
}

fn reading(text: &str) -> Reading {
    Reading::plain(length(text))
}

fn within(text: &str, tolerance: &str) -> Option<Reading> {
    Some(Reading { value: length(text), tolerance: Some(length(tolerance)) })
}

/// σ that one source brings to the stub less the highest practical one.
fn sigma_of(fit: &DrainFit, source: &str) -> f64 {
    fit.over.sources().iter().find(|(name, _)| name.en() == source).map_or(0.0, |(_, sigma)| *sigma)
}

/// The shelf that ships, with a plumbing book chosen.
fn under(book: &str) -> Shelf {
    builtin().unwrap().shelf.choosing(Family::Plumbing, book)
}

fn answer(plan: &SinkPlan) -> DrainFit {
    answer_under(plan, "ipc-2021")
}

fn answer_under(plan: &SinkPlan, book: &str) -> DrainFit {
    on(plan, &under(book))
}

/// With no plumbing code chosen.
fn open(plan: &SinkPlan) -> DrainFit {
    on(plan, &builtin().unwrap().shelf)
}

fn on(plan: &SinkPlan, shelf: &Shelf) -> DrainFit {
    match fit(plan, &DrainDefaults::trade(), shelf).unwrap() {
        DrainAnswer::Fit(fit) => *fit,
        DrainAnswer::CannotSay { missing } => panic!("{missing:?}"),
    }
}

/// The first worked example with everything known: apron-front 10 in fireclay with disposer, stub at 18.
fn known() -> SinkPlan {
    SinkPlan {
        mount: Some(Mount::ApronFront),
        bowl_depth: Some(reading("10")),
        shell: Some(Shell::Fireclay),
        counter_height: Some(reading("36")),
        counter_thick: Some(reading("1-1/4")),
        floor_buildup: Some(Reading::plain(Length::ZERO)),
        disposer: Some(true),
        disposer_drop: Some(reading("6-1/2")),
        dishwasher: Some(true),
        run: Some(reading("18")),
        stub: within("18", "1/4"),
        stub_datum: Some(Datum::FinishedFloor),
        toe_kick: Some(reading("4-1/2")),
        cabinet_floor_thick: Some(reading("3/4")),
        ..SinkPlan::default()
    }
}

#[test]
fn a_known_plan_gives_the_hand_worked_answer() {
    let fit = answer(&known());
    assert_eq!((fit.verdict, fit.margin, fit.levels.stub_abs), (Verdict::MustMove, -3.875, 15.875));
    assert!((fit.sigma - 0.45069).abs() < 5e-6, "{}", fit.sigma);
    assert!(fit.p_over_practical > 0.9999 && fit.p_over_absolute > 0.9999 && fit.p_too_low < 1e-9);
    // Nobody can measure the trap before it is built: the one term always assumed.
    assert_eq!(fit.assumed.iter().map(|a| a.item.read()).collect::<Vec<_>>(), ["drop of the trap assembly"]);
    assert!(fit.caution.contains("licensed plumber") && fit.caution.contains("local"));
}

#[test]
fn the_arithmetic_can_be_redone_on_paper() {
    let fit = answer(&known());
    let text = |label: &str| fit.lines.iter().find(|l| l.label.read() == label).unwrap().text.read();
    assert_eq!(text("Inside bottom of the bowl"), "36\" − 1-1/4\" − 10\" = 24-3/4\"");
    assert_eq!(text("Center of the disposer outlet"), "24-3/4\" − 3/4\" − 6-1/2\" = 17-1/2\"");
    assert_eq!(text("Fall from trap to stub"), "1/4\"/ft × 18\" ÷ 12 = 3/8\"");
    assert_eq!(text("Highest practical stub"), "17-1/2\" − 3\" − 3/8\" = 14-1/8\"");
    assert_eq!(text("Margin"), "14-1/8\" − 18\" = −3-7/8\"");
    assert_eq!(
        text("Check with one tape"),
        "the stub lies at least 20-5/8\" below the plane 1-1/4\" below the counter top"
    );
}

#[test]
fn single_changes_carry_their_amounts() {
    let fit = answer(&known());
    let amounts: Vec<_> = fit.remedies.iter().map(|r| (r.kind, r.amount, r.enough)).collect();
    assert_eq!(
        amounts,
        [
            (RemedyKind::LowerStub, 3.875, true),
            (RemedyKind::OmitDisposer, 5.0, true),
            (RemedyKind::ShallowerBowl, 6.125, true),
            (RemedyKind::ThinnerCounter, 0.75, false),
        ]
    );
    assert!(fit.remedies[0].text.contains("3-7/8") && fit.remedies[0].text.contains("below"));
}

#[test]
fn each_change_alone_makes_it_fit() {
    let mut lowered = known();
    lowered.stub = within("14-1/8", "1/4");
    let mut shallower = known();
    shallower.bowl_depth = Some(reading("6-1/8"));
    let mut strainer = known();
    (strainer.disposer, strainer.disposer_drop) = (Some(false), None);
    for plan in [lowered, shallower, strainer] {
        assert_eq!(answer(&plan).verdict, Verdict::Fits);
    }
}

#[test]
fn a_low_stub_asks_for_a_deeper_bowl_or_a_higher_stub() {
    let plan = SinkPlan {
        mount: Some(Mount::DropIn),
        bowl_depth: Some(reading("6")),
        shell: Some(Shell::Steel),
        disposer: Some(false),
        run: Some(reading("12")),
        stub: within("6", "1/4"),
        ..known()
    };
    let fit = answer(&SinkPlan { disposer_drop: None, ..plan });
    assert_eq!((fit.verdict, fit.levels.stub_min_code), (Verdict::TooLow, 6.75));
    let amounts: Vec<_> = fit.remedies.iter().map(|r| (r.kind, r.amount)).collect();
    assert_eq!(amounts, [(RemedyKind::RaiseStub, 0.75), (RemedyKind::DeeperBowl, 6.75)]);
    assert!(fit.p_too_low > 0.99 && fit.p_outside() <= 1.0);
    assert!(fit.notes.iter().any(|n| n.contains("cabinet floor")), "{:?}", fit.notes);
}

#[test]
fn without_stub_or_bowl_depth_nothing_is_said() {
    let plan = SinkPlan { stub: None, bowl_depth: None, ..known() };
    let answer = |plan| fit(plan, &DrainDefaults::trade(), &under("ipc-2021")).unwrap();
    let missing = answer(&plan);
    assert_eq!(
        missing,
        DrainAnswer::CannotSay { missing: vec![Phrase("trade-stub-height"), Phrase("trade-bowl-depth")] }
    );
    let plan = SinkPlan { stub: None, ..known() };
    assert_eq!(answer(&plan), DrainAnswer::CannotSay { missing: vec![Phrase("trade-stub-height")] });
}

#[test]
fn an_open_disposer_widens_the_spread_and_is_asked_for() {
    let fit = answer(&SinkPlan { disposer_drop: None, ..known() });
    let sigmas = (sigma_of(&fit, "disposer drop"), sigma_of(&fit, "trap drop"));
    assert_eq!((fit.chain.connection_drop, sigmas), (5.5, (1.0, 0.5)));
    assert!(
        fit.assumed.iter().any(|a| a.item.contains("disposer") && a.value.read() == "5-1/2\" ± 2\""),
        "{:?}",
        fit.assumed
    );
    assert!(fit.notes.iter().any(|n| n.contains("sheet")));
    let sigma = (0.45069_f64.powi(2) - 0.125 * 0.125 - 0.375 * 0.375 + 1.0 + 0.25).sqrt();
    assert!((fit.sigma - sigma).abs() < 1e-4);
    assert!((fit.p_over_practical - phi((18.0 - 15.125) / fit.sigma)).abs() < 1e-12);
}

#[test]
fn with_only_stub_and_depth_every_default_is_shown() {
    let plan = SinkPlan { bowl_depth: known().bowl_depth, stub: known().stub, ..SinkPlan::default() };
    let fit = open(&plan);
    let items: Vec<_> = fit.assumed.iter().map(|a| a.item.read()).collect();
    assert_eq!(
        items,
        [
            "counter height",
            "mount of the sink",
            "counter thickness",
            "bowl material",
            "disposer",
            "drop of the disposer, none chosen",
            "drop of the trap assembly",
            "run from trap to stub",
            "where the stub reading starts",
            "toe kick",
            "cabinet floor thickness",
            "rise of the finished floor",
            "plumbing code",
        ]
    );
    assert!(fit.assumed.iter().all(|a| !a.value.is_empty()));
    assert!(fit.sigma > answer(&known()).sigma);
}

#[test]
fn each_missing_answer_widens_the_spread_and_none_narrows_it() {
    let full = answer(&known()).sigma;
    let forget: [fn(&mut SinkPlan); 8] = [
        |p| p.mount = None,
        |p| p.shell = None,
        |p| p.counter_height = None,
        |p| p.counter_thick = None,
        |p| p.floor_buildup = None,
        |p| p.disposer_drop = None,
        |p| p.run = None,
        |p| p.stub_datum = None,
    ];
    for (at, forget) in forget.iter().enumerate() {
        let mut plan = known();
        forget(&mut plan);
        assert!(answer(&plan).sigma > full, "{at}");
    }
}

#[test]
fn a_new_floor_lowers_the_stub_and_a_cabinet_reading_raises_it() {
    let mut plan = known();
    plan.floor_buildup = Some(reading("3/4"));
    assert_eq!(answer(&plan).stub, 17.25);
    plan.stub_datum = Some(Datum::CabinetFloor);
    plan.stub = within("11-1/4", "1/8");
    let fit = answer(&plan);
    assert_eq!(fit.stub, 15.75);
    let line = fit.lines.iter().find(|l| l.label.read() == "Stub above the new floor").unwrap().text.read();
    assert_eq!(line, "4-1/2\" + 3/4\" + 11-1/4\" − 3/4\" = 15-3/4\"");
}

#[test]
fn a_stated_tolerance_is_two_sigma_and_never_finer_than_the_grid() {
    let sigma = |tolerance: &str| answer(&SinkPlan { stub: within("18", tolerance), ..known() }).stub_sigma;
    assert_eq!(sigma("1"), 0.5);
    let unstated = answer(&SinkPlan { stub: Some(reading("18")), ..known() });
    assert_eq!(unstated.stub_sigma, DrainDefaults::trade().stub.measured);
    assert!((sigma("0") - 0.018_042_195_912_175_804).abs() < 1e-15); // 1/16 over the root of 12
}

#[test]
fn the_limits_of_the_code_family_are_named_with_their_edition() {
    for (book, document, clause) in [
        ("ipc-2021", "International Plumbing Code (IPC)", "IRC Table P3105.1, IPC Table 909.1"), // 2021
        ("upc-2012", "California Plumbing Code, Title 24 Part 5", "Table 1002.2"), // 2013, UPC 2012
    ] {
        let fit = answer_under(&known(), book);
        assert!(fit.limits.iter().any(|l| l.document.starts_with(document) && l.clause == clause));
        assert!(fit.limits.iter().all(|l| !l.edition.is_empty() && !l.value.is_empty()));
    }
}

#[test]
fn a_long_run_is_noted_against_the_trap_arm_of_the_family() {
    // California Plumbing Code 2013 (UPC 2012) Table 1002.2: 42 in for 1-1/2; IRC 2021 Table P3105.1: 72 in.
    let note = |book| {
        let fit = answer_under(&SinkPlan { run: Some(reading("48")), ..known() }, book);
        fit.notes.iter().any(|n| n.contains("trap arm"))
    };
    assert!(note("upc-2012") && !note("ipc-2021"));
}

#[test]
fn the_built_in_defaults_are_the_ones_of_the_catalog() {
    assert_eq!(DrainDefaults::of_catalog(&builtin().unwrap()).unwrap(), DrainDefaults::trade());
}

#[test]
fn a_table_without_a_default_is_named() {
    let error = DrainDefaults::from_table(|id| (id != "trap-seal").then_some((1.0, 0.1, 0.2))).unwrap_err();
    assert!(error.message().en().contains("trap-seal"), "{error}");
    let own = DrainDefaults { drop_strainer: Term::new(2.5, 0.1, 0.3), ..DrainDefaults::trade() };
    let plan = SinkPlan { disposer: Some(false), disposer_drop: None, ..known() };
    let DrainAnswer::Fit(fit) = fit(&plan, &own, &under("ipc-2021")).unwrap() else { panic!("no answer") };
    assert_eq!((fit.chain.connection_drop, sigma_of(&fit, "strainer drop")), (2.5, 0.3));
}
