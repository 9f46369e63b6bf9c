//! Files that a command is given and that are no part of a manual: captions, spreadsheets.

use super::ReadError;
use super::disk::{self, Content};
use std::path::Path;

/// The bytes of a file of at most `limit` bytes.
///
/// # Errors
/// Where it is not there, no regular file, larger, or can't be read.
pub fn read_given(path: &Path, limit: u64) -> Result<Vec<u8>, ReadError> {
    match disk::read(path, limit) {
        Content::Bytes(bytes) => Ok(bytes),
        Content::TooLarge(size) => Err(ReadError::new(path, format!("{} KiB are too many", size / 1024), format!("cut it in pieces of at most {} KiB", limit / 1024))),
        Content::Failed(error) => Err(ReadError::new(path, format!("it can't be read ({error})"), "give a file of captions (WebVTT, SRT, text) or of a spreadsheet (CSV)")),
    }
}
