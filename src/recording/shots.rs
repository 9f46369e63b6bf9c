//! The list of shots for a procedure that is to be filmed: what must lie ready, a line for each step, and below it what is at
//! hand in it and what has to be seen from near: the side a seal faces, the scale of a wrench, a reading. Between two takes
//! stands what has to be waited for. All of it stands in the procedure already.

use super::description::{Gathered, by_variant};
use super::takes::{Lies, compounds, spanners, waits};
use crate::inspect::{drives, drives_by_step};
use crate::manual::{Act, Combination, Faces, ListKind, Machine, Manual, Procedure, Scope, Step, ThingRef, Torque, Varied, Verb, wrenches};
use crate::source::{Inline, each_inline};
use std::fmt::Write;

/// The list, in lines.
#[must_use]
pub fn shots(manual: &Manual, machine: &Machine, procedure: &Procedure) -> String {
    let scope = manual.scope(machine, procedure);
    let ready = Gathered::of_procedure(scope, procedure);
    let mut text = format!("Shots of {} ({})\n", procedure.title, machine.name);
    let spanners_ready = spanners(&drives(scope, procedure, &Combination::default()));
    let all = [
        ("Lie ready: parts and fasteners", &ready.parts),
        ("Lie ready: tools", &ready.tools),
        ("Lie ready: spanners, sockets and keys", &spanners_ready),
        ("Lie ready: materials", &ready.materials),
    ];
    for (heading, lines) in all {
        if !lines.is_empty() {
            let _ = write!(text, "\n{heading}\n");
            lines.iter().for_each(|line| text.extend(["  [ ] ", line, "\n"]));
        }
    }
    text.push_str("\nShots\n");
    let by_step = drives_by_step(scope, procedure, &Combination::default());
    for step in &procedure.steps {
        let only = if step.only.is_always() { String::new() } else { format!(" ({})", step.only.words()) };
        let waits = waits(manual, machine, procedure, step);
        let cuts = |text: &mut String, lies: Lies, (margin, lead): (&str, &str)| {
            for (_, words) in waits.iter().filter(|(where_it_lies, _)| *where_it_lies == lies) {
                text.extend([margin, "==== ", lead, ": ", words, "\n"]);
            }
        };
        cuts(&mut text, Lies::Before, ("  ", "wait before the next take"));
        // Writing to a text never fails.
        let _ = writeln!(text, "  [ ] {}. {}{only}", step.number, step.title);
        let at_hand: Vec<String> = by_step.get(&step.number).map(|drives| spanners(drives)).unwrap_or_default().into_iter().chain(compounds(scope, step)).collect();
        for one in at_hand {
            text.extend(["      [ ] at hand: ", &one, "\n"]);
        }
        for near in near(scope, procedure, step) {
            let _ = writeln!(text, "      [ ] near: {near}");
        }
        cuts(&mut text, Lies::Within, ("      ", "wait within this shot"));
        cuts(&mut text, Lies::After, ("  ", "wait before the next take"));
    }
    text
}

/// What of a step has to be seen from near, each once.
fn near(scope: Scope<'_>, procedure: &Procedure, step: &Step) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for words in step.acts.iter().filter_map(|act| seen(scope, act)) {
        if !all.contains(&words) {
            all.push(words);
        }
    }
    each_inline(&step.blocks, &mut |inline| {
        let Inline::Picture(picture) = inline else { return };
        let balloons = procedure.lists.figures.values().find(|figure| figure.id == picture.path).map_or(0, |figure| figure.what.balloons.len());
        if balloons > 0 {
            all.push(format!("what {} shows with its {balloons} numbers", picture.path));
        }
    });
    all
}

fn seen(scope: Scope<'_>, act: &Act) -> Option<String> {
    let thing = act.thing()?;
    let name = scope.head(thing)?.name;
    let lists = scope.lists_of(thing)?;
    let id = &thing.id;
    match (act.verb?, thing.kind) {
        (Verb::Torque, ListKind::Fasteners) => {
            let fastener = &lists.fasteners.get(id)?.what;
            let torque = by_variant(&fastener.torque, |torque| torque_words(torque, act.stage));
            let locker = if fastener.locker.is_given() { ", with the locker on its thread" } else { "" };
            let used: Vec<&str> = wrenches(scope, fastener, &Combination::default(), act.stage).into_iter().map(|wrench| wrench.name.as_str()).collect();
            let on = if used.is_empty() { String::new() } else { format!(" of {}", used.join(" / ")) };
            Some(format!("{name}{locker}: the scale{on} at {torque}"))
        }
        (Verb::Fit | Verb::DryFit, _) => side(scope, thing).map(|side| format!("{name}: {side}")),
        (Verb::Measure, _) => Some(format!("{name}: the instrument as it is read")),
        (Verb::Align, _) => Some(format!("{name}: the marks")),
        (Verb::Mark, _) => Some(format!("{name}: the painted line")),
        (Verb::Lock, _) => Some(format!("{name}: how it is locked")),
        (Verb::Heat, _) => Some(format!("{name}: the thermometer")),
        (Verb::Test, _) => Some(format!("{name}: what it shows")),
        _ => None,
    }
}

fn torque_words(torque: &Torque, stage: Option<u64>) -> String {
    let chosen = torque.stages().iter().zip(1_u64..).filter(|(_, number)| stage.is_none_or(|stage| stage == *number));
    let stages: Vec<&str> = chosen.map(|(quantity, _)| quantity.written()).collect();
    if stages.is_empty() { "by hand".to_owned() } else { stages.join(", then ") }
}

/// Which way something goes in: only what can be put in the wrong way round has a side to be seen.
fn side(scope: Scope<'_>, thing: &ThingRef) -> Option<String> {
    let lists = scope.lists_of(thing)?;
    let id = &thing.id;
    let none = Varied::default();
    let (faces, side) = match thing.kind {
        ListKind::Seals => (&lists.seals.get(id)?.what.faces, &none),
        ListKind::Bearings => (&lists.bearings.get(id)?.what.faces, &none),
        ListKind::Parts => {
            let part = &lists.parts.get(id)?.what;
            (&part.faces, &part.side)
        }
        _ => return None,
    };
    let toward = |faces: &Faces| match faces {
        Faces::Either => String::new(),
        Faces::Toward(features) => {
            let named = |id: &str| scope.homes().find_map(|(_, lists)| ListKind::ALL.iter().find_map(|kind| lists.head(*kind, id).map(|head| head.name.to_owned())));
            let one = |(feature, to): &(String, crate::manual::Spot<String>)| format!("{feature} to {}", named(&to.value).unwrap_or_else(|| to.value.clone()));
            features.iter().map(one).collect::<Vec<_>>().join(", ")
        }
    };
    let told = [by_variant(faces, toward), by_variant(side, Clone::clone)];
    let told: Vec<String> = told.into_iter().filter(|words| !words.trim_matches([' ', '/']).is_empty()).collect();
    (!told.is_empty()).then(|| told.join("; "))
}
