//! Every list of a manual once, with the scope its ids are looked up in, and the first act on a thing.

use crate::manual::{Act, Lists, Machine, Manual, Procedure, Scope, ThingRef, Verb};

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

/// The first act of a machine on a thing with one of these verbs.
pub(super) fn first_act<'m>(machine: &'m Machine, thing: &ThingRef, verbs: &[Verb]) -> Option<&'m Act> {
    let steps = machine.procedures.iter().flat_map(|procedure| &procedure.steps);
    steps.flat_map(|step| &step.acts).find(|act| act.verb.is_some_and(|verb| verbs.contains(&verb)) && act.things.contains(thing))
}
