//! A firm lays its own numbers over the catalog: the page that explains it, run as it stands; where the overlay is
//! looked for; what is said when it has a fault.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::steps::{CLASH, HOUSE, NOT_TAKEN, NOT_THERE, condition, json, refuses};
use crate::support::{refused, root, run, underlath};

/// The text between marks of a page: (what stands before, text), for every block in a language ("" or "toml").
fn blocks<'p>(page: &'p str, language: &str) -> Vec<(&'p str, &'p str)> {
    let mut parts = page.split("```");
    let mut found = Vec::new();
    while let (Some(before), Some(block)) = (parts.next(), parts.next()) {
        if let Some(text) = block.strip_prefix(language).and_then(|b| b.strip_prefix('\n')) {
            found.push((before, text));
        }
    }
    found
}

/// Words of a command line, as far as the page needs: double quotes.
fn words(line: &str) -> Vec<String> {
    line.split('"')
        .enumerate()
        .flat_map(|(n, part)| match n % 2 {
            0 => part.split_whitespace().map(str::to_owned).collect(),
            _ => vec![part.to_owned()],
        })
        .collect()
}

/// Writes the files of the page and runs its commands, in the order of the page: command and what it said.
fn as_the_page_says(dir: &Path) -> Vec<(String, String)> {
    let page = fs::read_to_string(root().join("docs/overlay.md")).unwrap();
    let mut said = Vec::new();
    let mut parts = page.split("```");
    while let (Some(before), Some(block)) = (parts.next(), parts.next()) {
        if let Some(text) = block.strip_prefix("toml\n") {
            // The file is named in the last words before: `our-numbers/firm.toml`:
            let name = before.trim_end().trim_end_matches("`:").rsplit('`').next().unwrap();
            assert!(name.ends_with(".toml"), "{name}");
            fs::write(dir.join(name), text).unwrap();
        }
        for line in block.lines().filter(|l| l.starts_with("underlath ")) {
            let typed: Vec<String> = words(line).into_iter().skip(1).collect();
            said.push((line.to_owned(), run(dir, &typed.iter().map(String::as_str).collect::<Vec<_>>())));
        }
    }
    said
}

fn thing(dir: &Path, args: &[&str], key: &str) -> Value {
    let shown = json(dir, args);
    let rows = shown["rows"].as_array().unwrap();
    rows.iter().find(|r| r["key"] == key).unwrap_or_else(|| panic!("{key} is not shown")).clone()
}

