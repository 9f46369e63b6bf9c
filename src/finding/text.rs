//! Findings for people: what is wrong, where, the line with carets, the figures, what to write instead.
//!
//! Invariants: no word of a manual reaches the terminal unfiltered; colour repeats what a word says and
//! never says it alone.

use super::excerpt::{excerpt, visible};
use super::{Answer, FileTable, Finding, Place, Severity, in_order};
use std::collections::BTreeSet;
use unicode_width::UnicodeWidthStr;

/// How a report looks. The caller knows its terminal; nothing is asked of the environment here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Look {
    /// Whether to send colours (ECMA-48 "select graphic rendition").
    pub colour: bool,
    /// Columns there are; fewer than 40 are taken as 40.
    pub width: usize,
}

impl Default for Look {
    fn default() -> Self {
        Self { colour: false, width: 100 }
    }
}

/// The findings as a report, with a closing line that counts them.
///
/// ```text
/// Error — the torque of the pinion nut has no unit (torque-without-unit)
///   axle/hub.md:12:9
///       torque: 25–30
///               ^^^^^ no unit here
///   figures: 25 N·m is 18.4 lbf·ft
///   see axle/machine.yaml:4:5, the nut
///       id: pinion-nut
///           ^^^^^^^^^^
///   instead: write the unit, such as `25–30 N·m`
///
/// 1 error in 1 file
/// ```
#[must_use]
pub fn text(findings: &[Finding], files: &FileTable, look: Look) -> String {
    let mut report = Report { page: String::new(), files, colour: look.colour, width: look.width.max(40) };
    let open: Vec<&Finding> = in_order(findings, files).into_iter().filter(|f| f.answer().is_none()).collect();
    for finding in &open {
        report.finding(finding);
    }
    report.page.push_str(&closing(&open, files));
    report.page.push('\n');
    report.page.push_str(&waived(findings, files, look));
    report.page
}

/// Those of the findings that are waived, each with who answers for it: nothing where none is.
///
/// ```text
/// Waived — 5 N·m on Hub bolt is 25 % of proof, which is unusual (torque-outside-band)
///   axle/hub.md:12:9
///   because: soft joint, sheet 12, page 3 (Second reader, until 2027-03-01)
/// ```
#[must_use]
pub fn waived(findings: &[Finding], files: &FileTable, look: Look) -> String {
    let mut report = Report { page: String::new(), files, colour: look.colour, width: look.width.max(40) };
    for (finding, answer) in in_order(findings, files).into_iter().filter_map(|f| Some((f, f.answer()?))) {
        report.waived(finding, answer);
    }
    report.page
}

/// Columns before a place, figures and the fix.
const UNDER: usize = 2;

/// Columns before a line of a file.
const LINE: usize = 6;

struct Report<'a> {
    page: String,
    files: &'a FileTable,
    colour: bool,
    width: usize,
}

