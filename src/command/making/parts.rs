//! The files that no machine has for itself: pages of all machines, styles and scripts, the list of values.

use super::cause::Cause;
use super::look::Looked;
use super::pages::{Job, Making};
use super::press::Press;
use super::state::{Look, Parts, State};
use super::told::Told;
use crate::crew::in_order;
use crate::finding::FileTable;
use crate::manual::Ledger;
use crate::output::Stage;
use crate::page::{Input, offline_copy, shared_pages};
use crate::source::{VALUES_FILE, fingerprint, published_values};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

/// Why the files of all machines can't be kept, but for machines that are made anew.
pub(super) fn causes(state: Option<&State>, look: &Look, ids: &BTreeSet<&str>, stage: &Stage) -> Vec<Cause> {
    let known = state.and_then(|state| Some((state, state.shared.as_ref()?)));
    let Some((state, shared)) = known else { return vec![Cause::Unknown] };
    let mut causes = look_causes(&shared.look, look);
    if state.machines.keys().map(String::as_str).collect::<BTreeSet<_>>() != *ids {
        causes.push(Cause::Machines);
    }
    causes.extend(touched(&shared.files, stage));
    causes
}

/// The files that do not stand there as they were published when the state was left.
fn touched(files: &BTreeMap<String, String>, stage: &Stage) -> Vec<Cause> {
    let held = |path: &String, print: &String| stage.held().fingerprint(path) == Some(print) && stage.held().holds(path);
    files.iter().filter(|(path, print)| !held(path, print)).map(|(path, _)| Cause::Touched(path.clone())).collect()
}

/// Likewise those of a machine that is as it was.
pub(super) fn touched_pages(looked: &Looked, stage: &Stage) -> Vec<Cause> {
    let kept = looked.state.pages.as_ref().filter(|_| looked.causes.is_empty());
    kept.map_or_else(Vec::new, |pages| touched(&pages.files, stage))
}

/// What is another between two looks.
pub(super) fn look_causes(before: &Look, now: &Look) -> Vec<Cause> {
    let causes = [
        (before.theme != now.theme, Cause::Theme),
        (before.proof != now.proof, Cause::Proof),
        (before.told != now.told, Cause::Told),
        (before.book != now.book, Cause::Book),
    ];
    causes.into_iter().filter_map(|(differs, cause)| differs.then_some(cause)).collect()
}

/// Lays down the files of all machines from the parts of each; tells their paths.
pub(super) fn lay_down(
    making: &Making<'_>,
    press: &Press,
    told: &Told<'_>,
    files: &FileTable,
    parts: &[Parts],
) -> Result<Vec<String>, String> {
    let stage = &press.stage;
    let pictures = BTreeMap::new();
    let input = Input {
        manual: making.ground.frame,
        files,
        pictures: &pictures,
        findings: told.findings(),
        waived: &[],
        proof_copy: making.order.proof_copy,
        theme: &press.files,
        threads: making.order.threads,
    };
    let each: Vec<&[String]> = parts.iter().map(|parts| parts.pages.as_slice()).collect();
    let paths = Mutex::new(Vec::new());
    shared_pages(&press.theme, &input, &each, |page| {
        let page = page.map_err(|error| error.to_string())?;
        stage.put(&page.path, &page.bytes).map_err(|error| error.to_string())?;
        if let Ok(mut paths) = paths.lock() {
            paths.push(page.path);
        }
        Ok::<(), String>(())
    })?;
    let mut paths = paths.into_inner().unwrap_or_default();
    let worker = offline_copy(&input, &each, &stage.fingerprints()).map_err(|error| error.to_string())?;
    stage.put(&worker.path, &worker.bytes).map_err(|error| error.to_string())?;
    paths.push(worker.path);
    if let Some(values) = values(making, parts)? {
        stage.put(VALUES_FILE, &values).map_err(|error| error.to_string())?;
        paths.push(VALUES_FILE.to_owned());
    }
    Ok(paths)
}

/// The list of values. A proof copy is not the published state: what it replaces stays what the next values are compared with.
fn values(making: &Making<'_>, parts: &[Parts]) -> Result<Option<Vec<u8>>, String> {
    if making.order.proof_copy {
        return published_values(making.order.into).map_err(|error| error.to_string());
    }
    let homes = parts.iter().flat_map(|part| &part.values).map(|(home, values)| (home.as_str(), values.as_str()));
    Ok(Some(Ledger::of(making.ground.frame).to_json_with(&homes.collect::<Vec<_>>())))
}

/// The parts of every machine: made now, or as they were left. A machine whose parts can't be read is to be made anew.
pub(super) fn left(making: &Making<'_>, jobs: &mut [Job]) -> BTreeMap<usize, Parts> {
    let read = in_order(jobs, making.order.threads, |job| {
        let pages = job.looked.state.pages.as_ref().filter(|_| job.causes.is_empty())?;
        Parts::read(making.kept, &job.looked.state.outline.id, &pages.parts)
    });
    let mut left = BTreeMap::new();
    for (index, (job, parts)) in jobs.iter_mut().zip(read).enumerate() {
        match parts {
            Some(parts) => drop(left.insert(index, parts)),
            None if job.causes.is_empty() => job.causes.push(Cause::NotKept),
            None => {}
        }
    }
    left
}

/// The fingerprint of the list of values that was published; none of a proof copy, which leaves the earlier one.
pub(super) fn values_print(making: &Making<'_>, stage_print: Option<String>) -> Option<String> {
    stage_print.filter(|_| !making.order.proof_copy)
}

/// The fingerprint of a theme of one's own; nothing where there is none.
pub(super) fn theme_print(theme: &BTreeMap<String, Vec<u8>>) -> String {
    if theme.is_empty() {
        return String::new();
    }
    let prints: Vec<(&String, String)> = theme.iter().map(|(path, bytes)| (path, fingerprint(bytes))).collect();
    fingerprint(&serde_json::to_vec(&prints).unwrap_or_default())
}
