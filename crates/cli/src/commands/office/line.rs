//! The line to the tablets: pairing, packets in pieces, and what the screens ask of both.

use std::net::IpAddr;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use actions::{Clock as _, Error, Kind, Stamp};
use courier::talk::{Begun, PairAsk, Paired};
use courier::{Fingerprint, Link, Recipe, Segment};
use office::arriving::{Arriving, ArrivingError, Elsewhere, Which};
use office::people::{Deed, People, PeopleError, Role, Who};
use office::tablets::{Holds, Tablet, TabletError, TabletId, Tablets};
use office::{Desk, OfficeError, Scanner, Uncertified};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use serde_json::Value;
use server::{Asking, Piece, Refusal, Told};
use survey::Digest;
use views::link_shape::{self, HoldsView};
use words::{Language, Words, msg};

use super::people_said::{outward, said, told};
use super::reception::{PACKET, failed, refused};
use super::tablet_said::{arriving_error, tablet_error};
use crate::fail;
use crate::world::{SystemClock, fill};

/// Tablets, and what comes from them.
pub struct Line {
    tablets: Tablets,
    arriving: Arriving,
    /// For what is quickly done: pairing, revoking, asking whether a packet is here.
    desk: Mutex<Desk>,
    /// Opening a packet takes its time; nobody waits for it but the next packet.
    receiving: Mutex<Desk>,
    /// Where the office is found, without the scheme: name or address, and port.
    address: String,
    fingerprint: Fingerprint,
    words: &'static Words,
    /// Where it is noted what failed.
    people: Arc<People>,
}

/// What the line stands on.
pub struct Ground<'a> {
    pub dir: &'a Path,
    pub address: &'a str,
    pub fingerprint: Fingerprint,
    pub words: &'static Words,
    pub people: Arc<People>,
    /// What looks at packets before they are kept.
    pub scanner: Option<Scanner>,
}

/// Why something is refused, before it is said.
enum No {
    Tablet(TabletError),
    Arriving(ArrivingError),
    Error(Error),
}

impl From<TabletError> for No {
    fn from(e: TabletError) -> Self {
        Self::Tablet(e)
    }
}
impl From<ArrivingError> for No {
    fn from(e: ArrivingError) -> Self {
        Self::Arriving(e)
    }
}
impl From<OfficeError> for No {
    fn from(e: OfficeError) -> Self {
        Self::Error(fail::office_at_door(e))
    }
}
impl From<PeopleError> for No {
    fn from(e: PeopleError) -> Self {
        Self::Tablet(TabletError::People(Box::new(e)))
    }
}
impl From<Error> for No {
    fn from(e: Error) -> Self {
        Self::Error(e)
    }
}

/// The commands of the screens about tablets, each with the least role it takes.
const COMMANDS: [(&str, Role); 4] = [
    ("tablets", Role::Office),
    ("arriving", Role::Estimator),
    ("invite-tablet", Role::Owner),
    ("revoke-tablet", Role::Owner),
];

impl Line {
    /// Opens it; what nobody went on with for long is swept.
    pub fn open(ground: &Ground<'_>) -> Result<Self, Error> {
        let desk = || Desk::open(ground.dir).map_err(fail::office);
        let mut receiving = desk()?;
        receiving.look_with(ground.scanner.clone());
        let line = Self {
            tablets: Tablets::open(ground.dir).map_err(fail::office)?,
            arriving: Arriving::new(ground.dir),
            desk: Mutex::new(desk()?),
            receiving: Mutex::new(receiving),
            address: ground.address.trim_start_matches("https://").to_owned(),
            fingerprint: ground.fingerprint,
            words: ground.words,
            people: Arc::clone(&ground.people),
        };
        line.arriving.sweep(SystemClock.now()).map_err(arriving_error)?;
        Ok(line)
    }

    /// The least role of a command about tablets; none where it is not one of these.
    pub fn least(name: &str) -> Option<Role> {
        COMMANDS.iter().find(|(known, _)| *known == name).map(|(_, least)| *least)
    }

    /// Takes in a packet that lies in a file of this machine, as if it had been dropped on the page. Packets of every way
    /// but the page wait for each other here, so that no two write one file.
    pub fn take_in(&self, file: &Path, now: Stamp) -> Result<office::Receipt, OfficeError> {
        held(&self.receiving).receive(file, now, Uncertified::Refuse)
    }

