//! From a folder to [`Sources`]: which file is what, and reading each.

use super::body::Body;
use super::disk::{self, Content};
use super::error::ReadError;
use super::front::{self, Front};
use super::json;
use super::layout::MachineFiles;
use super::markdown;
use super::node::{Node, Value};
use super::picture;
use super::report::{Report, Slice, excerpt};
use super::rules::{
    FILE_NOT_READABLE, FILE_TOO_LARGE, FRONT_MATTER_MISSING, FRONT_MATTER_UNCLOSED, MACHINE_HEAD_MISSING, TEXT_NOT_UTF8,
};
use super::walk::{self, FileAt};
use super::yaml;
use super::{MachineSource, ProcedureSource, RecordSource, Sources, YamlFile};
use crate::finding::{FileId, FileTable, Finding, Place};
use std::io;
use std::path::Path;
use std::sync::Arc;

/// Bytes of a text file.
pub const TEXT_LIMIT: u64 = 2 * 1024 * 1024;
/// Bytes of a procedure's front matter.
pub const FRONT_LIMIT: usize = 512 * 1024;

/// Reads a manual's folder: every YAML file, procedure and picture header. What can't be read becomes a
/// finding and a hole, so that one run reports all mistakes of all files.
///
/// # Errors
/// Only where the folder is no manual at all: it is not there, is no folder, can't be opened, or holds no
/// `manual.yaml`.
pub fn read(folder: &Path) -> Result<(Sources, Vec<Finding>), ReadError> {
    let root = root_of(folder)?;
    let mut reader = Reader { files: FileTable::default(), report: Report::default() };
    let head = FileAt { name: "manual.yaml".to_owned(), disk: root.join("manual.yaml") };
    if !disk::is_regular_file(&head.disk) {
        return Err(no_manual(&root));
    }
    let manual = match disk::real(&head.disk) {
        Ok(path) if path.starts_with(&root) => reader.yaml(&head),
        _ => {
            return Err(ReadError::new(
                &head.disk,
                "it is a link that leads out of the folder",
                "put the file itself there",
            ));
        }
    };
    let theme = manual.root.get("theme").and_then(Node::text).map(|theme| root.join(theme));
    let walked = walk::walk(&root, theme.as_deref().filter(|theme| theme.starts_with(&root) && *theme != root));
    reader.obstacles(&walked.obstacles);
    let layout = reader.sort(walked);
    let shop = layout.shop.as_ref().map(|file| reader.yaml(file));
    let machines = layout.machines.iter().map(|(id, files)| reader.machine(id, files)).collect();
    let (pictures, unusable_pictures) = reader.pictures(&layout.pictures);
    let sources = Sources { root, files: reader.files, manual, shop, machines, pictures, unusable_pictures };
    Ok((sources, reader.report.into_findings()))
}

/// Reads a build record that is no part of the manual: the record where it could be read, its file, what is wrong with it.
#[must_use]
pub fn read_record(path: &Path) -> (Option<RecordSource>, FileTable, Vec<Finding>) {
    let mut reader = Reader { files: FileTable::default(), report: Report::default() };
    let id = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let record = reader.record(&id, &FileAt { name: path.display().to_string(), disk: path.to_path_buf() });
    (record, reader.files, reader.report.into_findings())
}

/// The bytes of a picture that [`read`] has found, by its path below the root.
///
/// # Errors
/// Where there is no such picture, it can't be read, it has become larger than 64 MiB or holds something else by now,
/// or a link in its path leads out of the manual's folder.
pub fn read_picture(sources: &Sources, path: &str) -> io::Result<Vec<u8>> {
    let Some(known) = sources.pictures.get(path) else {
        return Err(io::Error::new(io::ErrorKind::NotFound, format!("the manual has no usable picture {path}")));
    };
    let real = disk::real(&sources.root.join(path))?;
    if !real.starts_with(&sources.root) {
        return Err(io::Error::new(
            io::ErrorKind::PermissionDenied,
            format!("{path} leads out of the manual's folder"),
        ));
    }
    match disk::read(&real, picture::FILE_LIMIT) {
        // What is made from the picture carries its key in its name.
        Content::Bytes(bytes) if picture::content_key(&bytes) != known.key => {
            Err(io::Error::new(io::ErrorKind::InvalidData, "the file was changed while the manual was read"))
        }
        Content::Bytes(bytes) => Ok(bytes),
        Content::TooLarge(size) => Err(io::Error::new(io::ErrorKind::FileTooLarge, format!("{path} has {size} bytes"))),
        Content::Failed(error) => Err(error),
    }
}

/// Whether a folder has a `manual.yaml` at this moment.
#[must_use]
pub fn stands(folder: &Path) -> bool {
    disk::is_regular_file(&folder.join("manual.yaml"))
}

