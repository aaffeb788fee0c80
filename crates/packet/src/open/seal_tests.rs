//! The seal of a packet: whose it is, and what is refused even where the zip and its lists were mended.

use keys::{Certificate, SecretKey, Signed, Signer as _, sign_seal};

use super::tests::refusal;
use crate::bent::{check, mend_tags, pack, unpack};
use crate::sample::{House, house, key};
use crate::{Contents, Sealer, names};

fn certificate(device: &SecretKey) -> Signed<Certificate> {
    let certificate = Certificate {
        key: *device.public(),
        device: "Tablet 3".into(),
        firm: "Invented Remodeling".into(),
        serial: 4,
        not_before: "2026-01-01T00:00:00Z".parse().unwrap(),
        not_after: "2028-01-01T00:00:00Z".parse().unwrap(),
    };
    Signed::new(certificate, &SecretKey::from_random([1; 32]).unwrap()).unwrap()
}

fn certified(house: &House, certificate: &Signed<Certificate>) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    let contents = Contents { sealer: Sealer::Certified(certificate), ..house.contents() };
    crate::seal(&path, &contents, &mut house.photos.clone(), &key()).unwrap();
    std::fs::read(path).unwrap()
}

#[test]
fn a_packet_names_its_key_and_carries_the_certificate_it_was_sealed_under() {
    let house = house();
    let bare = check(&house.packet()).unwrap().sealed;
    assert_eq!((bare.key, &bare.certificate), (key().public().thumbprint(), &None));
    let certificate = certificate(&key());
    let packet = check(&certified(&house, &certificate)).unwrap();
    assert_eq!(packet.sealed.certificate, Some(certificate));
    assert_eq!(packet.sealed.key, key().public().thumbprint());
    assert_eq!(packet.sealed.packet, packet.digest);
    let names: Vec<&str> = packet.members.iter().map(|(name, ..)| name.as_str()).collect();
    assert!(names.contains(&names::CERTIFICATE) && !names.contains(&names::DEVICE_KEY), "{names:?}");
}

#[test]
fn the_seal_is_over_the_last_list_and_listed_nowhere() {
    let (_, files) = unpack(&house().packet());
    let list = &files[names::TAG_MANIFEST_512];
    assert_eq!(files[names::SEAL], sign_seal(list, &key()).unwrap().into_bytes());
    for name in [names::TAG_MANIFEST, names::TAG_MANIFEST_512, names::MANIFEST, names::MANIFEST_512] {
        assert!(!String::from_utf8_lossy(&files[name]).contains("seal.jws"), "{name}");
    }
    assert_eq!(list.split(|b| *b == b'\n').count(), 6, "bag-info, bagit, device and two manifests");
}

/// Bits of the files that carry the seal, with the zip around them made right again.
#[test]
fn every_flipped_bit_of_seal_and_list_is_refused_though_the_zip_was_mended() {
    let (folder, whole) = unpack(&certified(&house(), &certificate(&key())));
    for name in [names::SEAL, names::TAG_MANIFEST_512, names::TAG_MANIFEST, names::CERTIFICATE] {
        for bit in 0..whole[name].len() * 8 {
            let mut files = whole.clone();
            files.get_mut(name).unwrap()[bit / 8] ^= 1 << (bit % 8);
            assert!(check(&pack(&folder, &files)).is_err(), "{name}, bit {bit}");
        }
    }
}

/// As above, but the tag lists too are made right, by somebody without the device's key.
#[test]
fn what_is_changed_by_somebody_without_the_key_breaks_the_seal() {
    let (folder, whole) = unpack(&house().packet());
    let seal = whole[names::SEAL].clone();
    let mut files = whole.clone();
    files.get_mut(names::MANIFEST_512).unwrap()[0] ^= 1;
    mend_tags(&mut files);
    files.insert(names::SEAL.into(), seal);
    let words = refusal(&pack(&folder, &files));
    assert!(words.contains("manifest-sha512.txt") || words.contains("seal.jws"), "{words}");
}

/// A packet with these files in place of its own, the lists mended, and sealed by `signer`.
fn resealed(house: &House, change: &[(&str, Option<String>)], signer: &SecretKey) -> String {
    let (folder, mut files) = unpack(&house.packet());
    for (name, text) in change {
        match text {
            Some(text) => files.insert((*name).to_owned(), text.clone().into_bytes()),
            None => files.remove(*name),
        };
    }
    mend_tags(&mut files);
    let seal = sign_seal(&files[names::TAG_MANIFEST_512], signer).unwrap();
    files.insert(names::SEAL.into(), seal.into_bytes());
    refusal(&pack(&folder, &files))
}

#[test]
fn a_seal_of_another_device_another_certificate_or_both_papers_are_refused() {
    let (house, other) = (house(), SecretKey::from_random([9; 32]).unwrap());
    let text = |signed: &Signed<Certificate>| Some(signed.text().to_owned());
    let words = resealed(&house, &[], &other);
    assert!(words.contains("seal.jws: it names the key"), "{words}");
    // The packet of one device with the certificate of another.
    let swap = [(names::DEVICE_KEY, None), (names::CERTIFICATE, text(&certificate(&other)))];
    let words = resealed(&house, &swap, &key());
    assert!(words.contains("seal.jws: it names the key"), "{words}");
    let both = [(names::CERTIFICATE, text(&certificate(&key())))];
    let words = resealed(&house, &both, &key());
    assert!(words.contains("device.jwk does not belong"), "{words}");
    let neither = [(names::DEVICE_KEY, None)];
    let words = resealed(&house, &neither, &key());
    assert!(words.contains("device.jwk is missing"), "{words}");
    let ended = [
        (names::DEVICE_KEY, None),
        (names::CERTIFICATE, text(&certificate(&key())).map(|text| format!("{text}\n"))),
    ];
    assert!(resealed(&house, &ended, &key()).contains("device.jws"));
    let weak = "{\"crv\":\"Ed25519\",\"kty\":\"OKP\",\"x\":\"AQAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA\"}";
    let words = resealed(&house, &[(names::DEVICE_KEY, Some(weak.to_owned()))], &key());
    assert!(words.contains("device.jwk: this key is one that anybody could sign with"), "{words}");
}

#[test]
fn a_signer_with_another_key_than_the_packet_names_seals_nothing() {
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let other = SecretKey::from_random([9; 32]).unwrap();
    let path = folder.path().join("p.zip");
    let error = crate::seal(&path, &house.contents(), &mut house.photos.clone(), &other).unwrap_err();
    assert!(error.to_string().contains("not the one it had when sealing began"), "{error}");
    assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
}

#[test]
fn a_signer_that_refuses_leaves_no_half_packet() {
    struct Broken(keys::PublicKey, bool);
    impl keys::Signer for Broken {
        fn public(&self) -> &keys::PublicKey {
            &self.0
        }
        fn sign(&self, _: &[u8]) -> Result<[u8; 64], keys::KeyError> {
            if self.1 { Ok([1; 64]) } else { Err(keys::KeyError::Signing("the keeper is locked".into())) }
        }
    }
    let house = house();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("p.zip");
    for (lies, words) in [(false, "the keeper is locked"), (true, "a signature that does not hold")] {
        let broken = Broken(*key().public(), lies);
        let error = crate::seal(&path, &house.contents(), &mut house.photos.clone(), &broken).unwrap_err();
        assert!(error.to_string().contains(words), "{error}");
        assert_eq!(std::fs::read_dir(folder.path()).unwrap().count(), 0);
    }
}
