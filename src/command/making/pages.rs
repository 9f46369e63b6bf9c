//! Making and laying down the pages of every machine whose pages can't be kept, and publishing them all.

use super::cause::Cause;
use super::look::{Ground, Looked, alone};
use super::state::{Look, PagesState, Parts, State};
use super::told::{Share, Told};
use super::{Made, Order, Why, parts, told};
use crate::figure::{Picture, renditions};
use crate::finding::{FileTable, Finding};
use crate::inspect::{Report, in_order};
use crate::manual::{Ledger, Machine, Outline};
use crate::output::{Kept, OutputError, Stage};
use crate::page::{Input, Theme, check_paths, machine_pages};
use crate::source::{MachineTexts, fingerprint, read_picture};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

/// What pages are made with.
pub(super) struct Making<'a> {
    pub(super) order: &'a Order<'a>,
    pub(super) ground: &'a Ground<'a>,
    pub(super) outlines: &'a BTreeMap<String, Arc<Outline>>,
    /// Files of a theme of one's own.
    pub(super) theme: &'a BTreeMap<String, Vec<u8>>,
    pub(super) kept: &'a Kept,
}

/// A machine and what becomes of its pages.
pub(super) struct Job<'a> {
    pub(super) texts: &'a MachineTexts,
    pub(super) looked: Looked,
    share: Share,
    look: Look,
    /// Why its pages are made anew; nothing where they are kept.
    pub(super) causes: Vec<Cause>,
}

/// Pages laid down.
struct Laid {
    paths: Vec<String>,
    parts: Parts,
}

