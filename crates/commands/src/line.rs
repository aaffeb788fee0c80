//! The line to the office: pairing, and packets that go on their way while the screens go on. The socket is `courier::wire`.

use std::collections::BTreeMap;
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

use actions::{Desk, Error, Kept, Kind, Kit, Live, Office, Outgoing, Stamp};
use courier::talk::{Published, Said};
use courier::wire::{self, CarryError, Line, WireError};
use courier::{Next, Over, Sending};
use survey::Digest;
use words::{Words, msg};

/// Pairs this device with the office of a link, under a name, and takes the catalog it published. Waits for the office, at
/// most some fifteen seconds where nobody is there.
///
/// # Errors
/// A text that is no link, an office that does not answer, shows another certificate or refuses.
pub fn pair(
    (desk, walk, given): (&mut Desk, &mut Kept, bool),
    link: &str,
    name: &str,
    kit: &mut Kit<'_>,
) -> Result<(), Error> {
    let link = actions::read_link(link)?;
    let ask = actions::pair_ask(desk, &link, name, kit)?;
    let language = desk.words().language().tag();
    let mut line = Line::new(&link.address, link.fingerprint, None, language).map_err(|e| no_line(&e))?;
    match line.pair(&ask).map_err(|e| no_line(&e))? {
        Ok(answer) => actions::paired(desk, &link, name, &answer, kit)?,
        Err(said) => return Err(refused(said)),
    }
    // Paired it is, whatever becomes of the catalog: why it was not taken is told beside the office.
    let _ = fetch((desk, walk, given), kit.now());
    Ok(())
}

/// Asks the office for the catalog it published last, and takes it. True where it is a new one.
///
/// # Errors
/// A device that is not paired, an office that does not answer or refuses, a catalog that is not taken.
pub fn fetch((desk, walk, given): (&mut Desk, &mut Kept, bool), now: Stamp) -> Result<bool, Error> {
    let (office, language) = (actions::to_office(desk)?, desk.words().language().tag());
    let answer = asked(&office, actions::published_here(desk), language)?;
    let taken = actions::take_published(desk, walk, answer, given, now)?;
    if taken {
        // Asked again, so that the office knows what this device has now; it has it, whatever is answered.
        let _ = asked(&office, actions::published_here(desk), language);
    }
    Ok(taken)
}

/// Lets the office know which catalog this device has now, without waiting for it. Where the line breaks, the next contact
/// says it.
fn confirm(desk: &Desk) {
    let (Ok(office), have) = (actions::to_office(desk), actions::published_here(desk)) else { return };
    let language = desk.words().language().tag();
    let told = std::thread::Builder::new().spawn(move || asked(&office, have, language).is_ok());
    drop(told);
}

/// What the office answers to one that has this catalog.
fn asked(office: &Office, have: Option<Digest>, language: &'static str) -> Result<Option<Published>, Error> {
    let token = Some(office.token.clone());
    let mut line =
        Line::new(&office.address, office.fingerprint, token, language).map_err(|e| no_line(&e))?;
    line.catalog(have).map_err(|e| no_line(&e))?.map_err(refused)
}

/// Carries a packet to the office until it is over, or until `go_on` says no. `go_on` is called after each step, with how
/// long to wait before the next one where there is anything to wait for. None where it was stopped.
///
/// # Errors
/// A packet that was moved away or damaged, or cannot be read.
pub fn carry(
    outgoing: &Outgoing,
    words: &'static Words,
    go_on: &mut dyn FnMut(&Sending, Option<Duration>) -> bool,
) -> Result<Option<Over>, Error> {
    let (mut file, recipe) = outgoing.open()?;
    let office = &outgoing.office;
    let token = Some(office.token.clone());
    let mut line = Line::new(&office.address, office.fingerprint, token, words.language().tag())
        .map_err(|e| no_line(&e))?;
    let mut sending = Sending::new(recipe);
    match wire::carry(&mut line, &mut sending, &mut file, go_on) {
        Ok(()) => Ok(match sending.next() {
            Next::Over(over) => Some(over),
            _ => None,
        }),
        Err(CarryError::Wire(e)) => Err(no_line(&e)),
        Err(CarryError::File(e)) => Err(actions::file_trouble(&outgoing.path, &e)),
    }
}

fn no_line(e: &WireError) -> Error {
    match e {
        WireError::Line(said) => {
            Error::new(Kind::Missing, msg!("error-no-line", said = said)).hint(msg!("error-no-line-hint"))
        }
        WireError::Stranger => {
            Error::new(Kind::Conflict, msg!("error-stranger")).hint(msg!("error-stranger-hint"))
        }
    }
}

/// What the office refused with, in its own words.
fn refused(said: Said) -> Error {
    let kind = match said.kind.as_str() {
        "missing" => Kind::Missing,
        "conflict" | "too-many" | "signed-out" => Kind::Conflict,
        "damaged" => Kind::Damaged,
        "internal" => Kind::Internal,
        _ => Kind::Input,
    };
    let error = Error::new(kind, msg!("error-office-said", said = said.message));
    match said.hint {
        Some(hint) => error.hint(hint),
        None => error,
    }
}

/// Packets on their way, each carried by a thread of its own; ended with whoever holds it.
#[derive(Default)]
pub(crate) struct Post {
    shared: Arc<Shared>,
}

