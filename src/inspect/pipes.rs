//! Pipe threads: they close and seal, and hold nothing together.

use super::locker_work::fastener;
use super::walk::{Moment, Walk, in_every};
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Fastener, Verb};

/// A pipe thread is listed as a bolt's.
pub(super) static PIPE_THREAD_LOADED: Rule = Rule {
    name: "pipe-thread-loaded",
    severity: Severity::Error,
    summary: "A fastener with a pipe thread is listed as one that clamps, drives or holds a shaft.",
    explanation: Explanation {
        finds: "Fasteners with a pipe thread (G, R, Rp, Rc, NPT) and a role other than plug, soft or adjuster.",
        matters: "A pipe thread is shallow and its wall is thin: the torque of a bolt of that size splits the boss or shears the fitting. More often the designation is a slip, and the thread is another.",
        may_be_wrong: "Where a union or fitting really clamps a part: give it role: plug, and cite the torque of the maker's sheet.",
        example: "cap-bolt: {thread: G 1/4, role: clamp, torque: 40 N·m}",
        instead: "drain-plug: {thread: G 1/4, role: plug, torque: 20 N·m}",
    },
};

/// A thread that seals by itself goes in with nothing on it.
pub(super) static PIPE_THREAD_BARE: Rule = Rule {
    name: "pipe-thread-bare",
    severity: Severity::Warning,
    summary: "A pipe thread that seals on its flanks is tightened with nothing on it.",
    explanation: Explanation {
        finds: "torque: of a fastener with a thread R, Rp or Rc (ISO 7-1) on which no act has put a material since it was last cleaned or taken out, where its threads: do not say as-supplied. G threads (ISO 228-1) seal on a washer, ring or face and are silent.",
        matters: "Flanks that only touch leave a spiral way from one side to the other: it weeps oil or fuel at the first warmth (common practice).",
        may_be_wrong: "Where the plug comes coated: write threads: as-supplied.",
        example: "oil-switch: {thread: R 1/8, role: plug, torque: 12 N·m}\n[Tighten the switch](torque:oil-switch)",
        instead: "[Sealant on its thread](apply:pipe-sealant@oil-switch), [tighten the switch](torque:oil-switch)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        findings.extend(lists.fasteners.values().filter_map(loaded));
    }
    in_every(&context.walks, findings, |walk, findings| {
        findings.extend(walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Torque).filter_map(|(at, moment)| bare(walk, at, moment)));
    });
}

fn loaded(entry: &Entry<Fastener>) -> Option<Finding> {
    let thread = entry.what.thread.cases.iter().find(|case| case.value.pipe().is_some())?;
    let role = entry.what.role.cases.iter().find(|case| !matches!(case.value.as_str(), "plug" | "soft" | "adjuster"))?;
    Some(
        Finding::new(&PIPE_THREAD_LOADED, thread.place.clone(), format!("{} has a pipe thread, and its role is {}", entry.name, role.value))
            .label("seals, and carries nothing")
            .related(role.place.clone(), "its role")
            .figure(format!("{} measures {:.1} mm over its crests (ISO 228-1, ISO 7-1; from memory)", thread.value, thread.value.diameter_mm()))
            .fix("measure the thread again; where it is one of a pipe, give it role: plug")
            .about(format!("{}.thread", entry.id)),
    )
}

fn bare(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let (thing, entry) = fastener(walk, moment)?;
    let thread = entry.what.thread.case(&walk.combination).filter(|case| case.value.pipe().is_some_and(|pipe| pipe.seals_on_thread()))?;
    let supplied = entry.what.threads.get(&walk.combination).is_some_and(|threads| threads == "as-supplied");
    // An act that is not understood may have put something on it.
    if supplied || !moment.after.holds() || walk.machine.may_mean(&thing.id) {
        return None;
    }
    let mut before = walk.moments.get(..at)?.iter().rev().filter(|other| other.act.things.contains(thing));
    let last = before.find(|other| matches!(other.verb, Verb::Apply | Verb::Clean | Verb::Remove));
    let solvent = |other: &Moment<'_>| super::locker_work::is_cleaning(walk, other);
    if last.is_some_and(|other| other.verb == Verb::Apply && !solvent(other)) {
        return None;
    }
    Some(
        Finding::new(&PIPE_THREAD_BARE, moment.act.place.clone(), format!("{} seals on its thread, and goes in with nothing on it", entry.name))
            .label("bare flanks")
            .related(thread.place.clone(), format!("{} seals on its flanks (ISO 7-1)", thread.value))
            .fix(format!("put a sealant for pipe threads on it before: apply:MATERIAL@{}; or write threads: as-supplied where it comes coated", thing.id))
            .about(thing.id.clone()),
    )
}
