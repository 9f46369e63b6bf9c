//! What was read on several machines: each measure over all build records of a machine.

use super::{known_variant, recorded_act};
use crate::manual::{Build, Entry, Machine, Manual, Measure, ThingRef, Verb};
use crate::quantity::{Quantity, median};

/// A measure as it was read.
#[derive(Clone, Debug)]
pub struct AsRead<'a> {
    /// The measure.
    pub thing: ThingRef,
    /// Its entry.
    pub entry: &'a Entry<Measure>,
    /// Index of the procedure it was read in first.
    pub procedure: usize,
    /// On how many machines.
    pub machines: usize,
    /// The least of all readings.
    pub least: String,
    /// The middle of the machines, each by the middle of its own readings.
    pub median: String,
    /// The most of all readings.
    pub most: String,
}

/// One machine's readings of a measure.
struct OnOne {
    /// The serial number, or the record's name where it tells none.
    machine: String,
    readings: Vec<Quantity>,
}

/// What was read of each measure on the machines that build records are of, in the order of the work. A machine that was read
/// more often counts by its last record of that procedure; a reading that is no value counts for nothing.
#[must_use]
pub fn as_read<'a>(manual: &'a Manual, machine: &'a Machine) -> Vec<AsRead<'a>> {
    let mut found: Vec<(ThingRef, usize, Vec<OnOne>)> = Vec::new();
    for (index, procedure) in machine.procedures.iter().enumerate() {
        for build in in_order(machine, &procedure.id) {
            let known = known_variant(machine, build);
            let name = build.serial.as_ref().map_or_else(|| build.id.clone(), |serial| serial.value.clone());
            let mut read: Vec<(&ThingRef, Quantity)> = Vec::new();
            for reading in build.work_of(&procedure.id).into_iter().flat_map(|work| &work.readings) {
                let Some((step, act)) = recorded_act(procedure, reading, 1) else { continue };
                let Some(thing) = act.thing().filter(|_| act.verb == Some(Verb::Measure) && step.only.agrees_with(&known)) else { continue };
                let Some(entry) = manual.scope(machine, procedure).thing(|lists| &lists.measures, thing) else { continue };
                let wanted = entry.what.spec.first().or_else(|| entry.what.limit.first()).map(Quantity::dimension);
                let Some(value) = &reading.value else { continue };
                let quantity = wanted.map_or_else(|| Quantity::parse_free(&value.value), |wanted| Quantity::parse(&value.value, wanted));
                read.extend(quantity.ok().filter(|quantity| quantity.exact_nominal().is_some()).map(|quantity| (thing, quantity)));
            }
            for (thing, quantity) in read {
                if !found.iter().any(|(known, ..)| known == thing) {
                    found.push((thing.clone(), index, Vec::new()));
                }
                let Some((.., machines)) = found.iter_mut().find(|(known, ..)| known == thing) else { continue };
                match machines.iter_mut().find(|one| one.machine == name) {
                    Some(one) => one.readings.push(quantity),
                    None => machines.push(OnOne { machine: name.clone(), readings: vec![quantity] }),
                }
            }
        }
    }
    found.into_iter().filter_map(|(thing, procedure, machines)| summed_up(manual, machine, thing, procedure, &machines)).collect()
}

/// The records with work of a procedure, of each machine the last one only.
fn in_order<'a>(machine: &'a Machine, procedure: &'a str) -> impl Iterator<Item = &'a Build> {
    let with_it = move || machine.builds.iter().enumerate().filter(move |(_, build)| build.work_of(procedure).is_some());
    with_it().filter_map(move |(at, build)| {
        let serial = build.serial.as_ref().map(|serial| serial.value.trim());
        let saved = |build: &Build| build.saved.as_ref().map(|saved| saved.value);
        let later = with_it().any(|(other_at, other)| {
            let same = serial.is_some() && other.serial.as_ref().map(|serial| serial.value.trim()) == serial;
            same && other_at != at && (saved(other), other_at) > (saved(build), at)
        });
        (!later).then_some(build)
    })
}

fn summed_up<'a>(manual: &'a Manual, machine: &'a Machine, thing: ThingRef, procedure: usize, machines: &[OnOne]) -> Option<AsRead<'a>> {
    let entry = manual.scope(machine, machine.procedures.get(procedure)?).thing(|lists| &lists.measures, &thing)?;
    let all: Vec<&Quantity> = machines.iter().flat_map(|one| &one.readings).collect();
    let value = |quantity: &Quantity| quantity.exact_nominal();
    let least = all.iter().min_by_key(|quantity| value(quantity))?;
    let most = all.iter().max_by_key(|quantity| value(quantity))?;
    let of_each = machines.iter().map(|one| median(&one.readings.iter().collect::<Vec<_>>())).collect::<Option<Vec<Quantity>>>()?;
    Some(AsRead {
        entry,
        procedure,
        machines: machines.len(),
        least: least.to_string(),
        median: median(&of_each.iter().collect::<Vec<_>>())?.to_string(),
        most: most.to_string(),
        thing,
    })
}