#[test]
fn the_page_on_overlays_does_what_it_says() {
    let page = fs::read_to_string(root().join("docs/overlay.md")).unwrap();
    assert_eq!(blocks(&page, "toml").len(), 2);
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let said = as_the_page_says(dir);
    assert!(said.len() >= 9, "{said:?}");
    let of = |start: &str| &said.iter().find(|(line, _)| line.starts_with(start)).unwrap().1;
    assert!(of("underlath catalog check").contains("no faults"), "{}", of("underlath catalog check"));
    let diff = of("underlath catalog diff");
    for told in
        ["Hale & Daughter", "4+1", "[1200, 3000, 8000]", "counted in 34 jobs", "dumbwaiter-shaft", "0.31"]
    {
        assert!(diff.contains(told), "“{told}” is not in\n{diff}");
    }
    assert!(of("underlath assess").contains("Closed dumbwaiter shaft"), "{}", of("underlath assess"));

    let own = ["--overlay", "our-numbers"];
    let with = |args: &[&'static str]| args.iter().copied().chain(own).collect::<Vec<_>>();
    let row = thing(dir, &with(&["catalog", "show", "setting", "idle-day"]), "value");
    let told = [&row["value"], &row["by"], &row["basis"], &row["weight"], &row["change"]["old"]];
    assert_eq!(told.map(ToString::to_string).join(" "), "\"520\" \"firm\" \"firm\" 12.0 \"450\"");
    let row = thing(dir, &with(&["catalog", "show", "condition", "bulkhead-duct"]), "days");
    assert_eq!((row["by"].as_str(), row["basis"].as_str()), (Some("catalog"), Some("judgment")));
    let row = thing(dir, &with(&["catalog", "show", "condition", "dumbwaiter-shaft"]), "cost");
    assert_eq!((row["by"].as_str(), row["basis"].as_str()), (Some("firm"), Some("firm")));

    // What the house is assessed by: the clue raises the firm's own condition; without the overlay there is none.
    let assessed = json(dir, &with(&["assess", HOUSE]));
    let p = condition(&assessed, "dumbwaiter-shaft")["probability"].as_f64().unwrap();
    assert!(p > 0.3, "{p}");
    assert_eq!(assessed["catalog"]["version"], "4+1");
    assert_eq!(assessed["rules"]["idle_per_day"], 520.0);
    let missing = json(dir, &with(&["words", "missing", "--language", "es"]));
    assert!(missing.as_array().unwrap().iter().any(|t| t["english"] == "Closed dumbwaiter shaft"));
}

#[test]
fn the_overlay_is_the_one_named_or_that_of_the_variable_or_that_of_the_home() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let write = |at: &str, value: u32| {
        fs::create_dir_all(dir.join(at)).unwrap();
        let text = format!("[change.setting.floor]\nvalue = {value}\nbasis = \"firm\"\nreason = \"ours\"\n");
        fs::write(dir.join(at).join("a.toml"), text).unwrap();
    };
    let floor = |options: &[&str], variable: Option<&str>| {
        let mut command = underlath(dir);
        command
            .env_remove("UNDERLATH_OVERLAY")
            .args(["--json", "catalog", "show", "setting", "floor"])
            .args(options);
        if let Some(variable) = variable {
            command.env("UNDERLATH_OVERLAY", variable);
        }
        let output = command.output().unwrap();
        let shown: Value = serde_json::from_slice(&output.stdout).unwrap();
        let row = shown["rows"].as_array().unwrap().iter().find(|r| r["key"] == "value").unwrap().clone();
        row["value"].as_str().unwrap().to_owned()
    };
    assert_eq!(floor(&[], None), "150");
    write("device/overlay", 151);
    assert_eq!(floor(&[], None), "151");
    write("other", 152);
    assert_eq!(floor(&[], Some("other")), "152");
    write("named", 153);
    assert_eq!(floor(&["--overlay", "named"], Some("other")), "153");
    assert_eq!(floor(&["--overlay", "named/a.toml"], Some("other")), "153", "one file will do");
}

#[test]
fn faults_are_told_with_file_line_and_what_was_meant_and_nothing_is_done_by_a_broken_overlay() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    run(dir, &["new", HOUSE]);
    let path = dir.join("firm.toml");
    let text = "[change.setting.idle-day]\nvalue = 520\nbasis = \"firm\"\nreason = \"ours\"\n\n[change.condition.bulkhead-dcut]\ncost = [1, 2, 3]\nbasis = \"firm\"\nreason = \"ours\"\n";
    fs::write(&path, text).unwrap();
    let check = underlath(dir).args(["catalog", "check", "firm.toml"]).output().unwrap();
    let told = String::from_utf8(check.stdout).unwrap();
    assert_eq!(check.status.code(), Some(NOT_TAKEN));
    assert!(told.starts_with("firm.toml:6: ") && told.contains("bulkhead-duct"), "{told}");
    let told = underlath(dir).args(["--json", "catalog", "check", "firm.toml"]).output().unwrap();
    let told: Value = serde_json::from_slice(&told.stdout).unwrap();
    assert_eq!((&told["faults"][0]["line"], &told["faults"][0]["file"]), (&6.into(), &"firm.toml".into()));
    for verb in
        [&["assess", HOUSE][..], &["catalog", "diff"], &["catalog", "show", "setting", "floor"], &["calc"]]
    {
        let line: Vec<&str> = verb.iter().copied().chain(["--overlay", "firm.toml"]).collect();
        let output = underlath(dir).args(&line).output().unwrap();
        let words = String::from_utf8_lossy(&output.stderr).into_owned();
        let listed = verb[0] == "calc"; // lists calculations, which no catalog changes
        assert!(
            listed || output.status.code() == Some(NOT_TAKEN) && words.contains("firm.toml:6"),
            "{line:?}: {words}"
        );
    }
    refuses(dir, &["catalog", "check", "nowhere"], NOT_THERE, &["nowhere"]);
    refuses(dir, &["catalog", "show", "condition", "bulkhead-dcut"], NOT_THERE, &["bulkhead-duct"]);
    refuses(dir, &["catalog", "show", "conditoin"], NOT_THERE, &["condition"]);
}

