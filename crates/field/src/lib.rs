//! The screens in a browser of this machine: what the window program carries, over loopback.
//!
//! Who may ask is decided in `guard`: the address that was printed, opened once, and nobody else. What is asked goes by
//! name to whoever answers for the door ([`Answers`]); this crate knows no house. A photograph travels as bytes, never
//! inside JSON.

mod door;
mod guard;

use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;

use serde_json::Value;

pub use door::{MOST_JSON, MOST_PHOTO};
pub use web::{Refusal, SCREENS, Screens};

/// Who answers what the screens ask. Called from several threads, one call at a time or more.
pub trait Answers: Send + Sync + 'static {
    /// Answers a command by its name, in a language given by its tag.
    ///
    /// # Errors
    /// What the screens are told.
    fn ask(&self, language: &str, name: &str, args: Value) -> Result<Value, Refusal>;

    /// Takes in a photograph.
    ///
    /// # Errors
    /// What the screens are told.
    fn take_photo(&self, language: &str, photo: &PhotoTaken<'_>) -> Result<Value, Refusal>;

    /// Reads the link to an office in a photograph of its code.
    ///
    /// # Errors
    /// What the screens are told.
    fn pair_photo(&self, language: &str, bytes: &[u8]) -> Result<Value, Refusal>;

    /// The picture of a photograph as it is shown: upright, small, a JPEG.
    ///
    /// # Errors
    /// What the screens are told.
    fn picture(&self, language: &str, digest: &str) -> Result<Vec<u8>, Refusal>;

    /// The same as small as it stands among others.
    ///
    /// # Errors
    /// What the screens are told.
    fn thumbnail(&self, language: &str, digest: &str) -> Result<Vec<u8>, Refusal>;

    /// What the door itself refuses, in words.
    fn say(&self, language: &str, why: Why) -> Refusal;
}

/// Why the door refuses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// Asked by another name than the printed one.
    Host,
    /// Asked by another page.
    Origin,
    /// No cookie of this run.
    Cookie,
    /// The token is wrong or used up.
    Token,
    /// There is no such page.
    Page,
    /// A command that is not in JSON.
    Json,
    /// A photograph without house or name.
    PhotoWithout,
    /// More bytes than are taken.
    TooLarge {
        /// How many are.
        most: usize,
    },
    /// The bytes did not all come.
    Unread,
    /// The command came to no end.
    Ended,
}

/// A photograph as it comes in.
#[derive(Clone, Copy, Debug)]
pub struct PhotoTaken<'a> {
    /// The house: its id.
    pub survey: &'a str,
    /// What it shows: an item, its key at a place, or nothing.
    pub key: Option<&'a str>,
    /// Name of its file.
    pub name: &'a str,
    /// The bytes as the camera made them.
    pub bytes: &'a [u8],
}

/// The two secrets of one run.
#[derive(Clone)]
pub struct Secrets {
    /// Stands in the printed address and opens the door once.
    pub token: String,
    /// Is kept by the browser that opened it.
    pub session: String,
}

/// A door that is open and not yet served.
pub struct Field {
    listener: std::net::TcpListener,
    at: SocketAddr,
    secrets: Secrets,
}

impl Field {
    /// Takes a port of this machine's loopback address; 0 lets the system choose one.
    ///
    /// # Errors
    /// A port that is taken or not allowed.
    pub fn open(port: u16, secrets: Secrets) -> io::Result<Self> {
        // Loopback and nothing else: no other machine reaches it.
        let listener = std::net::TcpListener::bind((Ipv4Addr::LOCALHOST, port))?;
        listener.set_nonblocking(true)?;
        Ok(Self { at: listener.local_addr()?, listener, secrets })
    }

    /// The address to open, once.
    pub fn address(&self) -> String {
        format!("http://{}/enter/{}", self.at, self.secrets.token)
    }

    /// Answers until the program is ended.
    ///
    /// # Errors
    /// What the system refuses.
    pub fn serve(self, answers: Arc<dyn Answers>, screens: Screens) -> io::Result<()> {
        // One thread carries the connections; commands run beside it, because they wait for the disk.
        let runtime = tokio::runtime::Builder::new_current_thread().enable_io().build()?;
        runtime.block_on(async move {
            let listener = tokio::net::TcpListener::from_std(self.listener)?;
            axum::serve(listener, door::router(self.at, self.secrets, answers, screens)).await
        })
    }
}
