//! Drawings from values and photographs: what a page shows that is not text.
//!
//! Invariants: the same picture has renditions of the same names and sizes on every machine; no clock, no thread order, no map
//! order. What is unpacked at one time stays within a bound of memory, however many threads work.

pub mod alignment;
pub mod balloons;
mod budget;
mod colour;
mod decode;
pub mod drawing;
mod encode;
mod fault;
pub mod heated_fit;
pub mod orientation;
mod paper;
mod photograph;
pub mod plate_pack;
pub mod sections;
pub mod shaft_stack;
mod size;
pub mod tightening_order;
pub mod torque_stages;
pub mod turning_sense;
pub mod wrench_adapter;

pub use fault::{Damage, PictureFault};

use crate::source::{PictureFile, PictureFormat};
use budget::Budget;
use encode::Form;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use std::io;
use std::sync::Mutex;

/// The most memory the photographs being unpacked may take together, in bytes: enough for 100 megapixels of 16 bits.
const MOST_MEMORY: u64 = 1024 * 1024 * 1024;

/// One for all, as several machines may have their pictures made ready at the same time.
static BUDGET: Budget = Budget::new(MOST_MEMORY);

/// A picture as the site carries it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Picture {
    /// A drawing, in lines that are sharp at any size.
    Drawing(Rendition),
    /// A photograph in several sizes, narrowest first; at least one.
    Photograph(Vec<Rendition>),
}

/// A picture's file in one size.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rendition {
    /// Path in the site, with `/`.
    pub path: String,
    /// Width in pixels; of a drawing in CSS pixels as it is meant to be shown.
    pub width: u32,
    /// Height likewise.
    pub height: u32,
    /// The file's bytes; none where the published site holds them already.
    pub bytes: Option<Vec<u8>>,
    /// How many bytes a drawing has. Of a photograph it would hang on whether the site holds it: nothing.
    pub length: usize,
}

impl Picture {
    /// Its files, narrowest first.
    #[must_use]
    pub fn renditions(&self) -> &[Rendition] {
        match self {
            Self::Drawing(rendition) => std::slice::from_ref(rendition),
            Self::Photograph(renditions) => renditions,
        }
    }

    /// Its files, to be taken over.
    #[must_use]
    pub fn into_renditions(self) -> Vec<Rendition> {
        match self {
            Self::Drawing(rendition) => vec![rendition],
            Self::Photograph(renditions) => renditions,
        }
    }
}

/// Reads a picture's bytes by its path below the manual's folder.
pub type ReadPicture<'a> = dyn Fn(&str) -> io::Result<Vec<u8>> + Sync + 'a;

/// Whether the published site holds a file as it was written there.
pub type Holds<'a> = dyn Fn(&str) -> bool + Sync + 'a;

/// Makes every picture ready for its page, several at once; by source path, and with them those that can't be, sorted by path.
/// A photograph whose renditions the site holds already is not even opened.
pub fn renditions(
    pictures: &BTreeMap<String, PictureFile>,
    read: &ReadPicture<'_>,
    holds: &Holds<'_>,
    threads: usize,
) -> (BTreeMap<String, Picture>, Vec<PictureFault>) {
    // The largest first, so that at the end no thread is left alone with one.
    let mut order: Vec<&PictureFile> = pictures.values().collect();
    order.sort_by_key(|picture| Reverse(u64::from(picture.width) * u64::from(picture.height)));
    let waiting = Mutex::new(order.into_iter());
    let done = Mutex::new(BTreeMap::new());
    std::thread::scope(|scope| {
        for _ in 0..threads.clamp(1, pictures.len().max(1)) {
            scope.spawn(|| {
                while let Some(picture) = next(&waiting) {
                    let result = ready(picture, read, holds, &BUDGET);
                    if let Ok(mut done) = done.lock() {
                        done.insert(picture.path.clone(), result);
                    }
                }
            });
        }
    });
    let (mut ready, mut faults) = (BTreeMap::new(), Vec::new());
    for (path, result) in done.into_inner().unwrap_or_default() {
        match result {
            Ok(picture) => {
                ready.insert(path, picture);
            }
            Err(why) => faults.push(PictureFault { path, why }),
        }
    }
    (ready, faults)
}

fn next<'a>(waiting: &Mutex<impl Iterator<Item = &'a PictureFile>>) -> Option<&'a PictureFile> {
    waiting.lock().ok().and_then(|mut pictures| pictures.next())
}

fn ready(picture: &PictureFile, read: &ReadPicture<'_>, holds: &Holds<'_>, budget: &Budget) -> Result<Picture, Damage> {
    let bytes = || read(&picture.path).map_err(|error| Damage::NotRead(error.to_string()));
    if picture.format == PictureFormat::Svg {
        // The reading stage lets through only drawings without script and outside references.
        let (path, bytes) = (picture.path.clone(), bytes()?);
        let length = bytes.len();
        return Ok(Picture::Drawing(Rendition { path, width: picture.width, height: picture.height, bytes: Some(bytes), length }));
    }
    if let Some(held) = held(picture, holds) {
        return Ok(Picture::Photograph(held));
    }
    photograph::renditions(picture, &bytes()?, budget).map(Picture::Photograph)
}

/// The renditions of a photograph where the site holds all of them, in whichever form they were written.
fn held(picture: &PictureFile, holds: &Holds<'_>) -> Option<Vec<Rendition>> {
    let sizes = size::ladder(picture.width, picture.height);
    Form::ALL.into_iter().find_map(|form| {
        let paths = sizes.iter().map(|&(width, height)| (size::path(picture, width, form.ending()), width, height));
        let held = paths.map(|(path, width, height)| holds(&path).then_some(Rendition { path, width, height, bytes: None, length: 0 }));
        held.collect()
    })
}
