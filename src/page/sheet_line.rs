//! The lines of a bench sheet: one with a box for each act, marks, text, panels.

use super::before::Item;
use super::error::PageError;
use super::faults::FaultView;
use super::highlight;
use super::html::{self, Inserts};
use super::markup::Markup;
use super::sentence::{Sentence, sentences};
use super::site::Scene;
use super::values::{Line, cases};
use super::words::Arg;
use super::wrench_reset::WrenchSettings;
use crate::manual::{Act, Fastener, ListKind, Step, Verb};
use crate::source::{Block, Inline, Notice, PictureText};
use serde::Serialize;
use std::collections::BTreeMap;

/// What stands on one line of a sheet, or between lines.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct SheetRow {
    /// `text`, `panel`, `act`, `reset`, `tool`, `hold`, `sign` or `stop`.
    pub kind: &'static str,
    /// Text, or the words of a mark.
    pub text: Markup,
    /// The thing's name where the words lack it; a tool's name.
    pub name: Option<String>,
    /// Those who sign.
    pub people: Vec<String>,
    /// `step.act`, as on the procedure's page.
    pub number: String,
    /// Values, to be read from 70 cm.
    pub lines: Vec<Line>,
    /// What else one must know.
    pub details: Vec<String>,
    /// Drawings that belong to the line.
    pub drawings: Markup,
    /// Blanks to write readings into.
    pub blanks: Vec<String>,
    /// Blanks for what the readings give, each with what stands before it.
    pub results: Vec<String>,
    /// Stages against positions, a box each.
    pub grid: Vec<Band>,
    /// What was found wrong in the act, on a proof copy.
    pub faults: Vec<FaultView>,
    /// Whether there is a blank for who set the wrench.
    pub set_by: bool,
}

/// A part of a grid of stages and positions that is not wider than the paper.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct Band {
    /// Numbers of the positions in the order of tightening.
    pub positions: Vec<u64>,
    /// The stages.
    pub stages: Vec<Line>,
}

/// So many boxes of 8 mm stand beside a stage's value on the paper.
const BAND: usize = 10;
/// More blanks than this are a table of their own.
const MOST_BLANKS: u64 = 24;

/// The text of a sheet: acts are words only, pictures a reference.
struct SheetProse<'s> {
    scene: Scene<'s>,
}

/// The rows of a step.
pub(super) fn rows(scene: &Scene<'_>, step: &Step, wrenches: &mut WrenchSettings) -> Result<Vec<SheetRow>, PageError> {
    let mut writer =
        Writer { scene: *scene, step, rows: Vec::new(), connectors: connectors(scene), drawings: scene.sheet_drawings(step), wrenches };
    writer.blocks(&step.blocks)?;
    Ok(writer.rows)
}

/// Text outside the steps, as a sheet prints it.
pub(super) fn text(scene: &Scene<'_>, blocks: &[Block]) -> Result<Markup, PageError> {
    html::blocks(blocks, &SheetProse { scene: *scene })
}

fn connectors(scene: &Scene<'_>) -> Vec<String> {
    scene.site.say("sheet-connectors").split_whitespace().map(str::to_lowercase).collect()
}

struct Writer<'s, 'w> {
    scene: Scene<'s>,
    step: &'s Step,
    rows: Vec<SheetRow>,
    connectors: Vec<String>,
    /// By the act they stand at.
    drawings: BTreeMap<usize, Markup>,
    wrenches: &'w mut WrenchSettings,
}

impl Writer<'_, '_> {
    fn blocks(&mut self, blocks: &[Block]) -> Result<(), PageError> {
        blocks.iter().try_for_each(|block| self.block(block, ""))
    }

    fn block(&mut self, block: &Block, before: &str) -> Result<(), PageError> {
        let prose = SheetProse { scene: self.scene };
        match block {
            Block::Paragraph(content) => self.paragraph(content, before)?,
            Block::List(first, items) => {
                for (index, item) in items.iter().enumerate() {
                    let mark = first.map_or_else(|| "– ".to_owned(), |n| format!("{}. ", n.saturating_add(super::rows::count(index))));
                    for (position, block) in item.iter().enumerate() {
                        self.block(block, if position == 0 { &mark } else { "" })?;
                    }
                }
            }
            Block::Quote(content) => self.blocks(content)?,
            Block::Notice(notice) => {
                let text = html::block(block, &prose)?;
                self.rows.push(SheetRow { kind: "panel", text, ..SheetRow::default() });
                self.acts_within(&notice.blocks);
            }
            Block::Heading(..) | Block::Table(_) | Block::Code(..) | Block::Rule => {
                self.rows.push(SheetRow { kind: "panel", text: html::block(block, &prose)?, ..SheetRow::default() });
                self.acts_within(std::slice::from_ref(block));
            }
        }
        Ok(())
    }

