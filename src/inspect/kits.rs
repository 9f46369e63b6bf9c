//! Where new things come from: each is in a kit, or ordered.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Act, Combination, Entry, Home, Kit, ListKind, Lists, Machine, Manual, ThingRef, Varied, Verb, combinations};
use std::collections::{BTreeMap, BTreeSet};

/// Something is needed new and in no kit.
pub(super) static NOT_IN_KIT: Rule = Rule {
    name: "not-in-kit",
    severity: Severity::Warning,
    summary: "Something is needed new, and no kit or order brings it.",
    explanation: Explanation {
        finds: "On machines that have kits: parts, seals, bearings and fasteners with reuse: never that a step puts in and that neither a kit holds (kits: … holds:) nor from: accounts for; from: a kit that does not hold the thing; and kits that hold fewer than are needed new.",
        matters: "It is found missing when the old one is already in the bin.",
        may_be_wrong: "Where it is bought apart: write from: order.",
        example: "carrier-bearing: {reuse: never, count: 2}   and carrier-kit: {holds: {carrier-bearing: 1}}",
        instead: "carrier-kit: {holds: {carrier-bearing: 2}}, or from: order",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let stock = Stock { machine, kits: kits(context.manual, machine), goes_in: every::first_acts(machine, &[Verb::Fit, Verb::Start, Verb::Torque]) };
        let lost = machine.procedures.iter().map(|p| &p.lists).chain([&machine.lists]).any(|lists| lists.holes.contains(&ListKind::Kits));
        if stock.kits.is_empty() || lost {
            continue;
        }
        for procedure in &machine.procedures {
            supplies(&stock, &Home::Procedure(procedure.id.clone()), &procedure.lists, findings);
        }
        supplies(&stock, &Home::Machine, &machine.lists, findings);
    }
}

/// The kits of a machine, and where each thing goes in.
struct Stock<'m> {
    machine: &'m Machine,
    kits: Vec<&'m Entry<Kit>>,
    goes_in: BTreeMap<&'m ThingRef, &'m Act>,
}

