//! What reading has found so far, and the piece of a file that is being read.

use super::rules::TOO_MANY_FAULTS;
use crate::finding::{FileId, Finding, Place};
use std::collections::BTreeMap;
use std::ops::Range;

/// Findings shown per file; what comes after them is counted as one.
pub(super) const SHOWN_PER_FILE: usize = 200;

/// The findings of one run of reading. A file full of faults costs no more than [`SHOWN_PER_FILE`].
#[derive(Debug, Default)]
pub(super) struct Report {
    findings: Vec<Finding>,
    counts: BTreeMap<FileId, usize>,
}

impl Report {
    /// Takes a finding in, unless its file has too many already.
    pub(super) fn add(&mut self, finding: Finding) {
        let count = self.counts.entry(finding.place().file).or_insert(0);
        *count = count.saturating_add(1);
        match (*count).cmp(&(SHOWN_PER_FILE + 1)) {
            std::cmp::Ordering::Less => self.findings.push(finding),
            std::cmp::Ordering::Equal => self.findings.push(
                Finding::new(&TOO_MANY_FAULTS, finding.place().clone(), "more faults follow than can be shown")
                    .label("from here on nothing is listed")
                    .figure(format!("{SHOWN_PER_FILE} faults of reading stand before this place"))
                    .fix("mend what is listed above, then inspect again"),
            ),
            std::cmp::Ordering::Greater => {}
        }
    }

    /// Whether more findings of a file would be shown; none need be made where not.
    pub(super) fn wants(&self, file: FileId) -> bool {
        self.counts.get(&file).is_none_or(|count| *count <= SHOWN_PER_FILE)
    }

    /// Takes several findings in.
    pub(super) fn extend(&mut self, findings: impl IntoIterator<Item = Finding>) {
        for finding in findings {
            self.add(finding);
        }
    }

    /// The findings, in the order they were met.
    pub(super) fn into_findings(self) -> Vec<Finding> {
        self.findings
    }
}

/// A piece of a file: its text and where in the file that begins.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slice<'a> {
    pub(super) file: FileId,
    pub(super) text: &'a str,
    /// Bytes of the file before `text`.
    pub(super) base: usize,
}

impl<'a> Slice<'a> {
    /// The whole text of a file.
    pub(super) fn whole(file: FileId, text: &'a str) -> Self {
        Self { file, text, base: 0 }
    }

    /// The place of some bytes of this piece.
    pub(super) fn place(&self, span: Range<usize>) -> Place {
        Place::new(self.file, self.base.saturating_add(span.start)..self.base.saturating_add(span.end))
    }

    /// A part of this piece; empty where the span is none of it.
    pub(super) fn part(&self, span: Range<usize>) -> Self {
        let text = self.text.get(span.clone()).unwrap_or("");
        Self { file: self.file, text, base: self.base.saturating_add(span.start.min(self.text.len())) }
    }

    /// The text of a span; empty where the span is none of it.
    pub(super) fn get(&self, span: Range<usize>) -> &'a str {
        self.text.get(span).unwrap_or("")
    }

    /// The line in which `at` stands, as a span without its line end.
    pub(super) fn line_around(&self, at: usize) -> Range<usize> {
        let at = floor_boundary(self.text, at);
        let start = self.get(0..at).rfind('\n').map_or(0, |end| end + 1);
        let end = self.text.get(at..).and_then(|rest| rest.find('\n')).map_or(self.text.len(), |n| at + n);
        let end = if end > start && self.text.as_bytes().get(end - 1) == Some(&b'\r') { end - 1 } else { end };
        start..end
    }

    /// The span of the character at `at`; empty at the end of the text.
    pub(super) fn character_at(&self, at: usize) -> Range<usize> {
        let at = floor_boundary(self.text, at);
        let length = self.text.get(at..).and_then(|rest| rest.chars().next()).map_or(0, char::len_utf8);
        at..at + length
    }
}

/// The nearest character boundary at or before `at`.
pub(super) fn floor_boundary(text: &str, at: usize) -> usize {
    let mut at = at.min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// A short piece of the author's text for a message: its first line, at most forty characters.
pub(super) fn excerpt(text: &str) -> String {
    let line = text.trim().lines().next().unwrap_or("").trim_end();
    if line.chars().count() <= 40 {
        return line.to_owned();
    }
    let mut short: String = line.chars().take(39).collect();
    short.push('…');
    short
}
