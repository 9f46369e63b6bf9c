//! Findings as SARIF 2.1.0, the OASIS standard that editors and forges read. Section numbers are those of
//! the standard (with Errata 01).
//!
//! Invariant: same findings of the same repository, same bytes. No date, no absolute path, no name of a machine goes in.

use super::{Answer, FileTable, Finding, Place, Rule, Severity, in_order};
use serde::Serialize;
use std::collections::BTreeMap;

/// From where the addresses of a report lead to the files.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Ground {
    /// From the manual's own folder.
    #[default]
    Manual,
    /// From the top of the repository, in which the manual's folder has this path, with `/`; empty where it is the top.
    Repository(String),
}

impl Ground {
    /// What stands for the folder in the report: where it lies on this machine is nobody's business (3.14.14 lets it open).
    fn name(&self) -> &'static str {
        match self {
            Self::Manual => "MANUAL",
            Self::Repository(_) => "REPOSITORY",
        }
    }

    fn description(&self) -> &'static str {
        match self {
            Self::Manual => "The folder of the manual.",
            Self::Repository(_) => "The top folder of the repository that holds the manual.",
        }
    }

    fn address(&self, name: &str) -> String {
        match self {
            Self::Repository(folder) if !folder.is_empty() => percent_encoded(&format!("{folder}/{name}")),
            _ => percent_encoded(name),
        }
    }
}

/// The findings as a SARIF document. `known` are the rules that were tried, in the order they shall be
/// listed; the rule of a finding that is not among them is added behind them.
///
/// # Errors
/// None that is known: every field is a text or a number. The error is the writer's own.
pub fn sarif(findings: &[Finding], files: &FileTable, known: &[&'static Rule], ground: &Ground) -> Result<String, serde_json::Error> {
    let findings = in_order(findings, files);
    let rules = Rules::of(known, &findings);
    let results = findings.iter().map(|f| result(f, files, &rules, ground)).collect();
    let descriptors = rules.list.iter().map(|rule| descriptor(rule)).collect();
    let mut document = serde_json::to_string_pretty(&log(descriptors, results, ground))?;
    document.push('\n');
    Ok(document)
}

const SCHEMA: &str = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

/// The rules of a report and the place of each in the list.
struct Rules {
    list: Vec<&'static Rule>,
    index: BTreeMap<&'static str, usize>,
}

impl Rules {
    fn of(known: &[&'static Rule], findings: &[&Finding]) -> Self {
        let mut rules = Self { list: Vec::new(), index: BTreeMap::new() };
        for rule in known.iter().copied().chain(findings.iter().map(|f| f.rule())) {
            rules.index.entry(rule.name).or_insert_with(|| {
                rules.list.push(rule);
                rules.list.len() - 1
            });
        }
        rules
    }
}

fn log<'a>(rules: Vec<Descriptor>, results: Vec<ResultObject<'a>>, ground: &Ground) -> Log<'a> {
    let folder = BaseLocation { description: Message::of(ground.description()) };
    let driver = Driver {
        name: "Benchleaf",
        version: env!("CARGO_PKG_VERSION"),
        semantic_version: env!("CARGO_PKG_VERSION"),
        short_description: Message::of("Turns rebuild procedures into a manual and refuses faulty values."),
        rules,
    };
    let run = Run {
        tool: Tool { driver },
        original_uri_base_ids: BTreeMap::from([(ground.name(), folder)]),
        default_encoding: "utf-8",
        column_kind: "unicodeCodePoints",
        results,
    };
    Log { schema: SCHEMA, version: "2.1.0", runs: [run] }
}

fn descriptor(rule: &Rule) -> Descriptor {
    let headed = |mark: &str| -> String {
        let sections: Vec<String> = rule
            .explanation
            .sections()
            .iter()
            .map(|(head, words)| format!("{mark}{head}\n\n{}", words.trim()))
            .collect();
        sections.join("\n\n")
    };
    Descriptor {
        id: rule.name,
        short_description: Message::of(rule.summary),
        full_description: Message::of(rule.explanation.finds.trim()),
        help: Message { text: plain(&headed("")), markdown: Some(plain(&headed("## "))) },
        default_configuration: Configuration { level: level(rule.severity) },
    }
}

fn result<'a>(finding: &'a Finding, files: &FileTable, rules: &Rules, ground: &Ground) -> ResultObject<'a> {
    let related = finding.related_places().iter().enumerate();
    ResultObject {
        rule_id: finding.rule().name,
        rule_index: rules.index.get(finding.rule().name).copied(),
        level: level(finding.grade()),
        message: Message::of(&whole_message(finding)),
        locations: [location(None, finding.place(), finding.label_text(), files, ground)],
        related_locations: related.map(|(id, (place, what))| location(Some(id), place, what, files, ground)).collect(),
        suppressions: finding.answer().into_iter().map(suppression).collect(),
        properties: finding.subject().map(|about| Properties { about }),
    }
}

/// A waiver: it stands beside the work, not in it, and somebody has accepted it.
fn suppression(answer: &Answer) -> Suppression {
    let justification = format!("{} ({}, until {})", answer.because, answer.by, answer.until);
    Suppression { kind: "external", status: "accepted", justification }
}

