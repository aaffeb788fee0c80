//! `underlath order`.

use actions::{Error, Kept, StopCard, Toward, move_stop, order_as_listed, walk_order};
use words::{Words, msg};

use super::Room;
use crate::args::Order;
use crate::out::Out;

pub fn run(args: &Order, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let toward = match (&args.before, &args.after) {
        (Some(other), _) => Some(Toward::Before(other)),
        (None, Some(other)) => Some(Toward::After(other)),
        (None, None) if args.earlier => Some(Toward::Earlier),
        (None, None) if args.later => Some(Toward::Later),
        (None, None) => None,
    };
    let mut kit = room.kit()?;
    let entry = match (args.stop.as_deref(), toward) {
        (Some(stop), Some(toward)) => {
            Some(move_stop(&mut desk, &Kept::default(), survey, (stop, toward), &mut kit)?)
        }
        _ if args.as_listed => Some(order_as_listed(&mut desk, survey, &mut kit)?),
        _ => None,
    };
    let stops = walk_order(&desk, survey)?;
    if out.json() {
        out.value(
            &serde_json::json!({ "stops": stops.iter().map(json).collect::<Vec<_>>(), "entry": entry }),
        );
    } else {
        let words = out.words();
        let rows = stops.iter().enumerate().map(|(at, stop)| row(words, at + 1, stop));
        out.table(&rows.collect::<Vec<_>>());
    }
    Ok(())
}

fn row(words: &Words, at: usize, stop: &StopCard) -> Vec<String> {
    let nothing = || words.say(&msg!("order-nothing-asked"));
    let state = if stop.asked { String::new() } else { nothing() };
    vec![at.to_string(), stop.place.clone(), stop.label.clone(), state]
}

fn json(stop: &StopCard) -> serde_json::Value {
    serde_json::json!({
        "place": stop.place, "station": stop.station, "label": stop.label, "asked": stop.asked,
    })
}
