//! People over a real database, with a clock that is moved by hand and random bits that are counted.

use serde_json::{Value, json};
use tempfile::TempDir;

use super::*;

mod second;

const OWNER: (&str, &str) = ("Rosa Ames", "correct horse battery");
const OTHER: (&str, &str) = ("Luis Pardo", "tres tejas rotas y un gato");
const MINUTE: i64 = 60_000;

struct Office {
    dir: TempDir,
    people: People,
    now: i64,
    drawn: u8,
}

impl Office {
    fn empty() -> Self {
        let dir = tempfile::tempdir().unwrap();
        let people = People::open(dir.path()).unwrap();
        Self { dir, people, now: 1_775_000_000_000, drawn: 0 }
    }
    /// Set up by its owner, who is signed in with the secret given back.
    fn with_owner() -> (Self, String) {
        let mut office = Self::empty();
        let token = office.token().unwrap();
        let (told, cookie) = office.ask(None, "set-up", first(&token)).unwrap();
        assert_eq!(told["person"]["role"], "owner");
        let Cookie::Set(secret) = cookie else { panic!("{cookie:?}") };
        (office, secret)
    }
    fn token(&mut self) -> Option<String> {
        let drawn = &mut self.drawn;
        self.people.one_time_token(&mut |b| bits(drawn, b)).unwrap()
    }
    fn ask_from(
        &mut self,
        from: &str,
        session: Option<&str>,
        name: &str,
        args: Value,
    ) -> Result<(Value, Cookie), PeopleError> {
        let (people, drawn) = (&self.people, &mut self.drawn);
        let (now, from) = (Stamp::new(self.now, 0).unwrap(), from.parse().unwrap());
        let mut call = Call { people, session, from, now, bits: &mut |b| bits(drawn, b) };
        let answered = call.ask(name, args).expect("a command about people")?;
        Ok((answered.value, answered.cookie))
    }
    fn ask(
        &mut self,
        session: Option<&str>,
        name: &str,
        args: Value,
    ) -> Result<(Value, Cookie), PeopleError> {
        self.ask_from("192.0.2.7", session, name, args)
    }
    /// From an address of its own each time, so that only the limits of the name count.
    fn sign_in(&mut self, (name, password): (&str, &str)) -> Result<String, PeopleError> {
        self.drawn = self.drawn.wrapping_add(1);
        let from = format!("198.51.100.{}", self.drawn);
        match self.ask_from(&from, None, "sign-in", json!({ "name": name, "password": password }))?.1 {
            Cookie::Set(secret) => Ok(secret),
            other => panic!("{other:?}"),
        }
    }
    /// Adds somebody, by the password an owner chose for them.
    fn invite(&mut self, owner: &str, name: &str, role: &str) -> String {
        let args = json!({ "name": name, "role": role, "password": FIRST });
        self.ask(Some(owner), "add-person", args).unwrap().0["id"].as_str().unwrap().to_owned()
    }
    /// Adds somebody who chose their own since.
    fn add(&mut self, owner: &str, (name, password): (&str, &str), role: &str) -> String {
        let id = self.invite(owner, name, role);
        let session = self.sign_in((name, FIRST)).unwrap();
        self.ask(Some(&session), "change-password", json!({ "old": FIRST, "new": password })).unwrap();
        id
    }
    fn signed_in(&mut self, session: &str) -> bool {
        !self.ask(Some(session), "session", json!({})).unwrap().0["person"].is_null()
    }
    fn deeds(&mut self, owner: &str) -> Vec<(String, Value, Value)> {
        let lines = self.ask(Some(owner), "audit", json!({})).unwrap().0;
        let line = |l: &Value| (l["what"].as_str().unwrap().to_owned(), l["who"].clone(), l["about"].clone());
        lines.as_array().unwrap().iter().rev().map(line).collect()
    }
}

/// What an owner chooses for somebody new.
const FIRST: &str = "handed over in person";

fn bits(drawn: &mut u8, into: &mut [u8]) {
    *drawn = drawn.wrapping_add(1);
    into.fill(*drawn);
}

fn first(token: &str) -> Value {
    json!({ "token": token, "firm": "Hale & Daughter", "name": OWNER.0, "password": OWNER.1 })
}

