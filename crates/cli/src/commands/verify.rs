//! `underlath verify`.

use actions::{Error, Kind};
use survey::log::Body;
use words::msg;

use crate::args::PacketFile;
use crate::out::Out;

pub fn run(args: &PacketFile, out: &mut Out) -> Result<(), Error> {
    let packet = packet::open(&args.file).map_err(|e| {
        let missing = !args.file.exists();
        let kind = if missing { Kind::Missing } else { Kind::Damaged };
        let path = args.file.display().to_string();
        Error::new(kind, msg!("error-verify", path = path, said = e.to_string()))
            .hint(actions::packet_hint(&e))
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
    out.tell(msg!("verify-whole", path = args.file.display().to_string()));
    let line = |name: words::Message, said: words::Message| vec![out.say(&name), out.say(&said)];
    let (number, sum) = (info.number.to_string(), info.assessment.short());
    let rows = [
        line(msg!("verify-sum"), msg!("as-it-is", text = packet.digest().to_string())),
        line(msg!("verify-house"), msg!("verify-packet", label = &info.label, number = number)),
        line(msg!("verify-sealed"), msg!("verify-by", when = info.sealed_at, by = &info.software)),
        line(msg!("verify-holds"), msg!("verify-held", n = info.entries, photos = photos, sum = sum)),
    ];
    out.table(&rows);
    Ok(())
}
