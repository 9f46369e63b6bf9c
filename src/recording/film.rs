//! A recording and the procedures that are in it: which step is shown when, and which values each step works to.

use crate::manual::{Act, Expect, ListKind, Lists, Machine, Manual, Procedure, Recording, Scope, Step, ThingRef, Torque, Varied};
use crate::quantity::{Dimension, Quantity, Unit, shared_unit};
use std::collections::BTreeSet;

/// A recording with everything of one machine that is in it.
#[derive(Clone, Debug)]
pub struct Film<'m> {
    pub(super) manual: &'m Manual,
    pub(super) machine: &'m Machine,
    /// The procedures in it, in build order.
    pub(super) procedures: Vec<&'m Procedure>,
    pub(super) recording: &'m Recording,
}

/// A step and the stretch of the recording that is its own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Window<'m> {
    pub(super) procedure: &'m Procedure,
    pub(super) step: &'m Step,
    /// Second of its beginning.
    pub(super) from: u32,
    /// Second of its end: where the next one begins, or the end it states; none where nothing ends it.
    pub(super) to: Option<u32>,
    /// The end it states itself.
    pub(super) stated_end: Option<u32>,
}

/// A value that a step works to.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Listed<'m> {
    /// `ID.field`.
    pub(super) of: String,
    /// The thing's name.
    pub(super) name: &'m str,
    pub(super) field: &'static str,
    pub(super) quantity: &'m Quantity,
}

impl<'m> Film<'m> {
    /// The recording of a procedure, with the others that share it; none where it has none.
    #[must_use]
    pub fn of(manual: &'m Manual, machine: &'m Machine, procedure: &'m Procedure) -> Option<Self> {
        let recording = procedure.recording.as_ref()?;
        let same = |other: &&Procedure| {
            let theirs = other.recording.as_ref().and_then(|recording| recording.address.as_ref());
            other.id == procedure.id || (theirs.is_some() && theirs == recording.address.as_ref())
        };
        Some(Self { manual, machine, procedures: machine.procedures.iter().filter(same).collect(), recording })
    }

    pub(super) fn scope(&self, procedure: &'m Procedure) -> Scope<'m> {
        self.manual.scope(self.machine, procedure)
    }

    /// The steps with a moment, in the order of the recording.
    pub(super) fn windows(&self) -> Vec<Window<'m>> {
        let steps = self.procedures.iter().flat_map(|procedure| procedure.steps.iter().map(move |step| (*procedure, step)));
        let mut windows: Vec<Window<'m>> = steps
            .filter_map(|(procedure, step)| {
                let span = step.at.as_ref()?.value;
                let stated_end = (!span.is_moment()).then(|| span.end().seconds());
                Some(Window { procedure, step, from: span.start().seconds(), to: None, stated_end })
            })
            .collect();
        windows.sort_by_key(|window| window.from);
        // Two steps of one moment are for two variants: both end where the next other one begins.
        let mut next: Option<u32> = None;
        let mut at = None;
        for window in windows.iter_mut().rev() {
            if at.is_some_and(|at| at != window.from) {
                next = at;
            }
            at = Some(window.from);
            window.to = next.or(window.stated_end);
        }
        windows
    }

    /// The values that a step works to: those of the things its acts are on, each once.
    pub(super) fn values(&self, procedure: &'m Procedure, step: &'m Step) -> Vec<Listed<'m>> {
        let scope = self.scope(procedure);
        let mut seen = BTreeSet::new();
        let mut all = Vec::new();
        for thing in step.acts.iter().flat_map(worked_on) {
            if seen.insert(thing.clone()) {
                let name = scope.head(thing).map_or("", |head| head.name);
                all.extend(values_of(scope, thing).into_iter().map(|(field, quantity)| Listed { of: format!("{}.{field}", thing.id), name, field, quantity }));
            }
        }
        all
    }

    /// What the lists have for `ID.field`, by variant where it differs: `early: 70 N·m, late: 78 N·m`; with the thing's name.
    pub(super) fn listed(&self, of: &str) -> Option<(String, String)> {
        let (id, field) = of.split_once('.').unwrap_or((of, ""));
        let procedures = self.machine.procedures.iter().map(|procedure| &procedure.lists);
        let own = self.procedures.iter().map(|procedure| &procedure.lists);
        let homes: Vec<&Lists> = own.chain(procedures).chain([&self.machine.lists, &self.manual.shop]).collect();
        homes.into_iter().find_map(|lists| {
            let of_this = |written: &&crate::manual::WrittenValue| written.id == id && written.field == field;
            let kind = lists.written.iter().find(of_this)?.kind;
            let cases = lists.written.iter().filter(|written| of_this(written) && written.kind == kind);
            let told = |text: &str| value_words(text, field, &self.manual.units);
            let texts: Vec<String> = cases.map(|case| if case.when.is_always() { told(&case.text) } else { format!("{}: {}", case.when.words(), told(&case.text)) }).collect();
            Some((lists.head(kind, id)?.name.to_owned(), texts.join(", ")))
        })
    }
}

