//! A site being put together: files as they are made, laid down in a folder of ours until all of them are there.
//!
//! Invariants: nothing that is published is touched before [`Stage::publish`]; until then a run can end in any way and
//! leaves the site as it was. What a stopped run has laid down is cleared away by the next.

use super::apply::{self, Summary};
use super::kept::{Marked, Marks};
use super::plan::{Action, planned};
use super::record::{of_ours, sha256};
use super::{Content, Held, OutputError, PageFile, disk};
use std::collections::BTreeMap;
use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, Ordering};

/// A site being put together. While it lives no other run can publish into the folder.
#[derive(Debug)]
pub struct Stage {
    folder: PathBuf,
    held: Held,
    /// The files so far.
    files: Mutex<BTreeMap<String, Laid>>,
    lock: File,
    cleaned: usize,
    /// Whether the folder was not there before.
    new: bool,
    /// Whether there is a folder to lay files down in.
    ready: AtomicBool,
    threads: usize,
}

/// A file of the site being put together.
#[derive(Debug)]
struct Laid {
    content: Content,
    print: String,
    /// The mark of what was laid down.
    mark: Option<disk::Mark>,
}

/// What came of publishing.
#[derive(Clone, Debug, Default)]
pub struct Published {
    /// How many files were dealt with.
    pub summary: Summary,
    /// What happened to each file, in the order in which it was done.
    pub done: Vec<(String, Action)>,
}

impl Stage {
    /// Takes a folder for this run, and clears away what a stopped run has left there. `verify` has every file that is to stay
    /// read, whatever its times say; so many threads may look at files.
    ///
    /// # Errors
    /// [`OutputError::Busy`] where another run has it; those of [`super::plan`] that concern the folder.
    pub fn begin(folder: &Path, verify: bool, threads: usize) -> Result<Self, OutputError> {
        of_ours(folder)?;
        let new = !disk::folder_there(folder);
        disk::make_folder(folder)?;
        let lock = disk::lock(folder)?;
        let held = super::held(folder)?;
        let held = if verify { held.to_be_read() } else { held };
        let cleaned = disk::clear_staged(folder)?;
        Ok(Self { folder: folder.to_owned(), held, files: Mutex::default(), lock, cleaned, new, ready: AtomicBool::new(false), threads })
    }

    /// What the folder holds already.
    #[must_use]
    pub fn held(&self) -> &Held {
        &self.held
    }

    /// Lays a file down. One that stands there already as it is wanted is left there. Several threads may do so at once.
    ///
    /// # Errors
    /// [`OutputError::Name`], [`OutputError::Disk`].
    pub fn put(&self, path: &str, bytes: &[u8]) -> Result<(), OutputError> {
        super::name::check(path).map_err(|why| OutputError::Name { path: path.to_owned(), why })?;
        let print = sha256(bytes);
        let laid = if self.held.fingerprint(path) == Some(print.as_str()) && self.held.holds(path) {
            Laid { content: Content::AsHeld, print, mark: None }
        } else {
            self.make_ready()?;
            let mark = disk::lay_down(&self.folder, path, bytes)?;
            Laid { content: Content::Staged(print.clone()), print, mark }
        };
        self.note(path, laid);
        Ok(())
    }

    fn make_ready(&self) -> Result<(), OutputError> {
        if !self.ready.load(Ordering::Acquire) {
            disk::make_staged(&self.folder)?;
            self.ready.store(true, Ordering::Release);
        }
        Ok(())
    }

    /// Lays down what is no file of the site but needed again in this run, so that it takes no memory.
    ///
    /// # Errors
    /// [`OutputError::Disk`].
    pub fn set_aside(&self, path: &str, bytes: &[u8]) -> Result<(), OutputError> {
        self.make_ready()?;
        disk::lay_down(&self.folder, path, bytes).map(|_| ())
    }

    /// What was set aside, which then lies at its path below the folder where the disk lets it. None where it is not there any more.
    #[must_use]
    pub fn bring_back(&self, path: &str) -> Option<Vec<u8>> {
        let bytes = disk::read_staged(&self.folder, path)?;
        // Where it can't, it is cleared away with what else was laid down.
        let _ = disk::move_in(&self.folder, path);
        Some(bytes)
    }

    /// Keeps a file that [`Held`] has told to be there as it was written.
    pub fn keep(&self, path: &str) {
        let print = self.held.fingerprint(path).unwrap_or_default().to_owned();
        self.note(path, Laid { content: Content::AsHeld, print, mark: None });
    }

    /// Forgets a file that was put or kept. What was laid down of it is cleared away with the rest.
    pub fn take_back(&self, path: &str) {
        if let Ok(mut files) = self.files.lock() {
            files.remove(path);
        }
    }

    fn note(&self, path: &str, laid: Laid) {
        if let Ok(mut files) = self.files.lock() {
            files.insert(path.to_owned(), laid);
        }
    }

    /// The fingerprint of a file that was put or kept.
    #[must_use]
    pub fn fingerprint(&self, path: &str) -> Option<String> {
        self.files.lock().ok()?.get(path).map(|laid| laid.print.clone())
    }

    /// The fingerprints of all files that were put or kept, by path.
    #[must_use]
    pub fn fingerprints(&self) -> BTreeMap<String, String> {
        self.files.lock().map(|files| files.iter().map(|(path, laid)| (path.clone(), laid.print.clone())).collect()).unwrap_or_default()
    }

    /// Publishes what was laid down: new and changed files are moved in, each whole, in the order in which a reader may meet
    /// them; what is wanted no more is removed last.
    ///
    /// # Errors
    /// As [`super::plan`] and [`super::apply`].
    pub fn publish(self) -> Result<Published, OutputError> {
        let files = self.files.into_inner().unwrap_or_default();
        let mut laid = BTreeMap::new();
        let mut pages = Vec::new();
        for (path, file) in files {
            laid.extend(file.mark.map(|mark| (path.clone(), (file.print, mark))));
            pages.push(PageFile { path, content: file.content });
        }
        let plan = planned(&self.folder, &pages, self.threads)?;
        let applied = apply::apply_locked(&plan);
        // The first error is the one to tell.
        let cleared = disk::clear_staged(&self.folder);
        let mut summary = applied?;
        cleared?;
        summary.cleaned += self.cleaned;
        let (mut marks, better) = self.held.marks();
        let better = better || !laid.is_empty();
        marks.retain(|path, _| plan.files.contains_key(path.as_str()));
        for (path, (print, before)) in laid {
            let mark = disk::mark(&self.folder, &path).filter(|mark| mark.is_same_file(&before));
            marks.extend(mark.map(|mark| (path, Marked { print, mark })));
        }
        // Without marks the next run reads more: that is no failure of this one.
        if better {
            let _ = Marks::write(&self.folder, &marks);
        }
        let done = plan.entries.iter().map(|entry| (entry.path.clone(), entry.action)).collect();
        drop(self.lock);
        Ok(Published { summary, done })
    }

    /// Ends without publishing anything.
    ///
    /// # Errors
    /// [`OutputError::Disk`] where what was laid down can't be cleared away.
    pub fn abandon(self) -> Result<(), OutputError> {
        disk::clear_staged(&self.folder)?;
        if self.new {
            disk::remove_empty(&self.folder);
        }
        drop(self.lock);
        Ok(())
    }
}
