//! Packets on their way to the office: what is sent, how far it is, and what became of it. Each is kept until the office has
//! acknowledged it, and afterwards too.

use std::fs::File;
use std::path::PathBuf;

use courier::talk::Said;
use courier::{Over, Place, Recipe, Trouble, recipe};
use store::{SendingRow, SendingStands};
use survey::{Digest, Stamp, SurveyId};
use views::link_shape::{Sending, SendingState};
use words::{Message, Words, msg};

use crate::office_link::{Office, to_office};
use crate::{Desk, Error, Kind, file_trouble};

/// A packet to be sent, and where to.
#[derive(Clone)]
pub struct Outgoing {
    /// Its house.
    pub survey: SurveyId,
    /// Its digest.
    pub packet: Digest,
    /// Its length.
    pub bytes: u64,
    /// Where it lies.
    pub path: PathBuf,
    /// Whom it goes to.
    pub office: Office,
}

impl Outgoing {
    /// Opens the packet, compares it bit by bit, and makes its recipe; that takes its time with a large one.
    ///
    /// # Errors
    /// A packet that was moved away or damaged.
    pub fn open(&self) -> Result<(File, Recipe), Error> {
        let path = self.path.display().to_string();
        if !self.path.is_file() {
            return Err(Error::new(Kind::Missing, msg!("error-packet-gone", path = path))
                .hint(msg!("error-packet-gone-hint")));
        }
        let packet = packet::open(&self.path)?;
        if packet.digest() != self.packet {
            return Err(Error::new(Kind::Damaged, msg!("error-packet-changed", path = path))
                .hint(msg!("error-packet-gone-hint")));
        }
        let trouble = |e: std::io::Error| file_trouble(&self.path, &e);
        let mut file = File::open(&self.path).map_err(trouble)?;
        let photos = packet.photo_places().map(|(sha256, at, bytes)| Place { sha256, at, bytes });
        let made = recipe(&mut file, self.packet, self.bytes, photos).map_err(trouble)?;
        Ok((file, made))
    }
}

/// A packet of a house to be sent, by its digest; noted as begun. None where the office has acknowledged it already.
///
/// # Errors
/// A device that is not paired, a packet that is not of this house.
pub fn outgoing(
    desk: &mut Desk,
    survey: SurveyId,
    packet: &str,
    now: Stamp,
) -> Result<Option<Outgoing>, Error> {
    let no_packet = || Error::new(Kind::Missing, msg!("error-no-such-packet", packet = packet));
    let digest: Digest = packet.parse().map_err(|_| no_packet())?;
    let kept = desk.store.packets(survey)?.into_iter().find(|kept| kept.digest == digest);
    let kept = kept.ok_or_else(no_packet)?;
    let stands = |row: &SendingRow| row.packet == digest && row.stands == SendingStands::Acknowledged;
    if desk.store.sendings()?.iter().any(stands) {
        return Ok(None);
    }
    let office = to_office(desk)?;
    let outgoing = Outgoing { survey, packet: digest, bytes: kept.bytes, path: kept.path, office };
    keep(desk, &outgoing, SendingStands::Begun, None, now)?;
    Ok(Some(outgoing))
}

/// Notes how a sending ended, and keeps the receipt beside the packet. Gives how it stands now.
///
/// # Errors
/// A folder or database that cannot be written.
pub fn sent(desk: &mut Desk, outgoing: &Outgoing, over: &Over, now: Stamp) -> Result<SendingStands, Error> {
    let words = desk.words();
    let (stands, said) = match over {
        Over::Acknowledged(receipt) => match crate::accept_receipt(desk, receipt) {
            Ok((receipt, _)) if receipt.packet == outgoing.packet => {
                (SendingStands::Acknowledged, words.say(&acknowledged(&receipt)))
            }
            Ok(_) => (SendingStands::Refused, words.say(&msg!("sending-receipt"))),
            Err(e) if e.kind == Kind::Internal => return Err(e),
            Err(e) => (
                SendingStands::Refused,
                format!("{} ({})", words.say(&msg!("sending-receipt")), e.say(words)),
            ),
        },
        Over::Refused(said) => (SendingStands::Refused, in_words(said, words)),
        Over::Changed => (SendingStands::Refused, words.say(&msg!("sending-changed"))),
    };
    keep(desk, outgoing, stands, Some(said), now)?;
    Ok(stands)
}

fn acknowledged(receipt: &keys::Receipt) -> Message {
    msg!("sending-acknowledged", when = receipt.received_at.minute_text(), firm = receipt.firm.clone())
}

/// What the office said, with how to mend it.
fn in_words(said: &Said, words: &Words) -> String {
    match &said.hint {
        Some(hint) => words.say(&msg!("sending-said", message = said.message.clone(), hint = hint.clone())),
        None => said.message.clone(),
    }
}

/// Why a sending waits, in words.
pub fn trouble_said(trouble: &Trouble, words: &Words) -> String {
    match trouble {
        Trouble::Line => words.say(&msg!("sending-line")),
        Trouble::Office(said) => in_words(said, words),
        Trouble::Strange => words.say(&msg!("sending-strange")),
    }
}

fn keep(
    desk: &mut Desk,
    outgoing: &Outgoing,
    stands: SendingStands,
    said: Option<String>,
    at: Stamp,
) -> Result<(), Error> {
    let Outgoing { packet, survey, bytes, .. } = *outgoing;
    Ok(desk.store.keep_sending(&SendingRow { packet, survey, bytes, stands, said, at })?)
}

/// How far one is that goes on at this moment.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Live {
    /// Its digest.
    pub packet: Digest,
    /// Bytes the office has of it.
    pub sent: u64,
    /// Why it waits; none while it goes on.
    pub waits: Option<String>,
}

/// All packets that were sent or begun to be, for the screens, the last one first.
///
/// # Errors
/// A database that cannot be read.
pub fn sendings(desk: &Desk, live: &[Live]) -> Result<Vec<Sending>, Error> {
    let view = |row: SendingRow| {
        let live = live.iter().find(|live| live.packet == row.packet);
        let state = match (row.stands, live) {
            (SendingStands::Acknowledged, _) => SendingState::Acknowledged,
            (SendingStands::Refused, _) => SendingState::Refused,
            (SendingStands::Begun, Some(Live { waits: None, .. })) => SendingState::Going,
            (SendingStands::Begun, _) => SendingState::Waiting,
        };
        let sent = match state {
            SendingState::Acknowledged => row.bytes,
            _ => live.map_or(0, |live| live.sent),
        };
        Sending {
            packet: row.packet.to_string(),
            survey: row.survey.to_string(),
            bytes: row.bytes,
            sent,
            state,
            said: row.said.or_else(|| live.and_then(|live| live.waits.clone())),
            at: row.at.to_string(),
        }
    };
    Ok(desk.store.sendings()?.into_iter().map(view).collect())
}
