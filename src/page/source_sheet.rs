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
    parts: Vec<SourcePart>,
    /// How many lines are left out.
    cut: usize,
}

/// Lines up to one in which something was found, or to the last.
#[derive(Default, Serialize)]
struct SourcePart {
    /// The lines as items of a list, printed: a source has hundreds. The last is left open for what was found in it.
    lines: Markup,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    faults: Vec<FaultView>,
}

impl SourcePart {
    fn push(&mut self, number: usize, text: &Markup) {
        self.lines.push_tag("<li id=\"L");
        self.lines.push_text(&number.to_string());
        self.lines.push_tag("\"><code>");
        self.lines.push(text);
        self.lines.push_tag("</code>");
    }
}

/// Makes the page.
pub(super) fn page(site: &Site<'_>, machine_index: usize, index: usize) -> Result<(String, Markup), PageError> {
    let Some(machine) = site.input.manual.machines.get(machine_index) else { return Ok(Default::default()) };
    let Some(procedure) = machine.procedures.get(index) else { return Ok(Default::default()) };
    let path = link::source_path(&machine.id, &procedure.id);
    let any = Combination::default();
    let scene = Scene { site, machine, machine_index, procedure: Some(procedure), page: &path, known: &any, at_bench: false };
    let text = site.input.files.text(procedure.file);
    let (mut parts, mut part) = (Vec::new(), SourcePart::default());
    let (mut start, mut painter) = (0, Painter::new());
    for (at, whole) in text.split_inclusive('\n').take(MOST_LINES).enumerate() {
        part.push(at + 1, &painter.line(whole));
        part.faults = site.faults.at(&Place::new(procedure.file, start..start + whole.len()));
        if part.faults.is_empty() {
            part.lines.push_tag("\n</li>\n");
        } else {
            parts.push(std::mem::take(&mut part));
        }
        start += whole.len();
    }
    parts.push(part);
    let view = SourceView {
        machine: Detail { text: machine.name.clone(), href: Some(scene.link(&link::machine_path(&machine.id))) },
        procedure: Detail { text: procedure.title.clone(), href: Some(scene.link(&link::procedure_path(&machine.id, &procedure.id))) },
        file: site.input.files.name(procedure.file).to_owned(),
        cut: text.lines().count().saturating_sub(MOST_LINES),
        parts,
    };
    let title = site.say_with("source-sheet-of", &[("title", Arg::Text(&procedure.title))]);
    let mut block = site.title_block("kind-source", &title, &view.file, Some(&procedure.history));
    block.machine = Some(view.machine.clone());
    let html = site.document("source.html", site.frame(&path, &format!("{title} – {}", machine.name), "source"), block, &view)?;
    Ok((path, html))
}