    /// Sentence by sentence: its text where it says more than its acts, then a line for each act.
    fn paragraph(&mut self, content: &[Inline], before: &str) -> Result<(), PageError> {
        let mut text = Markup::text(before);
        for part in content.split_inclusive(|inline| matches!(inline, Inline::Picture(_))) {
            let (words, picture) = match part {
                [words @ .., Inline::Picture(picture)] => (words, Some(picture)),
                words => (words, None),
            };
            for sentence in sentences(words, &SheetProse { scene: self.scene })? {
                self.sentence(&sentence, &mut text);
            }
            self.flush(&mut text);
            if let Some(picture) = picture {
                let caption = if picture.caption.is_empty() { &picture.alternative } else { &picture.caption };
                text.push_text(&self.scene.say("sheet-picture", &[("caption", Arg::Text(caption))]));
                self.flush(&mut text);
            }
        }
        Ok(())
    }

    fn sentence(&mut self, sentence: &Sentence, text: &mut Markup) {
        if sentence.acts.is_empty() || sentence.says_more(&self.connectors) {
            if !text.is_blank() && !text.as_str().ends_with(' ') {
                text.push_text(" ");
            }
            text.push(&sentence.text);
        }
        if !sentence.acts.is_empty() {
            self.flush(text);
        }
        for index in &sentence.acts {
            self.act(*index);
        }
    }

    fn flush(&mut self, text: &mut Markup) {
        let text = std::mem::take(text);
        if !text.is_blank() {
            self.rows.push(SheetRow { kind: "text", text, ..SheetRow::default() });
        }
    }

    /// The acts inside a panel get their lines below it.
    fn acts_within(&mut self, blocks: &[Block]) {
        let mut acts = Vec::new();
        acts_of(blocks, &mut acts);
        for index in acts {
            self.act(index);
        }
    }

    fn act(&mut self, index: usize) {
        let Some(act) = self.step.acts.get(index) else { return };
        let Some(known) = self.scene.known.and(&self.step.only) else { return };
        let scene = Scene { known: &known, at_bench: true, ..self.scene };
        if act.thing().and_then(|thing| scene.scope().head(thing)).is_some_and(|head| !head.only.agrees_with(&known)) {
            return;
        }
        if let Some(reset) = scene.reset_line(act, self.wrenches) {
            self.rows.push(SheetRow { kind: "reset", text: Markup::text(&reset), ..SheetRow::default() });
        }
        let drawings = self.drawings.remove(&index).unwrap_or_default();
        self.rows.push(SheetRow { drawings, ..scene.sheet_row(self.step, index, act) });
    }
}

impl Scene<'_> {
    fn sheet_row(&self, step: &Step, index: usize, act: &Act) -> SheetRow {
        let kind = match act.verb {
            Some(Verb::Tool) => "tool",
            Some(Verb::Hold) => "hold",
            Some(Verb::Sign) => "sign",
            Some(Verb::Stop) => "stop",
            _ => "act",
        };
        let told = self.told(act);
        let mut row = SheetRow {
            kind,
            text: Markup::text(&capitalised(&act.words)),
            name: if kind == "tool" { act.thing().map(|thing| self.name(thing)) } else { self.name_beside(act) },
            people: self.people(act),
            faults: self.site.faults.at(&act.place),
            number: format!("{}.{}", step.number, index + 1),
            lines: told.lines,
            details: told.details.into_iter().map(|detail| detail.text).collect(),
            ..SheetRow::default()
        };
        for thing in &act.things {
            match (thing.kind, act.verb) {
                (ListKind::Fasteners, Some(Verb::Torque)) => {
                    if let Some(entry) = self.scope().thing(|l| &l.fasteners, thing) {
                        self.grid(&entry.what, act, &mut row);
                        row.set_by = entry.what.critical;
                    }
                }
                (ListKind::Measures, Some(Verb::Measure)) => self.blanks(thing, &mut row),
                _ => {}
            }
        }
        row
    }

    /// Stages against positions, for a group that is tightened in stages or one stage at a time.
    fn grid(&self, fastener: &Fastener, act: &Act, row: &mut SheetRow) {
        let positions = self.positions(fastener);
        let staged = row.lines.len() > 1 && !fastener.torque.cases.iter().any(|case| case.value.stages().len() < 2);
        if positions.len() < 2 || !(staged || act.stage.is_some()) {
            return;
        }
        // Bands of equal length: six and six rather than ten and two.
        let bands = positions.len().div_ceil(BAND).max(1);
        row.grid = positions.chunks(positions.len().div_ceil(bands)).map(|chunk| Band { positions: chunk.to_vec(), stages: row.lines.clone() }).collect();
        row.lines.clear();
        // The grid's columns are the order.
        let order = self.order_text(fastener);
        row.details.retain(|detail| Some(detail) != order.as_ref());
    }

    fn blanks(&self, thing: &crate::manual::ThingRef, row: &mut SheetRow) {
        let Some(entry) = self.scope().thing(|l| &l.measures, thing) else { return };
        let count = cases(&entry.what.count, self.known).first().map_or(1, |(_, count)| **count);
        row.blanks = if count <= 1 {
            vec![String::new()]
        } else {
            (1..=count.min(MOST_BLANKS)).map(|n| n.to_string()).collect()
        };
        for (_, id) in cases(&entry.what.chooses, self.known) {
            let formula = self.scope().entry(|l| &l.shims, id).and_then(|shim| self.shim_formula(&shim.what));
            row.results.extend(formula.map(|formula| format!("{formula} =")));
            row.results.push(self.site.say("sheet-shim"));
        }
    }

    /// Parts, materials or tools in one line of text.
    pub(super) fn items_text(&self, items: &[Item]) -> Vec<String> {
        items
            .iter()
            .map(|item| {
                let name: Vec<&str> = item.count.as_deref().into_iter().chain([item.name.text.as_str()]).collect();
                let details: Vec<&str> = item.details.iter().map(String::as_str).filter(|d| !d.is_empty()).collect();
                if details.is_empty() { name.join(" ") } else { format!("{} ({})", name.join(" "), details.join(", ")) }
            })
            .collect()
    }
}

