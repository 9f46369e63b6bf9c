//! The files of a theme's folder, for the stage that makes pages.

use super::disk::{self, Content};
use super::error::ReadError;
use super::walk::{self, ObstacleKind};
use std::collections::BTreeMap;
use std::path::Path;

/// Bytes of one file of a theme.
const FILE_LIMIT: u64 = 2 * 1024 * 1024;
/// Bytes of a whole theme.
const THEME_LIMIT: usize = 16 * 1024 * 1024;

/// The files of a theme's folder: those directly in it and in its folders one level down, by path with `/`.
/// Dot-files and what editors leave behind are passed over. A file may have 2 MiB, a theme 16 MiB.
///
/// # Errors
/// Where the folder is none, a file can't be read or is too large, a symbolic link leads out of the folder,
/// or folders are nested.
pub fn read_theme(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>, ReadError> {
    let root = disk::real(folder).ok().filter(|root| disk::is_folder(root)).ok_or_else(|| {
        ReadError::new(folder, "there is no such folder", "create it, or correct ‘theme:’ in manual.yaml")
    })?;
    let walked = walk::walk(&root, None);
    if let Some(obstacle) = walked.obstacles.first() {
        return Err(ReadError::new(
            &root.join(&obstacle.name),
            told(&obstacle.kind),
            "put a plain file in its place, or remove it",
        ));
    }
    let mut theme = BTreeMap::new();
    let mut total = 0usize;
    for file in walked.files {
        if file.parts().len() > 2 {
            return Err(ReadError::new(&file.disk, "a theme's folders can't be nested", "move the file one folder up"));
        }
        let bytes = match disk::read(&file.disk, FILE_LIMIT) {
            Content::Bytes(bytes) => bytes,
            Content::TooLarge(size) => {
                return Err(ReadError::new(
                    &file.disk,
                    format!("{size} bytes are too many for a file of a theme"),
                    "make it smaller than 2 MiB",
                ));
            }
            Content::Failed(error) => {
                return Err(ReadError::new(
                    &file.disk,
                    format!("it can't be read ({error})"),
                    "allow reading it, or remove it",
                ));
            }
        };
        total = total.saturating_add(bytes.len());
        if total > THEME_LIMIT {
            return Err(ReadError::new(
                &root,
                "the theme is larger than 16 MiB",
                "remove what its templates don't use",
            ));
        }
        theme.insert(file.name, bytes);
    }
    Ok(theme)
}

fn told(kind: &ObstacleKind) -> String {
    match kind {
        ObstacleKind::LinkOut(_) => "a symbolic link leads out of the theme's folder".to_owned(),
        ObstacleKind::LinkLoop => "a symbolic link leads back to itself".to_owned(),
        ObstacleKind::LinkBroken => "a symbolic link leads to nothing".to_owned(),
        ObstacleKind::LinkToFolder => "a symbolic link to a folder is not followed".to_owned(),
        ObstacleKind::Special => "it is neither a file nor a folder".to_owned(),
        ObstacleKind::TooDeep => "folders are nested too deep".to_owned(),
        ObstacleKind::Refused(why) => format!("it can't be read ({why})"),
    }
}
