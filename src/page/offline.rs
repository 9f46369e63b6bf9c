//! What lets a device keep the manual: the worker's list of files with one version over all of them, and the card by
//! which a phone puts the manual beside its programs.
//!
//! A version is a hash over the path and bytes of every file. The worker takes a file only where its own hash is the one
//! listed, so that a copy is whole or is none: old values never stand beside new ones.

use super::error::PageError;
use super::markup::Markup;
use super::site::Site;
use super::{PageFile, assets, bench_words, link};
use crate::figure::{Picture, Rendition};
use crate::source::fingerprint;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// The worker, at the root of the site: it can only keep what lies beside or below it.
pub(super) const WORKER: &str = "offline.js";
/// The card, by the W3C's Web Application Manifest.
pub(super) const APP: &str = "manual.webmanifest";
/// The manual's mark.
pub(super) const ICON: &str = "mark.svg";

/// Pictures are kept from the first visit up to so many bytes; of a larger manual each is kept once it was looked at.
const PICTURES_KEPT: usize = 50 * 1024 * 1024;
/// So much of a hash tells any two files of a manual apart, and keeps the list short.
const DIGITS: usize = 32;

/// The mark: a sheet with a ticked box, lines for text.
const MARK: &str = concat!(
    r##"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64" width="64" height="64">"##,
    r##"<rect width="64" height="64" fill="#fff"/><path d="M12 5h40v54H12z" fill="#fff" stroke="#14161a" stroke-width="3"/>"##,
    r##"<path d="M19 15h13v13H19z" fill="none" stroke="#14161a" stroke-width="3"/><path d="m21 20 5 6 11-13" fill="none" stroke="#0b4a85" stroke-width="4"/>"##,
    r##"<path d="M19 37h26M19 44h26M19 51h17" stroke="#14161a" stroke-width="3"/></svg>"##,
    "\n"
);

/// What the worker is told.
#[derive(Serialize)]
struct Copy<'a> {
    version: &'a str,
    /// Path and hash of what is kept at once; no hash where the path itself is a key to the content.
    files: Vec<(&'a str, String)>,
    /// Likewise of what is kept once it was looked at.
    later: Vec<(&'a str, String)>,
    /// For a photograph's other sizes: the size that is kept, which stands in for them without a network.
    instead: BTreeMap<&'a str, &'a str>,
    /// Revision of a procedure by the paths of its page and sheets.
    revisions: BTreeMap<&'a str, u64>,
}

impl Site<'_> {
    /// The words that the script of every page may say.
    pub(super) fn page_words(&self) -> Markup {
        self.words.page.get_or_init(|| self.made_page_words()).clone()
    }

    fn made_page_words(&self) -> Markup {
        let keys = ["saved-new", "saved-new-revision", "saved-load", "saved-later", "saved-older"];
        let holes = [("now", super::words::Arg::Text("{now}"))];
        let mut words: BTreeMap<&str, String> = keys.iter().map(|key| (*key, self.say_with(key, &holes))).collect();
        // Scripts write the point where nothing else is said.
        let mark = self.words.decimal_mark();
        if mark != '.' {
            words.insert("decimal-mark", mark.to_string());
        }
        // Texts alone: there is nothing in them that JSON could not hold.
        bench_words::json(&words).unwrap_or_default()
    }

    /// The card of the manual, and its mark.
    pub(super) fn app(&self) -> Result<[PageFile; 2], PageError> {
        #[derive(Serialize)]
        struct Icon {
            src: &'static str,
            sizes: &'static str,
            r#type: &'static str,
        }
        #[derive(Serialize)]
        struct App<'a> {
            name: &'a str,
            lang: &'a str,
            start_url: &'static str,
            scope: &'static str,
            display: &'static str,
            background_color: &'static str,
            theme_color: &'static str,
            icons: [Icon; 1],
        }
        let app = App {
            name: &self.input.manual.title,
            lang: if self.input.manual.language.is_empty() { "en" } else { &self.input.manual.language },
            start_url: link::HOME,
            scope: "./",
            display: "minimal-ui",
            background_color: "#ffffff",
            theme_color: "#ffffff",
            icons: [Icon { src: ICON, sizes: "any", r#type: "image/svg+xml" }],
        };
        let mut card = serde_json::to_vec(&app).map_err(|error| PageError::of_data(&error.to_string()))?;
        card.push(b'\n');
        Ok([PageFile { path: APP.to_owned(), bytes: card }, PageFile { path: ICON.to_owned(), bytes: MARK.as_bytes().to_vec() }])
    }

    /// What the copy on a device is told of a machine: revisions, and the pictures given.
    pub(super) fn copied(&self, machine_index: usize, pictures: &[&Picture]) -> CopyPart {
        CopyPart { revisions: self.revisions(machine_index), ..CopyPart::of(pictures.iter().copied()) }
    }

    fn revisions(&self, machine_index: usize) -> BTreeMap<String, u64> {
        let mut revisions = BTreeMap::new();
        let Some((machine, sheets)) = self.input.manual.machines.get(machine_index).zip(self.sheets.get(machine_index)) else { return revisions };
        for (procedure, sheets) in machine.procedures.iter().zip(sheets) {
            let Some(revision) = procedure.history.revision else { continue };
            revisions.insert(link::procedure_path(&machine.id, &procedure.id), revision);
            revisions.extend(sheets.all.iter().map(|(path, _)| (path.clone(), revision)));
        }
        revisions
    }
}

/// What the copy on a device is told of a machine.
#[derive(Serialize, Deserialize)]
pub(super) struct CopyPart {
    /// Revision of a procedure by the paths of its page and sheets.
    revisions: BTreeMap<String, u64>,
    pictures: Vec<PictureFiles>,
}

impl CopyPart {
    /// Pictures alone.
    pub(super) fn of<'p>(pictures: impl Iterator<Item = &'p Picture>) -> Self {
        Self { revisions: BTreeMap::new(), pictures: pictures.map(PictureFiles::of).collect() }
    }
}

