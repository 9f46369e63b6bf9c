//! What is done on the disk: each action names its path when it fails, and none follows a symbolic link
//! inside the output folder.

#![expect(
    clippy::disallowed_methods,
    reason = "the one file of the program that writes, and that reads what was written"
)]

use super::{OutputError, kept, record};
use serde::{Deserialize, Serialize};
use std::ffi::{OsStr, OsString};
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Write};
use std::path::{Path, PathBuf};

/// By this file two runs keep out of each other's way.
const LOCK: &str = ".benchleaf-lock";

/// A file being written is called this and sixteen hexadecimal digits of its path's hash.
const NEW: &str = ".benchleaf-new-";

/// A path with its links resolved; where its end isn't there yet, its beginning.
///
/// # Errors
/// [`OutputError::Disk`] where the system can't tell.
pub(super) fn real(path: &Path) -> Result<PathBuf, OutputError> {
    let given = if path.as_os_str().is_empty() { Path::new(".") } else { path };
    match fs::canonicalize(given) {
        Ok(real) => Ok(real),
        Err(error) if error.kind() == ErrorKind::NotFound => match (given.parent(), given.file_name()) {
            (Some(parent), Some(last)) => Ok(real(parent)?.join(last)),
            _ => Err(failed("find", given, error)),
        },
        Err(error) => Err(failed("find", given, error)),
    }
}

/// The names in a folder, sorted; none where it isn't there. Names of ours are left out.
///
/// # Errors
/// [`OutputError::FileInTheWay`], [`OutputError::Disk`].
pub(super) fn foreign_names(folder: &Path) -> Result<Vec<OsString>, OutputError> {
    match fs::metadata(folder) {
        Ok(facts) if facts.is_dir() => {}
        Ok(_) => return Err(OutputError::FileInTheWay(folder.to_owned())),
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        Err(error) => return Err(failed("look at", folder, error)),
    }
    let mut names = names(folder)?;
    names.retain(|name| name != record::RECORD && name != LOCK && name != STAGED && name != kept::KEPT && !is_leftover(name));
    Ok(names)
}

/// Whether a file stands at `path` below `folder`.
///
/// # Errors
/// [`OutputError::Link`], [`OutputError::FolderInTheWay`] and [`OutputError::FileInTheWay`] where something
/// else stands there or on the way; [`OutputError::Disk`].
pub(super) fn file_there(folder: &Path, path: &str) -> Result<bool, OutputError> {
    facts(folder, path).map(|facts| facts.is_some())
}

/// What the system tells of a file of ours; nothing where none stands there.
///
/// # Errors
/// As [`file_there`].
pub(super) fn facts(folder: &Path, path: &str) -> Result<Option<fs::Metadata>, OutputError> {
    let mut at = folder.to_owned();
    let mut parts = path.split('/').peekable();
    while let Some(part) = parts.next() {
        at.push(part);
        let last = parts.peek().is_none();
        match fs::symlink_metadata(&at) {
            Ok(facts) if facts.is_symlink() => return Err(OutputError::Link(at)),
            Ok(facts) if last && facts.is_dir() => return Err(OutputError::FolderInTheWay(at)),
            Ok(facts) if !last && !facts.is_dir() => return Err(OutputError::FileInTheWay(at)),
            Ok(facts) if last => return Ok(Some(facts)),
            Ok(_) => {}
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(None),
            Err(error) => return Err(failed("look at", &at, error)),
        }
    }
    Ok(None)
}

/// Whether `path` stands in `folder` in just this spelling. A file system that makes no difference between
/// cases finds a file by other spellings too.
///
/// # Errors
/// [`OutputError::Disk`].
pub(super) fn spelled_so(folder: &Path, path: &str) -> Result<bool, OutputError> {
    let mut at = folder.to_owned();
    for part in path.split('/') {
        if !fs::symlink_metadata(&at).is_ok_and(|facts| facts.is_dir()) || !names(&at)?.iter().any(|name| name == part)
        {
            return Ok(false);
        }
        at.push(part);
    }
    Ok(true)
}

/// What a file holds.
///
/// # Errors
/// [`OutputError::Disk`].
pub(super) fn read(path: &Path) -> Result<Vec<u8>, OutputError> {
    fs::read(path).map_err(|error| failed("read", path, error))
}

