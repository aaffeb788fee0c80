//! Bodies: whole in memory up to a size, or written to a file as they come.

use std::io;
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

use axum::body::{Body, Bytes};
use http_body_util::{BodyExt as _, LengthLimitError, Limited};
use tokio::fs::{File, OpenOptions};
use tokio::io::AsyncWriteExt as _;
use tokio::time::timeout;

use crate::Why;

/// Most bytes of a packet: some thousand photographs (our own choice, no source).
pub const MOST_PACKET: u64 = 16 << 30;
/// How long one waits for more of a body.
const PAUSE: Duration = Duration::from_secs(30);
/// How long a packet may take to come.
const PACKET_WITHIN: Duration = Duration::from_secs(4 * 60 * 60);
/// How much of a refused body still comes, and how long.
const REFUSED: usize = 32 << 20;
const REFUSED_WITHIN: Duration = Duration::from_secs(5);
/// Ending of files that are coming.
const ENDING: &str = "coming";

/// All of a body.
pub(crate) async fn whole(mut body: Body, most: usize, within: Duration) -> Result<Bytes, Why> {
    let read = timeout(within, Limited::new(&mut body, most).collect()).await;
    let why = match read {
        Ok(Ok(read)) => return Ok(read.to_bytes()),
        Ok(Err(e)) if e.is::<LengthLimitError>() => Why::TooLarge { most: most as u64 },
        Ok(Err(_)) | Err(_) => Why::Unread,
    };
    let_come(body);
    Err(why)
}

/// Lets some more of a refused body come, while its refusal is already on the way: a line that is closed while a browser is
/// still sending takes the answer along, and nobody would read why.
pub(crate) fn let_come(mut body: Body) {
    tokio::spawn(timeout(REFUSED_WITHIN, async move {
        let mut left = REFUSED;
        while let Some(Ok(frame)) = body.frame().await {
            left = left.saturating_sub(frame.data_ref().map_or(0, Bytes::len));
            if left == 0 {
                break;
            }
        }
    }));
}

/// A file that is coming, taken away whatever becomes of it.
pub(crate) struct Coming(PathBuf);

impl Coming {
    pub(crate) fn path(&self) -> &Path {
        &self.0
    }
}

impl Drop for Coming {
    fn drop(&mut self) {
        let _ = std::fs::remove_file(&self.0); // swept at the next start, where it cannot be done now
    }
}

/// Writes a body into a file of its own in this folder.
pub(crate) async fn into_file(
    mut body: Body,
    length: Option<u64>,
    folder: &Path,
    most: u64,
) -> Result<Coming, Why> {
    let written = async {
        if length.is_some_and(|length| length > most) {
            return Err(Why::TooLarge { most });
        }
        let (coming, mut file) = fresh(folder).await.map_err(|e| disk(&e))?;
        if let Some(length) = length {
            reserve(&file, length).map_err(|e| disk(&e))?;
        }
        timeout(PACKET_WITHIN, write(&mut body, &mut file, most)).await.map_err(|_| Why::Unread)??;
        Ok(coming)
    };
    let written = written.await;
    if written.is_err() {
        let_come(body);
    }
    written
}

async fn write(body: &mut Body, file: &mut File, most: u64) -> Result<(), Why> {
    let mut written = 0u64;
    while let Some(frame) = timeout(PAUSE, body.frame()).await.map_err(|_| Why::Unread)? {
        let Ok(bytes) = frame.map_err(|_| Why::Unread)?.into_data() else { continue };
        written += bytes.len() as u64;
        if written > most {
            return Err(Why::TooLarge { most });
        }
        file.write_all(&bytes).await.map_err(|e| disk(&e))?;
    }
    file.flush().await.map_err(|e| disk(&e))
}

/// Takes the room a packet will need, so that a full disk is told of before it was sent for an hour. Where the file system
/// knows no such thing, it is told of later.
#[cfg(target_os = "linux")]
fn reserve(file: &File, length: u64) -> io::Result<()> {
    use rustix::fs::{FallocateFlags, fallocate};
    use rustix::io::Errno;
    if length == 0 {
        return Ok(());
    }
    match fallocate(file, FallocateFlags::KEEP_SIZE, 0, length) {
        Ok(()) | Err(Errno::OPNOTSUPP | Errno::NOSYS) => Ok(()),
        Err(e) => Err(e.into()),
    }
}

