//! The packets as they came.

use std::collections::btree_map::Entry;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use keys::{Claim, Fault, Said};
use serde_json::Value;
use survey::{Digest, Stamp, SurveyId};
use views::office_shape::{ArrivalView, InboxView, RefusedView};
use words::{Message, msg};

use super::{Arguments, Call, Nothing, write};
use crate::register::Register;
use crate::watched::{self, SetAside};
use crate::{About, OfficeError, ReceivedPacket, Uncertified};

/// Most files of the watched folder that are listed; the others lie there too.
const MOST_REFUSED: usize = 5;

pub(super) fn inbox(call: &mut Call<'_>, args: Arguments) -> Result<Value, OfficeError> {
    let Nothing {} = args.read()?;
    let packets = lines(call, |one| !call.sight.hides(one.survey))?;
    let houses = packets.iter().map(|p| p.survey.as_str()).collect::<BTreeSet<_>>().len() as u32;
    let (refused, refused_in_all) = refused(call);
    write(&InboxView { packets, houses, refused, refused_in_all })
}

/// What was laid into the watched folder and not taken; and how much of it there is.
fn refused(call: &Call<'_>) -> (Vec<RefusedView>, u32) {
    let Some(dir) = call.watched else { return (Vec::new(), 0) };
    // The name of a file, and why it was refused, may name a house: they are told to whoever sees every house.
    if !call.sight.is_whole() {
        return (Vec::new(), 0);
    }
    // A folder of another machine may be away for days, and what is here must be seen nevertheless.
    let (list, all) = watched::set_aside(dir, MOST_REFUSED).unwrap_or_default();
    let view = |one: SetAside| {
        let at = Stamp::new(one.at, call.now.offset_min()).unwrap_or(call.now);
        RefusedView { name: one.name, at: at.to_string(), why: one.why }
    };
    (list.into_iter().map(view).collect(), u32::try_from(all).unwrap_or(u32::MAX))
}

/// Takes a packet in and gives its line of the inbox.
///
/// # Errors
/// As [`crate::Desk::receive`].
pub fn received(call: &mut Call<'_>, path: &Path) -> Result<ArrivalView, OfficeError> {
    let receipt = call.desk.receive(path, call.now, Uncertified::Refuse)?;
    let line = arrival(call, receipt.digest)?;
    Ok(ArrivalView { first_time: Some(receipt.first_time), ..line })
}

/// The line of one packet.
///
/// # Errors
/// A packet that is not here.
pub fn arrival(call: &mut Call<'_>, packet: Digest) -> Result<ArrivalView, OfficeError> {
    let mut there = lines(call, |one| one.digest == packet)?;
    there.pop().ok_or_else(|| OfficeError::NoPacket { packet: packet.to_string() })
}

/// What is the same for all packets of a house.
struct OfHouse {
    entered: BTreeSet<String>,
    judged_by: Option<Digest>,
}

/// Lines of some packets, the last one that came first.
pub(super) fn lines(
    call: &Call<'_>,
    wanted: impl Fn(&ReceivedPacket) -> bool,
) -> Result<Vec<ArrivalView>, OfficeError> {
    let register = call.desk.register()?;
    let mut houses: BTreeMap<SurveyId, OfHouse> = BTreeMap::new();
    let mut lines = Vec::new();
    for one in call.desk.packets()?.iter().rev().filter(|one| wanted(one)) {
        let house = match houses.entry(one.survey) {
            Entry::Occupied(there) => there.into_mut(),
            Entry::Vacant(none) => none.insert(of_house(call, one.survey)?),
        };
        lines.push(line(call, one, &register, house)?);
    }
    Ok(lines)
}

fn of_house(call: &Call<'_>, survey: SurveyId) -> Result<OfHouse, OfficeError> {
    let entered = call.desk.findings(survey)?.into_iter().map(|f| f.condition).collect();
    let judged_by = call.desk.judged_digest(survey)?;
    Ok(OfHouse { entered, judged_by })
}

fn line(
    call: &Call<'_>,
    one: &ReceivedPacket,
    register: &Register,
    house: &OfHouse,
) -> Result<ArrivalView, OfficeError> {
    let blank = ArrivalView {
        packet: one.digest.to_string(),
        survey: one.survey.to_string(),
        label: one.label.clone(),
        number: one.number,
        received_at: one.received_at.clone(),
        sealed_at: None,
        device: None,
        bytes: 0,
        photos: 0,
        entries: 0,
        seal: String::new(),
        certified: false,
        trouble: None,
        entered: 0,
        conditions: 0,
        judged: false,
        after_demolition: one.after_demolition,
        first_time: None,
    };
    // One that was lost or hurt on this disk must not hide the others.
    let about = match call.desk.about(one.digest) {
        Ok(about) => about,
        Err(e) => {
            let seal = call.words.say(&msg!("office-seal-gone"));
            return Ok(ArrivalView { trouble: Some(e.to_string()), seal, ..blank });
        }
    };
    let (seal, certified) = seal(call, one.digest, &about, register)?;
    let entered = about.conditions.iter().filter(|key| house.entered.contains(*key)).count();
    Ok(ArrivalView {
        sealed_at: Some(about.sealed_at.to_string()),
        device: about.certificate().map(|signed| signed.claimed().device.clone()),
        bytes: about.bytes,
        photos: about.photos.len() as u32,
        entries: about.entries,
        seal: call.words.say(&seal),
        certified,
        entered: entered as u32,
        conditions: about.conditions.len() as u32,
        judged: house.judged_by == Some(about.assessment),
        ..blank
    })
}

/// What the seal is worth. That the packet is whole was held bit by bit when it came in.
fn seal(
    call: &Call<'_>,
    packet: Digest,
    about: &About,
    register: &Register,
) -> Result<(Message, bool), OfficeError> {
    let Some(claims) = call.desk.judged_seal(packet, about, register)? else {
        return Ok((msg!("office-seal-no-key"), false));
    };
    let failed = claims.iter().find_map(|(claim, said)| match said {
        Said::Fails(fault) => Some((*claim, fault)),
        _ => None,
    });
    Ok(match failed {
        None => (msg!("office-seal-holds"), true),
        Some((Claim::Received, _)) => (msg!("office-seal-receipt"), false),
        Some((_, fault)) => (fault_said(fault), false),
    })
}

fn fault_said(fault: &Fault) -> Message {
    match fault {
        Fault::NoCertificate => msg!("office-seal-uncertified"),
        Fault::NotTheFirms(_) => msg!("office-seal-other-firm"),
        Fault::TooEarly(_) | Fault::Expired(_) => msg!("office-seal-not-valid"),
        Fault::Revoked { .. } | Fault::RevokedUnproven { .. } => msg!("office-seal-revoked"),
        Fault::ReceiptNotTheFirms(_)
        | Fault::ReceiptOfAnother(_)
        | Fault::ReceivedBeforeSealed(_)
        | Fault::ListNotTheFirms(_)
        | Fault::ListTooOld { .. } => msg!("office-seal-receipt"),
    }
}
