//! The household's signature: what it is under, and what is refused even where lists and seal were made right again.

use keys::sign_seal;

use super::tests::refusal;
use crate::bent::{check, mend, pack, unpack};
use crate::sample::{House, house, key, stamp};
use crate::{Contents, HouseholdSignature, PacketError, PageFile, Point, Sealing, names};

const SCHEMA: &str = "data/schemas/household-signature.schema.json";

fn pages() -> [PageFile; 2] {
    [("pages/household.pdf", "%PDF read this"), ("pages/office.pdf", "%PDF for the office")]
        .map(|(name, text)| PageFile { name: name.to_owned(), bytes: text.into() })
}

fn drawn() -> Vec<Vec<Point>> {
    vec![vec![[20, 200], [300, 40], [1000, 320]], vec![[500, 100]]]
}

fn signature(page: &PageFile) -> HouseholdSignature {
    let at = stamp("2026-04-14T16:40:00.000-05:00");
    HouseholdSignature::of(page, "I have read this page.", "Ada Alder", drawn(), at).unwrap()
}

/// Sealed with what `sign` does to it before the first file.
fn sealed(house: &House, sign: impl FnOnce(&mut Sealing)) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let pages = pages();
    let contents = Contents { pages: &pages, ..house.contents() };
    let mut photos = house.photos.clone();
    let mut sealing = Sealing::begin(&path, &contents, &mut photos).unwrap();
    sign(&mut sealing);
    sealing.finish(&mut photos, &key()).unwrap();
    std::fs::read(path).unwrap()
}

fn signed(house: &House) -> Vec<u8> {
    sealed(house, |sealing| sealing.sign_household(&signature(&pages()[0])).unwrap())
}

#[test]
fn a_signed_packet_holds_the_signature_under_its_page_and_an_unsigned_one_neither_it_nor_its_form() {
    let house = house();
    let packet = check(&signed(&house)).unwrap();
    let found = packet.household.unwrap();
    assert_eq!(found, signature(&pages()[0]));
    assert_eq!((found.page.as_str(), found.name.as_str()), ("pages/household.pdf", "Ada Alder"));
    let held: Vec<&str> = packet.members.iter().map(|(name, ..)| name.as_str()).collect();
    assert!(held.contains(&names::HOUSEHOLD) && held.contains(&SCHEMA), "{held:?}");
    assert!(found.svg().contains("M20 200L300 40L1000 320M500 100"), "{}", found.svg());
    let bare = check(&sealed(&house, |_| ())).unwrap();
    assert!(bare.household.is_none());
    assert!(bare.members.iter().all(|(name, ..)| !name.contains("household-signature")));
}

#[test]
fn a_signature_by_name_alone_is_taken_and_one_without_a_name_or_out_of_its_field_is_not() {
    let of = |name: &str, strokes| {
        HouseholdSignature::of(&pages()[0], "Read.", name, strokes, stamp("2026-04-14T16:40:00.000-05:00"))
    };
    assert_eq!(of(" Ada ", vec![]).unwrap().name, "Ada");
    for (name, strokes, why) in [
        ("", drawn(), "needs a name"),
        ("  ", drawn(), "needs a name"),
        (&"a".repeat(121), drawn(), "needs a name"),
        ("Ada\u{202e}", drawn(), "steer a screen"),
        ("Ada\nAlder", drawn(), "steer a screen"),
        ("Ada", vec![vec![]], "no points"),
        ("Ada", vec![vec![[1001, 0]]], "leaves its field"),
        ("Ada", vec![vec![[0, 321]]], "leaves its field"),
        ("Ada", vec![vec![[1, 1]]; 401], "drawn by hand"),
        ("Ada", vec![vec![[1, 1]; 10_001]], "drawn by hand"),
    ] {
        let error = of(name, strokes).unwrap_err().to_string();
        assert!(error.contains(why), "{name:?}: {error}");
    }
}

#[test]
fn only_a_page_that_is_in_the_packet_is_signed_once_and_before_anything_is_written() {
    let house = house();
    let refused = |sealing: &mut Sealing, page: &PageFile| {
        sealing.sign_household(&signature(page)).unwrap_err().to_string()
    };
    let bytes = sealed(&house, |sealing| {
        let other = PageFile { bytes: b"%PDF another".to_vec(), ..pages()[0].clone() };
        assert!(refused(sealing, &other).contains("another page"));
        let none = PageFile { name: "pages/trade-plumber.pdf".into(), ..pages()[0].clone() };
        assert!(refused(sealing, &none).contains("which is not here"));
        sealing.sign_household(&signature(&pages()[0])).unwrap();
        assert!(refused(sealing, &pages()[0]).contains("signed already"));
        sealing.step(&mut house.photos.clone()).unwrap();
        assert!(refused(sealing, &pages()[0]).contains("already being written"));
    });
    assert!(check(&bytes).unwrap().household.is_some());
}

/// As somebody would who has the device's key.
fn forged(change: impl FnOnce(&mut std::collections::BTreeMap<String, Vec<u8>>)) -> String {
    let (folder, mut files) = unpack(&signed(&house()));
    change(&mut files);
    mend(&mut files);
    refusal(&pack(&folder, &files))
}

#[test]
fn a_signature_is_refused_under_another_page_without_its_form_and_in_another_spelling() {
    let edit = |from: &'static str, to: &'static str| {
        forged(move |files| {
            let text = String::from_utf8(files[names::HOUSEHOLD].clone()).unwrap();
            assert!(text.contains(from), "{text}");
            files.insert(names::HOUSEHOLD.into(), text.replace(from, to).into_bytes());
        })
    };
    for (said, why) in [
        (
            forged(|f| drop(f.insert("data/pages/household.pdf".into(), b"%PDF other".to_vec()))),
            "another page",
        ),
        (edit("pages/household.pdf", "pages/office.pdf"), "another page"),
        (edit("pages/household.pdf", "pages/none.pdf"), "which is not here"),
        (edit("Ada Alder", "Ada\\u0007Alder"), "steer a screen"),
        (edit("\"name\":\"", "\"name\": \""), "not spelled as sealing writes it"),
        (edit("\"version\":1", "\"version\":2"), "version 2"),
        (edit("{\"format\"", "{\"by\":1,\"format\""), "unknown field"),
        (edit("[20,200]", "[20,999]"), "leaves its field"),
        (forged(|f| drop(f.remove(SCHEMA))), "is missing"),
        (forged(|f| drop(f.remove(names::HOUSEHOLD))), "does not belong"),
    ] {
        assert!(said.contains(why), "{said} should say {why}");
    }
}

#[test]
fn a_signature_changed_by_somebody_without_the_key_breaks_the_seal() {
    let (folder, whole) = unpack(&signed(&house()));
    let mut files = whole.clone();
    let name = files.get_mut(names::HOUSEHOLD).unwrap();
    let at = name.windows(3).position(|w| w == b"Ada").unwrap();
    name[at] = b'I';
    let stale = files[names::SEAL].clone();
    mend(&mut files);
    assert_ne!(files[names::SEAL], stale, "made anew by whoever has the key");
    assert_eq!(sign_seal(&files[names::TAG_MANIFEST_512], &key()).unwrap().into_bytes(), files[names::SEAL],);
    files.insert(names::SEAL.into(), stale);
    assert!(matches!(check(&pack(&folder, &files)), Err(PacketError::Seal { .. })));
}
