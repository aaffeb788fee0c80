//! The office with a scanner of the firm's own, and with another machine that collects its log; by the built program.
#![cfg(unix)]

use std::collections::BTreeMap;
use std::fs;
use std::io::{ErrorKind, Read as _};
use std::net::{TcpListener, TcpStream};
use std::os::unix::fs::PermissionsExt as _;
use std::path::Path;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex};
use std::thread::JoinHandle;
use std::time::Duration;

use rustls::pki_types::pem::PemObject as _;
use rustls::pki_types::{CertificateDer, PrivateKeyDer};
use rustls::{ServerConfig, ServerConnection};
use serde_json::{Value, json};

use super::steps::{CLASH, NOT_TAKEN, NOT_THERE, a_house, refuses, seal};
use super::watched::{list, until};
use crate::support::office::{Open, open, open_with};
use crate::support::{python, run, sample_photo};

/// A scanner that ends with what stands in the file `verdict` beside it, but lets its trial pass.
fn scanner(dir: &Path) {
    let text = "#!/bin/sh\ncase $1 in *scanner-trial*) exit 0;; esac\nexit \"$(cat \"$(dirname \"$0\")/verdict\")\"\n";
    fs::write(dir.join("scan"), text).unwrap();
    fs::set_permissions(dir.join("scan"), fs::Permissions::from_mode(0o755)).unwrap();
}

/// The latest lines of the audit log: what, and about what.
fn told(office: &mut Open, most: usize) -> Vec<(String, String)> {
    let (_, lines) = office.ask("audit", &json!({}));
    let text = |line: &Value, key: &str| line[key].as_str().unwrap_or_default().to_owned();
    lines.as_array().unwrap().iter().take(most).map(|l| (text(l, "what"), text(l, "about"))).collect()
}

#[test]
fn what_the_scanner_finds_something_in_or_cannot_look_at_is_not_kept() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    a_house(dir);
    let packet = fs::read(seal(dir)).unwrap();
    scanner(dir);
    let verdict = |code: &str| fs::write(dir.join("verdict"), code).unwrap();
    let with = |program| ["office", "--address", "127.0.0.1:0", "--scanner", program];
    refuses(dir, &with("./nowhere"), 1, &["could not be started"]);
    refuses(dir, &with("/bin/false"), CLASH, &["does harm"]);
    fs::create_dir(dir.join("laid")).unwrap();
    let mut office = open_with(dir, 0, &["--scanner", "./scan", "--watch", "laid"]);
    office.set_up();
    let kept = || list(&dir.join("office/packets"));

    verdict("1");
    let (status, no) = office.packet(&packet);
    assert_eq!((status, &no["kind"]), (409, &json!("conflict")), "{no}");
    assert!(no["message"].as_str().unwrap().contains("el escáner de esta oficina"), "{no}");
    assert_eq!((kept(), office.ask("inbox", &json!({})).1["packets"].clone()), (vec![], json!([])));
    let (what, about) = told(&mut office, 1).remove(0);
    assert!(what == "packet-refused" && about.contains("escáner"), "{what} {about}");
    let photo = fs::read(sample_photo()).unwrap();
    let (status, no) = office.post("/finding-photo", &photo);
    assert_eq!((status, &no["kind"]), (409, &json!("conflict")), "{no}");
    assert_eq!(list(&dir.join("office/findings-photos")), Vec::<String>::new());
    let two = told(&mut office, 2);
    assert!(two.iter().all(|(what, _)| what == "packet-refused") && two[0].1 != two[1].1, "{two:?}");
    // Nothing of them lies where it could be read, or stays.
    assert_eq!(list(&dir.join("office/coming")), Vec::<String>::new());

    // Where it cannot look, nothing is kept either, and whoever sends learns nothing of this machine.
    verdict("2");
    let (status, no) = office.packet(&packet);
    assert_eq!((status, &no["kind"]), (500, &json!("internal")), "{no}");
    assert!(!no.to_string().contains("scan") && !no.to_string().contains("escáner"), "{no}");
    assert_eq!(kept(), Vec::<String>::new());
    let (what, about) = told(&mut office, 1).remove(0);
    assert!(what == "fault" && about.contains("./scan") && about.contains('2'), "{what} {about}");
    // A file in the folder waits until it can be looked at.
    fs::write(dir.join("laid/first.zip"), &packet).unwrap();
    std::thread::sleep(Duration::from_secs(8));
    assert_eq!(list(&dir.join("laid")), ["first.zip"]);
    verdict("1");
    until("it is refused", || list(&dir.join("laid/refused")) == ["first.zip", "first.zip.why.txt"]);
    let why = fs::read_to_string(dir.join("laid/refused/first.zip.why.txt")).unwrap();
    assert!(why.contains("does harm"), "{why}");

    verdict("0");
    assert_eq!(office.packet(&packet).0, 200);
    assert_eq!(office.post("/finding-photo", &photo).0, 200);
    assert_eq!(kept().iter().filter(|name| name.ends_with(".zip")).count(), 1);
    assert_eq!(list(&dir.join("office/findings-photos")).len(), 1);
}

