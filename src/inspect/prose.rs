//! Walking an author's text: every running text, link and picture with its place.

use crate::finding::Place;
use crate::source::{Block, Inline, each_running_text};

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

/// The runs of words of some blocks, those of acts left out.
pub(super) fn runs(blocks: &[Block]) -> Vec<Run<'_>> {
    gathered(blocks, true)
}

/// The runs of words of some blocks, those of links of every kind left out.
pub(super) fn runs_outside_links(blocks: &[Block]) -> Vec<Run<'_>> {
    gathered(blocks, false)
}

fn gathered(blocks: &[Block], links: bool) -> Vec<Run<'_>> {
    let mut all = Vec::new();
    each_running_text(blocks, &mut |words| {
        let mut run = Run::default();
        gather(words, links, &mut run, &mut all);
        all.push(run);
    });
    all.retain(|run| !run.text.is_empty());
    all
}

fn gather<'a>(words: &'a [Inline], links: bool, run: &mut Run<'a>, all: &mut Vec<Run<'a>>) {
    for inline in words {
        match inline {
            Inline::Text(text, place) => run.add(text, place),
            Inline::Emphasis(inner) | Inline::Strong(inner) => gather(inner, links, run, all),
            Inline::See(_, inner, _) | Inline::Link(_, inner, _) if links => gather(inner, links, run, all),
            Inline::See(..) | Inline::Link(..) => all.push(std::mem::take(run)),
            Inline::SoftBreak | Inline::HardBreak => run.text.push(' '),
            Inline::Code(..) | Inline::FootnoteMark(..) => run.text.push_str(" ; "),
            Inline::Act(..) | Inline::Picture(_) => all.push(std::mem::take(run)),
        }
    }
}
