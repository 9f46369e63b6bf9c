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
mod merge;
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
mod sketch;
mod spelled_id;
mod svg;
mod syntax;
mod theme;
mod visit;
mod walk;
mod whereabouts;
mod yaml;

pub use body::{ActText, Align, Block, Body, Inline, Notice, PictureText, StepText, Table, plain_text};
pub use earlier::{Earlier, Revision, VALUES_FILE, earlier, has_published_values, is_another, published_values, revisions};
pub use error::ReadError;
pub use given::read_given;
pub use node::{Node, Pair, Scalar, Value};
pub use picture::{content_key, fingerprint};
pub use picture_path::{PathFault, resolve_picture};
pub use disk::fingerprint_of_file;
pub use read::{FRONT_LIMIT, TEXT_LIMIT, read, read_machine, read_picture, read_record, stands, survey};
pub use rules::{HOLED, RULES};
pub use scalar::retyped;
pub use sketch::{ProcedureSketch, Sketch, sketch};
pub use spelled_id::id_of;
pub use theme::{read_theme, theme_folder};
pub use visit::{each_inline, each_running_text};
pub use walk::is_left_behind;
pub use whereabouts::{manual_near, path_below, repository_of};

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

/// A manual's folder as loaded: what all machines share is read, the machines are not.
#[derive(Clone, Debug)]
pub struct Survey {
    /// Everything but the machines.
    pub sources: Sources,
    /// The machines' texts, by name of their folders.
    pub machines: Vec<MachineTexts>,
}

/// The texts of a machine's folder.
#[derive(Clone, Debug)]
pub struct MachineTexts {
    /// The folder's name: the machine's id.
    pub id: String,
    /// `machine.yaml`, where there is one.
    head: Option<read::Loaded>,
    /// Its place in the table of files, there or not.
    head_file: FileId,
    /// The procedures' texts, by id.
    procedures: Vec<(String, read::Loaded)>,
    /// The build records' texts, by id.
    records: Vec<(String, read::Loaded)>,
}

impl MachineTexts {
    /// Names of the files with the fingerprints of their texts; without one where a file could not be read whole.
    #[must_use]
    pub fn fingerprints(&self, files: &FileTable) -> BTreeMap<String, String> {
        let loaded = self.head.iter().chain(self.procedures.iter().chain(&self.records).map(|(_, loaded)| loaded));
        let print = |loaded: &read::Loaded| {
            let print = if loaded.is_whole() { fingerprint(files.text(loaded.file).as_bytes()) } else { String::new() };
            (files.name(loaded.file).to_owned(), print)
        };
        loaded.map(print).collect()
    }

    /// How many bytes of text it has.
    #[must_use]
    pub fn size(&self, files: &FileTable) -> usize {
        self.files().map(|file| files.text(file).len()).sum()
    }

    /// The machine's files: `machine.yaml`, even where it is missing, the procedures and the build records.
    pub fn files(&self) -> impl Iterator<Item = FileId> {
        std::iter::once(self.head_file).chain(self.procedures.iter().chain(&self.records).map(|(_, loaded)| loaded.file))
    }
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
