//! `underlath check`.

use actions::{Error, Kind};
use words::msg;

use super::Room;
use crate::args::Check;
use crate::out::Out;

pub fn run(args: &Check, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    if args.mend {
        desk.mend()?;
    }
    let report = desk.store().check();
    let problems: Vec<String> = report.problems.iter().map(|p| p.to_string()).collect();
    if out.json() {
        out.value(&serde_json::json!({ "entries": report.entries, "problems": problems }));
    } else if problems.is_empty() {
        out.tell(msg!("check-whole", n = report.entries));
    } else {
        problems.iter().for_each(|p| out.line(p));
    }
    match problems.len() {
        0 => Ok(()),
        n => {
            let message = msg!("error-problems", n = n, path = desk.store().dir().display().to_string());
            Err(Error::new(Kind::Damaged, message).hint(msg!("error-rescue-hint")))
        }
    }
}
