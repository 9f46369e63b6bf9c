//! Drawings from values and photographs: what a page shows that is not text.
//!
//! Invariant: the same input gives the same bytes; no clock, no thread order, no map order.

/// A picture as the site carries it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rendition {
    /// Path in the site, with `/`.
    pub path: String,
    /// Width in CSS pixels as shown at most.
    pub width: u32,
    /// Height likewise.
    pub height: u32,
    /// The file's bytes.
    pub bytes: Vec<u8>,
}
