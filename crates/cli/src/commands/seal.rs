//! `underlath seal`.

use std::fs;

use actions::{Error, SealOptions, seal};

use super::Room;
use crate::args::Seal;
use crate::fail;
use crate::out::Out;

pub fn run(args: &Seal, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    fs::create_dir_all(&args.into).map_err(|e| fail::file(&args.into, &e))?;
    let options = SealOptions { organization: args.firm.clone() };
    let sealed = seal(&mut desk, survey, &args.into, &options, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({
            "packet": sealed.path,
            "sha256": sealed.digest,
            "bytes": sealed.bytes,
            "files": sealed.files,
            "photos": sealed.photos,
            "pages": sealed.pages,
        }));
        return Ok(());
    }
    out.line(format!("sealed  {}", sealed.path.display()));
    out.line(format!("sha256  {}", sealed.digest));
    out.line(format!(
        "        {} files, {} photographs, {} bytes",
        sealed.files, sealed.photos, sealed.bytes
    ));
    if !sealed.pages {
        out.line("        without pages to read: this program was built without them");
    }
    Ok(())
}