/// A value as written in a list, as a viewer reads it: `24 N·m (17.7 lbf·ft)`, `stage 1: 20 N·m (14.8 lbf·ft), stage 2: 90°`.
fn value_words(text: &str, field: &str, units: &[&'static Unit]) -> String {
    let list = text.strip_prefix('[').and_then(|text| text.strip_suffix(']'));
    let items: Vec<&str> = list.map_or_else(|| vec![text], |list| list.split(", ").map(|item| item.trim_matches(['\'', '"', ' '])).collect());
    let quantities: Vec<Option<Quantity>> = items.iter().map(|item| Quantity::parse_free(item).ok().filter(|quantity| quantity.dimension() != Dimension::Count)).collect();
    // All stages of a torque in one unit.
    let units: Vec<&'static Unit> = units.iter().map(|unit| shared_unit(quantities.iter().flatten().filter(|quantity| quantity.dimension() == Dimension::Torque), unit)).collect();
    let told = items.iter().zip(&quantities).zip(1..).map(|((item, quantity), number)| {
        let value = quantity.as_ref().map_or_else(|| (*item).to_owned(), |quantity| in_both_units(quantity, &units));
        if list.is_some() && field == "torque" { format!("stage {number}: {value}") } else { value }
    });
    told.collect::<Vec<_>>().join(", ")
}

fn in_both_units(quantity: &Quantity, units: &[&'static Unit]) -> String {
    let other = units.iter().filter(|unit| quantity.second().is_none() && **unit != quantity.unit() && unit.dimension() == quantity.dimension());
    match other.into_iter().find_map(|unit| quantity.convert_into(unit)).map(|other| other.to_string()) {
        Some(other) if other.contains('(') => format!("{} [{other}]", quantity.written()),
        Some(other) => format!("{} ({other})", quantity.written()),
        None => quantity.written().to_owned(),
    }
}

/// The things of an act whose values count there; a tool has none.
fn worked_on(act: &Act) -> impl Iterator<Item = &ThingRef> {
    act.things.iter().chain(&act.material).filter(|thing| !matches!(thing.kind, ListKind::Tools | ListKind::People))
}

/// The quantities of a thing, with their fields.
fn values_of<'m>(scope: Scope<'m>, thing: &ThingRef) -> Vec<(&'static str, &'m Quantity)> {
    fn all<'m>(field: &'static str, value: &'m Varied<Quantity>) -> Vec<(&'static str, &'m Quantity)> {
        value.cases.iter().map(|case| (field, &case.value)).collect()
    }
    let lists = match scope.lists_of(thing) {
        Some(lists) => lists,
        None => return Vec::new(),
    };
    let id = &thing.id;
    match thing.kind {
        ListKind::Fasteners => lists.fasteners.get(id).map(|entry| entry.what.torque.cases.iter().flat_map(|case| Torque::stages(&case.value)).map(|stage| ("torque", stage)).collect()),
        ListKind::Seals => lists.seals.get(id).map(|entry| all("depth", &entry.what.depth)),
        ListKind::Measures => lists.measures.get(id).map(|entry| [all("spec", &entry.what.spec), all("limit", &entry.what.limit)].concat()),
        ListKind::Shims => lists.shims.get(id).map(|entry| [all("target", &entry.what.target), all("accept", &entry.what.accept)].concat()),
        ListKind::Heats => lists.heats.get(id).map(|entry| [all("to", &entry.what.to), all("cool", &entry.what.cool)].concat()),
        ListKind::Waits => lists.waits.get(id).map(|entry| all("time", &entry.what.time)),
        ListKind::Fills => lists.fills.get(id).map(|entry| all("amount", &entry.what.amount)),
        ListKind::Beads => lists.beads.get(id).map(|entry| all("diameter", &entry.what.diameter)),
        ListKind::Aligns => lists.aligns.get(id).map(|entry| [all("offset", &entry.what.offset), all("arc", &entry.what.arc)].concat()),
        ListKind::Turns => lists.turns.get(id).map(|entry| all("amount", &entry.what.amount)),
        ListKind::Tests => lists.tests.get(id).map(|entry| {
            let of = |expect: &'m Expect| match expect {
                Expect::Quantities(values) => values.iter().map(|(_, quantity)| ("expect", quantity)).collect(),
                Expect::Words(_) => Vec::new(),
            };
            entry.what.expect.cases.iter().flat_map(|case| -> Vec<(&'static str, &'m Quantity)> { of(&case.value) }).collect()
        }),
        ListKind::Materials => lists.materials.get(id).map(|entry| {
            let material = &entry.what;
            [("working", &material.working), ("fixture", &material.fixture), ("cure", &material.cure)].into_iter().filter_map(|(field, value)| Some((field, value.as_ref()?))).collect()
        }),
        _ => None,
    }
    .unwrap_or_default()
}
