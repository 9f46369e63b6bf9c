//! Looking at every picture of a manual's folder.

use super::PictureFile;
use super::disk::{self, Content};
use super::heading::id_from;
use super::picture::{self, Fault};
use super::read::{Reader, TEXT_LIMIT};
use super::report::excerpt;
use super::rules::{FILE_NOT_READABLE, NAME_NOT_AN_ID, PICTURE_MISNAMED};
use super::walk::FileAt;
use crate::crew::in_order;
use crate::finding::{Finding, Place};
use std::collections::{BTreeMap, BTreeSet};

/// So many pictures are held whole at a time: each may have 64 MiB.
const AT_ONCE: usize = 2;

/// What a look at a picture's file tells.
struct Look {
    facts: Result<PictureFile, Fault>,
    /// The text of a faulty drawing, for the place of its fault.
    text: String,
}

/// Reads a picture's file whole: its key hangs on every byte.
fn look(at: &FileAt) -> Look {
    let facts = match disk::read(&at.disk, picture::FILE_LIMIT) {
        Content::Bytes(bytes) => {
            let facts = picture::facts(&at.name, &bytes);
            // Only a faulty drawing of a text's size is kept.
            let wanted = matches!(&facts, Err(fault) if fault.at.is_some()) && u64::try_from(bytes.len()).is_ok_and(|n| n <= TEXT_LIMIT);
            let text = if wanted { String::from_utf8(bytes).unwrap_or_default() } else { String::new() };
            return Look { facts, text };
        }
        Content::TooLarge(size) => Err(picture::too_many_bytes(size)),
        Content::Failed(error) => {
            let mut fault = Fault::new(&FILE_NOT_READABLE, "the picture can't be read", "not read", "allow reading it, or remove it");
            fault.figure = Some(error.to_string());
            Err(fault)
        }
    };
    Look { facts, text: String::new() }
}

impl Reader {
    pub(super) fn pictures(&mut self, files: &[FileAt], threads: usize) -> (BTreeMap<String, PictureFile>, BTreeSet<String>) {
        let mut pictures = BTreeMap::new();
        let mut unusable = BTreeSet::new();
        let looks = in_order(files, threads.min(AT_ONCE), look);
        for (file, look) in files.iter().zip(looks) {
            match self.picture(file, look) {
                Some(picture) => {
                    pictures.insert(file.name.clone(), picture);
                }
                None => {
                    unusable.insert(file.name.clone());
                }
            }
        }
        (pictures, unusable)
    }

    fn picture(&mut self, at: &FileAt, look: Look) -> Option<PictureFile> {
        let own = at.parts().last().copied().unwrap_or("").to_owned();
        if own.contains(|c: char| {
            c.is_whitespace()
                || c.is_control()
                || matches!(c, '#' | '%' | '?' | '"' | '\'' | '<' | '>' | '(' | ')' | '\\' | '|')
        }) {
            let place = self.about(&at.name);
            let stem = own.rsplit_once('.').map_or(own.as_str(), |(stem, _)| stem);
            let ending = own.rsplit_once('.').map_or("", |(_, ending)| ending).to_lowercase();
            self.report.add(
                Finding::new(
                    &NAME_NOT_AN_ID,
                    place,
                    format!("no address can hold the picture's name ‘{}’", excerpt(&own)),
                )
                .label("a space or sign in the name")
                .fix(format!("rename it to ‘{}.{ending}’", id_from(stem))),
            );
        }
        match look.facts {
            Ok(facts) => {
                self.check_ending(&facts);
                Some(facts)
            }
            Err(fault) => {
                self.picture_fault(at, fault, look.text);
                None
            }
        }
    }

    fn check_ending(&mut self, facts: &PictureFile) {
        if picture::format_of_name(&facts.path) == Some(facts.format) {
            return;
        }
        let stem = facts.path.rsplit_once('.').map_or(facts.path.as_str(), |(stem, _)| stem);
        let right = format!("{stem}.{}", picture::ending(facts.format));
        let place = self.about(&facts.path);
        self.report.add(
            Finding::new(
                &PICTURE_MISNAMED,
                place,
                format!("‘{}’ holds a {} picture", excerpt(&facts.path), picture::ending(facts.format).to_uppercase()),
            )
            .label("its name promises another format")
            .fix(format!("rename it to ‘{right}’, and in the text as well")),
        );
    }

    fn picture_fault(&mut self, at: &FileAt, fault: Fault, text: String) {
        let length = text.len();
        let file = self.files.add(at.name.clone(), text);
        let span = fault.at.filter(|span| span.end <= length).unwrap_or(0..0);
        let mut finding =
            Finding::new(fault.rule, Place::new(file, span), fault.message).label(fault.label).fix(fault.fix);
        if let Some(figure) = fault.figure {
            finding = finding.figure(figure);
        }
        self.report.add(finding);
    }
}
