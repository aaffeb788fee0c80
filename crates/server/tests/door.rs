//! The office's door from outside, over real TLS: what it refuses, and what it answers.
#![allow(clippy::unwrap_used, clippy::panic, reason = "tests")]

use std::io::{Read as _, Write as _};
use std::net::{IpAddr, TcpStream};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, OnceLock};
use std::time::{Duration, Instant};

use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, ServerName};
use rustls::{ClientConfig, ClientConnection, RootCertStore, StreamOwned};
use serde_json::{Value, json};
use server::{
    Answer, Answers, Asking, COOKIE, Caller, Identity, MOST_JSON, MOST_PIECE, NextSession, Office, Piece,
    Refusal, Screens, Sending, Serving, Tablets, Told, Wanted, Why,
};

/// Gives back what it was asked; keeps what was asked.
#[derive(Default)]
struct Echo {
    asked: Mutex<Vec<String>>,
    kept: Mutex<Vec<u8>>,
    lay: Mutex<PathBuf>,
    away: Mutex<Vec<(IpAddr, Why)>>,
}

impl Echo {
    fn note(&self, what: String) {
        self.asked.lock().unwrap().push(what);
    }
}

fn refusal(kind: &'static str, message: &str) -> Refusal {
    Refusal { kind, message: message.to_owned(), hint: None }
}

impl Answers for Echo {
    fn ask(&self, caller: &Caller, name: &str, args: Value) -> Result<Answer, Refusal> {
        self.note(format!("ask {name}"));
        let session = match name {
            "sign-in" => NextSession::New { secret: "5ecret".to_owned(), seconds: 60 },
            "sign-out" => NextSession::Over,
            _ => NextSession::Same,
        };
        match name {
            "signed-out" => return Err(refusal("signed-out", "sign in")),
            "role" => return Err(refusal("role", "not yours")),
            "conflict" => return Err(refusal("conflict", "locked")),
            "too-many" => return Err(refusal("too-many", "wait")),
            "dies" => std::panic::resume_unwind(Box::new("a command that dies")),
            _ => {}
        }
        let value = json!({
            "language": caller.language, "from": caller.from, "session": caller.session, "name": name, "args": args
        });
        Ok(Answer { value, session })
    }
    fn may_send(&self, caller: &Caller, what: Sending) -> Result<(), Refusal> {
        self.note(format!("may send {what:?}"));
        if caller.session.is_none() { Err(refusal("signed-out", "sign in")) } else { Ok(()) }
    }
    fn take_packet(&self, _: &Caller, file: &Path) -> Result<Value, Refusal> {
        self.note("packet".to_owned());
        let bytes = std::fs::read(file).unwrap();
        let told = json!({ "bytes": bytes.len() });
        *self.kept.lock().unwrap() = bytes;
        *self.lay.lock().unwrap() = file.to_owned();
        Ok(told)
    }
    fn take_finding_photo(&self, _: &Caller, bytes: &[u8]) -> Result<Value, Refusal> {
        Ok(json!({ "bytes": bytes.len() }))
    }
    fn picture(&self, _: &Caller, wanted: &Wanted<'_>) -> Result<Vec<u8>, Refusal> {
        Ok(format!("{wanted:?}").into_bytes())
    }
    fn page(&self, _: &Caller, packet: &str, name: &str) -> Result<Vec<u8>, Refusal> {
        Ok(format!("{packet} {name}").into_bytes())
    }
    fn turned_away(&self, from: IpAddr, why: Why) {
        self.away.lock().unwrap().push((from, why));
    }
    fn say(&self, language: &str, why: Why) -> Refusal {
        refusal("input", &format!("{language}{why:?}"))
    }
}

impl Tablets for Echo {
    fn pair(&self, tablet: &Asking, ask: Value) -> Result<Value, Refusal> {
        self.note("pair".to_owned());
        Ok(json!({ "ask": ask, "from": tablet.from, "token": tablet.token }))
    }
    fn may_send(&self, tablet: &Asking) -> Result<(), Refusal> {
        match tablet.token.as_deref() {
            Some("70ken") => Ok(()),
            _ => Err(refusal("signed-out", "not paired")),
        }
    }
    fn begin(&self, _: &Asking, packet: &str, recipe: &[u8]) -> Result<Value, Refusal> {
        self.note(format!("begin {packet}"));
        Ok(json!({ "recipe": recipe.len() }))
    }
    fn piece(&self, _: &Asking, packet: &str, piece: &Piece<'_>) -> Result<Told, Refusal> {
        let Piece { segment, from, of, bytes } = *piece;
        self.note(format!("piece {packet} {segment} {from} {of} {}", bytes.len()));
        Ok(if from == 0 {
            Told::Well(json!({ "have": bytes.len() }))
        } else {
            Told::Otherwise(json!({ "have": 0 }))
        })
    }
    fn finish(&self, _: &Asking, packet: &str) -> Result<Told, Refusal> {
        self.note(format!("finish {packet}"));
        Ok(Told::Well(json!({ "receipt": "signed" })))
    }
    fn catalog(&self, tablet: &Asking, have: Option<&str>) -> Result<Told, Refusal> {
        Tablets::may_send(self, tablet)?;
        self.note(format!("catalog {have:?}"));
        Ok(if have == Some("this") { Told::Nothing } else { Told::Well(json!({ "version": "signed" })) })
    }
}