impl Report<'_> {
    fn finding(&mut self, finding: &Finding) {
        let paint = Paint::of(finding.grade());
        let message = format!("{} ({})", finding.message(), finding.rule().name);
        self.paragraph(0, &format!("{} — ", word(finding.grade())), paint, UNDER, &message);
        let spot = visible(&self.spot(finding.place()));
        self.put(UNDER, &spot, Paint::Plain);
        self.excerpt(finding.place(), finding.label_text(), paint);
        self.figures(finding.figure_lines());
        for (place, what) in finding.related_places() {
            let spot = self.spot(place);
            let separator = if what.is_empty() { "" } else { ", " };
            self.paragraph(UNDER, "see ", Paint::Quiet, LINE, &format!("{spot}{separator}{what}"));
            self.excerpt(place, "", Paint::Quiet);
        }
        self.headed("instead: ", finding.fix_text());
        self.page.push('\n');
    }

    fn waived(&mut self, finding: &Finding, answer: &Answer) {
        let message = format!("{} ({})", finding.message(), finding.rule().name);
        self.paragraph(0, "Waived — ", Paint::Quiet, UNDER, &message);
        let spot = visible(&self.spot(finding.place()));
        self.put(UNDER, &spot, Paint::Plain);
        self.headed("because: ", &format!("{} ({}, until {})", answer.because, answer.by, answer.until));
    }

    fn figures(&mut self, figures: &[String]) {
        self.headed("figures: ", &figures.join("\n"));
    }

    /// Lines of words under a heading, or nothing where there are no words.
    fn headed(&mut self, heading: &str, words: &str) {
        let mut heading = heading.to_owned();
        for line in words.lines() {
            self.paragraph(UNDER, &heading, Paint::Strong, UNDER + heading.width(), line);
            heading = " ".repeat(heading.width());
        }
    }

    /// `file:line:column`, or the file alone where it has no text.
    fn spot(&self, place: &Place) -> String {
        let name = self.files.name(place.file);
        if self.files.text(place.file).is_empty() {
            return name.to_owned();
        }
        let at = self.files.position(place.file, place.start);
        format!("{name}:{}:{}", at.line, at.column)
    }

    /// The first line of a place with carets under it, the label behind or under them, and how many lines
    /// more there are.
    fn excerpt(&mut self, place: &Place, label: &str, paint: Paint) {
        let text = self.files.text(place.file);
        if text.is_empty() {
            self.paragraph(LINE, "", Paint::Plain, LINE, label);
            return;
        }
        let line = self.files.line(place.file, place.start);
        let start = place.start.clamp(line.start, line.end);
        let end = place.end.clamp(start, line.end);
        let words = text.get(line.clone()).unwrap_or("");
        let shown = excerpt(words, &(start - line.start..end - line.start), self.width - LINE);
        let at_the_end = words.is_empty() && line.end == text.len();
        self.put(LINE, if at_the_end { "(end of the file)" } else { &shown.line }, Paint::Plain);
        self.carets(shown.indent, shown.carets, label, paint);
        match further_lines(text, place) {
            0 => {}
            1 => self.put(LINE, "(and 1 line more)", Paint::Quiet),
            more => self.put(LINE, &format!("(and {more} lines more)"), Paint::Quiet),
        }
    }

    fn carets(&mut self, indent: usize, carets: usize, label: &str, paint: Paint) {
        let carets = "^".repeat(carets);
        let label = visible(label);
        let behind = LINE + indent + carets.len() + 1 + label.width() <= self.width;
        if label.is_empty() || !behind {
            self.put(LINE + indent, &carets, paint);
            self.paragraph(LINE, "", paint, LINE, &label);
        } else {
            self.put(LINE + indent, &format!("{carets} {label}"), paint);
        }
    }

    /// A head and words behind it, wrapped between words; further lines begin at column `hang`.
    fn paragraph(&mut self, indent: usize, head: &str, paint: Paint, hang: usize, words: &str) {
        let words = visible(words);
        if words.trim().is_empty() {
            return;
        }
        self.page.push_str(&" ".repeat(indent));
        self.page.push_str(&paint.on(head, self.colour));
        let mut column = indent + head.width();
        if column + words.width() <= self.width {
            self.page.push_str(words.trim_end());
            self.page.push('\n');
            return;
        }
        let mut begun = false;
        for word in words.split_whitespace() {
            if begun && column + 1 + word.width() > self.width {
                self.page.push('\n');
                self.page.push_str(&" ".repeat(hang));
                column = hang;
            } else if begun {
                self.page.push(' ');
                column += 1;
            }
            self.page.push_str(word);
            column += word.width();
            begun = true;
        }
        self.page.push('\n');
    }

    fn put(&mut self, indent: usize, line: &str, paint: Paint) {
        let line = line.trim_end();
        if !line.is_empty() {
            self.page.push_str(&" ".repeat(indent));
            self.page.push_str(&paint.on(line, self.colour));
        }
        self.page.push('\n');
    }
}

/// How many lines a place goes on for after its first. The ending of its last line is no further line.
fn further_lines(text: &str, place: &Place) -> usize {
    let span = text.get(place.start..place.end.min(text.len())).unwrap_or("");
    let span = span.strip_suffix('\n').unwrap_or(span);
    span.matches('\n').count()
}

fn word(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => "Note",
        Severity::Warning => "Warning",
        Severity::Error => "Error",
    }
}

/// `3 errors, 1 warning in 2 files`.
fn closing(findings: &[&Finding], files: &FileTable) -> String {
    let counts: Vec<String> = [Severity::Error, Severity::Warning, Severity::Note]
        .into_iter()
        .filter_map(|severity| {
            let count = findings.iter().filter(|f| f.grade() == severity).count();
            (count > 0).then(|| counted(count, severity.word()))
        })
        .collect();
    // A file that could not be read stands in the table beside the name of its folder, and perhaps twice.
    let files: BTreeSet<_> = findings.iter().map(|f| files.name(f.place().file)).collect();
    if counts.is_empty() {
        return "no findings".to_owned();
    }
    format!("{} in {}", counts.join(", "), counted(files.len(), "file"))
}

/// `1 procedure`, `6 procedures`.
pub(crate) fn counted(count: usize, what: &str) -> String {
    format!("{count} {what}{}", if count == 1 { "" } else { "s" })
}

#[derive(Clone, Copy)]
enum Paint {
    Plain,
    Quiet,
    Strong,
    Red,
    Yellow,
    Blue,
}

impl Paint {
    fn of(severity: Severity) -> Self {
        match severity {
            Severity::Note => Self::Blue,
            Severity::Warning => Self::Yellow,
            Severity::Error => Self::Red,
        }
    }

    fn on(self, words: &str, colour: bool) -> String {
        let code = match self {
            Self::Plain => return words.to_owned(),
            _ if !colour || words.is_empty() => return words.to_owned(),
            Self::Quiet => "2",
            Self::Strong => "1",
            Self::Red => "1;31",
            Self::Yellow => "1;33",
            Self::Blue => "1;34",
        };
        format!("\x1b[{code}m{words}\x1b[0m")
    }
}