fn told(refused: Result<impl std::fmt::Debug, PeopleError>) -> String {
    format!("{:?}", refused.unwrap_err())
}

#[test]
fn the_link_of_the_console_makes_the_first_owner_once() {
    let mut office = Office::empty();
    let nobody = json!({ "person": null, "set_up": false, "firm": null });
    assert_eq!(office.ask(None, "session", json!({})).unwrap().0, nobody);
    let old = office.token().unwrap();
    let token = office.token().unwrap();
    for wrong in ["", "guessed", &"00".repeat(32), &old] {
        assert_eq!(told(office.ask(None, "set-up", first(wrong))), "WrongLink", "{wrong}");
    }
    let mut weak = first(&token);
    weak["password"] = "hale and daughter".into();
    assert_eq!(told(office.ask(None, "set-up", weak)), "Weak(Guessable)", "the link is still good then");
    let (here, cookie) = office.ask(None, "set-up", first(&token)).unwrap();
    assert_eq!((&here["person"]["name"], &here["firm"]), (&json!(OWNER.0), &json!("Hale & Daughter")));
    let Cookie::Set(secret) = cookie else { panic!() };
    assert!(office.signed_in(&secret));
    assert_eq!(told(office.ask(None, "set-up", first(&token))), "WrongLink");
    assert_eq!(office.token(), None, "no link is printed where somebody is");
    let again = People::open(office.dir.path()).unwrap();
    assert!(again.is_set_up().unwrap());
}

#[test]
fn a_wrong_name_and_a_wrong_password_are_answered_alike_at_every_count() {
    let (mut office, owner) = Office::with_owner();
    office.add(&owner, OTHER, "reviewer");
    let guesses = |office: &mut Office, name: &str| -> Vec<String> {
        let start = office.now;
        let told = (0..13)
            .map(|n| {
                office.now = start + n * 15 * MINUTE;
                told(office.sign_in((name, "not the right password")))
            })
            .collect();
        office.now = start;
        told
    };
    let known = guesses(&mut office, OTHER.0);
    assert_eq!(known[..10], vec!["WrongNameOrPassword"; 10]);
    assert_eq!(known[10..], vec!["Locked"; 3]);
    assert_eq!(guesses(&mut office, "Nobody Here"), known);
    // Only an owner opens it again; the right password does not.
    office.now += 1_000 * MINUTE;
    assert_eq!(told(office.sign_in(OTHER)), "Locked");
    let owner = office.sign_in(OWNER).unwrap();
    let rows = office.ask(Some(&owner), "people", json!({})).unwrap().0;
    let row = rows.as_array().unwrap().iter().find(|r| r["name"] == OTHER.0).unwrap().clone();
    assert_eq!((&row["locked"], &row["role"]), (&json!(true), &json!("reviewer")));
    office.ask(Some(&owner), "unlock", json!({ "id": row["id"] })).unwrap();
    assert!(office.sign_in(OTHER).is_ok());
}

#[test]
fn an_owner_waits_but_is_never_locked_out() {
    let (mut office, _) = Office::with_owner();
    for n in 0..40 {
        assert_eq!(told(office.sign_in((OWNER.0, "not the right password"))), "WrongNameOrPassword", "{n}");
        if n >= 4 {
            assert_eq!(told(office.sign_in(OWNER)), "Locked", "not even with the right one, after {n}");
        }
        office.now += 15 * MINUTE;
    }
    let owner = office.sign_in(OWNER).unwrap();
    assert!(office.sign_in(OWNER).is_ok(), "a right one forgets the wrong ones");
    assert!(office.signed_in(&owner));
}

#[test]
fn at_the_machine_itself_an_owner_gets_another_password() {
    let (mut office, owner) = Office::with_owner();
    for _ in 0..5 {
        assert_eq!(told(office.sign_in((OWNER.0, "not the right password"))), "WrongNameOrPassword");
    }
    let now = Stamp::new(office.now, 0).unwrap();
    let reset = |name: &str, new: &str| office.people.reset(name, new, now, &mut |b| b.fill(9));
    assert_eq!(told(reset("Nobody Here", "a new one that is long")), "NoSuchPerson");
    assert_eq!(told(reset(OWNER.0, "short")), "Weak(Short)");
    reset("rosa AMES", "a new one that is long").unwrap();
    assert!(!office.signed_in(&owner));
    assert!(office.sign_in((OWNER.0, "a new one that is long")).is_ok());
    assert_eq!(told(office.sign_in(OWNER)), "WrongNameOrPassword");
}

