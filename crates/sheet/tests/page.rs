//! The page as a whole: what stands in it, and that nothing a person wrote can become more than text.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "tests")]

use std::sync::OnceLock;

use sheet::{AnswersFile, Form, Language, MARK, Page, Takes, file_name};
use survey::catalog::{Catalog, Family, PLANNED_WORK};
use survey::log::{Answer, Body, Entry, Opened, Value};
use survey::model::{Picture, fold};
use survey::{DeviceId, Digest, EntryId, SurveyId};

fn catalog() -> &'static Catalog {
    static CATALOG: OnceLock<Catalog> = OnceLock::new();
    CATALOG.get_or_init(|| survey::catalog::builtin().unwrap())
}

fn survey_id() -> SurveyId {
    SurveyId::new(1_776_000_000_000, &[2; 10])
}

/// A house of a name, with a plan.
fn picture(label: &str, jobs: &[&str]) -> Picture {
    let entry = |seq: u64, prev, body| Entry {
        v: 1,
        id: EntryId::new(seq, &[1; 10]),
        survey: survey_id(),
        device: DeviceId::new(1, &[3; 10]),
        seq,
        lamport: seq,
        at: "2026-04-12T09:30:00.000-05:00".parse().unwrap(),
        by: "R. Ames".into(),
        prev,
        body,
    };
    let opened =
        Opened { label: label.into(), contract: None, contract_days: None, catalog: catalog().digest };
    let first = entry(1, None, Body::Opened(opened));
    let plan = Answer {
        place: "plan".into(),
        item: PLANNED_WORK.into(),
        value: Value::choices(jobs.iter().map(|j| (*j).to_owned()).collect()),
        tolerance: None,
        entered: None,
        photos: vec![],
        corrects: vec![],
        reason: None,
    };
    let second = entry(2, Some(first.hash()), Body::Answer(plan));
    let entries = if jobs.is_empty() { vec![first] } else { vec![first, second] };
    fold(&entries)
}

fn html(catalog: &Catalog, picture: &Picture, firm: Option<&str>, language: Language) -> String {
    Page { catalog, picture, survey: survey_id(), firm, outages: None, language }.html()
}

fn plain(jobs: &[&str], language: Language) -> String {
    html(catalog(), &picture("Mill Lane kitchen", jobs), Some("Hale & Daughter"), language)
}

/// What stands between two marks, each time.
fn between<'a>(text: &'a str, from: &str, to: &str) -> Vec<&'a str> {
    text.split(from).skip(1).filter_map(|rest| rest.split_once(to).map(|(inside, _)| inside)).collect()
}

#[test]
fn every_item_of_the_sheet_station_is_asked_with_all_its_options_and_not_sure() {
    let jobs = ["remove-wall", "new-floor"];
    let page = plain(&jobs, Language::En);
    let picture = picture("Mill Lane kitchen", &jobs);
    let form = Form::of(catalog(), &picture, survey_id());
    let station = catalog().items.iter().filter(|i| i.station == "beforehand").count();
    assert_eq!(form.questions.len(), station);
    for question in &form.questions {
        let id = &question.item.id;
        let field = between(&page, &format!("<fieldset data-item=\"{id}\""), "</fieldset>");
        let [field] = field.as_slice() else { panic!("{id}") };
        assert!(field.contains(question.item.question.replace('&', "&amp;").as_str()), "{id}");
        assert_eq!(field.matches("data-unsure").count(), 1, "{id}");
        assert_eq!(field.matches("<textarea").count(), 1, "{id}");
        if let Takes::One(options) | Takes::Several(options, _) = &question.takes {
            assert!(options.len() >= 2, "{id}");
            for option in options {
                assert_eq!(
                    field.matches(&format!("value=\"{}\"", option.id)).count(),
                    1,
                    "{id} {}",
                    option.id
                );
            }
            assert!(!field.contains("cant-tell"), "{id}: one way to be unsure is enough");
        }
    }
}

