//! Why nothing, or nothing more, was published: each error names the path and what to do about it.

use std::fmt;
use std::io;
use std::path::PathBuf;

/// How an output folder and a manual's folder stand to each other when they must not.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Overlap {
    /// They are one folder.
    Same,
    /// The output folder lies in the manual's folder.
    Inside,
    /// The manual's folder lies in the output folder.
    Around,
}

/// What keeps the pages from being published.
#[derive(Debug)]
pub enum OutputError {
    /// The folder holds files and no record of ours.
    ForeignFolder {
        /// The output folder.
        folder: PathBuf,
        /// One of the names in it.
        holds: String,
    },
    /// The folder holds a site of ours, and its record is gone.
    RecordGone(PathBuf),
    /// A page is wanted where a file stands that we did not write.
    ForeignFile(PathBuf),
    /// A draft is wanted where a file stands.
    AlreadyThere(PathBuf),
    /// A symbolic link stands where a page or its folder is wanted.
    Link(PathBuf),
    /// A folder stands where a file is wanted.
    FolderInTheWay(PathBuf),
    /// A file stands where a folder is wanted.
    FileInTheWay(PathBuf),
    /// A page's path has a name that some file system does not take.
    Name {
        /// The page's path.
        path: String,
        /// What is wrong with it.
        why: &'static str,
    },
    /// Two pages' paths that are one on some file system.
    SamePath(String, String),
    /// The record can't be trusted.
    Record {
        /// The record's file.
        path: PathBuf,
        /// What is wrong with it.
        why: String,
    },
    /// The record was written by a later version of this program.
    NewerRecord {
        /// The record's file.
        path: PathBuf,
        /// The version of its form.
        version: u64,
    },
    /// The output folder and the manual's folder overlap.
    NotApart {
        /// The output folder.
        output: PathBuf,
        /// The manual's folder.
        manual: PathBuf,
        /// How they overlap.
        how: Overlap,
    },
    /// Another run is publishing into the folder.
    Busy(PathBuf),
    /// Another run has published into the folder since the plan was made.
    Overtaken(PathBuf),
    /// Something kept the run from going on when it had changed files of the site.
    HalfWay {
        /// How many files it had changed.
        changed: usize,
        /// How many it was to change.
        of: usize,
        /// What kept it.
        error: Box<Self>,
    },
    /// The operating system refused something.
    Disk {
        /// What was tried, such as `write`.
        tried: &'static str,
        /// On which path.
        path: PathBuf,
        /// What the system said.
        error: io::Error,
    },
}

impl fmt::Display for OutputError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::ForeignFolder { folder, holds } => write!(
                f,
                "the folder {} holds files that Benchleaf did not write (such as {holds}); name an empty or a new folder",
                folder.display()
            ),
            Self::RecordGone(path) => write!(
                f,
                "the record {} of a published site is gone, so nobody knows which files are Benchleaf's; nothing was touched; \
                 put it back, publish into a new folder, or empty this one yourself",
                path.display()
            ),
            Self::ForeignFile(path) => write!(
                f,
                "{} was not written by Benchleaf, and a page is wanted there; move it away, or publish elsewhere",
                path.display()
            ),
            Self::AlreadyThere(path) => {
                write!(f, "{} is there already, and a draft never overwrites; give another name, or move the file away", path.display())
            }
            Self::Link(path) => write!(
                f,
                "{} is a symbolic link, and Benchleaf does not publish through links; remove the link, or publish elsewhere",
                path.display()
            ),
            Self::FolderInTheWay(path) => {
                write!(f, "{} is a folder, and a file is wanted there; move the folder away", path.display())
            }
            Self::FileInTheWay(path) => {
                write!(f, "{} is a file, and a folder is wanted there; move the file away", path.display())
            }
            Self::Name { path, why } => {
                write!(f, "{path:?} can't be the path of a page: {why}; rename what the page is made from")
            }
            Self::SamePath(first, second) => write!(
                f,
                "{first:?} and {second:?} are one path on some file systems; rename what one of the pages is made from"
            ),
            Self::Record { path, why } => write!(
                f,
                "the record {} is damaged ({why}), so nobody knows which files are Benchleaf's; nothing was touched; \
                 publish into a new folder, or empty this one yourself",
                path.display()
            ),
            Self::NewerRecord { path, version } => write!(
                f,
                "the record {} has version {version}, written by a later Benchleaf; use that one, or publish into a new folder",
                path.display()
            ),
            Self::NotApart { output, manual, how } => {
                let how = match how {
                    Overlap::Same => "is",
                    Overlap::Inside => "lies in",
                    Overlap::Around => "contains",
                };
                write!(
                    f,
                    "the output folder {} {how} the manual's folder {}; name an output folder beside the manual",
                    output.display(),
                    manual.display()
                )
            }
            Self::Busy(folder) => write!(
                f,
                "another run of Benchleaf is publishing into {}; wait until it is done, then run again",
                folder.display()
            ),
            Self::Overtaken(folder) => {
                write!(f, "another run of Benchleaf published into {} in the meantime; run again", folder.display())
            }
            Self::HalfWay { changed, of, error } => {
                match error.as_ref() {
                    Self::Disk { tried, path, error } => write!(f, "could not {tried} {}: {error}", path.display())?,
                    other => write!(f, "{other}")?,
                }
                match of.saturating_sub(*changed) {
                    0 => f.write_str("; every file of the site is as it is to be, only the record of them is not; mend the cause and run again"),
                    _ => write!(f, "; {changed} of the {of} files to be changed are new, the others still old; mend the cause and run again"),
                }
            }
            Self::Disk { tried, path, error } => write!(
                f,
                "could not {tried} {}: {error}; what was published before still stands; mend the cause and run again",
                path.display()
            ),
        }
    }
}

impl std::error::Error for OutputError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::Disk { error, .. } => Some(error),
            Self::HalfWay { error, .. } => Some(error.as_ref()),
            Self::ForeignFolder { .. }
            | Self::RecordGone(_)
            | Self::ForeignFile(_)
            | Self::AlreadyThere(_)
            | Self::Link(_)
            | Self::FolderInTheWay(_)
            | Self::FileInTheWay(_)
            | Self::Name { .. }
            | Self::SamePath(..)
            | Self::Record { .. }
            | Self::NewerRecord { .. }
            | Self::NotApart { .. }
            | Self::Busy(_)
            | Self::Overtaken(_) => None,
        }
    }
}
