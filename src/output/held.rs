//! What a published folder holds already, for whoever would rather not make it again.

use super::record::{Record, bytes_in, sha256};
use super::{OutputError, disk};
use std::path::{Path, PathBuf};

/// The files that we wrote into a folder, by its record.
#[derive(Debug)]
pub struct Held {
    folder: PathBuf,
    record: Record,
}

/// Reads what a folder holds of ours; nothing where it isn't there yet or has no record.
///
/// # Errors
/// As for the record: [`OutputError::Record`], [`OutputError::NewerRecord`], [`OutputError::Disk`] and what stands in its place.
pub fn held(folder: &Path) -> Result<Held, OutputError> {
    let record = match bytes_in(folder)? {
        Some(bytes) => Record::from_bytes(folder, &bytes)?,
        None => Record::default(),
    };
    Ok(Held { folder: folder.to_owned(), record })
}

impl Held {
    /// Whether a file stands there just as we wrote it. One that can't be read doesn't.
    #[must_use]
    pub fn holds(&self, path: &str) -> bool {
        let Some(hash) = self.record.files.get(path) else { return false };
        let there = disk::file_there(&self.folder, path).unwrap_or(false);
        there && disk::read(&self.folder.join(path)).is_ok_and(|bytes| sha256(&bytes) == *hash)
    }
}
