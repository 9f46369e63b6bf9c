//! Making and laying down the pages of every machine whose pages can't be kept, and publishing them all.

use super::cause::Cause;
use super::look::{Ground, Looked, alone};
use super::press::{Laid, LaidEarly, Manuscript, Press};
use super::state::{Look, PagesState, Parts, SharedState, State};
use super::told::{Share, Told};
use super::{Head, Made, Order, Why, is_hole, parts, told};
use crate::crew::in_order;
use crate::figure::Picture;
use crate::finding::{FileTable, Finding};
use crate::inspect::Report;
use crate::manual::{Machine, Outline};
use crate::output::Kept;
use crate::page::{check_paths, is_printable};
use crate::source::{MachineTexts, VALUES_FILE};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex};

/// What pages are made with.
pub(super) struct Making<'a> {
    pub(super) order: &'a Order<'a>,
    pub(super) ground: &'a Ground<'a>,
    pub(super) outlines: &'a BTreeMap<String, Arc<Outline>>,
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

/// All that is to be published, laid down.
struct Prepared {
    next: State,
    why: Why,
}

/// Lays down every page that can't be kept, and publishes.
///
/// # Errors
/// In words: a broken template, two files on one path, or what the disk refuses. Nothing published was touched then, unless the
/// disk refuses to have files moved.
pub(super) fn publish(making: &Making<'_>, press: Press, looked: Vec<Looked>, mut report: Report, next: State) -> Result<Made, String> {
    let mut files = making.ground.survey.sources.files.clone();
    let head = Head::of(making.ground.frame, &making.ground.survey.sources.root);
    let holed = report.findings.iter().any(is_hole);
    let prepared = making.prepare(&press, looked, &mut report, &mut files, next);
    let stage = press.stage;
    let stops = report.stops(making.ground.frame.profile);
    let (compared, beside) = (making.ground.compared(), making.ground.beside.clone());
    let prepared = match prepared {
        Ok(Some(prepared)) => prepared,
        unprepared => {
            let abandoned = stage.abandon().map_err(|error| error.to_string());
            unprepared.and(abandoned)?;
            return Ok(Made { files, report, head, holed, published: None, stops, compared, beside });
        }
    };
    let published = stage.publish().map_err(|error| error.to_string())?;
    // Without it the next run makes more anew: that is no failure of this one.
    if making.ground.state != Some(&prepared.next) {
        let _ = prepared.next.write(making.kept);
    }
    Ok(Made { files, report, head, holed, published: Some((published, prepared.why)), stops, compared, beside })
}

/// Paths of the pictures' files that a machine shows.
fn shown(job: &Job<'_>, pictures: &BTreeMap<String, Picture>) -> Vec<String> {
    let shown = job.looked.state.shown.keys().filter_map(|path| pictures.get(path));
    shown.flat_map(Picture::renditions).map(|rendition| rendition.path.clone()).collect()
}