    /// Answers a command of the screens.
    pub fn ask(
        &self,
        (who, from): (&Who, IpAddr),
        (name, args): (&str, Value),
        now: Stamp,
        words: &Words,
    ) -> Result<Value, Refusal> {
        let answered = match name {
            "tablets" => read::<Nothing>(name, args).and_then(|_| self.list()),
            "arriving" => read::<Nothing>(name, args).and_then(|_| self.underway(who)),
            "invite-tablet" => read(name, args).and_then(|args| self.invite(who, from, args, now)),
            _ => read(name, args).and_then(|args| self.revoke(who, from, &args, now)),
        };
        answered.map_err(|no| self.no(no, name, from, words))
    }

    /// A refusal as it goes out; what failed inside the office is noted, and told without its reason.
    fn no(&self, no: No, asked: &str, from: IpAddr, words: &Words) -> Refusal {
        let came = asked == PACKET && !matches!(no, No::Tablet(_));
        outward(refusal(no, words), came, words, |why| {
            failed(&self.people, asked, why, from, SystemClock.now());
        })
    }

    fn list(&self) -> Result<Value, No> {
        let small = |number: u64| u32::try_from(number).unwrap_or(u32::MAX);
        let row = |(tablet, by): (Tablet, Option<String>)| link_shape::Tablet {
            id: tablet.id.to_string(),
            name: tablet.name,
            key: tablet.key,
            paired_at: tablet.paired_at.to_string(),
            paired_by: by,
            last_seen: tablet.last_seen.map(|at| at.to_string()),
            revoked_at: tablet.revoked_at.map(|at| at.to_string()),
            holds: match tablet.holds {
                None => HoldsView::NotSaid,
                Some(Holds::Nothing) => HoldsView::Nothing,
                Some(Holds::Version(_)) => HoldsView::Version,
                Some(Holds::Another) => HoldsView::Another,
            },
            version: match tablet.holds {
                Some(Holds::Version(number)) => Some(small(number)),
                _ => None,
            },
            handed: tablet.handed.map(small),
        };
        write(&self.tablets.all()?.into_iter().map(row).collect::<Vec<_>>())
    }

    /// Of which house a packet underway is nobody knows yet: told to whoever sees every house.
    fn underway(&self, who: &Who) -> Result<Value, No> {
        if !self.people.sight(who)?.is_whole() {
            return write::<[link_shape::Arriving; 0]>(&[]);
        }
        let names = self.tablets.all()?;
        let name = |id: TabletId| {
            let known = names.iter().find(|(tablet, _)| tablet.id == id);
            known.map_or_else(|| id.to_string(), |(tablet, _)| tablet.name.clone())
        };
        let row = |one: office::arriving::Underway| link_shape::Arriving {
            packet: one.which.packet.to_string(),
            tablet: name(one.which.tablet),
            bytes: one.bytes,
            have: one.have,
            since: one.since.to_string(),
            last: one.last.to_string(),
        };
        write(&self.arriving.all()?.into_iter().map(row).collect::<Vec<_>>())
    }

    fn invite(&self, who: &Who, from: IpAddr, args: Invite, now: Stamp) -> Result<Value, No> {
        let register = held(&self.desk).register()?;
        let known = if register.firm.is_empty() { self.people.firm()? } else { Some(register.firm) };
        let firm = known.unwrap_or_default();
        let address = args.address.unwrap_or_else(|| self.address.clone());
        let link = |code: String| Link {
            address: address.clone(),
            fingerprint: self.fingerprint,
            code,
            firm: firm.clone(),
        };
        // An address that cannot stand in a link is refused before anything is made for it.
        let readable = link("0".repeat(48)).to_string().parse::<Link>();
        if !firm.is_empty() && readable.is_err() {
            return Err(Error::new(Kind::Input, msg!("tablet-address", address = address)).into());
        }
        // The office certifies the key of whoever it invites.
        if register.keys.keys().is_empty() {
            self.make_key(&firm, who, from, now)?;
        }
        let invited = self.tablets.invite(&held(&self.desk), who, from, now, &mut fill)?;
        let link = link(invited.code).to_string();
        let qr = views::link::qr(&link)
            .ok_or_else(|| Error::new(Kind::Input, msg!("tablet-address", address = address)))?;
        write(&link_shape::Invitation { link, qr, until: invited.until.to_string() })
    }

