//! New parts that are worked on and never go in.

use super::Context;
use super::needed::used_by;
use super::put_back::reuse;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Act, Combination, ListKind, Machine, Manual, Procedure, ThingRef, Verb};
use std::collections::{BTreeMap, BTreeSet};

/// A new part is made ready and never goes in.
pub(super) static READY_NEVER_FITTED: Rule = Rule {
    name: "ready-never-fitted",
    severity: Severity::Warning,
    summary: "A new seal or part is made ready, and nothing puts it in.",
    explanation: Explanation {
        finds: "Seals without reuse: or with reuse: never, and parts and bearings with reuse: never, that clean: or apply: makes ready in one of the machine's procedures, and that no fit:, dry-fit:, start: or torque: of any of them puts in, alone or as one of a stack. What remove: takes out afterwards is silent, and what an open item names.",
        matters: "Whoever ticks the sheet greases the seal, and the sheet never says to press it in.",
        may_be_wrong: "Where it stays in the machine and is only cleaned or greased there: say reuse: inspect.",
        example: "[Grease the lip of the lever seal](apply:grease@lever-seal)   and no fit:lever-seal",
        instead: "[Press the lever seal in](fit:lever-seal)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in context.manual.machines.iter().filter(|machine| !machine.has_holes()) {
        findings.extend(forgotten(context.manual, machine));
    }
}

fn forgotten<'m>(manual: &'m Manual, machine: &'m Machine) -> impl Iterator<Item = Finding> + use<'m> {
    let (mut ready, mut put_in): (BTreeMap<ThingRef, (&Procedure, &Act)>, BTreeSet<ThingRef>) = Default::default();
    for procedure in &machine.procedures {
        let scope = manual.scope(machine, procedure);
        for (step, act) in procedure.steps.iter().flat_map(|step| step.acts.iter().map(move |act| (step, act))) {
            match act.verb {
                Some(Verb::Clean | Verb::Apply) => {
                    for thing in act.things.iter().filter(|thing| is_new(manual, machine, procedure, thing)) {
                        ready.entry(thing.clone()).or_insert((procedure, act));
                    }
                }
                Some(Verb::Fit | Verb::DryFit | Verb::Start | Verb::Torque) => put_in.extend(used_by(scope, act, &step.only)),
                // What was wiped or oiled to come out.
                Some(Verb::Remove) => ready.retain(|thing, _| !act.things.contains(thing)),
                _ => {}
            }
        }
    }
    let open: BTreeSet<&str> = machine
        .procedures
        .iter()
        .flat_map(|procedure| procedure.lists.leaves_open.iter())
        .map(|(id, item)| item.what.of.as_ref().map_or(id.as_str(), |of| of.value.as_str()))
        .collect();
    ready.retain(|thing, _| !put_in.contains(thing) && !open.contains(thing.id.as_str()) && !machine.may_mean(&thing.id));
    ready.into_iter().filter_map(move |(thing, (procedure, act))| {
        let name = manual.scope(machine, procedure).head(&thing)?.name;
        Some(
            Finding::new(&READY_NEVER_FITTED, act.place.clone(), format!("{name} is made ready, and nothing puts it in"))
                .label("the first that is done to it")
                .fix(format!("write fit:{} where it goes in; or reuse: inspect where it stays in the machine", thing.id))
                .about(thing.id),
        )
    })
}

/// Whether a thing is of those that go in new.
fn is_new(manual: &Manual, machine: &Machine, procedure: &Procedure, thing: &ThingRef) -> bool {
    let scope = manual.scope(machine, procedure);
    let Some(reuse) = scope.lists_of(thing).and_then(|lists| reuse(lists, thing)) else { return false };
    match thing.kind {
        ListKind::Seals => reuse.cases_within(&Combination::default()).all(|case| case.value == "never"),
        ListKind::Parts | ListKind::Bearings => reuse.is_given() && reuse.cases_within(&Combination::default()).all(|case| case.value == "never"),
        _ => false,
    }
}
