//! A thread is treated while it is open: locker on it and a cleaning of it come before its fastener goes in.

use super::Context;
use super::locker_work::{fastener, is_cleaning, is_locker, is_wicking, material};
use super::lockers::STRENGTHS;
use super::order::earlier;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Entry, Fastener, Material, ThingRef, Verb};

/// A thread is treated that is closed already.
pub(super) static LOCKER_ON_FITTED_THREAD: Rule = Rule {
    name: "locker-on-fitted-thread",
    severity: Severity::Error,
    summary: "A thread is given locker, or cleaned for the first time, after its fastener has gone in.",
    explanation: Explanation {
        finds: "Locker put on a fastener that is run up by hand, at a stage, at its value or locked, and was neither slackened nor taken out since. As a warning: the only cleaning of a fastener, where it is run up already and is tightened so. A wicking locker is made for a thread that is closed, and is silent; so is a fastener of which only some are in (start:bolt*2).",
        matters: "Locker on a closed thread stays outside: it glues the head to its paint, and the thread is bare.",
        may_be_wrong: "Where a nut is run on by two turns and the thread ahead of it is coated: write the locker before the start:.",
        example: "[Run the nut up](start:hub-nut). [Medium locker on its thread](apply:medium-locker@hub-nut). [Tighten it](torque:hub-nut)",
        instead: "[Medium locker on its thread](apply:medium-locker@hub-nut). [Run the nut up](start:hub-nut). [Tighten it](torque:hub-nut)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            let Some((thing, entry)) = fastener(walk, moment) else { continue };
            if is_too_late(walk, at, moment) {
                findings.push(too_late(walk, at, moment, thing, entry));
            }
            findings.extend(cleaned_too_late(walk, at, moment, thing, entry));
        }
    });
}

/// Whether this act puts a locker on a thread that is closed: then what else may be said of it follows from that.
pub(super) fn is_too_late(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> bool {
    let Some((thing, _)) = fastener(walk, moment).filter(|_| moment.verb == Verb::Apply) else { return false };
    // Of a locker whose strength is not known nobody can say that it isn't wicking.
    let known = |material: &Material| material.strength.as_ref().is_some_and(|strength| STRENGTHS.contains(&strength.value.as_str()));
    let stays_outside = material(walk, moment).is_some_and(|material| is_locker(&material.what) && known(&material.what) && !is_wicking(&material.what));
    let closed = matches!(moment.before, State::Started | State::Stage(_) | State::Tight | State::Locked);
    stays_outside && closed && are_all_in(walk, at, thing)
}

/// Whether no act before this one put in, or took out, only some of a group.
fn are_all_in(walk: &Walk<'_>, at: usize, thing: &ThingRef) -> bool {
    !walk.machine.may_mean(&thing.id) && walk.moments_of(thing).take_while(|(other, _)| *other <= at).all(|(_, moment)| moment.act.times.is_none())
}

fn too_late(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, thing: &ThingRef, entry: &Entry<Fastener>) -> Finding {
    let state = moment.before.words();
    let finding = Finding::new(&LOCKER_ON_FITTED_THREAD, moment.act.place.clone(), format!("locker goes on {} here, and it is {state} already", entry.name))
        .label("its thread is out of reach")
        .fix(format!("put it on before the thread is closed, or take {0} out first (remove:{0}); on a closed thread only a wicking locker works", thing.id))
        .about(thing.id.clone());
    since(finding, walk, at, moment, thing)
}

fn since(finding: Finding, walk: &Walk<'_>, at: usize, moment: &Moment<'_>, thing: &ThingRef) -> Finding {
    match earlier(walk, thing, at) {
        Some(earlier) => finding.related(earlier.act.place.clone(), format!("{} since {}", moment.before.words(), earlier.words())),
        None => finding,
    }
}

/// The first cleaning of a fastener that is run up by hand already, and is tightened without coming out again.
fn cleaned_too_late(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, thing: &ThingRef, entry: &Entry<Fastener>) -> Option<Finding> {
    let run_up = matches!(moment.before, State::Started | State::Stage(_)) && is_cleaning(walk, moment) && are_all_in(walk, at, thing);
    let first = || !walk.moments_of(thing).take_while(|(other, _)| *other < at).any(|(_, other)| is_cleaning(walk, other));
    let mut behind = walk.moments.iter().enumerate().skip(at + 1).filter(|(_, other)| other.act.things.contains(thing));
    let next = behind.find(|(other, moment)| matches!(moment.verb, Verb::Torque | Verb::Remove | Verb::Loosen) || is_too_late(walk, *other, moment));
    // A locker that follows on the closed thread is told instead.
    if !run_up || !first() || next.is_none_or(|(_, next)| next.verb != Verb::Torque) {
        return None;
    }
    let finding = Finding::new(&LOCKER_ON_FITTED_THREAD, moment.act.place.clone(), format!("{} is cleaned here, and it is {} already", entry.name, moment.before.words()))
        .severity(Severity::Warning)
        .label("its thread is out of reach")
        .fix(format!("clean it before it goes in: clean:{}", thing.id))
        .about(thing.id.clone());
    Some(since(finding, walk, at, moment, thing))
}
