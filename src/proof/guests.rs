//! Connections: so many at a time, and none that keeps silent for long, so that files stay free for reading the manual.

use axum::serve::Listener;
use std::io;
use std::net::SocketAddr;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll, ready};
use std::time::Duration;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{OwnedSemaphorePermit, Semaphore};
use tokio::time::{Instant, Sleep, sleep};

/// Connections at a time; more wait at the door. A browser opens six for a page and holds one for news.
const MOST: usize = 256;
/// So long a request may take to come, from the opening of its connection.
const TO_ASK: Duration = Duration::from_secs(10);
/// So long a connection stays on which nothing goes out any more. An open page gets a sign of life more often than that.
const TO_STAY: Duration = Duration::from_secs(60);

/// The door.
pub(super) struct Guests {
    listener: TcpListener,
    places: Arc<Semaphore>,
}

impl Guests {
    pub(super) fn of(listener: TcpListener) -> Self {
        Self { listener, places: Arc::new(Semaphore::new(MOST)) }
    }
}

impl Listener for Guests {
    type Io = Guest;
    type Addr = SocketAddr;

    async fn accept(&mut self) -> (Guest, SocketAddr) {
        // Nobody closes the door, so there always is a place in the end.
        let place = Arc::clone(&self.places).acquire_owned().await.ok();
        let (stream, from) = Listener::accept(&mut self.listener).await;
        (Guest { stream, silence: Box::pin(sleep(TO_ASK)), _place: place }, from)
    }

    fn local_addr(&self) -> io::Result<SocketAddr> {
        self.listener.local_addr()
    }
}

/// One connection, with its place and the time it has left.
pub(super) struct Guest {
    stream: TcpStream,
    silence: Pin<Box<Sleep>>,
    _place: Option<OwnedSemaphorePermit>,
}

impl Guest {
    /// What comes of waiting: the end of the connection, where its time is over.
    fn waits<T>(&mut self, context: &mut Context<'_>) -> Poll<io::Result<T>> {
        ready!(self.silence.as_mut().poll(context));
        Poll::Ready(Err(io::Error::new(io::ErrorKind::TimedOut, "nothing came for too long")))
    }

    /// What came of sending: time to stay, where something went out. What comes in earns none, or a request could come letter by
    /// letter for ever.
    fn sent<T>(&mut self, context: &mut Context<'_>, sent: Poll<io::Result<T>>) -> Poll<io::Result<T>> {
        if sent.is_pending() {
            return self.waits(context);
        }
        self.silence.as_mut().reset(Instant::now() + TO_STAY);
        sent
    }
}

impl AsyncRead for Guest {
    fn poll_read(mut self: Pin<&mut Self>, context: &mut Context<'_>, buffer: &mut ReadBuf<'_>) -> Poll<io::Result<()>> {
        match Pin::new(&mut self.stream).poll_read(context, buffer) {
            Poll::Pending => self.waits(context),
            read => read,
        }
    }
}

impl AsyncWrite for Guest {
    fn poll_write(mut self: Pin<&mut Self>, context: &mut Context<'_>, bytes: &[u8]) -> Poll<io::Result<usize>> {
        let sent = Pin::new(&mut self.stream).poll_write(context, bytes);
        self.sent(context, sent)
    }

    fn poll_write_vectored(mut self: Pin<&mut Self>, context: &mut Context<'_>, bytes: &[io::IoSlice<'_>]) -> Poll<io::Result<usize>> {
        let sent = Pin::new(&mut self.stream).poll_write_vectored(context, bytes);
        self.sent(context, sent)
    }

    fn is_write_vectored(&self) -> bool {
        self.stream.is_write_vectored()
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}
