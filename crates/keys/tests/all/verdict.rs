//! What seal, certificate, receipt and revocation list prove together: one table.

use keys::{
    Certificate, Claim, Evidence, Fault, FirmKeys, Receipt, Revocations, Revoked, Said, SealedBy, SecretKey,
    Signed, Signer as _, judge,
};
use survey::Digest;

use crate::{at, key};

const DEVICE: u8 = 7;
const OFFICE: u8 = 1;
const STRANGER: u8 = 2;

fn certificate(device: u8, office: u8) -> Signed<Certificate> {
    let certificate = Certificate {
        key: *key(device).public(),
        device: "Tablet 3".into(),
        firm: "Invented Remodeling".into(),
        serial: 4,
        not_before: at("2026-01-01T00:00:00Z"),
        not_after: at("2027-12-31T23:59:59Z"),
    };
    Signed::new(certificate, &key(office)).unwrap()
}

fn sealed(certificate: Option<Signed<Certificate>>, when: &str) -> SealedBy {
    SealedBy {
        packet: Digest::of(b"packet"),
        key: key(DEVICE).public().thumbprint(),
        sealed_at: at(when),
        certificate,
    }
}

fn receipt(packet: &[u8], when: &str, revocations: u64, office: u8) -> Signed<Receipt> {
    let receipt = Receipt {
        packet: Digest::of(packet),
        received_at: at(when),
        firm: "Invented Remodeling".into(),
        revocations,
    };
    Signed::new(receipt, &key(office)).unwrap()
}

fn revoked(number: u64, lines: &[(Option<u64>, Option<u8>, &str)], office: u8) -> Signed<Revocations> {
    let line = |(serial, device, since): &(Option<u64>, Option<u8>, &str)| Revoked {
        serial: *serial,
        key: device.map(|n| key(n).public().thumbprint()),
        since: at(since),
        why: "stolen from the van".into(),
    };
    let list = Revocations {
        number,
        issued_at: at("2026-07-01T00:00:00Z"),
        revoked: lines.iter().map(line).collect(),
    };
    Signed::new(list, &key(office)).unwrap()
}

fn firm(keys: &[u8]) -> FirmKeys {
    FirmKeys::new(keys.iter().map(|n| *SecretKey::public(&key(*n))))
}

/// The names of what fails, and what was not checked.
fn outcome(sealed: &SealedBy, evidence: &Evidence) -> (Vec<&'static str>, Vec<Claim>) {
    let all = judge(sealed, evidence);
    let failed = all.iter().filter_map(|(_, said)| match said {
        Said::Fails(fault) => Some(fault.name()),
        _ => None,
    });
    let open = all.iter().filter(|(_, said)| *said == Said::NotChecked).map(|(claim, _)| *claim);
    (failed.collect(), open.collect())
}

const MAY: &str = "2026-05-04T10:00:00-05:00";

#[test]
fn without_the_firms_keys_nothing_of_the_office_can_be_said() {
    let packet = sealed(Some(certificate(DEVICE, OFFICE)), MAY);
    let evidence =
        Evidence { firm: None, receipt: Some(receipt(b"packet", MAY, 0, OFFICE)), revocations: None };
    assert_eq!(outcome(&packet, &evidence).1.len(), 4);
}

#[test]
fn a_packet_with_all_its_papers_holds_in_every_claim() {
    let evidence = Evidence {
        firm: Some(firm(&[STRANGER, OFFICE])),
        receipt: Some(receipt(b"packet", "2026-05-05T09:00:00Z", 1, OFFICE)),
        revocations: Some(revoked(3, &[(Some(5), None, "2026-01-01T00:00:00Z")], OFFICE)),
    };
    let packet = sealed(Some(certificate(DEVICE, OFFICE)), MAY);
    assert_eq!(outcome(&packet, &evidence), (vec![], vec![]));
}

#[test]
fn certificates_that_are_missing_strange_early_or_expired_are_named() {
    let by = Evidence { firm: Some(firm(&[OFFICE])), ..Evidence::default() };
    let rest = vec![Claim::Received, Claim::NotRevoked];
    let unsure = vec![Claim::Valid, Claim::Received, Claim::NotRevoked];
    for (packet, fault, open) in [
        (sealed(None, MAY), "no-certificate", &unsure),
        (sealed(Some(certificate(DEVICE, STRANGER)), MAY), "certificate-not-the-firms", &unsure),
        // Of another device, though by the right office.
        (sealed(Some(certificate(9, OFFICE)), MAY), "certificate-not-the-firms", &unsure),
        (
            sealed(Some(certificate(DEVICE, OFFICE)), "2025-12-30T23:59:59Z"),
            "certificate-not-yet-valid",
            &rest,
        ),
        (sealed(Some(certificate(DEVICE, OFFICE)), "2028-01-01T00:00:00Z"), "certificate-expired", &rest),
        // The same moment as the end, told in another zone, is within it.
        (
            sealed(Some(certificate(DEVICE, OFFICE)), "2027-12-31T18:00:00-06:00"),
            "certificate-expired",
            &rest,
        ),
    ] {
        assert_eq!(outcome(&packet, &by), (vec![fault], open.clone()), "{packet:?}");
    }
    // The last second, and one by a clock that is a few minutes behind the office's.
    for within in ["2027-12-31T17:59:59-06:00", "2025-12-31T23:55:00Z"] {
        let within = sealed(Some(certificate(DEVICE, OFFICE)), within);
        assert_eq!(outcome(&within, &by).0, Vec::<&str>::new());
    }
}

