//! Where new things come from: each is in a kit, or ordered.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Combination, Entry, Home, Kit, ListKind, Lists, Machine, Manual, ThingRef, Varied, Verb};

/// Something is needed new and in no kit.
pub(super) static NOT_IN_KIT: Rule = Rule {
    name: "not-in-kit",
    severity: Severity::Warning,
    summary: "Something is needed new, and no kit or order brings it.",
    explanation: Explanation {
        finds: "On machines that have kits: things with reuse: never that a step puts in and that neither a kit holds (kits: … holds:) nor from: accounts for; from: a kit that does not hold the thing; and kits that hold fewer than are needed new.",
        matters: "It is found missing when the old one is already in the bin.",
        may_be_wrong: "Where it is bought apart: write from: order.",
        example: "carrier-bearing: {reuse: never, count: 2}   and carrier-kit: {holds: {carrier-bearing: 1}}",
        instead: "carrier-kit: {holds: {carrier-bearing: 2}}, or from: order",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let kits = kits(context.manual, machine);
        let lost = machine.procedures.iter().map(|p| &p.lists).chain([&machine.lists]).any(|lists| lists.holes.contains(&ListKind::Kits));
        if kits.is_empty() || lost {
            continue;
        }
        for procedure in &machine.procedures {
            supplies(machine, &kits, &Home::Procedure(procedure.id.clone()), &procedure.lists, findings);
        }
        supplies(machine, &kits, &Home::Machine, &machine.lists, findings);
    }
}

fn kits<'m>(manual: &'m Manual, machine: &'m Machine) -> Vec<&'m Entry<Kit>> {
    let lists = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists, &manual.shop]);
    lists.flat_map(|lists| lists.kits.values()).collect()
}

/// What an entry says of where it comes from.
struct Supply<'a> {
    kind: ListKind,
    id: &'a str,
    name: &'a str,
    place: &'a Place,
    only: &'a Combination,
    reuse: &'a Varied<String>,
    from: Option<&'a Varied<String>>,
    /// `new:`, then `count:`: the first that is given tells how many are needed.
    numbers: [&'a Varied<u64>; 2],
}

fn supplies(machine: &Machine, kits: &[&Entry<Kit>], home: &Home, lists: &Lists, findings: &mut Vec<Finding>) {
    let fasteners = lists.fasteners.values().map(|e| supply(ListKind::Fasteners, e, &e.what.reuse, None, [&e.what.new, &e.what.count]));
    let seals = lists.seals.values().map(|e| supply(ListKind::Seals, e, &e.what.reuse, Some(&e.what.from), [&e.what.new, &e.what.count]));
    let bearings = lists.bearings.values().map(|e| supply(ListKind::Bearings, e, &e.what.reuse, Some(&e.what.from), [&e.what.new, &e.what.count]));
    let parts = lists.parts.values().map(|e| supply(ListKind::Parts, e, &e.what.reuse, Some(&e.what.from), [&e.what.new, &e.what.count]));
    for supply in fasteners.chain(seals).chain(bearings).chain(parts) {
        let unreadable = ["reuse", "from", "count", "new"].into_iter().any(|field| lists.is_unreadable(supply.kind, supply.id, field));
        let thing = ThingRef { kind: supply.kind, home: home.clone(), id: supply.id.to_owned() };
        let goes_in = every::first_act(machine, &thing, &[Verb::Fit, Verb::Start, Verb::Torque]);
        if let Some(act) = goes_in.filter(|_| !unreadable) {
            findings.extend(fault(kits, &supply).map(|finding| finding.related(act.place.clone(), "goes in here")));
        }
    }
}

fn supply<'a, T>(kind: ListKind, entry: &'a Entry<T>, reuse: &'a Varied<String>, from: Option<&'a Varied<String>>, numbers: [&'a Varied<u64>; 2]) -> Supply<'a> {
    Supply { kind, id: &entry.id, name: &entry.name, place: &entry.id_place, only: &entry.only, reuse, from, numbers }
}

fn fault(kits: &[&Entry<Kit>], supply: &Supply<'_>) -> Option<Finding> {
    let once = supply.reuse.cases.iter().filter(|case| case.value == "never");
    let named = supply.from.into_iter().flat_map(|from| &from.cases);
    // A kit that is named must hold the thing, whether it is used once or not.
    let mut wrongly_named = named.clone().filter_map(|case| {
        let kit = kits.iter().find(|kit| kit.id == case.value)?;
        (!kit.what.holds.iter().any(|(held, _)| held.value == supply.id)).then_some((case, *kit))
    });
    if let Some((case, kit)) = wrongly_named.next() {
        return Some(
            Finding::new(&NOT_IN_KIT, case.place.clone(), format!("{} should come from {}, and that does not hold it", supply.name, kit.name))
                .label("not in there")
                .related(kit.id_place.clone(), "the kit")
                .fix(format!("add it to the kit (holds: {{{}: …}}), or write where it comes from: another kit, order, stock", supply.id))
                .about(supply.id.to_owned()),
        );
    }
    once.filter_map(|case| case.when.and(supply.only)).find_map(|when| {
        let accounted = named.clone().any(|from| from.when.agrees_with(&when) && !kits.iter().any(|kit| kit.id == from.value));
        if accounted {
            return None;
        }
        let holding: Vec<(&Entry<Kit>, u64, &Place)> = kits
            .iter()
            .filter(|kit| kit.only.agrees_with(&when))
            .flat_map(|kit| kit.what.holds.iter().filter(|(held, _)| held.value == supply.id).map(move |(held, count)| (*kit, *count, &held.place)))
            .collect();
        let held: u64 = holding.iter().fold(0, |sum, (_, count, _)| sum.saturating_add(*count));
        let needed = supply.numbers.into_iter().find_map(|value| value.cases_within(&when).next()).map_or(1, |case| case.value);
        short_of(supply, &holding, held, needed)
    })
}

fn short_of(supply: &Supply<'_>, holding: &[(&Entry<Kit>, u64, &Place)], held: u64, needed: u64) -> Option<Finding> {
    if held >= needed {
        return None;
    }
    let Some((kit, _, place)) = holding.first() else {
        return Some(
            Finding::new(&NOT_IN_KIT, supply.place.clone(), format!("{} is new each time, and no kit or order brings it", supply.name))
                .label("from where?")
                .fix("add it to a kit (holds:), or write from: order")
                .about(supply.id.to_owned()),
        );
    };
    Some(
        Finding::new(&NOT_IN_KIT, (*place).clone(), format!("{} holds {held} of {}, and {needed} are needed new", kit.name, supply.name))
            .label(format!("{} short", needed - held))
            .related(supply.place.clone(), "listed here")
            .fix("correct the number the kit holds, or list how many are ordered apart (another entry, from: order)")
            .about(supply.id.to_owned()),
    )
}
