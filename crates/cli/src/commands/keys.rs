//! `underlath keys`: pairing by files, until devices are paired over a network.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use ::keys::Thumbprint;
use actions::{
    Clock as _, Error, Kind, Random as _, accept_certificate, begin_new, certificate_said, device_key,
    new_device_key, request, write_new,
};
use office::Revocable;
use words::{Message, msg};

use super::Room;
use crate::args::{KeysAccept, KeysCertify, KeysRequest, KeysRevoke, KeysVerb};
use crate::fail;
use crate::out::Out;
use crate::world::SystemClock;

/// No key, certificate or list is longer.
const MOST: u64 = 4 << 20;

pub fn run(verb: &KeysVerb, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    match verb {
        KeysVerb::Show => show(room, out),
        KeysVerb::New => new(room, out),
        KeysVerb::Request(a) => write_request(a, room, out),
        KeysVerb::Accept(a) => accept(a, room, out),
        KeysVerb::Office => office(room, out),
        KeysVerb::NewOffice(a) => {
            let mut office = room.office()?;
            let register =
                office.make_key(a.firm.as_deref(), room.random.thirty_two()).map_err(fail::office)?;
            let key = register.keys.keys().last().map(|key| key.thumbprint().to_string());
            told(
                out,
                &key,
                msg!("keys-office-made", firm = &register.firm, key = key.clone().unwrap_or_default()),
            );
            Ok(())
        }
        KeysVerb::Certify(a) => certify(a, room, out),
        KeysVerb::Revoke(a) => revoke(a, room, out),
        KeysVerb::Public(a) => {
            let register = room.office()?.register().map_err(fail::office)?;
            if register.keys.keys().is_empty() {
                return Err(no_office_key(room)?);
            }
            write_new(&a.into, register.keys.to_text().as_bytes())?;
            let path = a.into.display().to_string();
            told(out, &path, msg!("keys-written", path = &path));
            Ok(())
        }
        KeysVerb::Revoked(a) => {
            let list = room.office()?.register().and_then(|r| r.revocations()).map_err(fail::office)?;
            let list = list.ok_or_else(|| Error::new(Kind::Missing, msg!("error-nothing-revoked")))?;
            write_new(&a.into, format!("{}\n", list.text()).as_bytes())?;
            let path = a.into.display().to_string();
            told(out, &path, msg!("keys-written", path = &path));
            Ok(())
        }
    }
}

/// A text file of keys or signatures.
pub fn read(path: &Path) -> Result<String, Error> {
    let mut text = String::new();
    let read = File::open(path).and_then(|file| file.take(MOST).read_to_string(&mut text));
    read.map_err(|e| fail::file(path, &e))?;
    Ok(text)
}

fn told<T: serde::Serialize>(out: &mut Out, value: &T, message: Message) {
    if out.json() { out.value(value) } else { out.tell(message) }
}

fn no_office_key(room: &Room<'_>) -> Result<Error, Error> {
    Ok(fail::office(office::OfficeError::NoKey { path: room.office()?.secret_place() }))
}

fn show(room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let key = device_key(&room.desk()?)?;
    let thumbprint = key.key.map(|key| key.thumbprint());
    let certificate = key.certificate.map(|signed| signed.claimed().clone());
    if out.json() {
        let firm: Option<Vec<Thumbprint>> =
            key.firm.map(|firm| firm.keys().iter().map(|key| key.thumbprint()).collect());
        out.value(&serde_json::json!({
            "key": thumbprint, "kept": key.kept, "certificate": certificate, "firm_keys": firm,
        }));
        return Ok(());
    }
    let Some(thumbprint) = thumbprint else {
        out.tell(msg!("keys-none"));
        return Ok(());
    };
    out.tell(msg!("keys-device", key = thumbprint.to_string()));
    out.tell(msg!("keys-kept", path = key.kept));
    out.tell(match &certificate {
        Some(certificate) => certificate_said(certificate),
        None => msg!("keys-not-certified"),
    });
    Ok(())
}

