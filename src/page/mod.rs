//! What stands on which page: views, templates, sheets, links.
//!
//! Invariants: no author's markup is trusted unless its type says so ([`markup`]); templates see views,
//! never the model; nothing here opens a file; the same input gives the same files with any number of
//! threads.

mod account;
mod act;
mod assets;
mod axes;
mod before;
mod behind;
mod bench;
mod bench_words;
mod board;
mod book;
mod build;
mod bulletins;
mod cells;
mod chapters;
mod desk;
mod details;
mod details_work;
mod drawings;
mod drawn_acts;
mod drawn_parts;
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
mod sheet;
mod sheet_clause;
mod sheet_line;
mod site;
mod sitemap;
mod source_sheet;
mod source_syntax;
mod sources;
mod square_code;
mod stop_line;
mod strip;
mod structured;
mod tables;
mod template;
mod terms;
mod tightening;
mod torque_card;
mod to_have;
mod usage;
mod values;
mod words;
mod waived;
mod wrench;
mod wrench_reset;

pub use desk::{Desk, DeskInput, Trouble, desk};
pub use error::PageError;

use crate::figure::Picture;
use crate::finding::{FileTable, Finding};
use crate::manual::Manual;
use site::Site;
use std::collections::BTreeMap;

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

/// Makes every file of the site but the pictures, which it is given and only shows; sorted by path.
///
/// # Errors
/// Where a template or message file of `theme` is broken, two files would lie on one path, pictures
/// included, or a template asks for what a view does not have.
pub fn publish(input: &Input<'_>) -> Result<Vec<PageFile>, PageError> {
    let site = Site::new(*input)?;
    let mut files = site.pages()?;
    files.extend(book::books(&site, &files)?);
    files.push(find::file(&site));
    files.extend(sitemap::file(input));
    files.extend(feed::file(&site));
    let procedures = input.manual.machines.iter().flat_map(|machine| machine.procedures.iter().map(move |procedure| (machine, procedure)));
    files.extend(procedures.filter_map(|(machine, procedure)| chapters::file(machine, procedure)));
    files.extend(assets::files(input.theme, input.proof_copy));
    files.extend(template::passed_through(input.theme));
    files.extend(site.app()?);
    let worker = site.offline(&files)?;
    files.push(worker);
    files.sort_by(|a, b| a.path.cmp(&b.path));
    files.dedup();
    if let Some(pair) = files.windows(2).find(|pair| pair[0].path == pair[1].path) {
        return Err(PageError::doubled(&pair[0].path));
    }
    let mut pictures = input.pictures.values().flat_map(Picture::renditions);
    match pictures.find(|picture| files.binary_search_by(|file| file.path.cmp(&picture.path)).is_ok()) {
        Some(picture) => Err(PageError::doubled(&picture.path)),
        None => Ok(files),
    }
}
