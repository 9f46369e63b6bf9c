//! A value that changed and kept its source: what the change rests on is not what the entry names beside the new value.

use super::as_written::same_value;
use super::changes::{combination, stood};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Change, Combination, History, Ledger, LedgerHome, ListKind, Lists, Manual, WrittenValue, homes, main_field};
use crate::quantity::Quantity;
use std::collections::BTreeSet;

/// A new value stands beside the source of the old one.
pub(super) static NEW_VALUE_OLD_SOURCE: Rule = Rule {
    name: "new-value-old-source",
    severity: Severity::Warning,
    summary: "A value changed, and its entry still names the source of the old one.",
    explanation: Explanation {
        finds: "Newest change lines on a value whose source: is another than the entry names for those machines: a warning where it is the main value of its list (torque, spec, depth, time …), for the manual names two sources for one number, and a note elsewhere, for one source: stands for a whole entry. Where the values are compared with an earlier state, also quantities that changed by a line without source: while the entry's source: is what it was: a note, for a slip may have been put right by the same page. Silent where the line names the entry's own source, where a later line on the same entry does, and where sources: of the entry says that the line's source gives the field.",
        matters: "Whoever looks a value up in the source beside it finds the old one there, and may put it back.",
        may_be_wrong: "Where most values of the entry still come from the old source: say which field the new one gives, under sources:.",
        example: "changes: [{revision: 2, of: cap-bolt.torque, was: 22 N·m, because: caps leaked, source: bulletin-2}]   with   cap-bolt: {torque: 24 N·m, source: data-sheet}",
        instead: "cap-bolt: {torque: 24 N·m, source: bulletin-2}   or   cap-bolt: {torque: 24 N·m, source: data-sheet, sources: [{source: bulletin-2, of: torque, says: 24 N·m}]}",
    },
};

pub(super) fn check(manual: &Manual, findings: &mut Vec<Finding>) {
    for (_, lists, history, _) in homes(manual) {
        findings.extend(history.changes.iter().filter_map(|change| of_line(lists, history, change)));
    }
}

/// A line that names another source than its entry does.
fn of_line(lists: &Lists, history: &History, change: &Change) -> Option<Finding> {
    let by_line = change.source.as_ref()?;
    let (id, field) = change.of.value.rsplit_once('.')?;
    let written: Vec<&WrittenValue> = lists.written.iter().filter(|written| written.id == id && written.field == field).collect();
    let kind = written.first()?.kind;
    if written.iter().any(|value| value.kind != kind) || tells(lists, kind, id, field, Some(&by_line.value)) {
        return None;
    }
    // One line may tell of some machines only; one that says nothing of what was there tells of all.
    let meant: Vec<Combination> = if change.was.cases.is_empty() { vec![Combination::default()] } else { change.was.cases.iter().map(|case| case.when.clone()).collect() };
    let named: Vec<_> = lists.source(kind, id)?.cases.iter().filter(|case| meant.iter().any(|meant| meant.agrees_with(&case.when))).collect();
    let first = named.first()?;
    let later = history.changes.iter().filter(|other| other.of.value.rsplit_once('.').is_some_and(|(of, _)| of == id) && !std::ptr::eq(*other, change));
    let mut later = later.filter(|other| other.revision >= change.revision);
    // The entry follows the newest line on any of its values.
    let is_followed = later.clone().any(|other| other.source.as_ref().is_some_and(|source| named.iter().any(|case| case.value == source.value)));
    // A line on the source itself says why the entry names another one.
    let is_told = later.clone().any(|other| other.of.value.rsplit_once('.').is_some_and(|(_, field)| field == "source"));
    let is_past = later.any(|other| other.of.value == change.of.value && other.revision > change.revision);
    if is_followed || is_told || is_past || named.iter().any(|case| case.value == by_line.value) {
        return None;
    }
    // An entry names one source; what it names it for is its main value.
    let severity = if field == main_field(kind) { Severity::Warning } else { Severity::Note };
    Some(
        Finding::new(&NEW_VALUE_OLD_SOURCE, by_line.place.clone(), format!("{} is new by ‘{}’, and its entry names ‘{}’ as the source", change.of.value, by_line.value, first.value))
            .severity(severity)
            .label("not the entry's source")
            .related(first.place.clone(), "named beside the new value")
            .fix(format!("source: {new} in {id}; or, where only {field} is new, sources: [{{source: {new}, of: {field}, says: …}}]", new = by_line.value))
            .about(change.of.value.clone()),
    )
}

/// Looks for quantities that changed without a source while the source of their entry is what it was.
pub(super) fn compare(manual: &Manual, earlier: &Ledger, findings: &mut Vec<Finding>) {
    for (name, lists, history, _) in homes(manual) {
        let Some(old) = earlier.homes.get(&name) else { continue };
        let mut told: BTreeSet<&str> = BTreeSet::new();
        for value in lists.written.iter().filter(|value| Quantity::parse_free(&value.text).is_ok()) {
            let Some((change, source)) = unsourced_change(lists, history, old, value) else { continue };
            if told.insert(&change.of.value) {
                findings.push(kept(change, value, &source));
            }
        }
    }
}

/// The newest line on a value that differs from what it was, where neither the line nor the entry names a new source; with
/// the source it kept.
fn unsourced_change<'a>(lists: &Lists, history: &'a History, old: &LedgerHome, value: &WrittenValue) -> Option<(&'a Change, String)> {
    let key = format!("{}/{}.{}", value.kind.key(), value.id, value.field);
    let was = old.values.get(&key)?;
    let differs = stood(was, &value.when.words().replace(" · ", ", ")).into_iter().any(|was| !same_value(was, &value.text));
    let newest = history.lines_on(&format!("{}.{}", value.id, value.field), &value.when).into_iter().next_back()?;
    if !differs || newest.revision <= old.revision || newest.source.is_some() || tells(lists, value.kind, &value.id, value.field, None) {
        return None;
    }
    let before: BTreeSet<&str> = old.sources.get(&format!("{}/{}", value.kind.key(), value.id))?.iter().filter(|(when, _)| combination(when).agrees_with(&value.when)).map(|(_, source)| source.as_str()).collect();
    let now: BTreeSet<&str> = lists.source(value.kind, &value.id)?.cases_within(&value.when).map(|case| case.value.as_str()).collect();
    let first = now.first()?;
    (before == now).then(|| (newest, (*first).to_owned()))
}

/// Whether the entry tells under `sources:` what a source, or any, says of a field.
fn tells(lists: &Lists, kind: ListKind, id: &str, field: &str, source: Option<&str>) -> bool {
    lists.claims(kind, id).is_some_and(|claims| claims.said.iter().any(|claim| claims.field(claim) == field && source.is_none_or(|source| claim.source.value == source)))
}

fn kept(change: &Change, value: &WrittenValue, source: &str) -> Finding {
    Finding::new(&NEW_VALUE_OLD_SOURCE, change.of.place.clone(), format!("{} is {} now, its line names no source, and its entry still names ‘{source}’", change.of.value, value.text))
        .severity(Severity::Note)
        .label("new by what?")
        .related(value.place.clone(), "the new value")
        .fix(format!("name what the new value comes from, in the line and in the entry: source: …; where ‘{source}’ says it, source: {source} in the line"))
        .about(change.of.value.clone())
}
