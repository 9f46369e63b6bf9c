//! Where values come from: each has a source, and what was only heard has been confirmed.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, ListKind, Lists, Profile, Scope, Source, Torque, Varied};

/// A value has no source.
pub(super) static SOURCE_MISSING: Rule = Rule {
    name: "source-missing",
    severity: Severity::Warning,
    summary: "A value has no source.",
    explanation: Explanation {
        finds: "Under profile: published, entries that carry values of the work and no source: fasteners with a torque, seals, bearings, measurements with a spec or limit, shims, heats, waits, fills, alignments, tests, and lockers and sealants with times or temperatures. An error where the fastener is critical. Other profiles print ‘unsourced’ and say nothing.",
        matters: "A value without a source can't be checked by anybody, and stays wrong for ever.",
        may_be_wrong: "Where everybody knows it: list a source of kind practice, and name it.",
        example: "hub-nut: {torque: 320 N·m}",
        instead: "hub-nut: {torque: 320 N·m, source: winch-book}",
    },
};

/// What was heard is not confirmed.
pub(super) static MACHINE_TEXT_UNCONFIRMED: Rule = Rule {
    name: "machine-text-unconfirmed",
    severity: Severity::Error,
    summary: "A value was heard, or taken from captions, and nobody has confirmed it.",
    explanation: Explanation {
        finds: "Sources of kind heard without read_by:, and sources whose read_by: is the person who wrote them (by:).",
        matters: "Fifteen and fifty sound alike, and captions are written by a program.",
        may_be_wrong: "Never: let a second person hear it, or find it in print.",
        example: "slip-talk: {title: Told on the slip, kind: heard, by: volunteer}",
        instead: "slip-talk: {title: Told on the slip, kind: heard, by: volunteer, read_by: winch-warden}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (scope, lists) in every::lists(context.manual) {
        findings.extend(lists.sources.values().filter_map(|entry| unconfirmed(lists, entry)));
        if context.manual.profile == Profile::Published {
            unsourced(scope, lists, findings);
        }
    }
}

fn unconfirmed(lists: &Lists, entry: &Entry<Source>) -> Option<Finding> {
    if lists.is_unreadable(ListKind::Sources, &entry.id, "read_by") {
        return None;
    }
    let (place, message, label) = match (&entry.what.read_by, &entry.what.by) {
        (None, _) if entry.what.kind.as_deref() == Some("heard") => {
            (entry.id_place.clone(), format!("‘{}’ was heard, and nobody has confirmed it", entry.what.title), "no second person")
        }
        (Some(read_by), Some(by)) if read_by.value == by.value => {
            (read_by.place.clone(), format!("‘{}’ was read a second time by the one who wrote it", entry.what.title), "the same person")
        }
        _ => return None,
    };
    Some(
        Finding::new(&MACHINE_TEXT_UNCONFIRMED, place, message)
            .label(label)
            .fix("let another person confirm it against a source: read_by: …")
            .about(entry.id.clone()),
    )
}

fn unsourced(scope: Scope<'_>, lists: &Lists, findings: &mut Vec<Finding>) {
    if scope.may_be_lost(&[ListKind::Sources]) {
        return;
    }
    for kind in SOURCED {
        for head in lists.heads(*kind) {
            if !is_unsourced(lists, *kind, head.id) || lists.is_unreadable(*kind, head.id, "source") {
                continue;
            }
            let critical = *kind == ListKind::Fasteners && lists.fasteners.get(head.id).is_some_and(|entry| entry.what.critical);
            let finding = Finding::new(&SOURCE_MISSING, head.place.clone(), format!("{} has no source", head.name))
                .label(if critical { "critical, and from where?" } else { "from where?" })
                .fix("name where its values come from: source: (an id under sources:)")
                .about(head.id.to_owned());
            findings.push(if critical { finding.severity(Severity::Error) } else { finding });
        }
    }
}

/// The lists whose values come from somewhere.
const SOURCED: &[ListKind] = &[
    ListKind::Fasteners,
    ListKind::Seals,
    ListKind::Bearings,
    ListKind::Measures,
    ListKind::Shims,
    ListKind::Heats,
    ListKind::Waits,
    ListKind::Fills,
    ListKind::Aligns,
    ListKind::Tests,
    ListKind::Materials,
];

/// Whether an entry carries values of the work and says nothing of where they come from: a page prints "unsourced"
/// beside them. An entry without values needs no source.
#[must_use]
pub fn is_unsourced(lists: &Lists, kind: ListKind, id: &str) -> bool {
    if lists.source(kind, id).is_none_or(Varied::is_given) {
        return false;
    }
    match kind {
        ListKind::Fasteners => lists.fasteners.get(id).is_some_and(|e| {
            e.what.torque.cases.iter().any(|case| case.value != Torque::Hand) || lists.is_unreadable(kind, id, "torque")
        }),
        ListKind::Measures => lists.measures.get(id).is_some_and(|e| e.what.spec.is_given() || e.what.limit.is_given()),
        ListKind::Materials => lists.materials.get(id).is_some_and(|e| {
            let what = &e.what;
            [&what.working, &what.fixture, &what.cure, &what.service, &what.release].into_iter().any(Option::is_some)
        }),
        _ => SOURCED.contains(&kind),
    }
}
