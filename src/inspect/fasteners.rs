//! Fasteners: each has a final torque, and each that is started is finished.

use super::Context;
use super::walk::{State, Walk};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Entry, Fastener, Home, ListKind, Machine, Procedure, ThingRef, Torque, Verb};

/// A fastener is tightened and has no torque.
pub(super) static FINAL_TORQUE_MISSING: Rule = Rule {
    name: "final-torque-missing",
    severity: Severity::Error,
    summary: "A fastener goes in and has no torque.",
    explanation: Explanation {
        finds: "Fasteners that a step puts in or tightens and whose entry gives no torque; torque: hand without because:; and torque: acts on a fastener that is only run up by hand.",
        matters: "Without a value everyone tightens by feel, and feel differs by half.",
        may_be_wrong: "Guide studs, thumb screws and adjusters: write torque: hand and because:.",
        example: "fasteners: {stop-plate-bolt: {count: 2, thread: M6x1.0}}\n[Tighten the bolts](torque:stop-plate-bolt)",
        instead: "fasteners: {stop-plate-bolt: {count: 2, thread: M6x1.0, torque: 9 N·m, source: …}}",
    },
};

/// A fastener is started and never finished.
pub(super) static STARTED_NEVER_FINISHED: Rule = Rule {
    name: "started-never-finished",
    severity: Severity::Error,
    summary: "A fastener is started and never brought to its value.",
    explanation: Explanation {
        finds: "Fasteners that at the end of the whole build are still run up by hand, at an early stage, or slackened. The walk goes through every procedure of the machine in build order, for each variant that changes the work.",
        matters: "A nut that looks done and is only hand-tight comes off on the first run.",
        may_be_wrong: "Where another procedure finishes it: say so under leaves_open:, then this rule is silent and deferral-never-closed watches.",
        example: "[Bolt in by hand](start:cam-bolt)   and no torque:cam-bolt anywhere",
        instead: "Tighten it in a later step, or leave it open with finish_in: PROCEDURE#STEP.",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        final_torques(context, machine, findings);
    }
    for walk in &context.walks {
        unfinished(walk, findings);
    }
}

fn final_torques(context: &Context<'_>, machine: &Machine, findings: &mut Vec<Finding>) {
    let mut told: Vec<ThingRef> = Vec::new();
    for procedure in &machine.procedures {
        let scope = context.manual.scope(machine, procedure);
        for act in procedure.steps.iter().flat_map(|step| &step.acts) {
            let Some(thing) = act.thing().filter(|thing| thing.kind == ListKind::Fasteners) else { continue };
            let Some(entry) = scope.thing(|lists| &lists.fasteners, thing) else { continue };
            let goes_in = matches!(act.verb, Some(Verb::Torque | Verb::Start | Verb::Fit | Verb::Lock));
            if !goes_in || told.contains(thing) {
                continue;
            }
            let unreadable = scope.lists_of(thing).is_some_and(|lists| lists.is_unreadable(thing.kind, &thing.id, "torque"));
            if let Some(finding) = torque_fault(entry, unreadable, act.verb, &act.place) {
                findings.push(finding);
                told.push(thing.clone());
            }
        }
    }
}

fn torque_fault(entry: &Entry<Fastener>, unreadable: bool, verb: Option<Verb>, act: &Place) -> Option<Finding> {
    let fastener = &entry.what;
    if !fastener.torque.is_given() {
        // A torque that could not be read has been reported; one more report would not help.
        if unreadable {
            return None;
        }
        let thread = fastener.thread.first().map(|thread| format!("{} is {thread}", entry.name));
        let finding = Finding::new(&FINAL_TORQUE_MISSING, entry.id_place.clone(), format!("{} goes in and has no torque", entry.name))
            .label("no torque")
            .related(act.clone(), "goes in here")
            .figures(thread)
            .fix("give torque: with its unit and its source; or torque: hand with because:")
            .about(format!("{}.torque", entry.id));
        return Some(finding);
    }
    let by_hand = fastener.torque.cases.iter().find(|case| case.value == Torque::Hand)?;
    if fastener.because.is_none() {
        return Some(
            Finding::new(&FINAL_TORQUE_MISSING, by_hand.place.clone(), format!("{} is only run up by hand, without a reason", entry.name))
                .label("why only by hand?")
                .fix("add because:, or give its torque")
                .about(format!("{}.torque", entry.id)),
        );
    }
    (verb == Some(Verb::Torque) && !fastener.torque.varies()).then(|| {
        Finding::new(&FINAL_TORQUE_MISSING, act.clone(), format!("{} is tightened here, and its list says by hand", entry.name))
            .label("tightened to what?")
            .related(by_hand.place.clone(), "by hand")
            .fix("give its torque, or write start: where it is only run up")
            .about(format!("{}.torque", entry.id))
    })
}

fn unfinished(walk: &Walk<'_>, findings: &mut Vec<Finding>) {
    let own = walk.machine.procedures.iter().map(|p| (Home::Procedure(p.id.clone()), &p.lists));
    for (home, lists) in own.chain([(Home::Machine, &walk.machine.lists)]) {
        for entry in lists.fasteners.values().filter(|entry| walk.combination.satisfies(&entry.only)) {
            let thing = ThingRef { kind: ListKind::Fasteners, home: home.clone(), id: entry.id.clone() };
            findings.extend(never_finished(walk, &thing, entry));
        }
    }
}

/// A fastener that is worked on and, at the end of the build, does not hold.
fn never_finished(walk: &Walk<'_>, thing: &ThingRef, entry: &Entry<Fastener>) -> Option<Finding> {
    if entry.what.temporary || !entry.what.torque.is_given() || left_open(walk.machine, thing) || walk.machine.may_mean(&thing.id) {
        return None;
    }
    let (_, last) = walk.moments_of(thing).last()?;
    let how = match walk.state(thing) {
        State::Started => "run up by hand".to_owned(),
        State::Stage(stage) => format!("at stage {stage}"),
        State::Loosened => "slackened".to_owned(),
        // Cleaned, lubricated, but never put in; one that came out with its part was in before.
        State::Absent if !walk.history.contains_key(thing) => "not even in".to_owned(),
        _ => return None,
    };
    let since = walk.history.get(thing).and_then(|changes| changes.last()).and_then(|(at, _)| walk.moments.get(*at)).filter(|since| since.act.place != last.act.place);
    let finding = Finding::new(&STARTED_NEVER_FINISHED, last.act.place.clone(), format!("{} is left {how} and never tightened", entry.name))
        .label("the last that is done to it")
        .related(entry.id_place.clone(), "listed here")
        .figure(format!("{} at the end of the build: {how}{}", entry.name, walk.variant_words()))
        .fix(format!("tighten it: [Tighten it](torque:{}); or say under leaves_open: where it is finished", entry.id))
        .about(entry.id.clone());
    Some(match since {
        Some(since) => finding.related(since.act.place.clone(), format!("{how} since {}", since.words())),
        None => finding,
    })
}

/// Whether a procedure leaves the thing open on purpose.
fn left_open(machine: &Machine, thing: &ThingRef) -> bool {
    machine.procedures.iter().any(|procedure| {
        let here = |id: &str| thing.id == id && is_home(&thing.home, procedure);
        procedure.lists.leaves_open.values().any(|item| here(item.what.of.as_ref().map_or(item.id.as_str(), |of| of.value.as_str())))
    })
}

fn is_home(home: &Home, procedure: &Procedure) -> bool {
    match home {
        Home::Procedure(id) => *id == procedure.id,
        Home::Machine | Home::Shop => true,
    }
}
