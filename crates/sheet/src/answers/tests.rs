use std::sync::OnceLock;

use proptest::prelude::*;
use serde_json::{Value as Json, json};

use super::*;

fn catalog() -> &'static Catalog {
    static CATALOG: OnceLock<Catalog> = OnceLock::new();
    CATALOG.get_or_init(|| survey::catalog::builtin().unwrap())
}

fn survey_id() -> SurveyId {
    SurveyId::new(1_776_000_000_000, &[2; 10])
}

/// A file of two answers, as the page writes it.
fn file() -> Json {
    json!({
        "form": FORM, "v": 1, "survey": survey_id().to_string(), "catalog": catalog().digest.hex(),
        "language": "en", "filled-on": "2026-04-10", "filled-by": "Dana",
        "answers": [
            { "item": "year-built", "is": { "number": "1962" }, "words": "about,\nthe neighbor says" },
            { "item": "wishes", "is": { "choices": ["pot-filler", "gas-grill"] } },
            { "item": "gas-meter", "is": "unsure" },
            { "item": "home-work", "words": "every other Friday" },
        ],
        "remark": null,
    })
}

fn reads(file: &Json) -> Result<Fitted, AnswersError> {
    read(file.to_string().as_bytes(), catalog(), survey_id())
}

/// The file with one thing changed.
fn with(pointer: &str, value: Json) -> Json {
    let mut file = file();
    *file.pointer_mut(pointer).unwrap() = value;
    file
}

#[test]
fn what_the_page_writes_is_read_in_its_order() {
    let fitted = reads(&file()).unwrap();
    assert!(fitted.same_catalog && fitted.left_out.is_empty());
    assert_eq!(
        (fitted.filled_by.as_deref(), fitted.filled_on.as_deref()),
        (Some("Dana"), Some("2026-04-10"))
    );
    let [year, wishes, gas, home] = fitted.answers.as_slice() else { panic!("{fitted:?}") };
    assert_eq!(year.value, Some(Value::Number(Quantity::parse("1962", "").unwrap())));
    assert_eq!((year.entered.as_str(), year.words.as_deref()), ("1962", Some("about, the neighbor says")));
    assert_eq!(wishes.value, Some(Value::Choices(vec!["gas-grill".into(), "pot-filler".into()])));
    assert_eq!((&gas.value, &gas.station), (&Some(Value::CantTell), &"beforehand".to_owned()));
    assert_eq!((&home.value, home.words.as_deref()), (&None, Some("every other Friday")));
}

#[test]
fn whatever_is_not_exactly_such_a_file_is_refused_in_words() {
    let refused: [(Json, &str); 20] = [
        (with("/form", json!("something else")), "does not hold answers"),
        (json!([1, 2]), "does not hold answers"),
        (json!({}), "does not hold answers"),
        (with("/v", json!(2)), "form 2; this program reads form 1"),
        (with("/survey", json!(SurveyId::new(1, &[9; 10]).to_string())), "another house"),
        (with("/survey", json!("Mill Lane")), "cannot be read"),
        (with("/catalog", json!("7")), "cannot be read"),
        (with("/filled-on", json!("10.4.2026")), "is no day"),
        (with("/filled-by", json!("Da\u{202E}na")), "the words at filled-by"),
        (with("/remark", json!("x".repeat(501))), "the words at remark"),
        (with("/answers/0/words", json!("\u{1b}[2J")), "the words at year-built"),
        (with("/answers/1/item", json!("year-built")), "“year-built” is answered twice"),
        (with("/answers/0/item", json!("year-bilt")), "did you mean “year-built”?"),
        (with("/answers/0/item", json!("stub-height")), "“stub-height” is not asked on a sheet"),
        (with("/answers/0/is", json!({ "number": "soon" })), "year-built: “soon” is not a number"),
        (with("/answers/0/is", json!({ "number": "1200" })), "outside the range"),
        (with("/answers/0/is", json!({ "choice": "yes" })), "answered with a number"),
        (with("/answers/1/is", json!({ "choices": ["pot-filer"] })), "did you mean “pot-filler”?"),
        (with("/answers/1/is", json!({ "choices": ["none", "pot-filler"] })), "stands alone"),
        (with("/answers/1/is", json!({ "choices": [] })), "needs at least one option"),
    ];
    for (file, words) in refused {
        let told = reads(&file).unwrap_err().to_string();
        assert!(told.contains(words), "“{words}” is missing in: {told}");
        assert!(told.lines().count() == 1 && !told.contains('\u{1b}'), "{told}");
    }
    let mut more = file();
    more["answers"][0]["price"] = json!(1);
    assert!(reads(&more).unwrap_err().to_string().contains("unknown field `price`"));
    let none = with("/answers", json!([]));
    assert_eq!(reads(&none).unwrap_err(), AnswersError::Empty);
    let large = vec![b' '; MOST_BYTES + 1];
    assert_eq!(read(&large, catalog(), survey_id()).unwrap_err(), AnswersError::TooLarge(MOST_BYTES + 1));
}

#[test]
fn a_sheet_of_another_catalog_gives_what_still_fits_and_a_list_of_what_does_not() {
    let mut file = with("/catalog", json!(Digest::of(b"older").hex()));
    file["answers"][1]["is"] = json!({ "choices": ["pot-filler", "wine-cellar"] });
    file["answers"].as_array_mut().unwrap().push(json!({ "item": "hot-tub", "is": { "choice": "yes" } }));
    let fitted = reads(&file).unwrap();
    assert!(!fitted.same_catalog);
    let taken: Vec<&str> = fitted.answers.iter().map(|a| a.item.as_str()).collect();
    assert_eq!(taken, ["year-built", "gas-meter", "home-work"]);
    let out: Vec<(&str, &str)> = fitted.left_out.iter().map(|l| (l.item.as_str(), l.said.as_str())).collect();
    // A list with one unknown tick is left out whole: without it the rest would say something else.
    assert_eq!(out, [("wishes", "pot-filler, wine-cellar"), ("hot-tub", "yes")]);
    assert!(fitted.left_out[1].why.to_string().contains("no item “hot-tub”"), "{:?}", fitted.left_out);
}

#[test]
fn a_byte_order_mark_before_the_text_does_no_harm() {
    let text = format!("\u{FEFF}{}", file());
    assert!(read(text.as_bytes(), catalog(), survey_id()).is_ok());
}

proptest! {
    #[test]
    fn no_bytes_make_the_reader_fall_over(bytes in proptest::collection::vec(any::<u8>(), 0..300)) {
        let _ = read(&bytes, catalog(), survey_id());
    }

    #[test]
    fn words_are_kept_without_anything_that_steers_a_screen(text in "\\PC*|.{0,40}") {
        if let Ok(Some(kept)) = words("here", Some(&text)) {
            prop_assert!(!kept.chars().any(steers) && kept.trim() == kept && !kept.is_empty());
        }
    }
}