#[test]
fn stations_of_the_sheet_are_asked_in_the_order_the_house_is_walked() {
    let mut catalog = catalog().clone();
    for station in &mut catalog.stations {
        if station.id == "talk" {
            station.place = survey::catalog::Place::Sheet;
        }
    }
    let mut picture = picture("Mill Lane kitchen", &["new-floor"]);
    let first = |picture: &Picture| {
        Form::of(&catalog, picture, survey_id()).questions.first().unwrap().item.station.clone()
    };
    assert_eq!(first(&picture), "beforehand");
    picture.order = ["plan", "talk", "beforehand"].map(str::to_owned).to_vec();
    assert_eq!(first(&picture), "talk");
    let numbers: Vec<usize> =
        Form::of(&catalog, &picture, survey_id()).questions.iter().map(|q| q.number).collect();
    assert_eq!(numbers, (1..=numbers.len()).collect::<Vec<_>>());
}

#[test]
fn what_the_plan_rules_out_is_not_asked() {
    assert!(plain(&["remove-wall"], Language::En).contains("data-item=\"alarms\""));
    assert!(!plain(&["deep-sink"], Language::En).contains("data-item=\"alarms\""));
}

#[test]
fn outages_of_the_plan_stand_with_ranges_and_the_caution_and_before_a_plan_it_says_so() {
    let page = plain(&["deep-sink", "add-circuits"], Language::En);
    for words in
        ["Cap the sink and dishwasher", "0.5 to 2.5 hours, most likely 1", "first idea", "licensed plumber"]
    {
        assert!(page.contains(words), "{words}");
    }
    assert!(!page.contains("Replace water service"), "not in this plan");
    assert!(plain(&[], Language::En).contains("The plan is not noted yet"));
}

#[test]
fn wishes_say_what_they_need_and_what_they_cost_now_and_later() {
    let page = plain(&["deep-sink"], Language::En);
    assert!(page.contains(
        "Cold line, stop and blocking behind range: now $250 to $700; later $900 to $2,000 and tile"
    ));
}

#[test]
fn a_spanish_page_declares_the_language_of_every_text_left_in_english() {
    let page = plain(&["deep-sink"], Language::Es);
    assert!(page.contains("<html lang=\"es\">") && page.contains("No estamos seguros"));
    // What a firm words anew has no translation; the rest of the catalog has.
    let mut catalog = catalog().clone();
    let shipped = catalog.item("water-from").unwrap().question.clone();
    assert!(!page.contains(&shipped), "{shipped}");
    let item = catalog.items.iter_mut().find(|i| i.id == "water-from").unwrap();
    item.question = "Well or city?".into();
    let own = html(&catalog, &picture("Mill Lane kitchen", &["deep-sink"]), None, Language::Es);
    assert!(own.contains("<span lang=\"en\">Well or city?</span>"));
    for english in ["We are not sure", "Save my answers", "Before our visit"] {
        assert!(!page.contains(english), "{english}");
    }
}

#[test]
fn the_page_allows_its_own_script_and_style_and_nothing_else() {
    let page = plain(&["deep-sink"], Language::En);
    assert!(page.starts_with(MARK));
    let policy = between(&page, "http-equiv=\"Content-Security-Policy\" content=\"", "\"")[0];
    assert!(policy.starts_with("default-src 'none';"), "{policy}");
    let own = |open: &str, close: &str| {
        let inside = between(&page, open, close);
        let [inside] = inside.as_slice() else { panic!("one {open}") };
        // Reference: SHA-256 in base64, as Content Security Policy level 3, section 2.3.1, writes a hash source.
        let digest = Digest::of(inside.as_bytes());
        let mut bits = String::new();
        let letters = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
        for three in digest.as_bytes().chunks(3) {
            let n = three.iter().fold(0u32, |n, b| n << 8 | u32::from(*b)) << (8 * (3 - three.len()));
            let signs = (0..4).map(|k| letters[(n >> (18 - 6 * k) & 63) as usize] as char);
            bits.extend(signs.take(three.len() + 1).chain(std::iter::repeat_n('=', 3 - three.len())));
        }
        format!("'sha256-{bits}'")
    };
    assert!(policy.contains(&format!("script-src {}", own("<script>", "</script>"))), "{policy}");
    assert!(policy.contains(&format!("style-src {}", own("<style>", "</style>"))), "{policy}");
    for word in ["unsafe", "http:", "https:", "'self'", "*"] {
        assert!(!policy.contains(word), "{word}");
    }
    for word in
        ["http://", "https://", "src=", " style=", "onclick", "onload", "<form", "<iframe", "<img", "url("]
    {
        assert!(!page.contains(word), "{word}");
    }
    let script = between(&page, "<script>", "</script>")[0];
    for word in [
        "fetch",
        "XMLHttpRequest",
        "WebSocket",
        "sendBeacon",
        "localStorage",
        "indexedDB",
        "cookie",
        "innerHTML",
        "eval",
    ] {
        assert!(!script.contains(word), "the script uses {word}");
    }
}

