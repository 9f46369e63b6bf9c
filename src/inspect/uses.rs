//! Who uses what: every thing named by an act or by another thing's field.

use crate::finding::nearest;
use crate::manual::{Home, ListKind, Lists, MEDIA, Machine, Manual, Procedure, Scope, ThingRef, Torque, is_id};
use crate::quantity::Dimension;
use foldhash::{HashMap, HashSet};
use std::collections::BTreeSet;

/// A thing together with its machine; none for the shop's.
type Key<'m> = (Option<&'m str>, ThingRef);

/// The procedures of a machine that list something which another list may name, by its id; only ever looked up in.
type Listed<'m> = HashMap<&'m str, Vec<(ListKind, &'m Procedure)>>;

/// What a machine has around each of its lists: what its procedures list, and every id of its world.
#[derive(Clone, Copy)]
struct Around<'m, 'l> {
    listed: &'l Listed<'m>,
    known: &'l HashSet<&'m str>,
}

/// Everything in a manual that something names.
#[derive(Debug, Default)]
pub(super) struct Uses<'m> {
    used: BTreeSet<Key<'m>>,
    /// Ends of every torque, N·m, for the wrenches.
    torques: Vec<(Option<f64>, Option<f64>)>,
    angles: bool,
    /// Whether some torque could not be read (reported): any wrench may be for it.
    unreadable_torque: bool,
    /// Ids in fields that name nothing (reported): each may mean a thing that seems unused.
    misspelt: BTreeSet<&'m str>,
}

impl<'m> Uses<'m> {
    pub(super) fn of(manual: &'m Manual) -> Self {
        let mut uses = Self::default();
        for machine in &manual.machines {
            let listed = listed(machine);
            let own = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists, &manual.shop]);
            let around = Around { listed: &listed, known: &own.flat_map(ids).collect() };
            uses.lists(manual.machine_scope(machine), &machine.lists, around);
            for procedure in &machine.procedures {
                uses.procedure(manual, machine, procedure, around);
            }
        }
        let shop = Scope { shop: &manual.shop, machine: None, procedure: None };
        uses.lists(shop, &manual.shop, Around { listed: &Listed::default(), known: &ids(&manual.shop).collect() });
        uses
    }

    pub(super) fn has(&self, machine: Option<&'m Machine>, thing: &ThingRef) -> bool {
        self.used.contains(&key(machine, thing))
    }

    /// Whether some torque of the manual lies on a wrench's scale (N·m).
    pub(super) fn wants_wrench(&self, low: f64, high: f64) -> bool {
        self.unreadable_torque || self.torques.iter().any(|(from, to)| {
            let from = from.or(*to).unwrap_or(f64::NAN);
            let to = to.unwrap_or(from);
            from <= high && to >= low
        })
    }

    /// Whether some fastener is tightened by an angle.
    pub(super) fn wants_angle(&self) -> bool {
        self.angles || self.unreadable_torque
    }

    /// Whether an id that names nothing may have meant this one.
    pub(super) fn may_mean(&self, id: &str) -> bool {
        self.misspelt.iter().any(|written| nearest(written, [id]).is_some())
    }

    fn procedure(&mut self, manual: &'m Manual, machine: &'m Machine, procedure: &'m Procedure, around: Around<'m, '_>) {
        let scope = manual.scope(machine, procedure);
        self.lists(scope, &procedure.lists, around);
        for act in procedure.steps.iter().flat_map(|step| &step.acts) {
            for thing in act.things.iter().chain(&act.material) {
                self.used.insert(key(Some(machine), thing));
            }
        }
    }

    fn lists(&mut self, scope: Scope<'m>, lists: &'m Lists, around: Around<'m, '_>) {
        self.fields(scope, lists, around);
        self.unreadable_torque |= lists.unreadable.iter().any(|(kind, _, field)| *kind == ListKind::Fasteners && *field == "torque");
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
    fn fields(&mut self, scope: Scope<'m>, lists: &'m Lists, around: Around<'m, '_>) {
        let Around { listed, known } = around;
        for written in &lists.written {
            let kinds: &[ListKind] = match written.field {
                "source" | "sources" | "decided" => &[ListKind::Sources],
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
            for word in written.text.split(|c: char| !(c.is_ascii_alphanumeric() || c == '-')).filter(|word| !word.is_empty()) {
                self.name(scope, kinds, word, listed);
            }
            if !matches!(written.field, "when" | "is" | "faces") {
                let ids = written.text.trim_matches(['[', ']']).split(", ").filter(|id| is_id(id));
                self.misspelt.extend(ids.filter(|id| !known.contains(id) && !MEDIA.contains(id)));
            }
        }
        for sits in lists.shafts.values().flat_map(|entry| &entry.what.sits) {
            self.name(scope, &[ListKind::Parts, ListKind::Materials], &sits.value, listed);
        }
    }

    fn name(&mut self, scope: Scope<'m>, kinds: &[ListKind], id: &str, listed: &Listed<'m>) {
        for thing in kinds.iter().filter_map(|kind| scope.find(*kind, id)) {
            self.used.insert(key(scope.machine, &thing));
        }
        // A stack's plates, a kit's contents and the like may stand in a procedure of the machine.
        let Some(machine) = scope.machine else { return };
        for (kind, procedure) in listed.get(id).into_iter().flatten().filter(|(kind, _)| kinds.contains(kind)) {
            let home = Home::Procedure(procedure.id.clone());
            self.used.insert((Some(&machine.id), ThingRef { kind: *kind, home, id: id.to_owned() }));
        }
    }
}

fn ids(lists: &Lists) -> impl Iterator<Item = &str> {
    ListKind::ALL.iter().flat_map(|kind| lists.heads(*kind)).map(|head| head.id)
}

fn listed(machine: &Machine) -> Listed<'_> {
    let mut listed = Listed::default();
    for procedure in &machine.procedures {
        for kind in ListKind::THINGS.iter().chain(&[ListKind::Measures]) {
            for head in procedure.lists.heads(*kind) {
                listed.entry(head.id).or_default().push((*kind, procedure));
            }
        }
    }
    listed
}

fn key<'m>(machine: Option<&'m Machine>, thing: &ThingRef) -> Key<'m> {
    let machine = if thing.home == Home::Shop { None } else { machine.map(|m| m.id.as_str()) };
    (machine, thing.clone())
}
