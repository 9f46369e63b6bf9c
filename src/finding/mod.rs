//! What a reader is told: a fault, its place, the figures behind it and what to write instead.
//!
//! Invariants: a finding has exactly one primary [`Place`]; a place is a span of bytes of a file as
//! it is on disk; line and column exist only when a finding is printed.
//!
//! Findings are printed as [`text`] for people, as [`json`] for scripts and as [`sarif`] for tools that
//! read the OASIS standard. Every printer puts them into the order of [`sort`].

mod device;
mod excerpt;
mod file;
mod json;
mod nearest;
mod rule;
mod sarif;
mod stored;
mod text;

pub(crate) use excerpt::{harmless, is_harmless, visible};
pub use device::is_device_name;
pub use file::{FileId, FileTable, FileText, Position};
pub use json::json;
pub use nearest::{is_slip_of, nearest};
pub use rule::{Explanation, Rule};
pub use sarif::{Ground, sarif};
pub use stored::StoredFinding;
pub(crate) use text::counted;
pub use text::{Look, text, waived};

use std::cmp::Ordering;
use std::ops::Range;

/// How grave a finding is, least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Worth knowing; never stops anything.
    Note,
    /// Stops the profiles `club` and `published`.
    Warning,
    /// Always stops.
    Error,
}

impl Severity {
    /// The word a report uses: `note`, `warning` or `error`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Note => "note",
            Self::Warning => "warning",
            Self::Error => "error",
        }
    }
}

/// Where in the manual's folder something stands: a file and a span of its bytes.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// The file.
    pub file: FileId,
    /// Bytes of the file as it is on disk; may be empty.
    pub start: usize,
    /// End of the span, never before `start`.
    pub end: usize,
}

impl Place {
    /// A place from a file and a span of its bytes. A reversed span becomes empty at its start.
    #[must_use]
    pub fn new(file: FileId, span: Range<usize>) -> Self {
        Self { file, start: span.start, end: span.end.max(span.start) }
    }

    /// The start of a file, for what concerns the file as a whole.
    #[must_use]
    pub fn whole_file(file: FileId) -> Self {
        Self { file, start: 0, end: 0 }
    }

    /// The part of this place that begins `offset.start` bytes after its start, clipped to it.
    #[must_use]
    pub fn part(&self, offset: Range<usize>) -> Self {
        let start = self.start.saturating_add(offset.start).min(self.end);
        let end = self.start.saturating_add(offset.end).clamp(start, self.end);
        Self { file: self.file, start, end }
    }
}

/// One fault, in the reader's words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Finding {
    rule: &'static Rule,
    severity: Severity,
    message: String,
    place: Place,
    label: String,
    related: Vec<(Place, String)>,
    figures: Vec<String>,
    fix: String,
    about: Option<String>,
    sought: Option<Sought>,
    answer: Option<Answer>,
}

/// Where something was looked for in vain: a finding may only follow from a fault there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Sought {
    /// In every list the place may name things of.
    Lists,
    /// Among the steps of a procedure, `MACHINE/PROCEDURE`.
    Steps(String),
}

/// Who answers for a finding that stands all the same, and until when.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Answer {
    /// Why it may stand.
    pub because: String,
    /// Who says so.
    pub by: String,
    /// The last day it holds, as ISO 8601 has it.
    pub until: String,
}

impl Finding {
    /// A finding of `rule` at `place`, as grave as the rule says. `message` is one phrase that
    /// stands alone: lower-case start (unless a name), no full stop.
    #[must_use]
    pub fn new(rule: &'static Rule, place: Place, message: impl Into<String>) -> Self {
        Self {
            rule,
            severity: rule.severity,
            message: message.into(),
            place,
            label: String::new(),
            related: Vec::new(),
            figures: Vec::new(),
            fix: String::new(),
            about: None,
            sought: None,
            answer: None,
        }
    }

    /// Makes the finding graver or lighter than its rule's usual severity.
    #[must_use]
    pub fn severity(mut self, severity: Severity) -> Self {
        self.severity = severity;
        self
    }