fn new(room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let key = new_device_key(&mut desk, &mut room.kit()?)?.thumbprint().to_string();
    told(out, &key, msg!("keys-new", key = &key));
    Ok(())
}

fn write_request(args: &KeysRequest, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let name = match &args.name {
        Some(name) => name.clone(),
        None => desk.store().device_name()?,
    };
    if name.trim().is_empty() {
        return Err(
            Error::new(Kind::Input, msg!("error-device-unnamed")).hint(msg!("error-device-unnamed-hint"))
        );
    }
    let signed = request(&mut desk, &name, &mut room.kit()?)?;
    write_new(&args.into, format!("{}\n", signed.text()).as_bytes())?;
    let (path, key) = (args.into.display().to_string(), signed.kid().to_string());
    told(out, &key, msg!("keys-requested", path = path, key = &key));
    Ok(())
}

fn accept(args: &KeysAccept, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let (certificate, firm) = (read(&args.file)?, read(&args.firm)?);
    let certificate = accept_certificate(&mut room.desk()?, &certificate, &firm)?;
    let line = certificate_said(&certificate);
    told(out, &certificate, line);
    Ok(())
}

fn office(room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let office = room.office()?;
    let register = office.register().map_err(fail::office)?;
    if register.keys.keys().is_empty() {
        return Err(no_office_key(room)?);
    }
    let certificates = register.certificates().map_err(fail::office)?;
    let list = register.revocations().map_err(fail::office)?;
    let list = list.as_ref().map(|list| list.claimed());
    let keys: Vec<Thumbprint> = register.keys.keys().iter().map(|key| key.thumbprint()).collect();
    if out.json() {
        out.value(&serde_json::json!({
            "firm": register.firm, "keys": keys, "kept": office.secret_place(),
            "certificates": certificates, "revocations": list,
        }));
        return Ok(());
    }
    for key in keys {
        out.tell(msg!("keys-office", firm = &register.firm, key = key.to_string()));
    }
    out.tell(msg!("keys-kept", path = office.secret_place()));
    let mut rows = Vec::new();
    for one in &certificates {
        let state = match list.and_then(|list| list.of(one)) {
            Some(revoked) => {
                msg!("keys-row-revoked", since = revoked.since, why = &revoked.why)
            }
            None => msg!("keys-row-until", until = one.not_after),
        };
        rows.push(vec![
            one.serial.to_string(),
            one.device.clone(),
            one.key.thumbprint().to_string(),
            out.say(&state),
        ]);
    }
    out.table(&rows);
    Ok(())
}

fn certify(args: &KeysCertify, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let request = read(&args.request)?;
    let mut office = room.office()?;
    // The file first: a number that was given out is used up.
    let file = begin_new(&args.into)?;
    let signed = office.certify(&request, SystemClock.now(), args.days).map_err(fail::office)?;
    file.write(format!("{}\n", signed.text()).as_bytes())?;
    let one = signed.claimed();
    let (path, key) = (args.into.display().to_string(), one.key.thumbprint().to_string());
    let line = msg!(
        "keys-certificate-given",
        serial = one.serial.to_string(),
        device = &one.device,
        key = key,
        path = path
    );
    told(out, one, line);
    Ok(())
}

fn revoke(args: &KeysRevoke, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let now = SystemClock.now();
    let since = match &args.since {
        Some(text) => {
            text.parse().map_err(|_| Error::new(Kind::Input, msg!("error-no-time", text = text)))?
        }
        None => now,
    };
    let what = match (&args.key, args.serial) {
        (Some(key), _) => Revocable::Key(key.parse().map_err(Error::from)?),
        (None, serial) => Revocable::Serial(serial.unwrap_or_default()),
    };
    let list = room.office()?.revoke(what, since, &args.why, now).map_err(fail::office)?;
    let (number, lines) = (list.claimed().number, list.claimed().revoked.len());
    told(out, list.claimed(), msg!("keys-revoked", number = number.to_string(), n = lines));
    Ok(())
}
