//! `underlath check`.

use actions::{Error, Kind};
use words::msg;

use super::Room;
use crate::args::Check;
use crate::out::Out;

pub fn run(args: &Check, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let mended = if args.mend { Some(desk.mend()?) } else { None };
    let report = desk.store().check();
    let problems: Vec<String> = report.problems.iter().map(|p| out.words().say(&p.message())).collect();
    if out.json() {
        out.value(&serde_json::json!({
            "entries": report.entries,
            "photos": report.photos,
            "previews": report.previews,
            "leftover_previews": report.leftover_previews,
            "packets": report.packets,
            "mended": mended.map(|m| serde_json::json!({ "made": m.made, "swept": m.swept })),
            "problems": problems,
        }));
    } else if problems.is_empty() {
        out.tell(msg!("check-whole", n = report.entries));
    } else {
        problems.iter().for_each(|p| out.line(p));
    }
    if !out.json() {
        if let Some(m) = mended.filter(|m| m.made + m.swept > 0) {
            out.tell(msg!("check-mended", made = m.made, swept = m.swept));
        }
        if report.leftover_previews > 0 {
            out.tell(msg!("check-leftover", n = report.leftover_previews));
        }
    }
    match problems.len() {
        0 => Ok(()),
        n => {
            let message = msg!("error-problems", n = n, path = desk.store().dir().display().to_string());
            Err(Error::new(Kind::Damaged, message).hint(msg!("error-rescue-hint")))
        }
    }
}
