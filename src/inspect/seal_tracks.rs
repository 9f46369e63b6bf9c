//! Seals and what they run on: directions that say nothing, tracks nobody has looked at, drag read through a lip.

use super::seal_fit::runs_on_a_shaft;
use super::walk::{Moment, State, Walk, in_every};
use super::words::Words;
use super::{Context, every};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{DIRECTIONS, Entry, Faces, ListKind, Lists, Machine, Measure, Part, Scope, Seal, Shaft, ThingRef, Verb};
use std::collections::BTreeSet;

/// A seal's side is told by a direction.
pub(super) static SEAL_ORIENTATION_RELATIVE: Rule = Rule {
    name: "seal-orientation-relative",
    severity: Severity::Warning,
    summary: "A seal's side is told by a direction instead of a medium.",
    explanation: Explanation {
        finds: "faces: of a seal whose spring, lip or back looks in, out, up, down or another direction instead of at a medium.",
        matters: "Inwards is another way on the bench than in the machine, and another way again for who stands on the other side.",
        may_be_wrong: "Where it does not matter: write faces: either.",
        example: "drum-seal: {faces: {spring: in, back: out}}",
        instead: "drum-seal: {faces: {spring: gear-oil, back: air}}",
    },
};

/// A new lip runs on an old track.
pub(super) static SEAL_ON_WORN_TRACK: Rule = Rule {
    name: "seal-on-worn-track",
    severity: Severity::Note,
    summary: "A new seal runs on a used shaft whose track nobody judges.",
    explanation: Explanation {
        finds: "Shaft seals that a step fits in a row (shafts:) of a shaft that is listed as a part (by the row's own id, or standing in it), is used again, and whose when: names neither a measure nor the seal's track, groove or running surface, with no measure of: the shaft that does.",
        matters: "The old lip has cut a groove. A new one laid into it leaks from the first day, and the seal gets the blame.",
        may_be_wrong: "Where the shaft is new each time: reuse: never. Where the seal sits beside the old track on purpose: say so in when:.",
        example: "drum-shaft: {kind: shaft, reuse: inspect, when: straight}   with shafts: {drum-shaft: [gear-oil, drum-seal, air]}",
        instead: "drum-shaft: {kind: shaft, reuse: inspect, when: track-wear}, and track-wear: {kind: wear, of: drum-shaft, limit: max 0.10 mm, otherwise: thin sleeve over the track, …}",
    },
};

/// A drag is read with the seal in.
pub(super) static DRAG_WITH_SEALS: Rule = Rule {
    name: "drag-with-seals",
    severity: Severity::Error,
    summary: "A reading that holds without seals is taken with the seal already in.",
    explanation: Explanation {
        finds: "Measurements whose when: says without seals (seals out, no seal) and that are taken while a shaft seal is in: one of the measured part (of:), or, where no part is named, one that an earlier step of the same procedure fits.",
        matters: "A lip drags about as much as a pair of bearings does: with it in, the reading says nothing of the preload.",
        may_be_wrong: "Where the seal sits on another shaft: name what is measured (of:).",
        example: "[Press the seal in](fit:drum-seal) … [read the drag](measure:drag)   with drag: {when: oiled and without seals}",
        instead: "[Read the drag](measure:drag) … [press the seal in](fit:drum-seal)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, lists) in every::lists(context.manual) {
        findings.extend(lists.seals.values().filter_map(relative));
    }
    for machine in &context.manual.machines {
        let fitted: BTreeSet<&str> = every::first_acts(machine, &[Verb::Fit]).keys().filter(|thing| thing.kind == ListKind::Seals).map(|thing| thing.id.as_str()).collect();
        let homes = machine.procedures.iter().map(|procedure| (context.manual.scope(machine, procedure), &procedure.lists));
        for (scope, lists) in homes.chain([(context.manual.machine_scope(machine), &machine.lists)]) {
            findings.extend(lists.shafts.values().filter_map(|shaft| worn_track(machine, scope, shaft, &fitted)));
        }
    }
    in_every(&context.walks, findings, |walk, findings| {
        for (at, moment) in walk.moments.iter().enumerate().filter(|(_, moment)| moment.verb == Verb::Measure) {
            findings.extend(drag(walk, at, moment));
        }
    });
}

fn relative(entry: &Entry<Seal>) -> Option<Finding> {
    let (feature, of) = entry.what.faces.cases.iter().find_map(|case| match &case.value {
        Faces::Either => None,
        Faces::Toward(features) => features.iter().find(|(_, of)| DIRECTIONS.contains(&of.value.as_str())),
    })?;
    Some(
        Finding::new(&SEAL_ORIENTATION_RELATIVE, of.place.clone(), format!("the {feature} of {} looks ‘{}’: seen from where?", entry.name, of.value))
            .label("a direction, no medium")
            .fix(format!("name the medium it looks at: {feature}: gear-oil, grease, water, air"))
            .about(format!("{}.faces", entry.id)),
    )
}

