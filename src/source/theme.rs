//! The files of a theme's folder, for the stage that makes pages.

use super::disk::{self, Content};
use super::error::ReadError;
use super::node::Node;
use super::read::Reader;
use super::report::excerpt;
use super::rules::THEME_UNUSABLE;
use super::walk::{self, ObstacleKind};
use crate::finding::Finding;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

/// Bytes of one file of a theme.
const FILE_LIMIT: u64 = 2 * 1024 * 1024;
/// Bytes of a whole theme.
const THEME_LIMIT: usize = 16 * 1024 * 1024;

/// Where the folder lies that a manual names as its theme: below the manual's own, all links followed.
///
/// # Errors
/// Where there is no such folder, or it is not below `root`: whatever lies in a theme is published, so a manual that
/// came from elsewhere must not be able to name this machine's folders.
pub fn theme_folder(root: &Path, theme: &str) -> Result<PathBuf, ReadError> {
    let named = root.join(theme);
    let missing = || ReadError::new(&named, "there is no such folder", "create it, or correct ‘theme:’ in manual.yaml");
    let folder = disk::real(&named).ok().filter(|folder| disk::is_folder(folder)).ok_or_else(missing)?;
    let below = disk::real(root).is_ok_and(|root| folder != root && folder.starts_with(root));
    if below {
        return Ok(folder);
    }
    Err(ReadError::new(
        &named,
        "a theme lies below the manual's folder, and this does not",
        "copy the theme into the manual's folder, and name that folder in ‘theme:’",
    ))
}

/// The files of the theme of a manual in the folder `root`, by its name in `manual.yaml`: those directly in it and in its folders one level down, by path with `/`.
/// Dot-files and what editors leave behind are passed over. A file may have 2 MiB, a theme 16 MiB.
///
/// # Errors
/// As [`theme_folder`], and where a file can't be read or is too large, a symbolic link leads out of the folder,
/// or folders are nested.
pub fn read_theme(root: &Path, theme: &str) -> Result<BTreeMap<String, Vec<u8>>, ReadError> {
    let root = theme_folder(root, theme)?;
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

impl Reader {
    /// Tells at its place in `manual.yaml` why a theme can't be used. One that is left open is asked for elsewhere.
    pub(super) fn check_theme(&mut self, root: &Path, named: Option<&Node>) {
        let Some((node, theme)) = named.and_then(|node| Some((node, node.text()?))) else { return };
        if theme.starts_with('?') {
            return;
        }
        if let Err(error) = read_theme(root, theme) {
            let below = error.path.strip_prefix(root).map_or_else(|_| theme.to_owned(), |path| path.to_string_lossy().into_owned());
            let finding = Finding::new(&THEME_UNUSABLE, node.place.clone(), format!("the theme ‘{}’ can't be used", excerpt(theme)));
            let finding = finding.label(error.message).fix(error.remedy);
            self.report.add(if below == theme { finding } else { finding.figure(format!("in ‘{}’", excerpt(&below))) });
        }
    }
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
