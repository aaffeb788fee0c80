//! The line to the office as the screens ask for it, as far as nobody is at the other end.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use crate::support::{ask, place};
use serde_json::json;
use tempfile::tempdir;

#[test]
fn without_an_office_nothing_is_sent_and_it_is_said_why() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    assert_eq!(
        ask(&place, "office", json!({})).unwrap(),
        json!({ "office": null, "catalog": null, "notTaken": null })
    );
    assert_eq!(ask(&place, "sending", json!({})).unwrap(), json!([]));
    assert_eq!(
        ask(&place, "unpair", json!({})).unwrap(),
        json!({ "office": null, "catalog": null, "notTaken": null })
    );
    for link in ["", "https://office.example", "underlath-office:192.0.2.7:8443?sum=1"] {
        let refused = ask(&place, "read-link", json!({ "link": link })).unwrap_err();
        assert_eq!((refused.kind, refused.hint.is_some()), ("input", true), "{link}");
        let refused = ask(&place, "pair", json!({ "link": link, "name": "Tablet 3" })).unwrap_err();
        assert_eq!(refused.kind, "input", "{link}");
    }
    // Port 9 of this machine: nobody listens there.
    let link =
        format!("underlath-office:127.0.0.1:9?sum={}&code={}&firm=Hale", "ab".repeat(32), "0".repeat(48));
    let read = ask(&place, "read-link", json!({ "link": link })).unwrap();
    assert_eq!((&read["address"], &read["firm"]), (&json!("127.0.0.1:9"), &json!("Hale")));
    let refused = ask(&place, "pair", json!({ "link": link, "name": "Tablet 3" })).unwrap_err();
    assert!(refused.message.contains("does not answer"), "{refused:?}");
    let refused = ask(&place, "pair", json!({ "link": link, "name": " " })).unwrap_err();
    assert_eq!(refused.kind, "input", "{refused:?}");
    assert_eq!(
        ask(&place, "office", json!({})).unwrap(),
        json!({ "office": null, "catalog": null, "notTaken": null })
    );
}

#[test]
fn a_photograph_without_the_offices_code_is_refused_with_what_to_do_and_is_not_kept() {
    let folder = tempdir().unwrap();
    let place = place(folder.path());
    let sample =
        concat!(env!("CARGO_MANIFEST_DIR"), "/../../sample-surveys/alder-street/photos/under-sink.jpg");
    let refused = place.pair_photo("en", &std::fs::read(sample).unwrap()).unwrap_err();
    assert_eq!((refused.kind, refused.hint.is_some()), ("input", true), "{refused:?}");
    assert!(refused.message.contains("QR code"), "{refused:?}");
    assert_eq!(place.pair_photo("en", b"no picture").unwrap_err().kind, "input");
    assert_eq!(
        ask(&place, "office", json!({})).unwrap(),
        json!({ "office": null, "catalog": null, "notTaken": null })
    );
}
