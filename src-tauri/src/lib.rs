//! The window program: a web view with the screens inside, over the records of this device.
//!
//! The shell hands on what the screens ask, by name, to `commands`, which it shares with every other door, and knows
//! nothing below.

mod system;

use std::process::ExitCode;

use commands::{Photo, Place, Refused};
use serde::Deserialize;
use serde_json::Value;
use tauri::ipc::{InvokeBody, Request, Response};
use tauri::{Manager, State};

/// Answers one command of the screens, in their language.
#[tauri::command(async)]
fn ask(place: State<'_, Place>, language: &str, name: &str, args: Value) -> Result<Value, Refused> {
    place.ask(language, name, args)
}

/// What goes beside the bytes of a photograph: JSON in this header.
const BESIDE: &str = "x-underlath-photo";

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Beside {
    language: String,
    survey: String,
    key: Option<String>,
    name: String,
}

/// Takes a photograph in: its bytes are the body of the request, never text.
#[tauri::command(async)]
fn take_photo(place: State<'_, Place>, request: Request<'_>) -> Result<Value, Refused> {
    let beside =
        request.headers().get(BESIDE).and_then(|header| serde_json::from_slice(header.as_bytes()).ok());
    let (Some(Beside { language, survey, key, name }), InvokeBody::Raw(bytes)) = (beside, request.body())
    else {
        return Err(place.photo_without(""));
    };
    let photo = Photo { survey: &survey, key: key.as_deref(), name: &name, bytes };
    place.take_photo(&language, &photo)
}

/// What goes beside the photograph of a code.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct BesideCode {
    language: String,
}

/// Reads the link to an office in a photograph of its code.
#[tauri::command(async)]
fn pair_photo(place: State<'_, Place>, request: Request<'_>) -> Result<Value, Refused> {
    let beside =
        request.headers().get(BESIDE).and_then(|header| serde_json::from_slice(header.as_bytes()).ok());
    let (Some(BesideCode { language }), InvokeBody::Raw(bytes)) = (beside, request.body()) else {
        return Err(place.photo_without(""));
    };
    place.pair_photo(&language, bytes)
}

/// The picture of a photograph as it is shown, as bytes.
#[tauri::command(async)]
fn picture(place: State<'_, Place>, language: &str, digest: &str) -> Result<Response, Refused> {
    place.picture(language, digest).map(Response::new)
}

/// The same as small as it stands among others.
#[tauri::command(async)]
fn thumbnail(place: State<'_, Place>, language: &str, digest: &str) -> Result<Response, Refused> {
    place.thumbnail(language, digest).map(Response::new)
}

/// Opens the window and stays until it is closed. A record that cannot be read is said inside the window, where it can
/// be tried again.
#[cfg_attr(mobile, tauri::mobile_entry_point)]
pub fn run() -> ExitCode {
    let app = tauri::Builder::default()
        .setup(|app| {
            // Before the event loop runs, so before any screen can ask.
            app.manage(system::place(app));
            Ok(())
        })
        .invoke_handler(tauri::generate_handler![ask, take_photo, pair_photo, picture, thumbnail]);
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