    /// Makes the first key of the office, and notes it.
    fn make_key(&self, firm: &str, who: &Who, from: IpAddr, now: Stamp) -> Result<(), No> {
        let mut random = [0; 32];
        fill(&mut random);
        let made = held(&self.desk).make_key(Some(firm), random)?;
        let key = made.keys.keys().last().map(|key| key.thumbprint().to_string());
        Ok(self.people.note(who, Deed::KeyMade, key.unwrap_or_default(), from, now)?)
    }

    fn revoke(&self, who: &Who, from: IpAddr, args: &Revoke, now: Stamp) -> Result<Value, No> {
        let id = TabletId::parse(&args.id).ok_or(TabletError::NoSuchTablet)?;
        self.tablets.revoke(&mut held(&self.desk), who, (id, args.key), from, now)?;
        self.list()
    }

    /// The tablet that asks, and in which language.
    fn known(&self, asking: &Asking, now: Stamp) -> Result<Tablet, Refusal> {
        let known = self.tablets.who(asking.token.as_deref(), now);
        known.map_err(|e| self.no(e.into(), "secret", asking.from, self.words(asking)))
    }

    fn words(&self, asking: &Asking) -> &'static Words {
        Language::of_tag(&asking.language).map_or(self.words, Words::of)
    }

    /// Where bytes lie that came with an earlier packet.
    fn finds(&self, digest: Digest) -> Option<Elsewhere> {
        let known = self.tablets.known(digest).ok().flatten()?;
        let file = held(&self.desk).packet_path(known.packet);
        let long_enough = std::fs::metadata(&file).is_ok_and(|meta| meta.len() >= known.at + known.bytes);
        long_enough.then_some(Elsewhere { file, at: known.at, bytes: known.bytes })
    }

    fn begun(&self, tablet: &Tablet, packet: Digest, recipe: &[u8], now: Stamp) -> Result<Value, No> {
        let which = Which { tablet: tablet.id, packet };
        let recipe = Recipe::read(recipe).ok().filter(|recipe| recipe.packet == packet);
        let recipe = recipe.ok_or_else(|| Error::new(Kind::Input, msg!("tablet-recipe")))?;
        let receipt = held(&self.desk).signed_receipt(packet)?;
        if receipt.is_some() {
            self.arriving.forget(which)?;
            return write(&Begun { missing: Vec::new(), receipt });
        }
        let missing = self.arriving.begin(which, &recipe, &mut |digest| self.finds(digest), now)?;
        write(&Begun { missing, receipt: None })
    }

    fn taken(&self, tablet: &Tablet, packet: Digest, (from, now): (IpAddr, Stamp)) -> Result<Told, No> {
        let which = Which { tablet: tablet.id, packet };
        if let Some(receipt) = held(&self.desk).signed_receipt(packet)? {
            self.arriving.forget(which)?;
            return write(&Begun { missing: Vec::new(), receipt: Some(receipt) }).map(Told::Well);
        }
        let mut lost = |digest| {
            let _ = self.tablets.lost(digest); // asked for again either way
        };
        let done = self.arriving.finish(which, &mut |digest| self.finds(digest), &mut lost, |file| {
            Ok::<_, No>(held(&self.receiving).receive(file, now, Uncertified::Refuse)?)
        });
        let receipt = match done {
            Ok(receipt) => receipt,
            Err(No::Arriving(ArrivingError::Missing(missing))) => {
                return write(&Begun { missing, receipt: None }).map(Told::Otherwise);
            }
            Err(No::Error(e)) if matches!(e.kind, Kind::Internal) => return Err(e.into()),
            Err(No::Error(e)) => {
                // It would be refused the next time too; what came of it is not kept.
                self.arriving.forget(which)?;
                let why = format!("{}: {}", tablet.name, e.say(self.words));
                refused(&self.people, None, &why, (e.kind_word(), from), now);
                return Err(e.into());
            }
            Err(other) => return Err(other),
        };
        if receipt.first_time {
            let about = format!("{} {} {}", receipt.label, receipt.number, receipt.digest.short());
            self.tablets.received(tablet, &about, from, now)?;
        }
        let signed = held(&self.desk).signed_receipt(packet)?;
        let Some(signed) = signed else {
            let no_key = OfficeError::NoKey { path: held(&self.desk).secret_place() };
            return Err(no_key.into());
        };
        write(&Begun { missing: Vec::new(), receipt: Some(signed) }).map(Told::Well)
    }
}