#[cfg(not(target_os = "linux"))]
fn reserve(_: &File, _: u64) -> io::Result<()> {
    Ok(())
}

/// A file nobody else has; only the office reads it.
async fn fresh(folder: &Path) -> io::Result<(Coming, File)> {
    static NEXT: AtomicU64 = AtomicU64::new(1);
    tokio::fs::create_dir_all(folder).await?;
    let name = format!("{}-{}.{ENDING}", std::process::id(), NEXT.fetch_add(1, Ordering::Relaxed));
    let coming = Coming(folder.join(name));
    let mut options = OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    options.mode(0o600);
    let file = options.open(&coming.0).await?;
    Ok((coming, file))
}

/// Takes away what was coming when the program ended.
pub(crate) fn sweep(folder: &Path) -> io::Result<()> {
    let entries = match std::fs::read_dir(folder) {
        Ok(entries) => entries,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(()),
        Err(e) => return Err(e),
    };
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_some_and(|ending| ending == ENDING) {
            std::fs::remove_file(path)?;
        }
    }
    Ok(())
}

fn disk(e: &io::Error) -> Why {
    match e.kind() {
        io::ErrorKind::StorageFull | io::ErrorKind::QuotaExceeded | io::ErrorKind::FileTooLarge => Why::Full,
        _ => Why::Disk,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn run<T>(work: impl Future<Output = T>) -> T {
        tokio::runtime::Builder::new_current_thread().enable_time().build().unwrap().block_on(work)
    }

    fn files(folder: &Path) -> usize {
        std::fs::read_dir(folder).map_or(0, Iterator::count)
    }

    #[test]
    fn a_body_lies_in_a_file_as_it_came_and_the_file_goes_with_it() {
        let dir = tempfile::tempdir().unwrap();
        let folder = dir.path().join("coming");
        let bytes = vec![7; 300_000];
        for length in [None, Some(300_000)] {
            let coming = run(into_file(Body::from(bytes.clone()), length, &folder, 300_000)).unwrap();
            assert_eq!(std::fs::read(coming.path()).unwrap(), bytes);
            drop(coming);
            assert_eq!(files(&folder), 0);
        }
        // Room was taken for more than came: the file is as long as what came.
        let coming = run(into_file(Body::from("short"), Some(100), &folder, 300_000)).unwrap();
        assert_eq!(std::fs::read(coming.path()).unwrap(), b"short");
    }

    #[test]
    fn too_much_is_refused_whether_it_was_said_or_not_and_nothing_stays() {
        let dir = tempfile::tempdir().unwrap();
        let most = 1_000;
        for length in [None, Some(1_001)] {
            let refused = run(into_file(Body::from(vec![7; 1_001]), length, dir.path(), most)).err();
            assert_eq!(refused, Some(Why::TooLarge { most }));
            assert_eq!(files(dir.path()), 0);
        }
        let refused = run(whole(Body::from(vec![7; 1_001]), 1_000, PAUSE)).err();
        assert_eq!(refused, Some(Why::TooLarge { most }));
        assert_eq!(run(whole(Body::from(vec![7; 1_000]), 1_000, PAUSE)).unwrap().len(), 1_000);
    }

    #[test]
    fn what_was_coming_is_swept_and_nothing_else() {
        let dir = tempfile::tempdir().unwrap();
        sweep(&dir.path().join("not-there")).unwrap();
        for name in ["1-1.coming", "notes.txt"] {
            std::fs::write(dir.path().join(name), "x").unwrap();
        }
        sweep(dir.path()).unwrap();
        assert!(dir.path().join("notes.txt").is_file() && files(dir.path()) == 1);
    }

    #[test]
    fn a_full_disk_is_told_from_a_broken_one() {
        assert_eq!(disk(&io::ErrorKind::StorageFull.into()), Why::Full);
        assert_eq!(disk(&io::ErrorKind::PermissionDenied.into()), Why::Disk);
    }
}
