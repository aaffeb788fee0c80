//! `underlath learn`: what opened houses teach about the catalog's numbers, and lines of it taken over.

use actions::{Clock as _, Error, Kind};
use office::learning::{Hand, known, left};
use review::learn::{HeldOut, Job, Line, Proposal, propose};
use survey::catalog::Catalog;
use words::{CatalogWords, msg};

use super::Room;
use super::shelf::FirmShelf;
use crate::args;
use crate::fail;
use crate::out::Out;
use crate::world::{SystemClock, person};

/// So many lines are told at most; `--json` has them all.
const TOLD: usize = 40;

pub fn run(args: &args::Learn, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let shelf = FirmShelf::new(room, args.into.as_ref())?;
    shelf.folder()?;
    let catalog = shelf.catalog()?;
    let office = room.office()?;
    let houses = office.reviewed(&catalog).map_err(fail::office)?;
    let known = known(&catalog, &office.trained().map_err(fail::office)?);
    let left = left(&houses, &known);
    let jobs: Vec<Job<'_>> =
        left.iter().map(|(survey, picture, findings)| Job { survey: *survey, picture, findings }).collect();
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
    let by = person(room.args.by.clone())?;
    let hand = Hand { by: &by, now: SystemClock.now() };
    let done = office.accept_learned(&shelf, &proposal, &args.accept, hand).map_err(fail::office)?;
    let (file, note) = (done.file.display().to_string(), done.note.display().to_string());
    if out.json() {
        out.value(&serde_json::json!({
            "file": file, "catalog": done.catalog.digest, "trained": note,
            "houses": done.trained.houses, "lines": args.accept,
        }));
        return Ok(());
    }
    out.tell(msg!("learn-written", path = file, n = args.accept.len()));
    out.tell_in(2, msg!("learn-noted", path = note, n = done.trained.houses.len()));
    out.tell_in(2, msg!("learn-carry"));
    Ok(())
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
