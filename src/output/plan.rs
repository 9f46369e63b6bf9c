//! What publishing would do, and why: nothing is changed here.

use super::record::{Record, VALUES, of_ours, sha256};
use super::{Content, OutputError, PageFile, disk, name};
use crate::crew::in_order;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// Why a file is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WriteReason {
    /// It was not published before.
    New,
    /// It was published before, but its file is gone.
    Missing,
    /// It is to hold something else than what we published.
    Changed,
    /// Its file is neither what we published nor what it is to be: another hand was there.
    Altered,
    /// A run that was stopped half-way has written it, and it is to hold something else by now.
    Interrupted,
}

/// Why a file is removed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RemoveReason {
    /// The manual makes no such page any more.
    Unwanted,
    /// Likewise, and another hand has changed the file since we published it.
    UnwantedAndAltered,
}

/// What happens to a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Action {
    /// It is written.
    Write(WriteReason),
    /// It is as it should be and not touched.
    Keep,
    /// It is removed.
    Remove(RemoveReason),
}

impl Action {
    /// The reason in words that stand after "because".
    #[must_use]
    pub fn because(self) -> &'static str {
        match self {
            Self::Write(WriteReason::New) => "it was not published before",
            Self::Write(WriteReason::Missing) => "the published file is gone",
            Self::Write(WriteReason::Changed) => "the manual changed",
            Self::Write(WriteReason::Altered) => "the published file was changed by another hand",
            Self::Write(WriteReason::Interrupted) => "an earlier run was stopped half-way",
            Self::Keep => "it is as it should be",
            Self::Remove(RemoveReason::Unwanted) => "the manual has no such page any more",
            Self::Remove(RemoveReason::UnwantedAndAltered) => {
                "the manual has no such page any more (the published file was changed by another hand)"
            }
        }
    }
}

/// A file and what happens to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Path below the output folder, with `/`.
    pub path: String,
    /// What happens to it, and why.
    pub action: Action,
}

/// What publishing would do with a folder as it was when the plan was made.
#[derive(Debug)]
pub struct Plan<'pages> {
    pub(super) folder: PathBuf,
    pub(super) entries: Vec<Entry>,
    pub(super) files: BTreeMap<&'pages str, &'pages Content>,
    /// The record on disk, as bytes and as read.
    pub(super) record_bytes: Option<Vec<u8>>,
    pub(super) record: Record,
}

impl Plan<'_> {
    /// The output folder.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Every file, in the order in which it is dealt with: pictures and styles, pages, the home page, the
    /// list of what a device keeps, the list of values, then what is removed; by path within each.
    #[must_use]
    pub fn entries(&self) -> &[Entry] {
        &self.entries
    }

    /// Whether every page stands there already and nothing is to be removed.
    #[must_use]
    pub fn changes_nothing(&self) -> bool {
        self.entries.iter().all(|entry| entry.action == Action::Keep)
    }
}

/// Compares `pages` with what stands in `folder`, which need not be there yet.
///
/// # Errors
/// Every [`OutputError`] but `Busy` and `NotApart`, before anything is changed.
pub fn plan<'pages>(folder: &Path, pages: &'pages [PageFile]) -> Result<Plan<'pages>, OutputError> {
    planned(folder, pages, 1)
}

/// As [`plan`], with so many threads.
pub(super) fn planned<'pages>(folder: &Path, pages: &'pages [PageFile], threads: usize) -> Result<Plan<'pages>, OutputError> {
    for page in pages {
        name::check(&page.path).map_err(|why| OutputError::Name { path: page.path.clone(), why })?;
    }
    name::check_together(pages.iter().map(|page| page.path.as_str()))?;
    let (record_bytes, record) = of_ours(folder)?;
    let published = Published::new(folder, &record);
    let entries = in_order(pages, threads, |page| published.fate_of(page).map(|action| Entry { path: page.path.clone(), action }));
    let mut entries = entries.into_iter().collect::<Result<Vec<_>, _>>()?;
    entries.sort_by(|a, b| (turn(&a.path), &a.path).cmp(&(turn(&b.path), &b.path)));
    let files: BTreeMap<_, _> = pages.iter().map(|page| (page.path.as_str(), &page.content)).collect();
    let unwanted: BTreeSet<&str> = record.paths().filter(|path| !files.contains_key(path)).collect();
    for path in unwanted {
        entries.extend(published.removal_of(path)?);
    }
    Ok(Plan { folder: folder.to_owned(), entries, files, record_bytes, record })
}

