//! `underlath catalog show`: one thing key by key, with what stands behind each number and who wrote it.

use actions::{CatalogFiles, Error, Kind};
use serde_json::{Value, json};
use survey::catalog::{OVERLAY, Row, Written, kinds};
use words::msg;

use super::Room;
use super::catalog_diff::{backing_json, basis_words, behind, place, place_json};
use crate::args::CatalogShow;
use crate::out::Out;

pub fn run(args: &CatalogShow, room: &Room<'_>, out: &mut Out) -> Result<(), Error> {
    let files = room.catalog_files(None)?;
    let catalog = files.catalog()?;
    let writing = files.writing();
    let missing = |said: String| {
        let all: Vec<&str> = kinds().collect();
        Error::new(Kind::Missing, msg!("error-catalog-thing", said = said))
            .hint(msg!("error-catalog-thing-hint", kinds = all.join(", ")))
    };
    let ids = writing.ids(&args.kind).map_err(missing)?;
    let id = match &args.id {
        Some(id) => id,
        // A table that is there once has no id.
        None if ids.is_empty() => "",
        None => {
            list(&ids, out);
            return Ok(());
        }
    };
    let thing = writing.thing(&catalog, &args.kind, id).map_err(missing)?;
    if out.json() {
        out.value(&as_json(&files, &thing));
    } else {
        tell(&files, &thing, out);
    }
    Ok(())
}

fn list(ids: &[&str], out: &mut Out) {
    if out.json() {
        out.value(&ids);
    } else {
        ids.iter().for_each(|id| out.line(id));
    }
}

/// True where the firm wrote it: it changed the key, or added the whole thing.
fn by_firm(thing: &Written, row: &Row) -> bool {
    row.change.is_some() || thing.place.file.starts_with(OVERLAY)
}

fn tell(files: &CatalogFiles, thing: &Written, out: &mut Out) {
    out.head(format!("{} {} ({})", thing.kind, thing.id, place(files, &thing.place)).replace("  ", " "));
    if let Some(removed) = &thing.removed {
        let at = place(files, &removed.place);
        out.tell_in(2, msg!("catalog-show-removed", reason = &removed.reason, place = at));
    }
    for row in &thing.rows {
        let mut behind_it = Vec::new();
        if let Some(standing) = &row.standing {
            let basis = out.say(&basis_words(standing.basis));
            behind_it.push(out.say(&msg!("catalog-show-standing", basis = basis, weight = standing.weight)));
            behind_it.extend((!standing.sources.is_empty()).then(|| standing.sources.join(", ")));
        }
        // Who wrote it is said of what a firm can set; texts it has not touched are plainly the catalog's.
        if by_firm(thing, row) {
            behind_it.push(out.say(&msg!("catalog-show-by-firm")));
        } else if row.standing.is_some() {
            behind_it.push(out.say(&msg!("catalog-show-by-catalog")));
        }
        out.line(format!("  {} = {}", row.key, row.value));
        if !behind_it.is_empty() {
            out.line(format!("      {}", behind_it.join(" · ")));
        }
        if let Some(change) = &row.change {
            let was = change.old.clone().unwrap_or_else(|| out.say(&msg!("catalog-diff-nothing")));
            let why = behind(files, &change.backing, &change.place, out);
            out.tell_in(6, msg!("catalog-show-was", was = was, why = why));
        }
    }
}

fn as_json(files: &CatalogFiles, thing: &Written) -> Value {
    let row = |row: &Row| {
        json!({
            "key": row.key,
            "value": row.value,
            "by": if by_firm(thing, row) { "firm" } else { "catalog" },
            "basis": row.standing.as_ref().map(|s| s.basis.word()),
            "weight": row.standing.as_ref().map(|s| s.weight),
            "sources": row.standing.as_ref().map(|s| s.sources.as_slice()),
            "change": row.change.as_ref().map(|c| json!({
                "old": c.old, "backing": backing_json(&c.backing),
                "at": place_json(files, &c.place),
            })),
        })
    };
    json!({
        "kind": thing.kind,
        "id": thing.id,
        "at": place_json(files, &thing.place),
        "removed": thing.removed.as_ref().map(|r| &r.reason),
        "rows": thing.rows.iter().map(row).collect::<Vec<_>>(),
    })
}
