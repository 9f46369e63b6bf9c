//! What a published folder holds already, for whoever would rather not make it again.

use super::disk::{self, Mark};
use super::kept::{Marked, Marks};
use super::record::{Record, bytes_in, sha256};
use super::OutputError;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

/// The files that we wrote into a folder, by its record.
///
/// Whether a file still is as we wrote it is told by its size, its times and its number where they are as they were when it
/// was written; where they are not, or are too fresh to tell, it is read and its hash compared.
#[derive(Debug)]
pub struct Held {
    folder: PathBuf,
    record: Record,
    marks: Marks,
    /// Files found to be as we wrote them, with their marks from before they were looked at.
    found: Mutex<BTreeMap<String, Option<Marked>>>,
    /// Whether some file had to be read.
    read: AtomicBool,
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
    Ok(Held { folder: folder.to_owned(), record, marks: Marks::read(folder), found: Mutex::default(), read: AtomicBool::new(false) })
}

impl Held {
    /// The same, with every file read whatever its times say.
    #[must_use]
    pub fn to_be_read(self) -> Self {
        Self { marks: Marks::default(), ..self }
    }

    /// The fingerprint of what we wrote into a file: its SHA-256 in lower-case hexadecimal.
    #[must_use]
    pub fn fingerprint(&self, path: &str) -> Option<&str> {
        self.record.files.get(path).map(String::as_str)
    }

    /// Whether a file stands there just as we wrote it. One that can't be read doesn't.
    #[must_use]
    pub fn holds(&self, path: &str) -> bool {
        let Some(print) = self.record.files.get(path) else { return false };
        // Before it is read: whoever changes it from here on changes its mark.
        let Ok(Some(facts)) = disk::facts(&self.folder, path) else { return false };
        let mark = Mark::of(&facts);
        let vouched = mark.as_ref().is_some_and(|mark| self.marks.vouch(path, print, mark));
        if !vouched {
            self.read.store(true, Ordering::Relaxed);
        }
        let holds = vouched || disk::read(&self.folder.join(path)).is_ok_and(|bytes| sha256(&bytes) == *print);
        if let Ok(mut found) = self.found.lock() {
            if holds {
                found.insert(path.to_owned(), mark.map(|mark| Marked { print: print.clone(), mark }));
            } else {
                found.remove(path);
            }
        }
        holds
    }

    /// The marks of the files found to be as we wrote them, and whether they would spare the next run more than those there
    /// are: where some file had to be read, or is gone.
    pub(super) fn marks(self) -> (BTreeMap<String, Marked>, bool) {
        let found = self.found.into_inner().unwrap_or_default();
        let found: BTreeMap<String, Marked> = found.into_iter().filter_map(|(path, marked)| Some((path, marked?))).collect();
        let better = self.read.into_inner() || self.marks.len() != found.len();
        (found, better)
    }
}
