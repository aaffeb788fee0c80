//! A line between a tablet and its office that breaks after so many bytes of an answer.

use std::io::{Read as _, Write as _};
use std::net::{Shutdown, TcpListener, TcpStream};
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// The line; whoever connects to its port reaches the office.
pub struct Relay {
    pub port: u16,
    /// Bytes of the office's side that pass on each connection before it is cut.
    pub passes: Arc<AtomicUsize>,
}

/// A line to the port of an office, whole at first.
pub fn relay(to: u16) -> Relay {
    let listener = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = listener.local_addr().unwrap().port();
    let passes = Arc::new(AtomicUsize::new(usize::MAX));
    let limit = Arc::clone(&passes);
    std::thread::spawn(move || {
        for tablet in listener.incoming() {
            let (Ok(tablet), Ok(office)) = (tablet, TcpStream::connect(("127.0.0.1", to))) else { continue };
            let (asks, answers) = (tablet.try_clone().unwrap(), office.try_clone().unwrap());
            std::thread::spawn(move || carry(asks, office, usize::MAX));
            let most = limit.load(Ordering::SeqCst);
            std::thread::spawn(move || carry(answers, tablet, most));
        }
    });
    Relay { port, passes }
}

/// Carries at most so many bytes, then ends both sides.
fn carry(mut from: TcpStream, mut to: TcpStream, most: usize) {
    let (mut left, mut piece) = (most, [0u8; 4096]);
    while left > 0 {
        let wanted = left.min(piece.len());
        match from.read(&mut piece[..wanted]) {
            Ok(0) | Err(_) => break,
            Ok(came) => {
                left -= came;
                if to.write_all(&piece[..came]).is_err() {
                    break;
                }
            }
        }
    }
    let _ = (from.shutdown(Shutdown::Both), to.shutdown(Shutdown::Both)); // either may be gone
}