#[test]
fn an_address_that_guesses_names_is_stopped() {
    let (mut office, _) = Office::with_owner();
    let guess = |office: &mut Office, n: usize, from: &str| {
        let args = json!({ "name": format!("name {n}"), "password": "not the right password" });
        told(office.ask_from(from, None, "sign-in", args))
    };
    for n in 0..limits::FROM_ONE as usize {
        assert_eq!(guess(&mut office, n, "203.0.113.9"), "WrongNameOrPassword");
    }
    assert_eq!(guess(&mut office, 99, "203.0.113.9"), "TooMany");
    assert_eq!(guess(&mut office, 99, "203.0.113.10"), "WrongNameOrPassword");
    office.now += 15 * MINUTE;
    assert_eq!(guess(&mut office, 98, "203.0.113.9"), "WrongNameOrPassword");
}

#[test]
fn every_command_is_answered_from_its_least_role_on() {
    let (mut office, owner) = Office::with_owner();
    let mut sessions = vec![(None, None)];
    for role in Role::ALL {
        let who = (format!("Person {}", role.word()), format!("password of the {} here", role.word()));
        office.add(&owner, (&who.0, &who.1), role.word());
        sessions.push((Some(role), Some(office.sign_in((&who.0, &who.1)).unwrap())));
    }
    for (name, least) in Call::commands() {
        for (role, session) in &sessions {
            // Arguments no command has: whoever may ask is told about them, nobody is signed out on the way.
            let answer = told(office.ask(session.as_deref(), name, json!({ "nonsense": 1 })));
            let expected = match (least, role) {
                (Some(_), None) => "NotSignedIn".to_owned(),
                (Some(least), Some(role)) if *role < least => {
                    format!("NotAllowed {{ role: {role:?}, least: {least:?} }}")
                }
                _ => "Arguments".to_owned(),
            };
            assert!(answer.starts_with(&expected), "{name} by {role:?}: {answer}");
        }
    }
}

#[test]
fn a_session_ends_when_idle_when_old_and_with_every_change_of_what_it_stands_for() {
    let (mut office, owner) = Office::with_owner();
    let id = office.add(&owner, OTHER, "office");
    let begin = office.now;
    // idle
    let session = office.sign_in(OTHER).unwrap();
    office.now = begin + IDLE_MS - 1;
    assert!(office.signed_in(&session), "used, it goes on");
    office.now += IDLE_MS;
    assert!(!office.signed_in(&session));
    // old, however much it is used
    let session = office.sign_in(OTHER).unwrap();
    let begun = office.now;
    while office.now + 30 * MINUTE < begun + WHOLE_MS {
        office.now += 30 * MINUTE;
        assert!(office.signed_in(&session), "{}", office.now - begun);
    }
    office.now = begun + WHOLE_MS;
    assert!(!office.signed_in(&session));
    // another sign-in of the same browser, and a sign-out
    let one = office.sign_in(OTHER).unwrap();
    let args = json!({ "name": OTHER.0, "password": OTHER.1 });
    let Cookie::Set(two) = office.ask(Some(&one), "sign-in", args).unwrap().1 else { panic!() };
    assert!(one != two && !office.signed_in(&one) && office.signed_in(&two));
    assert_eq!(office.ask(Some(&two), "sign-out", json!({})).unwrap().1, Cookie::Forget);
    assert!(!office.signed_in(&two));
    // another password
    let (here, elsewhere) = (office.sign_in(OTHER).unwrap(), office.sign_in(OTHER).unwrap());
    let change = |old: &str, new: &str| json!({ "old": old, "new": new });
    let wrong = office.ask(Some(&here), "change-password", change("guessed", "a new one that is long"));
    assert_eq!(told(wrong), "WrongOldPassword");
    let weak = office.ask(Some(&here), "change-password", change(OTHER.1, "luis pardo luis"));
    assert_eq!(told(weak), "Weak(Guessable)");
    assert!(office.signed_in(&elsewhere));
    let changed = office.ask(Some(&here), "change-password", change(OTHER.1, "a new one that is long"));
    let Cookie::Set(now) = changed.unwrap().1 else { panic!() };
    assert!(!office.signed_in(&here) && !office.signed_in(&elsewhere) && office.signed_in(&now));
    assert_eq!(told(office.sign_in(OTHER)), "WrongNameOrPassword");
    // another role, and gone
    let owner = office.sign_in(OWNER).unwrap();
    office.ask(Some(&owner), "set-role", json!({ "id": id, "role": "reviewer" })).unwrap();
    assert!(!office.signed_in(&now));
    let new = office.sign_in((OTHER.0, "a new one that is long")).unwrap();
    office.ask(Some(&owner), "remove-person", json!({ "id": id })).unwrap();
    assert!(!office.signed_in(&new));
    assert_eq!(told(office.sign_in((OTHER.0, "a new one that is long"))), "WrongNameOrPassword");
    assert_eq!(told(office.ask(Some(&owner), "unlock", json!({ "id": id }))), "NoSuchPerson");
    office.add(&owner, OTHER, "estimator"); // the name is free again
}

