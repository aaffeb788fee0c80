//! Lines of a log to a machine that collects them: messages as RFC 5424 has them, over TLS as RFC 5425 has it.
//!
//! The collector shows a certificate that those in a given file vouch for; nobody else is sent anything. It acknowledges
//! nothing, so whoever sends waits a moment to see whether it closes the line, and begins some lines back after each break.

use std::fmt::Write as _;
use std::io::{self, Write as _};
use std::net::{TcpStream, ToSocketAddrs as _};
use std::sync::Arc;
use std::time::Duration;

use rustls::crypto::ring;
use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, ServerName};
use rustls::{ClientConfig, ClientConnection, RootCertStore, StreamOwned};

/// How long one waits for the other side.
const WITHIN: Duration = Duration::from_secs(10);
/// “Log audit” among the facilities (RFC 5424, table 1).
const FACILITY: u8 = 13;
/// Most letters of the kind of a message (RFC 5424, section 6, MSGID).
const MOST_KIND: usize = 32;

/// Why there is no collector.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CollectorError {
    /// Not a host and a port.
    Address,
    /// No certificate that can be used: what is wrong.
    Certificate(String),
}

/// How much a line matters (RFC 5424, table 2).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Severity {
    /// Something failed.
    Error = 3,
    /// Somebody was turned away.
    Warning = 4,
    /// Somebody did what they may.
    Notice = 5,
}

/// One line.
#[derive(Clone, Copy, Debug)]
pub struct Record<'a> {
    /// How much it matters.
    pub severity: Severity,
    /// When, as RFC 3339 has it.
    pub at: &'a str,
    /// What kind of thing happened: a word.
    pub kind: &'a str,
    /// What is told.
    pub text: &'a str,
}

impl Record<'_> {
    /// The message with its length before it (RFC 5425, section 4.3), from the machine of that name.
    fn framed(&self, host: &str) -> Vec<u8> {
        // Printable ASCII alone may stand in the head; what is left empty is a hyphen.
        let word = |text: &str, most| -> String {
            let word: String = text.chars().filter(char::is_ascii_graphic).take(most).collect();
            if word.is_empty() { "-".to_owned() } else { word }
        };
        let (at, host, kind) = (word(self.at, 64), word(host, 255), word(self.kind, MOST_KIND));
        let priority = FACILITY * 8 + self.severity as u8;
        let mut message = format!("<{priority}>1 {at} {host} underlath {} {kind} - ", std::process::id());
        // Text in UTF-8 says so by a mark before it.
        message.push('\u{feff}');
        let _ = write!(message, "{}", self.text); // a string takes everything
        let mut framed = format!("{} ", message.len()).into_bytes();
        framed.extend_from_slice(message.as_bytes());
        framed
    }
}

/// A machine that collects.
pub struct Collector {
    at: String,
    from: String,
    name: ServerName<'static>,
    tls: Arc<ClientConfig>,
}

impl Collector {
    /// The collector at a host and port, known by the certificates in `pem`; `from` is what this machine is called there.
    /// Nothing is opened yet.
    ///
    /// # Errors
    /// An address that is none, certificates that cannot be read.
    pub fn new(at: &str, pem: &[u8], from: &str) -> Result<Self, CollectorError> {
        let (host, port) = at.rsplit_once(':').ok_or(CollectorError::Address)?;
        port.parse::<u16>().map_err(|_| CollectorError::Address)?;
        let bare = host.strip_prefix('[').and_then(|h| h.strip_suffix(']')).unwrap_or(host);
        let name = ServerName::try_from(bare.to_owned()).map_err(|_| CollectorError::Address)?;
        let bad = |e: &dyn std::fmt::Display| CollectorError::Certificate(e.to_string());
        let mut roots = RootCertStore::empty();
        for certificate in CertificateDer::pem_slice_iter(pem) {
            roots.add(certificate.map_err(|e| bad(&e))?).map_err(|e| bad(&e))?;
        }
        if roots.is_empty() {
            return Err(CollectorError::Certificate("BEGIN CERTIFICATE".to_owned()));
        }
        let tls = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(|e| bad(&e))?
            .with_root_certificates(roots)
            .with_no_client_auth();
        Ok(Self { at: at.to_owned(), from: from.to_owned(), name, tls: Arc::new(tls) })
    }

    /// Where it is: host and port.
    pub fn at(&self) -> &str {
        &self.at
    }

    /// Opens a line to it.
    ///
    /// # Errors
    /// A machine that does not answer, or shows a certificate nobody here vouches for.
    pub fn open(&self) -> io::Result<Collecting<'_>> {
        let mut last = io::Error::from(io::ErrorKind::NotFound);
        for address in self.at.to_socket_addrs()? {
            match TcpStream::connect_timeout(&address, WITHIN) {
                Ok(socket) => return self.greeted(socket),
                Err(e) => last = e,
            }
        }
        Err(last)
    }

    fn greeted(&self, mut socket: TcpStream) -> io::Result<Collecting<'_>> {
        socket.set_read_timeout(Some(WITHIN))?;
        soon(&socket);
        socket.set_write_timeout(Some(WITHIN))?;
        let mut tls =
            ClientConnection::new(Arc::clone(&self.tls), self.name.clone()).map_err(io::Error::other)?;
        while tls.is_handshaking() {
            tls.complete_io(&mut socket)?;
        }
        Ok(Collecting { from: &self.from, line: StreamOwned::new(tls, socket) })
    }
}

/// A line that is dead, though nobody says so, is given up after a minute instead of a quarter of an hour.
#[cfg(target_os = "linux")]
fn soon(socket: &TcpStream) {
    const MINUTE_MS: u32 = 60_000;
    let _ = rustix::net::sockopt::set_tcp_user_timeout(socket, MINUTE_MS); // without it only later
}

