//! The firm's numbers on their way back: published at the office, taken by its tablets, by the built program.

use std::fs;
use std::path::Path;
use std::process::Stdio;
use std::sync::atomic::Ordering;
use std::time::Duration;

use serde_json::{Value, json};

use super::steps::{CLASH, HOUSE, NOT_TAKEN, NOT_THERE, json as told, refuses};
use crate::support::line::{invite, invite_by};
use crate::support::office::{Open, open};
use crate::support::relay::relay;
use crate::support::{root, run, underlath};

/// The tablet; the office's own home is the other one.
const TABLET: [&str; 2] = ["--home", "tablet"];

fn on_tablet<'a>(args: &[&'a str]) -> Vec<&'a str> {
    [&TABLET[..], args].concat()
}

/// The firm's numbers at the office.
fn firm_says(dir: &Path, idle_day: u32) {
    let text =
        format!("basis = \"firm\"\nreason = \"rent\"\n\n[change.setting.idle-day]\nvalue = {idle_day}\n");
    fs::create_dir_all(dir.join("device/overlay")).unwrap();
    fs::write(dir.join("device/overlay/firm.toml"), text).unwrap();
}

/// What a lost day costs by the numbers of the tablet.
fn idle_day(dir: &Path) -> u32 {
    let shown = run(dir, &on_tablet(&["catalog", "show", "setting", "idle-day"]));
    let line = shown.lines().find(|line| line.trim_start().starts_with("value")).unwrap_or(&shown);
    let number = line.split_whitespace().nth(2).unwrap_or_default();
    number.trim_end_matches(".0").parse().unwrap_or_else(|_| panic!("{shown}"))
}

/// What the first tablet of the office said it holds, and what was handed to it since.
fn held(office: &mut Open) -> Value {
    let (_, tablets) = office.ask("tablets", &json!({}));
    json!([tablets[0]["holds"], tablets[0]["version"], tablets[0]["handed"]])
}

fn published(office: &mut Open) -> Value {
    let (status, told) = office.ask("publish-catalog", &json!({}));
    assert_eq!(status, 200, "{told}");
    told
}

