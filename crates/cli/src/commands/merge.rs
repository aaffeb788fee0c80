//! `underlath merge`: takes in a packet, or a log as lines of JSON.

use std::fs;

use actions::{Error, Kind, keep_original, merge};
use survey::log::Entry;
use words::msg;

use super::Room;
use crate::args::PacketFile;
use crate::fail;
use crate::out::Out;

pub fn run(args: &PacketFile, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let mut desk = room.desk()?;
    let head = fs::read(&args.file).map_err(|e| fail::file(&args.file, &e))?;
    let entries = if head.starts_with(b"PK") {
        let mut packet = packet::open(&args.file)?;
        // Originals first: an entry must not name a photograph that is not here.
        let digests: Vec<_> = packet.info().photos.iter().map(|p| p.digest).collect();
        for digest in digests {
            keep_original(&desk, &mut packet.photo(&digest)?)?;
        }
        packet.entries().to_vec()
    } else {
        lines(&head, &args.file.display().to_string())?
    };
    let merged = merge(&mut desk, &entries)?;
    if out.json() {
        out.value(&serde_json::json!({
            "surveys": merged.surveys, "new": merged.new, "known": merged.known, "set_aside": merged.set_aside,
        }));
    } else {
        out.tell(msg!("merge-done", new = merged.new, known = merged.known));
        if merged.set_aside > 0 {
            out.tell(msg!("merge-set-aside", n = merged.set_aside));
        }
    }
    Ok(())
}

fn lines(text: &[u8], file: &str) -> Result<Vec<Entry>, Error> {
    let lines = text.split(|b| *b == b'\n').enumerate().filter(|(_, line)| !line.is_empty());
    lines
        .map(|(n, line)| {
            Entry::from_bytes(line).map_err(|e| {
                let message = msg!("error-line", file = file, line = n + 1, said = e.to_string());
                Error::new(Kind::Damaged, message).hint(msg!("error-nothing-taken"))
            })
        })
        .collect()
}
