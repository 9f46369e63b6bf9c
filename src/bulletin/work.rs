//! Which steps changed, and where the work is done in another order.

use super::state::State;
use super::{Bulletin, OrderChange, StepChange, WorkChange};
use crate::finding::FileTable;
use crate::manual::{Machine, Procedure, Step};
use std::collections::BTreeMap;

/// Fills in build orders and steps.
pub(super) fn compare(old: &State, new: &State, bulletin: &mut Bulletin) {
    let (Some((before, old_sources)), Some((now, new_sources))) = (&old.read, &new.read) else { return };
    for machine in &now.machines {
        let Some(was) = before.machine(&machine.id) else { continue };
        bulletin.build_orders.extend(build_order(was, machine));
        for procedure in &machine.procedures {
            let Some(earlier) = was.procedure(&procedure.id) else { continue };
            let texts = (Texts { files: &old_sources.files, procedure: earlier }, Texts { files: &new_sources.files, procedure });
            bulletin.work.extend(steps(&machine.id, &texts.0, &texts.1));
        }
    }
}

fn build_order(was: &Machine, now: &Machine) -> Option<OrderChange> {
    let common = |here: &Machine, there: &Machine| -> Vec<String> {
        here.procedures.iter().filter(|procedure| there.procedure(&procedure.id).is_some()).map(|procedure| procedure.id.clone()).collect()
    };
    let (was, now) = (common(was, now), (common(now, was), now.id.clone()));
    (was != now.0).then_some(OrderChange { machine: now.1, was, now: now.0 })
}

/// A procedure with its text.
struct Texts<'a> {
    files: &'a FileTable,
    procedure: &'a Procedure,
}

impl Texts<'_> {
    /// A step as it stands in the file, from its heading to the next, white space folded.
    fn of(&self, step: &Step) -> String {
        let start = step.place.start;
        let starts = self.procedure.steps.iter().map(|other| other.place.start);
        let text = self.files.text(step.place.file);
        let end = starts.filter(|other| *other > start).min().unwrap_or(text.len());
        text.get(start..end).unwrap_or_default().split_whitespace().collect::<Vec<_>>().join(" ")
    }
}

fn steps(machine: &str, was: &Texts<'_>, now: &Texts<'_>) -> Option<WorkChange> {
    let ids = |here: &Procedure, there: &Procedure, common: bool| -> Vec<String> {
        here.steps.iter().filter(|step| there.step(&step.id).is_some() == common).map(|step| step.id.clone()).collect()
    };
    let (before, after) = (was.procedure, now.procedure);
    let order = ids(after, before, true);
    let changed = after.steps.iter().filter_map(|step| one_step(was, now, before.step(&step.id)?, step)).collect::<Vec<_>>();
    let change = WorkChange {
        machine: machine.to_owned(),
        procedure: after.id.clone(),
        title: after.title.clone(),
        revision_was: before.history.revision,
        revision: after.history.revision,
        steps_new: ids(after, before, false),
        steps_gone: ids(before, after, false),
        steps_in_order: if ids(before, after, true) == order { Vec::new() } else { order },
        steps: changed,
    };
    let nothing = change.steps_new.is_empty() && change.steps_gone.is_empty() && change.steps_in_order.is_empty() && change.steps.is_empty();
    (!nothing).then_some(change)
}

fn one_step(was: &Texts<'_>, now: &Texts<'_>, before: &Step, after: &Step) -> Option<StepChange> {
    let acts = |step: &Step| -> Vec<String> { step.acts.iter().map(|act| act.address.clone()).collect() };
    let (old, new) = (acts(before), acts(after));
    let (acts_gone, acts_new) = (missing(&old, &new), missing(&new, &old));
    let acts_moved = acts_gone.is_empty() && acts_new.is_empty() && old != new;
    let only = (before.only != after.only).then(|| (before.only.words(), after.only.words()));
    let same = acts_gone.is_empty() && acts_new.is_empty() && !acts_moved && only.is_none();
    let reworded = same && was.of(before) != now.of(after);
    (!same || reworded).then(|| StepChange { step: after.id.clone(), title: after.title.clone(), acts_new, acts_gone, acts_moved, only, reworded })
}

/// What stands in one list and not in the other, as often as it is missing there.
fn missing(here: &[String], there: &[String]) -> Vec<String> {
    let mut left: BTreeMap<&String, usize> = BTreeMap::new();
    for one in there {
        *left.entry(one).or_default() += 1;
    }
    let mut found = Vec::new();
    for one in here {
        match left.get_mut(one) {
            Some(count) if *count > 0 => *count -= 1,
            _ => found.push(one.clone()),
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::missing;

    #[test]
    fn acts_are_counted() {
        let acts = |all: &[&str]| all.iter().map(|act| (*act).to_owned()).collect::<Vec<_>>();
        assert_eq!(missing(&acts(&["fit:a", "fit:a", "turn:b"]), &acts(&["fit:a", "turn:b", "turn:b"])), ["fit:a"]);
        assert!(missing(&acts(&["a", "b"]), &acts(&["b", "a"])).is_empty());
    }
}