#[test]
fn the_last_owner_stays_and_names_are_taken_once() {
    let (mut office, owner) = Office::with_owner();
    let rows = office.ask(Some(&owner), "people", json!({})).unwrap().0;
    let id = rows[0]["id"].clone();
    assert_eq!(
        told(office.ask(Some(&owner), "set-role", json!({ "id": id, "role": "office" }))),
        "LastOwner"
    );
    assert_eq!(told(office.ask(Some(&owner), "remove-person", json!({ "id": id }))), "LastOwner");
    let same = json!({ "name": " ROSA  ames", "role": "office", "password": OTHER.1 });
    assert!(told(office.ask(Some(&owner), "add-person", same)).starts_with("NameTaken"));
    let none = json!({ "name": "a\nb", "role": "office", "password": OTHER.1 });
    assert_eq!(told(office.ask(Some(&owner), "add-person", none)), "Name");
    office.add(&owner, OTHER, "owner");
    office.ask(Some(&owner), "set-role", json!({ "id": id, "role": "office" })).unwrap();
    assert!(!office.signed_in(&owner), "who gives up being an owner signs in anew");
}

#[test]
fn the_audit_log_tells_who_did_what_and_no_secret_lies_in_the_office() {
    let (mut office, owner) = Office::with_owner();
    let id = office.add(&owner, OTHER, "office");
    let _ = office.sign_in((OTHER.0, "not the right password"));
    let _ = office.sign_in(("hunter2 typed as a name", "not the right password"));
    let session = office.sign_in(OTHER).unwrap();
    office.ask(Some(&session), "sign-out", json!({})).unwrap();
    office.ask(Some(&owner), "set-role", json!({ "id": id, "role": "reviewer" })).unwrap();
    office.ask(Some(&owner), "remove-person", json!({ "id": id })).unwrap();
    let line = |what: &str, who: Value, about: Value| (what.to_owned(), who, about);
    let (rosa, luis) = (json!(OWNER.0), json!(OTHER.0));
    let expected = vec![
        line("set-up", rosa.clone(), json!("Hale & Daughter")),
        line("person-added", rosa.clone(), json!("Luis Pardo (office)")),
        line("signed-in", luis.clone(), json!(null)),
        line("password-changed", luis.clone(), json!(null)),
        line("wrong-password", json!(null), luis.clone()),
        line("wrong-password", json!(null), json!(null)),
        line("signed-in", luis.clone(), json!(null)),
        line("signed-out", luis.clone(), json!(null)),
        line("role-set", rosa.clone(), json!("Luis Pardo (reviewer)")),
        line("person-removed", rosa, luis),
    ];
    assert_eq!(office.deeds(&owner), expected);
    let older = office.ask(Some(&owner), "audit", json!({ "before": 3 })).unwrap().0;
    assert_eq!(
        older.as_array().unwrap().iter().map(|l| l["n"].as_u64()).collect::<Vec<_>>(),
        [Some(2), Some(1)]
    );
    let mut bytes = Vec::new();
    for file in std::fs::read_dir(office.dir.path()).unwrap() {
        let path = file.unwrap().path();
        if path.is_file() {
            bytes.extend(std::fs::read(path).unwrap());
        }
    }
    let raw = unhex::<32>(&owner).unwrap();
    for secret in [OWNER.1.as_bytes(), OTHER.1.as_bytes(), b"hunter2", owner.as_bytes(), &raw] {
        assert!(!bytes.windows(secret.len()).any(|w| w == secret), "{}", String::from_utf8_lossy(secret));
    }
    assert!(bytes.windows(9).any(|w| w == b"Rosa Ames"), "the files were read");
}

