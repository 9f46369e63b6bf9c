//! The record of what we wrote into a folder: which files are ours, and what they held.
//!
//! Invariants: same files, same bytes (sorted, no dates). A record that names a path outside its folder, or
//! one that we would never write, is refused as a whole, as somebody else made it.

use super::{OutputError, disk, name};
use serde::{Deserialize, Serialize};
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The record's name in the output folder.
pub(super) const RECORD: &str = ".benchleaf-record.json";

/// The list of values of a site: nobody else's folder holds a file of this name.
pub(super) const VALUES: &str = ".values.json";

const FORMAT: &str = "benchleaf-record";
const VERSION: u64 = 1;
const NOTE: &str =
    "Benchleaf wrote the files listed here and replaces or removes no others. Leave this file with them.";

/// What we wrote into a folder.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Record {
    /// Path of each file and the SHA-256 of what we wrote there, in hexadecimal.
    pub(super) files: BTreeMap<String, String>,
    /// Files that a run was about to write, with the SHA-256 of what each was to hold. Empty unless it was stopped before its
    /// end; several runs may have been.
    pub(super) unfinished: BTreeMap<String, BTreeSet<String>>,
}

#[derive(Serialize, Deserialize)]
struct Document {
    format: String,
    version: u64,
    #[serde(default)]
    note: String,
    files: BTreeMap<String, String>,
    #[serde(default, skip_serializing_if = "Unfinished::is_empty")]
    unfinished: Unfinished,
}

/// Earlier runs did not tell what was to be written: it may be anything then.
#[derive(Serialize, Deserialize)]
#[serde(untagged)]
enum Unfinished {
    Prints(BTreeMap<String, BTreeSet<String>>),
    Paths(BTreeSet<String>),
}

impl Default for Unfinished {
    fn default() -> Self {
        Self::Prints(BTreeMap::new())
    }
}

impl Unfinished {
    fn is_empty(&self) -> bool {
        matches!(self, Self::Prints(prints) if prints.is_empty())
    }

    fn prints(self) -> BTreeMap<String, BTreeSet<String>> {
        match self {
            Self::Prints(prints) => prints,
            Self::Paths(paths) => paths.into_iter().map(|path| (path, BTreeSet::new())).collect(),
        }
    }
}

/// Read first, so that a later form is told from a damaged one.
#[derive(Deserialize)]
struct Head {
    format: String,
    version: u64,
}

impl Record {
    /// Whether a file may be ours.
    pub(super) fn lists(&self, path: &str) -> bool {
        self.files.contains_key(path) || self.unfinished.contains_key(path)
    }

    /// Every file that may be ours.
    pub(super) fn paths(&self) -> impl Iterator<Item = &str> {
        let further = self.unfinished.keys().filter(|path| !self.files.contains_key(*path));
        self.files.keys().chain(further).map(String::as_str)
    }

    /// Whether a run that was stopped was to write just this into a file. An empty file is what a disk may make of one whose
    /// power was cut.
    pub(super) fn was_under_way(&self, path: &str, print: &str) -> bool {
        self.unfinished.get(path).is_some_and(|prints| prints.is_empty() || prints.contains(print) || print == sha256(b""))
    }

    /// The record as it is written.
    ///
    /// # Errors
    /// None that is known: all fields are texts. The error is the JSON writer's own.
    pub(super) fn to_bytes(&self, folder: &Path) -> Result<Vec<u8>, OutputError> {
        let document = Document {
            format: FORMAT.to_owned(),
            version: VERSION,
            note: NOTE.to_owned(),
            files: self.files.clone(),
            unfinished: Unfinished::Prints(self.unfinished.clone()),
        };
        let mut bytes = serde_json::to_vec_pretty(&document).map_err(|error| OutputError::Disk {
            tried: "put together",
            path: path(folder),
            error: error.into(),
        })?;
        bytes.push(b'\n');
        Ok(bytes)
    }

    /// Reads a record's bytes.
    ///
    /// # Errors
    /// [`OutputError::NewerRecord`]; [`OutputError::Record`] for anything that we would not have written.
    pub(super) fn from_bytes(folder: &Path, bytes: &[u8]) -> Result<Self, OutputError> {
        let damaged = |why: String| OutputError::Record { path: path(folder), why };
        let head: Head = serde_json::from_slice(bytes).map_err(|error| damaged(error.to_string()))?;
        if head.format != FORMAT {
            return Err(damaged(format!("its format is {:?}, not {FORMAT:?}", head.format)));
        }
        if head.version > VERSION {
            return Err(OutputError::NewerRecord { path: path(folder), version: head.version });
        }
        let document: Document = serde_json::from_slice(bytes).map_err(|error| damaged(error.to_string()))?;
        let unfinished = document.unfinished.prints();
        for listed in document.files.keys().chain(unfinished.keys()) {
            name::check(listed).map_err(|why| damaged(format!("it lists {listed:?}, but {why}")))?;
        }
        Ok(Self { files: document.files, unfinished })
    }
}