fn worn_track(machine: &Machine, scope: Scope<'_>, row: &Entry<Shaft>, fitted: &BTreeSet<&str>) -> Option<Finding> {
    let seal = row.what.sits.iter().find_map(|spot| {
        let seal = of_machine(machine, |lists| lists.seals.get(&spot.value))?;
        (fitted.contains(spot.value.as_str()) && runs_on_a_shaft(&seal.what)).then_some((seal, spot))
    })?;
    let part = |id: &str| scope.entry(|lists| &lists.parts, id).filter(|part| part.what.kind.first().is_none_or(|kind| kind == "shaft"));
    let shaft = part(&row.id).or_else(|| {
        row.what.sits.iter().find_map(|spot| part(&spot.value).filter(|part| part.what.kind.first().is_some_and(|kind| kind == "shaft")))
    })?;
    let used_again = shaft.what.reuse.cases.is_empty() || shaft.what.reuse.cases.iter().any(|case| case.value != "never");
    if !used_again || is_judged(machine, shaft) {
        return None;
    }
    let (seal, spot) = seal;
    Some(
        Finding::new(&SEAL_ON_WORN_TRACK, shaft.id_place.clone(), format!("{} runs on {}, and nobody judges its track", seal.name, shaft.name))
            .label("used again")
            .related(spot.place.clone(), "its place on the shaft")
            .fix("say in when: how good the track must be, or name a measure of its wear; and in otherwise: what to do with a groove: a thin sleeve, or the seal a little deeper")
            .about(format!("{}.when", shaft.id)),
    )
}

/// Words for the band that a lip runs on.
const TRACK: [&str; 9] = ["track", "tracks", "groove", "grooves", "running surface", "seal", "seals", "lip", "journal"];

fn is_judged(machine: &Machine, shaft: &Entry<Part>) -> bool {
    let speaks = |text: &str| Words::of(text).first(&TRACK).is_some();
    let by_when = shaft.what.when.cases.iter().any(|case| speaks(&case.value) || of_machine(machine, |lists| lists.measures.get(&case.value)).is_some());
    let of_shaft = |measure: &Entry<Measure>| {
        measure.what.of.cases.iter().any(|of| of.value == shaft.id) && (speaks(&measure.name) || measure.what.kind.cases.iter().any(|kind| kind.value == "wear"))
    };
    by_when || all_lists(machine).any(|lists| lists.measures.values().any(of_shaft))
}

fn all_lists(machine: &Machine) -> impl Iterator<Item = &Lists> {
    machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists])
}

fn of_machine<'m, T>(machine: &'m Machine, find: impl Fn(&'m Lists) -> Option<&'m Entry<T>>) -> Option<&'m Entry<T>> {
    all_lists(machine).find_map(find)
}

const SEALS_OUT: [&str; 12] = [
    "without seals", "without seal", "without the seals", "without the seal", "without its seal", "without its seals", "seals out", "seal out", "no seals",
    "no seal", "seals not fitted", "seal not fitted",
];

fn drag(walk: &Walk<'_>, at: usize, moment: &Moment<'_>) -> Option<Finding> {
    let scope = walk.scope(moment.procedure);
    let entry = scope.thing(|lists| &lists.measures, moment.act.thing()?)?;
    let when = entry.what.when.case(&walk.combination)?;
    Words::of(&when.value).first(&SEALS_OUT)?;
    let of = entry.what.of.get(&walk.combination).map(String::as_str);
    let seals = walk.history.keys().filter(|thing| thing.kind == ListKind::Seals);
    let (seal, fitted) = seals.filter_map(|thing| in_the_way(walk, scope, thing, at, moment, of)).next()?;
    Some(
        Finding::new(&DRAG_WITH_SEALS, moment.act.place.clone(), format!("{} holds without seals, and {} is in already", entry.name, seal.name))
            .label("read through the lip")
            .related(fitted.act.place.clone(), format!("{} goes in: {}", seal.name, fitted.words()))
            .related(when.place.clone(), format!("‘{}’", when.value))
            .fix("take the reading before the seal goes in; or find the value that holds with it, and say so in when:")
            .about(entry.id.clone()),
    )
}

/// A seal that is in at a reading and drags in it.
fn in_the_way<'w, 'm>(walk: &'w Walk<'m>, scope: Scope<'m>, thing: &ThingRef, at: usize, reading: &Moment<'m>, of: Option<&str>) -> Option<(&'m Entry<Seal>, &'w Moment<'m>)> {
    let (state, since) = walk.state_before(thing, at);
    let fitted = since.and_then(|since| walk.moments.get(since)).filter(|_| state == State::Fitted)?;
    let seal = walk.scope(fitted.procedure).thing(|lists| &lists.seals, thing).filter(|seal| runs_on_a_shaft(&seal.what))?;
    let here = match of {
        None => std::ptr::eq(fitted.procedure, reading.procedure),
        Some(part) => {
            let within = seal.what.within.get(&walk.combination).is_some_and(|within| within == part);
            let mut rows = scope.homes().flat_map(|(_, lists)| lists.shafts.values());
            let sits = |row: &Entry<Shaft>, id: &str| row.what.sits.iter().any(|spot| spot.value == id);
            within || rows.any(|row| sits(row, &seal.id) && (row.id == part || sits(row, part)))
        }
    };
    here.then_some((seal, fitted))
}
