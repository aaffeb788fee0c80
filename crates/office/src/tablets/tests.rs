//! Tablets over a real database and a desk with a key, with a clock that is moved by hand and random bits that are counted.

use keys::{SecretKey, Signer as _};
use tempfile::TempDir;

use super::*;
use crate::people::{Call, Cookie, People};

struct Office {
    _dir: TempDir,
    desk: Desk,
    people: People,
    tablets: Tablets,
    owner: Who,
    now: i64,
    drawn: u8,
}

fn draw(drawn: &mut u8, bytes: &mut [u8]) {
    *drawn = drawn.wrapping_add(1);
    bytes.fill(*drawn);
}

const FROM: &str = "192.0.2.9";

impl Office {
    /// With an owner and a key.
    fn new() -> Self {
        let mut office = Self::without_key();
        office.desk.make_key(Some("Hale & Daughter"), [9; 32]).unwrap();
        office
    }
    fn without_key() -> Self {
        let dir = tempfile::tempdir().unwrap();
        let (desk, people) = (Desk::open(dir.path()).unwrap(), People::open(dir.path()).unwrap());
        let (now, mut drawn) = (1_775_000_000_000, 0xb0); // digits with letters among them
        let token = people.one_time_token(&mut |b| draw(&mut drawn, b)).unwrap();
        let first = serde_json::json!({ "token": token, "firm": "Hale & Daughter", "name": "Rosa Ames",
            "password": "correct horse battery" });
        let at = Stamp::new(now, 0).unwrap();
        let from = FROM.parse().unwrap();
        let mut call =
            Call { people: &people, session: None, from, now: at, bits: &mut |b| draw(&mut drawn, b) };
        let Cookie::Set(secret) = call.ask("set-up", first).unwrap().unwrap().cookie else { panic!() };
        let owner = people.who(Some(&secret), at).unwrap();
        let tablets = Tablets::open(dir.path()).unwrap();
        Self { _dir: dir, desk, people, tablets, owner, now, drawn }
    }
    fn at(&self) -> Stamp {
        Stamp::new(self.now, 0).unwrap()
    }
    fn invite(&mut self) -> Result<String, TabletError> {
        let (at, drawn) = (self.at(), &mut self.drawn);
        let from = FROM.parse().unwrap();
        self.tablets.invite(&self.desk, &self.owner, from, at, &mut |b| draw(drawn, b)).map(|i| i.code)
    }
    fn pair_from(&mut self, from: &str, code: &str, name: &str, key: u8) -> Result<Paired, TabletError> {
        let (at, drawn) = (self.at(), &mut self.drawn);
        let request = request(key, at);
        let said = (code, name, request.as_str());
        self.tablets.pair(&mut self.desk, said, from.parse().unwrap(), at, &mut |b| draw(drawn, b))
    }
    fn pair(&mut self, code: &str, name: &str, key: u8) -> Result<Paired, TabletError> {
        self.pair_from(FROM, code, name, key)
    }
    fn revoke(&mut self, id: TabletId, key: bool) -> Result<(), TabletError> {
        let (at, from) = (self.at(), FROM.parse().unwrap());
        self.tablets.revoke(&mut self.desk, &self.owner, (id, key), from, at)
    }
    fn deeds(&self) -> Vec<Deed> {
        self.people.audit(None, 100).unwrap().into_iter().rev().map(|(line, _)| line.what).collect()
    }
}

fn request(key: u8, at: Stamp) -> String {
    let secret = SecretKey::from_random([key; 32]).unwrap();
    Request::of("Tablet", at, &secret).unwrap().text().to_owned()
}

#[test]
fn a_code_pairs_one_tablet_which_is_known_by_its_secret_from_then_on() {
    let mut office = Office::new();
    let code = office.invite().unwrap();
    let paired = office.pair(&code, " Tablet 3 ", 1).unwrap();
    assert_eq!((paired.firm.as_str(), paired.tablet.name.as_str()), ("Hale & Daughter", "Tablet 3"));
    assert!(matches!(office.pair(&code, "Tablet 4", 2), Err(TabletError::WrongCode)), "used up");
    let firm = keys::FirmKeys::read(paired.firm_keys.as_bytes()).unwrap();
    let certificate = keys::Signed::<keys::Certificate>::read(&paired.certificate).unwrap();
    let certified = certificate.by_firm(&firm).unwrap();
    let key = SecretKey::from_random([1; 32]).unwrap();
    assert_eq!((certified.key, certified.serial), (*key.public(), 1));
    office.now += 120_000;
    let known = office.tablets.who(Some(&paired.token), office.at()).unwrap();
    assert_eq!((known.id, known.last_seen), (paired.tablet.id, Some(office.at())));
    let all = office.tablets.all().unwrap();
    assert_eq!(all, [(known, Some("Rosa Ames".to_owned()))]);
    for wrong in [None, Some(""), Some("ab"), Some(&*"ab".repeat(32)), Some(&*paired.token.to_uppercase())] {
        assert!(matches!(office.tablets.who(wrong, office.at()), Err(TabletError::NotPaired)), "{wrong:?}");
    }
    assert_eq!(office.deeds(), [Deed::SetUp, Deed::TabletInvited, Deed::TabletPaired]);
}

