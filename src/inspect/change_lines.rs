//! Change lines: what they say was there was there, in the field's own kind of value, and the revision they name has come.

use super::as_written::{in_braces, says_the_same};
use super::{Context, changes, old_sources};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Change, Combination, History, Ledger, LedgerHome, Lists, Manual, homes};
use crate::quantity::{Dimension, Quantity};

/// A change line says something that is not so.
pub(super) static CHANGE_LINE_UNTRUE: Rule = Rule {
    name: "change-line-untrue",
    severity: Severity::Error,
    summary: "A change line says something that is not so.",
    explanation: Explanation {
        finds: "Change lines of a revision that the front matter has not reached; because: without a word in it; was: that is no quantity of the kind its field holds, or without a unit; and, where the values are compared with an earlier state, was: that differs from what stood there.",
        matters: "The old value in the line is how a sheet on the wall, or a machine that was built by it, is known to be out of date. A wrong one clears them.",
        may_be_wrong: "Where the earlier state was never published and nobody can have built by it: compare with the one that was.",
        example: "revision: 2\nchanges: [{revision: 3, of: pinion-nut.torque, was: 70, because: nuts backed off}]",
        instead: "revision: 3\nchanges: [{revision: 3, of: pinion-nut.torque, was: 70 N·m, because: nuts backed off}]",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    old_sources::check(context.manual, findings);
    for (_, lists, history, _) in homes(context.manual) {
        for change in &history.changes {
            ahead(history, change, findings);
            another_kind(lists, change, findings);
            reasonless(change, findings);
        }
    }
}

/// A line of a revision that the head has not reached.
fn ahead(history: &History, change: &Change, findings: &mut Vec<Finding>) {
    let (Some(of_line), Some(place)) = (change.revision, &change.revision_place) else { return };
    if history.revision.is_some_and(|revision| revision >= of_line) {
        return;
    }
    let reached = history.revision.map_or_else(|| "no revision".to_owned(), |revision| format!("revision {revision}"));
    findings.push(
        Finding::new(&CHANGE_LINE_UNTRUE, place.clone(), format!("the line on {} is of revision {of_line}, and the front matter has {reached}", change.of.value))
            .label("not reached")
            .fix(format!("write revision: {of_line} at the head, with its date, or correct the line"))
            .about(change.of.value.clone()),
    );
}

/// A reason that is none: what stands where one is to be written, or a sign in its place.
fn reasonless(change: &Change, findings: &mut Vec<Finding>) {
    let Some(because) = &change.because else { return };
    let letters = because.chars().filter(|sign| sign.is_alphabetic());
    // Three letters make the shortest word of ours; other scripts say more with one sign.
    if because.is_ascii() && letters.clone().count() < 3 || letters.count() == 0 {
        findings.push(
            Finding::new(&CHANGE_LINE_UNTRUE, change.of.place.clone(), format!("because: of {} is ‘{because}’, and that is no reason", change.of.value))
                .label("changed for no reason")
                .fix("say what made the value change: because: nuts backed off on the slip")
                .about(change.of.value.clone()),
        );
    }
}

/// A former value of another kind than the value has today.
fn another_kind(lists: &Lists, change: &Change, findings: &mut Vec<Finding>) {
    let Some(dimension) = dimension_of(lists, &change.of.value) else { return };
    for case in change.was.cases.iter().filter(|case| case.value.starts_with('{')) {
        findings.push(
            Finding::new(&CHANGE_LINE_UNTRUE, case.place.clone(), format!("was: of {} is a map, and none of its keys is a variant of the machine", change.of.value))
                .label("no value by variant")
                .fix("write the value of then: was: 70 N·m; or by a variant that there is: was: {late: 70 N·m}")
                .about(change.of.value.clone()),
        );
    }
    // A word (hand) and a list of stages are other forms of a value, not another kind.
    let told = change.was.cases.iter().filter(|case| case.value.contains(|c: char| c.is_ascii_digit()) && !case.value.contains(['[', '{']));
    for (case, error) in told.filter_map(|case| Some((case, Quantity::parse(&case.value, dimension).err()?))).filter(|(case, _)| !is_measured_otherwise(&case.value, dimension)) {
        findings.push(
            Finding::new(&CHANGE_LINE_UNTRUE, case.place.clone(), format!("was: of {}: {}", change.of.value, error.message()))
                .label(format!("not {}", dimension.spoken()))
                .figures(error.figures())
                .fix(error.fix())
                .about(change.of.value.clone()),
        );
    }
}

/// Whether an amount was given by mass and is now by volume, or the other way round: 230 g of oil are 250 mL today.
fn is_measured_otherwise(was: &str, now: Dimension) -> bool {
    let amounts = [Dimension::Mass, Dimension::Volume];
    amounts.contains(&now) && Quantity::parse_free(was).is_ok_and(|was| amounts.contains(&was.dimension()))
}

/// The kind of a value, where it is one quantity in every variant.
fn dimension_of(lists: &Lists, of: &str) -> Option<Dimension> {
    let (id, field) = of.split_once('.')?;
    let mut now = lists.written.iter().filter(|written| written.id == id && written.field == field).map(|written| Quantity::parse_free(&written.text).ok().map(|q| q.dimension()));
    let first = now.next()??;
    (first != Dimension::Count && now.all(|other| other == Some(first))).then_some(first)
}

/// Compares what change lines say was there with what was.
pub(super) fn compare(manual: &Manual, earlier: &Ledger, findings: &mut Vec<Finding>) {
    for (name, _, history, _) in homes(manual) {
        let Some(old) = earlier.homes.get(&name) else { continue };
        for change in &history.changes {
            // Of several lines on one value only the first after the earlier state tells what stood there.
            let newer = |line: &&Change| line.of.value == change.of.value && line.revision > old.revision;
            let first = history.changes.iter().filter(newer).min_by_key(|line| line.revision);
            if first.is_some_and(|first| std::ptr::eq(first, change)) {
                against(old, change, findings);
            }
        }
    }
}

fn against(old: &LedgerHome, change: &Change, findings: &mut Vec<Finding>) {
    let stood: Vec<(Combination, &String)> = old
        .values
        .iter()
        .filter(|(key, _)| key.split_once('/').is_some_and(|(_, of)| of == change.of.value))
        .flat_map(|(_, cases)| cases.iter().map(|(when, text)| (changes::combination(when), text)))
        .collect();
    for case in &change.was.cases {
        let meant: Vec<&String> = stood.iter().filter(|(when, _)| when.agrees_with(&case.when)).map(|(_, text)| *text).collect();
        let Some(first) = meant.first().filter(|_| !meant.iter().any(|text| says_the_same(text, &case.value))) else { continue };
        let revision = old.revision.map_or_else(String::new, |revision| format!(" at revision {revision}"));
        findings.push(
            Finding::new(&CHANGE_LINE_UNTRUE, case.place.clone(), format!("{} was {first}{revision}, not {}", change.of.value, case.value))
                .label(format!("was {first}"))
                .fix(format!("was: {}; or correct the value of then, where the line is right and that was a slip", in_braces(first)))
                .about(change.of.value.clone()),
        );
    }
}
