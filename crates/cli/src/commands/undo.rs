//! `underlath undo`.

use actions::{Error, undo};
use words::msg;

use super::Room;
use crate::args::OneHouse;
use crate::out::Out;

pub fn run(args: &OneHouse, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let taken = undo(&mut desk, survey, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({ "key": taken.key, "what": taken.what, "said": taken.said, "entries": taken.entries }));
    } else {
        out.tell(msg!("undo-done", what = taken.what, said = taken.said));
    }
    Ok(())
}
