//! From a folder to [`Sources`]: which file is what, and reading each.

use super::body::Body;
use super::disk::{self, Content};
use super::error::ReadError;
use super::front::{self, Front};
use super::json;
use super::layout::MachineFiles;
use super::markdown;
use super::merge;
use super::node::{Node, Value};
use super::picture;
use super::report::{Report, Slice, excerpt};
use super::rules::{
    FILE_NOT_READABLE, FILE_TOO_LARGE, FRONT_MATTER_MISSING, FRONT_MATTER_UNCLOSED, MACHINE_HEAD_MISSING, TEXT_NOT_UTF8,
};
use super::walk::{self, FileAt};
use super::yaml;
use super::{MachineSource, MachineTexts, ProcedureSource, RecordSource, Sources, Survey, YamlFile};
use crate::crew::in_order;
use crate::finding::{FileId, FileTable, Finding, Place};
use std::io;
use std::path::Path;
use std::sync::Arc;

/// Bytes of a text file.
pub const TEXT_LIMIT: u64 = 2 * 1024 * 1024;
/// The file that makes a folder a manual.
pub(super) const MANUAL_FILE: &str = "manual.yaml";
/// Bytes of a procedure's front matter.
pub const FRONT_LIMIT: usize = 512 * 1024;

/// Reads a manual's folder: every YAML file, procedure and picture header. What can't be read becomes a
/// finding and a hole, so that one run reports all mistakes of all files.
///
/// # Errors
/// Only where the folder is no manual at all: it is not there, is no folder, can't be opened, or holds no
/// `manual.yaml`.
pub fn read(folder: &Path) -> Result<(Sources, Vec<Finding>), ReadError> {
    let (Survey { mut sources, machines }, mut findings) = survey(folder, 1)?;
    for machine in &machines {
        let (read, more) = read_machine(&sources.files, machine);
        sources.machines.push(read);
        findings.extend(more);
    }
    Ok((sources, findings))
}

