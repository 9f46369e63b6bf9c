//! Trials of a machine whose fasteners are not at their values yet.

use super::Context;
use super::sessions::is_covered;
use super::walk::{Moment, State, Walk, in_every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Torque, Verb};
use std::collections::BTreeSet;

/// A machine is tried with a fastener that is only run up.
pub(super) static TRIED_BEFORE_TIGHT: Rule = Rule {
    name: "tried-before-tight",
    severity: Severity::Error,
    summary: "A machine is run, loaded or tested while a fastener is only run up by hand.",
    explanation: Explanation {
        finds: "test: of kind run or load while any fastener of the machine that has a torque is only run up by hand, at an early stage or slackened, and no open item (leaves_open:) covers it; load-before-signoff tells of critical ones. As a warning, test: of another kind while one that the same procedure ran up is at no value and is never tightened in it; a look whether all turns, before the nut is tightened, is good work.",
        matters: "A cover on six hand-tight screws sprays oil, and a nut that was never tightened comes off on the first run. That it is tightened later, for another reason, does not help then.",
        may_be_wrong: "Where it must be loose for the test, as an adjuster: write it under leaves_open:, with its reason.",
        example: "[Cover screws in by hand](start:cover-screw). [Run the engine](test:first-run) … [Cover screws out](remove:cover-screw)",
        instead: "[Cover screws in by hand](start:cover-screw), [tighten them](torque:cover-screw). [Run the engine](test:first-run)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        // What was left loose is told once, at the test that asks most of it.
        let mut told: BTreeSet<usize> = BTreeSet::new();
        for whole in [true, false] {
            for (at, test) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Test) {
                if is_of_the_whole(walk, test) == whole {
                    findings.extend(tried(walk, at, test, whole, &mut told));
                }
            }
        }
    });
}

/// Whether a test asks for the whole machine: those of other kinds are of one assembly on the bench.
pub(super) fn is_of_the_whole(walk: &Walk<'_>, test: &Moment<'_>) -> bool {
    let kind = |thing: &ThingRef| walk.scope(test.procedure).thing(|lists| &lists.tests, thing)?.what.kind.get(&walk.combination).map(String::as_str);
    matches!(test.act.thing().and_then(kind), Some("run" | "load"))
}

fn tried(walk: &Walk<'_>, at: usize, test: &Moment<'_>, whole: bool, told: &mut BTreeSet<usize>) -> Option<Finding> {
    let mut loose: Vec<(usize, &ThingRef, String)> = Vec::new();
    for thing in walk.history.keys().filter(|thing| thing.kind == ListKind::Fasteners) {
        let (state, since) = walk.state_before(thing, at);
        let is_loose = state == State::Started || (whole && matches!(state, State::Stage(_) | State::Loosened));
        let Some(since) = since.filter(|since| is_loose && !told.contains(since) && !is_covered(walk, thing, at)) else { continue };
        let Some(moment) = walk.moments.get(since).filter(|moment| whole || moment.procedure.id == test.procedure.id) else { continue };
        let Some(entry) = walk.scope(moment.procedure).thing(|lists| &lists.fasteners, thing) else { continue };
        // load-before-signoff tells of a critical one.
        if whole && entry.what.critical {
            continue;
        }
        // A free wheel felt before its nut is tightened is good work, where that is still to come.
        let comes = |(other, later): (usize, &Moment<'_>)| other > at && later.verb == Verb::Torque && later.procedure.id == test.procedure.id;
        if !whole && walk.moments_of(thing).any(comes) {
            continue;
        }
        if entry.what.torque.get(&walk.combination).is_some_and(|torque| *torque != Torque::Hand) {
            loose.push((since, thing, format!("{} is {}", entry.name, state.words())));
        }
    }
    loose.sort_by_key(|(since, _, _)| *since);
    told.extend(loose.iter().map(|(since, _, _)| *since));
    let (_, first, _) = loose.first()?;
    let what: Vec<&str> = loose.iter().map(|(_, _, what)| what.as_str()).collect();
    let finding = Finding::new(&TRIED_BEFORE_TIGHT, test.act.place.clone(), format!("a test is made while {}", what.join(", ")))
        .severity(if whole { Severity::Error } else { Severity::Warning })
        .label("not tight yet")
        .fix(format!("tighten it before the test: [Tighten it](torque:{}); or say under leaves_open: why it stays so, and where it is finished (finish_in: {}#STEP)", first.id, test.procedure.id))
        .about(format!("{}#{}", test.procedure.id, test.step.id));
    Some(loose.iter().filter_map(|(since, _, what)| Some((walk.moments.get(*since)?, what))).fold(finding, |finding, (moment, what)| {
        finding.related(moment.act.place.clone(), format!("{what} since {}", moment.words()))
    }))
}
