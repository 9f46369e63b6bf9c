//! An act in the running text of a page: its words, its number, its values.

use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::markup::Markup;
use super::names::Detail;
use super::site::Scene;
use super::values::Line;
use crate::manual::{Act, ListKind, Step, Verb};
use serde::Serialize;

/// An act as a template prints it.
#[derive(Serialize)]
struct ActView<'v> {
    id: String,
    number: usize,
    verb: &'static str,
    words: &'v Markup,
    href: Option<String>,
    name: Option<String>,
    only: Option<String>,
    lines: Vec<Line>,
    details: Vec<Detail>,
    people: Vec<String>,
    faults: Vec<FaultView>,
}

/// What belongs to the acts of one paragraph.
#[derive(Serialize)]
struct NotesView {
    notes: Vec<NoteView>,
}

/// What belongs to one act.
#[derive(Serialize)]
struct NoteView {
    number: usize,
    name: Option<String>,
    details: Vec<Detail>,
}

impl Scene<'_> {
    /// An act of a step as HTML.
    pub(super) fn act(&self, step: &Step, index: usize, words: &Markup) -> Result<Markup, PageError> {
        let Some(act) = step.acts.get(index) else { return Ok(words.clone()) };
        let scene = Scene { known: &step.only, ..*self };
        let told = scene.told(act);
        let view = ActView {
            id: link::act_anchor(&step.id, index),
            number: index + 1,
            verb: act.verb.map_or("unknown", Verb::word),
            words,
            href: act.thing().filter(|thing| thing.kind != ListKind::People).map(|thing| scene.row_link(thing)),
            name: scene.name_beside(act),
            only: act.thing().and_then(|thing| scene.scope().head(thing)).and_then(|head| scene.only_text(head.only)),
            lines: told.lines,
            details: told.details,
            people: scene.people(act),
            faults: self.site.faults.at(&act.place),
        };
        self.site.templates.render("act.html", &view)
    }

    /// The details of a paragraph's acts once more, for screens too narrow for a margin: there they stand
    /// below the paragraph, so that no sentence is torn.
    pub(super) fn act_notes(&self, step: &Step, acts: &[usize]) -> Result<Markup, PageError> {
        let scene = Scene { known: &step.only, ..*self };
        let notes: Vec<NoteView> = acts
            .iter()
            .filter_map(|index| step.acts.get(*index).map(|act| (*index, act)))
            .filter(|(_, act)| act.verb != Some(Verb::Tool))
            .map(|(index, act)| NoteView { number: index + 1, name: scene.name_beside(act), details: scene.told(act).details })
            .filter(|note| !note.details.is_empty())
            .collect();
        if notes.is_empty() { Ok(Markup::default()) } else { self.site.templates.render("act-notes.html", &NotesView { notes }) }
    }

    /// The names of those who sign.
    pub(super) fn people(&self, act: &Act) -> Vec<String> {
        act.things.iter().filter(|thing| thing.kind == ListKind::People).map(|thing| self.name(thing)).collect()
    }

    /// The thing's name, where the words of the link lack it.
    pub(super) fn name_beside(&self, act: &Act) -> Option<String> {
        let thing = act.thing().filter(|thing| thing.kind != ListKind::People)?;
        let name = self.name(thing);
        let words = act.words.to_lowercase();
        // The words name the thing where every longer word of the name stands in them.
        let named = name.to_lowercase().split_whitespace().filter(|word| word.chars().count() > 3).all(|word| words.contains(word));
        (!named).then_some(name)
    }
}
