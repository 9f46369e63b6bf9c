//! A copy of the demonstration manual that a test may spoil, and the program run on it.

#![allow(dead_code, reason = "each test uses its part")]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use tempfile::TempDir;

/// The demonstration manual, as it stands in this repository.
pub(crate) fn original() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("procedures")
}

/// What `inspect` says beside its report where there is no earlier state of the manual.
pub(crate) const NOTHING_BEFORE: &[u8] = b"The values were compared with no earlier state: name one with --against.\n";

/// A copy of it.
pub(crate) struct Demo {
    folder: TempDir,
}

impl Demo {
    /// The manual without its build records: one of them tells of a bulletin, as it should, and tests look for what is
    /// spoilt.
    pub(crate) fn copy() -> Self {
        let folder = TempDir::new().unwrap();
        copy(&original(), folder.path());
        for machine in ["hb-2", "tarn-18"] {
            fs::remove_dir_all(folder.path().join(machine).join("builds")).unwrap();
        }
        Self { folder }
    }

    pub(crate) fn path(&self) -> &Path {
        self.folder.path()
    }

    pub(crate) fn text(&self, file: &str) -> String {
        fs::read_to_string(self.path().join(file)).unwrap()
    }

    /// Writes a file, with the folders above it.
    pub(crate) fn write(&self, file: &str, content: impl AsRef<[u8]>) {
        let path = self.path().join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, content).unwrap();
    }

    /// Replaces a text that stands in the file exactly once.
    pub(crate) fn replace(&self, file: &str, from: &str, to: &str) {
        let text = self.text(file);
        assert_eq!(text.matches(from).count(), 1, "{file}: {from:?}");
        self.write(file, text.replacen(from, to, 1));
    }

    /// Line and column, from 1 and in characters, of a text that stands in the file exactly once.
    pub(crate) fn position(&self, file: &str, of: &str) -> (usize, usize) {
        let text = self.text(file);
        assert_eq!(text.matches(of).count(), 1, "{file}: {of:?}");
        let before = text.split(of).next().unwrap();
        let line = before.rsplit('\n').next().unwrap();
        (before.matches('\n').count() + 1, line.chars().count() + 1)
    }

    /// Runs `benchleaf inspect` on it.
    pub(crate) fn inspect(&self, further: &[&str]) -> Output {
        inspect(self.path(), further)
    }
}

/// Runs `benchleaf inspect` on a folder.
pub(crate) fn inspect(folder: &Path, further: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_benchleaf")).arg("inspect").arg(folder).args(further).current_dir(std::env::temp_dir()).output().unwrap()
}

/// Every file below a folder, by name.
pub(crate) fn files(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() { folders.push(path) } else { all.push(path) }
        }
    }
    all.sort();
    all
}

fn copy(from: &Path, to: &Path) {
    for path in files(from) {
        let target = to.join(path.strip_prefix(from).unwrap());
        fs::create_dir_all(target.parent().unwrap()).unwrap();
        fs::copy(&path, target).unwrap();
    }
}
