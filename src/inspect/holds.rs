//! Hold points: somebody stops and looks before what can't be looked at any more.

use super::Context;
use super::order::{find_in_machine, unfinished};
use super::walk::{Moment, Walk, in_every, is_full};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{ListKind, ThingRef, Verb};
use std::collections::BTreeSet;

/// A machine is run or loaded with critical work open.
pub(super) static LOAD_BEFORE_SIGNOFF: Rule = Rule {
    name: "load-before-signoff",
    severity: Severity::Error,
    summary: "A machine is run or loaded while critical work is unfinished or not signed by two people.",
    explanation: Explanation {
        finds: "Tests of kind run or load before which a critical fastener or part has been worked on and is not in its final state, or is still to be finished in the same procedure, or has been finished and not yet been looked at by two different people (hold:, sign:).",
        matters: "The first load is what kills when a brake, a hub or a hook is not what everybody thinks it is.",
        may_be_wrong: "Where the test neither turns nor loads the joint: give it kind: function.",
        example: "[Tighten the hub nut](torque:hub-nut). [Load test](test:load-test). [Both have looked](hold:editor,winch-warden)",
        instead: "[Tighten the hub nut](torque:hub-nut). [Both have looked](hold:editor,winch-warden). [Load test](test:load-test)",
    },
};

/// Nobody looks before work is hidden or loaded.
pub(super) static HOLD_POINT_MISSING: Rule = Rule {
    name: "hold-point-missing",
    severity: Severity::Warning,
    summary: "Critical work is hidden or a machine loaded, and nobody stops to look before.",
    explanation: Explanation {
        finds: "A part that goes on for good over a critical fastener or part (covers:) that two people have not looked at yet, though both sign later in its procedure; and tests of kind load with no hold: or sign: before them in their procedure.",
        matters: "A second look through a closed cover sees the cover.",
        may_be_wrong: "Where the cover has a window: put the hold: there all the same, it costs a minute.",
        example: "[Tighten the hub nut](torque:hub-nut). [Cover on](fit:cover). [Both have looked](hold:editor,winch-warden)",
        instead: "[Tighten the hub nut](torque:hub-nut). [Both have looked](hold:editor,winch-warden). [Cover on](fit:cover)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        let critical = critical_things(walk);
        for (at, moment) in walk.moments.iter().enumerate() {
            if let Some(how) = load(walk, moment) {
                findings.extend(critical.iter().filter_map(|thing| loaded(walk, at, how, thing)));
                // A trial run hurts nobody whose critical work is signed; a load does.
                findings.extend((how == "loaded").then(|| loaded_unseen(walk, at)).flatten());
            }
            if moment.verb == Verb::Fit {
                findings.extend(hidden_unseen(walk, at, &critical));
            }
        }
    });
}

/// The acts that finish critical things which a load comes to unsigned: told here, and not once more as
/// signed by too few.
pub(super) fn finished_before_load(context: &Context<'_>) -> BTreeSet<Place> {
    let mut all = BTreeSet::new();
    for walk in &context.walks {
        let critical = critical_things(walk);
        for (at, _) in walk.moments.iter().enumerate().filter(|(_, moment)| load(walk, moment).is_some()) {
            let unsigned = critical.iter().filter(|thing| open_at(walk, thing, at).is_none()).filter_map(|thing| unsigned(walk, thing, at));
            all.extend(unsigned.map(|(finished, _)| finished.act.place.clone()));
        }
    }
    all
}

/// What a moment does to the machine, where it runs or loads it: "run" or "loaded".
fn load(walk: &Walk<'_>, moment: &Moment<'_>) -> Option<&'static str> {
    let test = moment.act.thing().filter(|_| moment.verb == Verb::Test)?;
    let test = walk.scope(moment.procedure).thing(|lists| &lists.tests, test)?;
    match test.what.kind.get(&walk.combination)?.as_str() {
        "run" => Some("run"),
        "load" => Some("loaded"),
        _ => None,
    }
}

