//! A house that is closed at the office: whoever it is closed to finds it nowhere; by the built program.

use std::fs;

use serde_json::{Value, json};

use super::steps::{HOUSE, a_house, photo, seal};
use crate::support::office::{Open, open};
use crate::support::{run, sample_photo};

const FIRST: &str = "entregada en la mano";

/// Adds somebody, who chooses their own password; their number and their session.
fn add(office: &mut Open, name: &str, role: &str) -> (String, String) {
    let owner = office.cookie.clone();
    let new = json!({ "name": name, "role": role, "password": FIRST });
    let id = office.ask("add-person", &new).1["id"].as_str().unwrap().to_owned();
    office.cookie.clear();
    assert_eq!(office.ask("sign-in", &json!({ "name": name, "password": FIRST })).0, 200);
    let own = json!({ "old": FIRST, "new": format!("tres tejas rotas y {name}") });
    assert_eq!(office.ask("change-password", &own).0, 200);
    (id, std::mem::replace(&mut office.cookie, owner))
}

fn get(office: &Open, path: &str) -> (u16, Vec<u8>) {
    let (status, _, body) = office.try_send(&format!("GET {path}"), b"").unwrap();
    (status, body)
}

#[test]
fn whoever_a_house_is_closed_to_finds_it_nowhere_and_everybody_else_as_before() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    run(dir, &["photo", HOUSE, &photo()]);
    let mut office = open(dir);
    office.set_up();
    let (status, came) = office.packet(&fs::read(seal(dir)).unwrap());
    assert_eq!(status, 200, "{came}");
    let (survey, packet) =
        (came["survey"].as_str().unwrap().to_owned(), came["packet"].as_str().unwrap().to_owned());
    // A second house, which stays open.
    run(dir, &["new", "Quarry Bend bath", "--contract", "40000", "--days", "20"]);
    run(dir, &["record", "Quarry Bend bath", "year-built", "1974"]);
    let other = run(dir, &["seal", "Quarry Bend bath", "--into", "out", "--json"]);
    let other: Value = serde_json::from_str(&other).unwrap();
    let other = office.packet(&fs::read(dir.join(other["packet"].as_str().unwrap())).unwrap()).1;
    let other = other["survey"].as_str().unwrap().to_owned();

    let (sees, seer) = add(&mut office, "Ines Okafor", "reviewer");
    let (blind_id, blind) = add(&mut office, "Luis Pardo", "reviewer");
    let owner = office.cookie.clone();
    let (_, shot) = office.post("/finding-photo", &fs::read(sample_photo()).unwrap());
    let shot = shot["digest"].as_str().unwrap().to_owned();
    let rows = office.ask("findings", &json!({ "survey": survey })).1;
    let condition = rows["stages"][0]["rows"][0]["key"].as_str().unwrap().to_owned();
    let finding = |survey: &str| json!({ "survey": survey, "condition": condition, "outcome": "not-there", "photo": shot });
    assert_eq!(office.ask("enter-finding", &finding(&survey)).0, 200);
    let house = office.ask("house", &json!({ "survey": survey })).1;
    let taken = house["photos"]["places"][0]["photos"][0]["digest"].as_str().unwrap().to_owned();
    let paths = [
        format!("/page/{packet}/office.pdf"),
        format!("/picture/{packet}/{taken}"),
        format!("/thumbnail/{packet}/{taken}"),
        format!("/finding-photo/{shot}"),
    ];
    for path in &paths {
        assert_eq!(get(&office, path).0, 200, "{path}");
    }

    // Who sees it is for owners to say.
    let ask = json!({ "survey": survey });
    let told = office.ask("who-sees", &ask).1;
    assert_eq!((&told["closed"], told["people"].as_array().unwrap().len()), (&json!(false), 2));
    office.cookie.clone_from(&blind);
    for command in ["who-sees", "close-house", "let-see", "open-house"] {
        assert_eq!(office.ask(command, &ask).1["kind"], "role", "{command}");
    }
    let before: Vec<(u16, Value)> =
        READS.iter().map(|name| office.ask(name, &asked(name, &survey))).collect();
    assert!(before.iter().all(|(status, _)| *status == 200));
    office.cookie.clone_from(&owner);
    let (status, told) = office.ask("close-house", &ask);
    assert_eq!((status, &told["closed"]), (200, &json!(true)), "{told}");
    let see = |id: &str, sees: bool| json!({ "survey": survey, "id": id, "sees": sees });
    assert_eq!(office.ask("let-see", &see(&sees, true)).0, 200);
    assert_eq!(office.ask("let-see", &see(&blind_id, true)).0, 200);
    let told = office.ask("let-see", &see(&blind_id, false)).1;
    assert_eq!(office.ask("close-house", &ask).1, told, "closed already, it stays as it is");
    let named: Vec<&str> = told["people"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|p| p["sees"] == true)
        .map(|p| p["name"].as_str().unwrap())
        .collect();
    assert_eq!(named, ["Ines Okafor"]);
    for (command, args, kind) in [
        ("let-see", see(&"00".repeat(16), true), "missing"),
        ("close-house", json!({ "survey": "0190a7e2-7b1c-7000-8000-000000000000" }), "missing"),
        ("open-house", json!({ "survey": "none" }), "input"),
    ] {
        assert_eq!(office.ask(command, &args).1["kind"], kind, "{command} {args}");
    }

    // Whoever is named sees it as before, and that it is closed.
    office.cookie.clone_from(&seer);
    let seen = office.ask("house", &ask).1;
    assert_eq!((&seen["label"], &seen["closed"]), (&json!(HOUSE), &json!(true)));
    for path in &paths {
        assert_eq!(get(&office, path).0, 200, "{path}");
    }

    // Whom it is closed to learns of it as little as of one that was never here.
    office.cookie.clone_from(&blind);
    for (name, (_, before)) in READS.iter().zip(&before) {
        let (status, now) = office.ask(name, &asked(name, &survey));
        // What was asked for is said back, of a house that was never here, too.
        let text =
            if ABOUT_ONE.contains(name) { now.to_string().replace(&survey, "") } else { now.to_string() };
        assert!(
            !text.contains(&survey) && !text.contains(HOUSE) && !text.contains(&packet[..12]),
            "{name}: {text}"
        );
        assert_eq!(status, if ABOUT_ONE.contains(name) { 404 } else { 200 }, "{name}: {text}");
        assert_ne!(&now, before, "{name}");
        if !ABOUT_ONE.contains(name) && *name != "learning" {
            assert!(text.contains(&other), "{name}: {text}");
        }
    }
    let never = office.ask("house", &json!({ "survey": "0190a7e2-7b1c-7000-8000-000000000000" }));
    let hidden = office.ask("house", &ask);
    let said = |(status, no): &(u16, Value)| {
        let text = no["message"].as_str().unwrap();
        (*status, text.replace(&survey, "").replace("0190a7e2-7b1c-7000-8000-000000000000", ""))
    };
    assert_eq!(said(&never), said(&hidden));
    // A photograph of its findings cannot be brought into sight by a finding of another house either.
    let elsewhere = office.ask("findings", &json!({ "survey": other })).1;
    let row = elsewhere["stages"][0]["rows"][0]["key"].as_str().unwrap();
    let brought = json!({ "survey": other, "condition": row, "outcome": "not-there", "photo": shot });
    assert_eq!(office.ask("enter-finding", &brought).1["kind"], "missing");
    for (name, args) in [("enter-finding", finding(&survey)), ("enter-other-finding", finding(&survey))] {
        assert_eq!(office.ask(name, &args).0, 404, "{name}");
    }
    // By its name, or the beginning of its number, it is not found either.
    for by in [HOUSE, &survey[..13]] {
        assert_eq!(office.ask("house", &json!({ "survey": by })).0, 404, "{by}");
    }
    for path in &paths {
        assert_eq!(get(&office, path).0, 404, "{path}");
    }

    office.cookie.clone_from(&owner);
    assert_eq!(office.ask("house", &ask).1["closed"], true, "an owner sees every house");
    let (status, told) = office.ask("open-house", &ask);
    assert_eq!((status, &told["closed"]), (200, &json!(false)));
    let (_, lines) = office.ask("audit", &json!({}));
    let mut deeds: Vec<String> = lines
        .as_array()
        .unwrap()
        .iter()
        .filter(|l| l["what"].as_str().unwrap().starts_with("house-"))
        .map(|l| {
            format!("{} {}", l["what"].as_str().unwrap(), l["about"].as_str().unwrap().replace(&survey, "it"))
        })
        .collect();
    deeds.reverse();
    let expected = [
        "house-closed it",
        "house-shown it Ines Okafor",
        "house-shown it Luis Pardo",
        "house-hidden it Luis Pardo",
        "house-opened it",
    ];
    assert_eq!(deeds, expected);
    // Who was named as one of the others is not named any more once they were an owner.
    assert_eq!(office.ask("close-house", &ask).0, 200);
    assert_eq!(office.ask("let-see", &see(&blind_id, true)).0, 200);
    for role in ["owner", "reviewer"] {
        assert_eq!(office.ask("set-role", &json!({ "id": blind_id, "role": role })).0, 200);
    }
    let told = office.ask("who-sees", &ask).1;
    assert!(told["people"].as_array().unwrap().iter().all(|p| p["sees"] == false), "{told}");
    assert_eq!(office.ask("open-house", &ask).0, 200);
    office.cookie.clear();
    let again = json!({ "name": "Luis Pardo", "password": "tres tejas rotas y Luis Pardo" });
    assert_eq!(office.ask("sign-in", &again).0, 200);
    let blind = office.cookie.clone();
    office.cookie.clone_from(&blind);
    for (name, (_, before)) in READS.iter().zip(&before) {
        let now = office.ask(name, &asked(name, &survey)).1;
        // What is learned is worked out meanwhile; its houses are the same.
        let same = |told: &Value| if *name == "learning" { told["houses"].clone() } else { told.clone() };
        assert_eq!(same(&now), same(before), "{name}");
    }
    for path in &paths {
        assert_eq!(get(&office, path).0, 200, "{path}");
    }
}

/// What is read of houses: of one, and of all.
const READS: [&str; 6] = ["inbox", "house", "findings", "comparison", "track", "learning"];
const ABOUT_ONE: [&str; 3] = ["house", "findings", "comparison"];

fn asked(name: &str, survey: &str) -> Value {
    if ABOUT_ONE.contains(&name) { json!({ "survey": survey }) } else { json!({}) }
}