/// Makes the output folder where it isn't there yet.
///
/// # Errors
/// [`OutputError::Disk`].
pub(super) fn make_folder(folder: &Path) -> Result<(), OutputError> {
    fs::create_dir_all(folder).map_err(|error| failed("make the folder", folder, error))
}

/// Whether a folder is there.
pub fn folder_there(folder: &Path) -> bool {
    fs::metadata(folder).is_ok_and(|facts| facts.is_dir())
}

/// Removes an output folder that this run has made and put nothing into but its lock, as far as the system lets it.
pub(super) fn remove_empty(folder: &Path) {
    if names(folder).is_ok_and(|names| names == [LOCK]) {
        let _ = fs::remove_file(folder.join(LOCK)).and_then(|()| fs::remove_dir(folder));
    }
}

/// Takes the folder for this run until the returned file is dropped. The system gives the lock back when the
/// process ends, however it ends. The file stays where it is; only where a run has made the folder and put nothing into it are
/// both taken away, so who was waiting for that lock looks whether it is the one that others will find.
///
/// # Errors
/// [`OutputError::Busy`] where another run has it; [`OutputError::Link`]; [`OutputError::Disk`].
pub(super) fn lock(folder: &Path) -> Result<File, OutputError> {
    file_there(folder, LOCK)?;
    let path = folder.join(LOCK);
    let file = OpenOptions::new()
        .create(true)
        .truncate(false)
        .write(true)
        .open(&path)
        .map_err(|error| failed("open", &path, error))?;
    let number = |facts: io::Result<fs::Metadata>| facts.ok().map(|facts| change_and_number(&facts).1);
    match file.try_lock() {
        Ok(()) if number(file.metadata()) == number(fs::symlink_metadata(&path)) => Ok(file),
        Ok(()) => Err(OutputError::Busy(folder.to_owned())),
        Err(TryLockError::WouldBlock) => Err(OutputError::Busy(folder.to_owned())),
        // Some network file systems have no locks. The record, which is read again, still tells of another run.
        Err(TryLockError::Error(error)) if error.kind() == ErrorKind::Unsupported => Ok(file),
        Err(TryLockError::Error(error)) => Err(failed("lock", &path, error)),
    }
}

/// Writes a file whole: into a new one beside it, which then takes its name. Makes the folders it needs.
///
/// # Errors
/// As [`file_there`]; [`OutputError::Disk`]. The old file then stands as it was.
pub(super) fn replace(folder: &Path, path: &str, bytes: &[u8]) -> Result<(), OutputError> {
    file_there(folder, path)?;
    let target = below(folder, path);
    make_folder(target.parent().unwrap_or(folder))?;
    let way = new_beside(path);
    let new = below(folder, &way);
    let written = write_over_leftover(folder, &way, bytes)
        .and_then(|_| fs::rename(&new, &target).map_err(|error| failed("replace", &target, error)));
    if written.is_err() {
        // The error is told; a leftover is cleaned by the next run.
        let _ = fs::remove_file(&new);
    }
    written
}

/// Writes a file that must not be there: whole into a new one beside it, which is then given its name by a link, so that
/// a file that somebody puts there meanwhile is not replaced.
///
/// # Errors
/// As [`file_there`]; [`OutputError::AlreadyThere`]; [`OutputError::Disk`].
pub(super) fn create(folder: &Path, path: &str, bytes: &[u8]) -> Result<(), OutputError> {
    if file_there(folder, path)? {
        return Err(OutputError::AlreadyThere(below(folder, path)));
    }
    let target = below(folder, path);
    make_folder(target.parent().unwrap_or(folder))?;
    let way = new_beside(path);
    let new = below(folder, &way);
    let written = write_over_leftover(folder, &way, bytes).and_then(|_| match fs::hard_link(&new, &target) {
        Ok(()) => Ok(()),
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Err(OutputError::AlreadyThere(target.clone())),
        // Some file systems have no links (memory sticks): there the file is made anew, never opened where one is.
        Err(_) => write_new(&target, bytes).map(|_| ()).map_err(|error| match error.kind() {
            ErrorKind::AlreadyExists => OutputError::AlreadyThere(target.clone()),
            _ => failed("write", &target, error),
        }),
    });
    // The name beside it has done its work, whatever came of it.
    let _ = fs::remove_file(&new);
    written
}

