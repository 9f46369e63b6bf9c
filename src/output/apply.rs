//! Doing what a plan says.

use super::plan::under_way;
use super::record::{RECORD, Record, bytes_in, sha256};
use super::{Action, Content, OutputError, Plan, WriteReason, disk, name};
use std::collections::BTreeMap;

/// How many files a run dealt with.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Summary {
    /// Written.
    pub written: usize,
    /// Left as they were.
    pub kept: usize,
    /// Removed.
    pub removed: usize,
    /// Half-written files of a stopped run that were cleaned away.
    pub cleaned: usize,
}

/// Publishes: writes what the plan writes, then removes what it removes, then writes the record.
///
/// # Errors
/// [`OutputError::Busy`] and [`OutputError::Overtaken`] before anything is changed. Any other error stops the
/// run where it is; each file is then the old or the new one, and the record lists them all, so the next run
/// goes on from there.
pub fn apply(plan: &Plan<'_>) -> Result<Summary, OutputError> {
    disk::make_folder(&plan.folder)?;
    let _lock = disk::lock(&plan.folder)?;
    apply_locked(plan)
}

/// As [`apply`], for a run that has taken the folder already.
pub(super) fn apply_locked(plan: &Plan<'_>) -> Result<Summary, OutputError> {
    if bytes_in(&plan.folder)? != plan.record_bytes {
        return Err(OutputError::Overtaken(plan.folder.clone()));
    }
    let mut summary = Summary { cleaned: clean(plan)?, ..Summary::default() };
    announce(plan)?;
    match carry_out(plan, &mut summary) {
        Ok(()) => Ok(summary),
        Err(error) => Err(match summary.written + summary.removed {
            0 => error,
            changed => OutputError::HalfWay { changed, of: plan.entries.iter().filter(|entry| entry.action != Action::Keep).count(), error: Box::new(error) },
        }),
    }
}

/// Does what the plan says of each file, then writes the record; counts what was done.
fn carry_out(plan: &Plan<'_>, summary: &mut Summary) -> Result<(), OutputError> {
    for entry in &plan.entries {
        match entry.action {
            Action::Keep => summary.kept += 1,
            Action::Write(reason) => {
                write(plan, &entry.path, reason)?;
                summary.written += 1;
            }
            Action::Remove(_) => {
                if is_safe_to_remove(plan, &entry.path)? {
                    disk::remove(&plan.folder, &entry.path)?;
                    summary.removed += 1;
                }
            }
        }
    }
    let hash = |(path, content): (&&str, &&Content)| match content {
        Content::Bytes(bytes) => Some(((*path).to_owned(), sha256(bytes))),
        Content::Staged(print) => Some(((*path).to_owned(), print.clone())),
        Content::AsHeld => plan.record.files.get_key_value(*path).map(|(path, hash)| (path.clone(), hash.clone())),
    };
    let files = plan.files.iter().filter_map(hash).collect();
    let record = Record { files, unfinished: BTreeMap::new() }.to_bytes(&plan.folder)?;
    if bytes_in(&plan.folder)?.as_ref() != Some(&record) {
        disk::replace(&plan.folder, RECORD, &record)?;
    }
    Ok(())
}

/// Cleans every folder that a stopped run may have written into, the output folder included.
fn clean(plan: &Plan<'_>) -> Result<usize, OutputError> {
    let paths = plan.record.paths().chain(plan.files.keys().copied()).chain([RECORD]);
    // One path stands for its folder.
    let folders: BTreeMap<&str, &str> =
        paths.map(|path| (path.rsplit_once('/').map_or("", |(at, _)| at), path)).collect();
    folders.values().map(|path| disk::clean_beside(&plan.folder, path)).sum()
}

/// Lists what is to be written in the record before the first file is, so that a stopped run leaves none that nobody owns to,
/// and none that is taken for the work of another hand.
fn announce(plan: &Plan<'_>) -> Result<(), OutputError> {
    let mut record = plan.record.clone();
    let mut more = false;
    for (path, print) in under_way(plan) {
        more |= record.unfinished.entry(path.to_owned()).or_default().insert(print);
    }
    if more { disk::replace(&plan.folder, RECORD, &record.to_bytes(&plan.folder)?) } else { Ok(()) }
}

fn write(plan: &Plan<'_>, path: &str, reason: WriteReason) -> Result<(), OutputError> {
    // Somebody may have put a file there since the plan was made.
    if reason == WriteReason::New && disk::file_there(&plan.folder, path)? {
        return Err(OutputError::ForeignFile(plan.folder.join(path)));
    }
    match plan.files.get(path) {
        Some(Content::Bytes(bytes)) => disk::replace(&plan.folder, path, bytes),
        // A new path was found free just now.
        Some(Content::Staged(_)) if reason == WriteReason::New => disk::move_to(&plan.folder, path),
        Some(Content::Staged(_)) => disk::move_in(&plan.folder, path),
        // What is held is kept, never written.
        Some(Content::AsHeld) | None => Ok(()),
    }
}

/// A path that differs from a page's in case only may be that page's very file: it is removed only where the
/// folder holds both spellings.
fn is_safe_to_remove(plan: &Plan<'_>, path: &str) -> Result<bool, OutputError> {
    let folded = name::folded(path);
    match plan.files.keys().find(|page| name::folded(page) == folded) {
        Some(twin) => Ok(disk::spelled_so(&plan.folder, path)? && disk::spelled_so(&plan.folder, twin)?),
        None => Ok(true),
    }
}
