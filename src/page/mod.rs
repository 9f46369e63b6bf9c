//! What stands on which page: views, templates, sheets, links.

/// A file of the site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageFile {
    /// Path in the site, with `/`.
    pub path: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}
