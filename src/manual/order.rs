//! The build order: which procedure comes first, from `after:`.

use super::model::Machine;
use super::rules;
use crate::finding::{Finding, Place, nearest};
use std::collections::BTreeSet;

/// Sorts a machine's procedures into build order: what must be complete first comes first, otherwise
/// by id. Reports unknown ids and rings; the procedures of a ring come last, by id.
pub(super) fn build_order(machine: &mut Machine, findings: &mut Vec<Finding>) {
    unknown_ids(machine, findings);
    machine.procedures.sort_by(|a, b| a.id.cmp(&b.id));
    let mut waiting: Vec<usize> = (0..machine.procedures.len()).collect();
    let mut order: Vec<usize> = Vec::with_capacity(waiting.len());
    while let Some(at) = waiting.iter().position(|index| is_ready(machine, *index, &waiting)) {
        order.push(waiting.remove(at));
    }
    if !waiting.is_empty() {
        report_rings(machine, &waiting, findings);
        order.append(&mut waiting);
    }
    let mut slots: Vec<Option<_>> = std::mem::take(&mut machine.procedures).into_iter().map(Some).collect();
    machine.procedures = order.into_iter().filter_map(|index| slots.get_mut(index).and_then(Option::take)).collect();
}

fn is_ready(machine: &Machine, index: usize, waiting: &[usize]) -> bool {
    machine.procedures.get(index).is_some_and(|procedure| {
        procedure.after.iter().all(|after| {
            !waiting.iter().any(|other| machine.procedures.get(*other).is_some_and(|p| p.id == after.value))
        })
    })
}

fn unknown_ids(machine: &Machine, findings: &mut Vec<Finding>) {
    for procedure in &machine.procedures {
        for after in &procedure.after {
            if machine.procedure(&after.value).is_none() {
                let near = nearest(&after.value, machine.procedures.iter().map(|p| p.id.as_str()));
                findings.push(
                    Finding::new(&rules::UNKNOWN_ID, after.place.clone(), format!("{} has no procedure ‘{}’", machine.name, after.value))
                        .label("not there")
                        .fix(near.map_or_else(
                            || "name the file of a procedure of this machine, without its ending".to_owned(),
                            |near| format!("did you mean ‘{near}’?"),
                        )),
                );
            }
        }
    }
}

/// Follows every `after:` from one that waits to one that waits; where it comes round there is a ring.
fn report_rings(machine: &Machine, waiting: &[usize], findings: &mut Vec<Finding>) {
    let mut done: BTreeSet<usize> = BTreeSet::new();
    for start in waiting {
        // Where we stand, and how many of its `after:` have been followed.
        let mut path: Vec<(usize, usize)> = vec![(*start, 0)];
        while let Some((here, followed)) = path.last().copied() {
            let after = machine.procedures.get(here).and_then(|procedure| procedure.after.get(followed));
            let Some(after) = after.filter(|_| !done.contains(&here)) else {
                done.insert(here);
                path.pop();
                continue;
            };
            if let Some(last) = path.last_mut() {
                last.1 += 1;
            }
            let next = waiting.iter().find(|index| machine.procedures.get(**index).is_some_and(|p| p.id == after.value));
            let Some(next) = next else { continue };
            match path.iter().position(|(index, _)| index == next) {
                Some(at) => findings.push(ring(machine, path.iter().skip(at).map(|(index, _)| *index), &after.place)),
                None => path.push((*next, 0)),
            }
        }
    }
}

fn ring(machine: &Machine, members: impl Iterator<Item = usize>, place: &Place) -> Finding {
    let ids: Vec<&str> = members.filter_map(|index| machine.procedures.get(index)).map(|p| p.id.as_str()).collect();
    if let [only] = ids.as_slice() {
        return Finding::new(&rules::AFTER_RING, place.clone(), format!("‘{only}’ waits for itself"))
            .label("can never begin")
            .fix("take it out");
    }
    let round: Vec<&str> = ids.iter().chain(ids.first()).copied().collect();
    Finding::new(&rules::AFTER_RING, place.clone(), "these procedures wait for each other")
        .label("comes round to where it started")
        .figure(round.join(" waits for "))
        .fix("take one of them out of after:; what is merely finished later goes under leaves_open:")
}
