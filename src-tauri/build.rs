//! Reads tauri.conf.json and the capabilities, and puts the screens of ui/dist into the program.

fn main() {
    tauri_build::build();
}
