//! Findings that only follow from another fault are held back until that one is mended: one mistake is told once.

use super::records::values::STATE_PRINT_STALE;
use super::{barriers, changes, conflicts, deferrals, fasteners, forgotten, live, order, parts, put_back, run_unready, safety, seal_fit, stages, starts, torque, wrenches};
use crate::finding::{FileId, FileTable, Finding, Place, Rule, Severity, Sought};
use crate::manual::rules::{UNKNOWN_ID, USED_NOT_LISTED};
use crate::source::rules::{DOUBLED_KEY, FILE_NOT_READABLE, FILE_TOO_LARGE, FRONT_MATTER_MISSING, FRONT_MATTER_UNCLOSED, MERGE_UNFINISHED, NESTING_TOO_DEEP, TEXT_NOT_UTF8, YAML_UNREADABLE};
use foldhash::HashSet;
use std::collections::{BTreeMap, BTreeSet};

/// What a machine's other procedures seem to lack where the work of one can't be read.
static LACKING: [&Rule; 11] = [
    &barriers::CLOSED_BEFORE_OPENED,
    &deferrals::DEFERRAL_NEVER_CLOSED,
    &order::DRY_FIT_NOT_UNDONE,
    &parts::LISTED_NOT_USED,
    &live::LIVE_NEVER_OFF,
    &put_back::PART_NOT_PUT_BACK,
    &forgotten::READY_NEVER_FITTED,
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

/// What a machine seems to lack where a list that it asks can't be read: a wrench, what protects, a sleeve.
static ASKING: [&Rule; 5] =
    [&wrenches::ABOVE_WRENCH_RANGE, &stages::ANGLE_INCOMPLETE, &wrenches::BELOW_WRENCH_RANGE, &safety::HAZARD_WITHOUT_PPE, &seal_fit::LIP_OVER_EDGE];

/// What keeps a file's lists from being read.
static UNREADABLE: [&Rule; 5] = [&FILE_NOT_READABLE, &FILE_TOO_LARGE, &NESTING_TOO_DEEP, &TEXT_NOT_UTF8, &YAML_UNREADABLE];

/// The findings without those that only follow from another one. Only an error holds anything back, and it stays: what stopped stops
/// all the same.
pub(super) fn held_back(findings: Vec<Finding>, files: &FileTable) -> Vec<Finding> {
    let of = |rules: &[&Rule]| -> BTreeSet<FileId> { findings.iter().filter(|found| stops(found) && is_one_of(found, rules)).map(|found| found.place().file).collect() };
    let headless = of(&[&FRONT_MATTER_MISSING, &FRONT_MATTER_UNCLOSED]);
    let merged = of(&[&MERGE_UNFINISHED]);
    let doubled = of(&[&DOUBLED_KEY]);
    let unknown: BTreeSet<Place> = findings.iter().filter(|found| stops(found) && is_one_of(found, &[&UNKNOWN_ID])).map(|found| found.place().clone()).collect();
    // A misspelt id differs from the earlier state, too.
    let of_unknown = |finding: &Finding| is_one_of(finding, &[&changes::SILENT_VALUE_CHANGE]) && unknown.contains(finding.place());
    let slips: Vec<(Place, &[&Rule])> = OF_A_SLIP
        .iter()
        .flat_map(|(causes, lead_to)| findings.iter().filter(|found| stops(found) && is_one_of(found, causes)).map(move |found| (found.place().clone(), *lead_to)))
        .collect();
    let findings = held_back_until_read(findings, files);
    let of_slip = |finding: &Finding| slips.iter().any(|(place, lead_to)| is_one_of(finding, lead_to) && overlap(place, finding.place()));
    findings.into_iter().filter(|finding| !of_unknown(finding) && !of_slip(finding) && !of_merged(finding, &merged, files) && !of_headless(finding, &headless, files) && !of_doubled(finding, &doubled, files)).collect()
}

/// The findings without what may only follow from a file whose lists can't be read. The first finding of such a file says how many
/// were held back for it.
fn held_back_until_read(findings: Vec<Finding>, files: &FileTable) -> Vec<Finding> {
    let words_of = |file: FileId| files.text(file).split(|sign: char| !(sign.is_alphanumeric() || sign == '-')).collect();
    let mut unreadable: BTreeMap<FileId, HashSet<&str>> = BTreeMap::new();
    for found in findings.iter().filter(|found| stops(found) && is_one_of(found, &UNREADABLE) && holds_lists(files.name(found.place().file))) {
        unreadable.entry(found.place().file).or_insert_with(|| words_of(found.place().file));
    }
    let mut held: BTreeMap<FileId, usize> = BTreeMap::new();
    let mut left: Vec<Finding> = findings
        .into_iter()
        .filter(|finding| {
            let cause = unreadable.iter().find(|(other, words)| of_unreadable(finding, **other, words, files));
            if let Some((cause, _)) = cause {
                *held.entry(*cause).or_default() += 1;
            }
            cause.is_none()
        })
        .collect();
    for finding in &mut left {
        if let Some(count) = held.get(&finding.place().file).copied().filter(|_| is_one_of(finding, &UNREADABLE)) {
            held.remove(&finding.place().file);
            let told = if count == 1 { "1 more finding that may only follow from this is".to_owned() } else { format!("{count} more findings that may only follow from this are") };
            *finding = finding.clone().figure(format!("{told} held back until it can be read"));
        }
    }
    left
}

/// Whether a finding may only follow from lists that can't be read: those of the shop serve every machine, those of a machine all its
/// files, those of a procedure its own text. An id is looked for among the words of what can't be read: a misspelt one is told all the
/// same.
fn of_unreadable(finding: &Finding, unreadable: FileId, words: &HashSet<&str>, files: &FileTable) -> bool {
    let (machine, stem) = parts_of(files.name(unreadable));
    let Place { file, start, end } = *finding.place();
    let of_one_machine = machine == parts_of(files.name(file)).0;
    if is_one_of(finding, &[&UNKNOWN_ID, &USED_NOT_LISTED]) {
        let serves = machine.is_empty() || file == unreadable || (of_one_machine && stem == "machine");
        let word = files.text(file).get(start..end).unwrap_or_default();
        return serves && !word.is_empty() && words.contains(word);
    }
    let asks_elsewhere = is_one_of(finding, &LACKING) || is_one_of(finding, &[&STATE_PRINT_STALE]);
    let asks_here = is_one_of(finding, &[&fasteners::FINAL_TORQUE_MISSING, &changes::SILENT_VALUE_CHANGE]);
    (machine.is_empty() || of_one_machine) && asks_elsewhere
        || (machine.is_empty() || (of_one_machine && stem == "machine")) && is_one_of(finding, &ASKING)
        || file == unreadable && asks_here
}

/// Whether a file has lists in it: the shop's, a machine's or a procedure's, no record, picture or folder.
fn holds_lists(name: &str) -> bool {
    match name.split_once('/') {
        None => name == "shop.yaml",
        Some((_, file)) => !file.contains('/') && (file == "machine.yaml" || file.ends_with(".md")),
    }
}

fn stops(finding: &Finding) -> bool {
    finding.grade() == Severity::Error
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
