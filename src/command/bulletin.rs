//! `bulletin`: what changed between two states of a manual.

use super::arguments::{BulletinOptions, PlainFormat};
use super::work::{manual_folder, meant, read_manual};
use super::{Outcome, World};
use crate::bulletin::{Bulletin, State, bulletin_json, bulletin_text, compare};
use crate::manual::{Ledger, lower};
use crate::source::{Earlier, VALUES_FILE, earlier, is_another};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

pub(super) fn run(options: &BulletinOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let bulletin = match bulletin(options, world) {
        Ok(bulletin) => bulletin,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    match options.format {
        PlainFormat::Text => out.write_all(bulletin_text(&bulletin).as_bytes())?,
        PlainFormat::Json => writeln!(out, "{}", serde_json::to_string_pretty(&bulletin_json(&bulletin)).map_err(io::Error::other)?)?,
    }
    Ok(Outcome::Clean)
}

fn bulletin(options: &BulletinOptions, world: &World) -> Result<Bulletin, String> {
    if options.new.is_none()
        && let Ok(folder) = meant(options.manual.as_ref(), world)
    {
        is_another(&options.old, &world.folder, &folder).map_err(|error| error.to_string())?;
    }
    let old = state(&options.old, options.manual.as_ref(), world)?;
    let new = match &options.new {
        Some(named) => state(named, options.manual.as_ref(), world)?,
        None => today(options.manual.as_ref(), world)?,
    };
    compare(&old, &new).map_err(|error| error.to_string())
}

/// The manual's folder as it is.
pub(super) fn today(manual: Option<&PathBuf>, world: &World) -> Result<State, String> {
    let (sources, _) = read_manual(manual, world).map_err(|error| error.to_string())?;
    let manual = lower(&sources).0;
    Ok(State::of("today", manual, Box::new(sources)))
}

/// A state as somebody names it.
fn state(named: &str, manual: Option<&PathBuf>, world: &World) -> Result<State, String> {
    // Two folders need no manual beside them; a revision is one of the manual's folder, or of this one.
    let folder = manual_folder(manual, world).or_else(|error| if manual.is_some() { Err(error.to_string()) } else { Ok(world.folder.clone()) })?;
    state_in(named, &folder, world)
}

/// A state as somebody names it: a folder, or a revision of the manual's folder.
pub(super) fn state_in(named: &str, manual: &Path, world: &World) -> Result<State, String> {
    Ok(match earlier(named, &world.folder, manual).map_err(|error| error.to_string())? {
        Earlier::Values(bytes) => State::of_values(named, Ledger::parse(&bytes).map_err(|error| format!("{named}/{VALUES_FILE} {error}"))?),
        Earlier::Manual(sources, _) => State::of(named, lower(&sources).0, sources),
        Earlier::Absent => return Err(format!("{named}: this revision does not hold the manual yet; name a later one")),
    })
}
