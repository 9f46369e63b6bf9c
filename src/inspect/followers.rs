//! Findings that only follow from another fault are held back until that one is mended: one mistake is told once.

use super::{barriers, changes, conflicts, deferrals, fasteners, live, order, parts, put_back, run_unready, stages, starts, torque, wrenches};
use crate::finding::{FileId, FileTable, Finding, Place, Rule, Severity, Sought};
use crate::manual::rules::UNKNOWN_ID;
use crate::source::rules::{DOUBLED_KEY, FRONT_MATTER_MISSING, FRONT_MATTER_UNCLOSED, MERGE_UNFINISHED};
use std::collections::BTreeSet;

/// What a machine's other procedures seem to lack where the work of one can't be read.
static LACKING: [&Rule; 10] = [
    &barriers::CLOSED_BEFORE_OPENED,
    &deferrals::DEFERRAL_NEVER_CLOSED,
    &order::DRY_FIT_NOT_UNDONE,
    &parts::LISTED_NOT_USED,
    &live::LIVE_NEVER_OFF,
    &put_back::PART_NOT_PUT_BACK,
    &run_unready::RUN_WITH_COVER_OFF,
    &starts::START_STATE_MISSING,
    &fasteners::STARTED_NEVER_FINISHED,
    &order::TEMPORARY_LEFT_IN,
];

/// What a torque in a wrong unit, or with a digit slipped, leads to: each of these is told again where it is more than that.
static OF_A_SLIP: [(&[&Rule], &[&Rule]); 2] = [
    (&[&torque::UNIT_SLIP_SUSPECTED, &torque::PRELOAD_OVER_PROOF], &[&stages::STAGES_NOT_RISING, &wrenches::BELOW_WRENCH_RANGE, &wrenches::ABOVE_WRENCH_RANGE, &conflicts::SOURCE_CONFLICT]),
    (&[&stages::STAGES_NOT_RISING], &[&wrenches::BELOW_WRENCH_RANGE, &wrenches::ABOVE_WRENCH_RANGE]),
];

/// The findings without those that only follow from another one.
pub(super) fn held_back(findings: Vec<Finding>, files: &FileTable) -> Vec<Finding> {
    let of = |rules: &[&Rule]| -> BTreeSet<FileId> { findings.iter().filter(|found| is_one_of(found, rules)).map(|found| found.place().file).collect() };
    let headless = of(&[&FRONT_MATTER_MISSING, &FRONT_MATTER_UNCLOSED]);
    let merged = of(&[&MERGE_UNFINISHED]);
    let doubled = of(&[&DOUBLED_KEY]);
    let unknown: BTreeSet<Place> = findings.iter().filter(|found| is_one_of(found, &[&UNKNOWN_ID])).map(|found| found.place().clone()).collect();
    // A misspelt id differs from the earlier state, too.
    let of_unknown = |finding: &Finding| is_one_of(finding, &[&changes::SILENT_VALUE_CHANGE]) && unknown.contains(finding.place());
    let slips: Vec<(Place, &[&Rule])> = OF_A_SLIP
        .iter()
        .flat_map(|(causes, lead_to)| findings.iter().filter(|found| found.grade() == Severity::Error && is_one_of(found, causes)).map(move |found| (found.place().clone(), *lead_to)))
        .collect();
    let of_slip = |finding: &Finding| slips.iter().any(|(place, lead_to)| is_one_of(finding, lead_to) && overlap(place, finding.place()));
    findings.into_iter().filter(|finding| !of_unknown(finding) && !of_slip(finding) && !of_merged(finding, &merged, files) && !of_headless(finding, &headless, files) && !of_doubled(finding, &doubled, files)).collect()
}

fn overlap(one: &Place, other: &Place) -> bool {
    one.file == other.file && one.start < other.end && other.start < one.end
}

fn is_one_of(finding: &Finding, rules: &[&Rule]) -> bool {
    rules.iter().any(|rule| rule.name == finding.rule().name)
}

/// What follows from a procedure whose front matter is not marked off: all else in its file, and what its machine lacks for it.
fn of_headless(finding: &Finding, headless: &BTreeSet<FileId>, files: &FileTable) -> bool {
    let file = finding.place().file;
    if headless.contains(&file) {
        return !is_one_of(finding, &[&FRONT_MATTER_MISSING, &FRONT_MATTER_UNCLOSED]);
    }
    headless.iter().any(|other| {
        let (machine, procedure) = parts_of(files.name(*other));
        let leads_there = matches!(finding.sought_in(), Some(Sought::Steps(whose)) if *whose == format!("{machine}/{procedure}"));
        leads_there || (parts_of(files.name(file)).0 == machine && is_one_of(finding, &LACKING))
    })
}

/// What follows from two sides of which one is read: all else in their file, and what other files of the machine, or the shop, seem to lack.
fn of_merged(finding: &Finding, merged: &BTreeSet<FileId>, files: &FileTable) -> bool {
    let file = finding.place().file;
    if merged.contains(&file) {
        return !is_one_of(finding, &[&MERGE_UNFINISHED]);
    }
    let machine = parts_of(files.name(file)).0;
    merged.iter().any(|other| {
        let changed = parts_of(files.name(*other)).0;
        // The shop's lists serve every machine, and every machine uses them.
        is_one_of(finding, &LACKING) && (machine.is_empty() || changed.is_empty() || machine == changed) || finding.sought_in().is_some() && (changed.is_empty() || machine == changed)
    })
}

/// What follows from an entry that stands twice: one of the two is left out, and its id may be meant for another one.
fn of_doubled(finding: &Finding, doubled: &BTreeSet<FileId>, files: &FileTable) -> bool {
    let (machine, _) = parts_of(files.name(finding.place().file));
    let shares = |other: &FileId| *other == finding.place().file || parts_of(files.name(*other)) == (machine, "machine");
    finding.sought_in() == Some(&Sought::Lists) && doubled.iter().any(shares)
}

/// `tarn-18/close-gearcase.md` as machine and procedure.
fn parts_of(name: &str) -> (&str, &str) {
    let (machine, file) = name.split_once('/').unwrap_or(("", name));
    (machine, file.split_once('.').map_or(file, |(stem, _)| stem))
}