/// Collects what comes over TLS, under the certificate of an office.
struct Collects {
    at: String,
    stop: Arc<AtomicBool>,
    text: Arc<Mutex<Vec<u8>>>,
    thread: Option<JoinHandle<()>>,
}

impl Collects {
    fn begin(dir: &Path, at: &str) -> Self {
        let pem = |name: &str| fs::read(dir.join("office/tls").join(name)).unwrap();
        let chain = vec![CertificateDer::from_pem_slice(&pem("certificate.pem")).unwrap()];
        let key = PrivateKeyDer::from_pem_slice(&pem("key.pem")).unwrap();
        let config = ServerConfig::builder_with_provider(Arc::new(rustls::crypto::ring::default_provider()))
            .with_safe_default_protocol_versions()
            .unwrap()
            .with_no_client_auth()
            .with_single_cert(chain, key)
            .unwrap();
        let listener = TcpListener::bind(at).unwrap();
        listener.set_nonblocking(true).unwrap();
        let at = listener.local_addr().unwrap().to_string();
        let (stop, text) = (Arc::new(AtomicBool::new(false)), Arc::new(Mutex::new(Vec::new())));
        let (stopped, kept, config) = (Arc::clone(&stop), Arc::clone(&text), Arc::new(config));
        let work = move || {
            while !stopped.load(Ordering::Relaxed) {
                match listener.accept() {
                    Ok((socket, _)) => read(socket, &config, &stopped, &kept),
                    Err(_) => std::thread::sleep(Duration::from_millis(20)),
                }
            }
        };
        Self { at, stop, text, thread: Some(std::thread::spawn(work)) }
    }

    /// The messages that came, as they came, each with its length before it.
    fn messages(&self) -> Vec<String> {
        let text = self.text.lock().unwrap().clone();
        let (mut left, mut all) = (&text[..], Vec::new());
        while let Some(space) = left.iter().position(|b| *b == b' ') {
            let length: usize = std::str::from_utf8(&left[..space]).unwrap().parse().unwrap();
            let Some(message) = left.get(space + 1..space + 1 + length) else { break };
            all.push(String::from_utf8(message.to_vec()).unwrap());
            left = &left[space + 1 + length..];
        }
        all
    }

    /// The lines in them by number; a line that came twice is the same.
    fn lines(&self) -> BTreeMap<u64, Value> {
        let mut all: BTreeMap<u64, Value> = BTreeMap::new();
        for message in self.messages() {
            let line: Value = serde_json::from_str(message.split_once('\u{feff}').unwrap().1).unwrap();
            let n = line["n"].as_u64().unwrap();
            assert_eq!(all.entry(n).or_insert_with(|| line.clone()), &line);
        }
        all
    }

    fn end(&mut self) {
        self.stop.store(true, Ordering::Relaxed);
        self.thread.take().unwrap().join().unwrap();
    }
}

fn read(mut socket: TcpStream, config: &Arc<ServerConfig>, stop: &AtomicBool, kept: &Mutex<Vec<u8>>) {
    socket.set_nonblocking(false).unwrap();
    socket.set_read_timeout(Some(Duration::from_millis(50))).unwrap();
    let mut tls = ServerConnection::new(Arc::clone(config)).unwrap();
    let mut bytes = [0; 4096];
    while !stop.load(Ordering::Relaxed) {
        match rustls::Stream::new(&mut tls, &mut socket).read(&mut bytes) {
            Ok(0) => return,
            Ok(n) => kept.lock().unwrap().extend_from_slice(&bytes[..n]),
            Err(e) if matches!(e.kind(), ErrorKind::WouldBlock | ErrorKind::TimedOut) => {}
            Err(_) => return,
        }
    }
}

