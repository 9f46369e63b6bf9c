//! Why a folder can't be read as a manual at all.

use std::fmt;
use std::path::{Path, PathBuf};

/// The folder is no manual, or can't be opened; what to do about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    /// The folder or file it is about.
    pub path: PathBuf,
    /// What is wrong, in one phrase.
    pub message: String,
    /// What to do.
    pub remedy: String,
}

impl ReadError {
    pub(super) fn new(path: &Path, message: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self { path: path.to_path_buf(), message: message.into(), remedy: remedy.into() }
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}; {}", self.path.display(), self.message, self.remedy)
    }
}

impl std::error::Error for ReadError {}