/// A folder's record, as bytes and as read.
///
/// # Errors
/// [`OutputError::ForeignFolder`] where somebody else's files lie there without one, [`OutputError::RecordGone`] where a site of
/// ours does; as [`bytes_in`] and
/// [`Record::from_bytes`].
pub(super) fn of_ours(folder: &Path) -> Result<(Option<Vec<u8>>, Record), OutputError> {
    let foreign = disk::foreign_names(folder)?;
    let bytes = bytes_in(folder)?;
    let record = match (&bytes, foreign.first()) {
        (Some(bytes), _) => Record::from_bytes(folder, bytes)?,
        (None, None) => Record::default(),
        (None, Some(_)) if foreign.iter().any(|name| name == VALUES) => return Err(OutputError::RecordGone(path(folder))),
        (None, Some(name)) => {
            let holds = name.to_string_lossy().into_owned();
            return Err(OutputError::ForeignFolder { folder: folder.to_owned(), holds });
        }
    };
    Ok((bytes, record))
}

/// The bytes of a folder's record, if it has one.
///
/// # Errors
/// [`OutputError::Link`], [`OutputError::FolderInTheWay`] or [`OutputError::Disk`] where it can't be read.
pub(super) fn bytes_in(folder: &Path) -> Result<Option<Vec<u8>>, OutputError> {
    if disk::file_there(folder, RECORD)? { disk::read(&path(folder)).map(Some) } else { Ok(None) }
}

/// The SHA-256 (FIPS 180-4) of some bytes in lower-case hexadecimal.
pub(super) fn sha256(bytes: &[u8]) -> String {
    let digits = Sha256::digest(bytes).into_iter().flat_map(|byte| [byte >> 4, byte & 15]);
    digits.filter_map(|digit| char::from_digit(u32::from(digit), 16)).collect()
}

fn path(folder: &Path) -> PathBuf {
    folder.join(RECORD)
}

#[cfg(test)]
mod tests {
    use super::{Record, sha256};
    use crate::output::OutputError;
    use std::collections::BTreeSet;
    use std::path::Path;

    fn read(record: &str) -> Result<Record, OutputError> {
        Record::from_bytes(Path::new("site"), record.as_bytes())
    }

    /// The expected values are the examples that NIST gives with FIPS 180-4, for "abc" and for no bytes.
    #[test]
    fn the_hash_is_sha_256() {
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(sha256(b""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    }

    #[test]
    fn a_record_comes_back_as_it_was_written() {
        let mut record = Record::default();
        record.files.insert("axle/hub.html".to_owned(), sha256(b"abc"));
        record.unfinished.insert("index.html".to_owned(), BTreeSet::from([sha256(b""), sha256(b"abc")]));
        let bytes = record.to_bytes(Path::new("site")).unwrap();
        assert_eq!(Record::from_bytes(Path::new("site"), &bytes).unwrap(), record);
        assert_eq!(record.paths().collect::<Vec<_>>(), ["axle/hub.html", "index.html"]);
    }

    #[test]
    fn a_run_stopped_in_an_earlier_form_may_have_written_anything() {
        let record = read(r#"{"format":"benchleaf-record","version":1,"files":{},"unfinished":["a.html"]}"#).unwrap();
        assert!(record.was_under_way("a.html", &sha256(b"abc")) && !record.was_under_way("b.html", &sha256(b"abc")));
    }

    #[test]
    fn a_record_that_we_would_not_write_is_refused() {
        for path in ["/etc/passwd", "../outside.html", "a/../../b", "C:\\\\boot.ini", "", ".benchleaf-record.json"] {
            for record in [
                format!(r#"{{"format":"benchleaf-record","version":1,"files":{{"{path}":"00"}}}}"#),
                format!(r#"{{"format":"benchleaf-record","version":1,"files":{{}},"unfinished":{{"{path}":["00"]}}}}"#),
            ] {
                assert!(matches!(read(&record), Err(OutputError::Record { .. })), "{record}");
            }
        }
        for record in ["", "{}", "[]", "\u{0}", r#"{"format":"other","version":1,"files":{}}"#] {
            assert!(matches!(read(record), Err(OutputError::Record { .. })), "{record}");
        }
    }

    #[test]
    fn a_later_form_is_not_called_damaged() {
        let later = r#"{"format":"benchleaf-record","version":2,"pages":[]}"#;
        assert!(matches!(read(later), Err(OutputError::NewerRecord { version: 2, .. })));
    }
}