#[test]
fn the_log_goes_to_a_collector_and_what_is_missing_follows_when_it_is_back() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    let log_to = |to: &str, ca: &str| -> Vec<String> {
        ["office", "--address", "127.0.0.1:0", "--log-to", to, "--log-ca", ca].map(str::to_owned).to_vec()
    };
    let refuse = |to: &str, ca: &str, code, says: &[&str]| {
        let args = log_to(to, ca);
        refuses(dir, &args.iter().map(String::as_str).collect::<Vec<_>>(), code, says)
    };
    // An office of its own makes the certificate of the collector.
    let mut office = open(dir);
    office.set_up();
    drop(office);
    const CA: &str = "office/tls/certificate.pem";
    refuse("collector", CA, NOT_TAKEN, &["no machine the log can be sent to", "collector.example:6514"]);
    refuse("collector.example:6514", "office/tls/key.pem", NOT_TAKEN, &["certificates in PEM"]);
    refuse("collector.example:6514", "nowhere.pem", NOT_THERE, &["nowhere.pem"]);

    let printed = || -> BTreeMap<u64, Value> {
        let out = run(dir, &["office", "log"]);
        let line = |line: &str| -> Value { serde_json::from_str(line).unwrap() };
        out.lines().map(line).map(|line| (line["n"].as_u64().unwrap(), line)).collect()
    };
    let mut collects = Collects::begin(dir, "127.0.0.1:0");
    let at = collects.at.clone();
    let mut office = open_with(dir, 0, &["--log-to", &at, "--log-ca", CA]);
    office.sign_in();
    until("the lines are there", || collects.lines() == printed());
    let first = collects.messages();
    collects.end();

    // Away, and the office goes on; killed meanwhile, it knows how far it was.
    let guess = json!({ "name": "rosa ames", "password": "not the right password" });
    assert_eq!(office.ask("sign-in", &guess).0, 400);
    until("it is told", || run(dir, &["office", "log"]).contains("\"fault\""));
    drop(office);
    let mut office = open_with(dir, 0, &["--log-to", &at, "--log-ca", CA]);
    office.sign_in();
    let mut back = Collects::begin(dir, &at);
    until("what was missing follows", || back.lines() == printed());
    let again = back.messages();
    back.end();

    // The grammar of RFC 5424, section 6, as a pattern of another language.
    let script = r#"
import datetime, json, re, sys
PRINT = "[\x21-\x7e]"
MESSAGE = re.compile(
    rf"<(?P<pri>[0-9]|[1-9][0-9]|1[0-8][0-9]|19[01])>(?P<version>[1-9][0-9]{{0,2}})"
    r" (?P<at>\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|[+-]\d\d:\d\d))"
    rf" (?P<host>-|{PRINT}{{1,255}}) (?P<app>-|{PRINT}{{1,48}}) (?P<process>-|{PRINT}{{1,128}}) (?P<kind>-|{PRINT}{{1,32}})"
    r" (?P<data>-|(\[.*\])+)( (\ufeff)(?P<text>.*))?",
    re.ASCII | re.DOTALL,
)
for text in json.load(sys.stdin):
    m = MESSAGE.fullmatch(text)
    assert m, text
    line = json.loads(m["text"])
    facility, severity = divmod(int(m["pri"]), 8)
    assert (facility, m["version"], m["app"], m["host"]) == (13, "1", "underlath", "127.0.0.1"), text
    assert m["kind"] == line["what"] and m["at"] == line["at"], text
    datetime.datetime.fromisoformat(m["at"])
    assert severity == {"wrong-password": 4, "wrong-link": 4, "fault": 3}.get(line["what"], 5), text
print("read")
"#;
    let all: Vec<String> = first.into_iter().chain(again).collect();
    fs::write(dir.join("messages.json"), serde_json::to_vec(&all).unwrap()).unwrap();
    let input = fs::File::open(dir.join("messages.json")).unwrap();
    let read = python().args(["-c", script]).stdin(input).output().unwrap();
    assert!(read.stdout.starts_with(b"read"), "{}", String::from_utf8_lossy(&read.stderr));
}
