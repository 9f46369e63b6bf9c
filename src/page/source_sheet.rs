//! The source of a procedure as its author wrote it, line by line, with what was found at each line of a proof copy.
//!
//! Coloured here and not by the highlighter of code blocks: that one takes a hundred times as long, and its marks would make
//! each page ten times as large as its text, on every device that keeps a copy. What an author looks for is seen all the
//! same: keys, comments, headings, notices and acts.

use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::site::{Scene, Site};
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
    let (mut lines, mut start, mut part) = (Vec::new(), 0, Part::Before);
    let total = text.lines().count();
    for (at, whole) in text.split_inclusive('\n').take(MOST_LINES).enumerate() {
        let line = whole.trim_end_matches(['\n', '\r']);
        part = part.after(line);
        let place = Place::new(procedure.file, start..start + whole.len());
        lines.push(LineView { number: at + 1, text: coloured(line, part), faults: site.faults.at(&place) });
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

/// Which part of a file a line stands in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Before,
    Head,
    /// The line that closes the front matter.
    Close,
    Body,
}

impl Part {
    fn after(self, line: &str) -> Self {
        match self {
            Self::Before if line.trim_start_matches('\u{feff}').trim_end() == "---" => Self::Head,
            Self::Before => Self::Body,
            Self::Head if line.trim_end() == "---" => Self::Close,
            Self::Head => Self::Head,
            Self::Close | Self::Body => Self::Body,
        }
    }
}

fn coloured(line: &str, part: Part) -> Markup {
    let mut out = Markup::default();
    match part {
        Part::Before | Part::Head | Part::Close => head_line(line, &mut out),
        Part::Body => body_line(line, &mut out),
    }
    out
}

/// A line of the front matter: its key, its comment.
fn head_line(line: &str, out: &mut Markup) {
    let trimmed = line.trim_start();
    if trimmed.starts_with('#') {
        return marked("comment", line, out);
    }
    let (code, comment) = line.find(" #").map_or((line, ""), |at| line.split_at(at));
    let key = code.trim_start().trim_start_matches("- ").split_once(':').map_or("", |(key, _)| key);
    let is_key = !key.is_empty() && key.chars().all(|c| c.is_alphanumeric() || matches!(c, '-' | '_' | '/' | '.' | ' '));
    match code.split_once(key).filter(|_| is_key) {
        Some((before, behind)) => {
            out.push_text(before);
            marked("keyword", key, out);
            out.push_text(behind);
        }
        None => out.push_text(code),
    }
    if !comment.is_empty() {
        marked("comment", comment, out);
    }
}

/// A line of the text: a heading, a notice, the addresses of its links.
fn body_line(line: &str, out: &mut Markup) {
    if line.starts_with('#') {
        return marked("keyword", line, out);
    }
    let mut rest = line;
    while let Some((before, behind)) = rest.split_once("](") {
        let Some((address, after)) = behind.split_once(')') else { break };
        out.push_text(before);
        out.push_text("](");
        marked("string", address, out);
        out.push_text(")");
        rest = after;
    }
    out.push_text(rest);
}

fn marked(class: &str, text: &str, out: &mut Markup) {
    out.push_tag(match class {
        "comment" => "<span class=\"code-comment\">",
        "string" => "<span class=\"code-string\">",
        _ => "<span class=\"code-keyword\">",
    });
    out.push_text(text);
    out.push_tag("</span>");
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(line: &str, part: Part) -> String {
        coloured(line, part).as_str().to_owned()
    }

    #[test]
    fn keys_comments_headings_and_acts_are_marked_and_nothing_is_markup() {
        assert_eq!(shown("  hub-nut: {torque: 70 N·m}  # see", Part::Head), "  <span class=\"code-keyword\">hub-nut</span>: {torque: 70 N·m} <span class=\"code-comment\"> # see</span>");
        assert_eq!(shown("## Fit {#fit}", Part::Body), "<span class=\"code-keyword\">## Fit {#fit}</span>");
        assert_eq!(shown("[a](fit:b) and [c](turn:d).", Part::Body), "[a](<span class=\"code-string\">fit:b</span>) and [c](<span class=\"code-string\">turn:d</span>).");
        for part in [Part::Before, Part::Head, Part::Close, Part::Body] {
            for line in ["<script>: x", "# <b>", "[<i>](<u>) <script>", "](", "a](b", ": é", "- : x", " #"] {
                let html = shown(line, part);
                assert!(!html.replace("<span class=\"code-", "").replace("</span>", "").contains('<'), "{line}: {html}");
            }
        }
    }

    #[test]
    fn the_front_matter_ends_where_it_is_closed() {
        let mut part = Part::Before;
        let parts: Vec<Part> = ["\u{feff}---", "a: b", "---", "---"].iter().map(|line| { part = part.after(line); part }).collect();
        assert_eq!(parts, [Part::Head, Part::Head, Part::Close, Part::Body]);
        assert_eq!(Part::Before.after("text"), Part::Body);
    }
}