/// The files of one picture, narrowest first, each with about its size in bytes.
#[derive(Serialize, Deserialize)]
struct PictureFiles {
    /// Then the path itself is a key to the content.
    photograph: bool,
    files: Vec<(String, usize)>,
}

impl PictureFiles {
    fn of(picture: &Picture) -> Self {
        let photograph = matches!(picture, Picture::Photograph(_));
        let file = |rendition: &Rendition| {
            // Whether the site holds a photograph already must not change a byte of what is written here: its size is about
            // that of its pixels at two bits each.
            let pixels = u64::from(rendition.width).saturating_mul(u64::from(rendition.height)) / 4;
            let size = if photograph { usize::try_from(pixels).unwrap_or(usize::MAX) } else { rendition.length };
            (rendition.path.clone(), size)
        };
        Self { photograph, files: picture.renditions().iter().map(file).collect() }
    }
}

/// The worker with the list of all files of the site, whose fingerprints (SHA-256, in hexadecimal digits) are given; those of
/// photographs are not asked for.
pub(super) fn worker(theme: &BTreeMap<String, Vec<u8>>, parts: &[CopyPart], prints: &BTreeMap<String, String>) -> Result<PageFile, PageError> {
    let shortened = |path: &str| prints.get(path).map_or_else(String::new, |print| print.chars().take(DIGITS).collect());
    let mut pictures: BTreeMap<&str, (String, usize)> = BTreeMap::new();
    // One size of each photograph is enough for a phone: the middle one. The others come when they are looked at.
    let mut instead: BTreeMap<&str, &str> = BTreeMap::new();
    let mut later: BTreeMap<&str, String> = BTreeMap::new();
    let mut shown: BTreeSet<&str> = BTreeSet::new();
    for picture in parts.iter().flat_map(|part| &part.pictures) {
        shown.extend(picture.files.iter().map(|(path, _)| path.as_str()));
        let middle = picture.files.get(picture.files.len() / 2).filter(|_| picture.photograph);
        for (path, size) in &picture.files {
            match middle {
                Some((middle, _)) if path != middle => {
                    instead.insert(path, middle);
                    later.insert(path, String::new());
                }
                Some(_) => {
                    pictures.insert(path, (String::new(), *size));
                }
                None => {
                    pictures.insert(path, (shortened(path), *size));
                }
            }
        }
    }
    // What begins with a dot is ours and nobody's to read.
    let pages = prints.keys().map(String::as_str).filter(|path| !shown.contains(path) && *path != WORKER && !path.starts_with('.'));
    let mut files: BTreeMap<&str, String> = pages.map(|path| (path, shortened(path))).collect();
    let total = pictures.values().fold(0_usize, |sum, (_, size)| sum.saturating_add(*size));
    let kept = if total > PICTURES_KEPT { &mut later } else { &mut files };
    kept.extend(pictures.into_iter().map(|(path, (hash, _))| (path, hash)));
    let worker = assets::worker(theme);
    let revisions = parts.iter().flat_map(|part| &part.revisions).map(|(path, revision)| (path.as_str(), *revision)).collect();
    let mut all: Vec<u8> = files.iter().chain(&later).flat_map(|(path, hash)| format!("{path}\n{hash}\n").into_bytes()).collect();
    // A change of the worker alone is a version too.
    all.extend_from_slice(&worker);
    let version: String = fingerprint(&all).chars().take(DIGITS).collect();
    let copy = Copy { version: &version, files: files.into_iter().collect(), later: later.into_iter().collect(), instead, revisions };
    let mut bytes = b"\"use strict\";\nconst COPY = ".to_vec();
    // A script of its own, not a block in a page: paths stand as they are.
    bytes.extend(serde_json::to_vec(&copy).map_err(|error| PageError::of_data(&error.to_string()))?);
    bytes.extend_from_slice(b";\n");
    bytes.extend_from_slice(&worker);
    Ok(PageFile { path: WORKER.to_owned(), bytes })
}
