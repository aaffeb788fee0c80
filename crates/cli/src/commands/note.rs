//! `underlath note`.

use actions::{Error, note};
use words::msg;

use super::{Room, about};
use crate::args::Note;
use crate::out::Out;

pub fn run(args: &Note, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let subject = about(args.item.as_deref(), args.place.as_deref());
    let entry = note(&mut desk, survey, subject.as_deref(), &args.words, &mut room.kit()?)?;
    if out.json() {
        out.value(&entry);
    } else {
        out.tell(msg!("note-done", text = args.words.trim()));
    }
    Ok(())
}
