//! What can stop the making of pages: a broken file of the theme, or two files on one path.

use std::fmt;

/// Why pages could not be made, in plain words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageError {
    /// The file of the theme that is at fault, by its path below the theme's folder.
    pub file: Option<String>,
    /// Its line, from 1.
    pub line: Option<usize>,
    /// What is wrong.
    pub message: String,
}

impl PageError {
    /// An error in a file of the theme.
    pub(super) fn in_theme(file: impl Into<String>, line: Option<usize>, message: impl Into<String>) -> Self {
        Self { file: Some(file.into()), line, message: message.into() }
    }

    /// Two files would lie on one path.
    pub(super) fn doubled(path: &str) -> Self {
        Self {
            file: None,
            line: None,
            message: format!("two files of the site would both be {path}: rename the machine, the procedure or the picture"),
        }
    }

    /// Data for scripts that cannot be written as JSON.
    pub(super) fn of_data(error: &str) -> Self {
        Self { file: None, line: None, message: format!("what the scripts need could not be written: {error}") }
    }

    /// What a machine contributes to a page of all machines can't be written or read.
    pub(super) fn of_part(error: &serde_json::Error) -> Self {
        Self { file: None, line: None, message: format!("a part of a page could not be put together: {error}; run the command again") }
    }

    /// What a template engine reports.
    pub(super) fn of_template(template: &str, error: &tera::Error) -> Self {
        match error.kind() {
            tera::ErrorKind::SyntaxError(report) | tera::ErrorKind::RenderingError(report) => {
                let name = if report.filename().is_empty() { template } else { report.filename() };
                Self::in_theme(format!("templates/{name}"), Some(report.span().start_line), report.message())
            }
            _ => Self::in_theme(format!("templates/{template}"), None, error.to_string()),
        }
    }
}

impl fmt::Display for PageError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (&self.file, self.line) {
            (Some(file), Some(line)) => write!(f, "{file}, line {line}: {}", self.message),
            (Some(file), None) => write!(f, "{file}: {}", self.message),
            (None, _) => f.write_str(&self.message),
        }
    }
}

impl std::error::Error for PageError {}
