//! Joints: gaskets that are squeezed once, beads that set, and fluids that wait for them.

use super::Context;
use super::locker_work::{minutes, time_words};
use super::walk::{Moment, State, Walk};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Verb};

/// A gasket is squeezed and its cover comes off again.
pub(super) static GASKET_CRUSHED_EARLY: Rule = Rule {
    name: "gasket-crushed-early",
    severity: Severity::Error,
    summary: "A gasket goes in, and its cover comes off again.",
    explanation: Explanation {
        finds: "A gasket used once (reuse: never) that is fitted under a cover (under:) which a later step takes off again.",
        matters: "The gasket is squeezed for a joint that is not the last one.",
        may_be_wrong: "Where the gasket may be used again: reuse: inspect, with when:.",
        example: "[Gasket on](fit:hatch-gasket), [hatch on](fit:hatch) … [hatch off, read the pattern](remove:hatch)",
        instead: "[Hatch on without its gasket](dry-fit:hatch), read the pattern, then gasket and hatch for good.",
    },
};

/// A fluid comes before a bead has cured.
pub(super) static CURE_BEFORE_FLUID: Rule = Rule {
    name: "cure-before-fluid",
    severity: Severity::Error,
    summary: "A fluid is poured, or a machine run, before a sealant has cured.",
    explanation: Explanation {
        finds: "fill: acts and tests of kind leak, pressure, run or load that come, by the minutes of the steps and the waits between, sooner after a bead's joint was closed than its sealant's cure time.",
        matters: "Oil washes out what has not set, and the joint weeps for good.",
        may_be_wrong: "Where the fluid does not reach the joint. Stops for the day don't count as time: write the wait.",
        example: "[Lay the bead](apply:case-bead), [close the case](torque:case-bolt), [pour in the oil](fill:oil)",
        instead: "waits: {case-cure: {time: ≥ 24 h, of: [case-bead]}}   and [the sealant has cured](wait:case-cure) before the oil",
    },
};

/// A joint is closed after its sealant's open time.
pub(super) static SEALANT_OPEN_TIME: Rule = Rule {
    name: "sealant-open-time",
    severity: Severity::Warning,
    summary: "A joint is closed after its sealant has begun to set.",
    explanation: Explanation {
        finds: "Beads whose joint is tightened later, by the minutes of the steps, than the sealant can be worked (working:), or after a stop or a wait.",
        matters: "A skin that has formed does not wet the other face: the joint leaks where it looks best.",
        may_be_wrong: "Where two people work, or the steps take less time than they state.",
        example: "bead step 10 min, closing step 20 min, working: 10 min",
        instead: "Lay out the bolts first, work in pairs, or take a slower sealant.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for (at, moment) in walk.moments.iter().enumerate() {
            match moment.verb {
                Verb::Fit => findings.extend(crushed(walk, at, moment)),
                Verb::Apply => bead(walk, at, moment, findings),
                _ => {}
            }
        }
    }
}

fn crushed(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let gasket = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts)?;
    let scope = walk.scope(moment.procedure);
    let entry = scope.thing(|lists| &lists.parts, gasket)?;
    let once = entry.what.reuse.get(&walk.combination).is_some_and(|reuse| reuse == "never");
    let kind = entry.what.kind.get(&walk.combination).map(String::as_str);
    if !once || kind != Some("gasket") {
        return None;
    }
    let cover = entry.what.under.get(&walk.combination)?;
    let opened = walk.moments.iter().skip(at + 1).find(|later| {
        later.verb == Verb::Remove && later.before.is_in_place() && later.act.things.iter().any(|thing| thing.id == *cover)
    })?;
    Some(
        Finding::new(&GASKET_CRUSHED_EARLY, moment.act.place.clone(), format!("{} goes in here, and its cover comes off again", entry.name))
            .label("squeezed too early")
            .related(opened.act.place.clone(), format!("the cover comes off: {}", opened.words()))
            .fix("put the cover on for a trial first (dry-fit:), and the gasket when it goes on for good")
            .about(gasket.id.clone()),
    )
}

fn bead(walk: &Walk<'_>, at: usize, moment: &Moment<'_>, findings: &mut Vec<Finding>) {
    let scope = walk.scope(moment.procedure);
    let Some(bead) = moment.act.thing().filter(|thing| thing.kind == ListKind::Beads) else { return };
    let Some(entry) = scope.thing(|lists| &lists.beads, bead) else { return };
    let Some(material) = entry.what.of.get(&walk.combination).and_then(|id| scope.entry(|lists| &lists.materials, id)) else { return };
    let closing: Vec<ThingRef> = entry.what.between.iter().flat_map(|part| walk.fasteners_of(scope, &part.value)).collect();
    let closes = |moment: &&Moment<'_>| moment.verb == Verb::Torque && moment.act.things.iter().any(|thing| closing.contains(thing));
    let behind = walk.moments.get(at + 1..).unwrap_or_default();
    let first = behind.iter().find(closes);
    if let (Some(working), Some(first)) = (minutes(material.what.working.as_ref()), first) {
        findings.extend(open_too_long(moment, first, &entry.name, working, &bead.id));
    }
    if let Some(cure) = minutes(material.what.cure.as_ref()) {
        findings.extend(not_cured(walk, at, moment, &closing, &entry.name, cure, &bead.id));
    }
}