/// The critical fasteners and parts that a walk works on.
fn critical_things<'w>(walk: &'w Walk<'_>) -> Vec<&'w ThingRef> {
    let is_critical = |thing: &&ThingRef| {
        let home = walk.moments_of(thing).next().map(|(_, moment)| walk.scope(moment.procedure));
        home.is_some_and(|scope| match thing.kind {
            ListKind::Fasteners => scope.thing(|lists| &lists.fasteners, thing).is_some_and(|entry| entry.what.critical),
            ListKind::Parts => scope.thing(|lists| &lists.parts, thing).is_some_and(|entry| entry.what.critical),
            _ => false,
        })
    };
    walk.history.keys().filter(is_critical).filter(|thing| !walk.machine.may_mean(&thing.id)).collect()
}

fn name_of<'m>(walk: &Walk<'m>, moment: &Moment<'m>, thing: &ThingRef) -> Option<&'m str> {
    walk.scope(moment.procedure).head(thing).map(|head| head.name)
}

/// How a critical thing is open before a moment, and the moment that left it so; none where it is finished, or
/// not begun and none of this procedure's business.
fn open_at<'w, 'm>(walk: &'w Walk<'m>, thing: &ThingRef, at: usize) -> Option<(String, Option<&'w Moment<'m>>)> {
    let left = walk.open.iter().find(|span| span.thing == *thing && span.opened < at && span.closed.is_none_or(|closed| closed > at));
    if let Some(span) = left {
        return Some((format!("left {}", span.left()), walk.moments.get(span.opened)));
    }
    let open = unfinished(walk, &thing.id, at)?;
    let here = walk.moments.get(at)?;
    let since = open.since.and_then(|since| walk.moments.get(since));
    let next = walk.moments_of(thing).find(|(other, _)| *other > at).map(|(_, moment)| moment);
    // What is untouched so far and taken apart next was in before the work began.
    let comes = next.is_some_and(|next| next.procedure.id == here.procedure.id && !(since.is_none() && matches!(next.verb, Verb::Loosen | Verb::Remove | Verb::Mark)));
    // What was taken out for good, or belongs to work that has not begun, is no part of what runs here.
    let matters = since.is_some_and(|_| walk.state_before(thing, at).0.is_in_place()) || comes;
    matters.then_some((open.state, since))
}

/// The moment that finished a critical thing before a load, and who has signed since, where that is not yet two.
fn unsigned<'w, 'm>(walk: &'w Walk<'m>, thing: &ThingRef, at: usize) -> Option<(&'w Moment<'m>, BTreeSet<&'w str>)> {
    let (finished, moment) = finishing(walk, thing, at)?;
    let signers = signers(walk.moments.get(finished..at)?.iter());
    (signers.len() < 2).then_some((moment, signers))
}

/// The last act before a moment that brought a thing to its final state.
fn finishing<'w, 'm>(walk: &'w Walk<'m>, thing: &ThingRef, before: usize) -> Option<(usize, &'w Moment<'m>)> {
    let finishes = |moment: &Moment<'_>| match moment.verb {
        Verb::Torque => is_full(walk.scope(moment.procedure), thing, moment.act.stage),
        Verb::Fit => thing.kind == ListKind::Parts,
        Verb::Start => moment.after.holds(),
        _ => false,
    };
    let before = walk.moments.iter().enumerate().take(before).rev();
    before.filter(|(_, moment)| moment.act.thing() == Some(thing)).find(|(_, moment)| finishes(moment))
}

fn signers<'w>(moments: impl Iterator<Item = &'w Moment<'w>>) -> BTreeSet<&'w str> {
    let signing = moments.filter(|moment| matches!(moment.verb, Verb::Hold | Verb::Sign));
    signing.flat_map(|moment| moment.act.things.iter().map(|thing| thing.id.as_str())).collect()
}

