//! Showing a manual in a browser on this machine while it is being written.
//!
//! Invariants: what is answered comes from memory, from the one copy that was last put on the shelf; nothing here opens
//! a file; a request that is not plainly meant for this server is refused; the time and the system are asked only for
//! when to look again, never for what is shown.

mod address;
mod answer;
mod guests;
mod news;
mod server;
mod shelf;
mod watch;

pub use server::{Closing, Ending, KeptOpen, ServeError, doors, free_port_after, listen, serve};
pub use shelf::{Edition, Shelf};
pub use watch::{Saved, Watch};
