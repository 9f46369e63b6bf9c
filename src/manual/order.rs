//! The build order: which procedure comes first, from `after:`.

use super::model::Machine;
use super::rules;
use crate::finding::{Finding, nearest};

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
        report_ring(machine, &waiting, findings);
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

/// Follows `after:` from one that waits to one that waits, until it comes round.
fn report_ring(machine: &Machine, waiting: &[usize], findings: &mut Vec<Finding>) {
    let Some(start) = waiting.first() else { return };
    let mut path = vec![*start];
    loop {
        let Some(here) = path.last().and_then(|index| machine.procedures.get(*index)) else { return };
        let next = here.after.iter().find_map(|after| {
            waiting.iter().find(|index| machine.procedures.get(**index).is_some_and(|p| p.id == after.value)).map(|index| (*index, after))
        });
        let Some((next, after)) = next else { return };
        if let Some(at) = path.iter().position(|index| *index == next) {
            let ring: Vec<&str> = path.iter().skip(at).chain([&next]).filter_map(|index| machine.procedures.get(*index)).map(|p| p.id.as_str()).collect();
            findings.push(
                Finding::new(&rules::AFTER_RING, after.place.clone(), "these procedures wait for each other")
                    .label("comes round to where it started")
                    .figure(ring.join(" waits for "))
                    .fix("take one of them out of after:; what is merely finished later goes under leaves_open:"),
            );
            return;
        }
        path.push(next);
    }
}
