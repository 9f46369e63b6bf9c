//! The recording beside the steps: its times run forward, and no silent work is without a step.

use super::{Context, every};
use crate::finding::{Explanation, Finding, Place, Rule, Severity};
use crate::manual::{Machine, Procedure, Recording, Spot, Step};
use crate::quantity::{Moment, MomentSpan};
use std::collections::BTreeSet;

/// The times of steps run backwards, overlap or lie beyond the film.
pub(super) static TIMECODE_ORDER: Rule = Rule {
    name: "timecode-order",
    severity: Severity::Error,
    summary: "The times of the steps run backwards, overlap, or lie beyond the recording.",
    explanation: Explanation {
        finds: "Steps whose at= lies before that of the step above it, or inside its span, unless the two are for different variants; and times of steps, silent spans and corrections beyond the recording's length.",
        matters: "The reader presses on step 6 and sees step 4.",
        may_be_wrong: "Where the film shows the work in another order: say so in the step, and leave its at= out.",
        example: "## Fit the seal {#seal at=7:10}\n\n## Fit the cover {#cover at=6:50}",
        instead: "## Fit the seal {#seal at=6:10}\n\n## Fit the cover {#cover at=6:50}",
    },
};

/// Silent work has no step.
pub(super) static SILENT_SPAN: Rule = Rule {
    name: "silent-span",
    severity: Severity::Warning,
    summary: "Hands work in the recording without a word, and no step says what they do.",
    explanation: Explanation {
        finds: "Spans under silent: of a recording in which no step of the machine is anchored (at=).",
        matters: "What is done without a word is what gets left out of the manual.",
        may_be_wrong: "Where nothing is done in that span: take it out of silent:.",
        example: "video: {silent: ['12:40–13:50'], …}   and no step with at= in that minute",
        instead: "## Seat the snap ring {#ring at=12:40–13:50}",
    },
};

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for (_, procedure, _) in every::procedures(context.manual) {
        order(procedure, findings);
    }
    for machine in &context.manual.machines {
        recordings(machine, findings);
    }
}

fn order(procedure: &Procedure, findings: &mut Vec<Finding>) {
    let timed: Vec<(&Step, &Spot<MomentSpan>)> = procedure.steps.iter().filter_map(|step| Some((step, step.at.as_ref()?))).collect();
    for (at, (step, span)) in timed.iter().enumerate() {
        let earlier = timed.get(..at).unwrap_or_default().iter().rev().find(|(other, _)| other.only.agrees_with(&step.only));
        let about = format!("{}#{}", procedure.id, step.id);
        let Some((_, before)) = earlier else { continue };
        let (label, message) = if span.value.start() < before.value.start() {
            ("runs backwards", format!("step {} begins in the recording before the step above it", step.number))
        } else if span.value.start() < before.value.end() {
            ("overlaps", format!("step {} begins in the recording inside the step above it", step.number))
        } else {
            continue;
        };
        findings.push(
            Finding::new(&TIMECODE_ORDER, span.place.clone(), message)
                .label(label)
                .related(before.place.clone(), "the step above")
                .fix("look at the recording again and correct one of the two times")
                .about(about),
        );
    }
    let Some(length) = procedure.recording.as_ref().and_then(|recording| recording.length) else { return };
    for (step, span) in timed.iter().filter(|(_, span)| span.value.end() > length) {
        findings.push(beyond(&span.place, format!("step {} lies beyond the end of the recording", step.number), length).about(format!("{}#{}", procedure.id, step.id)));
    }
}

pub(super) fn beyond(place: &Place, message: String, length: Moment) -> Finding {
    Finding::new(&TIMECODE_ORDER, place.clone(), message)
        .label("beyond the end")
        .figure(format!("the recording is {} long", words(length)))
        .fix("correct the time or the recording's length")
}

/// `45:00`, `1:24:30`.
fn words(moment: Moment) -> String {
    let (hours, minutes, seconds) = (moment.seconds() / 3600, moment.seconds() / 60 % 60, moment.seconds() % 60);
    if hours > 0 { format!("{hours}:{minutes:02}:{seconds:02}") } else { format!("{minutes}:{seconds:02}") }
}

/// Each recording once, though several procedures may share it.
fn recordings(machine: &Machine, findings: &mut Vec<Finding>) {
    let mut told: BTreeSet<(usize, usize, String)> = BTreeSet::new();
    for procedure in &machine.procedures {
        let Some(recording) = &procedure.recording else { continue };
        for silent in &recording.silent {
            if !told.insert((silent.place.start, silent.place.end, recording.address.clone().unwrap_or_default())) {
                continue;
            }
            if let Some(length) = recording.length.filter(|length| silent.value.end() > *length) {
                findings.push(beyond(&silent.place, "a silent span lies beyond the end of the recording".to_owned(), length).about(procedure.id.clone()));
            } else if !anchored(machine, recording, silent) {
                findings.push(
                    Finding::new(&SILENT_SPAN, silent.place.clone(), "hands work here without a word, and no step says what they do")
                        .label(format!("{} seconds of work", silent.value.seconds()))
                        .fix("look what is done there, write the step, and anchor it: at=… in its heading")
                        .about(procedure.id.clone()),
                );
            }
        }
    }
}

/// Whether a step of a procedure with this recording is anchored in a span.
fn anchored(machine: &Machine, recording: &Recording, silent: &Spot<MomentSpan>) -> bool {
    let same = |other: &Recording| other.address == recording.address && other.silent.iter().any(|span| span.place == silent.place);
    machine
        .procedures
        .iter()
        .filter(|procedure| procedure.recording.as_ref().is_some_and(same))
        .flat_map(|procedure| &procedure.steps)
        .filter_map(|step| step.at.as_ref())
        .any(|at| at.value.start() < silent.value.end() && at.value.end() >= silent.value.start())
}
