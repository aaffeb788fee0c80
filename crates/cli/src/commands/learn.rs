//! `underlath learn`: what opened houses teach about the catalog's numbers, and lines of it taken over.

use std::collections::BTreeSet;
use std::path::PathBuf;

use actions::{CatalogFiles, Clock as _, Error, Kind, OVERLAY_FOLDER};
use review::learn::{ApplyError, FILE, HeldOut, Job, Line, Proposal, apply, propose};
use review::record::Trained;
use survey::SurveyId;
use survey::catalog::{Catalog, OVERLAY};
use words::{CatalogWords, msg};

use super::{Room, reviewed};
use crate::args;
use crate::fail;
use crate::out::Out;
use crate::world::SystemClock;

/// So many lines are told at most; `--json` has them all.
const TOLD: usize = 40;

pub fn run(args: &args::Learn, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let into = overlay_folder(args, room)?;
    let own = room.args.catalog.as_deref();
    let files = match CatalogFiles::read(own, Some(&into)) {
        // A folder that is not there yet, or holds no file yet.
        Err(e) if e.kind == Kind::Missing => CatalogFiles::read(own, None)?,
        read => read?,
    };
    let catalog = files.catalog()?;
    let houses = reviewed::gather(room, &catalog)?;
    let trained = reviewed::trained(room)?;
    let known = known(&catalog, &trained);
    let jobs: Vec<Job<'_>> = houses
        .jobs
        .iter()
        .filter(|(survey, ..)| !known.contains(survey))
        .map(|(survey, picture, findings)| Job { survey: *survey, picture, findings })
        .collect();
    let accepting = !args.accept.is_empty();
    let proposal = propose(&catalog, &jobs, !args.quick && !accepting);
    let Some(proposal) = proposal else {
        if accepting {
            return Err(Error::new(Kind::Missing, msg!("error-learn-no-houses")));
        }
        if out.json() {
            out.value(&serde_json::json!({ "houses": [], "lines": [] }))
        } else {
            out.tell(msg!("learn-none"))
        }
        return Ok(());
    };
    if !accepting {
        if out.json() {
            out.value(&proposal)
        } else {
            tell(&proposal, known.len(), &catalog, out)
        }
        return Ok(());
    }
    let now = SystemClock.now();
    let on: String = now.to_string().chars().take(10).collect();
    let (text, learned_from) = apply(&catalog, &proposal, &args.accept, &known, &on).map_err(refused)?;
    // The catalog has to take it before a byte is written.
    let changed = files.with_file(FILE, &text).catalog()?;
    let noted = Trained { v: Trained::VERSION, catalog: changed.digest, at: now, houses: learned_from };
    // First what it learned from, then the numbers: a crash between leaves a note about a catalog nobody has.
    let note = reviewed::note(room, &noted)?;
    std::fs::create_dir_all(&into).map_err(|e| fail::file(&into, &e))?;
    let path = into.join(FILE);
    keys::write_whole(&path, text.as_bytes()).map_err(|e| fail::file(&path, &e))?;
    if out.json() {
        out.value(&serde_json::json!({
            "file": path.display().to_string(), "catalog": changed.digest, "trained": note.display().to_string(),
            "houses": noted.houses, "lines": args.accept,
        }));
        return Ok(());
    }
    out.tell(msg!("learn-written", path = path.display().to_string(), n = args.accept.len()));
    out.tell_in(2, msg!("learn-noted", path = note.display().to_string(), n = noted.houses.len()));
    out.tell_in(2, msg!("learn-carry"));
    Ok(())
}

/// Houses the catalog has learned from: they stand in its numbers already, with their weight. A catalog that holds learned
/// numbers and is not on the list has another file beside them; it may have learned from any house that is noted.
fn known(catalog: &Catalog, trained: &[Trained]) -> Vec<SurveyId> {
    let own: Vec<&Trained> = trained.iter().filter(|t| t.catalog == catalog.digest).collect();
    let mut changes = catalog.overlay.iter().flat_map(|o| &o.changes);
    let learned = changes.any(|c| c.place.file.strip_prefix(OVERLAY) == Some(FILE));
    let from: Vec<&Trained> = match (own.is_empty(), learned) {
        (false, _) => own,
        (true, true) => trained.iter().collect(),
        (true, false) => Vec::new(),
    };
    let houses: BTreeSet<SurveyId> = from.iter().flat_map(|t| t.houses.iter().copied()).collect();
    houses.into_iter().collect()
}