const SCREENS: Screens = Screens::of(&[
    ("index.html", b"the tablet's"),
    ("office.html", b"<!doctype html>"),
    ("assets/long.js", &[b'a'; 4_000]),
]);

struct Door {
    port: u16,
    echo: Arc<Echo>,
    coming: tempfile::TempDir,
    tls: Arc<ClientConfig>,
}

struct Reply {
    status: u16,
    head: String,
    body: Vec<u8>,
}

impl Reply {
    fn header(&self, name: &str) -> Option<&str> {
        let mut lines = self.head.lines().filter_map(|l| l.split_once(": "));
        lines.find(|(n, _)| n.eq_ignore_ascii_case(name)).map(|(_, v)| v)
    }
    fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap_or_else(|_| panic!("{}", self.text()))
    }
    fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }
    fn message(&self) -> String {
        self.json()["message"].as_str().unwrap().to_owned()
    }
}

impl Door {
    fn open() -> Self {
        let made =
            server::make(&["localhost".to_owned()], &["127.0.0.1".parse().unwrap()], now_ms()).unwrap();
        let identity = Identity::from_pem(made.certificate.as_bytes(), made.key.as_bytes()).unwrap();
        let mut roots = RootCertStore::empty();
        roots.add(CertificateDer::from_pem_slice(made.certificate.as_bytes()).unwrap()).unwrap();
        let provider = Arc::new(rustls::crypto::ring::default_provider());
        let tls = ClientConfig::builder_with_provider(provider)
            .with_safe_default_protocol_versions()
            .unwrap()
            .with_root_certificates(roots)
            .with_no_client_auth();
        let office = Office::open("127.0.0.1:0".parse().unwrap(), identity).unwrap();
        let (port, echo) = (office.at().port(), Arc::new(Echo::default()));
        let coming = tempfile::tempdir().unwrap();
        std::fs::write(coming.path().join("9-9.coming"), "of an earlier run").unwrap();
        let serving = Serving {
            answers: Arc::<Echo>::clone(&echo),
            tablets: Arc::<Echo>::clone(&echo),
            screens: SCREENS,
            coming: coming.path().to_owned(),
            names: vec!["desk.example".to_owned()],
        };
        std::thread::spawn(move || office.serve(serving).unwrap());
        Self { port, echo, coming, tls: Arc::new(tls) }
    }
    /// What a page of ours sends.
    fn ours(&self) -> Vec<String> {
        let port = self.port;
        vec![
            format!("Host: 127.0.0.1:{port}"),
            format!("Origin: https://127.0.0.1:{port}"),
            "Sec-Fetch-Site: same-origin".to_owned(),
            format!("Cookie: {COOKIE}=5ession"),
            "Content-Type: application/json".to_owned(),
        ]
    }
    /// The same without one header, and with others.
    fn but(&self, without: &str, with: &[&str]) -> Vec<String> {
        let kept = self.ours().into_iter().filter(|h| !h.starts_with(without));
        kept.chain(with.iter().map(|h| (*h).to_owned())).collect()
    }
    fn connect(&self) -> StreamOwned<ClientConnection, TcpStream> {
        let socket = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        socket.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        let name = ServerName::try_from("localhost").unwrap();
        StreamOwned::new(ClientConnection::new(Arc::clone(&self.tls), name).unwrap(), socket)
    }
    fn send(&self, line: &str, headers: &[String], body: &[u8]) -> Reply {
        let mut stream = self.connect();
        let length = format!("Content-Length: {}", body.len());
        let mut sent = format!("{line} HTTP/1.1\r\n");
        for header in headers.iter().map(String::as_str).chain(["Connection: close", &length]) {
            sent.push_str(header);
            sent.push_str("\r\n");
        }
        stream.write_all(format!("{sent}\r\n").as_bytes()).unwrap();
        // Too much is refused before it is read to its end, which may close the line under our feet.
        let _ = stream.write_all(body);
        reply(&mut stream)
    }
    fn asked(&self) -> Vec<String> {
        self.echo.asked.lock().unwrap().clone()
    }
    fn still_coming(&self) -> usize {
        std::fs::read_dir(self.coming.path()).unwrap().count()
    }
}

