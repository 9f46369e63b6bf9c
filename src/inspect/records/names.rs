//! What a record names is there: machine, variant, procedures, steps, acts, open items.

use super::{Job, recorded_act};
use crate::finding::{Explanation, Finding, Place, Rule, Severity, nearest};
use crate::manual::{Act, Axis, BuildWork, Procedure, Spot, Tick, combinations};
use std::collections::BTreeSet;

/// A record lies with a machine that it is not of.
pub(in crate::inspect) static RECORD_MISFILED: Rule = Rule {
    name: "record-misfiled",
    severity: Severity::Warning,
    summary: "A build record lies in the folder of another machine, or is of another manual.",
    explanation: Explanation {
        finds: "Records whose machine: is not the folder they lie in; as a note, records whose manual: has another title.",
        matters: "Its readings would be judged by the limits of another machine, and its owner would hear of the wrong bulletins.",
        may_be_wrong: "When the machine's folder was renamed, or the manual got a new title.",
        example: "tarn-18/builds/hull-7.json: {\"machine\": \"hb-2\", …}",
        instead: "hb-2/builds/hull-7.json: {\"machine\": \"hb-2\", …}",
    },
};

/// A record names what is not there.
pub(in crate::inspect) static RECORD_NAMES_UNKNOWN: Rule = Rule {
    name: "record-names-unknown",
    severity: Severity::Warning,
    summary: "A build record names a procedure, step, act or open item that the manual does not have.",
    explanation: Explanation {
        finds: "Procedures, steps, acts, deviations and open items in a record that this manual has not, or has not so often. A step or act of an older revision that is gone is a note.",
        matters: "What is ticked there can't be held against anything: no bulletin finds it.",
        may_be_wrong: "When a procedure was renamed or split since: the work was done all the same.",
        example: "\"procedures\": {\"pinion-hight\": {…}}",
        instead: "\"procedures\": {\"pinion-height\": {…}}",
    },
};

/// A record is of a variant that is not made.
pub(in crate::inspect) static RECORD_VARIANT_WRONG: Rule = Rule {
    name: "record-variant-wrong",
    severity: Severity::Warning,
    summary: "A build record is of a variant that the machine does not come in.",
    explanation: Explanation {
        finds: "Records whose variant: names an axis or value that the machine has not, or values that are not made together; and a serial number (of digits alone) that lies within the numbers of another value.",
        matters: "Values by variant can't be compared: nobody knows whether this one got 70 or 78 N·m.",
        may_be_wrong: "When a machine was put together from two.",
        example: "\"variant\": {\"shaft\": \"XL\"}",
        instead: "\"variant\": {\"shaft\": \"L\"}",
    },
};

pub(super) fn check(job: &Job<'_>, findings: &mut Vec<Finding>) {
    let mut found = Vec::new();
    found.extend(of_another_manual(job));
    variant(job, &mut found);
    for work in &job.build.work {
        match job.machine.procedure(&work.procedure.value) {
            Some(procedure) => entries(work, procedure, &mut found),
            None => found.push(unknown(work.procedure.place.clone(), "procedure", &work.procedure.value, procedures(job))),
        }
    }
    deviations(job, &mut found);
    open_items(job, &mut found);
    findings.extend(found.into_iter().map(|finding| job.about(finding)));
}

fn procedures<'a>(job: &Job<'a>) -> impl Iterator<Item = &'a str> {
    job.machine.procedures.iter().map(|procedure| procedure.id.as_str())
}

/// Whether a record lies with another machine than its own. What to do about it hangs on what other machines there are.
pub(super) fn misplaced(job: &Job<'_>) -> Option<Finding> {
    let machine = other_machine(job)?;
    let fix = if job.manual.machine_ids().any(|id| id == machine.value) {
        format!("move it to {}/builds/", machine.value)
    } else {
        format!("move it to its machine's builds/, or write ‘{}’ where the folder was renamed", job.machine.id)
    };
    let found = Finding::new(&RECORD_MISFILED, machine.place.clone(), format!("the record of ‘{}’ lies with {}", machine.value, job.machine.name));
    Some(job.about(found.label("another machine").fix(fix)))
}

fn other_machine<'a>(job: &Job<'a>) -> Option<&'a Spot<String>> {
    job.build.machine.as_ref().filter(|machine| machine.value != job.machine.id)
}

fn of_another_manual(job: &Job<'_>) -> Option<Finding> {
    let manual = job.build.manual.as_ref().filter(|manual| manual.value != job.manual.title && other_machine(job).is_none())?;
    Some(
        Finding::new(&RECORD_MISFILED, manual.place.clone(), format!("the record was made with ‘{}’, and this is ‘{}’", manual.value, job.manual.title))
            .severity(Severity::Note)
            .label("another title")
            .fix("nothing need be done where only the title changed"),
    )
}

