//! Variants: every machine that is made gets exactly one value.

use super::Context;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Axis, AxisValue, Combination, EntryHead, ListKind, Lists, Machine, WrittenValue, combinations};

use std::collections::BTreeSet;

/// A machine that is made gets no value.
pub(super) static VARIANT_GAP: Rule = Rule {
    name: "variant-gap",
    severity: Severity::Error,
    summary: "A machine that is made gets no value.",
    explanation: Explanation {
        finds: "Axis bounds that leave numbers out, and values by variant that leave out a combination which is made (see not_made:).",
        matters: "The owner of that machine finds a blank where a torque should be, and guesses.",
        may_be_wrong: "Where the thing does not exist in that variant: say so with for: on the entry. The condition when: may be left out where nothing is reused.",
        example: "pinion-nut: {torque: {early: 70 N·m}}",
        instead: "pinion-nut: {torque: {early: 70 N·m, late: 78 N·m}}",
    },
};

/// Two values hold for the same machine.
pub(super) static VARIANT_OVERLAP: Rule = Rule {
    name: "variant-overlap",
    severity: Severity::Error,
    summary: "Two values hold for the same machine.",
    explanation: Explanation {
        finds: "Axis values whose bounds meet (≤ 4200 and ≥ 4200), and values by variant of which two hold for one combination.",
        matters: "The owner of serial 4200 reads two torques and takes one.",
        may_be_wrong: "Never.",
        example: "variants: {serial: {early: ≤ 4200, late: ≥ 4200}}",
        instead: "variants: {serial: {early: ≤ 4199, late: ≥ 4200}}",
    },
};

/// Fields that may be silent for a variant: a condition of reuse, remarks.
const MAY_BE_SILENT: [&str; 3] = ["when", "note", "was"];

/// The most combinations one value is checked for.
const MOST_COMBINATIONS: usize = 256;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        machine.axes.iter().for_each(|axis| bounds(axis, findings));
        values(machine, &machine.lists, findings);
        for procedure in &machine.procedures {
            values(machine, &procedure.lists, findings);
        }
    }
}

/// An axis of whole numbers, `≤ 4199` and `≥ 4200`: without overlap, without gap.
fn bounds(axis: &Axis, findings: &mut Vec<Finding>) {
    let ends = |value: &AxisValue| {
        let (low, high) = value.numbers()?;
        Some((low.unwrap_or(f64::NEG_INFINITY), high.unwrap_or(f64::INFINITY)))
    };
    let known: Option<Vec<((f64, f64), &AxisValue)>> = axis.values.iter().map(|value| ends(value).map(|ends| (ends, value))).collect();
    let Some(mut known) = known else { return };
    known.sort_by(|a, b| a.0.0.total_cmp(&b.0.0));
    for pair in known.windows(2) {
        let [((_, high), first), ((low, _), second)] = pair else { continue };
        if low <= high {
            findings.push(meeting(axis, first, second, *low));
        } else if *low > high + 1.0 {
            findings.push(hole(axis, first, second, high + 1.0));
        }
    }
}

fn meeting(axis: &Axis, first: &AxisValue, second: &AxisValue, number: f64) -> Finding {
    Finding::new(&VARIANT_OVERLAP, second.place.clone(), format!("{} {number} is both {} and {}", axis.name, first.name, second.name))
        .label(format!("{} and {} meet", first.name, second.name))
        .related(first.place.clone(), format!("{}: {}", first.name, first.meaning))
        .figure(format!("{number} lies in {} and in {}", first.meaning, second.meaning))
        .fix("move one bound by one")
}

fn hole(axis: &Axis, first: &AxisValue, second: &AxisValue, number: f64) -> Finding {
    Finding::new(&VARIANT_GAP, second.place.clone(), format!("{} {number} is neither {} nor {}", axis.name, first.name, second.name))
        .label("numbers left out before this")
        .related(first.place.clone(), format!("{}: {}", first.name, first.meaning))
        .figure(format!("{number} lies between {} and {}", first.meaning, second.meaning))
        .fix("make the bounds meet, one apart")
}

/// Every field written by variant: one case for each combination that is made.
fn values(machine: &Machine, lists: &Lists, findings: &mut Vec<Finding>) {
    let varied: Vec<&WrittenValue> = lists.written.iter().filter(|written| written.varies).collect();
    let mut told: BTreeSet<(ListKind, &str, &str)> = BTreeSet::new();
    for written in &varied {
        let key = (written.kind, written.id.as_str(), written.field);
        if MAY_BE_SILENT.contains(&written.field) || !told.insert(key) || lists.is_unreadable(written.kind, &written.id, written.field) {
            continue;
        }
        let cases: Vec<&WrittenValue> =
            varied.iter().copied().filter(|other| (other.kind, other.id.as_str(), other.field) == key).collect();
        if let Some(head) = lists.head(written.kind, &written.id) {
            findings.extend(fault(machine, &head, &cases));
        }
    }
}

fn fault(machine: &Machine, head: &EntryHead<'_>, cases: &[&WrittenValue]) -> Option<Finding> {
    let first = cases.first()?;
    let named: BTreeSet<String> = cases.iter().map(|case| &case.when).chain([head.only]).flat_map(|c| c.0.keys().cloned()).collect();
    let made = combinations(&machine.axes, &machine.not_made, &named, MOST_COMBINATIONS)?;
    let of = format!("{}.{}", head.id, first.field);
    let subject = format!("the {} of {}", first.field.replace('_', " "), head.name);
    let mut gaps: Vec<String> = Vec::new();
    for combination in made.iter().filter(|combination| combination.satisfies(head.only)) {
        let holding: Vec<&&WrittenValue> = cases.iter().filter(|case| combination.satisfies(&case.when)).collect();
        match holding.as_slice() {
            [] => gaps.push(words(combination)),
            [_] => {}
            [one, another, ..] => {
                return Some(
                    Finding::new(&VARIANT_OVERLAP, another.place.clone(), format!("{subject} has two values for {}", words(combination)))
                        .label("holds as well")
                        .related(one.place.clone(), format!("holds for {}", words(&one.when)))
                        .figure(format!("{} and {} both hold for {}", one.text, another.text, words(combination)))
                        .fix("make the conditions exclude each other")
                        .about(of),
                );
            }
        }
    }
    (!gaps.is_empty()).then(|| {
        Finding::new(&VARIANT_GAP, first.place.clone(), format!("{subject} has no value for {}", gaps.join(", ")))
            .label("does not cover every machine")
            .related(head.place.clone(), "listed here")
            .fix(format!("add a value for {}; or name what is not made under not_made:, or what does not exist with for:", gaps.join(", ")))
            .about(of)
    })
}

fn words(combination: &Combination) -> String {
    if combination.is_always() { "every machine".to_owned() } else { combination.words() }
}