fn loaded(walk: &Walk<'_>, at: usize, what: &str, thing: &ThingRef) -> Option<Finding> {
    let (moment, about) = (walk.moments.get(at)?, thing.id.clone());
    let name = name_of(walk, walk.moments_of(thing).next()?.1, thing)?;
    if let Some((state, since)) = open_at(walk, thing, at) {
        let finding = Finding::new(&LOAD_BEFORE_SIGNOFF, moment.act.place.clone(), format!("the machine is {what} here, and {name} is {state}"))
            .label(format!("{name} is critical"))
            .fix(format!("finish {name} before this act, and have two people sign for it"))
            .about(about);
        return Some(match since {
            Some(since) => finding.related(since.act.place.clone(), format!("{state} since {}", since.words())),
            None => finding,
        });
    }
    let (finished, signers) = unsigned(walk, thing, at)?;
    let who = signers.first().map_or_else(|| "nobody has signed for it".to_owned(), |signer| format!("only ‘{signer}’ has signed for it"));
    Some(
        Finding::new(&LOAD_BEFORE_SIGNOFF, moment.act.place.clone(), format!("the machine is {what} here, {name} is critical, and {who}"))
            .label("two signatures needed before this")
            .related(finished.act.place.clone(), format!("finished in {}", finished.words()))
            .fix("put the hold point before this act: hold:ONE,ANOTHER")
            .about(about),
    )
}

fn loaded_unseen(walk: &Walk<'_>, at: usize) -> Option<Finding> {
    let moment = walk.moments.get(at)?;
    let before = walk.moments.get(..at)?;
    let held = before.iter().any(|other| matches!(other.verb, Verb::Hold | Verb::Sign) && other.procedure.id == moment.procedure.id);
    (!held).then(|| {
        Finding::new(&HOLD_POINT_MISSING, moment.act.place.clone(), "the machine is loaded here, and nobody has stopped to look before")
            .label("no hold point before this in the procedure")
            .fix("write who looks before it: [Warden has looked](hold:PERSON)")
            .about(format!("{}#{}", moment.procedure.id, moment.step.id))
    })
}

/// A part that goes on over critical work which both people sign for only behind it.
fn hidden_unseen(walk: &Walk<'_>, at: usize, critical: &[&ThingRef]) -> Option<Finding> {
    let moment = walk.moments.get(at)?;
    let cover = moment.act.thing().filter(|thing| thing.kind == ListKind::Parts)?;
    let entry = walk.scope(moment.procedure).thing(|lists| &lists.parts, cover)?;
    entry.what.covers.iter().find_map(|covered| {
        let kinds = [ListKind::Fasteners, ListKind::Parts];
        let thing = kinds.iter().find_map(|kind| find_in_machine(walk.machine, *kind, &covered.value)).map(|(thing, _)| thing)?;
        let thing = critical.iter().find(|critical| ***critical == thing)?;
        // What is not finished under a cover, and what too few sign for anywhere, has rules of its own.
        let (finished, worked) = finishing(walk, thing, at).filter(|_| open_at(walk, thing, at).is_none())?;
        let seen = signers(walk.moments.get(finished..at)?.iter());
        let later = signers(walk.moments.get(finished..)?.iter().filter(|moment| moment.procedure.id == worked.procedure.id));
        let name = name_of(walk, worked, thing)?;
        (seen.len() < 2 && later.len() >= 2).then(|| {
            Finding::new(&HOLD_POINT_MISSING, moment.act.place.clone(), format!("{} goes on over {name}, before two people have looked at it", entry.name))
                .label(format!("hides {name}, which is critical"))
                .related(worked.act.place.clone(), format!("finished in {}", worked.words()))
                .figures(seen.iter().map(|signer| format!("signs before: {signer}")))
                .fix("put the hold point before this act: hold:ONE,ANOTHER")
                .about(cover.id.clone())
        })
    })
}
