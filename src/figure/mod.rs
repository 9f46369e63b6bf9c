//! Drawings from values and photographs: what a page shows that is not text.
//!
//! Invariant: the same input gives the same bytes; no clock, no thread order, no map order.

pub mod alignment;
pub mod balloons;
pub mod drawing;
pub mod heated_fit;
pub mod orientation;
mod paper;
mod photograph;
pub mod plate_pack;
pub mod sections;
pub mod shaft_stack;
pub mod tightening_order;
pub mod torque_stages;
pub mod wrench_adapter;

use crate::source::{PictureFile, PictureFormat};
use std::collections::BTreeMap;
use std::io;
use std::sync::Mutex;

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

/// Why a picture could not be made ready.
#[derive(Debug)]
pub struct FigureError {
    /// The picture's path below the manual's folder.
    pub path: String,
    /// What went wrong, in words.
    pub reason: String,
}

impl std::fmt::Display for FigureError {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}: {}. Save the picture anew as JPEG, PNG or SVG.", self.path, self.reason)
    }
}

/// Reads a picture's bytes by its path below the manual's folder.
pub type ReadPicture<'a> = dyn Fn(&str) -> io::Result<Vec<u8>> + Sync + 'a;

/// Makes every picture ready for its page, several at once; by source path.
///
/// # Errors
/// The first picture, by path, that can't be read or decoded.
pub fn renditions(
    pictures: &BTreeMap<String, PictureFile>,
    read: &ReadPicture<'_>,
    threads: usize,
) -> Result<BTreeMap<String, Rendition>, FigureError> {
    let waiting = Mutex::new(pictures.values());
    let done = Mutex::new(BTreeMap::new());
    std::thread::scope(|scope| {
        for _ in 0..threads.clamp(1, pictures.len().max(1)) {
            scope.spawn(|| {
                while let Some(picture) = next(&waiting) {
                    let result = rendition(picture, read);
                    if let Ok(mut done) = done.lock() {
                        done.insert(picture.path.clone(), result);
                    }
                }
            });
        }
    });
    done.into_inner().unwrap_or_default().into_iter().map(|(path, result)| result.map(|rendition| (path, rendition))).collect()
}

fn next<'a>(waiting: &Mutex<impl Iterator<Item = &'a PictureFile>>) -> Option<&'a PictureFile> {
    waiting.lock().ok().and_then(|mut pictures| pictures.next())
}

fn rendition(picture: &PictureFile, read: &ReadPicture<'_>) -> Result<Rendition, FigureError> {
    let fault = |reason: String| FigureError { path: picture.path.clone(), reason };
    let bytes = read(&picture.path).map_err(|error| fault(error.to_string()))?;
    match picture.format {
        // The reading stage lets through only drawings without script and outside references.
        PictureFormat::Svg => Ok(Rendition { path: picture.path.clone(), width: picture.width, height: picture.height, bytes }),
        PictureFormat::Jpeg | PictureFormat::Png | PictureFormat::WebP => {
            photograph::ready(&picture.path, picture.format, &bytes).map_err(fault)
        }
    }
}