/// Removes a file, and the folders that it leaves empty. One that is gone already is fine.
///
/// # Errors
/// As [`file_there`]; [`OutputError::Disk`].
pub(super) fn remove(folder: &Path, path: &str) -> Result<(), OutputError> {
    if !file_there(folder, path)? {
        return Ok(());
    }
    let target = below(folder, path);
    fs::remove_file(&target).map_err(|error| failed("remove", &target, error))?;
    for (at, _) in path.rmatch_indices('/') {
        let emptied = below(folder, path.get(..at).unwrap_or_default());
        // The system refuses to remove a folder with anything in it, and that is what ends the walk.
        if fs::remove_dir(emptied).is_err() {
            break;
        }
    }
    Ok(())
}

/// Removes what a run that was stopped left half-written in the folder of `path`; returns how many files.
///
/// # Errors
/// [`OutputError::Disk`].
pub(super) fn clean_beside(folder: &Path, path: &str) -> Result<usize, OutputError> {
    // Something else on the way is told when the page is written.
    if file_there(folder, path).is_err() {
        return Ok(0);
    }
    let target = below(folder, path);
    let parent = target.parent().unwrap_or(folder);
    if !fs::symlink_metadata(parent).is_ok_and(|facts| facts.is_dir()) && parent != folder {
        return Ok(0);
    }
    let mut cleaned = 0;
    for name in names(parent)?.iter().filter(|name| is_leftover(name)) {
        let leftover = parent.join(name);
        if fs::symlink_metadata(&leftover).is_ok_and(|facts| facts.is_file()) {
            fs::remove_file(&leftover).map_err(|error| failed("remove", &leftover, error))?;
            cleaned += 1;
        }
    }
    Ok(cleaned)
}

/// Files being put together lie in a folder of this name, each called by thirty-two digits of its path's hash.
pub(super) const STAGED: &str = ".benchleaf-staged";