/// The fault as a first sentence that stands alone (3.11.3), then each figure, then what to write instead.
fn whole_message(finding: &Finding) -> String {
    let mut lines = vec![format!("{}.", finding.message().trim_end_matches('.'))];
    lines.extend(finding.figure_lines().iter().map(|figure| format!("Figure: {figure}")));
    if !finding.fix_text().is_empty() {
        lines.push(format!("Instead: {}", finding.fix_text()));
    }
    lines.join("\n")
}

fn location(id: Option<usize>, place: &Place, words: &str, files: &FileTable, ground: &Ground) -> Location {
    let artifact_location = ArtifactLocation { uri: ground.address(files.name(place.file)), uri_base_id: ground.name() };
    Location {
        id,
        physical_location: PhysicalLocation { artifact_location, region: region(place, files) },
        message: (!words.is_empty()).then(|| Message::of(words)),
    }
}

/// Where it stands in the text; none for a file without text, which is then meant as a whole (3.29.4).
fn region(place: &Place, files: &FileTable) -> Option<Region> {
    let length = files.text(place.file).len();
    if length == 0 {
        return None;
    }
    let (start, end) = (place.start.min(length), place.end.min(length));
    let (first, last) = (files.position(place.file, start), files.position(place.file, end));
    Some(Region {
        start_line: first.line,
        start_column: first.column,
        end_line: last.line,
        end_column: last.column,
        byte_offset: start,
        byte_length: end - start,
    })
}

fn level(severity: Severity) -> &'static str {
    match severity {
        Severity::Note => "note",
        Severity::Warning => "warning",
        Severity::Error => "error",
    }
}

/// A message string: braces are doubled, as single ones would be placeholders (3.11.5).
fn plain(words: &str) -> String {
    words.replace('{', "{{").replace('}', "}}")
}

/// A path as a relative reference by RFC 3986: all but the unreserved characters and `/` by their bytes.
/// So a colon in the first part can't pass for a scheme.
fn percent_encoded(path: &str) -> String {
    path.bytes().fold(String::new(), |mut uri, byte| {
        match byte {
            b'A'..=b'Z' | b'a'..=b'z' | b'0'..=b'9' | b'-' | b'.' | b'_' | b'~' | b'/' => uri.push(char::from(byte)),
            _ => uri.push_str(&format!("%{byte:02X}")),
        }
        uri
    })
}

/// 3.13 `sarifLog`.
#[derive(Serialize)]
struct Log<'a> {
    #[serde(rename = "$schema")]
    schema: &'static str,
    version: &'static str,
    runs: [Run<'a>; 1],
}

/// 3.14 `run`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Run<'a> {
    tool: Tool,
    original_uri_base_ids: BTreeMap<&'static str, BaseLocation>,
    default_encoding: &'static str,
    column_kind: &'static str,
    results: Vec<ResultObject<'a>>,
}

/// 3.18 `tool`.
#[derive(Serialize)]
struct Tool {
    driver: Driver,
}

/// 3.19 `toolComponent`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Driver {
    name: &'static str,
    version: &'static str,
    semantic_version: &'static str,
    short_description: Message,
    rules: Vec<Descriptor>,
}

/// 3.49 `reportingDescriptor`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Descriptor {
    id: &'static str,
    short_description: Message,
    full_description: Message,
    help: Message,
    default_configuration: Configuration,
}

/// 3.50 `reportingConfiguration`.
#[derive(Serialize)]
struct Configuration {
    level: &'static str,
}

/// 3.27 `result`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ResultObject<'a> {
    rule_id: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    rule_index: Option<usize>,
    level: &'static str,
    message: Message,
    locations: [Location; 1],
    #[serde(skip_serializing_if = "Vec::is_empty")]
    related_locations: Vec<Location>,
    /// Empty where nobody has waived it; with none at all, readers could not tell (3.27.23).
    suppressions: Vec<Suppression>,
    #[serde(skip_serializing_if = "Option::is_none")]
    properties: Option<Properties<'a>>,
}

/// 3.35 `suppression`.
#[derive(Serialize)]
struct Suppression {
    kind: &'static str,
    status: &'static str,
    justification: String,
}

/// 3.8 property bag: what a waiver would call the finding.
#[derive(Serialize)]
struct Properties<'a> {
    about: &'a str,
}

/// 3.11 `message` and 3.12 `multiformatMessageString`.
#[derive(Serialize)]
struct Message {
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    markdown: Option<String>,
}

impl Message {
    fn of(words: &str) -> Self {
        Self { text: plain(words), markdown: None }
    }
}

/// 3.28 `location`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Location {
    #[serde(skip_serializing_if = "Option::is_none")]
    id: Option<usize>,
    physical_location: PhysicalLocation,
    #[serde(skip_serializing_if = "Option::is_none")]
    message: Option<Message>,
}

/// 3.29 `physicalLocation`.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct PhysicalLocation {
    artifact_location: ArtifactLocation,
    #[serde(skip_serializing_if = "Option::is_none")]
    region: Option<Region>,
}

/// 3.4 `artifactLocation` of a file of the manual.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct ArtifactLocation {
    uri: String,
    uri_base_id: &'static str,
}

/// 3.4 `artifactLocation` of the folder that addresses begin from: without `uri`, as 3.14.14 allows.
#[derive(Serialize)]
struct BaseLocation {
    description: Message,
}

/// 3.30 `region`: lines and columns from 1, bytes from 0, ends behind the last character.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
struct Region {
    start_line: usize,
    start_column: usize,
    end_line: usize,
    end_column: usize,
    byte_offset: usize,
    byte_length: usize,
}
