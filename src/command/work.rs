//! What `inspect` and `bind` share: reading a manual, looking for faults, telling them.

use super::{Format, World};
use crate::finding::{Finding, json, sarif, text};
use crate::inspect::{Report, inspect, rules};
use crate::manual::{Date, Manual, lower};
use crate::source::{ReadError, Sources, read};
use std::io::{self, Write};
use std::path::PathBuf;

/// A manual read and looked at.
pub(super) struct Work {
    pub(super) sources: Sources,
    pub(super) manual: Manual,
    pub(super) report: Report,
}

/// Reads the manual of a folder as given, or of this folder, or of `procedures` below it, and looks at it.
pub(super) fn work(given: Option<&PathBuf>, today: Option<Date>, world: &World) -> Result<Work, ReadError> {
    let (sources, mut findings) = read_manual(given, world)?;
    let (manual, more) = lower(&sources);
    findings.extend(more);
    let report = inspect(&manual, &sources, findings, today);
    Ok(Work { sources, manual, report })
}

fn read_manual(given: Option<&PathBuf>, world: &World) -> Result<(Sources, Vec<Finding>), ReadError> {
    match given {
        Some(folder) => read(&world.folder.join(folder)),
        None => read(&world.folder).or_else(|_| read(&world.folder.join("procedures"))),
    }
}

/// Tells what was found.
pub(super) fn tell(work: &Work, format: Format, world: &World, out: &mut dyn Write) -> io::Result<()> {
    let findings = &work.report.findings;
    let files = &work.sources.files;
    let report = match format {
        Format::Text => text(findings, files, world.look),
        Format::Json => json(findings, files).map_err(io::Error::other)?,
        Format::Sarif => sarif(findings, files, &rules()).map_err(io::Error::other)?,
    };
    out.write_all(report.as_bytes())?;
    if report.ends_with('\n') || report.is_empty() { Ok(()) } else { out.write_all(b"\n") }
}
