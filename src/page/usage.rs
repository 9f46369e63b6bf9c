//! Who uses what: one index from a thing of a machine to the acts that use it.

use crate::inspect::{brought_along, used_by};
use crate::manual::{Combination, Home, ListKind, Machine, Manual, Procedure, Scope, ThingRef, Verb};
use std::collections::BTreeMap;

/// One use of a thing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Use {
    /// Index of the procedure in its machine.
    pub procedure: usize,
    /// Index of the step.
    pub step: usize,
    /// Index of the act in the step.
    pub act: usize,
}

/// The uses of every thing of one machine.
pub(super) struct Usage<'a> {
    uses: BTreeMap<ThingRef, Vec<Use>>,
    machine: &'a Machine,
}

impl<'a> Usage<'a> {
    /// Reads all acts of a machine.
    pub(super) fn of(manual: &'a Manual, machine: &'a Machine) -> Self {
        let mut uses: BTreeMap<ThingRef, Vec<Use>> = BTreeMap::new();
        for Mentioning { scope, verb, thing, known } in mentioning(manual, machine) {
            for mentioned in brought_along(scope, Some(verb), &thing, known) {
                uses.entry(mentioned).or_default();
            }
        }
        for (p, procedure) in machine.procedures.iter().enumerate() {
            let scope = manual.scope(machine, procedure);
            for (s, step) in procedure.steps.iter().enumerate() {
                for (a, act) in step.acts.iter().enumerate() {
                    for thing in used_by(scope, act, &step.only) {
                        let list = uses.entry(thing).or_default();
                        let new = Use { procedure: p, step: s, act: a };
                        // One link a step is enough: the first act of it.
                        if list.last().is_none_or(|last| (last.procedure, last.step) != (p, s)) {
                            list.push(new);
                        }
                    }
                }
            }
        }
        Self { uses, machine }
    }

    /// The first act of each step that uses a thing; none for a thing that is merely mentioned.
    pub(super) fn of_thing(&self, thing: &ThingRef) -> &[Use] {
        self.uses.get(thing).map_or(&[], Vec::as_slice)
    }

    /// Everything of one list that is used, in the order of homes and ids.
    pub(super) fn things(&self, kind: ListKind) -> impl Iterator<Item = &ThingRef> {
        self.uses.keys().filter(move |thing| thing.kind == kind)
    }

    /// The procedure and step of a use.
    pub(super) fn step(&self, found: Use) -> Option<(&'a Procedure, &'a crate::manual::Step)> {
        let procedure = self.machine.procedures.get(found.procedure)?;
        Some((procedure, procedure.steps.get(found.step)?))
    }
}

/// A thing that names other things.
struct Mentioning<'a> {
    scope: Scope<'a>,
    /// The verb under which it does.
    verb: Verb,
    thing: ThingRef,
    /// Its variants.
    known: &'a Combination,
}

/// Everything of a machine that names other things: what it names has a row in the tables even where no
/// act uses it.
fn mentioning<'a>(manual: &'a Manual, machine: &'a Machine) -> Vec<Mentioning<'a>> {
    let kinds = [
        (ListKind::Fasteners, Verb::Torque),
        (ListKind::Seals, Verb::Fit),
        (ListKind::Heats, Verb::Heat),
        (ListKind::Measures, Verb::Measure),
        (ListKind::Aligns, Verb::Align),
        (ListKind::Fills, Verb::Fill),
        (ListKind::Beads, Verb::Apply),
    ];
    let own = std::iter::once((Home::Machine, &machine.lists, manual.machine_scope(machine)));
    let procedures = machine.procedures.iter().map(|p| (Home::Procedure(p.id.clone()), &p.lists, manual.scope(machine, p)));
    let mut found = Vec::new();
    for (home, lists, scope) in own.chain(procedures) {
        for (kind, verb) in kinds {
            found.extend(lists.heads(kind).into_iter().map(|head| {
                let thing = ThingRef { kind, home: home.clone(), id: head.id.to_owned() };
                Mentioning { scope, verb, thing, known: head.only }
            }));
        }
    }
    found
}
