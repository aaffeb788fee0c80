//! `underlath receive`.

use actions::{Clock as _, Error};

use super::Room;
use crate::args::PacketFile;
use crate::fail;
use crate::out::Out;
use crate::world::SystemClock;

pub fn run(args: &PacketFile, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    if !args.file.exists() {
        return Err(actions::Error::new(
            actions::Kind::Missing,
            format!("there is no file {}", args.file.display()),
        )
        .hint("check the path; nothing was received"));
    }
    if !args.file.is_file() {
        return Err(actions::Error::new(
            actions::Kind::Input,
            format!("{} is not a file", args.file.display()),
        ));
    }
    let mut office = room.office()?;
    let receipt = office.receive(&args.file, SystemClock.now()).map_err(fail::office)?;
    if out.json() {
        out.value(&receipt);
        return Ok(());
    }
    let when = if receipt.first_time { "received" } else { "was already received" };
    out.line(format!("{}  packet {} {when} {}", receipt.label, receipt.number, receipt.received_at));
    out.line(format!("sha256  {}", receipt.digest));
    Ok(())
}