fn open_too_long(bead: &Moment<'_>, first: &Moment<'_>, name: &str, working: f64, id: &str) -> Option<Finding> {
    // Steps between, in whole; within the bead's own step nobody knows how much is left.
    let between = (first.minutes - bead.minutes - bead.step.minutes.unwrap_or(0.0)).max(0.0);
    let how = if first.session != bead.session {
        "after a stop for the day".to_owned()
    } else if first.waited > bead.waited {
        format!("after a wait of {}", time_words(first.waited - bead.waited))
    } else if between > working {
        format!("{} of steps later", time_words(between))
    } else {
        return None;
    };
    Some(
        Finding::new(&SEALANT_OPEN_TIME, bead.act.place.clone(), format!("{name} is laid here, and its joint is tightened {how}"))
            .label("sets before the joint is closed")
            .related(first.act.place.clone(), first.words())
            .figure(format!("it can be worked for {}", time_words(working)))
            .fix("close the joint in the next step, or take a slower sealant")
            .about(id.to_owned()),
    )
}

fn not_cured(walk: &Walk<'_>, at: usize, bead: &Moment<'_>, closing: &[ThingRef], name: &str, cure: f64, id: &str) -> Option<Finding> {
    let wets = |moment: &Moment<'_>| match moment.verb {
        Verb::Fill => true,
        Verb::Test => {
            let test = moment.act.thing().and_then(|thing| walk.scope(moment.procedure).thing(|lists| &lists.tests, thing));
            let kind = test.and_then(|test| test.what.kind.get(&walk.combination)).map(String::as_str);
            matches!(kind, Some("leak" | "pressure" | "run" | "load"))
        }
        _ => false,
    };
    let (wet_at, wet) = walk.moments.iter().enumerate().skip(at + 1).find(|(_, moment)| wets(moment))?;
    let between = walk.moments.get(at..wet_at).unwrap_or_default();
    let closed = between.iter().rev().find(|moment| moment.verb == Verb::Torque && moment.act.things.iter().any(|thing| closing.contains(thing)));
    let from = closed.unwrap_or(bead);
    let gone = wet.minutes + wet.waited - from.minutes - from.waited;
    (gone < cure).then(|| {
        Finding::new(&CURE_BEFORE_FLUID, wet.act.place.clone(), format!("{name} has not cured here"))
            .label(format!("{} short", time_words(cure - gone)))
            .related(from.act.place.clone(), format!("closed in {}", from.words()))
            .figure(format!("the sealant cures in {}; {} have gone by, waits counted, stops not", time_words(cure), time_words(gone)))
            .fix(format!("wait before this act: waits: {{…: {{time: ≥ {}, of: [{id}]}}}}", time_words(cure)))
            .about(id.to_owned())
    })
}

/// A part is used while it is away.
pub(super) static PART_AWAY: Rule = Rule {
    name: "part-away",
    severity: Severity::Error,
    summary: "A part is used while it is away at a vendor.",
    explanation: Explanation {
        finds: "Acts on a part between its send: and its receive:.",
        matters: "The step can't be done, and whoever plans the evening finds out at the bench.",
        may_be_wrong: "Never: receive the part first, or move the step.",
        example: "[Block to the plater](send:block) … [block on the stand](fit:block)",
        instead: "[Block back and measured](receive:block), [block on the stand](fit:block)",
    },
};

/// Acts on things that are away.
pub(super) fn check_away(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for (at, moment) in walk.moments.iter().enumerate() {
            let things = moment.act.things.iter().filter(|thing| ListKind::THINGS.contains(&thing.kind));
            for thing in things {
                let (state, since) = walk.state_before(thing, at);
                let Some(sent) = since.and_then(|since| walk.moments.get(since)).filter(|_| state == State::Away) else { continue };
                findings.push(
                    Finding::new(&PART_AWAY, moment.act.place.clone(), format!("‘{}’ is used while it is away", thing.id))
                        .label("not here")
                        .related(sent.act.place.clone(), format!("sent away: {}", sent.words()))
                        .fix(format!("receive it first: receive:{}", thing.id))
                        .about(thing.id.clone()),
                );
            }
        }
    }
}
