//! Which ways of differing touch a procedure, and the sheets that follow from them.

use super::lists::{ListKind, Lists, Scope, ThingRef};
use super::model::{Machine, Manual, Procedure};
use super::varied::{Axis, Combination, Varied};
use std::collections::BTreeSet;

/// More sheets than this for one procedure help nobody: one sheet with every variant's value is better.
const MOST_SHEETS: usize = 24;

/// What each sheet of a procedure knows of the machine: one for each combination of the axes that touch the procedure.
/// Where there would be more than [`MOST_SHEETS`], one sheet that knows nothing and shows every variant's value.
#[must_use]
pub fn sheet_variants(manual: &Manual, machine: &Machine, procedure: &Procedure) -> Vec<Combination> {
    let touching = axes_that_touch(manual, machine, procedure);
    let axes: Vec<&Axis> = machine.axes.iter().filter(|axis| touching.contains(&axis.name)).collect();
    let mut found = combinations(&axes);
    if let Some(all) = &mut found {
        all.retain(|combination| exists(machine, combination));
    }
    match found.filter(|all| !all.is_empty() && all.len() <= MOST_SHEETS) {
        Some(all) => all,
        None => vec![Combination::default()],
    }
}

/// Every combination of the axes' values; none where there would be unreasonably many.
fn combinations(axes: &[&Axis]) -> Option<Vec<Combination>> {
    let mut all = vec![Combination::default()];
    for axis in axes {
        let mut longer = Vec::new();
        for combination in &all {
            for value in &axis.values {
                let mut next = combination.clone();
                next.0.insert(axis.name.clone(), value.name.clone());
                longer.push(next);
            }
        }
        if longer.len() > 4096 {
            return None;
        }
        if !longer.is_empty() {
            all = longer;
        }
    }
    Some(all)
}

/// Whether a machine of this kind was made: some machine as built has these values and is not excluded.
pub(super) fn exists(machine: &Machine, part: &Combination) -> bool {
    let others: Vec<&Axis> = machine
        .axes
        .iter()
        .filter(|axis| !part.0.contains_key(&axis.name))
        .filter(|axis| machine.not_made.iter().any(|never| never.0.contains_key(&axis.name)))
        .collect();
    let Some(rest) = combinations(&others) else { return true };
    rest.iter()
        .filter_map(|other| part.and(other))
        .any(|whole| !machine.not_made.iter().any(|never| !never.is_always() && whole.satisfies(never)))
}

fn axes_that_touch(manual: &Manual, machine: &Machine, procedure: &Procedure) -> BTreeSet<String> {
    let scope = manual.scope(machine, procedure);
    let mut touched = Touched::default();
    for step in &procedure.steps {
        touched.condition(&step.only);
        for act in &step.acts {
            for thing in act.things.iter().chain(act.material.as_ref()) {
                touched.thing(scope, thing);
            }
        }
    }
    for entry in procedure.lists.leaves_open.values() {
        touched.condition(&entry.only);
    }
    touched.axes
}

/// The axes met so far.
#[derive(Default)]
struct Touched {
    axes: BTreeSet<String>,
}

impl Touched {
    fn condition(&mut self, condition: &Combination) {
        self.axes.extend(condition.0.keys().cloned());
    }

    fn value<T>(&mut self, varied: &Varied<T>) {
        for case in &varied.cases {
            self.condition(&case.when);
        }
    }

    fn ids(&mut self, scope: Scope<'_>, kinds: &[ListKind], varied: &Varied<String>) {
        self.value(varied);
        for case in &varied.cases {
            self.id(scope, kinds, &case.value);
        }
    }

    fn id(&mut self, scope: Scope<'_>, kinds: &[ListKind], id: &str) {
        let found = kinds.iter().find_map(|kind| scope.find(*kind, id));
        if let Some(head) = found.and_then(|thing| scope.head(&thing)) {
            self.condition(head.only);
        }
    }

    fn thing(&mut self, scope: Scope<'_>, thing: &ThingRef) {
        if let Some(head) = scope.head(thing) {
            self.condition(head.only);
        }
        let Some(lists) = scope.lists_of(thing) else { return };
        let id = thing.id.as_str();
        match thing.kind {
            ListKind::Fasteners => self.fastener(scope, lists, id),
            ListKind::Seals => self.seal(scope, lists, id),
            ListKind::Bearings => self.bearing(lists, id),
            ListKind::Parts => self.part(lists, id),
            ListKind::Stacks => self.stack(scope, lists, id),
            ListKind::Heats | ListKind::Beads | ListKind::Waits | ListKind::Fills => self.process(scope, lists, id, thing.kind),
            ListKind::Measures | ListKind::Shims | ListKind::Aligns | ListKind::Turns | ListKind::Tests => {
                self.reading(scope, lists, id, thing.kind);
            }
            _ => {}
        }
    }