/// The folders in it. Threads that make files in one folder wait for each other.
const SHELVES: [&str; 16] = ["0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "a", "b", "c", "d", "e", "f"];

/// Where the file of a path is laid down, below the output folder: on the shelf of its name's first digit.
fn staged(path: &str) -> String {
    let name: String = record::sha256(path.as_bytes()).chars().take(32).collect();
    format!("{STAGED}/{}/{name}", name.get(..1).unwrap_or_default())
}

/// Makes the folder of files being put together: a folder of its own, at this moment no link to another.
///
/// # Errors
/// As [`file_there`]; [`OutputError::Disk`].
pub(super) fn make_staged(folder: &Path) -> Result<(), OutputError> {
    for shelf in SHELVES {
        let shelf = format!("{STAGED}/{shelf}");
        file_there(folder, &format!("{shelf}/file"))?;
        make_folder(&below(folder, &shelf))?;
    }
    Ok(())
}

/// Lays the file of a path down in the folder of files being put together, which is there.
///
/// # Errors
/// As [`file_there`]; [`OutputError::Disk`].
pub(super) fn lay_down(folder: &Path, path: &str, bytes: &[u8]) -> Result<Option<Mark>, OutputError> {
    // A path may be laid down again.
    let file = write_over_leftover(folder, &staged(path), bytes)?;
    Ok(file.metadata().ok().and_then(|facts| Mark::of(&facts)))
}

/// What was laid down for a path; none where it can't be read.
pub(super) fn read_staged(folder: &Path, path: &str) -> Option<Vec<u8>> {
    let name = staged(path);
    file_there(folder, &name).ok().filter(|there| *there)?;
    fs::read(below(folder, &name)).ok()
}

/// Moves a file that was laid down to its path.
///
/// # Errors
/// As [`file_there`]; [`OutputError::Disk`]. The old file then stands as it was.
pub(super) fn move_in(folder: &Path, path: &str) -> Result<(), OutputError> {
    file_there(folder, path)?;
    move_to(folder, path)
}

/// As [`move_in`], for a path that was found free.
///
/// # Errors
/// [`OutputError::FolderInTheWay`] and the like where something else stands there; [`OutputError::Disk`].
pub(super) fn move_to(folder: &Path, path: &str) -> Result<(), OutputError> {
    let (staged, target) = (below(folder, &staged(path)), below(folder, path));
    let moved = match fs::rename(&staged, &target) {
        // Most files go where others went before.
        Err(error) if error.kind() == ErrorKind::NotFound => {
            make_folder(target.parent().unwrap_or(folder))?;
            fs::rename(&staged, &target)
        }
        moved => moved,
    };
    match moved {
        // A folder of the site may lie on another disk.
        Err(error) if error.kind() == ErrorKind::CrossesDevices => replace(folder, path, &read(&staged)?),
        moved => moved.map_err(|error| failed("replace", &target, error)),
    }
}

/// Clears away what was laid down and not moved in; returns how many files. Nobody else's file is touched.
///
/// # Errors
/// [`OutputError::Disk`].
pub(super) fn clear_staged(folder: &Path) -> Result<usize, OutputError> {
    let at = folder.join(STAGED);
    // A link to somewhere else is not gone along.
    if !is_own_folder(&at) {
        return Ok(0);
    }
    // An earlier version had no shelves.
    let mut cleared = clear_shelf(&at)?;
    for shelf in SHELVES {
        let shelf = at.join(shelf);
        cleared += clear_shelf(&shelf)?;
        // With somebody's file in it, it stays.
        let _ = fs::remove_dir(&shelf);
    }
    let _ = fs::remove_dir(&at);
    Ok(cleared)
}

fn is_own_folder(at: &Path) -> bool {
    fs::symlink_metadata(at).is_ok_and(|facts| facts.is_dir())
}

fn clear_shelf(at: &Path) -> Result<usize, OutputError> {
    if !is_own_folder(at) {
        return Ok(0);
    }
    let is_ours = |name: &OsStr| name.to_str().is_some_and(|name| name.len() == 32 && name.bytes().all(|b| b.is_ascii_hexdigit()));
    let mut cleared = 0;
    for name in names(at)?.iter().filter(|name| is_ours(name)) {
        let file = at.join(name);
        if fs::symlink_metadata(&file).is_ok_and(|facts| facts.is_file()) {
            fs::remove_file(&file).map_err(|error| failed("remove", &file, error))?;
            cleared += 1;
        }
    }
    Ok(cleared)
}

/// By what a file is known without being read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct Mark {
    size: u64,
    /// Nanoseconds, as the file system counts them.
    modified: i128,
    /// When its name, rights or content changed; 0 where the system does not tell.
    changed: i128,
    /// The file's number; 0 where the system does not tell.
    number: u64,
}

impl Mark {
    /// The mark of a file the system told this of; none where it is no plain file, or its times are not told.
    pub(super) fn of(facts: &fs::Metadata) -> Option<Self> {
        let modified = facts.modified().ok().filter(|_| facts.is_file())?;
        let modified = match modified.duration_since(std::time::UNIX_EPOCH) {
            Ok(since) => i128::try_from(since.as_nanos()).ok()?,
            Err(before) => -i128::try_from(before.duration().as_nanos()).ok()?,
        };
        let (changed, number) = change_and_number(facts);
        Some(Self { size: facts.len(), modified, changed, number })
    }

    /// The newest of its times, in nanoseconds.
    pub(super) fn newest(&self) -> i128 {
        self.modified.max(self.changed)
    }

    /// Whether both are of one file with one content, which may have been renamed between.
    pub(super) fn is_same_file(&self, other: &Self) -> bool {
        (self.size, self.modified, self.number) == (other.size, other.modified, other.number)
    }
}

/// The mark of a file; none where there is no plain file, or the system does not tell its times.
pub(super) fn mark(folder: &Path, path: &str) -> Option<Mark> {
    Mark::of(&fs::symlink_metadata(below(folder, path)).ok()?)
}

#[cfg(unix)]
fn change_and_number(facts: &fs::Metadata) -> (i128, u64) {
    use std::os::unix::fs::MetadataExt;
    (i128::from(facts.ctime()) * 1_000_000_000 + i128::from(facts.ctime_nsec()), facts.ino())
}

#[cfg(not(unix))]
fn change_and_number(_: &fs::Metadata) -> (i128, u64) {
    (0, 0)
}

