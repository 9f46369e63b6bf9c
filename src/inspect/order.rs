//! The order of work: what is done to a thing must make sense on what it is.

use super::Context;
use super::counts::still_in;
use super::joints::crushes_a_gasket;
use super::retorque::why_not_again;
use super::walk::{Misstep, Moment, State, Walk, in_every, is_locked_by_hand};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Home, ListKind, Lists, Machine, ThingRef, Verb};

/// A fastener is locked, marked or tightened that is not in.
pub(super) static FINISH_BEFORE_FIT: Rule = Rule {
    name: "finish-before-fit",
    severity: Severity::Error,
    summary: "A fastener is locked before it is tight, tightened after it was taken out, or skips a stage.",
    explanation: Explanation {
        finds: "lock: and mark: on a fastener that is not at its value, torque: and loosen: on one that was taken out and not put in again, and a stage (torque:bolt/2) before the one that comes first. A mark that shows where a fastener sat, before it is slackened, is silent.",
        matters: "A tab bent over a loose nut, or a painted line on one, tells the next reader that it is done.",
        may_be_wrong: "Where the tightening stands in a procedure that comes later: name this one in its after:.",
        example: "[Stake the nut](lock:hub-nut). [Tighten the nut](torque:hub-nut).",
        instead: "[Tighten the nut](torque:hub-nut). [Stake the nut](lock:hub-nut).",
    },
};

/// A fastener is tightened a second time.
pub(super) static TIGHTENED_TWICE: Rule = Rule {
    name: "tightened-twice",
    severity: Severity::Warning,
    summary: "A fastener at its value is tightened again.",
    explanation: Explanation {
        finds: "torque:, to the full value or a stage, on a fastener that is at its value already, with no loosen:, remove: or removal of the part it holds between.",
        matters: "A second click on a tight joint hides that it has moved, and adds torque to a locker that has set.",
        may_be_wrong: "Where the source asks for a second pass at the same value: list it as a stage, [48 N·m, 48 N·m].",
        example: "[Tighten the cap bolts](torque:cap-bolt) … [tighten the cap bolts again](torque:cap-bolt)",
        instead: "Look at the painted line instead, or slacken first: [slacken them](loosen:cap-bolt).",
    },
};

/// Something temporary stays in.
pub(super) static TEMPORARY_LEFT_IN: Rule = Rule {
    name: "temporary-left-in",
    severity: Severity::Error,
    summary: "Something that must come out again stays in.",
    explanation: Explanation {
        finds: "Fasteners and parts marked temporary: true that are in place, all or some of them, at the end of the build. As a warning: fit: of a part over one that comes out only later: one that its covers: names, that sits in a part it covers (in:), or that lies under it (under:).",
        matters: "A slave bolt in a case, or an old nut left on, is found when it has done its damage.",
        may_be_wrong: "Never: write the step that takes it out.",
        example: "[Two slave bolts in](start:slave-bolt)   and no remove:slave-bolt",
        instead: "[Slave bolts out](remove:slave-bolt)",
    },
};

/// Something is left in for a trial.
pub(super) static DRY_FIT_NOT_UNDONE: Rule = Rule {
    name: "dry-fit-not-undone",
    severity: Severity::Error,
    summary: "Something that was put in for a trial is never fitted for good.",
    explanation: Explanation {
        finds: "Things whose last act is dry-fit:, at the end of the build, and that no open item covers.",
        matters: "A carrier that was tried in dry has no O-ring yet, and looks as if it had.",
        may_be_wrong: "Where another procedure fits it for good: say so under leaves_open:.",
        example: "[Carrier in, no O-ring](dry-fit:carrier)   and nothing after it",
        instead: "[Carrier out again](remove:carrier) … [carrier in with its O-ring](fit:carrier)",
    },
};