impl server::Tablets for Line {
    fn pair(&self, asking: &Asking, ask: Value) -> Result<Value, Refusal> {
        let (words, now) = (self.words(asking), SystemClock.now());
        let paired = read::<PairAsk>("pair", ask).and_then(|ask| {
            let said = (ask.code.as_str(), ask.name.as_str(), ask.request.as_str());
            Ok(self.tablets.pair(&mut held(&self.desk), said, asking.from, now, &mut fill)?)
        });
        let answer = paired.and_then(|paired| {
            write(&Paired {
                token: paired.token,
                firm: paired.firm,
                certificate: paired.certificate,
                firm_key: paired.firm_keys,
                time: now.to_string(),
            })
        });
        answer.map_err(|no| self.no(no, "pair", asking.from, words))
    }

    fn may_send(&self, asking: &Asking) -> Result<(), Refusal> {
        self.known(asking, SystemClock.now()).map(drop)
    }

    fn begin(&self, asking: &Asking, packet: &str, recipe: &[u8]) -> Result<Value, Refusal> {
        let (words, now) = (self.words(asking), SystemClock.now());
        let tablet = self.known(asking, now)?;
        let begun = digest(packet).and_then(|packet| self.begun(&tablet, packet, recipe, now));
        begun.map_err(|no| self.no(no, PACKET, asking.from, words))
    }

    fn piece(&self, asking: &Asking, packet: &str, piece: &Piece<'_>) -> Result<Told, Refusal> {
        let (words, now) = (self.words(asking), SystemClock.now());
        let tablet = self.known(asking, now)?;
        let have = digest(packet).and_then(|packet| {
            let which = Which { tablet: tablet.id, packet };
            let segment = Segment { sha256: digest(piece.segment)?, bytes: piece.of };
            Ok(self.arriving.piece(which, segment, piece.from, piece.bytes)?)
        });
        match have {
            Ok(have) => write(&have).map(Told::Well),
            Err(No::Arriving(ArrivingError::NotNext { have })) => {
                write(&courier::talk::Have { have }).map(Told::Otherwise)
            }
            Err(no) => Err(no),
        }
        .map_err(|no| self.no(no, PACKET, asking.from, words))
    }

    fn finish(&self, asking: &Asking, packet: &str) -> Result<Told, Refusal> {
        let (words, now) = (self.words(asking), SystemClock.now());
        let tablet = self.known(asking, now)?;
        let taken = digest(packet).and_then(|packet| self.taken(&tablet, packet, (asking.from, now)));
        taken.map_err(|no| self.no(no, PACKET, asking.from, words))
    }

    fn catalog(&self, asking: &Asking, have: Option<&str>) -> Result<Told, Refusal> {
        let tablet = self.known(asking, SystemClock.now())?;
        let answer = || {
            let have = have.map(digest).transpose()?;
            match self.tablets.catalog(&tablet, have)? {
                Some(published) => write(&published).map(Told::Well),
                None => Ok(Told::Nothing),
            }
        };
        answer().map_err(|no| self.no(no, "catalog", asking.from, self.words(asking)))
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Nothing {}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Invite {
    #[serde(default)]
    address: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Revoke {
    id: String,
    #[serde(default)]
    key: bool,
}

fn read<T: DeserializeOwned>(command: &str, args: Value) -> Result<T, No> {
    serde_json::from_value(args).map_err(|e| {
        let what = e.to_string().chars().take(160).collect();
        OfficeError::Arguments { command: command.to_owned(), what }.into()
    })
}

fn write<T: Serialize>(value: &T) -> Result<Value, No> {
    serde_json::to_value(value)
        .map_err(|e| Error::new(Kind::Internal, msg!("error-internal", said = e.to_string())).into())
}

fn digest(text: &str) -> Result<Digest, No> {
    text.parse().map_err(|_| Error::new(Kind::Missing, msg!("field-no-page")).into())
}

fn held(desk: &Mutex<Desk>) -> MutexGuard<'_, Desk> {
    // A command that died left nothing half done: what is written is written in transactions.
    desk.lock().unwrap_or_else(PoisonError::into_inner)
}

fn refusal(no: No, words: &Words) -> Refusal {
    match no {
        No::Tablet(TabletError::People(e)) => said(*e, words),
        No::Tablet(e) => tablet_error(e).say(words),
        No::Arriving(ArrivingError::TooMany) => {
            Refusal { kind: "too-many", ..told(&arriving_error(ArrivingError::TooMany), words) }
        }
        No::Arriving(e) => told(&arriving_error(e), words),
        No::Error(e) => told(&e, words),
    }
}
