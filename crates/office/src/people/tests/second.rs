//! The second factor, one's own sessions, and what a browser may ask.

use super::*;

/// What somebody's phone shows at this moment: an implementation of its own of RFC 6238 would be the library's once more, so
/// the secret goes through the same one; `second::tests` hold it against the published codes.
fn phone(secret: &str, now: i64) -> String {
    let secret = totp_rs::Secret::try_from_base32(secret).unwrap();
    let codes = totp_rs::Builder::new().with_secret(secret).build().unwrap();
    codes.generate(u64::try_from(now / 1000).unwrap()).to_string()
}

impl Office {
    /// Sets a second factor up for whoever is signed in: the secret, and the new session.
    fn with_second(&mut self, session: &str, password: &str) -> (String, String) {
        let begun =
            self.ask(Some(session), "begin-second-factor", json!({ "password": password })).unwrap().0;
        let secret = begun["secret"].as_str().unwrap().to_owned();
        let code = phone(&secret, self.now);
        let done = self.ask(Some(session), "confirm-second-factor", json!({ "code": code })).unwrap();
        let Cookie::Set(session) = done.1 else { panic!("{done:?}") };
        (secret, session)
    }
    fn sign_in_with(&mut self, who: (&str, &str), code: &str) -> Result<String, PeopleError> {
        self.drawn = self.drawn.wrapping_add(1);
        let from = format!("198.51.100.{}", self.drawn);
        let args = json!({ "name": who.0, "password": who.1, "code": code });
        match self.ask_from(&from, None, "sign-in", args)?.1 {
            Cookie::Set(secret) => Ok(secret),
            other => panic!("{other:?}"),
        }
    }
}

const STEP: i64 = 30_000;

#[test]
fn whoever_has_a_second_factor_signs_in_by_password_and_a_code_that_is_good_once() {
    let (mut office, owner) = Office::with_owner();
    let elsewhere = office.sign_in(OWNER).unwrap();
    let wrong = office.ask(Some(&owner), "begin-second-factor", json!({ "password": "guessed at the desk" }));
    assert_eq!(told(wrong), "WrongOldPassword");
    let (secret, here) = office.with_second(&owner, OWNER.1);
    assert!(office.signed_in(&here) && !office.signed_in(&owner) && !office.signed_in(&elsewhere));
    let person = office.ask(Some(&here), "session", json!({})).unwrap().0["person"].clone();
    assert_eq!((&person["second_factor"], &person["second_wanted"]), (&json!(true), &json!(false)));
    // The code it was set up by is used.
    assert_eq!(told(office.sign_in(OWNER)), "CodeWanted");
    assert_eq!(told(office.sign_in_with(OWNER, &phone(&secret, office.now))), "WrongCode");
    office.now += STEP;
    let code = phone(&secret, office.now);
    assert_eq!(told(office.sign_in_with((OWNER.0, "not the right password"), &code)), "WrongNameOrPassword");
    assert!(
        office.sign_in_with(OWNER, &format!("{} {}", &code[..3], &code[3..])).is_ok(),
        "as it is read out"
    );
    assert_eq!(told(office.sign_in_with(OWNER, &code)), "WrongCode", "a code is good once");
    // The one of the step before comes too late then, the next one does not.
    assert_eq!(told(office.sign_in_with(OWNER, &phone(&secret, office.now - STEP))), "WrongCode");
    assert!(office.sign_in_with(OWNER, &phone(&secret, office.now + STEP)).is_ok(), "a clock that is ahead");
    let deeds = office.deeds(&here);
    assert_eq!(deeds.iter().filter(|(deed, ..)| deed == "wrong-code").count(), 3);
    assert!(deeds.contains(&("second-factor-set".to_owned(), json!(OWNER.0), json!(null))));
}

