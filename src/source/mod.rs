//! Reading a manual's folder: walking it, front matter and YAML as text with places, Markdown into
//! steps and acts, facts of pictures from their headers.
//!
//! Invariants: this is the only stage that opens the manual's files; spans are bytes of the file as
//! it is on disk; what can't be read becomes a finding and a hole, so one run reports all mistakes of
//! all files.

mod address;
mod body;
mod disk;
mod earlier;
mod error;
mod front;
mod gallery;
mod given;
mod heading;
mod json;
mod layout;
mod links;
mod markdown;
mod node;
mod notice;
mod orientation;
mod picture;
mod picture_path;
mod read;
mod recover;
mod report;
pub mod rules;
mod scalar;
mod svg;
mod syntax;
mod theme;
mod visit;
mod walk;
mod yaml;

pub use body::{ActText, Align, Block, Body, Inline, Notice, PictureText, StepText, Table, plain_text};
pub use earlier::{Earlier, Revision, VALUES_FILE, earlier, published_values, revisions};
pub use error::ReadError;
pub use given::read_given;
pub use node::{Node, Pair, Scalar, Value};
pub use picture::content_key;
pub use picture_path::{PathFault, resolve_picture};
pub use rules::{HOLED, RULES};
pub use read::{FRONT_LIMIT, TEXT_LIMIT, read, read_picture, read_record, stands};
pub use scalar::retyped;
pub use theme::{read_theme, theme_folder};
pub use visit::{each_inline, each_running_text};
pub use walk::is_left_behind;

use crate::finding::{FileId, FileTable};
use std::collections::{BTreeMap, BTreeSet};
use std::path::PathBuf;

/// A manual's folder as read.
#[derive(Clone, Debug)]
pub struct Sources {
    /// The folder.
    pub root: PathBuf,
    /// Every text file read, for the places of findings.
    pub files: FileTable,
    /// `manual.yaml`.
    pub manual: YamlFile,
    /// `shop.yaml`, where there is one.
    pub shop: Option<YamlFile>,
    /// The machines, by name of their folders.
    pub machines: Vec<MachineSource>,
    /// The pictures below the folder, by path from the root with `/`.
    pub pictures: BTreeMap<String, PictureFile>,
    /// Paths of pictures that are there but can't be used; reported already, so nobody reports them again.
    pub unusable_pictures: BTreeSet<String>,
}

/// One YAML file: a map at its top, or a hole.
#[derive(Clone, Debug)]
pub struct YamlFile {
    /// The file.
    pub file: FileId,
    /// Its content.
    pub root: Node,
}

/// A machine's folder.
#[derive(Clone, Debug)]
pub struct MachineSource {
    /// The folder's name: the machine's id.
    pub id: String,
    /// `machine.yaml`.
    pub head: YamlFile,
    /// The procedures, by file name.
    pub procedures: Vec<ProcedureSource>,
    /// The build records that could be read, by file name.
    pub records: Vec<RecordSource>,
}

/// A build record's file.
#[derive(Clone, Debug)]
pub struct RecordSource {
    /// The file's name without `.json`: the record's id.
    pub id: String,
    /// The file.
    pub file: FileId,
    /// Its content: a map at its top.
    pub root: Node,
}

/// A procedure's file.
#[derive(Clone, Debug)]
pub struct ProcedureSource {
    /// The file's name without `.md`: the procedure's id.
    pub id: String,
    /// The file.
    pub file: FileId,
    /// The front matter.
    pub head: Node,
    /// The body.
    pub body: Body,
}

/// What a picture's header tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PictureFile {
    /// Path from the manual's folder with `/`.
    pub path: String,
    /// Its format.
    pub format: PictureFormat,
    /// Width in pixels after orientation is applied; for SVG from its size or view box.
    pub width: u32,
    /// Height likewise.
    pub height: u32,
    /// How the camera was held, as Exif numbers it, 1 to 8; 1 where nothing is to be turned.
    pub orientation: u8,
    /// A hash of the file's bytes: its content key.
    pub key: String,
}

/// The formats a manual may hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PictureFormat {
    /// JPEG.
    Jpeg,
    /// PNG.
    Png,
    /// WebP.
    WebP,
    /// SVG.
    Svg,
}
