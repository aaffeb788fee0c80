//! `underlath photo facts` and `underlath photo copy`: photograph files that belong to no house.

use std::fs::OpenOptions;
use std::io::Write as _;
use std::path::{Path, PathBuf};

use actions::{Error, Kind};
use photo::{Gps, Intake, intake_and_place, without_location};
use serde_json::{Value, json};
use words::{Message, msg};

use super::Room;
use super::photo::{file_name, read};
use crate::args::{PhotoCopy, PhotoFacts};
use crate::fail;
use crate::out::Out;

/// Says of each file what it tells of itself; those that are refused are said too, and make the exit code 2.
pub fn facts(args: &PhotoFacts, out: &mut Out) -> Result<(), Error> {
    let (mut values, mut refused) = (Vec::new(), 0);
    for path in &args.files {
        let name = path.display().to_string();
        let bytes = read(path)?;
        match intake_and_place(&bytes, &file_name(path)) {
            Ok((facts, place)) => {
                values.push(value(&name, &facts, place, out));
                if !out.json() {
                    out.head(&name);
                    tell(&facts, place, out);
                }
            }
            Err(e) => {
                refused += 1;
                let said = out.say(&e.problem.said());
                let (digest, length) = (survey::Digest::of(&bytes), bytes.len());
                values.push(json!({ "file": name, "sha256": digest, "bytes": length, "refused": said }));
                if !out.json() {
                    out.head(&name);
                    out.tell_in(2, msg!("photo-refused", said = said));
                }
            }
        }
    }
    if out.json() {
        out.value(&values);
    }
    match refused {
        0 => Ok(()),
        n => Err(Error::new(Kind::Input, msg!("error-photos-refused", n = n, of = args.files.len()))),
    }
}

/// One file's facts for a script.
fn value(name: &str, facts: &Intake, place: Option<Gps>, out: &Out) -> Value {
    json!({
        "file": name,
        "sha256": facts.digest,
        "bytes": facts.bytes,
        "format": facts.format,
        "width": facts.width,
        "height": facts.height,
        "stored_width": facts.stored_width,
        "stored_height": facts.stored_height,
        "orientation": facts.orientation,
        "taken": facts.taken,
        "taken_local": facts.taken_local,
        "gps": { "present": facts.gps_present, "place": place },
        "no_preview": facts.no_preview.as_ref().map(|why| out.say(&why.said())),
        "complaints": facts.complaints.iter().map(|odd| out.say(&odd.said())).collect::<Vec<_>>(),
    })
}

fn tell(facts: &Intake, place: Option<Gps>, out: &mut Out) {
    let format = format!("{:?}", facts.format);
    let (width, height, bytes) = (facts.width, facts.height, facts.bytes);
    out.line(format!("  {}", facts.digest));
    out.tell_in(2, msg!("photo-fact-size", width = width, height = height, format = format, bytes = bytes));
    if (facts.stored_width, facts.stored_height) != (width, height) || facts.orientation != 1 {
        let (width, height, orientation) = (facts.stored_width, facts.stored_height, facts.orientation);
        out.tell_in(
            2,
            msg!("photo-fact-turned", width = width, height = height, orientation = u32::from(orientation)),
        );
    }
    out.tell_in(
        2,
        match (&facts.taken, &facts.taken_local) {
            (Some(taken), _) => msg!("photo-fact-taken", time = taken.to_string()),
            (None, Some(local)) => msg!("photo-fact-taken-local", time = local),
            (None, None) => msg!("photo-fact-no-time"),
        },
    );
    out.tell_in(
        2,
        match place {
            Some(Gps { latitude, longitude }) => {
                let written = |degrees: f64| format!("{degrees:.5}");
                msg!("photo-fact-place", latitude = written(latitude), longitude = written(longitude))
            }
            None if facts.gps_present => msg!("photo-fact-place-hidden"),
            None => msg!("photo-fact-no-place"),
        },
    );
    for complaint in &facts.complaints {
        out.tell_in(2, msg!("photo-complaint", said = complaint.said()));
    }
}

/// Copies each file clean; all are made before one is written, so that a refusal leaves nothing half done.
pub fn copy(args: &PhotoCopy, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let copies = match &args.marked {
        Some(house) => marked_copies(house, &args.files, room)?,
        None => clean_copies(&args.files)?,
    };
    std::fs::create_dir_all(&args.into).map_err(|e| fail::file(&args.into, &e))?;
    let mut written = Vec::new();
    for Copy { name, bytes: copy, said } in copies {
        let to = args.into.join(&name);
        write_new(&to, &copy)?;
        if !out.json() {
            out.tell(said);
        }
        written.push(json!({ "file": to.display().to_string(), "sha256": survey::Digest::of(&copy) }));
    }
    if out.json() {
        out.value(&written);
    }
    Ok(())
}

/// A copy before it is written.
struct Copy {
    name: String,
    bytes: Vec<u8>,
    said: Message,
}

fn clean_copies(files: &[PathBuf]) -> Result<Vec<Copy>, Error> {
    let copy = |path: &PathBuf| {
        let name = file_name(path);
        let bytes = without_location(&read(path)?).map_err(|e| Error::from(e.named(&name)))?;
        Ok(Copy { said: msg!("photo-copied", name = &name), name, bytes })
    };
    files.iter().map(copy).collect()
}

fn marked_copies(house: &str, photos: &[PathBuf], room: &mut Room<'_>) -> Result<Vec<Copy>, Error> {
    let desk = room.desk()?;
    let survey = desk.find(house)?;
    let photos = match photos {
        [] => actions::marked(&desk, survey)?,
        starts => starts
            .iter()
            .map(|start| actions::photo_of(&desk, survey, &start.to_string_lossy()))
            .collect::<Result<_, _>>()?,
    };
    if photos.is_empty() {
        return Err(
            Error::new(Kind::Missing, msg!("error-no-marked-photo")).hint(msg!("error-no-marked-photo-hint"))
        );
    }
    let copy = |photo| {
        let made = actions::marked_copy(&desk, survey, photo)?;
        let said = msg!("photo-copied-marked", name = &made.name, n = made.marks);
        Ok(Copy { name: made.name, bytes: made.jpeg, said })
    };
    photos.into_iter().map(copy).collect()
}

/// Never over a file that is there: it could be the original.
fn write_new(to: &Path, bytes: &[u8]) -> Result<(), Error> {
    let failed = |e: &std::io::Error| match e.kind() {
        std::io::ErrorKind::AlreadyExists => {
            Error::new(Kind::Conflict, msg!("error-photo-copy-there", path = to.display().to_string()))
        }
        _ => fail::file(to, e),
    };
    let mut file = OpenOptions::new().write(true).create_new(true).open(to).map_err(|e| failed(&e))?;
    file.write_all(bytes).and_then(|()| file.sync_all()).map_err(|e| failed(&e))
}
