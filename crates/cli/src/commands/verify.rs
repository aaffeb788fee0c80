//! `underlath verify`: byte by byte, then whose seal it is and what the office says of that key.

use std::path::Path;

use actions::{Error, Kind, fault_said, write_new};
use keys::{Claim, Evidence, Fault, FirmKeys, Record, Said, SealedBy, Signed, judge};
use survey::Stamp;
use survey::log::Body;
use words::{Arg, Message, msg};

use super::keys::read;
use crate::args::Verify;
use crate::out::Out;

pub fn run(args: &Verify, out: &mut Out) -> Result<(), Error> {
    let packet = packet::open(&args.file).map_err(|e| {
        let missing = !args.file.exists();
        let kind = if missing { Kind::Missing } else { Kind::Damaged };
        let path = args.file.display().to_string();
        Error::new(kind, msg!("error-verify", path = path, said = e.to_string()))
            .hint(actions::packet_hint(&e))
    })?;
    let evidence = Evidence {
        firm: args.firm.as_deref().map(firm).transpose()?,
        receipt: args.receipt.as_deref().map(signed).transpose()?,
        revocations: args.revoked.as_deref().map(signed).transpose()?,
    };
    let sealed = packet.sealed_by();
    let claims = judge(sealed, &evidence);
    let failed: Vec<&Fault> = claims.iter().filter_map(|(_, said)| fault(said)).collect();
    if out.json() {
        out.value(&serde_json::json!({
            "whole": true,
            "sha256": packet.digest(),
            "bytes": packet.bytes(),
            "packet": packet.info(),
            "seal": {
                "key": sealed.key,
                "sealed_at": sealed.sealed_at,
                "certificate": sealed.certificate.as_ref().map(|signed| signed.claimed()),
                "receipt": evidence.receipt.as_ref().map(|signed| signed.claimed()),
                "revocations": evidence.revocations.as_ref().map(|list| list.claimed().number),
                "claims": claims.iter().map(|(claim, said)| outcome(*claim, said)).collect::<Vec<_>>(),
                "holds": failed.is_empty(),
                // "holds" means that nothing failed; what nobody could check did not.
                "unchecked": claims
                    .iter()
                    .filter(|(_, said)| matches!(said, Said::NotChecked))
                    .map(|(claim, _)| claim)
                    .collect::<Vec<_>>(),
            },
            "household": packet.household(),
        }));
    } else {
        tell(args, &packet, out);
        let lines: Vec<Message> =
            claims.iter().map(|(claim, said)| line(*claim, said, sealed, &evidence)).collect();
        out.tell_in(2, msg!("verify-key", key = sealed.key.to_string()));
        lines.into_iter().for_each(|line| out.tell_in(2, line));
    }
    if let (Some(into), household) = (&args.signature, packet.household()) {
        let signature = household.ok_or_else(|| {
            Error::new(Kind::Missing, msg!("error-not-signed", path = args.file.display().to_string()))
        })?;
        write_new(into, signature.svg().as_bytes())?;
    }
    match failed.first() {
        None => Ok(()),
        Some(first) => {
            let path = args.file.display().to_string();
            let message =
                msg!("error-verify-key", path = path, name = first.name(), said = fault_said(first));
            Err(Error::new(Kind::Conflict, message).hint(msg!("error-packet-seal-mend")))
        }
    }
}

fn firm(path: &Path) -> Result<FirmKeys, Error> {
    FirmKeys::read(read(path)?.as_bytes()).map_err(|e| named(path, &e))
}

fn signed<T: Record>(path: &Path) -> Result<Signed<T>, Error> {
    Signed::read(&read(path)?).map_err(|e| named(path, &e))
}

fn named(path: &Path, e: &keys::KeyError) -> Error {
    let path = path.display().to_string();
    Error::new(Kind::Input, msg!("error-key-file", path = path, said = actions::key_said(e)))
}

fn fault(said: &Said) -> Option<&Fault> {
    match said {
        Said::Fails(fault) => Some(fault),
        _ => None,
    }
}

fn outcome(claim: Claim, said: &Said) -> serde_json::Value {
    let outcome = match said {
        Said::Holds => "holds",
        Said::Fails(_) => "fails",
        Said::NotChecked => "not-checked",
    };
    serde_json::json!({ "claim": claim, "outcome": outcome, "reason": fault(said).map(Fault::name) })
}

/// One claim in plain words.
fn line(claim: Claim, said: &Said, sealed: &SealedBy, evidence: &Evidence) -> Message {
    let certificate = sealed.certificate.as_ref().map(|signed| signed.claimed());
    match (claim, said) {
        (_, Said::Fails(fault)) => msg!("verify-fails", said = fault_said(fault)),
        (Claim::Certified, Said::NotChecked) => match certificate {
            Some(c) => msg!("verify-certified-open", firm = &c.firm, serial = c.serial.to_string()),
            None => msg!("verify-no-firm"),
        },
        (Claim::Valid, Said::NotChecked) => msg!("verify-valid-open"),
        (Claim::Received, Said::NotChecked) => msg!("verify-received-open"),
        (Claim::NotRevoked, Said::NotChecked) => msg!("verify-revoked-open"),
        (Claim::Certified, Said::Holds) => {
            let (firm, device) = certificate.map(|c| (c.firm.clone(), c.device.clone())).unwrap_or_default();
            let serial = sealed.serial().unwrap_or_default().to_string();
            msg!("verify-certified", firm = firm, serial = serial, device = device)
        }
        (Claim::Valid, Said::Holds) => {
            let until = moment(certificate.map(|c| c.not_after));
            msg!("verify-valid", when = sealed.sealed_at, until = until)
        }
        (Claim::Received, Said::Holds) => {
            let when = evidence.receipt.as_ref().map(|signed| signed.claimed().received_at);
            msg!("verify-received", when = moment(when))
        }
        (Claim::NotRevoked, Said::Holds) => {
            let list = evidence.revocations.as_ref().map(|signed| signed.claimed());
            let number = list.map(|list| list.number.to_string()).unwrap_or_default();
            msg!("verify-not-revoked", number = number, issued = moment(list.map(|list| list.issued_at)))
        }
    }
}

/// A moment as the language says it; nothing where there is none.
fn moment(at: Option<Stamp>) -> Arg {
    at.map_or_else(|| Arg::from(String::new()), Arg::from)
}

fn tell(args: &Verify, packet: &packet::Packet, out: &mut Out) {
    let info = packet.info();
    let photos = packet.entries().iter().filter(|e| matches!(e.body, Body::Photo(_))).count();
    out.tell(msg!("verify-whole", path = args.file.display().to_string()));
    let line = |name: Message, said: Message| vec![out.say(&name), out.say(&said)];
    let (number, sum) = (info.number.to_string(), info.assessment.short());
    let rows = [
        line(msg!("verify-sum"), msg!("as-it-is", text = packet.digest().to_string())),
        line(msg!("verify-house"), msg!("verify-packet", label = &info.label, number = number)),
        line(msg!("verify-sealed"), msg!("verify-by", when = info.sealed_at, by = &info.software)),
        line(msg!("verify-holds"), msg!("verify-held", n = info.entries, photos = photos, sum = sum)),
    ];
    out.table(&rows);
    if let Some(signed) = packet.household() {
        let page = signed.page.trim_start_matches("pages/").to_owned();
        out.tell_in(2, msg!("verify-household", name = &signed.name, page = page, when = signed.signed_at));
    }
}