impl Inserts for SheetProse<'_> {
    fn act(&self, _index: usize, words: &Markup) -> Result<Markup, PageError> {
        Ok(words.clone())
    }

    fn after(&self, _acts: &[usize]) -> Result<Markup, PageError> {
        Ok(Markup::default())
    }

    fn see(&self, target: &str, words: &Markup) -> Result<Markup, PageError> {
        let mut out = words.clone();
        if let Some(place) = self.scene.see_words(target) {
            out.push_text(&format!(" ({place})"));
        }
        Ok(out)
    }

    fn picture(&self, picture: &PictureText) -> Result<Markup, PageError> {
        let caption = if picture.caption.is_empty() { &picture.alternative } else { &picture.caption };
        Ok(Markup::text(&self.scene.say("sheet-picture", &[("caption", Arg::Text(caption))])))
    }

    fn notice(&self, notice: &Notice, text: &Markup) -> Result<Markup, PageError> {
        self.scene.notice(notice, text)
    }

    fn code(&self, _language: &str, text: &str) -> Markup {
        highlight::code_block("", text)
    }

    fn footnote(&self, name: &str) -> Markup {
        let mut out = Markup::default();
        if let Some(position) = self.scene.procedure.and_then(|p| p.footnotes.iter().position(|(known, _)| known == name)) {
            out.push_tag("<sup>");
            out.push_text(&(position + 1).to_string());
            out.push_tag("</sup>");
        }
        out
    }

    fn heading_level(&self) -> u8 {
        3
    }

    fn scroll_label(&self) -> String {
        self.scene.site.say("scroll-table")
    }
}

impl Scene<'_> {
    /// Where a cross-link leads, in words for paper: a procedure's title and the number of its step.
    fn see_words(&self, target: &str) -> Option<String> {
        let (path, step) = target.split_once('#').map_or((target, None), |(path, step)| (path, Some(step)));
        let (title, number) = match path.split_once('/') {
            Some((other, id)) if other != self.machine.id => {
                let outline = self.site.input.manual.outline(other)?;
                let procedure = outline.procedure(id)?;
                (format!("{}, {}", outline.name, procedure.title), step.and_then(|step| procedure.number(step)))
            }
            found => {
                let id = found.map_or(path, |(_, id)| id);
                let procedure = if id.is_empty() { self.procedure? } else { self.machine.procedure(id)? };
                (procedure.title.clone(), step.and_then(|step| procedure.step(step)).map(|step| step.number))
            }
        };
        Some(match number {
            Some(number) => self.say("step-of", &[("procedure", Arg::Text(&title)), ("number", Arg::Count(super::rows::count(number)))]),
            None => title,
        })
    }
}

fn acts_of(blocks: &[Block], acts: &mut Vec<usize>) {
    for block in blocks {
        match block {
            Block::Paragraph(content) | Block::Heading(_, content) => acts.extend(html::acts_in(content)),
            Block::List(_, items) => items.iter().for_each(|item| acts_of(item, acts)),
            Block::Table(table) => table.rows.iter().flatten().for_each(|cell| acts.extend(html::acts_in(cell))),
            Block::Quote(inner) => acts_of(inner, acts),
            Block::Notice(notice) => acts_of(&notice.blocks, acts),
            Block::Code(..) | Block::Rule => {}
        }
    }
}

/// Words with a capital at their head.
pub(super) fn capitalised(words: &str) -> String {
    let mut characters = words.chars();
    match characters.next() {
        Some(first) => first.to_uppercase().chain(characters).collect(),
        None => String::new(),
    }
}
