//! Findings for scripts: a JSON document with a format name and a version of its own, so that a finding
//! may change inside without breaking who reads this.
//!
//! Version 1. Fields may be added within a version; none is renamed, removed or given another meaning.

use super::{FileTable, Finding, Place, in_order};
use serde::Serialize;

/// The findings as a JSON document, in the order of [`super::sort`].
///
/// # Errors
/// None that is known: every field is a text or a number. The error is the writer's own.
pub fn json(findings: &[Finding], files: &FileTable) -> Result<String, serde_json::Error> {
    let entries = in_order(findings, files).into_iter().map(|f| Entry::of(f, files));
    let (waived, findings): (Vec<Entry>, Vec<Entry>) = entries.partition(|entry| entry.waiver.is_some());
    let mut document = serde_json::to_string_pretty(&Document { format: FORMAT, version: VERSION, findings, waived })?;
    document.push('\n');
    Ok(document)
}

const FORMAT: &str = "benchleaf-findings";
const VERSION: u32 = 1;

#[derive(Serialize)]
struct Document<'a> {
    format: &'static str,
    version: u32,
    findings: Vec<Entry<'a>>,
    /// What was found and answered for.
    waived: Vec<Entry<'a>>,
}

#[derive(Serialize)]
struct Entry<'a> {
    rule: &'static str,
    severity: &'static str,
    message: &'a str,
    place: Spot<'a>,
    label: Option<&'a str>,
    figures: &'a [String],
    related: Vec<Related<'a>>,
    fix: Option<&'a str>,
    about: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    waiver: Option<Waiver<'a>>,
}

#[derive(Serialize)]
struct Waiver<'a> {
    because: &'a str,
    by: &'a str,
    until: &'a str,
}

#[derive(Serialize)]
struct Related<'a> {
    place: Spot<'a>,
    what: &'a str,
}

/// Bytes count from 0, lines and columns from 1; a column counts Unicode characters; ends lie behind the
/// last character.
#[derive(Serialize)]
struct Spot<'a> {
    file: &'a str,
    start_byte: usize,
    end_byte: usize,
    line: usize,
    column: usize,
    end_line: usize,
    end_column: usize,
}

impl<'a> Entry<'a> {
    fn of(finding: &'a Finding, files: &'a FileTable) -> Self {
        Self {
            rule: finding.rule().name,
            severity: finding.grade().word(),
            message: finding.message(),
            place: Spot::of(finding.place(), files),
            label: some(finding.label_text()),
            figures: finding.figure_lines(),
            related: finding
                .related_places()
                .iter()
                .map(|(place, what)| Related { place: Spot::of(place, files), what })
                .collect(),
            fix: some(finding.fix_text()),
            about: finding.subject(),
            waiver: finding.answer().map(|answer| Waiver { because: &answer.because, by: &answer.by, until: &answer.until }),
        }
    }
}

impl<'a> Spot<'a> {
    fn of(place: &Place, files: &'a FileTable) -> Self {
        let (start, end) = (files.position(place.file, place.start), files.position(place.file, place.end));
        Self {
            file: files.name(place.file),
            start_byte: place.start,
            end_byte: place.end,
            line: start.line,
            column: start.column,
            end_line: end.line,
            end_column: end.column,
        }
    }
}

fn some(words: &str) -> Option<&str> {
    (!words.is_empty()).then_some(words)
}
