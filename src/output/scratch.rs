//! A folder of this program's own for as long as it runs, such as the one into which a proof is published.
//!
//! Invariants: it is held by the system's lock on a file in it, so that what a run left that was ended from outside is known by
//! its lock being free, and is cleared away by the next run. Nothing is cleared that has no such file, or is another user's.

#![expect(clippy::disallowed_methods, reason = "it makes and clears folders of its own, and no others")]

use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// The file whose lock says that the folder is in use.
const IN_USE: &str = ".benchleaf-in-use";
/// Its name until it is locked.
const NOT_YET: &str = ".benchleaf-in-use-soon";

/// A folder that goes when this goes.
#[derive(Debug)]
pub struct Scratch {
    folder: TempDir,
    _lock: File,
}

impl Scratch {
    /// Makes a folder whose name begins so, among the system's temporary ones, and clears away those that earlier runs have left.
    ///
    /// # Errors
    /// What the system says where it can't be made.
    pub fn new(beginning: &str) -> io::Result<Self> {
        Self::within(&std::env::temp_dir(), beginning)
    }

    fn within(around: &Path, beginning: &str) -> io::Result<Self> {
        let folder = tempfile::Builder::new().prefix(beginning).tempdir_in(around)?;
        let soon = folder.path().join(NOT_YET);
        let lock = OpenOptions::new().write(true).create_new(true).open(&soon)?;
        // Where the file system has no locks, nothing of it is ever cleared by another run either.
        if lock.try_lock().is_ok() {
            fs::rename(&soon, folder.path().join(IN_USE))?;
        }
        clear_left(around, beginning, folder.path());
        Ok(Self { folder, _lock: lock })
    }

    /// The folder.
    #[must_use]
    pub fn path(&self) -> &Path {
        self.folder.path()
    }

    /// Takes a folder in it away while somebody may still be writing there: he is told so by his next write.
    pub fn take_away(&self, path: &Path) {
        if path.starts_with(self.path()) {
            let _ = fs::remove_dir_all(path);
        }
    }
}

/// Clears the folders of this beginning whose lock nobody holds. What can't be cleared stays: it is in nobody's way.
fn clear_left(around: &Path, beginning: &str, own: &Path) {
    let Ok(entries) = fs::read_dir(around) else { return };
    for entry in entries.flatten() {
        let is_one = entry.file_name().to_str().is_some_and(|name| name.starts_with(beginning));
        let path = entry.path();
        if is_one && path != own && is_left(&path, own) {
            let _ = fs::remove_dir_all(&path);
        }
    }
}

/// Whether a folder was left by a run of this user's that has ended.
fn is_left(folder: &Path, own: &Path) -> bool {
    let Ok(facts) = fs::symlink_metadata(folder) else { return false };
    facts.is_dir() && is_of_one_user(folder, own) && lock_is_free(&folder.join(IN_USE))
}

fn lock_is_free(file: &PathBuf) -> bool {
    let plain = fs::symlink_metadata(file).is_ok_and(|facts| facts.is_file());
    plain && OpenOptions::new().write(true).open(file).is_ok_and(|file| file.try_lock().is_ok())
}

#[cfg(unix)]
fn is_of_one_user(one: &Path, other: &Path) -> bool {
    use std::os::unix::fs::MetadataExt;
    let user = |path: &Path| fs::symlink_metadata(path).ok().map(|facts| facts.uid());
    user(one).is_some() && user(one) == user(other)
}

#[cfg(not(unix))]
fn is_of_one_user(_: &Path, _: &Path) -> bool {
    // There each user has temporary folders of his own.
    true
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_an_ended_run_left_is_cleared_and_nothing_else() {
        let around = tempfile::tempdir().unwrap();
        let running = Scratch::within(around.path(), "trial-").unwrap();
        let left = around.path().join("trial-left");
        fs::create_dir_all(left.join("site/deep")).unwrap();
        fs::write(left.join("site/deep/page.html"), "old").unwrap();
        fs::write(left.join(IN_USE), "").unwrap();
        for (name, file) in [("trial-mine", "letter.txt"), ("other-left", IN_USE), ("trial-soon", NOT_YET)] {
            fs::create_dir(around.path().join(name)).unwrap();
            fs::write(around.path().join(name).join(file), "").unwrap();
        }
        let own = Scratch::within(around.path(), "trial-").unwrap();
        assert!(!left.exists());
        for stays in [running.path(), own.path(), &around.path().join("trial-mine"), &around.path().join("other-left"), &around.path().join("trial-soon")] {
            assert!(stays.exists(), "{}", stays.display());
        }
        let (ended, there) = (running.path().to_owned(), own.path().to_owned());
        drop(running);
        drop(own);
        assert!(!ended.exists() && !there.exists());
    }
}
