//! Build records against the manual of today. A record is evidence of what was done, not a text to be mended: whatever is
//! found in one is told, and never keeps the manual from being published.

pub(super) mod as_read;
pub(super) mod calibration;
pub(super) mod names;
pub(super) mod shims;
pub(super) mod signatures;
pub(super) mod values;
pub(super) mod waits;

use super::Context;
use crate::finding::Finding;
use crate::manual::{Act, Build, BuildWork, Combination, Machine, Manual, Procedure, Scope, Step, Tick};

/// One record and what it is held against.
#[derive(Clone, Copy)]
pub(super) struct Job<'a> {
    pub(super) manual: &'a Manual,
    pub(super) machine: &'a Machine,
    pub(super) build: &'a Build,
    /// The record's variant, as far as the machine has it.
    pub(super) known: &'a Combination,
}

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    each(context, |job| {
        names::check(job, findings);
        values::check(job, findings);
        shims::check(job, findings);
        signatures::check(job, findings);
        waits::check(job, findings);
        calibration::check(job, findings);
    });
}

/// What is found only by looking at the other machines too.
pub(super) fn check_machine(context: &Context<'_>, findings: &mut Vec<Finding>) {
    each(context, |job| findings.extend(names::misplaced(job)));
}

fn each(context: &Context<'_>, mut look: impl FnMut(&Job<'_>)) {
    for machine in &context.manual.machines {
        for build in &machine.builds {
            let known = known_variant(machine, build);
            look(&Job { manual: context.manual, machine, build, known: &known });
        }
    }
}

/// The variant of a record, without what the machine does not have.
#[must_use]
pub fn known_variant(machine: &Machine, build: &Build) -> Combination {
    let mut known = build.combination();
    known.0.retain(|axis, value| machine.axes.iter().any(|a| a.name == *axis && a.values.iter().any(|v| v.name == *value)));
    known
}

/// The act that an entry of a record is about. The n-th of the same acts for ticks; any of them for readings and signatures,
/// whose number counts readings.
#[must_use]
pub fn recorded_act<'p>(procedure: &'p Procedure, tick: &Tick, number: u64) -> Option<(&'p Step, &'p Act)> {
    let step = procedure.step(&tick.step.value)?;
    let nth = usize::try_from(number.max(1) - 1).ok()?;
    step.acts.iter().filter(|act| act.address == tick.act.value).nth(nth).map(|act| (step, act))
}

impl<'a> Job<'a> {
    /// The work of each procedure that is there, with the procedure.
    pub(super) fn work(&self) -> impl Iterator<Item = (&'a BuildWork, &'a Procedure)> {
        let machine = self.machine;
        self.build.work.iter().filter_map(move |work| Some((work, machine.procedure(&work.procedure.value)?)))
    }

    pub(super) fn scope(&self, procedure: &'a Procedure) -> Scope<'a> {
        self.manual.scope(self.machine, procedure)
    }

    /// Adds what a waiver calls it: the record.
    pub(super) fn about(&self, finding: Finding) -> Finding {
        finding.about(self.build.id.clone())
    }

    /// `build hull-7` or `no. 4711 (build hull-7)`.
    pub(super) fn name(&self) -> String {
        match &self.build.serial {
            Some(serial) => format!("no. {} (build {})", serial.value, self.build.id),
            None => format!("build {}", self.build.id),
        }
    }
}
