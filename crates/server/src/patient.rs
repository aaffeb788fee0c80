//! A connection that waits only so long for the other side to take what is written. Reading has its limits elsewhere: hyper's
//! for heads, ours for bodies.

use std::io;
use std::pin::Pin;
use std::task::{Context, Poll, ready};
use std::time::Duration;

use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::time::{Instant, Sleep, sleep};

/// A stream whose writes must get on within a time.
pub(crate) struct Patient<S> {
    inner: S,
    most: Duration,
    until: Pin<Box<Sleep>>,
    waits: bool,
}

impl<S> Patient<S> {
    pub(crate) fn new(inner: S, most: Duration) -> Self {
        Self { inner, most, until: Box::pin(sleep(most)), waits: false }
    }

    fn within<T>(&mut self, cx: &mut Context<'_>, done: Poll<io::Result<T>>) -> Poll<io::Result<T>> {
        if done.is_ready() {
            self.waits = false;
            return done;
        }
        if !self.waits {
            self.waits = true;
            let until = Instant::now() + self.most;
            self.until.as_mut().reset(until);
        }
        ready!(self.until.as_mut().poll(cx));
        Poll::Ready(Err(io::ErrorKind::TimedOut.into()))
    }
}

impl<S: AsyncRead + Unpin> AsyncRead for Patient<S> {
    fn poll_read(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        buf: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.inner).poll_read(cx, buf)
    }
}

impl<S: AsyncWrite + Unpin> AsyncWrite for Patient<S> {
    fn poll_write(mut self: Pin<&mut Self>, cx: &mut Context<'_>, buf: &[u8]) -> Poll<io::Result<usize>> {
        let done = Pin::new(&mut self.inner).poll_write(cx, buf);
        self.within(cx, done)
    }
    fn poll_flush(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        let done = Pin::new(&mut self.inner).poll_flush(cx);
        self.within(cx, done)
    }
    fn poll_shutdown(mut self: Pin<&mut Self>, cx: &mut Context<'_>) -> Poll<io::Result<()>> {
        let done = Pin::new(&mut self.inner).poll_shutdown(cx);
        self.within(cx, done)
    }
    fn poll_write_vectored(
        mut self: Pin<&mut Self>,
        cx: &mut Context<'_>,
        bufs: &[io::IoSlice<'_>],
    ) -> Poll<io::Result<usize>> {
        let done = Pin::new(&mut self.inner).poll_write_vectored(cx, bufs);
        self.within(cx, done)
    }
    fn is_write_vectored(&self) -> bool {
        self.inner.is_write_vectored()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use tokio::io::{AsyncReadExt as _, AsyncWriteExt as _, duplex};

    #[test]
    fn whoever_takes_nothing_is_let_go_and_whoever_takes_a_little_is_waited_for() {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_time().build().unwrap();
        runtime.block_on(async {
            let (ours, mut theirs) = duplex(4);
            let mut ours = Patient::new(ours, Duration::from_millis(200));
            let slow = async {
                let mut byte = [0; 1];
                for _ in 0..8 {
                    sleep(Duration::from_millis(60)).await;
                    theirs.read_exact(&mut byte).await.unwrap();
                }
            };
            // Longer than the limit in all, never so long without a byte.
            let (written, ()) = tokio::join!(ours.write_all(b"twelve bytes"), slow);
            written.unwrap();
            let refused = ours.write_all(b"and more that nobody takes").await.unwrap_err();
            assert_eq!(refused.kind(), io::ErrorKind::TimedOut);
        });
    }
}
