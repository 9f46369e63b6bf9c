//! Walking a manual's folder: what lies where, what is passed over, what can't be followed.

use super::disk;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};
use walkdir::{DirEntry, WalkDir};

/// The folder of a machine's build records.
pub(super) const BUILDS: &str = "builds";

/// Folders within each other that are looked into.
const DEEPEST: usize = 8;

/// A regular file below the root.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct FileAt {
    /// Path from the root with `/`.
    pub(super) name: String,
    /// Path on the disk.
    pub(super) disk: PathBuf,
}

impl FileAt {
    /// The folders and the file's own name.
    pub(super) fn parts(&self) -> Vec<&str> {
        self.name.split('/').collect()
    }
}

/// Something that is not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Obstacle {
    /// Path from the root with `/`.
    pub(super) name: String,
    pub(super) kind: ObstacleKind,
}

/// Why it is not read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum ObstacleKind {
    /// A link whose target lies outside the root.
    LinkOut(PathBuf),
    /// A link that leads back to itself or to a folder around it.
    LinkLoop,
    /// A link to nothing.
    LinkBroken,
    /// A link to a folder of the manual.
    LinkToFolder,
    /// A pipe, socket or device.
    Special,
    /// Folders nested too deep.
    TooDeep,
    /// The system refuses.
    Refused(String),
}

/// What lies below a folder, in the order of names.
#[derive(Debug, Default)]
pub(super) struct Walked {
    pub(super) files: Vec<FileAt>,
    pub(super) folders: Vec<String>,
    pub(super) obstacles: Vec<Obstacle>,
}

/// Walks `root`, which must be a real path. `skip` is a path below the root that is passed over.
pub(super) fn walk(root: &Path, skip: Option<&Path>) -> Walked {
    let mut walked = Walked::default();
    let entries = WalkDir::new(root)
        .min_depth(1)
        .max_depth(DEEPEST + 1)
        .follow_links(false)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(|entry| !passed_over(entry) && skip != Some(entry.path()));
    for entry in entries {
        match entry {
            Ok(entry) => take(root, &entry, &mut walked),
            Err(error) => {
                // The manual's folder itself is told by its own name.
                let below = error.path().map_or_else(String::new, |path| name_below(root, path));
                let own = || root.file_name().map_or_else(|| ".".to_owned(), |own| own.to_string_lossy().into_owned());
                let name = if below.is_empty() { own() } else { below };
                let why = error.io_error().map_or_else(|| error.to_string(), ToString::to_string);
                walked.obstacles.push(Obstacle { name, kind: ObstacleKind::Refused(why) });
            }
        }
    }
    walked
}

fn take(root: &Path, entry: &DirEntry, walked: &mut Walked) {
    let name = name_below(root, entry.path());
    let kind = entry.file_type();
    if entry.depth() > DEEPEST {
        walked.obstacles.push(Obstacle { name, kind: ObstacleKind::TooDeep });
    } else if kind.is_symlink() {
        match follow(root, entry.path()) {
            Ok(disk) => walked.files.push(FileAt { name, disk }),
            Err(kind) => walked.obstacles.push(Obstacle { name, kind }),
        }
    } else if kind.is_dir() {
        walked.folders.push(name);
    } else if kind.is_file() {
        walked.files.push(FileAt { name, disk: entry.path().to_path_buf() });
    } else {
        walked.obstacles.push(Obstacle { name, kind: ObstacleKind::Special });
    }
}

/// The file a link leads to, if it is one inside the root.
fn follow(root: &Path, link: &Path) -> Result<PathBuf, ObstacleKind> {
    let target = disk::real(link).map_err(|error| match error.kind() {
        std::io::ErrorKind::NotFound => ObstacleKind::LinkBroken,
        std::io::ErrorKind::PermissionDenied => ObstacleKind::Refused(error.to_string()),
        // The system gives up on a chain of links that has no end.
        _ => ObstacleKind::LinkLoop,
    })?;
    if !target.starts_with(root) {
        return Err(ObstacleKind::LinkOut(target));
    }
    if disk::is_folder(&target) {
        return Err(if link.starts_with(&target) { ObstacleKind::LinkLoop } else { ObstacleKind::LinkToFolder });
    }
    if disk::is_regular_file(&target) { Ok(target) } else { Err(ObstacleKind::Special) }
}

/// Dot-files, what editors and systems leave behind.
fn passed_over(entry: &DirEntry) -> bool {
    let name = entry.file_name().to_string_lossy();
    is_left_behind(&name) || (entry.file_type().is_dir() && is_beside_records(entry, &name.to_lowercase()))
}

/// Whether the name of a file or folder is that of a dot-file or of what editors and systems leave behind: no manual
/// has anything to do with it.
#[must_use]
pub fn is_left_behind(name: &str) -> bool {
    let lower = name.to_lowercase();
    let ending = Path::new(&lower).extension().and_then(OsStr::to_str).unwrap_or("");
    name.starts_with(['.', '~'])
        || name.ends_with('~')
        || (name.starts_with('#') && name.ends_with('#'))
        || matches!(ending, "bak" | "orig" | "swp" | "swo" | "tmp" | "old")
        || matches!(lower.as_str(), "thumbs.db" | "desktop.ini")
}

/// Folders of records that are none: those of a machine are called `builds` and hold no folders.
fn is_beside_records(entry: &DirEntry, lower: &str) -> bool {
    let of_a_machine = entry.depth() == 2 && entry.file_name() == OsStr::new(BUILDS);
    (lower == BUILDS && !of_a_machine) || entry.path().parent().and_then(Path::file_name) == Some(OsStr::new(BUILDS))
}

/// A path from the root with `/`; names that are no text come out with signs in place of what is none.
pub(super) fn name_below(root: &Path, path: &Path) -> String {
    let below = path.strip_prefix(root).unwrap_or(path);
    let parts: Vec<String> = below.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
    parts.join("/")
}