#[test]
fn names_that_look_like_sql_are_names() {
    let (mut office, owner) = Office::with_owner();
    let hostile =
        ["'); DROP TABLE person; --", "x' UNION SELECT hash FROM session --", "\" OR \"\"=\"", "%", "_"];
    for (n, name) in hostile.into_iter().enumerate() {
        let password = format!("seven wet bricks and {n} nails");
        office.add(&owner, (name, &password), "estimator");
        assert!(office.sign_in((name, &password)).is_ok(), "{name}");
    }
    for name in ["' OR ''='", "Rosa%", "rosa_ames", "' OR role = 'owner' --"] {
        assert_eq!(told(office.sign_in((name, OWNER.1))), "WrongNameOrPassword", "{name}");
    }
    let rows = office.ask(Some(&owner), "people", json!({})).unwrap().0;
    let names: Vec<&str> = rows.as_array().unwrap().iter().map(|r| r["name"].as_str().unwrap()).collect();
    assert_eq!(names.len(), hostile.len() + 1, "{names:?}");
    assert!(hostile.iter().all(|name| names.contains(name)), "{names:?}");
}

#[test]
fn a_password_stays_good_until_it_is_changed() {
    let (mut office, _) = Office::with_owner();
    office.now += 20 * 365 * 24 * 60 * MINUTE;
    assert!(office.sign_in(OWNER).is_ok(), "after twenty years nobody is asked for another one");
}

/// The members of what the screens are told, as `ui/src/office/host/host.ts` declares them: nothing of what is kept of a
/// password, a lock or a session goes out.
#[test]
fn an_answer_about_people_holds_what_the_screens_show_and_no_more() {
    let (mut office, owner) = Office::with_owner();
    let members = |value: &Value| {
        let mut names: Vec<String> = value.as_object().unwrap().keys().cloned().collect();
        names.sort();
        names.join(" ")
    };
    let session = office.ask(Some(&owner), "session", json!({})).unwrap().0;
    assert_eq!(members(&session), "firm person set_up");
    assert_eq!(
        members(&session["person"]),
        "first_password id idle_ms name role second_demanded second_factor second_wanted"
    );
    let rows = office.ask(Some(&owner), "people", json!({})).unwrap().0;
    assert_eq!(members(&rows[0]), "id locked name role second_factor since");
    let lines = office.ask(Some(&owner), "audit", json!({})).unwrap().0;
    assert_eq!(members(&lines[0]), "about at from n what who");
    assert_eq!((&lines[0]["what"], &lines[0]["from"]), (&json!("set-up"), &json!("192.0.2.7")));
}

#[test]
fn a_first_password_lets_its_person_choose_their_own_and_do_nothing_else() {
    let (mut office, owner) = Office::with_owner();
    let id = office.invite(&owner, OTHER.0, "owner");
    let session = office.sign_in((OTHER.0, FIRST)).unwrap();
    let here = office.ask(Some(&session), "session", json!({})).unwrap().0;
    assert_eq!(here["person"]["first_password"], json!(true));
    for (name, least) in Call::commands().filter(|(_, least)| least.is_some()) {
        let told = told(office.ask(Some(&session), name, json!({ "nonsense": 1 })));
        let may = super::ask::OWN.contains(&name);
        assert_eq!(told == "FirstPassword", !may, "{name} from {least:?}: {told}");
    }
    // What the office asks of them elsewhere is held to the same.
    let now = Stamp::new(office.now, 0).unwrap();
    let allowed =
        office.people.allow(Some(&session), Role::Estimator, ("picture", "192.0.2.7".parse().unwrap()), now);
    assert_eq!(told(allowed), "FirstPassword");
    let change = json!({ "old": FIRST, "new": OTHER.1 });
    let (answer, cookie) = office.ask(Some(&session), "change-password", change).unwrap();
    assert_eq!(answer["person"]["first_password"], json!(false));
    let Cookie::Set(session) = cookie else { panic!() };
    assert!(office.ask(Some(&session), "people", json!({})).is_ok());
    assert_eq!(told(office.sign_in((OTHER.0, FIRST))), "WrongNameOrPassword");
    // Who came by the link, or was given another at the machine itself, chose it themselves.
    for name in [OWNER.0, OTHER.0] {
        office.people.reset(name, "typed at the machine", now, &mut |b| b.fill(9)).unwrap();
        let session = office.sign_in((name, "typed at the machine")).unwrap();
        assert!(office.ask(Some(&session), "people", json!({})).is_ok(), "{name}");
    }
    let owner = office.sign_in((OWNER.0, "typed at the machine")).unwrap();
    office.ask(Some(&owner), "remove-person", json!({ "id": id })).unwrap();
}