#[derive(Default)]
struct Shared {
    inner: Mutex<Inner>,
    bell: Condvar,
}

#[derive(Default)]
struct Inner {
    live: BTreeMap<Digest, One>,
    ended: Vec<(Outgoing, Over)>,
    /// What an office answered that was asked for its catalog.
    published: Vec<Option<Published>>,
    /// Threads begun before this count was raised end.
    round: u64,
}

struct One {
    round: u64,
    sent: u64,
    waits: Option<String>,
    /// Somebody asked for it again: it waits no longer.
    poked: bool,
}

impl Shared {
    fn inner(&self) -> MutexGuard<'_, Inner> {
        // A thread that died left counts that are shown and nothing else.
        self.inner.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Post {
    /// Begins a packet, or wakes the one that waits.
    pub(crate) fn begin(
        &self,
        outgoing: Outgoing,
        have: Option<Digest>,
        words: &'static Words,
    ) -> Result<(), Error> {
        let (packet, round) = {
            let mut inner = self.shared.inner();
            if let Some(one) = inner.live.get_mut(&outgoing.packet) {
                one.poked = true;
                self.shared.bell.notify_all();
                return Ok(());
            }
            let round = inner.round;
            inner.live.insert(outgoing.packet, One { round, sent: 0, waits: None, poked: false });
            (outgoing.packet, round)
        };
        let shared = Arc::clone(&self.shared);
        let thread = std::thread::Builder::new().spawn(move || {
            let over = match carry(&outgoing, words, &mut |sending, pause| {
                step(&shared, (packet, round), sending, pause, words)
            }) {
                Ok(over) => over,
                Err(e) => Some(Over::Refused(Said {
                    kind: e.kind_word().to_owned(),
                    message: e.say(words),
                    hint: e.say_hint(words),
                })),
            };
            let (office, here) = (outgoing.office.clone(), matches!(over, Some(Over::Acknowledged(_))));
            {
                let mut inner = shared.inner();
                if inner.round != round {
                    return;
                }
                inner.live.remove(&packet);
                inner.ended.extend(over.map(|over| (outgoing, over)));
            }
            // The line holds at this moment; where it breaks, the next contact asks again.
            if here && let Ok(answer) = asked(&office, have, words.language().tag()) {
                let mut inner = shared.inner();
                if inner.round == round {
                    inner.published.push(answer);
                }
            }
        });
        thread.map(drop).map_err(|e| {
            self.shared.inner().live.remove(&packet);
            Error::new(Kind::Internal, msg!("error-internal", said = e.to_string()))
        })
    }

    /// Notes what came of those that ended, and takes the catalog that came along.
    pub(crate) fn settle(
        &self,
        (desk, walk, given): (&mut Desk, &mut Kept, bool),
        now: Stamp,
    ) -> Result<(), Error> {
        let (ended, published) = {
            let mut inner = self.shared.inner();
            (std::mem::take(&mut inner.ended), std::mem::take(&mut inner.published))
        };
        for answer in published {
            // Why one is not taken is kept, and told beside the office.
            if actions::take_published(desk, walk, answer, given, now).unwrap_or_default() {
                confirm(desk);
            }
        }
        // What cannot be noted is asked for again by the next sending: the office answers its receipt as often as it is asked.
        ended.iter().try_for_each(|(outgoing, over)| actions::sent(desk, outgoing, over, now).map(drop))
    }

    /// Those that go on at this moment.
    pub(crate) fn live(&self) -> Vec<Live> {
        let inner = self.shared.inner();
        let one = |(packet, one): (&Digest, &One)| Live {
            packet: *packet,
            sent: one.sent,
            waits: one.waits.clone(),
        };
        inner.live.iter().map(one).collect()
    }

    /// Ends all of them; what the office has stays there.
    pub(crate) fn stop(&self) {
        let mut inner = self.shared.inner();
        inner.round += 1;
        inner.live.clear();
        inner.ended.clear();
        inner.published.clear();
        self.shared.bell.notify_all();
    }
}

impl Drop for Post {
    fn drop(&mut self) {
        self.stop();
    }
}

/// After each step: shows how far it is, waits where there is something to wait for, and says whether to go on.
fn step(
    shared: &Shared,
    (packet, round): (Digest, u64),
    sending: &Sending,
    pause: Option<Duration>,
    words: &Words,
) -> bool {
    let mut inner = shared.inner();
    let goes_on = |inner: &Inner| inner.live.get(&packet).is_some_and(|one| one.round == round);
    let Some(one) = inner.live.get_mut(&packet).filter(|one| one.round == round) else { return false };
    one.sent = sending.sent().max(one.sent);
    let Some(pause) = pause else {
        if sending.trouble().is_none() {
            one.waits = None;
        }
        return true;
    };
    one.waits = sending.trouble().map(|trouble| actions::trouble_said(trouble, words));
    let waits = |inner: &mut Inner| goes_on(inner) && inner.live.get(&packet).is_some_and(|one| !one.poked);
    let (mut inner, _) =
        shared.bell.wait_timeout_while(inner, pause, waits).unwrap_or_else(PoisonError::into_inner);
    if let Some(one) = inner.live.get_mut(&packet) {
        one.poked = false;
    }
    goes_on(&inner)
}
