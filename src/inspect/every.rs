//! Every list of a manual once, with the scope its ids are looked up in, and the first act on each thing.

use crate::manual::{Act, Combination, Lists, Machine, Manual, Procedure, Scope, ThingRef, Verb, combinations};
use std::collections::{BTreeMap, BTreeSet};

/// The lists of the shop, of each machine and of each procedure, in this order.
pub(super) fn lists(manual: &Manual) -> Vec<(Scope<'_>, &Lists)> {
    let mut all = vec![(Scope { shop: &manual.shop, machine: None, procedure: None }, &manual.shop)];
    for machine in &manual.machines {
        all.push((manual.machine_scope(machine), &machine.lists));
        all.extend(machine.procedures.iter().map(|procedure| (manual.scope(machine, procedure), &procedure.lists)));
    }
    all
}

/// Every procedure with its machine and scope.
pub(super) fn procedures(manual: &Manual) -> impl Iterator<Item = (&Machine, &Procedure, Scope<'_>)> {
    manual
        .machines
        .iter()
        .flat_map(move |machine| machine.procedures.iter().map(move |procedure| (machine, procedure, manual.scope(machine, procedure))))
}

/// The first act of a machine on each thing with one of these verbs.
pub(super) fn first_acts<'m>(machine: &'m Machine, verbs: &[Verb]) -> BTreeMap<&'m ThingRef, &'m Act> {
    let mut first = BTreeMap::new();
    let steps = machine.procedures.iter().flat_map(|procedure| &procedure.steps);
    for act in steps.flat_map(|step| &step.acts).filter(|act| act.verb.is_some_and(|verb| verbs.contains(&verb))) {
        for thing in &act.things {
            first.entry(thing).or_insert(act);
        }
    }
    first
}

/// The most combinations of variants one thing is looked at for.
const MOST_COMBINATIONS: usize = 64;

/// Every combination that is made of the axes which some conditions name, of those in which an entry exists (`only`);
/// none where they are too many to look at.
pub(super) fn made<'a>(scope: Scope<'_>, only: &'a Combination, conditions: impl Iterator<Item = &'a Combination>) -> Vec<Combination> {
    let Some(machine) = scope.machine else { return vec![only.clone()] };
    let named: BTreeSet<String> = conditions.chain([only]).flat_map(|when| when.0.keys().cloned()).collect();
    let all = combinations(&machine.axes, &machine.not_made, &named, MOST_COMBINATIONS).unwrap_or_default();
    all.into_iter().filter(|made| made.satisfies(only)).collect()
}

/// ` (serial late)` behind a message; nothing where it holds for every machine.
pub(super) fn variant_words(made: &Combination) -> String {
    if made.is_always() { String::new() } else { format!(" ({})", made.words()) }
}
