//! What a fastener holds must be in before it is tight.

use super::Context;
use super::put_back::reuse;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Verb};

/// A fastener is tightened and what it holds is not in.
pub(super) static HELD_PART_MISSING: Rule = Rule {
    name: "held-part-missing",
    severity: Severity::Error,
    summary: "A fastener is tightened, or run up for good, while a part that it holds is not in.",
    explanation: Explanation {
        finds: "torque: to the full value, and start: where the torque is by hand (torque: hand), on a fastener whose holds: names a part, gasket, seal or bearing that was taken out to be used again, or that only a later act puts in; and one that is new each time (reuse: never) and that no act puts in at all. As a warning, a part that no act of the machine works on, other than a housing or shaft, where the fastener itself goes in first with start:. Temporary fasteners are silent.",
        matters: "A cover that is tight without its gasket has to come off again, and a head without one is found by its water.",
        may_be_wrong: "Where the part goes in with another one: name it in the same act or in its own, or take it out of holds:.",
        example: "cover-bolt: {holds: [cover, gasket], …}\n[Cover on](fit:cover). [Tighten the bolts](torque:cover-bolt)   and no fit:gasket",
        instead: "[Gasket on](fit:gasket). [Cover on](fit:cover). [Tighten the bolts](torque:cover-bolt)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            // Where the value is by hand, running it up is its last act.
            let run_up = matches!(moment.verb, Verb::Start | Verb::Fit) && !moment.before.holds();
            if (moment.verb == Verb::Torque || run_up) && moment.after.holds() {
                findings.extend(missing(walk, at, moment));
            }
        }
    });
}

fn missing(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let fastener_thing = moment.act.thing()?;
    let fastener = scope.thing(|lists| &lists.fasteners, fastener_thing)?;
    if fastener.what.temporary {
        return None;
    }
    let done = if moment.verb == Verb::Torque { "tightened" } else { "run up by hand, which is its value" };
    fastener.what.holds.iter().find_map(|held| {
        let thing = ListKind::THINGS.iter().find_map(|kind| scope.find(*kind, &held.value))?;
        let head = scope.head(&thing)?;
        // What does not exist in this variant is not held; what an unread act may have put in is not missed; an open item is
        // told as that.
        let is_open = walk.open.iter().any(|span| span.thing == thing);
        if is_open || !walk.combination.satisfies(head.only) || walk.machine.may_mean(&thing.id) {
            return None;
        }
        let puts_in = |moment: &Moment<'_>| moment.after.is_in_place();
        let (state, _) = walk.state_before(&thing, at);
        let later = walk.moments_of(&thing).find(|(index, moment)| *index > at && puts_in(moment));
        let reuse = reuse(scope.lists_of(&thing)?, &thing).and_then(|reuse| reuse.get(&walk.combination)).map(String::as_str);
        let (words, grade) = match (state, later) {
            // Another one in its place is another matter: gaskets squeezed early, locks exchanged.
            (State::Removed, _) if matches!(reuse, Some("inspect" | "yes")) => ("has been taken out", Severity::Error),
            (State::Absent, Some(_)) => ("goes in later", Severity::Error),
            // It can't have been in before the work began.
            (State::Absent, None) if reuse == Some("never") => ("goes in nowhere", Severity::Error),
            (State::Absent, None) if is_forgotten(walk, fastener_thing, &thing) => ("goes in nowhere", Severity::Warning),
            _ => return None,
        };
        let finding = Finding::new(&HELD_PART_MISSING, moment.act.place.clone(), format!("{} is {done}, and {}, which it holds, {words}", fastener.name, head.name))
            .severity(grade)
            .label(format!("{} is not in", head.name))
            .fix(format!("write fit:{} before it; or take it out of holds:", thing.id))
            .about(thing.id.clone());
        Some(match later {
            Some((_, later)) => finding.related(later.act.place.clone(), format!("goes in here: {}", later.words())),
            None => finding,
        })
    })
}

/// Whether a part that nothing works on must be meant to go in here: the fastener that holds it goes in for the first time,
/// and it is no housing or shaft that stands there already. A cover whose gasket goes in is told there.
fn is_forgotten(walk: &Walk<'_>, fastener: &ThingRef, held: &ThingRef) -> bool {
    let goes_in = walk.moments_of(fastener).find(|(_, moment)| moment.verb != Verb::Clean && moment.verb != Verb::Apply).is_some_and(|(_, first)| first.verb == Verb::Start && first.before == State::Absent);
    let part = walk.machine.procedures.iter().map(|procedure| &procedure.lists).chain([&walk.machine.lists]).find_map(|lists| lists.parts.get(&held.id));
    let stands = part.is_none_or(|part| part.what.kind.get(&walk.combination).is_none_or(|kind| matches!(kind.as_str(), "housing" | "shaft")));
    let lies_under = |moment: &Moment<'_>| {
        let gasket = moment.act.thing().and_then(|thing| walk.scope(moment.procedure).thing(|lists| &lists.parts, thing));
        gasket.and_then(|gasket| gasket.what.under.get(&walk.combination)).is_some_and(|under| *under == held.id)
    };
    let told = walk.moments.iter().any(|moment| matches!(moment.verb, Verb::Fit | Verb::DryFit) && lies_under(moment));
    let mut acts = walk.machine.procedures.iter().flat_map(|procedure| &procedure.steps).flat_map(|step| &step.acts);
    goes_in && held.kind == ListKind::Parts && !stands && !told && !acts.any(|act| act.things.contains(held)) && !walk.history.contains_key(held)
}