impl<'a> Making<'a> {
    /// Lays down what is to be published; nothing where damaged pictures stop it.
    fn prepare(
        &self,
        press: &Press,
        looked: Vec<Looked>,
        report: &mut Report,
        files: &mut FileTable,
        mut next: State,
    ) -> Result<Option<Prepared>, String> {
        let (order, ground, stage) = (self.order, self.ground, &press.stage);
        let procedures = self.outlines.values().map(|outline| outline.procedures.len()).sum();
        let look = Look { theme: parts::theme_print(&press.files), proof: order.proof_copy, told: String::new(), book: is_printable(procedures) };
        let mut jobs: Vec<Job<'_>> = {
            let told = Told::new(report, order.proof_copy);
            let touched = in_order(&looked, order.threads, |looked| parts::touched_pages(looked, stage));
            let machines = looked.into_iter().zip(touched).zip(&ground.survey.machines);
            machines.map(|((looked, touched), texts)| self.job(texts, looked, touched, &told, &look, files)).collect()
        };
        // Damage behind a header shows only now; pictures of machines whose pages are kept were whole.
        let mut pictures = self.pictures(&mut jobs, press, files, &mut report.findings)?;
        if report.stops(ground.frame.profile) && !order.proof_copy {
            return Ok(None);
        }
        let told = Told::new(report, order.proof_copy);
        let look = Look { told: told::print(told.findings(), &[], files), ..look };
        let ids: BTreeSet<&str> = ground.survey.machines.iter().map(|texts| texts.id.as_str()).collect();
        let mut shared_causes = parts::causes(ground.state, &look, &ids, stage);
        let mut left = BTreeMap::new();
        if !shared_causes.is_empty() || jobs.iter().any(|job| !job.causes.is_empty()) {
            left = parts::left(self, &mut jobs);
        }
        if jobs.iter().any(|job| job.causes == [Cause::NotKept]) {
            // Their pages are made anew after all. Their pictures were whole.
            pictures = self.pictures(&mut jobs, press, &mut files.clone(), &mut Vec::new())?;
        }
        let anew = jobs.iter().filter(|job| !job.causes.is_empty());
        shared_causes.extend(anew.map(|job| Cause::Machine(job.texts.id.clone())));

        let laid = self.lay_down(&mut jobs, press, files, &pictures)?;
        let (mut all_parts, mut owners) = (Vec::new(), BTreeMap::new());
        let mut pages: Vec<String> = Vec::new();
        for (index, (job, laid)) in jobs.iter_mut().zip(laid).enumerate() {
            if let Some((Laid { paths, parts }, print)) = laid {
                let renditions = shown(job, &pictures);
                let prints = paths.iter().chain(&renditions).filter_map(|path| Some((path.clone(), stage.fingerprint(path)?)));
                let state = PagesState { look: job.look.clone(), files: prints.collect(), parts: print };
                job.looked.state.pages = Some(state);
                pages.extend(paths);
                all_parts.push(parts);
            } else {
                all_parts.extend(left.remove(&index));
                let kept = job.looked.state.pages.iter().flat_map(|pages| pages.files.keys());
                kept.clone().for_each(|path| stage.keep(path));
                // A picture may be shown by several machines; a page is one machine's alone.
                pages.extend(kept.filter(|path| path.ends_with(".html")).cloned());
            }
            let own = job.looked.state.pages.iter().flat_map(|pages| pages.files.keys());
            owners.extend(own.map(|path| (path.clone(), index)));
        }
        let shared = if shared_causes.is_empty() {
            let known = ground.state.and_then(|state| state.shared.as_ref()).map(|shared| shared.files.clone()).unwrap_or_default();
            known.keys().for_each(|path| stage.keep(path));
            known
        } else {
            let paths = parts::lay_down(self, press, &told, files, &all_parts)?;
            check_paths(paths.iter().map(String::as_str)).map_err(|error| error.to_string())?;
            paths.into_iter().filter_map(|path| stage.fingerprint(&path).map(|print| (path, print))).collect()
        };
        let renditions: BTreeSet<&str> = pictures.values().flat_map(Picture::renditions).map(|picture| picture.path.as_str()).collect();
        check_paths(pages.iter().chain(shared.keys()).map(String::as_str).chain(renditions)).map_err(|error| error.to_string())?;