#[test]
fn what_the_office_publishes_its_tablets_take_at_each_contact_and_on_demand() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    firm_says(dir, 700);
    let mut office = open(dir);
    office.set_up();
    let (_, standing) = office.ask("published", &json!({}));
    assert_eq!(standing, json!({ "last": null, "differs": true }));
    let (status, refused) = office.ask("publish-catalog", &json!({}));
    assert_eq!((status, refused["kind"].as_str()), (404, Some("missing")), "{refused}");
    assert!(refused["hint"].as_str().unwrap().contains("underlath keys new-office"), "{refused}");
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    let last = published(&mut office)["last"].clone();
    assert_eq!((&last["number"], &last["by"], &last["houses"]), (&json!(1), &json!("Rosa Ames"), &json!(0)));
    assert_eq!(office.ask("publish-catalog", &json!({})).0, 409, "nothing changed");

    // Taken with the pairing.
    let link = invite(&mut office);
    refuses(dir, &on_tablet(&["catalog", "fetch"]), NOT_THERE, &["not paired"]);
    let paired = told(dir, &on_tablet(&["pair", &link, "--name", "Tablet 3"]));
    assert_eq!(paired["catalog"]["version"], last, "{paired}");
    assert_eq!(
        (idle_day(dir), told(dir, &on_tablet(&["catalog", "fetch"]))["new"].clone()),
        (700, json!(false))
    );

    assert_eq!(held(&mut office), json!(["version", 1, null]), "said in the same contact");

    // On demand.
    firm_says(dir, 800);
    assert_eq!(office.ask("published", &json!({})).1["differs"], true);
    published(&mut office);
    assert_eq!(idle_day(dir), 700, "until it is in contact");
    assert_eq!(held(&mut office), json!(["version", 1, null]));
    assert_eq!(told(dir, &on_tablet(&["catalog", "fetch"]))["catalog"]["version"]["number"], 2);
    assert_eq!(idle_day(dir), 800);
    assert_eq!(held(&mut office), json!(["version", 2, null]));

    // With a sending; the house that was begun before keeps the forecast it has, and a new one names the new numbers.
    run(dir, &on_tablet(&["new", HOUSE, "--contract", "80000", "--days", "30"]));
    run(dir, &on_tablet(&["record", HOUSE, "planned-work", "deep-sink"]));
    let before = told(dir, &on_tablet(&["assess", HOUSE]));
    told(dir, &on_tablet(&["seal", HOUSE, "--into", "out"]));
    firm_says(dir, 900);
    published(&mut office);
    let sent = told(dir, &on_tablet(&["send", HOUSE]));
    assert_eq!(sent["state"], "acknowledged", "{sent}");
    assert_eq!(idle_day(dir), 900);
    assert_eq!(held(&mut office), json!(["version", 3, null]));
    let after = told(dir, &on_tablet(&["assess", HOUSE]));
    assert_ne!(before["catalog"], after["catalog"], "{before} {after}");

    // Numbers of the tablet's own go before it.
    let own = dir.join("tablet/overlay/own.toml");
    fs::create_dir_all(own.parent().unwrap()).unwrap();
    fs::copy(dir.join("device/overlay/firm.toml"), &own).unwrap();
    let text = fs::read_to_string(&own).unwrap().replace("900", "333");
    fs::write(&own, text).unwrap();
    assert_eq!(idle_day(dir), 333);
    let told_unused = run(dir, &on_tablet(&["pair"]));
    assert!(told_unused.contains("version 3") && told_unused.contains("not in use"), "{told_unused}");
    fs::remove_file(&own).unwrap();
    assert_eq!(idle_day(dir), 900);

    // Noted at the office, and refused to a tablet that was revoked.
    let (_, lines) = office.ask("audit", &json!({}));
    let lines = lines.as_array().unwrap();
    let about: Vec<&Value> =
        lines.iter().filter(|l| l["what"] == "catalog-published").map(|l| &l["about"]).collect();
    assert_eq!(about, ["3", "2", "1"]);
    let (_, tablets) = office.ask("tablets", &json!({}));
    office.ask("revoke-tablet", &json!({ "id": tablets[0]["id"], "key": false }));
    firm_says(dir, 950);
    published(&mut office);
    refuses(dir, &on_tablet(&["catalog", "fetch"]), CLASH, &["“Tablet 3” was revoked"]);
    assert_eq!(idle_day(dir), 900);
}

#[test]
fn an_office_that_came_back_from_a_backup_publishes_until_its_number_is_higher() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    refuses(dir, &["catalog", "publish"], CLASH, &["nothing to publish"]);
    firm_says(dir, 700);
    let strange = dir.join("device/overlay/our numbers.toml");
    fs::write(&strange, "").unwrap();
    refuses(dir, &["catalog", "publish"], NOT_TAKEN, &["“our numbers.toml” is no name", "plain letters"]);
    fs::remove_file(strange).unwrap();
    let own = root().join("catalog").display().to_string();
    refuses(dir, &["--catalog", &own, "catalog", "publish"], CLASH, &["a catalog of its own"]);
    run(dir, &["catalog", "publish"]);
    run(dir, &["office", "backup", "office.tar"]);
    firm_says(dir, 800);
    run(dir, &["catalog", "publish"]);
    let mut office = open(dir);
    office.set_up();
    let link = invite(&mut office);
    run(dir, &on_tablet(&["pair", &link, "--name", "Tablet 3"]));
    assert_eq!(idle_day(dir), 800);
    drop(office);
    fs::rename(dir.join("office"), dir.join("lost")).unwrap();
    run(dir, &["office", "restore", "office.tar"]);
    // The same key, certificate and no tablet: it is paired anew, and has a higher number than the office.
    firm_says(dir, 900);
    let mut office = open(dir);
    office.set_up();
    let link = invite(&mut office);
    let paired = run(dir, &on_tablet(&["pair", &link, "--name", "Tablet 3"]));
    assert!(paired.contains("was not taken") && paired.contains("has version 2"), "{paired}");
    assert_eq!(held(&mut office), json!(["another", null, 1]), "it has one that this office forgot");
    run(dir, &["catalog", "publish"]);
    refuses(
        dir,
        &on_tablet(&["catalog", "fetch"]),
        CLASH,
        &["has version 2", "publish again until its number is higher"],
    );
    refuses(dir, &["catalog", "publish"], CLASH, &["Nothing changed since version 2"]);
    run(dir, &["catalog", "publish", "--again"]);
    assert_eq!(told(dir, &on_tablet(&["catalog", "fetch"]))["catalog"]["version"]["number"], 3);
    assert_eq!(idle_day(dir), 900);
}