/// The folder as it is, read through its record.
struct Published<'a> {
    folder: &'a Path,
    record: &'a Record,
    /// The record's paths by their folded spelling.
    folded: BTreeMap<String, &'a str>,
}

impl<'a> Published<'a> {
    fn new(folder: &'a Path, record: &'a Record) -> Self {
        let folded = record.paths().map(|path| (name::folded(path), path)).collect();
        Self { folder, record, folded }
    }

    fn fate_of(&self, page: &PageFile) -> Result<Action, OutputError> {
        if page.content == Content::AsHeld {
            return self.fate_as_held(&page.path);
        }
        if !disk::file_there(self.folder, &page.path)? {
            let known = self.record.files.contains_key(&page.path);
            return Ok(Action::Write(if known { WriteReason::Missing } else { WriteReason::New }));
        }
        let path = self.folder.join(&page.path);
        let Some(listed) = self.listed_as(&page.path)? else {
            return Err(OutputError::ForeignFile(path));
        };
        let there = disk::read(&path)?;
        let print = sha256(&there);
        let as_wanted = match &page.content {
            Content::Bytes(wanted) => there == *wanted,
            Content::Staged(wanted) => print == *wanted,
            Content::AsHeld => true,
        };
        if as_wanted {
            return Ok(Action::Keep);
        }
        match self.record.files.get(listed) {
            Some(hash) if *hash == print => Ok(Action::Write(WriteReason::Changed)),
            _ if self.record.was_under_way(listed, &print) => Ok(Action::Write(WriteReason::Interrupted)),
            Some(_) => Ok(Action::Write(WriteReason::Altered)),
            // A run that was stopped had not come to it, and somebody has put a file there since.
            None => Err(OutputError::ForeignFile(path)),
        }
    }

    /// What is to stay is there and listed, or somebody was at work since we looked.
    fn fate_as_held(&self, path: &str) -> Result<Action, OutputError> {
        let listed = self.record.files.contains_key(path) && disk::file_there(self.folder, path)?;
        if listed { Ok(Action::Keep) } else { Err(OutputError::Overtaken(self.folder.to_owned())) }
    }

    /// The path by which the record lists a file that stands at `path`: the same, or, where the file system
    /// makes no difference between cases, one that differs in case.
    fn listed_as(&self, path: &'a str) -> Result<Option<&'a str>, OutputError> {
        if self.record.lists(path) {
            return Ok(Some(path));
        }
        match self.folded.get(&name::folded(path)) {
            Some(twin) if !disk::spelled_so(self.folder, path)? => Ok(Some(twin)),
            Some(_) | None => Ok(None),
        }
    }

    fn removal_of(&self, path: &str) -> Result<Option<Entry>, OutputError> {
        if !disk::file_there(self.folder, path)? {
            return Ok(None);
        }
        let print = sha256(&disk::read(&self.folder.join(path))?);
        let reason = match self.record.files.get(path) {
            Some(hash) if *hash == print => RemoveReason::Unwanted,
            _ if self.record.was_under_way(path, &print) => RemoveReason::Unwanted,
            Some(_) => RemoveReason::UnwantedAndAltered,
            // Likewise somebody else's.
            None => return Ok(None),
        };
        Ok(Some(Entry { path: path.to_owned(), action: Action::Remove(reason) }))
    }
}

/// The list of what a device keeps, with the hash of every file.
const WORKER: &str = "offline.js";

/// Who reads while we write shall find no page before what it shows, and no list of pages before the pages. A device takes only
/// files that have the hash on its list: the list comes when all of them are there. So does the list of values: until every page
/// shows them, the next run has to compare with those of before.
fn turn(path: &str) -> u8 {
    match path {
        VALUES => 4,
        WORKER => 3,
        "index.html" => 2,
        _ if path.ends_with(".html") => 1,
        _ => 0,
    }
}

/// What is to be written, with the SHA-256 of what it will hold.
pub(super) fn under_way<'p>(plan: &'p Plan<'_>) -> impl Iterator<Item = (&'p str, String)> {
    let written = plan.entries.iter().filter(|entry| matches!(entry.action, Action::Write(_)));
    written.filter_map(|entry| {
        let print = match plan.files.get(entry.path.as_str())? {
            Content::Bytes(bytes) => sha256(bytes),
            Content::Staged(print) => print.clone(),
            Content::AsHeld => return None,
        };
        Some((entry.path.as_str(), print))
    })
}
