//! An act in the running text of a page: its words, its number, its values.

use super::details::Told;
use super::error::PageError;
use super::faults::FaultView;
use super::link;
use super::lines;
use super::markup::Markup;
use super::names::{Detail, joined};
use super::site::Scene;
use crate::manual::{Act, ListKind, Step, ThingRef, Verb};
use serde::Serialize;

/// An act as a template prints it.
#[derive(Serialize)]
struct ActView<'v> {
    id: String,
    number: usize,
    verb: &'static str,
    words: &'v Markup,
    #[serde(skip_serializing_if = "Option::is_none")]
    href: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    only: Option<String>,
    #[serde(skip_serializing_if = "Markup::is_empty")]
    lines: Markup,
    /// What one must know of a tool: it stands in the sentence.
    #[serde(skip_serializing_if = "Markup::is_empty")]
    details: Markup,
    /// Whether a note belongs to it.
    noted: bool,
    /// Those who sign.
    #[serde(skip_serializing_if = "Markup::is_empty")]
    people: Markup,
    #[serde(skip_serializing_if = "Vec::is_empty")]
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
    /// Its words with its details.
    printed: Markup,
}

impl Scene<'_> {
    /// What an act of a step shows.
    pub(super) fn told_in(&self, step: &Step, index: usize) -> Told {
        step.acts.get(index).map_or_else(Told::default, |act| Scene { known: &step.only, ..*self }.told(act))
    }

    /// An act of a step as HTML, with what it shows.
    pub(super) fn act(&self, step: &Step, index: usize, words: &Markup, told: &Told) -> Result<Markup, PageError> {
        let Some(act) = step.acts.get(index) else { return Ok(words.clone()) };
        let scene = Scene { known: &step.only, ..*self };
        let is_tool = act.verb == Some(Verb::Tool);
        let view = ActView {
            id: link::act_anchor(&step.id, index),
            number: index + 1,
            verb: act.verb.map_or("unknown", Verb::word),
            words,
            href: act.thing().filter(|thing| thing.kind != ListKind::People).map(|thing| scene.row_link(thing)),
            only: act.thing().and_then(|thing| scene.scope().head(thing)).and_then(|head| scene.only_text(head.only)),
            noted: !is_tool && !told.details.is_empty(),
            lines: lines::in_text(&told.lines),
            details: if is_tool { joined(&told.details, "; ") } else { Markup::default() },
            people: joined(&scene.signers(act), ", "),
            faults: self.site.faults.at(&act.place),
        };
        self.site.templates.render("act.html", &view)
    }

    /// What belongs to a paragraph's acts: in the margin beside it, or below it where a screen has no margin, so
    /// that no sentence is torn.
    pub(super) fn act_notes(&self, step: &Step, acts: impl Iterator<Item = (usize, Told)>) -> Result<Markup, PageError> {
        let scene = Scene { known: &step.only, ..*self };
        let mut notes: Vec<NoteView> = Vec::new();
        let mut before: Vec<(Option<&ThingRef>, Detail)> = Vec::new();
        for (index, told) in acts {
            let Some(act) = step.acts.get(index) else { continue };
            if act.verb == Some(Verb::Tool) || told.details.is_empty() {
                continue;
            }
            let thing = act.thing();
            let said = |detail: &Detail| before.iter().any(|(known, said)| *known == thing && said == detail);
            // What belongs to a value is told whole; another note need not repeat what has just been said of the same thing.
            let rest: Vec<Detail> = told.details.iter().filter(|detail| !said(detail)).cloned().collect();
            let named = before.iter().any(|(known, _)| *known == thing);
            let text = if told.lines.is_empty() && named && !rest.is_empty() {
                joined(&rest, "; ")
            } else {
                let name = scene.name_beside(act).filter(|name| !name.is_empty());
                joined(name.map(Detail::plain).iter().chain(&told.details), "; ")
            };
            before.extend(told.details.into_iter().map(|detail| (thing, detail)));
            notes.push(NoteView { number: index + 1, printed: text });
        }
        if notes.is_empty() { Ok(Markup::default()) } else { self.site.templates.render("act-notes.html", &NotesView { notes }) }
    }

    /// The names of those who sign.
    pub(super) fn people(&self, act: &Act) -> Vec<String> {
        act.things.iter().filter(|thing| thing.kind == ListKind::People).map(|thing| self.name(thing)).collect()
    }

    /// Those who sign, each leading to what else they sign.
    pub(super) fn signers(&self, act: &Act) -> Vec<Detail> {
        let people = act.things.iter().filter(|thing| thing.kind == ListKind::People);
        people.map(|thing| Detail { text: self.name(thing), href: Some(self.row_link(thing)) }).collect()
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
