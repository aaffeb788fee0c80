//! The door from outside, byte by byte over a socket: what it refuses, and what it answers.
#![allow(clippy::unwrap_used, reason = "tests")]

use std::io::{Read as _, Write as _};
use std::net::TcpStream;
use std::sync::{Arc, Mutex};

use field::{Answers, Field, MOST_JSON, PhotoTaken, Refusal, Screens, Secrets, Why};
use serde_json::{Value, json};

/// Gives back what it was asked; keeps what was recorded.
#[derive(Default)]
struct Echo {
    asked: Mutex<Vec<String>>,
}

impl Echo {
    fn note(&self, what: String) {
        self.asked.lock().unwrap().push(what);
    }
}

impl Answers for Echo {
    fn ask(&self, language: &str, name: &str, args: Value) -> Result<Value, Refusal> {
        self.note(format!("ask {name}"));
        match name {
            "missing" => {
                let message = "no such house".to_owned();
                Err(Refusal { kind: "missing", message, hint: Some("look".to_owned()) })
            }
            "dies" => std::panic::resume_unwind(Box::new("a command that dies")),
            _ => Ok(json!({ "language": language, "name": name, "args": args })),
        }
    }
    fn take_photo(&self, _: &str, photo: &PhotoTaken<'_>) -> Result<Value, Refusal> {
        self.note(format!("photo {}", photo.name));
        Ok(
            json!({ "survey": photo.survey, "key": photo.key, "name": photo.name, "bytes": photo.bytes.len() }),
        )
    }
    fn pair_photo(&self, _: &str, bytes: &[u8]) -> Result<Value, Refusal> {
        self.note(format!("code {}", bytes.len()));
        Ok(json!({ "bytes": bytes.len() }))
    }
    fn picture(&self, _: &str, digest: &str) -> Result<Vec<u8>, Refusal> {
        self.note(format!("picture {digest}"));
        Ok(vec![0xff, 0xd8, 0x00, 0xff])
    }
    fn thumbnail(&self, _: &str, digest: &str) -> Result<Vec<u8>, Refusal> {
        self.note(format!("thumbnail {digest}"));
        Ok(vec![0xff, 0xd8])
    }
    fn say(&self, _: &str, why: Why) -> Refusal {
        Refusal { kind: "input", message: format!("{why:?}"), hint: None }
    }
}

const SCREENS: Screens = Screens::of(&[
    ("index.html", b"<!doctype html>"),
    ("assets/a.js", b"let a;"),
    ("assets/long.js", &[b'a'; 4_000]),
    ("fonts/a.woff2", &[b'a'; 4_000]),
]);

struct Door {
    port: u16,
    echo: Arc<Echo>,
}

struct Answer {
    status: u16,
    head: String,
    body: Vec<u8>,
}

impl Answer {
    fn header(&self, name: &str) -> Option<&str> {
        let lines = self.head.lines().filter_map(|l| l.split_once(": "));
        lines.into_iter().find(|(n, _)| n.eq_ignore_ascii_case(name)).map(|(_, v)| v)
    }
    fn text(&self) -> String {
        String::from_utf8_lossy(&self.body).into_owned()
    }
    fn json(&self) -> Value {
        serde_json::from_slice(&self.body).unwrap()
    }
}

impl Door {
    fn open() -> Self {
        let secrets = Secrets { token: "t0ken".to_owned(), session: "5ession".to_owned() };
        let field = Field::open(0, secrets).unwrap();
        let address = field.address();
        let port = address.strip_prefix("http://127.0.0.1:").unwrap().strip_suffix("/enter/t0ken").unwrap();
        let (port, echo) = (port.parse().unwrap(), Arc::new(Echo::default()));
        let answers = Arc::clone(&echo);
        std::thread::spawn(move || field.serve(answers, SCREENS).unwrap());
        Self { port, echo }
    }
    /// The headers of a page of ours.
    fn ours(&self) -> Vec<String> {
        let port = self.port;
        vec![
            format!("Host: 127.0.0.1:{port}"),
            format!("Origin: http://127.0.0.1:{port}"),
            "Sec-Fetch-Site: same-origin".to_owned(),
            format!("Cookie: underlath-{port}=5ession"),
            "Content-Type: application/json".to_owned(),
        ]
    }
    /// The same without one header, and with others.
    fn but(&self, without: &str, with: &[&str]) -> Vec<String> {
        let kept = self.ours().into_iter().filter(|h| !h.starts_with(without));
        kept.chain(with.iter().map(|h| (*h).to_owned())).collect()
    }
    fn send(&self, line: &str, headers: &[String], body: &[u8]) -> Answer {
        let mut socket = TcpStream::connect(("127.0.0.1", self.port)).unwrap();
        let length = format!("Content-Length: {}", body.len());
        let mut sent = format!("{line} HTTP/1.1\r\n");
        for header in headers.iter().map(String::as_str).chain(["Connection: close", &length]) {
            sent.push_str(header);
            sent.push_str("\r\n");
        }
        socket.write_all(format!("{sent}\r\n").as_bytes()).unwrap();
        // Too much is refused before it is read to its end, which may close the line under our feet.
        let _ = socket.write_all(body);
        let mut bytes = Vec::new();
        let _ = socket.read_to_end(&mut bytes);
        let end = bytes.windows(4).position(|w| w == b"\r\n\r\n").unwrap();
        let head = String::from_utf8(bytes[..end].to_vec()).unwrap();
        let status = head.split(' ').nth(1).unwrap().parse().unwrap();
        Answer { status, head, body: bytes[end + 4..].to_vec() }
    }
    fn asked(&self) -> Vec<String> {
        self.echo.asked.lock().unwrap().clone()
    }
}

