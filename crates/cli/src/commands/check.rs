//! `underlath check`.

use actions::{Error, Kind};

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
        out.line(format!("{} entries and all photographs are as they were recorded", report.entries));
    } else {
        problems.iter().for_each(|p| out.line(p));
    }
    match problems.len() {
        0 => Ok(()),
        n => Err(Error::new(Kind::Damaged, format!("{n} problems in {}", desk.store().dir().display()))
            .hint("save what is readable with “underlath rescue FILE”, and keep the folder as it is")),
    }
}
