//! `underlath catalog check`: every fault of catalog and overlay, with the file as it lies on the disk and the line.

use actions::{CatalogFiles, Error, Kind};
use serde_json::{Value, json};
use survey::catalog::{Catalog, CatalogError, Note};
use words::{Arg, msg};

use super::Room;
use crate::args::CatalogCheck;
use crate::out::Out;

pub fn run(args: &CatalogCheck, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let files = room.catalog_files(args.path.as_deref())?;
    match files.load() {
        Err(error) => faults(&error, out),
        Ok(catalog) => {
            // The shipped catalog's own are no news to a firm.
            let notes = if files.is_shipped() { Vec::new() } else { new_notes(&files, &catalog) };
            if out.json() {
                out.value(&as_json(&files, &catalog, &notes));
            } else {
                tell(&files, &catalog, &notes, out);
            }
            Ok(())
        }
    }
}

fn faults(error: &CatalogError, out: &mut Out) -> Result<(), Error> {
    if out.json() {
        let one = |f: &survey::catalog::Fault| json!({ "file": f.file, "line": f.line, "what": f.what, "mend": f.mend });
        out.value(&json!({ "faults": error.faults.iter().map(one).collect::<Vec<_>>() }));
    } else {
        error.faults.iter().for_each(|fault| out.line(fault.to_string()));
    }
    let message = msg!("error-catalog-faults", n = error.faults.len());
    Err(Error::new(Kind::Input, message).hint(msg!("error-catalog-hint")))
}

/// What is worth a look and is not so already without the overlay.
fn new_notes(files: &CatalogFiles, catalog: &Catalog) -> Vec<Note> {
    let known = files.without_overlay().map(|bare| bare.notes()).unwrap_or_default();
    let laid_over = catalog.overlay.is_some();
    catalog.notes().into_iter().filter(|note| !laid_over || !known.contains(note)).collect()
}

fn as_json(files: &CatalogFiles, catalog: &Catalog, notes: &[Note]) -> Value {
    let note = |n: &Note| json!({ "kind": n.kind, "id": n.id, "what": n.what });
    json!({
        "faults": [],
        "catalog": catalog.title,
        "version": catalog.version.to_string(),
        "digest": catalog.digest.to_string(),
        "overlay": files.overlay_at().map(|at| json!({
            "path": at.display().to_string(),
            "name": catalog.overlay.as_ref().and_then(|o| o.name.as_deref()),
            "version": catalog.overlay.as_ref().and_then(|o| o.version),
            "changes": catalog.overlay.as_ref().map_or(0, |o| o.changes.len()),
            "added": catalog.overlay.as_ref().map_or(0, |o| o.added.len()),
            "removed": catalog.overlay.as_ref().map_or(0, |o| o.removed.len()),
        })),
        "notes": notes.iter().map(note).collect::<Vec<_>>(),
    })
}

fn tell(files: &CatalogFiles, catalog: &Catalog, notes: &[Note], out: &mut Out) {
    out.head_of(msg!("catalog-no-faults", version = catalog.version.to_string()));
    match (files.overlay_at(), &catalog.overlay) {
        (None, _) => out.tell_in(2, msg!("catalog-no-overlay")),
        (Some(at), None) => out.tell_in(2, msg!("catalog-overlay-empty", path = at.display().to_string())),
        (Some(at), Some(overlay)) => {
            let path = at.display().to_string();
            let name: Arg = overlay.name.clone().map_or(Arg::from(path.clone()), Arg::from);
            let counts = [overlay.changes.len(), overlay.added.len(), overlay.removed.len()];
            let [changes, added, removed] = counts;
            out.tell_in(2, msg!("catalog-overlay-in-use", name = name, path = path));
            out.tell_in(
                2,
                msg!("catalog-overlay-counts", changes = changes, added = added, removed = removed),
            );
        }
    }
    if !notes.is_empty() {
        out.line("");
        out.head_of(msg!("catalog-notes"));
        notes.iter().for_each(|note| out.line(format!("  {note}")));
    }
}
