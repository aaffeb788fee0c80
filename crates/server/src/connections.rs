//! Connections: how many, how long, and how they end.
//!
//! | limit | how much | against |
//! | --- | --- | --- |
//! | connections | 512, of one address 128 | whoever opens them and says nothing |
//! | handshake | 10 s | the same |
//! | head of a request | 20 s, 32 kB, also the longest wait for the next one | heads that drip |
//! | body | `door`, `upload` | bodies that drip or do not end |
//! | a write that does not get on | 30 s | readers that do not read |

use std::collections::HashMap;
use std::io;
use std::net::IpAddr;
use std::sync::{Arc, Mutex, PoisonError};
use std::time::Duration;

use axum::Extension;
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::net::{TcpListener, TcpStream};
#[cfg(unix)]
use tokio::sync::Notify;
use tokio::sync::{Semaphore, watch};
use tokio::time::{sleep, timeout};
use tokio_rustls::TlsAcceptor;

use crate::patient::Patient;
use crate::{Office, Serving, door};

const MOST: usize = 512;
const MOST_OF_ONE: usize = 128;
const HANDSHAKE: Duration = Duration::from_secs(10);
const HEAD: Duration = Duration::from_secs(20);
const HEAD_BYTES: usize = 32 * 1024;
const WRITE: Duration = Duration::from_secs(30);
/// How long those are waited for who are being answered when the program ends.
pub(crate) const LAST: Duration = Duration::from_secs(10);

/// The address a connection comes from.
#[derive(Clone, Copy)]
pub(crate) struct Peer(pub(crate) IpAddr);

/// Answers until the program is told to end.
pub(crate) async fn serve(office: Office, serving: Serving) -> io::Result<()> {
    let acceptor = TlsAcceptor::from(office.identity.config());
    let listener = TcpListener::from_std(office.listener)?;
    let router = door::router(office.identity, serving);
    let (ending, ended) = watch::channel(());
    let places = Arc::new(Semaphore::new(MOST));
    let counted = Arc::new(Counted::default());
    let told = office.ending.told()?;
    tokio::pin!(told);
    loop {
        // A place first: who comes when all are taken waits in the system's queue.
        let next = async {
            let place = Arc::clone(&places).acquire_owned().await;
            (place, listener.accept().await)
        };
        let (place, accepted) = tokio::select! {
            () = &mut told => break,
            next = next => next,
        };
        let (Ok(place), Ok((socket, from))) = (place, accepted) else {
            // No descriptor left, or a connection that broke off: a moment, so that this does not spin.
            sleep(Duration::from_millis(50)).await;
            continue;
        };
        let from = from.ip().to_canonical();
        let Some(one) = Counted::enter(&counted, from) else { continue };
        let (acceptor, router, mut ended) = (acceptor.clone(), router.clone(), ended.clone());
        tokio::spawn(async move {
            let _kept = (place, one);
            // What goes wrong here is the other side's: it went away, or speaks no TLS. Nobody is there to be told.
            let _ = connection(socket, &acceptor, router.layer(Extension(Peer(from))), &mut ended).await;
        });
    }
    drop((listener, ended));
    ending.send_replace(());
    let _ = timeout(LAST, ending.closed()).await;
    Ok(())
}

async fn connection(
    socket: TcpStream,
    acceptor: &TlsAcceptor,
    router: axum::Router,
    ended: &mut watch::Receiver<()>,
) -> Result<(), Box<dyn std::error::Error + Send + Sync>> {
    socket.set_nodelay(true)?;
    let stream = timeout(HANDSHAKE, acceptor.accept(Patient::new(socket, WRITE))).await??;
    let serving = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(HEAD)
        .max_buf_size(HEAD_BYTES)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(router));
    tokio::pin!(serving);
    tokio::select! {
        done = serving.as_mut() => return Ok(done?),
        _ = ended.changed() => serving.as_mut().graceful_shutdown(),
    }
    Ok(serving.await?)
}

/// Connections by address.
#[derive(Default)]
struct Counted(Mutex<HashMap<IpAddr, usize>>);

/// A connection that is counted until it ends.
struct One(Arc<Counted>, IpAddr);

impl Counted {
    fn enter(counted: &Arc<Self>, from: IpAddr) -> Option<One> {
        let mut all = counted.0.lock().unwrap_or_else(PoisonError::into_inner);
        let count = all.entry(from).or_default();
        if *count >= MOST_OF_ONE {
            return None;
        }
        *count += 1;
        Some(One(Arc::clone(counted), from))
    }
}

impl Drop for One {
    fn drop(&mut self) {
        let mut all = self.0.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(count) = all.get_mut(&self.1) {
            *count -= 1;
            if *count == 0 {
                all.remove(&self.1);
            }
        }
    }
}

/// What ends the program: Ctrl-C, and what a system sends to a service it ends. Listened for from the moment the door is
/// open, so that nothing is missed before it is served. Elsewhere than on Unix the program is ended from outside, which
/// costs nothing that was acknowledged.
pub(crate) struct Ending {
    #[cfg(unix)]
    signals: signal_hook::iterator::Signals,
}

impl Ending {
    #[cfg(unix)]
    pub(crate) fn listen() -> io::Result<Self> {
        use signal_hook::consts::{SIGINT, SIGTERM};
        Ok(Self { signals: signal_hook::iterator::Signals::new([SIGINT, SIGTERM])? })
    }
    #[cfg(not(unix))]
    pub(crate) fn listen() -> io::Result<Self> {
        Ok(Self {})
    }

    /// Comes true when the program is told to end; a thread of its own waits for it.
    #[cfg(unix)]
    fn told(mut self) -> io::Result<impl Future<Output = ()>> {
        let told = Arc::new(Notify::new());
        let ending = Arc::clone(&told);
        std::thread::Builder::new().spawn(move || {
            self.signals.forever().for_each(|_| ending.notify_one());
        })?;
        Ok(async move { told.notified().await })
    }
    #[cfg(not(unix))]
    fn told(self) -> io::Result<impl Future<Output = ()>> {
        Ok(std::future::pending())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_address_does_not_take_all_places() {
        let counted = Arc::new(Counted::default());
        let (a, b) = ("192.0.2.1".parse().unwrap(), "192.0.2.2".parse().unwrap());
        let mut held: Vec<One> = (0..MOST_OF_ONE).filter_map(|_| Counted::enter(&counted, a)).collect();
        assert_eq!(held.len(), MOST_OF_ONE);
        assert!(Counted::enter(&counted, a).is_none());
        assert!(Counted::enter(&counted, b).is_some());
        held.pop();
        assert!(Counted::enter(&counted, a).is_some());
        drop(held);
        assert!(counted.0.lock().unwrap().is_empty(), "nobody is remembered who left");
    }
}
