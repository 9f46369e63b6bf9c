//! One state of a manual: its values, and the manual itself where it could be read.

use crate::manual::{Combination, Home, Ledger, Machine, Manual, ThingRef, ListKind};
use crate::source::Sources;

/// A state of a manual.
#[derive(Clone, Debug)]
pub struct State {
    /// How it was named: a folder, a revision.
    pub name: String,
    /// Its values.
    pub ledger: Ledger,
    /// The manual and its files; none for a published site, which holds values only.
    pub read: Option<(Manual, Box<Sources>)>,
}

impl State {
    /// The state of a manual that was read.
    #[must_use]
    pub fn of(name: impl Into<String>, manual: Manual, sources: Box<Sources>) -> Self {
        Self { name: name.into(), ledger: Ledger::of(&manual), read: Some((manual, sources)) }
    }

    /// The state of which only the values are known.
    #[must_use]
    pub fn of_values(name: impl Into<String>, ledger: Ledger) -> Self {
        Self { name: name.into(), ledger, read: None }
    }

    /// The manual, where it was read.
    pub(super) fn manual(&self) -> Option<&Manual> {
        self.read.as_ref().map(|(manual, _)| manual)
    }

    /// Whether some list of it could not be read.
    pub(super) fn has_holes(&self) -> bool {
        self.manual().is_some_and(|manual| !manual.shop.holes.is_empty() || manual.machines.iter().any(Machine::has_holes))
    }

    pub(super) fn shares_a_machine_with(&self, other: &Self) -> bool {
        self.ledger.homes.keys().filter(|home| *home != SHOP).any(|home| other.ledger.homes.contains_key(home))
    }

    /// The name of a thing.
    pub(super) fn name_of(&self, machine: Option<&str>, thing: &ThingRef) -> Option<&str> {
        let manual = self.manual()?;
        let lists = match (&thing.home, machine) {
            (Home::Shop, _) => &manual.shop,
            (Home::Machine, Some(machine)) => &manual.machine(machine)?.lists,
            (Home::Procedure(procedure), Some(machine)) => &manual.machine(machine)?.procedure(procedure)?.lists,
            _ => return None,
        };
        lists.head(thing.kind, &thing.id).map(|head| head.name)
    }
}

/// The shop's name in the ledger.
pub(super) const SHOP: &str = "shop";

/// The machine of a front matter by its name in the ledger; none for the shop.
pub(super) fn machine_of(home: &str) -> Option<&str> {
    (home != SHOP).then(|| home.split('/').next().unwrap_or(home))
}

/// A thing by its names in the ledger.
pub(super) fn thing(home: &str, list: &str, id: &str) -> Option<ThingRef> {
    let kind = ListKind::find(list)?;
    let home = match home.split_once('/') {
        Some((_, procedure)) => Home::Procedure(procedure.to_owned()),
        None if home == SHOP => Home::Shop,
        None => Home::Machine,
    };
    Some(ThingRef { kind, home, id: id.to_owned() })
}

/// A condition as the ledger writes it, `serial late, shaft L`, read back.
pub(super) fn combination(condition: &str) -> Combination {
    Combination(condition.split(", ").filter_map(|part| part.split_once(' ')).map(|(axis, value)| (axis.to_owned(), value.to_owned())).collect())
}
