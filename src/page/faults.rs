//! Findings on a proof copy: each printed where it stands.

use super::Input;
use crate::finding::{FileId, FileTable, Finding, Place, Severity};
use serde::Serialize;

/// A finding as a page prints it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct FaultView {
    /// `error`, `warning` or `note`.
    pub severity: &'static str,
    /// The rule's name.
    pub rule: &'static str,
    /// The fault in one phrase.
    pub message: String,
    /// Computed figures, a line each.
    pub figures: Vec<String>,
    /// What to write instead; may be empty.
    pub fix: String,
    /// File and line.
    pub place: String,
}

/// The findings of a proof copy; none of another.
pub(super) struct Faults<'a> {
    input: Input<'a>,
}

impl<'a> Faults<'a> {
    /// The findings of `input`.
    pub(super) fn new(input: &Input<'a>) -> Self {
        Self { input: *input }
    }

    /// Those whose place touches a span.
    pub(super) fn at(&self, place: &Place) -> Vec<FaultView> {
        self.filtered(|fault| touches(fault.place(), place))
    }

    /// Those of a file that touch none of these spans.
    pub(super) fn elsewhere(&self, file: FileId, spans: &[Place]) -> Vec<FaultView> {
        self.filtered(|fault| fault.place().file == file && !spans.iter().any(|span| touches(fault.place(), span)))
    }

    /// Those within a span that touch none of these smaller ones.
    pub(super) fn around(&self, whole: &Place, spans: &[Place]) -> Vec<FaultView> {
        self.filtered(|fault| touches(fault.place(), whole) && !spans.iter().any(|span| touches(fault.place(), span)))
    }

    /// How many errors and warnings there are in all.
    pub(super) fn counts(&self) -> (usize, usize) {
        let count = |grade| self.shown().filter(|fault| fault.grade() == grade).count();
        (count(Severity::Error), count(Severity::Warning))
    }

    fn shown(&self) -> impl Iterator<Item = &'a Finding> {
        let all: &[Finding] = if self.input.proof_copy { self.input.findings } else { &[] };
        all.iter()
    }

    fn filtered(&self, wanted: impl Fn(&Finding) -> bool) -> Vec<FaultView> {
        self.shown().filter(|fault| wanted(fault)).map(|fault| FaultView::of(fault, self.input.files)).collect()
    }
}

impl FaultView {
    /// A finding, with the files it may stand in.
    pub(super) fn of(fault: &Finding, files: &FileTable) -> Self {
        let place = fault.place();
        let position = files.position(place.file, place.start);
        Self {
            severity: fault.grade().word(),
            rule: fault.rule().name,
            message: fault.message().to_owned(),
            figures: fault.figure_lines().to_vec(),
            fix: fault.fix_text().to_owned(),
            place: format!("{}:{}:{}", files.name(place.file), position.line, position.column),
        }
    }
}

/// Whether a finding's place begins inside a span.
fn touches(fault: &Place, span: &Place) -> bool {
    fault.file == span.file && fault.start >= span.start && fault.start < span.end.max(span.start + 1)
}