    fn fastener(&mut self, scope: Scope<'_>, lists: &Lists, id: &str) {
        let Some(entry) = lists.fasteners.get(id) else { return };
        let f = &entry.what;
        for count in [&f.count, &f.new, &f.spare] {
            self.value(count);
        }
        for text in [&f.class, &f.threads, &f.lock, &f.running, &f.reuse, &f.when, &f.drive] {
            self.value(text);
        }
        self.value(&f.thread);
        self.value(&f.length);
        self.value(&f.torque);
        self.value(&f.order);
        self.value(&f.layout);
        self.value(&f.edges);
        self.value(&f.adapter);
        self.ids(scope, &[ListKind::Materials], &f.locker);
        self.ids(scope, &[ListKind::Tools], &f.tool);
        self.ids(scope, &[ListKind::Tools], &f.hold_with);
    }

    fn seal(&mut self, scope: Scope<'_>, lists: &Lists, id: &str) {
        let Some(entry) = lists.seals.get(id) else { return };
        let s = &entry.what;
        for count in [&s.count, &s.new, &s.spare] {
            self.value(count);
        }
        for text in [&s.kind, &s.material, &s.reuse, &s.when, &s.over, &s.number, &s.from] {
            self.value(text);
        }
        self.value(&s.size);
        self.value(&s.faces);
        self.value(&s.depth);
        self.ids(scope, &[ListKind::Materials], &s.lip);
        self.ids(scope, &[ListKind::Tools], &s.sleeve);
    }

    fn bearing(&mut self, lists: &Lists, id: &str) {
        let Some(entry) = lists.bearings.get(id) else { return };
        let b = &entry.what;
        for count in [&b.count, &b.new, &b.spare] {
            self.value(count);
        }
        for text in [&b.reuse, &b.when, &b.number, &b.from] {
            self.value(text);
        }
        self.value(&b.size);
        self.value(&b.fit);
        self.value(&b.faces);
    }

    fn part(&mut self, lists: &Lists, id: &str) {
        let Some(entry) = lists.parts.get(id) else { return };
        let p = &entry.what;
        for count in [&p.count, &p.new, &p.spare] {
            self.value(count);
        }
        for text in [&p.number, &p.side, &p.from, &p.reuse, &p.when, &p.material] {
            self.value(text);
        }
        self.value(&p.faces);
        self.value(&p.thickness);
    }

    fn stack(&mut self, scope: Scope<'_>, lists: &Lists, id: &str) {
        let Some(entry) = lists.stacks.get(id) else { return };
        self.value(&entry.what.begin);
        self.value(&entry.what.end);
        for of in &entry.what.of {
            if let Some(part) = scope.find(ListKind::Parts, &of.value) {
                self.thing(scope, &part);
            }
        }
    }

    fn process(&mut self, scope: Scope<'_>, lists: &Lists, id: &str, kind: ListKind) {
        match kind {
            ListKind::Heats => {
                let Some(entry) = lists.heats.get(id) else { return };
                for quantity in [&entry.what.from, &entry.what.to, &entry.what.cool] {
                    self.value(quantity);
                }
                self.ids(scope, &[ListKind::Tools], &entry.what.check_with);
            }
            ListKind::Beads => {
                let Some(entry) = lists.beads.get(id) else { return };
                self.value(&entry.what.diameter);
                self.value(&entry.what.path);
                self.value(&entry.what.gap);
                self.ids(scope, &[ListKind::Materials], &entry.what.of);
            }
            ListKind::Waits => {
                let Some(entry) = lists.waits.get(id) else { return };
                self.value(&entry.what.time);
                self.ids(scope, &[ListKind::Materials], &entry.what.medium);
            }
            _ => {
                let Some(entry) = lists.fills.get(id) else { return };
                self.value(&entry.what.amount);
                self.value(&entry.what.ratio);
                self.value(&entry.what.oil);
                self.ids(scope, &[ListKind::Materials], &entry.what.of);
            }
        }
    }

    fn reading(&mut self, scope: Scope<'_>, lists: &Lists, id: &str, kind: ListKind) {
        match kind {
            ListKind::Measures => {
                let Some(entry) = lists.measures.get(id) else { return };
                let m = &entry.what;
                self.value(&m.spec);
                self.value(&m.limit);
                self.value(&m.count);
                for text in [&m.when, &m.otherwise, &m.formula] {
                    self.value(text);
                }
                self.value(&m.at);
                self.ids(scope, &[ListKind::Tools], &m.with);
                self.ids(scope, &[ListKind::Shims], &m.chooses);
            }
            ListKind::Shims => {
                let Some(entry) = lists.shims.get(id) else { return };
                let s = &entry.what;
                for quantity in [&s.from, &s.step, &s.old, &s.target, &s.accept] {
                    self.value(quantity);
                }
                self.value(&s.formula);
                self.value(&s.count);
            }
            ListKind::Aligns => {
                let Some(entry) = lists.aligns.get(id) else { return };
                for quantity in [&entry.what.offset, &entry.what.arc, &entry.what.diameter] {
                    self.value(quantity);
                }
                self.value(&entry.what.sense);
                self.value(&entry.what.viewed_from);
                self.ids(scope, &[ListKind::Tools], &entry.what.check_with);
            }
            ListKind::Turns => {
                let Some(entry) = lists.turns.get(id) else { return };
                self.value(&entry.what.amount);
                self.value(&entry.what.sense);
                self.value(&entry.what.viewed_from);
            }
            _ => {
                let Some(entry) = lists.tests.get(id) else { return };
                self.value(&entry.what.expect);
                self.value(&entry.what.otherwise);
            }
        }
    }
}
