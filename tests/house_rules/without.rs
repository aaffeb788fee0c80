//! What the program does without, held against its sources: no program is started and no machine asked but those it was
//! told of, nothing is
//! written to a log of a system, no memory is handled by hand, no page runs what it did not bring along. Words are looked
//! for, so that a detour would not be found; whoever reads the changes finds it.

use std::collections::BTreeMap;

use crate::support::{cargo_metadata, root};

/// Sources that are built for tests only, though they lie beside the others.
const FOR_TESTS: [&str; 1] = ["crates/packet/src/sample.rs"];

/// Sources of what ships by path, without their tests.
fn shipped() -> BTreeMap<String, String> {
    let mut files = Vec::new();
    super::files(&root().join("crates"), &["rs"], &mut files);
    super::files(&root().join("src-tauri"), &["rs"], &mut files);
    let mut found = BTreeMap::new();
    for file in files {
        let path = file.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        let test = path.ends_with("/tests.rs") || path.ends_with("_tests.rs") || path.contains("/tests/");
        if !path.contains("/src/") || test || FOR_TESTS.contains(&path.as_str()) {
            continue;
        }
        let text = std::fs::read_to_string(&file).unwrap();
        let text = text.split("\n#[cfg(test)]\nmod tests {").next().unwrap().to_owned();
        found.insert(path, text);
    }
    assert!(found.len() > 200 && found.contains_key("crates/server/src/connections.rs"), "{}", found.len());
    found
}

/// Files that hold one of these words, but those that may.
fn holding(sources: &BTreeMap<String, String>, words: &[&str], may: &[&str]) -> Vec<String> {
    let held = sources.iter().filter(|(path, _)| !may.contains(&path.as_str()));
    held.flat_map(|(path, text)| {
        words.iter().filter(move |word| text.contains(**word)).map(move |word| format!("{path}: {word}"))
    })
    .collect()
}

/// What our crates that ship import from others, by crate.
fn imported() -> BTreeMap<String, Vec<String>> {
    let metadata = cargo_metadata(&["--no-deps"]);
    let packages = metadata["packages"].as_array().unwrap();
    let named = |p: &serde_json::Value| {
        let all = p["dependencies"].as_array().unwrap().iter().filter(|d| d["kind"].is_null());
        all.map(|d| d["name"].as_str().unwrap().to_owned()).collect()
    };
    packages.iter().map(|p| (p["name"].as_str().unwrap().to_owned(), named(p))).collect()
}

fn importing(words: &[&str], of: &[&str]) -> Vec<String> {
    let imported = imported();
    assert!(of.iter().all(|name| imported.contains_key(*name)), "{of:?}");
    let concerned = imported.iter().filter(|(name, _)| of.is_empty() || of.contains(&name.as_str()));
    concerned
        .flat_map(|(name, all)| {
            let found = all.iter().filter(|d| words.contains(&d.as_str()));
            found.map(move |d| format!("{name} imports {d}")).collect::<Vec<_>>()
        })
        .collect()
}

