use std::io::Write as _;
use std::process::{Command, Stdio};

use survey::units::Money;
use survey::{Digest, SurveyId};

use super::set::{Made, compile};
use super::*;
use crate::sample::stamp;
use crate::{Cell, PacketError, Table, Tables};

/// A drawing of ours, 320 × 240, in place of a photograph.
const PICTURE: &[u8] = include_bytes!("../../fixtures/under-sink.jpg");

/// Everybody reads the same language.
fn both(words: &words::Words) -> Readers<'_> {
    Readers { crew: words, household: words }
}

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
        what: "It runs where the new cabinet goes.".into(),
        when: "1/2 to 2 days · rough-in · plumber".into(),
        path: vec![],
        photos: vec![],
        looks: vec![],
    }
}

/// A book around an office's pages: a trade, the household, one change order, one table.
fn around(office: PagesData) -> Book {
    let conditions = office.conditions.iter().map(|c| TradeRow {
        name: c.name.clone(),
        what: c.what.clone(),
        words: c.words.clone(),
        odds: c.odds,
        when: c.when.clone(),
        caution: c.caution.clone().unwrap_or_default(),
        because: c.because.clone(),
    });
    let orders = office.conditions.iter().map(|c| OrderBlock {
        name: c.name.clone(),
        words: c.words.clone(),
        odds: c.odds,
        clause: c.what.clone(),
        hidden: vec![c.how.clone()],
        evidence: c.because.clone(),
        price: vec![[c.action.clone(), c.how.clone()]],
        caution: c.caution.clone().unwrap_or_default(),
    });
    let told = office.lead.clone();
    Book {
        trades: vec![TradePages {
            file: "trade-plumber".into(),
            running: "for the plumber".into(),
            title: office.title.clone(),
            lead: told.clone(),
            conditions: conditions.collect(),
            measured: vec![ReadingRow {
                what: told.clone(),
                place: told.clone(),
                reading: "19 3/8″".into(),
                good_to: "±1/16″".into(),
                photos: "1".into(),
            }],
            seen: vec![],
            calculations: (0..office.calculations.len()).collect(),
            openings: vec![OpeningRow {
                what: told.clone(),
                place: told.clone(),
                words: "about 7 in 10".into(),
                size: "2 (1 to 4), 16″ × 48″".into(),
                stage: "rough-in".into(),
                opens: "plumber".into(),
                closes: "drywall".into(),
            }],
            looks: office.looks.clone(),
            asks: vec![told.clone()],
            unknown: office.unknown.clone(),
            photos: vec![0, 99],
            caution: "A licensed plumber decides; local code governs.".into(),
        }],
        household: HouseholdPages {
            running: "for the household".into(),
            title: "What may be found".into(),
            lead: told.clone(),
            inside: vec![[told.clone(), "about 7 in 10".into(), "$1,300 is set aside.".into()]],
            more: "90 other things".into(),
            ranges: vec!["One time in ten more than $11,100.".into()],
            calendar: office.money.days_drawing.clone(),
            clashes: vec![told.clone()],
            off: vec![[told.clone(), "water".into(), "1 to 2 hours".into(), told.clone()]],
            dust: vec![told.clone()],
            to_move: vec![told.clone()],
            medical: vec![told.clone()],
            cautions: vec![[told.clone(), told.clone()]],
            questions: "Ask us.".into(),
        },
        change_orders: ChangeOrderPages {
            running: "likely change orders".into(),
            title: "Six change orders".into(),
            lead: told.clone(),
            orders: orders.collect(),
            more: String::new(),
            promise: Some(PromiseBlock {
                says: told.clone(),
                covers: vec![told.clone()],
                figures: vec![["Cap".into(), "$3,000".into()]],
                not: vec![told],
            }),
            photos: vec![1],
        },
        tables: Tables(vec![Table {
            name: "conditions",
            heads: vec!["condition".into(), "cost, USD".into()],
            rows: vec![vec![Cell::Text(office.label.clone()), Cell::Number(1_150.0)]],
        }]),
        office,
    }
}

