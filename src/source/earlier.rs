//! An earlier state of a manual: another folder, a published site, or a revision kept by the `git` program.

use super::disk::{self, Content};
use super::read::MANUAL_FILE;
use super::{ReadError, Sources, read};
use crate::finding::Finding;
use std::path::{Path, PathBuf};
use std::process::Command;
use tempfile::TempDir;

/// The name of the list of values in a published site.
pub const VALUES_FILE: &str = ".values.json";

/// The most a list of values may hold, in bytes.
const VALUES_LIMIT: u64 = 512 * 1024 * 1024;

/// An earlier state, as far as it was found.
#[derive(Debug)]
pub enum Earlier {
    /// The list of values of a published site.
    Values(Vec<u8>),
    /// A manual.
    Manual(Box<Sources>, Vec<Finding>),
    /// A revision of before the manual was there.
    Absent,
}

/// The list of values that the last publishing left in a site, if there is one.
///
/// # Errors
/// Where it is there and can't be read.
pub fn published_values(site: &Path) -> Result<Option<Vec<u8>>, ReadError> {
    let path = site.join(VALUES_FILE);
    if !disk::is_regular_file(&path) {
        return Ok(None);
    }
    match disk::read(&path, VALUES_LIMIT) {
        Content::Bytes(bytes) => Ok(Some(bytes)),
        Content::TooLarge(size) => Err(ReadError::new(&path, format!("{size} bytes are too many for a list of values"), "publish the manual anew")),
        Content::Failed(error) => Err(ReadError::new(&path, error.to_string(), "make it readable, or publish the manual anew")),
    }
}

/// Whether a site has a list of the values that were published in it, whatever is in it.
pub fn has_published_values(site: &Path) -> bool {
    disk::is_regular_file(&site.join(VALUES_FILE))
}

/// The earlier state that `named` means: a folder with a manual or a published site in it, or a revision
/// of the manual's own folder.
///
/// # Errors
/// Where it is neither.
pub fn earlier(named: &str, started_in: &Path, manual: &Path) -> Result<Earlier, ReadError> {
    // An empty name would be the folder this was started in: mostly the manual itself, which never differs from itself.
    if named.trim().is_empty() {
        return Err(ReadError::new(
            Path::new("‘’"),
            "an empty name is no earlier state (a variable that is not set leaves one)",
            "name a folder with a manual or a published site in it, or a revision of the manual's folder",
        ));
    }
    let folder = started_in.join(named);
    if !disk::is_folder(&folder) {
        return revision(named, manual);
    }
    if let Some(values) = published_values(&folder)? {
        return Ok(Earlier::Values(values));
    }
    let (sources, findings) = read(&folder)?;
    Ok(Earlier::Manual(Box::new(sources), findings))
}

/// Refuses a name that means the manual's own folder as it is now: compared with itself nothing would ever differ.
///
/// # Errors
/// Where `named` is that folder.
pub fn is_another(named: &str, started_in: &Path, manual: &Path) -> Result<(), ReadError> {
    let same = disk::real(&started_in.join(named)).is_ok_and(|folder| disk::real(manual).is_ok_and(|manual| folder == manual));
    if same && !named.trim().is_empty() {
        return Err(ReadError::new(
            Path::new(named),
            "this is the manual's own folder as it is now, which differs from itself in nothing",
            "name an earlier state: another folder with a manual or a published site in it, or a revision such as HEAD",
        ));
    }
    Ok(())
}

/// A revision in which something below the manual's folder changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Revision {
    /// Its short name.
    pub name: String,
    /// Its day: `2026-09-14`.
    pub date: String,
}

/// The newest `most` revisions that changed the manual's folder, newest first.
///
/// # Errors
/// Where the folder is in no repository, or the `git` program can't be run.
pub fn revisions(manual: &Path, most: u16) -> Result<Vec<Revision>, ReadError> {
    let fault = |message: String| ReadError::new(manual, message, "keep the manual's folder under version control, or name an earlier state yourself");
    let scratch = TempDir::new().map_err(|error| fault(format!("no scratch folder could be made: {error}")))?;
    let log = git(manual, scratch.path(), &["log", &format!("--max-count={most}"), "--format=%h %cs", "--", "."]);
    let log = log.map_err(|said| fault(said.replace("is no folder, and no revision either", "it has no earlier revisions").replace("is no folder, and the", "the")))?;
    Ok(log.lines().filter_map(|line| line.split_once(' ')).map(|(name, date)| Revision { name: name.to_owned(), date: date.to_owned() }).collect())
}

