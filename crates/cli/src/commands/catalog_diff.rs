//! `underlath catalog diff`: what the overlay changes, adds and leaves out.

use actions::{CatalogFiles, Error};
use serde_json::{Value, json};
use survey::catalog::{Backing, Basis, Change, Overlay, WrittenAt};
use words::{Message, msg};

use super::Room;
use crate::out::Out;

pub fn run(room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let files = room.catalog_files(None)?;
    let catalog = files.catalog()?;
    let overlay = catalog.overlay.as_ref();
    if out.json() {
        out.value(&overlay.map(|overlay| as_json(&files, overlay)));
        return Ok(());
    }
    match (overlay, files.overlay_at()) {
        (Some(overlay), _) => {
            let name = overlay.name.clone().unwrap_or_else(|| catalog.version.to_string());
            out.head_of(msg!("catalog-diff-head", name = name, version = catalog.version.to_string()));
            tell(&files, overlay, out);
        }
        (None, Some(at)) => out.tell(msg!("catalog-overlay-empty", path = at.display().to_string())),
        (None, None) => out.tell(msg!("catalog-no-overlay")),
    }
    Ok(())
}

/// A basis in words.
pub(super) fn basis_words(basis: Basis) -> Message {
    match basis {
        Basis::Judgment => msg!("basis-judgment"),
        Basis::CommonPractice => msg!("basis-common-practice"),
        Basis::Window => msg!("basis-window"),
        Basis::Derived => msg!("basis-derived"),
        Basis::Published => msg!("basis-published"),
        Basis::Firm => msg!("basis-firm"),
    }
}

/// What stands behind a change, and where it is written.
pub(super) fn behind(files: &CatalogFiles, backing: &Backing, at: &WrittenAt, out: &Out) -> String {
    let mut parts = Vec::new();
    parts.extend(backing.basis.map(|basis| out.say(&basis_words(basis))));
    parts.extend(backing.jobs.map(|jobs| out.say(&msg!("catalog-jobs", n = jobs))));
    parts.push(backing.reason.clone());
    parts.extend(backing.on.clone());
    format!("{} ({})", parts.join(", "), place(files, at))
}

/// File and line as they lie on the disk.
pub(super) fn place(files: &CatalogFiles, at: &WrittenAt) -> String {
    format!("{}:{}", files.place(&at.file), at.line)
}

/// The same for programs.
pub(super) fn place_json(files: &CatalogFiles, at: &WrittenAt) -> Value {
    json!({ "file": files.place(&at.file), "line": at.line })
}

/// Kind, id and key; a table that is there once has no id.
fn named(change: &Change) -> String {
    let Change { kind, id, key, .. } = change;
    if id.is_empty() { format!("{kind} {key}") } else { format!("{kind} {id} {key}") }
}

fn tell(files: &CatalogFiles, overlay: &Overlay, out: &mut Out) {
    if !overlay.changes.is_empty() {
        out.head_of(msg!("catalog-diff-changed"));
    }
    for change in &overlay.changes {
        let old = change.old.clone().unwrap_or_else(|| out.say(&msg!("catalog-diff-nothing")));
        out.line(format!("  {}  {old} → {}", named(change), change.new));
        let behind = behind(files, &change.backing, &change.place, out);
        out.line(format!("      {behind}"));
    }
    if !overlay.added.is_empty() {
        out.head_of(msg!("catalog-diff-added"));
    }
    for added in &overlay.added {
        out.line(format!("  {} {} ({})", added.kind, added.id, place(files, &added.place)));
    }
    if !overlay.removed.is_empty() {
        out.head_of(msg!("catalog-diff-removed"));
    }
    for gone in &overlay.removed {
        out.line(format!("  {} {}: {} ({})", gone.kind, gone.id, gone.reason, place(files, &gone.place)));
        for with in &gone.with {
            out.tell_in(6, msg!("catalog-diff-with", what = with));
        }
    }
}

/// What stands behind a change, for programs.
pub(super) fn backing_json(backing: &Backing) -> Value {
    json!({
        "basis": backing.basis.map(Basis::word),
        "jobs": backing.jobs,
        "sources": backing.sources,
        "reason": backing.reason,
        "on": backing.on,
    })
}

fn as_json(files: &CatalogFiles, overlay: &Overlay) -> Value {
    let at = |place: &WrittenAt| place_json(files, place);
    json!({
        "name": overlay.name,
        "version": overlay.version,
        "digest": overlay.digest.to_string(),
        "changes": overlay.changes.iter().map(|c| json!({
            "kind": c.kind, "id": c.id, "key": c.key, "old": c.old, "new": c.new,
            "backing": backing_json(&c.backing), "at": at(&c.place),
        })).collect::<Vec<_>>(),
        "added": overlay.added.iter().map(|a| json!({ "kind": a.kind, "id": a.id, "at": at(&a.place) })).collect::<Vec<_>>(),
        "removed": overlay.removed.iter().map(|r| json!({
            "kind": r.kind, "id": r.id, "reason": r.reason, "with": r.with, "at": at(&r.place),
        })).collect::<Vec<_>>(),
    })
}