/// A catalog in which a firm's words try to become markup.
fn hostile_catalog() -> Catalog {
    let mut files: Vec<(String, String)> =
        survey::catalog::FILES.iter().map(|(path, text)| ((*path).to_owned(), (*text).to_owned())).collect();
    let (_, walk) = files.iter_mut().find(|(path, _)| path.ends_with("02-beforehand.toml")).unwrap();
    for (from, to) in [
        ("label = \"public main\"", "label = \"</span><script>alert(1)</script>\""),
        ("Public sewer or septic tank?", "\\\"><img src=x onerror=alert(2)> sewer?"),
    ] {
        assert!(walk.contains(from), "{from}");
        *walk = walk.replace(from, to);
    }
    Catalog::load(&files).unwrap()
}

#[test]
fn words_of_people_stay_words() {
    let label = "</title><script>alert('house')</script> \"'><b> {{ $firm }} &amp;";
    let firm = "<!-- --> </style> Ünïcode & Söhne \u{202E}";
    let hostile = hostile_catalog().choosing(Family::Plumbing, "upc-2012");
    for language in Language::ALL {
        let page = html(&hostile, &picture(label, &["deep-sink"]), Some(firm), language);
        assert_eq!(page.matches("<script").count(), 1, "only the page's own");
        assert_eq!(page.matches("<style").count(), 1);
        assert_eq!(page.matches("<!--").count(), 1, "only the mark");
        for raw in ["<img", "<b>", "alert('house')</script>", "onerror=alert(2)>"] {
            assert!(!page.contains(raw), "{raw}");
        }
        assert!(page.contains("&lt;script&gt;alert(1)&lt;/script&gt;"));
        let name = between(&page, "data-file=\"", "\"")[0];
        assert!(name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'), "{name}");
    }
}

#[test]
fn the_same_house_gives_the_same_bytes() {
    assert_eq!(plain(&["deep-sink"], Language::En), plain(&["deep-sink"], Language::En));
}

#[test]
fn a_file_is_named_after_the_house() {
    assert_eq!(file_name("Mill Lane kitchen"), "answers-mill-lane-kitchen");
    assert_eq!(file_name("12 Peña St."), "answers-12-pe-a-st");
    assert_eq!((file_name(""), file_name("家")), ("answers".into(), "answers".into()));
    assert!(file_name(&"x".repeat(500)).len() < 80);
}

#[test]
fn the_form_of_the_answers_never_changes() {
    let text = concat!(
        r#"{"form":"underlath household answers","v":1,"survey":"019d81d9-6000-7202-8202-020202020202","#,
        r#""catalog":"a7937b64b8caa58f03721bb6bacf5c78cb235febe0e70b1b84cd99541461a08e","language":"en","#,
        r#""filled-on":"2026-04-10","filled-by":null,"answers":[{"item":"water-from","is":{"choice":"city"}},"#,
        r#"{"item":"who-home","is":{"choices":["pregnant"]},"words":"since May"},{"item":"gas-meter","is":"unsure"},"#,
        r#"{"item":"year-built","is":{"number":"1962"}}],"remark":null}"#
    );
    let file: AnswersFile = serde_json::from_str(text).unwrap();
    assert_eq!(serde_json::to_string(&file).unwrap(), text);
}
