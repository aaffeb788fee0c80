//! The office at its door, by the built program, and a browser that asks it over TLS.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::Arc;
use std::time::Duration;

use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, ServerName};
use rustls::{ClientConfig, ClientConnection, RootCertStore, StreamOwned};
use serde_json::{Value, json};
use sha2::Digest as _;

use super::underlath;

pub const PASSWORD: &str = "correct horse battery";

/// The office at its door; ended when the test is.
pub struct Open {
    /// The program.
    pub child: Child,
    /// Its port.
    pub port: u16,
    tls: Arc<ClientConfig>,
    /// The sum of its certificate, as it printed it.
    pub fingerprint: String,
    /// What the browser sends along.
    pub cookie: String,
    /// Token of the one-time link, where one was printed.
    pub token: Option<String>,
}

impl Drop for Open {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Starts the office in `dir` and trusts the certificate whose sum it printed.
pub fn open(dir: &Path) -> Open {
    open_at(dir, 0)
}

/// The same on a port.
pub fn open_at(dir: &Path, port: u16) -> Open {
    open_with(dir, port, &[])
}

/// The same with more of its options.
pub fn open_with(dir: &Path, port: u16, more: &[&str]) -> Open {
    let address = format!("127.0.0.1:{port}");
    let mut command = underlath(dir);
    command.args(["office", "--address", &address, "--json"]).args(more).stdout(Stdio::piped());
    let mut child = command.spawn().unwrap();
    let mut text = String::new();
    for line in BufReader::new(child.stdout.take().unwrap()).lines() {
        text.push_str(&line.unwrap());
        if text.ends_with('}') {
            break;
        }
    }
    let said: Value = serde_json::from_str(&text).unwrap();
    let at = said["listening"].as_str().unwrap();
    let pem = std::fs::read(dir.join("office/tls/certificate.pem")).unwrap();
    let certificate = CertificateDer::from_pem_slice(&pem).unwrap();
    let sum: Vec<String> = sha2::Sha256::digest(&certificate).iter().map(|b| format!("{b:02X}")).collect();
    assert_eq!(said["fingerprint"], sum.join(":"));
    let mut roots = RootCertStore::empty();
    roots.add(certificate).unwrap();
    let tls = ClientConfig::builder_with_provider(Arc::new(rustls::crypto::ring::default_provider()))
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    let token = said["set_up"].as_str().map(|link| link.rsplit('/').next().unwrap().to_owned());
    let port = at.rsplit(':').next().unwrap().parse().unwrap();
    let fingerprint = sum.join(":");
    Open { child, port, fingerprint, tls: Arc::new(tls), cookie: String::new(), token }
}

impl Open {
    /// Sends and gives back status, head and body; nothing where the line broke.
    pub fn try_send(&self, line: &str, body: &[u8]) -> Option<(u16, String, Vec<u8>)> {
        let (port, cookie, length) = (self.port, &self.cookie, body.len());
        let socket = TcpStream::connect(("127.0.0.1", port)).ok()?;
        socket.set_read_timeout(Some(Duration::from_secs(60))).ok()?;
        let name = ServerName::try_from("localhost").ok()?;
        let connection = ClientConnection::new(Arc::clone(&self.tls), name).ok()?;
        let mut stream = StreamOwned::new(connection, socket);
        let head = format!(
            "{line} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nOrigin: https://127.0.0.1:{port}\r\nConnection: close\r\n\
             Content-Type: application/json\r\nX-Underlath-Language: es\r\nContent-Length: {length}\r\n{cookie}\r\n"
        );
        stream.write_all(head.as_bytes()).ok()?;
        let _ = stream.write_all(body); // refused before it is read to its end, or cut off: the answer tells
        let mut bytes = Vec::new();
        let _ = stream.read_to_end(&mut bytes);
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n")?;
        let head = String::from_utf8(bytes[..end].to_vec()).ok()?;
        let length = head.lines().find_map(|l| l.strip_prefix("content-length: "))?.parse::<usize>().ok()?;
        let body = bytes[end + 4..].to_vec();
        // An answer that was cut off is none.
        (body.len() == length).then_some(())?;
        Some((head.split(' ').nth(1)?.parse().ok()?, head, body))
    }
    pub fn post(&mut self, path: &str, body: &[u8]) -> (u16, Value) {
        let (status, head, body) = self.try_send(&format!("POST {path}"), body).unwrap();
        if let Some(set) = head.lines().find_map(|l| l.strip_prefix("set-cookie: ")) {
            self.cookie = format!("Cookie: {}\r\n", set.split(';').next().unwrap());
        }
        (status, serde_json::from_slice(&body).unwrap())
    }
    pub fn ask(&mut self, name: &str, args: &Value) -> (u16, Value) {
        self.post(&format!("/ask/{name}"), args.to_string().as_bytes())
    }
    pub fn set_up(&mut self) {
        let token = self.token.clone().unwrap();
        let first =
            json!({ "token": token, "firm": "Hale & Daughter", "name": "Rosa Ames", "password": PASSWORD });
        let (status, here) = self.ask("set-up", &first);
        assert_eq!((status, &here["person"]["role"]), (200, &json!("owner")), "{here}");
        assert_eq!(self.ask("set-up", &first).0, 400, "the link is used up");
    }
    pub fn sign_in(&mut self) {
        let (status, here) = self.ask("sign-in", &json!({ "name": "rosa ames", "password": PASSWORD }));
        assert_eq!((status, &here["firm"]), (200, &json!("Hale & Daughter")), "{here}");
    }
    pub fn packet(&mut self, bytes: &[u8]) -> (u16, Value) {
        self.post("/packet", bytes)
    }
}
