//! What is listed and what is used.

use super::Context;
use super::uses::Uses;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{Home, ListKind, Lists, Machine, Manual, ThingRef, is_id};
use crate::quantity::Dimension;

/// Something is listed that no step uses.
pub(super) static LISTED_NOT_USED: Rule = Rule {
    name: "listed-not-used",
    severity: Severity::Warning,
    summary: "Something is listed that no step uses.",
    explanation: Explanation {
        finds: "Entries of the lists that no act works on and no other entry names: parts, seals and fasteners never fitted, measurements never taken, tools, materials, sources and people never called for.",
        matters: "Either a step is forgotten, or somebody buys and lays out a thing that is not needed.",
        may_be_wrong: "While a manual is being written and its steps are still to come.",
        example: "seals: {lever-seal: {…}}   and no step with fit:lever-seal",
        instead: "Write the step that uses it, or take the line out.",
    },
};

/// Lists of which every entry must be used.
const LISTS: &[ListKind] = &[
    ListKind::Fasteners,
    ListKind::Seals,
    ListKind::Bearings,
    ListKind::Parts,
    ListKind::Stacks,
    ListKind::Heats,
    ListKind::Beads,
    ListKind::Measures,
    ListKind::Shims,
    ListKind::Waits,
    ListKind::Fills,
    ListKind::Aligns,
    ListKind::Turns,
    ListKind::Tests,
    ListKind::Tools,
    ListKind::Materials,
    ListKind::Sources,
    ListKind::People,
];

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let uses = Uses::of(context.manual);
    let waived: Vec<&str> = context.manual.waivers.iter().map(|waiver| waiver.by.value.as_str()).collect();
    let changed: Vec<&str> = sources_of_changes(context);
    let spoken = |kind: ListKind, id: &str| match kind {
        ListKind::People => waived.contains(&id),
        ListKind::Sources => changed.contains(&id),
        _ => false,
    };
    // Where a list could not be read nobody knows what it would have used.
    if !context.manual.machines.iter().any(Machine::has_holes) {
        unused(context.manual, &uses, None, &Home::Shop, &context.manual.shop, &spoken, findings);
    }
    for machine in context.manual.machines.iter().filter(|machine| !machine.has_holes()) {
        unused(context.manual, &uses, Some(machine), &Home::Machine, &machine.lists, &spoken, findings);
        for procedure in &machine.procedures {
            unused(context.manual, &uses, Some(machine), &Home::Procedure(procedure.id.clone()), &procedure.lists, &spoken, findings);
        }
    }
}

fn sources_of_changes<'a>(context: &Context<'a>) -> Vec<&'a str> {
    let machines = context.manual.machines.iter();
    let histories = machines.flat_map(|m| m.procedures.iter().map(|p| &p.history).chain([&m.history]));
    histories
        .chain([&context.manual.shop_history])
        .flat_map(|history| &history.changes)
        .filter_map(|change| change.source.as_ref().map(|source| source.value.as_str()))
        .collect()
}

fn unused<'m>(
    manual: &Manual,
    uses: &Uses<'m>,
    machine: Option<&'m Machine>,
    home: &Home,
    lists: &Lists,
    spoken: &dyn Fn(ListKind, &str) -> bool,
    findings: &mut Vec<Finding>,
) {
    for kind in LISTS {
        for head in lists.heads(*kind) {
            let thing = ThingRef { kind: *kind, home: home.clone(), id: head.id.to_owned() };
            let tool_in_use = *kind == ListKind::Tools && is_chosen_by_itself(uses, lists, head.id);
            let misspelt = machine.is_some_and(|machine| machine.may_mean(head.id));
            let told = misspelt || !is_id(head.id) || is_only_heard(lists, *kind, head.id) || is_hidden(manual, machine, lists, &thing);
            if !uses.has(machine, &thing) && !tool_in_use && !told && !spoken(*kind, head.id) {
                findings.push(
                    Finding::new(&LISTED_NOT_USED, head.place.clone(), format!("‘{}’ is listed, and nothing uses it", head.id))
                        .label("in no step")
                        .fix(fix(*kind))
                        .about(head.id),
                );
            }
        }
    }
}

/// Whether it is a source that was only heard, which is reported as long as nobody has confirmed it.
fn is_only_heard(lists: &Lists, kind: ListKind, id: &str) -> bool {
    let source = lists.sources.get(id).filter(|_| kind == ListKind::Sources);
    source.is_some_and(|entry| entry.what.kind.as_deref() == Some("heard") && entry.what.read_by.is_none())
}

/// Whether the same id of another thing hides it, which has been reported.
fn is_hidden(manual: &Manual, machine: Option<&Machine>, own: &Lists, thing: &ThingRef) -> bool {
    let of_one_verb = if ListKind::THINGS.contains(&thing.kind) { ListKind::THINGS } else { &[] };
    let others = || of_one_verb.iter().filter(|kind| **kind != thing.kind);
    let has = |lists: &Lists| others().chain([&thing.kind]).any(|kind| lists.head(*kind, &thing.id).is_some());
    let in_procedures = |machine: &Machine| machine.procedures.iter().any(|procedure| has(&procedure.lists));
    others().any(|kind| own.head(*kind, &thing.id).is_some())
        || match (&thing.home, machine) {
            (Home::Shop, _) => manual.machines.iter().any(|machine| has(&machine.lists) || in_procedures(machine)),
            (Home::Machine, Some(machine)) => in_procedures(machine),
            _ => false,
        }
}

/// A torque wrench is chosen by its range and an angle gauge by the stages, without being named.
fn is_chosen_by_itself(uses: &Uses<'_>, lists: &Lists, id: &str) -> bool {
    let Some(tool) = lists.tools.get(id).map(|entry| &entry.what) else { return false };
    match tool.kind.as_deref() {
        Some("torque-wrench") => tool.range.as_ref().is_some_and(|range| {
            let (low, high) = range.low_high();
            range.dimension() == Dimension::Torque && uses.wants_wrench(low.unwrap_or(0.0), high.unwrap_or(f64::INFINITY))
        }),
        Some("angle-gauge") => uses.wants_angle(),
        _ => false,
    }
}

fn fix(kind: ListKind) -> &'static str {
    match kind {
        ListKind::Tools | ListKind::Materials | ListKind::Sources | ListKind::People => {
            "name it where it is needed, or take the line out"
        }
        _ => "write the step that uses it, or take the line out",
    }
}