#[test]
fn codes_cannot_be_tried_out_and_to_be_asked_for_one_is_no_wrong_attempt() {
    let (mut office, owner) = Office::with_owner();
    office.add(&owner, OTHER, "reviewer");
    let session = office.sign_in(OTHER).unwrap();
    let (secret, _) = office.with_second(&session, OTHER.1);
    for n in 0..40 {
        assert_eq!(told(office.sign_in(OTHER)), "CodeWanted", "{n}");
    }
    for n in 0..limits::LOCK {
        office.now += 15 * MINUTE;
        assert_eq!(told(office.sign_in_with(OTHER, "000000")), "WrongCode", "{n}");
    }
    office.now += 15 * MINUTE;
    assert_eq!(told(office.sign_in_with(OTHER, &phone(&secret, office.now))), "Locked");
    let owner_again = office.sign_in(OWNER).unwrap();
    let locked = office.deeds(&owner_again).into_iter().filter(|(deed, ..)| deed == "locked");
    assert_eq!(locked.collect::<Vec<_>>(), [("locked".to_owned(), json!(null), json!(OTHER.0))]);
    // While it is set up, too: the code comes back soon and is right within a few attempts, or it begins anew.
    let owner = office.sign_in(OWNER).unwrap();
    let begin = json!({ "password": OWNER.1 });
    let begun = office.ask(Some(&owner), "begin-second-factor", begin.clone()).unwrap().0;
    let code = |now: i64| json!({ "code": phone(begun["secret"].as_str().unwrap(), now) });
    for _ in 0..5 {
        assert_eq!(
            told(office.ask(Some(&owner), "confirm-second-factor", json!({ "code": "000000" }))),
            "WrongCode"
        );
    }
    let noted =
        office.deeds(&owner).into_iter().filter(|(deed, who, _)| deed == "wrong-code" && *who == OWNER.0);
    assert_eq!(noted.count(), 1, "once a minute");
    let now = office.now;
    assert_eq!(told(office.ask(Some(&owner), "confirm-second-factor", code(now))), "NotBegun");
    let begun = office.ask(Some(&owner), "begin-second-factor", begin).unwrap().0;
    office.now += 10 * MINUTE;
    let late = json!({ "code": phone(begun["secret"].as_str().unwrap(), office.now) });
    assert_eq!(told(office.ask(Some(&owner), "confirm-second-factor", late)), "NotBegun");
}

