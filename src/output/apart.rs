//! Keeping what is published apart from what it is made from.

use super::{OutputError, Overlap, disk};
use std::path::Path;

/// Refuses an output folder that is the manual's folder, lies in it or contains it, links resolved.
/// The output folder need not be there yet.
///
/// # Errors
/// [`OutputError::NotApart`]; [`OutputError::Disk`] where the system can't tell where a folder is.
pub fn check_apart(output: &Path, manual: &Path) -> Result<(), OutputError> {
    let (real_output, real_manual) = (disk::real(output)?, disk::real(manual)?);
    let how = if real_output == real_manual {
        Overlap::Same
    } else if real_output.starts_with(&real_manual) {
        Overlap::Inside
    } else if real_manual.starts_with(&real_output) {
        Overlap::Around
    } else {
        return Ok(());
    };
    Err(OutputError::NotApart { output: output.to_owned(), manual: manual.to_owned(), how })
}
