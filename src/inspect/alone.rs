//! A manual looked at machine by machine: what all machines share, each machine beside it, and the conclusion from all.
//!
//! Invariants: what is found in a machine depends on that machine, on what all share and on the outlines of the machines
//! its links lead to, and on nothing else; so it holds until one of those changes. What takes more than one machine to
//! tell is told from [`Summary`]s alone. Looking at a whole manual goes the same way, so that there is one result.

use super::never_waived::CriticalThings;
use super::parts::{self, SharedNeeds};
use super::uses::Uses;
use super::waivers::Grounds;
use super::{Context, FAMILIES, Report, at_most_a_warning, bounds, change_lines, changes, followers, old_sources, record_files, waivers};
use crate::crew::in_order;
use crate::finding::{FileTable, Finding, sort};
use crate::inspect::walks;
use crate::manual::{Date, Ledger, Machine, Manual};
use crate::source::Sources;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

/// What a machine contributes to rules that look at all machines.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Summary {
    /// What it needs of the shop.
    pub needs: SharedNeeds,
    /// The newest date of its histories, as ISO 8601 has it.
    pub newest: Option<String>,
    /// Its critical things.
    pub critical: CriticalThings,
}

/// What a look at one machine tells.
#[derive(Clone, Debug, Default)]
pub struct MachineReport {
    /// What was found that is not found without the machine.
    pub findings: Vec<Finding>,
    /// What it contributes to the conclusion.
    pub summary: Summary,
    /// Whether what was found may hang on something else than the machine, what all share, the outlines its links lead to
    /// and the pictures it shows: a link to a machine that is not there tells which is nearest.
    pub looks_further: bool,
}

/// What all machines share, and what is found in it alone.
#[derive(Clone, Debug)]
pub struct Frame<'a> {
    manual: &'a Manual,
    sources: &'a Sources,
    findings: Vec<Finding>,
}

/// What tells one finding from another, as in [`sort`].
type Identity<'f> = (&'static str, &'f crate::finding::Place, &'f str);

fn identity(finding: &Finding) -> Identity<'_> {
    (finding.rule().name, finding.place(), finding.message())
}

impl<'a> Frame<'a> {
    /// Looks at what all machines share. `manual` has no machines; `against` are the earlier values it is compared with.
    #[must_use]
    pub fn look(manual: &'a Manual, sources: &'a Sources, against: Option<&Ledger>) -> Self {
        let mut frame = Self { manual, sources, findings: Vec::new() };
        frame.findings = frame.families(manual, &Uses::of(manual), against, 1).0;
        frame
    }

    /// Looks at one machine: `alone` is the manual with this machine and the outlines of the others.
    #[must_use]
    pub fn machine(&self, alone: &Manual, against: Option<&Ledger>, threads: usize) -> MachineReport {
        let uses = Uses::of(alone);
        let (mut findings, looks_further) = self.families(alone, &uses, against, threads);
        if !self.findings.is_empty() {
            let known: BTreeSet<Identity<'_>> = self.findings.iter().map(identity).collect();
            findings.retain(|finding| !known.contains(&identity(finding)));
        }
        let newest = alone.machines.iter().filter_map(newest).max().map(|date| date.to_string());
        MachineReport { findings, summary: Summary { needs: parts::needs(alone, &uses), newest, critical: CriticalThings::of(alone) }, looks_further }
    }

    /// Runs every family. Tells also whether one of those that look further has found something.
    fn families(&self, manual: &Manual, uses: &Uses<'_>, against: Option<&Ledger>, threads: usize) -> (Vec<Finding>, bool) {
        let mut findings = Vec::new();
        let context = Context { manual, sources: self.sources, walks: walks(manual, threads, &mut findings), uses };
        let found = in_order(FAMILIES, threads, |family| {
            let mut found = Vec::new();
            (family.check)(&context, &mut found);
            (family.looks_further && !found.is_empty(), found)
        });
        let looks_further = found.iter().any(|(further, _)| *further);
        findings.extend(found.into_iter().flat_map(|(_, found)| found));
        if let Some(against) = against {
            changes::check(manual, against, &mut findings);
            change_lines::compare(manual, against, &mut findings);
            old_sources::compare(manual, against, &mut findings);
        }
        (findings, looks_further)
    }

    /// The whole report. `earlier` are the findings of reading and lowering, and of every machine.
    #[must_use]
    pub fn conclude(&self, earlier: Vec<Finding>, summaries: &[&Summary], today: Option<Date>, files: &FileTable) -> Report {
        let mut findings = earlier;
        findings.extend(self.findings.iter().cloned());
        let needs: Vec<&SharedNeeds> = summaries.iter().map(|summary| &summary.needs).collect();
        parts::check_shared(self.manual, &needs, &mut findings);
        let of_machines = summaries.iter().filter_map(|summary| Date::parse(summary.newest.as_deref()?)).max();
        let today = today.or_else(|| of_machines.max(self.manual.shop_history.date));
        let records = record_files(files);
        // The rules of reading know nothing of records; what they find there is a warning at most.
        findings = findings.into_iter().map(|finding| at_most_a_warning(finding, &records)).collect();
        let mut critical = CriticalThings::default();
        summaries.iter().for_each(|summary| critical.extend(&summary.critical));
        let grounds = Grounds { today, records: &records, critical: &critical, files };
        let mut report = waivers::apply(self.manual, findings, &grounds);
        report.findings = followers::held_back(report.findings, files);
        sort(&mut report.findings, files);
        report.findings = bounds::bounded(report.findings);
        sort(&mut report.findings, files);
        sort(&mut report.waived, files);
        report.records = records;
        report
    }
}

/// The newest date of a machine: in a build, time stands still.
fn newest(machine: &Machine) -> Option<Date> {
    let histories = machine.procedures.iter().map(|procedure| &procedure.history).chain([&machine.history]);
    histories.filter_map(|history| history.date).max()
}