#[test]
fn an_office_that_demands_a_second_factor_lets_nobody_on_without_one() {
    let (mut office, owner) = Office::with_owner();
    let id = office.invite(&owner, OTHER.0, "owner");
    let demand = json!({ "demanded": true });
    let refused = office.ask(Some(&owner), "demand-second-factor", demand.clone());
    assert_eq!(told(refused), "OwnSecondFirst", "an owner shuts nobody out together with themselves");
    let (owner_secret, owner) = office.with_second(&owner, OWNER.1);
    let rows = office.ask(Some(&owner), "people", json!({})).unwrap().0;
    let own = json!({ "id": rows[0]["id"] });
    assert_eq!(told(office.ask(Some(&owner), "lift-second-factor", own)), "OwnSecond");
    office.ask(Some(&owner), "demand-second-factor", demand).unwrap();
    // A first password comes before it.
    let session = office.sign_in((OTHER.0, FIRST)).unwrap();
    let begin = |password: &str| json!({ "password": password });
    assert_eq!(told(office.ask(Some(&session), "begin-second-factor", begin(FIRST))), "FirstPassword");
    let change = json!({ "old": FIRST, "new": OTHER.1 });
    let Cookie::Set(session) = office.ask(Some(&session), "change-password", change).unwrap().1 else {
        panic!()
    };
    for (name, least) in Call::commands().filter(|(_, least)| least.is_some()) {
        let told = told(office.ask(Some(&session), name, json!({ "nonsense": 1 })));
        let may = super::ask::OWN.contains(&name) || super::ask::SECOND.contains(&name);
        assert_eq!(told == "SecondFirst", !may, "{name} from {least:?}: {told}");
    }
    let now = Stamp::new(office.now, 0).unwrap();
    let from = "192.0.2.7".parse().unwrap();
    assert_eq!(
        told(office.people.allow(Some(&session), Role::Estimator, ("picture", from), now)),
        "SecondFirst"
    );
    let (secret, session) = office.with_second(&session, OTHER.1);
    assert!(office.ask(Some(&session), "people", json!({})).is_ok());
    // Nobody gives theirs up then; an owner takes away what was lost, and it is set up anew.
    office.now += STEP;
    let drop = json!({ "password": OTHER.1, "code": phone(&secret, office.now) });
    assert_eq!(told(office.ask(Some(&session), "drop-second-factor", drop.clone())), "SecondDemanded");
    office.ask(Some(&owner), "lift-second-factor", json!({ "id": id })).unwrap();
    assert!(!office.signed_in(&session));
    let session = office.sign_in(OTHER).unwrap();
    assert_eq!(told(office.ask(Some(&session), "people", json!({}))), "SecondFirst");
    let (secret, session) = office.with_second(&session, OTHER.1);
    // Left free, it is given up by password and code.
    // By an owner's password and code, which somebody at a browser that was left open does not have.
    let free = |password: Option<&str>, code: Option<&str>| json!({ "demanded": false, "password": password, "code": code });
    office.now += STEP;
    let code = phone(&owner_secret, office.now);
    for (args, no) in [
        (json!({ "demanded": false }), "WrongOldPassword"),
        (free(Some("guessed"), Some(&code)), "WrongOldPassword"),
        (free(Some(OWNER.1), None), "CodeWanted"),
        (free(Some(OWNER.1), Some("000000")), "WrongCode"),
    ] {
        assert_eq!(told(office.ask(Some(&owner), "demand-second-factor", args)), no);
    }
    assert!(office.people.second_demanded().unwrap());
    office.ask(Some(&owner), "demand-second-factor", free(Some(OWNER.1), Some(&code))).unwrap();
    assert!(!office.people.second_demanded().unwrap());
    let again = office.ask(Some(&owner), "demand-second-factor", free(Some(OWNER.1), Some(&code)));
    assert_eq!(told(again), "WrongCode", "each code is good once");
    let drop = |password: &str, code: &str| json!({ "password": password, "code": code });
    office.now += STEP;
    let code = phone(&secret, office.now);
    assert_eq!(
        told(office.ask(Some(&session), "drop-second-factor", drop("guessed", &code))),
        "WrongOldPassword"
    );
    assert_eq!(told(office.ask(Some(&session), "drop-second-factor", drop(OTHER.1, "000000"))), "WrongCode");
    assert!(office.ask(Some(&session), "drop-second-factor", drop(OTHER.1, &code)).is_ok());
    assert!(office.sign_in(OTHER).is_ok());
    // The way back for the last owner: another password at the machine takes the factor away too.
    let now = Stamp::new(office.now, 0).unwrap();
    office.people.reset(OWNER.0, "typed at the machine", now, &mut |b| b.fill(9)).unwrap();
    assert!(office.sign_in((OWNER.0, "typed at the machine")).is_ok());
}

#[test]
fn somebody_sees_where_they_are_signed_in_and_ends_it_by_their_password() {
    let (mut office, owner) = Office::with_owner();
    office.add(&owner, OTHER, "estimator");
    office.now += IDLE_MS; // what was begun so far has ended
    let sessions: Vec<String> = (0..4)
        .map(|_| {
            office.now += MINUTE;
            office.sign_in(OTHER).unwrap()
        })
        .collect();
    let owner = office.sign_in(OWNER).unwrap();
    let list = |office: &mut Office, session: &str| -> Vec<Value> {
        office.ask(Some(session), "own-sessions", json!({})).unwrap().0.as_array().unwrap().clone()
    };
    let rows = list(&mut office, &sessions[2]);
    let here: Vec<&Value> = rows.iter().map(|row| &row["here"]).collect();
    assert_eq!(here, [&json!(false), &json!(false), &json!(true), &json!(false)], "in the order they began");
    assert!(rows.iter().all(|row| row["from"].as_str().unwrap().starts_with("198.51.100.")), "{rows:?}");
    let since: Stamp = rows[0]["since"].as_str().unwrap().parse().unwrap();
    assert_eq!(since.unix_ms(), office.now - 3 * MINUTE);
    let end = |id: Option<&Value>, password: &str| match id {
        Some(id) => json!({ "id": id, "password": password }),
        None => json!({ "password": password }),
    };
    let wrong =
        office.ask(Some(&sessions[2]), "end-own-sessions", end(Some(&rows[0]["id"]), "guessed at the desk"));
    assert_eq!(told(wrong), "WrongOldPassword");
    assert!(office.signed_in(&sessions[0]));
    let left =
        office.ask(Some(&sessions[2]), "end-own-sessions", end(Some(&rows[0]["id"]), OTHER.1)).unwrap().0;
    assert_eq!(left.as_array().unwrap().len(), 3);
    assert!(!office.signed_in(&sessions[0]) && office.signed_in(&sessions[1]));
    // The one that asks is ended by signing out, and those of others by nobody but an owner.
    let theirs = list(&mut office, &owner)[0]["id"].clone();
    for id in [&rows[2]["id"], &theirs] {
        office.ask(Some(&sessions[2]), "end-own-sessions", end(Some(id), OTHER.1)).unwrap();
    }
    assert!(office.signed_in(&sessions[2]) && office.signed_in(&owner));
    office.ask(Some(&sessions[2]), "end-own-sessions", end(None, OTHER.1)).unwrap();
    let live: Vec<bool> = sessions.iter().map(|one| office.signed_in(one)).collect();
    assert_eq!(live, [false, false, true, false]);
    let ended = office.deeds(&owner).into_iter().filter(|(deed, ..)| deed == "sessions-ended");
    assert_eq!(
        ended.collect::<Vec<_>>(),
        vec![("sessions-ended".to_owned(), json!(OTHER.0), json!(OTHER.0)); 2]
    );
    // What ended by itself is not shown.
    office.now += IDLE_MS - 1;
    assert!(office.signed_in(&sessions[2]));
    let again = office.sign_in(OTHER).unwrap();
    office.now += MINUTE;
    assert_eq!(list(&mut office, &again).len(), 2);
    office.now += IDLE_MS - 2 * MINUTE;
    assert!(office.signed_in(&again));
    office.now += 2 * MINUTE;
    assert_eq!(list(&mut office, &again).len(), 1);
}

