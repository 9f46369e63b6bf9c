//! Joints that must not be turned again: tightened by angle, locked or sealed by something that has set.

use super::Context;
use super::locker_work::{fastener, is_locker, material, minutes, time_words, too_late, WORKING_MINUTES};
use super::walk::{Misstep, Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Bead, Entry, ListKind, ThingRef, Verb};
use crate::quantity::Dimension;

/// A joint is tightened again that must not be.
pub(super) static RETORQUE_CONFLICT: Rule = Rule {
    name: "retorque-conflict",
    severity: Severity::Error,
    summary: "A joint is tightened again that was tightened by angle, or whose locker or sealant has set.",
    explanation: Explanation {
        finds: "torque: on a fastener that is at its value, with nothing slackened between, where one of its stages is an angle, or its locker or the sealant of the joint it closes could no longer be worked (working:; 10 minutes where it states none: common practice), by stops, waits and the minutes of steps.",
        matters: "Another angle on top stretches the bolt by an amount that nobody knows. A wrench on set locker breaks the bond before it clicks, and on set sealant it cracks the film.",
        may_be_wrong: "Where the source asks for it, as for some gaskets: list the second pass as a stage of its own, [20 N·m, 38 N·m, 38 N·m], and cite the source.",
        example: "head-bolt: {torque: [20 N·m, 90°]}   [Tighten the head bolts](torque:head-bolt) … [tighten them again after the run](torque:head-bolt)",
        instead: "Look at the painted lines instead; or slacken, renew what has set, and tighten from the beginning.",
    },
};

/// A sealed joint is let go after its sealant has set.
pub(super) static CURED_JOINT_RELEASED: Rule = Rule {
    name: "cured-joint-released",
    severity: Severity::Warning,
    summary: "A sealed joint is let go after its sealant has set, and closed again without a new bead.",
    explanation: Explanation {
        finds: "loosen: and remove: of a whole group of fasteners that close a bead, or of a part the bead lies on, later than the sealant can be worked (working:; 10 minutes where it states none), where the same is tightened or fitted again and no new bead is laid between. One at a time (remove:case-bolt*1) is silent.",
        matters: "Sealant that has set does not stick a second time. The joint looks closed and weeps.",
        may_be_wrong: "Where other fasteners, listed elsewhere, hold the joint together meanwhile.",
        example: "[Lay the bead](apply:case-bead), [close the case](torque:case-bolt) … [take all ten bolts out](remove:case-bolt), [fit the new set](torque:case-bolt)",
        instead: "Change one at a time, [one out](remove:case-bolt*1), or open the joint, clean it and lay the bead anew.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            match moment.verb {
                Verb::Torque => findings.extend(conflict(walk, at, moment)),
                Verb::Loosen | Verb::Remove => findings.extend(released(walk, at, moment)),
                _ => {}
            }
        }
    });
}

/// Why a fastener that is at its value must not be tightened again here, as behind its name; none where a second click only hides
/// that it has moved.
pub(super) fn why_not_again(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<String> {
    let (thing, entry) = fastener(walk, moment).filter(|_| moment.misstep == Some(Misstep::TightenedAgain))?;
    let torque = entry.what.torque.get(&walk.combination).or_else(|| entry.what.torque.first())?;
    if torque.stages().iter().any(|stage| stage.dimension() == Dimension::Angle) {
        return Some("is tightened again, and was tightened by angle".to_owned());
    }
    let tightened = last_tightening(walk, at, thing)?;
    let put_on = walk.moments.get(..at)?.iter().rev().filter(|other| other.verb == Verb::Apply && other.act.things.contains(thing));
    let locker = put_on.filter_map(|other| material(walk, other)).find(|material| is_locker(&material.what)).or_else(|| {
        let id = entry.what.locker.get(&walk.combination)?;
        walk.scope(moment.procedure).entry(|lists| &lists.materials, id)
    });
    if let Some(locker) = locker {
        let working = minutes(locker.what.working.as_ref()).unwrap_or(WORKING_MINUTES);
        return too_late(tightened, moment, working).map(|how| format!("is tightened again {how}, on locker that has set"));
    }
    let bead = Laid::all(walk, at).into_iter().find(|laid| laid.closing.contains(thing))?;
    too_late(tightened, moment, bead.working).map(|how| format!("is tightened again {how}, and {} under it has set", bead.entry.name))
}

fn last_tightening<'w, 'm>(walk: &'w Walk<'m>, before: usize, thing: &ThingRef) -> Option<&'w Moment<'m>> {
    walk.moments.get(..before)?.iter().rfind(|other| other.verb == Verb::Torque && other.act.things.contains(thing))
}

fn conflict(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let (thing, entry) = fastener(walk, moment)?;
    if walk.machine.may_mean(&thing.id) || moment.act.times.is_some() {
        return None;
    }
    let why = why_not_again(walk, at, moment)?;
    let tightened = last_tightening(walk, at, thing)?;
    Some(
        Finding::new(&RETORQUE_CONFLICT, moment.act.place.clone(), format!("{} {why}", entry.name))
            .label("must not be turned again")
            .related(tightened.act.place.clone(), format!("tightened in {}", tightened.words()))
            .fix(format!("look at its painted line instead; or slacken it first (loosen:{}), renew what has set, and begin anew", thing.id))
            .about(thing.id.clone()),
    )
}

/// A bead that was laid before some moment.
struct Laid<'m> {
    at: usize,
    thing: &'m ThingRef,
    entry: &'m Entry<Bead>,
    closing: Vec<ThingRef>,
    /// How long it can be worked, min.
    working: f64,
}

