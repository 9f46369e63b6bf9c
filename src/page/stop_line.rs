//! STOP lines of a bench sheet: before a cover hides work, and before what an open item has barred until now. What to
//! look for comes from the manual's state: what the cover names, the open item, the lines on which each was done.

use super::open::{self, Open};
use super::rows::count;
use super::site::Scene;
use super::words::Arg;
use crate::inspect::acts_done;
use crate::manual::{Act, ListKind, Step, ThingRef, Verb};
use std::collections::{BTreeMap, BTreeSet};

/// A STOP line.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct StopLine {
    /// What must not be done yet.
    pub before: String,
    /// What to look for, each with where it was done.
    pub look_for: Vec<String>,
}

/// The STOP lines of a sheet, by the step's number and the act's place before which they stand.
pub(super) type StopLines = BTreeMap<(usize, usize), StopLine>;

/// The acts of a sheet, in the order of work.
type Acts<'s> = [(&'s Step, usize, &'s Act)];

/// The STOP lines of the scene's procedure. `index` is its place in the build order.
pub(super) fn stop_lines(scene: &Scene<'_>, index: usize) -> StopLines {
    let acts = scene.procedure.map(|procedure| acts_done(scene.scope(), procedure, scene.known)).unwrap_or_default();
    let every = open::all(scene.machine);
    let items: Vec<Open<'_>> = open::possible(&every, scene.known)
        .into_iter()
        .filter(|item| item.opened_in == index || item.inherited_by(scene.machine, index))
        .collect();
    let mut lines = StopLines::new();
    let mut barred: BTreeSet<&str> = BTreeSet::new();
    for (at, (step, place, act)) in acts.iter().enumerate() {
        let mut key = (step.number, *place);
        let mut line = StopLine::default();
        if let Some(cover) = act.thing().filter(|thing| act.verb == Some(Verb::Fit) && thing.kind == ListKind::Parts) {
            line.look_for = hidden(scene, cover, &every, &acts[..at]);
            if !line.look_for.is_empty() {
                line.before = scene.say("sheet-close-cover", &[("name", Arg::Text(&scene.name(cover)))]);
                // Once a bead is laid or a gasket sits, nobody lifts the cover again to look.
                let first = first_of_closing(scene, cover, &acts[..at]).unwrap_or(at);
                key = acts.get(first).map_or(key, |(step, place, _)| (step.number, *place));
            }
        }
        // Only the first act that was barred is the point of no return.
        let waited: Vec<&Open<'_>> = items.iter().filter(|item| item.forbids_act(act) && !barred.contains(item.id)).collect();
        for item in waited {
            barred.insert(item.id);
            if line.before.is_empty() {
                line.before = scene.say("sheet-close-act", &[("words", Arg::Text(&act.words))]);
            }
            line.look_for.push(open_item(scene, item, &acts[..at]));
        }
        if !line.look_for.is_empty() {
            let there = lines.entry(key).or_default();
            if there.before.is_empty() {
                there.before = line.before;
            }
            there.look_for.extend(line.look_for);
        }
    }
    lines
}

/// What a cover hides: the things it names, and the seals and bearings that sit in it.
fn hidden(scene: &Scene<'_>, cover: &ThingRef, items: &[Open<'_>], done: &Acts<'_>) -> Vec<String> {
    let Some(entry) = scene.scope().thing(|l| &l.parts, cover) else { return Vec::new() };
    let named: Vec<String> = entry
        .what
        .covers
        .iter()
        .filter_map(|covered| {
            if let Some(item) = items.iter().find(|item| item.id == covered.value && item.only.agrees_with(scene.known)) {
                return Some(open_item(scene, item, done));
            }
            let thing = scene.find_named(&covered.value)?;
            scene.scope().head(&thing).is_some_and(|head| head.only.agrees_with(scene.known)).then(|| done_thing(scene, &thing, done))
        })
        .collect();
    if named.is_empty() {
        return named;
    }
    let sits_in = |thing: &ThingRef| {
        let within = match thing.kind {
            ListKind::Seals => scene.scope().thing(|l| &l.seals, thing).map(|entry| &entry.what.within),
            ListKind::Bearings => scene.scope().thing(|l| &l.bearings, thing).map(|entry| &entry.what.within),
            _ => None,
        };
        within.and_then(|within| within.get(scene.known)).is_some_and(|id| *id == cover.id)
    };
    let mut inside: Vec<&ThingRef> = Vec::new();
    for thing in done.iter().filter(|(_, _, act)| act.verb == Some(Verb::Fit)).flat_map(|(_, _, act)| &act.things) {
        // What the cover names stands in the line already.
        let is_named = entry.what.covers.iter().any(|covered| covered.value == thing.id);
        if sits_in(thing) && !is_named && !inside.contains(&thing) {
            inside.push(thing);
        }
    }
    named.into_iter().chain(inside.into_iter().map(|thing| done_thing(scene, thing, done))).collect()
}