/// Loads a manual's folder: every file's text and every picture's header. What all machines share is read, the machines
/// are not yet: [`read_machine`] does that, from the texts as they were loaded. So many threads may read; 0 counts as 1.
///
/// # Errors
/// As [`read`].
pub fn survey(folder: &Path, threads: usize) -> Result<(Survey, Vec<Finding>), ReadError> {
    let root = root_of(folder)?;
    let mut reader = Reader { files: FileTable::default(), report: Report::default() };
    let head = FileAt { name: MANUAL_FILE.to_owned(), disk: root.join(MANUAL_FILE) };
    if !disk::is_regular_file(&head.disk) {
        return Err(match disk::refused(&head.disk) {
            Some(why) => ReadError::new(&root, format!("the folder can't be entered ({why})"), "allow entering it, or give another folder"),
            None => no_manual(&root),
        });
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
    reader.check_theme(&root, manual.root.get("theme"));
    let theme = manual.root.get("theme").and_then(Node::text).map(|theme| root.join(theme));
    let walked = walk::walk(&root, theme.as_deref().filter(|theme| theme.starts_with(&root) && *theme != root));
    reader.obstacles(&walked.obstacles);
    let layout = reader.sort(walked);
    let shop = layout.shop.as_ref().map(|file| reader.yaml(file));
    let layouts: Vec<(&String, &MachineFiles)> = layout.machines.iter().collect();
    let contents = in_order(&layouts, threads, |(_, files)| files.all().map(|file| disk::read(&file.disk, TEXT_LIMIT)).collect());
    let machines = layouts.iter().zip(contents).map(|((id, files), contents)| reader.machine(id, files, contents)).collect();
    let (pictures, unusable_pictures) = reader.pictures(&layout.pictures, threads);
    let sources = Sources { root, files: reader.files, manual, shop, machines: Vec::new(), pictures, unusable_pictures };
    Ok((Survey { sources, machines }, reader.report.into_findings()))
}

/// Reads one machine from its texts.
#[must_use]
pub fn read_machine(files: &FileTable, texts: &MachineTexts) -> (MachineSource, Vec<Finding>) {
    let mut report = Report::default();
    let head = match &texts.head {
        Some(loaded) => yaml_file(files, loaded, &mut report),
        None => YamlFile { file: texts.head_file, root: hole(texts.head_file) },
    };
    let procedures = texts.procedures.iter().map(|(id, loaded)| procedure(files, id, loaded, &mut report)).collect();
    let records = texts.records.iter().filter_map(|(id, loaded)| record(files, id, loaded, &mut report)).collect();
    (MachineSource { id: texts.id.clone(), head, procedures, records }, report.into_findings())
}

/// Reads a build record that is no part of the manual: the record where it could be read, its file, what is wrong with it.
#[must_use]
pub fn read_record(path: &Path) -> (Option<RecordSource>, FileTable, Vec<Finding>) {
    let mut reader = Reader { files: FileTable::default(), report: Report::default() };
    let id = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let loaded = reader.text(&FileAt { name: path.display().to_string(), disk: path.to_path_buf() });
    let record = record(&reader.files, &id, &loaded, &mut reader.report);
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
    disk::is_regular_file(&folder.join(MANUAL_FILE))
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
    misnamed(root).unwrap_or_else(|| {
        ReadError::new(
            root,
            "the folder has no manual.yaml, so it is no manual",
            "give the folder that holds manual.yaml, or begin one with ‘benchleaf draft manual’",
        )
    })
}

/// The fault of a folder whose `manual.yaml` goes by another name.
pub(super) fn misnamed(root: &Path) -> Option<ReadError> {
    let name = ["manual.yml", "Manual.yaml", "MANUAL.YAML"].into_iter().find(|name| disk::is_regular_file(&root.join(name)))?;
    Some(ReadError::new(root, "the folder has no manual.yaml", format!("rename {name} to manual.yaml")))
}

/// A file whose text is in the table, and whether all of it could be read.
#[derive(Clone, Copy, Debug)]
pub(super) struct Loaded {
    pub(super) file: FileId,
    whole: bool,
}

impl Loaded {
    /// Whether all of the file could be read.
    pub(super) fn is_whole(self) -> bool {
        self.whole
    }
}

/// Reads files, and keeps their texts and what is found in them.
pub(super) struct Reader {
    pub(super) files: FileTable,
    pub(super) report: Report,
}

impl Reader {
    /// A machine from what its files hold, in the order of [`MachineFiles::all`].
    fn machine(&mut self, id: &str, files: &MachineFiles, contents: Vec<Content>) -> MachineTexts {
        let mut contents = contents.into_iter();
        let head = files.head.as_ref().and_then(|file| Some(self.loaded(file, contents.next()?)));
        let head_file = head.map_or_else(|| self.missing_head(id), |loaded| loaded.file);
        let mut loaded = |(id, file): &(String, FileAt)| Some((id.clone(), self.loaded(file, contents.next()?)));
        let procedures = files.procedures.iter().filter_map(&mut loaded).collect();
        let records = files.records.iter().filter_map(&mut loaded).collect();
        MachineTexts { id: id.to_owned(), head, head_file, procedures, records }
    }

    fn missing_head(&mut self, id: &str) -> FileId {
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
        file
    }

    fn yaml(&mut self, at: &FileAt) -> YamlFile {
        let loaded = self.text(at);
        yaml_file(&self.files, &loaded, &mut self.report)
    }

    /// Loads a text file into the table of files, whatever becomes of it.
    fn text(&mut self, at: &FileAt) -> Loaded {
        self.loaded(at, disk::read(&at.disk, TEXT_LIMIT))
    }

    /// Likewise, where it was read already.
    fn loaded(&mut self, at: &FileAt, content: Content) -> Loaded {
        match content {
            Content::Bytes(bytes) => match String::from_utf8(bytes) {
                Ok(text) => {
                    let file = self.files.add(at.name.clone(), text);
                    Loaded { file, whole: true }
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
                    .fix(if error.kind() == io::ErrorKind::NotFound { "look at the spelling of its path: there is no such file" } else { "allow reading it, or remove it" }),
                );
                loaded
            }
        }
    }

    fn unread(&mut self, at: &FileAt) -> Loaded {
        Loaded { file: self.files.add(at.name.clone(), ""), whole: false }
    }

    fn not_utf8(&mut self, at: &FileAt, error: &std::str::Utf8Error, bytes: &[u8]) -> Loaded {
        let valid = error.valid_up_to();
        let text: Arc<str> = bytes.get(..valid).and_then(|bytes| std::str::from_utf8(bytes).ok()).unwrap_or("").into();
        let file = self.files.add(at.name.clone(), text);
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
        Loaded { file, whole: false }
    }

    /// A place for what is no text file: its name stands in the table, without text.
    pub(super) fn about(&mut self, name: &str) -> Place {
        Place::whole_file(self.files.add(name, ""))
    }
}

fn yaml_file(files: &FileTable, loaded: &Loaded, report: &mut Report) -> YamlFile {
    let root = if loaded.whole {
        let text = &*merge::settled(&Slice::whole(loaded.file, files.text(loaded.file)), report);
        let slice = Slice::whole(loaded.file, text);
        yaml::read_map(&slice.part(front::byte_order_mark(text)..text.len()), report)
    } else {
        hole(loaded.file)
    };
    YamlFile { file: loaded.file, root }
}

fn procedure(files: &FileTable, id: &str, loaded: &Loaded, report: &mut Report) -> ProcedureSource {
    let (head, body) =
        if loaded.whole { parts(loaded.file, files.text(loaded.file), report) } else { (hole(loaded.file), Body::default()) };
    ProcedureSource { id: id.to_owned(), file: loaded.file, head, body }
}

/// A build record; none where it can't be read, which has been told.
fn record(files: &FileTable, id: &str, loaded: &Loaded, report: &mut Report) -> Option<RecordSource> {
    let text = &*merge::settled(&Slice::whole(loaded.file, files.text(loaded.file)), report);
    let slice = Slice::whole(loaded.file, text);
    let root = if loaded.whole { json::read_map(&slice.part(front::byte_order_mark(text)..text.len()), report) } else { hole(loaded.file) };
    matches!(root.value, Value::Map(_)).then(|| RecordSource { id: id.to_owned(), file: loaded.file, root })
}

/// A procedure's front matter and body.
fn parts(file: FileId, text: &str, report: &mut Report) -> (Node, Body) {
    let text = &*merge::settled(&Slice::whole(file, text), report);
    let slice = Slice::whole(file, text);
    match front::find(text) {
        Front::Head { head, body } => {
            let front = if head.len() > FRONT_LIMIT {
                report.add(
                    Finding::new(&FILE_TOO_LARGE, slice.place(0..3), "the front matter is too large to be one")
                        .label("begins here")
                        .figure(format!("{} KiB; {} KiB are let through", head.len() / 1024, FRONT_LIMIT / 1024))
                        .fix("keep values in it and nothing else; pictures stand in files of their own"),
                );
                hole(file)
            } else {
                yaml::read_map(&slice.part(head), report)
            };
            (front, markdown::read_body(&slice.part(body..text.len()), report))
        }
        Front::Missing { late } => {
            let finding = Finding::new(
                &FRONT_MATTER_MISSING,
                slice.place(late.clone().unwrap_or(0..0)),
                "the procedure does not begin with its front matter",
            );
            report.add(if late.is_some() {
                finding
                    .label("empty lines stand before this")
                    .fix("delete the empty lines: ‘---’ must be the first line of the file")
            } else {
                finding
                    .label("‘---’ is wanted here")
                    .fix("begin the file with a line ‘---’, then title, revision and date, then another line ‘---’")
            });
            if late.is_some() {
                return (hole(file), Body::default());
            }
            let start = front::byte_order_mark(text);
            (hole(file), markdown::read_body(&slice.part(start..text.len()), report))
        }
        Front::Unclosed { open, step } => {
            let mut finding =
                Finding::new(&FRONT_MATTER_UNCLOSED, slice.place(open), "the front matter is never closed")
                    .label("opened here")
                    .fix("put a line ‘---’ behind the last value, before the text begins");
            if let Some(step) = step {
                finding = finding.related(slice.place(step), "the text seems to have begun by here");
            }
            report.add(finding);
            (hole(file), Body::default())
        }
    }
}

fn hole(file: FileId) -> Node {
    Node { place: Place::whole_file(file), value: Value::Hole }
}
