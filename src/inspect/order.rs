//! The order of work: what is done to a thing must make sense on what it is.

use super::Context;
use super::walk::{Misstep, Moment, State, Walk};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Home, ListKind, Lists, Machine, ThingRef, Verb};

/// A fastener is locked, marked or tightened that is not in.
pub(super) static FINISH_BEFORE_FIT: Rule = Rule {
    name: "finish-before-fit",
    severity: Severity::Error,
    summary: "A fastener is locked or marked before it is tight, or tightened after it was taken out.",
    explanation: Explanation {
        finds: "lock:, mark: and loosen: on a fastener that is not at its value, and torque: on one that was taken out and not put in again.",
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
        finds: "torque: to the full value of a fastener that is at it already, with no loosen:, remove: or removal of the part it holds between.",
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
        finds: "Fasteners and parts marked temporary: true that are in place at the end of the build, or at a sign:.",
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
        finds: "fit: of a part whose covers: names a fastener that is not tight, a measurement, alignment or test not yet done, or an open item not yet closed.",
        matters: "What is under the cover is not seen again until it comes loose.",
        may_be_wrong: "Where it goes on for a trial only: dry-fit:.",
        example: "parts: {end-cover: {covers: [hub-nut]}}\n[Cover on](fit:end-cover) … [tighten the hub nut](torque:hub-nut)",
        instead: "[Tighten the hub nut](torque:hub-nut) … [cover on](fit:end-cover)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for walk in &context.walks {
        for (at, moment) in walk.moments.iter().enumerate() {
            findings.extend(misstep(walk, at, moment));
            findings.extend(covered(walk, at, moment));
        }
        for (thing, state, at) in walk.ends() {
            if let Some(moment) = walk.moments.get(at) {
                findings.extend(left_in(walk, thing, state, moment));
            }
        }
    }
}

fn misstep(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let thing = moment.act.thing()?;
    let scope = walk.scope(moment.procedure);
    let name = scope.head(thing)?.name;
    let state = moment.before.words();
    let (rule, message, fix) = match moment.misstep? {
        Misstep::TightenedAgain if moment.act.stage.is_none() || moment.after == State::Tight => (
            &TIGHTENED_TWICE,
            format!("{name} is {state} already and is tightened again"),
            format!("slacken it first (loosen:{}), or look at its painted line instead", thing.id),
        ),
        Misstep::NotIn => {
            let doing = match moment.verb {
                Verb::Lock => "locked",
                Verb::Mark => "marked",
                Verb::Loosen => "slackened",
                _ => "tightened",
            };
            let fix = match moment.verb {
                Verb::Lock | Verb::Mark => format!("tighten it first: torque:{}", thing.id),
                _ => format!("put it in first: start:{}", thing.id),
            };
            (&FINISH_BEFORE_FIT, format!("{name} is {doing} here and is {state}"), fix)
        }
        _ => return None,
    };
    let finding = Finding::new(rule, moment.act.place.clone(), message).label("makes no sense yet").fix(fix).about(thing.id.clone());
    Some(match earlier(walk, thing, at) {
        Some(earlier) => finding.label(state).related(earlier.act.place.clone(), earlier.words()),
        None => finding,
    })
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
    if is_temporary(scope.lists_of(thing)?, thing) && state.is_in_place() {
        return Some(
            Finding::new(&TEMPORARY_LEFT_IN, moment.act.place.clone(), format!("{name} is temporary and never comes out{}", walk.variant_words()))
                .label(format!("{} from here on", state.words()))
                .fix(format!("take it out: remove:{}", thing.id))
                .about(thing.id.clone()),
        );
    }
    (state == State::DryFitted && thing.kind != ListKind::Fasteners).then(|| {
        Finding::new(&DRY_FIT_NOT_UNDONE, moment.act.place.clone(), format!("{name} goes in for a trial and never for good{}", walk.variant_words()))
            .label("the last that is done to it")
            .fix(format!("fit it for good: fit:{}; or say under leaves_open: where it is finished", thing.id))
            .about(thing.id.clone())
    })
}

fn is_temporary(lists: &Lists, thing: &ThingRef) -> bool {
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
    entry.what.covers.iter().find_map(|covered| {
        let (name, state, done_at) = unfinished(walk, &covered.value, at)?;
        let finding = Finding::new(&COVERED_BEFORE_FINAL, moment.act.place.clone(), format!("{} goes on over {name}, which is {state}", entry.name))
            .label(format!("hides {name}"))
            .related(covered.place.clone(), "must be finished first")
            .fix(format!("finish {name} before this act, or put the part on for a trial only (dry-fit:)"))
            .about(cover.id.clone());
        Some(match done_at.and_then(|at| walk.moments.get(at)) {
            Some(earlier) => finding.related(earlier.act.place.clone(), earlier.words()),
            None => finding,
        })
    })
}

/// What is covered and not finished before a moment: its name, its state in words, the moment that left it so.
fn unfinished(walk: &Walk<'_>, id: &str, before: usize) -> Option<(String, String, Option<usize>)> {
    if let Some(span) = walk.open.iter().find(|span| span.item.id == id) {
        let open = span.closed.is_none_or(|closed| closed > before);
        return (open && span.opened < before).then(|| (format!("‘{id}’"), "still open".to_owned(), Some(span.opened)));
    }
    let kinds = [ListKind::Fasteners, ListKind::Measures, ListKind::Aligns, ListKind::Tests, ListKind::Parts];
    let (thing, name) = kinds.iter().find_map(|kind| find_in_machine(walk.machine, *kind, id))?;
    let lists = lists_of(walk.machine, &thing)?;
    if lists.head(thing.kind, id).is_some_and(|head| !walk.combination.satisfies(head.only)) {
        return None;
    }
    let (state, at) = walk.state_before(&thing, before);
    let finished = match thing.kind {
        ListKind::Fasteners => state.holds(),
        ListKind::Parts => state == State::Fitted,
        _ => state == State::Done,
    };
    (!finished).then(|| (name, if state == State::Absent { "not done yet".to_owned() } else { state.words() }, at))
}

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
