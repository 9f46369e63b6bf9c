//! What lets a device keep the manual: the worker's list of files with one version over all of them, and the card by
//! which a phone puts the manual beside its programs.
//!
//! A version is a hash over the path and bytes of every file. The worker takes a file only where its own hash is the one
//! listed, so that a copy is whole or is none: old values never stand beside new ones.

use super::error::PageError;
use super::markup::Markup;
use super::site::Site;
use super::{PageFile, assets, bench_words, link};
use crate::figure::Picture;
use serde::Serialize;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;

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
    revisions: BTreeMap<String, u64>,
}

impl Site<'_> {
    /// The words that the script of every page may say.
    pub(super) fn page_words(&self) -> Markup {
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

    /// The worker with the list of all files of the site.
    pub(super) fn offline(&self, pages: &[PageFile]) -> Result<PageFile, PageError> {
        let mut files: BTreeMap<&str, String> = pages.iter().map(|page| (page.path.as_str(), hash(&page.bytes))).collect();
        let mut pictures: BTreeMap<&str, (String, usize)> = BTreeMap::new();
        for picture in self.input.pictures.values() {
            let named_after_content = matches!(picture, Picture::Photograph(_));
            for rendition in picture.renditions() {
                // Whether the site holds a photograph already must not change a byte of what is written here: its path is a
                // key to its content, and its size is about that of its pixels at two bits each.
                let pixels = u64::from(rendition.width).saturating_mul(u64::from(rendition.height)) / 4;
                let known = match &rendition.bytes {
                    Some(bytes) if !named_after_content => (hash(bytes), bytes.len()),
                    _ => (String::new(), usize::try_from(pixels).unwrap_or(usize::MAX)),
                };
                pictures.insert(&rendition.path, known);
            }
        }
        // One size of each photograph is enough for a phone: the middle one. The others come when they are looked at.
        let mut instead: BTreeMap<&str, &str> = BTreeMap::new();
        let mut later: BTreeMap<&str, String> = BTreeMap::new();
        for picture in self.input.pictures.values() {
            let Picture::Photograph(renditions) = picture else { continue };
            let Some(middle) = renditions.get(renditions.len() / 2) else { continue };
            for other in renditions.iter().filter(|other| other.path != middle.path) {
                instead.insert(&other.path, &middle.path);
                later.extend(pictures.remove(other.path.as_str()).map(|(hash, _)| (other.path.as_str(), hash)));
            }
        }
        let total = pictures.values().fold(0_usize, |sum, (_, size)| sum.saturating_add(*size));
        let kept = if total > PICTURES_KEPT { &mut later } else { &mut files };
        kept.extend(pictures.into_iter().map(|(path, (hash, _))| (path, hash)));
        let worker = assets::worker(self.input.theme);
        let revisions = self.revisions();
        let mut all = Sha256::new();
        for (path, hash) in files.iter().chain(&later) {
            all.update(format!("{path}\n{hash}\n"));
        }
        // A change of the worker alone is a version too.
        all.update(&worker);
        let version = digits(&all.finalize());
        let copy = Copy { version: &version, files: files.into_iter().collect(), later: later.into_iter().collect(), instead, revisions };
        let mut bytes = b"\"use strict\";\nconst COPY = ".to_vec();
        bytes.extend_from_slice(bench_words::json(&copy)?.as_str().as_bytes());
        bytes.extend_from_slice(b";\n");
        bytes.extend_from_slice(&worker);
        Ok(PageFile { path: WORKER.to_owned(), bytes })
    }

    fn revisions(&self) -> BTreeMap<String, u64> {
        let mut revisions = BTreeMap::new();
        for (machine, sheets) in self.input.manual.machines.iter().zip(&self.sheets) {
            for (procedure, sheets) in machine.procedures.iter().zip(sheets) {
                let Some(revision) = procedure.history.revision else { continue };
                revisions.insert(link::procedure_path(&machine.id, &procedure.id), revision);
                revisions.extend(sheets.all.iter().map(|(path, _)| (path.clone(), revision)));
            }
        }
        revisions
    }
}

fn hash(bytes: &[u8]) -> String {
    digits(&Sha256::digest(bytes))
}

fn digits(hash: &[u8]) -> String {
    hash.iter().map(|byte| format!("{byte:02x}")).collect::<String>().chars().take(DIGITS).collect()
}
