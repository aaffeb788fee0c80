//! `underlath receive`.

use actions::{Clock as _, Error, Kind};
use office::Uncertified;
use words::msg;

use super::Room;
use crate::args::Receive;
use crate::fail;
use crate::out::Out;
use crate::world::SystemClock;

pub fn run(args: &Receive, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    if !args.file.exists() {
        let message = msg!("error-no-file", path = args.file.display().to_string());
        return Err(Error::new(Kind::Missing, message).hint(msg!("error-no-file-hint")));
    }
    if !args.file.is_file() {
        let message = msg!("error-not-a-file", path = args.file.display().to_string());
        return Err(Error::new(Kind::Input, message));
    }
    let mut office = room.office()?;
    let bare = if args.uncertified { Uncertified::Take } else { Uncertified::Refuse };
    let receipt = office.receive(&args.file, SystemClock.now(), bare).map_err(fail::office)?;
    if out.json() {
        out.value(&receipt);
        return Ok(());
    }
    let (label, number, when) = (&receipt.label, receipt.number.to_string(), receipt.received_at.to_string());
    out.tell(if receipt.first_time {
        msg!("receive-done", label = label, number = number, when = when)
    } else {
        msg!("receive-again", label = label, number = number, when = when)
    });
    out.line(format!("sha256  {}", receipt.digest));
    let key = receipt.sealed_by.to_string();
    out.tell_in(
        8,
        match receipt.serial {
            Some(serial) => msg!("receive-certified", key = key, serial = serial.to_string()),
            None => msg!("receive-not-certified", key = key),
        },
    );
    out.tell_in(
        8,
        match &receipt.signed {
            Some(path) => msg!("receive-receipt", path = path.display().to_string()),
            None => msg!("receive-no-receipt"),
        },
    );
    Ok(())
}