#[test]
fn whoever_is_not_the_page_of_the_printed_address_is_refused_and_asks_nothing() {
    let door = Door::open();
    let other = format!("Host: localhost:{}", door.port);
    let elsewhere = "Origin: http://elsewhere.example";
    let other_cookie = format!("Cookie: underlath-{}=guessed", door.port);
    for (headers, status, why) in [
        (door.but("Host", &["Host: rebound.example"]), 403, "Host"),
        (door.but("Host", &[&other]), 403, "Host"),
        (door.but("Origin", &[elsewhere]), 403, "Origin"),
        (door.but("Origin", &["Origin: null"]), 403, "Origin"),
        (door.but("Origin", &[]), 403, "Origin"),
        (door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: cross-site"]), 403, "Origin"),
        (door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: same-site"]), 403, "Origin"),
        (door.but("Cookie", &[]), 401, "Cookie"),
        (door.but("Cookie", &[&other_cookie]), 401, "Cookie"),
    ] {
        for line in ["POST /ask/houses", "POST /photo?survey=a&name=b", "POST /pair-photo"] {
            let answer = door.send(line, &headers, b"{}");
            assert_eq!(
                (answer.status, answer.json()["message"].as_str().unwrap()),
                (status, why),
                "{line} {headers:?}"
            );
        }
    }
    for path in ["/", "/assets/a.js", "/picture/sha256:00", "/thumbnail/sha256:00"] {
        let answer = door.send(&format!("GET {path}"), &door.but("Cookie", &[]), b"");
        assert_eq!(answer.status, 401, "{path}");
        let answer = door.send(
            &format!("GET {path}"),
            &door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: cross-site"]),
            b"",
        );
        assert_eq!(answer.status, 403, "{path}");
    }
    assert_eq!(door.asked(), Vec::<String>::new());
}

#[test]
fn the_printed_address_opens_once_for_a_cookie_and_is_replaced() {
    let door = Door::open();
    let typed = [format!("Host: 127.0.0.1:{}", door.port), "Sec-Fetch-Site: none".to_owned()];
    let wrong = door.send("GET /enter/guessed", &typed, b"");
    assert_eq!((wrong.status, wrong.header("set-cookie")), (403, None));
    let linked =
        door.send("GET /enter/t0ken", &door.but("Sec-Fetch-Site", &["Sec-Fetch-Site: cross-site"]), b"");
    assert_eq!(
        (linked.status, linked.header("set-cookie")),
        (403, None),
        "a page that knows it may not spend it"
    );
    let first = door.send("GET /enter/t0ken", &typed, b"");
    let cookie = format!("underlath-{}=5ession; HttpOnly; SameSite=Strict; Path=/", door.port);
    assert_eq!((first.status, first.header("location")), (303, Some("/")));
    assert_eq!(first.header("set-cookie"), Some(cookie.as_str()));
    let again = door.send("GET /enter/t0ken", &typed, b"");
    assert_eq!(
        (again.status, again.json()["message"].as_str(), again.header("set-cookie")),
        (403, Some("Token"), None)
    );
}

#[test]
fn a_command_goes_round_with_its_arguments_and_its_language() {
    let door = Door::open();
    let mut headers = door.ours();
    headers.push("X-Underlath-Language: es".to_owned());
    let answer = door.send("POST /ask/house", &headers, "{\"survey\":\"Año\"}".as_bytes());
    assert_eq!((answer.status, answer.header("content-type")), (200, Some("application/json")));
    assert_eq!(answer.json(), json!({ "language": "es", "name": "house", "args": { "survey": "Año" } }));
    let refused = door.send("POST /ask/missing", &headers, b"{}");
    assert_eq!(refused.status, 404);
    assert_eq!(refused.json(), json!({ "kind": "missing", "message": "no such house", "hint": "look" }));
    let dead = door.send("POST /ask/dies", &headers, b"{}");
    assert_eq!((dead.status, dead.json()["message"].as_str()), (500, Some("Ended")));
    assert_eq!(door.send("POST /ask/house", &headers, b"{}").status, 200, "the door stays open");
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
        let answer = door.send("POST /ask/houses", &headers, body);
        assert_eq!(answer.status, status, "{}", answer.head);
        assert!(answer.text().contains(why), "{}", answer.text());
    }
    assert_eq!(door.send("GET /ask/houses", &door.ours(), b"").status, 405);
    assert_eq!(door.asked(), Vec::<String>::new());
    let most = vec![b' '; MOST_JSON - 2];
    assert_eq!(door.send("POST /ask/houses", &door.ours(), &[&b"{}"[..], &most].concat()).status, 200);
}

#[test]
fn a_photograph_comes_in_as_bytes_and_its_picture_goes_out_as_bytes() {
    let door = Door::open();
    let bytes = vec![0xff; MOST_JSON * 4];
    let answer = door.send("POST /photo?survey=0195&key=sink%40bath&name=a%20b.jpg", &door.ours(), &bytes);
    assert_eq!(
        answer.json(),
        json!({ "survey": "0195", "key": "sink@bath", "name": "a b.jpg", "bytes": bytes.len() })
    );
    let without = door.send("POST /photo?survey=0195", &door.ours(), &bytes);
    assert_eq!((without.status, without.json()["message"].as_str()), (400, Some("PhotoWithout")));
    let code = door.send("POST /pair-photo", &door.ours(), &bytes);
    assert_eq!(code.json(), json!({ "bytes": bytes.len() }));
    let picture = door.send("GET /picture/sha256:00", &door.ours(), b"");
    assert_eq!((picture.status, picture.header("content-type")), (200, Some("image/jpeg")));
    assert_eq!(picture.body, [0xff, 0xd8, 0x00, 0xff]);
    let small = door.send("GET /thumbnail/sha256:00", &door.ours(), b"");
    assert_eq!((small.status, small.header("content-type")), (200, Some("image/jpeg")));
    assert_eq!(small.body, [0xff, 0xd8]);
}

#[test]
fn the_files_of_the_screens_are_given_and_no_others() {
    let door = Door::open();
    for (path, status, media) in [
        ("/", 200, "text/html; charset=utf-8"),
        ("/assets/a.js", 200, "text/javascript; charset=utf-8"),
        ("/assets/b.js", 404, "application/json"),
        ("/../Cargo.toml", 404, "application/json"),
        ("/%2e%2e/Cargo.toml", 404, "application/json"),
    ] {
        let answer = door.send(&format!("GET {path}"), &door.ours(), b"");
        assert_eq!((answer.status, answer.header("content-type")), (status, Some(media)), "{path}");
    }
}

#[test]
fn long_files_are_sent_packed_to_whoever_takes_that() {
    let door = Door::open();
    let packing = |path: &str, headers: &[&str]| {
        let answer = door.send(&format!("GET {path}"), &door.but("Nothing", headers), b"");
        (answer.header("content-encoding").map(str::to_owned), answer.body.len())
    };
    let gzip = &["Accept-Encoding: br, gzip"];
    let (how, bytes) = packing("/assets/long.js", gzip);
    assert_eq!(how.as_deref(), Some("gzip"));
    assert!(bytes < 200, "{bytes}");
    for (path, headers) in [
        ("/assets/long.js", &[][..]),
        ("/assets/long.js", &["Accept-Encoding: gzip;q=0"]),
        ("/fonts/a.woff2", gzip),
    ] {
        assert_eq!(packing(path, headers), (None, 4_000), "{path} {headers:?}");
    }
    let answer = door.send("POST /ask/houses", &door.but("Nothing", gzip), b"{}");
    assert_eq!(answer.header("content-encoding"), None);
}

#[test]
fn every_answer_forbids_what_a_page_of_ours_does_not_need() {
    let door = Door::open();
    let foreign = door.but("Host", &["Host: rebound.example"]);
    for (line, headers) in [
        ("GET /", door.ours()),
        ("GET /", door.but("Cookie", &[])),
        ("GET /nowhere", door.ours()),
        ("POST /ask/houses", door.ours()),
        ("POST /ask/houses", foreign),
        ("GET /enter/guessed", door.ours()),
        ("OPTIONS /ask/houses", door.ours()),
    ] {
        let answer = door.send(line, &headers, b"{}");
        let policy = answer.header("content-security-policy").unwrap();
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
            ("x-content-type-options", "nosniff"),
            ("referrer-policy", "no-referrer"),
            ("cache-control", "no-store"),
            ("cross-origin-resource-policy", "same-origin"),
        ] {
            assert_eq!(answer.header(name), Some(value), "{line}");
        }
        assert_eq!(answer.header("access-control-allow-origin"), None, "{line}");
    }
}
