//! `underlath verify`.

use actions::{Error, Kind};
use survey::log::Body;

use crate::args::PacketFile;
use crate::out::Out;

pub fn run(args: &PacketFile, out: &mut Out) -> Result<(), Error> {
    let packet = packet::open(&args.file).map_err(|e| {
        let missing = !args.file.exists();
        let kind = if missing { Kind::Missing } else { Kind::Damaged };
        Error::new(kind, format!("{}: {e}", args.file.display())).hint(e.hint())
    })?;
    let info = packet.info();
    let photos = packet.entries().iter().filter(|e| matches!(e.body, Body::Photo(_))).count();
    if out.json() {
        out.value(&serde_json::json!({
            "whole": true,
            "sha256": packet.digest(),
            "bytes": packet.bytes(),
            "packet": info,
        }));
        return Ok(());
    }
    out.line(format!(
        "{}: whole, and unaltered since sealing if its sum is the one noted then",
        args.file.display()
    ));
    out.line(format!("sha256    {}", packet.digest()));
    out.line(format!("house     {} (packet {})", info.label, info.number));
    out.line(format!("sealed    {} by {}", info.sealed_at, info.software));
    out.line(format!(
        "holds     {} log entries, {photos} photographs, assessment {}",
        info.entries,
        info.assessment.short()
    ));
    Ok(())
}
