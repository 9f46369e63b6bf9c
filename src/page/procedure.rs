//! A procedure's page: the work in its order, every value where its act stands.

use super::before::Before;
use super::behind;
use super::corrections::CorrectionView;
use super::error::PageError;
use super::faults::FaultView;
use super::html::{self};
use super::link;
use super::machine::ChangeLine;
use super::markup::Markup;
use super::names::Detail;
use super::open::{self, OpenView};
use super::prose::{Prose, Shown};
use super::site::{Scene, Site};
use super::strip::Strip;
use super::words::Arg;
use crate::finding::Place;
use crate::manual::{Combination, Procedure, Step};
use serde::Serialize;
use std::cell::RefCell;

#[derive(Serialize)]
struct ProcedureView {
    machine: Detail,
    strip: Strip,
    before: Before,
    introduction: Markup,
    steps: Vec<StepView>,
    footnotes: Vec<FootnoteView>,
    leaves: Vec<OpenView>,
    behind: Option<String>,
    /// Its source as written.
    source: String,
    sources: Vec<Detail>,
    changes: Vec<ChangeLine>,
    sheets: Vec<Detail>,
    recording: Option<RecordingView>,
    structured: Markup,
    faults: Vec<FaultView>,
}

#[derive(Serialize)]
struct StepView {
    id: String,
    number: usize,
    title: String,
    time: Option<String>,
    only: Option<String>,
    moment: Option<Detail>,
    /// What the recording says wrong there.
    said_wrong: Vec<String>,
    waivers: Vec<Detail>,
    text: Markup,
    faults: Vec<FaultView>,
}

#[derive(Serialize)]
struct FootnoteView {
    number: usize,
    text: Markup,
    marked: bool,
}

#[derive(Serialize)]
struct RecordingView {
    title: String,
    href: Option<String>,
    /// The way to its chapters.
    chapters: Option<Detail>,
    corrections: Vec<CorrectionView>,
}

/// Makes a procedure's page.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(procedure) = machine.procedures.get(index) else { return Ok(Default::default()) };
    let path = link::procedure_path(&machine.id, &procedure.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: Some(procedure), page: &path, known: &any, at_bench: false };
    let shown = Shown::default();
    let prose = Prose { scene, step: None, shown: &shown, drawings: RefCell::default(), told: RefCell::default() };
    let spans = step_spans(&scene, procedure);
    let introduction = html::blocks(&procedure.introduction, &prose)?;
    let steps = procedure.steps.iter().zip(&spans).map(|(step, span)| scene.step(step, span, &shown)).collect::<Result<_, _>>()?;
    let footnotes = scene.footnotes(procedure, &shown)?;
    let leaves = open::all(machine).iter().filter(|item| item.left_by(machine, index)).map(|item| item.view(&scene, Some(index))).collect();
    let before = scene.before(index);
    let view = ProcedureView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        strip: scene.strip(Some(index)),
        structured: scene.structured(procedure, &before),
        before,
        introduction,
        steps,
        footnotes,
        leaves,
        source: scene.link(&link::source_path(&machine.id, &procedure.id)),
        behind: behind::has(procedure).then(|| scene.link(&link::behind_path(&machine.id, &procedure.id))),
        sources: scene.source_links(),
        changes: scene.change_lines(&procedure.history),
        sheets: scene.sheet_links(index).into_iter().chain(scene.board_links(procedure)).collect(),
        recording: scene.recording(procedure),
        faults: site.faults.elsewhere(procedure.file, &spans),
    };
    let id = format!("{}/{}", machine.id, procedure.id);
    let mut block = site.title_block("kind-procedure", &procedure.title, &id, Some(&procedure.history));
    block.machine = Some(view.machine.clone());
    block.sheet = Some(site.say_with(
        "sheet-of",
        &[("number", Arg::Count(super::rows::count(index + 1))), ("count", Arg::Count(super::rows::count(machine.procedures.len())))],
    ));
    let title = format!("{} – {}", procedure.title, machine.name);
    let mut frame = site.frame(&path, &title, "procedure");
    frame.description = site.say_with(
        "description-procedure",
        &[
            ("title", Arg::Text(&procedure.title)),
            ("machine", Arg::Text(&machine.name)),
            ("count", Arg::Count(super::rows::count(procedure.steps.len()))),
        ],
    );
    let html = site.document("procedure.html", frame, block, &view)?;
    Ok((path, html))
}

/// The span of each step in its file: from its heading to the next.
pub(super) fn step_spans(scene: &Scene<'_>, procedure: &Procedure) -> Vec<Place> {
    let end = scene.site.input.files.text(procedure.file).len();
    let starts: Vec<usize> = procedure.steps.iter().map(|step| step.place.start).collect();
    procedure
        .steps
        .iter()
        .enumerate()
        .map(|(index, step)| Place::new(step.place.file, step.place.start..starts.get(index + 1).copied().unwrap_or(end)))
        .collect()
}

impl<'s> Scene<'s> {
    fn step(&self, step: &'s Step, span: &Place, shown: &'s Shown) -> Result<StepView, PageError> {
        let drawings = RefCell::new(self.page_drawings(step));
        let inner = Prose { scene: Scene { known: &step.only, ..*self }, step: Some(step), shown, drawings, told: RefCell::default() };
        let mut text = html::blocks(&step.blocks, &inner)?;
        text.push(&inner.other_drawings());
        let acts: Vec<Place> = step.acts.iter().map(|act| act.place.clone()).collect();
        Ok(StepView {
            id: link::anchor_part(&step.id),
            number: step.number,
            title: step.title.clone(),
            time: step.minutes.map(|minutes| self.minutes_text(minutes)),
            only: self.only_text(&step.only),
            moment: self.moment(step),
            said_wrong: self.said_wrong(step),
            waivers: self.procedure.map_or_else(Vec::new, |procedure| self.step_waivers(procedure, step)),
            text,
            faults: self.site.faults.around(span, &acts),
        })
    }

    /// The step's moment in the recording, with an address that opens there.
    fn moment(&self, step: &Step) -> Option<Detail> {
        let span = step.at.as_ref()?.value;
        let recording = self.procedure.and_then(|p| p.recording.as_ref());
        let seconds = span.start().seconds();
        Some(Detail { text: super::moment::shown(span), href: recording.and_then(|r| super::moment::address_at(r, seconds)) })
    }

    fn recording(&self, procedure: &Procedure) -> Option<RecordingView> {
        let recording = procedure.recording.as_ref()?;
        Some(RecordingView {
            title: recording.title.clone().unwrap_or_else(|| self.site.say("recording")),
            href: recording.address.clone().filter(|a| super::moment::is_web(a)),
            chapters: super::chapters::list(procedure).map(|_| Detail {
                text: self.site.say("recording-chapters"),
                href: Some(self.link(&format!("{}#page.chapters", link::behind_path(&self.machine.id, &procedure.id)))),
            }),
            corrections: self.corrections(procedure, recording),
        })
    }

    fn footnotes(&self, procedure: &'s Procedure, shown: &Shown) -> Result<Vec<FootnoteView>, PageError> {
        let inner = Shown { pictures: shown.pictures.clone(), ..Shown::default() };
        procedure
            .footnotes
            .iter()
            .enumerate()
            .map(|(index, (name, blocks))| {
                let prose = Prose { scene: *self, step: None, shown: &inner, drawings: RefCell::default(), told: RefCell::default() };
                Ok(FootnoteView { number: index + 1, text: html::blocks(blocks, &prose)?, marked: shown.marked.borrow().contains(name) })
            })
            .collect()
    }
}
