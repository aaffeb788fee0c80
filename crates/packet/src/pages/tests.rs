use std::io::Write as _;
use std::process::{Command, Stdio};

use survey::units::Money;
use survey::{Digest, SurveyId};

use super::set::compile;
use super::*;
use crate::sample::stamp;

/// A drawing of ours, 320 × 240, in place of a photograph.
const PICTURE: &[u8] = include_bytes!("../../fixtures/under-sink.jpg");

fn english() -> &'static words::Words {
    words::Words::of(words::Language::En)
}

fn dollars(n: i64) -> Money {
    Money::from_dollars(n)
}

fn amount(sum: i64, error: i64) -> Amount {
    Amount { sum: dollars(sum), error: dollars(error) }
}

fn condition(name: &str, odds: f64, costs: [i64; 3], action: &str, how: &str) -> ConditionRow {
    ConditionRow {
        name: name.into(),
        words: format!("about {} in 10", (odds * 10.0).round()),
        odds,
        band: Some([odds - 0.15, odds + 0.12]),
        low: dollars(costs[0]),
        likely: dollars(costs[1]),
        high: dollars(costs[2]),
        action: action.into(),
        how: how.into(),
        caution: None,
        because: vec!["Bathroom directly above: up".into(), "Only 8 1/4″ deep inside: down".into()],
    }
}

fn answer(question: &str, answer: &str) -> AnswerRow {
    AnswerRow {
        question: question.into(),
        answer: answer.into(),
        tolerance: None,
        who: "R. Ames".into(),
        when: "14 April, 10:42".into(),
        disagrees: vec![],
    }
}

fn drawn(said: &str) -> Drawn {
    let svg = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 12"><path d="M0 6h60" stroke="black"/></svg>"#;
    Drawn { svg: svg.into(), said: said.into() }
}

