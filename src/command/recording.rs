//! `recording`: what a finished procedure has to say about its recording, and what the recording says otherwise.
//!
//! The comparison is no part of `inspect`: that judges a manual by its own folder, the same for everybody, and what
//! somebody said in a film is no source. A difference is a question to the speaker as much as to the page.

use super::arguments::PlainFormat;
use super::arguments_draft::{CompareOptions, OfRecording, RecordingOptions, RecordingWhat};
use super::work::read_manual;
use super::{Outcome, World};
use crate::finding::nearest;
use crate::manual::{Machine, Manual, Procedure, lower};
use crate::recording::{CAPTION_LIMIT, Film, Speech, compare, comparison_json, comparison_text, correction_captions, description, gaps, gaps_json, gaps_text, read_captions, shots};
use crate::source::read_given;
use serde_json::Value;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(super) fn run(options: &RecordingOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let mut notes = Vec::new();
    let done = match &options.what {
        RecordingWhat::Compare(options) => comparison(options, world, &mut notes),
        RecordingWhat::Shots(options) => read(options.manual.as_ref(), world).and_then(|manual| {
            let (machine, procedure) = procedure_of(&manual, &options.procedure)?;
            Ok((shots(&manual, machine, procedure), Outcome::Clean))
        }),
        RecordingWhat::Description(options) => of(options, world, description),
        RecordingWhat::Corrections(options) => of(options, world, correction_captions),
        RecordingWhat::Gaps(options) => read(options.of.manual.as_ref(), world).and_then(|manual| {
            let (machine, procedure, film) = found(&manual, &options.of.procedure)?;
            let found = gaps(&film);
            let id = format!("{}/{}", machine.id, procedure.id);
            let length_known = procedure.recording.as_ref().is_some_and(|recording| recording.length.is_some());
            let text = match options.format {
                PlainFormat::Text => gaps_text(&found, &procedure.title, length_known),
                PlainFormat::Json => pretty(&gaps_json(&found, &id))?,
            };
            Ok((text, Outcome::Clean))
        }),
    };
    notes.iter().try_for_each(|note| writeln!(err, "{note}"))?;
    match done {
        Ok((text, outcome)) => {
            out.write_all(text.as_bytes())?;
            Ok(outcome)
        }
        Err(error) => {
            writeln!(err, "{error}")?;
            Ok(Outcome::CouldNotRun)
        }
    }
}

fn comparison(options: &CompareOptions, world: &World, notes: &mut Vec<String>) -> Result<(String, Outcome), String> {
    let manual = read(options.manual.as_ref(), world)?;
    let (machine, procedure) = procedure_of(&manual, &options.procedure)?;
    let film = Film::of(&manual, machine, procedure).ok_or_else(|| no_recording(procedure))?;
    let speech = captions(&world.folder.join(&options.captions), notes)?;
    let compared = compare(&film, procedure, &speech);
    let id = format!("{}/{}", machine.id, procedure.id);
    let file = options.captions.display().to_string();
    let text = match options.format {
        PlainFormat::Text => comparison_text(&compared, &format!("{} ({id})", procedure.title), &file),
        PlainFormat::Json => pretty(&comparison_json(&compared, &id, &file))?,
    };
    Ok((text, if compared.differs() { Outcome::Findings } else { Outcome::Clean }))
}

/// Something made of the recording of a procedure.
fn of(options: &OfRecording, world: &World, make: fn(&Film<'_>) -> String) -> Result<(String, Outcome), String> {
    let manual = read(options.manual.as_ref(), world)?;
    let (_, _, film) = found(&manual, &options.procedure)?;
    Ok((make(&film), Outcome::Clean))
}

fn read(given: Option<&PathBuf>, world: &World) -> Result<Manual, String> {
    let (sources, _) = read_manual(given, world).map_err(|error| error.to_string())?;
    Ok(lower(&sources).0)
}

fn found<'m>(manual: &'m Manual, asked: &str) -> Result<(&'m Machine, &'m Procedure, Film<'m>), String> {
    let (machine, procedure) = procedure_of(manual, asked)?;
    let film = Film::of(manual, machine, procedure).ok_or_else(|| no_recording(procedure))?;
    Ok((machine, procedure, film))
}

fn no_recording(procedure: &Procedure) -> String {
    format!("‘{}’ names no recording; give it one: video: {{address: https://…}}, or the id of one under recordings: of its machine", procedure.id)
}

/// The procedure of `MACHINE/PROCEDURE`, or of `PROCEDURE` where only one machine has it.
fn procedure_of<'m>(manual: &'m Manual, asked: &str) -> Result<(&'m Machine, &'m Procedure), String> {
    let all = || manual.machines.iter().flat_map(|machine| machine.procedures.iter().map(move |procedure| (machine, procedure)));
    let full = |(machine, procedure): (&Machine, &Procedure)| format!("{}/{}", machine.id, procedure.id);
    let fits: Vec<(&Machine, &Procedure)> = all().filter(|(machine, procedure)| procedure.id == asked || full((machine, procedure)) == asked).collect();
    match fits.as_slice() {
        [only] => Ok(*only),
        [] => {
            let names: Vec<String> = all().map(full).chain(all().map(|(_, procedure)| procedure.id.clone())).collect();
            let near = nearest(asked, names.iter().map(String::as_str));
            Err(near.map_or_else(|| format!("‘{asked}’ is no procedure of this manual; write MACHINE/PROCEDURE"), |near| format!("‘{asked}’ is no procedure of this manual; did you mean ‘{near}’?")))
        }
        several => Err(format!("‘{asked}’ is a procedure of several machines; write one of: {}", several.iter().map(|one| full(*one)).collect::<Vec<_>>().join(", "))),
    }
}

fn pretty(value: &Value) -> Result<String, String> {
    serde_json::to_string_pretty(value).map(|text| text + "\n").map_err(|error| error.to_string())
}

/// The speech of a caption file; lines that can't be read go to the notes.
pub(super) fn captions(path: &Path, notes: &mut Vec<String>) -> Result<Speech, String> {
    let bytes = read_given(path, u64::try_from(CAPTION_LIMIT).unwrap_or(u64::MAX)).map_err(|error| error.to_string())?;
    let captions = read_captions(&bytes).map_err(|error| format!("{}: {}", path.display(), error.message()))?;
    notes.extend(captions.faults.iter().take(20).map(|fault| format!("{}:{}: {}; not read{}", path.display(), fault.line, fault.what, fault.excerpt())));
    if captions.faults.len() > 20 {
        notes.push(format!("{}: {} more lines could not be read", path.display(), captions.faults.len() - 20));
    }
    Ok(Speech::of(&captions))
}
