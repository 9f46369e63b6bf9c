//! What stands on which page: views, templates, sheets, links.
//!
//! Invariants: no author's markup is trusted unless its type says so ([`markup`]); templates see views,
//! never the model; nothing here opens a file; the same input gives the same files with any number of
//! threads.

mod account;
mod act;
mod as_read;
mod assets;
mod axes;
mod before;
mod behind;
mod bench;
mod bench_words;
mod board;
mod book;
mod bounds;
mod build;
mod bulletins;
mod cells;
mod chapters;
mod corrections;
mod desk;
mod details;
mod details_work;
mod drawings;
mod drawn_acts;
mod drawn_once;
mod drawn_parts;
mod duration;
mod error;
mod faults;
mod feed;
mod find;
mod find_words;
mod frame;
mod highlight;
mod home;
mod html;
mod link;
mod lines;
mod lists;
mod machine;
mod markup;
mod matrix;
mod moment;
mod names;
mod numbered;
mod numerals;
mod offline;
mod open;
mod paper_mark;
mod people;
mod prose;
mod procedure;
mod review;
mod rows;
mod sentence;
mod shared;
mod sheet;
mod sheet_clause;
mod sheet_line;
mod sheet_print;
mod sheet_row;
mod site;
mod sitemap;
mod source_sheet;
mod source_syntax;
mod sources;
mod square_code;
mod stop_line;
mod stretches;
mod strip;
mod structured;
mod tables;
mod template;
mod terms;
mod tidy;
mod tightening;
mod to_have;
mod torque_card;
mod turns;
mod unbroken;
mod usage;
mod values;
mod waived;
mod words;
mod wrench;
mod wrench_reset;

pub use book::is_printable;
pub use desk::{Desk, DeskInput, Trouble, desk};
pub use error::PageError;

use crate::figure::Picture;
use crate::finding::{FileTable, Finding};
use crate::manual::Manual;
use crate::source::fingerprint;
use site::Site;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};
use template::Templates;
use words::Words;

/// A file of the site.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PageFile {
    /// Path in the site, with `/`.
    pub path: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
}

/// What pages are made from.
#[derive(Clone, Copy, Debug)]
pub struct Input<'a> {
    /// The manual.
    pub manual: &'a Manual,
    /// Its files, for the lines of findings.
    pub files: &'a FileTable,
    /// The pictures as the site carries them, by path below the manual's folder.
    pub pictures: &'a BTreeMap<String, Picture>,
    /// What was found wrong, printed on a proof copy.
    pub findings: &'a [Finding],
    /// What was found and waived: printed beside the value it is about.
    pub waived: &'a [Finding],
    /// Whether every page is marked PROOF, NOT FOR USE.
    pub proof_copy: bool,
    /// Files that replace those of the built-in theme, by path below the theme's folder.
    pub theme: &'a BTreeMap<String, Vec<u8>>,
    /// How many threads may work; 0 counts as 1.
    pub threads: usize,
}

/// The words and templates of a site, compiled once.
#[derive(Clone)]
pub struct Theme {
    words: Arc<Words>,
    templates: Arc<Templates>,
}

impl Theme {
    /// Compiles the built-in theme for a language, the files given in place of its own.
    ///
    /// # Errors
    /// Where a template or message file is broken.
    pub fn compile(language: &str, files: &BTreeMap<String, Vec<u8>>) -> Result<Self, PageError> {
        let words = Arc::new(Words::load(language, files)?);
        Ok(Self { templates: Arc::new(Templates::compile(files, &words)?), words })
    }
}

/// What a machine gives a site.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct MachinePages {
    /// Its own pages and sheets.
    pub files: Vec<PageFile>,
    /// What it contributes to the pages of all machines: texts that [`shared_pages`] understands.
    pub parts: Vec<String>,
}

/// Makes the pages of a machine that is looked at alone, with the outlines of the others beside it.
///
/// # Errors
/// Where a template asks for what a view does not have.
pub fn machine_pages(theme: &Theme, input: &Input<'_>) -> Result<MachinePages, PageError> {
    let site = Site::new(theme, *input);
    let mut files = site.pages()?;
    let parts = beside(&site, 0, &mut files)?;
    Ok(MachinePages { files, parts })
}

/// Adds to the pages of a machine what is made of them, and tells what the machine contributes to the files of all.
fn beside(site: &Site<'_>, machine_index: usize, files: &mut Vec<PageFile>) -> Result<Vec<String>, PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Vec::new()) };
    let (book, chapters) = book::of_machine(site, machine_index, files)?;
    files.extend(book);
    files.extend(machine.procedures.iter().filter_map(|procedure| chapters::file(machine, procedure)));
    let pictures: Vec<&Picture> = machine.shown_pictures().iter().filter_map(|path| site.input.pictures.get(path)).collect();
    let copied = shared::written(&site.copied(machine_index, &pictures))?;
    Ok(shared::parts(site, machine_index)?.into_iter().chain([chapters, copied]).collect())
}

