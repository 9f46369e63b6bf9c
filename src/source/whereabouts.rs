//! Where a manual and its repository lie, seen from a folder in or near it.

use super::read::MANUAL_FILE;
use super::{ReadError, disk};
use std::path::{Path, PathBuf};

/// The manual's folder for somebody who works in `folder` and names none: that folder, `procedures` below it, or the
/// nearest folder above that is a manual.
///
/// # Errors
/// Where none of them holds a `manual.yaml`.
pub fn manual_near(folder: &Path) -> Result<PathBuf, ReadError> {
    let holds = |folder: &Path| disk::is_regular_file(&folder.join(MANUAL_FILE));
    let below = folder.join("procedures");
    let near = [folder, below.as_path()].into_iter().chain(folder.ancestors().skip(1)).find(|folder| holds(folder));
    if let Some(near) = near {
        return Ok(near.to_path_buf());
    }
    // A name that is nearly right tells more than that there is nothing.
    let misnamed = [folder, below.as_path()].into_iter().find_map(super::read::misnamed);
    Err(misnamed.unwrap_or_else(|| {
        ReadError::new(
            folder,
            "there is no manual.yaml here, in procedures below, or in a folder above",
            "give the folder that holds it, or begin a manual with ‘benchleaf draft manual’",
        )
    }))
}

/// The folder of the repository that a folder lies in, by its real path; none where it lies in none.
#[must_use]
pub fn repository_of(folder: &Path) -> Option<PathBuf> {
    let real = disk::real(folder).ok()?;
    // In a further working tree `.git` is a file.
    real.ancestors().find(|above| disk::is_folder(&above.join(".git")) || disk::is_regular_file(&above.join(".git"))).map(Path::to_path_buf)
}

/// The path of a folder below another one, with `/`; empty for the same folder, none where it is not below.
#[must_use]
pub fn path_below(folder: &Path, above: &Path) -> Option<String> {
    let (folder, above) = (disk::real(folder).ok()?, disk::real(above).ok()?);
    let below = folder.strip_prefix(above).ok()?;
    let parts: Option<Vec<&str>> = below.components().map(|part| part.as_os_str().to_str()).collect();
    Some(parts?.join("/"))
}
