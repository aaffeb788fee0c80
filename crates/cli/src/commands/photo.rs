//! `underlath photo`.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use actions::{Error, Imported, Kind, import_photo};
use words::msg;

use super::{Room, about, photo_files, photo_marks};
use crate::args::{Photo, PhotoVerb};
use crate::fail;
use crate::out::Out;

/// Larger files are not photographs of a house walk.
const LARGEST: u64 = 256 << 20;

/// Reads a photograph file whole, but never more than the limit.
pub fn read(path: &Path) -> Result<Vec<u8>, Error> {
    let kind = std::fs::metadata(path).map_err(|e| fail::file(path, &e))?;
    if !kind.is_file() {
        return Err(Error::new(Kind::Input, msg!("error-not-a-file", path = path.display().to_string())));
    }
    let mut bytes = Vec::new();
    let file = File::open(path).map_err(|e| fail::file(path, &e))?;
    file.take(LARGEST + 1).read_to_end(&mut bytes).map_err(|e| fail::file(path, &e))?;
    if bytes.len() as u64 > LARGEST {
        return Err(Error::new(Kind::Input, msg!("error-too-large", path = path.display().to_string())));
    }
    Ok(bytes)
}

/// Name of a file without its folders.
pub fn file_name(path: &Path) -> String {
    path.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default()
}

pub fn run(args: &Photo, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    match &args.what {
        Some(PhotoVerb::Facts(a)) => return photo_files::facts(a, out),
        Some(PhotoVerb::Copy(a)) => return photo_files::copy(a, room, out),
        Some(PhotoVerb::Mark(a)) => return photo_marks::mark(a, room, out),
        Some(PhotoVerb::Marks(a)) => return photo_marks::marks(a, room, out),
        Some(PhotoVerb::Measure(a)) => return photo_marks::measure(a, room, out),
        None => {}
    }
    // Both are there: the parser asks for them where no other work is named.
    let (house, file) = (args.house.as_deref().unwrap_or_default(), args.file.clone().unwrap_or_default());
    let bytes = read(&file)?;
    let mut desk = room.desk()?;
    let survey = desk.find(house)?;
    let name = file_name(&file);
    let subject = about(args.item.as_deref(), args.place.as_deref());
    let mut kit = room.kit()?;
    let imported = import_photo(
        &mut desk,
        survey,
        subject.as_deref(),
        &name,
        &bytes,
        args.caption.as_deref(),
        &mut kit,
    )?;
    if out.json() {
        let mut value = as_json(&imported, out);
        value["entry"] = serde_json::json!(imported.entry);
        out.value(&value);
        return Ok(());
    }
    let photo = imported.digest.short();
    out.tell(match imported.entry {
        Some(_) => msg!("photo-taken-in", photo = photo, name = name),
        None => msg!("photo-known", photo = photo, name = name),
    });
    point_out(&imported, out);
    Ok(())
}

/// What is pointed out of a photograph just taken in, for a script.
pub fn as_json(imported: &Imported, out: &Out) -> serde_json::Value {
    let notes: Vec<String> = imported.notes().iter().map(|note| out.say(note)).collect();
    serde_json::json!({
        "digest": imported.digest,
        "complaints": imported.odd().iter().map(|odd| out.say(odd)).collect::<Vec<_>>(),
        "warnings": imported.warnings,
        "alike": imported.alike,
        "clocks": imported.clocks.map(|clocks| serde_json::json!({
            "camera": clocks.camera.to_string(),
            "device": clocks.device.to_string(),
            "minutes_apart": clocks.minutes_apart(),
        })),
        "notes": notes,
    })
}

/// The same for a person.
pub fn point_out(imported: &Imported, out: &mut Out) {
    let notes: Vec<String> = imported.notes().iter().map(|note| out.say(note)).collect();
    let odd: Vec<String> = imported.odd().iter().map(|odd| out.say(odd)).collect();
    for said in notes.iter().chain(&odd) {
        out.tell_in(2, msg!("photo-complaint", said = said));
    }
}
