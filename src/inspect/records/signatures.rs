//! Who signed, and what a finished procedure left undone.

use super::Job;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, BuildWork, Combination, ListKind, Procedure, Step, Tick, Verb};
use std::collections::{BTreeMap, BTreeSet};

/// Finished work has gaps.
pub(in crate::inspect) static FINISHED_WITH_GAPS: Rule = Rule {
    name: "finished-with-gaps",
    severity: Severity::Warning,
    summary: "A procedure is recorded as finished, and acts or signatures are missing.",
    explanation: Explanation {
        finds: "Work with finished: in a build record that has no tick for an act of the procedure, or no signature at a hold point, in the record's variant, without a deviation for that thing or step. Work by an older revision is passed over.",
        matters: "The tick that is missing is the bolt that nobody can answer for.",
        may_be_wrong: "When part of the work is ticked on paper: write a deviation that says where the paper is.",
        example: "\"finished\": \"2026-09-14T21:40:00Z\", \"signatures\": []",
        instead: "\"signatures\": [{\"step\": \"tighten\", \"act\": \"hold:second-reader\", \"by\": \"…\", \"at\": \"…\"}]",
    },
};

/// An open item got lost.
pub(in crate::inspect) static OPEN_ITEM_NOT_CARRIED: Rule = Rule {
    name: "open-item-not-carried",
    severity: Severity::Warning,
    summary: "A finished procedure leaves something open, and the build record neither carries nor finishes it.",
    explanation: Explanation {
        finds: "Open items and parts away of a procedure that a build record has as finished, which stand neither under open: nor in a procedure of the record that finishes them and is finished.",
        matters: "The bolt that was only to be hand-tight for now stays so, because nothing on this machine's record says that it is.",
        may_be_wrong: "When the item was finished out of turn: tick the act that finishes it, in its procedure.",
        example: "carrier is left dry-fitted by pinion-height, and \"open\": []",
        instead: "\"open\": [{\"item\": \"carrier\", \"procedure\": \"pinion-height\", \"left\": \"dry-fitted\"}]",
    },
};

/// One person signed for two.
pub(in crate::inspect) static SIGNED_TWICE_BY_ONE: Rule = Rule {
    name: "signed-twice-by-one",
    severity: Severity::Warning,
    summary: "One person signed where two have to.",
    explanation: Explanation {
        finds: "Two signatures for different people of a step by the same person in a build record; and in a step that tightens something critical:, a signature by whoever ticked the tightening.",
        matters: "The second pair of eyes is the point: whoever missed it once misses it again.",
        may_be_wrong: "When two people have the same name: write them apart.",
        example: "torque:hub-nut by A. Fell, hold:second-reader by A. Fell",
        instead: "torque:hub-nut by A. Fell, hold:second-reader by B. Moss",
    },
};

pub(super) fn check(job: &Job<'_>, findings: &mut Vec<Finding>) {
    let mut found = Vec::new();
    for (work, procedure) in job.work() {
        for step in procedure.steps.iter().filter(|step| step.only.agrees_with(job.known)) {
            signed_twice(job, work, step, procedure, &mut found);
        }
        // What an older revision asked for is not known any more.
        let same_revision = work.revision.is_none() || work.revision == procedure.history.revision;
        if work.finished.is_some() && same_revision {
            found.extend(gaps(job, work, procedure));
            not_carried(job, procedure, work, &mut found);
        }
    }
    findings.extend(found.into_iter().map(|finding| job.about(finding)));
}

