//! Where a day's work may end.

use super::Context;
use super::heat_work::is_hot;
use super::locker_work::{fastener, is_locker, is_wicking, material};
use super::walk::{Moment, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Verb};

/// The day ends on something that can't wait.
pub(super) static UNSAFE_SESSION_END: Rule = Rule {
    name: "unsafe-session-end",
    severity: Severity::Error,
    summary: "A place to stop for the day leaves something that can't wait.",
    explanation: Explanation {
        finds: "stop: while a thread locker is put on and its fastener not at its full value, a bead laid and its joint not tightened, or a part hot that nobody has let cool.",
        matters: "Overnight the locker sets on a nut that is only hand-tight, and the bead cures open.",
        may_be_wrong: "Never: move the stop, or the act before it.",
        example: "[Locker on](apply:medium-locker@nut), [nut on by hand](start:nut). [Enough for today](stop:)",
        instead: "[Nut on by hand](start:nut). [Enough for today](stop:) … then take it off, clean, locker and torque in one go.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, stop) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Stop) {
            findings.extend(unsafe_end(walk, at, stop));
        }
    });
}

fn unsafe_end(walk: &Walk<'_>, at: usize, stop: &Moment<'_>) -> Option<Finding> {
    let today = walk.moments.iter().enumerate().take(at).filter(|(_, moment)| moment.session == stop.session);
    let mut waiting: Vec<(&Moment<'_>, String)> = Vec::new();
    for (index, moment) in today {
        let what = match moment.verb {
            Verb::Apply => wet_locker(walk, index, at, moment).or_else(|| open_bead(walk, index, at, moment)),
            Verb::Heat => still_hot(walk, index, at, moment),
            _ => None,
        };
        if let Some(what) = what.filter(|what| !waiting.iter().any(|(_, told)| told == what)) {
            waiting.push((moment, what));
        }
    }
    let what: Vec<&str> = waiting.iter().map(|(_, what)| what.as_str()).collect();
    let message = format!("the day ends here while {}", what.split_last().map(|(last, most)| if most.is_empty() { (*last).to_owned() } else { format!("{} and {last}", most.join(", ")) })?);
    let finding = Finding::new(&UNSAFE_SESSION_END, stop.act.place.clone(), message)
        .label("not a safe place to stop")
        .fix("finish before the stop what can't wait, or move it behind")
        .about(format!("{}#{}", stop.procedure.id, stop.step.id));
    Some(waiting.iter().fold(finding, |finding, (moment, what)| finding.related(moment.act.place.clone(), format!("{what} since {}", moment.words()))))
}

/// The moments between two.
fn between<'w, 'm>(walk: &'w Walk<'m>, from: usize, to: usize) -> &'w [Moment<'m>] {
    walk.moments.get(from + 1..to).unwrap_or_default()
}

fn wet_locker(walk: &Walk<'_>, index: usize, stop: usize, moment: &Moment<'_>) -> Option<String> {
    let (thing, entry) = fastener(walk, moment)?;
    let material = material(walk, moment).filter(|material| is_locker(&material.what) && !is_wicking(&material.what))?;
    let done = |other: &Moment<'_>| other.act.things.contains(thing) && (other.after.holds() || other.verb == Verb::Remove);
    (!between(walk, index, stop).iter().any(done)).then(|| format!("{} is wet on {}", material.name, entry.name))
}

fn open_bead(walk: &Walk<'_>, index: usize, stop: usize, moment: &Moment<'_>) -> Option<String> {
    let scope = walk.scope(moment.procedure);
    let entry = scope.thing(|lists| &lists.beads, moment.act.thing().filter(|thing| thing.kind == ListKind::Beads)?)?;
    let closing: Vec<ThingRef> = entry.what.between.iter().flat_map(|part| walk.fasteners_of(scope, &part.value)).collect();
    let closed = |other: &Moment<'_>| other.verb == Verb::Torque && other.act.things.iter().any(|thing| closing.contains(thing));
    (!closing.is_empty() && !between(walk, index, stop).iter().any(closed)).then(|| format!("{} is laid and its joint is open", entry.name))
}

fn still_hot(walk: &Walk<'_>, index: usize, stop: usize, moment: &Moment<'_>) -> Option<String> {
    let scope = walk.scope(moment.procedure);
    let thing = moment.act.thing()?;
    let entry = scope.thing(|lists| &lists.heats, thing).filter(|entry| is_hot(entry, &walk.combination))?;
    let cooled = between(walk, index, stop).iter().any(|other| other.verb == Verb::Cool && other.act.things.contains(thing));
    let part = entry.what.of.get(&walk.combination)?;
    let name = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, part)).and_then(|part| scope.head(&part)).map_or(part.as_str(), |head| head.name);
    (!cooled).then(|| format!("{name} is hot"))
}
