//! A folder that a command makes anew on every run.

use std::fs;
use std::path::Path;

use actions::{Error, Kind};

use crate::fail;

/// Makes the folder; clears one that `who` made earlier, known by the file `mark`, and no other.
pub(super) fn folder(into: &Path, mark: &str, who: &str) -> Result<(), Error> {
    let io = |e: std::io::Error| fail::file(into, &e);
    if into.exists() {
        let empty = fs::read_dir(into).map_err(io)?.next().is_none();
        if !empty && !into.join(mark).is_file() {
            let who = who.to_lowercase();
            let what = format!("{} holds something {who} did not make", into.display());
            return Err(Error::new(Kind::Conflict, what).hint("name another folder with --into"));
        }
        fs::remove_dir_all(into).map_err(io)?;
    }
    fs::create_dir_all(into).map_err(io)?;
    let text = format!("{who} made this folder and makes it anew on its next run.\n");
    fs::write(into.join(mark), text).map_err(io)
}