/// Lays down every page that can't be kept, and publishes.
///
/// # Errors
/// In words: a broken theme, two files on one path, or what the disk refuses. Nothing published was touched then, unless the
/// disk refuses to have files moved.
pub(super) fn publish(making: &Making<'_>, looked: Vec<Looked>, mut report: Report, next: State) -> Result<Made, String> {
    let (order, ground) = (making.order, making.ground);
    let mut files = ground.survey.sources.files.clone();
    let profile = ground.frame.profile;
    let theme = Theme::compile(&ground.frame.language, making.theme).map_err(|error| error.to_string())?;
    let stage = Stage::begin(order.into, order.verify).map_err(|error| error.to_string())?;
    let (mut jobs, shared_look) = {
        let told = Told::new(&report, order.proof_copy);
        let look = Look { theme: parts::theme_print(making.theme), proof: order.proof_copy, told: String::new() };
        let jobs = looked.into_iter().zip(&ground.survey.machines).map(|(looked, texts)| making.job(texts, looked, &told, &look, &files, &stage));
        (jobs.collect::<Vec<Job<'_>>>(), look)
    };
    // Damage behind a header shows only now; pictures of machines whose pages are kept were whole.
    let pictures = making.pictures(&mut jobs, &mut files, &mut report.findings, &stage)?;
    let stops = report.stops(profile);
    if stops && !order.proof_copy {
        stage.abandon().map_err(|error| error.to_string())?;
        return Ok(Made { files, report, published: None, stops });
    }
    let told = Told::new(&report, order.proof_copy);
    let shared_look = Look { told: told::print(told.findings(), &[], &files), ..shared_look };
    let ids: BTreeSet<&str> = ground.survey.machines.iter().map(|texts| texts.id.as_str()).collect();
    let mut shared_causes = parts::causes(ground.state, &shared_look, &ids, &stage);
    let mut left = BTreeMap::new();
    if !shared_causes.is_empty() || jobs.iter().any(|job| !job.causes.is_empty()) {
        left = parts::left(making, &mut jobs);
    }
    let anew = jobs.iter().filter(|job| !job.causes.is_empty());
    shared_causes.extend(anew.map(|job| Cause::Machine(job.texts.id.clone())));

    // What `left` found unreadable is made anew as well; its pictures are there.
    let pictures = if jobs.iter().any(|job| job.causes == [Cause::NotKept]) {
        making.pictures(&mut jobs, &mut files.clone(), &mut Vec::new(), &stage)?
    } else {
        pictures
    };
    let laid = making.lay_down(&mut jobs, &theme, &files, &pictures, &stage)?;
    let mut paths: Vec<String> = Vec::new();
    let mut owners = BTreeMap::new();
    let mut all_parts = Vec::new();
    let mut fresh_parts: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    let mut next = next;
    for (index, (job, laid)) in jobs.iter_mut().zip(laid).enumerate() {
        let id = job.texts.id.clone();
        let mut state = job.looked.state.clone();
        let own = match laid {
            Some(Laid { paths: own, parts }) => {
                let bytes = parts.to_bytes();
                let renditions = shown(job, &pictures);
                let prints = own.iter().chain(&renditions).filter_map(|path| Some((path.clone(), stage.fingerprint(path)?)));
                state.pages = Some(PagesState { look: job.look.clone(), files: prints.collect(), parts: fingerprint(&bytes) });
                fresh_parts.insert(id.clone(), bytes);
                all_parts.push(parts);
                owners.extend(renditions.into_iter().map(|path| (path, index)));
                own
            }
            None => {
                all_parts.extend(left.remove(&index));
                let pages = state.pages.iter().flat_map(|pages| pages.files.keys());
                pages.clone().for_each(|path| stage.keep(path));
                pages.cloned().collect()
            }
        };
        owners.extend(own.iter().map(|path| (path.clone(), index)));
        // A picture may be shown by several machines; a page is one machine's alone.
        paths.extend(own.into_iter().filter(|path| path.ends_with(".html")));
        if job.looked.lasting {
            next.machines.insert(id, state);
        }
    }
    let of_all: BTreeSet<String> = if shared_causes.is_empty() {
        let files = ground.state.and_then(|state| state.shared.as_ref()).map(|shared| shared.files.clone()).unwrap_or_default();
        files.iter().for_each(|path| stage.keep(path));
        files
    } else {
        parts::lay_down(making, &theme, &told, &files, &all_parts, &stage)?.into_iter().collect()
    };
    let renditions: BTreeSet<&str> = pictures.values().flat_map(Picture::renditions).map(|picture| picture.path.as_str()).collect();
    check_paths(paths.iter().chain(&of_all).map(String::as_str).chain(renditions)).map_err(|error| error.to_string())?;
    next.values = parts::values_print(making, stage.fingerprint(crate::source::VALUES_FILE));
    next.shared = Some(parts::shared_state(shared_look, of_all));
    let changes = ground.state != Some(&next);
    let why = Why { machines: jobs.iter().map(|job| (job.texts.id.clone(), job.causes.clone())).collect(), shared: shared_causes, owners };
    let published = stage.publish().map_err(|error| error.to_string())?;
    // Without it the next run makes more anew: that is no failure of this one.
    if changes {
        let _ = leave(making.kept, &next, &fresh_parts);
    }
    Ok(Made { files, report, published: Some((published, why)), stops })
}

/// Leaves for the next run what spares it work.
fn leave(kept: &Kept, next: &State, parts: &BTreeMap<String, Vec<u8>>) -> Result<(), OutputError> {
    if next.program.is_empty() {
        return Ok(());
    }
    for (id, bytes) in parts.iter().filter(|(id, _)| next.machines.contains_key(*id)) {
        Parts::write(kept, id, bytes)?;
    }
    next.write(kept)
}

/// Paths of the pictures' files that a machine shows.
fn shown(job: &Job<'_>, pictures: &BTreeMap<String, Picture>) -> Vec<String> {
    let shown = job.looked.state.shown.keys().filter_map(|path| pictures.get(path));
    shown.flat_map(Picture::renditions).map(|rendition| rendition.path.clone()).collect()
}

impl<'a> Making<'a> {
    /// A machine with what stands on its pages, and whether they are to be made anew.
    fn job(&self, texts: &'a MachineTexts, looked: Looked, told: &Told<'_>, look: &Look, files: &FileTable, stage: &Stage) -> Job<'a> {
        let sources = &self.ground.survey.sources;
        let shared = std::iter::once(sources.manual.file).chain(sources.shop.iter().map(|shop| shop.file));
        let share = told.share(texts.files().chain(shared));
        let look = Look { told: share.print(files), ..look.clone() };
        let mut causes = looked.causes.clone();
        if causes.is_empty() {
            match &looked.state.pages {
                Some(pages) => {
                    causes.extend(parts::look_causes(&pages.look, &look));
                    let held = |(path, print): (&String, &String)| stage.held().fingerprint(path) == Some(print) && stage.held().holds(path);
                    causes.extend(pages.files.iter().filter(|file| !held(*file)).map(|(path, _)| Cause::Touched(path.clone())));
                }
                None => causes.push(Cause::Unknown),
            }
        }
        Job { texts, looked, share, look, causes }
    }

    /// Every picture that a page to be made shows, laid down. Those that can't be are added to what was found.
    fn pictures(&self, jobs: &mut [Job<'_>], files: &mut FileTable, findings: &mut Vec<Finding>, stage: &Stage) -> Result<BTreeMap<String, Picture>, String> {
        let sources = &self.ground.survey.sources;
        let mut ready: BTreeMap<String, Picture> = BTreeMap::new();
        let mut damaged: BTreeSet<String> = BTreeSet::new();
        for job in jobs.iter_mut().filter(|job| !job.causes.is_empty()) {
            let shown = job.looked.state.shown.keys().filter(|path| !ready.contains_key(*path) && !damaged.contains(*path));
            let shown = shown.filter_map(|path| Some((path.clone(), sources.pictures.get(path)?.clone()))).collect();
            let (made, faults) = renditions(&shown, &|path| read_picture(sources, path), &|path| stage.held().holds(path), self.order.threads);
            for (path, picture) in made {
                ready.insert(path, laid_down(picture, stage).map_err(|error| error.to_string())?);
            }
            for fault in faults {
                findings.push(fault.finding(files));
                damaged.insert(fault.path);
            }
            // What can't be unpacked today may be tomorrow.
            job.looked.lasting &= !job.looked.state.shown.keys().any(|path| damaged.contains(path));
        }
        Ok(ready)
    }

    /// Makes and lays down the pages of every machine that is to be made anew; in the order of the jobs.
    fn lay_down(&self, jobs: &mut [Job<'_>], theme: &Theme, files: &FileTable, pictures: &BTreeMap<String, Picture>, stage: &Stage) -> Result<Vec<Option<Laid>>, String> {
        let anew = jobs.iter().filter(|job| !job.causes.is_empty()).count();
        let each = self.order.threads.max(1).div_ceil(anew.max(1));
        let jobs: Vec<(&MachineTexts, &Share, bool, Mutex<Option<Machine>>)> = jobs
            .iter_mut()
            .map(|job| (job.texts, &job.share, !job.causes.is_empty(), Mutex::new(job.looked.machine.take())))
            .collect();
        let laid = in_order(&jobs, self.order.threads, |(texts, share, anew, machine)| {
            if !anew {
                return Ok(None);
            }
            let machine = machine.lock().ok().and_then(|mut machine| machine.take());
            let machine = machine.unwrap_or_else(|| self.ground.model(texts));
            let alone = alone(self.ground.frame, machine, self.outlines);
            let input = Input {
                manual: &alone,
                files,
                pictures,
                findings: &share.findings,
                waived: &share.waived,
                proof_copy: self.order.proof_copy,
                theme: self.theme,
                threads: each,
            };
            let pages = machine_pages(theme, &input).map_err(|error| error.to_string())?;
            let mut paths = Vec::new();
            for page in pages.files {
                stage.put(&page.path, &page.bytes).map_err(|error| error.to_string())?;
                paths.push(page.path);
            }
            check_paths(paths.iter().map(String::as_str)).map_err(|error| error.to_string())?;
            let values = Ledger::of(&alone).part(&texts.id).unwrap_or_default();
            Ok(Some(Laid { paths, parts: Parts { pages: pages.parts, values } }))
        });
        laid.into_iter().collect()
    }
}

/// A picture's files laid down, and the picture without their bytes.
fn laid_down(mut picture: Picture, stage: &Stage) -> Result<Picture, OutputError> {
    let renditions = match &mut picture {
        Picture::Drawing(rendition) => std::slice::from_mut(rendition),
        Picture::Photograph(renditions) => renditions.as_mut_slice(),
    };
    for rendition in renditions {
        match rendition.bytes.take() {
            Some(bytes) => stage.put(&rendition.path, &bytes)?,
            None => stage.keep(&rendition.path),
        }
    }
    Ok(picture)
}
