//! `bind`: publishes the manual. It inspects first; what stops leaves the published site untouched.

use super::arguments::BindOptions;
use super::work::{Order, Work, tell, work};
use super::{Outcome, World};
use crate::figure::{Picture, renditions};
use crate::finding::{FileTable, Finding};
use crate::output::{self, Content, OutputError};
use crate::page::{Input, publish};
use crate::manual::Ledger;
use crate::source::{VALUES_FILE, published_values, read_picture, read_theme};
use std::collections::BTreeMap;
use std::fmt::Display;
use std::io::{self, Write};
use std::path::Path;

pub(super) fn run(options: &BindOptions, world: &World, out: &mut dyn Write, err: &mut dyn Write) -> io::Result<Outcome> {
    let into = world.folder.join(&options.into);
    let threads = world.threads(options.threads);
    let order = Order { manual: options.manual.as_ref(), today: options.today, against: options.against.as_deref(), site: &into, threads };
    let mut work = match work(&order, world) {
        Ok(work) => work,
        Err(error) => return could_not(err, &error),
    };
    if let Err(error) = output::check_apart(&into, &work.sources.root) {
        return could_not(err, &error);
    }
    // Pictures are unpacked only where there is a chance that they are published; damage behind a header shows then.
    let pictures = if work.report.stops(work.manual.profile) && !options.proof_copy {
        BTreeMap::new()
    } else {
        match pictures(&mut work, &into, threads) {
            Ok(pictures) => pictures,
            Err(error) => return could_not(err, &error),
        }
    };
    let stops = work.report.stops(work.manual.profile);
    if !work.report.findings.is_empty() {
        tell(&work, options.format, world, out)?;
    }
    if stops && !options.proof_copy {
        writeln!(err, "Nothing was published; what is in {} stays as it was.", into.display())?;
        return Ok(Outcome::Findings);
    }
    let files = match files(&work, pictures, &into, options.proof_copy, threads) {
        Ok(files) => files,
        Err(message) => return could_not(err, &message),
    };
    match write(&into, &files) {
        Ok(summary) => writeln!(out, "{summary}")?,
        Err(error) => return could_not(err, &error),
    }
    Ok(if stops { Outcome::Findings } else { Outcome::Clean })
}

fn could_not(err: &mut dyn Write, message: &dyn Display) -> io::Result<Outcome> {
    writeln!(err, "{message}")?;
    Ok(Outcome::CouldNotRun)
}

/// Every picture that is shown, ready for its page. Those that can't be are added to what was found.
fn pictures(work: &mut Work, into: &Path, threads: usize) -> Result<BTreeMap<String, Picture>, OutputError> {
    let shown = work.manual.shown_pictures();
    let shown = work.sources.pictures.iter().filter(|(path, _)| shown.contains(*path));
    let shown = shown.map(|(path, picture)| (path.clone(), picture.clone())).collect();
    let held = output::held(into)?;
    let (pictures, faults) = renditions(&shown, &|path| read_picture(&work.sources, path), &|path| held.holds(path), threads);
    let files = &mut work.sources.files;
    work.report.findings.extend(faults.iter().map(|fault| fault.finding(files)));
    Ok(pictures)
}

/// Every file of the site.
fn files(
    work: &Work,
    pictures: BTreeMap<String, Picture>,
    into: &Path,
    proof_copy: bool,
    threads: usize,
) -> Result<Vec<output::PageFile>, String> {
    let theme = match &work.manual.theme {
        Some(theme) => read_theme(&work.sources.root, &theme.value).map_err(|error| error.to_string())?,
        None => BTreeMap::new(),
    };
    let nothing: &[Finding] = &[];
    let findings = if proof_copy { work.report.findings.as_slice() } else { nothing };
    let files: &FileTable = &work.sources.files;
    let input = Input { manual: &work.manual, files, pictures: &pictures, findings, waived: &work.report.waived, proof_copy, theme: &theme, threads };
    let pages = publish(&input).map_err(|error| error.to_string())?;
    let mut files: Vec<output::PageFile> = pages.into_iter().map(|page| file(page.path, page.bytes)).collect();
    // A proof copy is not the published state: what it replaces stays what the next values are compared with.
    let values = if proof_copy { published_values(into).map_err(|error| error.to_string())? } else { Some(Ledger::of(&work.manual).to_json()) };
    files.extend(values.map(|bytes| file(VALUES_FILE.to_owned(), bytes)));
    // The same photograph under two names that differ in their endings has one set of renditions.
    let renditions: BTreeMap<String, Content> = pictures
        .into_values()
        .flat_map(Picture::into_renditions)
        .map(|rendition| (rendition.path, rendition.bytes.map_or(Content::AsHeld, Content::Bytes)))
        .collect();
    files.extend(renditions.into_iter().map(|(path, content)| output::PageFile { path, content }));
    Ok(files)
}

fn file(path: String, bytes: Vec<u8>) -> output::PageFile {
    output::PageFile { path, content: Content::Bytes(bytes) }
}

fn write(into: &Path, files: &[output::PageFile]) -> Result<String, OutputError> {
    let plan = output::plan(into, files)?;
    let summary = output::apply(&plan)?;
    Ok(format!(
        "{}: {} files written, {} kept, {} removed",
        into.display(),
        summary.written,
        summary.kept,
        summary.removed
    ))
}