#[cfg(not(target_os = "linux"))]
fn soon(_: &TcpStream) {}

/// A line that is open.
pub struct Collecting<'c> {
    from: &'c str,
    line: StreamOwned<ClientConnection, TcpStream>,
}

impl Collecting<'_> {
    /// Whether the other side still listens, as far as can be told.
    ///
    /// # Errors
    /// How it ended: said good-bye, broke, or refused us for a reason.
    pub fn still(&mut self) -> io::Result<()> {
        let Self { line, .. } = self;
        line.sock.set_nonblocking(true)?;
        let still = loop {
            match line.conn.read_tls(&mut line.sock) {
                Ok(0) => break Err(io::ErrorKind::UnexpectedEof.into()),
                Ok(_) => match line.conn.process_new_packets() {
                    Ok(state) if state.peer_has_closed() => {
                        break Err(io::ErrorKind::ConnectionAborted.into());
                    }
                    Ok(_) => {}
                    Err(e) => break Err(io::Error::other(e)),
                },
                Err(e) if e.kind() == io::ErrorKind::WouldBlock => break Ok(()),
                Err(e) => break Err(e),
            }
        };
        line.sock.set_nonblocking(false)?;
        still
    }

    /// Sends a line.
    ///
    /// # Errors
    /// A line that broke.
    pub fn send(&mut self, record: &Record<'_>) -> io::Result<()> {
        self.line.write_all(&record.framed(self.from))?;
        self.line.flush()
    }
}

#[cfg(test)]
mod tests {
    use std::io::Read as _;
    use std::net::TcpListener;

    use rustls::ServerConnection;

    use super::*;
    use crate::{Identity, make};

    const NOW: i64 = 1_790_000_000_000;

    #[allow(
        clippy::disallowed_methods,
        reason = "the client holds the certificate against the machine's clock"
    )]
    fn identity() -> (Identity, String) {
        let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap();
        let made =
            make(&["localhost".to_owned()], &["127.0.0.1".parse().unwrap()], now.as_millis() as i64).unwrap();
        (Identity::from_pem(made.certificate.as_bytes(), made.key.as_bytes()).unwrap(), made.certificate)
    }

    #[test]
    fn a_message_is_laid_out_as_the_standard_has_it() {
        let record = |text, kind| Record {
            severity: Severity::Warning,
            at: "2026-11-27T21:00:00.000+00:00",
            kind,
            text,
        };
        let framed =
            String::from_utf8(record("{\"n\":7} ñ", "wrong-password").framed("office.example")).unwrap();
        let (length, message) = framed.split_once(' ').unwrap();
        assert_eq!(length.parse::<usize>().unwrap(), message.len(), "octets, not letters");
        let process = std::process::id();
        // PRI is facility times eight and severity: 13 * 8 + 4.
        let head = format!(
            "<108>1 2026-11-27T21:00:00.000+00:00 office.example underlath {process} wrong-password - "
        );
        assert_eq!(message, format!("{head}\u{feff}{{\"n\":7}} ñ"));
        // Nothing in the head ends it early.
        let odd = String::from_utf8(record("text", "two words\nñ").framed("")).unwrap();
        assert!(odd.contains(&format!(" - underlath {process} twowords - ")), "{odd}");
    }

    #[test]
    fn lines_go_to_the_collector_that_was_meant_and_to_nobody_else() {
        let ((identity, pem), (_, other)) = (identity(), identity());
        let listener = TcpListener::bind("127.0.0.1:0").unwrap();
        let at = listener.local_addr().unwrap().to_string();
        let serve = std::thread::spawn(move || {
            let mut read = Vec::new();
            for turn in 0..2 {
                let (mut socket, _) = listener.accept().unwrap();
                let mut tls = ServerConnection::new(identity.config()).unwrap();
                let mut text = Vec::new();
                let mut stream = rustls::Stream::new(&mut tls, &mut socket);
                let ended = stream.read_to_end(&mut text);
                assert_eq!(ended.is_ok() && !text.is_empty(), turn == 1, "{ended:?}");
                read.extend(text);
            }
            read
        });
        let stranger = Collector::new(&at, other.as_bytes(), "here").unwrap();
        assert!(stranger.open().is_err(), "whom nobody vouches for is sent nothing");
        let collector = Collector::new(&at, pem.as_bytes(), "here").unwrap();
        let mut line = collector.open().unwrap();
        line.still().unwrap();
        let stamp = NOW.to_string();
        for text in ["one", "two"] {
            line.send(&Record { severity: Severity::Notice, at: &stamp, kind: "signed-in", text }).unwrap();
        }
        line.still().unwrap();
        line.line.conn.send_close_notify();
        line.line.flush().unwrap();
        let read = String::from_utf8(serve.join().unwrap()).unwrap();
        assert_eq!(read.matches("<109>1 ").count(), 2, "{read}");
        assert!(read.find("\u{feff}one") < read.find("\u{feff}two"), "{read}");
        assert!(line.still().is_err(), "it went");
        assert!(collector.open().is_err(), "nobody is there");
    }

    #[test]
    fn what_is_no_address_or_no_certificate_is_refused() {
        let (_, pem) = identity();
        let told = |at: &str, pem: &str| Collector::new(at, pem.as_bytes(), "here").err();
        for bad in ["", "collector", "collector:", "collector:syslog", "a b:6514", ":6514"] {
            assert_eq!(told(bad, &pem), Some(CollectorError::Address), "{bad}");
        }
        assert!(matches!(told("collector.example:6514", ""), Some(CollectorError::Certificate(_))));
        assert_eq!(told("[2001:db8::1]:6514", &pem), None);
    }
}