/// The first of the acts right before a cover's that already close: its bead, its gasket, materials on either.
fn first_of_closing(scene: &Scene<'_>, cover: &ThingRef, before: &Acts<'_>) -> Option<usize> {
    let closes = |thing: &ThingRef| match thing.kind {
        ListKind::Parts if thing == cover => true,
        ListKind::Parts => scene
            .scope()
            .thing(|l| &l.parts, thing)
            .is_some_and(|entry| entry.what.under.get(scene.known).is_some_and(|under| *under == cover.id)),
        ListKind::Beads => scene
            .scope()
            .thing(|l| &l.beads, thing)
            .is_some_and(|entry| entry.what.between.iter().any(|between| between.value == cover.id)),
        _ => false,
    };
    let run = before.iter().enumerate().rev().take_while(|(_, (_, _, act))| {
        act.verb == Some(Verb::Tool) || (!act.things.is_empty() && act.things.iter().all(&closes))
    });
    let begins = |act: &Act| matches!(act.verb, Some(Verb::Apply | Verb::Fit));
    run.filter(|(_, (_, _, act))| begins(act)).last().map(|(at, _)| at)
}

/// An open item, with where it is finished.
fn open_item(scene: &Scene<'_>, item: &Open<'_>, done: &Acts<'_>) -> String {
    let view = item.view(scene, None);
    let here = item.finished_in(scene.machine).filter(|(index, _)| {
        scene.procedure.is_some_and(|procedure| scene.machine.procedures.get(*index).is_some_and(|p| p.id == procedure.id))
    });
    let step = here.and_then(|(_, step)| step);
    let lines = lines_of(done, &|step_of, act| {
        step.is_none_or(|step| step_of.id == step) && act.things.iter().any(|thing| thing.id == item.of)
    });
    if !lines.is_empty() {
        return with_lines(scene, &view.thing.text, &lines);
    }
    match view.finish {
        Some(finish) => scene.say("sheet-close-where", &[("name", Arg::Text(&view.thing.text)), ("place", Arg::Text(&finish.text))]),
        None => view.thing.text,
    }
}

/// A thing, with the lines on which it was done, or the procedure before.
fn done_thing(scene: &Scene<'_>, thing: &ThingRef, done: &Acts<'_>) -> String {
    let name = scene.name(thing);
    let lines = lines_of(done, &|_, act| act.things.contains(thing));
    if !lines.is_empty() {
        return with_lines(scene, &name, &lines);
    }
    let here = scene.procedure.and_then(|procedure| scene.machine.procedures.iter().position(|p| p.id == procedure.id));
    let earlier = scene.machine.procedures.iter().take(here.unwrap_or(0)).rfind(|procedure| {
        procedure.steps.iter().flat_map(|step| &step.acts).any(|act| finishes(act) && act.things.contains(thing))
    });
    match earlier {
        Some(procedure) => scene.say("sheet-close-where", &[("name", Arg::Text(&name)), ("place", Arg::Text(&procedure.title))]),
        None => name,
    }
}

fn with_lines(scene: &Scene<'_>, name: &str, lines: &[String]) -> String {
    let args = [("name", Arg::Text(name)), ("lines", Arg::Text(&lines.join(", "))), ("count", Arg::Count(count(lines.len())))];
    scene.say("sheet-close-lines", &args)
}

/// The lines of the acts that bring a thing to its final state.
fn lines_of(done: &Acts<'_>, wanted: &dyn Fn(&Step, &Act) -> bool) -> Vec<String> {
    done.iter()
        .filter(|(step, _, act)| finishes(act) && wanted(step, act))
        .map(|(step, place, _)| format!("{}.{}", step.number, place + 1))
        .collect()
}

fn finishes(act: &Act) -> bool {
    matches!(
        act.verb,
        Some(Verb::Fit | Verb::Torque | Verb::Lock | Verb::Mark | Verb::Measure | Verb::Align | Verb::Test | Verb::Remove | Verb::Receive)
    )
}
