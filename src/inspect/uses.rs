//! Who uses what: every thing named by an act or by another thing's field.

use crate::manual::{ListKind, Lists, Machine, Manual, Procedure, Scope, ThingRef, Torque};
use crate::quantity::Dimension;
use std::collections::BTreeSet;

/// A thing together with its machine; none for the shop's.
type Key = (Option<String>, ThingRef);

/// Everything in a manual that something names.
#[derive(Debug, Default)]
pub(super) struct Uses {
    used: BTreeSet<Key>,
    /// Ends of every torque, N·m, for the wrenches.
    torques: Vec<(Option<f64>, Option<f64>)>,
    angles: bool,
}

impl Uses {
    pub(super) fn of(manual: &Manual) -> Self {
        let mut uses = Self::default();
        for machine in &manual.machines {
            uses.lists(manual.machine_scope(machine), &machine.lists);
            for procedure in &machine.procedures {
                uses.procedure(manual, machine, procedure);
            }
        }
        let shop = Scope { shop: &manual.shop, machine: None, procedure: None };
        uses.lists(shop, &manual.shop);
        uses
    }

    pub(super) fn has(&self, machine: Option<&Machine>, thing: &ThingRef) -> bool {
        self.used.contains(&key(machine, thing))
    }

    /// Whether some torque of the manual lies on a wrench's scale (N·m).
    pub(super) fn wants_wrench(&self, low: f64, high: f64) -> bool {
        self.torques.iter().any(|(from, to)| {
            let from = from.or(*to).unwrap_or(f64::NAN);
            let to = to.unwrap_or(from);
            from <= high && to >= low
        })
    }

    /// Whether some fastener is tightened by an angle.
    pub(super) fn wants_angle(&self) -> bool {
        self.angles
    }

    fn procedure(&mut self, manual: &Manual, machine: &Machine, procedure: &Procedure) {
        let scope = manual.scope(machine, procedure);
        self.lists(scope, &procedure.lists);
        for act in procedure.steps.iter().flat_map(|step| &step.acts) {
            for thing in act.things.iter().chain(&act.material) {
                self.used.insert(key(Some(machine), thing));
            }
        }
    }

    fn lists(&mut self, scope: Scope<'_>, lists: &Lists) {
        self.fields(scope, lists);
        for entry in lists.fasteners.values() {
            for stage in entry.what.torque.cases.iter().flat_map(|case| Torque::stages(&case.value)) {
                match stage.dimension() {
                    Dimension::Torque => self.torques.push(stage.low_high()),
                    _ => self.angles = true,
                }
            }
        }
    }

    /// Every field that names another thing. Words that name nothing do no harm here.
    fn fields(&mut self, scope: Scope<'_>, lists: &Lists) {
        for written in &lists.written {
            let kinds: &[ListKind] = match written.field {
                "source" => &[ListKind::Sources],
                "locker" | "lip" => &[ListKind::Materials],
                "tool" | "hold_with" | "with" | "check_with" => &[ListKind::Tools],
                "sleeve" => &[ListKind::Tools, ListKind::Parts],
                "by" | "read_by" => &[ListKind::People],
                "from" => &[ListKind::Kits],
                "chooses" => &[ListKind::Shims],
                "when" | "is" => &[ListKind::Measures],
                "begin" | "end" => &[ListKind::Parts],
                "of" | "in" | "under" | "holds" | "between" | "covers" | "faces" => {
                    &[ListKind::Parts, ListKind::Materials, ListKind::Stacks, ListKind::Shims]
                }
                _ => continue,
            };
            for word in written.text.split(|c: char| !(c.is_ascii_alphanumeric() || c == '-')) {
                self.name(scope, kinds, word);
            }
        }
        for sits in lists.shafts.values().flat_map(|entry| &entry.what.sits) {
            self.name(scope, &[ListKind::Parts, ListKind::Materials], &sits.value);
        }
    }

    fn name(&mut self, scope: Scope<'_>, kinds: &[ListKind], id: &str) {
        for thing in kinds.iter().filter_map(|kind| scope.find(*kind, id)) {
            self.used.insert(key(scope.machine, &thing));
        }
        // A stack's plates, a kit's contents and the like may stand in a procedure of the machine.
        let Some(machine) = scope.machine else { return };
        for procedure in &machine.procedures {
            for kind in kinds.iter().filter(|kind| ListKind::THINGS.contains(kind) || **kind == ListKind::Measures) {
                if procedure.lists.head(*kind, id).is_some() {
                    let home = crate::manual::Home::Procedure(procedure.id.clone());
                    self.used.insert((Some(machine.id.clone()), ThingRef { kind: *kind, home, id: id.to_owned() }));
                }
            }
        }
    }
}

fn key(machine: Option<&Machine>, thing: &ThingRef) -> Key {
    let machine = if thing.home == crate::manual::Home::Shop { None } else { machine.map(|m| m.id.clone()) };
    (machine, thing.clone())
}