#[test]
fn a_browser_that_asks_more_than_a_person_can_waits_a_minute_and_no_other_does() {
    let (mut office, owner) = Office::with_owner();
    office.add(&owner, OTHER, "estimator");
    let (session, elsewhere) = (office.sign_in(OTHER).unwrap(), office.sign_in(OTHER).unwrap());
    let from = "203.0.113.5".parse().unwrap();
    office.now += MINUTE;
    let allow = |office: &Office, session: &str| {
        let now = Stamp::new(office.now, 0).unwrap();
        office.people.allow(Some(session), Role::Estimator, ("picture", from), now)
    };
    for n in 0..limits::ASKED {
        assert!(allow(&office, &session).is_ok(), "{n}");
    }
    for _ in 0..3 {
        assert!(told(allow(&office, &session)).starts_with("TooQuick"));
    }
    assert!(allow(&office, &owner).is_ok() && allow(&office, &elsewhere).is_ok());
    // Signing in anew goes on: the one that floods is ended by it.
    let args = json!({ "name": OTHER.0, "password": OTHER.1 });
    assert!(office.ask(Some(&session), "sign-in", args).is_ok());
    office.now += MINUTE;
    assert!(allow(&office, &session).is_ok());
    let owner = office.sign_in(OWNER).unwrap();
    let noted: Vec<_> = office.deeds(&owner).into_iter().filter(|(deed, ..)| deed == "had-to-wait").collect();
    assert_eq!(noted, [("had-to-wait".to_owned(), json!(OTHER.0), json!("picture"))]);
}

#[test]
fn another_phone_takes_the_place_of_the_one_before_by_a_code_of_that() {
    let (mut office, owner) = Office::with_owner();
    let (first, session) = office.with_second(&owner, OWNER.1);
    let begin = |code: Option<&str>| json!({ "password": OWNER.1, "code": code });
    assert_eq!(told(office.ask(Some(&session), "begin-second-factor", begin(None))), "CodeWanted");
    assert_eq!(told(office.ask(Some(&session), "begin-second-factor", begin(Some("000000")))), "WrongCode");
    office.now += STEP;
    let code = phone(&first, office.now);
    let begun = office.ask(Some(&session), "begin-second-factor", begin(Some(&code))).unwrap().0;
    let second = begun["secret"].as_str().unwrap().to_owned();
    assert_ne!(first, second);
    // Until the other phone answered, the first one is good, but not by the code that was just used.
    assert_eq!(told(office.sign_in_with(OWNER, &code)), "WrongCode");
    let confirm = json!({ "code": phone(&second, office.now) });
    assert!(office.ask(Some(&session), "confirm-second-factor", confirm).is_ok());
    office.now += STEP;
    assert_eq!(told(office.sign_in_with(OWNER, &phone(&first, office.now))), "WrongCode");
    assert!(office.sign_in_with(OWNER, &phone(&second, office.now)).is_ok());
}

