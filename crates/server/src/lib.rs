//! The office over the network: what is answered where, over TLS, and who may ask.
//!
//! Knows no house and no person: what is asked goes by name, with the secret of the browser's session, to whoever answers
//! ([`Answers`]), which decides who may. This crate holds what the network is: certificate, connections and their limits,
//! where a request comes from, the cookie, how many bytes are taken and how long one waits for them. A packet is written to
//! a file as it comes; a photograph travels as bytes, never inside JSON.
//!
//! Tablets have routes of their own (`tablet`) and somebody of their own who answers ([`Tablets`]): they carry a secret and no
//! cookie, and what they send comes in pieces.

mod certificate;
mod collector;
mod connections;
mod door;
mod guard;
mod patient;
mod tablet;
mod upload;

use std::io;
use std::net::{IpAddr, SocketAddr};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use serde_json::Value;

pub use certificate::{Identity, IdentityError, Made, make};
pub use collector::{Collecting, Collector, CollectorError, Record, Severity};
pub use door::{COOKIE, MOST_JSON, MOST_PHOTO};
pub use tablet::{Asking, MOST_PIECE, MOST_RECIPE, Piece, Tablets, Told};
pub use upload::MOST_PACKET;
pub use web::{Refusal, SCREENS, Screens};

/// Who answers what is asked. Called from several threads, one call at a time or more.
pub trait Answers: Send + Sync + 'static {
    /// Answers a command by its name.
    ///
    /// # Errors
    /// What the screens are told.
    fn ask(&self, caller: &Caller, name: &str, args: Value) -> Result<Answer, Refusal>;

    /// Whether the caller may send this; asked before a byte of it is taken.
    ///
    /// # Errors
    /// What the screens are told.
    fn may_send(&self, caller: &Caller, what: Sending) -> Result<(), Refusal>;

    /// Takes in a packet that came whole; its file is taken away afterwards.
    ///
    /// # Errors
    /// What the screens are told.
    fn take_packet(&self, caller: &Caller, file: &Path) -> Result<Value, Refusal>;

    /// Takes in the photograph of a finding.
    ///
    /// # Errors
    /// What the screens are told.
    fn take_finding_photo(&self, caller: &Caller, bytes: &[u8]) -> Result<Value, Refusal>;

    /// A picture as it is shown: upright, of a size for screens, a JPEG of ours.
    ///
    /// # Errors
    /// What the screens are told.
    fn picture(&self, caller: &Caller, wanted: &Wanted<'_>) -> Result<Vec<u8>, Refusal>;

    /// A page of a packet.
    ///
    /// # Errors
    /// What the screens are told.
    fn page(&self, caller: &Caller, packet: &str, name: &str) -> Result<Vec<u8>, Refusal>;

    /// Told of what the door itself refuses, but for pages that are none; not waited for.
    fn turned_away(&self, from: IpAddr, why: Why);

    /// What the door itself refuses, in words.
    fn say(&self, language: &str, why: Why) -> Refusal;
}

/// Who asks, as far as the network knows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Caller {
    /// Tag of the language the screens are in.
    pub language: String,
    /// The address the connection comes from.
    pub from: IpAddr,
    /// The secret of the browser's session.
    pub session: Option<String>,
}

/// What the screens are told, and what becomes of the browser's session.
#[derive(Clone, Debug, PartialEq)]
pub struct Answer {
    /// What they are told.
    pub value: Value,
    /// What becomes of the session.
    pub session: NextSession,
}

/// What becomes of the browser's session.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum NextSession {
    /// It goes on.
    Same,
    /// From now on it is this one, for so many seconds.
    New {
        /// Its secret.
        secret: String,
        /// How long the browser keeps it.
        seconds: i64,
    },
    /// It is over.
    Over,
}

/// What is sent as bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sending {
    /// A packet.
    Packet,
    /// A photograph of a finding.
    FindingPhoto,
}

/// A picture that is wanted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Wanted<'a> {
    /// A photograph of a packet.
    OfPacket {
        /// Digest of the packet.
        packet: &'a str,
        /// Digest of the photograph.
        photo: &'a str,
        /// As small as it stands among others.
        small: bool,
    },
    /// A photograph of a finding.
    OfFinding {
        /// Its digest.
        photo: &'a str,
    },
}

/// Why the door refuses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// Asked by a name that is not in the certificate.
    Host,
    /// Asked by another page.
    Origin,
    /// There is no such page.
    Page,
    /// A command that is not in JSON.
    Json,
    /// A piece without where it belongs.
    Range,
    /// More bytes than are taken.
    TooLarge {
        /// How many are.
        most: u64,
    },
    /// The bytes did not all come, or not in time.
    Unread,
    /// The disk has no room for them.
    Full,
    /// The disk refuses them.
    Disk,
    /// The command came to no end.
    Ended,
}

/// What the office serves.
#[derive(Clone)]
pub struct Serving {
    /// Who answers.
    pub answers: Arc<dyn Answers>,
    /// Who answers tablets.
    pub tablets: Arc<dyn Tablets>,
    /// The files of the screens.
    pub screens: Screens,
    /// The folder in which packets are kept while they come; whatever lies there from an earlier run is swept.
    pub coming: PathBuf,
    /// Names by which the office may be asked besides those in its certificate.
    pub names: Vec<String>,
}

/// A door that is open and not yet served.
pub struct Office {
    listener: std::net::TcpListener,
    at: SocketAddr,
    identity: Identity,
    ending: connections::Ending,
}

impl Office {
    /// Takes a port; 0 lets the system choose one.
    ///
    /// # Errors
    /// An address that is not of this machine, a port that is taken or not allowed.
    pub fn open(address: SocketAddr, identity: Identity) -> io::Result<Self> {
        let ending = connections::Ending::listen()?;
        let listener = std::net::TcpListener::bind(address)?;
        listener.set_nonblocking(true)?;
        Ok(Self { at: listener.local_addr()?, listener, identity, ending })
    }

    /// Where it listens.
    pub fn at(&self) -> SocketAddr {
        self.at
    }

    /// Answers until the program is told to end (Ctrl-C, SIGTERM), and then lets those finish who are being answered.
    ///
    /// # Errors
    /// What the system refuses.
    pub fn serve(self, serving: Serving) -> io::Result<()> {
        upload::sweep(&serving.coming)?;
        let runtime = tokio::runtime::Builder::new_multi_thread()
            .worker_threads(2)
            .max_blocking_threads(128)
            .enable_all()
            .build()?;
        let ended = runtime.block_on(connections::serve(self, serving));
        // Whoever still waits for the disk is let finish; whatever is cut off is as if it had not come.
        runtime.shutdown_timeout(connections::LAST);
        ended
    }
}
