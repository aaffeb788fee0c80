//! `underlath seal`.

use std::fs;

use actions::{
    Clock as _, Error, Kit, OfferedPromise, SealOptions, Sealing, begin_sealing, household_page,
    sign_household,
};
use survey::units::Money;
use words::{Words, msg};

use super::Room;
use crate::args::Seal;
use crate::fail;
use crate::out::Out;
use crate::terminal::{line, say};
use crate::world::SystemClock;

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
        household_signs: args.household_signs,
    };
    let mut kit = room.kit()?;
    let mut sealing = begin_sealing(&mut desk, survey, &args.into, &options, &mut kit)?;
    if args.household_signs {
        signed(&mut sealing, out, &kit)?;
    }
    let sealed = sealing.finish(&mut desk)?;
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
    if let Some(ends) =
        sealed.certificate.as_ref().and_then(|c| actions::certificate_ends(c, SystemClock.now()))
    {
        out.tell_in(8, ends);
    }
    if sealed.pages.is_empty() {
        out.tell_in(8, msg!("seal-no-pages"));
    } else {
        let names: Vec<&str> = sealed.pages.iter().map(|p| p.name.trim_start_matches("pages/")).collect();
        out.tell_in(8, msg!("seal-pages", pages = names.join(", ")));
    }
    Ok(())
}

/// Shows the household its page and takes its name; nothing typed seals without a signature. Lines cannot be drawn here.
fn signed(sealing: &mut Sealing, out: &Out, kit: &Kit<'_>) -> Result<(), Error> {
    let page = household_page(sealing)?;
    for text in &page.texts {
        say(&format!("{text}\n\n"));
    }
    loop {
        say(&format!("{}\n{}\n", page.said, out.say(&msg!("seal-sign-name"))));
        let Some(name) = line()?.filter(|name| !name.is_empty()) else { return Ok(()) };
        match sign_household(sealing, &name, Vec::new(), kit) {
            Ok(()) => return Ok(()),
            Err(e) => say(&format!("  {}\n", e.say(out.words()))),
        }
    }
}