pub(super) fn kits<'m>(manual: &'m Manual, machine: &'m Machine) -> Vec<&'m Entry<Kit>> {
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
    from: &'a Varied<String>,
    /// `new:`, then `count:`: the first that is given tells how many are needed.
    numbers: [&'a Varied<u64>; 2],
}

fn supplies(stock: &Stock<'_>, home: &Home, lists: &Lists, findings: &mut Vec<Finding>) {
    let fasteners = lists.fasteners.values().map(|e| supply(ListKind::Fasteners, e, &e.what.reuse, &e.what.from, [&e.what.new, &e.what.count]));
    let seals = lists.seals.values().map(|e| supply(ListKind::Seals, e, &e.what.reuse, &e.what.from, [&e.what.new, &e.what.count]));
    let bearings = lists.bearings.values().map(|e| supply(ListKind::Bearings, e, &e.what.reuse, &e.what.from, [&e.what.new, &e.what.count]));
    let parts = lists.parts.values().map(|e| supply(ListKind::Parts, e, &e.what.reuse, &e.what.from, [&e.what.new, &e.what.count]));
    for supply in fasteners.chain(seals).chain(bearings).chain(parts) {
        let unreadable = ["reuse", "from", "count", "new"].into_iter().any(|field| lists.is_unreadable(supply.kind, supply.id, field));
        let thing = ThingRef { kind: supply.kind, home: home.clone(), id: supply.id.to_owned() };
        if let Some(act) = stock.goes_in.get(&thing).filter(|_| !unreadable) {
            findings.extend(fault(stock, &supply).map(|finding| finding.related(act.place.clone(), "goes in here")));
        }
    }
}

fn supply<'a, T>(kind: ListKind, entry: &'a Entry<T>, reuse: &'a Varied<String>, from: &'a Varied<String>, numbers: [&'a Varied<u64>; 2]) -> Supply<'a> {
    Supply { kind, id: &entry.id, name: &entry.name, place: &entry.id_place, only: &entry.only, reuse, from, numbers }
}

/// The most combinations of variants one thing is looked at for.
const MOST_COMBINATIONS: usize = 64;

fn fault(stock: &Stock<'_>, supply: &Supply<'_>) -> Option<Finding> {
    if let Some(finding) = wrongly_named(stock, supply) {
        return Some(finding);
    }
    if !supply.reuse.cases.iter().any(|case| case.value == "never") {
        return None;
    }
    let holding: Vec<(&Entry<Kit>, u64, &Place)> = stock
        .kits
        .iter()
        .flat_map(|kit| kit.what.holds.iter().filter(|(held, _)| held.value == supply.id).map(move |(held, count)| (*kit, *count, &held.place)))
        .collect();
    let conditions = supply.reuse.cases.iter().map(|case| &case.when).chain(supply.from.cases.iter().map(|case| &case.when));
    let numbers = supply.numbers.iter().flat_map(|number| number.cases.iter().map(|case| &case.when));
    let kits = holding.iter().map(|(kit, ..)| &kit.only);
    let named: BTreeSet<String> = conditions.chain(numbers).chain(kits).chain([supply.only]).flat_map(|when| when.0.keys().cloned()).collect();
    let made = combinations(&stock.machine.axes, &stock.machine.not_made, &named, MOST_COMBINATIONS)?;
    made.iter().filter(|made| made.satisfies(supply.only)).find_map(|made| {
        let from = supply.from.get(made);
        let elsewhere = from.is_some_and(|from| !stock.kits.iter().any(|kit| kit.id == *from));
        if elsewhere || supply.reuse.get(made).is_none_or(|reuse| reuse != "never") {
            return None;
        }
        let here: Vec<(&Entry<Kit>, u64, &Place)> = holding.iter().filter(|(kit, ..)| made.satisfies(&kit.only)).copied().collect();
        let needed = supply.numbers.into_iter().find_map(|number| number.get(made)).copied().unwrap_or(1);
        short_of(supply, &here, needed, made)
    })
}

/// A kit that is named must hold the thing, whether it is used once or not.
fn wrongly_named(stock: &Stock<'_>, supply: &Supply<'_>) -> Option<Finding> {
    let (case, kit) = supply.from.cases.iter().find_map(|case| {
        let kit = stock.kits.iter().find(|kit| kit.id == case.value)?;
        (!kit.what.holds.iter().any(|(held, _)| held.value == supply.id)).then_some((case, *kit))
    })?;
    Some(
        Finding::new(&NOT_IN_KIT, case.place.clone(), format!("{} should come from {}, and that does not hold it", supply.name, kit.name))
            .label("not in there")
            .related(kit.id_place.clone(), "the kit")
            .fix(format!("add it to the kit (holds: {{{}: …}}), or write where it comes from: another kit, order, stock", supply.id))
            .about(supply.id.to_owned()),
    )
}

fn short_of(supply: &Supply<'_>, holding: &[(&Entry<Kit>, u64, &Place)], needed: u64, made: &Combination) -> Option<Finding> {
    let variant = if made.is_always() { String::new() } else { format!(" ({})", made.words()) };
    let held: u64 = holding.iter().fold(0, |sum, (_, count, _)| sum.saturating_add(*count));
    if held >= needed {
        return None;
    }
    let Some((kit, _, place)) = holding.first() else {
        return Some(
            Finding::new(&NOT_IN_KIT, supply.place.clone(), format!("{} is new each time, and no kit or order brings it{variant}", supply.name))
                .label("from where?")
                .fix("add it to a kit (holds:), or write from: order; from: stock where new ones are kept in the shop")
                .about(supply.id.to_owned()),
        );
    };
    Some(
        Finding::new(&NOT_IN_KIT, (*place).clone(), format!("{} holds {held} of {}, and {needed} are needed new{variant}", kit.name, supply.name))
            .label(format!("{} short", needed - held))
            .related(supply.place.clone(), "listed here")
            .fix("correct the number the kit holds, or list how many are ordered apart (another entry, from: order)")
            .about(supply.id.to_owned()),
    )
}
