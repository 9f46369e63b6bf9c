//! The server itself: its port, and its end.

use super::address::Door;
use super::answer::{House, answer};
use super::shelf::Shelf;
use axum::Router;
use futures_util::future::{Either, select};
use std::fmt;
use std::future::IntoFuture;
use std::io;
use std::net::{IpAddr, SocketAddr, TcpListener};
use std::pin::pin;

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

/// Answers from the shelf until the person at the keyboard, or the system, ends the program.
///
/// # Errors
/// [`ServeError::System`].
pub fn serve(listener: TcpListener, shelf: Shelf) -> Result<(), ServeError> {
    let own = listener.local_addr().map_err(ServeError::System)?;
    let house = House { door: Door { address: own.ip(), port: own.port() }, shelf };
    let runtime = tokio::runtime::Builder::new_current_thread().enable_io().enable_time().build().map_err(ServeError::System)?;
    let ended = runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener)?;
        let site = Router::new().fallback(answer).with_state(house);
        match select(pin!(axum::serve(listener, site).into_future()), pin!(end())).await {
            Either::Left((served, _)) => served,
            Either::Right((asked, _)) => asked,
        }
    });
    // Open pages hold connections that would never end by themselves.
    runtime.shutdown_background();
    ended.map_err(ServeError::System)
}

/// Waits for Ctrl-C, or for the system's own way of asking a program to end.
#[cfg(unix)]
async fn end() -> io::Result<()> {
    use tokio::signal::unix::{SignalKind, signal};
    let (mut interrupt, mut terminate, mut hangup) = (signal(SignalKind::interrupt())?, signal(SignalKind::terminate())?, signal(SignalKind::hangup())?);
    select(select(pin!(interrupt.recv()), pin!(terminate.recv())), pin!(hangup.recv())).await;
    Ok(())
}

/// Waits for Ctrl-C.
#[cfg(not(unix))]
async fn end() -> io::Result<()> {
    tokio::signal::ctrl_c().await
}