/// A revision of the manual's folder, written out to a folder of its own: the manual's repository stays
/// as it is.
fn revision(named: &str, manual: &Path) -> Result<Earlier, ReadError> {
    let fault = |message: String| {
        ReadError::new(Path::new(named), message, "name a folder with a manual or a published site in it, or a revision of the manual's folder")
    };
    // A revision can't begin with a dash: it would be taken for an option.
    if named.starts_with('-') {
        return Err(fault("is neither a folder nor a revision".to_owned()));
    }
    let scratch = TempDir::new().map_err(|error| fault(format!("no scratch folder could be made: {error}")))?;
    let outside = |said: String| if said.contains("not a git repository") { in_no_repository(named) } else { fault(said) };
    let top = PathBuf::from(git(manual, scratch.path(), &["rev-parse", "--show-toplevel"]).map_err(outside)?.trim_end());
    let below = git(manual, scratch.path(), &["rev-parse", "--show-prefix"]).map_err(&fault)?;
    git(&top, scratch.path(), &["read-tree", &format!("{named}^{{tree}}")]).map_err(|_| not_held(named, &top, scratch.path()).unwrap_or_else(|| unknown(named)))?;
    let prefix = format!("--prefix={}/", scratch.path().join("tree").display());
    git(&top, scratch.path(), &["checkout-index", "--all", &prefix]).map_err(&fault)?;
    let folder = scratch.path().join("tree").join(below.trim_end());
    if !disk::is_regular_file(&folder.join(MANUAL_FILE)) {
        return Ok(Earlier::Absent);
    }
    let (sources, findings) = read(&folder)?;
    Ok(Earlier::Manual(Box::new(sources), findings))
}

fn in_no_repository(named: &str) -> ReadError {
    let message = "is no folder here; nor can it be a revision, as the manual's folder is not under version control";
    ReadError::new(Path::new(named), message.to_owned(), "name a folder with a manual or a published site in it, or keep the manual's folder in a git repository")
}

fn unknown(named: &str) -> ReadError {
    let message = "is no folder here, and no revision of the repository that holds the manual";
    ReadError::new(Path::new(named), message.to_owned(), "look at the spelling: ‘git log --oneline’ lists the revisions, ‘git tag’ those with a name; or name a folder with a manual or a published site in it")
}

/// Why a repository does not hold a revision that may well exist: it has one revision only, or was fetched without the
/// earlier ones. None where neither is so: then the name is wrong.
fn not_held(named: &str, top: &Path, scratch: &Path) -> Option<ReadError> {
    let fault = |message: &str, fix: &str| Some(ReadError::new(Path::new(named), message.to_owned(), fix));
    if git(top, scratch, &["rev-parse", "--is-shallow-repository"]).is_ok_and(|said| said.trim() == "true") {
        return fault(
            "is not in this copy of the repository: it was fetched without its earlier revisions (a shallow clone)",
            "fetch them first, with ‘git fetch --unshallow’, or tell the build server to fetch the whole history",
        );
    }
    // `HEAD`, `HEAD~1` and `HEAD^` ask for the last one and what came before; `HEAD:notes`, or a name that is only misspelt, asks
    // for nothing of the kind.
    let back = named.strip_prefix("HEAD")?;
    if !back.chars().all(|sign| matches!(sign, '~' | '^') || sign.is_ascii_digit()) || back.starts_with(|first: char| first.is_ascii_digit()) {
        return None;
    }
    match git(top, scratch, &["rev-list", "--count", "--first-parent", "HEAD"]) {
        Err(_) => fault("there is no revision yet", "commit the manual first; until then there is nothing to compare with"),
        Ok(count) if count.trim() == "1" => fault("there is only one revision yet", "compare with HEAD, the only one, or without --against until there is a second"),
        Ok(count) => {
            let count: u64 = count.trim().parse().ok()?;
            let asked: u64 = named.strip_prefix("HEAD~")?.parse().ok()?;
            let earliest = count.checked_sub(1).filter(|earliest| asked > *earliest)?;
            fault(&format!("goes back further than the repository does: it has {count} revisions"), &format!("name HEAD~{earliest}, the first one, or a later one"))
        }
    }
}

/// Runs `git` with an index of its own, so that the repository's stays untouched. What a hook is told of the repository by
/// its environment is left out: it would be taken for the manual's folder.
fn git(folder: &Path, scratch: &Path, arguments: &[&str]) -> Result<String, String> {
    let run = Command::new("git")
        .arg("-C")
        .arg(folder)
        .args(arguments)
        .env_remove("GIT_DIR")
        .env_remove("GIT_WORK_TREE")
        .env_remove("GIT_PREFIX")
        .env("GIT_INDEX_FILE", scratch.join("index"))
        // What it says is looked at, in one language.
        .env("LC_ALL", "C")
        .output()
        .map_err(|error| format!("is no folder, and the git program could not be run: {error}"))?;
    if run.status.success() {
        return Ok(String::from_utf8_lossy(&run.stdout).into_owned());
    }
    let said = String::from_utf8_lossy(&run.stderr);
    let first = said.lines().next().unwrap_or("it said nothing");
    Err(format!("is no folder, and no revision either: {}", first.trim_start_matches("fatal: ")))
}
