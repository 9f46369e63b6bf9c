//! The files a finding can point into, and the lines and columns of their bytes.

use std::sync::Arc;

/// A file of the manual, as an index into its [`FileTable`].
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct FileId(u32);

impl FileId {
    fn index(self) -> usize {
        usize::try_from(self.0).unwrap_or(usize::MAX)
    }
}

/// One file: its name as a reader knows it, and its text (empty where it could not be read).
#[derive(Clone, Debug)]
pub struct FileText {
    /// Path below the manual's folder, with `/` between its parts.
    pub name: String,
    /// The text as it is on disk.
    pub text: Arc<str>,
}

/// The files of one manual, in the order they were met.
#[derive(Clone, Debug, Default)]
pub struct FileTable {
    files: Vec<FileText>,
}

/// A line and a column, both from 1; the column counts characters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
}

impl FileTable {
    /// Adds a file and returns its id.
    pub fn add(&mut self, name: impl Into<String>, text: impl Into<Arc<str>>) -> FileId {
        let id = FileId(u32::try_from(self.files.len()).unwrap_or(u32::MAX));
        self.files.push(FileText { name: name.into(), text: text.into() });
        id
    }

    /// The file's name below the manual's folder; empty for an id of another table.
    #[must_use]
    pub fn name(&self, file: FileId) -> &str {
        self.files.get(file.index()).map_or("", |f| f.name.as_str())
    }

    /// The file's text; empty where it could not be read.
    #[must_use]
    pub fn text(&self, file: FileId) -> &str {
        self.files.get(file.index()).map_or("", |f| &f.text)
    }

    /// All files with their ids, in the order they were met.
    pub fn iter(&self) -> impl Iterator<Item = (FileId, &FileText)> {
        self.files.iter().enumerate().map(|(i, f)| (FileId(u32::try_from(i).unwrap_or(u32::MAX)), f))
    }

    /// The line and column of a byte; past the end it is the end.
    #[must_use]
    pub fn position(&self, file: FileId, byte: usize) -> Position {
        let text = self.text(file);
        let mut byte = byte.min(text.len());
        while !text.is_char_boundary(byte) {
            byte -= 1;
        }
        let before = text.get(..byte).unwrap_or("");
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        Position {
            line: before.bytes().filter(|b| *b == b'\n').count() + 1,
            column: before.get(line_start..).unwrap_or("").chars().count() + 1,
        }
    }
}
