//! `underlath sheet`: the page a household fills in before the visit.

use std::fs;
use std::path::Path;

use actions::{Error, Kind, SHEET_MARK, SheetLanguage, SheetOptions, household_sheet};

use super::Room;
use crate::args::Sheet;
use crate::fail;
use crate::out::Out;

pub fn run(args: &Sheet, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    let language = SheetLanguage::of_tag(out.words().language().tag()).unwrap_or_default();
    let made = household_sheet(&desk, survey, &SheetOptions { firm: args.firm.clone(), language })?;
    write(&args.into, &made.html)?;
    if out.json() {
        out.value(&serde_json::json!({
            "sheet": args.into,
            "questions": made.questions,
            "bytes": made.html.len(),
            "answers": made.answers,
            "plan_known": made.plan_known,
        }));
        return Ok(());
    }
    out.line(format!("sheet   {}  {} questions", args.into.display(), made.questions));
    out.line(format!("        send it to the household, or print it; answers come back as {}", made.answers));
    if !made.plan_known {
        out.line("        no planned work is recorded, so it cannot say what will be off: record planned-work and make it again");
    }
    Ok(())
}

/// Writes the page, but not over a file that is no sheet.
fn write(file: &Path, html: &str) -> Result<(), Error> {
    if file.as_os_str().is_empty() || file.is_dir() {
        let message = format!("“{}” is no name for a sheet", file.display());
        return Err(Error::new(Kind::Input, message).hint("name a file, such as mill-lane.html"));
    }
    let is_sheet = match fs::read(file) {
        Ok(bytes) => bytes.is_empty() || bytes.starts_with(SHEET_MARK.as_bytes()),
        Err(e) => e.kind() == std::io::ErrorKind::NotFound,
    };
    if !is_sheet {
        let message = format!("{} is there and is no sheet; it was left alone", file.display());
        return Err(Error::new(Kind::Conflict, message).hint("name another file"));
    }
    fs::write(file, html).map_err(|e| fail::file(file, &e))
}
