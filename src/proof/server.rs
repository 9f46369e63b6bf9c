//! The server itself: its port, and the end of the program.

use super::address::Door;
use super::answer::{House, answer};
use super::guests::Guests;
use super::shelf::Shelf;
use axum::Router;
use futures_util::future::{Either, select};
use std::fmt;
use std::io;
use std::net::{IpAddr, SocketAddr, TcpListener};
use std::future::IntoFuture;
use std::pin::pin;
use tokio::sync::oneshot::{self, Receiver, Sender};

/// How many ports behind a taken one are tried.
const TRIED: u16 = 200;

/// Why the server can't answer.
#[derive(Debug)]
pub enum ServeError {
    /// Another program has the port.
    Taken(SocketAddr),
    /// This machine has no such address.
    NoSuchAddress(IpAddr),
    /// The system does not allow it: on most, ports below 1024 are kept back.
    NotAllowed(SocketAddr),
    /// The system refused something else.
    System(io::Error),
}

impl fmt::Display for ServeError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Taken(at) => write!(f, "port {} at {} is taken by another program", at.port(), at.ip()),
            Self::NoSuchAddress(address) => write!(f, "this machine has no address {address}"),
            Self::NotAllowed(at) => write!(f, "the system does not allow port {}; take one above 1023", at.port()),
            Self::System(error) => write!(f, "the system does not let the proof answer ({error})"),
        }
    }
}

impl std::error::Error for ServeError {}

/// Takes a port. Requests wait from here on, and are answered once [`serve`] runs.
///
/// # Errors
/// Where the port or the address can't be had.
pub fn listen(address: IpAddr, port: u16) -> Result<(TcpListener, SocketAddr), ServeError> {
    let at = SocketAddr::new(address, port);
    let listener = TcpListener::bind(at).map_err(|error| match error.kind() {
        io::ErrorKind::AddrInUse => ServeError::Taken(at),
        io::ErrorKind::AddrNotAvailable => ServeError::NoSuchAddress(address),
        io::ErrorKind::PermissionDenied => ServeError::NotAllowed(at),
        _ => ServeError::System(error),
    })?;
    listener.set_nonblocking(true).map_err(ServeError::System)?;
    let own = listener.local_addr().map_err(ServeError::System)?;
    Ok((listener, own))
}

/// The next port behind one that is taken that is free at this moment.
#[must_use]
pub fn free_port_after(address: IpAddr, taken: u16) -> Option<u16> {
    (1..=TRIED).filter_map(|more| taken.checked_add(more)).find(|port| TcpListener::bind((address, *port)).is_ok())
}

/// What keeps a server answering: while this is held.
#[derive(Debug)]
pub struct KeptOpen(#[expect(dead_code, reason = "it is held, and told by its end")] Sender<()>);

/// How a server hears that it is to close.
#[derive(Debug)]
pub struct Closing(Receiver<()>);

/// A server's door, from within and from without.
#[must_use]
pub fn doors() -> (KeptOpen, Closing) {
    let (held, heard) = oneshot::channel();
    (KeptOpen(held), Closing(heard))
}

/// Answers from the shelf until its door closes. Open pages hold connections that would never end by themselves: they are cut, and
/// the pages tell their readers.
///
/// # Errors
/// [`ServeError::System`].
pub fn serve(listener: TcpListener, shelf: Shelf, closing: Closing) -> Result<(), ServeError> {
    let own = listener.local_addr().map_err(ServeError::System)?;
    let house = House { door: Door { address: own.ip(), port: own.port() }, shelf };
    let runtime = tokio::runtime::Builder::new_current_thread().enable_io().enable_time().build().map_err(ServeError::System)?;
    let ended = runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener)?;
        let site = Router::new().fallback(answer).with_state(house);
        match select(pin!(axum::serve(Guests::of(listener), site).into_future()), closing.0).await {
            Either::Left((served, _)) => served,
            Either::Right(_) => Ok(()),
        }
    });
    runtime.shutdown_background();
    ended.map_err(ServeError::System)
}

/// Hears when the person at the keyboard, or the system, asks the program to end.
#[derive(Debug)]
pub struct Ending {
    runtime: tokio::runtime::Runtime,
    asked: Asked,
}

impl Ending {
    /// Listens from here on: whoever asks before [`Ending::wait`] is heard then.
    ///
    /// # Errors
    /// [`ServeError::System`].
    pub fn listen() -> Result<Self, ServeError> {
        let runtime = tokio::runtime::Builder::new_current_thread().enable_io().build().map_err(ServeError::System)?;
        let inside = runtime.enter();
        let asked = Asked::listen().map_err(ServeError::System)?;
        drop(inside);
        Ok(Self { runtime, asked })
    }

    /// Waits until the program is asked to end.
    ///
    /// # Errors
    /// [`ServeError::System`].
    pub fn wait(self) -> Result<(), ServeError> {
        self.runtime.block_on(self.asked.heard()).map_err(ServeError::System)
    }
}

/// Ctrl-C, and the system's own ways of asking a program to end.
#[cfg(unix)]
#[derive(Debug)]
struct Asked([tokio::signal::unix::Signal; 3]);

#[cfg(unix)]
impl Asked {
    fn listen() -> io::Result<Self> {
        use tokio::signal::unix::{SignalKind, signal};
        Ok(Self([signal(SignalKind::interrupt())?, signal(SignalKind::terminate())?, signal(SignalKind::hangup())?]))
    }

    async fn heard(self) -> io::Result<()> {
        let [mut interrupt, mut terminate, mut hangup] = self.0;
        select(select(pin!(interrupt.recv()), pin!(terminate.recv())), pin!(hangup.recv())).await;
        Ok(())
    }
}

/// Ctrl-C.
#[cfg(not(unix))]
#[derive(Debug)]
struct Asked;

#[cfg(not(unix))]
impl Asked {
    fn listen() -> io::Result<Self> {
        Ok(Self)
    }

    async fn heard(self) -> io::Result<()> {
        tokio::signal::ctrl_c().await
    }
}
