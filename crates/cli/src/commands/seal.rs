//! `underlath seal`.

use std::fs;

use actions::{Error, OfferedPromise, SealOptions, seal};
use survey::units::Money;
use words::{Words, msg};

use super::Room;
use crate::args::Seal;
use crate::fail;
use crate::out::Out;

pub fn run(args: &Seal, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let survey = desk.find(&args.house)?;
    fs::create_dir_all(&args.into).map_err(|e| fail::file(&args.into, &e))?;
    let promise =
        args.cap.map(|cap| OfferedPromise { cover: args.promise.clone(), cap: Money::from_dollars(cap) });
    let options = SealOptions {
        organization: args.firm.clone(),
        address: args.address.clone(),
        pages_in: args.pages.map(Words::of),
        household_in: args.household.map(Words::of),
        templates: args.templates.clone(),
        promise,
    };
    let sealed = seal(&mut desk, survey, &args.into, &options, &mut room.kit()?)?;
    if out.json() {
        out.value(&serde_json::json!({
            "packet": sealed.path,
            "sha256": sealed.digest,
            "bytes": sealed.bytes,
            "files": sealed.files,
            "photos": sealed.photos,
            "key": sealed.key,
            "certificate": sealed.certificate,
            "pages": sealed.pages.iter().map(|page| &page.name).collect::<Vec<_>>(),
        }));
        return Ok(());
    }
    out.tell(msg!("seal-done", path = sealed.path.display().to_string()));
    out.line(format!("sha256  {}", sealed.digest));
    out.tell_in(8, msg!("seal-holds", files = sealed.files, photos = sealed.photos, bytes = sealed.bytes));
    out.tell_in(
        8,
        match &sealed.certificate {
            Some(c) => msg!(
                "seal-certified",
                firm = &c.firm,
                serial = c.serial.to_string(),
                key = sealed.key.to_string()
            ),
            None => msg!("seal-not-certified", key = sealed.key.to_string()),
        },
    );
    if sealed.pages.is_empty() {
        out.tell_in(8, msg!("seal-no-pages"));
    } else {
        let names: Vec<&str> = sealed.pages.iter().map(|p| p.name.trim_start_matches("pages/")).collect();
        out.tell_in(8, msg!("seal-pages", pages = names.join(", ")));
    }
    Ok(())
}