#[test]
fn what_is_worth_a_look_is_told_of_the_overlay_only() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let text = "[[item]]\nstation = \"talk\"\nid = \"nobody-reads-this\"\nquestion = \"Which paint do you like?\"\nwhy = \"To talk.\"\nanswer = \"choice\"\noptions = [{ id = \"red\", label = \"red\" }, { id = \"blue\", label = \"blue\" }]\n";
    fs::write(dir.join("firm.toml"), text).unwrap();
    let told = json(dir, &["catalog", "check", "firm.toml"]);
    let notes = told["notes"].as_array().unwrap();
    assert!(notes.len() == 1 && notes[0]["id"] == "nobody-reads-this", "{notes:?}");
}

#[test]
fn a_new_overlay_loads_as_it_is_written_and_never_writes_over_another() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let told = run(dir, &["--language", "es", "catalog", "new-overlay", "nuestros"]);
    assert!(told.contains("underlath catalog check nuestros"), "{told}");
    assert!(fs::read_to_string(dir.join("nuestros/firm.toml")).unwrap().contains("nuestra empresa"));
    let told = run(dir, &["--language", "es", "catalog", "check", "nuestros"]);
    assert!(told.contains("sin errores") && told.contains("no cambian nada"), "{told}");
    refuses(dir, &["catalog", "new-overlay", "nuestros"], CLASH, &["firm.toml is there already"]);
}

#[test]
fn what_the_catalog_verbs_say_is_said_in_spanish() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let text = "name = \"Ames\"\nversion = 2\n[change.setting.idle-day]\nvalue = 520\nbasis = \"firm\"\njobs = 1\nreason = \"ours\"\n[remove.check]\nheat-view = \"none\"\n";
    fs::write(dir.join("firm.toml"), text).unwrap();
    let in_spanish = ["--language", "es", "--overlay", "firm.toml", "catalog"];
    let said = |args: &[&'static str]| {
        run(dir, &in_spanish.into_iter().chain(args.iter().copied()).collect::<Vec<_>>())
    };
    for (args, told) in [
        (&["diff"][..], &["Cambiado", "Dejado fuera", "contado en 1 trabajo", "450 → 520"][..]),
        (&["show", "setting", "idle-day"], &["pesa 1 casa", "escrito por la empresa", "era 450"]),
        (&["show", "setting", "floor"], &["criterio, pesa 10 casas", "escrito en el catálogo"]),
        (&["check"], &["sin errores", "1 cambio ·", "1 cosa dejada fuera"]),
        (&["--help"], &["revisar el catálogo", "uso:"]),
        (&["show", "--help"], &["clase de cosa"]),
    ] {
        let words = said(args).to_lowercase();
        told.iter()
            .for_each(|t| assert!(words.contains(&t.to_lowercase()), "{args:?}: “{t}” is not in\n{words}"));
    }
}

#[test]
fn the_firms_loading_prices_a_promise_unless_another_is_asked_for() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    super::steps::a_house(dir);
    fs::write(
        dir.join("firm.toml"),
        "[change.setting.promise-spread]\nvalue = 2\nbasis = \"firm\"\nreason = \"ours\"\n",
    )
    .unwrap();
    let promise = ["promise", HOUSE, "--cover", "bulkhead-duct", "--cap", "6000"];
    let price = |more: &[&str]| {
        let args: Vec<&str> = promise.into_iter().chain(more.iter().copied()).collect();
        json(dir, &args)["price"].clone()
    };
    // mean + λ·(P90 − mean), to the cent; the draws hang on the catalog's digest, so each is held against itself.
    let loading = |p: &Value| {
        let of = |key: &str| p[key].as_f64().unwrap();
        (of("premium") - of("mean")) / (of("p90") - of("mean"))
    };
    for (more, wanted) in [
        (&[][..], 0.5),
        (&["--overlay", "firm.toml"], 2.0),
        (&["--overlay", "firm.toml", "--loading", "0.25"], 0.25),
        (&["--loading", "5"], 5.0),
    ] {
        let priced = price(more);
        assert!((loading(&priced) - wanted).abs() < 1e-4, "{more:?}: {priced}");
    }
    let (code, words) = refused(dir, &promise.into_iter().chain(["--loading", "5.1"]).collect::<Vec<_>>());
    assert!(code == NOT_TAKEN && words.contains("between 0 and 5"), "{words}");
    let told = run(dir, &promise.into_iter().chain(["--overlay", "firm.toml"]).collect::<Vec<_>>());
    assert!(told.contains("The loading of 2 is the firm’s own"), "{told}");
}
