//! Writing files that are not there yet: drafts. Nothing that is there is ever replaced.

use super::{OutputError, disk, name};
use std::path::Path;

/// Writes files below a folder, none of which may be there: all are looked for before the first is written, and each then
/// appears whole or not at all.
///
/// # Errors
/// [`OutputError::Name`] for a path that some file system does not take; [`OutputError::AlreadyThere`] where one of them
/// is there already; [`OutputError::Link`], [`OutputError::FileInTheWay`], [`OutputError::FolderInTheWay`] where something
/// else stands in the way; [`OutputError::Disk`].
pub fn write_fresh(folder: &Path, files: &[(&str, &[u8])]) -> Result<(), OutputError> {
    name::check_together(files.iter().map(|(path, _)| *path))?;
    for (path, _) in files {
        name::check(path).map_err(|why| OutputError::Name { path: (*path).to_owned(), why })?;
        if disk::file_there(folder, path)? {
            return Err(OutputError::AlreadyThere(folder.join(path)));
        }
    }
    disk::make_folder(folder)?;
    files.iter().try_for_each(|(path, bytes)| disk::create(folder, path, bytes))
}