#[test]
fn an_owner_ends_the_sessions_of_somebody_and_changes_nothing_else() {
    let (mut office, owner) = Office::with_owner();
    let id = office.add(&owner, OTHER, "reviewer");
    let before = office.ask(Some(&owner), "people", json!({})).unwrap().0;
    let (one, two) = (office.sign_in(OTHER).unwrap(), office.sign_in(OTHER).unwrap());
    let by_themselves = office.ask(Some(&one), "end-sessions", json!({ "id": id }));
    assert!(told(by_themselves).starts_with("NotAllowed"));
    office.ask(Some(&owner), "end-sessions", json!({ "id": id })).unwrap();
    assert!(!office.signed_in(&one) && !office.signed_in(&two) && office.signed_in(&owner));
    assert_eq!(office.ask(Some(&owner), "people", json!({})).unwrap().0, before);
    assert_eq!(office.deeds(&owner).last().unwrap().0, "sessions-ended");
    assert!(office.sign_in(OTHER).is_ok());
    let nobody = json!({ "id": "00".repeat(16) });
    assert_eq!(told(office.ask(Some(&owner), "end-sessions", nobody)), "NoSuchPerson");
}

#[test]
fn whoever_is_turned_away_is_noted_once_a_minute_and_never_what_they_typed() {
    let mut office = Office::empty();
    let token = office.token().unwrap();
    for _ in 0..3 {
        assert_eq!(told(office.ask_from("203.0.113.7", None, "set-up", first("guessed"))), "WrongLink");
    }
    let (_, cookie) = office.ask(None, "set-up", first(&token)).unwrap();
    let Cookie::Set(owner) = cookie else { panic!() };
    let id = office.add(&owner, OTHER, "estimator");
    // Asking for more than the role: by whom, and for what.
    let session = office.sign_in(OTHER).unwrap();
    for _ in 0..3 {
        let refused = office.ask(Some(&session), "set-role", json!({ "id": id, "role": "owner" }));
        assert!(told(refused).starts_with("NotAllowed"));
    }
    // Waiting: whatever is typed for a name is refused unread, and not noted either.
    let guess = |office: &mut Office, name: &str| {
        let args = json!({ "name": name, "password": "not the right password" });
        told(office.ask_from("203.0.113.8", None, "sign-in", args))
    };
    for _ in 0..limits::FREE {
        assert_eq!(guess(&mut office, "hunter2"), "WrongNameOrPassword");
    }
    assert_eq!(guess(&mut office, "hunter2"), "Locked");
    assert_eq!(guess(&mut office, "hunter2"), "Locked");
    office.now += MINUTE + 1;
    assert_eq!(guess(&mut office, "hunter2"), "WrongNameOrPassword", "it has waited");
    assert_eq!(guess(&mut office, "hunter2"), "Locked");
    let deeds = office.deeds(&owner);
    let of = |what: &str| deeds.iter().filter(|(deed, ..)| deed == what).cloned().collect::<Vec<_>>();
    let line = |what: &str, who: Value, about: Value| (what.to_owned(), who, about);
    assert_eq!(of("wrong-link"), [line("wrong-link", json!(null), json!(null))]);
    assert_eq!(of("not-allowed"), [line("not-allowed", json!(OTHER.0), json!("set-role"))]);
    assert_eq!(of("had-to-wait"), vec![line("had-to-wait", json!(null), json!(null)); 2]);
}