/// An invented house with something in every part of the pages.
fn data() -> PagesData {
    let mut conditions = vec![
        condition("Drain stub lowered", 0.98, [800, 1_150, 1_900], "Price in", "$1,150"),
        condition(
            "Vent in bulkhead A rerouted",
            0.7,
            [700, 1_270, 2_600],
            "Allowance",
            "$1,300, unused part credited",
        ),
        condition(
            "Room made in the panel",
            0.6,
            [900, 1_500, 2_400],
            "Look first",
            "label in the door, 3 min",
        ),
        condition(
            "Flooring tested, taken up with protection",
            0.5,
            [500, 730, 2_600],
            "Price in",
            "never excluded",
        ),
        condition(
            "Floor repaired at the sink",
            0.4,
            [600, 1_400, 3_200],
            "Exclude",
            "$14 a square foot, agreed before",
        ),
        condition("Duct in the bulkhead", 0.0, [600, 1_000, 2_200], "Exclude", "$46 a foot, agreed before"),
    ];
    conditions[1].caution =
        Some("A licensed plumber decides how a vent is rerouted; local code governs.".into());
    conditions[2].caution = Some("A licensed electrician decides; local code governs.".into());
    conditions[3].caution = Some(
        "Treat as lead and asbestos until tested. A certified renovator decides; local code governs.".into(),
    );
    conditions[5].band = None;
    let mut under_sink = vec![
        answer("How high is the center of the drain stub above the floor?", "19 3/8″"),
        answer("What is the trap made of?", "chromed brass"),
        answer("Is there a stain on the cabinet floor?", "can’t tell"),
    ];
    under_sink[0].tolerance = Some("± 1/16″".into());
    under_sink[0].disagrees = vec!["19 1/2″, J. Ortiz, 14 April, 11:05".into()];
    let walk = ["Outside", "Basement", "Kitchen", "Bathroom above"].into_iter().map(|name| Station {
        name: name.into(),
        answers: (1..9).map(|n| answer(&format!("Invented question {n} of this station?"), "yes")).collect(),
    });
    let mut stations: Vec<Station> = walk.collect();
    stations.push(Station { name: "Under the sink".into(), answers: under_sink });
    stations.push(Station { name: "Nobody went there".into(), answers: vec![] });
    PagesData {
        label: "Alder Street kitchen".into(),
        survey: SurveyId::new(1_776_000_000_000, &[2; 10]),
        number: 1,
        organization: Some("Invented Remodeling".into()),
        sealed_at: stamp("2026-04-14T16:42:00.000-05:00"),
        surveyed_by: vec!["R. Ames".into(), "J. Ortiz".into()],
        catalog: "7".into(),
        catalog_digest: Digest::of(b"catalog"),
        engine: "underlath 0.1.0".into(),
        assessment_digest: Digest::of(b"assessment"),
        log_position: 47,
        title: "Carry $7,900; look into the panel before signing".into(),
        lead: "$7,900 is enough 8 times in 10. Put $1,880 of it in the price and $1,300 in an allowance.".into(),
        money: MoneyBlock {
            mean: amount(4_830, 30),
            p50: amount(4_150, 40),
            p80: amount(7_900, 60),
            p90: amount(11_100, 110),
            contract: Some(dollars(62_000)),
            days: [2.0, 4.0, 5.5],
            drawing: Some(drawn("Half of the outcomes lie within $4,150.")),
            days_drawing: Some(drawn("Half of the outcomes take at most 2 days.")),
            weights: vec![WeightRow {
                name: "Drain stub lowered in the wall".into(),
                words: "more than 9 in 10".into(),
                average: dollars(1_150),
                range: [dollars(800), dollars(1_900)],
            }],
            notes: vec!["Drawn 20,000 times from the odds as they stood when sealed.".into()],
        },
        conditions,
        calculations: vec![CalculationBlock {
            title: "Sink drain fit".into(),
            sentence: "The drain stub must come down 5 1/4″".into(),
            missing: vec![],
            drawing: Some(
                r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 30"><path d="M0 15h60" stroke="black"/></svg>"#
                    .into(),
            ),
            changes: vec!["Lower the stub by at least 5 1/4″.".into()],
            notes: vec!["Nearly certain: the margin is six times the tolerance.".into()],
            arithmetic: vec![
                ["Bottom of the bowl above the finished floor".into(), "24 3/4″ ± 1/4″".into()],
                ["Highest stub that drains".into(), "14 1/8″ ± 7/8″".into()],
                ["Stub as found".into(), "19 3/8″ ± 1/16″".into()],
            ],
            limits: vec![
                LimitRow {
                    name: "Tailpiece to trap weir".into(),
                    value: "24″".into(),
                    source: "invented here for the test; a real row names document, edition and section".into(),
                },
                LimitRow { name: "Slip joint room".into(), value: "1 1/2″".into(), source: "common practice, no source".into() },
            ],
            assumed: vec!["Disposer outlet 7 1/4″ below the bowl: not measured, wide tolerance".into()],
            caution: "A licensed plumber decides; local code governs.".into(),
        }],
        looks: vec![
            LookRow {
                what: "Count the cables out of the top of the panel; the cover stays on".into(),
                time: "3 min".into(),
                worth: "$140".into(),
                why: "a licensed electrician opens it; could bring the panel to 1 in 10".into(),
            },
            LookRow {
                what: "Look down the chase from the closet upstairs".into(),
                time: "4 min".into(),
                worth: "$310".into(),
                why: "a no would bring the vent to 1 in 10, a yes to 9".into(),
            },
        ],
        stations,
        unknown: vec![
            UnknownRow { place: "Kitchen".into(), question: "Stain on bulkhead A".into(), why: "could not tell: dry to touch".into() },
            UnknownRow { place: "Kitchen".into(), question: "Behind the range".into(), why: "could not reach: furniture in the way".into() },
        ],
        photos: (0..5).map(|n| PhotoBlock {
            marks: None,
            thumbnail: if n == 3 { b"not a JPEG".to_vec() } else { PICTURE.to_vec() },
            caption: format!("Stub under the sink, view {n}"),
            place: "Under the sink".into(),
            time: "14 April, 11:05".into(),
            digest: Digest::of(&[n]),
        }).collect(),
        disclaimers: vec![
            "Nothing seen is never nothing there. These are odds for a house nobody has opened.".into(),
            "Electricity, gas, structure, lead, asbestos, mold, water and sewage: the licensed person of that trade decides, and local code governs.".into(),
        ],
    }
}

