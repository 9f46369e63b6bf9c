//! Corrections of a recording: something wrong was said at a moment of it, of a value that the manual has.

use super::{Context, as_written, film};
use crate::finding::{Explanation, FileId, Finding, Rule, Severity};
use crate::manual::{Correction, Lists, Machine, Recording, WrittenValue};
use crate::quantity::{Dimension, Quantity};
use std::collections::BTreeSet;

/// A correction of a recording corrects nothing.
pub(super) static CORRECTION_CORRECTS_NOTHING: Rule = Rule {
    name: "correction-corrects-nothing",
    severity: Severity::Error,
    summary: "A correction of a recording says nothing that differs from the manual's value.",
    explanation: Explanation {
        finds: "Corrections of a recording whose said: is the value that the manual has, in whichever unit, or is no quantity of that kind; and those of a value that the manual does not give. A unit is needed in said:, as everywhere.",
        matters: "The correction is shown in the recording itself. One that corrects nothing makes the viewer doubt the right value.",
        may_be_wrong: "Where the words said were no quantity at all: say in words what was said, without a number.",
        example: "video: {corrections: [{at: '8:12', said: 27 N·m, of: cap-bolt.torque}], …}   where cap-bolt has torque: 27 N·m",
        instead: "Look in the source again: correct the value, or take the correction out.",
    },
};

/// What was looked at: a recording that several procedures share is one.
type Told = BTreeSet<(FileId, usize)>;

pub(super) fn check(context: &Context<'_>, findings: &mut Vec<Finding>) {
    for machine in &context.manual.machines {
        let mut told = Told::new();
        for recording in machine.recordings.values() {
            all(recording, machine, &mut told, findings);
        }
        for procedure in &machine.procedures {
            if let Some(recording) = &procedure.recording {
                all(recording, machine, &mut told, findings);
            }
        }
    }
}

fn all(recording: &Recording, machine: &Machine, told: &mut Told, findings: &mut Vec<Finding>) {
    for correction in &recording.corrections {
        if !told.insert((correction.said_place.file, correction.said_place.start)) {
            continue;
        }
        if let (Some(at), Some(place), Some(length)) = (correction.at, &correction.at_place, recording.length)
            && at > length
        {
            findings.push(film::beyond(place, "a correction lies beyond the end of the recording".to_owned(), length));
        }
        findings.extend(hollow(correction, machine));
    }
}

fn hollow(correction: &Correction, machine: &Machine) -> Option<Finding> {
    let of = correction.of.as_ref()?;
    let (id, field) = of.value.split_once('.')?;
    // Which of several things of that name the speaker has in hand is not known: what holds for all of them holds.
    let all = machine.procedures.iter().map(|procedure| &procedure.lists).chain([&machine.lists]);
    let lists: Vec<&Lists> = all.filter(|lists| lists.written.iter().any(|written| written.id == id)).collect();
    if lists.is_empty() {
        return None;
    }
    let written = lists.iter().flat_map(|lists| &lists.written);
    let values: Vec<&WrittenValue> = written.filter(|written| written.id == id && written.field == field).collect();
    let finding = |message: String| Finding::new(&CORRECTION_CORRECTS_NOTHING, correction.said_place.clone(), message).about(of.value.clone());
    let Some(first) = values.first() else {
        let is_lost = lists.iter().flat_map(|lists| &lists.unreadable).any(|(_, lost, what)| lost == id && *what == field);
        return (!is_lost).then(|| finding(format!("‘{id}’ gives no ‘{field}’ that could correct what is said")).label("corrected by nothing").fix(format!("give ‘{field}:’ in the list, with its source")));
    };
    if values.iter().all(|value| as_written::says_the_same(&value.text, &correction.said)) {
        return Some(
            finding(format!("“{}” is said, and {} is {}: that is the same", correction.said, of.value, first.text))
                .label("nothing is wrong")
                .related(first.place.clone(), "the value")
                .fix("look in the source: correct the value, or take the correction out"),
        );
    }
    let dimension = Quantity::parse_free(&first.text).ok()?.dimension();
    // Words without a number are said, too: ‘a good tug’.
    if dimension == Dimension::Count || !correction.said.contains(|c: char| c.is_ascii_digit()) {
        return None;
    }
    let error = Quantity::parse(&correction.said, dimension).err()?;
    Some(finding(format!("said: of {}: {}", of.value, error.message())).label(format!("not {}", dimension.spoken())).figures(error.figures()).fix(error.fix()))
}
