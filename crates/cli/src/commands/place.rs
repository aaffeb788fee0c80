//! `underlath place`.

use actions::{Error, Kind, PlaceCard, Placed, add_place, name_place, places, take_out_place};

use super::Room;
use super::show::answers;
use crate::args::Place;
use crate::out::Out;

pub fn run(args: &Place, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let Some(which) = args.which.as_deref() else {
        if args.remove || args.label.is_some() {
            return Err(Error::new(Kind::Input, "it is not said which place is meant")
                .hint("name the place: underlath place HOUSE PLACE --label NAME"));
        }
        let list = places(&desk, survey)?;
        if out.json() {
            out.value(&list.iter().map(json).collect::<Vec<_>>());
        } else {
            out.table(&list.iter().map(row).collect::<Vec<_>>());
        }
        return Ok(());
    };
    let mut kit = room.kit()?;
    let placed = match (&args.name, &args.label) {
        _ if args.remove => take_out_place(&mut desk, survey, which, args.reason.as_deref(), &mut kit)?,
        (_, Some(label)) => name_place(&mut desk, survey, which, label, &mut kit)?,
        (Some(name), None) => add_place(&mut desk, survey, which, name, &mut kit)?,
        (None, None) => {
            return Err(Error::new(Kind::Input, format!("one more of “{which}” needs a name"))
                .hint("for example: underlath place HOUSE bulkhead \"Soffit over the refrigerator\""));
        }
    };
    if out.json() {
        out.value(
            &serde_json::json!({ "place": json(&placed.card), "again": placed.again, "entry": placed.entry }),
        );
    } else {
        out.line(told(&placed));
    }
    Ok(())
}

fn told(Placed { card, again, .. }: &Placed) -> String {
    let label = card.label.as_deref().unwrap_or_default();
    let kept = match (card.there, again, card.answers) {
        (false, _, n) => format!("  (taken out; {} kept)", answers(n)),
        (true, true, n) if n > 0 => format!("  (there again, with {})", answers(n)),
        _ => String::new(),
    };
    format!("{}  {label}{kept}", card.place)
}

fn row(card: &PlaceCard) -> Vec<String> {
    let label = card.label.clone().unwrap_or_else(|| "(the first, not named)".to_owned());
    let state =
        if card.there { answers(card.answers) } else { format!("taken out; {} kept", answers(card.answers)) };
    vec![card.place.clone(), card.station.clone(), label, state]
}

fn json(card: &PlaceCard) -> serde_json::Value {
    serde_json::json!({
        "id": card.place, "station": card.station, "label": card.label,
        "there": card.there, "answers": card.answers,
    })
}
