//! What one run leaves for the next: marks of the files it wrote, and whatever else spares work, in a folder of ours.
//!
//! Invariants: nothing depends on it. What is missing, damaged or odd counts as not there, and the work is done anew.
//! Each file says by its first line what the rest of it hashes to.

use super::disk::{self, Mark};
use super::record::sha256;
use super::OutputError;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The folder's name in the output folder.
pub(super) const KEPT: &str = ".benchleaf-kept";

/// The file of the marks.
const MARKS: &str = "marks.json";

/// What lies in a folder besides: version control passes over all of it.
const IGNORE: (&str, &[u8]) = (".gitignore", b"*\n");

/// The most that one file may hold, in bytes; a larger one counts as not there.
const LIMIT: u64 = 256 * 1024 * 1024;

/// What was left in an output folder.
#[derive(Clone, Debug)]
pub struct Kept {
    folder: PathBuf,
}

impl Kept {
    /// What was left in an output folder; it need not be there.
    #[must_use]
    pub fn of(output: &Path) -> Self {
        Self { folder: output.join(KEPT) }
    }

    /// A file that was left under a name, as it was left. None where it is not there, or not whole.
    #[must_use]
    pub fn read(&self, name: &str) -> Option<Vec<u8>> {
        self.sealed(name).map(|(_, bytes)| bytes)
    }

    /// A file that was left under a name, where its bytes have this SHA-256, in lower-case hexadecimal.
    #[must_use]
    pub fn read_as(&self, name: &str, print: &str) -> Option<Vec<u8>> {
        self.sealed(name).filter(|(seal, _)| seal == print).map(|(_, bytes)| bytes)
    }

    /// The bytes of a whole file, and their hash.
    fn sealed(&self, name: &str) -> Option<(String, Vec<u8>)> {
        Self::unsealed(disk::read_plain(&self.folder, name, LIMIT)?)
    }

    /// Where a file of a name lies below an output folder.
    #[must_use]
    pub fn path(name: &str) -> String {
        format!("{KEPT}/{name}")
    }

    /// Bytes as a file holds them, and their SHA-256.
    #[must_use]
    pub fn seal(bytes: &[u8]) -> (String, Vec<u8>) {
        let print = sha256(bytes);
        let sealed = [print.as_bytes(), b"\n", bytes].concat();
        (print, sealed)
    }

    /// Likewise taken apart; none where they are not whole.
    #[must_use]
    pub fn unsealed(mut bytes: Vec<u8>) -> Option<(String, Vec<u8>)> {
        let (seal, rest) = bytes.split_at_checked(64).and_then(|(seal, rest)| Some((seal, rest.strip_prefix(b"\n")?)))?;
        let print = sha256(rest);
        if print.as_bytes() != seal {
            return None;
        }
        bytes.drain(..=64);
        Some((print, bytes))
    }

    /// Leaves a file under a name: letters, digits, hyphens and dots. Tells the SHA-256 of its bytes.
    ///
    /// # Errors
    /// [`OutputError::Disk`]; [`OutputError::Link`] and the like where something else stands in its place.
    pub fn write(&self, name: &str, bytes: &[u8]) -> Result<String, OutputError> {
        let (print, sealed) = Self::seal(bytes);
        self.lay(name, &sealed).map(|()| print)
    }

    fn lay(&self, name: &str, bytes: &[u8]) -> Result<(), OutputError> {
        let output = self.folder.parent().unwrap_or(&self.folder);
        disk::replace(output, &Self::path(name), bytes)
    }

    /// Leaves nothing but these files and the marks: what is kept does not grow for ever.
    ///
    /// # Errors
    /// [`OutputError::Disk`].
    pub fn retain(&self, names: &BTreeSet<String>) -> Result<(), OutputError> {
        self.lay(IGNORE.0, IGNORE.1)?;
        disk::remove_others(&self.folder, &|name| name == MARKS || name == IGNORE.0 || names.contains(name))
    }
}

/// By what files are known to be as they were written without being read: size, times and number of each as the system
/// tells them.
#[derive(Clone, Debug, Default)]
pub(super) struct Marks {
    marks: BTreeMap<String, Marked>,
    /// When they were written down, in nanoseconds as files have it.
    written: i128,
}

/// A file's fingerprint, and its mark at that time.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Marked {
    pub(super) print: String,
    pub(super) mark: Mark,
}

/// A file changed twice within so many nanoseconds may have the same times both times: it is read then.
const TICK: i128 = 50_000_000;
/// Likewise on file systems that count in seconds.
const COARSE_TICK: i128 = 2_100_000_000;

impl Marks {
    /// The marks that a run has left in an output folder.
    pub(super) fn read(output: &Path) -> Self {
        let kept = Kept::of(output);
        let marks = kept.read(MARKS).and_then(|bytes| serde_json::from_slice(&bytes).ok()).unwrap_or_default();
        let written = disk::mark(&kept.folder, MARKS).map_or(i128::MIN, |mark| mark.newest());
        Self { marks, written }
    }

    /// How many files are marked.
    pub(super) fn len(&self) -> usize {
        self.marks.len()
    }

    /// Whether a file with this mark is sure to have this fingerprint.
    pub(super) fn vouch(&self, path: &str, print: &str, mark: &Mark) -> bool {
        let tick = if mark.newest() % 1_000_000_000 == 0 { COARSE_TICK } else { TICK };
        self.marks.get(path).is_some_and(|known| known.print == print && known.mark == *mark && mark.newest() + tick < self.written)
    }

    /// Leaves marks in an output folder.
    pub(super) fn write(output: &Path, marks: &BTreeMap<String, Marked>) -> Result<(), OutputError> {
        // Maps of strings and numbers can't fail to be written.
        Kept::of(output).write(MARKS, &serde_json::to_vec(marks).unwrap_or_default()).map(|_| ())
    }
}
