//! `underlath catalog publish` and `underlath catalog fetch`: the firm's numbers on their way from office to tablets.

use actions::{Clock as _, Error, Kept};
use office::learning::Hand;
use views::link_shape::TakenView;
use words::msg;

use super::Room;
use super::shelf::FirmShelf;
use crate::args::CatalogPublish;
use crate::fail;
use crate::out::Out;
use crate::world::{SystemClock, person};

pub fn publish(args: &CatalogPublish, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let shelf = FirmShelf::new(room, None)?;
    let by = person(room.args.by.clone())?;
    let hand = Hand { by: &by, now: SystemClock.now() };
    let version = room.office()?.publish(&shelf, args.again, hand).map_err(fail::office)?;
    if out.json() {
        out.value(&version);
        return Ok(());
    }
    let (number, files) = (version.number, version.files.len());
    out.tell(msg!("publish-done", number = number, files = files, houses = version.houses.len()));
    out.line(format!("  {}", version.becomes));
    Ok(())
}

pub fn fetch(room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let given = room.catalog_is_named();
    let mut desk = room.desk()?;
    let new = commands::fetch((&mut desk, &mut Kept::default(), given), SystemClock.now())?;
    let link = actions::office(&desk, given)?;
    if out.json() {
        out.value(&serde_json::json!({ "new": new, "catalog": link.catalog }));
        return Ok(());
    }
    if !new {
        out.tell(msg!("fetch-nothing"));
    }
    told(link.catalog.as_ref(), out);
    Ok(())
}

/// The catalog that was taken from the office, in a line or two.
pub fn told(taken: Option<&TakenView>, out: &mut Out) {
    let Some(TakenView { version, since, unused }) = taken else {
        out.tell(msg!("fetch-none"));
        return;
    };
    let (by, at, houses) = (&version.by, &version.at, version.houses);
    out.tell(msg!("fetch-here", number = version.number, since = since, by = by, at = at, houses = houses));
    if let Some(unused) = unused {
        out.tell_in(2, msg!("fetch-unused", why = unused));
    }
}
