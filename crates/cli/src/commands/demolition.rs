//! `underlath demolition`.

use actions::{Error, declare_demolition, withdraw_demolition};
use words::msg;

use super::Room;
use crate::args::Demolition;
use crate::out::Out;

pub fn run(args: &Demolition, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let aside = desk.picture(survey)?.set_aside.len();
    let mut kit = room.kit()?;
    let (entry, said) = match &args.withdraw {
        Some(why) => {
            (withdraw_demolition(&mut desk, survey, why, &mut kit)?, msg!("demolition-withdrawn", n = aside))
        }
        None => (
            declare_demolition(&mut desk, survey, args.reason.as_deref(), &mut kit)?,
            msg!("demolition-declared"),
        ),
    };
    if out.json() {
        out.value(&entry);
    } else {
        out.tell(said);
    }
    Ok(())
}
