//! `underlath place`.

use actions::{Error, Kind, PlaceCard, Placed, add_place, name_place, places, take_out_place};

use words::{Words, msg};

use super::Room;
use super::show::answers;
use crate::args::Place;
use crate::out::Out;

pub fn run(args: &Place, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let Some(which) = args.which.as_deref() else {
        if args.remove || args.label.is_some() {
            return Err(
                Error::new(Kind::Input, msg!("error-which-place")).hint(msg!("error-which-place-hint"))
            );
        }
        let list = places(&desk, survey)?;
        if out.json() {
            out.value(&list.iter().map(json).collect::<Vec<_>>());
        } else {
            let words = out.words();
            out.table(&list.iter().map(|card| row(words, card)).collect::<Vec<_>>());
        }
        return Ok(());
    };
    let mut kit = room.kit()?;
    let placed = match (&args.name, &args.label) {
        _ if args.remove => take_out_place(&mut desk, survey, which, args.reason.as_deref(), &mut kit)?,
        (_, Some(label)) => name_place(&mut desk, survey, which, label, &mut kit)?,
        (Some(name), None) => add_place(&mut desk, survey, which, name, &mut kit)?,
        (None, None) => {
            return Err(Error::new(Kind::Input, msg!("error-place-needs-name", which = which))
                .hint(msg!("error-place-needs-name-hint")));
        }
    };
    if out.json() {
        out.value(
            &serde_json::json!({ "place": json(&placed.card), "again": placed.again, "entry": placed.entry }),
        );
    } else {
        let line = told(out.words(), &placed);
        out.line(line);
    }
    Ok(())
}

fn told(words: &Words, Placed { card, again, .. }: &Placed) -> String {
    let label = card.label.as_deref().unwrap_or_default();
    let kept = match (card.there, again, card.answers) {
        (false, _, n) => Some(msg!("place-taken-out", answers = answers(n))),
        (true, true, n) if n > 0 => Some(msg!("place-again", answers = answers(n))),
        _ => None,
    };
    let kept = kept.map(|kept| format!("  ({})", words.say(&kept))).unwrap_or_default();
    format!("{}  {label}{kept}", card.place)
}

fn row(words: &Words, card: &PlaceCard) -> Vec<String> {
    let label = card.label.clone().unwrap_or_else(|| words.say(&msg!("place-not-named")));
    let state = answers(card.answers);
    let state = if card.there { state } else { msg!("place-taken-out", answers = state) };
    vec![card.place.clone(), card.station.clone(), label, words.say(&state)]
}

fn json(card: &PlaceCard) -> serde_json::Value {
    serde_json::json!({
        "id": card.place, "station": card.station, "label": card.label,
        "there": card.there, "answers": card.answers,
    })
}
