//! What a change brought: the findings that an earlier state of the manual had not yet. What stops publishing is shown
//! however old it is: nobody mends what he is not told.

use super::World;
use super::arguments::InspectOptions;
use super::making::Inspected;
use crate::finding::{FileTable, Finding};
use crate::inspect::{Terms, inspect};
use crate::manual::lower;
use crate::source::{Earlier, earlier};
use std::collections::BTreeMap;

/// What tells a finding from others where lines have moved: its file, its rule, its words.
type Mark = (String, &'static str, String);

/// Leaves out what the state named by `--against` had already; gives how many findings that were.
///
/// # Errors
/// In words, where that state can't be inspected.
pub(super) fn leave_out_old(inspected: &mut Inspected, options: &InspectOptions, world: &World) -> Result<usize, String> {
    let Some(named) = options.against.as_deref() else { return Ok(0) };
    let (sources, mut findings) = match earlier(named, &world.folder, &inspected.root).map_err(|error| error.to_string())? {
        Earlier::Manual(sources, findings) => (sources, findings),
        // Of before the manual: all of it is new.
        Earlier::Absent => return Ok(0),
        Earlier::Values(_) => return Err(format!("--only-new: {named} is a published site, which keeps values and no text; name a folder with manual.yaml in it, or a revision")),
    };
    let (manual, more) = lower(&sources);
    findings.extend(more);
    let terms = Terms { today: options.today, against: None, threads: world.threads(options.threads) };
    let old = inspect(&manual, &sources, findings, &terms);
    let mut found = Known::of(&old.findings, &sources.files);
    let mut waived = Known::of(&old.waived, &sources.files);
    let Inspected { report, files, profile, .. } = inspected;
    let stopping: Vec<Mark> = report.stopping(*profile).map(|finding| mark(finding, files)).collect();
    let before = report.findings.len();
    report.findings.retain(|finding| !found.takes(finding, files) || stopping.contains(&mark(finding, files)));
    report.waived.retain(|finding| !waived.takes(finding, files));
    Ok(before - report.findings.len())
}

/// The findings of a state, each as often as it stands there.
struct Known(BTreeMap<Mark, usize>);

impl Known {
    fn of(findings: &[Finding], files: &FileTable) -> Self {
        let mut counts = BTreeMap::new();
        for finding in findings {
            *counts.entry(mark(finding, files)).or_default() += 1;
        }
        Self(counts)
    }

    /// Whether it has a finding of this kind left, which is then taken for this one.
    fn takes(&mut self, finding: &Finding, files: &FileTable) -> bool {
        let Some(left) = self.0.get_mut(&mark(finding, files)).filter(|left| **left > 0) else { return false };
        *left -= 1;
        true
    }
}

fn mark(finding: &Finding, files: &FileTable) -> Mark {
    (files.name(finding.place().file).to_owned(), finding.rule().name, finding.message().to_owned())
}
