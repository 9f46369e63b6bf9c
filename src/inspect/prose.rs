//! Walking an author's text: every running text, link and picture with its place.

use crate::finding::Place;
use crate::manual::Procedure;
use crate::source::{Block, Inline};

/// Words that run on without a link between them, and the places of their pieces.
#[derive(Debug, Default)]
pub(super) struct Run<'a> {
    text: String,
    pieces: Vec<(usize, &'a str, &'a Place)>,
}

impl<'a> Run<'a> {
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    fn add(&mut self, text: &'a str, place: &'a Place) {
        self.pieces.push((self.text.len(), text, place));
        self.text.push_str(text);
    }

    /// Where a span of the run stands in the file.
    pub(super) fn place(&self, start: usize, end: usize) -> Option<Place> {
        let at = |byte: usize| self.pieces.iter().rev().find(|(from, _, _)| *from <= byte);
        let (from, text, place) = at(start)?;
        // An entity or escape is longer in the file than in the text: then the whole piece is meant.
        if place.end - place.start != text.len() {
            return Some((*place).clone());
        }
        let (last_from, last_text, last_place) = at(end.saturating_sub(1))?;
        let begin = place.start + (start - from);
        let finish = last_place.start + (end - last_from).min(last_text.len());
        Some(Place::new(place.file, begin..finish))
    }
}

/// Every list of inlines in some blocks, in reading order; code blocks have none.
pub(super) fn inlines<'a>(blocks: &'a [Block], visit: &mut dyn FnMut(&'a [Inline])) {
    for block in blocks {
        match block {
            Block::Paragraph(words) | Block::Heading(_, words) => visit(words),
            Block::List(_, items) => items.iter().for_each(|item| inlines(item, visit)),
            Block::Table(table) => {
                table.head.iter().for_each(|cell| visit(cell));
                table.rows.iter().flatten().for_each(|cell| visit(cell));
            }
            Block::Quote(inner) => inlines(inner, visit),
            Block::Notice(notice) => inlines(&notice.blocks, visit),
            Block::Code(..) | Block::Rule => {}
        }
    }
}

/// Every inline in some blocks, the outer before the inner.
pub(super) fn each_inline<'a>(blocks: &'a [Block], visit: &mut dyn FnMut(&'a Inline)) {
    fn inner<'a>(words: &'a [Inline], visit: &mut dyn FnMut(&'a Inline)) {
        for inline in words {
            visit(inline);
            match inline {
                Inline::Emphasis(words)
                | Inline::Strong(words)
                | Inline::Act(_, words)
                | Inline::Link(_, words, _)
                | Inline::See(_, words, _) => inner(words, visit),
                Inline::Text(..) | Inline::Code(..) | Inline::Picture(_) | Inline::FootnoteMark(..) | Inline::SoftBreak | Inline::HardBreak => {}
            }
        }
    }
    inlines(blocks, &mut |words| inner(words, visit));
}

/// The runs of words of some blocks, links of every kind left out.
pub(super) fn runs(blocks: &[Block]) -> Vec<Run<'_>> {
    let mut all = Vec::new();
    inlines(blocks, &mut |words| {
        let mut run = Run::default();
        gather(words, &mut run, &mut all);
        all.push(run);
    });
    all.retain(|run| !run.text.is_empty());
    all
}

fn gather<'a>(words: &'a [Inline], run: &mut Run<'a>, all: &mut Vec<Run<'a>>) {
    for inline in words {
        match inline {
            Inline::Text(text, place) => run.add(text, place),
            Inline::Emphasis(inner) | Inline::Strong(inner) | Inline::See(_, inner, _) | Inline::Link(_, inner, _) => gather(inner, run, all),
            Inline::SoftBreak | Inline::HardBreak => run.text.push(' '),
            Inline::Code(..) | Inline::FootnoteMark(..) => run.text.push_str(" ; "),
            Inline::Act(..) | Inline::Picture(_) => all.push(std::mem::take(run)),
        }
    }
}

/// Every piece of text of a procedure: its introduction, steps and footnotes.
pub(super) fn all_blocks(procedure: &Procedure) -> impl Iterator<Item = &[Block]> {
    let steps = procedure.steps.iter().map(|step| step.blocks.as_slice());
    let notes = procedure.footnotes.iter().map(|(_, blocks)| blocks.as_slice());
    std::iter::once(procedure.introduction.as_slice()).chain(steps).chain(notes)
}
