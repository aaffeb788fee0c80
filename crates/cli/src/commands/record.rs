//! `underlath record`.

use std::path::Path;

use actions::{Entered, Error, Imported, check_answer, import_photo, record};
use survey::{Digest, SurveyId};
use words::msg;

use super::photo::{as_json, file_name, point_out, read};
use super::{Room, about};
use crate::args::Record;
use crate::out::Out;

pub fn run(args: &Record, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    // Photographs are read before anything is recorded, so that a wrong path leaves nothing half done.
    let files = args.photos.iter().map(|p| Ok((p.as_path(), read(p)?))).collect::<Result<Vec<_>, Error>>()?;
    let entered = Entered {
        answer: args.answer.clone(),
        could_not_reach: args.could_not_reach.clone(),
        tolerance: args.tolerance.clone(),
        reason: args.reason.clone(),
        sure: args.sure,
    };
    let item = about(Some(&args.item), args.place.as_deref()).unwrap_or_default();
    // Nothing is taken in before all of it can be.
    check_answer(&desk, survey, &item, &entered)?;
    for (path, bytes) in &files {
        photo::intake(bytes, &file_name(path))?;
    }
    let taken = take_in(&mut desk, survey, &item, &files, room)?;
    let photos: Vec<Digest> = taken.iter().map(|photo| photo.digest).collect();
    let recorded = record(&mut desk, survey, &item, &entered, &photos, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({
            "entry": recorded.entry,
            "hash": recorded.entry.hash(),
            "key": recorded.key,
            "words": recorded.words,
            "corrected": recorded.corrected,
            "complaints": recorded.complaints,
            "photos": taken.iter().map(|photo| as_json(photo, out)).collect::<Vec<_>>(),
        }));
        return Ok(());
    }
    let (item, answer) = (&recorded.key, &recorded.words);
    out.tell(match recorded.corrected {
        0 => msg!("record-done", item = item, answer = answer),
        _ => msg!("record-corrected", item = item, answer = answer),
    });
    for complaint in &recorded.complaints {
        out.tell_in(2, msg!("record-complaint", said = complaint));
    }
    taken.iter().for_each(|photo| point_out(photo, out));
    Ok(())
}

fn take_in(
    desk: &mut actions::Desk,
    survey: SurveyId,
    item: &str,
    files: &[(&Path, Vec<u8>)],
    room: &mut Room<'_>,
) -> Result<Vec<Imported>, Error> {
    let mut taken = Vec::new();
    for (path, bytes) in files {
        let mut kit = room.kit()?;
        taken.push(import_photo(desk, survey, Some(item), &file_name(path), bytes, None, &mut kit)?);
    }
    Ok(taken)
}
