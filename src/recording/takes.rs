//! What a take needs beside its picture: the spanners and compounds of a step, and the waits that lie between two takes.

use super::description::by_variant;
use crate::inspect::{Drive, used_by};
use crate::manual::{Act, Entry, ListKind, Machine, Manual, Procedure, Scope, Step, ThingRef, Verb, Wait};

/// Where a wait lies, seen from the step in which it is over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lies {
    /// Before the step's first take.
    Before,
    /// Between two takes of the step.
    Within,
    /// Before the next step.
    After,
}

/// `13 mm hex (Cap bolt, Cover bolt)`, for each size.
pub(super) fn spanners(drives: &[Drive<'_>]) -> Vec<String> {
    drives.iter().map(|drive| format!("{} ({})", drive.size, drive.fasteners.join(", "))).collect()
}

/// The materials that a step puts on, pours or cleans with, each once.
pub(super) fn compounds(scope: Scope<'_>, step: &Step) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for thing in step.acts.iter().flat_map(|act| used_by(scope, act, &step.only).into_iter().chain(greased(scope, act))) {
        let name = scope.head(&thing).filter(|_| thing.kind == ListKind::Materials).map(|head| head.name.to_owned());
        names.extend(name.filter(|name| !names.contains(name)));
    }
    names
}

/// What goes on a seal's lip.
fn greased(scope: Scope<'_>, act: &Act) -> Vec<ThingRef> {
    let seals = act.things.iter().filter(|thing| thing.kind == ListKind::Seals && act.verb == Some(Verb::Fit));
    let lips = seals.filter_map(|thing| scope.thing(|lists| &lists.seals, thing)).map(|seal| &seal.what.lip);
    lips.flat_map(|of| &of.cases).filter_map(|case| scope.find(ListKind::Materials, &case.value)).collect()
}

/// The waits that are over in a step, in words, with where each lies.
pub(super) fn waits(manual: &Manual, machine: &Machine, procedure: &Procedure, step: &Step) -> Vec<(Lies, String)> {
    let scope = manual.scope(machine, procedure);
    let lies = |at: usize| match at {
        _ if at + 1 == step.acts.len() => Lies::After,
        0 => Lies::Before,
        _ => Lies::Within,
    };
    let over = step.acts.iter().enumerate().filter_map(|(at, act)| Some((at, wait_of(scope, act, Verb::Wait)?)));
    over.map(|(at, wait)| (lies(at), format!("{}{}", words(wait), since(manual, machine, procedure, step, wait)))).collect()
}

/// `≥ 24 h: Locker cures at the pinion nut`.
pub(super) fn words(wait: &Entry<Wait>) -> String {
    let time = by_variant(&wait.what.time, |time| time.written().to_owned());
    let only = if wait.only.is_always() { String::new() } else { format!(" ({})", wait.only.words()) };
    if time.is_empty() { format!("{}{only}", wait.name) } else { format!("{time}: {}{only}", wait.name) }
}

/// The waits of a procedure, each once, in the order in which they are met.
pub(super) fn waits_of<'m>(scope: Scope<'m>, procedure: &Procedure) -> Vec<&'m Entry<Wait>> {
    let mut found: Vec<&Entry<Wait>> = Vec::new();
    for act in procedure.steps.iter().flat_map(|step| &step.acts) {
        let wait = wait_of(scope, act, Verb::Begin).or_else(|| wait_of(scope, act, Verb::Wait));
        found.extend(wait.filter(|wait| !found.iter().any(|known| std::ptr::eq(*known, *wait))));
    }
    found
}

/// The wait that an act begins or ends.
fn wait_of<'m>(scope: Scope<'m>, act: &Act, verb: Verb) -> Option<&'m Entry<Wait>> {
    let thing = act.thing().filter(|thing| thing.kind == ListKind::Waits && act.verb == Some(verb))?;
    scope.thing(|lists| &lists.waits, thing)
}

/// Which shot the time is counted from. A wait that nothing begins is sat out where it stands.
fn since(manual: &Manual, machine: &Machine, procedure: &Procedure, here: &Step, wait: &Entry<Wait>) -> String {
    let begun = |procedure: &Procedure, step: &Step| {
        let scope = manual.scope(machine, procedure);
        step.acts.iter().any(|act| wait_of(scope, act, Verb::Begin).is_some_and(|begun| std::ptr::eq(begun, wait)))
    };
    // A step behind this one begins it anew; the last one before it is meant.
    if let Some(step) = procedure.steps.iter().filter(|step| step.number <= here.number).rfind(|step| begun(procedure, step)) {
        return if step.number == here.number { ", begun in this shot".to_owned() } else { format!(", counted from shot {}", step.number) };
    }
    let elsewhere = machine.procedures.iter().filter(|other| other.id != procedure.id).find(|other| other.steps.iter().any(|step| begun(other, step)));
    elsewhere.map_or_else(String::new, |other| format!(", counted from “{}”", other.title))
}
