//! Whatever is spelled or signed otherwise is refused.

use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use keys::{
    Certificate, FirmKeys, KeyError, PublicKey, Receipt, Request, SecretKey, Signed, Signer as _, sign_seal,
    verify_seal,
};

use crate::{at, key};

const MANIFEST: &[u8] = b"00ff  bagit.txt\n";

fn seal() -> (SecretKey, String) {
    let key = key(7);
    let text = sign_seal(MANIFEST, &key).unwrap();
    (key, text)
}

fn refusal(text: &str) -> KeyError {
    verify_seal(text, MANIFEST, key(7).public()).unwrap_err()
}

/// A seal with another header, signed as if it were right.
fn headed(header: &str) -> String {
    let key = key(7);
    let head = URL_SAFE_NO_PAD.encode(header);
    let input = format!("{head}.{}", URL_SAFE_NO_PAD.encode(MANIFEST));
    format!("{head}..{}", URL_SAFE_NO_PAD.encode(key.sign(input.as_bytes()).unwrap()))
}

#[test]
fn a_seal_holds_for_its_content_and_key_only() {
    let (device, text) = seal();
    assert_eq!(verify_seal(&text, MANIFEST, device.public()), Ok(()));
    assert_eq!(verify_seal(&text, b"00ff  bagit.txt", device.public()), Err(KeyError::Signature));
    assert!(matches!(verify_seal(&text, MANIFEST, key(8).public()), Err(KeyError::Kid { .. })));
    // Another key under the right name.
    let (head, _) = text.split_once("..").unwrap();
    let input = format!("{head}.{}", URL_SAFE_NO_PAD.encode(MANIFEST));
    let other = URL_SAFE_NO_PAD.encode(key(8).sign(input.as_bytes()).unwrap());
    assert_eq!(refusal(&format!("{head}..{other}")), KeyError::Signature);
}

