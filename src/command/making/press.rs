//! What the pages of machines are made with, and making them: of one machine at a time, its model at hand.

use super::super::work::Whose;
use super::look::Looked;
use super::state::Parts;
use super::told::Share;
use super::{Order, another};
use crate::figure::{Picture, PictureFault, renditions};
use crate::finding::{FileTable, Severity};
use crate::manual::{Ledger, Manual};
use crate::output::{OutputError, Stage};
use crate::page::{Input, Theme, machine_pages};
use crate::source::{Sources, Survey, read_picture, read_theme};
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Mutex, OnceLock};

/// A theme and a site being put together.
pub(super) struct Press {
    /// Files of a theme of one's own.
    pub(super) files: BTreeMap<String, Vec<u8>>,
    pub(super) theme: Theme,
    pub(super) stage: Stage,
    /// Pictures whose files are laid down, by source path: several machines may show one.
    pictures: Mutex<BTreeMap<String, Picture>>,
}

/// The pages of a machine, laid down.
pub(super) struct Laid {
    pub(super) paths: Vec<String>,
    pub(super) parts: Parts,
}

/// Likewise, where they were made early. There are many such machines: what each gives to the pages of all waits on the disk.
pub(super) struct LaidEarly {
    pub(super) paths: Vec<String>,
    /// The fingerprint of the parts that were set aside.
    pub(super) parts: String,
}

/// What a machine's pages are made from.
pub(super) struct Manuscript<'a> {
    /// The manual with this machine, and the others by their outlines.
    pub(super) alone: &'a Manual,
    pub(super) files: &'a FileTable,
    pub(super) pictures: &'a BTreeMap<String, Picture>,
    /// What was found and stands on them.
    pub(super) share: &'a Share,
    pub(super) proof_copy: bool,
    pub(super) threads: usize,
}

impl Press {
    /// Takes the site's folder for this run. `known` tells whether a run of this manual has left what stands there.
    ///
    /// # Errors
    /// In words: the site of another manual, a broken theme, a folder that can't be published into.
    pub(super) fn new(order: &Order<'_>, survey: &Survey, frame: &Manual, known: bool) -> Result<Self, String> {
        // What a run of this manual has left vouches for its site.
        if !known && !order.replace_other {
            another::check(order.into, &Whose::of(&frame.title, survey.machines.iter().map(|machine| &machine.id)))?;
        }
        let files = match &frame.theme {
            Some(theme) => read_theme(&survey.sources.root, &theme.value).map_err(|error| error.to_string())?,
            None => BTreeMap::new(),
        };
        let theme = Theme::compile(&frame.language, &files).map_err(|error| error.to_string())?;
        let stage = Stage::begin(order.into, order.verify, order.threads).map_err(|error| error.to_string())?;
        Ok(Self { files, theme, stage, pictures: Mutex::default() })
    }

    /// Makes the pictures of some paths ready, lays their files down where that was not done before, and tells them by path. A path
    /// that is no picture is left out.
    ///
    /// # Errors
    /// In words: what the disk refuses. Pictures that prove damaged are told beside.
    pub(super) fn lay_pictures_down<'p>(
        &self,
        paths: impl Iterator<Item = &'p String>,
        sources: &Sources,
        threads: usize,
    ) -> Result<(BTreeMap<String, Picture>, Vec<PictureFault>), String> {
        let (mut ready, mut new) = (BTreeMap::new(), BTreeMap::new());
        if let Ok(known) = self.pictures.lock() {
            for path in paths {
                match (known.get(path), sources.pictures.get(path)) {
                    (Some(picture), _) => drop(ready.insert(path.clone(), picture.clone())),
                    (None, Some(file)) => drop(new.insert(path.clone(), file.clone())),
                    (None, None) => {}
                }
            }
        }
        let (made, faults) = renditions(&new, &|path| read_picture(sources, path), &|path| self.stage.held().holds(path), threads);
        for (path, picture) in made {
            let picture = laid_down(picture, &self.stage).map_err(|error| error.to_string())?;
            if let Ok(mut known) = self.pictures.lock() {
                known.insert(path.clone(), picture.clone());
            }
            ready.insert(path, picture);
        }
        Ok((ready, faults))
    }

    /// Makes the pages of a machine and lays them down.
    ///
    /// # Errors
    /// In words: a broken template, or what the disk refuses.
    pub(super) fn lay_down(&self, manuscript: &Manuscript<'_>, id: &str) -> Result<Laid, String> {
        let input = Input {
            manual: manuscript.alone,
            files: manuscript.files,
            pictures: manuscript.pictures,
            findings: &manuscript.share.findings,
            waived: &manuscript.share.waived,
            proof_copy: manuscript.proof_copy,
            theme: &self.files,
            threads: manuscript.threads,
        };
        let pages = machine_pages(&self.theme, &input).map_err(|error| error.to_string())?;
        let mut paths = Vec::new();
        for page in pages.files {
            self.stage.put(&page.path, &page.bytes).map_err(|error| error.to_string())?;
            paths.push(page.path);
        }
        let values = Ledger::part_of(manuscript.alone, id).unwrap_or_default();
        let values = values.into_iter().map(|(home, values)| (home, values.to_json_part())).collect();
        Ok(Laid { paths, parts: Parts { pages: pages.parts, values } })
    }

    /// Forgets pages that were laid down: they are to be made anew.
    pub(super) fn take_back(&self, laid: &LaidEarly) {
        laid.paths.iter().for_each(|path| self.stage.take_back(path));
    }
}

