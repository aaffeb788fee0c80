//! The window program. Everything is in the library, because phones start it another way.

// No console window beside ours on Windows.
#![cfg_attr(not(debug_assertions), windows_subsystem = "windows")]

fn main() -> std::process::ExitCode {
    shell::run()
}
