//! `underlath send`: a packet goes to the office.

use actions::{Clock as _, Error, Kept, Kind, outgoing, sendings, sent, trouble_said};
use courier::{Over, Sending};
use words::msg;

use super::Room;
use crate::args::Send;
use crate::out::Out;
use crate::world::SystemClock;

/// How often in a row the line may be down before this gives up; what the office has stays there.
const MOST_TRIES: u32 = 6;

pub fn run(args: &Send, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let given = room.catalog_is_named();
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let kept = desk.store().packets(survey)?;
    let kept = match args.number {
        Some(number) => actions::packet_of(&desk, survey, number)?,
        None => kept.into_iter().next_back().ok_or_else(|| {
            Error::new(Kind::Missing, msg!("error-nothing-sealed")).hint(msg!("error-nothing-sealed-hint"))
        })?,
    };
    let packet = kept.digest;
    let mut new = false;
    if let Some(going) = outgoing(&mut desk, survey, &packet.to_string(), SystemClock.now())? {
        let (words, quiet) = (out.words(), out.json());
        let mut said = None;
        let over = commands::carry(&going, words, &mut |sending: &Sending, pause| {
            let Some(pause) = pause else { return true };
            said = sending.trouble().map(|trouble| trouble_said(trouble, words));
            if sending.tries() > MOST_TRIES {
                return false;
            }
            if !quiet && let Some(said) = &said {
                out.line(said.clone());
            }
            std::thread::sleep(pause);
            true
        })?;
        let over = match over {
            Some(over) => over,
            None => {
                let said = said.unwrap_or_default();
                return Err(Error::new(Kind::Missing, msg!("error-not-sent", said = said))
                    .hint(msg!("error-not-sent-hint")));
            }
        };
        sent(&mut desk, &going, &over, SystemClock.now())?;
        if let Over::Refused(said) = over {
            let error = Error::new(Kind::Conflict, msg!("error-office-said", said = said.message));
            return Err(match said.hint {
                Some(hint) => error.hint(hint),
                None => error,
            });
        }
        // The line holds at this moment; where it breaks, the next contact asks again. Why one is not taken is told below.
        new =
            commands::fetch((&mut desk, &mut Kept::default(), given), SystemClock.now()).unwrap_or_default();
    }
    let all = sendings(&desk, &[])?;
    let Some(one) = all.into_iter().find(|one| one.packet == packet.to_string()) else { return Ok(()) };
    if out.json() {
        out.value(&one);
        return Ok(());
    }
    match one.state {
        views::link_shape::SendingState::Acknowledged => {
            out.tell(msg!("send-done", n = kept.number, said = one.said.unwrap_or_default()));
            let link = actions::office(&desk, given)?;
            if new {
                super::published::told(link.catalog.as_ref(), out);
            }
            if let Some(why) = &link.not_taken {
                out.tell_in(2, msg!("fetch-not-taken", why = why));
            }
            Ok(())
        }
        _ => Err(Error::new(Kind::Conflict, one.said.unwrap_or_default())),
    }
}