fn none(found: &[String]) {
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn what_ships_starts_itself_and_the_scanner_it_was_given_and_nothing_else() {
    let sources = shipped();
    let (apart, scanner) = ("crates/apart/src/parent.rs", "crates/office/src/scanner.rs");
    let words = ["process::Command", "process::{Child, Command", "Command::new", "posix_spawn", "execv"];
    none(&holding(&sources, &words, &[apart, scanner]));
    // The scanner is told the path of a file, whose name is made of numbers, and nothing else.
    assert!(
        sources[scanner]
            .contains("Command::new(&self.program);\n        command.arg(file).stdin(Stdio::null())")
    );
    assert_eq!(
        (sources[scanner].matches(".arg").count(), sources[scanner].matches("Command::new").count()),
        (1, 1)
    );
    let desk = &sources["crates/office/src/desk.rs"];
    assert!(
        desk.contains("scanner.look(&part, name, patience)?") && desk.matches("scanner.look").count() == 1
    );
    // One word of ours and an empty environment, whatever was asked.
    assert!(sources[apart].contains(".arg(WORD)\n            .env_clear()"));
    let arguments = sources[apart].matches(".arg").count();
    assert_eq!((arguments, sources[apart].matches("Command::new").count()), (1, 1));
    let started = &sources["crates/cli/src/commands/office/serve.rs"];
    assert!(started.contains("Apart::new(env::current_exe()"));
    let others: Vec<_> =
        sources.iter().filter(|(_, text)| text.contains("Apart::new(")).map(|(p, _)| p).collect();
    assert_eq!(others, ["crates/cli/src/commands/office/serve.rs"]);
}

#[test]
fn what_ships_asks_no_machine_it_was_not_told_of() {
    let sources = shipped();
    // A datagram socket is asked which of this machine's addresses it would send from; it sends nothing.
    let own_address = "crates/cli/src/commands/office/certificate.rs";
    // A tablet asks the one office it was paired with, known by its certificate.
    let office = "crates/courier/src/wire.rs";
    assert!(sources[office].contains("with_custom_certificate_verifier(Arc::new(Only {"));
    // The office sends its log to the one machine it was told of, known by a certificate.
    let collector = "crates/server/src/collector.rs";
    assert!(sources[collector].contains(".with_root_certificates(roots)"));
    assert!(!sources[collector].contains("dangerous()"));
    let words = ["TcpStream::connect", "UnixStream::connect", "UdpSocket", "lookup_host", "to_socket_addrs"];
    none(&holding(&sources, &words, &[own_address, office, collector]));
    assert!(!sources[own_address].contains(".send"), "{own_address} sends something");
    none(&importing(
        &["reqwest", "ureq", "isahc", "curl", "attohttpc", "surf", "awc", "lettre", "hickory-resolver"],
        &[],
    ));
    let server = std::fs::read_to_string(root().join("crates/server/Cargo.toml")).unwrap();
    assert!(!server.contains("\"client"), "hyper is built as a server only");
}

#[test]
fn what_ships_writes_to_no_log_of_a_system() {
    none(&importing(
        &["log", "tracing", "tracing-subscriber", "env_logger", "syslog", "slog", "fern", "log4rs"],
        &[],
    ));
}

#[test]
fn what_ships_has_no_unsafe_code_of_ours() {
    none(&holding(&shipped(), &["unsafe {", "unsafe fn", "unsafe impl", "allow(unsafe_code"], &[]));
    let workspace = std::fs::read_to_string(root().join("Cargo.toml")).unwrap();
    assert!(workspace.contains("unsafe_code = \"deny\""));
    for name in imported().keys().filter(|name| *name != "house-tests") {
        let folder = if name == "shell" { "src-tauri".to_owned() } else { format!("crates/{name}") };
        let manifest = std::fs::read_to_string(root().join(folder).join("Cargo.toml")).unwrap();
        assert!(
            manifest.contains("[lints]\nworkspace = true"),
            "{name} is held to the lints of the workspace"
        );
    }
}

#[test]
fn secrets_are_drawn_by_the_system_and_no_other_source_is_near_them() {
    let others = ["rand", "rand_core", "rand_chacha", "fastrand", "oorandom", "nanorand"];
    none(&importing(&others, &["office", "server", "web", "field", "keys"]));
    let sources = shipped();
    let doors =
        |path: &str| path.starts_with("crates/cli/src/commands/office/") || path.ends_with("/field.rs");
    let near: BTreeMap<_, _> = sources.clone().into_iter().filter(|(path, _)| doors(path)).collect();
    assert!(near.len() >= 6, "{:?}", near.keys());
    none(&holding(&near, &["rand::", "rand_core", "ChaCha", "Counted"], &[]));
    let world = &sources["crates/cli/src/world.rs"];
    for drawn in ["pub fn secret()", "pub fn fill("] {
        let body = world.split(drawn).nth(1).unwrap().split("\n}\n").next().unwrap();
        assert!(body.contains("getrandom::fill("), "{drawn}: {body}");
    }
}

#[test]
fn no_hash_or_cipher_that_is_broken_is_imported() {
    let broken = [
        "md5",
        "md-5",
        "md4",
        "sha1",
        "sha-1",
        "sha1_smol",
        "ripemd",
        "des",
        "rc4",
        "rc2",
        "ecb",
        "blowfish",
    ];
    none(&importing(&broken, &[]));
}

/// Where the one adapter of the office's records lies.
const ADAPTER: &str = "crates/office/src/repo/sqlite/";

/// What of these sources names the database's library or holds SQL, however it is spelt and broken into lines.
fn holding_sql(sources: &BTreeMap<String, String>) -> Vec<String> {
    let words = [
        "rusqlite",
        "libsqlite",
        "sqlx",
        "migrations/",
        "\"select ",
        "\"update ",
        "select * from",
        "insert into",
        "insert or ",
        "replace into",
        "delete from",
        "create table",
        "create trigger",
        "create index",
        "create unique",
        "alter table",
        "drop table",
        "begin immediate",
        "vacuum into",
        "pragma ",
        "pragma_",
        "order by ",
        "group by ",
        "union all",
    ];
    let plain = |text: &String| text.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let plain: BTreeMap<_, _> = sources.iter().map(|(path, text)| (path.clone(), plain(text))).collect();
    holding(&plain, &words, &[])
}

#[test]
fn the_office_names_its_database_and_holds_sql_in_one_folder() {
    let office = shipped().into_iter().filter(|(path, _)| path.starts_with("crates/office/src/"));
    let (inside, others): (BTreeMap<_, _>, _) = office.partition(|(path, _)| path.starts_with(ADAPTER));
    assert!(others.len() > 40 && others.contains_key("crates/office/src/desk.rs"), "{}", others.len());
    none(&holding_sql(&others));
    for (path, text) in &inside {
        assert!(
            !holding_sql(&BTreeMap::from([(path.clone(), text.clone())])).is_empty(),
            "{path} would be found"
        );
    }
    assert!(inside.len() >= 5, "{:?}", inside.keys());
    assert_eq!(importing(&["rusqlite"], &[]), ["office imports rusqlite", "store imports rusqlite"]);
}

/// Sources of the screens by path, without their tests.
fn screens() -> BTreeMap<String, String> {
    let mut files = Vec::new();
    super::files(&root().join("ui/src"), &["ts", "svelte"], &mut files);
    let named = files.iter().filter(|f| !f.to_string_lossy().ends_with(".test.ts")).map(|file| {
        let path = file.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
        (path, std::fs::read_to_string(file).unwrap())
    });
    let found: BTreeMap<_, _> = named.collect();
    assert!(found.contains_key("ui/src/office/screens/SignIn.svelte"));
    found
}

#[test]
fn the_screens_run_nothing_that_comes_in_and_speak_to_no_other_page() {
    let words = [
        "eval(",
        "new Function",
        "document.write",
        "insertAdjacentHTML",
        "outerHTML",
        "srcdoc",
        "postMessage",
        "onmessage",
        "window.opener",
        "__proto__",
        "<iframe",
        "<object",
        "<embed",
        "<applet",
        "jsonp",
    ];
    none(&holding(&screens(), &words, &[]));
}

#[test]
fn a_browser_is_given_language_and_light_to_keep_and_nothing_else() {
    let screens = screens();
    let keeps = "ui/src/lib/settings/device.ts";
    none(&holding(&screens, &["localStorage"], &[keeps]));
    none(&holding(
        &screens,
        &["sessionStorage", "indexedDB", "document.cookie", "caches.", "serviceWorker"],
        &[],
    ));
    let keys: Vec<&str> = screens[keeps].lines().filter_map(|l| l.split(" = 'underlath-").nth(1)).collect();
    assert_eq!(keys, ["language';", "light';"]);
}

#[test]
fn fields_for_passwords_can_be_pasted_into_and_filled_by_a_manager() {
    let screens = screens();
    none(&holding(&screens, &["onpaste", "on:paste", "oncopy"], &[]));
    let mut fields = 0;
    for name in ["screens/SignIn", "screens/SetUp", "screens/Me", "parts/SecondFactor", "parts/OwnSessions"] {
        let text = &screens[&format!("ui/src/office/{name}.svelte")];
        for input in text.split("<input ").skip(1).map(|rest| rest.split("/>").next().unwrap()) {
            let secret = ["{password}", "{old}", "{next}", "{again}"].iter().any(|s| input.contains(s));
            let known = input.contains("\"current-password\"") || input.contains("\"new-password\"");
            assert_eq!(known, secret, "{name}: {input}");
            assert_eq!(input.contains("type=\"password\""), secret, "{name}: {input}");
            fields += usize::from(secret);
        }
    }
    assert_eq!(fields, 8);
}

#[test]
fn from_every_page_of_the_office_signing_out_is_two_presses_away() {
    let screens = screens();
    let pages = screens.iter().filter(|(path, _)| path.starts_with("ui/src/office/screens/"));
    for (path, text) in pages {
        let before = path.ends_with("/SignIn.svelte") || path.ends_with("/SetUp.svelte");
        assert_eq!(text.contains("<OfficeFrame"), !before, "{path}");
    }
    assert!(screens["ui/src/office/parts/OfficeFrame.svelte"].contains("href={writePlace({ at: 'me' })}"));
    assert!(screens["ui/src/office/screens/Me.svelte"].contains("onclick={() => session.signOut()}"));
}

#[test]
fn what_is_forbidden_would_be_found() {
    let bad = BTreeMap::from([("a.rs".to_owned(), "use std::process::Command;".to_owned())]);
    assert_eq!(holding(&bad, &["process::Command", "unsafe {"], &[]), ["a.rs: process::Command"]);
    assert!(holding(&bad, &["process::Command"], &["a.rs"]).is_empty());
    assert!(!importing(&["sha2"], &["keys", "survey"]).is_empty());
    for bad in [
        "use rusqlite::Connection;",
        "self.one(\n    \"SELECT body\n     FROM packet\"",
        "\"insert  into packet\"",
        "format!(\"{PACKET} ORDER BY position\")",
        "include_str!(\"../../../../migrations/office/sqlite/0001_desk.sql\")",
    ] {
        assert_eq!(holding_sql(&BTreeMap::from([("a.rs".to_owned(), bad.to_owned())])).len(), 1, "{bad}");
    }
}
