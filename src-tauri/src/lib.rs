//! The window program: a web view with the screens inside, over the actions of this device.
//!
//! The shell knows `actions` and `views` and nothing below them. A command takes the desk, calls one action and hands
//! on what it gives. In this version nothing is recorded here.

mod commands;
mod place;
mod refused;

use std::process::ExitCode;

pub use place::Place;
pub use refused::Refused;

/// Opens the window and stays until it is closed. A record that cannot be read is said inside the window, where it can
/// be tried again.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run() -> ExitCode {
    let app = tauri::Builder::default()
        .manage(Place::of_this_device())
        .invoke_handler(tauri::generate_handler![commands::houses::houses, commands::houses::house]);
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
