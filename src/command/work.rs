//! What `inspect` and `bind` share: reading a manual, looking for faults, telling them.

use super::only::by_file;
use super::{Format, World};
use crate::finding::{FileTable, Finding, Ground, json, sarif, text};
use crate::inspect::{Report, Terms, inspect, rules};
use crate::manual::{Date, Ledger, Manual, lower};
use crate::output::held;
use crate::source::{Earlier, ReadError, Sources, VALUES_FILE, earlier, is_another, manual_near, path_below, published_values, read, repository_of};
use std::collections::BTreeSet;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// A manual read and looked at.
pub(super) struct Work {
    pub(super) sources: Sources,
    pub(super) manual: Manual,
    pub(super) report: Report,
}

/// What to look at, and by what to judge it.
pub(super) struct Order<'a> {
    pub(super) manual: Option<&'a PathBuf>,
    pub(super) today: Option<Date>,
    pub(super) against: Option<&'a str>,
    /// How many threads may look.
    pub(super) threads: usize,
    /// Where the last publishing may have left its list of values.
    pub(super) site: &'a Path,
}

/// Reads the manual of the folder that is meant, and looks at it.
pub(super) fn work(order: &Order<'_>, world: &World) -> Result<Work, String> {
    let (sources, mut findings) = read_manual(order.manual, world).map_err(|error| error.to_string())?;
    let (manual, more) = lower(&sources);
    findings.extend(more);
    let whose = Whose::of(&manual.title, manual.machines.iter().map(|machine| &machine.id));
    let terms = Terms { today: order.today, against: earlier_values(order.against, order.site, world, &sources.root, &whose)?, threads: order.threads };
    let report = inspect(&manual, &sources, findings, &terms);
    Ok(Work { sources, manual, report })
}

/// By what a manual's own values are known: its title, or one of its machines where that changed.
pub(super) struct Whose<'a> {
    title: &'a str,
    machines: BTreeSet<&'a str>,
}

impl<'a> Whose<'a> {
    pub(super) fn of(title: &'a str, machines: impl Iterator<Item = &'a String>) -> Self {
        Self { title, machines: machines.map(String::as_str).collect() }
    }

    /// Whether a list of values is this manual's own.
    pub(super) fn has(&self, ledger: &Ledger) -> bool {
        ledger.title == self.title || ledger.machines().any(|machine| self.machines.contains(machine))
    }
}

/// The values to compare with: of the state named, or of the last publishing into `site` where there was one. None where
/// there is nothing to compare with, be it that a revision is older than the manual.
pub(super) fn earlier_values(against: Option<&str>, site: &Path, world: &World, manual: &Path, whose: &Whose<'_>) -> Result<Option<Ledger>, String> {
    let Some(named) = against else {
        // What another version or another manual has left there, or what is damaged, is no reason not to inspect.
        let values = published_values(site).map_err(|error| error.to_string())?;
        return Ok(values.and_then(|bytes| Ledger::parse(&bytes).ok()).filter(|ledger| whose.has(ledger)));
    };
    is_another(named, &world.folder, manual).map_err(|error| error.to_string())?;
    match earlier(named, &world.folder, manual).map_err(|error| error.to_string())? {
        Earlier::Values(bytes) => Ledger::parse(&bytes).map(Some).map_err(|error| format!("{named}/{VALUES_FILE} {error}")),
        Earlier::Manual(sources, _) => Ok(Some(Ledger::of(&lower(&sources).0))),
        Earlier::Absent => Ok(None),
    }
}

/// Refuses to publish without a comparison where the last publication has left its values in `site` and they can't be read any
/// more: a value could change and nobody would be told.
///
/// # Errors
/// In words, with what to do.
pub(super) fn values_still_there(site: &Path) -> Result<(), String> {
    // What else is wrong with the record is told by whoever publishes.
    if !held(site).is_ok_and(|held| held.fingerprint(VALUES_FILE).is_some()) {
        return Ok(());
    }
    let why = match published_values(site).map_err(|error| error.to_string())? {
        None => "is gone".to_owned(),
        Some(bytes) => match Ledger::parse(&bytes) {
            Ok(_) => return Ok(()),
            Err(why) => why,
        },
    };
    Err(format!(
        "{}: {why}. The last publication left it there; without it nobody is told which values changed since then, so nothing was published.\n\
         Put it back from a copy of the site, or name an earlier state with --against (a folder with a manual or a site, or a revision); to begin anew, publish into an empty folder.",
        site.join(VALUES_FILE).display()
    ))
}

/// The folder of a manual that need not be sound: as given, or as [`manual_near`] finds it.
pub(super) fn manual_folder(given: Option<&PathBuf>, world: &World) -> Result<PathBuf, ReadError> {
    read_manual(given, world).map(|(sources, _)| sources.root)
}

pub(super) fn read_manual(given: Option<&PathBuf>, world: &World) -> Result<(Sources, Vec<Finding>), ReadError> {
    read(&meant(given, world)?)
}

/// The folder that is meant for the manual's, whether it is one or not.
pub(super) fn meant(given: Option<&PathBuf>, world: &World) -> Result<PathBuf, ReadError> {
    given.map_or_else(|| manual_near(&world.folder), |folder| Ok(world.folder.join(folder)))
}

/// Tells what was found in the manual of the folder `root`.
pub(super) fn tell(report: &Report, files: &FileTable, root: &Path, format: Format, world: &World, out: &mut dyn Write) -> io::Result<()> {
    let findings = [report.findings.as_slice(), report.waived.as_slice()].concat();
    let report = match format {
        Format::Text => text(&findings, files, world.look) + &by_file(&findings, files),
        Format::Json => json(&findings, files).map_err(io::Error::other)?,
        Format::Sarif => sarif(&findings, files, &rules(), &ground(root)).map_err(io::Error::other)?,
    };
    out.write_all(report.as_bytes())?;
    if report.ends_with('\n') || report.is_empty() { Ok(()) } else { out.write_all(b"\n") }
}

/// A review system looks for a file from the top of the repository.
fn ground(root: &Path) -> Ground {
    repository_of(root).and_then(|top| path_below(root, &top)).map_or(Ground::Manual, Ground::Repository)
}
