//! Opening files, each within bounds: the one place of this stage that touches the disk, beside the walk.

#![expect(clippy::disallowed_methods, reason = "this stage reads the manual's files, and reads them here")]

use super::picture::digits;
use sha2::{Digest, Sha256};
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};

/// Bytes of a file, or why there are none.
#[derive(Debug)]
pub(super) enum Content {
    /// All of it.
    Bytes(Vec<u8>),
    /// More than the limit: its size in bytes, as far as the system tells.
    TooLarge(u64),
    /// It can't be read.
    Failed(io::Error),
}

/// Reads a regular file of at most `limit` bytes; of a larger one never more than that is held.
pub(super) fn read(path: &Path, limit: u64) -> Content {
    match read_within(path, limit) {
        Ok(content) => content,
        Err(error) => Content::Failed(error),
    }
}

fn read_within(path: &Path, limit: u64) -> io::Result<Content> {
    let facts = fs::metadata(path)?;
    // A pipe or device is not opened: opening one can wait for ever.
    if !facts.is_file() {
        return Err(io::Error::new(io::ErrorKind::InvalidInput, "not a regular file"));
    }
    if facts.len() > limit {
        return Ok(Content::TooLarge(facts.len()));
    }
    let mut bytes = Vec::with_capacity(usize::try_from(facts.len()).unwrap_or(0).saturating_add(1));
    // The file may have grown since.
    File::open(path)?.take(limit.saturating_add(1)).read_to_end(&mut bytes)?;
    let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    Ok(if size > limit { Content::TooLarge(size) } else { Content::Bytes(bytes) })
}

/// So much of a file is held at a time to tell its fingerprint.
const PIECE: usize = 256 * 1024;

/// The fingerprint of a file; none where it can't be read.
#[must_use]
pub fn fingerprint_of_file(path: &Path) -> Option<String> {
    let mut file = File::open(path).ok()?;
    let mut hash = Sha256::new();
    let mut piece = vec![0; PIECE];
    loop {
        match file.read(&mut piece) {
            Ok(0) => return Some(digits(&hash.finalize())),
            Ok(length) => hash.update(piece.get(..length)?),
            Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
            Err(_) => return None,
        }
    }
}

/// The real path of something, all links followed.
pub(super) fn real(path: &Path) -> io::Result<PathBuf> {
    fs::canonicalize(path)
}

/// Why the system does not let a path be looked at; none where it does, or where nothing is there.
pub(super) fn refused(path: &Path) -> Option<String> {
    fs::metadata(path).err().filter(|error| error.kind() == io::ErrorKind::PermissionDenied).map(|error| error.to_string())
}

/// Whether a path is a folder (links followed); false where it can't be told.
pub(super) fn is_folder(path: &Path) -> bool {
    path.is_dir()
}

/// Whether a path is a regular file (links followed); false where it can't be told.
pub(super) fn is_regular_file(path: &Path) -> bool {
    path.is_file()
}
