//! `underlath sheet`: the page a household fills in before the visit.

use std::fs;
use std::path::Path;

use actions::{Error, Kind, SHEET_MARK, SheetLanguage, SheetOptions, household_sheet};

use words::msg;

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
    let file = args.into.display().to_string();
    out.tell(msg!("sheet-made", file = file, n = made.questions));
    out.tell_in(8, msg!("sheet-send", answers = &made.answers));
    if !made.plan_known {
        out.tell_in(8, msg!("sheet-no-plan"));
    }
    Ok(())
}

/// Writes the page, but not over a file that is no sheet.
fn write(file: &Path, html: &str) -> Result<(), Error> {
    if file.as_os_str().is_empty() || file.is_dir() {
        let message = msg!("error-sheet-name", file = file.display().to_string());
        return Err(Error::new(Kind::Input, message).hint(msg!("error-sheet-name-hint")));
    }
    let is_sheet = match fs::read(file) {
        Ok(bytes) => bytes.is_empty() || bytes.starts_with(SHEET_MARK.as_bytes()),
        Err(e) => e.kind() == std::io::ErrorKind::NotFound,
    };
    if !is_sheet {
        let message = msg!("error-no-sheet-there", file = file.display().to_string());
        return Err(Error::new(Kind::Conflict, message).hint(msg!("error-other-file-hint")));
    }
    fs::write(file, html).map_err(|e| fail::file(file, &e))
}