fn root_of(folder: &Path) -> Result<std::path::PathBuf, ReadError> {
    let root = disk::real(folder).map_err(|error| match error.kind() {
        io::ErrorKind::NotFound => {
            ReadError::new(folder, "there is no such folder", "give the folder that holds manual.yaml")
        }
        _ => ReadError::new(
            folder,
            format!("the folder can't be opened ({error})"),
            "allow reading it, or give another folder",
        ),
    })?;
    if disk::is_folder(&root) {
        return Ok(root);
    }
    Err(ReadError::new(folder, "this is a file, not a folder", "give the folder that holds manual.yaml"))
}

fn no_manual(root: &Path) -> ReadError {
    let misnamed =
        ["manual.yml", "Manual.yaml", "MANUAL.YAML"].into_iter().find(|name| disk::is_regular_file(&root.join(name)));
    match misnamed {
        Some(name) => ReadError::new(root, "the folder has no manual.yaml", format!("rename {name} to manual.yaml")),
        None => ReadError::new(
            root,
            "the folder has no manual.yaml, so it is no manual",
            "give the folder that holds manual.yaml, or write one with ‘title:’ and ‘publisher:’",
        ),
    }
}

/// The text of a file, and whether all of it could be read.
struct Loaded {
    file: FileId,
    text: Arc<str>,
    whole: bool,
}

/// Reads files, and keeps their texts and what is found in them.
pub(super) struct Reader {
    pub(super) files: FileTable,
    pub(super) report: Report,
}

impl Reader {
    fn machine(&mut self, id: &str, files: &MachineFiles) -> MachineSource {
        let head = match &files.head {
            Some(file) => self.yaml(file),
            None => self.missing_head(id),
        };
        let procedures = files.procedures.iter().map(|(id, file)| self.procedure(id, file)).collect();
        let records = files.records.iter().filter_map(|(id, file)| self.record(id, file)).collect();
        MachineSource { id: id.to_owned(), head, procedures, records }
    }

    fn missing_head(&mut self, id: &str) -> YamlFile {
        let file = self.files.add(format!("{id}/machine.yaml"), "");
        let place = Place::whole_file(file);
        self.report.add(
            Finding::new(
                &MACHINE_HEAD_MISSING,
                place.clone(),
                format!("the folder ‘{}’ has procedures but no machine.yaml", excerpt(id)),
            )
            .label("there is no such file")
            .fix(format!("write ‘{id}/machine.yaml’ with name, maker, kind, revision and date")),
        );
        YamlFile { file, root: Node { place, value: Value::Hole } }
    }

    fn yaml(&mut self, at: &FileAt) -> YamlFile {
        let loaded = self.text(at);
        let root = if loaded.whole {
            let slice = Slice::whole(loaded.file, &loaded.text);
            let start = front::byte_order_mark(&loaded.text);
            yaml::read_map(&slice.part(start..loaded.text.len()), &mut self.report)
        } else {
            hole(loaded.file)
        };
        YamlFile { file: loaded.file, root }
    }

    /// A build record; none where it can't be read, which has been told.
    fn record(&mut self, id: &str, at: &FileAt) -> Option<RecordSource> {
        let loaded = self.text(at);
        let slice = Slice::whole(loaded.file, &loaded.text);
        let start = front::byte_order_mark(&loaded.text);
        let root = if loaded.whole { json::read_map(&slice.part(start..loaded.text.len()), &mut self.report) } else { hole(loaded.file) };
        matches!(root.value, Value::Map(_)).then(|| RecordSource { id: id.to_owned(), file: loaded.file, root })
    }

    fn procedure(&mut self, id: &str, at: &FileAt) -> ProcedureSource {
        let loaded = self.text(at);
        let (head, body) = if loaded.whole { self.parts(&loaded) } else { (hole(loaded.file), Body::default()) };
        ProcedureSource { id: id.to_owned(), file: loaded.file, head, body }
    }