/// Whoever is killed, the tablet walks by one whole version and takes the next.
#[test]
fn killed_while_it_takes_a_version_the_tablet_has_the_one_before_or_this_one() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    firm_says(dir, 500);
    run(dir, &["catalog", "publish"]);
    let mut office = open(dir);
    office.set_up();
    let link = invite(&mut office);
    run(dir, &on_tablet(&["pair", &link, "--name", "Tablet 3"]));
    let mut had = 500;
    for n in 1..=8u32 {
        firm_says(dir, 500 + n);
        run(dir, &["catalog", "publish"]);
        let mut fetching = underlath(dir)
            .args(on_tablet(&["catalog", "fetch"]))
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        std::thread::sleep(Duration::from_millis(u64::from(n) * 37));
        let _ = fetching.kill(); // it may have ended by then, which is as good
        fetching.wait().unwrap();
        let has = idle_day(dir);
        assert!(has == had || has == 500 + n, "{has} after {had} and {n}");
        had = has;
    }
    told(dir, &on_tablet(&["catalog", "fetch"]));
    assert_eq!(idle_day(dir), 508);
}

#[test]
fn an_answer_that_breaks_off_changes_nothing_and_is_asked_for_again() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    run(dir, &["keys", "new-office", "--firm", "Hale & Daughter"]);
    firm_says(dir, 500);
    // So long that most of what travels is the answer itself.
    let file = dir.join("device/overlay/firm.toml");
    let long = |idle_day: u32| {
        firm_says(dir, idle_day);
        let text = fs::read_to_string(&file).unwrap();
        fs::write(&file, text + &"# why it costs what it costs\n".repeat(4_000)).unwrap();
    };
    long(500);
    run(dir, &["catalog", "publish"]);
    let mut office = open(dir);
    office.set_up();
    let line = relay(office.port);
    let link = invite_by(&mut office, line.port);
    run(dir, &on_tablet(&["pair", &link, "--name", "Tablet 3"]));
    assert_eq!((idle_day(dir), held(&mut office)), (500, json!(["version", 1, null])));
    long(600);
    run(dir, &["catalog", "publish"]);
    for passes in [0, 100, 3_000, 40_000, 100_000] {
        line.passes.store(passes, Ordering::SeqCst);
        refuses(dir, &on_tablet(&["catalog", "fetch"]), NOT_THERE, &["office"]);
        assert_eq!(idle_day(dir), 500, "cut after {passes}");
    }
    assert_eq!(
        held(&mut office),
        json!(["version", 1, 2]),
        "it was handed out, and nobody said that it came"
    );
    line.passes.store(usize::MAX, Ordering::SeqCst);
    assert_eq!(told(dir, &on_tablet(&["catalog", "fetch"]))["new"], json!(true));
    assert_eq!((idle_day(dir), held(&mut office)), (600, json!(["version", 2, null])));
}
