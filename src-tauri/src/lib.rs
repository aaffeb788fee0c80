//! The window program: a web view with the screens inside, over the records of this device.
//!
//! The shell hands on what the screens ask, by name, to `commands`, which it shares with every other door, and knows
//! nothing below.

mod system;

use std::process::ExitCode;

use commands::{Place, Refused};
use serde_json::Value;
use tauri::State;

/// Answers one command of the screens, in their language.
#[tauri::command(async)]
fn ask(place: State<'_, Place>, language: &str, name: &str, args: Value) -> Result<Value, Refused> {
    place.ask(language, name, args)
}

/// Opens the window and stays until it is closed. A record that cannot be read is said inside the window, where it can
/// be tried again.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run() -> ExitCode {
    let app = tauri::Builder::default().manage(system::place()).invoke_handler(tauri::generate_handler![ask]);
    match app.run(tauri::generate_context!()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            #[allow(clippy::print_stderr, reason = "there is no window to say it in")]
            {
                eprintln!("underlath-app: the window could not be opened: {error}");
            }
            ExitCode::FAILURE
        }
    }
}
