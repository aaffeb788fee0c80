//! `underlath pair`: this device and its office, over the network.

use actions::{Error, Kept, office, unpair};
use views::link_shape::OfficeLink;
use words::msg;

use super::Room;
use crate::args::Pair;
use crate::out::Out;

pub fn run(args: &Pair, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let given = room.catalog_is_named();
    let mut desk = room.desk()?;
    if args.undo {
        unpair(&mut desk)?;
        let link = office(&desk, given)?;
        if out.json() {
            out.value(&link);
        } else {
            out.tell(msg!("pair-undone"));
        }
        return Ok(());
    }
    let Some(link) = &args.link else {
        told(&office(&desk, given)?, out);
        return Ok(());
    };
    let name = match &args.name {
        Some(name) => name.clone(),
        // A name by which people tell tablets apart; the office may give none of its own.
        None => out.words().say(&msg!("pair-device", id = desk.store().device().to_string())),
    };
    let mut kit = room.kit()?;
    commands::pair((&mut desk, &mut Kept::default(), given), link, &name, &mut kit)?;
    told(&office(&desk, given)?, out);
    Ok(())
}

fn told(link: &OfficeLink, out: &mut Out) {
    if out.json() {
        out.value(link);
        return;
    }
    let Some(office) = &link.office else {
        out.tell(msg!("pair-none"));
        return;
    };
    out.tell(msg!("pair-done", firm = &office.firm, address = &office.address, name = &office.device));
    out.tell_in(2, msg!("office-fingerprint", sum = &office.fingerprint));
    if link.catalog.is_some() {
        super::published::told(link.catalog.as_ref(), out);
    }
    if let Some(why) = &link.not_taken {
        out.tell_in(2, msg!("fetch-not-taken", why = why));
    }
}
