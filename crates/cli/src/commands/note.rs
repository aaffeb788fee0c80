//! `underlath note`.

use actions::{Error, note};

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
        out.line(format!("noted  {}", args.words.trim()));
    }
    Ok(())
}
