//! `underlath receipt`: the office's receipt comes back to the device.

use actions::{Error, accept_receipt};
use words::msg;

use super::Room;
use super::keys::read;
use crate::args::ReceiptFile;
use crate::out::Out;

pub fn run(args: &ReceiptFile, room: &mut Room<'_>, out: &mut Out) -> Result<(), Error> {
    let (receipt, path) = accept_receipt(&mut room.desk()?, &read(&args.file)?)?;
    if out.json() {
        out.value(&serde_json::json!({ "receipt": receipt, "kept": path }));
        return Ok(());
    }
    let (when, firm) = (receipt.received_at.to_string(), receipt.firm);
    out.tell(msg!("receipt-kept", when = when, firm = firm, path = path.display().to_string()));
    Ok(())
}
