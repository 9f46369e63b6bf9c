//! Two things that bear one name: at the bench nobody can tell which of them a line means.

use super::Context;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{EntryHead, ListKind, Lists};

/// Two things have one name.
pub(super) static TWO_THINGS_ONE_NAME: Rule = Rule {
    name: "two-things-one-name",
    severity: Severity::Warning,
    summary: "Two fasteners, parts, seals or bearings of one job have the same name.",
    explanation: Explanation {
        finds: "Fasteners, parts, seals and bearings of a procedure, or of a procedure and its machine, whose names are the same but for capitals and spaces, and that both exist in some variant.",
        matters: "The sheet and the torque card show names, not ids: two lines that both say ‘cover bolt’ get each other's torque.",
        may_be_wrong: "Where they are the same thing: make one entry of them, with its count.",
        example: "front-bolt: {name: Cover bolt, torque: 10 N·m}\nrear-bolt: {name: Cover bolt, torque: 24 N·m}",
        instead: "front-bolt: {name: Front cover bolt, …}\nrear-bolt: {name: Rear cover bolt, …}",
    },
};

const KINDS: [ListKind; 4] = [ListKind::Fasteners, ListKind::Parts, ListKind::Seals, ListKind::Bearings];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let shared = heads(&machine.lists);
        namesakes(&shared, &[], findings);
        for procedure in &machine.procedures {
            namesakes(&heads(&procedure.lists), &shared, findings);
        }
    }
}

fn heads(lists: &Lists) -> Vec<(String, EntryHead<'_>)> {
    let folded = |name: &str| name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase();
    let mut all: Vec<_> = KINDS.iter().flat_map(|kind| lists.heads(*kind)).map(|head| (folded(head.name), head)).collect();
    // In the order of the names, so that namesakes stand side by side: a list may hold thousands.
    all.sort_by(|one, other| (&one.0, one.1.place).cmp(&(&other.0, other.1.place)));
    all
}

/// Tells of things that have the name of one before them, or of one of some shared things.
fn namesakes(own: &[(String, EntryHead<'_>)], shared: &[(String, EntryHead<'_>)], findings: &mut Vec<Finding>) {
    for (at, (name, head)) in own.iter().enumerate() {
        let before = own.get(..at).unwrap_or_default().iter().rev().take_while(|(other, _)| other == name);
        let first = shared.partition_point(|(other, _)| other < name);
        let elsewhere = shared.iter().skip(first).take_while(|(other, _)| other == name);
        let other = before.chain(elsewhere).map(|(_, other)| other).find(|other| other.id != head.id && other.only.agrees_with(head.only));
        findings.extend(other.map(|other| {
            Finding::new(&TWO_THINGS_ONE_NAME, head.place.clone(), format!("‘{}’ is the name of two things: {} and {}", head.name, other.id, head.id))
                .label("which of the two?")
                .related(other.place.clone(), "the other one")
                .fix("give each a name that tells them apart at the bench: front and rear, long and short")
                .about(head.id.to_owned())
        }));
    }
}