fn person(name: &str) -> String {
    name.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

fn signed_twice(job: &Job<'_>, work: &BuildWork, step: &Step, procedure: &Procedure, found: &mut Vec<Finding>) {
    let mut signers: BTreeMap<String, &str> = BTreeMap::new();
    for signature in work.signatures.iter().filter(|signature| signature.step.value == step.id) {
        let Some(by) = &signature.by else { continue };
        let who = person(&by.value);
        if signers.get(&who).is_some_and(|act| *act != signature.act.value) {
            found.push(
                Finding::new(&SIGNED_TWICE_BY_ONE, by.place.clone(), format!("{}: {} signed twice in ‘{}’", job.name(), by.value, step.title))
                    .label("the same person")
                    .fix("let a second person look and sign"),
            );
            continue;
        }
        signers.entry(who).or_insert(&signature.act.value);
        if let Some(tick) = work.ticks.iter().find(|tick| {
            let same = tick.by.as_ref().is_some_and(|ticker| person(&ticker.value) == person(&by.value));
            tick.step.value == step.id && same && tightens_critical(job, procedure, step, &tick.act.value)
        }) {
            found.push(
                Finding::new(&SIGNED_TWICE_BY_ONE, by.place.clone(), format!("{}: {} tightened ‘{}’ and signed for it", job.name(), by.value, tick.act.value))
                    .label("the same person")
                    .related(tick.place.clone(), "who tightened it")
                    .fix("let a second person look and sign"),
            );
        }
    }
}

fn tightens_critical(job: &Job<'_>, procedure: &Procedure, step: &Step, address: &str) -> bool {
    let scope = job.manual.scope(job.machine, procedure);
    let acts = step.acts.iter().filter(|act| act.address == address && act.verb == Some(Verb::Torque));
    acts.flat_map(|act| &act.things).any(|thing| scope.thing(|l| &l.fasteners, thing).is_some_and(|entry| entry.what.critical))
}

/// Whether the sheet of this variant has a line for an act that has to be ticked or signed.
fn is_asked_for(job: &Job<'_>, procedure: &Procedure, act: &Act) -> bool {
    let exists = act.thing().and_then(|thing| job.manual.scope(job.machine, procedure).head(thing)).is_none_or(|head| head.only.agrees_with(job.known));
    exists && act.verb.is_some_and(|verb| verb.ticks() || matches!(verb, Verb::Hold | Verb::Sign))
}

fn gaps(job: &Job<'_>, work: &BuildWork, procedure: &Procedure) -> Option<Finding> {
    let mut missing: Vec<String> = Vec::new();
    for step in procedure.steps.iter().filter(|step| certainly_done(&step.only, job.known)) {
        let mut counted: BTreeMap<&str, u64> = BTreeMap::new();
        for act in step.acts.iter().filter(|act| is_asked_for(job, procedure, act)) {
            let number = counted.entry(&act.address).and_modify(|count| *count += 1).or_insert(1);
            let signs = matches!(act.verb, Some(Verb::Hold | Verb::Sign));
            let given = if signs { &work.signatures } else { &work.ticks };
            let there = given.iter().any(|tick| tick.step.value == step.id && tick.act.value == act.address && (signs || tick.number == *number));
            let read = work.readings.iter().any(|reading| reading.step.value == step.id && reading.act.value == act.address);
            let thing = act.thing().map(|thing| thing.id.as_str());
            if !there && !read && job.build.deviation(&procedure.id, &step.id, thing).is_none() {
                missing.push(format!("step {}: {}", step.number, act.address));
            }
        }
    }
    const SHOWN: usize = 6;
    let more = missing.len().saturating_sub(SHOWN);
    let finished = work.finished.as_ref().filter(|_| !missing.is_empty())?;
    Some(
        Finding::new(&FINISHED_WITH_GAPS, finished.place.clone(), format!("{}: ‘{}’ is finished, and {} of its lines are not ticked or signed", job.name(), procedure.title, missing.len()))
            .label("finished?")
            .figures(missing.into_iter().take(SHOWN))
            .figures((more > 0).then(|| format!("and {more} more")))
            .fix("tick what was done, or write a deviation for what was not"),
    )
}

/// Whether a step is done on every machine that meets what is known.
fn certainly_done(only: &Combination, known: &Combination) -> bool {
    known.satisfies(only)
}

/// Whether the record has the work of `PROCEDURE#STEP` finished, or an act on the thing ticked in that step.
fn is_finished(job: &Job<'_>, target: &str, thing: &str) -> bool {
    let (procedure, step) = target.split_once('#').unwrap_or((target, ""));
    job.build.work_of(procedure).is_some_and(|work| {
        let on_thing = |tick: &&Tick| {
            let target = tick.act.value.split_once(':').map_or("", |(_, target)| target);
            tick.step.value == step && target.split(['/', '*', '@']).any(|part| part == thing)
        };
        work.finished.is_some() || work.ticks.iter().any(|tick| on_thing(&tick))
    })
}

fn not_carried(job: &Job<'_>, procedure: &Procedure, work: &BuildWork, found: &mut Vec<Finding>) {
    let carried: BTreeSet<&str> = job.build.open.iter().map(|open| open.item.value.as_str()).collect();
    let items = procedure.lists.leaves_open.values().map(|entry| (ListKind::LeavesOpen, &entry.id, &entry.name, &entry.only, &entry.what.finish_in));
    let away = procedure.lists.away.values().map(|entry| (ListKind::Away, &entry.id, &entry.name, &entry.only, &entry.what.finish_in));
    for (_, id, name, only, finish) in items.chain(away) {
        let thing = procedure.lists.leaves_open.get(id).and_then(|entry| entry.what.of.as_ref()).map_or(id.as_str(), |of| of.value.as_str());
        let finished = finish.as_ref().is_some_and(|target| is_finished(job, &target.value, thing));
        if carried.contains(id.as_str()) || finished || !certainly_done(only, job.known) {
            continue;
        }
        let Some(place) = work.finished.as_ref().map(|finished| finished.place.clone()) else { continue };
        found.push(
            Finding::new(&OPEN_ITEM_NOT_CARRIED, place, format!("{}: ‘{}’ leaves {name} open, and the record does not carry it", job.name(), procedure.title))
                .label("nothing open?")
                .related(finish.as_ref().map_or_else(|| procedure.lists.leaves_open.get(id).map_or_else(|| job.build.place.clone(), |entry| entry.id_place.clone()), |spot| spot.place.clone()), "where it is finished")
                .fix(format!("add {{\"item\": \"{id}\", \"procedure\": \"{}\"}} under open, or finish it", procedure.id)),
        );
    }
}