/// What poppler's pdftotext reads on the pages.
fn read(pdf: &[u8]) -> String {
    poppler("pdftotext", &["-layout", "-", "-"], pdf)
}

fn poppler(program: &str, arguments: &[&str], pdf: &[u8]) -> String {
    let mut child = Command::new(program)
        .args(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|e| panic!("{program}: {e}; install it: apt-get install poppler-utils"));
    let mut stdin = child.stdin.take().unwrap();
    let bytes = pdf.to_vec();
    let feed = std::thread::spawn(move || stdin.write_all(&bytes).unwrap());
    let out = child.wait_with_output().unwrap();
    feed.join().unwrap();
    assert!(out.status.success());
    String::from_utf8(out.stdout).unwrap()
}

#[test]
fn an_invented_house_is_set_as_universally_accessible_pdf() {
    let made = compile(&data(), english()).unwrap();
    assert!(made.universal, "the compiler refused PDF/UA-1");
    let text = read(&made.pdf);
    for words in [
        "Carry $7,900",
        "What is likely concealed",
        "about 7 in 10",
        "$700 to $2,600",
        "Money and days",
        "13%",
        "±$60",
        "The drain stub must come down",
        "common practice, no source",
        "Look before signing",
        "All answers",
        "chromed brass",
        "≠",
        "Not known, and named so",
        "could not tell: dry to touch",
        "Photographs",
        "not a JPEG",
        "How to check the seal",
        "sha256sum -c manifest-sha256.txt",
        "Apr 14, 2026, 4:42 PM",
        "R. Ames, J. Ortiz",
        "underlath-019d81d9-6000-7202-8202-020202020202-1",
    ] {
        assert!(text.contains(words), "“{words}” is not on the pages:\n{text}");
    }
    assert!(!text.contains("Nobody went there"), "a station without answers takes no room");
}

#[test]
fn the_pages_are_set_in_spanish_as_well_and_say_so_to_a_reader_of_the_screen() {
    let made = compile(&data(), words::Words::of(words::Language::Es)).unwrap();
    assert!(made.universal, "the compiler refused PDF/UA-1");
    let text = read(&made.pdf);
    for words in [
        "Lo que probablemente está oculto",
        "Dinero y días",
        "$700 a $2,600",
        "Revisar antes de firmar",
        "Cómo comprobar el sello",
        "14 abr 2026, 4:42",
        "Levantamiento de R. Ames",
    ] {
        assert!(text.contains(words), "“{words}” is not on the pages:\n{text}");
    }
    assert!(!text.contains('□'), "a face lacks a letter:\n{text}");
    assert!(String::from_utf8_lossy(&made.pdf).contains("/Lang(es-US)"), "the PDF names its language");
}

#[test]
fn the_only_date_is_the_sealing_date_with_its_offset() {
    let told = poppler("pdfinfo", &["-rawdates", "-"], &pages(&data(), english()).unwrap());
    let dates: Vec<&str> = told.lines().filter(|l| l.contains("Date:")).collect();
    assert!(dates.len() == 2 && dates.iter().all(|l| l.contains("D:20260414164200-05'00")), "{told}");
}

#[test]
fn equal_data_give_equal_bytes() {
    assert!(pages(&data(), english()).unwrap() == pages(&data(), english()).unwrap());
    let mut other = data();
    other.conditions[0].odds = 0.5;
    assert!(pages(&data(), english()).unwrap() != pages(&other, english()).unwrap());
}