#[test]
fn another_header_is_refused_however_well_it_is_signed() {
    let kid = key(7).public().thumbprint();
    assert_eq!(
        headed(&format!(r#"{{"alg":"EdDSA","kid":"{kid}"}}"#)),
        seal().1,
        "the helper writes what the program writes"
    );
    let refused = |header: String| refusal(&headed(&header));
    for alg in ["none", "HS256", "ES256", "Ed25519", "eddsa"] {
        let found = refused(format!(r#"{{"alg":"{alg}","kid":"{kid}"}}"#));
        assert_eq!(found, KeyError::Algorithm(alg.to_owned()));
    }
    let other = key(8).public().thumbprint();
    assert!(matches!(refused(format!(r#"{{"alg":"EdDSA","kid":"{other}"}}"#)), KeyError::Kid { .. }));
    let crit = format!(r#"{{"alg":"EdDSA","kid":"{kid}","crit":["b64"],"b64":false}}"#);
    assert_eq!(refused(crit), KeyError::Critical);
    let typed = format!(r#"{{"alg":"EdDSA","kid":"{kid}","typ":"JOSE"}}"#);
    assert!(matches!(refused(typed), KeyError::Kind { .. }));
    for header in [
        format!(r#"{{"alg":"EdDSA", "kid":"{kid}"}}"#),
        format!(r#"{{"kid":"{kid}","alg":"EdDSA"}}"#),
        format!(r#"{{"alg":"EdDSA","kid":"{kid}","x":1}}"#),
        format!(r#"{{"alg":"\u0045dDSA","kid":"{kid}"}}"#),
        format!(r#"{{"alg":"EdDSA","kid":"{kid}","kid":"{kid}"}}"#),
        r#"{"alg":"EdDSA"}"#.to_owned(),
        "{}".to_owned(),
        "[]".to_owned(),
        String::new(),
    ] {
        let found = refused(header.clone());
        assert!(matches!(found, KeyError::Header(_) | KeyError::Shape), "{header}: {found}");
    }
}

#[test]
fn another_spelling_of_base64_is_refused() {
    let (_, text) = seal();
    let (head, signature) = text.split_once("..").unwrap();
    // 64 bytes leave four spare bits in the last letter, 86 letters in all.
    let last = signature.chars().last().unwrap();
    let alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    let at = alphabet.find(last).unwrap();
    for spare in 1..16 {
        let bent = alphabet.chars().nth(at | spare).unwrap();
        if bent != last {
            let text = format!("{head}..{}{bent}", &signature[..85]);
            assert!(refusal(&text).to_string().contains("base64url"), "{bent}");
        }
    }
    for text in [
        format!("{head}..{signature}="),
        format!("{head}..{signature}=="),
        format!("{head}..{signature}\n"),
        format!("{head}..{}", signature.replace(['-', '_'], "+")),
        format!("{head}.. {signature}"),
        format!("{head}.AA.{signature}"),
        format!("{head}.{signature}"),
        format!("{head}..{signature}.x"),
        format!("{head}..{}", &signature[..80]),
        String::new(),
    ] {
        assert!(text == seal().1 || verify_seal(&text, MANIFEST, key(7).public()).is_err(), "{text}");
    }
}

#[test]
fn every_flipped_bit_of_a_seal_is_refused() {
    let (device, text) = seal();
    for at in 0..text.len() * 8 {
        let mut bytes = text.clone().into_bytes();
        bytes[at / 8] ^= 1 << (at % 8);
        let held = String::from_utf8(bytes).is_ok_and(|t| verify_seal(&t, MANIFEST, device.public()).is_ok());
        assert!(!held, "bit {at}");
    }
}

/// The order of the group, little end first (RFC 8032, section 5.1: 2^252 + 27742317777372353535851937790883648493).
const ORDER: [u8; 32] = [
    0xed, 0xd3, 0xf5, 0x5c, 0x1a, 0x63, 0x12, 0x58, 0xd6, 0x9c, 0xf7, 0xa2, 0xde, 0xf9, 0xde, 0x14, 0, 0, 0,
    0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0x10,
];

#[test]
fn a_signature_with_the_order_added_to_s_is_refused() {
    let device = key(7);
    let mut signature = device.sign(MANIFEST).unwrap();
    let mut carry = 0;
    for (byte, order) in signature[32..].iter_mut().zip(ORDER) {
        let sum = u16::from(*byte) + u16::from(order) + carry;
        (*byte, carry) = (sum as u8, sum >> 8);
    }
    assert_eq!(carry, 0, "it still fits in 32 bytes");
    assert!(!device.public().signed(MANIFEST, &signature));
}

#[test]
fn keys_of_small_order_and_second_spellings_are_no_keys() {
    // The eight points of small order with all their spellings: y = 0, 1, -1, the two of order 8, each with either
    // sign, and those with y + p (Chalkias, Garillot, Nikolaenko: Taming the many EdDSAs, table 1).
    let eight = [
        "26e8958fc2b227b045c3f489f2ef98f0d5dfac05d3c63339b13802886d53fc05",
        "c7176a703d4dd84fba3c0b760d10670f2a2053fa2c39ccc64ec7fd7792ac037a",
    ];
    let hex = |text: &str| -> [u8; 32] {
        let byte = |at: usize| u8::from_str_radix(&text[at * 2..at * 2 + 2], 16).unwrap();
        core::array::from_fn(byte)
    };
    let mut points: Vec<[u8; 32]> = eight.iter().map(|text| hex(text)).collect();
    // y from -1 (which is p - 1) to p + 18, the last that fits; y = 0 and y = 1 besides.
    for low in 0xec..=0xff_u8 {
        let mut bytes = [0xff; 32];
        (bytes[0], bytes[31]) = (low, 0x7f);
        points.push(bytes);
    }
    points.extend([[0; 32], {
        let mut one = [0; 32];
        one[0] = 1;
        one
    }]);
    for point in points {
        for sign in [0, 0x80] {
            let mut bytes = point;
            bytes[31] |= sign;
            assert!(PublicKey::from_bytes(&bytes).is_err(), "{bytes:02x?}");
        }
    }
}

#[test]
fn a_key_has_one_spelling() {
    let good = key(7).public().to_jwk();
    assert!(PublicKey::from_jwk(good.as_bytes()).is_ok());
    for bent in [
        good.replace(",\"kty\"", ", \"kty\""),
        good.replace("\"x\":\"", "\"x\":\"A"),
        good.replace("Ed25519", "X25519"),
        good.replace("OKP", "EC"),
        good.replace('}', ",\"use\":\"sig\"}"),
        format!("{good}\n"),
        String::new(),
    ] {
        assert!(PublicKey::from_jwk(bent.as_bytes()).is_err(), "{bent}");
    }
    let secret = key(7).to_jwk();
    assert!(PublicKey::from_jwk(secret.as_bytes()).is_err(), "a secret is not taken for a public key");
    let other = secret.replace(&good[good.find("\"x\"").unwrap()..], &key(8).public().to_jwk()[24..]);
    let error = SecretKey::from_jwk(other.as_bytes()).unwrap_err().to_string();
    assert!(!error.contains(&secret[23..60]), "nothing secret is told: {error}");
}

fn certificate() -> Certificate {
    Certificate {
        key: *key(7).public(),
        device: "Tablet 3".into(),
        firm: "Invented Remodeling".into(),
        serial: 4,
        not_before: at("2026-01-01T00:00:00Z"),
        not_after: at("2028-01-01T00:00:00Z"),
    }
}

#[test]
fn a_record_reads_back_and_is_never_taken_for_one_of_another_kind() {
    let office = key(1);
    let signed = Signed::new(certificate(), &office).unwrap();
    let read = Signed::<Certificate>::read(&format!("{}\n", signed.text())).unwrap();
    assert_eq!(read, signed);
    assert_eq!(read.by_key(office.public()), Ok(&certificate()));
    assert_eq!(read.by_firm(&FirmKeys::new([*key(2).public(), *office.public()])), Ok(&certificate()));
    let stranger = read.by_firm(&FirmKeys::new([*key(2).public()]));
    assert!(matches!(stranger, Err(KeyError::NotTheFirms(_))), "{stranger:?}");
    assert!(matches!(Signed::<Receipt>::read(signed.text()), Err(KeyError::Kind { .. })));
    assert!(matches!(verify_seal(signed.text(), MANIFEST, office.public()), Err(KeyError::Shape)));
}

#[test]
fn every_flipped_bit_of_a_certificate_is_refused() {
    let office = key(1);
    let text = Signed::new(certificate(), &office).unwrap().text().to_owned();
    for bit in 0..text.len() * 8 {
        let mut bytes = text.clone().into_bytes();
        bytes[bit / 8] ^= 1 << (bit % 8);
        let Ok(bent) = String::from_utf8(bytes) else { continue };
        let held = Signed::<Certificate>::read(&bent).is_ok_and(|c| c.by_key(office.public()).is_ok());
        assert!(!held, "bit {bit}");
    }
}

#[test]
fn a_record_that_makes_no_sense_is_not_signed() {
    for bent in [
        Certificate { serial: 0, ..certificate() },
        Certificate { firm: " ".into(), ..certificate() },
        Certificate { device: "a\nb".into(), ..certificate() },
        Certificate { device: "x".repeat(121), ..certificate() },
        Certificate { not_after: at("2025-01-01T00:00:00Z"), ..certificate() },
    ] {
        let refused = Signed::new(bent.clone(), &key(1));
        assert!(matches!(refused, Err(KeyError::Contents(_))), "{bent:?}");
    }
}

#[test]
fn a_request_is_signed_by_the_key_it_names() {
    let request = Request::of("Tablet 3", at("2026-02-01T08:00:00Z"), &key(7)).unwrap();
    assert_eq!(Request::read(request.text()).unwrap().key, *key(7).public());
    // Somebody else's public key under one's own signature.
    let stolen = Request { key: *key(8).public(), device: "Tablet 3".into(), at: at("2026-02-01T08:00:00Z") };
    let stolen = Signed::new(stolen, &key(7)).unwrap();
    assert!(matches!(Request::read(stolen.text()), Err(KeyError::Kid { .. })));
}

#[test]
fn the_firms_file_reads_back_and_an_empty_or_secret_one_is_refused() {
    let keys = FirmKeys::new([*key(1).public(), *key(2).public(), *key(1).public()]);
    assert_eq!(keys.keys().len(), 2);
    assert_eq!(FirmKeys::read(keys.to_text().as_bytes()).unwrap(), keys);
    let one = format!("{}\n", key(1).public().to_jwk());
    assert_eq!(FirmKeys::read(one.as_bytes()).unwrap(), FirmKeys::new([*key(1).public()]));
    for bent in ["", "{}", "{\"keys\":[]}", "{\"keys\":[{}]}", &key(1).to_jwk()] {
        assert!(FirmKeys::read(bent.as_bytes()).is_err(), "{bent}");
    }
}
