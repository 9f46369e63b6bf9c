//! Thread lockers go by their strength.

use super::Context;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Lists, Material};

/// The strengths there are.
pub(super) const STRENGTHS: [&str; 4] = ["low", "medium", "high", "wicking"];

/// A thread locker does not say how strong it is.
pub(super) static LOCKER_GRADE_MISSING: Rule = Rule {
    name: "locker-grade-missing",
    severity: Severity::Error,
    summary: "A thread locker does not say how strong it is.",
    explanation: Explanation {
        finds: "Materials of kind thread-locker without a strength, or with something else than low, medium, high or wicking in its place.",
        matters: "Low comes undone with hand tools, high needs heat that the seal beside it does not stand.",
        may_be_wrong: "Never: colours and product names mean different strengths with different makers; put them in note:.",
        example: "materials: {locker: {name: Thread locker, kind: thread-locker}}",
        instead: "materials: {medium-locker: {name: Medium-strength thread locker, kind: thread-locker, strength: medium}}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let manual = context.manual;
    let machines = manual.machines.iter().flat_map(|m| m.procedures.iter().map(|p| &p.lists).chain([&m.lists]));
    for lists in machines.chain([&manual.shop]) {
        grades(lists, findings);
    }
}

fn grades(lists: &Lists, findings: &mut Vec<Finding>) {
    for entry in lists.materials.values().filter(|entry| entry.what.kind.as_deref() == Some("thread-locker")) {
        if !lists.is_unreadable(ListKind::Materials, &entry.id, "strength") {
            findings.extend(grade(entry));
        }
    }
}

fn grade(entry: &Entry<Material>) -> Option<Finding> {
    let (place, message, label) = match &entry.what.strength {
        None => (entry.id_place.clone(), format!("{} does not say how strong it is", entry.name), "no strength"),
        Some(strength) if !STRENGTHS.contains(&strength.value.as_str()) => {
            (strength.place.clone(), format!("‘{}’ is no strength of a thread locker", strength.value), "not a strength")
        }
        Some(_) => return None,
    };
    Some(
        Finding::new(&LOCKER_GRADE_MISSING, place, message)
            .label(label)
            .fix("write strength: low, medium, high or wicking; a colour or product goes in note:")
            .about(format!("{}.strength", entry.id)),
    )
}