/// A file of the site, or why it can't be made.
type Page = Result<PageFile, PageError>;

/// So many bytes of parts make pages so large that no two of them are held at a time.
const LARGE_PARTS: usize = 64 * 1024 * 1024;

/// Makes every file that no machine has for itself but the worker, and hands each to `take`: the pages of all machines from their
/// parts, in the manual's order, the book of all, styles, scripts and files of the theme. Of a large manual each is made after the
/// one before was taken, as they are large too. `input` has no machines, and every finding.
///
/// # Errors
/// What `take` makes of errors as those of [`machine_pages`], or has of its own.
pub fn shared_pages<E: Send>(theme: &Theme, input: &Input<'_>, parts: &[&[String]], take: impl Fn(Page) -> Result<(), E> + Sync) -> Result<(), E> {
    let site = Site::new(theme, *input);
    let size = parts.iter().flat_map(|parts| parts.iter()).fold(0_usize, |sum, part| sum.saturating_add(part.len()));
    let threads = if size > LARGE_PARTS { 1 } else { input.threads };
    let chapters = shared::chapters(parts);
    if chapters.iter().any(|part| part.is_empty()) {
        shared::pages(&site, parts, threads, &take).into_iter().collect::<Result<(), E>>()?;
    } else {
        match with_book(&site, parts, &chapters) {
            Ok(pages) => pages.into_iter().map(Ok).try_for_each(&take)?,
            Err(error) => take(Err(error))?,
        }
    }
    let fixed = assets::files(input.theme, input.proof_copy).into_iter().chain(template::passed_through(input.theme));
    fixed.map(Ok).try_for_each(&take)?;
    match site.app() {
        Ok(app) => app.into_iter().map(Ok).try_for_each(&take),
        Err(error) => take(Err(error)),
    }
}

/// The pages of all machines, and the book that is made of them.
fn with_book(site: &Site<'_>, parts: &[&[String]], chapters: &[&str]) -> Result<Vec<PageFile>, PageError> {
    let mut pages = shared::pages(site, parts, site.input.threads, |page| page).into_iter().collect::<Result<Vec<_>, _>>()?;
    pages.extend(book::whole(site, chapters, &pages)?);
    Ok(pages)
}

/// Makes the worker that keeps a copy of the site on a device, from the parts of every machine and the fingerprints of all files
/// of the site: SHA-256 in hexadecimal digits. Pictures that are no machine's are those of `input`.
///
/// # Errors
/// Where the parts are not those that [`machine_pages`] gave.
pub fn offline_copy(input: &Input<'_>, parts: &[&[String]], prints: &BTreeMap<String, String>) -> Page {
    let mut copied = shared::copies(parts).into_iter().map(shared::read).collect::<Result<Vec<offline::CopyPart>, _>>()?;
    copied.push(offline::CopyPart::of(input.pictures.values()));
    offline::worker(input.theme, &copied, prints)
}

/// Checks that no two files lie on one path.
///
/// # Errors
/// Where two do.
pub fn check_paths<'p>(paths: impl Iterator<Item = &'p str>) -> Result<(), PageError> {
    let mut known = BTreeSet::new();
    for path in paths {
        if !known.insert(path) {
            return Err(PageError::doubled(path));
        }
    }
    Ok(())
}

/// Makes every file of the site but the pictures, which it is given and only shows; sorted by path.
///
/// # Errors
/// Where a template or message file of `theme` is broken, two files would lie on one path, pictures
/// included, or a template asks for what a view does not have.
pub fn publish(input: &Input<'_>) -> Result<Vec<PageFile>, PageError> {
    let theme = Theme::compile(&input.manual.language, input.theme)?;
    let site = Site::new(&theme, *input);
    let mut files = site.pages()?;
    let parts = (0..input.manual.machines.len()).map(|machine| beside(&site, machine, &mut files)).collect::<Result<Vec<_>, _>>()?;
    let shared = input.manual.clone_without_machines();
    let parts: Vec<&[String]> = parts.iter().map(Vec::as_slice).collect();
    let taken = Mutex::new(&mut files);
    shared_pages(&theme, &Input { manual: &shared, ..*input }, &parts, |page| {
        let page = page?;
        if let Ok(mut files) = taken.lock() {
            files.push(page);
        }
        Ok(())
    })?;
    let drawings = input.pictures.values().flat_map(Picture::renditions).filter_map(|file| Some((&file.path, file.bytes.as_ref()?)));
    let all = files.iter().map(|file| (&file.path, &file.bytes)).chain(drawings);
    let prints = all.map(|(path, bytes)| (path.clone(), fingerprint(bytes))).collect();
    files.push(offline_copy(input, &parts, &prints)?);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    let pictures: BTreeSet<&str> = input.pictures.values().flat_map(Picture::renditions).map(|picture| picture.path.as_str()).collect();
    check_paths(files.iter().map(|file| file.path.as_str()).chain(pictures))?;
    Ok(files)
}
