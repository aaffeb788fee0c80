//! A folder that a command makes anew on every run.

use std::fs;
use std::path::Path;

use actions::{Error, Kind};
use words::msg;

use crate::fail;

/// Makes the folder; clears one that `who` made earlier, known by the file `mark`, and no other.
pub(super) fn folder(into: &Path, mark: &str, who: &str) -> Result<(), Error> {
    let io = |e: std::io::Error| fail::file(into, &e);
    if into.exists() {
        let held: Vec<_> = fs::read_dir(into).map_err(io)?.collect::<Result<_, _>>().map_err(io)?;
        if !held.is_empty() && !into.join(mark).is_file() {
            let message = msg!("error-demo-folder", path = into.display().to_string());
            return Err(Error::new(Kind::Conflict, message).hint(msg!("error-demo-folder-hint")));
        }
        // What it holds goes, not the folder itself: it may be the one somebody stands in. The mark goes last, so that
        // a clearing that was cut short can be taken up again.
        let (last, first): (Vec<_>, Vec<_>) = held.iter().partition(|entry| entry.file_name() == mark);
        for entry in first.into_iter().chain(last) {
            let folder = entry.file_type().map_err(io)?.is_dir();
            let cleared =
                if folder { fs::remove_dir_all(entry.path()) } else { fs::remove_file(entry.path()) };
            cleared.map_err(io)?;
        }
    }
    fs::create_dir_all(into).map_err(io)?;
    let text = format!("{who} made this folder and makes it anew on its next run.\n");
    fs::write(into.join(mark), text).map_err(io)
}