fn every(data: PagesData, words: &words::Words) -> Result<Vec<Made>, PacketError> {
    compile(&around(data), &Style::default(), both(words))
}

/// The office's document.
fn office(data: PagesData, words: &words::Words) -> Made {
    every(data, words).unwrap().into_iter().next().unwrap()
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
    conditions[1].path = vec![
        ClueRow { what: "Houses like this one".into(), moved: "about 3 in 10".into(), from: 0.3, to: 0.3 },
        ClueRow { what: "Bathroom directly above? yes".into(), moved: "far up".into(), from: 0.3, to: 0.7 },
        ClueRow { what: "Nothing".into(), moved: "down".into(), from: f64::NAN, to: -2.0 },
    ];
    conditions[1].photos = vec![0, 3];
    conditions[1].looks = vec!["Look down the chase (4 min)".into()];
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
        demolition: None,
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
        todo: vec![TodoRow {
            action: "Allowance".into(),
            names: vec!["Vent in bulkhead A rerouted: $1,300".into()],
            more: "and 2 more".into(),
        }],
        uncertain: vec![WeightRow {
            name: "Duct in the bulkhead".into(),
            words: "about 5 in 10".into(),
            average: dollars(500),
            range: [dollars(600), dollars(2_200)],
        }],
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
    for made in every(data(), english()).unwrap() {
        assert!(made.standards, "{}: the compiler refused PDF/UA-1 or PDF/A-2a", made.name);
    }
    let made = office(data(), english());
    let text = read(&made.pdf);
    for words in [
        "Carry $7,900",
        "Condition by condition",
        "Bathroom directly above? yes",
        "What makes the sum most uncertain",
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
    let spanish = words::Words::of(words::Language::Es);
    assert!(every(data(), spanish).unwrap().iter().all(|made| made.standards));
    let made = office(data(), spanish);
    let text = read(&made.pdf);
    for words in [
        "Condición por condición",
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
    let told = poppler("pdfinfo", &["-rawdates", "-"], &office(data(), english()).pdf);
    let dates: Vec<&str> = told.lines().filter(|l| l.contains("Date:")).collect();
    assert!(dates.len() == 2 && dates.iter().all(|l| l.contains("D:20260414164200-05'00")), "{told}");
}

#[test]
fn equal_data_give_equal_bytes() {
    let set = |data: PagesData| book(&around(data), &Style::default(), both(english())).unwrap();
    let first = set(data());
    let names: Vec<&str> = first.iter().map(|page| page.name.as_str()).collect();
    let all = [
        "office.pdf",
        "trade-plumber.pdf",
        "household.pdf",
        "change-orders.pdf",
        "conditions.csv",
        "tables.xlsx",
    ];
    assert_eq!(names, all.map(|name| format!("pages/{name}")));
    assert!(set(data()) == first);
    let mut other = data();
    other.conditions[0].odds = 0.5;
    assert!(set(other)[0] != first[0]);
}

#[test]
fn a_reader_is_given_his_own_and_nothing_else() {
    let made = every(data(), english()).unwrap();
    let text = |name: &str| read(&made.iter().find(|m| m.name == name).unwrap().pdf);
    let household = text("household");
    for office_only in ["P80", "±$60", "chromed brass", "Look before signing", "sha256sum"] {
        assert!(!household.contains(office_only), "the household reads “{office_only}”");
    }
    let trade = text("trade-plumber");
    for money in ["$700", "$1,150", "±$60", "P80"] {
        assert!(!trade.contains(money), "a trade reads “{money}”");
    }
    assert!(trade.contains("The drain stub must come down") && trade.contains("Measured"));
    assert!(text("change-orders").contains("Clause."));
}

#[test]
fn a_firms_template_stands_in_for_ours_and_reaches_nothing_but_its_folder() {
    let with = |name: &str, text: &str| {
        let mut style = Style { address: Some("12 Invented Road".into()), ..Style::default() };
        style.templates.insert(name.into(), text.as_bytes().to_vec());
        compile(&around(data()), &style, both(english()))
    };
    let own = "#let d = json(\"data.json\")\n#set document(title: d.document.title)\n#set text(lang: \"en\")\n\
               = Ours\n#d.title #d.letterhead.address";
    let made = with("household.typ", own).unwrap();
    let page = made.iter().find(|m| m.name == "household").unwrap();
    let text = read(&page.pdf);
    assert!(text.contains("Ours") && text.contains("12 Invented Road"), "{text}");
    for (text, said) in [
        ("#read(\"/etc/passwd\")", "household.typ, line 1"),
        ("= One\n#read(\"../look.typ\")", "household.typ, line 2"),
        ("#image(\"photo-0.svg\")", "household.typ, line 1"),
        ("#panic(\"no\")", "household.typ, line 1"),
        ("#let", "household.typ, line 1"),
        ("#import \"@preview/any:0.1.0\": *", "household.typ, line 1"),
    ] {
        let error = with("household.typ", text).err().unwrap().to_string();
        assert!(error.contains(said), "{text}: {error}");
    }
    let large = "x".repeat((1 << 20) + 1);
    assert!(matches!(with("x.typ", &large).err().unwrap(), PacketError::TooLarge { .. }));
    assert!(matches!(with("../x.typ", "").err().unwrap(), PacketError::Name { .. }));
}

#[test]
fn a_house_without_anything_is_still_set() {
    let empty = PagesData {
        label: String::new(),
        title: String::new(),
        lead: String::new(),
        surveyed_by: vec![],
        organization: None,
        todo: vec![],
        uncertain: vec![],
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
    let made = office(empty, english());
    assert!(made.standards);
    assert!(read(&made.pdf).contains("House without a name"));
}

#[test]
fn hostile_words_stand_on_the_page_as_they_were_written() {
    let dollars = "$".repeat(1 << 20);
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
        for made in every(d, english()).unwrap_or_else(|e| panic!("text {n}: {e}")) {
            assert!(made.standards, "text {n} is refused as PDF/UA-1 and PDF/A-2a in {}", made.name);
            let text = read(&made.pdf);
            assert!(!text.contains("root:"), "text {n} read a file");
            if n < 2 {
                assert!(
                    text.contains(hostile),
                    "text {n} does not stand in {} as written:\n{text}",
                    made.name
                );
            }
        }
    }
}

/// The most a book is given: long texts everywhere, a thousand photographs, thousands of rows. The compiler cannot be
/// interrupted; this says what its input bounds it to.
#[test]
#[allow(clippy::disallowed_methods, reason = "a test may say how long something took")]
fn the_most_that_is_set_stays_within_a_minute_and_two_gigabytes() {
    let mut d = data();
    let long = "A remark that goes on and on about what nobody saw. ".repeat(30);
    d.photos =
        (0..400).map(|n| PhotoBlock { digest: Digest::of(&[n as u8, 1]), ..d.photos[0].clone() }).collect();
    let row = |n: usize| AnswerRow { answer: long.clone(), ..answer(&format!("Remark {n}"), "") };
    d.stations.push(Station { name: "Remarks".into(), answers: (0..500).map(row).collect() });
    d.conditions = (0..300)
        .map(|n| ConditionRow { name: format!("Condition {n}"), ..d.conditions[0].clone() })
        .collect();
    let start = std::time::Instant::now();
    let made = office(d.clone(), english());
    let took = start.elapsed();
    assert!(made.standards && took.as_secs() < 60, "{took:?}");
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    if let Some(peak) = status.lines().find_map(|l| l.strip_prefix("VmHWM:")) {
        let kib: u64 = peak.trim().trim_end_matches(" kB").parse().unwrap();
        assert!(kib < 2 << 20, "{kib} KiB");
    }
    // Past the most it is refused, not set.
    d.photos = vec![d.photos[0].clone(); 1_001];
    assert!(matches!(every(d.clone(), english()).err().unwrap(), PacketError::TooLarge { .. }));
    d.photos.clear();
    d.stations[0].answers = vec![row(0); 9_000];
    assert!(matches!(every(d, english()).err().unwrap(), PacketError::TooLarge { .. }));
}
