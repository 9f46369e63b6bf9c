//! Publishing: compares the pages with what a folder holds, says what it would do and why, and does it.
//!
//! Invariants: this is the only stage that writes. A folder with files in it but without our record is
//! somebody else's and stays untouched; in a folder of ours only files of the record are ever replaced or
//! removed. No symbolic link inside the folder is followed. Each file is replaced whole, by a rename;
//! a file that is as wanted isn't touched. A run that is stopped half-way leaves every file either old
//! or new, and the next run goes on from there.
//!
//! These of ours lie in the folder besides: the record (`.benchleaf-record.json`), an empty file by which
//! two runs keep out of each other's way (`.benchleaf-lock`; the lock itself is the operating system's and
//! ends with its process, so it never goes stale), and for moments a file being written
//! (`.benchleaf-new-…`), the files of a site being put together (`.benchleaf-staged`), and what one run leaves for the next so
//! that it has less to do (`.benchleaf-kept`; nothing depends on it, and it may be deleted at any time).

mod apart;
mod apply;
mod disk;
mod error;
mod fresh;
mod held;
mod kept;
mod name;
mod plan;
mod record;
mod scratch;
mod stage;

pub use apart::check_apart;
pub use apply::{Summary, apply};
pub use error::{OutputError, Overlap};
pub use fresh::write_fresh;
pub use held::{Held, held};
pub use disk::{folder_there, read_back};
pub use kept::Kept;
pub use scratch::Scratch;
pub use stage::{Published, Stage};
pub use plan::{Action, Entry, Plan, RemoveReason, WriteReason, plan};

/// A file to publish.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageFile {
    /// Where it stands below the output folder, with `/` between the parts. Every part must be a name that
    /// all common file systems take.
    pub path: String,
    /// What it holds.
    pub content: Content,
}

/// What a file to publish holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Content {
    /// These bytes.
    Bytes(Vec<u8>),
    /// What was laid down for it by [`Stage::put`], with this fingerprint.
    Staged(String),
    /// What stands there already, as [`Held`] has told.
    AsHeld,
}
