//! The side that has something to lose: starts the process, hands the bytes in, takes the answer out, and ends it in time.

use std::io::{self, BufReader, Write as _};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use survey::msg;
use survey::said::Message;

use crate::talk::{self, Made};
use crate::{MOST_BYTES, WORD};

/// How long one photograph may take. The largest that are decoded take a few seconds on a slow machine.
const PATIENCE: Duration = Duration::from_secs(90);

/// Makes pictures in a process of its own.
#[derive(Clone, Debug)]
pub struct Apart {
    program: PathBuf,
    patience: Duration,
}

/// Why there are no pictures.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ApartError {
    /// The photograph is refused, and why.
    #[error("the photograph is refused ({})", .0.id)]
    Refused(Message),
    /// The process could not be started.
    #[error("the process that decodes photographs cannot be started: {0}")]
    NotStarted(String),
    /// It ended, hung or answered something else: the photograph is a hostile one, or the program is at fault.
    #[error(
        "the process that decodes photographs was ended over this one: it gave no answer that could be taken"
    )]
    Ended,
}

impl ApartError {
    /// The same as a message.
    pub fn said(&self) -> Message {
        match self {
            Self::Refused(said) => said.clone(),
            Self::NotStarted(said) => msg!("photo-apart-not-started", said = said),
            Self::Ended => msg!("photo-apart-ended"),
        }
    }
}

impl Apart {
    /// A program that calls [`crate::serve`] when its first argument is [`WORD`].
    pub const fn new(program: PathBuf) -> Self {
        Self { program, patience: PATIENCE }
    }
    /// With another patience.
    #[must_use]
    pub const fn patient_for(mut self, patience: Duration) -> Self {
        self.patience = patience;
        self
    }

    /// Both pictures of a photograph.
    ///
    /// # Errors
    /// See [`ApartError`].
    pub fn pictures(&self, original: Vec<u8>) -> Result<Made, ApartError> {
        if original.len() as u64 > MOST_BYTES {
            return Err(ApartError::Ended);
        }
        let mut process = self.start().map_err(|e| ApartError::NotStarted(e.to_string()))?;
        let answer = self.talk(&mut process, original);
        // Ended already where it answered; where not, it is no longer waited for.
        let _ = process.kill();
        let _ = process.wait();
        answer.ok_or(ApartError::Ended)?.map_err(ApartError::Refused)
    }

    fn start(&self) -> io::Result<Child> {
        Command::new(&self.program)
            .arg(WORD)
            .env_clear()
            .current_dir("/")
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
    }

    /// Each pipe has a thread of its own, so that neither side can make the other wait for ever.
    fn talk(&self, process: &mut Child, original: Vec<u8>) -> Option<Result<Made, Message>> {
        let (mut into, from) = (process.stdin.take()?, process.stdout.take()?);
        // It ends with the process; where that stops reading, the answer says why.
        thread::spawn(move || into.write_all(&original));
        let (tell, told) = mpsc::channel();
        thread::spawn(move || tell.send(talk::read(&mut BufReader::new(from))));
        told.recv_timeout(self.patience).ok().flatten()
    }
}