        next.values = parts::values_print(self, stage.fingerprint(VALUES_FILE));
        next.shared = Some(SharedState { look, files: shared });
        let why = Why { machines: jobs.iter().map(|job| (job.texts.id.clone(), job.causes.clone())).collect(), shared: shared_causes, owners };
        let lasting = jobs.into_iter().filter(|job| job.looked.lasting);
        next.machines = lasting.map(|job| (job.texts.id.clone(), job.looked.state)).collect();
        Ok(Some(Prepared { next, why }))
    }

    /// A machine with what stands on its pages, and whether they are to be made anew. `touched` tells of those that another hand has
    /// touched.
    fn job(&self, texts: &'a MachineTexts, looked: Looked, touched: Vec<Cause>, told: &Told<'_>, look: &Look, files: &FileTable) -> Job<'a> {
        let sources = &self.ground.survey.sources;
        let shared = std::iter::once(sources.manual.file).chain(sources.shop.iter().map(|shop| shop.file));
        let share = told.share(texts.files().chain(shared));
        let look = Look { told: share.print(files), ..look.clone() };
        let mut causes = looked.causes.clone();
        if causes.is_empty() {
            match &looked.state.pages {
                Some(pages) => {
                    causes.extend(parts::look_causes(&pages.look, &look));
                    causes.extend(touched);
                }
                None => causes.push(Cause::Unknown),
            }
        }
        Job { texts, looked, share, look, causes }
    }

    /// Every picture that a page to be made shows, laid down. Those that can't be are added to what was found.
    fn pictures(&self, jobs: &mut [Job<'_>], press: &Press, files: &mut FileTable, findings: &mut Vec<Finding>) -> Result<BTreeMap<String, Picture>, String> {
        let (mut ready, mut damaged) = (BTreeMap::new(), BTreeSet::new());
        // One machine at a time: photographs take much memory until they are laid down.
        for job in jobs.iter_mut().filter(|job| !job.causes.is_empty()) {
            let shown = job.looked.state.shown.keys().filter(|path| !damaged.contains(*path));
            let (made, faults) = press.lay_pictures_down(shown, &self.ground.survey.sources, self.order.threads)?;
            ready.extend(made);
            for fault in faults {
                findings.push(fault.finding(files));
                damaged.insert(fault.path);
            }
            // What can't be unpacked today may be tomorrow.
            job.looked.lasting &= !job.looked.state.shown.keys().any(|path| damaged.contains(path));
        }
        Ok(ready)
    }

    /// Makes and lays down the pages of every machine that is to be made anew, and leaves its parts for the next run; in the order
    /// of the jobs, with the fingerprint of the parts.
    fn lay_down(&self, jobs: &mut [Job<'_>], press: &Press, files: &FileTable, pictures: &BTreeMap<String, Picture>) -> Result<Vec<Option<(Laid, String)>>, String> {
        let anew = jobs.iter().filter(|job| !job.causes.is_empty() && job.looked.laid.is_none()).count();
        let each = self.order.threads.max(1).div_ceil(anew.max(1));
        let stage_told = self.order.progress.stage("Making pages of", anew);
        let models: Vec<Mutex<Option<Machine>>> = jobs.iter_mut().map(|job| Mutex::new(job.looked.machine.take())).collect();
        let waiting: Vec<(&Job<'_>, Mutex<Option<Machine>>)> = jobs.iter().zip(models).collect();
        let made = in_order(&waiting, self.order.threads, |(job, machine)| {
            if job.causes.is_empty() {
                return Ok(None);
            }
            let id = &job.texts.id;
            if let Some(LaidEarly { paths, parts: print }) = &job.looked.laid {
                let gone = || format!("what was laid down of {id} is not there any more: another program is at work in {}; run again", self.order.into.display());
                let parts = Parts::brought_back(&press.stage, id, print).ok_or_else(gone)?;
                return Ok(Some((Laid { paths: paths.clone(), parts }, print.clone())));
            }
            let machine = machine.lock().ok().and_then(|mut machine| machine.take());
            let machine = machine.unwrap_or_else(|| self.ground.model(job.texts));
            let alone = alone(self.ground.frame, machine, self.outlines);
            let manuscript = Manuscript { alone: &alone, files, pictures, share: &job.share, proof_copy: self.order.proof_copy, threads: each };
            let laid = press.lay_down(&manuscript, id)?;
            stage_told.one();
            let print = laid.parts.leave(self.kept, id);
            Ok(Some((laid, print)))
        });
        made.into_iter().collect()
    }
}