/// The folder that is named, else the overlay in use, else the one in the home.
fn overlay_folder(args: &args::Learn, room: &Room<'_>) -> Result<PathBuf, Error> {
    let folder = match (&args.into, super::overlay_in_use(room.args)?) {
        (Some(named), _) => named.clone(),
        (None, Some(in_use)) => in_use,
        (None, None) => room.home()?.join(OVERLAY_FOLDER),
    };
    if folder.is_file() {
        let message = msg!("error-learn-one-file", path = folder.display().to_string());
        return Err(Error::new(Kind::Input, message).hint(msg!("error-learn-one-file-hint")));
    }
    Ok(folder)
}

fn refused(e: ApplyError) -> Error {
    match e {
        ApplyError::OtherCatalog => Error::new(Kind::Conflict, msg!("error-learn-other-catalog")),
        ApplyError::Nothing => Error::new(Kind::Input, msg!("error-learn-nothing")),
        ApplyError::Unknown { given, near } => {
            let error = Error::new(Kind::Missing, msg!("error-learn-no-line", line = given));
            match near {
                Some(near) => error.hint(msg!("error-learn-meant", near = near)),
                None => error,
            }
        }
        ApplyError::Together { condition, other } => {
            Error::new(Kind::Conflict, msg!("error-learn-together", condition = condition, other = &other))
                .hint(msg!("error-learn-together-hint", other = &other))
        }
        ApplyError::ChangedElsewhere { condition, key, place } => Error::new(
            Kind::Conflict,
            msg!("error-learn-elsewhere", place = place, key = key, condition = condition),
        )
        .hint(msg!("error-learn-elsewhere-hint")),
    }
}

fn tell(p: &Proposal, known: usize, catalog: &Catalog, out: &mut Out) {
    out.head_of(msg!("learn-head", n = p.houses.len()));
    if known > 0 {
        out.tell_in(2, msg!("learn-known", n = known));
    }
    for (_, why) in &p.skipped {
        out.tell_in(2, msg!("learn-skipped", why = why));
    }
    match p.held_out {
        Some(HeldOut { outcomes, before, after }) => {
            let (before, after) = (format!("{before:.4}"), format!("{after:.4}"));
            out.tell_in(2, msg!("learn-held-out", n = outcomes, before = before, after = after));
        }
        None => out.tell_in(2, msg!("learn-not-held-out")),
    }
    out.line("");
    for line in p.lines.iter().take(TOLD) {
        tell_line(line, catalog, out);
    }
    if p.lines.len() > TOLD {
        out.tell_in(2, msg!("learn-more", n = p.lines.len() - TOLD));
    }
    out.tell(msg!("learn-accept"));
}

fn tell_line(line: &Line, catalog: &Catalog, out: &mut Out) {
    let say = CatalogWords::new(out.words(), catalog);
    let name = say.condition(&line.condition).into_owned();
    out.line(format!("  {}  {name}", line.id));
    let weight = words::number(out.words().language(), line.weight, 0);
    out.tell_in(4, msg!("learn-evidence", houses = line.houses, opened = line.opened, weight = weight));
    if line.small {
        out.tell_in(4, msg!("learn-small"));
    }
    if let Some(HeldOut { outcomes, before, after }) = line.held_out {
        let (before, after) = (format!("{before:.4}"), format!("{after:.4}"));
        out.tell_in(4, msg!("learn-line-held-out", n = outcomes, before = before, after = after));
    }
    let three = |x: f64| words::number(out.words().language(), x, 3);
    let rows: Vec<Vec<String>> = line
        .numbers
        .iter()
        .map(|n| {
            let [low, high] = n.interval.map(three);
            vec![
                String::new(),
                n.key.clone(),
                three(n.old),
                "→".to_owned(),
                three(n.new),
                format!("{low} – {high}"),
            ]
        })
        .collect();
    out.table(&rows);
}
