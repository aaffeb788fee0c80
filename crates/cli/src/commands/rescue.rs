//! `underlath rescue`.

use actions::Error;
use words::msg;

use super::Room;
use crate::args::Rescue;
use crate::out::Out;

pub fn run(args: &Rescue, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let report = store::rescue(&room.home()?, &args.to)?;
    let missing: Vec<String> = report.missing.iter().map(|m| out.words().text(m)).collect();
    if out.json() {
        out.value(&serde_json::json!({ "saved": report.entries, "to": args.to, "missing": missing }));
    } else {
        out.tell(msg!("rescue-done", n = report.entries, path = args.to.display().to_string()));
        missing.iter().for_each(|m| out.line(format!("  {m}")));
    }
    Ok(())
}
