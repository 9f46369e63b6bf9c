//! What changed since an earlier state of the manual: each changed value has a line that says why.

use super::as_written::{same_value, was as was_written};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Change, Combination, History, Ledger, ListKind, Lists, Manual, homes, ledger_place};
use std::collections::BTreeMap;

/// A value changed and nobody says why.
pub(super) static SILENT_VALUE_CHANGE: Rule = Rule {
    name: "silent-value-change",
    severity: Severity::Error,
    summary: "A value differs from an earlier state, and no change line says why.",
    explanation: Explanation {
        finds: "Values that differ from the state the manual is compared with (--against; otherwise the .values.json that the last bind left in the site), and values taken out of an entry that is still there, without an entry under changes: of the same front matter, of a later revision, that names them. A value that has since been written by variant is compared for each of them. Two spellings of the same quantity are no change.",
        matters: "Whoever built by the old value must hear of it, and whoever reviews the new one must know its source.",
        may_be_wrong: "Never: a correction of a slip is a change as well.",
        example: "pinion-nut: {torque: 78 N·m}   which was 70 N·m in the published manual",
        instead: "changes: [{revision: 4, of: pinion-nut.torque, was: 70 N·m, because: nuts of late machines backed off, source: bulletin-2}]",
    },
};

/// Compares a manual with an earlier ledger.
pub(super) fn check(manual: &Manual, earlier: &Ledger, findings: &mut Vec<Finding>) {
    let now = Ledger::of(manual);
    for (name, lists, history, _) in homes(manual) {
        let (Some(old), Some(new)) = (earlier.homes.get(&name), now.homes.get(&name)) else { continue };
        for (key, cases) in &old.values {
            let Some(new_cases) = new.values.get(key) else {
                findings.extend(gone(lists, history, key, cases, old.revision));
                continue;
            };
            for (when, text) in new_cases {
                let Some(was) = stood(cases, when).into_iter().find(|was| !same_value(was, text)) else { continue };
                let of = key.split_once('/').map_or(key.as_str(), |(_, of)| of);
                if is_told(history, of, when, old.revision) {
                    continue;
                }
                let Some(here) = ledger_place(lists, key, when) else { continue };
                let variant = if when.is_empty() { String::new() } else { format!(" ({when})") };
                let next = old.revision.map_or(1, |revision| revision + 1);
                findings.push(
                    Finding::new(&SILENT_VALUE_CHANGE, here.place, format!("{of}{variant} was {was} and is {text}, and no change line says why"))
                        .label(format!("was {was}"))
                        .figures(history.revision.map(|revision| {
                            format!("revision {} then, {revision} now", old.revision.map_or_else(|| "none".to_owned(), |r| r.to_string()))
                        }))
                        .fix(format!("changes: [{{revision: {next}, of: {of}, was: {}, because: …, source: …}}], and revision: {next}", was_written(when, was)))
                        .about(of),
                );
            }
        }
    }
}

/// A field that was taken out of an entry that is still there. What could not be read has been reported.
fn gone(lists: &Lists, history: &History, key: &str, cases: &BTreeMap<String, String>, earlier: Option<u64>) -> Option<Finding> {
    let (kind, of) = key.split_once('/')?;
    let (id, field) = of.rsplit_once('.')?;
    let kind = ListKind::find(kind)?;
    let head = lists.head(kind, id)?;
    let unreadable = lists.unreadable.iter().any(|(list, entry, name)| *list == kind && entry == id && *name == field);
    let (when, was) = cases.iter().find(|(when, _)| !is_told(history, of, when, earlier))?;
    if unreadable {
        return None;
    }
    let variant = if when.is_empty() { String::new() } else { format!(" ({when})") };
    let next = earlier.map_or(1, |revision| revision + 1);
    Some(
        Finding::new(&SILENT_VALUE_CHANGE, head.place.clone(), format!("{of}{variant} was {was} and is gone, and no change line says why"))
            .label(format!("no {field} any more"))
            .fix(format!("changes: [{{revision: {next}, of: {of}, was: {}, because: …, source: …}}], and revision: {next}; or put it back", was_written(when, was)))
            .about(of),
    )
}

/// What stood there for the machines of a condition: under the same condition, otherwise under those that agree with it.
pub(super) fn stood<'a>(cases: &'a BTreeMap<String, String>, when: &str) -> Vec<&'a String> {
    if let Some(same) = cases.get(when) {
        return vec![same];
    }
    let meant = combination(when);
    cases.iter().filter(|(other, _)| combination(other).agrees_with(&meant)).map(|(_, text)| text).collect()
}

/// Whether a newer line tells of the value of these machines.
fn is_told(history: &History, of: &str, when: &str, earlier: Option<u64>) -> bool {
    let meant = combination(when);
    let covers = |change: &Change| change.was.cases.is_empty() || change.was.cases.iter().any(|case| case.when.agrees_with(&meant));
    history.changes.iter().any(|change| change.of.value == of && change.revision > earlier && covers(change))
}

/// A condition as the ledger writes it, `serial late, shaft L`, read back.
pub(super) fn combination(condition: &str) -> Combination {
    Combination(condition.split(", ").filter_map(|part| part.split_once(' ')).map(|(axis, value)| (axis.to_owned(), value.to_owned())).collect())
}
