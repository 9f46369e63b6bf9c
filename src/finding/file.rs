//! The files a finding can point into, and the lines and columns of their bytes.

use std::ops::Range;
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

    /// The line and column of a byte; past the end it is the end. A byte order mark takes no column, as
    /// editors don't show it.
    #[must_use]
    pub fn position(&self, file: FileId, byte: usize) -> Position {
        let text = self.text(file);
        let line = self.line(file, byte);
        let before = text.get(..line.start).unwrap_or("");
        let here = text.get(line.start..boundary(text, byte)).unwrap_or("");
        Position { line: before.bytes().filter(|b| *b == b'\n').count() + 1, column: here.chars().count() + 1 }
    }

    /// The bytes of the line in which a byte stands, without its ending (LF or CR LF) and without a byte
    /// order mark before it; past the end it is the last line, which is empty where the text ends with
    /// a line ending.
    #[must_use]
    pub fn line(&self, file: FileId, byte: usize) -> Range<usize> {
        let text = self.text(file);
        let byte = boundary(text, byte);
        let (before, after) = text.split_at_checked(byte).unwrap_or((text, ""));
        let start = match before.rfind('\n') {
            Some(at) => at + 1,
            None if text.starts_with(BYTE_ORDER_MARK) => BYTE_ORDER_MARK.len_utf8(),
            None => 0,
        };
        let end = after.find('\n').map_or(text.len(), |at| byte + at).max(start);
        let line = text.get(start..end).unwrap_or("");
        let ended = text.get(end..).is_some_and(|rest| rest.starts_with('\n'));
        let length = if ended { line.strip_suffix('\r').unwrap_or(line).len() } else { line.len() };
        start..start + length
    }
}

const BYTE_ORDER_MARK: char = '\u{feff}';

/// The nearest byte at or before `byte` where a character begins, no further than the end.
fn boundary(text: &str, byte: usize) -> usize {
    let mut byte = byte.min(text.len());
    while !text.is_char_boundary(byte) {
        byte -= 1;
    }
    byte
}
