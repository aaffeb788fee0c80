//! `underlath rescue`.

use actions::Error;

use super::Room;
use crate::args::Rescue;
use crate::out::Out;

pub fn run(args: &Rescue, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let report = store::rescue(&room.home()?, &args.to)?;
    if out.json() {
        out.value(&serde_json::json!({ "saved": report.entries, "to": args.to, "missing": report.missing }));
    } else {
        out.line(format!(
            "{} entries saved to {}; the damaged records were not touched",
            report.entries,
            args.to.display()
        ));
        report.missing.iter().for_each(|m| out.line(format!("  {m}")));
    }
    Ok(())
}