    fn parts(&mut self, loaded: &Loaded) -> (Node, Body) {
        let slice = Slice::whole(loaded.file, &loaded.text);
        match front::find(&loaded.text) {
            Front::Head { head, body } => {
                let front = if head.len() > FRONT_LIMIT {
                    self.report.add(
                        Finding::new(&FILE_TOO_LARGE, slice.place(0..3), "the front matter is too large to be one")
                            .label("begins here")
                            .figure(format!("{} KiB; {} KiB are let through", head.len() / 1024, FRONT_LIMIT / 1024))
                            .fix("keep values in it and nothing else; pictures stand in files of their own"),
                    );
                    hole(loaded.file)
                } else {
                    yaml::read_map(&slice.part(head), &mut self.report)
                };
                (front, markdown::read_body(&slice.part(body..loaded.text.len()), &mut self.report))
            }
            Front::Missing { late } => {
                let finding = Finding::new(
                    &FRONT_MATTER_MISSING,
                    slice.place(late.clone().unwrap_or(0..0)),
                    "the procedure does not begin with its front matter",
                );
                self.report.add(if late.is_some() {
                    finding
                        .label("empty lines stand before this")
                        .fix("delete the empty lines: ‘---’ must be the first line of the file")
                } else {
                    finding
                        .label("‘---’ is wanted here")
                        .fix("begin the file with a line ‘---’, then title, revision and date, then another line ‘---’")
                });
                if late.is_some() {
                    return (hole(loaded.file), Body::default());
                }
                let start = front::byte_order_mark(&loaded.text);
                (hole(loaded.file), markdown::read_body(&slice.part(start..loaded.text.len()), &mut self.report))
            }
            Front::Unclosed { open, step } => {
                let mut finding =
                    Finding::new(&FRONT_MATTER_UNCLOSED, slice.place(open), "the front matter is never closed")
                        .label("opened here")
                        .fix("put a line ‘---’ behind the last value, before the text begins");
                if let Some(step) = step {
                    finding = finding.related(slice.place(step), "the text seems to have begun by here");
                }
                self.report.add(finding);
                (hole(loaded.file), Body::default())
            }
        }
    }

    /// Loads a text file into the table of files, whatever becomes of it.
    fn text(&mut self, at: &FileAt) -> Loaded {
        match disk::read(&at.disk, TEXT_LIMIT) {
            Content::Bytes(bytes) => match String::from_utf8(bytes) {
                Ok(text) => {
                    let text: Arc<str> = text.into();
                    let file = self.files.add(at.name.clone(), Arc::clone(&text));
                    Loaded { file, text, whole: true }
                }
                Err(error) => self.not_utf8(at, &error.utf8_error(), error.as_bytes()),
            },
            Content::TooLarge(size) => {
                let loaded = self.unread(at);
                self.report.add(
                    Finding::new(
                        &FILE_TOO_LARGE,
                        Place::whole_file(loaded.file),
                        format!("‘{}’ is too large to be read", excerpt(&at.name)),
                    )
                    .label("not read")
                    .figure(format!("{} KiB; {} KiB are let through", size / 1024, TEXT_LIMIT / 1024))
                    .fix(
                        "keep text and values in it; pictures stand in files of their own, long procedures in several",
                    ),
                );
                loaded
            }
            Content::Failed(error) => {
                let loaded = self.unread(at);
                self.report.add(
                    Finding::new(
                        &FILE_NOT_READABLE,
                        Place::whole_file(loaded.file),
                        format!("‘{}’ can't be read", excerpt(&at.name)),
                    )
                    .label("not read")
                    .figure(error.to_string())
                    .fix("allow reading it, or remove it"),
                );
                loaded
            }
        }
    }

    fn unread(&mut self, at: &FileAt) -> Loaded {
        Loaded { file: self.files.add(at.name.clone(), ""), text: "".into(), whole: false }
    }

    fn not_utf8(&mut self, at: &FileAt, error: &std::str::Utf8Error, bytes: &[u8]) -> Loaded {
        let valid = error.valid_up_to();
        let text: Arc<str> = bytes.get(..valid).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or("").into();
        let file = self.files.add(at.name.clone(), Arc::clone(&text));
        let position = self.files.position(file, valid);
        let wrong = bytes.get(valid).copied().unwrap_or(0);
        let mut finding = Finding::new(
            &TEXT_NOT_UTF8,
            Place::new(file, valid..valid),
            format!("‘{}’ is not written in UTF-8", excerpt(&at.name)),
        )
        .label("the first wrong byte stands here; the file is not read")
        .figure(format!("byte {valid} (line {}, column {}) is {wrong:02X}", position.line, position.column))
        .fix("save the file as UTF-8 (in most editors under ‘save as’), then look at the units and signs in it");
        if bytes.starts_with(&[0xff, 0xfe]) || bytes.starts_with(&[0xfe, 0xff]) {
            finding = finding.figure("the file begins like one saved as UTF-16");
        } else if wrong >= 0xa0 {
            finding = finding.figure(format!("in Windows-1252 and Latin-1 that byte is ‘{}’", char::from(wrong)));
        }
        self.report.add(finding);
        Loaded { file, text, whole: false }
    }

    /// A place for what is no text file: its name stands in the table, without text.
    pub(super) fn about(&mut self, name: &str) -> Place {
        Place::whole_file(self.files.add(name, ""))
    }
}

fn hole(file: FileId) -> Node {
    Node { place: Place::whole_file(file), value: Value::Hole }
}