/// Making the pages of a machine in one go with looking at it. Of a large manual most models can't be held until all of it was
/// looked at; those machines would be read once more for their pages alone.
pub(super) struct Early<'a> {
    order: &'a Order<'a>,
    survey: &'a Survey,
    frame: &'a Manual,
    /// Whether a run of this manual has left what stands in the site's folder.
    known: bool,
    press: OnceLock<Option<Press>>,
    /// Whether pages would be laid down in vain: something that was found may stop the publishing, or may stand on every page.
    in_vain: AtomicBool,
}

impl<'a> Early<'a> {
    pub(super) fn new(order: &'a Order<'a>, survey: &'a Survey, frame: &'a Manual, known: bool) -> Self {
        // What is told of the files that all machines share is known last, and is printed on the pages of each.
        let may_tell = order.proof_copy || !frame.waivers.is_empty();
        Self { order, survey, frame, known, press: OnceLock::new(), in_vain: AtomicBool::new(may_tell) }
    }

    /// The pages of a machine that was just looked at, where it can be foreseen how they will be: nothing was found in it, and no
    /// picture of it proves damaged. What can't be laid down now is tried again later, and told of then.
    pub(super) fn lay_down(&self, alone: &Manual, looked: &Looked, threads: usize) -> Option<LaidEarly> {
        if looked.findings.iter().any(|finding| finding.grade() == Severity::Error) {
            self.in_vain.store(true, Ordering::Relaxed);
        }
        if self.in_vain.load(Ordering::Relaxed) || !looked.findings.is_empty() {
            return None;
        }
        let press = self.press.get_or_init(|| Press::new(self.order, self.survey, self.frame, self.known).ok()).as_ref()?;
        let (pictures, faults) = press.lay_pictures_down(looked.state.shown.keys(), &self.survey.sources, threads).ok()?;
        if !faults.is_empty() {
            return None;
        }
        let manuscript = Manuscript {
            alone,
            files: &self.survey.sources.files,
            pictures: &pictures,
            share: &Share::default(),
            proof_copy: self.order.proof_copy,
            threads,
        };
        let id = &looked.state.outline.id;
        let Laid { paths, parts } = press.lay_down(&manuscript, id).ok()?;
        Some(LaidEarly { paths, parts: parts.set_aside(&press.stage, id)? })
    }

    /// As [`Press::take_back`].
    pub(super) fn take_back(&self, laid: &LaidEarly) {
        if let Some(press) = self.press.get().and_then(Option::as_ref) {
            press.take_back(laid);
        }
    }

    /// Ends without publishing: nothing stays of what was laid down.
    ///
    /// # Errors
    /// In words: what the disk refuses.
    pub(super) fn abandon(self) -> Result<(), String> {
        let Some(press) = self.press.into_inner().flatten() else { return Ok(()) };
        press.stage.abandon().map_err(|error| error.to_string())
    }

    /// The press, set up by now or before.
    ///
    /// # Errors
    /// As [`Press::new`].
    pub(super) fn into_press(self) -> Result<Press, String> {
        match self.press.into_inner().flatten() {
            Some(press) => Ok(press),
            None => Press::new(self.order, self.survey, self.frame, self.known),
        }
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
