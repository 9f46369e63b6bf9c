//! What an act needs: what it names, and what the things named bring with them: wrench, holder, locker, instrument, sleeve, bath.

use crate::manual::{Act, Combination, ListKind, Scope, ThingRef, Varied, Verb, wrenches};

/// What goes in and stays.
pub(super) const GOODS: [ListKind; 5] = [ListKind::Fasteners, ListKind::Seals, ListKind::Bearings, ListKind::Parts, ListKind::Shims];

/// Everything an act uses: what it names, and what the things named bring with them.
#[must_use]
pub fn used_by(scope: Scope<'_>, act: &Act, known: &Combination) -> Vec<ThingRef> {
    let mut used: Vec<ThingRef> = Vec::new();
    for thing in &act.things {
        push(&mut used, Some(thing.clone()));
        for more in brought_along(scope, act.verb, thing, known) {
            push(&mut used, Some(more));
        }
    }
    push(&mut used, act.material.clone());
    used
}

/// What a thing brings with it when a verb is carried out on it: wrench, holder, locker, instrument, sleeve.
#[must_use]
pub fn brought_along(scope: Scope<'_>, verb: Option<Verb>, thing: &ThingRef, known: &Combination) -> Vec<ThingRef> {
    let mut more = Vec::new();
    let Some(lists) = scope.lists_of(thing) else { return more };
    let mut add = |kind: ListKind, ids: &Varied<String>| {
        for case in ids.cases_within(known) {
            push(&mut more, scope.find(kind, &case.value));
        }
    };
    match (thing.kind, verb) {
        (ListKind::Fasteners, Some(Verb::Torque)) => {
            if let Some(entry) = lists.fasteners.get(&thing.id) {
                add(ListKind::Tools, &entry.what.tool);
                add(ListKind::Tools, &entry.what.hold_with);
                add(ListKind::Materials, &entry.what.locker);
                for wrench in wrenches(scope, &entry.what, known, None) {
                    push(&mut more, scope.find(ListKind::Tools, &wrench.id));
                }
            }
        }
        (ListKind::Seals, Some(Verb::Fit | Verb::DryFit)) => {
            if let Some(entry) = lists.seals.get(&thing.id) {
                add(ListKind::Tools, &entry.what.sleeve);
            }
        }
        (ListKind::Heats, Some(Verb::Heat)) => {
            if let Some(entry) = lists.heats.get(&thing.id) {
                add(ListKind::Tools, &entry.what.check_with);
            }
        }
        (ListKind::Measures, _) => {
            if let Some(entry) = lists.measures.get(&thing.id) {
                add(ListKind::Tools, &entry.what.with);
                add(ListKind::Shims, &entry.what.chooses);
            }
        }
        (ListKind::Aligns, _) => {
            if let Some(entry) = lists.aligns.get(&thing.id) {
                add(ListKind::Tools, &entry.what.check_with);
            }
        }
        (ListKind::Fills, _) => {
            if let Some(entry) = lists.fills.get(&thing.id) {
                add(ListKind::Materials, &entry.what.of);
            }
        }
        (ListKind::Beads, _) => {
            if let Some(entry) = lists.beads.get(&thing.id) {
                add(ListKind::Materials, &entry.what.of);
            }
        }
        // What is laid in something is in hand where it is laid in; what only has to cure or cool is in place.
        (ListKind::Waits, Some(Verb::Begin)) => {
            if let Some(entry) = lists.waits.get(&thing.id).filter(|entry| entry.what.medium.is_given()) {
                add(ListKind::Materials, &entry.what.medium);
                for of in &entry.what.of {
                    push(&mut more, GOODS.iter().find_map(|kind| scope.find(*kind, &of.value)));
                }
            }
        }
        (ListKind::Stacks, _) => {
            if let Some(entry) = lists.stacks.get(&thing.id) {
                for of in &entry.what.of {
                    push(&mut more, scope.find(ListKind::Parts, &of.value));
                }
            }
        }
        _ => {}
    }
    more
}

/// The values a varied field may have where this is known; one where that decides it.
pub(super) fn within<'v, T>(varied: &'v Varied<T>, known: &Combination) -> Vec<&'v T> {
    varied.within(known)
}

fn push(list: &mut Vec<ThingRef>, thing: Option<ThingRef>) {
    if let Some(thing) = thing.filter(|thing| !list.contains(thing)) {
        list.push(thing);
    }
}