#[test]
fn an_invitation_ends_after_ten_minutes_or_five_wrong_codes() {
    let mut office = Office::new();
    let code = office.invite().unwrap();
    office.now += INVITED_MS;
    assert!(matches!(office.pair(&code, "Tablet 3", 1), Err(TabletError::WrongCode)));
    let (guessed, other) = (office.invite().unwrap(), office.invite().unwrap());
    let wrong = format!("{}{}", &guessed[..16], "0".repeat(32));
    for n in 1..=MOST_WRONG {
        assert!(matches!(office.pair(&wrong, "Tablet 3", 1), Err(TabletError::WrongCode)), "{n}");
    }
    assert!(
        matches!(office.pair(&guessed, "Tablet 3", 1), Err(TabletError::WrongCode)),
        "guessed at too often"
    );
    office.pair(&other, "Tablet 3", 1).unwrap();
    let nearly = office.invite().unwrap();
    let wrong = format!("{}{}", &nearly[..16], "0".repeat(32));
    for _ in 1..MOST_WRONG {
        assert!(office.pair(&wrong, "Tablet 4", 2).is_err());
    }
    office.pair(&nearly, "Tablet 4", 2).unwrap();
}

#[test]
fn an_address_that_tries_too_often_must_wait_and_others_need_not() {
    let mut office = Office::new();
    let code = office.invite().unwrap();
    let nowhere = "ab".repeat(24);
    let mut told = Vec::new();
    for _ in 0..31 {
        told.push(office.pair_from("192.0.2.66", &nowhere, "Tablet", 1).err().unwrap());
    }
    assert!(matches!(told[29], TabletError::WrongCode) && matches!(told[30], TabletError::TooMany));
    assert!(matches!(office.pair_from("192.0.2.66", &code, "Tablet", 1), Err(TabletError::TooMany)));
    office.pair(&code, "Tablet", 1).unwrap();
}

#[test]
fn what_is_wrong_with_the_tablet_or_the_office_does_not_use_the_code_up() {
    let mut keyless = Office::without_key();
    assert!(matches!(keyless.invite(), Err(TabletError::Office(OfficeError::NoKey { .. }))));
    let mut office = Office::new();
    let code = office.invite().unwrap();
    assert!(matches!(office.pair(&code, " \n", 1), Err(TabletError::Name)));
    assert!(matches!(office.pair(&code, &"x".repeat(121), 1), Err(TabletError::Name)));
    let at = office.at();
    let said = (code.as_str(), "Tablet", "no request");
    let no = office.tablets.pair(&mut office.desk, said, FROM.parse().unwrap(), at, &mut |b| b.fill(1));
    assert!(matches!(no, Err(TabletError::Office(OfficeError::Key(_)))));
    // A key that is revoked is not certified again; another one is, by the same code.
    let first = office.pair(&code, "Tablet", 1).unwrap();
    office.revoke(first.tablet.id, true).unwrap();
    let code = office.invite().unwrap();
    assert!(matches!(
        office.pair(&code, "Tablet", 1),
        Err(TabletError::Office(OfficeError::KeyRevoked { .. }))
    ));
    office.pair(&code, "Tablet", 2).unwrap();
}

#[test]
fn a_revoked_tablet_is_told_so_and_its_key_is_revoked_where_it_is_asked_for() {
    let mut office = Office::new();
    let mut paired = Vec::new();
    for key in [1, 2] {
        let code = office.invite().unwrap();
        paired.push(office.pair(&code, &format!("Tablet {key}"), key).unwrap());
    }
    office.revoke(paired[0].tablet.id, false).unwrap();
    assert!(office.desk.register().unwrap().revocations().unwrap().is_none());
    let no = office.tablets.who(Some(&paired[0].token), office.at());
    assert!(matches!(no, Err(TabletError::Revoked { name, .. }) if name == "Tablet 1"));
    office.tablets.who(Some(&paired[1].token), office.at()).unwrap();
    for _ in 0..2 {
        office.revoke(paired[0].tablet.id, true).unwrap();
    }
    let list = office.desk.register().unwrap().revocations().unwrap().unwrap();
    let revoked = &list.claimed().revoked;
    assert_eq!(revoked.len(), 1, "once however often it is asked for");
    assert_eq!(revoked[0].key.map(|key| key.to_string()), Some(paired[0].tablet.key.clone()));
    assert!(matches!(office.revoke(TabletId([7; 16]), true), Err(TabletError::NoSuchTablet)));
    let count = |what| office.deeds().into_iter().filter(|deed| *deed == what).count();
    assert_eq!((count(Deed::TabletRevoked), count(Deed::KeyRevoked)), (1, 1));
}
