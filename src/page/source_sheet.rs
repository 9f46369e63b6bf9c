//! The source of a procedure as its author wrote it, line by line, with what was found at each line of a proof copy.

use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::site::{Scene, Site};
use super::source_syntax::Painter;
use super::words::Arg;
use crate::finding::Place;
use crate::manual::Combination;
use serde::Serialize;

/// Lines that are shown; an author with more has the file.
const MOST_LINES: usize = 5_000;

#[derive(Serialize)]
struct SourceView {
    machine: Detail,
    procedure: Detail,
    file: String,
    lines: Vec<LineView>,
    /// How many lines are left out.
    cut: usize,
}

#[derive(Serialize)]
struct LineView {
    number: usize,
    text: Markup,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    faults: Vec<FaultView>,
}

/// Makes the page.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(procedure) = machine.procedures.get(index) else { return Ok(Default::default()) };
    let path = link::source_path(&machine.id, &procedure.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: Some(procedure), page: &path, known: &any, at_bench: false };
    let text = site.input.files.text(procedure.file);
    let (mut lines, mut start, mut painter) = (Vec::new(), 0, Painter::new());
    let total = text.lines().count();
    for (at, whole) in text.split_inclusive('\n').take(MOST_LINES).enumerate() {
        let place = Place::new(procedure.file, start..start + whole.len());
        lines.push(LineView { number: at + 1, text: painter.line(whole), faults: site.faults.at(&place) });
        start += whole.len();
    }
    let view = SourceView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        procedure: Detail { text: procedure.title.clone(), href: Some(scene.link(&link::procedure_path(&machine.id, &procedure.id))) },
        file: site.input.files.name(procedure.file).to_owned(),
        cut: total.saturating_sub(lines.len()),
        lines,
    };
    let title = site.say_with("source-sheet-of", &[("title", Arg::Text(&procedure.title))]);
    let mut block = site.title_block("kind-source", &title, &view.file, Some(&procedure.history));
    block.machine = Some(view.machine.clone());
    let html = site.document("source.html", site.frame(&path, &format!("{title} – {}", machine.name), "source"), block, &view)?;
    Ok((path, html))
}
