//! The start of a procedure: front matter with slots, and empty steps with ids.

use super::DraftFile;
use super::body::StepStart;
use super::fastener::FastenerSpec;
use super::film;
use super::slot::Slot;
use super::table::TorqueTable;
use super::undo::Undone;
use super::yaml::{free_id, quoted};
use crate::manual::Date;
use crate::recording::Speech;
use std::collections::BTreeSet;

/// What is known of a procedure that is begun.
#[derive(Clone, Debug)]
pub struct ProcedureStart<'a> {
    /// Id of its machine.
    pub machine: &'a str,
    /// Its own id.
    pub id: &'a str,
    /// Its title.
    pub title: &'a str,
    /// The day.
    pub today: Date,
    /// Ids of the machine's other procedures.
    pub others: &'a [&'a str],
    /// Ids that the machine and the shop have taken.
    pub taken: BTreeSet<String>,
    /// Fasteners of which thread and class are known.
    pub fasteners: &'a [FastenerSpec],
    /// What is said in its recording.
    pub speech: Option<&'a Speech>,
    /// Its torques.
    pub table: Option<&'a TorqueTable>,
    /// The procedure that it takes apart again.
    pub undone: Option<Undone<'a>>,
}

/// The procedure's file, and what of the recording did not fit into it.
#[must_use]
pub fn procedure_draft(start: &ProcedureStart<'_>) -> (DraftFile, Vec<String>) {
    let mut taken = start.taken.clone();
    let film = start.speech.map(|speech| film::begin(speech, &mut taken));
    let mut slots: Vec<Slot> = Vec::new();
    let mut steps = film.as_ref().map_or_else(Vec::new, |film| film.steps.clone());
    slots.extend(film.iter().flat_map(|film| film.slots.clone()));
    let mut notes = Vec::new();
    if let Some(undone) = &start.undone {
        (steps, notes) = undone.steps();
    } else if film.is_none() && start.fasteners.is_empty() && start.table.is_none() {
        steps = plain_steps();
    }
    for (index, spec) in start.fasteners.iter().enumerate() {
        let id = free_id(&format!("fastener-{}", index + 1), &mut taken);
        let alike = |specs: &[FastenerSpec]| specs.iter().filter(|other| *other == spec).count();
        let twin = (alike(start.fasteners.get(..=index).unwrap_or_default()), alike(start.fasteners));
        slots.push(spec.slot(&id, twin));
        let mut step = StepStart::new(id.clone(), &["What is done before it is tightened: cleaned, oiled, locker, run up by hand? In which order, and in which stages?"]);
        step.tightened.push((id, spec.is_left_hand()));
        steps.push(step);
    }
    let mut table = start.table.cloned();
    if let Some(table) = &mut table {
        table.rename(&mut taken);
        let mut step = StepStart::new("torques", &["Which of these are tightened in which step, in which order? Move each there, and say what the hand does."]);
        step.tightened = table.tightened();
        steps.push(step);
    }
    let mut text = head(start);
    film.iter().for_each(|film| film.write_video(&mut text));
    if !slots.is_empty() || table.as_ref().is_some_and(|table| !table.is_empty()) {
        text.push_str("fasteners:\n");
        slots.iter().for_each(|slot| slot.write(&mut text));
        table.iter().for_each(|table| table.write_fasteners(&mut text));
    }
    let heard = film.as_ref().is_some_and(|film| !film.sources.is_empty());
    if heard || table.as_ref().is_some_and(TorqueTable::has_sources) {
        text.push_str("sources:\n");
        film.iter().for_each(|film| film.write_sources(&mut text));
        table.iter().for_each(|table| table.write_sources(&mut text));
    }
    text.push_str("---\n");
    steps.iter().for_each(|step| step.write(&mut text));
    notes.extend(film.into_iter().flat_map(|film| film.notes));
    (DraftFile { path: format!("{}/{}.md", start.machine, start.id), text }, notes)
}

fn head(start: &ProcedureStart<'_>) -> String {
    let others = if start.others.is_empty() { "…".to_owned() } else { start.others.join(", ") };
    format!(
        "---\n\
         title: {}\n\
         revision: 1                     # counted up with each change of a value\n\
         date: {}\n\
         # after: [{others}]   # which procedures must be complete before this one begins?\n\
         # time: …                       # how long does it take, waits not counted? Otherwise time= of its steps is added up\n\
         # leaves_open:                  # is anything left undone at its end? How, why, and where is it finished?\n\
         #   THING: {{left: dry-fitted, because: …, finish_in: PROCEDURE#STEP, forbids: [VERB:THING]}}\n\
         # A '?' is a question: answer it or take its key out. Until then inspect reports it and nothing is published.\n",
        quoted(start.title),
        start.today
    )
}

fn plain_steps() -> Vec<StepStart> {
    vec![
        StepStart::new("prepare", &[
            "What must be safe, drained, cold or disconnected before the first hand goes in? Write it as a notice, with its protection.",
            "Which tools, parts and materials must lie ready?",
        ]),
        StepStart::new("work", &["What is done first? One step a visit of the hands; each act a link: fit, apply, torque, measure, … and the id of its thing."]),
        StepStart::new("check", &["How does one see that it is right: a measurement with its limits, a test, a second pair of eyes?"]),
        StepStart::new("finish", &["What is counted, what stays open, what may not be done yet?"]),
    ]
}
