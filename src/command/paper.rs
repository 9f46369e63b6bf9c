//! `paper`: whether a printed sheet or a build record is still current.

use super::arguments::{PaperOptions, PlainFormat};
use super::bulletin::{state_in, today};
use super::{Outcome, World};
use crate::bulletin::{PaperNews, RecordNews, State, named_fingerprint, paper_json, paper_text, record_json, record_news, record_text};
use crate::finding::{Severity, text};
use crate::manual::{Fingerprint, Manual, lower_record};
use crate::source::rules::FILE_NOT_READABLE;
use crate::source::{read_record, revisions};
use serde_json::Value;
use std::io::{self, Write};

pub(super) fn run(options: &PaperOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let now = match today(options.manual.as_ref(), world) {
        Ok(now) => now,
        Err(error) => {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
    };
    let Some((manual, sources)) = &now.read else { return Ok(Outcome::CouldNotRun) };
    let folder = sources.root.clone();
    if let Some(fingerprint) = named_fingerprint(&options.paper) {
        let mut news = PaperNews::of(&fingerprint, manual);
        if news.current.is_none()
            && let Err(error) = search(&mut news, &fingerprint, &now, options, &folder, world)
        {
            writeln!(err, "{error}")?;
            return Ok(Outcome::CouldNotRun);
        }
        told(options.format, out, &paper_json(&news), &paper_text(&news, &manual.title))?;
        return Ok(if news.current.is_some() { Outcome::Clean } else { Outcome::Findings });
    }
    let Some(news) = record(options, manual, world, err)? else { return Ok(Outcome::CouldNotRun) };
    told(options.format, out, &record_json(&news), &record_text(&news, &manual.title))?;
    Ok(if news.is_current() { Outcome::Clean } else { Outcome::Findings })
}

fn told(format: PlainFormat, out: &mut dyn Write, document: &Value, words: &str) -> io::Result<()> {
    match format {
        PlainFormat::Text => out.write_all(words.as_bytes()),
        PlainFormat::Json => writeln!(out, "{}", serde_json::to_string_pretty(document).map_err(io::Error::other)?),
    }
}

/// Looks for the state that printed a paper: the one named, otherwise through the folder's revisions.
fn search(news: &mut PaperNews, print: &Fingerprint, now: &State, options: &PaperOptions, folder: &std::path::Path, world: &World) -> Result<(), String> {
    if let Some(named) = &options.against {
        news.look_at(print, &state_in(named, folder, world)?, now);
        return Ok(());
    }
    // Without a repository, or without the program, the answer is shorter and still an answer.
    let found = match revisions(folder, options.revisions) {
        Ok(found) => found,
        Err(error) => {
            news.untold = Some(error.message);
            return Ok(());
        }
    };
    for revision in found {
        // A revision of before the manual was there, or of another layout, can't be read.
        let Ok(mut state) = state_in(&revision.name, folder, world) else { continue };
        state.name = format!("{} of {}", revision.name, revision.date);
        if news.look_at(print, &state, now) {
            break;
        }
    }
    Ok(())
}

/// What a record's file says; none where it can't be read, which is told.
fn record(options: &PaperOptions, manual: &Manual, world: &World, err: &mut dyn Write) -> io::Result<Option<RecordNews>> {
    let (source, files, mut findings) = read_record(&world.folder.join(&options.paper));
    let build = source.as_ref().and_then(|source| {
        let (build, more) = lower_record(source);
        findings.extend(more);
        build
    });
    let Some(build) = build else {
        // What is no file, and has no name of one, was meant for a fingerprint.
        if options.paper.contains(['.', '/', '\\']) || !findings.iter().all(|finding| finding.rule().name == FILE_NOT_READABLE.name) {
            err.write_all(text(&findings, &files, world.look).as_bytes())?;
        }
        writeln!(err, "‘{}’ is neither a fingerprint (twelve signs, as in 7K3M-Q0ZT-91XA) nor the file of a build record", options.paper)?;
        return Ok(None);
    };
    let unclear: Vec<_> = findings.into_iter().filter(|finding| finding.grade() != Severity::Note).collect();
    let mut news = record_news(&build, manual);
    if !unclear.is_empty() {
        err.write_all(text(&unclear, &files, world.look).as_bytes())?;
        news.untold.push("parts of the record can't be read, and are left out".to_owned());
    }
    Ok(Some(news))
}
