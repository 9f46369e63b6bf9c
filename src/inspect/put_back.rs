//! Parts that come out, or come back from a vendor, and never go in again.

use super::Context;
use super::order::is_temporary;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, Lists, ThingRef, Varied, Verb};

/// A part is taken out and never put back.
pub(super) static PART_NOT_PUT_BACK: Rule = Rule {
    name: "part-not-put-back",
    severity: Severity::Error,
    summary: "A part that is used again is taken out, and the machine is signed off without it.",
    explanation: Explanation {
        finds: "Parts, seals, bearings and fasteners with reuse: inspect or reuse: yes that remove: takes out or receive: brings back, with no fit:, start: or torque: after it, on machines that are signed off (sign:). Temporary things are silent, and what an open item covers.",
        matters: "The part that lies on the bench when the engine runs is one that the engine should have had.",
        may_be_wrong: "Where it is left out for good: say reuse: never, and what stands in its place.",
        example: "parts: {thermostat: {reuse: inspect, …}}\n[Take the thermostat out](remove:thermostat)   and no fit:thermostat before [signed off](sign:editor)",
        instead: "[Thermostat in](fit:thermostat) before the signature",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let Some(signed) = walk.moments.iter().rposition(|moment| moment.verb == Verb::Sign) else { return };
        for (thing, state, at) in walk.ends() {
            if state == State::Removed && at < signed {
                findings.extend(walk.moments.get(at).and_then(|moment| left_out(walk, thing, moment)));
            }
        }
    });
}

fn left_out(walk: &Walk<'_>, thing: &ThingRef, moment: &Moment<'_>) -> Option<Finding> {
    if walk.open.iter().any(|span| span.thing == *thing) || walk.machine.may_mean(&thing.id) {
        return None;
    }
    let scope = walk.scope(moment.procedure);
    let lists = scope.lists_of(thing)?;
    let again = reuse(lists, thing)?.get(&walk.combination).is_some_and(|reuse| reuse != "never");
    if !again || is_temporary(lists, thing) {
        return None;
    }
    let name = scope.head(thing)?.name;
    let (message, label) = match moment.verb {
        Verb::Receive => (format!("{name} comes back, and never goes in"), "the last that is heard of it"),
        _ => (format!("{name} is taken out, and never put back"), "the last that is done to it"),
    };
    Some(
        Finding::new(&PART_NOT_PUT_BACK, moment.act.place.clone(), message)
            .label(label)
            .fix(format!("write fit:{} where it goes in again; or reuse: never where it stays out", thing.id))
            .about(thing.id.clone()),
    )
}

/// How a thing may be used again.
pub(super) fn reuse<'l>(lists: &'l Lists, thing: &ThingRef) -> Option<&'l Varied<String>> {
    let id = thing.id.as_str();
    match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(id).map(|entry| &entry.what.reuse),
        ListKind::Parts => lists.parts.get(id).map(|entry| &entry.what.reuse),
        ListKind::Seals => lists.seals.get(id).map(|entry| &entry.what.reuse),
        ListKind::Bearings => lists.bearings.get(id).map(|entry| &entry.what.reuse),
        _ => None,
    }
}
