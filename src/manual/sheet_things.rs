//! Which other things a sheet prints with a thing: what its values name, and the shaft it sits on.

use super::lists::{ListKind, Scope, ThingRef};
use super::things::Spot;
use super::varied::{Combination, Varied};

/// Ids with the lists they are looked for in.
struct Named<'a> {
    scope: Scope<'a>,
    known: &'a Combination,
    found: Vec<ThingRef>,
}

/// What a thing's values name and a sheet prints with them, in the variants that `known` leaves open.
pub(super) fn named_by(scope: Scope<'_>, thing: &ThingRef, known: &Combination) -> Vec<ThingRef> {
    let mut named = Named { scope, known, found: Vec::new() };
    let Some(lists) = scope.lists_of(thing) else { return Vec::new() };
    let id = thing.id.as_str();
    match thing.kind {
        ListKind::Fasteners => {
            let Some(entry) = lists.fasteners.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Materials], &entry.what.locker);
            named.varied(&[ListKind::Tools], &entry.what.tool);
            named.varied(&[ListKind::Tools], &entry.what.hold_with);
        }
        ListKind::Seals => {
            let Some(entry) = lists.seals.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Materials], &entry.what.lip);
            named.varied(&[ListKind::Tools, ListKind::Parts], &entry.what.sleeve);
        }
        ListKind::Stacks => {
            let Some(entry) = lists.stacks.get(id) else { return Vec::new() };
            named.spots(&[ListKind::Parts], &entry.what.of);
        }
        ListKind::Heats => {
            let Some(entry) = lists.heats.get(id) else { return Vec::new() };
            named.varied(ListKind::THINGS, &entry.what.of);
            named.varied(&[ListKind::Tools], &entry.what.check_with);
        }
        ListKind::Beads => {
            let Some(entry) = lists.beads.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Materials], &entry.what.of);
        }
        ListKind::Measures => {
            let Some(entry) = lists.measures.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Tools], &entry.what.with);
            named.varied(&[ListKind::Shims], &entry.what.chooses);
        }
        ListKind::Waits => {
            let Some(entry) = lists.waits.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Materials], &entry.what.medium);
            if entry.what.medium.is_given() {
                named.spots(ListKind::THINGS, &entry.what.of);
            }
        }
        ListKind::Fills => {
            let Some(entry) = lists.fills.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Materials], &entry.what.of);
        }
        ListKind::Shafts => {
            let Some(entry) = lists.shafts.get(id) else { return Vec::new() };
            named.spots(&[ListKind::Seals, ListKind::Bearings, ListKind::Parts], &entry.what.sits);
        }
        ListKind::Aligns => {
            let Some(entry) = lists.aligns.get(id) else { return Vec::new() };
            named.varied(&[ListKind::Tools], &entry.what.check_with);
        }
        _ => {}
    }
    named.found
}

/// The shafts a seal, bearing or part sits on: one drawing shows all that sits there.
pub(super) fn shafts_of(scope: Scope<'_>, thing: &ThingRef) -> Vec<ThingRef> {
    if !matches!(thing.kind, ListKind::Seals | ListKind::Bearings | ListKind::Parts) {
        return Vec::new();
    }
    let shafts = scope.homes().flat_map(|(home, lists)| lists.shafts.values().map(move |shaft| (home.clone(), shaft)));
    shafts
        .filter(|(_, shaft)| shaft.what.sits.iter().any(|sits| sits.value == thing.id))
        .map(|(home, shaft)| ThingRef { kind: ListKind::Shafts, home, id: shaft.id.clone() })
        .collect()
}

impl Named<'_> {
    fn varied(&mut self, kinds: &[ListKind], ids: &Varied<String>) {
        for case in ids.cases_within(self.known) {
            self.id(kinds, &case.value);
            if self.known.satisfies(&case.when) {
                break;
            }
        }
    }

    fn spots(&mut self, kinds: &[ListKind], ids: &[Spot<String>]) {
        for id in ids {
            self.id(kinds, &id.value);
        }
    }

    fn id(&mut self, kinds: &[ListKind], id: &str) {
        self.found.extend(kinds.iter().find_map(|kind| self.scope.find(*kind, id)));
    }
}