/// A cover goes on over unfinished work.
pub(super) static COVERED_BEFORE_FINAL: Rule = Rule {
    name: "covered-before-final",
    severity: Severity::Error,
    summary: "A part goes on over something that is not finished.",
    explanation: Explanation {
        finds: "fit: of a part whose covers: names a fastener that is not tight (or not locked, where it is staked, tabbed or wired), a measurement, alignment or test not yet done, a part, seal or bearing not yet in, or an open item not yet closed.",
        matters: "What is under the cover is not seen again until it comes loose.",
        may_be_wrong: "Where it goes on for a trial only: dry-fit:.",
        example: "parts: {end-cover: {covers: [hub-nut]}}\n[Cover on](fit:end-cover) … [tighten the hub nut](torque:hub-nut)",
        instead: "[Tighten the hub nut](torque:hub-nut) … [cover on](fit:end-cover)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate() {
            findings.extend(misstep(walk, at, moment));
            findings.extend(covered(walk, at, moment));
        }
        for (thing, state, at) in walk.ends() {
            if let Some(moment) = walk.moments.get(at) {
                findings.extend(left_in(walk, thing, state, moment));
            }
        }
    });
}

fn misstep(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    let name = walk.scope(moment.procedure).head(thing)?.name;
    // What an act that could not be read may have done is not known.
    if walk.machine.may_mean(&thing.id) {
        return None;
    }
    let (rule, message, label, fix) = match moment.misstep? {
        // Where it must not be tightened at all, that is told.
        Misstep::TightenedAgain if moment.act.times.is_none() && why_not_again(walk, at, moment).is_some() => return None,
        Misstep::TightenedAgain if !is_rest_of_a_group(walk, thing, at, moment) => (
            &TIGHTENED_TWICE,
            format!("{name} is {} already, and is tightened again", if moment.before == State::Locked { "locked" } else { "tight" }),
            "a second time",
            format!("slacken it first (loosen:{}), or look at its painted line instead", thing.id),
        ),
        Misstep::NotIn => not_in(walk, thing, name, at, moment)?,
        Misstep::StageLeftOut => {
            let (stage, before) = (moment.act.stage?, if let State::Stage(done) = moment.before { done + 1 } else { 1 });
            (
                &FINISH_BEFORE_FIT,
                format!("{name} is brought to stage {stage} here, and stage {before} has not been done"),
                "a stage is left out",
                format!("begin with torque:{}/{before}", thing.id),
            )
        }
        _ => return None,
    };
    let finding = Finding::new(rule, moment.act.place.clone(), message).label(label).fix(fix).about(thing.id.clone());
    Some(match earlier(walk, thing, at) {
        Some(earlier) => finding.related(earlier.act.place.clone(), format!("{} since {}", moment.before.words(), earlier.words())),
        None => finding,
    })
}

type Told = (&'static Rule, String, &'static str, String);

fn not_in(walk: &Walk<'_>, thing: &ThingRef, name: &str, at: usize, moment: &Moment<'_>) -> Option<Told> {
    let only = if matches!(moment.before, State::Started | State::Stage(_)) { "only " } else { "" };
    let state = format!("{only}{}", moment.before.words());
    let (doing, label, fix) = match moment.verb {
        Verb::Mark if is_taken_apart(walk, thing, at) => return None,
        // What is never tightened at all is told as that.
        Verb::Lock | Verb::Mark if !walk.moments_of(thing).any(|(other, moment)| other > at && moment.verb == Verb::Torque) => return None,
        Verb::Lock => ("locked", "not tight yet", format!("tighten it first: torque:{}", thing.id)),
        Verb::Mark => ("marked", "not tight yet", format!("tighten it first: torque:{}", thing.id)),
        Verb::Loosen => ("slackened", "not in any more", format!("put it in first: start:{}", thing.id)),
        _ => ("tightened", "not in any more", format!("put it in first: start:{}", thing.id)),
    };
    Some((&FINISH_BEFORE_FIT, format!("{name} is {doing} here, and is {state}"), label, fix))
}

/// Whether a fastener that was in before the work began is slackened or taken out next: then a mark shows
/// where it sat.
fn is_taken_apart(walk: &Walk<'_>, thing: &ThingRef, at: usize) -> bool {
    let next = walk.moments_of(thing).find(|(other, moment)| *other > at && moment.verb != Verb::Mark);
    walk.state_before(thing, at).1.is_none() && next.is_some_and(|(_, moment)| matches!(moment.verb, Verb::Loosen | Verb::Remove))
}