/// What a published file holds. None where it is not there, is no plain file or can't be read.
#[must_use]
pub fn read_back(folder: &Path, path: &str) -> Option<Vec<u8>> {
    const LIMIT: u64 = 256 * 1024 * 1024;
    read_plain(folder, path, LIMIT)
}

/// What a plain file in a folder holds; none where it is anything else, is larger than the limit or can't be read.
pub(super) fn read_plain(folder: &Path, name: &str, limit: u64) -> Option<Vec<u8>> {
    fs::symlink_metadata(folder).ok().filter(fs::Metadata::is_dir)?;
    let path = folder.join(name);
    let facts = fs::symlink_metadata(&path).ok().filter(fs::Metadata::is_file)?;
    if facts.len() > limit { None } else { fs::read(path).ok() }
}

/// Removes the plain files of a folder of ours but those wanted.
///
/// # Errors
/// [`OutputError::Disk`].
pub(super) fn remove_others(folder: &Path, wanted: &dyn Fn(&str) -> bool) -> Result<(), OutputError> {
    for name in names(folder)?.iter().filter(|name| !name.to_str().is_some_and(wanted)) {
        let path = folder.join(name);
        if fs::symlink_metadata(&path).is_ok_and(|facts| facts.is_file()) {
            fs::remove_file(&path).map_err(|error| failed("remove", &path, error))?;
        }
    }
    Ok(())
}

fn write_new(path: &Path, bytes: &[u8]) -> io::Result<File> {
    // Only a file that isn't there: so no link is followed and nobody's file is emptied.
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(bytes)?;
    file.flush()?;
    Ok(file)
}

/// Where the new file is written that is to take the place of a path, below the output folder: beside it.
fn new_beside(path: &str) -> String {
    let folder = path.rfind('/').map_or("", |slash| path.get(..=slash).unwrap_or_default());
    let digits: String = record::sha256(path.as_bytes()).chars().take(16).collect();
    format!("{folder}{NEW}{digits}")
}

/// Writes a file of a name that only we give, in place of one that a stopped run has left there.
///
/// # Errors
/// As [`file_there`]; [`OutputError::Disk`].
fn write_over_leftover(folder: &Path, way: &str, bytes: &[u8]) -> Result<File, OutputError> {
    let new = below(folder, way);
    let written = match write_new(&new, bytes) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {
            file_there(folder, way)?;
            fs::remove_file(&new).map_err(|error| failed("remove", &new, error))?;
            write_new(&new, bytes)
        }
        written => written,
    };
    written.map_err(|error| failed("write", &new, error))
}

fn names(folder: &Path) -> Result<Vec<OsString>, OutputError> {
    let failed = |error| failed("list", folder, error);
    let mut names = Vec::new();
    for entry in fs::read_dir(folder).map_err(failed)? {
        names.push(entry.map_err(failed)?.file_name());
    }
    names.sort();
    Ok(names)
}

fn is_leftover(name: &OsStr) -> bool {
    let digits = name.to_str().and_then(|name| name.strip_prefix(NEW));
    digits.is_some_and(|digits| digits.len() == 16 && digits.bytes().all(|b| b.is_ascii_hexdigit()))
}

fn below(folder: &Path, path: &str) -> PathBuf {
    path.split('/').fold(folder.to_owned(), |at, part| at.join(part))
}

fn failed(tried: &'static str, path: &Path, error: io::Error) -> OutputError {
    OutputError::Disk { tried, path: path.to_owned(), error }
}

#[cfg(test)]
mod tests {
    use super::{LOCK, NEW, STAGED, is_leftover, kept, record};
    use crate::output::name;
    use std::ffi::OsStr;

    #[test]
    fn names_of_ours_begin_alike_so_that_no_page_can_have_one() {
        for ours in [LOCK, NEW, STAGED, kept::KEPT, record::RECORD] {
            assert!(ours.starts_with(name::OURS), "{ours}");
            assert!(name::check(ours).is_err(), "{ours}");
        }
    }

    #[test]
    fn only_names_that_we_give_are_leftovers() {
        assert!(is_leftover(OsStr::new(".benchleaf-new-0123456789abcdef")));
        for name in
            [".benchleaf-new-", ".benchleaf-new-plan.html", ".benchleaf-new-0123456789abcdef0", LOCK, record::RECORD]
        {
            assert!(!is_leftover(OsStr::new(name)), "{name}");
        }
    }
}
