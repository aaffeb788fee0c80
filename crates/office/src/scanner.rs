//! A scanner of the firm's own, which looks at what comes in before it is kept.
//!
//! It is any program that is started with the path of one file and ends with 0 where it found nothing, with 1 where it found
//! something that does harm, and with anything else where it could not look: so the scanners of mail servers do.

use std::fs;
#[cfg(unix)]
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread;
use std::time::Duration;

use crate::OfficeError;
use crate::desk::file_error;

/// How long a packet may take: 16 GB are read through (these are our own choice, no source).
pub(crate) const FOR_A_PACKET: Duration = Duration::from_secs(20 * 60);
/// How long a photograph may take, for which somebody waits at a screen.
pub(crate) const FOR_A_PHOTO: Duration = Duration::from_secs(60);
/// How long the trial may take, before anybody is let in.
const FOR_THE_TRIAL: Duration = Duration::from_secs(30);
/// The file by which it is tried out.
const TRIAL: &str = "scanner-trial.txt";

/// Why a file was not looked at.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NotScanned {
    /// The program could not be started: what the system says.
    NotStarted(String),
    /// It ended with this.
    Ended(i32),
    /// It was ended by a signal or came to no end in time.
    Broken,
}

impl std::fmt::Display for NotScanned {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::NotStarted(said) => write!(f, "it could not be started: {said}"),
            Self::Ended(code) => write!(f, "it ended with {code}"),
            Self::Broken => f.write_str("it came to no end of its own"),
        }
    }
}

/// The scanner.
#[derive(Clone, Debug)]
pub struct Scanner {
    program: PathBuf,
}

impl Scanner {
    /// A program that is tried out: it must let a harmless file of `folder` pass.
    ///
    /// # Errors
    /// A program that cannot be started, or that finds harm in four words.
    pub fn tried(program: &Path, folder: &Path) -> Result<Self, OfficeError> {
        let scanner = Self { program: program.to_owned() };
        let trial = folder.join(TRIAL);
        fs::create_dir_all(folder)
            .and_then(|()| fs::write(&trial, "there is nothing here\n"))
            .map_err(|e| file_error(&trial, &e))?;
        let looked = scanner.look(&trial, TRIAL, FOR_THE_TRIAL);
        let _ = fs::remove_file(&trial); // written over the next time
        looked?;
        Ok(scanner)
    }

    /// Has it look at a file, which an error calls by `name`; it is given so long.
    ///
    /// # Errors
    /// [`OfficeError::Harmful`] where it found something, [`OfficeError::NotScanned`] where it could not look.
    pub(crate) fn look(&self, file: &Path, name: &str, patience: Duration) -> Result<(), OfficeError> {
        let file = std::path::absolute(file).map_err(|e| file_error(file, &e))?;
        let not = |why| OfficeError::NotScanned { program: self.program.clone(), why };
        match self.code(&file, patience).map_err(not)? {
            0 => Ok(()),
            1 => Err(OfficeError::Harmful { file: name.to_owned() }),
            code => Err(not(NotScanned::Ended(code))),
        }
    }

    fn code(&self, file: &Path, patience: Duration) -> Result<i32, NotScanned> {
        let not = |e: std::io::Error| NotScanned::NotStarted(e.to_string());
        let mut command = Command::new(&self.program);
        command.arg(file).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
        #[cfg(unix)]
        command.process_group(0); // whatever it starts ends with it
        let mut child = command.spawn().map_err(not)?;
        // Counted in pauses: no clock is needed for it.
        let (mut waited, mut pause) = (Duration::ZERO, Duration::from_millis(2));
        loop {
            if let Some(status) = child.try_wait().map_err(not)? {
                return status.code().ok_or(NotScanned::Broken);
            }
            if waited > patience {
                end(&mut child);
                return Err(NotScanned::Broken);
            }
            thread::sleep(pause);
            waited += pause;
            pause = (pause * 2).min(Duration::from_millis(100));
        }
    }
}

/// Ends it and what it started; gone meanwhile is as good.
fn end(child: &mut Child) {
    #[cfg(unix)]
    if let Some(group) = i32::try_from(child.id()).ok().and_then(rustix::process::Pid::from_raw) {
        let _ = rustix::process::kill_process_group(group, rustix::process::Signal::KILL);
    }
    let _ = child.kill();
    let _ = child.wait();
}

#[cfg(test)]
#[cfg(unix)]
mod tests {
    use std::os::unix::fs::PermissionsExt as _;
    use std::sync::Mutex;

    use super::*;

    /// One script at a time: one that is still open for writing, if only in another that is just being started, is not
    /// started by the system.
    static TURN: Mutex<()> = Mutex::new(());

    fn program(dir: &Path, text: &str) -> PathBuf {
        let path = dir.join("scan");
        fs::write(&path, format!("#!/bin/sh\n{text}\n")).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
        path
    }

    #[test]
    fn a_scanner_is_believed_by_what_it_ends_with() {
        let _turn = TURN.lock();
        let dir = tempfile::tempdir().unwrap();
        let file = dir.path().join("file");
        let scanner = |text: &str| Scanner { program: program(dir.path(), text) };
        let looked = |text: &str, patience| scanner(text).look(&file, "it", patience);
        const PATIENCE: Duration = FOR_A_PHOTO;
        assert!(looked("exit 0", PATIENCE).is_ok());
        assert!(matches!(looked("exit 1", PATIENCE), Err(OfficeError::Harmful { file }) if file == "it"));
        let why = |text: &str, patience| match looked(text, patience) {
            Err(OfficeError::NotScanned { why, .. }) => why,
            other => panic!("{other:?}"),
        };
        assert_eq!(why("exit 2", PATIENCE), NotScanned::Ended(2));
        assert_eq!(why("kill -9 $$", PATIENCE), NotScanned::Broken);
        // What it started ends with it.
        let child = dir.path().join("child");
        let starts = format!("sh -c 'sleep 3; touch {}' & sleep 60", child.display());
        assert_eq!(why(&starts, Duration::from_millis(300)), NotScanned::Broken);
        // It is given the whole path and nothing else, and what it prints holds nothing up.
        assert!(looked("[ $# = 1 ] && [ \"${1#/}\" != \"$1\" ] && yes | head -c 1000000", PATIENCE).is_ok());
        let none = Scanner { program: dir.path().join("none") };
        let none = none.look(&file, "it", PATIENCE);
        assert!(
            matches!(none, Err(OfficeError::NotScanned { why: NotScanned::NotStarted(_), .. })),
            "{none:?}"
        );
        thread::sleep(Duration::from_secs(4));
        assert!(!child.exists());
    }

    #[test]
    fn a_scanner_that_lets_nothing_pass_is_not_used() {
        let _turn = TURN.lock();
        let dir = tempfile::tempdir().unwrap();
        let tried = |text: &str| Scanner::tried(&program(dir.path(), text), dir.path());
        assert!(tried("grep -q nothing \"$1\"").is_ok());
        assert!(matches!(tried("exit 1"), Err(OfficeError::Harmful { .. })));
        assert!(matches!(tried("exit 127"), Err(OfficeError::NotScanned { .. })));
        assert!(!dir.path().join(TRIAL).exists());
    }
}