impl<'m> Laid<'m> {
    /// Every bead laid before a moment, the latest first.
    fn all(walk: &Walk<'m>, before: usize) -> Vec<Self> {
        let laid = walk.moments.iter().enumerate().take(before).rev().filter(|(_, moment)| moment.verb == Verb::Apply);
        laid.filter_map(|(at, moment)| Self::of(walk, at, moment)).collect()
    }

    fn of(walk: &Walk<'m>, at: usize, moment: &Moment<'m>) -> Option<Self> {
        let scope = walk.scope(moment.procedure);
        let thing = moment.act.thing().filter(|thing| thing.kind == ListKind::Beads)?;
        let entry = scope.thing(|lists| &lists.beads, thing)?;
        let sealant = entry.what.of.get(&walk.combination).and_then(|id| scope.entry(|lists| &lists.materials, id));
        let working = sealant.and_then(|sealant| minutes(sealant.what.working.as_ref())).unwrap_or(WORKING_MINUTES);
        let closing = entry.what.between.iter().flat_map(|part| walk.fasteners_of(scope, &part.value)).collect();
        Some(Self { at, thing, entry, closing, working })
    }

    fn lies_on(&self, thing: &ThingRef) -> bool {
        ListKind::THINGS.contains(&thing.kind) && self.entry.what.between.iter().any(|part| part.value == thing.id)
    }
}

fn released(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    if walk.machine.may_mean(&thing.id) {
        return None;
    }
    let laid = Laid::all(walk, at).into_iter().find(|laid| laid.closing.contains(thing) || laid.lies_on(thing))?;
    let closed_by = |other: &Moment<'_>| other.verb == Verb::Torque && other.act.things.iter().any(|thing| laid.closing.contains(thing));
    let closed = walk.moments.get(laid.at..at)?.iter().rfind(|other| closed_by(other))?;
    let again = if laid.closing.contains(thing) {
        let count = fastener(walk, moment).and_then(|(_, entry)| entry.what.count.get(&walk.combination).copied()).unwrap_or(1);
        let whole = count > 1 && moment.act.times.is_none_or(|times| times >= count);
        whole.then_some(Verb::Torque).filter(|_| moment.before.holds())?
    } else {
        Some(Verb::Fit).filter(|_| moment.before == State::Fitted)?
    };
    let behind = walk.moments.get(at + 1..)?;
    let closes_again = behind.iter().find(|other| {
        let anew = other.verb == Verb::Apply && other.act.things.contains(laid.thing);
        anew || (other.verb == again && other.act.things.contains(thing))
    })?;
    let how = too_late(closed, moment, laid.working).filter(|_| closes_again.verb == again)?;
    let scope = walk.scope(moment.procedure);
    let name = scope.head(thing).map_or(thing.id.as_str(), |head| head.name);
    Some(
        Finding::new(&CURED_JOINT_RELEASED, moment.act.place.clone(), format!("{} is let go here, {how}, and closed again without a new one", laid.entry.name))
            .label("breaks what has set")
            .related(closed.act.place.clone(), format!("closed in {}", closed.words()))
            .related(closes_again.act.place.clone(), format!("{name} again, and no new bead before it"))
            .figure(format!("the sealant can be worked for {}", time_words(laid.working)))
            .fix(format!("change fasteners one at a time (*1), or open the joint, clean it and lay the bead anew: apply:{}", laid.thing.id))
            .about(laid.thing.id.clone()),
    )
}