#[test]
fn a_password_kept_with_less_is_kept_anew_when_it_is_given() {
    let (mut office, _) = Office::with_owner();
    let kept = |office: &Office| office.people.all().unwrap()[0].clone();
    let fresh = kept(&office);
    office.sign_in(OWNER).unwrap();
    assert_eq!(kept(&office).password, fresh.password, "it stays as it is where it is kept as all are");
    let mut dated = fresh.clone();
    dated.password = Some(password::keep_with(OWNER.1, [3; 16], (8_192, 1, 1)).unwrap());
    office.people.repo().change_person(&dated).unwrap();
    assert_eq!(told(office.sign_in((OWNER.0, "not the right password"))), "WrongNameOrPassword");
    assert_eq!(kept(&office).password, dated.password, "a wrong one changes nothing");
    office.sign_in(OWNER).unwrap();
    let now = kept(&office).password.unwrap();
    assert_eq!((now.memory_kib, now.passes, now.lanes), (19_456, 2, 1));
    assert_ne!(Some(now.salt), dated.password.map(|kept| kept.salt));
    assert!(office.sign_in(OWNER).is_ok());
}

/// Five wrong passwords by somebody else: their person waits once, and then password and code go in one after the other.
#[test]
fn to_be_asked_for_a_code_makes_nobody_wait_once_more() {
    let (mut office, owner) = Office::with_owner();
    let (secret, _) = office.with_second(&owner, OWNER.1);
    for _ in 0..limits::FREE {
        assert_eq!(told(office.sign_in((OWNER.0, "not the right password"))), "WrongNameOrPassword");
    }
    assert_eq!(told(office.sign_in(OWNER)), "Locked");
    office.now += MINUTE;
    assert_eq!(told(office.sign_in(OWNER)), "CodeWanted");
    office.now += 20_000;
    let session = office.sign_in_with(OWNER, &phone(&secret, office.now)).unwrap();
    let asked = office.deeds(&session).into_iter().filter(|(deed, ..)| deed == "code-asked");
    assert_eq!(asked.collect::<Vec<_>>(), [("code-asked".to_owned(), json!(null), json!(OWNER.0))]);
}

/// Whoever has the password and a session that is open somewhere, and not the phone.
#[test]
fn nothing_that_asks_for_no_code_makes_wrong_codes_forgotten() {
    let (mut office, owner) = Office::with_owner();
    office.add(&owner, OTHER, "reviewer");
    let session = office.sign_in(OTHER).unwrap();
    let (secret, session) = office.with_second(&session, OTHER.1);
    let by_password = json!({ "password": OTHER.1 });
    for n in 0..limits::FREE {
        assert_eq!(told(office.sign_in_with(OTHER, "000000")), "WrongCode", "{n}");
        if n + 1 < limits::FREE {
            office.ask(Some(&session), "end-own-sessions", by_password.clone()).unwrap();
        }
    }
    assert_eq!(told(office.ask(Some(&session), "end-own-sessions", by_password)), "Locked");
    office.now += MINUTE;
    // Another password takes a code as well.
    let change =
        |code: Option<&str>| json!({ "old": OTHER.1, "new": "a new one that is long", "code": code });
    assert_eq!(told(office.ask(Some(&session), "change-password", change(None))), "CodeWanted");
    let code = phone(&secret, office.now);
    let changed = office.ask(Some(&session), "change-password", change(Some(&code)));
    assert!(matches!(changed, Ok((_, Cookie::Set(_)))));
    // A wrong code stays counted against the address, too.
    for n in 0..limits::FROM_ONE {
        let name = format!("name {n}");
        let args = json!({ "name": name, "password": "not the right password", "code": "000000" });
        assert_eq!(told(office.ask_from("203.0.113.44", None, "sign-in", args)), "WrongNameOrPassword");
    }
    let args = json!({ "name": OTHER.0, "password": "a new one that is long", "code": "000000" });
    assert_eq!(told(office.ask_from("203.0.113.44", None, "sign-in", args)), "TooMany");
}