/// Whether an act tightens the rest of a group of which some are tight: `torque:bolt*3`, then `torque:bolt*3`.
fn is_rest_of_a_group(walk: &Walk<'_>, thing: &ThingRef, at: usize, moment: &Moment<'_>) -> bool {
    let count = walk.scope(moment.procedure).thing(|lists| &lists.fasteners, thing).and_then(|entry| entry.what.count.get(&walk.combination));
    let (Some(count), Some(_)) = (count, moment.act.times) else { return false };
    let mut tightened = 0_u64;
    for (_, other) in walk.moments_of(thing).filter(|(other, _)| *other <= at) {
        match (other.verb, other.act.times) {
            (Verb::Torque, Some(times)) if other.act.stage == moment.act.stage => tightened = tightened.saturating_add(times),
            (Verb::Torque, None) => return false,
            (Verb::Loosen | Verb::Remove, _) => tightened = 0,
            _ => {}
        }
    }
    tightened <= *count
}

/// The moment that left a thing as it is before another.
pub(super) fn earlier<'w, 'm>(walk: &'w Walk<'m>, thing: &ThingRef, before: usize) -> Option<&'w Moment<'m>> {
    walk.state_before(thing, before).1.and_then(|at| walk.moments.get(at))
}

fn left_in(walk: &Walk<'_>, thing: &ThingRef, state: State, moment: &Moment<'_>) -> Option<Finding> {
    if walk.open.iter().any(|span| span.thing == *thing) || walk.machine.may_mean(&thing.id) {
        return None;
    }
    let scope = walk.scope(moment.procedure);
    let name = scope.head(thing)?.name;
    if is_temporary(scope.lists_of(thing)?, thing) {
        let left = still_in(walk, thing);
        let (message, fix) = match (state.is_in_place(), left) {
            (true, _) => (format!("{name} is temporary and never comes out"), format!("take it out: remove:{}", thing.id)),
            (false, 1) => (format!("{name} is temporary, and one stays in"), format!("take it out as well: remove:{}", thing.id)),
            (false, 2..) => (format!("{name} is temporary, and {left} stay in"), format!("take all of them out: remove:{}", thing.id)),
            (false, 0) => return None,
        };
        let finding = Finding::new(&TEMPORARY_LEFT_IN, moment.act.place.clone(), message).label("the last that is done to it").fix(fix).about(thing.id.clone());
        let puts_in = |moment: &Moment<'_>| matches!(moment.verb, Verb::Fit | Verb::DryFit | Verb::Start | Verb::Torque) && moment.after.is_in_place();
        let put_in = walk.moments_of(thing).map(|(_, moment)| moment).rfind(|moment| puts_in(moment));
        return Some(match put_in.filter(|put_in| put_in.act.place != moment.act.place) {
            Some(put_in) => finding.related(put_in.act.place.clone(), format!("goes in: {}", put_in.words())),
            None => finding,
        });
    }
    (state == State::DryFitted && thing.kind != ListKind::Fasteners).then(|| {
        Finding::new(&DRY_FIT_NOT_UNDONE, moment.act.place.clone(), format!("{name} goes in for a trial and never for good"))
            .label("the last that is done to it")
            .fix(format!("fit it for good: fit:{}; or say under leaves_open: where it is finished", thing.id))
            .about(thing.id.clone())
    })
}

pub(super) fn is_temporary(lists: &Lists, thing: &ThingRef) -> bool {
    match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(&thing.id).is_some_and(|entry| entry.what.temporary),
        ListKind::Parts => lists.parts.get(&thing.id).is_some_and(|entry| entry.what.temporary),
        _ => false,
    }
}