    /// The few words that stand under the caret: what is wrong *here*.
    #[must_use]
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// Another place that bears on the fault, and what it shows.
    #[must_use]
    pub fn related(mut self, place: Place, what: impl Into<String>) -> Self {
        self.related.push((place, what.into()));
        self
    }

    /// A computed figure behind the fault, so that the reader can disagree.
    #[must_use]
    pub fn figure(mut self, figure: impl Into<String>) -> Self {
        self.figures.push(figure.into());
        self
    }

    /// Several computed figures.
    #[must_use]
    pub fn figures(mut self, figures: impl IntoIterator<Item = String>) -> Self {
        self.figures.extend(figures);
        self
    }

    /// What to write or do instead.
    #[must_use]
    pub fn fix(mut self, fix: impl Into<String>) -> Self {
        self.fix = fix.into();
        self
    }

    /// Where it was looked for in vain.
    #[must_use]
    pub fn sought(mut self, sought: Sought) -> Self {
        self.sought = Some(sought);
        self
    }

    /// Where something was looked for in vain, if that is what it tells.
    #[must_use]
    pub fn sought_in(&self) -> Option<&Sought> {
        self.sought.as_ref()
    }

    /// What the finding is about, as a waiver names it: `ID`, `ID.field` or `PROCEDURE#STEP`.
    #[must_use]
    pub fn about(mut self, about: impl Into<String>) -> Self {
        self.about = Some(about.into());
        self
    }

    /// Somebody answers for it: it is waived.
    #[must_use]
    pub fn answered(mut self, answer: Answer) -> Self {
        self.answer = Some(answer);
        self
    }

    /// The rule that was broken.
    #[must_use]
    pub fn rule(&self) -> &'static Rule {
        self.rule
    }

    /// How grave it is here.
    #[must_use]
    pub fn grade(&self) -> Severity {
        self.severity
    }

    /// The fault in one phrase.
    #[must_use]
    pub fn message(&self) -> &str {
        &self.message
    }

    /// The one primary place.
    #[must_use]
    pub fn place(&self) -> &Place {
        &self.place
    }

    /// The words under the caret; may be empty.
    #[must_use]
    pub fn label_text(&self) -> &str {
        &self.label
    }

    /// Other places that bear on it.
    #[must_use]
    pub fn related_places(&self) -> &[(Place, String)] {
        &self.related
    }

    /// Computed figures, a line each.
    #[must_use]
    pub fn figure_lines(&self) -> &[String] {
        &self.figures
    }

    /// What to write instead; may be empty.
    #[must_use]
    pub fn fix_text(&self) -> &str {
        &self.fix
    }

    /// What a waiver would call it.
    #[must_use]
    pub fn subject(&self) -> Option<&str> {
        self.about.as_deref()
    }

    /// Who answers for it, where it is waived.
    #[must_use]
    pub fn answer(&self) -> Option<&Answer> {
        self.answer.as_ref()
    }
}

/// Sorts findings into the order a reader meets them: by file name, place, gravity, rule, words.
/// Doubles (same rule, place and words) are dropped.
pub fn sort(findings: &mut Vec<Finding>, files: &FileTable) {
    findings.sort_by(|a, b| reading_order(a, b, files));
    findings.dedup_by(|a, b| a.rule.name == b.rule.name && a.place == b.place && a.message == b.message);
}

/// The same findings in the order of [`sort`], so that a printed report doesn't hang on who found what first.
fn in_order<'a>(findings: &'a [Finding], files: &FileTable) -> Vec<&'a Finding> {
    let mut ordered: Vec<&Finding> = findings.iter().collect();
    ordered.sort_by(|a, b| reading_order(a, b, files));
    ordered
}

fn reading_order(a: &Finding, b: &Finding, files: &FileTable) -> Ordering {
    files
        .name(a.place.file)
        .cmp(files.name(b.place.file))
        .then_with(|| a.place.cmp(&b.place))
        .then_with(|| b.severity.cmp(&a.severity))
        .then_with(|| a.rule.name.cmp(b.rule.name))
        .then_with(|| a.message.cmp(&b.message))
}
