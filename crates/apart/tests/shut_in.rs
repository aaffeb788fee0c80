//! What a process that shut itself in can still do. The test starts itself again and looks from within.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_methods,
    clippy::print_stdout,
    reason = "a test that starts itself again: the environment tells it so, its output that it came to the end"
)]

use std::fs::{self, File};
use std::net::{TcpListener, TcpStream, UdpSocket};
use std::process::Command;
use std::{env, io};

use apart::ByTheKernel;

/// Set for the process that is to shut itself in: a port somebody listens on, and a folder.
const INSIDE: &str = "APART_TEST_INSIDE";

#[test]
fn a_process_that_shut_itself_in_opens_reaches_and_starts_nothing() {
    if let Ok(given) = env::var(INSIDE) {
        return inside(&given);
    }
    let room = tempfile::tempdir().unwrap();
    fs::write(room.path().join("secret"), "a photograph of another house").unwrap();
    let door = TcpListener::bind("127.0.0.1:0").unwrap();
    let given = format!("{} {}", door.local_addr().unwrap(), room.path().display());
    let done = Command::new(env::current_exe().unwrap())
        .args(["--exact", "a_process_that_shut_itself_in_opens_reaches_and_starts_nothing", "--nocapture"])
        .env(INSIDE, given)
        .output()
        .unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
    assert!(String::from_utf8_lossy(&done.stdout).contains("shut in"), "it never came to the end");
    assert_eq!(fs::read_dir(room.path()).unwrap().count(), 1, "it left something");
}

fn inside(given: &str) {
    let (address, folder) = given.split_once(' ').unwrap();
    let secret = format!("{folder}/secret");
    // All of it works before, so that what fails afterwards fails for this.
    drop(File::open(&secret).unwrap());
    drop(TcpStream::connect(address).unwrap());
    let kernel = apart::shut_in().unwrap();
    let refused = |what: &str, done: io::Result<()>| assert!(done.is_err(), "{what} is still possible");
    refused("reading", fs::read(&secret).map(drop));
    refused("listing", fs::read_dir(folder).map(drop));
    refused("writing", fs::write(format!("{folder}/left"), "x"));
    // These open nothing: only the kernel can refuse them.
    if kernel == ByTheKernel::Paths {
        refused("renaming", fs::rename(&secret, format!("{folder}/other")));
        refused("taking away", fs::remove_file(&secret));
    }
    refused("starting a program", Command::new("/bin/true").status().map(drop));
    refused("a connection", TcpStream::connect(address).map(drop));
    refused("a port", TcpListener::bind("127.0.0.1:0").map(drop));
    refused("a datagram", UdpSocket::bind("127.0.0.1:0").map(drop));
    let mut much: Vec<u8> = Vec::new();
    assert!(much.try_reserve_exact(4 << 30).is_err(), "memory has no end");
    println!("shut in");
}