fn variant(job: &Job<'_>, found: &mut Vec<Finding>) {
    let told = found.len();
    for (axis, value) in &job.build.variant {
        let known = job.machine.axes.iter().find(|known| known.name == axis.value);
        let Some(known) = known else {
            let near = nearest(&axis.value, job.machine.axes.iter().map(|axis| axis.name.as_str()));
            found.push(
                Finding::new(&RECORD_VARIANT_WRONG, axis.place.clone(), format!("{} does not differ by ‘{}’", job.machine.name, axis.value))
                    .label("no such axis")
                    .fix(near.map_or_else(|| "take it out".to_owned(), |near| format!("did you mean ‘{near}’?"))),
            );
            continue;
        };
        if !known.values.iter().any(|v| v.name == value.value) {
            let all: Vec<&str> = known.values.iter().map(|v| v.name.as_str()).collect();
            found.push(
                Finding::new(&RECORD_VARIANT_WRONG, value.place.clone(), format!("‘{}’ is no value of {}", value.value, known.name))
                    .label("not a variant")
                    .fix(format!("{} has {}", known.name, all.join(", "))),
            );
        } else if let Some(serial) = &job.build.serial {
            found.extend(another_number(known, value, serial));
        }
    }
    let named: BTreeSet<String> = job.known.0.keys().cloned().collect();
    // None where there are too many to look at.
    let made = combinations(&job.machine.axes, &job.machine.not_made, &named, 4096);
    if found.len() == told && made.is_some_and(|made| !made.contains(job.known)) {
        let place = job.build.variant.first().map_or_else(|| job.build.place.clone(), |(axis, _)| axis.place.clone());
        found.push(
            Finding::new(&RECORD_VARIANT_WRONG, place, format!("no {} is made as {}", job.machine.name, job.known.words()))
                .label("not made together")
                .fix("look at the machine's plate again"),
        );
    }
}

/// A serial number that belongs to another value than the record's.
fn another_number(axis: &Axis, value: &Spot<String>, serial: &Spot<String>) -> Option<Finding> {
    let other = axis.values.iter().find(|other| other.name != value.value && other.holds(&serial.value))?;
    let own = axis.values.iter().find(|own| own.name == value.value)?;
    Some(
        Finding::new(&RECORD_VARIANT_WRONG, value.place.clone(), format!("no. {} is {}, and the record is of {}", serial.value, other.name, own.name))
            .label("of the other variant")
            .related(serial.place.clone(), "its number")
            .figure(format!("{} {}: {}; {}: {}", axis.name, other.name, other.meaning, own.name, own.meaning))
            .fix("look at the machine's plate again; where it is as its number says, hold every value that was set against the other sheet"),
    )
}

fn entries(work: &BuildWork, procedure: &Procedure, found: &mut Vec<Finding>) {
    // What an older revision had is not a mistake of whoever worked by it.
    let older = work.revision.is_some() && work.revision < procedure.history.revision;
    let numbered = work.ticks.iter().chain(&work.stops).map(|tick| (tick, tick.number));
    let others = work.readings.iter().chain(&work.signatures).map(|tick| (tick, 1));
    let grade = |finding: Finding| if older { finding.severity(Severity::Note) } else { finding };
    for (tick, number) in numbered.chain(others) {
        if recorded_act(procedure, tick, number).is_none() {
            found.push(grade(lost(tick, number, procedure)));
        }
    }
}

fn lost(tick: &Tick, number: u64, procedure: &Procedure) -> Finding {
    let Some(step) = procedure.step(&tick.step.value) else {
        return unknown(tick.step.place.clone(), "step", &tick.step.value, procedure.steps.iter().map(|step| step.id.as_str()));
    };
    let same = step.acts.iter().filter(|act| act.address == tick.act.value).count();
    if same == 0 {
        return unknown(tick.act.place.clone(), "act", &tick.act.value, step.acts.iter().map(|act: &Act| act.address.as_str()));
    }
    let often = if same == 1 { "once".to_owned() } else { format!("{same} times") };
    Finding::new(&RECORD_NAMES_UNKNOWN, tick.act.place.clone(), format!("the step has ‘{}’ {often}, and this is number {number}", tick.act.value))
        .label("one too many")
        .fix("count again, from 1")
}

fn unknown<'n>(place: Place, what: &str, name: &str, known: impl Iterator<Item = &'n str>) -> Finding {
    let near = nearest(name, known);
    Finding::new(&RECORD_NAMES_UNKNOWN, place, format!("the manual has no {what} ‘{name}’ there"))
        .label("not there")
        .fix(near.map_or_else(
            || "nothing need be done where it was renamed since; otherwise mend the record".to_owned(),
            |near| format!("did you mean ‘{near}’?"),
        ))
}

fn deviations(job: &Job<'_>, found: &mut Vec<Finding>) {
    for deviation in &job.build.deviations {
        let Some(id) = &deviation.procedure else { continue };
        let Some(procedure) = job.machine.procedure(&id.value) else {
            found.push(unknown(id.place.clone(), "procedure", &id.value, procedures(job)));
            continue;
        };
        let step = deviation.step.as_ref().filter(|step| procedure.step(&step.value).is_none());
        found.extend(step.map(|step| unknown(step.place.clone(), "step", &step.value, procedure.steps.iter().map(|s| s.id.as_str()))));
    }
}

fn open_items(job: &Job<'_>, found: &mut Vec<Finding>) {
    let items = || job.machine.procedures.iter().flat_map(|p| p.lists.leaves_open.keys().chain(p.lists.away.keys())).map(String::as_str);
    for open in &job.build.open {
        if !items().any(|item| item == open.item.value) {
            found.push(unknown(open.item.place.clone(), "open item", &open.item.value, items()));
        }
    }
}
