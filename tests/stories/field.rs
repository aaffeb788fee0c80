//! The screens in a browser of this machine: the printed address is opened once, a house is asked for and answered over
//! the same commands as in the window, a photograph comes in as bytes.

use std::io::{BufRead as _, BufReader, Read as _, Write as _};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Stdio};

use serde_json::{Value, json};

use super::steps::{CLASH, HOUSE, a_house, entries, json as told, photo};
use crate::support::{refused, root, underlath};

/// The program at its door; ended when the test is.
struct Open {
    child: Child,
    port: u16,
    cookie: String,
}

impl Drop for Open {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Starts the program and opens the printed address.
fn open(dir: &Path) -> Open {
    let mut child = underlath(dir).args(["field"]).stdout(Stdio::piped()).spawn().unwrap();
    let lines = BufReader::new(child.stdout.take().unwrap()).lines().map(Result::unwrap);
    let address = lines.map(|l| l.trim().to_owned()).find(|l| l.starts_with("http://127.0.0.1:")).unwrap();
    let rest = address.strip_prefix("http://127.0.0.1:").unwrap();
    let (port, path) = rest.split_once('/').unwrap();
    let mut open = Open { child, port: port.parse().unwrap(), cookie: String::new() };
    let (status, head, _) = open.send(&format!("GET /{path}"), &[], b"");
    assert_eq!(status, 303, "{head}");
    let set = head.lines().find_map(|l| l.strip_prefix("set-cookie: ")).unwrap();
    open.cookie = format!("Cookie: {}", set.split(';').next().unwrap());
    assert_eq!(open.send(&format!("GET /{path}"), &[], b"").0, 403, "the address is used up");
    open
}

impl Open {
    fn send(&self, line: &str, more: &[&str], body: &[u8]) -> (u16, String, Vec<u8>) {
        let (port, cookie, length) = (self.port, &self.cookie, body.len());
        let mut socket = TcpStream::connect(("127.0.0.1", port)).unwrap();
        let mut sent = format!("{line} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n");
        for header in [cookie.as_str(), &format!("Content-Length: {length}")].iter().chain(more) {
            if !header.is_empty() {
                sent.push_str(&format!("{header}\r\n"));
            }
        }
        socket.write_all(format!("{sent}\r\n").as_bytes()).unwrap();
        socket.write_all(body).unwrap();
        let mut bytes = Vec::new();
        socket.read_to_end(&mut bytes).unwrap();
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").unwrap();
        let head = String::from_utf8(bytes[..end].to_vec()).unwrap();
        (head.split(' ').nth(1).unwrap().parse().unwrap(), head, bytes[end + 4..].to_vec())
    }
    fn post(&self, path: &str, body: &[u8]) -> (u16, Value) {
        let origin = format!("Origin: http://127.0.0.1:{}", self.port);
        let headers = [origin.as_str(), "Content-Type: application/json", "X-Underlath-Language: es"];
        let (status, _, body) = self.send(&format!("POST {path}"), &headers, body);
        (status, serde_json::from_slice(&body).unwrap())
    }
    fn ask(&self, name: &str, args: &Value) -> (u16, Value) {
        self.post(&format!("/ask/{name}"), args.to_string().as_bytes())
    }
}

/// True where the screens lay in `ui/dist` when the program was built.
fn with_screens() -> bool {
    root().join("ui/dist/index.html").is_file()
}

#[test]
fn a_house_is_walked_in_a_browser_over_the_same_commands() {
    let dir = tempfile::tempdir().unwrap();
    let dir = dir.path();
    if !with_screens() {
        let (code, words) = refused(dir, &["field"]);
        assert!(code == 3 && words.contains("make field"), "{words}");
        return;
    }
    a_house(dir);
    let before = entries(dir);
    let open = open(dir);
    let (status, head, page) = open.send("GET /", &[], b"");
    assert!(status == 200 && head.contains("text/html"), "{head}");
    let page = String::from_utf8(page).unwrap();
    let script = page.split("src=\"").nth(1).unwrap().split('"').next().unwrap();
    assert_eq!(open.send(&format!("GET {script}"), &[], b"").0, 200, "{script}");

    let (status, houses) = open.ask("houses", &json!({}));
    assert_eq!((status, &houses[0]["label"]), (200, &HOUSE.into()));
    let survey = houses[0]["survey"].as_str().unwrap();
    let (status, done) =
        open.ask("answer", &json!({ "survey": survey, "key": "faucet-flow", "answer": ["1.5"] }));
    assert_eq!(status, 200, "{done}");
    let (status, no) =
        open.ask("answer", &json!({ "survey": survey, "key": "faucet-flwo", "answer": ["1.5"] }));
    assert!(status >= 400 && no["hint"].as_str().is_some_and(|h| h.contains("faucet-flow")), "{status} {no}");
    assert_eq!(open.ask("no-such-command", &json!({})).0, 404);

    // Its bytes go in as they are, and a small upright picture comes out.
    let bytes = std::fs::read(photo()).unwrap();
    let (status, taken) = open.post(&format!("/photo?survey={survey}&key=stub-height&name=new.jpg"), &bytes);
    assert_eq!(status, 200, "{taken}");
    let digest = taken["digest"].as_str().unwrap();
    let (status, head, small) = open.send(&format!("GET /picture/{digest}"), &[], b"");
    assert!(status == 200 && head.contains("image/jpeg") && small.starts_with(&[0xff, 0xd8]), "{head}");
    let (status, no) = open.post(&format!("/photo?survey={survey}&name=new.jpg"), b"no photograph");
    assert!(status == 400 && no["message"].as_str().is_some(), "{no}");
    assert_eq!(open.send("GET /picture/..%2f..%2fstore", &[], b"").0, 404);

    let port = open.port.to_string();
    let (code, words) = refused(dir, &["field", "--port", &port]);
    assert!(code == CLASH && words.contains(&port), "{words}");
    drop(open);
    // What was answered in the browser is in the log of the device.
    assert!(entries(dir) > before);
    let view = told(dir, &["show", HOUSE]);
    assert!(view.to_string().contains("1.5"), "{view}");
}