fn reply(stream: &mut impl std::io::Read) -> Reply {
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes); // a line that is closed without a farewell has said what it had to
    let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").unwrap_or_else(|| panic!("{bytes:?}"));
    let head = String::from_utf8(bytes[..end].to_vec()).unwrap();
    let status = head.split(' ').nth(1).unwrap().parse().unwrap();
    Reply { status, head, body: bytes[end + 4..].to_vec() }
}

#[allow(clippy::disallowed_methods, reason = "the client holds the certificate against the machine's clock")]
fn now_ms() -> i64 {
    let now = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).unwrap();
    i64::try_from(now.as_millis()).unwrap()
}

/// One door for all tests of this file.
fn door() -> &'static Door {
    static DOOR: OnceLock<Door> = OnceLock::new();
    DOOR.get_or_init(Door::open)
}

#[test]
fn whoever_is_no_page_of_ours_is_refused_and_asks_nothing() {
    let door = Door::open();
    let port = door.port;
    let elsewhere = "Origin: https://elsewhere.example";
    for (headers, why) in [
        (door.but("Host", &["Host: rebound.example"]), "Host"),
        (door.but("Host", &[&format!("Host: rebound.example:{port}")]), "Host"),
        (door.but("Origin", &[elsewhere]), "Origin"),
        (door.but("Origin", &["Origin: null"]), "Origin"),
        (door.but("Origin", &[]), "Origin"),
        (door.but("Origin", &[&format!("Origin: http://127.0.0.1:{port}")]), "Origin"),
        (door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: cross-site"]), "Origin"),
        (door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: same-site"]), "Origin"),
        (door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: none"]), "Origin"),
    ] {
        for line in ["POST /ask/sign-in", "POST /packet", "POST /finding-photo"] {
            let reply = door.send(line, &headers, b"{}");
            assert_eq!((reply.status, reply.message().as_str()), (403, why), "{line} {headers:?}");
            assert_eq!(reply.header("set-cookie"), None);
        }
    }
    assert_eq!(door.asked(), Vec::<String>::new());
    for host in [format!("localhost:{port}"), format!("desk.example:{port}"), format!("[::1]:{port}")] {
        let headers = [format!("Host: {host}"), format!("Origin: https://{host}"), door.ours()[4].clone()];
        assert_eq!(door.send("POST /ask/inbox", &headers, b"{}").status, 200, "{host}");
    }
}

#[test]
fn a_command_goes_round_and_the_cookie_is_set_as_it_must_be() {
    let door = door();
    let mut headers = door.ours();
    headers.push("X-Underlath-Language: es".to_owned());
    let reply = door.send("POST /ask/house", &headers, "{\"survey\":\"Año\"}".as_bytes());
    let told = json!({
        "language": "es", "from": "127.0.0.1", "session": "5ession", "name": "house", "args": { "survey": "Año" }
    });
    assert_eq!((reply.status, reply.json(), reply.header("set-cookie")), (200, told, None));
    let reply = door.send("POST /ask/house", &door.but("Cookie", &[]), b"{}");
    assert_eq!(reply.json()["session"], Value::Null);
    for (command, cookie) in [
        ("sign-in", "__Host-underlath-office=5ecret; Secure; HttpOnly; SameSite=Strict; Path=/; Max-Age=60"),
        ("sign-out", "__Host-underlath-office=; Secure; HttpOnly; SameSite=Strict; Path=/; Max-Age=0"),
    ] {
        let reply = door.send(&format!("POST /ask/{command}"), &door.ours(), b"{}");
        assert_eq!(reply.header("set-cookie"), Some(cookie));
    }
    for (command, status) in
        [("signed-out", 401), ("role", 403), ("conflict", 409), ("too-many", 429), ("dies", 500)]
    {
        assert_eq!(
            door.send(&format!("POST /ask/{command}"), &door.ours(), b"{}").status,
            status,
            "{command}"
        );
    }
    assert_eq!(door.send("POST /ask/house", &door.ours(), b"{}").status, 200, "the door stays open");
}

#[test]
fn what_is_too_large_or_no_json_is_refused_before_it_is_asked() {
    let door = Door::open();
    let large = vec![b' '; MOST_JSON + 1];
    for (headers, body, status, why) in [
        (door.ours(), &large[..], 413, "TooLarge"),
        (door.ours(), b"{", 400, "Json"),
        (door.ours(), b"", 400, "Json"),
        (door.but("Content-Type", &["Content-Type: text/plain"]), b"{}", 400, "Json"),
        (door.but("Content-Type", &[]), b"{}", 400, "Json"),
    ] {
        let reply = door.send("POST /ask/inbox", &headers, body);
        assert_eq!(reply.status, status, "{}", reply.head);
        assert!(reply.text().contains(why), "{}", reply.text());
    }
    assert_eq!(door.send("GET /ask/inbox", &door.ours(), b"").status, 405);
    let many = format!("X-Long: {}", "a".repeat(64 * 1024));
    let mut stream = door.connect();
    let head = door.but("Nothing", &[&many]).join("\r\n");
    let _ = stream.write_all(format!("POST /ask/inbox HTTP/1.1\r\n{head}\r\n\r\n").as_bytes());
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes);
    // The line is closed with the rest unread, which may take the answer along.
    assert!(bytes.is_empty() || bytes.starts_with(b"HTTP/1.1 431"), "{}", String::from_utf8_lossy(&bytes));
    assert_eq!(door.asked(), Vec::<String>::new());
}

#[test]
fn what_the_door_refuses_is_told_to_whoever_keeps_the_log() {
    let door = Door::open();
    let tablet = [format!("Host: 127.0.0.1:{}", door.port), "Authorization: Bearer 70ken".to_owned()];
    let page = "Origin: https://elsewhere.example".to_owned();
    let large = vec![b' '; MOST_JSON + 1];
    for (line, headers, body) in [
        ("POST /ask/inbox", door.but("Host", &["Host: rebound.example"]), &b"{}"[..]),
        ("POST /ask/inbox", door.but("Origin", &[&page]), b"{}"),
        ("POST /ask/inbox", door.ours(), b"{"),
        ("POST /ask/inbox", door.ours(), &large[..]),
        ("GET /device/catalog", [&tablet[..], std::slice::from_ref(&page)].concat(), b""),
        // What is refused to nobody's harm is told nobody.
        ("GET /nowhere", door.ours(), b""),
        ("GET /device/catalog?have=a&have=b", tablet.to_vec(), b""),
        ("POST /ask/inbox", door.ours(), b"{}"),
    ] {
        door.send(line, &headers, body);
    }
    let begun = started();
    let told = loop {
        let told = door.echo.away.lock().unwrap().clone();
        if told.len() >= 5 || begun.elapsed() > Duration::from_secs(30) {
            break told;
        }
        std::thread::sleep(Duration::from_millis(10));
    };
    let (from, mut whys): (Vec<IpAddr>, Vec<String>) =
        told.into_iter().map(|(from, why)| (from, format!("{why:?}"))).unzip();
    whys.sort();
    let most = format!("TooLarge {{ most: {MOST_JSON} }}");
    assert_eq!(whys, ["Host", "Json", "Origin", "Origin", &most]);
    assert!(from.iter().all(IpAddr::is_loopback), "{from:?}");
}

#[test]
fn other_methods_are_refused_and_nothing_of_them_is_sent_back() {
    let door = Door::open();
    let headers = door.but("Nothing", &["X-Told: to the office alone"]);
    let reads = ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"];
    let writes = ["GET", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"];
    for (path, methods) in [
        ("/ask/inbox", writes),
        ("/packet", writes),
        ("/", reads),
        ("/assets/long.js", reads),
        ("/picture/p/q", reads),
        ("/page/p/office.pdf", reads),
    ] {
        for method in methods {
            let reply = door.send(&format!("{method} {path}"), &headers, b"");
            assert_eq!((reply.status, reply.text().as_str()), (405, ""), "{method} {path}");
            assert!(!reply.head.contains("alone"), "{method} {path}: {}", reply.head);
        }
    }
    assert_eq!(door.asked(), Vec::<String>::new());
}

#[test]
fn where_a_request_ends_is_read_in_one_way_only() {
    let door = Door::open();
    let head = door.ours().join("\r\n");
    let (plain, chunked) = ("{\"a\":1}", "7\r\n{\"a\":1}\r\n0\r\n\r\n");
    for (lengths, body, status) in [
        ("Content-Length: 7", plain, 200),
        ("Transfer-Encoding: chunked", chunked, 200),
        // A length beside chunks counts for nothing (RFC 9112, section 6.3).
        ("Content-Length: 3\r\nTransfer-Encoding: chunked", chunked, 200),
        ("Transfer-Encoding: chunked\r\nContent-Length: 3", chunked, 200),
        ("Content-Length: 7\r\nContent-Length: 3", plain, 400),
        ("Content-Length: 7, 3", plain, 400),
        ("Content-Length: +7", plain, 400),
        ("Transfer-Encoding: gzip", chunked, 400),
        ("Transfer-Encoding: chunked, gzip", chunked, 400),
    ] {
        let mut stream = door.connect();
        let sent =
            format!("POST /ask/inbox HTTP/1.1\r\n{head}\r\nConnection: close\r\n{lengths}\r\n\r\n{body}");
        stream.write_all(sent.as_bytes()).unwrap();
        let reply = reply(&mut stream);
        assert_eq!(reply.status, status, "{lengths}");
        if status == 200 {
            assert_eq!(reply.json()["args"], json!({ "a": 1 }), "{lengths}");
        }
    }
    assert_eq!(door.asked(), vec!["ask inbox"; 4], "nothing behind a request was taken for another one");
}

#[test]
fn what_a_client_says_of_its_address_is_not_believed() {
    let door = door();
    let headers = door.but(
        "Nothing",
        &[
            "X-Forwarded-For: 203.0.113.9",
            "X-Real-IP: 203.0.113.9",
            "Forwarded: for=203.0.113.9;host=elsewhere.example;proto=http",
            "X-Forwarded-Host: elsewhere.example",
            "X-Forwarded-Proto: http",
        ],
    );
    let reply = door.send("POST /ask/inbox", &headers, b"{}");
    assert_eq!((reply.status, &reply.json()["from"]), (200, &json!("127.0.0.1")));
}

#[test]
fn what_stands_in_an_address_is_decoded_once_and_given_once() {
    let door = door();
    let page = door.send("GET /page/p/%252e%252e%252fa", &door.ours(), b"");
    assert_eq!((page.status, page.text().as_str()), (200, "p %2e%2e%2fa"));
    // Nothing is read from behind a question mark: neither whose, nor which.
    for line in ["POST /packet", "POST /finding-photo", "POST /ask/inbox", "GET /page/p/office.pdf"] {
        let with = door.send(&format!("{line}?name=a.zip&session=x&survey=y"), &door.ours(), b"{}");
        let without = door.send(line, &door.ours(), b"{}");
        assert_eq!((with.status, with.text()), (200, without.text()), "{line}");
    }
}

/// The first message of a TLS client of this version with these cipher suites (RFC 5246, section 7.4.1.2).
fn client_hello(version: u16, suites: &[u16]) -> Vec<u8> {
    let counted = |bytes: &[u8]| [&(bytes.len() as u16).to_be_bytes(), bytes].concat();
    let suites: Vec<u8> = suites.iter().flat_map(|suite| suite.to_be_bytes()).collect();
    // Groups X25519 and P-256; points uncompressed; signatures ECDSA with P-256, RSA-PSS, Ed25519.
    let extensions: Vec<u8> =
        [(10u16, &[0, 4, 0, 29, 0, 23][..]), (11, &[1, 0]), (13, &[0, 6, 4, 3, 8, 4, 8, 7])]
            .iter()
            .flat_map(|(kind, bytes)| [kind.to_be_bytes().to_vec(), counted(bytes)].concat())
            .collect();
    let (random, no_session, no_packing) = ([7; 32], [0], [1, 0]);
    let body = [
        &version.to_be_bytes()[..],
        &random,
        &no_session,
        &counted(&suites),
        &no_packing,
        &counted(&extensions),
    ]
    .concat();
    let handshake = [&[1, 0][..], &counted(&body)].concat();
    [&[22, 3, 1][..], &counted(&handshake)].concat()
}

#[test]
fn only_tls_1_2_and_1_3_are_spoken_and_only_with_ciphers_that_also_authenticate() {
    let door = door();
    let answer = |version: u16, suites: &[u16]| {
        let mut socket = TcpStream::connect(("127.0.0.1", door.port)).unwrap();
        socket.set_read_timeout(Some(Duration::from_secs(60))).unwrap();
        socket.write_all(&client_hello(version, suites)).unwrap();
        let mut first = [0; 7];
        socket.read_exact(&mut first).unwrap();
        first
    };
    // ECDHE with ECDSA and AES-128-GCM, AES-256-GCM, ChaCha20-Poly1305: a handshake that goes on with a server's hello.
    for suite in [0xC02B, 0xC02C, 0xCCA9] {
        let first = answer(0x0303, &[suite]);
        assert_eq!((first[0], first[5]), (22, 2), "{suite:04X}: {first:?}");
    }
    // The same of TLS 1.1, 1.0 and SSL 3: "protocol version", a fatal alert.
    for version in [0x0302, 0x0301, 0x0300] {
        let first = answer(version, &[0xC02B, 0x002F]);
        assert_eq!((first[0], first[5], first[6]), (21, 2, 70), "{version:04X}: {first:?}");
    }
    // CBC, CBC with SHA-256, the same without forward secrecy, 3DES, RC4, none at all: "handshake failure".
    for suite in [0xC009, 0xC023, 0x002F, 0x003C, 0x000A, 0x0005, 0xC006] {
        let first = answer(0x0303, &[suite]);
        assert_eq!((first[0], first[5], first[6]), (21, 2, 40), "{suite:04X}: {first:?}");
    }
    let mut stream = door.connect();
    stream.write_all(b"GET / HTTP/1.1\r\n").unwrap();
    stream.flush().unwrap();
    assert_eq!(stream.conn.protocol_version(), Some(rustls::ProtocolVersion::TLSv1_3), "the newer one first");
}

#[test]
fn a_packet_comes_as_a_file_and_is_refused_before_it_is_sent_where_it_may_not_be() {
    let door = Door::open();
    assert_eq!(door.send("POST /ask/inbox", &door.ours(), b"{}").status, 200);
    assert_eq!(door.still_coming(), 0, "what was coming before is swept before anybody is answered");
    let bytes: Vec<u8> = (0..3_000_000u32).map(|n| (n % 251) as u8).collect();
    let reply = door.send("POST /packet", &door.ours(), &bytes);
    assert_eq!((reply.status, reply.json()), (200, json!({ "bytes": bytes.len() })));
    assert!(*door.echo.kept.lock().unwrap() == bytes);
    assert_eq!(door.echo.lay.lock().unwrap().parent(), Some(door.coming.path()));
    // The head alone is enough to be refused: neither nobody nor too much is waited for.
    for (headers, length, status) in [
        (door.but("Cookie", &[]), "1000000".to_owned(), 401),
        (door.ours(), (server::MOST_PACKET + 1).to_string(), 413),
    ] {
        let mut stream = door.connect();
        let head = headers.join("\r\n");
        let head = format!("POST /packet HTTP/1.1\r\n{head}\r\nContent-Length: {length}\r\n\r\n");
        stream.write_all(head.as_bytes()).unwrap();
        stream.conn.send_close_notify();
        stream.flush().unwrap();
        assert_eq!(reply_of(&mut stream).status, status, "{length}");
    }
    // A line that breaks off leaves nothing.
    let mut stream = door.connect();
    let head = door.ours().join("\r\n");
    let head = format!("POST /packet HTTP/1.1\r\n{head}\r\nContent-Length: 1000000\r\n\r\nhalf");
    stream.write_all(head.as_bytes()).unwrap();
    stream.flush().unwrap();
    drop(stream);
    let until = started();
    while door.still_coming() > 0 && until.elapsed() < Duration::from_secs(10) {
        std::thread::sleep(Duration::from_millis(20));
    }
    assert_eq!(door.still_coming(), 0);
    assert_eq!(door.asked().iter().filter(|asked| *asked == "packet").count(), 1, "the whole one");
}

/// The first answer on a line that may stay open.
fn reply_of(stream: &mut impl std::io::Read) -> Reply {
    let (mut bytes, mut one) = (Vec::new(), [0; 1]);
    while !bytes.ends_with(b"\r\n\r\n") && stream.read(&mut one).unwrap_or(0) == 1 {
        bytes.push(one[0]);
    }
    reply(&mut bytes.as_slice())
}

#[allow(clippy::disallowed_methods, reason = "a test waits by the machine's clock")]
fn started() -> Instant {
    Instant::now()
}

#[test]
fn pictures_and_pages_go_out_as_what_they_are() {
    let door = door();
    for (path, media, body) in [
        ("/picture/p/q", "image/jpeg", "OfPacket { packet: \"p\", photo: \"q\", small: false }"),
        ("/thumbnail/p/q", "image/jpeg", "OfPacket { packet: \"p\", photo: \"q\", small: true }"),
        ("/finding-photo/q", "image/jpeg", "OfFinding { photo: \"q\" }"),
        ("/page/p/office.pdf", "application/octet-stream", "p office.pdf"),
    ] {
        let reply = door.send(&format!("GET {path}"), &door.ours(), b"");
        assert_eq!(
            (reply.status, reply.header("content-type"), reply.text()),
            (200, Some(media), body.to_owned())
        );
    }
    let page = door.send("GET /page/p/a%22b.html", &door.ours(), b"");
    assert_eq!(page.header("content-disposition"), Some("attachment; filename=\"a-b.html\""));
    let bytes = vec![0xff; MOST_JSON * 2];
    let photo = door.send("POST /finding-photo", &door.ours(), &bytes);
    let told = json!({ "bytes": bytes.len() });
    assert_eq!(photo.json(), told);
    let nobody = door.send("POST /finding-photo", &door.but("Cookie", &[]), b"");
    assert_eq!(nobody.status, 401);
}

#[test]
fn the_screens_of_the_office_are_given_and_no_others() {
    let door = door();
    for (path, status, body) in [
        ("/", 200, "<!doctype html>"),
        ("/office.html", 200, "<!doctype html>"),
        ("/index.html", 404, ""),
        ("/assets/b.js", 404, ""),
        ("/../Cargo.toml", 404, ""),
    ] {
        let reply = door.send(&format!("GET {path}"), &door.but("Cookie", &[]), b"");
        assert_eq!(reply.status, status, "{path}");
        assert!(reply.text().contains(body), "{path}");
    }
    let packed = door.send("GET /assets/long.js", &door.but("Nothing", &["Accept-Encoding: gzip"]), b"");
    assert_eq!(packed.header("content-encoding"), Some("gzip"));
    let answer = door.send("POST /ask/inbox", &door.but("Nothing", &["Accept-Encoding: gzip"]), b"{}");
    assert_eq!(answer.header("content-encoding"), None);
}

#[test]
fn every_answer_forbids_what_a_page_of_ours_does_not_need() {
    let door = door();
    let foreign = door.but("Host", &["Host: rebound.example"]);
    for (line, headers) in [
        ("GET /", door.ours()),
        ("GET /nowhere", door.ours()),
        ("POST /ask/inbox", door.ours()),
        ("POST /ask/signed-out", door.ours()),
        ("POST /ask/inbox", foreign),
        ("OPTIONS /ask/inbox", door.ours()),
        ("GET /picture/p/q", door.ours()),
    ] {
        let reply = door.send(line, &headers, b"{}");
        let policy = reply.header("content-security-policy").unwrap();
        for part in [
            "default-src 'none'",
            "script-src 'self'",
            "connect-src 'self'",
            "object-src 'none'",
            "base-uri 'none'",
            "form-action 'none'",
            "frame-ancestors 'none'",
        ] {
            assert!(policy.contains(part), "{line}: {policy}");
        }
        assert!(!policy.contains("unsafe"), "{policy}");
        for (name, value) in [
            ("strict-transport-security", "max-age=31536000; includeSubDomains"),
            ("x-content-type-options", "nosniff"),
            ("referrer-policy", "no-referrer"),
            ("cache-control", "no-store"),
            ("cross-origin-resource-policy", "same-origin"),
        ] {
            assert_eq!(reply.header(name), Some(value), "{line}");
        }
        assert_eq!(reply.header("access-control-allow-origin"), None, "{line}");
        assert_eq!(reply.header("location"), None, "{line}: nobody is sent elsewhere");
        assert_eq!(reply.header("content-type").is_none(), reply.body.is_empty(), "{line}");
    }
}

#[test]
fn plain_http_and_another_certificate_get_nowhere() {
    let door = door();
    let mut plain = TcpStream::connect(("127.0.0.1", door.port)).unwrap();
    plain.write_all(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").unwrap();
    let mut bytes = Vec::new();
    let _ = plain.read_to_end(&mut bytes);
    assert!(!bytes.starts_with(b"HTTP"), "{bytes:?}");
    // A client that trusts another certificate notices.
    let other = Door::open();
    let name = ServerName::try_from("localhost").unwrap();
    let socket = TcpStream::connect(("127.0.0.1", door.port)).unwrap();
    let mut stream = StreamOwned::new(ClientConnection::new(Arc::clone(&other.tls), name).unwrap(), socket);
    assert!(stream.write_all(b"GET / HTTP/1.1\r\n\r\n").and_then(|()| stream.flush()).is_err());
}

#[test]
fn a_head_that_drips_is_cut_off() {
    let door = door();
    let mut stream = door.connect();
    stream.write_all(b"GET / HTTP/1.1\r\nHost: local").unwrap();
    stream.flush().unwrap();
    let begun = started();
    let mut bytes = Vec::new();
    let _ = stream.read_to_end(&mut bytes);
    assert!(begun.elapsed() < Duration::from_secs(40), "{:?}", begun.elapsed());
    assert!(!bytes.starts_with(b"HTTP/1.1 200"), "{}", String::from_utf8_lossy(&bytes));
}

#[test]
fn a_tablet_sends_with_its_secret_and_without_anything_of_a_browser() {
    let door = Door::open();
    let host = format!("Host: 127.0.0.1:{}", door.port);
    let tablet = |more: &[&str]| -> Vec<String> {
        let all = [host.as_str(), "Authorization: Bearer 70ken"].into_iter().chain(more.iter().copied());
        all.map(str::to_owned).collect()
    };
    let reply = door.send("POST /device/pair", std::slice::from_ref(&host), b"{\"code\":\"c\"}");
    assert_eq!((reply.status, &reply.json()["ask"]["code"]), (200, &json!("c")));
    let reply = door.send("PUT /device/packet/a", &tablet(&[]), b"recipe");
    assert_eq!((reply.status, reply.json()), (200, json!({ "recipe": 6 })));
    let piece = "PUT /device/packet/a/segment/b";
    let reply = door.send(piece, &tablet(&["Content-Range: bytes 0-2/9"]), b"abc");
    assert_eq!((reply.status, reply.json()), (200, json!({ "have": 3 })));
    let reply = door.send(piece, &tablet(&["Content-Range: bytes 3-5/9"]), b"abc");
    assert_eq!((reply.status, reply.json()), (409, json!({ "have": 0 })));
    let reply = door.send("POST /device/packet/a", &tablet(&[]), b"");
    assert_eq!((reply.status, reply.json()), (200, json!({ "receipt": "signed" })));
    let reply = door.send("GET /device/catalog?have=other", &tablet(&[]), b"");
    assert_eq!((reply.status, reply.json()), (200, json!({ "version": "signed" })));
    assert_eq!(door.send("GET /device/catalog", &tablet(&[]), b"").status, 200);
    let none = door.send("GET /device/catalog?have=this", &tablet(&[]), b"");
    assert_eq!((none.status, none.body.as_slice()), (204, &b""[..]));
    let asked = door.asked();
    assert_eq!(asked[..5], ["pair", "begin a", "piece a b 0 9 3", "piece a b 3 9 3", "finish a"]);
    assert_eq!(asked[5..], ["catalog Some(\"other\")", "catalog None", "catalog Some(\"this\")"]);
    assert_eq!(reply.header("cache-control"), Some("no-store"));

    // What is refused asks nothing more of anybody.
    let large = vec![0; MOST_PIECE + 1];
    let long = format!("Content-Range: bytes 0-{MOST_PIECE}/{}", MOST_PIECE + 5);
    let page = format!("Origin: https://127.0.0.1:{}", door.port);
    for (line, headers, body, status) in [
        (piece, tablet(&[]), &b"abc"[..], 400),
        (piece, tablet(&["Content-Range: bytes 0-3/9"]), b"abc", 400),
        (piece, tablet(&["Content-Range: bytes 8-10/9"]), b"abc", 400),
        (piece, tablet(&[&long]), &large, 413),
        (piece, vec![host.clone(), "Content-Range: bytes 0-2/9".to_owned()], b"abc", 401),
        ("PUT /device/packet/a", vec![host.clone()], b"recipe", 401),
        ("PUT /device/packet/a", tablet(&["Authorization: Bearer 70ken"]), b"recipe", 401),
        ("POST /device/packet/a", vec![host.clone(), "Authorization: Bearer other".to_owned()], b"", 401),
        ("PUT /device/packet/a", tablet(&[&page]), b"recipe", 403),
        ("PUT /device/packet/a", tablet(&["Cookie: a=b"]), b"recipe", 403),
        ("PUT /device/packet/a", tablet(&["Sec-Fetch-Site: same-origin"]), b"recipe", 403),
        ("POST /device/pair", vec!["Host: rebound.example".to_owned()], b"{}", 403),
        ("POST /device/pair", vec![host.clone(), page.clone()], b"{}", 403),
        ("POST /device/pair", vec![host.clone()], b"no json", 400),
        ("DELETE /device/packet/a", tablet(&[]), b"", 405),
        ("GET /device/catalog", vec![host.clone()], b"", 401),
        ("GET /device/catalog?have=a&have=b", tablet(&[]), b"", 404),
        ("GET /device/catalog", tablet(&[&page]), b"", 403),
        ("POST /device/catalog", tablet(&[]), b"", 405),
    ] {
        assert_eq!(door.send(line, &headers, body).status, status, "{line} {headers:?}");
    }
    assert_eq!(door.asked().len(), 8);
    // A tablet's secret opens nothing that is a browser's.
    let reply = door.send("POST /ask/inbox", &tablet(&[]), b"{}");
    assert_eq!(reply.status, 403);
}
