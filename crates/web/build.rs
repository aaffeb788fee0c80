//! Puts the screens of `ui/dist` into the program, as far as they are there: the command line is built without Node too.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(set("CARGO_MANIFEST_DIR")?).join("../../ui/dist");
    println!("cargo:rerun-if-changed=build.rs");
    println!("cargo:rerun-if-changed={}", root.display());
    let mut paths = Vec::new();
    // Without its page there are no screens, whatever else lies there.
    if root.join("index.html").is_file() {
        collect(&root, &mut paths)?;
    }
    paths.sort();
    let mut text = String::from("&[\n");
    for path in paths {
        let name = path.strip_prefix(&root).unwrap_or(&path).to_string_lossy().replace('\\', "/");
        let _ = writeln!(
            text,
            "    ({name:?}, include_bytes!({:?})),",
            path.canonicalize()?.display().to_string()
        );
    }
    text.push_str("]\n");
    fs::write(Path::new(&set("OUT_DIR")?).join("screens.rs"), text)
}

#[allow(clippy::disallowed_methods, reason = "cargo tells a build script its folders so")]
fn set(name: &str) -> io::Result<String> {
    env::var(name).map_err(io::Error::other)
}

fn collect(folder: &Path, paths: &mut Vec<PathBuf>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let hidden = path.file_name().is_some_and(|n| n.to_string_lossy().starts_with('.'));
        match (path.is_dir(), hidden) {
            (true, _) => collect(&path, paths)?,
            (false, true) => {}
            (false, false) => paths.push(path),
        }
    }
    Ok(())
}