#[test]
fn a_house_without_anything_is_still_set() {
    let empty = PagesData {
        label: String::new(),
        title: String::new(),
        lead: String::new(),
        surveyed_by: vec![],
        organization: None,
        conditions: vec![],
        calculations: vec![],
        looks: vec![],
        stations: vec![],
        unknown: vec![],
        photos: vec![],
        disclaimers: vec![],
        money: MoneyBlock {
            contract: None,
            days: [f64::NAN, -1.0, f64::INFINITY],
            drawing: None,
            days_drawing: Some(Drawn { svg: "no drawing".into(), said: String::new() }),
            weights: vec![],
            notes: vec![],
            ..data().money
        },
        ..data()
    };
    let made = compile(&empty, english()).unwrap();
    assert!(made.universal);
    assert!(read(&made.pdf).contains("House without a name"));
}

#[test]
fn hostile_words_stand_on_the_page_as_they_were_written() {
    let dollars = "$".repeat(5_000);
    let words = [
        "#read(\"/etc/passwd\")",
        "]#panic()",
        "#import \"x.typ\": *",
        "*bold* _it_ `raw` = head",
        "$ x^2 $ \\ // /* @label <l>",
        "\u{0}\u{7}\u{1b}[31m\u{202e}evil\u{feff}",
        "猫 🔥 \u{1f468}\u{200d}\u{1f469} \u{301}\u{301}",
        "\u{10ffff}\u{fdd0}\u{e000}\u{fffd}",
        "שלום عربى",
        dollars.as_str(),
        "data:image/svg+xml,<svg/>",
        "../../../etc/passwd",
        "",
        " ",
        "\n\n= Heading",
    ];
    for (n, hostile) in words.iter().enumerate() {
        let mut d = data();
        let all = || hostile.to_string();
        (d.label, d.title, d.lead, d.engine, d.catalog) = (all(), all(), all(), all(), all());
        (d.organization, d.surveyed_by) = (Some(all()), vec![all()]);
        d.conditions[0] = ConditionRow {
            name: all(),
            words: all(),
            action: all(),
            how: all(),
            caution: Some(all()),
            because: vec![all()],
            odds: f64::NAN,
            band: Some([f64::INFINITY, f64::NAN]),
            ..d.conditions[0].clone()
        };
        d.calculations = vec![CalculationBlock {
            title: all(),
            sentence: all(),
            missing: vec![all()],
            drawing: Some(all()),
            changes: vec![all()],
            arithmetic: vec![[all(), all()]],
            assumed: vec![all()],
            notes: vec![all()],
            caution: all(),
            limits: vec![LimitRow { name: all(), value: all(), source: all() }],
        }];
        d.looks = vec![LookRow { what: all(), time: all(), worth: all(), why: all() }];
        d.stations = vec![Station {
            name: all(),
            answers: vec![AnswerRow {
                tolerance: Some(all()),
                who: all(),
                when: all(),
                disagrees: vec![all()],
                ..answer(hostile, hostile)
            }],
        }];
        d.unknown = vec![UnknownRow { place: all(), question: all(), why: all() }];
        (d.photos[0].caption, d.photos[0].place, d.photos[0].time) = (all(), all(), all());
        d.disclaimers = vec![all()];
        d.money.notes = vec![all()];
        let made = compile(&d, english()).unwrap_or_else(|e| panic!("text {n}: {e}"));
        assert!(made.universal, "text {n} is refused as PDF/UA-1");
        let text = read(&made.pdf);
        assert!(!text.contains("root:"), "text {n} read a file");
        if n < 2 {
            assert!(text.contains(hostile), "text {n} does not stand there as written:\n{text}");
        }
    }
}

/// Writes the pages to the path in UNDERLATH_LOOK, to be looked at by eye.
#[test]
#[ignore = "for looking at by eye: UNDERLATH_LOOK=PATH"]
fn the_pages_to_look_at() {
    #[allow(clippy::disallowed_methods, reason = "asked for by hand")]
    let path = std::env::var("UNDERLATH_LOOK").unwrap();
    std::fs::write(path, pages(&data(), english()).unwrap()).unwrap();
}
