//! Open items: what is left on purpose is finished where it says.

use super::Context;
use super::walk::{closing_verbs, is_full, thing_of};
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Combination, Entry, Machine, OpenItem, Procedure, Scope, Step, ThingRef, Verb, combinations};

/// An open item is never finished where it says.
pub(super) static DEFERRAL_NEVER_CLOSED: Rule = Rule {
    name: "deferral-never-closed",
    severity: Severity::Error,
    summary: "An open item is not finished in the step that should finish it.",
    explanation: Explanation {
        finds: "Items under leaves_open: whose finish_in: step does not bring the thing to its final state: a fastener torqued (and locked, where it has a lock), a part, seal or gasket fitted, a temporary thing removed, an alignment, measurement or test done. Also where that step is left out in a variant that leaves the item open.",
        matters: "The nut left by hand on the first evening is the one that is found in the oil pan.",
        may_be_wrong: "Never: either the step lacks the act, or the item names the wrong step.",
        example: "leaves_open: {carrier: {left: dry-fitted, because: …, finish_in: close-gearcase#oil}}",
        instead: "finish_in: close-gearcase#carrier, and in that step [put the carrier in](fit:carrier)",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        for procedure in &machine.procedures {
            let scope = context.manual.scope(machine, procedure);
            for item in procedure.lists.leaves_open.values() {
                findings.extend(never_closed(machine, procedure, scope, item));
            }
        }
    }
}

fn never_closed(machine: &Machine, opener: &Procedure, scope: Scope<'_>, item: &Entry<OpenItem>) -> Option<Finding> {
    let thing = thing_of(scope, item)?;
    let target = item.what.finish_in.as_ref()?;
    let (procedure, step) = target.value.split_once('#')?;
    // A step that does not exist has been reported where ids are resolved.
    let procedure = machine.procedure(procedure)?;
    let step = procedure.step(step)?;
    if step.acts.iter().any(|act| act.may_mean(&thing.id)) {
        return None;
    }
    let missing = missing_act(scope, &thing, step);
    let left_out = open_in(machine, scope, item, &thing, opener).into_iter().find(|combination| !combination.satisfies(&step.only));
    let finding = match (&missing, &left_out) {
        (Some(act), _) => {
            let message = format!("‘{}’ is left open, and the step that should finish it does not", item.id);
            Finding::new(&DEFERRAL_NEVER_CLOSED, target.place.clone(), message)
                .label("not finished there")
                .figure(format!("{}, step {} ‘{}’: no {act}", procedure.title, step.number, step.title))
                .fix(format!("write {act} in that step, or name the step that finishes it"))
        }
        (None, Some(combination)) => {
            let variant = combination.words();
            Finding::new(&DEFERRAL_NEVER_CLOSED, target.place.clone(), format!("‘{}’ is never finished for {variant}", item.id))
                .label("left out there")
                .figure(format!("{}, step {} ‘{}’ is left out for {variant}", procedure.title, step.number, step.title))
                .fix(format!("finish it in a step that is done for {variant} as well; or say with for: where it is left open"))
        }
        (None, None) => return None,
    };
    Some(finding.related(step.place.clone(), "the step that should finish it").about(item.id.clone()))
}

/// The act that the step lacks; none where it has them all.
fn missing_act(scope: Scope<'_>, thing: &ThingRef, step: &Step) -> Option<String> {
    let done = |verb: Verb| step.acts.iter().any(|act| act.verb == Some(verb) && act.things.contains(thing));
    let missing = closing_verbs(scope, thing).into_iter().find(|verb| match verb {
        Verb::Torque => !step.acts.iter().any(|act| {
            act.verb == Some(Verb::Torque) && act.things.contains(thing) && is_full(scope, thing, act.stage)
        }),
        verb => !done(*verb),
    })?;
    let begun = missing == Verb::Torque && done(Verb::Torque);
    let stages = scope.thing(|lists| &lists.fasteners, thing).and_then(|entry| Some(entry.what.torque.first()?.stages().len()));
    Some(match stages.filter(|_| begun) {
        Some(stages) => format!("{}:{}/{stages}", missing.word(), thing.id),
        None => format!("{}:{}", missing.word(), thing.id),
    })
}

/// The combinations in which the item is left open: the item and its thing exist there, and so does the
/// last step that works on the thing.
fn open_in(machine: &Machine, scope: Scope<'_>, item: &Entry<OpenItem>, thing: &ThingRef, opener: &Procedure) -> Vec<Combination> {
    let last = opener.steps.iter().rev().find(|step| step.acts.iter().any(|act| act.things.contains(thing)));
    let conditions: Vec<&Combination> =
        [Some(&item.only), scope.head(thing).map(|head| head.only), last.map(|step| &step.only)].into_iter().flatten().collect();
    let mut named: std::collections::BTreeSet<String> = conditions.iter().flat_map(|c| c.0.keys().cloned()).collect();
    if let Some((_, step)) = finish_step(machine, item) {
        named.extend(step.only.0.keys().cloned());
    }
    let made = combinations(&machine.axes, &machine.not_made, &named, 256).unwrap_or_default();
    made.into_iter().filter(|combination| conditions.iter().all(|condition| combination.satisfies(condition))).collect()
}

fn finish_step<'m>(machine: &'m Machine, item: &Entry<OpenItem>) -> Option<(&'m Procedure, &'m Step)> {
    let (procedure, step) = item.what.finish_in.as_ref()?.value.split_once('#')?;
    let procedure = machine.procedure(procedure)?;
    Some((procedure, procedure.step(step)?))
}
