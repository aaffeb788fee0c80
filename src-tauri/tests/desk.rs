//! What the screens are answered, without a window.

use shell::Place;
use tempfile::tempdir;

#[test]
fn a_new_device_has_no_houses() {
    let folder = tempdir().unwrap();
    let place = Place::new(Some(folder.path().join("records")));
    assert_eq!(place.at_desk("en", actions::houses).unwrap(), []);
}

#[test]
fn a_house_that_is_not_there_is_refused_as_missing() {
    let folder = tempdir().unwrap();
    let place = Place::new(Some(folder.path().to_owned()));
    let refused = place.at_desk("en", |desk| actions::house(desk, desk.find("nowhere")?)).unwrap_err();
    assert_eq!(refused.kind, "missing");
    assert!(refused.message.contains("nowhere"), "{}", refused.message);
}

#[test]
fn without_a_folder_it_says_which_one_to_name() {
    let refused = Place::new(None).at_desk("en", actions::houses).unwrap_err();
    assert_eq!(refused.kind, "input");
    assert!(refused.hint.unwrap().contains("UNDERLATH_HOME"));
}

#[test]
fn a_damaged_record_is_refused_and_read_again_once_it_is_put_back() {
    let folder = tempdir().unwrap();
    let file = folder.path().join("underlath.sqlite");
    Place::new(Some(folder.path().to_owned())).at_desk("en", actions::houses).unwrap();
    let whole = std::fs::read(&file).unwrap();

    std::fs::write(&file, b"not a database, but long enough to be looked at as one").unwrap();
    let place = Place::new(Some(folder.path().to_owned()));
    let refused = place.at_desk("en", actions::houses).unwrap_err();
    assert!(["damaged", "conflict"].contains(&refused.kind), "{refused:?}");
    assert!(refused.hint.is_some(), "{refused:?}");

    std::fs::write(&file, whole).unwrap();
    assert_eq!(place.at_desk("en", actions::houses).unwrap(), []);
}

#[test]
fn the_screens_read_kind_message_and_hint() {
    let error = actions::Error::new(actions::Kind::Damaged, "it is torn").hint("put back the copy");
    let told =
        serde_json::to_value(shell::Refused::new(&error, words::Words::of(words::Language::En))).unwrap();
    assert_eq!(
        told,
        serde_json::json!({ "kind": "damaged", "message": "it is torn", "hint": "put back the copy" })
    );
}

#[test]
fn a_refusal_is_said_in_the_language_of_the_screens() {
    let refused = Place::new(None).at_desk("es", actions::houses).unwrap_err();
    assert_eq!(refused.kind, "input");
    assert_eq!(refused.message, "no hay carpeta para los registros");
}