#[test]
fn a_receipt_counts_for_its_packet_and_from_its_office_only() {
    let packet = sealed(Some(certificate(DEVICE, OFFICE)), MAY);
    for (receipt, fault) in [
        (receipt(b"another", MAY, 0, OFFICE), vec!["receipt-of-another-packet"]),
        (receipt(b"packet", MAY, 0, STRANGER), vec!["receipt-not-the-firms"]),
        (receipt(b"packet", "2026-05-01T00:00:00Z", 0, OFFICE), vec!["received-before-sealed"]),
        // Clocks a few hours apart are no lie.
        (receipt(b"packet", "2026-05-04T10:00:00Z", 0, OFFICE), vec![]),
    ] {
        let evidence =
            Evidence { firm: Some(firm(&[OFFICE])), receipt: Some(receipt), ..Evidence::default() };
        assert_eq!(outcome(&packet, &evidence).0, fault);
    }
}

#[test]
fn a_revoked_key_counts_only_where_the_office_had_the_packet_before() {
    let packet = sealed(Some(certificate(DEVICE, OFFICE)), MAY);
    let june = revoked(2, &[(Some(4), None, "2026-06-01T00:00:00Z")], OFFICE);
    let april = revoked(2, &[(None, Some(DEVICE), "2026-04-01T00:00:00Z")], OFFICE);
    let both = revoked(
        2,
        &[(Some(4), None, "2026-06-01T00:00:00Z"), (None, Some(DEVICE), "2026-04-01T00:00:00Z")],
        OFFICE,
    );
    let early = || Some(receipt(b"packet", "2026-05-05T00:00:00Z", 1, OFFICE));
    let late = || Some(receipt(b"packet", "2026-06-02T00:00:00Z", 1, OFFICE));
    for (receipt, list, fault) in [
        (early(), &june, vec![]),
        (late(), &june, vec!["revoked"]),
        (None, &june, vec!["revoked-unproven"]),
        (None, &april, vec!["revoked"]),
        (early(), &april, vec!["revoked"]),
        (early(), &both, vec!["revoked"]),
        (None, &revoked(2, &[(Some(5), Some(9), "2026-04-01T00:00:00Z"); 0], OFFICE), vec![]),
        (None, &revoked(2, &[(None, Some(9), "2026-04-01T00:00:00Z")], OFFICE), vec![]),
        (
            None,
            &revoked(2, &[(Some(4), None, "2026-04-01T00:00:00Z")], STRANGER),
            vec!["revocations-not-the-firms"],
        ),
        // The office had list 5 then; an older one may lack the line that matters.
        (Some(self::receipt(b"packet", MAY, 5, OFFICE)), &june, vec!["revocations-too-old"]),
        // A receipt that does not count shows nothing.
        (
            Some(self::receipt(b"packet", MAY, 1, STRANGER)),
            &june,
            vec!["receipt-not-the-firms", "revoked-unproven"],
        ),
    ] {
        let evidence = Evidence { firm: Some(firm(&[OFFICE])), receipt, revocations: Some(list.clone()) };
        assert_eq!(outcome(&packet, &evidence).0, fault, "{:?}", list.claimed());
    }
}

#[test]
fn a_list_from_before_the_sealing_says_nothing_without_a_receipt() {
    let later = sealed(Some(certificate(DEVICE, OFFICE)), "2026-08-01T00:00:00Z");
    let july = revoked(2, &[(Some(5), None, "2026-06-01T00:00:00Z")], OFFICE);
    let by = |receipt| Evidence { firm: Some(firm(&[OFFICE])), receipt, revocations: Some(july.clone()) };
    assert_eq!(outcome(&later, &by(None)).1, [Claim::Received, Claim::NotRevoked]);
    let receipt = receipt(b"packet", "2026-08-02T00:00:00Z", 2, OFFICE);
    assert_eq!(outcome(&later, &by(Some(receipt))), (vec![], vec![]));
}

#[test]
fn after_the_office_changed_its_key_old_packets_still_hold_and_a_key_taken_out_does_not() {
    let packet = sealed(Some(certificate(DEVICE, OFFICE)), MAY);
    let new = 3;
    let evidence = |keys: &[u8]| Evidence {
        firm: Some(firm(keys)),
        receipt: Some(receipt(b"packet", MAY, 0, OFFICE)),
        revocations: Some(revoked(1, &[], new)),
    };
    assert_eq!(outcome(&packet, &evidence(&[OFFICE, new])), (vec![], vec![]));
    let without = outcome(&packet, &evidence(&[new])).0;
    assert_eq!(without, ["certificate-not-the-firms", "receipt-not-the-firms"]);
}

#[test]
fn every_fault_has_its_own_name() {
    let e = keys::KeyError::Shape;
    let (since, why) = (at(MAY), String::new());
    let all = [
        Fault::NoCertificate,
        Fault::NotTheFirms(e.clone()),
        Fault::TooEarly(since),
        Fault::Expired(since),
        Fault::ReceiptNotTheFirms(e.clone()),
        Fault::ReceiptOfAnother(Digest::of(b"")),
        Fault::ReceivedBeforeSealed(since),
        Fault::ListNotTheFirms(e),
        Fault::ListTooOld { number: 1, then: 2 },
        Fault::Revoked { since, why: why.clone() },
        Fault::RevokedUnproven { since, why },
    ];
    let mut names: Vec<&str> = all.iter().map(Fault::name).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all.len());
}
