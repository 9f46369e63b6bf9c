//! What is listed and what is used.

use super::Context;
use super::uses::Uses;
use crate::finding::{Explanation, Finding, Rule, Severity};
use crate::manual::{EntryHead, Home, ListKind, Lists, Machine, Manual, ThingRef, is_id};
use crate::quantity::Dimension;
use serde::{Deserialize, Serialize};
use std::collections::BTreeSet;

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

/// What a machine needs of the shop, and what of it hangs on other machines.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct SharedNeeds {
    /// The shop's entries that it uses or hides, as `list/id`.
    pub entries: BTreeSet<String>,
    /// Whether some list of it could not be read, so that nobody knows what it would have used.
    pub holes: bool,
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    let (manual, uses) = (context.manual, context.uses);
    for machine in manual.machines.iter().filter(|machine| !machine.has_holes()) {
        let mut told = |home: Home, lists: &Lists| {
            for (kind, head) in unused(manual, uses, Some(machine), &home, lists) {
                findings.push(not_used(lists, kind, &head));
            }
        };
        told(Home::Machine, &machine.lists);
        for procedure in &machine.procedures {
            told(Home::Procedure(procedure.id.clone()), &procedure.lists);
        }
    }
}

/// What the machines of a manual need of its shop; and, where it has none, the shop itself.
pub(super) fn needs(manual: &Manual, uses: &Uses<'_>) -> SharedNeeds {
    let unused: BTreeSet<String> =
        unused(manual, uses, None, &Home::Shop, &manual.shop).map(|(kind, head)| shared_name(kind, head.id)).collect();
    let all = LISTS.iter().flat_map(|kind| manual.shop.heads(*kind).into_iter().map(|head| shared_name(*kind, head.id)));
    SharedNeeds { entries: all.filter(|name| !unused.contains(name)).collect(), holes: manual.machines.iter().any(Machine::has_holes) }
}

/// Tells which entries of the shop nothing uses: neither the shop itself nor any machine.
pub(super) fn check_shared(manual: &Manual, of_machines: &[&SharedNeeds], findings: &mut Vec<Finding>) {
    // Where a list could not be read nobody knows what it would have used.
    if of_machines.iter().any(|needs| needs.holes) {
        return;
    }
    let uses = Uses::of(manual);
    for (kind, head) in unused(manual, &uses, None, &Home::Shop, &manual.shop) {
        let name = shared_name(kind, head.id);
        if !of_machines.iter().any(|needs| needs.entries.contains(&name)) {
            findings.push(not_used(&manual.shop, kind, &head));
        }
    }
}

fn shared_name(kind: ListKind, id: &str) -> String {
    format!("{}/{id}", kind.key())
}

/// Whether something outside the lists and the steps names an entry: a waiver its person, a change its source.
fn is_spoken_of(manual: &Manual, kind: ListKind, id: &str) -> bool {
    match kind {
        ListKind::People => manual.waivers.iter().any(|waiver| waiver.by.value == id),
        ListKind::Sources => {
            let machines = manual.machines.iter();
            let histories = machines.flat_map(|m| m.procedures.iter().map(|p| &p.history).chain([&m.history]));
            let mut changes = histories.chain([&manual.shop_history]).flat_map(|history| &history.changes);
            changes.any(|change| change.source.as_ref().is_some_and(|source| source.value == id))
        }
        _ => false,
    }
}

/// The entries of some lists that nothing uses.
fn unused<'l>(
    manual: &'l Manual,
    uses: &'l Uses<'l>,
    machine: Option<&'l Machine>,
    home: &'l Home,
    lists: &'l Lists,
) -> impl Iterator<Item = (ListKind, EntryHead<'l>)> {
    let heads = LISTS.iter().flat_map(|kind| lists.heads(*kind).into_iter().map(|head| (*kind, head)));
    heads.filter(move |(kind, head)| {
        let thing = ThingRef { kind: *kind, home: home.clone(), id: head.id.to_owned() };
        // Most of them are used.
        if uses.has(machine, &thing) {
            return false;
        }
        let tool_in_use = *kind == ListKind::Tools && is_chosen_by_itself(uses, lists, head.id);
        let misspelt = machine.is_some_and(|machine| machine.may_mean(head.id)) || uses.may_mean(head.id);
        let told = misspelt || !is_id(head.id) || is_only_heard(lists, *kind, head.id) || is_hidden(manual, machine, lists, &thing);
        !tool_in_use && !told && !is_spoken_of(manual, *kind, head.id)
    })
}

fn not_used(lists: &Lists, kind: ListKind, head: &EntryHead<'_>) -> Finding {
    Finding::new(&LISTED_NOT_USED, head.place.clone(), format!("‘{}’ is listed, and nothing uses it", head.id))
        .label("in no step")
        .fix(fix(lists, kind, head.id))
        .about(head.id)
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

fn fix(lists: &Lists, kind: ListKind, id: &str) -> String {
    let solvent = lists.materials.get(id).filter(|_| kind == ListKind::Materials).is_some_and(|entry| entry.what.kind.as_deref() == Some("solvent"));
    match kind {
        // What a thing is cleaned with is put on it: clean: names none.
        ListKind::Materials if solvent => format!("name it where it is used: apply:{id}@THING, beside clean:THING; or take the line out"),
        ListKind::Tools | ListKind::Materials | ListKind::Sources | ListKind::People => {
            "name it where it is needed, or take the line out".to_owned()
        }
        _ => "write the step that uses it, or take the line out".to_owned(),
    }
}
