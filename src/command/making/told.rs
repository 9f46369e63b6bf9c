//! What of a report stands on which machine's pages.

use crate::finding::{FileId, FileTable, Finding, StoredFinding};
use crate::inspect::Report;
use crate::source::fingerprint;
use std::collections::BTreeMap;

/// A report by the files its findings stand in.
pub(super) struct Told<'r> {
    findings: &'r [Finding],
    waived: &'r [Finding],
    of_findings: BTreeMap<FileId, Vec<usize>>,
    of_waived: BTreeMap<FileId, Vec<usize>>,
}

/// What stands on the pages of one machine, in the order of the report.
#[derive(Clone, Debug, Default)]
pub(super) struct Share {
    pub(super) findings: Vec<Finding>,
    pub(super) waived: Vec<Finding>,
}

impl<'r> Told<'r> {
    /// What a report tells: its findings on a proof copy only.
    pub(super) fn new(report: &'r Report, proof_copy: bool) -> Self {
        let findings: &[Finding] = if proof_copy { &report.findings } else { &[] };
        Self { findings, waived: &report.waived, of_findings: by_file(findings), of_waived: by_file(&report.waived) }
    }

    /// What stands in some files.
    pub(super) fn share(&self, files: impl Iterator<Item = FileId>) -> Share {
        let (mut findings, mut waived) = (Vec::new(), Vec::new());
        for file in files {
            findings.extend(self.of_findings.get(&file).into_iter().flatten().copied());
            waived.extend(self.of_waived.get(&file).into_iter().flatten().copied());
        }
        Share { findings: picked(self.findings, findings), waived: picked(self.waived, waived) }
    }

    /// Every finding that is printed.
    pub(super) fn findings(&self) -> &'r [Finding] {
        self.findings
    }
}

impl Share {
    /// Its fingerprint; nothing where nothing is told.
    pub(super) fn print(&self, files: &FileTable) -> String {
        print(&self.findings, &self.waived, files)
    }
}

/// The fingerprint of findings and of waived ones; nothing where there are none.
pub(super) fn print(findings: &[Finding], waived: &[Finding], files: &FileTable) -> String {
    if findings.is_empty() && waived.is_empty() {
        return String::new();
    }
    let stored = |finding: &Finding| {
        let answer = finding.answer().map(|answer| (answer.because.clone(), answer.by.clone(), answer.until.clone()));
        (StoredFinding::of(finding, files), answer)
    };
    let all: (Vec<_>, Vec<_>) = (findings.iter().map(stored).collect(), waived.iter().map(stored).collect());
    fingerprint(&serde_json::to_vec(&all).unwrap_or_default())
}

fn by_file(findings: &[Finding]) -> BTreeMap<FileId, Vec<usize>> {
    let mut files: BTreeMap<FileId, Vec<usize>> = BTreeMap::new();
    for (index, finding) in findings.iter().enumerate() {
        files.entry(finding.place().file).or_default().push(index);
    }
    files
}

fn picked(findings: &[Finding], mut indices: Vec<usize>) -> Vec<Finding> {
    indices.sort_unstable();
    indices.into_iter().filter_map(|index| findings.get(index).cloned()).collect()
}