fn covered(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let cover = moment.act.thing().filter(|thing| moment.verb == Verb::Fit && thing.kind == ListKind::Parts)?;
    let scope = walk.scope(moment.procedure);
    let entry = scope.thing(|lists| &lists.parts, cover)?;
    // A gasket that is squeezed for it and comes off again is told at the gasket, with the order that spares it.
    if entry.what.covers.is_empty() || crushes_a_gasket(walk, at, &cover.id) {
        return None;
    }
    entry.what.covers.iter().filter(|covered| !is_out_for_good(walk, &covered.value, at)).find_map(|covered| {
        let open = unfinished(walk, &covered.value, at)?;
        let Unfinished { name, state, since } = &open;
        let finding = Finding::new(&COVERED_BEFORE_FINAL, moment.act.place.clone(), format!("{} goes on over {name}, which is {state}", entry.name))
            .label(format!("hides {name}"))
            .related(covered.place.clone(), "must be finished first")
            .fix(format!("finish {name} before this act, or put the part on for a trial only (dry-fit:{})", cover.id))
            .about(cover.id.clone());
        Some(match since.and_then(|at| walk.moments.get(at)) {
            Some(earlier) => finding.related(earlier.act.place.clone(), format!("{state} since {}", earlier.words())),
            None => finding,
        })
    })
}

/// Whether what a cover names is a temporary thing that is out: so it must be before the cover goes on.
fn is_out_for_good(walk: &Walk<'_>, id: &str, at: usize) -> bool {
    let found = ListKind::THINGS.iter().find_map(|kind| find_in_machine(walk.machine, *kind, id));
    found.is_some_and(|(thing, _)| lists_of(walk.machine, &thing).is_some_and(|lists| is_temporary(lists, &thing)) && !walk.state_before(&thing, at).0.is_in_place())
}

/// Something that is not finished: its name, how it stands, and the moment that left it so.
pub(super) struct Unfinished {
    pub(super) name: String,
    pub(super) state: String,
    pub(super) since: Option<usize>,
}

/// What is covered, where it is not finished before a moment.
pub(super) fn unfinished(walk: &Walk<'_>, id: &str, before: usize) -> Option<Unfinished> {
    if let Some(span) = walk.open.iter().find(|span| span.item.id == id) {
        let open = span.opened < before && span.closed.is_none_or(|closed| closed > before);
        return open.then(|| Unfinished { name: format!("‘{id}’"), state: "still open".to_owned(), since: Some(span.opened) });
    }
    let (thing, name) = COVERED.iter().find_map(|kind| find_in_machine(walk.machine, *kind, id))?;
    let lists = lists_of(walk.machine, &thing)?;
    if lists.head(thing.kind, id).is_some_and(|head| !walk.combination.satisfies(head.only)) || walk.machine.may_mean(id) {
        return None;
    }
    let (state, since) = walk.state_before(&thing, before);
    let lock = lists.fasteners.get(id).filter(|_| thing.kind == ListKind::Fasteners).and_then(|entry| entry.what.lock.get(&walk.combination));
    let to_be_locked = lock.is_some_and(|lock| is_locked_by_hand(lock));
    let state = match (thing.kind, state) {
        (ListKind::Fasteners, State::Tight) if to_be_locked => "tightened and not locked yet".to_owned(),
        (ListKind::Fasteners, State::Tight | State::Locked) | (_, State::Fitted | State::Done) => return None,
        (_, State::Absent | State::Begun) if !ListKind::THINGS.contains(&thing.kind) => "not done yet".to_owned(),
        (_, state) => state.words(),
    };
    Some(Unfinished { name, state, since })
}

/// The lists a cover may name.
const COVERED: &[ListKind] = &[
    ListKind::Fasteners,
    ListKind::Measures,
    ListKind::Aligns,
    ListKind::Tests,
    ListKind::Parts,
    ListKind::Seals,
    ListKind::Bearings,
];

/// A thing of a machine's own lists or of any of its procedures'.
pub(super) fn find_in_machine(machine: &Machine, kind: ListKind, id: &str) -> Option<(ThingRef, String)> {
    let own = machine.lists.head(kind, id).map(|head| (Home::Machine, head.name.to_owned()));
    let found = own.or_else(|| {
        machine
            .procedures
            .iter()
            .find_map(|p| p.lists.head(kind, id).map(|head| (Home::Procedure(p.id.clone()), head.name.to_owned())))
    });
    found.map(|(home, name)| (ThingRef { kind, home, id: id.to_owned() }, name))
}

fn lists_of<'m>(machine: &'m Machine, thing: &ThingRef) -> Option<&'m Lists> {
    match &thing.home {
        Home::Machine => Some(&machine.lists),
        Home::Procedure(id) => machine.procedure(id).map(|p| &p.lists),
        Home::Shop => None,
    }
}
