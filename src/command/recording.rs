//! `recording`: what a finished procedure has to say about its recording, and what the recording says otherwise.
//!
//! The comparison is no part of `inspect`: that judges a manual by its own folder, the same for everybody, and what
//! somebody said in a film is no source. A difference is a question to the speaker as much as to the page.

use super::arguments_draft::RecordingOptions;
use super::{Outcome, World};
use crate::recording::{CAPTION_LIMIT, Speech, read_captions};
use crate::source::read_given;
use std::io::{self, Write};
use std::path::Path;

pub(super) fn run(_options: &RecordingOptions, _world: &World, _out: &mut dyn Write, _err: &mut dyn Write) -> io::Result<Outcome> {
    Ok(Outcome::Clean)
}

/// The speech of a caption file; lines that can't be read go to the notes.
pub(super) fn captions(path: &Path, notes: &mut Vec<String>) -> Result<Speech, String> {
    let bytes = read_given(path, u64::try_from(CAPTION_LIMIT).unwrap_or(u64::MAX)).map_err(|error| error.to_string())?;
    let captions = read_captions(&bytes).map_err(|error| format!("{}: {}", path.display(), error.message()))?;
    notes.extend(captions.faults.iter().take(20).map(|(line, fault)| format!("{}:{line}: {fault}; not read", path.display())));
    if captions.faults.len() > 20 {
        notes.push(format!("{}: {} more lines could not be read", path.display(), captions.faults.len() - 20));
    }
    Ok(Speech::of(&captions))
}
